//! What a recipe costs by the cook's own prices; what has no price is named, and the sum is then partial.

use super::baked::Label;
use super::content::Content;
use super::prices::Prices;
use crate::larder::{Ingredient, Larder, Role};
use numerics::quantity::Mass;

/// What one ingredient costs.
#[derive(Clone, Debug, PartialEq)]
pub struct CostLine<'a> {
    /// Which.
    pub ingredient: &'a Ingredient,
    /// How much of it is used.
    pub mass: Mass,
    /// What that costs; none when its price is not known.
    pub cost: Option<f64>,
}

/// What a recipe costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Cost<'a> {
    /// Everything that is used, in the order of the recipe; water is not bought.
    pub lines: Vec<CostLine<'a>>,
    /// What those with a price cost together.
    pub sum: f64,
    /// What one piece of each product holds of it.
    pub pieces: Vec<f64>,
    /// Names of what has no price, and of what was not weighed.
    pub without: Vec<String>,
    /// Names of what has only an old price.
    pub old: Vec<String>,
}

/// Prices what is used. Packs are not rounded up: 20 g of almonds cost what 20 g cost.
pub fn cost<'a>(label: &Label<'a>, prices: &Prices, larder: &Larder) -> Cost<'a> {
    let mut lines = Vec::new();
    let mut without = Vec::new();
    let mut old = Vec::new();
    let mut sum = 0.0;
    for lot in &label.bought.lots {
        if is_water(lot.ingredient) {
            continue;
        }
        let price = prices.of(lot.ingredient, larder);
        let cost = price.map(|price| price.per_kg * lot.mass.si());
        sum += cost.unwrap_or(0.0);
        let name = || lot.ingredient.name.clone();
        match price {
            None => without.push(name()),
            Some(price) if price.old => old.push(name()),
            Some(_) => {}
        }
        lines.push(CostLine {
            ingredient: lot.ingredient,
            mass: lot.mass,
            cost,
        });
    }
    without.extend(label.bought.missing.iter().cloned());
    let pieces = label
        .products
        .iter()
        .map(|product| {
            of_content(&product.content, prices, larder) / f64::from(product.count.max(1))
        })
        .collect();
    Cost {
        lines,
        sum,
        pieces,
        without,
        old,
    }
}

fn of_content(content: &Content<'_>, prices: &Prices, larder: &Larder) -> f64 {
    content
        .lots
        .iter()
        .filter(|lot| !is_water(lot.ingredient))
        .filter_map(|lot| Some(prices.of(lot.ingredient, larder)?.per_kg * lot.mass.si()))
        .sum()
}

fn is_water(ingredient: &Ingredient) -> bool {
    let water = ingredient.composition.water;
    ingredient.role == Role::Liquid && water.is_some_and(|share| share.si() > 0.99)
}
