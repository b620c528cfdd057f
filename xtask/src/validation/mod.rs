//! The page that holds the simulator against the world: what others found, what is found here, the miss.

pub mod fronts;
pub mod solids;
