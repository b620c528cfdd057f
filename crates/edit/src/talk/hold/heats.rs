//! Temperatures: which dial, probe, place or ingredient is meant, in which scale.

use super::fits::{self, Scale, as_temperature};
use super::other_heats::{is_not_lit_to, other_meant};
use super::warmed::{is_difference, of_thing, warmed};
use super::{Verdict, decide_within};
use crate::talk::doing::Doing;
use crate::talk::facts::{Fact, Fine, Sort};
use crate::talk::heard::{Around, Heard};
use crate::talk::speech::Figure;
use recipe::measure::spoken::{Meant, SpokenUnit};

/// A temperature goes with a fact only from this score on.
const LEAST: f64 = 1.2;

/// A temperature with its unit.
pub(super) fn hold(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Verdict {
    let figure = &heard.speech.figures[at];
    if is_difference(heard, figure) {
        return Verdict::Aside;
    }
    let around = heard.around(figure);
    let scales = scales_of(heard, at, verdicts);
    let row = heard.row(at, verdicts).filter(|(sort, doing)| {
        *sort == Sort::Heat && doing.meets(Doing::CORE) && !around.clause.meets(Doing::OVEN)
    });
    let near = figure.first.saturating_sub(PLACE_WORDS);
    let in_a_place = heard.speech.words[near..figure.first].iter().any(|word| {
        word.sentence == figure.sentence
            && matches!(
                word.lower.as_str(),
                "kitchen"
                    | "counter"
                    | "room"
                    | "somewhere"
                    | "place"
                    | "cupboard"
                    | "side"
                    | "spot"
            )
    });
    let scored: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| {
            // How warm a bread is when it has cooled is said of the rack alone.
            let cooled = fact.only_allowed && fact.doing.meets(Doing::COOL);
            fact.sort == Sort::Heat
                && (!cooled || around.clause.and(around.sentence).meets(Doing::COOL))
        })
        .map(|(place, fact)| {
            let stands = in_a_place
                && fact.fine == Fine::Place
                && fact.thing.is_none()
                && fact.doing.meets(Doing::REST);
            let score = heard.score(&around, fact)
                + if stands { IN_A_PLACE } else { 0.0 }
                + of_thing(heard, figure, fact)
                + likely(figure, fact)
                + super::in_a_row(row, fact);
            (
                place,
                score,
                fact.only_allowed,
                agrees(heard, figure, &scales, fact) && !is_not_lit_to(heard, figure, fact),
            )
        })
        .collect();
    // Who answers a question for a temperature means one.
    let asked = heard.asked_for(figure) == Some(Sort::Heat);
    let least = LEAST + heard.story(figure) - if asked { 4.0 } else { 0.0 };
    // A scale that is said leaves less doubt of what is meant.
    let scale = matches!(
        figure.spoken.unit,
        SpokenUnit::Celsius | SpokenUnit::Fahrenheit
    );
    let margin = if scale { 3.0 } else { super::MARGIN };
    let verdict = decide_within(&scored, least, margin, super::ALLOWED_MARGIN);
    // Breads that are not named may be meant in any order.
    if let Verdict::Differs(fact) = verdict
        && heard.facts[fact].fine == Fine::Dial
        && !heard.names_part(figure)
        && !around.clause.meets(Doing::CORE.and(Doing::DOUGH))
        && let Some((other, ..)) = scored.iter().find(|(place, _, _, fits)| {
            *fits && heard.facts[*place].fine == Fine::Dial && heard.facts[*place].step.is_some()
        })
    {
        return Verdict::Agrees(*other);
    }
    // "Loaf, same oven, thirty-four minutes, ninety-two": another figure of the same bread, where nothing says which.
    if let Verdict::Differs(fact) = verdict
        && (heard.facts[fact].thing.is_none() || warmed(heard, figure).is_empty())
        && let Some((other, ..)) = scored.iter().find(|(place, _, _, fits)| {
            let other = &heard.facts[*place];
            let alien = match other.fine {
                Fine::Dial => Doing::CORE.and(Doing::DOUGH),
                Fine::Probe => Doing::OVEN,
                Fine::Place => return false,
            };
            *fits
                && other.section.is_some()
                && other.section == heard.facts[fact].section
                && !around.clause.meets(alien)
        })
    {
        return Verdict::Agrees(*other);
    }
    other_meant(heard, at, &scored, verdict)
}

/// Where a dough stands is told within so many words before how warm it is there, and makes that likelier.
const PLACE_WORDS: usize = 4;
const IN_A_PLACE: f64 = 1.5;

/// A number alone that can be nothing but degrees: "bake at three-fifty", "middle should read ninety-two".
pub(super) fn hold_bare(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Verdict {
    let figure = &heard.speech.figures[at];
    let Meant::Number(low, _) = figure.spoken.meant else {
        return Verdict::Aside;
    };
    let around = heard.around(figure);
    // Nothing but a freezer stands below nought.
    if low >= 0.0 && !sounds_like_degrees(heard, figure, &around, low) {
        return Verdict::Aside;
    }
    hold(heard, at, verdicts)
}

/// Words before a number that is read off a dial or a thermometer.
const READ_OFF: [&str; 21] = [
    "at", "on", "to", "reads", "read", "says", "say", "hits", "hit", "about", "around", "reaches",
    "is", "be", "till", "until", "down", "reading", "want", "it's", "they're",
];

fn sounds_like_degrees(heard: &Heard, figure: &Figure, around: &Around, low: f64) -> bool {
    let heat = Doing::OVEN
        .and(Doing::BAKE)
        .and(Doing::PREHEAT)
        .and(Doing::CORE)
        .and(Doing::DOUGH)
        .and(Doing::HEAT);
    let words = &heard.speech.words;
    let fan = words
        .get(figure.end)
        .is_some_and(|w| matches!(w.lower.as_str(), "fan" | "convection"));
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| words[n].lower.as_str());
    if words
        .get(figure.end)
        .is_some_and(|word| matches!(word.lower.as_str(), "of" | "if" | "unless"))
    {
        return false;
    }
    // "A cup's two-fifty here" is no oven.
    let measured = words[figure.first.saturating_sub(6)..figure.first]
        .iter()
        .any(|word| {
            word.sentence == figure.sentence
                && matches!(
                    word.lower.as_str(),
                    "cup" | "cup's" | "cups" | "grams" | "millilitres" | "weighs"
                )
        });
    if measured {
        return false;
    }
    let next_counts = words.get(figure.end).is_some_and(|w| {
        w.clause == figure.clause
            && w.lower.len() > 3
            && w.lower.ends_with('s')
            && w.lower != "degrees"
    });
    let told = around.clause.meets(heat)
        || fan
        || around.sentence.meets(heat)
        || around.before.meets(Doing::OVEN);
    let stands_at = before == "at"
        && around.sentence.meets(Doing::REST.and(Doing::WARM))
        && (60.0..=130.0).contains(&low);
    if stands_at && !next_counts {
        return true;
    }
    let reasonable = (75.0..=550.0).contains(&low)
        || low >= 60.0
            && around
                .clause
                .meets(Doing::CORE.and(Doing::DOUGH).and(Doing::HEAT));
    // "The milk goes in at forty-seven."
    let (first, end) = heard.speech.clause(figure.first);
    let from = heard.pronoun_from(figure).unwrap_or(first);
    let warmed = heard
        .mentions_in(from, end)
        .iter()
        .flat_map(|mention| &mention.things)
        .any(|thing| {
            heard
                .facts
                .iter()
                .any(|fact| fact.sort == Sort::Heat && fact.thing == Some(*thing))
        });
    if before == "at" && warmed && (1.0..=200.0).contains(&low) && !next_counts {
        return true;
    }
    let alone = end - first == figure.end - figure.first
        || end - first == figure.end - figure.first + 1 && matches!(before, "at" | "say" | "about");
    let alone = alone
        || end - first <= figure.end - figure.first + 3
            && first == figure.first
            && words.get(figure.end).is_some_and(|word| {
                matches!(
                    word.lower.as_str(),
                    "on" | "exactly" | "or" | "right" | "give"
                )
            })
        // "Stick the thermometer in: thirty-three is what we're after."
        || first == figure.first
            && words.get(figure.end).is_some_and(|word| word.lower == "is")
            && words
                .get(figure.end + 1)
                .is_some_and(|word| matches!(word.lower.as_str(), "what" | "right" | "it" | "perfect"));
    // "You stop at fifty": where the talk has come to is cooked to a degree.
    let here = heard.walk[figure.clause].0;
    let cooked = heard
        .places
        .get(here)
        .is_some_and(|place| place.doing.meets(Doing::HEAT));
    let stops = around.clause.meets(Doing::HEAT)
        || words[first..figure.first].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "stop" | "reads" | "hits" | "off" | "done" | "reaches"
            )
        });
    if cooked && before == "at" && stops && (30.0..=212.0).contains(&low) && !next_counts {
        return true;
    }
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let thermal = words[s_first..s_end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "warm"
                | "warmed"
                | "coolish"
                | "cool"
                | "cold"
                | "hot"
                | "fridge"
                | "oven"
                | "toasty"
                | "lukewarm"
                | "ceiling"
                | "thermometer"
                | "temperature"
                | "degrees"
                | "warmer"
        )
    });
    let stands = Doing::REST.and(Doing::CHILL).and(Doing::WARM);
    // "nine grams, active dry" and "eleven" after an ingredient are amounts.
    let amount = heard
        .mentions_in(first, figure.first)
        .iter()
        .any(|mention| {
            heard.things[mention.things[0]].sort == crate::talk::things::Sort::Ingredient
        });
    let read = Doing::DOUGH.and(Doing::CORE).and(Doing::CHECK);
    let warm = alone
        && !amount
        && (thermal || around.sentence.meets(stands.and(read)))
        && low <= 500.0
        && (low >= 33.0 || low >= 20.0 && around.sentence.meets(read));
    let ceiling = thermal
        && around.sentence.meets(stands)
        && (60.0..=130.0).contains(&low)
        && first == figure.first;
    let warm = warm || ceiling;
    // "In the loaf you want ninety-two."
    // "The probe says twenty-four."
    let probe = words[first..figure.first]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "probe" | "thermometer"))
        && matches!(before, "says" | "reads" | "shows" | "say" | "read");
    // "At room temperature, call it twenty-two"
    let called = first
        .checked_sub(1)
        .is_some_and(|n| words[n].lower == "temperature" && words[n].sentence == figure.sentence)
        && first + 2 == figure.first
        && words[first].lower == "call";
    if probe || called {
        return true;
    }
    let in_bread = heard
        .mentions_in(first, figure.first)
        .last()
        .is_some_and(|mention| {
            matches!(
                heard.things[mention.things[0]].sort,
                crate::talk::things::Sort::Product(_)
            ) && words[first..mention.first]
                .iter()
                .any(|word| word.lower == "in")
        })
        && (figure.end >= end || words[figure.end].clause != figure.clause)
        && ((85.0..=100.0).contains(&low) || (185.0..=212.0).contains(&low));
    // "I check the dough with the probe, anywhere from twenty-two to twenty-six"
    let said = |wanted: &str| {
        words[s_first..s_end]
            .iter()
            .any(|word| word.lower == wanted)
    };
    let probed = said("dough") && (said("probe") || said("thermometer"));
    if in_bread || probed && !next_counts && (15.0..=40.0).contains(&low) {
        return true;
    }
    let middle = around.clause.meets(Doing::CORE.and(Doing::DOUGH)) && end - first <= 9;
    warm || told
        && reasonable
        && !next_counts
        && (READ_OFF.contains(&before) || fan || low >= 150.0 || middle)
}

/// The scales in which a figure can be meant.
pub(in crate::talk) fn scales(unit: SpokenUnit) -> &'static [Scale] {
    match unit {
        SpokenUnit::Celsius => &[Scale::Celsius],
        SpokenUnit::Fahrenheit => &[Scale::Fahrenheit],
        _ => &[Scale::Celsius, Scale::Fahrenheit],
    }
}

/// The same, where the talk or the figure just before leaves no doubt: "in the loaf ninety-two, and in the
/// little ones ninety".
fn scales_of(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Vec<Scale> {
    let figure = &heard.speech.figures[at];
    let all = scales(figure.spoken.unit);
    let before = at
        .checked_sub(1)
        .map(|n| (n, &heard.speech.figures[n]))
        .filter(|(_, other)| other.sentence == figure.sentence);
    let degrees = |other: &Figure| {
        matches!(
            other.spoken.meant,
            Meant::Number(..) | Meant::Degrees(..) | Meant::Temperature(_) | Meant::Gas(..)
        )
    };
    let Some((n, other)) = before.filter(|(_, other)| degrees(other)) else {
        return match heard.scale() {
            Some(scale) if all.len() > 1 => vec![scale],
            _ => all.to_vec(),
        };
    };
    if let Some(Verdict::Agrees(fact)) = verdicts.get(n)
        && heard.facts[*fact].sort == Sort::Heat
        && heard.facts[*fact].doing.meets(Doing::CORE)
        && all.len() > 1
    {
        let fits: Vec<Scale> = scales(other.spoken.unit)
            .iter()
            .copied()
            .filter(|scale| {
                let at = as_temperature(other.spoken.low, *scale);
                fits::heat(at, at, other.spoken.nearness, &heard.facts[*fact])
            })
            .collect();
        let same = as_temperature(figure.spoken.low, Scale::Fahrenheit);
        // The same figure once more in the other scale.
        let again = fits::heat(same, same, figure.spoken.nearness, &heard.facts[*fact]);
        if fits.len() == 1 && !again {
            return fits;
        }
    }
    all.to_vec()
}

/// Whether a figure agrees with a fact in some scale.
fn agrees(heard: &Heard, figure: &Figure, scales: &[Scale], fact: &Fact) -> bool {
    let spoken = &figure.spoken;
    let (low, high) = (spoken.low, spoken.high);
    if let Meant::Gas(low, high) = spoken.meant {
        return fits::gas(low, high, fact);
    }
    let fan = fan_said(heard, figure);
    scales.iter().any(|scale| {
        let (low, high) = (as_temperature(low, *scale), as_temperature(high, *scale));
        fits::heat(low, high, spoken.nearness, fact) || fan && fits::fan(low, fact)
    })
}

fn fan_said(heard: &Heard, figure: &Figure) -> bool {
    let from = figure.sentence.saturating_sub(2);
    let (first, _) = heard.speech.sentences[from];
    let (_, end) = heard.speech.sentences[figure.sentence];
    heard.speech.words[first..end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "fan" | "convection" | "blows" | "blowing" | "blower" | "assisted"
        )
    })
}

/// Water freezes, in kelvin.
const FREEZING_K: f64 = 273.15;

/// So near is the recipe's figure when only the scale was said wrong.
const CROSSED_KELVIN: f64 = 3.0;

/// Nobody bakes at 65 °C: how likely a figure of this height is for a fact of this kind.
fn likely(figure: &Figure, fact: &Fact) -> f64 {
    let spoken = &figure.spoken;
    if matches!(spoken.meant, Meant::Gas(..)) {
        return if fact.fine == Fine::Dial { 2.0 } else { -6.0 };
    }
    let near = scales(spoken.unit)
        .iter()
        .map(|scale| (as_temperature(spoken.low, *scale) - fact.usual).abs())
        .fold(f64::INFINITY, f64::min);
    // Nothing of a bread is below nought but a freezer.
    if spoken.low < 0.0 && fact.usual > FREEZING_K {
        return -30.0;
    }
    // "two hundred degrees Fahrenheit" for 200 °C: the other scale was meant.
    let crossed = match spoken.unit {
        SpokenUnit::Celsius => Some(Scale::Fahrenheit),
        SpokenUnit::Fahrenheit => Some(Scale::Celsius),
        _ => None,
    };
    if crossed.is_some_and(|scale| {
        (as_temperature(spoken.low, scale) - fact.usual).abs() <= CROSSED_KELVIN
    }) {
        return 0.0;
    }
    let wide = match fact.fine {
        Fine::Dial => 60.0,
        Fine::Probe => 25.0,
        Fine::Place => 22.0,
    };
    if near > 2.0 * wide {
        -12.0
    } else if near > wide {
        -2.5
    } else {
        0.0
    }
}
