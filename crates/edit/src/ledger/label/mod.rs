//! What is printed about nutrition: every string of it is made here, and every figure rounded here.

mod cost;
mod list;
pub mod model;
mod notes;
mod panel;

pub use cost::cost;

use super::{figure, say};
use crate::Inputs;
use model::{LabelLines, Law, ProductLabel};
use numerics::decimal::{fixed, trimmed};
use numerics::quantity::{Fraction, Mass};
use recipe::label::{Baked, label};
use recipe::measure::Market;
use recipe::provenance::{Had, Origin};

/// What is said wherever nutrition is printed.
const PURPOSE: &str = "Worked out from the ingredients as they are put in and from what the bake \
    takes away; nobody has analysed the bread. Packs differ: read yours. Whoever sells it follows \
    the law of the place, and has to find out there what it asks; no exemption is claimed here.";

/// What is said where readers in Australia would take the European table for their own.
const AUSTRALIA: &str = "This is the European table. Australia and New Zealand ask for another, by \
    the serving and by 100 g with sodium in place of salt (Food Standards Code, Standard 1.2.8; \
    from memory); that one is not made here.";

/// The label of every product.
pub fn lines(inputs: &Inputs) -> LabelLines {
    let made = label(inputs.recipe, inputs.formula, inputs.larder);
    let law = match inputs.market {
        None | Some(Market::UnitedStates) => Law::UnitedStates,
        Some(_) => Law::Europe,
    };
    let mut heading = "Nutrition, for information".to_owned();
    let mut remarks = Vec::new();
    if inputs.market == Some(Market::Australia) {
        heading.push_str(", in the European form");
    }
    if matches!(inputs.market, None | Some(Market::Australia)) {
        remarks.push((Law::Europe, AUSTRALIA.to_owned()));
    }
    LabelLines {
        heading,
        purpose: PURPOSE.to_owned(),
        law,
        remarks: [
            remarks,
            vec![
            (
                Law::UnitedStates,
                "* Share of a day's amount for adults and children from four years, on 2,000 kcal \
                 a day. Rounded as 21 CFR 101.9 has it."
                    .to_owned(),
            ),
            (
                Law::Europe,
                "Carbohydrate without fibre, protein as nitrogen × 6.25, salt as sodium × 2.5, \
                 energy by the factors of Regulation (EU) 1169/2011; rounded by the Commission's \
                 guidance."
                    .to_owned(),
            ),
            ],
        ]
        .concat(),
        products: made
            .products
            .iter()
            .map(|product| product_label(inputs, product))
            .collect(),
        notes: notes::notes(inputs, &made),
        list_notes: notes::list_notes(inputs, &made),
    }
}

fn product_label(inputs: &Inputs, product: &Baked<'_>) -> ProductLabel {
    let (baked, figures) = baked(product);
    ProductLabel {
        name: say::capital(&product.name),
        baked,
        figures,
        us: panel::us(product),
        eu: panel::eu(product),
        ingredients_us: list::us(inputs, product),
        ingredients_eu: list::eu(inputs, product),
    }
}

/// The name of one piece: "bun" of ten buns.
fn one_of(product: &Baked<'_>) -> String {
    let name = product.name.as_str();
    let singular = name
        .strip_suffix('s')
        .filter(|rest| product.count > 1 && !rest.ends_with(['s', 'i', 'u']));
    singular.unwrap_or(name).to_owned()
}

/// A mass to whole grams.
fn grams(mass: Mass) -> String {
    let grams = recipe::label::us::serving_grams(mass.grams());
    format!("{}{}g", trimmed(grams, 1), say::NBSP)
}

/// "10 of 49 g baked, as weighed".
fn baked(product: &Baked<'_>) -> (String, Vec<super::model::Figure>) {
    let place = format!("label.{}", product.name);
    let piece = figure(
        format!("{place}.baked"),
        product.piece().si(),
        Mass::SI,
        grams(product.piece()),
        product.loss.origin.clone(),
    );
    let loss = figure(
        format!("{place}.loss"),
        product.loss.share.si(),
        "1",
        format!("{}{}%", fixed(product.loss.share.percent(), 1), say::NBSP),
        product.loss.origin.clone(),
    );
    let count = if product.count == 1 {
        String::new()
    } else {
        format!("{} of ", product.count)
    };
    let line = if product.loss.weighed {
        format!(
            "{count}{} baked, as weighed: {} less than {}",
            piece.shown,
            loss.shown,
            if product.filled {
                "dough and filling"
            } else {
                "the dough"
            }
        )
    } else {
        format!(
            "{count}about {} baked, not weighed: a usual loss of {} is taken ({}; {})",
            piece.shown,
            loss.shown,
            product.loss.origin.source,
            product.loss.origin.had.words()
        )
    };
    (line, vec![piece, loss])
}

/// How every figure of a table was had.
fn origin() -> Origin {
    Origin::new(
        "sum over the ingredients as put in, less the water that the bake takes",
        Had::Derived,
    )
}

/// A share of the whole as a sentence says it: "0.9 %".
fn share(part: Mass, whole: Mass) -> String {
    let fraction = if whole > Mass::ZERO {
        part / whole
    } else {
        0.0
    };
    say::percent(Fraction::from_si(fraction))
}
