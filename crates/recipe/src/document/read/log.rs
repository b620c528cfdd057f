//! Reads a log of bakes.

use super::fields::Fields;
use super::kind;
use super::value::Reader;
use crate::document::model::{LogBake, LogFile, LogReading, Logged};
use crate::source::{Diagnostic, Located, code};
use numerics::quantity::Duration;

/// Reads the top of a log.
pub fn log(reader: &mut Reader<'_>, mut fields: Fields<'_>, format: i64) -> LogFile {
    let name = fields.text(reader, "log");
    let name = fields.must(reader, "log", "\"same-day loaf\"", name);
    let bakes = super::each(reader, &mut fields, "bake", "This bake", bake);
    if bakes.is_empty() && !reader.broken {
        reader.breaks(
            Diagnostic::at(code::KEY_MISSING, fields.span, "The log holds no bake.")
                .hint("Write [[bake]] with on = 2026-01-12 and readings = [{ step = 3, after = \"50 min\", sign = \"there\" }]."),
        );
    }
    fields.finish(reader);
    LogFile {
        format,
        name,
        bakes,
    }
}

fn bake(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> LogBake {
    let on = fields.date(reader, "on");
    let room = fields.quantity(reader, "room", &kind::ROOM);
    let readings = super::each(reader, &mut fields, "readings", "This reading", reading);
    let bake = LogBake {
        on: fields.must(reader, "on", "2026-01-12", on),
        room,
        readings: readings.into_iter().flatten().collect(),
        span: fields.span,
    };
    fields.finish(reader);
    bake
}

/// Whether a sign is there.
#[derive(Clone, Copy)]
enum Sign {
    There,
    NotYet,
}

const SIGNS: [Sign; 2] = [Sign::There, Sign::NotYet];

const fn sign_word(sign: Sign) -> &'static str {
    match sign {
        Sign::There => "there",
        Sign::NotYet => "not yet",
    }
}

const fn with_word(dial: bool) -> &'static str {
    if dial { "dial" } else { "probe" }
}

/// Reads one reading: one of six things.
fn reading(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Option<LogReading> {
    let step = fields.whole(reader, "step");
    if step.is_none() {
        fields.must_have(reader, "step", "3");
    }
    let after = fields.quantity(reader, "after", &kind::SPAN);
    let dial = fields.word(reader, "with", &[false, true], with_word);
    let what = [
        fields
            .quantity(reader, "inside", &kind::CORE)
            .map(|at| Logged::Inside(at.value)),
        fields
            .quantity(reader, "air", &kind::READ_AIR)
            .map(|at| Logged::Air(at.value)),
        fields
            .quantity(reader, "grown", &kind::MULTIPLE)
            .map(|times| Logged::Grown(times.value)),
        fields
            .word(reader, "sign", &SIGNS, sign_word)
            .map(|sign| match sign.value {
                Sign::There => Logged::There,
                Sign::NotYet => Logged::NotYet,
            }),
        fields
            .quantity(reader, "lost", &kind::SHARE)
            .map(|share| Logged::Lost(share.value)),
    ];
    let lasted: Option<Located<Duration>> = fields.quantity(reader, "lasted", &kind::SPAN);
    let named = ["inside", "air", "grown", "sign", "lost", "lasted"];
    let written = named.into_iter().filter(|key| fields.has(key)).count();
    if written != 1 {
        let says = if written == 0 {
            "nothing"
        } else {
            "several things"
        };
        reader.breaks(
            Diagnostic::at(
                code::READING_UNCLEAR,
                fields.span,
                format!("This reading says {says}; one reading is one thing."),
            )
            .hint("Write one of inside = \"25 °C\", air = \"27 °C\", grown = \"1.5 times\", sign = \"there\" or \"not yet\", lost = \"11 %\", lasted = \"15 min\"."),
        );
    } else if lasted.is_none() {
        fields.must_have(reader, "after", "\"50 min\"");
    }
    let span = fields.span;
    fields.finish(reader);
    let what = what.into_iter().flatten().next();
    let (after, what) = match (what, lasted) {
        (Some(what), _) => (after?.value, what),
        (None, Some(lasted)) => (lasted.value, Logged::Lasted),
        (None, None) => return None,
    };
    Some(LogReading {
        step: step?,
        after,
        what,
        dial: dial.is_some_and(|dial| dial.value),
        span,
    })
}
