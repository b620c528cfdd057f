//! What is said in a film about a recipe: its track, read from the file that holds it.

pub mod track;
