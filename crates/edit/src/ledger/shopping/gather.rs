//! Items of all recipes summed by what is bought, counted things by their size.

use super::{Order, Pack, ShoppingLine};
use crate::ledger::model::Figure;
use crate::ledger::{figure, readers, say};
use numerics::quantity::{Fraction, Mass};
use recipe::document::model::{Action, Amount, Item, Material, Recipe};
use recipe::formula::{Resolved, ResolvedItem};
use recipe::larder::{Ingredient, Role};
use recipe::measure::Market;
use recipe::provenance::{Had, Origin};

/// A thing and how much of it all recipes want.
pub(super) struct Wanted {
    /// What it is; none when the larder does not know it.
    pub ingredient: Option<Ingredient>,
    /// What its pack is called.
    pub name: String,
    /// What to look for on the pack.
    pub detail: Option<String>,
    /// Mass in all.
    pub mass: Mass,
    /// Pieces to buy, and how they are said.
    pub count: Option<(f64, String)>,
    /// "Hearth loaf 565 g", one for each recipe.
    pub goes: Vec<String>,
    market: Option<Market>,
    counted: Vec<(String, f64)>,
    /// Mass of what is taken by weight and not by count.
    weighed: Mass,
    shares: Vec<(String, Mass)>,
    said: Vec<String>,
}

/// Everything that the orders want, each thing once, in the order of first use.
pub(super) fn gather(orders: &[Order]) -> Vec<Wanted> {
    let mut all: Vec<Wanted> = Vec::new();
    for order in orders {
        let (recipe, formula) = (order.inputs.recipe, order.inputs.formula);
        let stages = recipe.stages.iter().enumerate();
        let besides = recipe.besides.iter().map(|item| (None, item));
        let written = stages
            .flat_map(|(at, stage)| stage.items.iter().map(move |item| (Some(at), item)))
            .chain(besides);
        for ((stage, item), resolved) in written.zip(formula.every_item()) {
            if !matches!(resolved.what, Resolved::Stage(_)) {
                add(&mut all, order, order.times(stage), item, resolved);
            }
        }
    }
    for one in &mut all {
        one.count = counted(one);
        let several = one.count.as_ref().is_some_and(|(count, _)| *count > 1.0);
        if several && one.name.ends_with("egg") {
            one.name.push('s');
        }
        one.goes = one
            .shares
            .iter()
            .map(|(title, mass)| format!("{title} {}", say::mass(*mass)))
            .collect();
        if one.mass <= Mass::ZERO && !one.said.is_empty() {
            one.detail = Some(one.said.join(", "));
        }
    }
    all
}

fn add(all: &mut Vec<Wanted>, order: &Order, times: f64, item: &Item, resolved: &ResolvedItem) {
    let market = order.inputs.market;
    let ingredient = match &resolved.what {
        Resolved::Ingredient(ingredient) => Some(ingredient.as_ref()),
        _ => None,
    };
    let name = match ingredient {
        Some(ingredient) => readers::name(&item.of.value, ingredient, market),
        None => item.of.value.clone(),
    };
    let detail =
        ingredient.and_then(|ingredient| on_the_pack(order.inputs.recipe, item, ingredient));
    let same = |one: &Wanted| match (&one.ingredient, ingredient) {
        // Two recipes may mean different packs by one name; two names may mean one thing.
        (Some(mine), Some(other)) => {
            mine.key == other.key && mine.composition == other.composition && one.detail == detail
        }
        _ => one.name == name,
    };
    let place = all.iter().position(same).unwrap_or_else(|| {
        all.push(Wanted {
            ingredient: ingredient.cloned(),
            name,
            detail,
            mass: Mass::ZERO,
            count: None,
            goes: Vec::new(),
            market,
            counted: Vec::new(),
            weighed: Mass::ZERO,
            shares: Vec::new(),
            said: Vec::new(),
        });
        all.len() - 1
    });
    let Some(one) = all.get_mut(place) else {
        return;
    };
    let mass = resolved.mass.map(|mass| mass * times);
    one.mass += mass.unwrap_or(Mass::ZERO);
    let title = &order.inputs.recipe.title.value;
    match one.shares.iter_mut().find(|(other, _)| other == title) {
        Some((_, share)) => *share += mass.unwrap_or(Mass::ZERO),
        None => one.shares.push((title.clone(), mass.unwrap_or(Mass::ZERO))),
    }
    match item.take.as_ref().map(|take| &take.value) {
        Some(Amount::Count {
            count,
            size: Some(size),
        }) => match one.counted.iter_mut().find(|(other, _)| other == size) {
            Some((_, sum)) => *sum += count * times,
            None => one.counted.push((size.clone(), count * times)),
        },
        Some(amount) if mass.is_none() => one.said.push(say::amount(amount)),
        _ => one.weighed += mass.unwrap_or(Mass::ZERO),
    }
}

/// What the recipe asks of the pack: the flour's protein.
fn on_the_pack(recipe: &Recipe, item: &Item, ingredient: &Ingredient) -> Option<String> {
    if ingredient.role != Role::Flour {
        return None;
    }
    let entry = recipe
        .pantry
        .iter()
        .find(|entry| entry.name.value == item.of.value)?;
    let protein: Fraction = entry.protein.as_ref()?.value;
    Some(format!("protein {}", say::percent(protein)))
}

/// Pieces to buy of what is counted, whole ones: eggs always, also when they are taken by weight.
fn counted(one: &Wanted) -> Option<(f64, String)> {
    let ingredient = one.ingredient.as_ref()?;
    let mut sizes = one.counted.clone();
    if ingredient.role == Role::Egg && one.weighed > Mass::ZERO {
        let (size, each, _) = ingredient
            .by_count
            .iter()
            .find(|(size, ..)| size == "large")?;
        let more = one.weighed / *each;
        match sizes.iter_mut().find(|(other, _)| other == size) {
            Some((_, sum)) => *sum += more,
            None => sizes.push((size.clone(), more)),
        }
    }
    // Where the rest is weighed, so many sticks would be too few of them.
    let all = ingredient.role == Role::Egg || one.weighed <= Mass::ZERO;
    if sizes.is_empty() || !all {
        return None;
    }
    let mut total = 0.0;
    let mut texts = Vec::new();
    for (size, count) in sizes {
        let whole = (count - 1e-9).ceil();
        total += whole;
        let each = ingredient
            .by_count
            .iter()
            .find(|(other, ..)| *other == size);
        let amount = Amount::Count {
            count: whole,
            size: Some(size),
        };
        let mass = each.map(|(_, each, _)| *each * whole);
        let here = readers::measure(&amount, ingredient, mass, one.market);
        texts.push(here.map_or_else(|| say::amount(&amount), |(text, _)| text));
    }
    Some((total, texts.join(" + ")))
}

/// The pack that everybody sells alike: a packet of dry yeast. Sticks of butter only in the United
/// States, and only for the author's own print or for its readers.
pub(super) fn usual_pack(one: &Wanted) -> Option<Pack> {
    let ingredient = one.ingredient.as_ref()?;
    if !one.counted.is_empty() {
        return None;
    }
    let unit = match (ingredient.role, one.market) {
        (Role::Yeast(_), _) => "packet",
        (Role::Fat, Some(Market::UnitedStates)) => "stick",
        _ => return None,
    };
    let (_, holds, origin) = ingredient.by_count.iter().find(|(size, ..)| size == unit)?;
    Some(Pack {
        key: ingredient.key.clone(),
        holds: *holds,
        said: say::mass(*holds),
        pieces: None,
        word: Some(unit),
        origin: origin.clone(),
    })
}

/// Paper moulds, baking paper, foil, film: what the steps use up.
pub(super) fn not_food(orders: &[Order]) -> Vec<ShoppingLine> {
    let mut lines: Vec<ShoppingLine> = Vec::new();
    for order in orders {
        let recipe = order.inputs.recipe;
        for product in &recipe.products {
            let paper = product
                .tin
                .as_ref()
                .filter(|tin| tin.material.value == Material::Paper);
            if let Some(tin) = paper {
                let name = readers::vessel(&tin.name.value, order.inputs.market);
                let name = format!("{name}, {}", say::tin_size(&tin.size.value));
                let pieces = (f64::from(product.count.value) * order.batches - 1e-9).ceil();
                lines.push(plain(name, Some(moulds(&product.name.value, pieces))));
            }
        }
        for name in used_up(recipe) {
            if !lines.iter().any(|line| line.name == name) {
                lines.push(plain(name.to_owned(), None));
            }
        }
    }
    lines
}

fn moulds(product: &str, pieces: f64) -> Figure {
    figure(
        format!("shopping.mould.{product}"),
        pieces,
        "1",
        numerics::decimal::fixed(pieces, 0),
        Origin::new("one for each piece", Had::Derived),
    )
}

const fn plain(name: String, count: Option<Figure>) -> ShoppingLine {
    ShoppingLine {
        need: None,
        count,
        name,
        detail: None,
        packs: None,
        left: None,
        goes: Vec::new(),
    }
}

fn used_up(recipe: &Recipe) -> Vec<&'static str> {
    let stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    let steps: Vec<_> = stages
        .chain(recipe.products.iter().flat_map(|product| &product.steps))
        .collect();
    let says = |word: &str| {
        let step = steps
            .iter()
            .any(|step| step.text.value.to_lowercase().contains(word));
        let tin = recipe.products.iter().any(|product| {
            let tin = product.tin.as_ref();
            tin.is_some_and(|tin| tin.name.value.to_lowercase().contains(word))
        });
        step || tin
    };
    let film = steps.iter().any(|step| {
        matches!(&step.action, Action::Rest { covered: Some(with), .. } if with.value == "film")
    });
    let mut out = Vec::new();
    if says("baking paper") || says("lined") {
        out.push("baking paper");
    }
    if says("foil") {
        out.push("kitchen foil");
    }
    if film {
        out.push("film or a lid for covering");
    }
    out
}
