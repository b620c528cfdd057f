//! Of what a temperature is, where an ingredient is named with it or was warmed just before.

use crate::talk::facts::{Fact, Sort};
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// A temperature of an ingredient is meant where the ingredient is named.
pub(super) fn of_thing(heard: &Heard, figure: &Figure, fact: &Fact) -> f64 {
    let (first, end) = heard.speech.clause(figure.first);
    let from = heard.pronoun_from(figure).unwrap_or(first);
    let mut named: Vec<usize> = heard
        .mentions_in(from, end)
        .iter()
        .flat_map(|mention| mention.things.iter().copied())
        .filter(|thing| heard.things[*thing].sort == Of::Ingredient)
        .collect();
    let mut told_to_warm = false;
    if named.is_empty() {
        named.extend(warmed(heard, figure));
        told_to_warm = !named.is_empty() && !heard.asks(figure.sentence.saturating_sub(1));
    }
    // What is warmed up is warmer than the room.
    let as_it_is = told_to_warm && fact.usual < WARM_K;
    match fact.thing {
        Some(thing) if named.contains(&thing) && as_it_is => 0.0,
        Some(thing) if named.contains(&thing) => 4.0,
        Some(thing) => {
            let (first, end) = heard.speech.sentences[figure.sentence];
            let wider = heard
                .mentions_in(first, end)
                .iter()
                .any(|mention| mention.things.contains(&thing));
            match (wider, named.is_empty()) {
                (true, true) => 2.5,
                (true, false) => 0.5,
                _ => -3.0,
            }
        }
        None => 0.0,
    }
}

/// "So, the first lot, warm that up to forty-five degrees"; "How warm?" "Thirty-eight degrees.": what was named last of what the
/// recipe has at a temperature.
pub(super) fn warmed(heard: &Heard, figure: &Figure) -> Vec<usize> {
    let words = &heard.speech.words;
    let (first, _) = heard.speech.sentences[figure.sentence];
    let from = first.max(figure.first.saturating_sub(WARMED_WORDS));
    let own = &words[from..figure.first];
    let warms = own.windows(2).any(|two| {
        matches!(two[0].stem.as_str(), "warm" | "heat")
            && matches!(
                two[1].lower.as_str(),
                "that" | "it" | "them" | "up" | "those" | "this" | "to"
            )
    });
    let asked = figure.sentence.checked_sub(1).filter(|before| {
        let (from, to) = heard.speech.sentences[*before];
        heard.asks(*before)
            && words[from..to].windows(2).any(|two| {
                two[0].lower == "how" && matches!(two[1].lower.as_str(), "warm" | "hot" | "cold")
            })
    });
    if !warms && asked.is_none() {
        return Vec::new();
    }
    let start = heard.speech.sentences[figure.sentence.saturating_sub(WARMED_SENTENCES)].0;
    heard
        .mentions_in(start, figure.first)
        .iter()
        .rev()
        .map(|mention| {
            mention
                .things
                .iter()
                .copied()
                .filter(|thing| {
                    heard
                        .facts
                        .iter()
                        .any(|fact| fact.sort == Sort::Heat && fact.thing == Some(*thing))
                })
                .collect::<Vec<_>>()
        })
        .find(|things| !things.is_empty())
        .unwrap_or_default()
}

/// What is warmed is named within so many sentences before, and the deed told within so many words.
const WARMED_SENTENCES: usize = 3;

const WARMED_WORDS: usize = 8;

/// Warmer than any room, in kelvin.
const WARM_K: f64 = 303.0;

/// "I don't go to court for one degree": one degree is a difference, unless something stands at it.
pub(super) fn is_difference(heard: &Heard, figure: &Figure) -> bool {
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| heard.speech.words[n].lower.as_str());
    let one = (figure.spoken.low - 1.0).abs() < 1e-9 && !figure.spoken.is_range();
    one && matches!(figure.spoken.meant, Meant::Degrees(..))
        && !matches!(
            before,
            "at" | "to" | "is" | "it's" | "says" | "reads" | "minus"
        )
}
