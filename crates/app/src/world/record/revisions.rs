//! Revisions of a text: every version that its file held, and every one that was sent and did not get there.

use super::{Record, moment};
use crate::failure::Failure;
use jiff::Timestamp;
use rusqlite::types::Type;
use rusqlite::{Connection, Error, OptionalExtension, Row, params};
use sha2::{Digest, Sha256};

/// How a text came to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Written on its page.
    Written,
    /// Changed in the folder by another program.
    Outside,
    /// An old version that was brought back.
    Restored,
    /// The last saves were taken back.
    Undone,
    /// Made of a pasted text, or the demo.
    Made,
    /// Sent while the file had been changed elsewhere: kept beside it.
    Beside,
}

impl How {
    const ALL: [Self; 6] = [
        Self::Written,
        Self::Outside,
        Self::Restored,
        Self::Undone,
        Self::Made,
        Self::Beside,
    ];

    const fn word(self) -> &'static str {
        match self {
            Self::Written => "written",
            Self::Outside => "outside",
            Self::Restored => "restored",
            Self::Undone => "undone",
            Self::Made => "made",
            Self::Beside => "beside",
        }
    }
}

/// One version of a text, without the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision {
    /// Its place in the order of the text's versions, from 1.
    pub number: i64,
    /// When, by the machine's clock; the order is by number.
    pub at: Timestamp,
    /// How it came to be.
    pub how: How,
    /// Which open page sent it.
    pub window: Option<String>,
    /// The version that it brings back.
    pub from: Option<i64>,
    /// Whether the file held it. What was sent and did not get there is kept too.
    pub reached: bool,
    /// SHA-256 of the text.
    pub digest: Vec<u8>,
}

/// A version to be kept.
#[derive(Clone, Copy, Debug)]
pub struct Sent<'a> {
    /// The file in the folder: `buns.toml`, `kitchens/studio.toml`.
    pub file: &'a str,
    /// The whole text.
    pub bytes: &'a [u8],
    /// How it came to be.
    pub how: How,
    /// Which open page sent it.
    pub window: Option<&'a str>,
    /// The version that it brings back.
    pub from: Option<i64>,
    /// When.
    pub at: Timestamp,
}

const COLUMNS: &str = "number, kept_at_ms, how, window, from_number, reached, digest";

impl Record {
    /// Versions of a file, the last one first.
    pub fn revisions(&self, file: &str) -> Result<Vec<Revision>, Failure> {
        self.read(|connection| {
            let mut asked = connection.prepare(&format!(
                "SELECT {COLUMNS} FROM revision WHERE file = ?1 ORDER BY number DESC"
            ))?;
            asked.query_map([file], revision)?.collect()
        })
    }

    /// The last version that the file held, as the record knows it.
    pub fn last_revision(&self, file: &str) -> Result<Option<Revision>, Failure> {
        self.read(|connection| last(connection, file))
    }

    /// Text of a version.
    pub fn revision_text(&self, file: &str, number: i64) -> Result<Option<Vec<u8>>, Failure> {
        self.read(|connection| {
            connection
                .query_row(
                    "SELECT bytes FROM revision JOIN body USING (digest)
                     WHERE file = ?1 AND number = ?2",
                    params![file, number],
                    |row| row.get(0),
                )
                .optional()
        })
    }

    /// Text of the version with this SHA-256, when the file ever had it.
    pub fn revision_of_digest(
        &self,
        file: &str,
        digest: &[u8],
    ) -> Result<Option<Vec<u8>>, Failure> {
        self.read(|connection| {
            connection
                .query_row(
                    "SELECT bytes FROM revision JOIN body USING (digest)
                     WHERE file = ?1 AND digest = ?2 LIMIT 1",
                    params![file, digest],
                    |row| row.get(0),
                )
                .optional()
        })
    }

    /// Keeps a version that the file holds, and gives its number; the one that is last already is
    /// not kept twice.
    #[cfg(test)]
    pub fn keep_revision(&self, sent: &Sent) -> Result<i64, Failure> {
        self.write(|transaction| keep(transaction, sent, true))
    }

    /// Keeps a version before it is written to the file, so that no word is lost between the two.
    pub fn announce_revision(&self, sent: &Sent) -> Result<i64, Failure> {
        self.write(|transaction| keep(transaction, sent, false))
    }
}

pub(super) fn reached(connection: &Connection, file: &str, number: i64) -> rusqlite::Result<()> {
    connection.execute(
        "UPDATE revision SET reached = 1 WHERE file = ?1 AND number = ?2",
        params![file, number],
    )?;
    connection.execute("UPDATE file SET gone_at_ms = NULL WHERE name = ?1", [file])?;
    Ok(())
}

pub(super) fn last(connection: &Connection, file: &str) -> rusqlite::Result<Option<Revision>> {
    connection
        .query_row(
            &format!(
                "SELECT {COLUMNS} FROM revision WHERE file = ?1 AND reached = 1
                 ORDER BY number DESC LIMIT 1"
            ),
            [file],
            revision,
        )
        .optional()
}

pub(super) fn keep(connection: &Connection, sent: &Sent, in_file: bool) -> rusqlite::Result<i64> {
    let digest = Sha256::digest(sent.bytes).to_vec();
    if in_file
        && let Some(last) = last(connection, sent.file)?
        && last.digest == digest
    {
        connection.execute(
            "UPDATE file SET gone_at_ms = NULL WHERE name = ?1",
            [sent.file],
        )?;
        return Ok(last.number);
    }
    connection.execute(
        "INSERT INTO file (name) VALUES (?1) ON CONFLICT DO NOTHING",
        [sent.file],
    )?;
    if in_file {
        connection.execute(
            "UPDATE file SET gone_at_ms = NULL WHERE name = ?1",
            [sent.file],
        )?;
    }
    connection.execute(
        "INSERT INTO body (digest, bytes) VALUES (?1, ?2) ON CONFLICT DO NOTHING",
        params![digest, sent.bytes],
    )?;
    connection.query_row(
        "INSERT INTO revision (file, number, kept_at_ms, how, window, from_number, reached, digest)
         VALUES (?1, 1 + coalesce((SELECT max(number) FROM revision WHERE file = ?1), 0),
                 ?2, ?3, ?4, ?5, ?6, ?7)
         RETURNING number",
        params![
            sent.file,
            sent.at.as_millisecond(),
            sent.how.word(),
            sent.window,
            sent.from,
            in_file,
            digest
        ],
        |row| row.get(0),
    )
}

pub(super) fn revision(row: &Row) -> rusqlite::Result<Revision> {
    let word: String = row.get(2)?;
    let how = How::ALL.into_iter().find(|how| how.word() == word);
    let unknown = || Error::FromSqlConversionFailure(2, Type::Text, word.clone().into());
    Ok(Revision {
        number: row.get(0)?,
        at: moment(row.get(1)?),
        how: how.ok_or_else(unknown)?,
        window: row.get(3)?,
        from: row.get(4)?,
        reached: row.get(5)?,
        digest: row.get(6)?,
    })
}
