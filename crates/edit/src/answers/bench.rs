//! What every answer is worked out from: the recipe, its sums, the asker's kitchen, and days followed through it.

use super::facts::Facts;
use super::timed::Timed;
use crate::Inputs;
use crate::ledger::model::Ledger;
use crate::ledger::say;
use crate::stretch::{What, Yardstick, coarse, stretches};
use crate::variant::{Variant, Wish, variant};
use bake::kitchen::Kitchen;
use bake::simulate::{Anchor, Anchored, Course, Follows, How, Moment, Through, simulate};
use numerics::quantity::{Duration, Mass, Temperature};
use recipe::document::model::{Action, Amount, Product, Recipe, Standing};
use recipe::formula::{Formula, Resolved, formula, piece_mass};
use recipe::larder::{FLOUR_CUP, FLOUR_CUP_RANGE, Ingredient, Role, YeastForm};
use recipe::scale::tin_volume;

/// What answers are worked out from.
pub struct Bench<'a> {
    /// The recipe, its sums, the larder, the asker's kitchen.
    pub inputs: Inputs<'a>,
    /// The same as printed.
    pub ledger: &'a Ledger,
    /// What the asker says besides.
    pub facts: &'a Facts,
    /// How many tested bakes anchor the times.
    pub tested: usize,
    anchor: Anchor,
    yardstick: Yardstick,
}

/// A recipe with something else in it, and its sums.
pub struct Changed {
    /// The recipe.
    pub recipe: Recipe,
    /// Its sums.
    pub formula: Formula,
}

impl<'a> Bench<'a> {
    /// Lays everything out; `anchored`: what the recipe's own tested bakes teach.
    pub fn new(
        inputs: Inputs<'a>,
        ledger: &'a Ledger,
        facts: &'a Facts,
        anchored: &Anchored,
    ) -> Self {
        Self {
            inputs,
            ledger,
            facts,
            tested: anchored.bakes,
            anchor: anchored.factors,
            yardstick: Yardstick::of(inputs.recipe, inputs.formula, anchored.factors),
        }
    }

    /// How a day is followed: by the signs, to the last bread out of the oven.
    pub fn how(&self) -> How {
        How {
            through: Through::Bakes,
            ..coarse(self.anchor)
        }
    }

    /// The same for a cook who goes by the clock.
    pub fn by_clock(&self) -> How {
        How {
            follows: Follows::Clock,
            ..self.how()
        }
    }

    /// With yeast of another power.
    pub fn yeast_at(&self, how: How, power: f64) -> How {
        How {
            anchor: Anchor {
                vigour: how.anchor.vigour * power,
                ..how.anchor
            },
            ..how
        }
    }

    /// The recipe as written in a kitchen.
    pub fn in_kitchen(&self, kitchen: &Kitchen, how: &How) -> Course {
        simulate(self.inputs.recipe, self.inputs.formula, kitchen, how).output
    }

    /// A changed recipe in a kitchen.
    pub fn changed_in(&self, changed: &Changed, kitchen: &Kitchen, how: &How) -> Course {
        simulate(&changed.recipe, &changed.formula, kitchen, how).output
    }

    /// Rises and bakes of a course of this recipe, or of one with the same steps.
    pub fn timed(&self, recipe: &Recipe, course: &Course) -> Vec<Timed> {
        stretches(recipe, course)
            .into_iter()
            .map(|stretch| Timed {
                there: self.yardstick.told(&stretch),
                stretch,
            })
            .collect()
    }

    /// The same of the recipe as written.
    pub fn own_timed(&self, course: &Course) -> Vec<Timed> {
        self.timed(self.inputs.recipe, course)
    }

    /// The recipe with every amount of some ingredients of the dough so many times as large.
    pub fn with_amounts(&self, which: impl Fn(&Ingredient) -> bool, factor: f64) -> Changed {
        self.with_amounts_in(|_, one| which(one), factor)
    }

    /// The same of some stages, by their places.
    pub fn with_amounts_in(
        &self,
        which: impl Fn(usize, &Ingredient) -> bool,
        factor: f64,
    ) -> Changed {
        let mut recipe = self.inputs.recipe.clone();
        let stages = recipe.stages.iter_mut().zip(&self.inputs.formula.stages);
        for (place, (stage, sums)) in stages.enumerate() {
            if !sums.in_dough {
                continue;
            }
            for (item, resolved) in stage.items.iter_mut().zip(&sums.items) {
                let Resolved::Ingredient(one) = &resolved.what else {
                    continue;
                };
                if let (true, Some(take)) = (which(place, one), &mut item.take) {
                    match &mut take.value {
                        Amount::Mass(mass) => *mass = *mass * factor,
                        Amount::Measures(parts) => {
                            for part in parts {
                                part.count *= factor;
                            }
                        }
                        Amount::Count { count, .. } => *count *= factor,
                    }
                }
            }
        }
        self.changed(recipe)
    }

    /// A recipe with its sums.
    pub fn changed(&self, recipe: Recipe) -> Changed {
        let formula = formula(&recipe, self.inputs.larder).output;
        Changed { recipe, formula }
    }

    /// The recipe after wishes, or why they are refused.
    pub fn wished(&self, wishes: &[Wish]) -> Result<(Variant, Changed), String> {
        let Inputs {
            recipe,
            larder,
            kitchen,
            ..
        } = self.inputs;
        let made = variant(recipe, larder, kitchen, wishes);
        match made.output {
            Some(variant) => {
                let changed = self.changed(variant.recipe.clone());
                Ok((variant, changed))
            }
            None => Err(made
                .diagnostics
                .iter()
                .map(|said| {
                    let hint = said.hints.first().map_or("", String::as_str);
                    format!("{} {hint}", said.message).trim().to_owned()
                })
                .collect::<Vec<_>>()
                .join(" ")),
        }
    }

    /// Ingredients of the dough that are something, each once, with all that goes in of it.
    pub fn items(&self, which: impl Fn(&Ingredient) -> bool) -> Vec<(&'a Ingredient, Mass)> {
        items_of(self.inputs.formula, which)
    }

    /// Mass of the ingredients of the dough that are something.
    pub fn mass_of(&self, which: impl Fn(&Ingredient) -> bool) -> Mass {
        self.items(which).iter().map(|(_, mass)| *mass).sum()
    }

    /// How many times the flour that is meant comes out of a scooped cup, and the words for it.
    pub fn scooped(&self) -> (f64, String) {
        let cup = self.facts.cup.unwrap_or(FLOUR_CUP_RANGE.high);
        let words = format!(
            "Flour scooped with the cup ({} instead of {})",
            say::mass(cup),
            say::mass(FLOUR_CUP)
        );
        (cup / FLOUR_CUP, words)
    }

    /// Flour of the dough.
    pub fn flour(&self) -> Mass {
        self.inputs.formula.dough.flour
    }

    /// A mass as a share of the flour; none without flour.
    pub fn of_flour(&self, mass: Mass) -> f64 {
        if self.flour() > Mass::ZERO {
            mass / self.flour()
        } else {
            0.0
        }
    }

    /// The product with the largest piece that is baked.
    pub fn main(&self) -> Option<&'a Product> {
        let baked = |product: &&Product| {
            let mut steps = product.steps.iter();
            steps.any(|step| matches!(step.action, Action::Bake { .. }))
        };
        let size = |product: &&Product| piece_mass(&product.piece.value).si();
        let products = self.inputs.recipe.products.iter().filter(baked);
        products.max_by(|one, other| size(one).total_cmp(&size(other)))
    }

    /// The largest product in a tin of a known volume.
    pub fn in_tin(&self) -> Option<&'a Product> {
        let products = self.inputs.recipe.products.iter();
        let size = |product: &&Product| piece_mass(&product.piece.value).si();
        products
            .filter(|product| product.tin.as_ref().and_then(tin_volume).is_some())
            .max_by(|one, other| size(one).total_cmp(&size(other)))
    }

    /// The stage that a product is cut from.
    pub fn stage_of(&self, product: &Product) -> Option<usize> {
        let mut stages = self.inputs.recipe.stages.iter();
        stages.position(|stage| stage.name.value.eq_ignore_ascii_case(&product.from.value))
    }

    /// Whether a dough rises in a warm place other than the room.
    pub fn uses_warm_place(&self) -> bool {
        let recipe = self.inputs.recipe;
        let of_stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
        let of_products = recipe.products.iter().flat_map(|product| &product.steps);
        of_stages.chain(of_products).any(|step| {
            matches!(&step.action, Action::Rest { place, .. } if place.value == Standing::WarmPlace)
        })
    }

    /// What the dough of the products reads after its mix.
    pub fn dough_of(&self, course: &Course, product: &Product) -> Option<Temperature> {
        let place = self.stage_of(product)?;
        let before = self.inputs.recipe.steps_before(place);
        let steps = &self.inputs.recipe.stages[place].steps;
        let last = steps
            .iter()
            .rposition(|step| matches!(step.action, Action::Mix { .. }))?;
        let number = before + last + 1;
        course
            .steps
            .iter()
            .find(|step| step.number == number)?
            .dough
    }

    /// The moments of a product's bake, from its beginning.
    pub fn oven<'c>(&self, course: &'c Course, product: &Product) -> Vec<(Duration, &'c Moment)> {
        let bake = self.number(product, What::Bake);
        let begins = course
            .steps
            .iter()
            .find(|step| Some(step.number) == bake)
            .map_or(Duration::ZERO, |step| step.begins);
        let own = course
            .doughs
            .iter()
            .find(|one| one.of == product.name.value);
        own.into_iter()
            .flat_map(|one| &one.moments)
            .filter(|moment| Some(moment.step) == bake)
            .map(|moment| (moment.at - begins, moment))
            .collect()
    }

    /// The number of a product's last rise or bake on the page.
    pub fn number(&self, product: &Product, what: What) -> Option<usize> {
        // Numbers do not depend on what happens.
        let course = crate::ledger::happens::every_step(self.inputs.recipe);
        let found = course.iter().enumerate().filter(|(_, written)| {
            written
                .product
                .is_some_and(|own| own.name.value == product.name.value)
        });
        let called = |at: &usize, word: &str| {
            let written = &course[*at];
            crate::ledger::happens::words::called(written.step, written.product) == word
        };
        let mut places = found.map(|(at, _)| at).filter(|at| match what {
            What::Bake => called(at, "bake"),
            _ => called(at, "last rise") || called(at, "rise"),
        });
        places.next_back().map(|at| at + 1)
    }

    /// Yeast of the dough by form.
    pub fn yeasts(&self) -> Vec<(&'a Ingredient, YeastForm, Mass)> {
        let is = |one: &Ingredient| matches!(one.role, Role::Yeast(_));
        let all = self.items(is).into_iter();
        all.filter_map(|(one, mass)| match one.role {
            Role::Yeast(form) => Some((one, form, mass)),
            _ => None,
        })
        .collect()
    }
}

/// Ingredients of a formula's dough that are something, each once.
pub fn items_of(
    formula: &Formula,
    which: impl Fn(&Ingredient) -> bool,
) -> Vec<(&Ingredient, Mass)> {
    let mut all: Vec<(&Ingredient, Mass)> = Vec::new();
    let stages = formula.stages.iter().filter(|stage| stage.in_dough);
    for item in stages.flat_map(|stage| &stage.items) {
        let (Resolved::Ingredient(one), Some(mass)) = (&item.what, item.mass) else {
            continue;
        };
        if which(one) {
            match all.iter_mut().find(|(own, _)| own.key == one.key) {
                Some((_, sum)) => *sum += mass,
                None => all.push((one, mass)),
            }
        }
    }
    all
}
