//! Every figure of a ledger, one after another, for machines and for the search of a source.

use super::model::{Figure, ItemLine, Ledger, Run};

impl Ledger {
    /// Every figure, in the order in which a page prints them.
    pub fn figures(&self) -> Vec<&Figure> {
        let mut all: Vec<&Figure> = self.facts.iter().flat_map(|fact| &fact.figures).collect();
        all.extend(self.formula_figures());
        for section in &self.sections {
            for step in &section.steps {
                all.extend(step.runs.iter().filter_map(|run| match run {
                    Run::Figure(figure) => Some(figure),
                    Run::Words(_) => None,
                }));
                all.extend(step.margin.iter().flat_map(|line| &line.figures));
            }
        }
        all.extend(self.products.iter().flat_map(|product| &product.figures));
        all.extend(self.label.figures());
        for table in &self.rooms {
            for (room, _, liquid) in &table.rows {
                all.push(room);
                all.extend(liquid.iter());
            }
        }
        if let Some(reckoned) = &self.reckoned {
            all.extend(&reckoned.rooms);
            all.extend(reckoned.rows.iter().flat_map(|row| &row.times));
        }
        all.extend(self.shopping.figures());
        all.extend(
            self.bowl_labels
                .iter()
                .flat_map(|label| label.figures.iter().chain(&label.mass)),
        );
        let patterns = self.patterns.drawn.iter();
        all.extend(
            patterns
                .flat_map(|pattern| &pattern.lengths)
                .flat_map(|fact| &fact.figures),
        );
        all
    }

    /// The figures of the formula: items, stage sums and the sums of the dough.
    pub fn formula_figures(&self) -> Vec<&Figure> {
        let mut all = Vec::new();
        for stage in &self.stages {
            all.extend(stage.flour_share.iter());
            stage
                .items
                .iter()
                .for_each(|item| item_figures(item, &mut all));
            all.push(&stage.sum);
        }
        self.besides
            .iter()
            .for_each(|item| item_figures(item, &mut all));
        all.extend(self.formula.iter().map(|(_, figure)| figure));
        all
    }
}

fn item_figures<'a>(item: &'a ItemLine, all: &mut Vec<&'a Figure>) {
    all.extend(item.grams.iter());
    all.extend(item.measure.iter());
    all.extend(item.measure_error.iter());
    all.extend(item.percent.iter());
}
