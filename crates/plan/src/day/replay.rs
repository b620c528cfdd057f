//! The plan baked in the machine: what each dough does when it waits for as long as it is planned to.

use super::lengths::{Length, minutes, step_mut, steps};
use super::tasks::{Batch, Made};
use crate::timetable::Kind;
use bake::kitchen::Kitchen;
use bake::simulate::{Course, Follows, Grid, Happening, How, Through, simulate};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Action, Recipe, Timing};
use recipe::source::Located;

/// A minute or two earlier or later is the same to a dough (ours).
const SAME_MIN: i32 = 2;

/// What the machine says of one load of one product.
#[derive(Clone, Debug, PartialEq)]
pub struct Replayed {
    /// Of which batch.
    pub batch: usize,
    /// Of which product and load.
    pub product: (usize, usize),
    /// Minutes of the last rise as planned, with any wait.
    pub rises: i32,
    /// Minutes after which its sign is reached.
    pub sign: i32,
    /// Minutes until its gas begins to leave, when that is before it goes into the oven.
    pub past: Option<i32>,
    /// Times its size at the beginning of the last rise, as it goes into the oven.
    pub grown: f64,
    /// Temperature of the dough then.
    pub dough: Option<Temperature>,
}

impl Replayed {
    /// Whether the plan is good for this bread: risen, and not past its best.
    pub fn holds(&self) -> bool {
        self.rises + SAME_MIN >= self.sign && self.past.is_none()
    }
}

/// Bakes every load of every batch as it is planned.
///
/// `by_sign`: steps end by their sign, so the last rise is asked for it; otherwise the clock is the sign.
pub fn replay(
    kitchen: &Kitchen,
    batches: &[Batch<'_>],
    made: &Made,
    starts: &[i32],
    how: &How,
) -> Vec<Replayed> {
    let mut all = Vec::new();
    let loads: Vec<(usize, (usize, usize))> = {
        let mut loads: Vec<_> = made
            .about
            .iter()
            .filter_map(|about| Some((about.batch, about.product?)))
            .collect();
        loads.sort_unstable();
        loads.dedup();
        loads
    };
    for (batch, product) in loads {
        if let Some(one) = load(kitchen, &batches[batch], batch, product, made, starts, how) {
            all.push(one);
        }
    }
    all
}

/// For how long each standing step of a batch stands in a plan, for the sake of one load: by its step.
fn stands(batch: usize, product: (usize, usize), made: &Made, starts: &[i32]) -> Vec<(usize, i32)> {
    let mut all = Vec::new();
    for (task, about) in made.about.iter().enumerate() {
        let own = about.batch == batch && about.product.is_none_or(|own| own == product);
        let waits = matches!(about.kind, Kind::Stands | Kind::Cools);
        if !own || !waits {
            continue;
        }
        // What follows it: the next of its own line; for a stage's last step the load's first.
        let next = made
            .problem
            .gaps
            .iter()
            .filter(|gap| gap.from == task)
            .filter(|gap| {
                let to = &made.about[gap.to];
                let fold = to.product.is_none()
                    && about.product.is_none()
                    && gap.least < made.problem.tasks[task].lasts;
                !fold && to.product.is_none_or(|own| own == product)
            })
            .map(|gap| starts[gap.to] - starts[task])
            .min();
        all.push((about.step, next.unwrap_or(made.problem.tasks[task].lasts)));
    }
    all
}

/// The step's time is so many minutes by the clock.
fn fix(recipe: &mut Recipe, at: usize, minutes: i32) {
    let Some(step) = step_mut(recipe, at) else {
        return;
    };
    if let Action::Rest { timing, .. } | Action::Cool { timing, .. } = &mut step.action {
        *timing = Timing {
            usual: Located::new(
                Duration::from_minutes(f64::from(minutes)),
                timing.usual.span,
            ),
            range: None,
        };
        step.until = None;
    }
}

fn load(
    kitchen: &Kitchen,
    of: &Batch<'_>,
    batch: usize,
    product: (usize, usize),
    made: &Made,
    starts: &[i32],
    how: &How,
) -> Option<Replayed> {
    let recipe = of.recipe;
    let first: usize = recipe.stages.iter().map(|stage| stage.steps.len()).sum();
    let before: usize = recipe.products[..product.0]
        .iter()
        .map(|product| product.steps.len())
        .sum();
    let own = &recipe.products[product.0].steps;
    let last_rise = own
        .iter()
        .rposition(|step| matches!(step.action, Action::Rest { .. }));
    let rise = first + before + last_rise?;
    let mut planned = recipe.clone();
    planned.products = vec![recipe.products[product.0].clone()];
    let mut rises = None;
    // Steps of the only product left follow those of the stages.
    let moved = |step: usize| if step >= first { step - before } else { step };
    for (step, minutes) in stands(batch, product, made, starts) {
        if step == rise {
            rises = Some(minutes);
        } else {
            fix(&mut planned, moved(step), minutes);
        }
    }
    let rises = rises?;
    let coarse = How {
        grid: Grid::Coarse,
        through: Through::Rises,
        ..*how
    };
    let number = moved(rise) + 1;
    let find = |course: &Course| {
        course
            .steps
            .iter()
            .find(|step| step.number == number)
            .cloned()
    };
    let asked = find(&simulate(&planned, of.formula, kitchen, &coarse).output)?;
    fix(&mut planned, moved(rise), rises);
    let by_clock = How {
        follows: Follows::Clock,
        ..coarse
    };
    let stood = find(&simulate(&planned, of.formula, kitchen, &by_clock).output)?;
    let past = stood
        .events
        .iter()
        .find(|event| event.what == Happening::PastItsBest)
        .map(|event| minutes(event.after));
    Some(Replayed {
        batch,
        product,
        rises,
        sign: minutes(asked.lasts),
        past,
        grown: stood.grown,
        dough: stood.dough,
    })
}

/// Minutes as the plan's own waits make them: where a rise takes longer or shorter than was reckoned, its
/// length is corrected. Whether anything was.
pub fn correct(batches: &mut [Batch<'_>], replayed: &[Replayed]) -> bool {
    let mut changed = false;
    for one in replayed {
        let batch = &mut batches[one.batch];
        let recipe = batch.recipe;
        let first: usize = recipe.stages.iter().map(|stage| stage.steps.len()).sum();
        let products = &recipe.products[..one.product.0];
        let before: usize = products.iter().map(|product| product.steps.len()).sum();
        let own = &recipe.products[one.product.0].steps;
        let Some(rise) = own
            .iter()
            .rposition(|step| matches!(step.action, Action::Rest { .. }))
        else {
            continue;
        };
        let at = first + before + rise;
        debug_assert!(steps(recipe).nth(at).is_some());
        let length = &mut batch.lengths[at];
        let past = one.past.filter(|past| *past < length.best);
        let off = one.sign - length.lasts;
        // What holds stays as it is, even where the rise could be shorter: so the corrections come to an end.
        if one.holds() {
            continue;
        }
        *length = Length {
            lasts: one.sign.max(length.lasts),
            best: (length.best + off.max(0)).max(one.sign),
            most: (length.most + off.max(0)).max(one.sign),
        };
        if let Some(past) = past {
            length.best = length.best.min(past).max(length.lasts);
        }
        changed = changed || off > 0 || past.is_some();
    }
    changed
}
