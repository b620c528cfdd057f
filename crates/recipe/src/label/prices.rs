//! The cook's own prices: each looked up and weighed, one currency for all, the newest of each thing.

use crate::document::model::PriceFile;
use crate::larder::{Found, Ingredient, Larder};
use crate::measure::NoWeight;
use crate::provenance::{Had, Origin};
use crate::source::{Checked, Diagnostic, code};
use jiff::civil::Date;
use numerics::quantity::Mass;

/// A price this many days older than the newest of the file is said to be old: a year, our choice.
const OLD_DAYS: i32 = 366;

/// What a kilogram of something costs, by whom and when seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Price {
    /// Key of the ingredient.
    pub key: String,
    /// Key of the table row that it shares.
    pub row: Option<String>,
    /// Its name.
    pub name: String,
    /// Money for a kilogram.
    pub per_kg: f64,
    /// When it was seen.
    pub seen: Date,
    /// More than a year older than the newest price of the file.
    pub old: bool,
    /// How the mass was had that was bought.
    pub origin: Origin,
}

/// Prices in one currency.
#[derive(Clone, Debug, PartialEq)]
pub struct Prices {
    /// Three letters (ISO 4217).
    pub currency: String,
    /// As many decimals as the file writes at most.
    pub decimals: usize,
    /// The newest date of the file.
    pub newest: Date,
    /// One for each thing.
    pub prices: Vec<Price>,
}

impl Prices {
    /// The price of an ingredient: of its own name first, else of the row that it shares.
    pub fn of(&self, ingredient: &Ingredient, larder: &Larder) -> Option<&Price> {
        let row = larder.statement(ingredient).map(|words| words.row.as_str());
        self.prices
            .iter()
            .find(|price| price.key == ingredient.key)
            .or_else(|| {
                self.prices
                    .iter()
                    .find(|price| row.is_some() && price.row.as_deref() == row)
            })
    }
}

/// Looks prices up and weighs what was bought. The recipe's pantry must be on the shelf already.
/// Mixed currencies are refused: no rate is known here.
pub fn prices(file: &PriceFile, larder: &Larder) -> Checked<Option<Prices>> {
    let mut diagnostics = Vec::new();
    let (Some(first), Some(newest)) = (
        file.prices.first(),
        file.prices.iter().map(|entry| entry.seen.value).max(),
    ) else {
        return Checked {
            output: None,
            diagnostics,
        };
    };
    let currency = first.pay.value.currency.clone();
    let other = file
        .prices
        .iter()
        .find(|entry| entry.pay.value.currency != currency);
    if let Some(other) = other {
        let message = format!(
            "Prices stand in {currency} and in {}; they cannot be added.",
            other.pay.value.currency
        );
        diagnostics.push(
            Diagnostic::at(code::CURRENCIES_MIXED, other.pay.span, message)
                .label(first.pay.span, format!("the first one is in {currency}"))
                .hint("Write every price in the currency in which it was paid, one file for each."),
        );
        return Checked {
            output: None,
            diagnostics,
        };
    }
    let mut list: Vec<Price> = Vec::new();
    for entry in &file.prices {
        let Some(ingredient) = look_up(larder, entry, &mut diagnostics) else {
            continue;
        };
        let Some((mass, origin)) = weigh(larder, ingredient, entry, &mut diagnostics) else {
            continue;
        };
        let seen = entry.seen.value;
        let days = seen.until(newest).map_or(0, |span| span.get_days());
        let old = days > OLD_DAYS;
        if old {
            let message = format!(
                "The price of {} was seen on {seen}, more than a year before the newest one ({newest}).",
                ingredient.name
            );
            diagnostics.push(
                Diagnostic::at(code::PRICE_OLD, entry.seen.span, message).hint(
                    "Look at the shelf or the receipt again, and write the new price with its day.",
                ),
            );
        }
        let price = Price {
            key: ingredient.key.clone(),
            row: larder.statement(ingredient).map(|words| words.row.clone()),
            name: ingredient.name.clone(),
            per_kg: entry.pay.value.sum / mass.si(),
            seen,
            old,
            origin,
        };
        match list.iter_mut().find(|one| one.key == price.key) {
            // The newest price of a thing counts; of two of one day the later one.
            Some(before) if before.seen <= price.seen => *before = price,
            Some(_) => {}
            None => list.push(price),
        }
    }
    let decimals = file
        .prices
        .iter()
        .map(|entry| entry.pay.value.decimals)
        .max();
    Checked {
        output: Some(Prices {
            currency,
            decimals: decimals.unwrap_or(2).min(3),
            newest,
            prices: list,
        }),
        diagnostics,
    }
}

fn look_up<'a>(
    larder: &'a Larder,
    entry: &crate::document::model::PriceEntry,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<&'a Ingredient> {
    let asked = &entry.of.value;
    let (code, message, hints): (_, _, Vec<String>) = match larder.find(asked) {
        Found::One(one) => return Some(one),
        Found::Several(several) => (
            code::INGREDIENT_AMBIGUOUS,
            format!("“{asked}” could be several ingredients, so its price is left out."),
            several
                .iter()
                .map(|one| format!("of = \"{}\"", one.name))
                .collect(),
        ),
        // A file of prices may hold things that this recipe and the larder do not know.
        Found::Near(names) => (
            code::PRICE_WITHOUT_WEIGHT,
            format!("Neither this recipe nor the larder has “{asked}”, so its price is left out."),
            names
                .iter()
                .map(|name| format!("of = \"{name}\""))
                .collect(),
        ),
        Found::Nothing => return None,
    };
    let mut diagnostic = Diagnostic::at(code, entry.of.span, message);
    diagnostic.hints = hints;
    diagnostics.push(diagnostic);
    None
}

/// The mass that was bought, of the edible part: twelve eggs are what is in their shells.
fn weigh(
    larder: &Larder,
    ingredient: &Ingredient,
    entry: &crate::document::model::PriceEntry,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<(Mass, Origin)> {
    let message = match larder.weigh(ingredient, &entry.amount.value) {
        Ok((mass, origin)) if mass > Mass::ZERO => return Some((mass, origin)),
        Ok(_) => format!("Nothing was bought of {}.", ingredient.name),
        Err(NoWeight::SizeNotSaid {
            usual,
            mass,
            origin,
        }) => {
            let origin = Origin::new(
                format!("taken as {usual}: {}", origin.source),
                Had::CommonPractice,
            );
            return Some((mass, origin));
        }
        Err(why) => why.sentence(&ingredient.name),
    };
    diagnostics.push(
        Diagnostic::at(code::PRICE_WITHOUT_WEIGHT, entry.amount.span, message)
            .hint("Write what was bought by weight: for = \"500 g\"."),
    );
    None
}
