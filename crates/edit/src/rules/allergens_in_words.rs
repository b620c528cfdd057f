//! A list of allergens in the author's words against the one that is reckoned from what goes in.

use super::claims::praise;
use super::sentences::phrase;
use super::{Case, Rule};
use crate::code;
use crate::prose::sentences;
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[allergens];

/// Names of allergens by which a sentence lists them, and how the ledger calls each.
const ALLERGENS: [(&str, &str); 22] = [
    ("wheat", "wheat"),
    ("gluten", "gluten"),
    ("milk", "milk"),
    ("dairy", "milk"),
    ("egg", "egg"),
    ("eggs", "egg"),
    ("almond", "almond"),
    ("almonds", "almond"),
    ("walnut", "walnut"),
    ("walnuts", "walnut"),
    ("hazelnut", "hazelnut"),
    ("hazelnuts", "hazelnut"),
    ("pecan", "pecan"),
    ("pecans", "pecan"),
    ("pistachio", "pistachio"),
    ("pistachios", "pistachio"),
    ("peanut", "peanut"),
    ("peanuts", "peanut"),
    ("sesame", "sesame"),
    ("soy", "soy"),
    ("rye", "rye"),
    ("barley", "barley"),
];

/// The allergens that a sentence lists after "contains"; none when it is about something else.
fn listed(sentence: &str) -> Option<Vec<&'static str>> {
    let part = phrase(sentence, "contains").or_else(|| phrase(sentence, "contain"))?;
    let after = &sentence[part.end..];
    let mut named: Vec<&str> = ALLERGENS
        .iter()
        .filter(|(word, _)| phrase(after, word).is_some())
        .map(|(_, name)| *name)
        .collect();
    named.dedup();
    (!named.is_empty()).then_some(named)
}

/// The last word of an allergen's legal name: "tree nut: almond" is almond.
fn short(name: &str) -> String {
    let last = name.rsplit([':', ' ']).find(|word| !word.is_empty());
    let word = last.unwrap_or(name).trim_matches(['(', ')']).to_lowercase();
    word.strip_suffix('s').unwrap_or(&word).to_owned()
}

/// A list of allergens in words against the one that is reckoned from what goes in.
fn allergens(case: &Case) -> Vec<Diagnostic> {
    let reckoned: Vec<String> = case
        .ledger
        .allergens
        .us
        .iter()
        .map(|name| short(name))
        .collect();
    let mut found = Vec::new();
    for passage in praise(case) {
        for sentence in sentences(&passage.words) {
            let own = &passage.words[sentence.clone()];
            let Some(named) = listed(own) else { continue };
            let missing: Vec<&String> = reckoned
                .iter()
                .filter(|name| !named.contains(&name.as_str()))
                .collect();
            let strange = named
                .iter()
                .find(|name| **name != "gluten" && !reckoned.iter().any(|own| own == *name));
            let span = strange
                .and_then(|name| phrase(own, name))
                .map_or(sentence.clone(), |part| {
                    sentence.start + part.start..sentence.start + part.end
                });
            let what = match (missing.first(), strange) {
                (Some(missing), _) => format!("leaves out {missing}"),
                (None, Some(strange)) => format!("names {strange}, which does not go in"),
                (None, None) => continue,
            };
            found.push(
                Diagnostic::at(
                    code::ALLERGENS_DIFFER,
                    passage.at(&span),
                    format!("This list of allergens {what}; whoever trusts it may fall ill."),
                )
                .hint("Leave the list to the page, which reckons it from what goes in, down to the kind of nut.")
                .because(format!("Reckoned: {}.", reckoned.join(", "))),
            );
        }
    }
    found
}
