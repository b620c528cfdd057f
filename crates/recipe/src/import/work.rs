//! The steps of the recipe file: each piece of work with what the text says of it and what is usual.

use super::act::Act;
use super::clause::{Doing, oven_heats, times_of};
use super::draft::{Part, Stage, first_with};
use super::sheet::quoted;
use super::usual::{COOL_C, REFRIGERATOR_C, ROOM_C, SMALL_G, Usual, WARM_C};
use crate::larder::{Larder, Role, YeastForm};
use crate::measure::read::sentence::heats;
use crate::measure::write::{write_time, write_time_range};
use numerics::decimal::trimmed;
use numerics::quantity::{Duration, Range, Temperature};

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

/// Minutes as a time.
fn minutes(value: f64) -> Duration {
    Duration::from_si(value * 60.0)
}

/// `for` and `range` of a stretch: the usual value lies in the middle, on five minutes where the
/// range is wide.
fn timing(range: Range<Duration>) -> String {
    let (low, high) = (range.low.si() / 60.0, range.high.si() / 60.0);
    if high <= low {
        return format!("for = {}", quoted(&write_time(range.low)));
    }
    let middle = f64::midpoint(low, high);
    let step = if high - low >= 10.0 { 5.0 } else { 1.0 };
    let rounded = (middle / step).round() * step;
    let usual = if rounded >= low && rounded <= high {
        rounded
    } else {
        middle
    };
    format!(
        "for = {}, range = {}",
        quoted(&write_time(minutes(usual))),
        quoted(&write_time_range(range))
    )
}

/// Usual minutes as a range.
fn span(three: [f64; 3]) -> Range<Duration> {
    Range {
        low: minutes(three[1]),
        high: minutes(three[2]),
    }
}

/// A time for a reader: "32–42 min".
fn said(range: Range<Duration>) -> String {
    if range.high > range.low {
        write_time_range(range).replace('-', "–")
    } else {
        write_time(range.low)
    }
}

/// Degrees as the file writes them.
pub fn degrees(celsius: f64) -> String {
    format!("{} °C", trimmed((celsius * 2.0).round() / 2.0, 1))
}

/// Degrees on both scales, for a sentence.
pub fn both(celsius: f64) -> String {
    let exact = celsius * 1.8 + 32.0;
    let fahrenheit = if celsius >= 100.0 {
        (exact / 5.0).round() * 5.0
    } else {
        exact.round()
    };
    format!("{} / {} °F", degrees(celsius), trimmed(fahrenheit, 0))
}

/// A dial as the file writes it; of a range the middle.
fn dial(range: Range<Temperature>) -> String {
    let middle = f64::midpoint(range.low.celsius(), range.high.celsius());
    quoted(&degrees((middle).round()))
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
        && (wake_names(set).is_none()
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
    let by_hand = |usual: f64, assumed: &mut Vec<(&'static str, String)>| match times.first() {
        Some(time) => {
            let middle = f64::midpoint(time.low.si(), time.high.si());
            format!("for = {}", quoted(&write_time(Duration::from_si(middle))))
        }
        None => {
            assumed.push(("hands-on time", HANDS.to_owned()));
            format!("for = {}", quoted(&write_time(minutes(usual))))
        }
    };
    let (key, table) = match act {
        Act::Wake => {
            let (yeast, liquid) = wake_names(set).unwrap_or_default();
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
            let to = heats(text)
                .first()
                .map(|(said, _)| said.value.high.celsius())
                .filter(|c| (20.0..=220.0).contains(c));
            let to = to.unwrap_or_else(|| {
                let usual = if lower.contains("boil")
                    || lower.contains("simmer")
                    || lower.contains("scald")
                {
                    95.0
                } else if lower.contains("melt") {
                    60.0
                } else {
                    37.0
                };
                assumed.push((
                    "pan",
                    format!(
                        "{}, as is common practice for what the sentence says.",
                        both(usual)
                    ),
                ));
                usual
            });
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
                let usual = if set.piece_g.is_some_and(|g| g < SMALL_G) {
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
    Step {
        sentence: text.to_owned(),
        key,
        table,
        until: until(text, &lower, act),
        assumed,
        moved: None,
    }
}

/// The names of yeast and liquid in a stage.
fn wake_names(set: &Setting<'_>) -> Option<(String, String)> {
    let stage = set.stage?;
    let yeast = first_with(stage, set.larder, |role| matches!(role, Role::Yeast(_)))?;
    let liquid = first_with(stage, set.larder, |role| role == Role::Liquid)?;
    Some((yeast, liquid))
}

/// Whether the first yeast of a stage goes in as it is.
fn needs_no_waking(stage: &Stage, larder: &Larder) -> bool {
    first_with(stage, larder, |role| {
        matches!(
            role,
            Role::Yeast(YeastForm::Instant | YeastForm::InstantOsmotolerant)
        )
    })
    .is_some()
}

/// The table of a mix.
fn mix(
    text: &str,
    lower: &str,
    times: &[Range<Duration>],
    set: &Setting<'_>,
    assumed: &mut Vec<(&'static str, String)>,
) -> String {
    let kneads = lower.contains("knead") || lower.contains("work ") || lower.contains("hook");
    let machine = [
        "mixer",
        "hook",
        "paddle",
        "on low",
        "on medium",
        "speed",
        "machine",
    ]
    .iter()
    .any(|word| lower.contains(word));
    let by = if machine {
        "mixer"
    } else if kneads || lower.contains("hand") {
        "hand"
    } else {
        "spoon"
    };
    let speed = if lower.contains("high") {
        "high"
    } else if lower.contains("medium") {
        "medium"
    } else {
        "low"
    };
    let phases: Vec<String> = if times.is_empty() {
        let (usual, what) = match (kneads, machine) {
            (true, true) => (8.0, "kneading"),
            (true, false) => (10.0, "kneading"),
            _ => (3.0, "mixing"),
        };
        assumed.push((
            what,
            format!("{} min, as is common practice.", trimmed(usual, 0)),
        ));
        vec![format!(
            "{{ speed = \"{speed}\", for = {} }}",
            quoted(&write_time(minutes(usual)))
        )]
    } else {
        times
            .iter()
            .map(|time| format!("{{ speed = \"{speed}\", {} }}", timing(*time)))
            .collect()
    };
    let mut table = format!("{{ by = \"{by}\", phases = [{}]", phases.join(", "));
    if set.last_mix {
        let liquid = set
            .stage
            .and_then(|stage| first_with(stage, set.larder, |role| role == Role::Liquid));
        let stated = dough_heat(text);
        let range = stated.map_or_else(
            || {
                let [low, high] = set.usual.dough_c;
                if liquid.is_some() {
                    assumed.push((
                        "dough temperature",
                        format!(
                            "{}–{}, as is usual for {}.",
                            trimmed(low, 0),
                            both(high),
                            set.usual.says
                        ),
                    ));
                }
                (low, high)
            },
            |range| (range.low.celsius(), range.high.celsius()),
        );
        if let Some(liquid) = liquid {
            let written = if range.1 > range.0 {
                format!("{}-{}", trimmed(range.0, 1), degrees(range.1))
            } else {
                degrees(range.0)
            };
            table += &format!(
                ", dough = {}, adjust = {}",
                quoted(&written),
                quoted(&liquid)
            );
        } else if stated.is_some() {
            table += &format!(", dough = {}", quoted(&degrees(range.0)));
        }
    }
    table + " }"
}

/// The dough's temperature, if a sentence says it.
pub fn dough_heat(text: &str) -> Option<Range<Temperature>> {
    let lower = text.to_lowercase();
    let of_dough =
        (lower.contains("dough") || lower.contains("thermometer") || lower.contains("hook"))
            && !lower.contains(" room")
            && !lower.contains("oven");
    heats(text)
        .into_iter()
        .map(|(said, _)| said.value)
        .find(|heat| of_dough && (18.0..=35.0).contains(&heat.low.celsius()))
}

/// The temperature of the place where something stands, if a sentence says it.
pub fn place_heat(text: &str) -> Option<Range<Temperature>> {
    heats(text)
        .into_iter()
        .map(|(said, _)| said.value)
        .find(|heat| (-25.0..=50.0).contains(&heat.low.celsius()))
}

/// The table of a rest.
fn rest(
    text: &str,
    lower: &str,
    times: &[Range<Duration>],
    set: &mut Setting<'_>,
    assumed: &mut Vec<(&'static str, String)>,
) -> String {
    let has = |words: &[&str]| words.iter().any(|word| lower.contains(word));
    let (place, usual_c) = if has(&["refrigerat", "fridge", "chill"]) {
        ("refrigerator", REFRIGERATOR_C)
    } else if has(&[
        "warm",
        "stove",
        "airing",
        "oven with",
        "proofer",
        "proving drawer",
        "radiator",
    ]) {
        ("warm place", WARM_C)
    } else if has(&["cool place", "cellar", "cold room", "larder", "pantry"]) {
        ("cool place", COOL_C)
    } else {
        ("room", ROOM_C)
    };
    let at = place_heat(text).map_or(usual_c, |heat| {
        f64::midpoint(heat.low.celsius(), heat.high.celsius())
    });
    if place_heat(text).is_none() {
        let what = if place == "room" { "room" } else { place };
        assumed.push((
            what,
            format!(
                "{}, as is usual for {}.",
                both(at),
                match place {
                    "room" => "a kitchen",
                    "refrigerator" => "a refrigerator",
                    "warm place" => "a warm place",
                    _ => "a cool room",
                }
            ),
        ));
    }
    let time = times
        .iter()
        .copied()
        .reduce(|one, other| if other.high > one.high { other } else { one })
        .unwrap_or_else(|| {
            let rises = rises(lower);
            let (usual, what) = match (set.stage.is_some(), rises) {
                (_, false) => ([15.0, 10.0, 20.0], "rest"),
                (true, true) => (set.usual.rise_min, "first rise"),
                (false, true) => (set.usual.proof_min, "last rise"),
            };
            let usual = span(usual);
            assumed.push((
                what,
                format!(
                    "{} in a room, as is usual for {}.",
                    said(usual),
                    set.usual.says
                ),
            ));
            usual
        });
    set.rest_before = Some(time.low);
    let vessel = if set.stage.is_some() {
        if lower.contains("bench") || lower.contains("worktop") {
            "bench"
        } else {
            "bowl"
        }
    } else if set.tin {
        "tin"
    } else {
        "tray"
    };
    let covered = [
        ("cloth", "cloth"),
        ("towel", "cloth"),
        ("film", "film"),
        ("plastic", "film"),
        ("wrap", "film"),
        ("lid", "lid"),
        ("cover", "cover"),
    ]
    .iter()
    .find(|(word, _)| lower.contains(word) && !lower.contains("uncovered"))
    .map_or_else(String::new, |(_, with)| format!(", covered = \"{with}\""));
    format!(
        "{{ {}, at = {}, where = \"{place}\", in = \"{vessel}\"{covered} }}",
        timing(time),
        quoted(&degrees(at))
    )
}

/// Whether a sentence is about rising, not resting.
pub fn rises(lower: &str) -> bool {
    [
        "rise", "rising", "doubl", "twice", "proof", "prove", "come up", "ferment", "puff",
        "tripl", "light",
    ]
    .iter()
    .any(|word| lower.contains(word))
}

/// The oven of a sentence, or what came before, or the usual.
fn oven(
    text: &str,
    set: &mut Setting<'_>,
    assumed: &mut Vec<(&'static str, String)>,
) -> Range<Temperature> {
    let here = oven_heats(text)
        .first()
        .copied()
        .or(set.oven)
        .unwrap_or_else(|| {
            let usual = set.usual.oven_c;
            assumed.push((
                "oven",
                format!("{}, as is usual for {}.", both(usual), set.usual.says),
            ));
            Range {
                low: Temperature::from_celsius(usual),
                high: Temperature::from_celsius(usual),
            }
        });
    set.oven = Some(here);
    here
}

/// The table of a bake: a phase for each time, at the oven of its clause.
fn bake(
    text: &str,
    lower: &str,
    set: &mut Setting<'_>,
    assumed: &mut Vec<(&'static str, String)>,
) -> String {
    let mut phases: Vec<String> = Vec::new();
    let steam = if lower.contains("steam") {
        ", steam = true"
    } else {
        ""
    };
    let mut at = set.oven;
    for clause in split_bake(text) {
        let of_clause = clause.to_lowercase();
        let words: Vec<&str> = of_clause.split(|c: char| !c.is_alphanumeric()).collect();
        if let Some(heat) = oven_heats(clause).first() {
            at = Some(*heat);
        }
        let looks = [
            "rotate", "foil", "halfway", "check", "internal", "last", "swap", "tent", "cool",
        ]
        .iter()
        .any(|word| words.contains(word));
        if looks && !words.contains(&"bake") {
            continue;
        }
        if let Some(time) = times_of(clause).first() {
            let heat = at.unwrap_or_else(|| oven("", set, assumed));
            at = Some(heat);
            let wet = if phases.is_empty() { steam } else { "" };
            phases.push(format!("{{ at = {}, {}{wet} }}", dial(heat), timing(*time)));
        }
    }
    if at.is_some() {
        set.oven = at;
    }
    if phases.is_empty() {
        let heat = oven("", set, assumed);
        let usual = span(if set.piece_g.is_some_and(|g| g < SMALL_G) {
            set.usual.small_min
        } else {
            set.usual.loaf_min
        });
        assumed.push((
            "bake",
            format!(
                "{}, as is usual for {} of this size.",
                said(usual),
                set.usual.says
            ),
        ));
        phases.push(format!(
            "{{ at = {}, {}{steam} }}",
            dial(heat),
            timing(usual)
        ));
    }
    let fan = lower.contains("fan") || lower.contains("convection");
    if !fan {
        assumed.push(("fan", "off, as the text does not speak of one.".to_owned()));
    }
    let core = core(text).map_or_else(String::new, |core| {
        format!(", core = {}", quoted(&degrees(core.low.celsius())))
    });
    format!("{{ phases = [{}], fan = {fan}{core} }}", phases.join(", "))
}

/// The parts of a bake's words that each hold at most one time.
fn split_bake(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    for sentence in super::clause::sentences(text) {
        let mut start = 0;
        let lower = sentence.to_ascii_lowercase();
        for (at, _) in lower.char_indices() {
            let cut = [
                ", then",
                " then ",
                "; ",
                ", lower",
                ", reduce",
                ", turn",
                " and bake",
                ", cover",
                " and lower",
                " and reduce",
            ]
            .iter()
            .any(|cut| lower[at..].starts_with(cut));
            if cut && at > start {
                found.push(&sentence[start..at]);
                start = at;
            }
        }
        found.push(&sentence[start..]);
    }
    found
}

/// The temperature in the middle of the bread, if a sentence says it.
pub fn core(text: &str) -> Option<Range<Temperature>> {
    let lower = text.to_lowercase();
    let inside = [
        "internal",
        "center",
        "centre",
        "middle",
        "inside",
        "core",
        "thermometer",
        "probe",
        "registers",
        "reads",
    ]
    .iter()
    .any(|word| lower.contains(word));
    heats(text)
        .into_iter()
        .map(|(said, _)| said.value)
        .find(|heat| inside && (80.0..=102.0).contains(&heat.low.celsius()))
}

/// How one sees the end, from the words behind "until".
fn until(text: &str, lower: &str, act: Act) -> Option<String> {
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
