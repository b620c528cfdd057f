//! Whole eggs where the new size asks for part of one, and the water that keeps the dough as soft.
//!
//! Relation: what an egg more or less brings of water, the liquid gives up or makes good; a gram of
//! egg carries 0.76 g of water (USDA SR28, 01123, read; the larder's figure is used).
//! What is not made good is said: the egg's fat and protein.

use super::amounts::{capital, in_words, ingredient, is_whole, mass_of, weighable};
use super::wish::Eggs;
use crate::document::model::{Action, Amount, Item, Recipe, Stage};
use crate::document::placeholder::{Part, Piece, parse_sentence};
use crate::formula::{Formula, ResolvedItem};
use crate::larder::{Found, Ingredient, Larder, Role};
use crate::source::{Diagnostic, Located, code};
use numerics::decimal::trimmed;
use numerics::quantity::{Fraction, Mass};

/// Water in a gram of egg where the larder has no figure of its own.
const WATER_OF_EGG: f64 = 0.76;

/// A liquid of its own stage gives up no more than this share of itself, one of another stage no
/// more than that: a preferment is soon too stiff. Common practice.
const GIVES_UP: f64 = 0.5;
const GIVES_UP_ELSEWHERE: f64 = 0.1;

/// A whole number of eggs may be off by this share of the dough's egg; beyond it the crumb is
/// another bread's, and they are beaten and weighed unless whole ones are wished for. Our choice:
/// five eggs halved stay whole (2½ become 3, a fifth more), three do not (1½ would be 1 or 2, a
/// third off).
const OFF_BY: f64 = 0.25;

/// What is to be said of eggs.
#[derive(Default)]
pub struct Said {
    /// To the cook.
    pub words: Vec<String>,
    /// With a name.
    pub findings: Vec<Diagnostic>,
}

/// Makes the eggs of every stage whole, or grams. `formula` is that of the recipe before.
pub fn settle(recipe: &mut Recipe, formula: &Formula, larder: &Larder, how: Eggs) -> Said {
    let mut said = Said::default();
    let mut beside = Vec::new();
    for stage in 0..recipe.stages.len() {
        // What is added on the way stands behind what was there before.
        for place in 0..formula.stages.get(stage).map_or(0, |sum| sum.items.len()) {
            let Some(egg) = egg_at(recipe, formula, stage, place) else {
                continue;
            };
            let listed = recipe.stages[stage].items.len();
            let made = match how {
                Eggs::Usual => whole(recipe, formula, larder, &egg, OFF_BY),
                Eggs::Whole => whole(recipe, formula, larder, &egg, f64::INFINITY),
                Eggs::Weighed => None,
            };
            if recipe.stages[stage].items.len() > listed {
                beside.push((stage, listed, place + 1));
            }
            if let Some(words) = made {
                let item = &recipe.stages[stage].items[place];
                let finding = Diagnostic::at(code::EGGS_MADE_WHOLE, item.span, words.clone())
                    .hint(format!(
                        "Beaten and weighed, {} g of egg, nothing else would change.",
                        trimmed(weighable(egg.one * egg.count).grams(), 1)
                    ))
                    .hint("Or wish for a number of eggs, and the rest is made to fit them.")
                    .because(format!(
                        "{} g of egg, {} % of it water",
                        trimmed((egg.one * egg.count).grams(), 1),
                        trimmed(egg.water * 100.0, 0)
                    ));
                said.findings.push(finding);
                said.words.push(words);
            } else {
                let item = &mut recipe.stages[stage].items[place];
                said.words.push(weighed(item, &egg, how == Eggs::Usual));
            }
        }
    }
    // What was added stands in the list beside its eggs; the last first, so that places hold.
    for (stage, from, to) in beside.into_iter().rev() {
        let item = recipe.stages[stage].items.remove(from);
        recipe.stages[stage].items.insert(to, item);
    }
    said
}

/// An egg item whose multiplied count is not whole.
struct Egg {
    stage: usize,
    place: usize,
    name: String,
    size: Option<String>,
    count: f64,
    one: Mass,
    water: f64,
}

fn egg_at(recipe: &Recipe, formula: &Formula, stage: usize, place: usize) -> Option<Egg> {
    let resolved = formula.stages[stage].items.get(place);
    let found = ingredient(resolved)?;
    let item = recipe.stages[stage].items.get(place)?;
    let Amount::Count { count, size } = &item.take.as_ref()?.value else {
        return None;
    };
    if found.role != Role::Egg || is_whole(*count) {
        return None;
    }
    let single = Amount::Count {
        count: 1.0,
        size: size.clone(),
    };
    Some(Egg {
        stage,
        place,
        name: item.called().to_owned(),
        size: size.clone(),
        count: *count,
        one: mass_of(found, &single)?,
        water: found.composition.water.map_or(WATER_OF_EGG, Fraction::si),
    })
}

/// Beaten and weighed; `far` when that is because no whole number comes near.
fn weighed(item: &mut Item, egg: &Egg, far: bool) -> String {
    let mass = weighable(egg.one * egg.count);
    if let Some(take) = &mut item.take {
        take.value = Amount::Mass(mass);
    }
    if item.state.is_none() {
        item.state = Some(Located::new("beaten".to_owned(), item.span));
    }
    format!(
        "{} would be {}{}: beat {}, weigh out {} g; what is left does for brushing.",
        capital(&egg.name),
        in_words(egg.count, egg.size.as_deref()),
        if far { ", too far from whole ones" } else { "" },
        in_words(egg.count.ceil(), egg.size.as_deref()),
        trimmed(mass.grams(), 2)
    )
}

/// A whole number of eggs with water made good, off by no more than a share of the egg; none when
/// that cannot be done well.
fn whole(
    recipe: &mut Recipe,
    formula: &Formula,
    larder: &Larder,
    egg: &Egg,
    off_by: f64,
) -> Option<String> {
    let (down, up) = (egg.count.floor(), egg.count.ceil());
    let tie = (egg.count - down - 0.5).abs() < 1e-6;
    let own = |recipe: &Recipe, count: f64| {
        let change = -egg.water * (count - egg.count) * egg.one.grams();
        let places = liquids(&recipe.stages[egg.stage], &formula.stages[egg.stage].items);
        best(recipe, egg.stage, &places, change, GIVES_UP)
    };
    let count = match tie {
        true if own(recipe, up).is_some() => up,
        true => down,
        false => egg.count.round(),
    };
    if count < 1.0 || (count / egg.count - 1.0).abs() > off_by {
        return None;
    }
    let water = -egg.water * (count - egg.count) * egg.one.grams();
    let made_good = own(recipe, count)
        .map(|(liquid, change)| give(recipe, egg.stage, liquid, change))
        .or_else(|| {
            (water > 0.0)
                .then(|| add(recipe, formula, larder, egg, water))
                .flatten()
        })
        .or_else(|| elsewhere(recipe, formula, egg, water))?;
    if let Some(take) = &mut recipe.stages[egg.stage].items[egg.place].take {
        take.value = Amount::Count {
            count,
            size: egg.size.clone(),
        };
    }
    Some(format!(
        "{}: {} instead of {}; {made_good}.",
        capital(&egg.name),
        in_words(count, egg.size.as_deref()),
        in_words(egg.count, None)
    ))
}

/// Places of a stage's liquids that are weighed and can give or take, with their share of water.
fn liquids(stage: &Stage, resolved: &[ResolvedItem]) -> Vec<(usize, f64)> {
    let wakes = |name: &str| {
        stage
            .steps
            .iter()
            .any(|step| matches!(&step.action, Action::Wake { liquid, .. } if liquid.value == name))
    };
    let by_parts = |name: &str| {
        let uses = stage.steps.iter().flat_map(|step| {
            parse_sentence(&step.text.value, 0)
                .0
                .into_iter()
                .filter_map(|piece| match piece.value {
                    Piece::Use { item, part } if item == name => Some(part),
                    _ => None,
                })
        });
        let parts: Vec<Part> = uses.collect();
        !parts.is_empty()
            && !parts
                .iter()
                .any(|part| matches!(part, Part::Whole | Part::Rest))
    };
    let items = stage.items.iter().zip(resolved).enumerate();
    items
        .filter_map(|(place, (item, resolved))| {
            let found = ingredient(Some(resolved))?;
            let weighed = matches!(item.take.as_ref()?.value, Amount::Mass(_));
            let fits = found.role == Role::Liquid && weighed;
            let free = !wakes(item.called()) && !by_parts(item.called());
            (fits && free).then(|| (place, found.composition.water.map_or(1.0, Fraction::si)))
        })
        .collect()
}

/// The heaviest liquid that bears the change of water, and its own change in grams.
fn best(
    recipe: &Recipe,
    stage: usize,
    places: &[(usize, f64)],
    water_g: f64,
    most: f64,
) -> Option<(usize, f64)> {
    places
        .iter()
        .filter(|(_, share)| *share > 0.0)
        .map(|(place, share)| (*place, grams_at(recipe, stage, *place), water_g / share))
        .filter(|(_, grams, change)| change.abs() <= grams * most)
        .max_by(|one, other| one.1.total_cmp(&other.1))
        .map(|(place, _, change)| (place, change))
}

fn grams_at(recipe: &Recipe, stage: usize, place: usize) -> f64 {
    match recipe.stages[stage].items[place]
        .take
        .as_ref()
        .map(|take| &take.value)
    {
        Some(Amount::Mass(mass)) => mass.grams(),
        _ => 0.0,
    }
}

/// Gives a liquid more, or takes from it.
fn give(recipe: &mut Recipe, stage: usize, place: usize, change: f64) -> String {
    let grams = weighable(Mass::from_grams(grams_at(recipe, stage, place) + change));
    let of_stage = recipe.stages[stage].name.value.clone();
    let item = &mut recipe.stages[stage].items[place];
    if let Some(take) = &mut item.take {
        take.value = Amount::Mass(grams);
    }
    let (amount, word) = (
        trimmed(change.abs(), 1),
        if change < 0.0 { "less" } else { "more" },
    );
    format!(
        "{amount} g {word} {} in the {of_stage} keeps the water",
        item.called()
    )
}

/// Takes the water from another stage's liquid, when it hardly notices.
fn elsewhere(recipe: &mut Recipe, formula: &Formula, egg: &Egg, water: f64) -> Option<String> {
    let (stage, place, change) = (0..recipe.stages.len())
        .filter(|stage| *stage != egg.stage && formula.stages[*stage].in_dough)
        .filter_map(|stage| {
            let places = liquids(&recipe.stages[stage], &formula.stages[stage].items);
            best(recipe, stage, &places, water, GIVES_UP_ELSEWHERE)
                .map(|(place, change)| (stage, place, change))
        })
        .max_by(|one, other| {
            grams_at(recipe, one.0, one.1).total_cmp(&grams_at(recipe, other.0, other.1))
        })?;
    Some(give(recipe, stage, place, change))
}

/// Adds the recipe's main liquid beside the eggs, in list and sentence.
fn add(
    recipe: &mut Recipe,
    formula: &Formula,
    larder: &Larder,
    egg: &Egg,
    water: f64,
) -> Option<String> {
    let (of, found) = main_liquid(recipe, formula, larder)?;
    let share = found.composition.water.map_or(1.0, Fraction::si);
    let mass = weighable(Mass::from_grams(water / share.max(0.5)));
    let stage = &mut recipe.stages[egg.stage];
    let taken = |name: &str| stage.items.iter().any(|item| item.called() == name);
    let short = of.rsplit(' ').next().unwrap_or(&of).to_owned();
    let name = [short, of.clone()].into_iter().find(|name| !taken(name))?;
    // The sentence must name it: beside the eggs, where they go in.
    let (step, text) = stage.steps.iter().enumerate().find_map(|(step, one)| {
        beside(&one.text.value, &egg.name, &name).map(|text| (step, text))
    })?;
    stage.steps[step].text.value = text;
    let span = stage.items[egg.place].span;
    let eggs = stage.items[egg.place].clone();
    stage.items.push(Item {
        of: Located::new(of.clone(), span),
        take: Some(Located::new(Amount::Mass(mass), span)),
        name: (name != of).then(|| Located::new(name.clone(), span)),
        each: None,
        also: None,
        state: None,
        note: None,
        ..eggs
    });
    Some(format!(
        "{} g of {of} with them keep the water",
        trimmed(mass.grams(), 1)
    ))
}

/// The heaviest liquid of the dough by the name it is listed under, else water.
fn main_liquid(
    recipe: &Recipe,
    formula: &Formula,
    larder: &Larder,
) -> Option<(String, Ingredient)> {
    let items = recipe
        .stages
        .iter()
        .zip(&formula.stages)
        .filter(|(_, sum)| sum.in_dough);
    let heaviest = items
        .flat_map(|(stage, sum)| stage.items.iter().zip(&sum.items))
        .filter_map(|(item, resolved)| {
            let found = ingredient(Some(resolved))?;
            (found.role == Role::Liquid).then_some((
                item.of.value.clone(),
                found.clone(),
                resolved.mass?,
            ))
        })
        .max_by(|one, other| one.2.order(other.2));
    match (heaviest, larder.find("water")) {
        (Some((of, found, _)), _) => Some((of, found)),
        (None, Found::One(water)) => Some(("water".to_owned(), water.clone())),
        _ => None,
    }
}

/// "[eggs]" made "[eggs] and [milk]" where they first go in.
fn beside(text: &str, eggs: &str, name: &str) -> Option<String> {
    let (pieces, _) = parse_sentence(text, 0);
    let place = pieces
        .iter()
        .find(|piece| matches!(&piece.value, Piece::Use { item, .. } if item == eggs))?;
    let (before, after) = text.split_at(place.span.end);
    Some(format!("{before} and [{name}]{after}"))
}
