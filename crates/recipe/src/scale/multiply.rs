//! Multiplies every amount of a recipe, stage by stage and product by product; nothing is rounded.

use crate::document::model::{Amount, Item, Part, Place, Product, Recipe, Spooned, TinSize};
use crate::source::Located;
use numerics::math::pow;
use numerics::quantity::Mass;

/// How a whole recipe is made larger or smaller.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cut {
    /// As many pieces, each larger or smaller with its filling.
    Size,
    /// Pieces of the same size, more or fewer.
    Number,
}

/// What becomes of one product.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ratio {
    /// How many pieces there are now.
    pub count: u32,
    /// How many there were.
    pub was: u32,
    /// One piece as a multiple of what it was.
    pub size: f64,
}

impl Ratio {
    /// The dough of the whole product as a multiple of what it was.
    pub fn dough(self) -> f64 {
        f64::from(self.count) / f64::from(self.was.max(1)) * self.size
    }

    /// Whether one piece is another size than before, by more than a scale shows.
    pub fn resized(self) -> bool {
        (self.size - 1.0).abs() > 0.005
    }
}

/// By what each part of a recipe is multiplied.
#[derive(Clone, Debug, PartialEq)]
pub struct Factors {
    /// Each stage, in written order.
    pub stages: Vec<f64>,
    /// Each product, in written order.
    pub products: Vec<Ratio>,
    /// All dough that is cut.
    pub dough: f64,
}

/// A recipe with every amount multiplied, so that its percentages stay.
///
/// None when the factor is not above zero, or when the number of pieces would not be whole.
/// Items for bench and top follow the dough; what greases the tin follows the tins' insides.
/// Sentences that name a part by mass ("60 g of sugar") and the written times stay as they are.
pub fn times(recipe: &Recipe, factor: f64, cut: Cut) -> Option<Recipe> {
    if !(factor.is_finite() && factor > 0.0) {
        return None;
    }
    let products = recipe.products.iter().map(|product| {
        let was = product.count.value;
        match cut {
            Cut::Size => Some(Ratio {
                count: was,
                was,
                size: factor,
            }),
            Cut::Number => Some(Ratio {
                count: whole(f64::from(was) * factor)?,
                was,
                size: 1.0,
            }),
        }
    });
    let factors = Factors {
        stages: vec![factor; recipe.stages.len()],
        products: products.collect::<Option<_>>()?,
        dough: factor,
    };
    Some(multiply(recipe, &factors))
}

/// A recipe with each part multiplied by its own factor.
pub fn multiply(recipe: &Recipe, factors: &Factors) -> Recipe {
    let mut scaled = recipe.clone();
    for (stage, factor) in scaled.stages.iter_mut().zip(&factors.stages) {
        for item in &mut stage.items {
            scale_item(item, *factor);
        }
        scale_mass(stage.evaporates.as_mut(), *factor);
    }
    for (product, ratio) in scaled.products.iter_mut().zip(&factors.products) {
        product.count.value = ratio.count;
        for Part { mass, .. } in &mut product.piece.value {
            *mass = *mass * ratio.size;
        }
        for item in &mut product.with {
            scale_amount(item.each.as_mut(), ratio.size);
            scale_amount(item.take.as_mut(), ratio.dough());
            scale_amount(item.also.as_mut(), ratio.dough());
        }
        scale_mass(product.after_bake.as_mut(), ratio.size);
    }
    let tins = inside_of_tins(recipe, factors);
    for item in &mut scaled.besides {
        let greases = item.on.as_ref().is_some_and(|on| on.value == Place::Tin);
        scale_item(item, if greases { tins } else { factors.dough });
    }
    scaled
}

/// The inside of all tins as a multiple of what it was: bodies of one shape have surfaces in
/// proportion to the power 2/3 of what they hold (geometry). Trays count only where there is
/// nothing else.
fn inside_of_tins(recipe: &Recipe, factors: &Factors) -> f64 {
    let deep = |product: &Product| {
        let size = product.tin.as_ref().map(|tin| tin.size.value);
        size.is_some_and(|size| !matches!(size, TinSize::Tray { .. }))
    };
    let any_deep = recipe.products.iter().any(deep);
    let (mut before, mut after) = (0.0, 0.0);
    for (product, ratio) in recipe.products.iter().zip(&factors.products) {
        if deep(product) || !any_deep {
            before += f64::from(ratio.was);
            after += f64::from(ratio.count) * pow(ratio.size, 2.0 / 3.0);
        }
    }
    if before > 0.0 { after / before } else { 1.0 }
}

/// A number that is whole to a millionth, as a count above zero.
pub fn whole(value: f64) -> Option<u32> {
    let near = value.round();
    let fits = (value - near).abs() < 1e-6 && (1.0..=10_000.0).contains(&near);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // between 1 and 10 000
    fits.then_some(near as u32)
}

fn scale_item(item: &mut Item, factor: f64) {
    scale_amount(item.take.as_mut(), factor);
    scale_amount(item.each.as_mut(), factor);
    scale_amount(item.also.as_mut(), factor);
}

fn scale_mass(mass: Option<&mut Located<Mass>>, factor: f64) {
    if let Some(mass) = mass {
        mass.value = mass.value * factor;
    }
}

fn scale_amount(amount: Option<&mut Located<Amount>>, factor: f64) {
    if let Some(amount) = amount {
        amount.value = multiplied(&amount.value, factor);
    }
}

/// An amount multiplied.
pub fn multiplied(amount: &Amount, factor: f64) -> Amount {
    match amount {
        Amount::Mass(mass) => Amount::Mass(*mass * factor),
        Amount::Measures(measures) => Amount::Measures(
            measures
                .iter()
                .map(|one| Spooned {
                    count: one.count * factor,
                    measure: one.measure,
                })
                .collect(),
        ),
        Amount::Count { count, size } => Amount::Count {
            count: count * factor,
            size: size.clone(),
        },
    }
}
