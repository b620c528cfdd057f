//! A variant as a terminal shows it: what changed, what stayed, what to mind.

use super::COLUMNS;
use crate::line::plain;
use crate::text::wrap;
use edit::stretch::Moved;
use edit::variant::Variant;

/// Short lists under the title: what changed, what times moved in a kitchen, what stayed, what to mind.
pub fn variant(variant: &Variant, moved: &[Moved], kitchen: &str) -> String {
    let mut text = format!("{}\n\nChanged\n", variant.recipe.title.value);
    for change in &variant.changes {
        let line = match (change.before.as_str(), change.after.as_str()) {
            ("", after) => format!("{}, new: {after}", change.what),
            (before, "") => format!("{}, gone: {before}", change.what),
            (before, after) => format!("{}: {before} → {after}", change.what),
        };
        push(&mut text, &line);
    }
    if !moved.is_empty() {
        text.push_str(&format!("\nTimes, reckoned in {kitchen}\n"));
        for one in moved {
            push(&mut text, &plain(&one.line));
        }
    }
    text.push_str("\nKept\n");
    for kept in &variant.kept {
        let line = if kept.before == kept.after {
            format!("{}: {}", kept.name, kept.after)
        } else {
            let word = if kept.held { "" } else { "  (not kept)" };
            format!("{}: {} → {}{word}", kept.name, kept.before, kept.after)
        };
        push(&mut text, &line);
    }
    if !variant.said.is_empty() {
        text.push_str("\nMind\n");
        for sentence in &variant.said {
            push(&mut text, sentence);
        }
    }
    text
}

/// A line with its later lines set in.
fn push(text: &mut String, line: &str) {
    for (place, part) in wrap::wrap(line, COLUMNS - 4).iter().enumerate() {
        text.push_str(if place == 0 { "  " } else { "    " });
        text.push_str(part);
        text.push('\n');
    }
}
