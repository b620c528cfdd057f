//! Which scenes one batch can serve, and when it then has to be where.

use super::holds::{NOT_MOVED_MIN, Place};
use super::process::Process;
use super::system::{FAR, System};

/// A scene's wish for a state, with its clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Need {
    /// Place of the scene in the file.
    pub scene: usize,
    /// Place of the need in the scene's list.
    pub nth: usize,
    /// Place of the process.
    pub process: usize,
    /// Which of its feeds, by the way to it; empty for the process itself.
    pub feed: Vec<usize>,
    /// The point.
    pub point: usize,
    /// Whether work begins there before the camera, at that very minute.
    pub works: bool,
    /// Minute at which the scene begins.
    pub at_min: i64,
    /// For so long the dough is held before the camera.
    pub held_min: i64,
    /// Products that the scene uses up, by their places in the recipe.
    pub uses_up: Vec<usize>,
}

/// The unknown times of a batch: nothing, then arrival and leaving of each point.
const ORIGIN: usize = 0;

const fn arrives(point: usize) -> usize {
    1 + 2 * point
}

const fn leaves(point: usize) -> usize {
    2 + 2 * point
}

/// What a process allows, whatever is filmed.
fn rules(process: &Process, more: usize) -> System {
    let mut system = System::new(1 + 2 * process.points.len() + more);
    for (at, point) in process.points.iter().enumerate() {
        system.at_least(arrives(at), leaves(at), 0);
        system.at_most(arrives(at), leaves(at), point.keeps_min);
    }
    for run in &process.runs {
        system.exactly(leaves(run.from), arrives(run.to), run.takes_min);
    }
    if let Some(night) = &process.night {
        system.at_most(ORIGIN, leaves(night.into), 0);
        system.at_least(ORIGIN, leaves(night.until), night.from_min);
    }
    system
}

/// Binds a batch to a need whose scene begins at the time `begins`.
fn bind(system: &mut System, need: &Need, begins: usize, shift: i64) {
    system.at_most(begins, arrives(need.point), shift);
    if need.works {
        system.exactly(begins, leaves(need.point), shift);
    } else {
        system.at_least(begins, leaves(need.point), shift + need.held_min);
    }
}

/// How long after the scene of one need that of another can be, when one batch serves both: least and
/// most minutes, none when it never can.
pub fn apart(process: &Process, one: &Need, other: &Need) -> Option<(i64, i64)> {
    let base = 1 + 2 * process.points.len();
    let mut system = rules(process, 2);
    bind(&mut system, one, base, 0);
    bind(&mut system, other, base + 1, 0);
    let most = system.most_after(base)?[base + 1];
    let least = system.least_after(base)?[base + 1];
    let mut range = (least, most);
    // What is cut or eaten cannot be filmed again.
    let product = |need: &Need| process.points[need.point].product;
    let gone = |first: &Need, then: &Need| {
        product(then).is_some_and(|p| first.uses_up.contains(&p)) && first.scene != then.scene
    };
    if gone(one, other) {
        range.1 = range.1.min(-1);
    }
    if gone(other, one) {
        range.0 = range.0.max(1);
    }
    (range.0 <= range.1).then_some(range)
}

/// Whether one batch can serve both at their minutes.
pub fn fits(process: &Process, one: &Need, other: &Need) -> bool {
    let gap = other.at_min - one.at_min;
    apart(process, one, other).is_some_and(|(least, most)| least <= gap && gap <= most)
}

/// When a batch that serves some needs can begin: earliest and latest minute; none when it cannot serve
/// them all.
pub fn window(process: &Process, needs: &[&Need], not_before: Option<i64>) -> Option<(i64, i64)> {
    let system = bound(process, needs, not_before);
    let start = leaves(process.start);
    let latest = system.most_after(ORIGIN)?[start];
    let earliest = system.least_after(ORIGIN)?[start];
    Some((earliest, latest))
}

/// When a batch that serves one need alone can begin, minutes from the beginning of that scene; none when
/// it never can.
///
/// The window of several needs that go together two by two is where theirs overlap: a shortest way from the
/// clock to the beginning passes one scene only.
pub fn alone(process: &Process, need: &Need) -> Option<(i64, i64)> {
    let at_none = Need {
        at_min: 0,
        ..need.clone()
    };
    window(process, &[&at_none], None)
}

/// Between which minutes a scene must begin that a batch with bounds on the clock can serve; none when it
/// never can.
pub fn filmed_between(process: &Process, need: &Need) -> Option<(i64, i64)> {
    let begins = 1 + 2 * process.points.len();
    let mut system = rules(process, 1);
    bind(&mut system, need, begins, 0);
    let most = system.most_after(ORIGIN)?[begins];
    let least = system.least_after(ORIGIN)?[begins];
    Some((least, most))
}

/// Where windows overlap that are given from scenes at their minutes; none when nowhere.
pub fn overlap(
    windows: impl IntoIterator<Item = (i64, (i64, i64))>,
    not_before: Option<i64>,
) -> Option<(i64, i64)> {
    let mut all = (not_before.unwrap_or(-FAR), FAR);
    for (at_min, (from, to)) in windows {
        if from > -FAR {
            all.0 = all.0.max(at_min + from);
        }
        if to < FAR {
            all.1 = all.1.min(at_min + to);
        }
    }
    (all.0 <= all.1).then_some(all)
}

fn bound(process: &Process, needs: &[&Need], not_before: Option<i64>) -> System {
    let mut system = rules(process, 0);
    for need in needs {
        bind(&mut system, need, ORIGIN, need.at_min);
    }
    if let Some(minute) = not_before {
        system.at_least(ORIGIN, leaves(process.start), minute);
    }
    system
}

/// When a batch is at a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stay {
    /// It comes to the state.
    pub arrives_min: i64,
    /// It goes on.
    pub leaves_min: i64,
    /// The latest minute at which it could go on, all else as it is.
    pub latest_min: i64,
}

impl Stay {
    /// Where a dough waits: what waits a few minutes is not carried to the refrigerator.
    pub const fn place(&self, point: &super::process::Point) -> Place {
        if self.leaves_min - self.arrives_min < NOT_MOVED_MIN
            && matches!(point.place, Place::Refrigerator)
        {
            Place::Bench
        } else {
            point.place
        }
    }
}

/// Every stay of a batch that begins at `start_min`, with the least holding where holding is riskiest:
/// what keeps the shortest is held the least.
///
/// `also` are leavings that are fixed besides: bread that must go into the oven at another minute.
pub fn stays(
    process: &Process,
    needs: &[&Need],
    start_min: i64,
    also: &[(usize, i64)],
) -> Option<Vec<Stay>> {
    let mut system = bound(process, needs, None);
    system.exactly(ORIGIN, leaves(process.start), start_min);
    for &(point, minute) in also {
        system.exactly(ORIGIN, leaves(point), minute);
    }
    let latest = system.most_after(ORIGIN)?;
    let mut order: Vec<usize> = (0..process.points.len())
        .filter(|point| process.points[*point].keeps_min > 0)
        .collect();
    order.sort_by_key(|point| (process.points[*point].keeps_min, *point));
    for point in order {
        // The least that leaving can be after arriving.
        let least = system.least_after(arrives(point))?[leaves(point)];
        system.exactly(arrives(point), leaves(point), least);
    }
    let least = system.least_after(ORIGIN)?;
    Some(
        (0..process.points.len())
            .map(|point| Stay {
                arrives_min: least[arrives(point)],
                leaves_min: least[leaves(point)],
                latest_min: latest[leaves(point)].min(FAR),
            })
            .collect(),
    )
}

/// The minutes at which a batch can leave a point: earliest and latest, for a batch that begins at
/// `start_min`.
pub fn leaving(
    process: &Process,
    needs: &[&Need],
    start_min: i64,
    also: &[(usize, i64)],
    point: usize,
) -> Option<(i64, i64)> {
    let mut system = bound(process, needs, None);
    system.exactly(ORIGIN, leaves(process.start), start_min);
    for &(point, minute) in also {
        system.exactly(ORIGIN, leaves(point), minute);
    }
    let latest = system.most_after(ORIGIN)?[leaves(point)];
    let earliest = system.least_after(ORIGIN)?[leaves(point)];
    Some((earliest, latest))
}
