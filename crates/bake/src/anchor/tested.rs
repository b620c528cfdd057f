//! Tested bakes made ready to be worked out: the recipe as it was baked, its kitchen, its figures.

use super::MOST_BAKES;
use super::figure::{Figure, What};
use crate::code;
use crate::kitchen::{Kitchen, in_room};
use crate::mix;
use crate::physics::boiling;
use crate::wording::degrees;
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{
    Action, Crust, OvenPhase, Product, Recipe, Standing, Step, Test, Until,
};
use recipe::formula::Formula;
use recipe::source::{Diagnostic, Located};

/// A bake as it was tested.
pub struct Bake {
    /// Its date.
    pub date: String,
    /// The recipe, cut down to what its figures need.
    pub recipe: Recipe,
    /// The kitchen it was baked in.
    pub kitchen: Kitchen,
    /// What the dough read after its mix.
    pub dough: Option<Temperature>,
    /// The mix as it is worked out without knowing that, K.
    pub mixed: Option<f64>,
    /// The bake's step in the cut recipe and the minutes it took, s.
    pub oven: Option<(usize, f64)>,
    /// What was noted.
    pub figures: Vec<Figure>,
}

/// A bake is worked out for so much longer than it took, to see a core that comes later.
const LONGER: f64 = 1.25;

/// Every tested bake that says something, the newest first in choosing, in written order.
pub fn bakes(
    recipe: &Recipe,
    formula: &Formula,
    kitchens: &[Kitchen],
) -> (Vec<Bake>, Vec<Diagnostic>) {
    let mut said = Vec::new();
    let mut order: Vec<usize> = (0..recipe.tested.len()).collect();
    order.sort_by(|one, other| {
        let date = |place: &usize| recipe.tested[*place].date.value;
        date(other).cmp(&date(one)).then(one.cmp(other))
    });
    let mut away: Vec<String> = Vec::new();
    let mut newest: Vec<usize> = Vec::new();
    let mut all: Vec<(usize, Bake)> = Vec::new();
    for place in order {
        let mut own = Vec::new();
        let bake = one(recipe, formula, kitchens, &recipe.tested[place], &mut own);
        if newest.len() < MOST_BAKES {
            // A kitchen that is not at hand is named once.
            let name = recipe.tested[place].kitchen.as_ref();
            let name = name.map(|name| name.value.to_lowercase());
            let again = name.is_some_and(|name| {
                let named = away.contains(&name);
                away.push(name);
                named
            });
            own.retain(|one| !(again && one.code == code::TESTED_KITCHEN_UNKNOWN));
            said.extend(own);
            if !bake.figures.is_empty() {
                newest.push(place);
                all.push((place, bake));
            }
        }
    }
    all.sort_by_key(|(place, _)| *place);
    said.sort_by_key(|finding| finding.span.map_or(0, |span| span.start));
    (all.into_iter().map(|(_, bake)| bake).collect(), said)
}

fn one(
    recipe: &Recipe,
    formula: &Formula,
    kitchens: &[Kitchen],
    test: &Test,
    said: &mut Vec<Diagnostic>,
) -> Bake {
    let (kitchen, known) = kitchen_of(recipe, test, kitchens);
    let mut bake = Bake {
        date: test.date.value.to_string(),
        recipe: recipe.clone(),
        kitchen,
        dough: test.dough.as_ref().map(|dough| dough.value),
        mixed: None,
        oven: None,
        figures: Vec::new(),
    };
    let baked = baked(recipe, test, said);
    cut(&mut bake.recipe, test, baked);
    rises(&mut bake, test, said);
    if let Some(place) = baked {
        of_the_oven(&mut bake, place, test);
    }
    if let (false, Some(dough)) = (bake.figures.is_empty(), &test.dough) {
        bake.mixed = mixed(recipe, formula, &bake.kitchen);
        bake.figures.push(Figure {
            what: What::Dough,
            words: "temperature of the dough after its mix".to_owned(),
            tested: dough.value.si(),
            unit: "K",
            span: dough.span,
        });
    }
    if let (false, false, Some(name)) = (known, bake.figures.is_empty(), &test.kitchen) {
        said.push(
            Diagnostic::at(
                code::TESTED_KITCHEN_UNKNOWN,
                name.span,
                format!(
                    "“{}” is no kitchen at hand; the bake of {} is worked out in a usual one of {}.",
                    name.value,
                    bake.date,
                    degrees(bake.kitchen.room)
                ),
            )
            .hint("Give the file of that kitchen too, so that its oven and its warm place count."),
        );
    }
    bake
}

/// The kitchen of a test, and whether it is known by its name.
fn kitchen_of(recipe: &Recipe, test: &Test, kitchens: &[Kitchen]) -> (Kitchen, bool) {
    let called = test.kitchen.as_ref().map(|name| name.value.to_lowercase());
    let is_called = |kitchen: &&Kitchen| {
        let name = kitchen.name.to_lowercase();
        let word =
            |called: &String| name == *called || name.split_whitespace().any(|word| word == called);
        called.as_ref().is_some_and(word)
    };
    let found = kitchens.iter().find(is_called);
    let mut kitchen = found.map_or_else(
        || {
            let mut usual = Kitchen::standard();
            // Whoever tests follows the recipe: its first warm place.
            if let Some(written) = first_warm_place(recipe) {
                usual.warm_place = written;
            }
            usual
        },
        Clone::clone,
    );
    if let Some(room) = &test.room {
        kitchen = in_room(&kitchen, room.value);
    }
    if let Some(warm) = &test.warm_place {
        kitchen.warm_place = warm.value;
    }
    (kitchen, found.is_some())
}

fn first_warm_place(recipe: &Recipe) -> Option<Temperature> {
    let of_stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    let of_products = recipe.products.iter().flat_map(|product| &product.steps);
    of_stages
        .chain(of_products)
        .find_map(|step| match &step.action {
            Action::Rest { at, place, .. } if place.value == Standing::WarmPlace => Some(at.value),
            _ => None,
        })
}

/// The product whose bake was noted; says so when nobody can tell.
fn baked(recipe: &Recipe, test: &Test, said: &mut Vec<Diagnostic>) -> Option<usize> {
    if let Some(name) = &test.product {
        let found = recipe
            .products
            .iter()
            .position(|product| product.name.value.eq_ignore_ascii_case(&name.value));
        if found.is_none() {
            said.push(unclear(name, "is no product of this recipe", recipe));
        }
        return found;
    }
    if recipe.products.len() == 1 {
        return Some(0);
    }
    if let Some(minutes) = &test.minutes {
        said.push(
            Diagnostic::at(
                code::TESTED_FIGURE_UNCLEAR,
                minutes.span,
                "The recipe makes several things, and nobody can tell which of them was baked so long.",
            )
            .hint(format!("Write product = \"{}\" beside it.", recipe.products.first().map_or("...", |product| &product.name.value))),
        );
    }
    None
}

fn unclear(name: &Located<String>, why: &str, recipe: &Recipe) -> Diagnostic {
    let stages = recipe.stages.iter().map(|stage| &stage.name.value);
    let products = recipe.products.iter().map(|product| &product.name.value);
    let names: Vec<&str> = stages.chain(products).map(String::as_str).collect();
    Diagnostic::at(
        code::TESTED_FIGURE_UNCLEAR,
        name.span,
        format!("“{}” {why}, so its figure is left out.", name.value),
    )
    .hint(format!("The names here are: {}.", names.join(", ")))
}

/// Cuts a recipe down to the steps up to the last one that has a figure.
fn cut(recipe: &mut Recipe, test: &Test, baked: Option<usize>) {
    let minutes = test.minutes.as_ref().map(|minutes| minutes.value.si());
    for (place, product) in recipe.products.iter_mut().enumerate() {
        let risen = test
            .rises
            .iter()
            .any(|(name, _)| name.value.eq_ignore_ascii_case(&product.name.value));
        let in_oven = |step: &Step| matches!(step.action, Action::Bake { .. });
        let bake = product.steps.iter().position(in_oven);
        match (bake, minutes) {
            (Some(at), Some(minutes)) if baked == Some(place) => {
                product.steps.truncate(at + 1);
                for_so_long(&mut product.steps[at], minutes * LONGER);
            }
            _ if risen => product.steps.truncate(bake.unwrap_or(product.steps.len())),
            _ => product.steps.clear(),
        }
    }
}

/// A bake by the clock that lasts so long: its last setting goes on, or it ends in an earlier one.
pub(crate) fn for_so_long(step: &mut Step, seconds: f64) {
    step.until = None;
    if let Action::Bake { phases, core, .. } = &mut step.action {
        *core = None;
        let mut left = seconds;
        let mut kept: Vec<OvenPhase> = Vec::new();
        let last = phases.len().saturating_sub(1);
        for (at, phase) in phases.iter().enumerate() {
            let mut phase = phase.clone();
            let usual = phase.timing.usual.value.si();
            let takes = if at == last { left } else { usual.min(left) };
            phase.timing.usual.value = Duration::from_si(takes);
            phase.timing.range = None;
            left -= takes;
            kept.push(phase);
            if left <= 0.0 {
                break;
            }
        }
        *phases = kept;
    }
}

/// Whether a rest ends by what the dough does.
fn grows(until: Option<&Until>) -> bool {
    until.is_some_and(|until| until.volume.is_some() || until.height.is_some())
}

fn rises(bake: &mut Bake, test: &Test, said: &mut Vec<Diagnostic>) {
    for (name, took) in &test.rises {
        let mut number = 0;
        let mut of_it: Option<Option<usize>> = None;
        let stages = bake
            .recipe
            .stages
            .iter()
            .map(|stage| (&stage.name.value, &stage.steps));
        let products = bake
            .recipe
            .products
            .iter()
            .map(|product| (&product.name.value, &product.steps));
        for (called, steps) in stages.chain(products) {
            if called.eq_ignore_ascii_case(&name.value) {
                let is = |step: &Step| {
                    matches!(step.action, Action::Rest { .. }) && grows(step.until.as_ref())
                };
                let found = steps.iter().rposition(is).map(|at| number + at + 1);
                of_it = Some(of_it.flatten().or(found));
            }
            number += steps.len();
        }
        match of_it {
            None => said.push(unclear(name, "is no stage and no product", &bake.recipe)),
            Some(None) => said.push(unclear(
                name,
                "has no rise that ends by its volume or height",
                &bake.recipe,
            )),
            Some(Some(step)) => bake.figures.push(Figure {
                what: What::Rise(step),
                words: format!("rise of the {}", name.value),
                tested: took.value.si(),
                unit: "s",
                span: took.span,
            }),
        }
    }
}

/// Minutes, core, crust and loss of a product.
fn of_the_oven(bake: &mut Bake, place: usize, test: &Test) {
    let product = &bake.recipe.products[place];
    let (Some(minutes), Some(step)) = (&test.minutes, product.steps.last()) else {
        return;
    };
    if !matches!(step.action, Action::Bake { .. }) {
        return;
    }
    let before: usize = bake.recipe.stages.iter().map(|s| s.steps.len()).sum();
    let earlier = &bake.recipe.products[..=place];
    let number = before + earlier.iter().map(|p| p.steps.len()).sum::<usize>();
    bake.oven = Some((number, minutes.value.si()));
    let name = product.name.value.clone();
    if let Some(core) = &test.core {
        // No crumb gets hotter than its water boils: two kelvin under it is done.
        let boils = boiling::boiling_point(boiling::pressure(bake.kitchen.altitude)).celsius();
        let wanted = core.value.celsius().min(boils - 2.0);
        bake.figures.push(Figure {
            what: What::Core(wanted),
            words: format!(
                "minutes until the middle of the {name} reads {}",
                degrees(Temperature::from_celsius(wanted))
            ),
            tested: minutes.value.si(),
            unit: "s",
            span: minutes.span,
        });
    }
    if let Some(crust) = &test.crust {
        bake.figures.push(Figure {
            what: What::Crust,
            words: format!("crust of the {name}, told as {}", crust.value.word()),
            tested: lightness(crust.value),
            unit: "L*",
            span: crust.span,
        });
    }
    if let Some(loss) = &test.loss {
        bake.figures.push(Figure {
            what: What::Loss,
            words: format!("share of its mass that the {name} loses"),
            tested: loss.value.si(),
            unit: "1",
            span: loss.span,
        });
    }
}

/// Lightness that a word for a crust stands for, L* (as `Shade` has it).
pub const fn lightness(crust: Crust) -> f64 {
    match crust {
        Crust::Pale => 80.0,
        Crust::Golden => 75.0,
        Crust::Brown => 70.0,
        Crust::Dark => 50.0,
    }
}

/// Where the mix of the products' dough ends in a kitchen, K; unknown where a liquid is to be adjusted, for
/// nobody noted how warm it was.
fn mixed(recipe: &Recipe, formula: &Formula, kitchen: &Kitchen) -> Option<f64> {
    let is_from = |name: &str| {
        let from = |product: &Product| product.from.value.eq_ignore_ascii_case(name);
        recipe.products.iter().any(from)
    };
    let place = recipe
        .stages
        .iter()
        .rposition(|stage| is_from(&stage.name.value))?;
    let adjusts =
        |step: &Step| matches!(&step.action, Action::Mix { adjust, .. } if adjust.is_some());
    if recipe.stages[place].steps.iter().any(adjusts) {
        return None;
    }
    let left = mix::left_by_cooling(recipe, formula, kitchen);
    let balance = mix::mixed(recipe, formula, kitchen, place, &left)?;
    Some(balance.ends.si())
}
