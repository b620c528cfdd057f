//! The program against what was measured in the world.

mod chilling;
mod labels;
mod page;
