//! The record copied while it may be in use, and counted.

use super::{Record, open};
use crate::failure::Failure;
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use std::path::Path;

impl Record {
    /// Copies the record as it is at one moment into a new file, by the database's own way.
    pub fn copy_into(&self, path: &Path) -> Result<(), Failure> {
        if !self.path().exists() {
            let made = open::new_at(path);
            return made.map_err(|error| super::fault(path, "write", &error));
        }
        self.read(|connection| {
            let mut copy = Connection::open(path)?;
            {
                let backup = Backup::new(connection, &mut copy)?;
                // All pages in one step: the copy is of one moment.
                match backup.step(-1)? {
                    StepResult::Done => {}
                    _ => return Err(busy()),
                }
            }
            // One file, without others beside it.
            let _: String =
                copy.pragma_update_and_check(None, "journal_mode", "delete", |row| row.get(0))?;
            Ok(())
        })
    }

    /// How many versions of texts and how many bakes it holds.
    pub fn counts(&self) -> Result<(i64, i64), Failure> {
        self.read(|connection| {
            connection.query_row(
                "SELECT (SELECT count(*) FROM revision), (SELECT count(*) FROM bake)",
                [],
                |row| Ok((row.get(0)?, row.get(1)?)),
            )
        })
    }
}

fn busy() -> rusqlite::Error {
    let code = rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_BUSY);
    rusqlite::Error::SqliteFailure(code, None)
}
