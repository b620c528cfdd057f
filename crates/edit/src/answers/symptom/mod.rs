//! Faults of a dough or a bread: each cause tried out alone on this recipe, ranked by how far it goes towards the fault.
//!
//! Every cause is put into the recipe as its author writes it (every dough as warm as its step says) and
//! followed; nothing else is changed. How far it goes is told on a scale whose 1 is the fault's own mark:
//! seven tenths or one and four tenths of the rising that is wanted, a figure at the end of the usual band,
//! a dough of 28 °C, a middle five degrees short under a finished crust. The marks are ours and common
//! practice; the figures under them are the formula's and the simulator's.

mod crust;
mod dough;
mod rising;

pub use crust::{burnt_outside, pale};
pub use dough::{greasy, sticky, stiff};
pub use rising::{collapsed, dense, flat, holes, over_the_rim};

use super::Cause;
use super::bench::{Bench, Changed};
use super::reply::{Reply, followed};
use crate::ledger::say;
use crate::stretch::What;
use bake::kitchen::Kitchen;
use bake::simulate::{Course, How};
use numerics::quantity::{Duration, Temperature, TemperatureDifference};
use recipe::document::model::{Action, Product, Recipe, Standing};
use recipe::larder::Ingredient;

/// A fault being looked into.
pub struct Inquiry<'a, 'b> {
    bench: &'b Bench<'a>,
    product: &'a Product,
    found: Vec<Cause>,
}

/// What is otherwise: the recipe, the kitchen, the way of following it.
pub struct Trial {
    changed: Changed,
    kitchen: Kitchen,
    how: How,
}

impl<'a, 'b> Inquiry<'a, 'b> {
    /// Into the largest product; none when nothing is baked.
    pub fn of(bench: &'b Bench<'a>) -> Option<Self> {
        Some(Self {
            bench,
            product: bench.main()?,
            found: Vec::new(),
        })
    }

    /// The recipe as its author means it, with nothing wrong.
    pub fn as_meant(&self) -> Trial {
        let recipe = warmer(self.bench.inputs.recipe, 0.0);
        Trial {
            changed: self.bench.changed(recipe),
            kitchen: Kitchen::standard(),
            how: How {
                dough: wanted(self.bench.inputs.recipe, self.product),
                ..self.bench.how()
            },
        }
    }

    /// The same with some ingredients so many times as much.
    pub fn with_amounts(&self, which: impl Fn(&Ingredient) -> bool, factor: f64) -> Trial {
        let recipe = warmer(&self.bench.with_amounts(which, factor).recipe, 0.0);
        Trial {
            changed: self.bench.changed(recipe),
            ..self.as_meant()
        }
    }

    /// The same with yeast of another power.
    pub fn with_yeast_at(&self, power: f64) -> Trial {
        let meant = self.as_meant();
        Trial {
            how: self.bench.yeast_at(meant.how, power),
            ..meant
        }
    }

    /// The same with every rest so many degrees warmer.
    pub fn warmer(&self, kelvin: f64) -> Trial {
        Trial {
            changed: self.bench.changed(warmer(self.bench.inputs.recipe, kelvin)),
            ..self.as_meant()
        }
    }

    /// The same with a dough of another temperature after its mix.
    pub fn with_dough_at(&self, at: Temperature) -> Trial {
        let meant = self.as_meant();
        Trial {
            how: How {
                dough: Some(at),
                ..meant.how
            },
            ..meant
        }
    }

    /// The same in a changed kitchen.
    pub fn in_kitchen(&self, change: impl FnOnce(&mut Kitchen)) -> Trial {
        let mut meant = self.as_meant();
        change(&mut meant.kitchen);
        meant
    }

    /// The recipe in the kitchen of the one who asks, as it stands.
    pub fn as_asked(&self) -> Trial {
        Trial {
            changed: self.bench.changed(self.bench.inputs.recipe.clone()),
            kitchen: self.bench.inputs.kitchen.clone(),
            how: self.bench.how(),
        }
    }

    /// What happens then.
    pub fn follow(&self, trial: &Trial) -> Course {
        self.bench
            .changed_in(&trial.changed, &trial.kitchen, &trial.how)
    }

    /// Minutes that the rises of the product's dough and its last rise want, against the written ones:
    /// below 1 the written minutes are too few.
    pub fn share_of_rising(&self, course: &Course) -> f64 {
        let timed = self.bench.timed(self.bench.inputs.recipe, course);
        let mine = timed.iter().filter(|one| match one.stretch.what {
            What::Rise => one
                .stretch
                .of
                .eq_ignore_ascii_case(&self.product.from.value),
            What::LastRise => one.stretch.of == self.product.name.value,
            What::Bake => false,
        });
        let (mut written, mut wanted) = (Duration::ZERO, Duration::ZERO);
        for one in mine {
            written += one.stretch.written;
            wanted += one.there;
        }
        if wanted > Duration::ZERO {
            written / wanted
        } else {
            1.0
        }
    }

    /// Notes a cause with its figure.
    pub fn cause(&mut self, what: impl Into<String>, reach: f64, does: &str, way_out: &str) {
        let verdict = if reach >= 0.95 {
            "explains it"
        } else if reach >= 0.4 {
            "explains part of it"
        } else {
            "hardly"
        };
        self.found.push(Cause {
            what: say::units_kept(&what.into()),
            does: say::units_kept(does),
            way_out: say::units_kept(way_out),
            reach,
            yours: false,
            verdict,
        });
    }

    /// Marks the last cause as what the asker says of their own, when they said it.
    pub fn yours(&mut self, said: bool) {
        if let Some(last) = self.found.last_mut() {
            last.yours = said;
        }
    }

    /// Notes a cause for which nothing here has a figure.
    pub fn without_figure(&mut self, what: &str, way_out: &str) {
        self.found.push(Cause {
            what: what.to_owned(),
            does: "no figure here tells how much".to_owned(),
            way_out: way_out.to_owned(),
            reach: 0.0,
            yours: false,
            verdict: "no figure",
        });
    }

    /// Puts the causes in order and says the first of them; `mark`: what the fault looks like in figures.
    pub fn told(mut self, reply: &mut Reply, mark: &str) {
        let figure = |one: &Cause| one.verdict != "no figure";
        self.found.sort_by(|one, other| {
            // What the asker told and what explains part of it goes before what might have been.
            let told = |cause: &Cause| cause.yours && cause.reach >= 0.4;
            figure(other)
                .cmp(&figure(one))
                .then(told(other).cmp(&told(one)))
                // What explains it wholly explains it, however far beyond it goes: those keep their order, the
                // more usual first.
                .then(other.reach.min(1.0).total_cmp(&one.reach.min(1.0)))
        });
        // What does nothing to this recipe is no cause in it.
        self.found
            .retain(|one| one.verdict == "no figure" || one.reach > 0.05);
        reply.more(mark.to_owned());
        let first: Vec<&Cause> = self
            .found
            .iter()
            .filter(|one| figure(one))
            .take(2)
            .collect();
        match first.as_slice() {
            [] => reply.say("None of the usual causes does it to this recipe."),
            [one, rest @ ..] => {
                reply.say(format!("First look at {}: {}.", lower(&one.what), one.does));
                reply.say(without_marks(&one.way_out));
                if let [other, ..] = rest {
                    reply.more(format!("Then at {}: {}.", lower(&other.what), other.does));
                }
            }
        }
        reply.causes = self.found;
        reply.rests("each cause tried alone on the recipe as written, ranked by how far it goes towards the fault; which of them was yours nobody can see from here");
    }
}

/// A share of the rising that is wanted, as a figure of a cause.
pub fn rising(reply: &mut Reply, what: &str, share: f64) -> String {
    reply.percent_whole(what, share, followed())
}

/// A way out without the names of other answers: what is pasted has nothing to follow them by.
fn without_marks(way_out: &str) -> String {
    let mut words = way_out.to_owned();
    while let Some(from) = words.find(" (`") {
        let Some(to) = words[from..].find(')') else {
            break;
        };
        words.replace_range(from..=from + to, "");
    }
    words
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().collect::<String>() + letters.as_str()
    })
}

/// The recipe with every rest in air of its written temperature and so many degrees more; what stands in the
/// refrigerator stays there.
fn warmer(recipe: &Recipe, kelvin: f64) -> Recipe {
    let mut changed = recipe.clone();
    let of_stages = changed.stages.iter_mut().flat_map(|stage| &mut stage.steps);
    let of_products = changed
        .products
        .iter_mut()
        .flat_map(|product| &mut product.steps);
    for step in of_stages.chain(of_products) {
        if let Action::Rest { place, at, .. } = &mut step.action
            && place.value != Standing::Refrigerator
        {
            place.value = Standing::CoolPlace;
            at.value = at.value + TemperatureDifference::from_si(kelvin);
        }
    }
    changed
}

/// The middle of what the last mix of a product's dough asks for.
fn wanted(recipe: &Recipe, product: &Product) -> Option<Temperature> {
    let own = |name: &str| name.eq_ignore_ascii_case(&product.from.value);
    let stage = recipe.stages.iter().find(|stage| own(&stage.name.value))?;
    stage
        .steps
        .iter()
        .rev()
        .find_map(|step| match &step.action {
            Action::Mix {
                dough: Some(dough), ..
            } => Some(dough.value.low + (dough.value.high - dough.value.low) / 2.0),
            _ => None,
        })
}
