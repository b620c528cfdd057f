//! A filming day: scenes in the order in which they are filmed, and the fewest batches of dough that have
//! every state ready when its scene begins.
//!
//! A dough can be held, within limits, and never hurried. From that alone follows which scenes one batch can
//! serve; the fewest batches are found exactly, each begins as late as it may, and what no bench can do is
//! said: an oven at another temperature, a full refrigerator, work in the meal.

pub mod batch;
mod choose;
pub mod code;
mod early;
mod entries;
mod evening;
pub mod fewest;
mod hands;
mod held;
mod holds;
mod model;
mod night;
mod oven;
mod plan;
mod process;
mod scenes;
mod small;
mod starts;
mod states;
mod steps;
mod system;
mod trade;
mod walk;
mod watch;
pub(crate) mod words;

pub use choose::conflicts;
pub use holds::{NOT_MOVED_MIN, Place, USUAL};
pub use model::{Bake, Batch, Extra, FeedPlan, FilmDay, ScenePlan, Trade};
pub use plan::{film, film_in};
pub use process::{Doing, Point, Process, Run, Times, processes};
pub use scenes::process_of;
pub use states::state_names;
