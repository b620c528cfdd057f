//! Each change as it stands in the recipe's file, and the sentence that says it.

use super::{Kind, words};
use crate::ledger::say;
use bake::kitchens::Setup;
use bake::mix::is_butter;
use bake::simulate::{Course, Grid, How, simulate};
use numerics::decimal::round_to;
use numerics::quantity::{Duration, Mass, Range, Temperature, TemperatureDifference, Volume};
use recipe::document::model::{Action, Amount, Item, Recipe, Step, Timing, TinSize};
use recipe::formula::{Formula, Resolved, formula, piece_mass};
use recipe::larder::{Ingredient, Larder, Role};
use recipe::source::Located;

/// An oven that much cooler, °C.
const COOLER_KELVIN: f64 = 10.0;
/// Butter that much colder, °C, and no colder than this.
const BUTTER_COLDER: (f64, f64) = (3.0, 14.0);
/// Yeast times this.
const LESS_YEAST: f64 = 0.8;
/// What a tin with sloping walls holds of its three sizes' product.
const SLOPING: f64 = 0.87;

/// The recipe with a change, and the sentence; none where there is nothing to change.
pub fn edited(
    kind: Kind,
    recipe: &Recipe,
    sums: &Formula,
    base: &Setup<'_>,
    larder: &Larder,
) -> Option<(Recipe, String)> {
    let mut made = recipe.clone();
    let sentence = match kind {
        Kind::WeighFlour => weigh_flour(&mut made, sums),
        Kind::WeighPieces => weigh_pieces(&mut made),
        Kind::NameSalt => name_salt(&mut made, sums),
        Kind::GoBySign => words::go_by_sign(&mut made),
        Kind::GiveSign => words::give_sign(&mut made, base),
        Kind::GiveDoughTemperature => words::give_dough_temperature(&mut made, base),
        Kind::WidenWindow => words::widen_window(&mut made),
        Kind::LookEarlier => words::look_earlier(&mut made),
        Kind::HeatOven => words::heat_oven(&mut made),
        Kind::MeasureTin => measure_tin(&mut made),
        Kind::CoolerOven => cooler_oven(&mut made, sums, base),
        Kind::ColderButter => colder_butter(&mut made, sums),
        Kind::LessYeast => less_yeast(&mut made, sums, base, larder),
    }?;
    Some((made, sentence))
}

/// Every item of the dough that is an ingredient, beside its sum.
fn each_item<'a>(
    recipe: &'a mut Recipe,
    sums: &'a Formula,
) -> impl Iterator<Item = (&'a mut Item, &'a Ingredient, Option<Mass>)> {
    let stages = recipe.stages.iter_mut().zip(&sums.stages);
    stages
        .filter(|(_, sum)| sum.in_dough)
        .flat_map(|(stage, sum)| stage.items.iter_mut().zip(&sum.items))
        .filter_map(|(item, sum)| match &sum.what {
            Resolved::Ingredient(one) => Some((item, &**one, sum.mass)),
            _ => None,
        })
}

/// Every step, in the order of the page.
pub fn each_step(recipe: &mut Recipe) -> impl Iterator<Item = &mut Step> {
    let stages = recipe.stages.iter_mut().flat_map(|stage| &mut stage.steps);
    let products = recipe
        .products
        .iter_mut()
        .flat_map(|product| &mut product.steps);
    stages.chain(products)
}

fn noted(item: &mut Item, words: &str) {
    let before = item.note.as_ref().map(|note| format!("{}; ", note.value));
    let words = format!("{}{words}", before.unwrap_or_default());
    item.note = Some(Located::new(words, item.span));
}

/// A sentence more.
pub fn added(step: &mut Step, sentence: &str) {
    let words = format!("{} {sentence}", step.text.value.trim_end());
    step.text = Located::new(words, step.text.span);
}

fn weigh_flour(recipe: &mut Recipe, sums: &Formula) -> Option<String> {
    let mut all = Mass::ZERO;
    for (item, ingredient, mass) in each_item(recipe, sums) {
        if ingredient.role == Role::Flour {
            all += mass.unwrap_or(Mass::ZERO);
            item.also = None;
            noted(item, "weigh it");
        }
    }
    (all > Mass::ZERO).then(|| {
        format!(
            "Weigh the flour: {} in all. A cup of it holds anything from 115 to 160{}g.",
            say::mass(all),
            say::NBSP
        )
    })
}

fn weigh_pieces(recipe: &mut Recipe) -> Option<String> {
    let pieces: Vec<String> = recipe
        .products
        .iter()
        .filter(|product| product.count.value > 1 || product.piece.value.len() > 1)
        .map(|product| {
            format!(
                "{} for each of the {}",
                say::mass(piece_mass(&product.piece.value)),
                product.name.value
            )
        })
        .collect();
    if pieces.is_empty() {
        return None;
    }
    let sentence = format!("Weigh the pieces: {}.", say::list(&pieces));
    let divide = each_step(recipe).find(|step| matches!(step.action, Action::Divide { .. }))?;
    added(divide, "Weigh each piece.");
    Some(sentence)
}

fn name_salt(recipe: &mut Recipe, sums: &Formula) -> Option<String> {
    let mut found = None;
    for (item, ingredient, mass) in each_item(recipe, sums) {
        if let (Role::Salt, Some(mass)) = (ingredient.role, mass) {
            noted(item, "fine salt, by weight");
            found = Some(mass);
        }
    }
    found.map(|mass| {
        format!(
            "{} of fine salt, weighed: a teaspoon of flakes holds half as much.",
            say::mass(mass)
        )
    })
}

/// Minutes of all settings of a bake.
pub fn bakes_for(phases: &[recipe::document::model::OvenPhase]) -> Duration {
    phases.iter().map(|phase| phase.timing.usual.value).sum()
}

fn measure_tin(recipe: &mut Recipe) -> Option<String> {
    let mut sentence = None;
    for product in &mut recipe.products {
        let span = product.span;
        let Some(tin) = product.tin.as_mut() else {
            continue;
        };
        let holds = match (&tin.holds, tin.size.value) {
            (_, TinSize::Tray { .. }) => continue,
            (Some(holds), _) => holds.value,
            (
                None,
                TinSize::Box {
                    length,
                    width,
                    depth,
                },
            ) => Volume::from_si(SLOPING * length.si() * width.si() * depth.si()),
            (None, TinSize::Round { diameter, height }) => Volume::from_si(
                0.25 * std::f64::consts::PI * diameter.si() * diameter.si() * height.si(),
            ),
        };
        tin.holds = Some(Located::new(holds, span));
        let said = format!(
            "The tin must hold {}{}g of water to the brim: weigh it. A tin that holds a tenth more wants a tenth more dough.",
            numerics::decimal::fixed(round_to(holds.millilitres(), 10.0), 0),
            say::NBSP
        );
        if let Some(step) = product.steps.first_mut() {
            added(step, &said);
        }
        sentence = sentence.or(Some(said));
    }
    sentence
}

/// What happens in the usual kitchen, on the grid of many kitchens.
fn course(recipe: &Recipe, sums: &Formula, base: &Setup<'_>) -> Course {
    let how = How {
        grid: Grid::Rough,
        anchor: base.anchor,
        ..How::default()
    };
    simulate(recipe, sums, &base.kitchen, &how).output
}

/// How many times as long each step takes; 1 where its sign says nothing.
fn longer(before: &Course, after: &Course) -> Vec<f64> {
    let cue = |course: &Course, place: usize| course.steps.get(place)?.cue_after;
    (0..before.steps.len())
        .map(|place| match (cue(before, place), cue(after, place)) {
            (Some(was), Some(is)) if was.si() > 0.0 => is / was,
            _ => 1.0,
        })
        .collect()
}

/// Minutes so many times as long, to whole minutes below an hour and to five above.
fn stretched(timing: &mut Timing, times: f64) {
    let by = |time: Duration| {
        let minutes = time.minutes() * times;
        let step = if minutes < 60.0 { 1.0 } else { 5.0 };
        Duration::from_minutes(round_to(minutes, step).max(1.0))
    };
    timing.usual.value = by(timing.usual.value);
    if let Some(range) = &mut timing.range {
        range.value = Range {
            low: by(range.value.low),
            high: by(range.value.high),
        };
    }
}

fn cooler_oven(recipe: &mut Recipe, sums: &Formula, base: &Setup<'_>) -> Option<String> {
    let before = course(recipe, sums, base);
    let cooler = |at: Temperature| at - TemperatureDifference::from_si(COOLER_KELVIN);
    for step in each_step(recipe) {
        match &mut step.action {
            Action::Bake { phases, check, .. } => {
                for phase in phases.iter_mut() {
                    phase.at.value = cooler(phase.at.value);
                }
                *check = None;
            }
            Action::Preheat { to, .. } => to.value = cooler(to.value),
            _ => {}
        }
    }
    let times = longer(&before, &course(recipe, sums, base));
    let mut sentence = None;
    for (step, times) in each_step(recipe).zip(times) {
        if let Action::Bake { phases, .. } = &mut step.action {
            for phase in phases.iter_mut() {
                stretched(&mut phase.timing, times);
            }
            let first = phases.first()?;
            let said = format!(
                "Bake at {} for {}.",
                say::oven(first.at.value),
                say::duration(bakes_for(phases))
            );
            sentence = sentence.or(Some(said));
        }
    }
    sentence
}

fn colder_butter(recipe: &mut Recipe, sums: &Formula) -> Option<String> {
    let mut sentence = None;
    for (item, ingredient, _) in each_item(recipe, sums) {
        let melted = item
            .state
            .as_ref()
            .is_some_and(|state| state.value.contains("melted"));
        let Some(at) = &mut item.at else { continue };
        let (by, least) = BUTTER_COLDER;
        let colder = at.value.celsius() - by;
        if melted || !is_butter(ingredient) || colder < least {
            continue;
        }
        at.value = Temperature::from_celsius(colder);
        sentence = Some(format!(
            "Butter at {}: it bends and leaves no shine on the finger.",
            say::temperature(at.value)
        ));
    }
    sentence
}

fn less_yeast(
    recipe: &mut Recipe,
    sums: &Formula,
    base: &Setup<'_>,
    larder: &Larder,
) -> Option<String> {
    let before = course(recipe, sums, base);
    let mut all = Mass::ZERO;
    for (item, ingredient, _) in each_item(recipe, sums) {
        if !matches!(ingredient.role, Role::Yeast(_)) {
            continue;
        }
        match item.take.as_mut().map(|take| &mut take.value) {
            Some(Amount::Mass(mass)) => {
                *mass = say::rounded_mass(*mass * LESS_YEAST);
                all += *mass;
            }
            _ => return None,
        }
        item.also = None;
    }
    if all <= Mass::ZERO {
        return None;
    }
    let made = formula(recipe, larder).output;
    let times = longer(&before, &course(recipe, &made, base));
    for (step, times) in each_step(recipe).zip(times) {
        if let Action::Rest { timing, .. } = &mut step.action {
            stretched(timing, times);
        }
    }
    Some(format!(
        "{} of yeast, and let each rise take its time.",
        say::mass(all)
    ))
}
