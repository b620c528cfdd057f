//! How many pieces of a weight are scaled: "six at 155", "in four, a hundred and fifty-five each".

use super::Verdict;
use super::amounts::masses;
use super::counts::{bread, dividing, pieces_of};
use crate::talk::heard::Heard;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// A weight stands within so many words behind its number of pieces.
const WEIGHT_WORDS: usize = 4;

/// A piece is of a bread when it weighs what that bread's pieces weigh, to this share; our own choice.
const SAME_PIECE: f64 = 0.02;

/// "Six at 155": a number of pieces of which the weight is said, held against the bread whose pieces weigh so much.
pub(super) fn scaled(heard: &Heard, at: usize) -> Option<Verdict> {
    let figure = &heard.speech.figures[at];
    let weight = heard.speech.figures.get(at + 1)?;
    let words = &heard.speech.words;
    let lower = |n: usize| words.get(n).map_or("", |word| word.lower.as_str());
    let between = words.get(figure.end..weight.first)?;
    if between.len() > WEIGHT_WORDS || weight.sentence != figure.sentence {
        return None;
    }
    let passes = between.iter().all(|word| {
        matches!(
            word.lower.as_str(),
            "at" | "of" | "the" | "about" | "roughly" | "weighing" | "and" | "they're"
        ) || matches!(
            word.stem.as_str(),
            "piec" | "lump" | "ball" | "bit" | "portion" | "strip" | "rop" | "chunk"
        )
    });
    let led = between
        .iter()
        .any(|word| matches!(word.lower.as_str(), "at" | "of" | "weighing" | "they're"));
    let before = figure.first.checked_sub(1).map_or("", lower);
    let each = (0..2).any(|n| matches!(lower(weight.end + n), "each" | "apiece"));
    let parted = between.is_empty() && matches!(before, "in" | "into") && each;
    let weighed = match weight.spoken.meant {
        Meant::Mass(_) => true,
        Meant::Number(low, _) => (led || parted) && low >= LIGHTEST_G,
        _ => false,
    };
    let of_thing = heard
        .mentions_in(weight.end, weight.end + 3)
        .iter()
        .any(|mention| heard.things[mention.things[0]].sort == Of::Ingredient);
    if !passes || !(led || parted) || !weighed || of_thing {
        return None;
    }
    let (low, high) = masses(&weight.spoken, None)?;
    let recipe = heard.inputs.recipe;
    let of = |part: f64| low <= part * (1.0 + SAME_PIECE) && high >= part * (1.0 - SAME_PIECE);
    let (product, part) = recipe
        .products
        .iter()
        .enumerate()
        .find_map(|(at, product)| {
            let part = product.piece.value.iter().find(|part| of(part.mass.si()))?;
            Some((at, part.count * product.count.value))
        })?;
    let said = figure.spoken.low;
    (part > 1 && said >= 2.0).then(|| pieces_of(heard, figure, recipe.stages.len() + product))
}

/// A number alone is a weight in grams from so many on.
const LIGHTEST_G: f64 = 30.0;

/// "And rolls: nine": a bread and a number, and nothing else, where the dough is divided.
pub(super) fn named(heard: &Heard, at: usize) -> Option<Verdict> {
    let figure = &heard.speech.figures[at];
    let (first, end) = heard.speech.sentences[figure.sentence];
    let mention = heard.mentions_in(first, figure.first).last()?;
    let section = mention
        .things
        .iter()
        .find_map(|thing| bread(heard, *thing))?;
    let alone = figure.end >= end && mention.end == figure.first && mention.first <= first + 1;
    (dividing(heard, figure) && alone && figure.spoken.low <= MOST_PIECES)
        .then(|| pieces_of(heard, figure, section))
}

/// More pieces than this nobody counts out loud.
const MOST_PIECES: f64 = 60.0;
