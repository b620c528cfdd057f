//! What bakes taught about a kitchen, in words: each thing before and after, whether the readings could tell, and what is kept.

use super::say;
use bake::condition::{EDGE, FILM, Here, Known, Unknown};
use bake::kitchen::{Friction, Kitchen};
use bake::learn::{COULD_NOT_TELL, Learnt};
use jiff::civil::Date;
use numerics::decimal::{fixed, trimmed};
use numerics::quantity::{Fraction, Temperature};
use recipe::document::model::KitchenFile;
use recipe::document::revise::{NewValue, NotRevised, Way, set_value};

/// One thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LearntLine {
    /// "the refrigerator".
    pub what: String,
    /// "4 °C (2.1–5.9)": before, with the band that eight of ten keep.
    pub before: String,
    /// Afterwards.
    pub after: String,
    /// Whether the readings could tell.
    pub told: bool,
}

/// Everything.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LearntLines {
    /// In how many bakes it was read.
    pub bakes: usize,
    /// One line for each thing.
    pub lines: Vec<LearntLine>,
    /// What is to be said about how sure it is.
    pub about: String,
    /// Things that the readings told and that no kitchen's file keeps, and why.
    pub not_kept: Vec<String>,
}

/// What was learnt, in words.
pub fn learnt(here: &Here, learnt: &Learnt, bakes: usize) -> LearntLines {
    let kitchen = here.as_written().0;
    let lines: Vec<LearntLine> = learnt
        .known
        .iter()
        .filter(|known| kept_apart(kitchen, known.unknown))
        .map(|known| {
            let of = known.unknown;
            let before = [-EDGE, 0.0, EDGE].map(|score| here.told(of, score));
            LearntLine {
                what: of.words().to_owned(),
                before: band(kitchen, of, before),
                after: band(kitchen, of, [known.low, known.middle, known.high]),
                told: told(here, known),
            }
        })
        .collect();
    let of_the_recipe = |known: &&Known| told(here, known) && goes_with_the_recipe(known.unknown);
    let not_kept = learnt.known.iter().filter(of_the_recipe).map(|known| {
        format!(
            "{} goes with the recipe or the day, not with the kitchen; it is not kept.",
            say::capital(known.unknown.words())
        )
    });
    let (counts, of) = learnt.counts;
    LearntLines {
        bakes,
        about: format!(
            "Eight of ten lie within the bracket. {} possible kitchens go with the readings, of {of} that were tried.",
            fixed(counts, 0)
        ),
        not_kept: not_kept.collect(),
        lines,
    }
}

/// Whether the readings could tell: its band is narrower than it was, or no longer holds what was taken for likely.
fn told(here: &Here, known: &Known) -> bool {
    let before = here.told(known.unknown, 0.0);
    known.narrower < COULD_NOT_TELL || before < known.low || before > known.high
}

/// A warm place that is the room is no thing of its own.
fn kept_apart(kitchen: &Kitchen, unknown: Unknown) -> bool {
    unknown != Unknown::WarmPlace || kitchen.warm_place != kitchen.room
}

const fn goes_with_the_recipe(unknown: Unknown) -> bool {
    matches!(
        unknown,
        Unknown::Vapour | Unknown::Browning | Unknown::Warmth | Unknown::Room
    )
}

/// A middle and its band, as a cook says the thing.
fn band(kitchen: &Kitchen, of: Unknown, [low, middle, high]: [f64; 3]) -> String {
    let degrees = |base: Temperature| {
        let at = |off: f64| trimmed(base.celsius() + off, 1);
        format!("{}\u{a0}°C ({}–{})", at(middle), at(low), at(high))
    };
    let share = |of_usual: fn(f64) -> f64| {
        let at = |value: f64| fixed(100.0 * of_usual(value), 0);
        format!("{}\u{a0}% ({}–{})", at(middle), at(low), at(high))
    };
    match of {
        Unknown::Room => degrees(kitchen.room),
        Unknown::WarmPlace => degrees(kitchen.warm_place),
        Unknown::Refrigerator => degrees(kitchen.refrigerator),
        Unknown::OvenOff => {
            let at = |off: f64| {
                let apart = kitchen.oven.hotter.si() + off;
                let sign = if apart < -0.05 { "−" } else { "+" };
                format!("{sign}{}", trimmed(apart.abs(), 0))
            };
            format!("{}\u{a0}°C ({} to {})", at(middle), at(low), at(high))
        }
        Unknown::OvenFilm => share(|extra| 1.0 + extra / FILM),
        _ => share(|factor| factor),
    }
}

/// What is written into a kitchen's file: the way there, what stands there now, what will.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// "`refrigerator`", "`[oven] inside`".
    pub place: String,
    /// What stands there now.
    pub was: Option<String>,
    /// What will.
    pub is: String,
}

/// A kitchen's text with what was learnt in it, and each change; as it was when nothing was.
pub fn kept(
    text: &str,
    file: &KitchenFile,
    here: &Here,
    learnt: &Learnt,
    on: Date,
    bakes: usize,
) -> Result<(String, Vec<Kept>), NotRevised> {
    let kitchen = here.as_written().0;
    let mut values: Vec<(Vec<&str>, Option<String>, NewValue)> = Vec::new();
    let mut within: Vec<(&str, String)> = Vec::new();
    let celsius = |at: f64| format!("{} °C", trimmed(at, 1));
    let percent = |share: f64| {
        let share = Fraction::from_si(share.max(0.005));
        format!("{} %", fixed(share.percent(), 0))
    };
    let half = |known: &Known| 0.5 * (known.high - known.low);
    let kelvin = |known: &Known| format!("{} °C", trimmed(half(known).max(0.1), 1));
    for known in learnt.known.iter().filter(|known| told(here, known)) {
        let middle = known.middle;
        match known.unknown {
            Unknown::Refrigerator => {
                let now = kitchen.refrigerator.celsius();
                let key = vec!["refrigerator"];
                values.push((key, Some(celsius(now)), text_of(&celsius(now + middle))));
                within.push(("refrigerator-within", kelvin(known)));
            }
            Unknown::WarmPlace if file.warm_place.is_some() => {
                let now = kitchen.warm_place.celsius();
                let key = vec!["warm-place"];
                values.push((key, Some(celsius(now)), text_of(&celsius(now + middle))));
                within.push(("warm-place-within", kelvin(known)));
            }
            Unknown::OvenOff => {
                if let Some(oven) = &file.oven {
                    let now = oven.inside.value.celsius();
                    let is = format!("{} °C", fixed(now + middle, 0));
                    values.push((vec!["oven", "inside"], Some(celsius(now)), text_of(&is)));
                    within.push(("oven-within", kelvin(known)));
                }
            }
            Unknown::Friction if file.mixer.is_some() => {
                let (key, was, is) = match kitchen.friction {
                    Friction::Power(now) => {
                        let shown = |factor: f64| format!("{} W/kg", trimmed(now.si() * factor, 1));
                        ("friction", shown(1.0), shown(middle))
                    }
                    Friction::Rise(now) => {
                        let shown = |factor: f64| celsius(now.si() * factor);
                        ("rise", shown(1.0), shown(middle))
                    }
                };
                values.push((vec!["mixer", key], Some(was), text_of(&is)));
                within.push(("mixing-within", percent(half(known))));
            }
            Unknown::Vigour => {
                within.push(("yeast", percent(middle)));
                within.push(("yeast-within", percent(half(known) / middle)));
            }
            Unknown::OvenFilm => {
                within.push(("oven-heat", percent(1.0 + middle / FILM)));
                within.push(("oven-heat-within", percent(half(known) / FILM)));
            }
            _ => {}
        }
    }
    if values.is_empty() && within.is_empty() {
        return Ok((text.to_owned(), Vec::new()));
    }
    let mut made = text.to_owned();
    let mut changes = Vec::new();
    for (way, was, is) in values {
        let steps: Vec<Way<'_>> = way.iter().map(|key| Way::Key(key)).collect();
        made = set_value(&made, &steps, &is)?;
        let NewValue::Text(is) = is else { continue };
        let place = match way.as_slice() {
            [table, key] => format!("[{table}] {key}"),
            _ => way.join(" "),
        };
        changes.push(Kept { place, was, is });
    }
    // Bakes of earlier times are in the figures that were there.
    let before = file
        .measured
        .as_ref()
        .and_then(|measured| measured.bakes.as_ref());
    let all = before.map_or(0, |bakes| bakes.value) + i64::try_from(bakes).unwrap_or(0);
    if file.measured.is_none() {
        if !made.ends_with('\n') {
            made.push('\n');
        }
        made.push_str(&format!("\n# Measured here, from what was read in bakes.\n[measured-here]\non = {on}\nbakes = {all}\n"));
        for (key, is) in &within {
            made.push_str(&format!("{key} = \"{is}\"\n"));
        }
    } else {
        let at = |key: &'static str| [Way::Key("measured-here"), Way::Key(key)];
        made = set_value(&made, &at("on"), &NewValue::Date(on.to_string()))?;
        made = set_value(&made, &at("bakes"), &NewValue::Whole(all))?;
        for (key, is) in &within {
            let way = [Way::Key("measured-here"), Way::Key(key)];
            made = set_value(&made, &way, &text_of(is))?;
        }
    }
    changes.push(Kept {
        place: "[measured-here] on".to_owned(),
        was: file
            .measured
            .as_ref()
            .map(|measured| measured.on.value.to_string()),
        is: on.to_string(),
    });
    changes.extend(within.into_iter().map(|(key, is)| Kept {
        place: format!("[measured-here] {key}"),
        was: None,
        is,
    }));
    Ok((made, changes))
}

fn text_of(text: &str) -> NewValue {
    NewValue::Text(text.to_owned())
}
