//! What a viewer would need and is never told: ingredients, amounts, steps, heats, times, allergens, cautions.

use super::code;
use super::doing::Doing;
use super::facts::{Fact, Fine, Sort};
use super::finding::{Finding, Kind};
use super::heard::Heard;
use super::hold::Verdict;
use super::things::Sort as Of;
use crate::ledger::model::{Ledger, Run};
use crate::ledger::say;

/// Everything that is never said, in the order of the recipe.
pub(super) fn unsaid(heard: &Heard, ledger: &Ledger, verdicts: &[Verdict]) -> Vec<Finding> {
    let said: Vec<usize> = verdicts
        .iter()
        .filter_map(|verdict| match verdict {
            Verdict::Agrees(fact) | Verdict::Differs(fact) => Some(*fact),
            Verdict::Aside => None,
        })
        .collect();
    let mut found = names(heard);
    found.extend(amounts(heard, &said));
    found.extend(steps(heard, ledger, &said));
    found.extend(allergens(heard, ledger));
    found.extend(cautions(heard, ledger));
    found
}

fn mentioned(heard: &Heard, thing: usize) -> bool {
    heard
        .mentions
        .iter()
        .any(|mention| mention.things[0] == thing)
}

/// Ingredients that are never named.
fn names(heard: &Heard) -> Vec<Finding> {
    let title = super::things::stems(&heard.inputs.recipe.title.value);
    let mut found = Vec::new();
    for (place, thing) in heard.things.iter().enumerate() {
        if thing.sort != Of::Ingredient || mentioned(heard, place) {
            continue;
        }
        let facts: Vec<&Fact> = heard
            .facts
            .iter()
            .filter(|fact| {
                fact.thing == Some(place) && fact.sort == Sort::Amount && !fact.only_allowed
            })
            .collect();
        let own: Vec<String> = facts.iter().map(|fact| fact.shown.clone()).collect();
        let amounts = say::list(&own);
        let in_title = super::things::stems(&thing.name)
            .iter()
            .any(|word| title.contains(word));
        let weight = if in_title {
            ", and the title promises it"
        } else {
            ""
        };
        let message = format!(
            "{} is never named{weight}; the recipe has {amounts}.",
            say::capital(&thing.name)
        );
        let first = own.first().cloned().unwrap_or_default();
        found.push(
            Finding::of_nothing(Kind::Unsaid, code::TALK_NEVER_NAMES, &thing.name, message)
                .instead(Some(format!("{first} of {}.", thing.name)))
                .about(facts.iter().map(|fact| fact.path.clone())),
        );
    }
    found
}

/// Amounts that are never said of what is named.
fn amounts(heard: &Heard, said: &[usize]) -> Vec<Finding> {
    let counted = |fact: &Fact| {
        heard.facts.iter().enumerate().any(|(at, other)| {
            other.sort == Sort::Count
                && other.thing == fact.thing
                && (other.section == fact.section || other.only_allowed)
                && said.contains(&at)
        })
    };
    // What lies on the bench is in no sum of a dough's flour.
    let in_all = |fact: &Fact| {
        !fact.path.starts_with("besides/")
            && heard.facts.iter().enumerate().any(|(at, other)| {
                other.sort == Sort::Amount
                    && other.thing == fact.thing
                    && other.only_allowed
                    && said.contains(&at)
            })
    };
    heard
        .facts
        .iter()
        .enumerate()
        .filter(|(at, fact)| {
            fact.sort == Sort::Amount
                && !fact.only_allowed
                && !said.contains(at)
                && fact.thing.is_some_and(|thing| {
                    heard.things[thing].sort == Of::Ingredient && mentioned(heard, thing)
                })
                && !counted(fact)
                && !in_all(fact)
        })
        .map(|(_, fact)| {
            let message = format!("{} of {}: the amount is never said.", fact.shown, fact.what);
            Finding::of_nothing(Kind::Unsaid, code::TALK_LEAVES_OUT, &fact.what, message)
                .instead(Some(format!("{} of {}.", fact.shown, fact.what)))
                .about([fact.path.clone()])
        })
        .collect()
}

/// Steps that are never told, and what is not said of those that are.
fn steps(heard: &Heard, ledger: &Ledger, said: &[usize]) -> Vec<Finding> {
    let lines: Vec<String> = ledger
        .sections
        .iter()
        .flat_map(|section| &section.steps)
        .map(|step| {
            step.runs
                .iter()
                .map(|run| match run {
                    Run::Words(words) => words.as_str(),
                    Run::Figure(figure) => figure.shown.as_str(),
                })
                .collect()
        })
        .collect();
    let mut found = Vec::new();
    for place in &heard.places {
        let own: Vec<(usize, &Fact)> = heard
            .facts
            .iter()
            .enumerate()
            .filter(|(_, fact)| fact.step == Some(place.number) && !fact.only_allowed)
            .filter(|(_, fact)| {
                matches!(fact.sort, Sort::Time | Sort::Heat) && fact.thing.is_none()
            })
            .collect();
        let told = heard
            .walk
            .iter()
            .any(|(step, told)| *told && *step == place.number)
            || own.iter().any(|(at, _)| said.contains(at));
        let where_ = format!("step {} of the {}", place.number + 1, place.of);
        let sentence = lines.get(place.number).cloned().unwrap_or_default();
        if !told {
            let message = format!("{} is never told: “{sentence}”", say::capital(&where_));
            found.push(
                Finding::of_nothing(Kind::Unsaid, code::TALK_LEAVES_OUT, &where_, message)
                    .instead(Some(sentence))
                    .about([place.path()]),
            );
            continue;
        }
        let missing: Vec<String> = own
            .iter()
            .filter(|(at, fact)| {
                wanted(fact) && !said.contains(at) && !said_alike(heard, fact, said)
            })
            .map(|(_, fact)| {
                let of = format!(" of the {}", place.of);
                let what = fact.what.strip_suffix(of.as_str()).unwrap_or(&fact.what);
                format!("{} for {what}", fact.shown)
            })
            .collect();
        if !missing.is_empty() {
            let message = format!(
                "{} leaves out {}.",
                say::capital(&where_),
                say::list(&missing)
            );
            found.push(
                Finding::of_nothing(Kind::Unsaid, code::TALK_LEAVES_OUT, &where_, message)
                    .instead(Some(sentence))
                    .about([place.path()]),
            );
        }
    }
    found
}

/// Whether a viewer needs a figure: not when to look first, nor what the author's own sentence says besides.
fn wanted(fact: &Fact) -> bool {
    !fact.doing.meets(Doing::CHECK) && !fact.what.starts_with('“')
}

/// Whether a figure of the same value was said for the same part, or for the same oven.
fn said_alike(heard: &Heard, fact: &Fact, said: &[usize]) -> bool {
    said.iter().any(|at| {
        let other = &heard.facts[*at];
        other.sort == fact.sort
            && (other.usual - fact.usual).abs() < 1e-9
            && (other.section == fact.section || fact.sort == Sort::Heat && fact.fine == Fine::Dial)
    })
}

/// The allergens, when nothing is said of them.
fn allergens(heard: &Heard, ledger: &Ledger) -> Option<Finding> {
    let words = &heard.speech.words;
    let named = ledger.allergens.us.is_empty() && ledger.allergens.eu.is_empty();
    let said = words.iter().any(|word| word.lower.starts_with("allerg"))
        || words.windows(8).any(|eight| {
            matches!(eight[0].lower.as_str(), "contains" | "contain")
                && eight[1..].iter().any(|word| {
                    ledger
                        .allergens
                        .us
                        .iter()
                        .chain(&ledger.allergens.eu)
                        .any(|name| name.contains(&word.lower) && word.lower.len() > 2)
                })
        });
    let plainly = (0..heard.speech.sentences.len()).any(|sentence| {
        let (first, end) = heard.speech.sentences[sentence];
        let has = |all: &[&str]| {
            words[first..end]
                .iter()
                .any(|word| all.contains(&word.lower.as_str()))
        };
        has(&[
            "gluten", "wheat", "nuts", "nut", "dairy", "coeliac", "celiac", "coeliacs", "egg",
            "milk",
        ]) && has(&[
            "anybody", "anyone", "guests", "someone", "people", "coeliac", "coeliacs", "celiac",
        ]) && has(&[
            "not", "can't", "avoid", "keep", "off", "careful", "warn", "ask", "isn't",
        ])
    });
    if said || plainly || named {
        return None;
    }
    let message = format!(
        "The allergens are never said. {}",
        ledger.allergens.contains
    );
    Some(
        Finding::of_nothing(
            Kind::Caution,
            code::TALK_ALLERGENS_UNSAID,
            "allergens",
            message,
        )
        .instead(Some(ledger.allergens.contains.clone()))
        .about(["allergens".to_owned()])
        .hint("Packs differ: say that viewers read their own."),
    )
}

/// Which words show that a caution is said, by how the caution begins.
const SIGNS: [(&str, &[&str]); 3] = [
    ("Raw", &["raw"]),
    (
        "Honey",
        &["infant", "infants", "baby", "babies", "toddler", "toddlers"],
    ),
    ("Steam", &["steam", "scald", "burn", "burns"]),
];

/// Cautions that the recipe calls for and the talk leaves out.
fn cautions(heard: &Heard, ledger: &Ledger) -> Vec<Finding> {
    let words = &heard.speech.words;
    let warns = |at: usize| {
        // Steam alone is no caution: something must be said of standing aside, gloves or burning.
        words[at.saturating_sub(10)..(at + 11).min(words.len())]
            .iter()
            .any(|word| {
                matches!(
                    word.lower.as_str(),
                    "careful"
                        | "back"
                        | "aside"
                        | "side"
                        | "away"
                        | "gloves"
                        | "glove"
                        | "mitts"
                        | "burn"
                        | "burns"
                        | "scald"
                        | "face"
                        | "mind"
                        | "watch"
                )
            })
    };
    ledger
        .cautions
        .iter()
        .filter_map(|caution| {
            let (start, signs) = SIGNS
                .iter()
                .find(|(start, _)| caution.text.starts_with(start))?;
            let said = words.iter().enumerate().any(|(at, word)| {
                signs.contains(&word.lower.as_str()) && (*start != "Steam" || warns(at))
            });
            if said {
                return None;
            }
            let message = format!(
                "A caution is never said: {} ({})",
                caution.text, caution.source
            );
            Some(
                Finding::of_nothing(Kind::Caution, code::TALK_CAUTION_UNSAID, start, message)
                    .instead(Some(caution.text.clone()))
                    .about([start.to_lowercase()]),
            )
        })
        .collect()
}
