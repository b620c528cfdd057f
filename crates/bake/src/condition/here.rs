//! A bake under way: recipe, kitchen, what is not known of it, and what has been done otherwise than by its sign.

use super::life::Life;
use super::reading::Strain;
use super::unknown::{Strayed, Unknown, with};
use crate::anchor::for_so_long;
use crate::kitchen::Kitchen;
use crate::simulate::{Anchor, Anchored, Course, Ended, Follows, Grid, How, Through, simulate};
use numerics::distribution::normal_quantile;
use numerics::draw::{Purpose, unit};
use numerics::math::{exp, ln};
use numerics::quantity::Duration;
use recipe::document::model::{Action, Recipe, Standing, Step, Timing};
use recipe::formula::{Formula, Resolved};

/// A step that the cook ended by the clock, whatever the dough looked like, and how long it took.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ByClock {
    /// Its number on the page.
    pub step: usize,
    /// How long it took.
    pub lasts: Duration,
}

/// A bake under way.
#[derive(Clone, Debug)]
pub struct Here {
    /// As written, but for what was ended by the clock.
    pub(super) recipe: Recipe,
    pub(super) formula: Formula,
    pub(super) kitchen: Kitchen,
    pub(super) anchor: Anchor,
    pub(super) seed: u64,
    grid: Grid,
    /// How far each unknown usually strays.
    pub(super) strays: Strayed,
    /// How much longer each step that a sign ends takes by the cook's clock than on this grid, as a logarithm, by its
    /// place: what the usual grid makes of it, and [`Here::at_pace`].
    pub(super) pace_ln: Vec<f64>,
    /// The same of the coarse grid alone.
    coarse_ln: Vec<f64>,
    /// How far each unknown lies off what the kitchen is written as, because earlier bakes told so.
    middles: Strayed,
    /// The steps that go before each step, its own last: its stage's, and those of a sponge that goes into it.
    pub(super) chains: Vec<Vec<usize>>,
    /// The bake in the kitchen as it is written.
    pub course: Course,
}

/// Sets a bake up in a kitchen. `anchored`: what the recipe's tested bakes teach; `seed`: which draws.
pub fn here(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    anchored: &Anchored,
    by_clock: &[ByClock],
    seed: u64,
) -> Here {
    here_on(
        recipe,
        formula,
        kitchen,
        anchored,
        by_clock,
        seed,
        Grid::Rough,
    )
}

/// The same on another grid.
#[allow(clippy::too_many_arguments)] // what it stands on, each its own
pub fn here_on(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    anchored: &Anchored,
    by_clock: &[ByClock],
    seed: u64,
    grid: Grid,
) -> Here {
    let recipe = as_done(recipe, by_clock);
    let anchor = anchored.factors;
    let mut strays = [0.0; Unknown::ALL.len()];
    let mut middles = [0.0; Unknown::ALL.len()];
    for unknown in Unknown::ALL {
        let place = unknown.place();
        strays[place] = unknown.strays(&anchor, anchored.bakes, kitchen).0;
        if let Some((middle, within)) = unknown.measured(kitchen) {
            middles[place] = middle;
            strays[place] = within.min(strays[place]);
        }
    }
    // As earlier bakes left it, not as it is written: that is the middle of what is possible.
    let (middle, taught) = with(kitchen, &anchor, &middles);
    let course = simulate(&recipe, formula, &middle, &how(Grid::Usual, taught)).output;
    let rough = simulate(&recipe, formula, &middle, &how(grid, taught)).output;
    let quicker = simulate(&recipe, formula, &middle, &how(Grid::Coarse, taught)).output;
    Here {
        chains: chains(&recipe, formula),
        recipe,
        formula: formula.clone(),
        kitchen: kitchen.clone(),
        anchor,
        seed,
        grid,
        strays,
        middles,
        pace_ln: slower(&course, &rough),
        coarse_ln: slower(&quicker, &rough),
        course,
    }
}

/// How much longer each step that a sign ends takes in one course than in another, as a logarithm.
fn slower(one: &Course, other: &Course) -> Vec<f64> {
    let both = one.steps.iter().zip(&other.steps);
    both.map(|(one, other)| {
        let by_sign = one.ended == Ended::Cue && other.ended == Ended::Cue;
        let (one, other) = (one.lasts.si(), other.lasts.si());
        if by_sign && one > 60.0 && other > 60.0 {
            ln(one / other)
        } else {
            0.0
        }
    })
    .collect()
}

fn how(grid: Grid, anchor: Anchor) -> How {
    How {
        follows: Follows::Cue,
        grid,
        anchor,
        through: Through::Everything,
        ..How::default()
    }
}

impl Here {
    /// Goes by a cook's minutes: `pace` says how many times as long as reckoned a step takes that a sign ends, where the recipe
    /// tells that (on the coarse grid, by which written times are held). A baker whose sponge takes 55 min tells "20 min in"
    /// of those, whatever the reckoning makes of it.
    #[must_use]
    pub fn at_pace(mut self, pace: impl Fn(usize) -> Option<f64>) -> Self {
        let own = self.pace_ln.iter_mut().zip(&self.coarse_ln);
        for ((own, coarse), number) in own.zip(1..) {
            if let Some(pace) = pace(number).filter(|pace| *pace > 0.0) {
                *own = coarse + ln(pace);
            }
        }
        self
    }

    /// Whether a bake is the same to the reckoning: as it was done, in a kitchen and by factors alike.
    pub fn alike(&self, other: &Self) -> bool {
        let same = (&self.recipe, &self.kitchen, &self.strays, &self.middles)
            == (&other.recipe, &other.kitchen, &other.strays, &other.middles);
        same && self.anchor == other.anchor && self.grid == other.grid
    }

    /// Whether a sign ends a step of that number, and not the clock.
    pub fn by_sign(&self, number: usize) -> bool {
        let place = number.checked_sub(1);
        let step = place.and_then(|place| self.course.steps.get(place));
        step.is_some_and(|step| step.ended == Ended::Cue)
    }

    /// The normal scores of a possible kitchen of a number: how far each unknown strays, against how far it usually
    /// does.
    pub fn scores(&self, number: u64) -> Vec<f64> {
        (0..Unknown::ALL.len())
            .zip(0..)
            .map(|(_, dimension)| {
                normal_quantile(unit(self.seed, Purpose::Here, number, dimension))
            })
            .collect()
    }

    /// How the reckoning may stray in each step, of a number: what the finer grid adds is in it.
    pub fn strains(&self, round: u64, number: u64) -> Vec<Strain> {
        let mut strains =
            super::ways::strains(self.seed.wrapping_add(round), number, self.pace_ln.len());
        for (strain, pace) in strains.iter_mut().zip(&self.pace_ln) {
            strain.slower_ln += pace;
        }
        strains
    }

    /// How far an unknown strays by a score: a factor, K or W/(m2 K).
    pub fn told(&self, unknown: Unknown, score: f64) -> f64 {
        let place = unknown.place();
        let strayed = self.middles[place] + self.strays[place] * score;
        if unknown.is_a_factor() {
            exp(strayed)
        } else {
            strayed
        }
    }

    /// The kitchen as it is written, and what its tested bakes teach.
    pub const fn as_written(&self) -> (&Kitchen, &Anchor) {
        (&self.kitchen, &self.anchor)
    }

    /// How far each unknown strays, from its scores.
    pub fn strayed(&self, scores: &[f64]) -> Strayed {
        let mut strayed = self.middles;
        for ((value, strays), score) in strayed.iter_mut().zip(&self.strays).zip(scores) {
            *value += strays * score;
        }
        strayed
    }

    /// The bake in one possible kitchen. `log_excess`: of what is drawn there, how much more often it is met than
    /// it is drawn, as a logarithm; nothing when it is drawn as often as it is met.
    pub fn life(&self, scores: Vec<f64>, log_excess: f64) -> Life {
        self.life_from(&self.kitchen, &self.anchor, scores, log_excess)
    }

    /// The same where the kitchen is another than it is written, or the reckoning another: for trials of what such a
    /// mistake does.
    pub fn life_from(
        &self,
        kitchen: &Kitchen,
        anchor: &Anchor,
        scores: Vec<f64>,
        log_excess: f64,
    ) -> Life {
        let (kitchen, anchor) = with(kitchen, anchor, &self.strayed(&scores));
        let run = simulate(
            &self.recipe,
            &self.formula,
            &kitchen,
            &how(self.grid, anchor),
        );
        Life::of(&run.output, scores, log_excess)
    }
}

/// A recipe in which steps last as long as they did, whatever their sign.
fn as_done(recipe: &Recipe, by_clock: &[ByClock]) -> Recipe {
    let mut made = recipe.clone();
    let stages = made.stages.iter_mut().flat_map(|stage| &mut stage.steps);
    let products = made.products.iter_mut().flat_map(|one| &mut one.steps);
    for (number, step) in (1..).zip(stages.chain(products)) {
        // Nobody waits at the refrigerator with a thermometer: a chill goes by the clock.
        if let (Action::Rest { place, .. }, Some(until)) = (&step.action, &mut step.until)
            && place.value == Standing::Refrigerator
        {
            until.dough = None;
        }
        if let Some(done) = by_clock.iter().find(|done| done.step == number) {
            lasts(step, done.lasts);
        }
    }
    made
}

fn lasts(step: &mut Step, so_long: Duration) {
    let set = |timing: &mut Timing| {
        timing.usual.value = so_long;
        timing.range = None;
    };
    match &mut step.action {
        Action::Bake { .. } => return for_so_long(step, so_long.si()),
        Action::Rest { timing, .. }
        | Action::Cool { timing, .. }
        | Action::Wake { timing, .. }
        | Action::Heat { timing, .. }
        | Action::Divide { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing } => set(timing),
        _ => {}
    }
    step.until = None;
}

/// For each step the numbers of those that go before it, and its own.
fn chains(recipe: &Recipe, formula: &Formula) -> Vec<Vec<usize>> {
    let mut chains: Vec<Vec<usize>> = Vec::new();
    let mut of_stages: Vec<(String, Vec<usize>)> = Vec::new();
    let mut extend = |chain: &mut Vec<usize>, steps: usize| {
        for _ in 0..steps {
            chain.push(chains.len() + 1);
            chains.push(chain.clone());
        }
    };
    for (place, stage) in recipe.stages.iter().enumerate() {
        let sums = formula.stages.get(place);
        let inner = sums.into_iter().flat_map(|sums| &sums.items);
        // Of several that go in, the one that takes the most steps is waited for.
        let mut chain = inner
            .filter_map(|item| match item.what {
                Resolved::Stage(inner) => of_stages.get(inner).map(|(_, chain)| chain.clone()),
                _ => None,
            })
            .max_by_key(Vec::len)
            .unwrap_or_default();
        extend(&mut chain, stage.steps.len());
        of_stages.push((stage.name.value.clone(), chain));
    }
    for product in &recipe.products {
        let from =
            |(name, _): &&(String, Vec<usize>)| name.eq_ignore_ascii_case(&product.from.value);
        let mut chain = of_stages
            .iter()
            .find(from)
            .map_or_else(Vec::new, |(_, chain)| chain.clone());
        extend(&mut chain, product.steps.len());
    }
    chains
}
