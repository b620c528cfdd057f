//! What bakes taught about a kitchen as a terminal shows it: before, after, whether the readings could tell.

use super::{COLUMNS, left};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::learnt::{Kept, LearntLines};

/// Columns of a thing's name and of a band.
const NAME: usize = 41;
const BAND: usize = 20;

/// Everything that was learnt.
pub fn learnt(lines: &LearntLines) -> String {
    let bakes = if lines.bakes == 1 { "bake" } else { "bakes" };
    let mut out = vec![
        format!("What {} {bakes} told of this kitchen", lines.bakes),
        String::new(),
        format!("  {}{}after", left("", NAME), left("before", BAND)),
    ];
    for told in [true, false] {
        let some: Vec<_> = lines
            .lines
            .iter()
            .filter(|line| line.told == told)
            .collect();
        if some.is_empty() {
            continue;
        }
        if !told {
            out.push(String::new());
            out.push("The readings could not tell:".to_owned());
        }
        for line in some {
            let row = format!(
                "  {}{}{}",
                left(&line.what, NAME),
                left(&line.before, BAND),
                line.after
            );
            out.push(row);
        }
    }
    out.push(String::new());
    out.extend(wrap(&lines.about, COLUMNS));
    for said in &lines.not_kept {
        out.extend(wrap(said, COLUMNS));
    }
    ended(out)
}

/// What is written into the kitchen's file.
pub fn kept(changes: &[Kept]) -> String {
    let mut out = vec![String::new(), "Measured here".to_owned()];
    for change in changes {
        let was = change
            .was
            .as_ref()
            .map_or_else(String::new, |was| format!(" (was {was})"));
        out.push(format!("  {} = {}{was}", change.place, change.is));
    }
    if changes.is_empty() {
        out.push("  Nothing: the readings told nothing that a kitchen's file keeps.".to_owned());
    }
    ended(out)
}

fn ended(lines: Vec<String>) -> String {
    let mut text = String::new();
    for line in lines {
        text.push_str(plain(&line).trim_end());
        text.push('\n');
    }
    text
}
