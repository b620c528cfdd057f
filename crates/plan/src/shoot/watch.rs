//! What a planned filming day asks of oven, refrigerator and people, said where it asks too much.

use super::code;
use super::model::FilmDay;
use super::night::night;
use super::plan::Inputs;
use super::scenes::Midnight;
use crate::timetable::{Entry, Resource};
use recipe::source::{Diagnostic, listed};
use std::collections::BTreeMap;

/// A meal is due so long after the call (common practice of film crews; agreements differ), minutes.
const MEAL_DUE_MIN: i64 = 360;
/// What a door that is opened costs the bread inside (common practice), minutes.
const OPENED_MIN: i64 = 2;
/// What takes no longer fits between while a mixer runs (ours), minutes.
const BETWEEN_MIN: i64 = 5;
/// So many cases of one sort are told one by one.
const MOST_TOLD: usize = 4;

/// Says everything.
pub fn watch(
    inputs: &Inputs<'_>,
    day: &mut FilmDay,
    midnight: &Midnight,
    said: &mut Vec<Diagnostic>,
) {
    ovens(inputs, day, midnight, said);
    refrigerator(inputs, day, midnight, said);
    meal(inputs, day, midnight, said);
    hands(inputs, day, midnight, said);
    said.extend(night(day, inputs.stock.work_from, midnight));
}

fn told(mut cases: Vec<String>) -> String {
    let more = cases.len().saturating_sub(MOST_TOLD);
    cases.truncate(MOST_TOLD);
    let mut words = cases.join("; ");
    if more > 0 {
        words += &format!("; and {more} more");
    }
    words
}

fn ovens(inputs: &Inputs<'_>, day: &FilmDay, midnight: &Midnight, said: &mut Vec<Diagnostic>) {
    let bread = |product: usize| inputs.recipe.products[product].name.value.as_str();
    for bake in day.bakes.iter().filter(|bake| bake.late_min > 0) {
        let late = bake.late_min;
        let wanted = midnight.clock(bake.from_min - late);
        let name = format!("The {} of batch {}", bread(bake.product), bake.batch + 1);
        let (free, ends) = (midnight.clock(bake.from_min), midnight.clock(bake.to_min));
        let Some(scene) = bake.for_scene else {
            said.push(
                Diagnostic::whole(
                    code::OVEN_NOT_FREE,
                    format!("{name}, which no scene waits for, keeps until {wanted}, and the oven has room at {free} only."),
                )
                .hint("Write ovens = 2 at the top of the file of scenes, or give its dough away."),
            );
            continue;
        };
        let plan = &day.scenes[scene];
        let entry = &inputs.file.scenes[scene];
        said.push(
            Diagnostic::at(
                code::OVEN_NOT_FREE,
                entry.span,
                format!(
                    "{name} should go in at {wanted} for {}, and the oven is full or at another temperature until {free}. It is out at {ends}: {late} min less than it needs until the scene at {}.",
                    plan.name,
                    midnight.clock(plan.at_min)
                ),
            )
            .hint(format!(
                "Bring a second oven (ovens = 2 at the top of the file of scenes), or film {} at {}.",
                plan.name,
                midnight.clock(plan.at_min + late)
            )),
        );
    }
    let mut opened: BTreeMap<(i64, usize), Vec<String>> = BTreeMap::new();
    for bake in &day.bakes {
        for at in [bake.from_min, bake.to_min] {
            for other in day
                .bakes
                .iter()
                .filter(|other| other.oven == bake.oven && other.from_min < at && at < other.to_min)
            {
                let inside = format!("the {} of batch {}", bread(other.product), other.batch + 1);
                let known = opened.entry((at, bake.oven)).or_default();
                if !known.contains(&inside) {
                    known.push(inside);
                }
            }
        }
    }
    if !opened.is_empty() {
        let cases = opened
            .iter()
            .map(|((at, _), inside)| {
                let inside: Vec<&str> = inside.iter().map(String::as_str).collect();
                format!("at {} on {}", midnight.clock(*at), listed(&inside, "and"))
            })
            .collect();
        said.push(
            Diagnostic::whole(
                code::OVEN_OPENED,
                format!(
                    "The oven is opened while bread bakes in it: {}. Each time costs that bread about {OPENED_MIN} min.",
                    told(cases)
                ),
            )
            .hint("Go by the sign and the temperature in the middle, not by the minutes, or bring a second oven."),
        );
    }
}

fn busy(entry: &Entry, what: &Resource) -> usize {
    entry
        .occupies
        .iter()
        .filter(|one| one.what == *what)
        .map(|one| usize::try_from(one.count).unwrap_or(usize::MAX))
        .sum()
}

/// The moments at which more is asked of something than there is, and the peak with its first minute.
fn peak(entries: &[Entry], what: &Resource, more_than: usize) -> (Vec<i64>, Option<(usize, i64)>) {
    let users: Vec<&Entry> = entries
        .iter()
        .filter(|entry| busy(entry, what) > 0 && entry.lasts_min > 0)
        .collect();
    let mut moments: Vec<i64> = users.iter().map(|entry| entry.begins_min).collect();
    moments.sort_unstable();
    moments.dedup();
    let mut over = Vec::new();
    let mut most: Option<(usize, i64)> = None;
    for at in moments {
        let used: usize = users
            .iter()
            .filter(|entry| entry.begins_min <= at && at < entry.ends_min())
            .map(|entry| busy(entry, what))
            .sum();
        if used > more_than {
            over.push(at);
        }
        if most.is_none_or(|(count, _)| used > count) {
            most = Some((used, at));
        }
    }
    (over, most)
}

/// What occupies something at a minute: "Dough chills (Batch 2)".
fn at(entries: &[Entry], what: &Resource, minute: i64) -> Vec<String> {
    entries
        .iter()
        .filter(|entry| {
            busy(entry, what) > 0 && entry.begins_min <= minute && minute < entry.ends_min()
        })
        .map(|entry| format!("{} ({})", entry.words, entry.batch))
        .collect()
}

fn refrigerator(
    inputs: &Inputs<'_>,
    day: &mut FilmDay,
    midnight: &Midnight,
    said: &mut Vec<Diagnostic>,
) {
    let what = Resource::Refrigerator;
    let shelves = inputs.stock.shelves.unwrap_or(usize::MAX);
    let (over, most) = peak(&day.table.entries, &what, shelves);
    day.fridge_peak = most;
    if let (Some(first), Some((count, when))) = (over.first(), most) {
        said.push(
            Diagnostic::whole(
                code::SHELVES_TOO_FEW,
                format!(
                    "From {} on the refrigerator has {} shelves too few; at {} it holds {count} trays: {}.",
                    midnight.clock(*first),
                    count - shelves,
                    midnight.clock(when),
                    told(at(&day.table.entries, &what, when))
                ),
            )
            .hint("Clear more shelves, stand a cool box beside it, or put trays over one another on feet."),
        );
    }
}

fn meal(inputs: &Inputs<'_>, day: &FilmDay, midnight: &Midnight, said: &mut Vec<Diagnostic>) {
    let last = day
        .scenes
        .iter()
        .map(|scene| scene.ends_min)
        .max()
        .unwrap_or(0);
    let due = day.call_min + MEAL_DUE_MIN;
    match day.meal {
        None if last > due => said.push(
            Diagnostic::whole(
                code::MEAL_LATE,
                format!(
                    "From the call at {} to the last scene at {} there is no meal.",
                    midnight.clock(day.call_min),
                    midnight.clock(last)
                ),
            )
            .hint(format!(
                "Write meal = {{ from = {}, for = \"45 min\" }}, or whatever your agreement says.",
                midnight.clock(due - 60)
            )),
        ),
        Some((from, _)) if from > due => {
            let span = inputs
                .file
                .meal
                .as_ref()
                .map(|meal| meal.span)
                .unwrap_or_default();
            said.push(
                Diagnostic::at(
                    code::MEAL_LATE,
                    span,
                    format!(
                        "The meal at {} comes more than 6 h after the call at {}.",
                        midnight.clock(from),
                        midnight.clock(day.call_min)
                    ),
                )
                .hint(format!(
                    "Eat by {}, or as your agreement says.",
                    midnight.clock(due)
                )),
            );
        }
        _ => {}
    }
    let Some((from, to)) = day.meal else {
        return;
    };
    outside(inputs, day, midnight, said);
    let cases: Vec<String> = day
        .table
        .entries
        .iter()
        .filter(|entry| busy(entry, &Resource::Hands) > 0)
        .filter(|entry| entry.begins_min < to && from < entry.ends_min())
        .map(|entry| {
            format!(
                "{}, {} to {} ({})",
                entry.words,
                midnight.clock(entry.begins_min),
                midnight.clock(entry.ends_min()),
                entry.batch
            )
        })
        .collect();
    if !cases.is_empty() {
        let span = inputs
            .file
            .meal
            .as_ref()
            .map(|meal| meal.span)
            .unwrap_or_default();
        said.push(
            Diagnostic::at(
                code::WORK_IN_MEAL,
                span,
                format!("Work falls into the meal: {}.", told(cases)),
            )
            .hint("Let whoever minds the doughs eat before or after the others."),
        );
    }
}

/// Says of a meal that nobody is there for.
fn outside(inputs: &Inputs<'_>, day: &FilmDay, midnight: &Midnight, said: &mut Vec<Diagnostic>) {
    let (Some((from, to)), Some(meal)) = (day.meal, inputs.file.meal.as_ref()) else {
        return;
    };
    let (call, wrap) = (day.call_min, day.wrap_min);
    if call <= from && to <= wrap {
        return;
    }
    let lasts = to - from;
    let instead = if from < call {
        format!(
            "Write the meal from {} on, when everybody is there, or let them come earlier (call = {}).",
            midnight.clock(call),
            midnight.clock(from)
        )
    } else {
        // In the middle of what is there, on a quarter of an hour.
        let middle = i64::midpoint(call, wrap - lasts).max(call);
        format!(
            "Write it between scenes, as in meal = {{ from = {}, for = \"{lasts} min\" }}, or take the line out and let people go home.",
            midnight.clock((middle.div_euclid(15) * 15).max(call))
        )
    };
    said.push(
        Diagnostic::at(
            code::MEAL_OUTSIDE_DAY,
            meal.span,
            format!(
                "The meal is from {} to {}, and the day goes from the call at {} to the wrap at {}.",
                midnight.clock(from),
                midnight.clock(to),
                midnight.clock(call),
                midnight.clock(wrap)
            ),
        )
        .hint(instead),
    );
}

/// What wants hands at a minute. A mixer that runs already lets go of them for something short.
fn in_hand(entries: &[Entry], minute: i64) -> Vec<&Entry> {
    let all: Vec<&Entry> = entries
        .iter()
        .filter(|entry| busy(entry, &Resource::Hands) > 0)
        .filter(|entry| entry.begins_min <= minute && minute < entry.ends_min())
        .collect();
    let runs = |entry: &&Entry| busy(entry, &Resource::Mixer) > 0 && entry.begins_min < minute;
    let between = |entry: &&Entry| runs(entry) || entry.lasts_min <= BETWEEN_MIN;
    if all.iter().all(between) {
        all.into_iter().filter(|entry| !runs(entry)).collect()
    } else {
        all
    }
}

fn hands(inputs: &Inputs<'_>, day: &FilmDay, midnight: &Midnight, said: &mut Vec<Diagnostic>) {
    let mut moments: Vec<i64> = day
        .table
        .entries
        .iter()
        .filter(|entry| busy(entry, &Resource::Hands) > 0)
        .map(|entry| entry.begins_min)
        .collect();
    moments.dedup();
    let over: Vec<(i64, Vec<&Entry>)> = moments
        .into_iter()
        .map(|minute| (minute, in_hand(&day.table.entries, minute)))
        .filter(|(_, doing)| doing.len() > inputs.stock.hands)
        .collect();
    let Some(count) = over.iter().map(|(_, doing)| doing.len()).max() else {
        return;
    };
    let cases = over
        .iter()
        .map(|(minute, doing)| {
            let doing: Vec<String> = doing
                .iter()
                .map(|entry| format!("{} ({})", entry.words, entry.batch))
                .collect();
            let doing: Vec<&str> = doing.iter().map(String::as_str).collect();
            format!("{}: {}", midnight.clock_day(*minute), listed(&doing, "and"))
        })
        .collect();
    let hands = inputs.stock.hands;
    let (pairs, are) = if hands == 1 {
        ("one pair", "is")
    } else {
        ("the pairs", "are")
    };
    said.push(
        Diagnostic::whole(
            code::HANDS_TOO_FEW,
            format!(
                "Beside the camera there {are} {pairs} of hands, and {count} are wanted at once. {}.",
                told(cases)
            ),
        )
        .hint(format!(
            "Write hands = {count} and bring them, or begin what can wait a little earlier."
        )),
    );
}
