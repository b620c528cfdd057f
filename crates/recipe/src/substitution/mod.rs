//! One ingredient in place of another: amounts found so that water, fat, sugar, salt and protein stay.
//!
//! What is said about it, and what becomes of the sentences, is for the editor.

mod balance;
mod eggs;
mod flour;
mod parts;
mod refusal;
mod yeast;

pub use balance::{Balanced, Lever, NewOne, balance};
pub use eggs::{EGG_WATER, WholeEggs, whole_eggs};
pub use flour::{
    WATER_PER_POINT, WATER_PER_POINT_RANGE, WHOLEGRAIN_WATER, WHOLEGRAIN_WATER_RANGE, absorbs,
    forms_gluten, gluten_for, is_wholegrain,
};
pub use parts::{Component, Parts, parts};
pub use refusal::{Refusal, may_stand};
pub use yeast::{WAKES_IN, WAKES_IN_RANGE, waking_liquid};
