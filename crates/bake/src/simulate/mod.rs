//! What happens to a dough minute by minute, in one kitchen.

pub mod body;
pub mod matter;
pub mod model;
pub mod surround;

pub use model::{
    Anchor, Anchored, Compared, Course, DoughCourse, Ended, Event, Follows, Grid, Happening, How,
    Moment, Safety, SectionView, Shade, StepCourse, Work,
};
