//! Readers' answers for tests: a demo recipe, what the asker says, and every figure of an answer by its name.

use bake::anchor::anchor;
use bake::kitchen::{Kitchen, changed};
use bake::simulate::Anchored;
use edit::Inputs;
use edit::answers::{Answer, Bench, Fact, Facts, Found, answer, find};
use edit::ledger::happens::other_rooms::how;
use edit::ledger::model::Ledger;
use recipe::document::model::Recipe;
use recipe::document::read_recipe;
use recipe::formula::Formula;
use recipe::larder::Larder;

/// A recipe worked out once, to be asked about.
pub struct Asked {
    recipe: Recipe,
    formula: Formula,
    larder: Larder,
    ledger: Ledger,
    anchored: Anchored,
}

impl Asked {
    /// From a recipe's text.
    ///
    /// # Panics
    /// When the text cannot be read.
    pub fn of(text: &str) -> Self {
        let recipe = read_recipe(text).output.expect("it reads");
        let mut larder = Larder::open();
        larder.stock(&recipe.pantry);
        let formula = recipe::formula::formula(&recipe, &larder).output;
        let kitchen = Kitchen::standard();
        let anchored = anchor(&recipe, &formula, std::slice::from_ref(&kitchen), &how()).output;
        let inputs = Inputs::new(&recipe, &formula, &larder, &kitchen);
        let (_, ledger) = edit::work_out(&inputs).output;
        Self {
            recipe,
            formula,
            larder,
            ledger,
            anchored,
        }
    }

    /// The answer to a question with what the asker says.
    ///
    /// # Panics
    /// When there is no such question or a fact cannot be read.
    pub fn answer(&self, question: &str, says: &[&str]) -> Answer {
        let Found::One(question) = find(question) else {
            panic!("no question {question}");
        };
        let mut kitchen = Kitchen::standard();
        let mut facts = Facts::default();
        for words in says {
            match Fact::read(words).expect("a fact") {
                Fact::Kitchen(value) => kitchen = changed(&kitchen, value),
                other => facts = facts.with(other),
            }
        }
        let inputs = Inputs::new(&self.recipe, &self.formula, &self.larder, &kitchen);
        answer(
            &Bench::new(inputs, &self.ledger, &facts, &self.anchored),
            question,
        )
    }

    /// One figure of an answer, SI.
    ///
    /// # Panics
    /// When the answer has no such figure.
    pub fn figure(&self, question: &str, says: &[&str], name: &str) -> f64 {
        value(&self.answer(question, says), name)
    }
}

/// A figure of an answer by the end of its name, SI.
///
/// # Panics
/// When the answer has no such figure.
pub fn value(answer: &Answer, name: &str) -> f64 {
    let full = format!("answer.{}.{name}", answer.name);
    let found = answer.figures.iter().find(|figure| figure.name == full);
    found
        .unwrap_or_else(|| {
            let all: Vec<&str> = answer.figures.iter().map(|one| one.name.as_str()).collect();
            panic!("{full} is none of {all:?}")
        })
        .value
}
