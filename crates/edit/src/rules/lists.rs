//! The list of a stage: its order, its measures, its precision, and what it leaves unsaid.

use super::{Case, Rule};
use crate::code;
use crate::ledger::say;
use numerics::decimal::{fixed, trimmed};
use numerics::quantity::Mass;
use recipe::document::model::{Amount, Item, ListOrder, Spooned, Stage};
use recipe::document::placeholder::{Part, Piece, parse_sentence};
use recipe::formula::{Resolved, ResolvedItem};
use recipe::measure::Measure;
use recipe::source::{Change, Diagnostic, Span};

pub const RULES: &[Rule] = &[
    order,
    precision,
    unmeasurable,
    measured_otherwise,
    by_volume_alone,
    before_or_after,
];

/// The first step of a stage that uses each of its items; none for an item that no step uses.
fn first_steps(stage: &Stage) -> Vec<Option<usize>> {
    let uses: Vec<Vec<String>> = stage
        .steps
        .iter()
        .map(|step| {
            let (pieces, _) = parse_sentence(&step.text.value, 0);
            pieces
                .into_iter()
                .filter_map(|piece| match piece.value {
                    Piece::Use { item, .. } => Some(item),
                    _ => None,
                })
                .collect()
        })
        .collect();
    stage
        .items
        .iter()
        .map(|item| {
            uses.iter()
                .position(|names| names.iter().any(|name| name == item.called()))
        })
        .collect()
}

fn order(case: &Case) -> Vec<Diagnostic> {
    let house = case.inputs.recipe.house.list();
    if house == ListOrder::AsWritten {
        return Vec::new();
    }
    let recipe = case.inputs.recipe;
    let mut found = Vec::new();
    for (stage, sum) in recipe.stages.iter().zip(&case.inputs.formula.stages) {
        let firsts = first_steps(stage);
        let Some(firsts) = firsts.into_iter().collect::<Option<Vec<usize>>>() else {
            continue;
        };
        let early = (1..firsts.len()).find(|place| firsts[*place] < firsts[*place - 1]);
        if let Some(place) = early {
            let (late, soon) = (&stage.items[place - 1], &stage.items[place]);
            let mut wanted: Vec<usize> = (0..firsts.len()).collect();
            wanted.sort_by_key(|at| firsts[*at]);
            let finding = Diagnostic::at(
                code::ITEMS_OUT_OF_ORDER,
                late.of.span,
                format!(
                    "In the list of “{}” {} stands before {}, and the steps take it up later; a cook reads down the list.",
                    stage.name.value,
                    late.called(),
                    soon.called()
                ),
            )
            .label(soon.of.span, "used before")
            .hint(format!(
                "List them as the steps use them: {}.",
                say::list(&wanted.iter().map(|at| stage.items[*at].called().to_owned()).collect::<Vec<_>>())
            ));
            found.push(
                reordered(case, stage, &wanted)
                    .into_iter()
                    .fold(finding, |finding, change| {
                        finding.change(change.span, change.new)
                    }),
            );
        } else if house == ListOrder::HeaviestFirst {
            found.extend(lighter_first(stage, &sum.items, &firsts));
        }
    }
    found
}

/// The changes that put the list into another order; none where remarks stand between the items.
fn reordered(case: &Case, stage: &Stage, wanted: &[usize]) -> Vec<Change> {
    let spans: Vec<Span> = stage.items.iter().map(|item| item.span).collect();
    let Some(text) = case.inputs.written else {
        return Vec::new();
    };
    let own = |span: &Span| text.get(span.start..span.end).unwrap_or("");
    let braces = spans
        .iter()
        .all(|span| own(span).starts_with('{') && own(span).ends_with('}'));
    let plain = spans.windows(2).all(|pair| {
        let between = text.get(pair[0].end..pair[1].start).unwrap_or("#");
        between.chars().all(|c| c == ',' || c.is_whitespace())
    });
    if !braces || !plain {
        return Vec::new();
    }
    spans
        .iter()
        .zip(wanted)
        .enumerate()
        .filter(|(place, (_, at))| place != *at)
        .map(|(_, (span, at))| Change {
            span: *span,
            new: own(&spans[*at]).to_owned(),
        })
        .collect()
}

/// Within one step the heavier stands first, where the house style wants it so.
fn lighter_first(stage: &Stage, sums: &[ResolvedItem], firsts: &[usize]) -> Option<Diagnostic> {
    let place = (1..firsts.len()).find(|place| {
        let (before, here) = (&sums[*place - 1], &sums[*place]);
        let heavier = here
            .mass
            .zip(before.mass)
            .is_some_and(|(here, before)| here > before);
        firsts[*place] == firsts[*place - 1] && heavier
    })?;
    let (light, heavy) = (&stage.items[place - 1], &stage.items[place]);
    Some(
        Diagnostic::at(
            code::HEAVIER_ITEM_LATER,
            heavy.of.span,
            format!(
                "{} weighs more than {} and goes in with the same step; the house style lists the heavier first.",
                say::capital(heavy.called()),
                light.called()
            ),
        )
        .label(light.of.span, "lighter")
        .hint("Change their places, or choose `list = \"by step\"` in [house]."),
    )
}

/// Every written item with what it stands for.
fn every_item<'a>(case: &'a Case) -> impl Iterator<Item = (&'a Item, &'a ResolvedItem)> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let stages = recipe.stages.iter().zip(&formula.stages);
    stages
        .flat_map(|(stage, sum)| stage.items.iter().zip(&sum.items))
        .chain(recipe.besides.iter().zip(&formula.besides))
}

/// To what a kitchen scale and a cook's patience weigh; common practice.
fn weighed_to(grams: f64) -> f64 {
    if grams >= 100.0 {
        1.0
    } else if grams >= 10.0 {
        0.5
    } else {
        0.1
    }
}

fn precision(case: &Case) -> Vec<Diagnostic> {
    let Some(text) = case.inputs.written else {
        return Vec::new();
    };
    let recipe = case.inputs.recipe;
    let sentences: Vec<_> = super::route::steps(recipe)
        .flat_map(|step| parse_sentence(&step.text.value, 0).0)
        .collect();
    let mut found = Vec::new();
    for (item, _) in every_item(case) {
        let Some(take) = &item.take else { continue };
        let Amount::Mass(mass) = take.value else {
            continue;
        };
        let written = text.get(take.span.start..take.span.end).unwrap_or("");
        let inside = written.trim_matches(['"', '\'']);
        let in_grams = inside
            .strip_suffix('g')
            .is_some_and(|rest| rest.trim_end().ends_with(|c: char| c.is_ascii_digit()));
        let grams = mass.grams();
        let step = weighed_to(grams);
        let rounded = (grams / step).round() * step;
        if !in_grams || (rounded - grams).abs() < 1e-6 {
            continue;
        }
        let new = format!("{} g", trimmed(rounded, 1));
        let finding = Diagnostic::at(
            code::FALSE_PRECISION,
            take.span,
            format!(
                "{inside} is finer than it can be weighed or matters; {} g either way change nothing.",
                trimmed(step / 2.0, 2)
            ),
        )
        .hint(format!("Write \"{new}\"."));
        // A part of it in grams would no longer add up.
        let in_parts = sentences.iter().any(|piece| {
            matches!(&piece.value, Piece::Use { item: name, part: Part::Mass(_) } if name == item.called())
        });
        let quoted = Span::new(take.span.start + 1, take.span.end.saturating_sub(1));
        found.push(if in_parts || written.len() != inside.len() + 2 {
            finding
        } else {
            finding.change(quoted, new)
        });
    }
    found
}

/// Parts of a cup that a set of cups has.
const CUPS: [f64; 8] = [0.0, 0.125, 0.25, 1.0 / 3.0, 0.5, 2.0 / 3.0, 0.75, 1.0];

/// Whether there is a cup or spoon for a count, or two that come to it.
fn is_measured(one: &Spooned) -> bool {
    let part = one.count.fract();
    let whole = |step: f64| ((part / step).round() * step - part).abs() < 0.01;
    match one.measure {
        Measure::Cup => CUPS.iter().any(|cup| (cup - part).abs() < 0.01),
        Measure::Tablespoon => {
            whole(0.5) || (part - 0.25).abs() < 0.01 || (part - 0.75).abs() < 0.01
        }
        Measure::Teaspoon => whole(0.125),
        _ => true,
    }
}

fn unmeasurable(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (item, _) in every_item(case) {
        for amount in [&item.take, &item.also].into_iter().flatten() {
            let Amount::Measures(all) = &amount.value else {
                continue;
            };
            let odd = all.iter().find(|one| !is_measured(one));
            let why = match odd {
                Some(_) => "there is no cup or spoon for it".to_owned(),
                None if all.len() > 2 => {
                    format!("it takes {} measures, and each adds its error", all.len())
                }
                None => continue,
            };
            found.push(
                Diagnostic::at(
                    code::MEASURE_UNMEASURABLE,
                    amount.span,
                    format!("{} of {} cannot be measured: {why}.", say::amount(&amount.value).replace('\u{a0}', " "), item.called()),
                )
                .hint("Take cups of ⅛, ¼, ⅓, ½, ⅔, ¾ and 1, tablespoons of ½ and 1, teaspoons of ⅛ to 1, two of them at most; or give grams and let the page find the measure."),
            );
        }
    }
    found
}

/// How far a measure may be from its mass; common practice of test kitchens, wider where a level
/// spoon already differs more.
fn allowed(mass: Mass) -> f64 {
    if mass.grams() < 10.0 { 0.05 } else { 0.03 }
}

/// A share below which a difference is less than a level spoon or cup varies by.
const LEVEL: f64 = 0.1;

fn measured_otherwise(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (item, resolved) in every_item(case) {
        let (Some(also), Some(mass)) = (&item.also, resolved.mass) else {
            continue;
        };
        let Resolved::Ingredient(ingredient) = &resolved.what else {
            continue;
        };
        let Ok((measured, origin)) = case.inputs.larder.weigh(ingredient, &also.value) else {
            continue;
        };
        let off = (measured - mass) / mass;
        if off.abs() <= allowed(mass) + 1e-9 {
            continue;
        }
        let much = off.abs() > LEVEL;
        let mut finding = Diagnostic::at(
            code::MEASURE_MISSES_MASS,
            also.span,
            format!(
                "{} of {} weigh {}, and the list says {}: {} %.",
                say::amount(&also.value),
                item.called(),
                say::mass(measured),
                say::mass(mass),
                fixed(off * 100.0, 0)
            ),
        )
        .hint("Leave `also` out, and the page prints the nearest measure.")
        .because(format!("{} ({})", origin.source, origin.had.words()));
        if let Some(take) = &item.take {
            finding = finding.label(take.span, "the mass");
        }
        if much {
            finding = finding.hint("One of the two is a slip: weigh what the cup holds.");
        }
        found.push(finding);
    }
    found
}

/// Less than this is surer by the spoon than on a kitchen scale.
const BY_THE_SPOON: Mass = Mass::from_grams(5.0);

fn by_volume_alone(case: &Case) -> Vec<Diagnostic> {
    let mut found: Option<Diagnostic> = None;
    for (item, resolved) in every_item(case) {
        let Some(take) = &item.take else { continue };
        let measured = matches!(&take.value, Amount::Measures(all) if !all.iter().any(|one| matches!(one.measure, Measure::Litre | Measure::Decilitre | Measure::Centilitre | Measure::Millilitre)));
        let heavy = resolved.mass.is_some_and(|mass| mass >= BY_THE_SPOON);
        if !measured || !heavy || item.on.is_some() {
            continue;
        }
        let mass = resolved.mass.map(say::mass).unwrap_or_default();
        found = Some(match found.take() {
            Some(finding) => finding.label(take.span, format!("taken for {mass}")),
            None => Diagnostic::at(
                code::MASS_FROM_TABLES,
                take.span,
                format!("{} is written by the cup or spoon; the page prints {mass}, which a table says and not your scale.", say::capital(item.called())),
            )
            .hint("Weigh what you took and write grams; the page finds the cups."),
        });
    }
    found.into_iter().collect()
}

/// Preparations that change how much a cup holds.
const CHANGES_A_CUP: [&str; 14] = [
    "chopped", "sifted", "whipped", "grated", "crushed", "shredded", "mashed", "sliced", "diced",
    "ground", "melted", "cooked", "crumbled", "flaked",
];

fn before_or_after(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (item, _) in every_item(case) {
        let (Some(take), Some(state)) = (&item.take, &item.state) else {
            continue;
        };
        let Amount::Measures(_) = take.value else {
            continue;
        };
        let lower = state.value.to_lowercase();
        let done = CHANGES_A_CUP.iter().find(|word| {
            lower
                .split(|c: char| !c.is_alphabetic())
                .any(|one| one == **word)
        });
        let told = lower.contains("after") || lower.contains("before");
        let Some(done) = done.filter(|_| !told) else {
            continue;
        };
        found.push(
            Diagnostic::at(
                code::BEFORE_OR_AFTER,
                state.span,
                format!(
                    "{} of {}, {done}: a reader cannot tell whether the cup is filled before or after.",
                    say::amount(&take.value).replace('\u{a0}', " "),
                    item.called()
                ),
            )
            .label(take.span, "by the cup")
            .hint(format!("Give grams, or say \"{done} after measuring\".")),
        );
    }
    found
}
