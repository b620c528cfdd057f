//! What happens in one kitchen as plain values: each written thing and what it comes to there.

use crate::ledger::model::{Figure, MarginKind};
use crate::ledger::say::NBSP;
use std::collections::BTreeSet;

/// Everything that is said about a recipe followed in one kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Happens {
    /// Title of the recipe.
    pub title: String,
    /// Name of the kitchen.
    pub kitchen: String,
    /// What the kitchen is like: ("room", "16 °C / 61 °F").
    pub conditions: Vec<(String, Figure)>,
    /// By what this cook ends a step, as a sentence.
    pub follows: &'static str,
    /// Whether the recipe's own bakes have been asked, and what they said.
    pub tested: Vec<Told>,
    /// Stages, then products.
    pub sections: Vec<Part>,
    /// One line for each difference that matters.
    pub differences: Vec<Told>,
    /// What matters for safety, each with its source.
    pub safety: Vec<Told>,
}

/// A run of steps under one heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// "Sponge", "Braid".
    pub heading: String,
    /// Its steps.
    pub steps: Vec<StepHappens>,
}

/// A step as written and as it goes here.
#[derive(Clone, Debug, PartialEq)]
pub struct StepHappens {
    /// Its number on the page.
    pub number: usize,
    /// "rise", "last rise", "bake".
    pub what: String,
    /// When it begins, from the first step of the day.
    pub begins: Figure,
    /// How long it takes here.
    pub takes: Figure,
    /// Written things and what they come to.
    pub lines: Vec<Beside>,
}

/// Something written beside what it comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Beside {
    /// What it is about.
    pub kind: MarginKind,
    /// As the recipe says it; none where it says nothing.
    pub written: Option<String>,
    /// As it goes here; none where nothing is reckoned.
    pub here: Option<String>,
    /// The figures in `here`.
    pub figures: Vec<Figure>,
    /// Whether the two differ by so much that it matters.
    pub differs: bool,
}

/// A sentence with the figures in it, and who says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// The step it is about.
    pub step: Option<usize>,
    /// The sentence.
    pub sentence: String,
    /// The figures in it.
    pub figures: Vec<Figure>,
    /// Who draws the line or says so; none for what is reckoned here.
    pub source: Option<String>,
}

impl Told {
    /// A sentence without figures or source.
    pub fn plain(sentence: impl Into<String>) -> Self {
        Self {
            step: None,
            sentence: sentence.into(),
            figures: Vec::new(),
            source: None,
        }
    }
}

impl Happens {
    /// The kitchen's name without what its conditions say: "Studio, room 17 °C" is "Studio" where "room 17 °C / 63 °F"
    /// stands beside it.
    pub fn kitchen_alone(&self) -> String {
        let said = |part: &str| {
            self.conditions.iter().any(|(what, figure)| {
                let shown = figure.shown.replace(NBSP, " ");
                let celsius = shown.split(" / ").next().unwrap_or(&shown);
                part == celsius || part == shown || part == format!("{what} {celsius}")
            })
        };
        let mut parts = self.kitchen.split(", ");
        let first = parts.next().unwrap_or_default();
        let others = parts.filter(|part| !said(part));
        std::iter::once(first)
            .chain(others)
            .collect::<Vec<_>>()
            .join(", ")
    }

    /// Every step, in order.
    pub fn steps(&self) -> impl Iterator<Item = &StepHappens> {
        self.sections.iter().flat_map(|part| &part.steps)
    }

    /// Every figure once, in the order in which they are printed.
    pub fn figures(&self) -> Vec<&Figure> {
        let mut all: Vec<&Figure> = self.conditions.iter().map(|(_, figure)| figure).collect();
        all.extend(self.tested.iter().flat_map(|told| &told.figures));
        for step in self.steps() {
            all.extend([&step.begins, &step.takes]);
            all.extend(step.lines.iter().flat_map(|line| &line.figures));
        }
        let told = self.differences.iter().chain(&self.safety);
        all.extend(told.flat_map(|told| &told.figures));
        // A figure that several lines name is one figure.
        let mut named = BTreeSet::new();
        all.retain(|figure| named.insert(figure.name.as_str()));
        all
    }
}
