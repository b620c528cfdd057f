//! What to buy for one or several recipes times batches: each thing once, in grams and in packs.

mod gather;
mod sizes;

use super::model::Figure;
use super::{allergens, figure, say};
use crate::Inputs;
use gather::{Wanted, gather};
use numerics::decimal::{fixed, trimmed};
use numerics::quantity::Mass;
use recipe::document::model::{Amount, PriceFile};
use recipe::formula::Resolved;
use recipe::larder::{Found, Ingredient, Role};
use recipe::provenance::{Had, Origin};
pub use sizes::common;

/// A recipe and how many times it is made.
#[derive(Clone, Copy)]
pub struct Order<'a> {
    /// The recipe with its sums.
    pub inputs: Inputs<'a>,
    /// How many batches: 1, 2, ½.
    pub batches: f64,
    /// Stages that are made besides, by their places in the recipe, and how many times.
    pub again: &'a [(usize, f64)],
}

impl Order<'_> {
    /// How many times what a stage takes is wanted; of none, of what stands beside the stages.
    fn times(&self, stage: Option<usize>) -> f64 {
        let again = self.again.iter().filter(|(of, _)| Some(*of) == stage);
        self.batches + again.map(|(_, times)| times).sum::<f64>()
    }
}

/// A size in which something is sold, as the cook knows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// Key of the ingredient.
    pub key: String,
    /// What it holds, the edible part.
    pub holds: Mass,
    /// As it is said: "1 kg", "12 large".
    pub said: String,
    /// How many pieces it holds, and of what size, when it is counted: (12, "large").
    pub pieces: Option<(f64, String)>,
    /// Its own word when it has one: "packet", "stick".
    pub word: Option<&'static str>,
    /// Who says so.
    pub origin: Origin,
}

/// A shopping list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shopping {
    /// "Same-day braid and tied buns, 2 batches: 2 braids and 20 buns".
    pub of: Vec<String>,
    /// Groups as they are found in a shop, empty ones left out.
    pub groups: Vec<ShoppingGroup>,
    /// "Contains ..." over all recipes of the list.
    pub contains: String,
    /// What is said of the whole list.
    pub notes: Vec<String>,
}

/// Things that stand together.
#[derive(Clone, Debug, PartialEq)]
pub struct ShoppingGroup {
    /// "Dry goods".
    pub heading: String,
    /// Lines.
    pub lines: Vec<ShoppingLine>,
}

/// One thing to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct ShoppingLine {
    /// "1230 g"; none for what has no weight.
    pub need: Option<Figure>,
    /// "8 large", for what is counted.
    pub count: Option<Figure>,
    /// "all-purpose flour".
    pub name: String,
    /// What to look for on the pack: "protein 11 %".
    pub detail: Option<String>,
    /// "2 packs of 1 kg"; none when no pack is known.
    pub packs: Option<Figure>,
    /// What is left over of them: "770 g".
    pub left: Option<Figure>,
    /// Where it goes when several recipes share the list: "Hearth loaf 565 g".
    pub goes: Vec<String>,
}

/// Groups of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Shelf {
    Dry,
    Cold,
    Other,
    Cupboard,
    Tap,
    NotFood,
}

impl Shelf {
    const ALL: [Self; 6] = [
        Self::Dry,
        Self::Cold,
        Self::Other,
        Self::Cupboard,
        Self::Tap,
        Self::NotFood,
    ];

    const fn heading(self) -> &'static str {
        match self {
            Self::Dry => "Dry goods",
            Self::Cold => "Cold shelf",
            Self::Other => "Fruit, nuts and the rest",
            Self::Cupboard => "Look in the cupboard first",
            Self::Tap => "From the tap",
            Self::NotFood => "Besides food",
        }
    }
}

/// Salt, sugar and spice up to so much are looked for in the cupboard first (common practice).
const CUPBOARD: Mass = Mass::from_grams(250.0);

/// The list of one recipe, one batch, no packs known but those that everybody sells alike.
pub fn one(inputs: &Inputs) -> Shopping {
    let order = Order {
        inputs: *inputs,
        batches: 1.0,
        again: &[],
    };
    list(&[order], &[])
}

/// The list of several recipes. Packs come from the cook's own prices, or are of common sizes ([`common`]);
/// where both are given the cook's own are taken.
pub fn list(orders: &[Order], packs: &[Pack]) -> Shopping {
    let wanted = gather(orders);
    let mut shelves: Vec<(Shelf, Vec<ShoppingLine>)> =
        Shelf::ALL.map(|shelf| (shelf, Vec::new())).into();
    for (at, one) in wanted.iter().enumerate() {
        let place = shelf(one);
        let line = line(at, one, packs, orders.len() > 1);
        if let Some((_, lines)) = shelves.iter_mut().find(|(shelf, _)| *shelf == place) {
            lines.push(line);
        }
    }
    for line in gather::not_food(orders) {
        if let Some((_, lines)) = shelves.last_mut() {
            lines.push(line);
        }
    }
    let mut notes = vec![
        "Grams are what the recipes use, for bench, tin and top too; nothing is added for what sticks to \
         bowls."
            .to_owned(),
    ];
    let mut counted = shelves.iter().flat_map(|(_, lines)| lines);
    if counted.any(|line| matches!(&line.packs, Some(packs) if sizes::is_common(&packs.origin))) {
        notes.push(
            "Bags, boxes, packs and cartons are of sizes commonly sold (common practice); your shop may \
             have others."
                .to_owned(),
        );
    }
    let items = orders
        .iter()
        .flat_map(|order| order.inputs.formula.every_item());
    let market = orders.first().and_then(|order| order.inputs.market);
    Shopping {
        of: orders.iter().map(heading).collect(),
        groups: shelves
            .into_iter()
            .filter(|(_, lines)| !lines.is_empty())
            .map(|(shelf, lines)| ShoppingGroup {
                heading: shelf.heading().to_owned(),
                lines,
            })
            .collect(),
        contains: allergens::of_items(items, market).contains,
        notes,
    }
}

/// "Same-day braid and tied buns: 2 batches, 2 × (1 braid and 10 buns)".
fn heading(order: &Order) -> String {
    let recipe = order.inputs.recipe;
    let made = super::products::yield_line(recipe);
    let batches = batches(order.batches);
    let title = &recipe.title.value;
    match (made.is_empty(), (order.batches - 1.0).abs() < 1e-9) {
        (true, _) => format!("{title}: {batches}"),
        (false, true) => format!("{title}: {batches}, {made}"),
        (false, false) => format!("{title}: {batches} of {made}"),
    }
}

/// "1 batch", "2 batches", "½ batch".
pub fn batches(count: f64) -> String {
    let word = if count > 1.0 + 1e-9 {
        "batches"
    } else {
        "batch"
    };
    format!("{}\u{a0}{word}", recipe::measure::mixed(count))
}

fn shelf(one: &Wanted) -> Shelf {
    let Some(ingredient) = &one.ingredient else {
        return Shelf::Other;
    };
    if ingredient.role == Role::Liquid && ingredient.key.starts_with("water") {
        return Shelf::Tap;
    }
    let small = one.mass <= CUPBOARD;
    let cold = ingredient
        .allergens_eu
        .iter()
        .any(|name| name == "milk" || name.starts_with("egg"));
    match ingredient.role {
        Role::Salt | Role::Sugar | Role::Flavour if small => Shelf::Cupboard,
        Role::MilkPowder => Shelf::Dry,
        _ if cold => Shelf::Cold,
        Role::Egg | Role::Yeast(recipe::larder::YeastForm::Fresh) => Shelf::Cold,
        Role::Flour | Role::Sugar | Role::Salt | Role::Yeast(_) | Role::Fat => Shelf::Dry,
        _ => Shelf::Other,
    }
}

fn line(at: usize, one: &Wanted, packs: &[Pack], shared: bool) -> ShoppingLine {
    let place = format!("shopping.{}.{}", at + 1, one.name);
    let summed = Origin::new(
        "sum over the written items, bench, tin and top included",
        Had::Derived,
    );
    let need = (one.mass > Mass::ZERO).then(|| {
        let shown = say::mass(one.mass);
        figure(
            format!("{place}.need"),
            one.mass.si(),
            Mass::SI,
            shown,
            summed.clone(),
        )
    });
    let count = one.count.as_ref().map(|(count, said)| {
        figure(
            format!("{place}.count"),
            *count,
            "1",
            said.clone(),
            summed.clone(),
        )
    });
    let known = one.ingredient.as_ref().and_then(|ingredient| {
        let of = |usual: bool| {
            let own = packs.iter().filter(|pack| pack.key == ingredient.key);
            let own = own.filter(|pack| sizes::is_common(&pack.origin) == usual);
            // Of several sizes the one that leaves least over.
            own.cloned()
                .min_by(|a, b| bought(one.mass, a).1.order(bought(one.mass, b).1))
        };
        of(false)
            .or_else(|| gather::usual_pack(one))
            .or_else(|| of(true))
    });
    let known = known.filter(|pack| pack.holds > Mass::ZERO && one.mass > Mass::ZERO);
    let (packs, left) = match known {
        Some(pack) => {
            let (number, over) = bought(one.mass, &pack);
            let said = match pack.word {
                Some(word) => {
                    let plural = match word {
                        _ if number < 1.5 => "",
                        "box" => "es",
                        _ => "s",
                    };
                    format!("{}\u{a0}{word}{plural} of {}", fixed(number, 0), pack.said)
                }
                None => format!("{}\u{a0}×\u{a0}{}", fixed(number, 0), pack.said),
            };
            let by_piece = one.count.as_ref().zip(pack.pieces.as_ref());
            let over_said = match by_piece {
                // What is counted is left over by the piece.
                Some(((wanted, _), (holds, size))) => {
                    let rest = (number * holds - wanted).max(0.0);
                    format!("{}\u{a0}{size}", fixed(rest, 0))
                }
                None => say::mass(over),
            };
            let some_left = over.grams() >= 0.5 && !over_said.starts_with("0\u{a0}");
            let number = figure(
                format!("{place}.packs"),
                number,
                "1",
                said,
                pack.origin.clone(),
            );
            let left = figure(
                format!("{place}.left"),
                over.si(),
                Mass::SI,
                over_said,
                summed,
            );
            (Some(number), Some(left).filter(|_| some_left))
        }
        None => (None, None),
    };
    ShoppingLine {
        need,
        count,
        name: one.name.clone(),
        detail: one.detail.clone(),
        packs,
        left,
        goes: if shared { one.goes.clone() } else { Vec::new() },
    }
}

/// How many packs, and what is left over.
fn bought(need: Mass, pack: &Pack) -> (f64, Mass) {
    if pack.holds <= Mass::ZERO {
        return (0.0, Mass::ZERO);
    }
    // A hair more than whole packs, from halves and thirds of batches, is no further pack.
    let number = (need / pack.holds - 1e-9).ceil().max(1.0);
    (number, pack.holds * number - need)
}

impl Shopping {
    /// Every figure of the list.
    pub fn figures(&self) -> impl Iterator<Item = &Figure> {
        self.groups
            .iter()
            .flat_map(|group| &group.lines)
            .flat_map(|line| {
                [&line.need, &line.count, &line.packs, &line.left]
                    .into_iter()
                    .flatten()
            })
    }
}

/// The packs that the cook's prices name of what a recipe uses.
pub fn packs(order: &Order, file: &PriceFile) -> Vec<Pack> {
    let larder = order.inputs.larder;
    let row = |ingredient: &Ingredient| larder.statement(ingredient).map(|words| words.row.clone());
    let mut packs = Vec::new();
    for entry in &file.prices {
        let Found::One(sold) = larder.find(&entry.of.value) else {
            continue;
        };
        let Ok((holds, _)) = larder.weigh(sold, &entry.amount.value) else {
            continue;
        };
        let (said, pieces) = match &entry.amount.value {
            Amount::Mass(mass) => (pack_said(*mass), None),
            amount @ Amount::Count {
                count,
                size: Some(size),
            } if sold.role == Role::Egg => (say::amount(amount), Some((*count, size.clone()))),
            Amount::Count {
                count,
                size: Some(size),
            } => {
                let plural = if *count > 1.0 && !size.ends_with('s') {
                    "s"
                } else {
                    ""
                };
                (format!("{}\u{a0}{size}{plural}", trimmed(*count, 2)), None)
            }
            amount => (say::amount(amount), None),
        };
        let used = order.inputs.formula.every_item().filter_map(|item| {
            let Resolved::Ingredient(used) = &item.what else {
                return None;
            };
            // A flour of the recipe's own is sold as the flour that it is like; of other things the
            // kin (pearl sugar, another yeast) come in packs of their own.
            let kin = used.role == Role::Flour && row(used).is_some() && row(used) == row(sold);
            let same = used.key == sold.key || kin;
            same.then_some(used.key.clone())
        });
        let mut keys: Vec<_> = used.collect();
        keys.sort_unstable();
        keys.dedup();
        packs.extend(keys.into_iter().map(|key| Pack {
            key,
            holds,
            said: said.clone(),
            pieces: pieces.clone(),
            word: None,
            origin: Origin::new("the cook's own prices", Had::Written),
        }));
    }
    packs
}

/// A pack's size as it is said: "1 kg", "500 g", "2.5 kg".
fn pack_said(holds: Mass) -> String {
    let grams = holds.grams();
    if grams >= 1000.0 - 1e-9 {
        return format!("{}\u{a0}kg", trimmed(grams / 1000.0, 3));
    }
    say::mass(holds)
}
