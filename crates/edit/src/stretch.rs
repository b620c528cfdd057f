//! The rises and bakes of a recipe with their times as a cook reads them: the author's own, in proportion to what is reckoned.
//!
//! A time in another kitchen, or of a changed recipe, is the author's time multiplied by how many times as
//! long the simulator takes there as under the conditions that the recipe writes down. What the simulator
//! gets wrong of one rise everywhere alike falls out of the ratio (`docs/decisions/answered-times.md`).

use crate::ledger::happens::every_step;
use crate::ledger::happens::reckoned::Told;
use crate::ledger::happens::words;
use bake::kitchen::Kitchen;
use bake::simulate::{Anchor, Course, Ended, Grid, How, Through, simulate};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Action, Recipe, Standing, Step};
use recipe::formula::Formula;

/// What kind of stretch it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum What {
    /// A rise of a stage, ended by a sign that can be measured.
    Rise,
    /// The last rise of a product.
    LastRise,
    /// A bake.
    Bake,
}

/// A rise or a bake.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Number of its step on the page.
    pub number: usize,
    /// What it is.
    pub what: What,
    /// The stage or product.
    pub of: String,
    /// Which of several of that kind, from 0.
    pub nth: usize,
    /// The author's usual time.
    pub written: Duration,
    /// As the simulator has it.
    pub reckoned: Duration,
    /// Whether its sign came.
    pub reached: bool,
    /// Volume against its beginning.
    pub grown: f64,
}

impl Stretch {
    /// "the rise of the sponge", "the last rise of the braid", "the bake of the braid".
    pub fn name(&self) -> String {
        let what = match (self.what, self.nth) {
            (What::Rise, 0) => "rise",
            (What::Rise, _) => "second rise",
            (What::LastRise, _) => "last rise",
            (What::Bake, _) => "bake",
        };
        format!("the {what} of the {}", self.of)
    }

    /// A time of it as it is told: a rise to 5 min, a bake to 1 min.
    pub fn said(&self, time: Duration) -> String {
        self.told().said(time)
    }

    const fn told(&self) -> Told {
        match self.what {
            What::Bake => Told::Bake,
            _ => Told::Rise,
        }
    }

    /// Whether a cook notices that it takes one time and not the other: 10 min and a twelfth of a rise, 2 min
    /// and a twentieth of a bake (common practice).
    pub fn noticed(&self, one: Duration, other: Duration) -> bool {
        let (least, share) = match self.what {
            What::Bake => (2.0, 1.0 / 20.0),
            _ => (10.0, 1.0 / 12.0),
        };
        let told = |time| self.told().rounded(time);
        let apart = (told(one) - told(other)).abs();
        apart.minutes() >= least - 1e-9 && apart >= told(one).abs() * share
    }

    fn same_as(&self, other: &Self) -> bool {
        self.what == other.what && self.nth == other.nth && self.of == other.of
    }
}

/// Every rise and bake of a course, in written order.
pub fn stretches(recipe: &Recipe, course: &Course) -> Vec<Stretch> {
    let mut all: Vec<Stretch> = Vec::new();
    for (at, written) in every_step(recipe).iter().enumerate() {
        let Some(what) = kind(written.step, words::called(written.step, written.product)) else {
            continue;
        };
        let Some(goes) = course.steps.iter().find(|step| step.number == at + 1) else {
            continue;
        };
        let Some(usual) = goes.written.or_else(|| usual(written.step)) else {
            continue;
        };
        let nth = all
            .iter()
            .filter(|one| one.what == what && one.of == goes.of)
            .count();
        all.push(Stretch {
            number: at + 1,
            what,
            of: goes.of.clone(),
            nth,
            written: usual,
            reckoned: goes.cue_after.unwrap_or(goes.lasts),
            reached: goes.ended == Ended::Cue || goes.cue_after.is_some(),
            grown: goes.grown,
        });
    }
    all
}

fn kind(step: &Step, called: &str) -> Option<What> {
    match called {
        "rise" => Some(What::Rise),
        "last rise" => Some(What::LastRise),
        "bake" => Some(What::Bake),
        _ => match &step.action {
            Action::Bake { .. } => Some(What::Bake),
            _ => None,
        },
    }
}

/// Minutes as written.
fn usual(step: &Step) -> Option<Duration> {
    match &step.action {
        Action::Rest { timing, .. } => Some(timing.usual.value),
        Action::Bake { phases, .. } => {
            Some(phases.iter().map(|phase| phase.timing.usual.value).sum())
        }
        _ => None,
    }
}

/// The recipe under the conditions that it writes down itself: the yardstick of every other time.
#[derive(Clone, Debug, PartialEq)]
pub struct Yardstick {
    stretches: Vec<Stretch>,
}

impl Yardstick {
    /// Follows a recipe where every dough stands as warm as its step says, and the mixed dough is what
    /// the mix asks for.
    pub fn of(recipe: &Recipe, formula: &Formula, anchor: Anchor) -> Self {
        let how = How {
            dough: wanted_dough(recipe),
            through: Through::Bakes,
            ..coarse(anchor)
        };
        let pinned = pinned(recipe);
        let course = simulate(&pinned, formula, &Kitchen::standard(), &how).output;
        // Places differ in the pinned copy; kinds and names are the recipe's own.
        Self {
            stretches: stretches(recipe, &course),
        }
    }

    /// How many times as long as reckoned a step takes by the recipe's own words, by its number; none where its sign never
    /// comes, or it has none.
    pub fn pace(&self, number: usize) -> Option<f64> {
        let own = self.stretches.iter().find(|one| one.number == number)?;
        (own.reached && own.reckoned > Duration::ZERO).then(|| own.written / own.reckoned)
    }

    /// A stretch of another course as a cook reads it: the author's time in proportion. Where the sign never
    /// comes under the written conditions there is no proportion, and the simulator's own time stands.
    pub fn told(&self, there: &Stretch) -> Duration {
        let own = self.stretches.iter().find(|one| one.same_as(there));
        match own {
            Some(own) if own.reached && own.reckoned > Duration::ZERO => {
                there.reckoned * (own.written / own.reckoned)
            }
            _ => there.reckoned,
        }
    }
}

/// The coarse grid with the factors that the tested bakes teach.
pub fn coarse(anchor: Anchor) -> How {
    How {
        grid: Grid::Coarse,
        anchor,
        ..How::default()
    }
}

/// The middle of what the last mix of the products' dough asks for.
fn wanted_dough(recipe: &Recipe) -> Option<Temperature> {
    let from = &recipe.products.first()?.from.value;
    let stage = recipe.stages.iter().find(|one| one.name.value == *from)?;
    stage
        .steps
        .iter()
        .rev()
        .find_map(|step| match &step.action {
            Action::Mix {
                dough: Some(dough), ..
            } => {
                let range = dough.value;
                Some(range.low + (range.high - range.low) / 2.0)
            }
            _ => None,
        })
}

/// Every rest stands in air of its written temperature.
fn pinned(recipe: &Recipe) -> Recipe {
    let mut pinned = recipe.clone();
    let of_stages = pinned.stages.iter_mut().flat_map(|stage| &mut stage.steps);
    let of_products = pinned
        .products
        .iter_mut()
        .flat_map(|product| &mut product.steps);
    for step in of_stages.chain(of_products) {
        if let Action::Rest { place, .. } = &mut step.action
            && matches!(place.value, Standing::Room | Standing::WarmPlace)
        {
            place.value = Standing::CoolPlace;
        }
    }
    pinned
}

/// A stretch that takes another time in a variant.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// "the rise of the dough".
    pub name: String,
    /// As it is now, as told.
    pub now: String,
    /// As it was.
    pub was: String,
    /// "rise of the dough: 1 h 35 min, not 1 h 20 min".
    pub line: String,
}

/// One of several days that are followed, by its place.
pub type OneDay<'a> = dyn Fn(usize) -> Vec<Stretch> + Sync + 'a;

/// How so many days are followed: whoever has more than one core may do several at once. They come in the order of
/// their places, whoever did which.
pub type EachDay<'a> = &'a dyn Fn(usize, &OneDay<'_>) -> Vec<Vec<Stretch>>;

/// The rises and bakes of a variant whose time a cook notices, beside the original in the same kitchen.
pub fn moved(
    original: (&Recipe, &Formula),
    variant: (&Recipe, &Formula),
    kitchen: &Kitchen,
    anchor: Anchor,
    each: EachDay<'_>,
) -> Vec<Moved> {
    let how = How {
        through: Through::Bakes,
        ..coarse(anchor)
    };
    let run = |(recipe, formula): (&Recipe, &Formula)| {
        stretches(recipe, &simulate(recipe, formula, kitchen, &how).output)
    };
    let mut days = each(3, &|place| match place {
        0 => run(original),
        1 => run(variant),
        _ => Yardstick::of(original.0, original.1, anchor).stretches,
    })
    .into_iter();
    let mut day = || days.next().unwrap_or_default();
    let (before, after) = (day(), day());
    let yardstick = Yardstick { stretches: day() };
    let mut all = Vec::new();
    for now in &after {
        let Some(was) = before.iter().find(|one| one.same_as(now)) else {
            continue;
        };
        let (then, here) = (yardstick.told(was), yardstick.told(now));
        if now.reached && was.reached && now.noticed(then, here) {
            let (name, here, then) = (now.name(), now.said(here), now.said(then));
            all.push(Moved {
                line: format!(
                    "{}: {here}, not {then}",
                    name.strip_prefix("the ").unwrap_or(&name)
                ),
                name,
                now: here,
                was: then,
            });
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::{Anchor, Kitchen, Moved, What, moved};
    use numerics::quantity::Duration;
    use recipe::document::read_recipe;
    use recipe::larder::Larder;

    const LOAF: &str = include_str!("../../../examples/same-day-loaf.toml");

    fn beside(changed: &str) -> Vec<Moved> {
        let larder = Larder::open();
        let read = |text: &str| read_recipe(text).output.expect("it reads");
        let (one, other) = (read(LOAF), read(changed));
        let sums = |recipe| recipe::formula::formula(recipe, &larder).output;
        moved(
            (&one, &sums(&one)),
            (&other, &sums(&other)),
            &Kitchen::standard(),
            Anchor::default(),
            &|count, one| (0..count).map(one).collect(),
        )
    }

    #[test]
    fn a_recipe_beside_itself_moves_nothing() {
        assert_eq!(beside(LOAF), Vec::new());
    }

    #[test]
    fn half_the_yeast_moves_every_rise_and_says_so_in_a_line() {
        let half = LOAF.replace("take = \"9 g\"", "take = \"4.5 g\"");
        let all = beside(&half);
        let names: Vec<&str> = all.iter().map(|one| one.name.as_str()).collect();
        for rise in ["the rise of the sponge", "the last rise of the braid"] {
            assert!(names.contains(&rise), "{names:?}");
        }
        let line = all[0].line.replace('\u{a0}', " ");
        // Half the yeast is the time by 0.5 to the power -0.9, a rule of the trade: 103 min; a lag takes part.
        assert_eq!(line, "rise of the sponge: 1 h 35 min, not 55 min");
    }

    #[test]
    fn a_cook_notices_ten_minutes_of_a_rise_and_two_of_a_bake() {
        let stretch = |what| super::Stretch {
            number: 1,
            what,
            of: "dough".to_owned(),
            nth: 0,
            written: Duration::from_minutes(60.0),
            reckoned: Duration::from_minutes(60.0),
            reached: true,
            grown: 2.0,
        };
        let apart = |what, one: f64, other: f64| {
            let minutes = Duration::from_minutes;
            stretch(what).noticed(minutes(one), minutes(other))
        };
        assert!(apart(What::Rise, 60.0, 70.0) && !apart(What::Rise, 60.0, 67.0));
        // Ten minutes of twelve hours are nothing.
        assert!(!apart(What::Rise, 720.0, 730.0) && apart(What::Rise, 720.0, 640.0));
        assert!(apart(What::Bake, 36.0, 34.0) && !apart(What::Bake, 36.0, 35.0));
    }
}
