//! The folder and the record brought together: the folder is the truth, and nothing that either knew is lost.

use super::revisions::{How, Sent, keep, last, reached, revision};
use super::{Record, moment};
use crate::failure::Failure;
use crate::world::notebook::{Kept, Notebook};
use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, params};
use sha2::{Digest, Sha256};

/// A file that is no longer in the folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gone {
    /// Its name.
    pub file: String,
    /// When it was found missing.
    pub at: Timestamp,
}

/// What was found otherwise than the record knew it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// As it was.
    Same,
    /// New, or changed outside the program; a version of that number was kept.
    Outside(i64),
    /// A save of ours that was cut short after the file was written: it is whole.
    Reached(i64),
    /// It is no longer there; its last text is in the record.
    Missing,
}

impl Record {
    /// Brings every recipe and kitchen of the folder together with the record, and says what was
    /// otherwise. A notebook that is not there is left alone.
    pub fn reconcile(
        &self,
        notebook: &Notebook,
        at: Timestamp,
    ) -> Result<Vec<(String, Found)>, Failure> {
        if !notebook.folder().exists() {
            return Ok(Vec::new());
        }
        let mut files = Vec::new();
        for kept in [Kept::Recipe, Kept::Kitchen, Kept::Scenes] {
            for name in notebook.names(kept)? {
                if let Some(bytes) = notebook.read(kept, &name)? {
                    files.push((kept.file(&name), bytes));
                }
            }
        }
        let otherwise = self.read(|connection| {
            let mut otherwise = Vec::new();
            for (index, (file, bytes)) in files.iter().enumerate() {
                let same = last(connection, file)?
                    .is_some_and(|last| last.digest == Sha256::digest(bytes).as_slice())
                    && !gone(connection, file)?;
                if !same {
                    otherwise.push(index);
                }
            }
            Ok((otherwise, missing(connection, &files)?))
        })?;
        let (changed, missing) = otherwise;
        if changed.is_empty() && missing.is_empty() {
            return Ok(Vec::new());
        }
        self.write(|transaction| {
            let mut found = Vec::new();
            for (file, bytes) in changed.iter().map(|index| &files[*index]) {
                found.push((file.clone(), bring(transaction, file, bytes, at)?));
            }
            for file in &missing {
                lose(transaction, file, at)?;
                found.push((file.clone(), Found::Missing));
            }
            Ok(found)
        })
    }

    /// The same for one file that was read this moment; none when it is not there.
    pub fn reconcile_file(
        &self,
        file: &str,
        bytes: Option<&[u8]>,
        at: Timestamp,
    ) -> Result<Found, Failure> {
        let same = self.read(|connection| {
            let last = last(connection, file)?;
            Ok(match bytes {
                Some(bytes) => {
                    last.is_some_and(|last| last.digest == Sha256::digest(bytes).as_slice())
                        && !gone(connection, file)?
                }
                None => last.is_none() || gone(connection, file)?,
            })
        })?;
        if same {
            return Ok(Found::Same);
        }
        self.write(|transaction| match bytes {
            Some(bytes) => bring(transaction, file, bytes, at),
            None => lose(transaction, file, at).map(|()| Found::Missing),
        })
    }

    /// Files whose last text is all there is of them.
    pub fn gone(&self) -> Result<Vec<Gone>, Failure> {
        self.read(|connection| {
            let mut asked = connection.prepare(
                "SELECT name, gone_at_ms FROM file WHERE gone_at_ms IS NOT NULL ORDER BY name",
            )?;
            asked
                .query_map([], |row| {
                    Ok(Gone {
                        file: row.get(0)?,
                        at: moment(row.get(1)?),
                    })
                })?
                .collect()
        })
    }
}

/// The file holds other bytes than the last version that it is known to have held. When a save of
/// ours was cut short, these are the announced ones; otherwise somebody else wrote them.
fn bring(
    connection: &Connection,
    file: &str,
    bytes: &[u8],
    at: Timestamp,
) -> rusqlite::Result<Found> {
    let digest = Sha256::digest(bytes).to_vec();
    let announced = connection
        .query_row(
            "SELECT number, kept_at_ms, how, window, from_number, reached, digest FROM revision
             WHERE file = ?1 AND digest = ?2 AND reached = 0 AND how <> 'beside'
               AND number > coalesce(
                 (SELECT max(number) FROM revision WHERE file = ?1 AND reached = 1), 0)
             ORDER BY number DESC LIMIT 1",
            params![file, digest],
            revision,
        )
        .optional()?;
    if let Some(announced) = announced {
        reached(connection, file, announced.number)?;
        return Ok(Found::Reached(announced.number));
    }
    let sent = Sent {
        file,
        bytes,
        how: How::Outside,
        window: None,
        from: None,
        at,
    };
    keep(connection, &sent, true).map(Found::Outside)
}

fn lose(connection: &Connection, file: &str, at: Timestamp) -> rusqlite::Result<()> {
    connection.execute(
        "UPDATE file SET gone_at_ms = ?2 WHERE name = ?1 AND gone_at_ms IS NULL",
        params![file, at.as_millisecond()],
    )?;
    Ok(())
}

fn gone(connection: &Connection, file: &str) -> rusqlite::Result<bool> {
    connection
        .query_row(
            "SELECT gone_at_ms IS NOT NULL FROM file WHERE name = ?1",
            [file],
            |row| row.get(0),
        )
        .optional()
        .map(|gone| gone.unwrap_or(false))
}

/// Files that the record knows as being there, and that are not.
fn missing(connection: &Connection, files: &[(String, Vec<u8>)]) -> rusqlite::Result<Vec<String>> {
    let mut asked = connection.prepare(
        "SELECT name FROM file WHERE gone_at_ms IS NULL AND EXISTS
           (SELECT 1 FROM revision WHERE file = name AND reached = 1) ORDER BY name",
    )?;
    let known = asked.query_map([], |row| row.get::<_, String>(0))?;
    known
        .filter(|name| {
            !name
                .as_ref()
                .is_ok_and(|name| files.iter().any(|(file, _)| file == name))
        })
        .collect()
}
