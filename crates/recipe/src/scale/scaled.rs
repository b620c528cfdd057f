//! A wish for another size granted: the new recipe, what is different, what is to be said.

use super::factors::{Asked, asked};
use super::figures::recount;
use super::wish::{Eggs, To, Wish};
use super::{Said, amounts, eggs, multiply, products, sentence, times};
use crate::document::model::{Action, Item, Recipe, Tool};
use crate::formula::{Formula, PartSum, Resolved, formula as add_up};
use crate::larder::{Larder, Role};
use crate::measure::write::{write_amount, write_mass, write_volume};
use crate::source::{Checked, Diagnostic, Located, code};
use numerics::decimal::{fixed, trimmed};
use numerics::quantity::Mass;

/// A recipe in another size.
#[derive(Clone, Debug, PartialEq)]
pub struct Scaled {
    /// The whole recipe as it is now; places in it are those of the text before.
    pub recipe: Recipe,
    /// All dough that is cut, as a multiple of what it was.
    pub factor: f64,
    /// What is different, in the order of the work.
    pub changes: Vec<Change>,
    /// What the cook must know, in plain sentences.
    pub said: Vec<String>,
    /// Parts of the flour before and after; whole eggs and rounding move them a little.
    pub drift: Vec<Drift>,
    /// Words for the title: "half the dough", "12 buns", "a 950 mL tin".
    pub title: String,
}

/// One thing that is different.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// What it is, and where: "sponge: milk".
    pub what: String,
    /// As it was; empty when it is new.
    pub before: String,
    /// As it is; empty when it is gone.
    pub after: String,
}

/// A part of the flour before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct Drift {
    /// Of what: "water in all".
    pub name: &'static str,
    /// Before, as a share of the flour: 0.652.
    pub before: f64,
    /// After.
    pub after: f64,
}

/// Below this much flour the hook of a household mixer may not catch the dough (common practice).
const HOOK_CATCHES: Mass = Mass::from_grams(400.0);

/// From this much on a dough keeps its own warmth while it rises (common practice).
const KEEPS_WARM: Mass = Mass::from_grams(2000.0);

/// A recipe brought to the size of a wish; none when the wish cannot be granted, which is said.
///
/// Percentages stay but for what a scale shows and for whole eggs. Amounts, parts in sentences,
/// pieces, tins, minutes that depend on size and counts in the author's words follow; rising
/// times, mixing times and the oven stay. Test bakes are left out: they were of another size.
pub fn scale(
    recipe: &Recipe,
    formula: &Formula,
    larder: &Larder,
    wish: &Wish,
) -> Checked<Option<Scaled>> {
    let asked = match asked(recipe, formula, wish) {
        Ok(asked) => asked,
        Err(why) => {
            return Checked {
                output: None,
                diagnostics: vec![*why],
            };
        }
    };
    let mut said = Said::default();
    let mut new = multiply(recipe, &asked.factors);
    items(&mut new, recipe, formula, &mut said);
    let whole = eggs::settle(&mut new, formula, larder, wish.eggs);
    said.words.extend(whole.words);
    said.findings.extend(whole.findings);
    sentence::follow(&mut new, recipe, formula, &asked.factors);
    let thickness = products::settle(&mut new, recipe, &asked, &mut said);
    let ratios = &asked.factors.products;
    times::settle(&mut new, ratios, &thickness, &mut said);
    times::words(&mut new, recipe, ratios, &asked.factors.stages, &mut said);
    counts(&mut new, &asked);
    serves(&mut new, asked.factors.dough);
    new.tested.clear();
    let weighed = add_up(&new, larder).output;
    products::fit(&mut new, &weighed);
    let sums = add_up(&new, larder).output;
    let mut all = item_changes(recipe, &new);
    all.append(&mut said.changes);
    said.changes = all;
    let drift = drift(formula, &sums);
    advice(recipe, formula, &new, &sums, &asked, &drift, &mut said);
    let mut diagnostics = said.findings;
    diagnostics.sort_by_key(|one| one.span.map_or(0, |span| span.start));
    Checked {
        output: Some(Scaled {
            recipe: new,
            factor: asked.factors.dough,
            changes: said.changes,
            said: said.words,
            drift,
            title: title(recipe, wish),
        }),
        diagnostics,
    }
}

/// Makes every multiplied amount measurable.
fn items(new: &mut Recipe, before: &Recipe, formula: &Formula, said: &mut Said) {
    for (place, stage) in new.stages.iter_mut().enumerate() {
        let resolved = formula.stages.get(place).map_or(&[][..], |sum| &sum.items);
        for (number, item) in stage.items.iter_mut().enumerate() {
            amounts::settle(item, resolved.get(number), &mut said.words);
        }
        if let Some(evaporates) = &mut stage.evaporates {
            evaporates.value = amounts::weighable(evaporates.value);
            let was = before.stages[place]
                .evaporates
                .as_ref()
                .map(|was| was.value);
            if was.is_some_and(|was| was != evaporates.value) {
                said.words.push(format!(
                    "What boils off the {} is taken in proportion, {}; a pan that is fuller or \
                     emptier loses otherwise, so weigh it and make up the difference with water.",
                    stage.name.value,
                    write_mass(evaporates.value)
                ));
            }
        }
    }
    for product in &mut new.products {
        for item in &mut product.with {
            amounts::settle(item, None, &mut said.words);
        }
    }
    for (item, resolved) in new.besides.iter_mut().zip(&formula.besides) {
        amounts::settle(item, Some(resolved), &mut said.words);
    }
}

/// Counts of pieces that the author's words name.
fn counts(new: &mut Recipe, asked: &Asked) {
    let names: Vec<String> = new.products.iter().map(|p| p.name.value.clone()).collect();
    for (name, ratio) in names.iter().zip(&asked.factors.products) {
        if ratio.count == ratio.was {
            continue;
        }
        let follow = |text: &mut Located<String>| {
            if let Some(new) = recount(&text.value, name, ratio.was, ratio.count) {
                text.value = new;
            }
        };
        let texts = [&mut new.headnote, &mut new.make_ahead, &mut new.storage];
        texts.into_iter().flatten().for_each(follow);
        new.notes.iter_mut().for_each(follow);
        let stages = new.stages.iter_mut().flat_map(|stage| &mut stage.steps);
        let products = new
            .products
            .iter_mut()
            .flat_map(|product| &mut product.steps);
        stages
            .chain(products)
            .for_each(|step| follow(&mut step.text));
    }
}

/// For how many it is, in proportion.
fn serves(new: &mut Recipe, factor: f64) {
    let Some(serves) = &mut new.serves else {
        return;
    };
    let mut ends: Vec<String> = Vec::new();
    let mut out = String::new();
    let mut rest = serves.value.as_str();
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit()) {
        let length = rest[start..]
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(rest.len() - start);
        let number: f64 = rest[start..start + length].parse().unwrap_or(0.0);
        let people = trimmed((number * factor).round().max(1.0), 0);
        let dash = ["-", "–"].contains(&rest[..start].trim());
        if dash && ends.last() == Some(&people) {
            // "1-1" is 1.
        } else {
            out.push_str(&rest[..start]);
            out.push_str(&people);
        }
        ends.push(people);
        rest = &rest[start + length..];
    }
    out.push_str(rest);
    serves.value = out;
}

/// What is different in the lists.
fn item_changes(before: &Recipe, new: &Recipe) -> Vec<Change> {
    let amount = |item: &Item| {
        let written = item.take.as_ref().or(item.each.as_ref());
        written
            .map(|amount| write_amount(&amount.value))
            .unwrap_or_default()
    };
    let mut changes = Vec::new();
    let mut compare = |place: &str, was: &[Item], now: &[Item]| {
        for (number, item) in now.iter().enumerate() {
            let same = |other: &&Item| other.called() == item.called() && other.on == item.on;
            let old = was
                .get(number)
                .filter(same)
                .or_else(|| was.iter().find(same));
            let (before, after) = (old.map(amount).unwrap_or_default(), amount(item));
            if before != after {
                changes.push(Change {
                    what: format!("{place}: {}", item.called()),
                    before,
                    after,
                });
            }
        }
    };
    for (was, now) in before.stages.iter().zip(&new.stages) {
        compare(&now.name.value, &was.items, &now.items);
    }
    for (was, now) in before.products.iter().zip(&new.products) {
        compare(&now.name.value, &was.with, &now.with);
    }
    compare("besides", &before.besides, &new.besides);
    changes
}

/// Egg as weighed in the dough, as a share of the flour.
fn egg_of_flour(formula: &Formula) -> f64 {
    let stages = formula.stages.iter().filter(|stage| stage.in_dough);
    let items = stages.flat_map(|stage| &stage.items);
    let eggs = items.filter(
        |item| matches!(&item.what, Resolved::Ingredient(found) if found.role == Role::Egg),
    );
    eggs.filter_map(|item| item.of_flour)
        .map(numerics::quantity::Fraction::si)
        .sum()
}

fn drift(before: &Formula, after: &Formula) -> Vec<Drift> {
    let of = |name: &'static str, mass: fn(&PartSum) -> Mass| {
        let share = |formula: &Formula| {
            let sum = &formula.dough;
            sum.of_flour(mass(sum))
                .map_or(0.0, numerics::quantity::Fraction::si)
        };
        Drift {
            name,
            before: share(before),
            after: share(after),
        }
    };
    vec![
        of("water in all", |sum| sum.water),
        of("fat", |sum| sum.fat),
        of("sugar", |sum| sum.sugar),
        of("salt", |sum| sum.salt),
        of("yeast as fresh", |sum| sum.yeast_fresh),
        Drift {
            name: "egg",
            before: egg_of_flour(before),
            after: egg_of_flour(after),
        },
    ]
}

/// What a cook must know of the whole.
fn advice(
    before: &Recipe,
    first: &Formula,
    new: &Recipe,
    sums: &Formula,
    asked: &Asked,
    drift: &[Drift],
    said: &mut Said,
) {
    let moved: Vec<String> = drift
        .iter()
        .filter(|one| (one.after - one.before).abs() >= 0.002)
        .map(|one| {
            let share = |value: f64| fixed(value * 100.0, 1);
            format!(
                "{} {} % to {} %",
                one.name,
                share(one.before),
                share(one.after)
            )
        })
        .collect();
    if !moved.is_empty() {
        said.words.push(format!(
            "Whole eggs and rounded grams move these parts of the flour: {}.",
            moved.join(", ")
        ));
    }
    let by_mixer = new
        .stages
        .iter()
        .flat_map(|stage| &stage.steps)
        .any(|step| matches!(&step.action, Action::Mix { by, .. } if by.value == Tool::Mixer));
    let place = before.title.span;
    if by_mixer && first.dough.flour >= HOOK_CATCHES && sums.dough.flour < HOOK_CATCHES {
        let message = format!(
            "With {} g of flour the hook of a mixer may turn without catching the dough.",
            trimmed(sums.dough.flour.grams(), 0)
        );
        said.findings.push(
            Diagnostic::at(code::BATCH_BEHAVES_OTHERWISE, place, message)
                .hint("Scrape the bowl down often, or knead by hand."),
        );
    }
    if first.dough.mass <= KEEPS_WARM && sums.dough.mass > KEEPS_WARM {
        let message = format!(
            "{} g of dough keep their own warmth while they rise and are ready sooner, by about a \
             tenth of the time.",
            trimmed(sums.dough.mass.grams(), 0)
        );
        said.findings.push(
            Diagnostic::at(code::BATCH_BEHAVES_OTHERWISE, place, message)
                .hint("Go by the dough, and divide it between two bowls if the room is warm."),
        );
    }
    let heated = before
        .stages
        .iter()
        .zip(&asked.factors.stages)
        .find(|(stage, factor)| {
            let heats =
                |step: &crate::document::model::Step| matches!(step.action, Action::Heat { .. });
            !(0.8..=1.25).contains(*factor) && stage.steps.iter().any(heats)
        });
    if let Some((stage, factor)) = heated {
        let word = if *factor < 1.0 { "sooner" } else { "later" };
        said.words.push(format!(
            "The {} comes to its temperature {word} than the recipe says: go by the thermometer.",
            stage.name.value
        ));
    }
    said.words.push(
        "Rising and mixing times and the oven stay as they were; the test bakes were of the first \
         size and are left out."
            .to_owned(),
    );
}

/// Words for the title.
fn title(recipe: &Recipe, wish: &Wish) -> String {
    let only = recipe
        .products
        .first()
        .map_or("pieces", |product| &product.name.value);
    match &wish.to {
        To::Times(factor) if (factor - 0.5).abs() < 1e-9 => "half the dough".to_owned(),
        To::Times(factor) => format!("{} times the dough", trimmed(*factor, 3)),
        To::Flour(flour) => format!("{} of flour", mass_in_words(*flour)),
        To::Dough(dough) => format!("{} of dough", mass_in_words(*dough)),
        To::Eggs(1) => "1 egg".to_owned(),
        To::Eggs(count) => format!("{count} eggs"),
        To::Pieces { product, count } => {
            let several = recipe
                .products
                .iter()
                .find(|product| product.count.value > 1);
            let found = several.map_or(only, |product| &product.name.value);
            pieces(*count, product.as_deref().unwrap_or(found))
        }
        To::Tin { tin, .. } => tin.volume().map_or_else(String::new, |(volume, _)| {
            let ml = numerics::quantity::Volume::from_millilitres(volume.millilitres().round());
            format!("a {} tin", write_volume(ml))
        }),
    }
}

/// "6 loaves", "12 buns", "1 braid".
fn pieces(count: u32, name: &str) -> String {
    let many = count > 1 && !name.ends_with('s');
    match name.strip_suffix("loaf").filter(|_| many) {
        Some(kind) => format!("{count} {kind}loaves"),
        None => format!("{count} {name}{}", if many { "s" } else { "" }),
    }
}

/// "500 g", "1 kg".
fn mass_in_words(mass: Mass) -> String {
    if mass >= Mass::from_grams(1000.0) {
        format!("{} kg", trimmed(mass.si(), 3))
    } else {
        write_mass(mass)
    }
}

impl Eggs {
    /// Every way.
    pub const ALL: [Self; 2] = [Self::Whole, Self::Weighed];
}
