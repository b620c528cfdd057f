//! The way of a dough: the stages that reach a product, and the steps it passes through.

use numerics::quantity::{Duration, Mass};
use recipe::document::model::{Action, Item, Product, Recipe, Stage, Step, Timing};
use recipe::formula::{Formula, Resolved, ResolvedItem};
use recipe::larder::{Ingredient, Role};

/// The stage of a name.
pub fn stage<'a>(recipe: &'a Recipe, name: &str) -> Option<&'a Stage> {
    recipe.stages.iter().find(|stage| stage.name.value == name)
}

/// A stage and all stages that go into it, in written order.
pub fn reaching<'a>(recipe: &'a Recipe, last: &str) -> Vec<&'a Stage> {
    let mut wanted = vec![last];
    let mut next = 0;
    while let Some(name) = wanted.get(next).copied() {
        next += 1;
        let Some(stage) = stage(recipe, name) else {
            continue;
        };
        for item in &stage.items {
            let of = item.of.value.as_str();
            if !wanted.contains(&of) && self::stage(recipe, of).is_some() {
                wanted.push(of);
            }
        }
    }
    recipe
        .stages
        .iter()
        .filter(|stage| wanted.contains(&stage.name.value.as_str()))
        .collect()
}

/// The items of a stage with what they stand for.
pub fn items<'a>(
    recipe: &'a Recipe,
    formula: &'a Formula,
    stage: &Stage,
) -> impl Iterator<Item = (&'a Item, &'a ResolvedItem)> {
    let place = recipe
        .stages
        .iter()
        .position(|other| other.name == stage.name);
    let pair = place.and_then(|i| recipe.stages.get(i).zip(formula.stages.get(i)));
    pair.into_iter()
        .flat_map(|(stage, sum)| stage.items.iter().zip(&sum.items))
}

/// The items of a stage that are ingredients.
pub fn ingredients<'a>(
    recipe: &'a Recipe,
    formula: &'a Formula,
    stage: &Stage,
) -> impl Iterator<Item = (&'a Item, &'a Ingredient, Option<Mass>)> {
    items(recipe, formula, stage).filter_map(|(item, resolved)| match &resolved.what {
        Resolved::Ingredient(ingredient) => Some((item, ingredient.as_ref(), resolved.mass)),
        _ => None,
    })
}

/// Whether an ingredient is butter from milk.
pub fn is_butter(ingredient: &Ingredient) -> bool {
    ingredient.role == Role::Fat
        && ingredient.name.to_lowercase().contains("butter")
        && ingredient
            .allergens_us
            .iter()
            .any(|allergen| allergen == "milk")
}

/// Whether an ingredient is egg, or milk, cream and the like: moist, and food for germs.
pub fn is_egg_or_milk(ingredient: &Ingredient) -> bool {
    let milky = ingredient
        .allergens_us
        .iter()
        .any(|allergen| allergen == "milk");
    ingredient.role == Role::Egg || (ingredient.role == Role::Liquid && milky)
}

/// The products with the bake of each: phases and the whole step.
pub fn bakes(product: &Product) -> impl Iterator<Item = &Step> {
    product
        .steps
        .iter()
        .filter(|step| matches!(step.action, Action::Bake { .. }))
}

/// Every step of the recipe, stages first.
pub fn steps(recipe: &Recipe) -> impl Iterator<Item = &Step> {
    let of_stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    of_stages.chain(recipe.products.iter().flat_map(|product| &product.steps))
}

/// The lowest and highest of some times added up; the usual one where no range is written.
pub fn added<'a>(timings: impl Iterator<Item = &'a Timing>) -> Stretch {
    let mut sum = Stretch::default();
    for timing in timings {
        let usual = timing.usual.value;
        sum.usual += usual;
        let range = timing.range.as_ref().map(|range| range.value);
        sum.low += range.map_or(usual, |range| range.low);
        sum.high += range.map_or(usual, |range| range.high);
        sum.ranged |= range.is_some();
    }
    sum
}

/// Some times added up.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stretch {
    /// By the usual times.
    pub usual: Duration,
    /// By the low ends.
    pub low: Duration,
    /// By the high ends.
    pub high: Duration,
    /// Whether any of them has a range.
    pub ranged: bool,
}

impl Stretch {
    /// Width of the range as a share of the usual time.
    pub fn width(&self) -> f64 {
        if self.usual > Duration::ZERO {
            (self.high - self.low) / self.usual
        } else {
            0.0
        }
    }
}
