//! Bakes and what was read off while they went on, in the order in which it came.

use super::{Record, moment};
use crate::failure::Failure;
use jiff::Timestamp;
use rusqlite::types::Type;
use rusqlite::{Error, OptionalExtension, Row, params};

/// A bake that was begun.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bake {
    /// Its number in the record.
    pub number: i64,
    /// Name of the recipe in the notebook.
    pub recipe: String,
    /// Version of the recipe's file.
    pub revision: Option<i64>,
    /// Name of the kitchen in the notebook; none for an ordinary one.
    pub kitchen: Option<String>,
    /// When it was begun.
    pub begun: Timestamp,
    /// When it was ended.
    pub ended: Option<Timestamp>,
    /// What the cook says of it.
    pub words: Option<String>,
}

/// What a reading is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// A thermometer.
    Temperature,
    /// How high the dough stands.
    Height,
    /// A scale.
    Weight,
    /// What the dough looked like.
    Seen,
    /// A step was begun.
    Begun,
    /// A step was done.
    Done,
    /// Anything else.
    Note,
}

impl Of {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::Temperature,
        Self::Height,
        Self::Weight,
        Self::Seen,
        Self::Begun,
        Self::Done,
        Self::Note,
    ];

    /// Its word in forms and in the record.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Temperature => "temperature",
            Self::Height => "height",
            Self::Weight => "weight",
            Self::Seen => "seen",
            Self::Begun => "begun",
            Self::Done => "done",
            Self::Note => "note",
        }
    }

    /// By its word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|of| of.word() == word)
    }
}

/// Something that was read off or noted.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Its place in the order of the bake's readings, from 1; 0 while it is not kept yet.
    pub number: i64,
    /// Id of the recipe's step.
    pub step: Option<String>,
    /// What it is of.
    pub of: Of,
    /// The figure, in `unit`, as it was read.
    pub value: Option<f64>,
    /// Its unit as the cook writes it: °C, cm, g.
    pub unit: Option<String>,
    /// Words.
    pub words: Option<String>,
    /// When, by the machine's clock; the order is by number.
    pub at: Timestamp,
    /// A mark that the page gives it: sent twice, it is kept once.
    pub sent: Option<String>,
}

const BAKE: &str = "number, recipe, revision, kitchen, begun_at_ms, ended_at_ms, words";

impl Record {
    /// Begins a bake and gives its number.
    pub fn begin_bake(
        &self,
        recipe: &str,
        revision: Option<i64>,
        kitchen: Option<&str>,
        at: Timestamp,
    ) -> Result<i64, Failure> {
        self.write(|transaction| {
            transaction.execute(
                "INSERT INTO bake (recipe, revision, kitchen, begun_at_ms) VALUES (?1, ?2, ?3, ?4)",
                params![recipe, revision, kitchen, at.as_millisecond()],
            )?;
            Ok(transaction.last_insert_rowid())
        })
    }

    /// Ends a bake; what the cook says of it stands from then on.
    pub fn end_bake(&self, bake: i64, words: Option<&str>, at: Timestamp) -> Result<(), Failure> {
        self.write(|transaction| {
            transaction.execute(
                "UPDATE bake SET ended_at_ms = ?2, words = coalesce(?3, words) WHERE number = ?1",
                params![bake, at.as_millisecond(), words],
            )?;
            Ok(())
        })
    }

    /// Bakes of a recipe, the last one first; of all recipes when none is named.
    pub fn bakes(&self, recipe: Option<&str>) -> Result<Vec<Bake>, Failure> {
        self.read(|connection| {
            let mut asked = connection.prepare(&format!(
                "SELECT {BAKE} FROM bake WHERE ?1 IS NULL OR recipe = ?1 ORDER BY number DESC"
            ))?;
            asked.query_map([recipe], bake)?.collect()
        })
    }

    /// Keeps a reading and gives its number; one that was sent before keeps its number.
    pub fn note_reading(&self, bake: i64, reading: &Reading) -> Result<i64, Failure> {
        self.write(|transaction| {
            if let Some(sent) = &reading.sent {
                let before = transaction
                    .query_row(
                        "SELECT number FROM reading WHERE bake = ?1 AND sent = ?2",
                        params![bake, sent],
                        |row| row.get(0),
                    )
                    .optional()?;
                if let Some(number) = before {
                    return Ok(number);
                }
            }
            transaction.query_row(
                "INSERT INTO reading (bake, number, step, kind, value, unit, words, read_at_ms, sent)
                 VALUES (?1, 1 + coalesce((SELECT max(number) FROM reading WHERE bake = ?1), 0),
                         ?2, ?3, ?4, ?5, ?6, ?7, ?8)
                 RETURNING number",
                params![
                    bake,
                    reading.step,
                    reading.of.word(),
                    reading.value,
                    reading.unit,
                    reading.words,
                    reading.at.as_millisecond(),
                    reading.sent
                ],
                |row| row.get(0),
            )
        })
    }

    /// Takes a reading back; it stays in the record and is no longer among the bake's readings.
    pub fn withdraw_reading(&self, bake: i64, number: i64, at: Timestamp) -> Result<(), Failure> {
        self.write(|transaction| {
            transaction.execute(
                "UPDATE reading SET withdrawn_at_ms = ?3
                 WHERE bake = ?1 AND number = ?2 AND withdrawn_at_ms IS NULL",
                params![bake, number, at.as_millisecond()],
            )?;
            Ok(())
        })
    }

    /// Readings of a bake in the order in which they came, without those that were taken back.
    pub fn readings(&self, bake: i64) -> Result<Vec<Reading>, Failure> {
        self.read(|connection| {
            let mut asked = connection.prepare(
                "SELECT number, step, kind, value, unit, words, read_at_ms, sent FROM reading
                 WHERE bake = ?1 AND withdrawn_at_ms IS NULL ORDER BY number",
            )?;
            asked.query_map([bake], reading)?.collect()
        })
    }
}

fn bake(row: &Row) -> rusqlite::Result<Bake> {
    Ok(Bake {
        number: row.get(0)?,
        recipe: row.get(1)?,
        revision: row.get(2)?,
        kitchen: row.get(3)?,
        begun: moment(row.get(4)?),
        ended: row.get::<_, Option<i64>>(5)?.map(moment),
        words: row.get(6)?,
    })
}

fn reading(row: &Row) -> rusqlite::Result<Reading> {
    let word: String = row.get(2)?;
    let unknown = || Error::FromSqlConversionFailure(2, Type::Text, word.clone().into());
    Ok(Reading {
        number: row.get(0)?,
        step: row.get(1)?,
        of: Of::of_word(&word).ok_or_else(unknown)?,
        value: row.get(3)?,
        unit: row.get(4)?,
        words: row.get(5)?,
        at: moment(row.get(6)?),
        sent: row.get(7)?,
    })
}
