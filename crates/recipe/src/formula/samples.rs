//! Ingredients for this folder's tests, with the figures of USDA SR28 that the sums need.

use super::model::{Formula, Resolved, ResolvedItem};
use super::sum::{Resolution, add_up};
use crate::document::model::{Amount, Item, Kind, Part, Product, Recipe, Stage};
use crate::larder::{Composition, Ingredient, Role, YeastForm};
use crate::provenance::{Had, Origin};
use crate::source::{Checked, Diagnostic, Located, Span};
use numerics::quantity::{Fraction, Mass};

/// Water, protein, fat, sugars, lactose in per cent and sodium in mg of 100 g.
fn made(name: &str, role: Role, figures: [f64; 6], milk: bool) -> Ingredient {
    let [water, protein, fat, sugars, lactose, sodium] = figures;
    let share = |percent: f64| Some(Fraction::from_percent(percent));
    Ingredient {
        key: name.replace(' ', "-"),
        name: name.to_owned(),
        role,
        composition: Composition {
            water: share(water),
            protein: share(protein),
            fat: share(fat),
            carbohydrate: share((100.0 - water - protein - fat).max(0.0)),
            fibre: share(0.0),
            sugars: share(sugars),
            lactose: share(lactose),
            ash: share(0.0),
            sodium: share(sodium / 1000.0),
            alcohol: share(0.0),
            origin: Origin::new("USDA SR28", Had::Read),
        },
        by_volume: None,
        by_count: Vec::new(),
        allergens_us: if milk {
            vec!["milk".to_owned()]
        } else {
            Vec::new()
        },
        allergens_eu: Vec::new(),
        names: vec![name.to_owned()],
        flags: Vec::new(),
    }
}

pub fn flour() -> Ingredient {
    made(
        "bread flour",
        Role::Flour,
        [13.36, 11.98, 1.66, 0.31, 0.0, 2.0],
        false,
    )
}

pub fn water() -> Ingredient {
    made(
        "water",
        Role::Liquid,
        [100.0, 0.0, 0.0, 0.0, 0.0, 4.0],
        false,
    )
}

pub fn milk() -> Ingredient {
    made(
        "whole milk",
        Role::Liquid,
        [88.13, 3.15, 3.25, 5.05, 5.05, 43.0],
        true,
    )
}

pub fn butter() -> Ingredient {
    made(
        "unsalted butter",
        Role::Fat,
        [17.94, 0.85, 81.11, 0.06, 0.0, 11.0],
        true,
    )
}

pub fn salted_butter() -> Ingredient {
    made(
        "salted butter",
        Role::Fat,
        [15.87, 0.85, 81.11, 0.06, 0.0, 643.0],
        true,
    )
}

pub fn egg() -> Ingredient {
    made(
        "egg",
        Role::Egg,
        [76.15, 12.56, 9.51, 0.37, 0.0, 142.0],
        false,
    )
}

pub fn sugar() -> Ingredient {
    made(
        "granulated sugar",
        Role::Sugar,
        [0.02, 0.0, 0.0, 99.8, 0.0, 1.0],
        false,
    )
}

pub fn honey() -> Ingredient {
    made(
        "honey",
        Role::Sugar,
        [17.1, 0.3, 0.0, 82.12, 0.0, 4.0],
        false,
    )
}

pub fn salt() -> Ingredient {
    made(
        "fine salt",
        Role::Salt,
        [0.2, 0.0, 0.0, 0.0, 0.0, 38758.0],
        false,
    )
}

pub fn instant() -> Ingredient {
    made(
        "instant yeast",
        Role::Yeast(YeastForm::Instant),
        [5.0, 40.0, 7.6, 0.0, 0.0, 51.0],
        false,
    )
}

pub fn sweet_yeast() -> Ingredient {
    let form = Role::Yeast(YeastForm::InstantOsmotolerant);
    made(
        "high-sugar instant yeast",
        form,
        [5.0, 40.0, 7.6, 0.0, 0.0, 51.0],
        false,
    )
}

pub fn active_dry() -> Ingredient {
    let form = Role::Yeast(YeastForm::ActiveDry);
    made(
        "active dry yeast",
        form,
        [5.08, 40.44, 7.61, 0.0, 0.0, 51.0],
        false,
    )
}

pub fn raisins() -> Ingredient {
    made(
        "raisins",
        Role::Addition,
        [15.43, 3.07, 0.46, 59.19, 0.0, 11.0],
        false,
    )
}

/// Every ingredient of this file by its name.
pub fn named(name: &str) -> Option<Ingredient> {
    let all = [
        flour(),
        water(),
        milk(),
        butter(),
        salted_butter(),
        egg(),
        sugar(),
        honey(),
        salt(),
        instant(),
        active_dry(),
        sweet_yeast(),
        raisins(),
    ];
    all.into_iter().find(|ingredient| ingredient.name == name)
}

/// A value without a place.
pub fn at<T>(value: T) -> Located<T> {
    Located::new(value, Span::default())
}

/// An item by name and grams; less than nothing grams stands for a whole stage.
pub fn item(of: &str, grams: f64) -> Item {
    Item {
        take: (grams >= 0.0).then(|| at(Amount::Mass(Mass::from_grams(grams)))),
        ..Item::bare(at(of.to_owned()), Span::default())
    }
}

/// A stage by name and items.
pub fn stage(name: &str, items: &[(&str, f64)]) -> Stage {
    Stage {
        name: at(name.to_owned()),
        items: items.iter().map(|(of, grams)| item(of, *grams)).collect(),
        steps: Vec::new(),
        evaporates: None,
        span: Span::default(),
    }
}

/// A product by name, stage, count and grams.
pub fn product(name: &str, from: &str, count: u32, grams: f64) -> Product {
    Product {
        name: at(name.to_owned()),
        from: at(from.to_owned()),
        count: at(count),
        piece: at(vec![Part {
            count: 1,
            mass: Mass::from_grams(grams),
        }]),
        with: Vec::new(),
        tin: None,
        after_bake: None,
        steps: Vec::new(),
        span: Span::default(),
    }
}

/// A recipe of these stages and products.
pub fn recipe(kind: Kind, stages: Vec<Stage>, products: Vec<Product>) -> Recipe {
    Recipe {
        format: 1,
        title: at("sample".to_owned()),
        kind: at(kind),
        version: None,
        author: None,
        published: None,
        changed: None,
        headnote: None,
        notes: Vec::new(),
        make_ahead: None,
        storage: None,
        serves: None,
        promise: None,
        film: None,
        photos: Vec::new(),
        sponsor: None,
        house: crate::document::model::House::default(),
        pantry: Vec::new(),
        stages,
        products,
        besides: Vec::new(),
        tested: Vec::new(),
    }
}

/// Looks items up among the samples.
fn resolved(items: &[Item], earlier: &[String]) -> Vec<ResolvedItem> {
    let one = |item: &Item| {
        let of = &item.of.value;
        let what = match earlier.iter().position(|stage| stage == of) {
            Some(place) => Resolved::Stage(place),
            None => named(of).map_or(Resolved::Unknown(of.clone()), |found| {
                Resolved::Ingredient(Box::new(found))
            }),
        };
        let amount = item.take.as_ref().or(item.each.as_ref());
        let mass = match amount.map(|amount| &amount.value) {
            Some(Amount::Mass(mass)) => Some(*mass),
            _ => None,
        };
        ResolvedItem {
            called: item.called().to_owned(),
            what,
            mass,
            origin: Origin::new("the recipe", Had::Written),
            of_flour: None,
        }
    };
    items.iter().map(one).collect()
}

/// The formula of a recipe made of samples.
pub fn sum(recipe: &Recipe) -> Checked<Formula> {
    let names: Vec<String> = recipe
        .stages
        .iter()
        .map(|stage| stage.name.value.clone())
        .collect();
    let stages = recipe
        .stages
        .iter()
        .enumerate()
        .map(|(place, stage)| resolved(&stage.items, &names[..place]))
        .collect();
    let with = recipe
        .products
        .iter()
        .map(|product| resolved(&product.with, &names))
        .collect();
    add_up(
        recipe,
        Resolution {
            stages,
            with,
            besides: resolved(&recipe.besides, &names),
        },
    )
}

/// The names of what is said.
pub fn codes(diagnostics: &[Diagnostic]) -> Vec<&'static str> {
    diagnostics
        .iter()
        .map(|diagnostic| diagnostic.code.name)
        .collect()
}
