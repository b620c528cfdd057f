//! A shopping list as a terminal shows it: boxes to tick, packs in the right-hand column.

use super::{COLUMNS, right, two_ends};
use edit::ledger::model::{Figure, Shopping, ShoppingLine};

/// The list, 80 columns wide.
pub fn shopping(list: &Shopping) -> String {
    let mut text = String::from("Shopping list\n");
    for of in &list.of {
        paragraph(&mut text, of, "  ");
    }
    paragraph(&mut text, &list.contains, "  ");
    for group in &list.groups {
        text.push('\n');
        text.push_str(&group.heading);
        text.push('\n');
        for line in &group.lines {
            text.push_str(&row(line));
        }
    }
    text.push('\n');
    for note in &list.notes {
        paragraph(&mut text, note, "");
    }
    crate::line::plain(&text)
}

fn row(line: &ShoppingLine) -> String {
    let shown = |figure: &Option<Figure>| figure.as_ref().map(|figure| figure.shown.clone());
    let amount = shown(&line.need).or_else(|| shown(&line.count));
    let mut name = line.name.clone();
    if line.need.is_some()
        && let Some(count) = &line.count
    {
        name = format!("{name}, {}", count.shown);
    }
    if let Some(detail) = &line.detail {
        name = format!("{name}, {detail}");
    }
    let packs = match (&line.packs, &line.left) {
        (Some(packs), Some(left)) => format!("{}, {} left", packs.shown, left.shown),
        (Some(packs), None) => packs.shown.clone(),
        _ => String::new(),
    };
    let begin = format!("  [ ] {}  {name}", right(&amount.unwrap_or_default(), 8));
    let mut text = two_ends(&begin, &packs, COLUMNS);
    if line.goes.len() > 1 {
        paragraph(&mut text, &line.goes.join("; "), "                ");
    }
    text
}

fn paragraph(text: &mut String, words: &str, indent: &str) {
    for line in crate::text::wrap::wrap(words, COLUMNS - indent.len()) {
        text.push_str(indent);
        text.push_str(&line);
        text.push('\n');
    }
}
