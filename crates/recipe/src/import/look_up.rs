//! Which item of a stage does what in the dough: its yeast, its liquid, the one that a sentence names.

use super::draft::{Item, Stage};
use crate::larder::{Larder, Role};

/// The liquid that a stage has most of, for what is poured warm or cold; the first where weights are
/// not known.
pub fn most_liquid(stage: &Stage, larder: &Larder) -> Option<String> {
    let mut most: Option<(&Item, f64)> = None;
    for item in stage.items() {
        let role = item
            .key
            .as_ref()
            .and_then(|key| larder.by_key(key))
            .map(|one| one.role);
        let grams = item.grams.unwrap_or(0.0);
        if role == Some(Role::Liquid) && most.is_none_or(|(_, before)| grams > before) {
            most = Some((item, grams));
        }
    }
    most.map(|(item, _)| item.name().to_owned())
}

/// The first item of a stage whose ingredient does this in a dough and whose words a sentence holds.
pub fn told_with(
    stage: &Stage,
    larder: &Larder,
    sentence: &str,
    fits: impl Fn(Role) -> bool,
) -> Option<String> {
    let lower = sentence.to_lowercase();
    // What a list put in is known by the last word of its name: "into the lukewarm water".
    let word = |item: &Item| {
        let name = item.name().to_lowercase();
        let last = name.rsplit(' ').next().unwrap_or_default().to_owned();
        !last.is_empty()
            && lower
                .split(|c: char| !c.is_alphanumeric())
                .any(|own| own == last)
    };
    let here = |item: &&Item| match &item.said {
        Some(said) => lower.contains(&said.to_lowercase()),
        None => word(item),
    };
    let role = |item: &Item| Some(larder.by_key(item.key.as_ref()?)?.role);
    stage
        .items()
        .filter(here)
        .find(|item| role(item).is_some_and(&fits))
        .map(|item| item.name().to_owned())
}

/// The first item of a stage whose ingredient does this in a dough.
pub fn first_with(stage: &Stage, larder: &Larder, fits: impl Fn(Role) -> bool) -> Option<String> {
    stage
        .items()
        .find(|item| {
            let role = item
                .key
                .as_ref()
                .and_then(|key| larder.by_key(key))
                .map(|one| one.role);
            role.is_some_and(&fits)
        })
        .map(|item| item.name().to_owned())
}
