//! What the words promise about the bread: free of something, healthy, famous; and advice that harms.

use super::sentences::phrase;
use super::{Case, Rule};
use crate::code;
use crate::prose::{Passage, words};
use recipe::formula::Resolved;
use recipe::larder::{Ingredient, Role};
use recipe::source::Diagnostic;
use std::ops::Range;

pub const RULES: &[Rule] = &[free_of, praises, origins];

/// A claim in words and the ingredients that break it.
type Claim = (&'static [&'static str], fn(&Ingredient) -> bool);

fn allergen(ingredient: &Ingredient, name: &str) -> bool {
    let all = ingredient
        .allergens_eu
        .iter()
        .chain(&ingredient.allergens_us);
    all.into_iter().any(|allergen| {
        allergen == name
            || allergen.starts_with(&format!("{name}:"))
            || allergen.starts_with(&format!("{name} "))
    })
}

fn gluten(one: &Ingredient) -> bool {
    allergen(one, "gluten") || allergen(one, "wheat")
}

fn milk(one: &Ingredient) -> bool {
    allergen(one, "milk")
}

fn egg(one: &Ingredient) -> bool {
    one.role == Role::Egg || allergen(one, "egg") || allergen(one, "eggs")
}

fn nuts(one: &Ingredient) -> bool {
    ["nuts", "tree nut", "peanut", "peanuts"]
        .iter()
        .any(|name| allergen(one, name))
}

fn meat(one: &Ingredient) -> bool {
    [
        "lard",
        "tallow",
        "gelatin",
        "bacon",
        "ham",
        "sausage",
        "pepperoni",
        "anchov",
    ]
    .iter()
    .any(|word| one.name.to_lowercase().contains(word))
}

fn of_animals(one: &Ingredient) -> bool {
    milk(one) || egg(one) || meat(one) || one.key == "honey"
}

fn wheat(one: &Ingredient) -> bool {
    allergen(one, "wheat") || allergen(one, "gluten: wheat")
}

fn sugar(one: &Ingredient) -> bool {
    one.role == Role::Sugar
}

fn yeast(one: &Ingredient) -> bool {
    matches!(one.role, Role::Yeast(_))
}

fn salt(one: &Ingredient) -> bool {
    one.role == Role::Salt
}

fn fat(one: &Ingredient) -> bool {
    one.role == Role::Fat
}

const CLAIMS: [Claim; 11] = [
    (
        &[
            "gluten-free",
            "gluten free",
            "free of gluten",
            "free from gluten",
            "without gluten",
            "no gluten",
        ],
        gluten,
    ),
    (&["wheat-free", "wheat free", "without wheat"], wheat),
    (
        &[
            "dairy-free",
            "dairy free",
            "milk-free",
            "lactose-free",
            "lactose free",
            "without dairy",
            "no dairy",
        ],
        milk,
    ),
    (
        &["egg-free", "egg free", "eggless", "without eggs", "no eggs"],
        egg,
    ),
    (
        &[
            "nut-free",
            "nut free",
            "without nuts",
            "free of nuts",
            "free from nuts",
            "no nuts",
        ],
        nuts,
    ),
    (&["vegan", "plant-based"], of_animals),
    (&["vegetarian"], meat),
    (
        &[
            "sugar-free",
            "sugar free",
            "no added sugar",
            "without sugar",
            "no sugar",
        ],
        sugar,
    ),
    (&["fat-free", "fat free", "oil-free"], fat),
    (&["salt-free", "without salt"], salt),
    (&["yeast-free", "without yeast"], yeast),
];

/// Everything that goes in.
pub fn ingredients<'a>(case: &'a Case) -> Vec<&'a Ingredient> {
    case.inputs
        .formula
        .every_item()
        .filter_map(|item| match &item.what {
            Resolved::Ingredient(ingredient) => Some(ingredient.as_ref()),
            _ => None,
        })
        .collect()
}

/// Passages in which claims are made: title, film, headnote, notes and what a photograph shows.
pub fn praise<'a>(case: &'a Case) -> impl Iterator<Item = &'a Passage<'a>> {
    case.passages.iter().filter(|passage| passage.of.is_none())
}

/// Whether "not", "never" or the like stands within three words before.
pub fn denied(passage: &Passage, part: &Range<usize>) -> bool {
    words(&passage.words[..part.start])
        .iter()
        .rev()
        .take(3)
        .any(|(_, word)| {
            [
                "not", "never", "isn't", "isn’t", "cannot", "can't", "can’t", "neither", "nor",
                "don't", "don’t",
            ]
            .contains(&word.to_lowercase().as_str())
        })
}

fn free_of(case: &Case) -> Vec<Diagnostic> {
    let all = ingredients(case);
    let mut found = Vec::new();
    for passage in praise(case) {
        for (claims, breaks) in CLAIMS {
            let said = claims
                .iter()
                .find_map(|claim| phrase(&passage.words, claim));
            let Some(part) = said.filter(|part| !denied(passage, part)) else {
                continue;
            };
            let shown = &passage.written[part.clone()];
            let span = passage.at(&part);
            found.push(match all.iter().find(|one| breaks(one)) {
                Some(broken) => Diagnostic::at(
                    code::CLAIM_AGAINST_INGREDIENTS,
                    span,
                    format!("“{shown}” is said of a bread that holds {}. Whoever trusts it may fall ill.", broken.name),
                )
                .hint("Take the claim out, or the ingredient."),
                // Of flour, water, salt and yeast that may be said.
                None if ["vegan", "vegetarian", "plant-based"]
                    .contains(&shown.to_lowercase().as_str()) =>
                {
                    continue;
                }
                None => Diagnostic::at(
                    code::CLAIM_NOT_SUPPORTED,
                    span,
                    format!("“{shown}” is a claim that laws define; the list alone does not show it, for packs and kitchens bring traces."),
                )
                .hint("Say what is in the bread and what is not: \"there is no egg in it\". For a claim ask someone licensed."),
            });
        }
    }
    found
}

/// Praise of its effect on the body, which law wants shown.
const HEALTH: [&str; 16] = [
    "healthy",
    "healthier",
    "health benefits",
    "good for you",
    "guilt-free",
    "superfood",
    "low-fat",
    "low in fat",
    "low in sugar",
    "low-carb",
    "high in fibre",
    "high in fiber",
    "high in protein",
    "detox",
    "easier to digest",
    "boosts",
];

fn praises(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for passage in praise(case) {
        let said = HEALTH
            .iter()
            .find_map(|claim| phrase(&passage.words, claim));
        let Some(part) = said.filter(|part| !denied(passage, part)) else {
            continue;
        };
        found.push(
            Diagnostic::at(
                code::CLAIM_NOT_SUPPORTED,
                passage.at(&part),
                format!(
                    "“{}” says what the bread does to a body; nothing in the recipe shows it, and food law defines such words.",
                    &passage.written[part.clone()]
                ),
            )
            .hint("Say what is in it: \"a third of the flour is wholemeal\"."),
        );
    }
    found
}

/// What is told as a fact and can be asked about.
const TOLD: [&str; 18] = [
    "only works with",
    "the only way",
    "traditional",
    "traditionally",
    "authentic",
    "centuries",
    "the original recipe",
    "invented by",
    "invented in",
    "was born in",
    "dates back",
    "never fails",
    "foolproof",
    "always works",
    "scientifically",
    "proven to",
    "the best",
    "for generations",
];

/// "keeps the crumb moist" where days or a reason follow.
fn keeps(text: &str) -> Option<Range<usize>> {
    let all = words(text);
    let place = all
        .iter()
        .position(|(_, word)| ["keeps", "keep"].contains(&word.to_lowercase().as_str()))?;
    let (end, word) = all[place + 1..]
        .iter()
        .take(4)
        .find(|(_, word)| ["moist", "soft", "fresh"].contains(&word.to_lowercase().as_str()))?;
    let rest = text[end + word.len()..].to_lowercase();
    ["for days", "for a week", "because", "longer"]
        .iter()
        .any(|words| rest.trim_start_matches([',', ' ']).starts_with(words))
        .then_some(all[place].0..end + word.len())
}

fn origins(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for passage in case.passages.iter().filter(|passage| !passage.is_photo()) {
        let said = TOLD
            .iter()
            .find_map(|claim| phrase(&passage.words, claim))
            .or_else(|| keeps(&passage.words));
        let Some(part) = said.filter(|part| !denied(passage, part)) else {
            continue;
        };
        // Who says so stands beside it.
        let sourced = ["according to", "says ", "writes ", "http"]
            .iter()
            .any(|word| passage.words.to_lowercase().contains(word));
        if sourced {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::CLAIM_WITHOUT_SOURCE,
                passage.at(&part),
                format!(
                    "“{}” is told as a fact, and nobody is named who says so.",
                    &passage.written[part.clone()]
                ),
            )
            .hint("Name the source, or say what you have seen: \"ours keeps soft for two days\"."),
        );
    }
    found
}
