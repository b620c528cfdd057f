//! The cook's own ingredients and what a pack says of known ones.

use super::composition::Known;
use super::names::{Found, plain};
use super::{AddedSugars, Composition, Ingredient, Larder, Nutrients, Role, StatementWords, Trans};
use crate::document::model::PantryEntry;
use crate::measure::Measure;
use crate::provenance::{Had, Origin};
use crate::source::{Diagnostic, Span, code};
use numerics::quantity::{Density, Fraction};

impl Larder {
    /// Puts the cook's own ingredients on the shelf, and says what is wrong with them.
    ///
    /// An entry shares the composition of what it is `like`, or of the ingredient that has its
    /// name. What its pack declares stands; everything else is scaled by one factor so that the
    /// whole stays what it was. An entry whose pack is impossible is put on the shelf without what
    /// its pack says; one whose `like` is unknown is put there with nothing but that.
    pub fn stock(&mut self, entries: &[PantryEntry]) -> Vec<Diagnostic> {
        let mut diagnostics = Vec::new();
        for entry in entries {
            let base = self.base_of(entry, &mut diagnostics);
            let ingredient = self.own(entry, base, &mut diagnostics);
            let nutrients = base.and_then(|place| {
                let before = &self.ingredients[place].composition;
                self.nutrients[place]
                    .as_ref()
                    .map(|all| all.changed(before, &ingredient.composition))
            });
            let nutrients = declared(entry, nutrients);
            let place = self.ingredients.len();
            self.names.add_own(&entry.name.value, place);
            self.ingredients.push(ingredient);
            self.nutrients.push(nutrients);
            let statement = base.and_then(|place| self.statements[place].clone());
            let statement = listed(entry, statement);
            self.statements.push(statement);
        }
        diagnostics
    }

    /// The row that an entry shares, when there is one.
    fn base_of(&self, entry: &PantryEntry, diagnostics: &mut Vec<Diagnostic>) -> Option<usize> {
        let asked = entry.like.as_ref().unwrap_or(&entry.name);
        let (code, message, hints): (_, _, Vec<String>) = match self.find(&asked.value) {
            Found::One(found) => return self.place_of(found),
            Found::Several(several) => (
                code::INGREDIENT_AMBIGUOUS,
                format!(
                    "“{}” could be several ingredients, so what it is made of is not known.",
                    asked.value
                ),
                several
                    .iter()
                    .map(|one| format!("like = \"{}\"", one.name))
                    .collect(),
            ),
            // A name of the cook's own need not be known.
            Found::Near(_) | Found::Nothing if entry.like.is_none() => return None,
            Found::Near(names) => (
                code::INGREDIENT_UNKNOWN,
                format!("The larder has no “{}”.", asked.value),
                names
                    .iter()
                    .map(|name| format!("like = \"{name}\""))
                    .collect(),
            ),
            Found::Nothing => (
                code::INGREDIENT_UNKNOWN,
                format!("The larder has no “{}”.", asked.value),
                vec!["Leave `like` out and write what the pack declares.".to_owned()],
            ),
        };
        let mut diagnostic = Diagnostic::at(code, asked.span, message);
        diagnostic.hints = hints;
        diagnostics.push(diagnostic);
        None
    }

    fn own(
        &self,
        entry: &PantryEntry,
        base: Option<usize>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Ingredient {
        let known = possible(entry, diagnostics);
        let origin = Origin::new("the recipe's pantry", Had::Written);
        let mut ingredient = base.map_or_else(
            || Ingredient {
                key: String::new(),
                name: String::new(),
                role: Role::Other,
                composition: Composition::unknown(origin.clone()),
                by_volume: None,
                by_count: Vec::new(),
                allergens_us: Vec::new(),
                allergens_eu: Vec::new(),
                names: Vec::new(),
                flags: Vec::new(),
            },
            |place| self.ingredients[place].clone(),
        );
        entry.name.value.trim().clone_into(&mut ingredient.name);
        ingredient.key = plain(&entry.name.value).replace(' ', "-");
        ingredient.names = vec![ingredient.name.to_lowercase()];
        if !known.is_empty() {
            let origin = match base {
                Some(_) => Origin::new(
                    format!(
                        "the pack; the rest from {}",
                        ingredient.composition.origin.source
                    ),
                    Had::Written,
                ),
                None => Origin::new("the pack", Had::Written),
            };
            ingredient.composition = ingredient.composition.with(&known, origin);
        }
        if let Some(cup) = &entry.cup {
            let density = Density::from_si(cup.value.si() / Measure::Cup.volume().si());
            let origin = Origin::new("a cup that the cook weighed", Had::Measured);
            ingredient.by_volume = Some((density, origin));
        }
        if let Some(allergens) = &entry.allergens {
            let declared: Vec<String> = allergens
                .iter()
                .map(|one| one.value.trim().to_lowercase())
                .collect();
            ingredient.allergens_us.clone_from(&declared);
            ingredient.allergens_eu = declared;
            ingredient
                .flags
                .retain(|flag| !flag.starts_with("allergen_by_pack"));
        }
        ingredient
    }
}

/// Nutrients with what the pack declares of fats and added sugars.
fn declared(entry: &PantryEntry, nutrients: Option<Nutrients>) -> Option<Nutrients> {
    let share = |written: &Option<crate::source::Located<Fraction>>| {
        written.as_ref().map(|written| written.value)
    };
    let (saturated, trans) = (share(&entry.saturated), share(&entry.trans));
    let added = share(&entry.added_sugars);
    if saturated.is_none() && trans.is_none() && added.is_none() {
        return nutrients;
    }
    let mut all = nutrients.unwrap_or_else(Nutrients::unknown);
    all.saturated = saturated.or(all.saturated);
    all.trans = trans.map_or(all.trans, Trans::Known);
    all.added_sugars = added.map_or(all.added_sugars, AddedSugars::About);
    Some(all)
}

/// The words of an ingredient list with the list of the pack.
fn listed(entry: &PantryEntry, words: Option<StatementWords>) -> Option<StatementWords> {
    let Some(list) = &entry.ingredients else {
        return words;
    };
    let mut words = words.unwrap_or_else(|| StatementWords {
        us: entry.name.value.trim().to_owned(),
        ..StatementWords::default()
    });
    words.parts = Some(list.value.trim().to_owned());
    words.from_pack = true;
    words.typical = false;
    words.malt = false;
    Some(words)
}

/// What the pack declares, or nothing when it cannot be.
fn possible(entry: &PantryEntry, diagnostics: &mut Vec<Diagnostic>) -> Known {
    let share = |written: &Option<crate::source::Located<Fraction>>| {
        written.as_ref().map(|written| written.value.si())
    };
    let known = Known {
        water: share(&entry.water),
        protein: share(&entry.protein),
        fat: share(&entry.fat),
        carbohydrate: None,
        sugars: share(&entry.sugars),
        salt: share(&entry.salt),
    };
    if known.can_be() {
        return known;
    }
    let written = [
        &entry.water,
        &entry.protein,
        &entry.fat,
        &entry.sugars,
        &entry.salt,
    ];
    let spans: Vec<Span> = written
        .iter()
        .filter_map(|one| one.as_ref().map(|one| one.span))
        .collect();
    let at = spans.last().copied().unwrap_or(entry.span);
    diagnostics.push(
        Diagnostic::at(
            code::PACK_IMPOSSIBLE,
            at,
            format!(
                "What the pack of “{}” declares cannot be: the shares come to {} % of it.",
                entry.name.value,
                numerics::decimal::trimmed(known.whole() * 100.0, 1)
            ),
        )
        .hint("Read the pack's figures again; they are for 100 g of it.")
        .because("Until then it counts as its table row says, without the pack."),
    );
    Known::default()
}
