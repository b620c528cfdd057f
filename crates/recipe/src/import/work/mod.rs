//! The steps of the recipe file: each piece of work with what the text says of it and what is usual.

mod dough;
mod oven;
mod said;

use super::act::Act;
use super::clause::{Doing, times_of};
use super::draft::{Part, Stage};
use super::sheet::quoted;
use super::usual::{ROOM_C, SMALL_G, Usual};
use crate::larder::Larder;
use crate::measure::read::sentence::heats;
use crate::measure::write::write_time;
pub use dough::{dough_heat, place_heat, rises};
use dough::{mix, needs_no_waking, rest, wake_names};
use numerics::quantity::{Duration, Range, Temperature};
use oven::{bake, oven};
pub use said::{both, degrees};
use said::{dial, minutes, said, span, timing};

/// A step as the file writes it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The author's words.
    pub sentence: String,
    /// `mix`, `rest`.
    pub key: &'static str,
    /// The table of the action, as TOML.
    pub table: String,
    /// How one sees the end, as TOML.
    pub until: Option<String>,
    /// What is assumed in it: what, and the sentence.
    pub assumed: Vec<(&'static str, String)>,
    /// Where it stands in the text when that is elsewhere.
    pub moved: Option<usize>,
}

/// What a step is written for.
pub struct Setting<'a> {
    /// What is usual for this class of bread.
    pub usual: Usual,
    /// Raw mass of a piece in grams, when known.
    pub piece_g: Option<f64>,
    /// The stage it stands in; none for a product.
    pub stage: Option<&'a Stage>,
    /// Ingredients.
    pub larder: &'a Larder,
    /// Name of the product.
    pub product: &'a str,
    /// Whether the text names a tin.
    pub tin: bool,
    /// The oven's dial as the text or the class has it so far, °C.
    pub oven: Option<Range<Temperature>>,
    /// The rest before, for folds.
    pub rest_before: Option<Duration>,
    /// Whether this is the last mix of the dough.
    pub last_mix: bool,
}

/// Why hands-on minutes are assumed.
const HANDS: &str = "minutes that the text does not give for work by hand, as is common practice.";

/// A doing as a step.
pub fn step(doing: &Doing, set: &mut Setting<'_>) -> Step {
    let text = doing.sentence.as_str();
    let lower = text.to_lowercase();
    let times = times_of(text);
    let mut assumed: Vec<(&'static str, String)> = Vec::new();
    let in_stage = set.stage.is_some();
    let dough = set
        .stage
        .is_some_and(|stage| matches!(stage.part, Part::Dough | Part::Before));
    let mut act = doing.act;
    if act == Act::Mix && !dough
        || act == Act::Divide && set.stage.is_none_or(|stage| stage.part != Part::Dough)
        || act == Act::Bake && in_stage
    {
        act = Act::Finish;
    }
    if act == Act::Wake
        && (wake_names(set, text).is_none()
            || times.is_empty()
                && set
                    .stage
                    .is_some_and(|stage| needs_no_waking(stage, set.larder)))
    {
        act = if times.is_empty() {
            Act::Mix
        } else {
            Act::Rest
        };
    }
    let by_hand = |usual: f64, assumed: &mut Vec<(&'static str, String)>| {
        let time = times
            .first()
            .map(|time| f64::midpoint(time.low.si(), time.high.si()));
        if time.is_none() {
            assumed.push(("hands-on time", HANDS.to_owned()));
        }
        let time = time.map_or_else(|| minutes(usual), Duration::from_si);
        format!("for = {}", quoted(&write_time(time)))
    };
    let (key, table) = match act {
        Act::Wake => {
            let (yeast, liquid) = wake_names(set, text).unwrap_or_default();
            let time = times.first().copied().unwrap_or_else(|| {
                let usual = span([8.0, 5.0, 10.0]);
                assumed.push((
                    "waking time",
                    format!(
                        "{}, as is common practice for yeast in warm liquid.",
                        said(usual)
                    ),
                ));
                usual
            });
            (
                "wake",
                format!(
                    "{{ yeast = {}, liquid = {}, in = \"steel\", {} }}",
                    quoted(&yeast),
                    quoted(&liquid),
                    timing(time)
                ),
            )
        }
        Act::Heat => {
            let (to, is_said) = heated_to(text);
            if !is_said {
                assumed.push((
                    "pan",
                    format!(
                        "{}, as is common practice for what the sentence says.",
                        both(to)
                    ),
                ));
            }
            let time = times.first().copied().unwrap_or_else(|| {
                assumed.push(("hands-on time", HANDS.to_owned()));
                Range {
                    low: minutes(5.0),
                    high: minutes(5.0),
                }
            });
            (
                "heat",
                format!("{{ to = {}, {} }}", quoted(&degrees(to)), timing(time)),
            )
        }
        Act::Mix => ("mix", mix(text, &lower, &times, set, &mut assumed)),
        Act::Rest => ("rest", rest(text, &lower, &times, set, &mut assumed)),
        Act::Fold => {
            let into = times
                .first()
                .map(|time| time.low)
                .or(set.rest_before)
                .unwrap_or_else(|| {
                    assumed.push((
                        "folds",
                        "30 min into the rest, as is common practice.".to_owned(),
                    ));
                    minutes(30.0)
                });
            assumed.push(("hands-on time", HANDS.to_owned()));
            (
                "fold",
                format!(
                    "{{ for = \"2 min\", into-rest = [{}] }}",
                    quoted(&write_time(into))
                ),
            )
        }
        Act::Divide => {
            let time = by_hand(5.0, &mut assumed);
            (
                "divide",
                format!("{{ into = [{}], {time} }}", quoted(set.product)),
            )
        }
        Act::Shape => ("shape", format!("{{ {} }}", by_hand(8.0, &mut assumed))),
        Act::Finish => ("finish", format!("{{ {} }}", by_hand(3.0, &mut assumed))),
        Act::Preheat => {
            let to = oven(text, set, &mut assumed);
            assumed.push((
                "heating the oven",
                "25 min, as is common practice for a home oven.".to_owned(),
            ));
            (
                "preheat",
                format!("{{ to = {}, for = \"25 min\" }}", dial(to)),
            )
        }
        Act::Bake => ("bake", bake(text, &lower, set, &mut assumed)),
        Act::Cool => {
            let time = times.first().copied().unwrap_or_else(|| {
                let usual = if in_stage {
                    span([30.0, 20.0, 40.0])
                } else if set.piece_g.is_some_and(|g| g < SMALL_G) {
                    span([25.0, 20.0, 30.0])
                } else {
                    span([60.0, 45.0, 90.0])
                };
                assumed.push((
                    "cooling",
                    format!(
                        "{}, as is common practice for pieces of this size.",
                        said(usual)
                    ),
                ));
                usual
            });
            assumed.push((
                "room",
                format!("{}, as is usual for a kitchen.", both(ROOM_C)),
            ));
            let on = if lower.contains("rack") {
                "rack"
            } else if lower.contains("pan") || lower.contains("tin") {
                "tin"
            } else {
                "rack"
            };
            (
                "cool",
                format!(
                    "{{ {}, in = \"{on}\", at = {} }}",
                    timing(time),
                    quoted(&degrees(ROOM_C))
                ),
            )
        }
    };
    let cooled = (act == Act::Cool && in_stage)
        .then(|| cooled_to(text))
        .flatten();
    Step {
        sentence: text.to_owned(),
        key,
        table,
        until: until(text, &lower, act, cooled),
        assumed,
        moved: None,
    }
}

/// What something is heated to in a pan, °C, and whether the sentence says so; else what is usual for its words.
pub fn heated_to(text: &str) -> (f64, bool) {
    let said = heats(text)
        .first()
        .map(|(said, _)| said.value.high.celsius())
        .filter(|celsius| (20.0..=220.0).contains(celsius));
    let lower = text.to_lowercase();
    let says = |words: &[&str]| words.iter().any(|word| lower.contains(word));
    let usual = if says(&["boil", "simmer", "scald"]) {
        95.0
    } else if says(&["thick", "tracks", "pudding"]) {
        65.0
    } else if says(&["melt"]) {
        60.0
    } else {
        37.0
    };
    (said.unwrap_or(usual), said.is_some())
}

/// What something of the dough is left to cool to, °C: "let it cool to 100 degrees" is Fahrenheit, for nothing that
/// meets yeast is so hot in Celsius.
pub fn cooled_to(text: &str) -> Option<f64> {
    let all = heats(text);
    let (said, _) = all.last()?;
    let read = f64::midpoint(said.value.low.celsius(), said.value.high.celsius());
    let words = text.get(said.span.start..said.span.end)?.to_lowercase();
    let no_scale = !words.contains(['c', 'f', '℃', '℉']);
    let celsius = if no_scale && read > 60.0 {
        (read - 32.0) / 1.8
    } else {
        read
    };
    (5.0..=60.0).contains(&celsius).then_some(celsius)
}

/// How one sees the end, from the words behind "until", or what it has cooled to, °C.
fn until(text: &str, lower: &str, act: Act, cooled: Option<f64>) -> Option<String> {
    if let Some(celsius) = cooled {
        return Some(format!("{{ dough = {} }}", quoted(&degrees(celsius))));
    }
    if matches!(act, Act::Preheat | Act::Divide) || text.len() != lower.len() {
        return None;
    }
    let at = lower.find("until ")? + "until ".len();
    let rest = text.get(at..)?;
    let end = rest.find(['.', ';', '(', ',', '!']).unwrap_or(rest.len());
    let see: String = rest[..end].trim().chars().take(120).collect();
    if see.is_empty() {
        return None;
    }
    let low = see.to_lowercase();
    let volume = if act != Act::Rest {
        ""
    } else if low.contains("doubl") || low.contains("twice") {
        ", volume = \"2 times\""
    } else if low.contains("tripl") {
        ", volume = \"3 times\""
    } else {
        ""
    };
    Some(format!("{{ see = {}{volume} }}", quoted(&see)))
}
