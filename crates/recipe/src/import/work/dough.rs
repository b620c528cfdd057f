//! Work on the dough: waking yeast, mixing, resting, and the temperatures that sentences give.

use super::Setting;
use super::said::{both, both_of, degrees, minutes, said, span, timing};
use crate::import::draft::Stage;
use crate::import::look_up::{first_with, most_liquid, told_with};
use crate::import::sheet::quoted;
use crate::import::usual::{COOL_C, REFRIGERATOR_C, ROOM_C, WARM_C};
use crate::larder::{Larder, Role, YeastForm};
use crate::measure::read::sentence::{heats, times as sentence_times, tokens};
use crate::measure::write::write_time;
use numerics::decimal::trimmed;
use numerics::quantity::{Duration, Range, Temperature};

/// The names of yeast and liquid in a stage.
pub fn wake_names(set: &Setting<'_>, sentence: &str) -> Option<(String, String)> {
    let stage = set.stage?;
    let yeast = |role| matches!(role, Role::Yeast(_));
    let yeast = told_with(stage, set.larder, sentence, yeast)
        .or_else(|| first_with(stage, set.larder, yeast))?;
    let liquid = told_with(stage, set.larder, sentence, |role| role == Role::Liquid)
        .or_else(|| most_liquid(stage, set.larder))?;
    Some((yeast, liquid))
}

/// Whether the first yeast of a stage goes in as it is.
pub fn needs_no_waking(stage: &Stage, larder: &Larder) -> bool {
    first_with(stage, larder, |role| {
        matches!(
            role,
            Role::Yeast(YeastForm::Instant | YeastForm::InstantOsmotolerant)
        )
    })
    .is_some()
}

/// The table of a mix.
pub fn mix(
    text: &str,
    lower: &str,
    times: &[Range<Duration>],
    set: &Setting<'_>,
    assumed: &mut Vec<(&'static str, String)>,
) -> String {
    let kneads =
        lower.contains("knead") && !lower.contains("no-knead") && !lower.contains("no knead")
            || lower.contains("work ")
            || lower.contains("hook");
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
    let speeds = speeds(text);
    let speed = speeds.first().copied().unwrap_or("low");
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
        // What is said once holds for what follows.
        let after = speeds
            .iter()
            .copied()
            .chain(std::iter::repeat(speeds.last().copied().unwrap_or(speed)));
        times
            .iter()
            .zip(after)
            .map(|(time, speed)| format!("{{ speed = \"{speed}\", {} }}", timing(*time)))
            .collect()
    };
    let mut table = format!("{{ by = \"{by}\", phases = [{}]", phases.join(", "));
    if set.last_mix {
        let liquid = set.stage.and_then(|stage| most_liquid(stage, set.larder));
        let stated = dough_heat(text);
        let range = stated.map_or_else(
            || {
                let [low, high] = set.usual.dough_c;
                if liquid.is_some() {
                    assumed.push((
                        "dough temperature",
                        format!(
                            "{}, as is usual for {}.",
                            both_of(low, high),
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

/// The speeds of the mixer that a sentence names, one for each of its times where it names so many: "on low for
/// 5 minutes, then on medium for 8". Of "medium-low" the first counts; a heat is no speed.
fn speeds(text: &str) -> Vec<&'static str> {
    let all = tokens(text);
    let ends: Vec<usize> = sentence_times(text)
        .iter()
        .map(|time| time.span.end)
        .collect();
    // The times that have ended before each speed, and the speed.
    let mut found: Vec<(usize, &'static str)> = Vec::new();
    for (at, token) in all.iter().enumerate() {
        let speed = match token.word() {
            "low" | "slow" | "lowest" => "low",
            "medium" | "moderate" => "medium",
            "high" | "fast" => "high",
            _ => continue,
        };
        let heat = all.get(at + 1..).is_some_and(|rest| {
            let mut words = rest.iter().filter(|next| !next.is_dash()).take(2);
            words.any(|next| matches!(next.word(), "heat" | "flame"))
        });
        let second = at >= 1 && all[at - 1].is_dash();
        if heat || second {
            continue;
        }
        let passed = ends.iter().filter(|end| **end <= token.span.start).count();
        // "Knead for 8 minutes on medium": what follows a time directly is its own.
        let own = passed > found.len() && passed == ends.len();
        found.push((if own { passed - 1 } else { passed }, speed));
    }
    let mut by_time: Vec<&'static str> = Vec::new();
    for time in 0..ends.len() {
        let named = found.iter().rfind(|(of, _)| *of <= time);
        if let Some((_, speed)) = named.or(found.first()) {
            by_time.push(speed);
        }
    }
    if by_time.is_empty() {
        by_time.extend(found.first().map(|(_, speed)| *speed));
    }
    by_time
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
pub fn rest(
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
        .reduce(|one, other| Range {
            // "Overnight, or up to 18 hours" is from the one to the other.
            low: if lower.contains(" or ") {
                shorter(one.low, other.low)
            } else if other.high > one.high {
                other.low
            } else {
                one.low
            },
            high: if other.high > one.high {
                other.high
            } else {
                one.high
            },
        })
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

/// The shorter of two times.
fn shorter(one: Duration, other: Duration) -> Duration {
    if other < one { other } else { one }
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
