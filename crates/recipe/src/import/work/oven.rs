//! Work with the oven: its heat, the phases of a bake, the middle of the bread.

use super::Setting;
use super::said::{both, degrees, dial, said, span, timing};
use crate::import::clause::{oven_heats, times_of};
use crate::import::sheet::quoted;
use crate::import::usual::SMALL_G;
use crate::measure::read::sentence::heats;
use numerics::quantity::{Range, Temperature};

/// The oven of a sentence, or what came before, or the usual.
pub fn oven(
    text: &str,
    set: &mut Setting<'_>,
    assumed: &mut Vec<(&'static str, String)>,
) -> Range<Temperature> {
    let here = oven_heats(text)
        .first()
        .map(|said| said.value)
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
pub fn bake(
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
            at = Some(heat.value);
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
pub fn split_bake(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    for sentence in crate::import::clause::sentences(text) {
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
