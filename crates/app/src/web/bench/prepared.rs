//! A recipe made ready for the bench in one kitchen: worked out once, kept while its text stays the same.

use super::told::Tellings;
use crate::cli::work::{Made, Work, on_bytes_for};
use crate::web::desk::Desk;
use crate::web::digest::base64;
use crate::web::refusal::Refusal;
use crate::world::notebook::{Kept, Name};
use crate::world::steady::Steady;
use axum::http::StatusCode;
use bake::simulate::{Course, Ended, Follows, simulate};
use edit::Inputs;
use edit::ledger::under_way::{BenchStep, bench_steps, lengths};
use edit::stretch::{Yardstick, coarse};
use plan::under_way::{Piece, pieces};
use recipe::document::model::{Action, Standing};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// So many recipes are kept ready.
const MOST: usize = 8;

/// What the bench keeps beside the notebook: its clock, and recipes that were made ready.
#[derive(Debug)]
pub struct Shelf {
    /// The clock that its times go by.
    pub clock: Steady,
    /// What readings say of bakes under way.
    pub tellings: Tellings,
    ready: Mutex<Vec<(String, Arc<Prepared>)>>,
    marks: AtomicU64,
}

/// A recipe ready for the bench.
pub struct Prepared {
    work: Work,
    /// The steps and how they hang together.
    pub pieces: Vec<Piece>,
    /// The steps as they are shown.
    pub steps: Vec<BenchStep>,
    /// What is expected to happen.
    pub course: Course,
    /// How the recipe's own times go with what is reckoned.
    pub yardstick: Yardstick,
}

impl std::fmt::Debug for Prepared {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Prepared").finish_non_exhaustive()
    }
}

impl Prepared {
    /// What the stages made of the recipe.
    pub fn made(&self) -> &Made {
        self.work.made.as_ref().expect("only what was made is kept")
    }

    /// Whether a sign ends a step, and not the clock. Nobody waits at the refrigerator with a thermometer.
    pub fn by_sign(&self, number: usize) -> bool {
        let step = plan::under_way::steps(&self.made().recipe).nth(number.saturating_sub(1));
        let cold = step.is_some_and(|step| {
            matches!(&step.action, Action::Rest { place, .. } if place.value == Standing::Refrigerator)
        });
        let mut steps = self.course.steps.iter();
        !cold && steps.any(|step| step.number == number && step.ended == Ended::Cue)
    }

    /// What the editor works from.
    pub fn inputs(&self) -> Inputs<'_> {
        let made = self.made();
        Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen)
    }
}

impl Shelf {
    /// With a clock.
    pub fn new(clock: Steady) -> Self {
        Self {
            clock,
            tellings: Tellings::default(),
            ready: Mutex::default(),
            marks: AtomicU64::new(0),
        }
    }

    /// A mark for a page's taps: the same tap sent twice is kept once.
    pub fn mark(&self) -> String {
        let number = self.marks.fetch_add(1, Ordering::Relaxed);
        format!("{}-{number}", self.clock.now_ms())
    }

    /// A recipe of the notebook, ready for a kitchen.
    pub fn prepared(
        &self,
        desk: &Desk,
        name: &Name,
        kitchen: Option<&str>,
        follows: Follows,
    ) -> Result<Arc<Prepared>, Refusal> {
        let (_, bytes) = desk.text(Kept::Recipe, name.text())?;
        let kitchen = match kitchen {
            Some(kitchen) => {
                let (kitchen, bytes) = desk.text(Kept::Kitchen, kitchen).map_err(|_| {
                    Refusal::not_found("The kitchen of this bake is no longer in the notebook.")
                })?;
                Some((Kept::Kitchen.file(&kitchen), bytes))
            }
            None => None,
        };
        let own = kitchen.as_ref().map(|(_, bytes)| base64(bytes));
        let key = format!("{} {own:?} {follows:?}", base64(&bytes));
        if let Some(ready) = self.found(&key) {
            return Ok(ready);
        }
        let file = Kept::Recipe.file(name);
        let work = on_bytes_for(&file, &bytes, kitchen, None);
        let ready = Arc::new(make(work, follows)?);
        let mut all = self.ready.lock().unwrap_or_else(PoisonError::into_inner);
        all.retain(|(other, _)| *other != key);
        all.insert(0, (key, ready.clone()));
        all.truncate(MOST);
        Ok(ready)
    }

    fn found(&self, key: &str) -> Option<Arc<Prepared>> {
        let all = self.ready.lock().unwrap_or_else(PoisonError::into_inner);
        let found = all.iter().find(|(other, _)| other == key);
        found.map(|(_, ready)| ready.clone())
    }
}

fn make(work: Work, follows: Follows) -> Result<Prepared, Refusal> {
    let Some(made) = &work.made else {
        let said = "This recipe cannot be baked along until its findings are mended.";
        return Err(Refusal::new(StatusCode::UNPROCESSABLE_ENTITY, said)
            .hint("Its page of findings says what they are."));
    };
    let how = coarse(bake::simulate::Anchor::default());
    let taught = made.taught(&made.kitchen, &how).output;
    let mut how = coarse(taught.factors);
    how.follows = follows;
    let mut course = simulate(&made.recipe, &made.formula, &made.kitchen, &how).output;
    let yardstick = Yardstick::of(&made.recipe, &made.formula, taught.factors);
    course.anchored = taught;
    let inputs = Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
    let lengths = lengths(&inputs, &course, &yardstick, follows);
    let pieces = pieces(&made.recipe, |number| lengths.get(&number).copied());
    let steps = bench_steps(&inputs, &made.ledger);
    Ok(Prepared {
        work,
        pieces,
        steps,
        course,
        yardstick,
    })
}
