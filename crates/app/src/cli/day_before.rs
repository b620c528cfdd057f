//! The plan before, of a day that has begun: read from the `day.json` that `day` wrote in the morning.

use super::day_words::Meant;
use crate::failure::Failure;
use crate::world::read;
use jiff::civil::DateTime;
use plan::day::before::{Before, Was};
use plan::timetable::{Kind, clock};
use serde_json::Value;
use std::path::Path;

/// What a file holds of a plan; none when it is of a day that begins at another moment.
pub fn before(path: &Path, meant: &Meant) -> Result<Option<Before>, Failure> {
    let bytes = read::bytes(path)?;
    let answer: Value = serde_json::from_slice(&bytes).unwrap_or(Value::Null);
    if answer["command"] != "day" {
        return Err(Failure::Usage(format!(
            "{} is no plan of a day; give the day.json that `everyoven day --into` wrote",
            path.display()
        )));
    }
    Ok(of_answer(&answer, meant))
}

/// The same of bytes that are known to be such an answer.
pub fn of_bytes(bytes: &[u8], meant: &Meant) -> Option<Before> {
    of_answer(&serde_json::from_slice(bytes).ok()?, meant)
}

fn of_answer(answer: &Value, meant: &Meant) -> Option<Before> {
    let figures = answer["figures"].as_array()?;
    let minutes = |name: &Value| -> Option<i32> {
        let figure = figures.iter().find(|figure| figure["name"] == *name)?;
        #[allow(clippy::cast_possible_truncation)] // a day's minutes
        let whole = (figure["value"].as_f64()? / 60.0).round().clamp(-1e6, 1e6) as i32;
        Some(whole)
    };
    let mut entries = Vec::new();
    for row in answer["timetable"]["entries"].as_array()? {
        let text = |key: &str| row[key].as_str().map(str::to_owned);
        let kind = row["kind"].as_str()?;
        let begins_min = minutes(&row["begins"])?;
        // Its clock must be that of the day that is asked.
        let there: DateTime = row["begins_at"].as_str()?.get(..16)?.parse().ok()?;
        if there != clock(meant.starts, meant.zone.as_ref(), begins_min.into()) {
            return None;
        }
        entries.push(Was {
            words: text("what")?,
            batch: text("whose")?,
            kind: Kind::ALL.into_iter().find(|known| known.word() == kind)?,
            begins_min,
            lasts_min: if row["takes"].is_null() {
                0
            } else {
                minutes(&row["takes"])?
            },
        });
    }
    let number =
        |what: &str, number: usize| minutes(&Value::from(format!("day.bread.{number}.{what}")));
    let breads = (1..).take_while(|bread| number("in", *bread).is_some());
    Some(Before {
        entries,
        wanted: breads.map(|bread| number("wanted", bread)).collect(),
    })
}
