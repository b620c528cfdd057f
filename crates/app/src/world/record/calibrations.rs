//! What a kitchen was found to be: factors that its bakes taught, each with its range and the bakes it is from.

use super::{Record, moment};
use crate::failure::Failure;
use jiff::Timestamp;
use rusqlite::params;

/// A factor of one kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Calibration {
    /// Name of the kitchen in the notebook; empty for an ordinary one.
    pub kitchen: String,
    /// Which factor.
    pub factor: String,
    /// Its value, without a unit.
    pub value: f64,
    /// Lower end of the range in which it lies nine times in ten.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// The bakes that it was learnt from.
    pub from: Vec<i64>,
    /// When.
    pub at: Timestamp,
}

impl Record {
    /// Keeps a factor beside the earlier ones of that name.
    pub fn keep_calibration(&self, found: &Calibration) -> Result<(), Failure> {
        self.write(|transaction| {
            transaction.execute(
                "INSERT INTO calibration (kitchen, factor, value, low, high, learnt_at_ms)
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
                params![
                    found.kitchen,
                    found.factor,
                    found.value,
                    found.low,
                    found.high,
                    found.at.as_millisecond()
                ],
            )?;
            let number = transaction.last_insert_rowid();
            for bake in &found.from {
                transaction.execute(
                    "INSERT INTO calibration_bake (calibration, bake) VALUES (?1, ?2)
                     ON CONFLICT DO NOTHING",
                    params![number, bake],
                )?;
            }
            Ok(())
        })
    }

    /// The last value of each factor of a kitchen, in the order of their names.
    pub fn calibrations(&self, kitchen: &str) -> Result<Vec<Calibration>, Failure> {
        self.read(|connection| {
            let mut asked = connection.prepare(
                "SELECT number, factor, value, low, high, learnt_at_ms FROM calibration
                 WHERE number IN
                   (SELECT max(number) FROM calibration WHERE kitchen = ?1 GROUP BY factor)
                 ORDER BY factor",
            )?;
            let mut bakes = connection.prepare(
                "SELECT bake FROM calibration_bake WHERE calibration = ?1 ORDER BY bake",
            )?;
            let found = asked.query_map([kitchen], |row| {
                let number: i64 = row.get(0)?;
                Ok((
                    number,
                    Calibration {
                        kitchen: kitchen.to_owned(),
                        factor: row.get(1)?,
                        value: row.get(2)?,
                        low: row.get(3)?,
                        high: row.get(4)?,
                        from: Vec::new(),
                        at: moment(row.get(5)?),
                    },
                ))
            })?;
            found
                .map(|found| {
                    let (number, mut found) = found?;
                    found.from = bakes
                        .query_map([number], |row| row.get(0))?
                        .collect::<rusqlite::Result<_>>()?;
                    Ok(found)
                })
                .collect()
        })
    }
}
