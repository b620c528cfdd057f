//! The world: files that are read and folders that appear whole or not at all.

pub mod folder;
pub mod read;
