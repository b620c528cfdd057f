//! Who may stand for whom in a dough, and why some may not.

use super::flour::forms_gluten;
use crate::larder::{Ingredient, Role};

/// Flour without gluten may be at most this share of a swap; common practice.
const WITHOUT_GLUTEN_UP_TO: f64 = 0.20;

/// Rye and barley hold no gas of their own: at most this share; common practice.
const RYE_UP_TO: f64 = 0.30;

/// A cream has more fat than this (half and half 10 %, light cream 19 %: USDA SR28).
const CREAM_FROM: f64 = 0.10;

/// Why a swap is refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The reason, in a sentence.
    pub reason: String,
    /// What could be done instead.
    pub instead: Option<String>,
}

impl Refusal {
    fn new(reason: impl Into<String>, instead: Option<&str>) -> Self {
        Self {
            reason: reason.into(),
            instead: instead.map(str::to_owned),
        }
    }
}

/// Whether an ingredient may stand for another; `share` is how much of it goes out.
pub fn may_stand(old: &Ingredient, new: &[&Ingredient], share: f64) -> Result<(), Refusal> {
    if new.is_empty() {
        return may_go(old);
    }
    for one in new {
        may_stand_alone(old, one, share)?;
    }
    Ok(())
}

/// Whether an ingredient may go with nothing of its kind in its place.
fn may_go(old: &Ingredient) -> Result<(), Refusal> {
    let refused = |reason: &str, instead| Err(Refusal::new(reason, instead));
    match old.role {
        Role::Egg | Role::Flavour | Role::Addition => Ok(()),
        Role::Salt => refused(
            "Without salt this is another bread: the dough rises too fast, tears and tastes of \
             nothing.",
            Some("A salt of another kind keeps it, by mass."),
        ),
        Role::Yeast(_) => refused(
            "Without yeast the dough does not rise.",
            Some("Another form of yeast keeps it: fresh, active dry or instant."),
        ),
        Role::Flour => refused("Without its flour there is no bread.", None),
        Role::Liquid => refused(
            "Without its liquid the flour cannot become dough.",
            Some("Water, another milk or a plant drink may stand for it."),
        ),
        Role::Fat => refused(
            "Left out, the fat would leave another bread: drier, with a harder crust.",
            Some("Oil may stand for it, with water for the butter's own."),
        ),
        Role::Sugar => refused(
            "Left out, the sugar would leave a paler bread that rises faster, with other times.",
            Some("Honey or a syrup may stand for it."),
        ),
        Role::MilkPowder | Role::Other => {
            refused("What this does in the dough, nothing else here does.", None)
        }
    }
}

/// Whether one ingredient may stand for another, alone or with helpers.
fn may_stand_alone(old: &Ingredient, new: &Ingredient, share: f64) -> Result<(), Refusal> {
    let fat = |one: &Ingredient| {
        one.composition
            .fat
            .map_or(0.0, numerics::quantity::Fraction::si)
    };
    let cream = |one: &Ingredient| one.role == Role::Liquid && fat(one) > CREAM_FROM;
    match (old.role, new.role) {
        (Role::Flour, Role::Flour) => flour(old, new, share),
        (Role::Flour, _) if forms_gluten(new) => Ok(()),
        (Role::Yeast(_), Role::Yeast(_))
        | (Role::Salt, Role::Salt)
        | (Role::Sugar, Role::Sugar)
        | (Role::Fat, Role::Fat)
        | (Role::Egg, Role::Egg | Role::Liquid | Role::Fat)
        | (Role::Liquid | Role::MilkPowder, Role::Liquid | Role::MilkPowder)
        | (Role::Flavour, Role::Flavour)
        | (Role::Addition, Role::Addition) => Ok(()),
        // Cream is a liquid with fat, butter a fat with water.
        (Role::Liquid, Role::Fat) if cream(old) => Ok(()),
        (Role::Fat, Role::Liquid) if cream(new) => Ok(()),
        (Role::Yeast(_), _) => Err(Refusal::new(
            format!(
                "{} raises no yeast dough, and the times and sentences here are those of yeast.",
                capital(&new.name)
            ),
            Some("Another form of yeast keeps the bread: fresh, active dry or instant."),
        )),
        _ => Err(Refusal::new(
            format!(
                "{} does another work in a dough than {}.",
                capital(&new.name),
                old.name
            ),
            None,
        )),
    }
}

/// Whether a flour may stand for another.
fn flour(old: &Ingredient, new: &Ingredient, share: f64) -> Result<(), Refusal> {
    if new.key == "flour_self_rising_enriched" {
        return Err(Refusal::new(
            "Self-rising flour brings baking powder and salt of its own, which a yeast dough does \
             not want.",
            Some("All-purpose (plain) flour is the same flour without them."),
        ));
    }
    if forms_gluten(new) || !forms_gluten(old) {
        return Ok(());
    }
    let rye = new
        .allergens_eu
        .iter()
        .any(|one| ["gluten: rye", "gluten: barley"].contains(&one.as_str()));
    let most = if rye { RYE_UP_TO } else { WITHOUT_GLUTEN_UP_TO };
    if share <= most + 1e-9 {
        return Ok(());
    }
    Err(Refusal::new(
        format!(
            "The gluten of wheat holds the gas in this dough; {} has none that does. A bread of \
             it is a different recipe, with binders and a batter's water.",
            new.name
        ),
        Some(if rye {
            "Up to 30 % of the flour can be swapped for it."
        } else {
            "Up to 20 % of the flour can be swapped for it."
        }),
    ))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
