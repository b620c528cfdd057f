//! The recipe as plain text: sentences on the left, their measures in a column on the right.
//!
//! Columns are counted in characters; letters that a terminal draws two columns wide would push
//! the right column out, which no string of the ledger does.

mod label;
pub(crate) mod wrap;

use edit::ledger::model::{ItemLine, Ledger, StageLines, StepLine};

use crate::line::{HOW_FAR, margin, says_how_far, sentence};
use crate::marks::{sign, used, word};
use wrap::{beside, length, spaced, wrap};

/// The recipe as text, as wide as asked (80 is a terminal's), never narrower than 40 characters.
pub fn text(ledger: &Ledger, width: usize) -> String {
    let mut sheet = Sheet {
        out: Vec::new(),
        width: width.max(40),
    };
    sheet.head(ledger);
    sheet.amounts(ledger);
    sheet.pieces(ledger);
    sheet.method(ledger);
    sheet.reckoned(ledger);
    sheet.after(ledger);
    let mut out = String::new();
    for line in sheet.out {
        out.push_str(spaced(&line).trim_end());
        out.push('\n');
    }
    out
}

/// The lines so far and how wide they may be.
struct Sheet {
    out: Vec<String>,
    width: usize,
}

/// Width of the grams column: "1232 g" and room for a kilogram's decimals.
const GRAMS: usize = 9;
/// Width of the kitchen measure's column.
const MEASURE: usize = 16;
/// Width of the percentage's column.
const PERCENT: usize = 7;

impl Sheet {
    /// Width of the sentences' column, and of the margin; the margin goes below on a narrow sheet.
    fn columns(&self) -> Option<(usize, usize)> {
        let right = self.width * 35 / 100;
        (self.width >= 64).then(|| (self.width - right - 3, right))
    }

    fn blank(&mut self) {
        if self.out.last().is_some_and(|line| !line.is_empty()) {
            self.out.push(String::new());
        }
    }

    fn paragraph(&mut self, text: &str, indent: usize) {
        let pad = " ".repeat(indent);
        self.out.extend(
            wrap(text, self.width - indent)
                .into_iter()
                .map(|l| format!("{pad}{l}")),
        );
    }

    fn heading(&mut self, text: &str, under: char) {
        self.blank();
        let lines = wrap(text, self.width);
        let longest = lines.iter().map(|line| length(line)).max().unwrap_or(0);
        self.out.extend(lines);
        self.out.push(under.to_string().repeat(longest));
    }

    /// A label and what it says, in two columns.
    fn labelled(&mut self, label: &str, text: &str, column: usize) {
        let (left, right) = (wrap(label, column), wrap(text, self.width - column - 2));
        self.out.extend(beside(&left, column, &right, 2));
    }

    fn head(&mut self, ledger: &Ledger) {
        self.heading(&ledger.title, '=');
        if !ledger.byline.is_empty() {
            self.paragraph(&ledger.byline.join(" · "), 0);
        }
        if let Some(headnote) = &ledger.headnote {
            self.blank();
            self.paragraph(headnote, 0);
        }
        if let Some(disclosure) = &ledger.disclosure {
            self.blank();
            self.paragraph(disclosure, 0);
        }
        self.blank();
        let column = ledger
            .facts
            .iter()
            .map(|f| length(&f.label))
            .max()
            .unwrap_or(0)
            .min(18);
        for fact in &ledger.facts {
            self.labelled(&fact.label, &fact.shown, column);
        }
        if let Some(film) = &ledger.film {
            let date = film
                .when
                .as_ref()
                .map(|date| format!(", {date}"))
                .unwrap_or_default();
            self.labelled(
                "Film",
                &format!("{}{date} {}", film.title, film.address),
                column,
            );
        }
        self.blank();
        self.paragraph(&ledger.allergens.contains, 0);
        self.paragraph(&ledger.allergens.honesty, 0);
        self.list("Tools", &ledger.kit);
    }

    fn list(&mut self, heading: &str, lines: &[String]) {
        if lines.is_empty() {
            return;
        }
        self.heading(heading, '-');
        for line in lines {
            let right = wrap(line, self.width - 2);
            self.out.extend(beside(&["·".to_owned()], 1, &right, 1));
        }
    }

    fn amounts(&mut self, ledger: &Ledger) {
        self.heading("Amounts", '=');
        for stage in &ledger.stages {
            self.stage(stage);
        }
        if !ledger.besides.is_empty() {
            self.blank();
            self.paragraph("Besides", 0);
            ledger.besides.iter().for_each(|item| self.item(item));
        }
        if ledger.cup_note.is_some() || ledger.words_note.is_some() {
            self.blank();
        }
        for note in [&ledger.cup_note, &ledger.words_note].into_iter().flatten() {
            self.paragraph(note, 0);
        }
        if says_how_far(ledger) {
            self.paragraph(HOW_FAR, 0);
        }
        if !ledger.formula.is_empty() {
            self.heading("The formula, in parts of the flour", '-');
            let column = ledger
                .formula
                .iter()
                .map(|(l, _)| length(l))
                .max()
                .unwrap_or(0)
                .min(30);
            for (label, figure) in &ledger.formula {
                let right = format!("{:>9}", figure.shown);
                self.out
                    .extend(beside(&wrap(label, column), column, &[right], 2));
            }
        }
        for table in &ledger.rooms {
            self.heading(&table.caption, '-');
            let column = table
                .rows
                .iter()
                .map(|(room, ..)| length(&room.shown))
                .max();
            let column = column.unwrap_or(0) + 5;
            for (room, liquid, _) in &table.rows {
                self.labelled(&format!("room {}", room.shown), liquid, column);
            }
        }
    }

    fn stage(&mut self, stage: &StageLines) {
        self.blank();
        let heading = match &stage.flour_share {
            Some(share) => format!("{}, {}", stage.heading, share.shown),
            None => stage.heading.clone(),
        };
        self.paragraph(&heading, 0);
        stage.items.iter().for_each(|item| self.item(item));
        self.out.push("─".repeat(GRAMS));
        self.out
            .push(format!("{:>GRAMS$}  in all", stage.sum.shown));
    }

    fn item(&mut self, item: &ItemLine) {
        let shown = |figure: &Option<edit::ledger::model::Figure>| {
            figure
                .as_ref()
                .map(|figure| figure.shown.clone())
                .unwrap_or_default()
        };
        let mut name = item.name.clone();
        for more in [&item.detail, &item.place].into_iter().flatten() {
            name = format!("{name}, {more}");
        }
        if let Some(note) = item.footnote {
            name = format!("{name} [{note}]");
        }
        let mut measure = shown(&item.measure);
        if let Some(error) = &item.measure_error {
            measure = format!("{measure} ({})", error.shown);
        }
        let grams = format!("{:>GRAMS$}", shown(&item.grams));
        let percent = format!("{:>PERCENT$}", shown(&item.percent));
        if self.width >= 64 {
            let room = self.width - GRAMS - MEASURE - PERCENT - 5;
            let left = beside(&[grams], GRAMS, &wrap(&measure, MEASURE), 2);
            let middle = beside(&left, GRAMS + 2 + MEASURE, &wrap(&name, room), 2);
            let edge = self.width - PERCENT - 1;
            self.out.extend(beside(&middle, edge, &[percent], 1));
        } else {
            let room = self.width - GRAMS - PERCENT - 3;
            let mut lines = wrap(&name, room);
            lines.extend(wrap(&measure, room));
            let left = beside(&[grams], GRAMS, &lines, 2);
            self.out
                .extend(beside(&left, self.width - PERCENT - 1, &[percent], 1));
        }
    }

    fn pieces(&mut self, ledger: &Ledger) {
        if ledger.products.is_empty() {
            return;
        }
        self.heading("Pieces", '=');
        for product in &ledger.products {
            let mut left = wrap(&product.name, self.columns().map_or(self.width, |(l, _)| l));
            let mut lines = vec![product.pieces.clone()];
            lines.extend(product.tin.clone());
            let mut right: Vec<String> = product.bake.iter().map(|b| format!("▲ {b}")).collect();
            right.extend(
                product
                    .after
                    .iter()
                    .map(|after| format!("· {after}, baked")),
            );
            self.blank();
            self.split(&mut left, &lines, &right);
        }
    }

    /// Lines on the left and marked lines in the margin, or below it on a narrow sheet.
    fn split(&mut self, left: &mut Vec<String>, more: &[String], marked: &[String]) {
        let marked = |width: usize| {
            marked.iter().flat_map(move |line| {
                let mut letters = line.chars();
                let mark = letters.next().map(String::from).unwrap_or_default();
                beside(
                    &[mark],
                    1,
                    &wrap(letters.as_str().trim_start(), width - 2),
                    1,
                )
            })
        };
        if let Some((wide, narrow)) = self.columns() {
            left.extend(more.iter().flat_map(|line| wrap(line, wide)));
            let right: Vec<_> = marked(narrow).collect();
            self.out.extend(beside(left, wide, &right, 3));
        } else {
            self.out.append(left);
            let width = self.width;
            self.out
                .extend(more.iter().flat_map(|line| wrap(line, width)));
            self.out
                .extend(marked(width - 6).map(|line| format!("      {line}")));
        }
    }

    fn method(&mut self, ledger: &Ledger) {
        if !ledger.cautions.is_empty() {
            self.heading("Take care", '=');
            for caution in &ledger.cautions {
                self.paragraph(&caution.text, 0);
                self.paragraph(&format!("Source: {}", caution.source), 2);
            }
        }
        self.heading("Method", '=');
        let key: Vec<_> = used(ledger)
            .into_iter()
            .map(|kind| format!("{} {}", sign(kind), word(kind).replace(' ', "\u{a0}")))
            .collect();
        if !key.is_empty() {
            self.paragraph(&format!("Beside each step: {}", key.join(", ")), 0);
        }
        for section in &ledger.sections {
            self.heading(&section.heading, '-');
            for (index, step) in section.steps.iter().enumerate() {
                if index > 0 {
                    self.blank();
                }
                self.step(step);
            }
        }
    }

    fn step(&mut self, step: &StepLine) {
        let width = self.columns().map_or(self.width, |(left, _)| left);
        let number = vec![format!("{:>2}", step.number)];
        let mut left = beside(&number, 2, &wrap(&sentence(step), width - 4), 2);
        let marked: Vec<_> = step
            .margin
            .iter()
            .map(|l| format!("{} {}", sign(l.kind), margin(l)))
            .collect();
        self.split(&mut left, &[], &marked);
    }

    fn reckoned(&mut self, ledger: &Ledger) {
        let Some(reckoned) = &ledger.reckoned else {
            return;
        };
        self.heading(crate::page::IN_YOUR_KITCHEN, '=');
        self.paragraph(&reckoned.note, 0);
        for row in &reckoned.rows {
            let number = format!("{:>2}", row.step);
            self.labelled(&number, &format!("{}, {}", row.what, row.line), 2);
        }
    }

    fn after(&mut self, ledger: &Ledger) {
        for (heading, text) in &ledger.paragraphs {
            self.heading(heading, '-');
            self.paragraph(text, 0);
        }
        self.list("Tested", &ledger.tested);
        let credits: Vec<_> = ledger
            .photos
            .iter()
            .filter_map(|(_, _, c)| c.clone())
            .collect();
        self.list("Photographs", &credits);
        if !ledger.footnotes.is_empty() {
            self.heading("Where the figures come from", '-');
            for (index, note) in ledger.footnotes.iter().enumerate() {
                self.labelled(&format!("[{}]", index + 1), note, 4);
            }
        }
        self.label(&ledger.label);
        self.blank();
        self.paragraph(&ledger.imprint, 0);
    }
}

#[cfg(test)]
mod tests;
