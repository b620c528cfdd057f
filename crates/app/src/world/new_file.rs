//! A text file of the cook's: written where none is yet, never over another.

use crate::failure::Failure;
use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::Path;

/// Writes a file that is not there yet; `hint` is the way out when one is.
pub fn write(path: &Path, text: &str, hint: &str) -> Result<(), Failure> {
    let written = OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(path)
        .and_then(|mut file| file.write_all(text.as_bytes()));
    written.map_err(|error| {
        if error.kind() == ErrorKind::AlreadyExists {
            Failure::World {
                doing: "write",
                path: path.to_owned(),
                said: "there is a file of that name already".to_owned(),
                hint: Some(hint.to_owned()),
            }
        } else {
            Failure::world("write", path, &error)
        }
    })
}
