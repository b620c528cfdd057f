//! Ingredient lines: grams on the unit, the kitchen measure, the state it goes in.

use super::model::{Figure, ItemLine, StageLines};
use super::{figure, readers, say};
use crate::Inputs;
use numerics::quantity::{Density, Fraction, Mass, Temperature};
use recipe::document::model::{Amount, Item, Spooned, Stage, Store};
use recipe::formula::{Resolved, ResolvedItem, StageSum};
use recipe::larder::{Ingredient, Role};
use recipe::measure::{Market, Measure, Spoons, spoons_of};
use recipe::provenance::{Had, Origin};

/// Every stage with its lines and its sum.
pub fn stages(inputs: &Inputs) -> Vec<StageLines> {
    let pairs = inputs.recipe.stages.iter().zip(&inputs.formula.stages);
    pairs
        .map(|(stage, sum)| stage_lines(inputs, stage, sum))
        .collect()
}

fn stage_lines(inputs: &Inputs, stage: &Stage, sum: &StageSum) -> StageLines {
    let place = format!("stage.{}", stage.name.value);
    let items: Vec<_> = stage
        .items
        .iter()
        .zip(&sum.items)
        .map(|(item, resolved)| line(inputs, &place, item, resolved))
        .collect();
    StageLines {
        heading: say::capital(&stage.name.value),
        flour_share: (sum.in_dough && sum.flour_share.si() > 0.0).then(|| {
            figure(
                format!("{place}.flour-share"),
                sum.flour_share.si(),
                "1",
                share_of_flour(sum),
                Origin::new("sum over the written items", Had::Derived),
            )
        }),
        sum: stage_sum(&place, sum),
        items,
        in_dough: sum.in_dough,
    }
}

/// "30 % of the flour", and what boils off, so that lines and sum agree.
fn share_of_flour(sum: &StageSum) -> String {
    let share = format!("{} of the flour", say::percent_whole(sum.flour_share));
    if sum.evaporates > Mass::ZERO {
        format!("{share}, {} boils off", say::mass(sum.evaporates))
    } else {
        share
    }
}

/// The sum under the rule adds up what the lines above it show, to the last digit.
fn stage_sum(place: &str, sum: &StageSum) -> Figure {
    let shown: Mass = sum
        .items
        .iter()
        .filter_map(|item| item.mass)
        .map(shown_mass)
        .sum();
    let left = shown - sum.evaporates;
    figure(
        format!("{place}.sum"),
        left.si(),
        Mass::SI,
        say::mass_sum(left),
        Origin::new("sum of the lines above", Had::Derived),
    )
}

/// The mass that a line shows: a whole earlier stage shows its own sum, unrounded to the scale.
fn shown_mass(mass: Mass) -> Mass {
    let exact = mass.grams();
    let tenths = (exact * 10.0).round() / 10.0;
    if (exact - tenths).abs() < 1e-6 {
        mass
    } else {
        say::rounded_mass(mass)
    }
}

/// Grams as the line shows them.
pub fn grams(name: String, mass: Mass, origin: &Origin) -> Figure {
    let shown = shown_mass(mass);
    figure(
        name,
        mass.si(),
        Mass::SI,
        say::mass_sum(shown),
        origin.clone(),
    )
}

/// Items for bench, tin and top.
pub fn besides(inputs: &Inputs) -> Vec<ItemLine> {
    let pairs = inputs.recipe.besides.iter().zip(&inputs.formula.besides);
    pairs
        .map(|(item, resolved)| line(inputs, "besides", item, resolved))
        .collect()
}

fn line(inputs: &Inputs, place: &str, item: &Item, resolved: &ResolvedItem) -> ItemLine {
    let on = item.on.as_ref().map(|on| on.value.word());
    let place = match on {
        Some(on) => format!("{place}.{on}.{}", item.called()),
        None => format!("{place}.{}", item.called()),
    };
    let mass = resolved.mass;
    let grams = mass.map(|mass| grams(format!("{place}.mass"), mass, &resolved.origin));
    let (measure, measure_error) = match &resolved.what {
        Resolved::Ingredient(ingredient) => measure(inputs, &place, item, ingredient, mass),
        _ => (None, None),
    };
    ItemLine {
        grams,
        measure,
        measure_error,
        name: name(item, resolved, inputs.market),
        detail: detail(inputs, item, resolved),
        percent: resolved.of_flour.map(|share| {
            figure(
                format!("{place}.of-flour"),
                share.si(),
                "1",
                say::percent(share),
                Origin::new("share of all flour", Had::Derived),
            )
        }),
        place: on.map(|on| format!("for the {}", readers::vessel(on, inputs.market))),
        footnote: match &resolved.what {
            Resolved::Ingredient(ingredient) => footnote(inputs, ingredient),
            _ => None,
        },
    }
}

/// What a line calls its item: counted things by the author's short name, others in full.
pub fn name(item: &Item, resolved: &ResolvedItem, market: Option<Market>) -> String {
    match (item.take.as_ref().map(|take| &take.value), &resolved.what) {
        (Some(Amount::Count { .. }), _) => item.called().to_owned(),
        (_, Resolved::Ingredient(ingredient)) => readers::name(&item.of.value, ingredient, market),
        _ => item.of.value.clone(),
    }
}

fn measure(
    inputs: &Inputs,
    place: &str,
    item: &Item,
    ingredient: &Ingredient,
    mass: Option<Mass>,
) -> (Option<Figure>, Option<Figure>) {
    let written = item
        .also
        .as_ref()
        .or(item.take.as_ref())
        .map(|amount| &amount.value);
    if let Some(amount @ (Amount::Measures(_) | Amount::Count { .. })) = written {
        let Some((shown, measured)) = readers::measure(amount, ingredient, mass, inputs.market)
        else {
            return (None, None);
        };
        let (value, origin) = measured.unwrap_or_else(|| {
            let written = Origin::new("the recipe", Had::Written);
            (mass.unwrap_or(Mass::ZERO), written)
        });
        let name = format!("{place}.measure");
        let shown = figure(name, value.si(), Mass::SI, kept_together(&shown), origin);
        return (Some(shown), None);
    }
    let Some((mass, (density, origin))) = mass.zip(ingredient.by_volume.as_ref()) else {
        return (None, None);
    };
    if item.on.is_some() {
        return roughly(place, mass, *density, origin, inputs.market);
    }
    let market = inputs.market.unwrap_or_default();
    let Some(Spoons { text, error, .. }) = spoons_of(mass, ingredient, market) else {
        return (None, None);
    };
    let measured = Mass::from_si(mass.si() * (1.0 + error.si()));
    let shown = figure(
        format!("{place}.measure"),
        measured.si(),
        Mass::SI,
        kept_together(&text),
        origin.clone(),
    );
    let error = (error.si().abs() >= WORTH_SAYING).then(|| {
        figure(
            format!("{place}.measure-error"),
            error.si(),
            "1",
            say::percent_signed(error),
            Origin::new("measure against mass", Had::Derived),
        )
    });
    (Some(shown), error)
}

/// Numbers stay with their units at a line's end: "1¾ cups + 3 Tbsp" breaks at the plus alone.
fn kept_together(measure: &str) -> String {
    let parts: Vec<_> = measure
        .split(" + ")
        .map(|part| part.replace(' ', "\u{a0}"))
        .collect();
    parts.join(" + ")
}

/// What one scoop or a few of one spoon hold, for dusting, greasing and brushing.
const SPOONFULS: [(f64, Measure); 14] = [
    (0.25, Measure::Teaspoon),
    (0.5, Measure::Teaspoon),
    (1.0, Measure::Teaspoon),
    (1.5, Measure::Teaspoon),
    (2.0, Measure::Teaspoon),
    (4.0, Measure::Teaspoon),
    (0.5, Measure::Tablespoon),
    (1.0, Measure::Tablespoon),
    (1.5, Measure::Tablespoon),
    (2.0, Measure::Tablespoon),
    (2.5, Measure::Tablespoon),
    (3.0, Measure::Tablespoon),
    (0.25, Measure::Cup),
    (0.5, Measure::Cup),
];

/// The nearest spoonful for an item outside the dough: nobody dusts a bench to the quarter spoon.
fn roughly(
    place: &str,
    mass: Mass,
    density: Density,
    origin: &Origin,
    market: Option<Market>,
) -> (Option<Figure>, Option<Figure>) {
    let market = market.unwrap_or_default();
    let off_by = |(count, measure): (f64, Measure)| {
        let holds = measure.holds(market) * count * density;
        (holds - mass).abs()
    };
    let nearest = SPOONFULS
        .into_iter()
        .filter(|(_, measure)| market != Market::UnitedKingdom || *measure != Measure::Cup)
        .min_by(|a, b| off_by(*a).order(off_by(*b)));
    let figure = nearest
        .filter(|best| off_by(*best) <= mass * 0.25)
        .map(|(count, measure)| {
            let spooned = Amount::Measures(vec![Spooned { count, measure }]);
            let holds = measure.holds(market) * count * density;
            let name = format!("{place}.measure");
            figure(
                name,
                holds.si(),
                Mass::SI,
                say::amount(&spooned),
                origin.clone(),
            )
        });
    (figure, None)
}

/// A measure this far from its mass is worth a word beside it.
const WORTH_SAYING: f64 = 0.02;

fn detail(inputs: &Inputs, item: &Item, resolved: &ResolvedItem) -> Option<String> {
    let mut parts = Vec::new();
    if let Resolved::Ingredient(ingredient) = &resolved.what
        && ingredient.role == Role::Flour
        && let Some(protein) =
            protein_of_bag(inputs, item).or_else(|| renamed(inputs, item, ingredient))
    {
        parts.push(format!("protein {}", say::percent(protein)));
    }
    if let Some(at) = &item.at {
        parts.push(temperature(at.value));
    } else if let Some(from) = &item.from
        && from.value != Store::Room
    {
        parts.push(match from.value {
            Store::Refrigerator => "from the refrigerator".to_owned(),
            Store::Tap => "cold from the tap".to_owned(),
            Store::Room => String::new(),
        });
    }
    if let Some(state) = &item.state {
        parts.push(state.value.clone());
    }
    if let Some(note) = &item.note {
        parts.push(note.value.clone());
    }
    (!parts.is_empty()).then(|| parts.join(", "))
}

fn protein_of_bag(inputs: &Inputs, item: &Item) -> Option<Fraction> {
    let entry = inputs
        .recipe
        .pantry
        .iter()
        .find(|entry| entry.name.value == item.of.value)?;
    entry.protein.as_ref().map(|protein| protein.value)
}

/// The protein of a flour that is printed under another country's name: names alone do not say
/// how strong it is.
fn renamed(inputs: &Inputs, item: &Item, ingredient: &Ingredient) -> Option<Fraction> {
    let there = readers::name(&item.of.value, ingredient, inputs.market);
    (there != item.of.value)
        .then_some(ingredient.composition.protein)
        .flatten()
}

fn temperature(at: Temperature) -> String {
    format!("at {}", say::temperature(at))
}

/// Sources of the weights behind the kitchen measures, in order of first use.
pub fn footnotes(inputs: &Inputs) -> Vec<String> {
    let mut notes: Vec<String> = Vec::new();
    for item in inputs.formula.every_item() {
        if let Resolved::Ingredient(ingredient) = &item.what
            && let Some(note) = note(ingredient)
            && !notes.contains(&note)
        {
            notes.push(note);
        }
    }
    notes
}

fn note(ingredient: &Ingredient) -> Option<String> {
    let ((Some((_, origin)), _) | (None, Some((_, _, origin)))) =
        (&ingredient.by_volume, ingredient.by_count.first())
    else {
        return None;
    };
    Some(format!(
        "Weight of a kitchen measure: {} ({}).",
        origin.source,
        origin.had.words()
    ))
}

fn footnote(inputs: &Inputs, ingredient: &Ingredient) -> Option<usize> {
    let note = note(ingredient)?;
    footnotes(inputs)
        .iter()
        .position(|other| *other == note)
        .map(|at| at + 1)
}
