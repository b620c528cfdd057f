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
    // "Half an inch from the rim"
    if words
        .get(figure.end..end.min(figure.end + 4))?
        .iter()
        .any(|word| word.lower == "rim")
    {
        return Some("rim");
    }
    // "How far apart do they sit?" "A good two inches."
    let asked = figure
        .sentence
        .checked_sub(1)
        .filter(|before| heard.asks(*before))
        .map_or((0, 0), |before| heard.speech.sentences[before]);
    words
        .get(figure.end..end.min(figure.end + 2))?
        .iter()
        .chain(&words[asked.0..asked.1])
        .find_map(|word| match word.lower.as_str() {
            "thick" | "deep" => Some("thick"),
            "apart" | "between" => Some("apart"),
            "below" => Some("rim"),
            _ => None,
        })
}

/// What is long or wide by its own word in the clause, with a fact that has no other: "a strip of forty centimetres" is
/// no side of a tray.
const SHAPES: [&str; 5] = ["ring", "strip", "rop", "sheet", "slab"];

/// "An inch and a bit" is up to so many inches; our own choice.
const A_BIT: f64 = 1.3;

fn and_a_bit(heard: &Heard, figure: &Figure) -> bool {
    let lower = |n: usize| {
        heard
            .speech
            .words
            .get(figure.end + n)
            .map_or("", |word| word.lower.as_str())
    };
    lower(0) == "and"
        && matches!(lower(1), "a" | "some")
        && matches!(lower(2), "bit" | "half" | "quarter" | "touch")
        || lower(0) == "and" && lower(1) == "some"
}

/// What is so long is told within so many words before its clause.
const SHAPE_WORDS: usize = 8;

/// Whether a size is of a shape: the sides of a sheet, one length of anything else.
fn is_of(fact: &Fact, shape: &str) -> bool {
    (shape == "sheet") != fact.sides.is_empty() && fact.stems.iter().any(|stem| stem == shape)
}

/// "Forty-five across": a number that is a length by the word behind it, of a ring or the like that is named with it.
pub(super) fn hold_bare(heard: &Heard, at: usize) -> Verdict {
    let figure = &heard.speech.figures[at];
    let words = &heard.speech.words;
    let next = words.get(figure.end).map_or("", |word| word.lower.as_str());
    let stem = match next {
        "across" | "wide" => "ring",
        "thick" | "deep" => "thick",
        "apart" => "apart",
        "long" => "strip",
        _ => return Verdict::Aside,
    };
    let (before, _) = heard.speech.sentences[figure.sentence.saturating_sub(1)];
    let named = words[before..figure.first]
        .iter()
        .any(|word| word.stem == stem || stem == "strip" && word.stem == "rop");
    let mut facts = heard.facts.iter().enumerate().filter(|(_, fact)| {
        fact.sort == Sort::Size
            && fact.sides.is_empty()
            && fact
                .stems
                .iter()
                .any(|own| own == stem || stem == "strip" && own == "rop")
    });
    let said = figure.spoken.low;
    let fits = |written: f64| {
        UNITS
            .iter()
            .any(|unit| fits::length(said * unit, said * unit, figure.spoken.nearness, written))
    };
    let all: Vec<_> = facts.by_ref().collect();
    if let Some((place, _)) = all.iter().find(|(_, fact)| fits(fact.usual)) {
        return Verdict::Agrees(*place);
    }
    match all.as_slice() {
        [(place, _)] if named => Verdict::Differs(*place),
        _ => Verdict::Aside,
    }
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
    // A sheet's sides are none of a ring, though one sentence has both.
    let shape = SHAPES.iter().find(|shape| {
        // "Roll it into a strip, forty centimetres long".
        let (sentence, _) = heard.speech.sentences[figure.sentence];
        let last = at
            .checked_sub(1)
            .map_or(0, |before| heard.speech.figures[before].end);
        let from = sentence
            .max(last)
            .max(first.saturating_sub(SHAPE_WORDS))
            .min(first);
        let said = heard.speech.words[from..end]
            .iter()
            .any(|word| word.stem == **shape && !word.lower.ends_with("ped"));
        said && heard
            .facts
            .iter()
            .any(|fact| fact.sort == Sort::Size && is_of(fact, shape))
    });
    let of_ring = |fact: &Fact| shape.is_some_and(|shape| is_of(fact, shape));
    let direction = direction(heard, figure);
    let along = |fact: &Fact| direction.is_none_or(|stem| fact.stems.iter().any(|own| own == stem));
    let directed = heard
        .facts
        .iter()
        .any(|fact| fact.sort == Sort::Size && direction.is_some() && along(fact));
    let any_ring = shape.is_some();
    // "Three pieces of two hundred and twenty grams".
    let weighs = heard.speech.words.get(figure.end).is_some_and(|word| {
        matches!(
            word.lower.as_str(),
            "g" | "gram" | "grams" | "kg" | "kilo" | "kilos"
        )
    });
    if weighs {
        return Verdict::Aside;
    }
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
                let high = if and_a_bit(heard, figure) {
                    high * A_BIT
                } else {
                    high
                };
                let near = |written: f64| fits::length(low, high, figure.spoken.nearness, written);
                let fits = if fact.sides.is_empty() {
                    near(fact.usual)
                } else {
                    fact.sides.iter().any(|side| near(*side))
                };
                // A side of a tin alone is allowed, and expected only where one is spoken of.
                let allowed = fact.only_allowed || !fact.sides.is_empty() && !across;
                if across
                    && !directed
                    && fact.sides.is_empty()
                    && !fact.stems.iter().any(|stem| stem == "ring")
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
