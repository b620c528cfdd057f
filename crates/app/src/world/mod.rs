//! The world: files that are read, photographs, a notebook's texts, folders that appear whole or
//! not at all, workers.

pub mod archive;
pub mod beside;
pub mod browser;
pub mod bundle;
pub mod chance;
pub mod clock;
pub mod exchange;
pub mod folder;
pub mod log;
pub mod new_file;
pub mod notebook;
pub mod photo;
pub mod progress;
pub mod read;
pub mod record;
pub mod steady;
pub mod stop;
pub mod workers;
