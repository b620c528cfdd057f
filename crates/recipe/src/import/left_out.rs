//! What a baker needs and a text does not say.

use super::act::Act;
use super::clause::{Doing, oven_heats, sentences, times_of};
use super::model::{Line, LineKind, LineUnit};
use super::tin;
use super::work::{dough_heat, place_heat, rises};
use crate::larder::{Larder, Role};

/// What a baker needs and the text does not say.
pub fn left_out(
    lines: &[Line],
    doings: &[Doing],
    made: bool,
    larder: &Larder,
) -> Vec<&'static str> {
    let steps: Vec<&Line> = lines
        .iter()
        .filter(|line| line.kind == LineKind::Step)
        .collect();
    let all: Vec<_> = lines.iter().flat_map(|line| &line.readings).collect();
    let role = |key: &Option<String>| {
        key.as_ref()
            .and_then(|key| larder.by_key(key))
            .map(|one| one.role)
    };
    let weighed = all.iter().any(|reading| {
        let mass = |amount: &Option<super::model::LineAmount>| {
            amount.as_ref().is_some_and(|amount| {
                amount.pieces.iter().any(|piece| {
                    matches!(
                        piece.unit,
                        LineUnit::Gram
                            | LineUnit::Kilogram
                            | LineUnit::Ounce
                            | LineUnit::Pound
                            | LineUnit::Milligram
                    )
                })
            })
        };
        role(&reading.key) == Some(Role::Flour) && (mass(&reading.amount) || mass(&reading.also))
    });
    let yeast_said = lines
        .iter()
        .any(|line| line.text.to_lowercase().contains("yeast"));
    let yeast_known = all
        .iter()
        .any(|reading| matches!(role(&reading.key), Some(Role::Yeast(_))));
    let rise_without = doings.iter().any(|doing| {
        doing.act == Act::Rest
            && rises(&doing.sentence.to_lowercase())
            && times_of(&doing.sentence).is_empty()
    });
    let rests = doings.iter().any(|doing| doing.act == Act::Rest);
    let bakes = doings
        .iter()
        .any(|doing| doing.act == Act::Bake && !times_of(&doing.sentence).is_empty());
    let says_room = |line: &&Line| {
        let lower = line.text.to_lowercase();
        ["room", "kitchen", "place", "rise"]
            .iter()
            .any(|word| lower.contains(word))
            && !lower.contains("refrigerator")
            && place_heat(&line.text).is_some_and(|heat| heat.low.celsius() >= 12.0)
            && dough_heat(&line.text).is_none()
    };
    let checks = [
        (
            "oven temperature",
            steps.iter().all(|line| oven_heats(&line.text).is_empty()),
        ),
        (
            "dough temperature",
            steps.iter().all(|line| {
                sentences(&line.text)
                    .into_iter()
                    .all(|one| dough_heat(one).is_none())
            }),
        ),
        (
            "tin",
            !steps.iter().any(|line| tin::names_vessel(&line.text)),
        ),
        ("flour by weight", !weighed),
        ("yeast form", yeast_said && !yeast_known),
        ("yield", !made),
        ("bake time", !bakes),
        ("rise time", rise_without || !rests),
        ("room temperature", !steps.iter().any(says_room)),
    ];
    checks
        .into_iter()
        .filter(|(_, missing)| *missing)
        .map(|(what, _)| what)
        .collect()
}
