//! The sums of a recipe: stage by stage, the dough, the products, and what does not fit.

use super::bands::{Measured, band};
use super::flow::{Flow, Take};
use super::model::{Formula, PartSum, Resolved, ResolvedItem, StageSum};
use super::products::{filling_in_one, product_sum};
use crate::document::model::Recipe;
use crate::source::{Checked, Diagnostic, Span, code};
use numerics::decimal::trimmed;
use numerics::quantity::{Fraction, Mass};

/// Items of a recipe with their ingredients and masses, each list in written order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Resolution {
    /// Items of each stage.
    pub stages: Vec<Vec<ResolvedItem>>,
    /// For each product, what one piece gets besides dough.
    pub with: Vec<Vec<ResolvedItem>>,
    /// Items for bench, tin and top.
    pub besides: Vec<ResolvedItem>,
}

/// A take beyond what there is by less than this share is rounding, not a fault.
const ROUNDING: f64 = 0.001;

/// Adds everything up. Names and weights have been looked up before.
pub fn add_up(recipe: &Recipe, resolution: Resolution) -> Checked<Formula> {
    let Resolution {
        mut stages,
        with,
        besides,
    } = resolution;
    stages.resize(recipe.stages.len(), Vec::new());
    let mut with = with;
    with.resize(recipe.products.len(), Vec::new());

    let evaporates: Vec<Mass> = recipe
        .stages
        .iter()
        .map(|stage| {
            stage
                .evaporates
                .as_ref()
                .map_or(Mass::ZERO, |mass| mass.value)
        })
        .collect();
    let source: Vec<Option<usize>> = recipe
        .products
        .iter()
        .map(|product| {
            recipe
                .stages
                .iter()
                .position(|stage| stage.name.value == product.from.value)
        })
        .collect();
    let ends: Vec<bool> = (0..stages.len())
        .map(|stage| source.contains(&Some(stage)))
        .collect();

    let flow = Flow::follow(&stages, &evaporates, &ends);
    let dough = flow.dough();
    let preferments = flow.preferments(&ends, &dough);
    let of_dough = |mass: Mass| dough.of_flour(mass).unwrap_or(Fraction::ZERO);
    let prefermented_flour = of_dough(flow.prefermented(&preferments));

    let mut diagnostics = figures_unknown(recipe, &stages, &flow);
    diagnostics.extend(evaporates_too_much(recipe, &flow, &evaporates));

    let sums = stages
        .into_iter()
        .enumerate()
        .map(|(place, items)| {
            let reach = flow.reach[place];
            let taken = flow.takes.iter().filter(|take| take.by == place);
            let items = finish(items, taken, reach, &dough);
            StageSum {
                name: recipe.stages[place].name.value.clone(),
                in_dough: reach > 0.0,
                preferment: preferments[place],
                items,
                mass: flow.holds[place].mass,
                evaporates: evaporates[place],
                flour_share: of_dough(flow.own[place].flour * reach),
                holds: flow.holds[place].clone(),
            }
        })
        .collect();

    let stage_mass = |stage: usize| flow.holds[stage].mass;
    let products: Vec<_> = recipe
        .products
        .iter()
        .zip(&with)
        .map(|(product, with)| product_sum(product, with, stage_mass))
        .collect();
    let cut: Mass = products.iter().map(|product| product.dough).sum();

    let formula = Formula {
        stages: sums,
        prefermented_flour,
        trim: dough.mass - cut,
        products,
        besides,
        dough,
    };
    diagnostics.extend(no_flour(recipe, &formula, &ends));
    diagnostics.extend(stages_overdrawn(recipe, &flow, &with));
    if formula.is_whole() {
        diagnostics.extend(cutting(recipe, &formula, &flow, &source));
    }
    diagnostics.sort_by_key(|d| d.span.map_or((1, Span::default()), |span| (0, span)));
    Checked {
        output: formula,
        diagnostics,
    }
}

/// Gives items their share of the flour, and whole stages their mass.
fn finish<'a>(
    mut items: Vec<ResolvedItem>,
    takes: impl Iterator<Item = &'a Take>,
    reach: f64,
    dough: &PartSum,
) -> Vec<ResolvedItem> {
    for take in takes {
        items[take.item].mass = Some(take.mass);
    }
    for item in &mut items {
        item.of_flour = match (&item.what, item.mass) {
            (Resolved::Ingredient(_), Some(mass)) if reach > 0.0 => dough.of_flour(mass * reach),
            _ => None,
        };
    }
    items
}

/// Figures that the sums wanted and the larder does not have.
fn figures_unknown(recipe: &Recipe, stages: &[Vec<ResolvedItem>], flow: &Flow) -> Vec<Diagnostic> {
    let mut said = Vec::new();
    let mut diagnostics = Vec::new();
    for (place, items) in stages.iter().enumerate() {
        if flow.reach[place] <= 0.0 {
            continue;
        }
        for (item, resolved) in items.iter().enumerate() {
            let (Resolved::Ingredient(ingredient), Some(mass)) = (&resolved.what, resolved.mass)
            else {
                continue;
            };
            for (name, figure) in super::contribution::brings(ingredient, mass).unknown {
                if said.contains(&(name.clone(), figure)) {
                    continue;
                }
                let span = recipe.stages[place].items[item].span;
                let message = format!(
                    "The {figure} of {name} is not known, so the dough's sum leaves it out."
                );
                // A pack declares sodium as salt.
                let key = if figure == "sodium" { "salt" } else { figure };
                let hint = format!(
                    "Write what the pack declares: [[pantry]] with name = \"{name}\" and its {key}."
                );
                diagnostics.push(Diagnostic::at(code::FIGURE_UNKNOWN, span, message).hint(hint));
                said.push((name, figure));
            }
        }
    }
    diagnostics
}

/// Stages out of which more water is said to go than went in.
fn evaporates_too_much(recipe: &Recipe, flow: &Flow, evaporates: &[Mass]) -> Vec<Diagnostic> {
    let mut diagnostics = Vec::new();
    for (place, written) in recipe.stages.iter().enumerate() {
        let left = flow.holds[place].water;
        let Some(at) = written.evaporates.as_ref().filter(|_| left < Mass::ZERO) else {
            continue;
        };
        let held = left + evaporates[place];
        let message = format!(
            "{} of water leave {}, which holds {} of water.",
            grams(evaporates[place]),
            written.name.value,
            grams(held)
        );
        diagnostics.push(
            Diagnostic::at(code::EVAPORATES_TOO_MUCH, at.span, message)
                .hint("Weigh the pan before and after cooking; the difference evaporated."),
        );
    }
    diagnostics
}

/// A dough without flour has no percentages. Said only when every item was found and weighed.
fn no_flour(recipe: &Recipe, formula: &Formula, ends: &[bool]) -> Option<Diagnostic> {
    if formula.dough.flour > Mass::ZERO || !formula.is_whole() {
        return None;
    }
    let last = ends.iter().rposition(|end| *end)?;
    let stage = &recipe.stages[last];
    let message = format!(
        "{} holds no flour, and every percentage is a share of the flour.",
        stage.name.value
    );
    Some(
        Diagnostic::at(code::NO_FLOUR, stage.span, message)
            .hint("Name the flour among its items, or name the stage that holds it."),
    )
}

/// Stages of which more is taken than there is.
fn stages_overdrawn(recipe: &Recipe, flow: &Flow, with: &[Vec<ResolvedItem>]) -> Vec<Diagnostic> {
    let mut diagnostics = Vec::new();
    let stage_mass = |stage: usize| flow.holds[stage].mass;
    for (place, stage) in recipe.stages.iter().enumerate() {
        let mut taken = Mass::ZERO;
        let mut last = None;
        for take in flow.takes.iter().filter(|take| take.of == place) {
            taken += take.mass;
            last = recipe.stages[take.by]
                .items
                .get(take.item)
                .map(|item| item.span);
        }
        for (product, items) in recipe.products.iter().zip(with) {
            for (index, item) in items.iter().enumerate() {
                if item.what != Resolved::Stage(place) {
                    continue;
                }
                let count = product.count.value;
                taken += filling_in_one(item, count, &stage_mass) * f64::from(count);
                last = product.with.get(index).map(|item| item.span).or(last);
            }
        }
        let there = flow.holds[place].mass;
        let over = taken - there;
        let Some(span) = last.filter(|_| is_more_than_rounding(over, there)) else {
            continue;
        };
        let message = format!(
            "{} of {} are taken in all, and it comes to {}: {} are missing.",
            grams(taken),
            stage.name.value,
            grams(there),
            grams(over)
        );
        let hint = if over > there * 0.9 && recipe.products.iter().all(|p| p.with.is_empty()) {
            format!(
                "Take part of {} in each place: take = \"100 g\".",
                stage.name.value
            )
        } else {
            format!(
                "Make {} of {}, or take less of it.",
                grams(taken),
                stage.name.value
            )
        };
        diagnostics.push(
            Diagnostic::at(code::STAGE_OVERDRAWN, span, message)
                .label(stage.name.span, format!("comes to {}", grams(there)))
                .hint(hint),
        );
    }
    diagnostics
}

/// Whether a shortfall is more than a thousandth and more than half a gram.
fn is_more_than_rounding(over: Mass, whole: Mass) -> bool {
    over > whole * ROUNDING && over > Mass::from_grams(0.5)
}

/// Whether the pieces come out of the dough, and how much is left over.
fn cutting(
    recipe: &Recipe,
    formula: &Formula,
    flow: &Flow,
    source: &[Option<usize>],
) -> Vec<Diagnostic> {
    let mut diagnostics = Vec::new();
    for stage in 0..recipe.stages.len() {
        let cut_here = || {
            let pairs = formula.products.iter().zip(source).enumerate();
            pairs.filter(move |(_, (_, from))| **from == Some(stage))
        };
        let Some((last, _)) = cut_here().next_back() else {
            continue;
        };
        let takes = flow.takes.iter().filter(|take| take.of == stage);
        let elsewhere: Mass = takes.map(|take| take.mass).sum();
        let there = flow.holds[stage].mass - elsewhere;
        let wanted: Mass = cut_here().map(|(_, (product, _))| product.dough).sum();
        let over = wanted - there;
        let name = &recipe.stages[stage].name.value;
        let mut diagnostic = if is_more_than_rounding(over, there) {
            let message = format!(
                "The pieces want {} of {name}, which comes to {}: {} are missing.",
                grams(wanted),
                grams(there),
                grams(over)
            );
            let factor = trimmed(there / wanted * 100.0, 1);
            Diagnostic::at(
                code::PIECES_EXCEED_DOUGH,
                recipe.products[last].piece.span,
                message,
            )
            .hint(format!(
                "Make each piece {factor} % of its mass, or fewer pieces."
            ))
        } else if let Some(high) = too_much_left(-over, there, recipe) {
            let share = trimmed(-over / there * 100.0, 1);
            let message = format!(
                "{} of {name} are left when all pieces are cut: {share} % of it, and up to {} % is usual.",
                grams(-over),
                trimmed(high.percent(), 1)
            );
            Diagnostic::at(code::TRIM_LARGE, recipe.products[last].piece.span, message)
                .hint("Make the pieces heavier, or say what becomes of the rest.")
        } else {
            continue;
        };
        diagnostic = diagnostic.label(
            recipe.stages[stage].name.span,
            format!("comes to {}", grams(there)),
        );
        for (_, (product, _)) in cut_here() {
            diagnostic = diagnostic.because(format!(
                "{}: {} x {} = {}",
                product.name,
                product.count,
                grams(product.piece),
                grams(product.dough)
            ));
        }
        diagnostics.push(diagnostic);
    }
    diagnostics
}

/// The usual limit of what is left, when more than that is.
fn too_much_left(left: Mass, there: Mass, recipe: &Recipe) -> Option<Fraction> {
    let band = band(recipe.kind.value, Measured::Trim)?;
    let high = Fraction::from_si(band.high);
    (there > Mass::ZERO && left > there * high.si()).then_some(high)
}

/// Grams as a sentence says them: one decimal below 100 g and where a tenth is written.
fn grams(mass: Mass) -> String {
    format!("{} g", trimmed(mass.grams(), 1))
}
