//! Baker's percentages: every mass resolved, and every sum done.

pub mod bands;
pub mod check_printed;
mod contribution;
mod flow;
mod judge;
pub mod model;
pub mod percent;
pub mod preferment;
mod products;
mod resolve;
pub mod sum;
pub mod vessel;

#[cfg(test)]
mod samples;
#[cfg(test)]
mod tests;

pub use bands::{Band, Measured, bands};
pub use contribution::{brings, instant_equivalent};
pub use judge::judge;
pub use model::{Formula, PartSum, ProductSum, Resolved, ResolvedItem, StageSum};
pub use products::{TALL_FROM, TinShape, piece_mass, tin_shape, tin_volume};
pub use resolve::formula;
pub use sum::add_up;
