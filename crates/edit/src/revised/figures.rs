//! What a changed text changes in what is printed: amounts, figures of the steps, sentences; each before and after.

use crate::ledger::model::{Figure, Ledger, MarginKind, Run, StageLines, StepLine};
use crate::ledger::say::capital;

/// What a change is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum About {
    /// How much of something goes in.
    Amount,
    /// How much of the flour it is, how it is measured, sums: what follows from amounts.
    Follows,
    /// A figure of a step, a product or the whole.
    Figure,
    /// A sentence.
    Words,
}

/// One difference between two versions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// What it is about.
    pub about: About,
    /// "Milk in the sponge", "Step 4", "Makes".
    pub label: String,
    /// What was printed; none where there was nothing.
    pub before: Option<String>,
    /// What is printed now; none where it is gone.
    pub after: Option<String>,
}

/// A place of the ledger that a reader can point at, and what it prints.
struct Place {
    about: About,
    /// By what the same place is known in another version.
    key: String,
    label: String,
    shown: String,
}

/// Everything that is printed otherwise, in the order of a page.
pub fn changes(before: &Ledger, after: &Ledger) -> Vec<Change> {
    let (old, new) = (places(before), places(after));
    let mut changes = Vec::new();
    for place in &new {
        let was = old.iter().find(|was| was.key == place.key);
        if was.is_none_or(|was| was.shown != place.shown) {
            changes.push(Change {
                about: place.about,
                label: place.label.clone(),
                before: was.map(|was| was.shown.clone()),
                after: Some(place.shown.clone()),
            });
        }
    }
    for place in old {
        if !new.iter().any(|is| is.key == place.key) {
            changes.push(Change {
                about: place.about,
                label: place.label,
                before: Some(place.shown),
                after: None,
            });
        }
    }
    changes
}

fn places(ledger: &Ledger) -> Vec<Place> {
    let mut all = Vec::new();
    let mut put = |about, key: String, label: String, shown: String| {
        // The same place twice (an item that is put in twice) is told apart by its turn.
        let turn = all
            .iter()
            .filter(|place: &&Place| place.key.split('#').next() == Some(&key));
        let key = match turn.count() {
            0 => key,
            turn => format!("{key}#{turn}"),
        };
        all.push(Place {
            about,
            key,
            label,
            shown,
        });
    };
    put(
        About::Words,
        "title".into(),
        "Title".into(),
        ledger.title.clone(),
    );
    if let Some(headnote) = &ledger.headnote {
        put(
            About::Words,
            "headnote".into(),
            "Headnote".into(),
            headnote.clone(),
        );
    }
    for fact in &ledger.facts {
        let key = format!("fact.{}", fact.label);
        put(About::Figure, key, fact.label.clone(), fact.shown.clone());
    }
    put(
        About::Words,
        "allergens".into(),
        "Allergens".into(),
        ledger.allergens.contains.clone(),
    );
    let stages = ledger
        .stages
        .iter()
        .map(|stage| (Some(stage), &stage.items));
    for (stage, items) in stages.chain([(None, &ledger.besides)]) {
        let (place, short) = match stage {
            Some(stage) => (
                format!(" in the {}", stage.heading.to_lowercase()),
                stage.heading.clone(),
            ),
            None => (String::new(), String::new()),
        };
        for item in items {
            let place = match (&item.place, stage) {
                (Some(place), None) => format!(" {place}"),
                _ => place.clone(),
            };
            let label = format!("{}{place}", capital(&item.name));
            let key = |what: &str| format!("item.{short}.{}.{what}", item.name);
            let grams = item
                .grams
                .as_ref()
                .map_or_else(|| "all of it".to_owned(), |figure| figure.shown.clone());
            // A whole stage that goes into another weighs what its own items make it weigh.
            let whole =
                |stage: &StageLines| stage.heading.to_lowercase() == item.name.to_lowercase();
            let about = if ledger.stages.iter().any(whole) {
                About::Follows
            } else {
                About::Amount
            };
            put(about, key("grams"), label.clone(), grams);
            if let Some(detail) = &item.detail {
                put(About::Figure, key("detail"), label.clone(), detail.clone());
            }
            for figure in item.measure.iter().chain(&item.percent) {
                let what = figure.name.rsplit('.').next().unwrap_or_default();
                put(
                    About::Follows,
                    key(what),
                    label.clone(),
                    figure.shown.clone(),
                );
            }
        }
        if let Some(stage) = stage {
            let label = format!("Sum of the {}", stage.heading.to_lowercase());
            let key = format!("sum.{}", stage.heading);
            put(About::Follows, key, label, stage.sum.shown.clone());
        }
    }
    for (label, figure) in &ledger.formula {
        let key = format!("formula.{label}");
        put(About::Follows, key, label.clone(), figure.shown.clone());
    }
    for section in &ledger.sections {
        for step in &section.steps {
            let label = format!("Step {}", step.number);
            put(
                About::Words,
                format!("step.{}", step.number),
                label.clone(),
                sentence(step),
            );
            for line in &step.margin {
                // What the kitchen makes of it follows; what is written is the recipe's own.
                let about = match line.kind {
                    MarginKind::Here => About::Follows,
                    MarginKind::Cue => About::Words,
                    _ => About::Figure,
                };
                let key = format!("margin.{}.{:?}", step.number, line.kind);
                put(about, key, label.clone(), line.shown.clone());
            }
        }
    }
    for product in &ledger.products {
        let parts = [
            Some(&product.pieces),
            product.tin.as_ref(),
            product.bake.as_ref(),
            product.after.as_ref(),
        ];
        for (index, shown) in parts.into_iter().enumerate() {
            if let Some(shown) = shown {
                let about = if index == 3 {
                    About::Follows
                } else {
                    About::Figure
                };
                let key = format!("product.{}.{index}", product.name);
                put(about, key, product.name.clone(), shown.clone());
            }
        }
    }
    for (heading, paragraph) in &ledger.paragraphs {
        put(
            About::Words,
            format!("paragraph.{heading}"),
            heading.clone(),
            paragraph.clone(),
        );
    }
    for figure in ledger.label.figures() {
        put(
            About::Follows,
            figure.name.clone(),
            words(figure),
            figure.shown.clone(),
        );
    }
    all
}

/// A step's sentence as it is printed.
pub fn sentence(step: &StepLine) -> String {
    let runs = step.runs.iter().map(|run| match run {
        Run::Words(words) => words.as_str(),
        Run::Figure(figure) => figure.shown.as_str(),
    });
    runs.collect()
}

/// A figure's name as words: `label.per-100-g.energy` is "Label, per 100 g, energy".
fn words(figure: &Figure) -> String {
    capital(&figure.name.replace('.', ", ").replace('-', " "))
}
