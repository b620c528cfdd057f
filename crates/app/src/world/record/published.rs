//! What went out: which version of a recipe, when, into which folder, on which papers; and notes to pin.

use super::{Record, moment};
use crate::failure::Failure;
use jiff::Timestamp;
use rusqlite::{OptionalExtension, params};

/// A version that was published.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Published {
    /// Version of the recipe's file.
    pub revision: i64,
    /// When.
    pub at: Timestamp,
    /// The folder, below the notebook.
    pub folder: String,
    /// The kitchen it was worked out in; none for an ordinary one.
    pub kitchen: Option<String>,
    /// The tag of its readers' English, when it was for those of one country.
    pub readers: Option<String>,
    /// Names of the files that were made.
    pub papers: Vec<String>,
}

/// A note to pin under what went out before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pin {
    /// Its text.
    pub words: String,
    /// When it was made.
    pub at: Timestamp,
}

impl Record {
    /// Keeps that a version was published.
    pub fn keep_published(&self, file: &str, out: &Published) -> Result<(), Failure> {
        self.write(|transaction| {
            transaction.execute(
                "INSERT INTO published (file, revision, published_at_ms, folder, kitchen, readers)
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
                params![
                    file,
                    out.revision,
                    out.at.as_millisecond(),
                    out.folder,
                    out.kitchen,
                    out.readers
                ],
            )?;
            let number = transaction.last_insert_rowid();
            for paper in &out.papers {
                transaction.execute(
                    "INSERT INTO paper (published, name) VALUES (?1, ?2) ON CONFLICT DO NOTHING",
                    params![number, paper],
                )?;
            }
            Ok(())
        })
    }

    /// Keeps that a text of a file went out, as the version that it is; `out.revision` is found here.
    pub fn went_out(&self, file: &str, bytes: &[u8], out: &Published) -> Result<(), Failure> {
        self.reconcile_file(file, Some(bytes), out.at)?;
        let Some(last) = self.last_revision(file)? else {
            return Ok(());
        };
        let out = Published {
            revision: last.number,
            ..out.clone()
        };
        self.keep_published(file, &out)
    }

    /// What of a file was published last.
    pub fn last_published(&self, file: &str) -> Result<Option<Published>, Failure> {
        self.read(|connection| {
            let found = connection
                .query_row(
                    "SELECT number, revision, published_at_ms, folder, kitchen, readers
                     FROM published WHERE file = ?1 ORDER BY number DESC LIMIT 1",
                    [file],
                    |row| {
                        let number: i64 = row.get(0)?;
                        Ok((
                            number,
                            Published {
                                revision: row.get(1)?,
                                at: moment(row.get(2)?),
                                folder: row.get(3)?,
                                kitchen: row.get(4)?,
                                readers: row.get(5)?,
                                papers: Vec::new(),
                            },
                        ))
                    },
                )
                .optional()?;
            let Some((number, mut out)) = found else {
                return Ok(None);
            };
            let mut asked =
                connection.prepare("SELECT name FROM paper WHERE published = ?1 ORDER BY name")?;
            out.papers = asked
                .query_map([number], |row| row.get(0))?
                .collect::<rusqlite::Result<_>>()?;
            Ok(Some(out))
        })
    }

    /// Keeps a note to pin.
    pub fn keep_pin(&self, file: &str, pin: &Pin) -> Result<(), Failure> {
        self.write(|transaction| {
            transaction.execute(
                "INSERT INTO pin (file, words, made_at_ms) VALUES (?1, ?2, ?3)",
                params![file, pin.words, pin.at.as_millisecond()],
            )?;
            Ok(())
        })
    }

    /// Notes to pin of a file, the last one first.
    pub fn pins(&self, file: &str) -> Result<Vec<Pin>, Failure> {
        self.read(|connection| {
            let mut asked = connection.prepare(
                "SELECT words, made_at_ms FROM pin WHERE file = ?1 ORDER BY number DESC",
            )?;
            asked
                .query_map([file], |row| {
                    Ok(Pin {
                        words: row.get(0)?,
                        at: moment(row.get(1)?),
                    })
                })?
                .collect()
        })
    }
}
