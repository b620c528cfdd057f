//! What is said of a state that no work of the day can have come to in time, and of a rise that holds change.

use super::batch::{Need, window};
use super::code;
use super::held::Changed;
use super::model::ScenePlan;
use super::plan::Stock;
use super::process::Process;
use super::scenes::{Midnight, process_of};
use super::words::spell;
use recipe::document::model::SceneFile;
use recipe::source::Diagnostic;

/// Says of a need that no work of the day can have come to it.
pub fn early(
    need: &Need,
    processes: &[Process],
    scenes: &[ScenePlan],
    stock: &Stock,
    midnight: &Midnight,
    file: &SceneFile,
    said: &mut Vec<Diagnostic>,
) {
    let Some(from) = stock.work_from else {
        return;
    };
    let process = process_of(processes, need);
    // What stands overnight is begun the evening before.
    if !need.feed.is_empty() || window(process, &[need], Some(from)).is_some() {
        return;
    }
    let point = &process.points[need.point];
    let ready = from + point.age_min;
    let scene = &scenes[need.scene];
    let span = file.scenes[need.scene]
        .needs
        .get(need.nth)
        .map_or(file.scenes[need.scene].span, |written| written.span);
    said.push(
        Diagnostic::at(
            code::STATE_NOT_READY,
            span,
            format!(
                "{} begins at {}; with work from {} on, “{}” is ready at {} at the earliest.",
                scene.name,
                midnight.clock(scene.at_min),
                midnight.clock(from),
                point.name(),
                midnight.clock(ready)
            ),
        )
        .hint(format!(
            "Film it from {} on, or begin work at {}.",
            midnight.clock(ready),
            midnight.clock(scene.at_min - point.age_min)
        )),
    );
}

/// Says of a rise after holds what the plan makes of it.
pub fn changed(one: &Changed) -> Diagnostic {
    let Changed {
        batch,
        of,
        rest,
        usual_min,
        takes_min,
        held_min,
        planned,
    } = one;
    let what = rest.map_or_else(
        || "the last rise".to_owned(),
        |number| format!("the rest of step {number}"),
    );
    let message = format!(
        "Batch {}, {of}: after {} more in the refrigerator than written {what} takes some {takes_min} min here, not {usual_min}.",
        batch + 1,
        spell(*held_min)
    );
    let said = Diagnostic::whole(code::HOLD_CHANGES_RISE, message);
    let (apart, longer) = ((takes_min - usual_min).abs(), takes_min > usual_min);
    said.hint(match (planned, longer) {
        (true, true) => format!("The plan takes it out {apart} min sooner; look at the dough, and let the dent decide."),
        (true, false) => format!("The plan leaves it in the cold {apart} min longer; look at the dough, and let the dent decide."),
        (false, true) => format!(
            "It would have to come out {apart} min sooner, and scenes and bakes leave no room for that: film it later, or give it a warmer place."
        ),
        (false, false) => format!(
            "It may be ready {apart} min before it is wanted: look at it sooner, and let it rise in a cooler place."
        ),
    })
}
