//! The label as a terminal shows it: a table for each law, the ingredient list, the cost.

use super::{COLUMNS, left, right, two_ends};
use crate::text::wrap::{spaced, wrap};
use edit::ledger::label::model::{CostLines, LabelLines, Law, Panel, Part, ProductLabel};

/// Width of a row's words.
const WORDS: usize = 34;
/// Width of a column of figures.
const FIGURE: usize = 22;

/// Every product by each law that is asked for, then what is to be said.
pub fn label(title: &str, lines: &LabelLines, laws: &[Law]) -> String {
    let mut text = format!("{title}\n{}\n", lines.heading);
    for product in &lines.products {
        text.push_str(&format!("\n{}\n", product.name));
        paragraph(&mut text, &format!("{}.", product.baked), 2);
        for law in laws {
            one(&mut text, product, *law);
        }
    }
    text.push('\n');
    for (law, remark) in &lines.remarks {
        if laws.contains(law) {
            paragraph(&mut text, remark, 0);
        }
    }
    for note in lines.notes.iter().chain(&lines.list_notes) {
        paragraph(&mut text, note, 0);
    }
    text.push('\n');
    paragraph(&mut text, &lines.purpose, 0);
    text
}

fn one(text: &mut String, product: &ProductLabel, law: Law) {
    let name = match law {
        Law::UnitedStates => "United States",
        Law::Europe => "European Union",
    };
    text.push_str(&format!("\n  {name}\n"));
    let panel = product.panel(law);
    if let Some(serving) = &panel.serving {
        paragraph(text, serving, 2);
    }
    table(text, panel);
    let list: String = product
        .ingredients(law)
        .iter()
        .map(|part| match part {
            Part::Words(words) => words.clone(),
            // Nothing else sets a word apart on every terminal.
            Part::Allergen(name) => name.to_uppercase(),
        })
        .collect();
    paragraph(text, &list, 2);
}

/// A panel's rows, figures to the right.
pub fn table(text: &mut String, panel: &Panel) {
    let row = |words: &str, cells: [&str; 2]| {
        format!(
            "  {}{}{}",
            left(words, WORDS),
            right(cells[0], FIGURE),
            right(cells[1], FIGURE)
        )
    };
    let heads = [panel.heads[0].as_str(), panel.heads[1].as_str()];
    text.push_str(spaced(&row("", heads)).trim_end());
    text.push('\n');
    for line in &panel.rows {
        let words = format!("{}{}", "  ".repeat(usize::from(line.inset)), line.label);
        let [first, second] = line
            .cells
            .each_ref()
            .map(|cell| cell.as_ref().map_or("", |figure| figure.shown.as_str()));
        text.push_str(spaced(&row(&words, [first, second])).trim_end());
        text.push('\n');
    }
}

/// What it costs by the cook's own prices.
pub fn cost(lines: &CostLines) -> String {
    let mut text = "\nCost by your prices\n".to_owned();
    let mut both = |words: &str, figure: Option<&str>| {
        let line = two_ends(&format!("  {words}"), figure.unwrap_or("no price"), COLUMNS);
        text.push_str(&spaced(&line));
    };
    for (words, figure) in &lines.lines {
        both(words, figure.as_ref().map(|figure| figure.shown.as_str()));
    }
    if let Some(sum) = &lines.sum {
        let words = if lines.partial { "In part" } else { "In all" };
        both(words, Some(&sum.shown));
        for (words, figure) in &lines.pieces {
            both(words, Some(&figure.shown));
        }
    }
    for note in &lines.notes {
        paragraph(&mut text, note, 0);
    }
    text
}

fn paragraph(text: &mut String, words: &str, indent: usize) {
    let pad = " ".repeat(indent);
    for line in wrap(words, COLUMNS - indent) {
        text.push_str(spaced(&format!("{pad}{line}")).trim_end());
        text.push('\n');
    }
}
