//! What is stuck on a bowl or tray while it stands: which stage, how long it may stand, what is in it.

use super::model::Figure;
use super::{allergens, figure, say};
use crate::Inputs;
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Action, Step};
use recipe::formula::{Formula, Resolved, ResolvedItem, StageSum};
use recipe::provenance::{Had, Origin};

/// A label.
#[derive(Clone, Debug, PartialEq)]
pub struct BowlLabel {
    /// "Sponge", "Braid, shaped".
    pub heading: String,
    /// "45–75 min at 26 °C / 79 °F"; one for each rest, in order.
    pub stands: Vec<String>,
    /// "Contains wheat (gluten) and milk."
    pub contains: String,
    /// "380 g".
    pub mass: Option<Figure>,
    /// The figures in `stands`.
    pub figures: Vec<Figure>,
}

/// At most so many rests go on a label; a stage with more has them on its bench sheet.
const RESTS: usize = 3;

/// One for each stage, and one for each product that stands after shaping.
pub fn labels(inputs: &Inputs) -> Vec<BowlLabel> {
    let recipe = inputs.recipe;
    let mut labels = Vec::new();
    for (stage, sum) in recipe.stages.iter().zip(&inputs.formula.stages) {
        let name = &stage.name.value;
        let mut label = label(&format!("stage.{name}"), say::capital(name), &stage.steps);
        label.contains =
            allergens::of_items(held(inputs.formula, sum).into_iter(), inputs.market).contains;
        label.mass = Some(figure(
            format!("bowl.stage.{name}.mass"),
            sum.mass.si(),
            numerics::quantity::Mass::SI,
            say::mass(sum.mass),
            Origin::new("sum over the written items", Had::Derived),
        ));
        labels.push(label);
    }
    for product in &recipe.products {
        let name = &product.name.value;
        let heading = format!("{}, shaped", say::capital(name));
        let mut label = label(&format!("product.{name}"), heading, &product.steps);
        if label.stands.is_empty() {
            continue;
        }
        label.contains = allergens::line(inputs).contains;
        labels.push(label);
    }
    labels
}

fn label(place: &str, heading: String, steps: &[Step]) -> BowlLabel {
    let mut label = BowlLabel {
        heading,
        stands: Vec::new(),
        contains: String::new(),
        mass: None,
        figures: Vec::new(),
    };
    for (at, step) in steps.iter().enumerate() {
        if let Action::Rest {
            timing, at: warm, ..
        } = &step.action
            && label.stands.len() < RESTS
        {
            let origin = Origin::new("the recipe", Had::Written);
            let usual = timing.usual.value;
            let shown = match &timing.range {
                Some(range) => say::duration_range(range.value),
                None => say::duration(usual),
            };
            let time = figure(
                format!("bowl.{place}.{at}.time"),
                usual.si(),
                Duration::SI,
                shown,
                origin.clone(),
            );
            let warm = figure(
                format!("bowl.{place}.{at}.at"),
                warm.value.si(),
                Temperature::SI,
                say::temperature(warm.value),
                origin,
            );
            label
                .stands
                .push(format!("{} at {}", time.shown, warm.shown));
            label.figures.extend([time, warm]);
        }
    }
    label
}

/// Every item that a stage holds, those of the stages inside it included.
fn held<'a>(formula: &'a Formula, sum: &'a StageSum) -> Vec<&'a ResolvedItem> {
    let mut all = Vec::new();
    let mut open = vec![sum];
    // A stage goes only into later ones, so this comes to an end; the bound is for what was
    // written in a circle and reported as such.
    let mut most = formula.stages.len() + 1;
    while let Some(stage) = open.pop() {
        for item in &stage.items {
            all.push(item);
            if let Resolved::Stage(inner) = &item.what
                && let Some(inner) = formula.stages.get(*inner)
                && most > 0
            {
                most -= 1;
                open.push(inner);
            }
        }
    }
    all
}
