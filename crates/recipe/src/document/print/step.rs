//! Prints a step: its sentence, what is done, how one sees the end.

use super::text::{Braces, string, strings};
use crate::document::model::{Action, OvenPhase, Phase, Step, Timing, Until};
use crate::measure::write::{
    write_height, write_length, write_multiple, write_temperature, write_temperature_range,
    write_time, write_time_range,
};

/// A step under its heading.
pub fn step(step: &Step) -> String {
    let mut out = Braces::default();
    out.raw("do", string(&step.text.value));
    out.raw(step.action.word(), action(&step.action));
    if let Some(found) = &step.until {
        out.raw("until", until(found));
    }
    out.lines()
}

/// How one sees the end.
fn until(until: &Until) -> String {
    Braces::default()
        .maybe("see", until.see.as_ref().map(|see| &see.value))
        .maybe(
            "volume",
            until.volume.as_ref().map(|v| write_multiple(v.value)),
        )
        .maybe(
            "height",
            until.height.as_ref().map(|h| write_height(h.value)),
        )
        .maybe(
            "core",
            until.core.as_ref().map(|t| write_temperature(t.value)),
        )
        .maybe(
            "dough",
            until.dough.as_ref().map(|t| write_temperature(t.value)),
        )
        .done()
}

/// Adds `for` and `range`.
fn timing(out: &mut Braces, timing: &Timing) {
    out.text("for", write_time(timing.usual.value));
    out.maybe(
        "range",
        timing
            .range
            .as_ref()
            .map(|range| write_time_range(range.value)),
    );
}

/// The table of an action.
fn action(action: &Action) -> String {
    let mut out = Braces::default();
    match action {
        Action::Ready {
            what,
            before,
            timing: time,
        } => {
            out.raw("what", strings(what.iter().map(|name| &name.value)));
            out.text("before", write_time(before.value));
            timing(&mut out, time);
        }
        Action::Wake {
            yeast,
            liquid,
            vessel,
            timing: time,
        } => {
            out.text("yeast", &yeast.value)
                .text("liquid", &liquid.value);
            out.text("in", vessel.value.word());
            timing(&mut out, time);
        }
        Action::Mix {
            by,
            phases,
            dough,
            adjust,
        } => {
            out.text("by", by.value.word());
            let phases: Vec<String> = phases.iter().map(mix_phase).collect();
            out.raw("phases", format!("[{}]", phases.join(", ")));
            out.maybe(
                "dough",
                dough
                    .as_ref()
                    .map(|range| write_temperature_range(range.value)),
            );
            out.maybe("adjust", adjust.as_ref().map(|name| &name.value));
        }
        Action::Heat { to, timing: time } | Action::Preheat { to, timing: time } => {
            out.text("to", write_temperature(to.value));
            timing(&mut out, time);
        }
        Action::Rest {
            timing: time,
            at,
            place,
            vessel,
            thick,
            covered,
        } => {
            timing(&mut out, time);
            out.text("at", write_temperature(at.value))
                .text("where", place.value.word());
            out.text("in", &vessel.value);
            out.maybe(
                "thick",
                thick.as_ref().map(|length| write_length(length.value)),
            );
            out.maybe("covered", covered.as_ref().map(|with| &with.value));
        }
        Action::Fold {
            timing: time,
            into_rest,
        } => {
            timing(&mut out, time);
            let times: Vec<String> = into_rest
                .iter()
                .map(|time| write_time(time.value))
                .collect();
            out.raw("into-rest", strings(&times));
        }
        Action::Divide { into, timing: time } => {
            out.raw("into", strings(into.iter().map(|name| &name.value)));
            timing(&mut out, time);
        }
        Action::Shape { timing: time } | Action::Finish { timing: time } => timing(&mut out, time),
        Action::Bake {
            phases,
            fan,
            rack,
            core,
            check,
        } => {
            let phases: Vec<String> = phases.iter().map(oven_phase).collect();
            out.raw("phases", format!("[{}]", phases.join(", ")));
            out.raw("fan", fan.value.to_string());
            out.maybe("rack", rack.as_ref().map(|rack| &rack.value));
            out.maybe(
                "core",
                core.as_ref().map(|core| write_temperature(core.value)),
            );
            out.maybe("check", check.as_ref().map(|time| write_time(time.value)));
        }
        Action::Cool {
            timing: time,
            vessel,
            at,
        } => {
            timing(&mut out, time);
            out.text("in", &vessel.value)
                .text("at", write_temperature(at.value));
        }
    }
    out.done()
}

/// So many minutes at one speed.
fn mix_phase(phase: &Phase) -> String {
    let mut out = Braces::default();
    out.text("speed", phase.speed.value.word());
    timing(&mut out, &phase.timing);
    out.done()
}

/// So many minutes at one oven setting.
fn oven_phase(phase: &OvenPhase) -> String {
    let mut out = Braces::default();
    out.text("at", write_temperature(phase.at.value));
    timing(&mut out, &phase.timing);
    for (key, set) in [("steam", &phase.steam), ("foil", &phase.foil)] {
        if let Some(set) = set {
            out.raw(key, set.value.to_string());
        }
    }
    out.done()
}
