//! What readers ask about a recipe, answered with its own figures for the kitchen of the one who asks.
//!
//! An answer is two to four sentences to paste (what to do with the figure, why, what decides it), what else
//! there is to say, the figures in both with where each comes from, what they rest on, and for a fault its
//! causes, the one that explains most first. Times come from the simulator
//! ([`crate::stretch`]), swaps from [`crate::variant`]. Where no figure would be honest an answer refuses.

mod bench;
mod facts;
mod find;
mod flour;
mod hours;
mod keeping;
mod list;
mod machines;
mod measures;
mod nights;
mod oven;
mod reply;
mod signs;
mod size;
mod swaps;
mod symptom;
mod timed;
mod yeast;

pub use bench::Bench;
pub use facts::{Fact, Facts, NAMES};
pub use find::{Found, find};
pub use list::{About, QUESTIONS, Question};

use crate::ledger::model::Figure;
use recipe::provenance::{Had, Origin};
use reply::Reply;

/// The answer to one question.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Name of the question.
    pub name: &'static str,
    /// The question in words.
    pub asks: &'static str,
    /// What it is about.
    pub about: About,
    /// The reply to paste.
    pub reply: String,
    /// What else there is to say, a sentence or two each.
    pub more: Vec<String>,
    /// What changes in the recipe, one line each.
    pub changes: Vec<String>,
    /// Causes of a fault, the one that explains most first.
    pub causes: Vec<Cause>,
    /// Every figure in it.
    pub figures: Vec<Figure>,
    /// What was taken for granted, and what else it rests on.
    pub rests_on: Vec<String>,
    /// Where its figures come from, each once.
    pub sources: Vec<Origin>,
    /// No figure would be honest; the reply says why.
    pub refused: bool,
}

impl Answer {
    /// What it rests on as lines; `outside`: without what comes from the recipe and the reckoning themselves.
    pub fn rests(&self, outside: bool) -> Vec<String> {
        let own = |origin: &&Origin| !outside || !matches!(origin.had, Had::Written | Had::Derived);
        let sources = self.sources.iter().filter(own);
        let sources = sources.map(|origin| format!("{} ({})", origin.source, origin.had.words()));
        self.rests_on.iter().cloned().chain(sources).collect()
    }
}

/// A cause of a fault with what it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Cause {
    /// "Flour scooped from the bag by the cup".
    pub what: String,
    /// What it does to this dough, with figures.
    pub does: String,
    /// What to do about it.
    pub way_out: String,
    /// How far it goes towards the fault: 1 is there.
    pub reach: f64,
    /// It is what the asker says of their own tin, cup, yeast or kitchen.
    pub yours: bool,
    /// "explains it", "explains part of it", "hardly".
    pub verdict: &'static str,
}

/// Answers one question.
pub fn answer(bench: &Bench<'_>, question: &Question) -> Answer {
    let mut reply = Reply::new(question.name);
    (question.answer)(bench, &mut reply);
    reply.finish(question)
}

/// What a page and a terminal say above the answers: for which kitchen they hold.
pub fn holds_for(bench: &Bench<'_>) -> String {
    format!(
        "Worked out for {} in {}. Times are the author’s, in proportion to what is reckoned there; {}",
        bench.inputs.recipe.title.value,
        crate::ledger::say::kitchen_and_room(bench.inputs.kitchen),
        if bench.tested == 0 {
            "no tested bake anchors them."
        } else {
            "the recipe’s own tested bakes anchor them."
        }
    )
}
