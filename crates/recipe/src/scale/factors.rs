//! By what each stage and each product is multiplied so that a wish comes true.

use super::multiply::{Factors, Ratio, whole};
use super::vessel::Vessel;
use super::wish::{TinWish, To, Wish, usual_walls};
use crate::document::model::{Amount, Recipe, Tin};
use crate::formula::bands::{Measured, band};
use crate::formula::{Formula, Resolved, TALL_FROM, TinShape, piece_mass, tin_shape};
use crate::larder::Role;
use crate::source::{Diagnostic, code};
use numerics::decimal::trimmed;
use numerics::quantity::{Mass, Volume};

/// The smallest and the largest multiple for which anything here still holds.
const REASON: std::ops::RangeInclusive<f64> = 0.05..=20.0;

/// A number of pieces is rounded to whole ones when each then stays this near its size.
const NEAR_ITS_SIZE: std::ops::RangeInclusive<f64> = 0.8..=1.25;

/// The tin of one product, as wished.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherTin {
    /// The product, by its number.
    pub product: usize,
    /// The tin.
    pub wish: TinWish,
    /// What it holds.
    pub volume: Volume,
    /// Whether that was reckoned from its dimensions.
    pub reckoned: bool,
    /// What the first tin holds.
    pub was: Volume,
    /// Millilitres for each gram of dough.
    pub ml_per_g: f64,
    /// The same in the first tin.
    pub first_ml_per_g: f64,
    /// Whether that is the usual figure of another kind of tin, rather than the recipe's own.
    pub usual: bool,
    /// Whether it is another kind of tin: lidded or open, tall or low.
    pub other_kind: bool,
}

/// What a wish asks for.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The factors.
    pub factors: Factors,
    /// The other tin, when the wish is for one.
    pub tin: Option<OtherTin>,
}

/// By what everything is multiplied; the error says why nothing can be.
pub fn asked(recipe: &Recipe, formula: &Formula, wish: &Wish) -> Result<Asked, Box<Diagnostic>> {
    let unchanged: Vec<Ratio> = recipe
        .products
        .iter()
        .map(|product| Ratio {
            count: product.count.value,
            was: product.count.value,
            size: 1.0,
        })
        .collect();
    let mut tin = None;
    let products = match &wish.to {
        To::Times(factor) => all(&unchanged, *factor)?,
        To::Flour(flour) => all(&unchanged, share(*flour, formula.dough.flour, "flour")?)?,
        To::Dough(dough) => all(&unchanged, share(*dough, formula.dough.mass, "dough")?)?,
        To::Eggs(count) => {
            let eggs = eggs_in_dough(recipe, formula);
            if eggs <= 0.0 {
                return Err(unclear("There is no egg in the dough to count by."));
            }
            all(&unchanged, f64::from(*count) / eggs)?
        }
        To::Pieces { product, count } => {
            let one = one_of(recipe, product.as_deref(), "--pieces", |place| {
                recipe.products[place].count.value > 1
            })?;
            reasonable(f64::from(*count) / f64::from(unchanged[one].was.max(1)))?;
            let mut products = unchanged;
            products[one].count = *count;
            products
        }
        To::Tin {
            product,
            tin: wished,
        } => {
            let one = one_of(recipe, product.as_deref(), "--tin", |place| {
                let tin = recipe.products[place].tin.as_ref();
                tin.is_some_and(|tin| tin_volume(tin).is_some())
            })?;
            let other = other_tin(recipe, one, wished)?;
            let piece = piece_mass(&recipe.products[one].piece.value);
            let size = other.volume.millilitres() / other.ml_per_g / piece.grams();
            reasonable(size)?;
            let mut products = unchanged;
            products[one].size = size;
            tin = Some(other);
            products
        }
    };
    Ok(Asked {
        factors: with_stages(recipe, formula, products),
        tin,
    })
}

/// Every product multiplied: more or fewer pieces where that comes out whole or nearly so, larger
/// or smaller ones where not.
fn all(unchanged: &[Ratio], factor: f64) -> Result<Vec<Ratio>, Box<Diagnostic>> {
    reasonable(factor)?;
    Ok(unchanged
        .iter()
        .map(|ratio| {
            let wanted = f64::from(ratio.was) * factor;
            let nearest = wanted.round().max(1.0);
            let (count, size) = match whole(wanted) {
                Some(count) => (count, 1.0),
                None => match whole(nearest) {
                    Some(count) if NEAR_ITS_SIZE.contains(&(wanted / nearest)) => {
                        (count, wanted / nearest)
                    }
                    _ => (ratio.was, factor),
                },
            };
            Ratio {
                count,
                size,
                ..*ratio
            }
        })
        .collect())
}

/// What is wished as a multiple of what there is.
fn share(wished: Mass, there: Mass, what: &str) -> Result<f64, Box<Diagnostic>> {
    if there > Mass::ZERO {
        Ok(wished / there)
    } else {
        Err(unclear(&format!(
            "No {what} could be weighed in this recipe."
        )))
    }
}

fn reasonable(factor: f64) -> Result<(), Box<Diagnostic>> {
    if REASON.contains(&factor) {
        return Ok(());
    }
    Err(Box::new(
        Diagnostic::whole(
            code::SIZE_WISH_IMPOSSIBLE,
            format!(
                "That would be {} times the recipe. Below {} or above {} times, mixing, rising \
                 and baking are no longer those of this recipe.",
                trimmed(factor, 3),
                trimmed(*REASON.start(), 2),
                trimmed(*REASON.end(), 0)
            ),
        )
        .hint("Wish for something between, and bake it several times."),
    ))
}

fn unclear(message: &str) -> Box<Diagnostic> {
    Box::new(Diagnostic::whole(code::SIZE_WISH_UNCLEAR, message))
}

/// The product that a wish is for: as named, the only one there is, or the only one that fits.
fn one_of(
    recipe: &Recipe,
    named: Option<&str>,
    wish: &str,
    fits: impl Fn(usize) -> bool,
) -> Result<usize, Box<Diagnostic>> {
    let made: Vec<String> = recipe
        .products
        .iter()
        .map(|product| product.name.value.clone())
        .collect();
    let words: Vec<&str> = made.iter().map(String::as_str).collect();
    let listed = crate::source::listed(&words, "and");
    if let Some(named) = named {
        let found = made
            .iter()
            .position(|name| name.trim().to_lowercase() == named.trim().to_lowercase());
        return match found {
            Some(place) if wish == "--tin" && !fits(place) => Err(unclear(&format!(
                "The {named} is baked without a tin that holds a volume, so another tin says \
                 nothing of its dough."
            ))),
            Some(place) => Ok(place),
            None => Err(Box::new(
                unclear(&format!("This recipe makes no “{named}”."))
                    .hint(format!("It makes: {listed}.")),
            )),
        };
    }
    let fitting: Vec<usize> = (0..made.len()).filter(|place| fits(*place)).collect();
    match (fitting.as_slice(), made.len()) {
        ([only], _) => Ok(*only),
        ([], 1) if wish == "--pieces" => Ok(0),
        ([], _) => Err(Box::new(
            unclear(match wish {
                "--tin" => "Nothing in this recipe is baked in a tin that holds a volume.",
                _ => "It is not said of what there shall be so many pieces.",
            })
            .hint(format!("It makes: {listed}.")),
        )),
        ([first, ..], _) => Err(Box::new(
            unclear("Several products could be meant, and they would give different doughs.")
                .hint(format!("Name one, as in {wish} \"{}=...\".", made[*first]))
                .hint(format!("It makes: {listed}.")),
        )),
    }
}

/// Eggs counted in the dough; eggs in grams are counted as the larder's large ones.
pub fn eggs_in_dough(recipe: &Recipe, formula: &Formula) -> f64 {
    let stages = recipe.stages.iter().zip(&formula.stages);
    stages
        .filter(|(_, sum)| sum.in_dough)
        .flat_map(|(stage, sum)| stage.items.iter().zip(&sum.items))
        .filter_map(|(item, resolved)| {
            let Resolved::Ingredient(ingredient) = &resolved.what else {
                return None;
            };
            if ingredient.role != Role::Egg {
                return None;
            }
            if let Amount::Count { count, .. } = &item.take.as_ref()?.value {
                return Some(*count);
            }
            let mut sizes = ingredient.by_count.iter();
            let (_, large, _) = sizes.find(|(size, ..)| size == "large")?;
            Some(resolved.mass? / *large)
        })
        .sum()
}

/// What the recipe's own tin holds: as written, else by its dimensions.
pub fn tin_volume(tin: &Tin) -> Option<Volume> {
    let lidded = tin.lidded.as_ref().is_some_and(|lidded| lidded.value);
    let size = &tin.size.value;
    let inside = Vessel::of(size, usual_walls(size, lidded)).map(|inside| inside.volume());
    tin.holds.as_ref().map(|holds| holds.value).or(inside)
}

/// How much the other tin holds, and how much of it each gram of dough gets.
fn other_tin(recipe: &Recipe, product: usize, wish: &TinWish) -> Result<OtherTin, Box<Diagnostic>> {
    let made = &recipe.products[product];
    let known = made.tin.as_ref().zip(wish.volume());
    let (tin, (volume, reckoned)) =
        known.ok_or_else(|| unclear("The volume of the tin is not known."))?;
    let was = tin_volume(tin).ok_or_else(|| {
        unclear("The recipe's own tin holds no volume that another could be compared with.")
    })?;
    let own = was.millilitres() / piece_mass(&made.piece.value).grams();
    let first = tin_shape(tin);
    let second = shape_of(wish, first);
    let of_kind = match second {
        TinShape::Lidded => Measured::TinLidded,
        TinShape::Tall => Measured::TinTall,
        TinShape::Open | TinShape::Flat => Measured::TinOpen,
    };
    let usual = band(recipe.kind.value, of_kind)
        .filter(|band| first != second && !band.holds(own))
        .map(|band| f64::midpoint(band.low, band.high));
    Ok(OtherTin {
        product,
        wish: wish.clone(),
        volume,
        reckoned,
        was,
        ml_per_g: usual.unwrap_or(own),
        first_ml_per_g: own,
        usual: usual.is_some(),
        other_kind: first != second,
    })
}

/// What kind of tin the wish names; what it does not say is as in the first one.
fn shape_of(wish: &TinWish, first: TinShape) -> TinShape {
    match (wish.lidded, wish.vessel) {
        (Some(true), _) => TinShape::Lidded,
        (_, Some(Vessel::Round { rim, depth, .. })) if depth.si() >= TALL_FROM * rim.si() => {
            TinShape::Tall
        }
        (Some(false), _) => TinShape::Open,
        (None, Some(_)) if first == TinShape::Tall => TinShape::Open,
        (None, _) => first,
    }
}

/// The factor of every stage, from what its products and later stages want of it.
fn with_stages(recipe: &Recipe, formula: &Formula, products: Vec<Ratio>) -> Factors {
    let dough = |ratio: &dyn Fn(&Ratio) -> f64| -> f64 {
        recipe
            .products
            .iter()
            .zip(&products)
            .map(|(product, one)| {
                let piece = piece_mass(&product.piece.value).grams();
                piece * f64::from(one.was) * ratio(one)
            })
            .sum()
    };
    let before = dough(&|_| 1.0);
    let all = if before > 0.0 {
        dough(&|one| one.dough()) / before
    } else {
        1.0
    };
    let mut stages = vec![all; recipe.stages.len()];
    for place in (0..recipe.stages.len()).rev() {
        let name = &recipe.stages[place].name.value;
        let whole = formula.stages.get(place).map_or(Mass::ZERO, |sum| sum.mass);
        // What is wanted of it, before and after, in grams.
        let mut wants: Vec<(f64, f64)> = Vec::new();
        for (product, ratio) in recipe.products.iter().zip(&products) {
            if product.from.value == *name {
                let grams = piece_mass(&product.piece.value).grams() * f64::from(ratio.was);
                wants.push((grams, ratio.dough()));
            }
            for item in product.with.iter().filter(|item| item.of.value == *name) {
                let grams = match (&item.each, &item.take) {
                    (Some(each), _) => in_grams(&each.value).map(|g| g * f64::from(ratio.was)),
                    (None, Some(take)) => in_grams(&take.value),
                    (None, None) => None,
                };
                wants.push((grams.unwrap_or(whole.grams()), ratio.dough()));
            }
        }
        for (later, by) in formula.stages.iter().zip(&stages).skip(place + 1) {
            for item in &later.items {
                if item.what == Resolved::Stage(place) {
                    wants.push((item.mass.unwrap_or(whole).grams(), *by));
                }
            }
        }
        let sum: f64 = wants.iter().map(|(grams, _)| grams).sum();
        if sum > 0.0 {
            stages[place] = wants.iter().map(|(grams, by)| grams * by).sum::<f64>() / sum;
        }
    }
    Factors {
        stages,
        products,
        dough: all,
    }
}

fn in_grams(amount: &Amount) -> Option<f64> {
    match amount {
        Amount::Mass(mass) => Some(mass.grams()),
        _ => None,
    }
}
