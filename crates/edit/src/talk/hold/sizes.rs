//! Sizes: tins, sheets, strips, slabs, gaps.

use super::{Verdict, decide, fits};
use crate::talk::facts::{Fact, Sort};
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;
use recipe::measure::spoken::Meant;

/// A length goes with a fact from this score on.
const LEAST: f64 = 0.2;

/// The same where the words leave one thing to be meant.
const LEAST_OF_ONE: f64 = -3.0;

/// Metres in a centimetre and in an inch, for sides whose unit is not said.
const UNITS: [f64; 2] = [0.01, 0.0254];

/// Which way a length goes, by the word behind it: "about seven centimetres thick", "two inches below the rim".
fn direction(heard: &Heard, figure: &Figure) -> Option<&'static str> {
    let words = &heard.speech.words;
    let (_, end) = heard.speech.sentences[figure.sentence];
    words
        .get(figure.end..end.min(figure.end + 2))?
        .iter()
        .find_map(|word| match word.lower.as_str() {
            "thick" => Some("thick"),
            "apart" => Some("apart"),
            "below" => Some("rim"),
            _ => None,
        })
}

/// A length, or two or three sides.
pub(super) fn hold(heard: &Heard, at: usize) -> Verdict {
    let figure = &heard.speech.figures[at];
    let around = heard.around(figure);
    let (first, end) = heard.speech.clause(figure.first);
    let across = heard.speech.words[first..end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "across" | "wide" | "diameter" | "tall" | "deep"
        )
    });
    let ring = heard.speech.words[first..end]
        .iter()
        .any(|word| word.stem == "ring");
    // A sheet's sides are none of a ring, though one sentence has both.
    let of_ring =
        |fact: &Fact| fact.sides.is_empty() && fact.stems.iter().any(|stem| stem == "ring");
    let direction = direction(heard, figure);
    let along = |fact: &Fact| direction.is_none_or(|stem| fact.stems.iter().any(|own| own == stem));
    let directed = heard
        .facts
        .iter()
        .any(|fact| fact.sort == Sort::Size && direction.is_some() && along(fact));
    let any_ring = ring
        && heard
            .facts
            .iter()
            .any(|fact| fact.sort == Sort::Size && of_ring(fact));
    let facts = heard.facts.iter().enumerate().filter(|(_, fact)| {
        fact.sort == Sort::Size && (!any_ring || of_ring(fact)) && (!directed || along(fact))
    });
    let scored: Vec<_> = match &figure.spoken.meant {
        Meant::Sides(sides, unit) => facts
            .filter(|(_, fact)| !fact.sides.is_empty())
            .map(|(place, fact)| {
                let units = unit.map_or_else(|| UNITS.to_vec(), |unit| vec![unit]);
                let fits = units.iter().any(|unit| {
                    let said: Vec<f64> = sides.iter().map(|side| side * unit).collect();
                    fits::sides(&said, &fact.sides)
                });
                (place, heard.score(&around, fact), fact.only_allowed, fits)
            })
            .collect(),
        Meant::Length(range) => facts
            .map(|(place, fact)| {
                let (low, high) = (range.low.si(), range.high.si());
                let near = |written: f64| fits::length(low, high, figure.spoken.nearness, written);
                let fits = if fact.sides.is_empty() {
                    near(fact.usual)
                } else {
                    fact.sides.iter().any(|side| near(*side))
                };
                // A side of a tin alone is allowed, and expected only where one is spoken of.
                let allowed = fact.only_allowed || !fact.sides.is_empty() && !across;
                if across && fact.sides.is_empty() && !fact.stems.iter().any(|stem| stem == "ring")
                {
                    return (place, heard.score(&around, fact) - 2.0, allowed, fits);
                }
                (place, heard.score(&around, fact), allowed, fits)
            })
            .collect(),
        _ => return Verdict::Aside,
    };
    // Where the words name the one ring, or the one thing that is so wide, nothing else can be meant.
    let expected = scored.iter().filter(|(_, _, allowed, _)| !allowed).count();
    let least = if any_ring || directed || across && expected == 1 {
        LEAST_OF_ONE
    } else {
        LEAST
    };
    decide(&scored, least + heard.story(figure))
}
