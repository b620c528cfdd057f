//! A planned filming day as plain values: scenes, batches with their stays, bakes, and what fewer batches would cost.

use super::batch::{Need, Stay};
use super::process::Process;
use crate::timetable::Timetable;
use numerics::quantity::Temperature;

/// A planned filming day. Minutes count from midnight before the day.
#[derive(Clone, Debug, PartialEq)]
pub struct FilmDay {
    /// Processes, as needs name them.
    pub processes: Vec<Process>,
    /// Scenes in the order in which they are filmed.
    pub scenes: Vec<ScenePlan>,
    /// Every need of a scene.
    pub needs: Vec<Need>,
    /// Batches of dough, by their starts.
    pub batches: Vec<Batch>,
    /// Small things that a scene shows and no dough needs.
    pub extras: Vec<Extra>,
    /// Whether fewer batches were ruled out.
    pub proven: bool,
    /// Nodes of the search for the fewest: counted, not timed.
    pub looked_at: u64,
    /// Bread in the oven, by minute.
    pub bakes: Vec<Bake>,
    /// How late the day would end with fewer batches.
    pub trade: Vec<Trade>,
    /// The day as entries.
    pub table: Timetable,
    /// When everybody comes; the first scene's set-up where it is not said.
    pub call_min: i64,
    /// When the meal begins and ends.
    pub meal: Option<(i64, i64)>,
    /// When all is cleared away.
    pub wrap_min: i64,
    /// The most that stands in the refrigerator at once, and when first.
    pub fridge_peak: Option<(usize, i64)>,
    /// People who are paid for the day.
    pub people: Option<i64>,
    /// What is made beyond the batches, a share of them.
    pub spare: f64,
}

/// A scene with its clock.
#[derive(Clone, Debug, PartialEq)]
pub struct ScenePlan {
    /// Its name.
    pub name: String,
    /// What is seen.
    pub about: String,
    /// Set-up begins.
    pub set_up_min: i64,
    /// First take.
    pub at_min: i64,
    /// It is over.
    pub ends_min: i64,
    /// Places of its needs.
    pub needs: Vec<usize>,
}

/// A batch of dough.
#[derive(Clone, Debug, PartialEq)]
pub struct Batch {
    /// Which process.
    pub process: usize,
    /// Places of the needs that it serves.
    pub serves: Vec<usize>,
    /// Its mixing begins.
    pub start_min: i64,
    /// Earliest and latest minute at which it could begin.
    pub window: (i64, i64),
    /// When it is at each point of its process.
    pub stays: Vec<Stay>,
    /// How far each point is followed: to the last scene, and products that a scene has begun to their end.
    pub followed: Vec<bool>,
    /// Whether its mixing is filmed.
    pub on_camera: bool,
    /// What goes into it: which feed of its process, and the stays of that.
    pub feeds: Vec<FeedPlan>,
    /// What is made for its products besides the dough.
    pub sides: Vec<FeedPlan>,
}

/// Something made for a batch before.
#[derive(Clone, Debug, PartialEq)]
pub struct FeedPlan {
    /// The way to it: places among feeds.
    pub path: Vec<usize>,
    /// Its own minutes; a rest may be shorter than usual where several are begun together.
    pub process: Process,
    /// When it is at each of its points.
    pub stays: Vec<Stay>,
    /// Places of the needs that it serves.
    pub serves: Vec<usize>,
}

/// Something small that is made for scenes alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Extra {
    /// Which process, and which of its feeds.
    pub process: usize,
    /// The way to the feed; empty for the process itself.
    pub path: Vec<usize>,
    /// Places of the needs that it serves.
    pub serves: Vec<usize>,
    /// When it is at each of its points.
    pub stays: Vec<Stay>,
    /// The last point that is needed.
    pub last: usize,
}

/// Bread in the oven.
#[derive(Clone, Debug, PartialEq)]
pub struct Bake {
    /// Which batch.
    pub batch: usize,
    /// Which product, by its place in the recipe.
    pub product: usize,
    /// Place of the run in the process.
    pub run: usize,
    /// Which oven, from 0.
    pub oven: usize,
    /// In.
    pub from_min: i64,
    /// Out.
    pub to_min: i64,
    /// Dial at the beginning.
    pub first: Temperature,
    /// Dial at the end.
    pub last: Temperature,
    /// The scene that waits for it; none when it is baked for no scene.
    pub for_scene: Option<usize>,
    /// Minutes by which it comes too late for that scene.
    pub late_min: i64,
}

/// A number of batches and when the day ends with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trade {
    /// How many batches.
    pub batches: usize,
    /// All is cleared away; none when so few cannot do it at all.
    pub wrap_min: Option<i64>,
    /// Later than planned by.
    pub later_min: i64,
    /// Whether nothing earlier is possible with so few.
    pub proven: bool,
}
