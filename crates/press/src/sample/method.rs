//! The sample's steps: sentences in runs and a margin of every kind.

use edit::ledger::model::{Figure, MarginKind, MarginLine, Run, Section, StepLine};
use recipe::provenance::{Had, Origin};

use super::text;

use MarginKind::{Cold, Cue, Heat, Here, How, Time};

/// A margin line in short: its kind, what is printed, and the figure strings in it.
type Line = (MarginKind, &'static str, &'static [&'static str]);

/// Stages first, then products.
pub(super) fn sections() -> Vec<Section> {
    let mut number = 0;
    let mut section = |heading: &str, steps: &[(&'static str, &[Line])]| Section {
        heading: text(heading),
        steps: steps
            .iter()
            .map(|(sentence, margin)| {
                number += 1;
                step(number, sentence, margin)
            })
            .collect(),
    };
    vec![
        section("Sponge", SPONGE),
        section("Dough", DOUGH),
        section("Braid", BRAID),
        section("Tied buns with flaked almonds", BUNS),
    ]
}

const SPONGE: &[(&str, &[Line])] = &[
    (
        "Stir {9 g active dry yeast} into {60 g whole milk}, warmed to {41 °C / 106 °F}, with a \
         pinch of the sugar. Wait until it foams.",
        &[
            (Time, "5–10 min", &["5–10 min"]),
            (Heat, "milk 41 °C / 106 °F", &["41 °C / 106 °F"]),
            (Cue, "a layer of foam a finger thick", &[]),
        ],
    ),
    (
        "Beat in {180 g all-purpose flour}, {150 g whole milk} and {8 g granulated sugar} with a \
         wooden spoon until no dry flour is left.",
        &[
            (How, "by spoon, 2 min", &["2 min"]),
            (
                Cold,
                "milk 31 °C / 88 °F in a room of 21 °C / 70 °F",
                &["31 °C / 88 °F", "21 °C / 70 °F"],
            ),
            (Heat, "ends at 26 °C / 79 °F", &["26 °C / 79 °F"]),
        ],
    ),
    (
        "Cover and leave in a warm place until doubled and full of bubbles.",
        &[
            (Time, "45–75 min", &["45–75 min"]),
            (Heat, "warm place, 26 °C / 79 °F", &["26 °C / 79 °F"]),
            (Cue, "doubled, the top pitted with bubbles", &[]),
            (Here, "Studio: 58 min", &["58 min"]),
        ],
    ),
];

const DOUGH: &[(&str, &[Line])] = &[
    (
        "Take the eggs and the butter out of the refrigerator and cut the butter into pieces the \
         size of a walnut.",
        &[(Time, "60 min before mixing", &["60 min"])],
    ),
    (
        "Put {all of the sponge, 407 g}, {420 g all-purpose flour}, {150 g eggs}, {64 g \
         granulated sugar} and {11 g fine salt} in the mixer with the dough hook. Mix low until \
         it comes together, then medium until it is smooth and pulls from the side of the bowl.",
        &[
            (How, "mixer: low 3 min, medium 6 min", &["3 min", "6 min"]),
            (Cue, "smooth; pulls from the bowl", &[]),
        ],
    ),
    (
        "Add {180 g unsalted butter} a few pieces at a time, letting each lot disappear before \
         the next. The dough should end at {25–26 °C / 77–79 °F}.",
        &[
            (How, "mixer: medium 8 min", &["8 min"]),
            (
                Heat,
                "ends at 25–26 °C / 77–79 °F",
                &["25–26 °C / 77–79 °F"],
            ),
            (Cue, "glossy; a small piece stretches to a thin film", &[]),
            (Here, "Studio: 25.4 °C / 78 °F", &["25.4 °C / 78 °F"]),
        ],
    ),
    (
        "Cover and leave at room temperature.",
        &[
            (Time, "15–30 min", &["15–30 min"]),
            (Heat, "room, 21 °C / 70 °F", &["21 °C / 70 °F"]),
            (Cue, "a little puffed", &[]),
        ],
    ),
    (
        "Press flat on a tray, cover and chill until firm enough to handle.",
        &[
            (Time, "40–60 min", &["40–60 min"]),
            (Cold, "refrigerator, 4 °C / 39 °F", &["4 °C / 39 °F"]),
            (How, "3 cm / 1¼ in thick", &["3 cm / 1¼ in"]),
            (
                Cue,
                "firm to the finger, cool all through; dough 17 °C / 63 °F",
                &["17 °C / 63 °F"],
            ),
            (Here, "Studio: 52 min", &["52 min"]),
        ],
    ),
    (
        "On a bench dusted with {15 g all-purpose flour}, cut {3 pieces of 220 g} for the braid, \
         and {10 pieces of 48 g and 10 of 8 g} for the buns.",
        &[(Time, "12 min", &["12 min"])],
    ),
    (
        "Cover and let the pieces rest.",
        &[
            (Time, "10–15 min", &["10–15 min"]),
            (
                Cue,
                "relaxed: a piece rolls out without springing back",
                &[],
            ),
        ],
    ),
];

const BRAID: &[(&str, &[Line])] = &[
    (
        "Roll the three pieces into ropes of 35 cm, braid them, tuck the ends under and lay the \
         braid in the tin, greased with {8 g unsalted butter}.",
        &[(Time, "8 min", &["8 min"])],
    ),
    (
        "Cover and leave in a warm place until it stands a finger below the rim and a dent fills \
         slowly.",
        &[
            (Time, "50–85 min", &["50–85 min"]),
            (Heat, "warm place, 27 °C / 81 °F", &["27 °C / 81 °F"]),
            (
                Cue,
                "a dent fills slowly; 1 cm / ⅜ in below the rim",
                &["1 cm / ⅜ in"],
            ),
            (Here, "Studio: 1 h 2 min", &["1 h 2 min"]),
        ],
    ),
    (
        "Meanwhile heat the oven to {180 °C / 350 °F}.",
        &[
            (Time, "25 min", &["25 min"]),
            (Heat, "oven 180 °C / 350 °F, no fan", &["180 °C / 350 °F"]),
        ],
    ),
    (
        "Brush with {20 g cream}, sparing some for the buns.",
        &[(Time, "2 min", &["2 min"])],
    ),
    (
        "Bake on the lower third until chestnut brown and {89 °C / 192 °F} in the middle.",
        &[
            (
                Time,
                "32–40 min; look from 30 min",
                &["32–40 min", "30 min"],
            ),
            (Heat, "oven 180 °C / 350 °F, no fan", &["180 °C / 350 °F"]),
            (Heat, "core 89 °C / 192 °F", &["89 °C / 192 °F"]),
            (Cue, "chestnut brown all over", &[]),
            (How, "lower third", &[]),
            (
                Here,
                "Studio: 37 min, core 89 °C / 192 °F",
                &["37 min", "89 °C / 192 °F"],
            ),
        ],
    ),
    (
        "Turn out after 5 minutes and cool on a rack before slicing.",
        &[
            (Time, "60–90 min", &["60–90 min"]),
            (
                Cue,
                "cool to the hand underneath; 30 °C / 86 °F",
                &["30 °C / 86 °F"],
            ),
        ],
    ),
];

const BUNS: &[(&str, &[Line])] = &[
    (
        "Roll each 48 g piece into a ball and each 8 g piece into a strip of 20 cm; tie the strip \
         round the ball with its ends underneath. Set on the lined tray, 5 cm apart.",
        &[(Time, "18 min", &["18 min"])],
    ),
    (
        "Cover and leave in a warm place until puffed and trembling.",
        &[
            (Time, "50–85 min", &["50–85 min"]),
            (Heat, "warm place, 27 °C / 81 °F", &["27 °C / 81 °F"]),
            (
                Cue,
                "puffed; tremble when the tray is moved; 1.8 times",
                &["1.8 times"],
            ),
        ],
    ),
    (
        "Brush with the rest of the cream and scatter {15 g flaked almonds with their skin, \
         lightly toasted and cooled} on top.",
        &[(Time, "4 min", &["4 min"])],
    ),
    (
        "Bake in the middle until golden and {89 °C / 192 °F} inside.",
        &[
            (
                Time,
                "13–17 min; look from 12 min",
                &["13–17 min", "12 min"],
            ),
            (Heat, "oven 180 °C / 350 °F, no fan", &["180 °C / 350 °F"]),
            (Heat, "core 89 °C / 192 °F", &["89 °C / 192 °F"]),
            (Cue, "golden brown, paler where the strip crosses", &[]),
        ],
    ),
    (
        "Cool on a rack.",
        &[
            (Time, "20–30 min", &["20–30 min"]),
            (Cue, "warm, not hot, in the hand", &[]),
        ],
    ),
];

/// A step from a sentence in which figures stand in braces.
fn step(number: usize, sentence: &str, margin: &[Line]) -> StepLine {
    let mut runs = Vec::new();
    let mut rest = sentence;
    while let Some((words, tail)) = rest.split_once('{') {
        let (shown, after) = tail.split_once('}').unwrap_or((tail, ""));
        if !words.is_empty() {
            runs.push(Run::Words(text(words)));
        }
        runs.push(Run::Figure(figure(number, shown)));
        rest = after;
    }
    if !rest.is_empty() {
        runs.push(Run::Words(text(rest)));
    }
    let margin = margin
        .iter()
        .map(|&(kind, shown, figures)| MarginLine {
            kind,
            shown: text(shown),
            figures: figures.iter().map(|shown| figure(number, shown)).collect(),
        })
        .collect();
    StepLine {
        number,
        runs,
        margin,
    }
}

/// A figure of a step; the sample leaves its value out, because no output reads it.
fn figure(step: usize, shown: &str) -> Figure {
    Figure {
        name: format!("step.{step}"),
        value: 0.0,
        unit: "1",
        shown: text(shown),
        origin: Origin::new("the recipe", Had::Written),
    }
}
