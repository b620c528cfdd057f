//! Whether the figures hang on the recipe's own tested bakes, and what those had to say.

use super::model::Told;
use super::reckoned::Place;
use super::safety::figure;
use crate::ledger::say;
use bake::simulate::{Compared, Course};
use numerics::quantity::Fraction;
use recipe::document::model::Recipe;

/// A sentence on it, what was moved, and each tested figure beside the same one worked out.
pub fn tested(recipe: &Recipe, course: &Course) -> Vec<Told> {
    let anchored = &course.anchored;
    if anchored.bakes == 0 {
        let sentence = if recipe.tested.is_empty() {
            "Not tested yet: these are reckoned, not measured."
        } else {
            "These are reckoned, not measured; its tested bakes note nothing that they could be held against."
        };
        return vec![Told::plain(sentence)];
    }
    let mut all = vec![Told::plain(
        "These are reckoned, and held against the recipe’s own tested bakes (below).",
    )];
    all.extend(anchored.moved.iter().map(Told::plain));
    let place = format!("happens.{}.tested", course.kitchen);
    all.extend(
        anchored
            .compared
            .iter()
            .enumerate()
            .map(|(at, one)| compared(one, &Place(format!("{place}.{}", at + 1)))),
    );
    all
}

/// The same in one sentence, for a page.
pub fn in_short(recipe: &Recipe, course: &Course) -> &'static str {
    let all_met = course.anchored.compared.iter().all(|one| one.met);
    match (course.anchored.bakes, recipe.tested.is_empty(), all_met) {
        (0, true, _) => "Not tested yet: it is reckoned, not measured.",
        (0, false, _) => "It is reckoned, not measured.",
        (_, _, true) => "It is held against the author’s tested bakes, and meets them.",
        (_, _, false) => {
            "It is held against the author’s tested bakes, and does not meet all of them."
        }
    }
}

fn compared(one: &Compared, place: &Place) -> Told {
    let said = |value: f64, what: &str| {
        if one.unit == "1" {
            let shown = say::percent(Fraction::from_si(numerics::decimal::round_to(value, 0.001)));
            place.figure(what, value, "1", shown)
        } else {
            figure(place, what, value, one.unit)
        }
    };
    let (measured, here) = (said(one.tested, "measured"), said(one.worked_out, "here"));
    let verdict = if one.met { "they agree" } else { "not met" };
    Told {
        step: None,
        sentence: say::capital(&format!(
            "{}: tested {}, worked out {}: {verdict}.",
            one.what, measured.shown, here.shown
        )),
        figures: vec![measured, here],
        source: None,
    }
}
