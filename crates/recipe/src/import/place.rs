//! For what a thing of a sentence is: bench, tin or top, and from where on there are pieces.

use super::act::{Act, act};
use crate::document::model::Place;
use crate::measure::read::sentence::tokens;

/// From which byte of a sentence on there are pieces: it divides or shapes the dough.
pub fn shapes(sentence: &str) -> Option<usize> {
    let all = tokens(sentence);
    let work = matches!(act(&all), Some(Act::Divide | Act::Shape))
        || all.iter().any(|token| token.word() == "divide");
    let token = all.iter().find(|token| {
        matches!(
            token.word(),
            "divide" | "shape" | "form" | "plait" | "braid" | "cut" | "roll" | "make"
        )
    })?;
    let into = all.iter().any(|token| {
        matches!(
            token.word(),
            "loaf"
                | "loaves"
                | "buns"
                | "rolls"
                | "balls"
                | "ball"
                | "pieces"
                | "ropes"
                | "rope"
                | "rounds"
                | "strands"
                | "parts"
                | "portions"
                | "dough"
                | "ring"
                | "plaits"
                | "braids"
                | "wreath"
                | "into"
                | "in"
        )
    });
    (work && into).then_some(token.span.start)
}

/// For what a thing is, from the clause around it.
pub fn place(text: &str, start: usize, end: usize, pieces: bool) -> Option<Place> {
    let lower = text.to_lowercase();
    // Lower case may move bytes in rare scripts; then nothing is said.
    if lower.len() != text.len() {
        return None;
    }
    let before = lower[..start].rsplit(['.', ';']).next().unwrap_or("");
    let after = lower[end..].split(['.', ';']).next().unwrap_or("");
    let clause = after.split([',']).next().unwrap_or("");
    if [
        "over the top",
        "on top",
        "over the loaf",
        "over the loaves",
        "over the buns",
        "over the rolls",
        "onto the top",
    ]
    .iter()
    .any(|words| after.contains(words))
        || before.contains("brush")
        || pieces && after.contains("brush")
    {
        return Some(Place::Top);
    }
    if before.contains("dust the")
        || before.contains("flour the")
        || [
            "for dusting",
            "on the bench",
            "on the worktop",
            "on the work surface",
        ]
        .iter()
        .any(|words| after.contains(words))
    {
        return Some(Place::Bench);
    }
    if before.contains("grease")
        || [
            "into a tin",
            "into the tin",
            "in the tin",
            "into a pan",
            "into the pan",
            "into a tray",
            "onto a tray",
            "into a baking",
            "over the tray",
            "for the tin",
            "for greasing",
        ]
        .iter()
        .any(|words| clause.contains(words))
    {
        return Some(Place::Tin);
    }
    // What goes in when there are pieces goes onto them.
    pieces.then_some(Place::Top)
}
