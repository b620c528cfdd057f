//! What a stage's dough is made of, from the formula: composition, yeast, what the yeast feels.

use super::matter::Holds;
use crate::mix::goes_in::is_butter;
use crate::physics::proximate::Proximate;
use numerics::quantity::Mass;
use recipe::document::model::{Action, Recipe};
use recipe::formula::model::{Formula, Resolved};
use recipe::larder::{Role, YeastForm};

/// Sums over a stage, kg.
#[derive(Clone, Copy, Debug, Default)]
struct Sums {
    mass: f64,
    known: f64,
    made_of: Proximate,
    milk_fat: f64,
}

impl Sums {
    fn add(&mut self, made_of: &Proximate, mass: f64) {
        let sum = &mut self.made_of;
        sum.water += made_of.water * mass;
        sum.protein += made_of.protein * mass;
        sum.fat += made_of.fat * mass;
        sum.carbohydrate += made_of.carbohydrate * mass;
        sum.fibre += made_of.fibre * mass;
        sum.salt += made_of.salt * mass;
        sum.ash += made_of.ash * mass;
        sum.alcohol += made_of.alcohol * mass;
        self.known += mass;
    }
}

/// What the dough of a stage holds; none when it holds no flour or hardly anything in it is known.
pub fn of_stage(recipe: &Recipe, formula: &Formula, stage: usize) -> Option<Holds> {
    let mut sums = Sums::default();
    gather(formula, stage, 1.0, 0, &mut sums)?;
    let sum = &formula.stages.get(stage)?.holds;
    let mass = sum.mass.si();
    // A third of a dough that nobody knows anything of is not worked out.
    if mass <= 0.0 || sums.known < 0.67 * sums.mass || sum.flour <= Mass::ZERO {
        return None;
    }
    let share = |part: Mass| part.si() / mass;
    Some(Holds {
        made_of: sums.made_of.whole()?,
        milk_fat: sums.milk_fat / mass,
        flour: share(sum.flour),
        sugar: share(sum.sugar),
        yeast: share(sum.yeast_fresh),
        form: form(formula, stage, 0).unwrap_or(YeastForm::Instant),
        woken: recipe.stages.iter().take(stage + 1).any(|written| {
            let wakes = |action: &Action| matches!(action, Action::Wake { .. });
            written.steps.iter().any(|step| wakes(&step.action))
        }),
        power: 1.0,
        protein: sum.flour_protein.si() / sum.flour.si(),
    })
}

/// Deepest nesting of stages; a document has each only once, so this is never reached.
const DEEPEST: usize = 64;

fn gather(formula: &Formula, stage: usize, part: f64, depth: usize, sums: &mut Sums) -> Option<()> {
    let written = formula.stages.get(stage).filter(|_| depth < DEEPEST)?;
    for item in &written.items {
        let Some(mass) = item.mass.map(|mass| mass.si() * part) else {
            continue;
        };
        match &item.what {
            Resolved::Ingredient(ingredient) => {
                sums.mass += mass;
                if let Some(made_of) = Proximate::of(&ingredient.composition) {
                    sums.add(&made_of, mass);
                    if is_butter(ingredient) {
                        sums.milk_fat += made_of.fat * mass;
                    }
                }
            }
            Resolved::Stage(inner) => {
                let whole = formula.stages.get(*inner)?.mass.si();
                if whole > 0.0 {
                    gather(formula, *inner, mass / whole, depth + 1, sums)?;
                }
            }
            Resolved::Unknown(_) => sums.mass += mass,
        }
    }
    let steam = written.evaporates.si() * part;
    sums.made_of.water = (sums.made_of.water - steam).max(0.0);
    Some(())
}

/// The form of most of the yeast in a stage, earlier stages last.
fn form(formula: &Formula, stage: usize, depth: usize) -> Option<YeastForm> {
    let written = formula.stages.get(stage).filter(|_| depth < DEEPEST)?;
    let own = written.items.iter().find_map(|item| match &item.what {
        Resolved::Ingredient(ingredient) => match ingredient.role {
            Role::Yeast(form) => Some(form),
            _ => None,
        },
        _ => None,
    });
    own.or_else(|| {
        written.items.iter().find_map(|item| match item.what {
            Resolved::Stage(inner) => form(formula, inner, depth + 1),
            _ => None,
        })
    })
}
