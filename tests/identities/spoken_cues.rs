//! Cues made up at random: words of a kitchen, numbers with units, times that can be.

// Each test binary that takes this in uses some of it.
#![allow(dead_code)]

use edit::talk::track::Cue;
use proptest::prelude::*;
use std::time::Duration;

/// Numbers and units that belong together.
pub const WORDS: [(&str, &str); 14] = [
    ("245", "g"),
    ("2½", "cups"),
    ("1/4", "teaspoon"),
    ("seventy-five", "degrees"),
    ("18", "°C"),
    ("two", "tablespoons"),
    ("12–15", "minutes"),
    ("an", "hour"),
    ("0.8", "g,"),
    ("eighty", "minutes."),
    ("thirty-seven", "grams"),
    ("400", "Fahrenheit"),
    ("half", "pound"),
    ("10", "%"),
];

const PLAIN: [&str; 24] = [
    "the",
    "dough",
    "rises",
    "until",
    "it",
    "is",
    "doubled,",
    "then",
    "fold",
    "and",
    "turn",
    "it.",
    "with",
    "butter",
    "in",
    "pieces;",
    "a",
    "wreath",
    "over",
    "medium",
    "heat",
    "smells",
    "of",
    "preferment-and-cardamom",
];

/// Words of a cue; some are longer than any line.
fn words() -> impl Strategy<Value = String> {
    let one = prop_oneof![
        8 => prop::sample::select(PLAIN.to_vec()).prop_map(str::to_owned),
        3 => prop::sample::select(WORDS.to_vec()).prop_map(|(number, unit)| format!("{number} {unit}")),
        1 => "[a-zæøåé]{1,90}",
    ];
    let lines = prop::collection::vec(
        prop::collection::vec(one, 1..12).prop_map(|words| words.join(" ")),
        1..4,
    );
    lines.prop_map(|lines| lines.join("\n"))
}

/// Signs that a `WebVTT` file has to write as references.
fn signs() -> impl Strategy<Value = String> {
    prop::sample::select(vec![
        "", " & more", " <b>", " a < b", " -->", " &amp;", "\n350", " >",
    ])
    .prop_map(str::to_owned)
}

/// Cues in order, apart or touching; with speakers and signs for `WebVTT`.
pub fn cues(for_webvtt: bool) -> impl Strategy<Value = Vec<Cue>> {
    let speaker = prop::option::weighted(0.3, "[A-Z][a-z]{1,6}( [A-Z&][a-z]{1,8})?");
    let cue = (0..4000_u64, 900..9000_u64, words(), signs(), speaker);
    prop::collection::vec(cue, 1..12).prop_map(move |made| {
        let mut at = 0;
        let mut cues = Vec::new();
        for (pause, lasts, words, signs, speaker) in made {
            let from = at + pause;
            at = from + lasts;
            cues.push(Cue {
                from: Some(Duration::from_millis(from)),
                to: Some(Duration::from_millis(at)),
                text: if for_webvtt { words + &signs } else { words },
                speaker: speaker.filter(|_| for_webvtt),
                ..Cue::default()
            });
        }
        cues
    })
}
