//! The formula as a terminal shows it: grams on their unit, percentages to the right.

use super::{COLUMNS, left, right, two_ends};
use edit::ledger::model::{ItemLine, Ledger};

/// Stages with their items, then the sums that a baker reads.
pub fn formula(ledger: &Ledger) -> String {
    let mut text = format!("{}\n", ledger.title);
    for stage in &ledger.stages {
        let share = stage
            .flour_share
            .as_ref()
            .map_or("", |share| share.shown.as_str());
        text.push('\n');
        text.push_str(&two_ends(&stage.heading, share, COLUMNS));
        for item in &stage.items {
            text.push_str(&item_line(item));
        }
        text.push_str(&two_ends(&format!("  {}", "─".repeat(8)), "", COLUMNS));
        text.push_str(&two_ends(
            &format!("  {}", right(&stage.sum.shown, 8)),
            "",
            COLUMNS,
        ));
    }
    if !ledger.besides.is_empty() {
        text.push_str("\nFor bench, tin and top\n");
        for item in &ledger.besides {
            text.push_str(&item_line(item));
        }
    }
    text.push_str("\nThe dough in all\n");
    for (label, figure) in &ledger.formula {
        text.push_str(&two_ends(&format!("  {label}"), &figure.shown, COLUMNS));
    }
    if let Some(note) = &ledger.cup_note {
        text.push('\n');
        for line in crate::text::wrap::wrap(note, COLUMNS) {
            text.push_str(&line);
            text.push('\n');
        }
    }
    text
}

fn item_line(item: &ItemLine) -> String {
    let grams = item
        .grams
        .as_ref()
        .map_or("all", |figure| figure.shown.as_str());
    let measure = item
        .measure
        .as_ref()
        .map_or("", |figure| figure.shown.as_str());
    let percent = item
        .percent
        .as_ref()
        .map_or("", |figure| figure.shown.as_str());
    let name = item.place.as_ref().map_or_else(
        || item.name.clone(),
        |place| format!("{}, {place}", item.name),
    );
    // However long the measure, the name does not touch it.
    let measure = left(&format!("{measure} "), 20);
    let begin = format!("  {}  {measure}{name}", right(grams, 8));
    two_ends(&begin, percent, COLUMNS)
}
