//! Chores of the project, as functions that the tests can call too.

pub mod archive;
pub mod finer_kitchens;
pub mod import_table;
pub mod judges;
pub mod kitchens_table;
pub mod notices;
pub mod provenance;
pub mod rules;
pub mod schema;
pub mod talk_table;
pub mod under_way;
pub mod validation;
