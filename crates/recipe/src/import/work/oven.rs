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
    let here = beside_the_fans(text)
        .or_else(|| oven_heats(text).first().map(|said| said.value))
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
    let speaks = lower.contains("fan") || lower.contains("convection");
    // "225 °C (fan 200 °C)": what is written down is the oven without it.
    let fan = speaks && beside_the_fans(text).is_none();
    if !speaks {
        assumed.push(("fan", "off, as the text does not speak of one.".to_owned()));
    }
    let core = core(text).map_or_else(String::new, |core| {
        format!(", core = {}", quoted(&degrees(core.low.celsius())))
    });
    format!("{{ phases = [{}], fan = {fan}{core} }}", phases.join(", "))
}

/// Of two heats of which one is said for a fan oven, the other: "225 °C (fan 200 °C)" is 225 °C.
fn beside_the_fans(text: &str) -> Option<Range<Temperature>> {
    let is_fan = |word: &str| word.starts_with("fan") || word == "convection";
    let parts = text.split(['(', ')', ',', ';', '/']);
    let (fans, plain): (Vec<&str>, Vec<&str>) = parts.partition(|part| {
        let lower = part.to_lowercase();
        lower.split(|c: char| !c.is_alphanumeric()).any(is_fan)
    });
    let first = |parts: &[&str]| {
        let mut heats = parts.iter().flat_map(|part| oven_heats(part));
        heats.next().map(|said| said.value)
    };
    first(&fans).and(first(&plain))
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

#[cfg(test)]
mod tests {
    use super::beside_the_fans;

    #[test]
    fn of_two_heats_the_one_without_the_fan_is_meant() {
        for (text, celsius) in [
            ("Egg wash, bake at 225C (fan 200C) 8-10 min.", Some(225.0)),
            (
                "Bake at 180 °C fan / 200 °C conventional for 30 minutes.",
                Some(200.0),
            ),
            (
                "Bake at 200 °C (180 °C fan, gas 6) for 30 minutes.",
                Some(200.0),
            ),
            ("Bake at 180 °C with the fan on for 30 minutes.", None),
            ("Bake at 220 °C for 10 minutes, then at 180 °C.", None),
        ] {
            let heat = beside_the_fans(text).map(|heat| heat.low.celsius().round());
            assert_eq!(heat, celsius, "{text}");
        }
    }
}
