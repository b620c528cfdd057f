//! What the notebook remembers beside its texts: revisions, published versions, bakes, readings, what
//! a kitchen was found to be.
//!
//! The folder of texts is the truth; the record is `record.sqlite` in it. It is opened when it is
//! first asked for, and a notebook that is not there yet gets one with its first text. Where no
//! record can be kept, reading finds an empty one, and [`Record::standing`] says why.

pub mod bakes;
mod copy;
pub mod open;
pub mod published;
pub mod reconcile;
pub mod reports;
pub mod revisions;
mod schema;

use crate::failure::Failure;
use jiff::Timestamp;
use rusqlite::{Connection, ErrorCode, Transaction, TransactionBehavior};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Its file in the notebook.
pub const FILE: &str = "record.sqlite";

/// How it stands with the record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// What happens is kept.
    Kept,
    /// Nothing is kept, for this reason.
    NothingKept(String),
}

/// The record of one notebook. Threads may share it.
#[derive(Debug)]
pub struct Record {
    folder: PathBuf,
    shelf: Mutex<Shelf>,
}

#[derive(Debug, Default)]
struct Shelf {
    /// The open record, with why it can only be read when that is so.
    open: Option<(Connection, Option<String>)>,
}

impl Record {
    /// The record of the notebook in a folder. Nothing is read or written until it is asked for.
    pub fn open(folder: &Path) -> Self {
        Self {
            folder: folder.to_owned(),
            shelf: Mutex::default(),
        }
    }

    /// Its file.
    pub fn path(&self) -> PathBuf {
        self.folder.join(FILE)
    }

    /// Whether what happens is kept.
    pub fn standing(&self) -> Standing {
        let mut held = self.shelf();
        if held.open.is_none() && !self.folder.exists() {
            return Standing::Kept;
        }
        match self.opened(&mut held) {
            Ok((_, None)) => Standing::Kept,
            Ok((_, Some(why))) => Standing::NothingKept(why.clone()),
            Err(failure) => Standing::NothingKept(failure.to_string()),
        }
    }

    /// Records that were damaged and were moved aside whole, by the names of their files.
    pub fn moved_aside(&self) -> Vec<String> {
        open::moved_aside(&self.folder)
    }

    /// Reads: of a notebook that is not there yet, from an empty record.
    pub(in crate::world) fn read<T>(
        &self,
        ask: impl Fn(&Connection) -> rusqlite::Result<T>,
    ) -> Result<T, Failure> {
        let mut held = self.shelf();
        if held.open.is_none() && !self.path().exists() {
            let empty = open::in_memory().map_err(|error| self.fault("read", &error))?;
            return ask(&empty).map_err(|error| self.fault("read", &error));
        }
        let (connection, _) = self.opened(&mut held)?;
        let outcome = ask(connection);
        self.told(&mut held, "read", outcome)
    }

    /// Writes in one transaction that is on the disk when this returns.
    pub(in crate::world) fn write<T>(
        &self,
        change: impl FnOnce(&Transaction) -> rusqlite::Result<T>,
    ) -> Result<T, Failure> {
        fs::create_dir_all(&self.folder)
            .map_err(|error| Failure::world("write", &self.folder, &error))?;
        let mut held = self.shelf();
        let (connection, why) = self.opened(&mut held)?;
        if let Some(why) = why {
            return Err(self.failure("write", why.clone()));
        }
        let outcome = connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .and_then(|transaction| {
                let made = change(&transaction)?;
                transaction.commit()?;
                Ok(made)
            });
        self.told(&mut held, "write", outcome)
    }

    fn shelf(&self) -> MutexGuard<'_, Shelf> {
        self.shelf.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn opened<'a>(
        &self,
        held: &'a mut Shelf,
    ) -> Result<&'a mut (Connection, Option<String>), Failure> {
        if held.open.is_none() {
            held.open = Some(open::at(&self.folder)?);
        }
        Ok(held.open.as_mut().expect("it was opened a line before"))
    }

    /// A record that turns out to be damaged is closed, so that whoever asks next opens it anew,
    /// which moves it aside.
    fn told<T>(
        &self,
        held: &mut Shelf,
        doing: &'static str,
        outcome: rusqlite::Result<T>,
    ) -> Result<T, Failure> {
        outcome.map_err(|error| {
            if open::damaged(&error) {
                held.open = None;
            }
            self.fault(doing, &error)
        })
    }

    fn fault(&self, doing: &'static str, error: &rusqlite::Error) -> Failure {
        fault(&self.path(), doing, error)
    }

    fn failure(&self, doing: &'static str, said: String) -> Failure {
        Failure::World {
            doing,
            path: self.path(),
            said,
            hint: None,
        }
    }
}

/// What the record's library said, in plain words.
fn fault(path: &Path, doing: &'static str, error: &rusqlite::Error) -> Failure {
    let (said, hint) = match error.sqlite_error_code() {
        Some(ErrorCode::DiskFull) => (
            "the disk is full".to_owned(),
            Some("Make room on this disk. Texts that were saved before are as they were."),
        ),
        Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => {
            ("it may only be read here".to_owned(), None)
        }
        Some(ErrorCode::CannotOpen) => (
            "it cannot be opened".to_owned(),
            Some("Look whether the folder may be written to, and what lies there under that name."),
        ),
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => (
            "another program is writing to it".to_owned(),
            Some("Wait a moment and try again."),
        ),
        Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase) => (
            "it is damaged".to_owned(),
            Some("Try again: it is then moved aside whole, and a new one is begun."),
        ),
        _ => (error.to_string(), None),
    };
    Failure::World {
        doing,
        path: path.to_owned(),
        said,
        hint: hint.map(str::to_owned),
    }
}

/// A moment as the record holds it: whole milliseconds.
fn moment(milliseconds: i64) -> Timestamp {
    Timestamp::from_millisecond(milliseconds).unwrap_or(Timestamp::UNIX_EPOCH)
}

#[cfg(test)]
mod killed;
#[cfg(test)]
mod tests;
