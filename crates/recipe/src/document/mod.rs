//! The recipe as a person writes it: its model, its reader, its writer and its edits.

pub mod model;
