//! What readers report about a recipe.

use super::{Record, moment};
use crate::failure::Failure;
use jiff::Timestamp;
use rusqlite::params;

/// A reader's report.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    /// Its number in the record; 0 while it is not kept yet.
    pub number: i64,
    /// What the reader says.
    pub words: String,
    /// When it came.
    pub at: Timestamp,
    /// When it was settled.
    pub settled: Option<Timestamp>,
}

impl Record {
    /// Keeps a report about a file.
    pub fn keep_report(&self, file: &str, words: &str, at: Timestamp) -> Result<(), Failure> {
        self.write(|transaction| {
            transaction.execute(
                "INSERT INTO report (file, words, received_at_ms) VALUES (?1, ?2, ?3)",
                params![file, words, at.as_millisecond()],
            )?;
            Ok(())
        })
    }

    /// Reports about a file, the last one first.
    pub fn reports(&self, file: &str) -> Result<Vec<Report>, Failure> {
        self.read(|connection| {
            let mut asked = connection.prepare(
                "SELECT number, words, received_at_ms, settled_at_ms FROM report
                 WHERE file = ?1 ORDER BY number DESC",
            )?;
            asked
                .query_map([file], |row| {
                    Ok(Report {
                        number: row.get(0)?,
                        words: row.get(1)?,
                        at: moment(row.get(2)?),
                        settled: row.get::<_, Option<i64>>(3)?.map(moment),
                    })
                })?
                .collect()
        })
    }
}
