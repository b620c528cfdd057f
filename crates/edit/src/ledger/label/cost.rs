//! What a recipe costs, as it is printed: each line, the sum, a piece, and what the sum leaves out.

use super::model::CostLines;
use super::{figure, one_of};
use crate::ledger::model::Figure;
use crate::ledger::say::{self, NBSP};
use numerics::decimal::fixed;
use recipe::document::model::Recipe;
use recipe::formula::Formula;
use recipe::label::cost::cost as reckon;
use recipe::label::label;
use recipe::label::prices::Prices;
use recipe::larder::Larder;
use recipe::provenance::{Had, Origin};

/// The cost of a recipe by the cook's own prices.
pub fn cost(recipe: &Recipe, formula: &Formula, larder: &Larder, prices: &Prices) -> CostLines {
    let made = label(recipe, formula, larder);
    let cost = reckon(&made, prices, larder);
    let money = |name: String, value: f64, source: String| -> Figure {
        let shown = format!(
            "{}{NBSP}{}",
            fixed(value, prices.decimals.max(2)),
            prices.currency
        );
        figure(
            name,
            value,
            "money",
            shown,
            Origin::new(source, Had::Written),
        )
    };
    let sum_of = || {
        format!(
            "sum over the prices seen up to {}",
            say::date(prices.newest)
        )
    };
    let lines = cost
        .lines
        .iter()
        .map(|line| {
            let label = format!("{}, {}", line.ingredient.name, say::mass(line.mass));
            let price = line.cost.map(|value| {
                let seen = prices
                    .of(line.ingredient, larder)
                    .map_or_else(String::new, |price| {
                        format!("your price of {}", say::date(price.seen))
                    });
                money(format!("cost.{}", line.ingredient.name), value, seen)
            });
            (label, price)
        })
        .collect();
    let pieces = made
        .products
        .iter()
        .zip(&cost.pieces)
        .map(|(product, value)| {
            let name = one_of(product);
            let figure = money(format!("cost.one.{}", product.name), *value, sum_of());
            (format!("1 {name}"), figure)
        })
        .collect();
    CostLines {
        lines,
        partial: !cost.without.is_empty(),
        sum: (cost.lines.iter().any(|line| line.cost.is_some()))
            .then(|| money("cost.sum".to_owned(), cost.sum, sum_of())),
        pieces,
        notes: notes(&cost, prices),
    }
}

fn notes(cost: &recipe::label::cost::Cost<'_>, prices: &Prices) -> Vec<String> {
    let mut notes = Vec::new();
    if !cost.without.is_empty() {
        notes.push(format!(
            "The sum is partial. Without a price: {}.",
            say::list(&cost.without)
        ));
    }
    if !cost.old.is_empty() {
        notes.push(format!(
            "More than a year older than your newest price ({}): {}.",
            say::date(prices.newest),
            say::list(&cost.old)
        ));
    }
    notes.push(
        "Your own prices for what is used, packs not rounded up; water, oven and work are not in it."
            .to_owned(),
    );
    notes
}
