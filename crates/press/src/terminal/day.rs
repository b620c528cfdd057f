//! A bake day as a terminal shows it: when each bread is ready, the table, and how good the plan is.

use super::{COLUMNS, left, right, timetable};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::day::{BreadLine, DayLines};

/// Columns of a clock.
const CLOCK: usize = 9;
/// Columns of what it waits.
const WAITS: usize = 20;
/// Columns of a bread's name.
const NAME: usize = COLUMNS - 4 * CLOCK - WAITS;

/// The day, 80 columns wide.
pub fn day(day: &DayLines) -> String {
    let mut out = vec![format!(
        "{}{}{}{}{}{}",
        left("", NAME),
        right("in", CLOCK),
        right("out", CLOCK),
        right("ready", CLOCK),
        right("wanted", CLOCK),
        right("waits risen", WAITS),
    )];
    let several = day
        .breads
        .iter()
        .any(|bread| bread.batch != day.breads[0].batch);
    let mut batch = "";
    let mut breads: Vec<&BreadLine> = day.breads.iter().collect();
    breads.sort_by(|one, other| one.batch.cmp(&other.batch));
    for bread in breads {
        if several && bread.batch != batch {
            batch = &bread.batch;
            out.push(batch.to_owned());
        }
        out.push(row(bread, if several { "  " } else { "" }));
    }
    out.push(String::new());
    for (label, figure) in &day.sums {
        for line in super::two_ends(label, &figure.shown, COLUMNS).lines() {
            if line.chars().count() > COLUMNS {
                out.extend(wrap(line, COLUMNS));
            } else {
                out.push(line.trim_end().to_owned());
            }
        }
    }
    for sentence in &day.verdict {
        out.extend(wrap(sentence, COLUMNS));
    }
    let head = plain(&(out.join("\n") + "\n"));
    format!("{head}\n{}", timetable(&day.table))
}

fn row(bread: &BreadLine, indent: &str) -> String {
    let shown = |figure: &Option<edit::ledger::model::Figure>| {
        figure
            .as_ref()
            .map_or(String::new(), |figure| figure.shown.clone())
    };
    let name = wrap(&bread.name, NAME - indent.len() - 1);
    let name = name.first().cloned().unwrap_or_default();
    format!(
        "{}{}{}{}{}{}",
        left(&format!("{indent}{name}"), NAME),
        right(&bread.into.shown, CLOCK),
        right(&bread.out.shown, CLOCK),
        right(&bread.ready.shown, CLOCK),
        right(&shown(&bread.wanted), CLOCK),
        right(&shown(&bread.waits), WAITS),
    )
    .trim_end()
    .to_owned()
}
