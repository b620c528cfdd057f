//! Reads a step: its sentence, the one thing it does, and how one sees the end.

use super::fields::Fields;
use super::kind;
use super::value::Reader;
use crate::document::model::{
    Action, Material, OvenPhase, Phase, Speed, Standing, Step, Timing, Tool, Until,
};
use crate::source::{Diagnostic, Located, code, near};
use numerics::quantity::Duration;

/// The keys that say what is done.
pub const ACTIONS: [&str; 12] = [
    "ready", "wake", "mix", "heat", "rest", "fold", "divide", "shape", "finish", "preheat", "bake",
    "cool",
];

/// Keys of a step that are looked at for a slip; no step has so many.
const MOST_KEYS: usize = 40;

/// Reads every step of a stage or product.
pub fn steps(reader: &mut Reader<'_>, parent: &mut Fields<'_>) -> Vec<Step> {
    let tables = parent
        .tables(reader, "step", "This step")
        .unwrap_or_default();
    tables
        .into_iter()
        .map(|table| step(reader, table))
        .collect()
}

/// Reads one step.
fn step(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Step {
    let text = fields.text(reader, "do");
    let text = fields.must(reader, "do", "\"Cover and leave until doubled.\"", text);
    let present: Vec<&'static str> = ACTIONS.into_iter().filter(|key| fields.has(key)).collect();
    let action = match present.first() {
        Some(key) => action(reader, &mut fields, key),
        None => None,
    };
    if let [first, second, ..] = present[..] {
        let span = fields.key_span(second).unwrap_or(fields.span);
        let mut diagnostic = Diagnostic::at(
            code::STEP_WITH_TWO_ACTIONS,
            span,
            format!("This step says both `{first}` and `{second}`; a step does one thing."),
        )
        .hint("Make two steps of it, each with its own sentence.");
        if let Some(span) = fields.key_span(first) {
            diagnostic = diagnostic.label(span, "the other");
        }
        reader.breaks(diagnostic);
    }
    let misspelt = fields.entries().take(MOST_KEYS).any(|(key, ..)| {
        !ACTIONS.contains(&&*key.value) && near(&key.value, ACTIONS).is_some() && key.value != "do"
    });
    if present.is_empty() && misspelt {
        reader.broken = true;
    } else if present.is_empty() {
        reader.breaks(
            Diagnostic::at(
                code::STEP_WITHOUT_ACTION,
                fields.span,
                "This step does not say what is done in a way that can be measured.",
            )
            .hint("Add one of: ready, wake, mix, heat, rest, fold, divide, shape, finish, preheat, bake or cool; small work by hand is finish = { for = \"2 min\" }."),
        );
    }
    let until = fields
        .table(reader, "until", "`until`")
        .map(|table| until(reader, table));
    let span = fields.span;
    fields.finish(reader);
    Step {
        text,
        action: action.unwrap_or_else(nothing_done),
        until,
        span,
    }
}

/// Stands in for an action that could not be read.
fn nothing_done() -> Action {
    let usual = Located::new(Duration::ZERO, crate::source::Span::default());
    Action::Finish {
        timing: Timing { usual, range: None },
    }
}

/// Reads how one sees the end.
fn until(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Until {
    let found = Until {
        see: fields.text(reader, "see"),
        volume: fields.quantity(reader, "volume", &kind::MULTIPLE),
        height: fields.quantity(reader, "height", &kind::HEIGHT),
        core: fields.quantity(reader, "core", &kind::CORE),
        dough: fields.quantity(reader, "dough", &kind::DOUGH),
        span: fields.span,
    };
    fields.finish(reader);
    found
}

/// Reads `for`, without a range: minutes of hands.
fn minutes(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Timing {
    minutes_like("\"5 min\"", reader, fields)
}

/// Reads `for`; `example`: what one may be.
fn minutes_like(example: &'static str, reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Timing {
    let usual = fields.quantity(reader, "for", &kind::TIME);
    Timing {
        usual: fields.must(reader, "for", example, usual),
        range: None,
    }
}

/// Words of a dough that stands bare: for it `covered` is left out.
const BARE: [&str; 7] = ["no", "none", "nothing", "open", "bare", "uncovered", "not"];

/// Reads what a dough is covered with; a word that says it is not is refused.
fn covered(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Option<Located<String>> {
    let written = fields.text(reader, "covered")?;
    let bare = BARE
        .iter()
        .any(|word| written.value.trim().eq_ignore_ascii_case(word));
    if bare {
        reader.breaks(
            Diagnostic::at(
                code::WORD_UNKNOWN,
                written.span,
                format!(
                    "`covered` says with what; “{}” covers nothing.",
                    written.value
                ),
            )
            .hint("Leave `covered` out where the dough stands bare."),
        );
    }
    Some(written)
}

/// Reads `for` and `range`.
fn timing(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Timing {
    let mut timing = minutes_like("\"55 min\"", reader, fields);
    timing.range = fields.quantity(reader, "range", &kind::TIME_RANGE);
    if let Some(range) = &timing.range
        && timing.usual.value > Duration::ZERO
        && !range.value.holds(timing.usual.value)
    {
        reader.said.push(
            Diagnostic::at(
                code::RANGE_MISSES_USUAL,
                range.span,
                "The range does not hold the usual time.",
            )
            .label(timing.usual.span, "the usual time")
            .hint("Write as usual what the test bakes took, and a range that holds it."),
        );
    }
    timing
}

/// Reads what is done.
fn action(reader: &mut Reader<'_>, step: &mut Fields<'_>, key: &'static str) -> Option<Action> {
    let mut fields = step.table(reader, key, &format!("`{key}`"))?;
    let action = match key {
        "ready" => {
            let what = names(reader, &mut fields, "what", "[\"eggs\", \"butter\"]");
            let before = fields.quantity(reader, "before", &kind::TIME);
            let before = fields.must(reader, "before", "\"60 min\"", before);
            Action::Ready {
                what,
                before,
                timing: minutes(reader, &mut fields),
            }
        }
        "wake" => {
            let yeast = fields.text(reader, "yeast");
            let liquid = fields.text(reader, "liquid");
            let vessel = fields.word(reader, "in", &Material::ALL, Material::word);
            Action::Wake {
                yeast: fields.must(reader, "yeast", "\"yeast\"", yeast),
                liquid: fields.must(reader, "liquid", "\"milk\"", liquid),
                vessel: fields.must(reader, "in", "\"glass\"", vessel),
                timing: timing(reader, &mut fields),
            }
        }
        "mix" => {
            let by = fields.word(reader, "by", &Tool::ALL, Tool::word);
            Action::Mix {
                by: fields.must(reader, "by", "\"mixer\"", by),
                phases: mix_phases(reader, &mut fields),
                dough: fields.quantity(reader, "dough", &kind::MIXED),
                adjust: fields.text(reader, "adjust"),
            }
        }
        "heat" => {
            let to = fields.quantity(reader, "to", &kind::PAN);
            Action::Heat {
                to: fields.must(reader, "to", "\"65 °C\"", to),
                timing: timing(reader, &mut fields),
            }
        }
        "rest" => {
            let timing = timing(reader, &mut fields);
            let at = fields.quantity(reader, "at", &kind::STANDING);
            let place = fields.word(reader, "where", &Standing::ALL, Standing::word);
            let vessel = fields.text(reader, "in");
            Action::Rest {
                timing,
                at: fields.must(reader, "at", "\"26 °C\"", at),
                place: fields.must(reader, "where", "\"warm place\"", place),
                vessel: fields.must(reader, "in", "\"bowl\"", vessel),
                thick: fields.quantity(reader, "thick", &kind::THICK),
                covered: covered(reader, &mut fields),
            }
        }
        "fold" => Action::Fold {
            timing: minutes(reader, &mut fields),
            into_rest: {
                fields.must_have(reader, "into-rest", "[\"30 min\"]");
                fields
                    .quantities(reader, "into-rest", &kind::TIME)
                    .unwrap_or_default()
            },
        },
        "divide" => Action::Divide {
            into: names(reader, &mut fields, "into", "[\"loaf\"]"),
            timing: minutes(reader, &mut fields),
        },
        "shape" => Action::Shape {
            timing: minutes(reader, &mut fields),
        },
        "finish" => Action::Finish {
            timing: minutes(reader, &mut fields),
        },
        "preheat" => {
            let to = fields.quantity(reader, "to", &kind::OVEN);
            Action::Preheat {
                to: fields.must(reader, "to", "\"180 °C\"", to),
                timing: minutes(reader, &mut fields),
            }
        }
        "bake" => {
            let phases = oven_phases(reader, &mut fields);
            let fan = fields.boolean(reader, "fan");
            Action::Bake {
                phases,
                fan: fields.must(reader, "fan", "false", fan),
                rack: fields.text(reader, "rack"),
                core: fields.quantity(reader, "core", &kind::CORE),
                check: fields.quantity(reader, "check", &kind::OVEN_TIME),
            }
        }
        _ => {
            let timing = timing(reader, &mut fields);
            let vessel = fields.text(reader, "in");
            let at = fields.quantity(reader, "at", &kind::STANDING);
            Action::Cool {
                timing,
                vessel: fields.must(reader, "in", "\"rack\"", vessel),
                at: fields.must(reader, "at", "\"21 °C\"", at),
            }
        }
    };
    fields.finish(reader);
    Some(action)
}

/// Reads a list of names that must be there.
fn names(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
    key: &'static str,
    example: &'static str,
) -> Vec<Located<String>> {
    fields.must_have(reader, key, example);
    fields.texts(reader, key).unwrap_or_default()
}

/// Reads speeds and minutes.
fn mix_phases(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Vec<Phase> {
    const EXAMPLE: &str = "[{ speed = \"low\", for = \"3 min\" }]";
    phases(reader, fields, EXAMPLE)
        .into_iter()
        .map(|mut phase| {
            let speed = phase.word(reader, "speed", &Speed::ALL, Speed::word);
            let speed = phase.must(reader, "speed", "\"low\"", speed);
            let timing = timing(reader, &mut phase);
            phase.finish(reader);
            Phase { speed, timing }
        })
        .collect()
}

/// Reads oven settings and minutes.
fn oven_phases(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Vec<OvenPhase> {
    const EXAMPLE: &str = "[{ at = \"180 °C\", for = \"36 min\" }]";
    phases(reader, fields, EXAMPLE)
        .into_iter()
        .map(|mut phase| {
            let at = phase.quantity(reader, "at", &kind::OVEN);
            let at = phase.must(reader, "at", "\"180 °C\"", at);
            let timing = timing(reader, &mut phase);
            let steam = phase.boolean(reader, "steam");
            let foil = phase.boolean(reader, "foil");
            phase.finish(reader);
            OvenPhase {
                at,
                timing,
                steam,
                foil,
            }
        })
        .collect()
}

/// The tables of a list of phases, of which one at least is wanted.
fn phases<'a>(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'a>,
    example: &'static str,
) -> Vec<Fields<'a>> {
    fields.must_have(reader, "phases", example);
    let tables = fields.tables(reader, "phases", "This phase");
    if tables.as_ref().is_some_and(Vec::is_empty) {
        no_phases(reader, fields, example);
    }
    tables.unwrap_or_default()
}

/// A list of phases with nothing in it.
fn no_phases(reader: &mut Reader<'_>, fields: &Fields<'_>, example: &str) {
    let span = fields.key_span("phases").unwrap_or(fields.span);
    reader.breaks(
        Diagnostic::at(
            code::KEY_MISSING,
            span,
            "`phases` is an empty list; at least one is wanted.",
        )
        .hint(format!("Write phases = {example}.")),
    );
}
