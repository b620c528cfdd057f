//! Nutrition in the plain text: each product's rows, words on the left and figures on the right.

use super::Sheet;
use edit::ledger::label::model::LabelLines;

/// Width of a row's words.
const WORDS: usize = 26;

impl Sheet {
    /// Nutrition by the law of the readers.
    pub(super) fn label(&mut self, lines: &LabelLines) {
        if lines.products.is_empty() {
            return;
        }
        self.heading(&lines.heading, '-');
        self.paragraph(&lines.purpose, 0);
        for product in &lines.products {
            let panel = product.panel(lines.law);
            self.heading(&product.name, '-');
            self.paragraph(&format!("{}.", product.baked), 0);
            if let Some(serving) = &panel.serving {
                self.paragraph(serving, 0);
            }
            let [first, second] = &panel.heads;
            self.labelled("In", &format!("{first}; {second}"), WORDS);
            for row in &panel.rows {
                let label = format!("{}{}", " ".repeat(usize::from(row.inset)), row.label);
                let cells: Vec<&str> = row
                    .cells
                    .iter()
                    .flatten()
                    .map(|figure| figure.shown.as_str())
                    .collect();
                self.labelled(&label, &cells.join("; "), WORDS);
            }
        }
        self.blank();
        for (law, remark) in &lines.remarks {
            if *law == lines.law {
                self.paragraph(remark, 0);
            }
        }
        for note in &lines.notes {
            self.paragraph(note, 0);
        }
    }
}
