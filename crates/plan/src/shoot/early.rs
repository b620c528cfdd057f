//! What is said of a state that no work of the day can have come to in time, and of a rise that holds change.

use super::batch::{Need, filmed_between};
use super::code;
use super::evening::{of, ways};
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
    if !need.feed.is_empty() || !ways(processes, need, Some(from)).is_empty() {
        return;
    }
    let point = &process.points[need.point];
    let ready = from + point.age_min;
    let scene = &scenes[need.scene];
    let entry = &file.scenes[need.scene];
    let written = entry.needs.get(need.nth);
    let name = written.map_or_else(|| point.name(), |state| state.value.clone());
    let mut message = format!(
        "{} begins at {}; with work from {} on, “{name}” is ready at {} at the earliest.",
        scene.name,
        midnight.clock(scene.at_min),
        midnight.clock(from),
        midnight.clock_day(ready)
    );
    let mut hint = format!("Film it from {} on", midnight.clock_day(ready));
    let overnight = of(processes, process, need.point)
        .find_map(|(_, process)| Some((filmed_between(process, need)?, process.night.as_ref()?)));
    if let Some(((least, most), night)) = overnight {
        message += &format!(
            " Begun the evening before, it must be in the cold by midnight, as “{}”, and out of it no sooner than {}: then it can be filmed from {} to {}.",
            process.points[night.until].name(),
            midnight.clock(from),
            midnight.clock_day(least),
            midnight.clock_day(most)
        );
        hint += &format!(
            ", or between {} and {} with a dough that is begun the evening before",
            midnight.clock_day(least),
            midnight.clock_day(most)
        );
    }
    let begin = scene.at_min - point.age_min;
    if begin >= 0 {
        hint += &format!(", or begin work at {}.", midnight.clock(begin));
    } else {
        hint += ".";
        message += &format!(
            " For its scene it would be begun at {} and worked through the night.",
            midnight.clock_day(begin)
        );
    }
    let span = written.map_or(entry.span, |written| written.span);
    said.push(Diagnostic::at(code::STATE_NOT_READY, span, message).hint(hint));
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
