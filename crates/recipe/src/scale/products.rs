//! Pieces, masses after the bake and tins of the products in their new size.

use super::amounts::{capital, piece, weighable};
use super::factors::{Asked, OtherTin, tin_volume};
use super::household;
use super::multiply::Ratio;
use super::vessel::Vessel;
use super::wish::usual_walls;
use super::{Change, Said};
use crate::document::model::{Amount, Item, Product, Recipe, Tin, TinSize};
use crate::formula::{Formula, piece_mass};
use crate::measure::write::{write_piece, write_tin_size};
use crate::source::{Diagnostic, Located, code};
use numerics::decimal::{round_to, trimmed};
use numerics::math::pow;
use numerics::quantity::{Length, Mass, Volume};

/// A tin of the household charts is offered when it holds this nearly what is wanted.
const NEAR_ENOUGH: f64 = 0.04;

/// Rounds pieces, chooses tins; gives each product's bread as a multiple of its thickness before.
pub fn settle(new: &mut Recipe, before: &Recipe, asked: &Asked, said: &mut Said) -> Vec<f64> {
    let mut thickness = Vec::new();
    for (place, product) in new.products.iter_mut().enumerate() {
        let (was, ratio) = (&before.products[place], asked.factors.products[place]);
        if ratio.resized() {
            for part in &mut product.piece.value {
                part.mass = piece(part.mass);
            }
            if let Some(after) = &mut product.after_bake {
                after.value = weighable(after.value);
            }
        } else {
            product.piece = was.piece.clone();
            product.after_bake.clone_from(&was.after_bake);
        }
        changes(product, was, said);
        let tin_before = tin_in_words(product.tin.as_ref());
        let other = asked.tin.as_ref().filter(|tin| tin.product == place);
        thickness.push(match (&mut product.tin, other) {
            (Some(tin), Some(other)) => {
                let name = &product.name.value;
                let grams = piece_mass(&product.piece.value).grams();
                other_tin(tin, other, name, grams, said)
            }
            (Some(tin), None) if ratio.resized() => {
                tin_in_proportion(tin, product.name.value.as_str(), ratio, said)
            }
            _ => pow(ratio.size, 1.0 / 3.0),
        });
        let tin_after = tin_in_words(product.tin.as_ref());
        if tin_before != tin_after {
            said.changes.push(Change {
                what: format!("{}: tin", product.name.value),
                before: tin_before,
                after: tin_after,
            });
        }
    }
    thickness
}

/// "21.6 x 11.4 x 6.4 cm, 1420 mL, lidded".
fn tin_in_words(tin: Option<&Tin>) -> String {
    let Some(tin) = tin else { return String::new() };
    let mut words = write_tin_size(&tin.size.value);
    if let Some(holds) = &tin.holds {
        words.push_str(&format!(", {} mL", trimmed(holds.value.millilitres(), 0)));
    }
    if tin.lidded.as_ref().is_some_and(|lidded| lidded.value) {
        words.push_str(", lidded");
    }
    words
}

fn changes(product: &Product, was: &Product, said: &mut Said) {
    let cut = |product: &Product| {
        let written = write_piece(&product.piece.value);
        match (product.count.value, product.piece.value.len()) {
            (1, _) => written,
            (count, 1) => format!("{count} × {written}"),
            (count, _) => format!("{count} × ({written})"),
        }
    };
    let (before, after) = (cut(was), cut(product));
    if before != after {
        said.changes.push(Change {
            what: product.name.value.clone(),
            before,
            after,
        });
    }
}

/// Puts the wished tin in place of the recipe's; gives the ratio of thicknesses.
fn other_tin(tin: &mut Tin, other: &OtherTin, product: &str, grams: f64, said: &mut Said) -> f64 {
    let before = tin.clone();
    let wish = &other.wish;
    let ml = |volume: Volume| trimmed(volume.millilitres(), 0);
    let chart = wish
        .size
        .is_none()
        .then(|| household::nearest(other.volume, &before.size.value, NEAR_ENOUGH))
        .flatten();
    let by = pow(other.volume / other.was, 1.0 / 3.0);
    let size = wish.size.or_else(|| chart.as_ref().map(|tin| tin.size));
    tin.size.value = size.unwrap_or_else(|| larger(&before.size.value, by));
    tin.holds = Some(Located::new(
        Volume::from_millilitres(round_to(other.volume.millilitres(), 1.0)),
        tin.size.span,
    ));
    if let Some(lidded) = wish.lidded {
        tin.lidded =
            (lidded || before.lidded.is_some()).then(|| Located::new(lidded, tin.size.span));
    }
    let of = if other.usual {
        "usual for such a tin"
    } else {
        "as in the first one"
    };
    said.words.push(format!(
        "The {} of {} mL takes {} g of {product} dough: {} mL for each gram, {of}.",
        tin.name.value,
        ml(other.volume),
        trimmed(grams, 0),
        trimmed(other.ml_per_g, 2)
    ));
    if let Some(found) = &chart {
        said.words.push(format!(
            "By household charts {} mL is a tin of {} ({}); with another shape the bake may take \
             longer or shorter.",
            ml(found.holds.unwrap_or(other.volume)),
            write_tin_size(&found.size),
            found.name
        ));
    } else if wish.size.is_none() {
        said.words.push(format!(
            "Of that tin only its volume is known; {} would be the first tin's shape.",
            write_tin_size(&tin.size.value)
        ));
    }
    if other.reckoned {
        let message = format!(
            "That the tin holds {} mL is reckoned from its dimensions, walls leaning in by an \
             eighth of the depth unless it is tall, lidded or said to be upright.",
            ml(other.volume)
        );
        said.findings.push(
            Diagnostic::at(code::TIN_VOLUME_RECKONED, before.size.span, message)
                .hint("Fill it with water to the brim on a scale, and wish for it by its volume."),
        );
    }
    if other.other_kind {
        said.words.push(format!(
            "That is another kind of tin; list and sentences still call it the {}, and its \
             material may be another.",
            tin.name.value
        ));
    }
    if other.usual && before.lidded != tin.lidded {
        said.words.push(
            "With a lid the bread fills the tin to its corners; without one it domes above the rim."
                .to_owned(),
        );
    }
    let lidded = before.lidded.as_ref().is_some_and(|lidded| lidded.value);
    let first = Vessel::of(&before.size.value, usual_walls(&before.size.value, lidded));
    match (first, wish.vessel) {
        // A gram of dough grows as much in either: where it has less tin it stands higher in it.
        (Some(first), Some(second)) if other.usual => {
            let higher = other.ml_per_g / other.first_ml_per_g;
            second.thickness() / first.deeper(higher).thickness()
        }
        (Some(first), Some(second)) => second.thickness() / first.thickness(),
        _ => by,
    }
}

/// A tin of the same shape for a larger or smaller piece, a household one where there is one.
fn tin_in_proportion(tin: &mut Tin, product: &str, ratio: Ratio, said: &mut Said) -> f64 {
    let by = pow(ratio.size, 1.0 / 3.0);
    let Some(was) = tin_volume(tin) else {
        return by;
    };
    let wanted = was * ratio.size;
    let rounded = round_to(wanted.millilitres(), 10.0);
    let measured = tin.holds.is_some();
    if measured {
        tin.holds = Some(Located::new(
            Volume::from_millilitres(rounded),
            tin.size.span,
        ));
    }
    // A few per cent more or less rise in the same tin.
    if (ratio.size - 1.0).abs() < NEAR_ENOUGH {
        if measured {
            tin.holds = Some(Located::new(was, tin.size.span));
        }
        said.words
            .push(format!("The {product} still fits its {}.", tin.name.value));
        return by;
    }
    let found = household::nearest(wanted, &tin.size.value, NEAR_ENOUGH).filter(|_| measured);
    tin.size.value = match &found {
        Some(found) => found.size,
        None => larger(&tin.size.value, by),
    };
    let size = write_tin_size(&tin.size.value);
    let which = match &found {
        Some(found) => format!("by household charts one of {size} ({})", found.name),
        None => format!("in the shape of the first, {size}"),
    };
    said.words.push(format!(
        "{} wants a {} of {} mL, {which}.",
        capital(&format!("the {product}")),
        tin.name.value,
        trimmed(rounded, 0)
    ));
    by
}

/// The same shape, so many times as long, to the millimetre.
fn larger(size: &TinSize, by: f64) -> TinSize {
    let to = |side: Length| {
        let cm = numerics::decimal::fixed(side.centimetres() * by, 1);
        Length::from_centimetres(cm.parse().unwrap_or(side.centimetres() * by))
    };
    match *size {
        TinSize::Box {
            length,
            width,
            depth,
        } => TinSize::Box {
            length: to(length),
            width: to(width),
            depth: to(depth),
        },
        TinSize::Round { diameter, height } => TinSize::Round {
            diameter: to(diameter),
            height: to(height),
        },
        TinSize::Tray { length, width } => TinSize::Tray { length, width },
    }
}

/// Makes what is taken of each stage fit what there is, where rounding took a little too much.
pub fn fit(new: &mut Recipe, formula: &Formula) {
    for (place, stage) in formula.stages.iter().enumerate() {
        let there = stage.mass.grams();
        let wanted = taken(new, &stage.name, place);
        if wanted > there && wanted < there * 1.02 {
            let by = there / wanted;
            for product in &mut new.products {
                if product.from.value == stage.name {
                    for part in &mut product.piece.value {
                        part.mass = less(part.mass, by, 1.0);
                    }
                }
            }
            for item in users(new, &stage.name, place) {
                for amount in [&mut item.take, &mut item.each].into_iter().flatten() {
                    if let Amount::Mass(mass) = &mut amount.value {
                        *mass = less(*mass, by, 0.5);
                    }
                }
            }
        }
    }
}

/// A mass made smaller and rounded down: in whole steps, below 20 g in halves or tenths of them.
fn less(mass: Mass, by: f64, step: f64) -> Mass {
    let grams = mass.grams() * by;
    let step = match (grams < 20.0, step < 1.0) {
        (true, true) => 0.1,
        (true, false) => 0.5,
        _ => step,
    };
    let lower = numerics::decimal::fixed((grams / step + 1e-9).floor() * step, 1);
    let lower = lower.parse().unwrap_or(grams);
    Mass::from_grams(if lower > 0.0 { lower } else { grams })
}

/// Items that take of a stage by name.
fn users<'a>(
    recipe: &'a mut Recipe,
    stage: &'a str,
    place: usize,
) -> impl Iterator<Item = &'a mut Item> {
    let later = recipe
        .stages
        .iter_mut()
        .skip(place + 1)
        .flat_map(|later| &mut later.items);
    let with = recipe
        .products
        .iter_mut()
        .flat_map(|product| &mut product.with);
    later.chain(with).filter(move |item| item.of.value == stage)
}

/// Grams taken of a stage in all.
fn taken(recipe: &Recipe, stage: &str, place: usize) -> f64 {
    let grams = |amount: Option<&Located<Amount>>| match amount.map(|amount| &amount.value) {
        Some(Amount::Mass(mass)) => mass.grams(),
        _ => 0.0,
    };
    let of = |item: &&Item| item.of.value == stage;
    let later = recipe
        .stages
        .iter()
        .skip(place + 1)
        .flat_map(|later| &later.items);
    let mut sum: f64 = later.filter(of).map(|item| grams(item.take.as_ref())).sum();
    for product in &recipe.products {
        let count = f64::from(product.count.value);
        if product.from.value == stage {
            sum += piece_mass(&product.piece.value).grams() * count;
        }
        for item in product.with.iter().filter(of) {
            sum += grams(item.each.as_ref()) * count + grams(item.take.as_ref());
        }
    }
    sum
}
