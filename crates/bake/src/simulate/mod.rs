//! What happens to a dough minute by minute, in one kitchen.

pub mod around;
pub mod body;
pub mod heat;
mod holds;
pub mod matter;
pub mod model;
mod oven;
mod reason;
pub mod safety;
pub mod shape;
pub mod surround;
mod walk;

pub use model::{
    Anchor, Anchored, Compared, Course, DoughCourse, Ended, Event, Follows, Grid, Happening, How,
    Moment, Safety, SectionView, Shade, StepCourse, Through, Weight, Within, Work,
};
pub use walk::{cooled_to, simulate, simulate_paced};
