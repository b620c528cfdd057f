//! What a swap changes in the bake: colour, keeping, rise, texture, each with where it is known from.

use super::naming::{Form, form};
use super::wish::Coming;
use numerics::decimal::trimmed;
use numerics::quantity::{Fraction, Mass};
use recipe::larder::{Ingredient, Role, YeastForm};
use recipe::substitution::{WATER_PER_POINT_RANGE, WHOLEGRAIN_WATER_RANGE, is_wholegrain};

/// What is known of one thing standing for another.
pub struct Known<'a> {
    /// What went out.
    pub old: &'a Ingredient,
    /// How much of it.
    pub out: Mass,
    /// All flour of the dough.
    pub flour: Mass,
}

impl Known<'_> {
    /// Sentences about the bake, each ending with its source in brackets.
    pub fn said(&self, coming: &[Coming]) -> Vec<String> {
        let mut said = Vec::new();
        let gluten = |one: &Coming| one.ingredient.key == "gluten_vital";
        let dry = |one: &Coming| one.ingredient.role == Role::MilkPowder;
        for one in coming {
            // What a helper makes up for is not said of the other.
            let helped = (coming.iter().any(gluten) && !gluten(one))
                || (coming.iter().any(dry) && !dry(one));
            if !helped {
                said.extend(self.of(one.ingredient, &one.name));
            }
        }
        let mut once = Vec::new();
        for sentence in said {
            if !once.contains(&sentence) {
                once.push(sentence);
            }
        }
        once
    }

    fn on_flour(&self) -> f64 {
        if self.flour > Mass::ZERO {
            self.out / self.flour
        } else {
            0.0
        }
    }

    fn of(&self, new: &Ingredient, name: &str) -> Vec<String> {
        match (self.old.role, new.role) {
            (Role::Yeast(from), Role::Yeast(to)) => yeast(from, to, self.out),
            (Role::Flour, Role::Flour) => self.flours(new),
            (Role::Flour, _) => vec![
                "Added gluten makes a weak flour strong enough to rise; the crumb is a little \
                 chewier (common practice)."
                    .to_owned(),
            ],
            (Role::Egg, Role::Egg) => eggs(self.old, new),
            (Role::Egg, _) => vec![
                "Without the egg's protein the crumb is closer and keeps a day less, and the crust \
                 is paler: look at it 2–3 min later (common practice)."
                    .to_owned(),
            ],
            (Role::Sugar, Role::Sugar) => self.sugars(new),
            (Role::Salt, Role::Salt) => salts(self.old, new, name, self.out),
            (Role::Fat, _) | (_, Role::Fat) => self.fats(new),
            (Role::Liquid | Role::MilkPowder, _) => liquids(self.old, new),
            _ => Vec::new(),
        }
    }

    fn flours(&self, new: &Ingredient) -> Vec<String> {
        let protein =
            |one: &Ingredient| one.composition.protein.unwrap_or(Fraction::ZERO).percent();
        let (was, is) = (protein(self.old), protein(new));
        let mut said = vec![format!(
            "The flour has {} % protein instead of {} %: the packs differ by more than a point, so \
             read yours. Bakers reckon {}–{} points of water to one of protein (common practice).",
            trimmed(is, 1),
            trimmed(was, 1),
            WATER_PER_POINT_RANGE.low,
            WATER_PER_POINT_RANGE.high
        )];
        match (is_wholegrain(self.old), is_wholegrain(new)) {
            (false, true) => {
                said[0] = format!(
                    "Wholemeal takes up {}–{} points more water for all of the flour (from memory), \
                     some advise more; the dough rises about 5 % less for each tenth swapped \
                     (common practice).",
                    WHOLEGRAIN_WATER_RANGE.low, WHOLEGRAIN_WATER_RANGE.high
                );
            }
            (true, false) => {
                "White flour takes up less water than wholemeal; the loaf rises higher (common \
                 practice)."
                    .clone_into(&mut said[0]);
            }
            _ if is < was - 0.5 => said.push(
                "A weaker flour wants less mixing, tears sooner and rises a little less; the crumb \
                 is softer (common practice)."
                    .to_owned(),
            ),
            _ if is > was + 0.5 => said.push(
                "A stronger flour wants longer mixing and rises a little higher; the crumb is \
                 chewier (common practice)."
                    .to_owned(),
            ),
            _ => {}
        }
        said
    }

    fn sugars(&self, new: &Ingredient) -> Vec<String> {
        let mut said = Vec::new();
        if form(new) == Form::Syrup && form(self.old) != Form::Syrup {
            let much = self.on_flour() > 0.08;
            let oven = if much {
                "turn the oven down 10 °C / 20 °F and look 3 min earlier"
            } else {
                "look at it 2 min earlier"
            };
            said.push(format!(
                "{} browns sooner than sugar: {oven}. The crumb keeps moist longer (common practice).",
                crate::ledger::say::capital(&new.name)
            ));
            if new.key == "honey" {
                said.push(
                    "Honey bread is not for children under one year (public health advice, from \
                     memory)."
                        .to_owned(),
                );
            }
        } else if form(self.old) == Form::Syrup && form(new) != Form::Syrup {
            said.push(
                "Sugar browns later than a syrup: look 2–3 min later (common practice).".to_owned(),
            );
        }
        if new.key == "sugar_brown" {
            said.push(
                "Brown sugar weighs in like white; it adds colour and a taste of molasses (common \
                 practice)."
                    .to_owned(),
            );
        }
        said
    }

    fn fats(&self, new: &Ingredient) -> Vec<String> {
        let mut said = Vec::new();
        match (form(self.old), form(new)) {
            (Form::SolidFat, Form::Oil) => said.push(
                "Oil does not firm up in the cold: the dough is softer to shape and rises a little \
                 less above some 15 % of fat; the crumb stays soft longer, and the taste of butter \
                 is gone (from memory)."
                    .to_owned(),
            ),
            (Form::Oil, Form::SolidFat) => said.push(
                "Butter goes in soft, after the flour is wet; chilled, the dough is firmer to shape \
                 (common practice)."
                    .to_owned(),
            ),
            (_, Form::Liquid) => said.push(
                "Cream brings its fat with much water; the dough is whiter and softer (common \
                 practice)."
                    .to_owned(),
            ),
            _ => {}
        }
        let salt = |one: &Ingredient| one.composition.sodium.unwrap_or(Fraction::ZERO).si() * 2.5;
        if salt(new) > 0.0025 && salt(self.old) <= 0.0025 && new.role == Role::Fat {
            said.push(format!(
                "{} has about {} % of salt, from 1.3 to 2 % by the pack (labels, read): the recipe's \
                 salt is less by that.",
                crate::ledger::say::capital(&new.name),
                trimmed(salt(new) * 100.0, 1)
            ));
        }
        if new
            .flags
            .iter()
            .any(|flag| flag.starts_with("allergen_by_pack"))
        {
            said.push(format!(
                "What {} holds differs by the pack: read its list.",
                new.name
            ));
        }
        said
    }
}

fn yeast(from: YeastForm, to: YeastForm, mass: Mass) -> Vec<String> {
    let mut said = Vec::new();
    let exact = from.swapped_for(mass, to).grams();
    let grams = |value: f64| crate::ledger::say::mass(Mass::from_grams(value));
    let other = match (from, to) {
        (YeastForm::Instant | YeastForm::InstantOsmotolerant, YeastForm::ActiveDry) => {
            Some(mass.grams() / 0.75)
        }
        (YeastForm::ActiveDry, YeastForm::Instant | YeastForm::InstantOsmotolerant) => {
            Some(mass.grams() * 0.75)
        }
        _ => None,
    };
    if let Some(other) = other {
        said.push(format!(
            "In all {} by the textbook's ratio; the kitchen rule of three quarters gives {} (common \
             practice). Either rises; go by the look of the dough.",
            grams(exact),
            grams(other)
        ));
    }
    match to {
        YeastForm::ActiveDry => said.push(
            "Active dry yeast wakes in liquid of 38–43 °C / 100–110 °F for 5–10 min, until it foams \
             (packets and home-economics leaflets, read)."
                .to_owned(),
        ),
        YeastForm::Fresh => said.push(
            "Fresh yeast is about 70 % water; the liquid is less by that. It keeps 3–4 weeks in the \
             refrigerator (a textbook, read)."
                .to_owned(),
        ),
        YeastForm::InstantOsmotolerant => said.push(
            "A yeast for sweet doughs works faster above some 10 % of sugar on flour; in a lean \
             dough it gains nothing (makers' pages, read)."
                .to_owned(),
        ),
        YeastForm::Instant if from == YeastForm::InstantOsmotolerant => said.push(
            "Ordinary instant yeast is slower where there is much sugar: allow a third more time \
             above some 10 % of sugar on flour (from memory)."
                .to_owned(),
        ),
        YeastForm::Instant => said.push(
            "Instant yeast goes into the flour dry and begins sooner: look at the first rise 5–10 \
             min earlier (from memory)."
                .to_owned(),
        ),
    }
    said
}

fn eggs(old: &Ingredient, new: &Ingredient) -> Vec<String> {
    if old.key == new.key {
        return Vec::new();
    }
    let sentence = match new.key.as_str() {
        "egg_yolk" => {
            "Yolks make a yellower, softer crumb that keeps longer and rises a little less (common \
             practice)."
        }
        "egg_white" => {
            "Whites make a paler, drier and chewier crumb that is stale sooner (common practice)."
        }
        _ => "Whole egg in place of its parts: the crumb is between the two (common practice).",
    };
    vec![sentence.to_owned()]
}

fn salts(old: &Ingredient, new: &Ingredient, name: &str, mass: Mass) -> Vec<String> {
    let spoons = |one: &Ingredient| {
        one.by_volume
            .as_ref()
            .map(|(density, _)| (mass / *density) / recipe::measure::Measure::Teaspoon.volume())
    };
    match (spoons(old), spoons(new)) {
        (Some(before), Some(after)) => vec![format!(
            "By mass salt is salt; by the spoon it is not: {} is {} tsp of {} and {} tsp of {}.",
            crate::ledger::say::mass(mass),
            trimmed(before, 1),
            old.name,
            trimmed(after, 1),
            name
        )],
        _ => Vec::new(),
    }
}

fn liquids(old: &Ingredient, new: &Ingredient) -> Vec<String> {
    let dairy = |one: &Ingredient| one.allergens_us.iter().any(|name| name.starts_with("milk"));
    let mut said = Vec::new();
    if dairy(old) && !dairy(new) {
        said.push(
            "Without milk sugar the crust browns later: look 2–3 min later; the crumb is a little \
             leaner (common practice)."
                .to_owned(),
        );
    }
    if !dairy(old) && dairy(new) {
        said.push(
            "Milk sugar browns and yeast leaves it: look 2–3 min earlier (common practice)."
                .to_owned(),
        );
    }
    if new.key.starts_with("buttermilk") {
        said.push(
            "Buttermilk is sour: the dough tightens, the crumb is tender and tastes of it (common \
             practice)."
                .to_owned(),
        );
    }
    if new.role == Role::MilkPowder {
        said.push(
            "Stir the dry milk into the flour; milk dried at high heat is kinder to the dough \
             (from memory)."
                .to_owned(),
        );
    }
    if new.key == "milk_goat" || new.key.contains("drink") {
        said.push(
            "Cartons differ in sugar, fat and salt: read yours (common practice).".to_owned(),
        );
    }
    said
}
