//! How the shelves are filled from the tables, and what is mended on the way.

use super::composition::{CompositionColumns, Known};
use super::egg::{Grading, egg_classes};
use super::household::Household;
use super::names::Names;
use super::nutrients::{NutrientColumns, Trans};
use super::roles::{Duty, Roles, measure_of, role_of};
use super::table::{ADDITIONS, INGREDIENTS, LABELS, NAMES, Table};
use super::{Ingredient, Larder};
use crate::provenance::{Had, Origin};
use numerics::quantity::{Density, Mass};
use std::collections::BTreeMap;

/// Fills the larder.
pub(super) fn fill() -> Larder {
    let mut larder = Larder {
        ingredients: Vec::new(),
        nutrients: Vec::new(),
        statements: Vec::new(),
        names: Names::default(),
    };
    let mut table_names = rows(&mut larder);
    trans_of_unsalted_butter(&mut larder);
    egg_sizes(&mut larder);
    additions(&mut larder, &mut table_names);
    names(&mut larder, &table_names);
    larder
}

/// The rows of USDA; gives the names that the tables use.
fn rows(larder: &mut Larder) -> Vec<String> {
    let table = Table::read(INGREDIENTS);
    let [key, name, group, flags] = table.columns(["key", "name", "group", "flags"]);
    let composition = CompositionColumns::of(&table);
    let nutrients = NutrientColumns::of(&table);
    let packs = Table::read(LABELS);
    let (roles, household, labels) = (Roles::read(), Household::read(), labels(&packs));
    let mut statements = super::statement::words(&packs);
    let mut table_names = Vec::new();
    for row in table.rows() {
        let key = row.text(key);
        let Duty { role, measure } = roles.of(key, row.text(group));
        let mut flags: Vec<String> = row
            .text(flags)
            .split_whitespace()
            .map(str::to_owned)
            .collect();
        let (allergens_us, allergens_eu) = labels.get(key).map_or_else(Default::default, |label| {
            let us = allergens(label.0, "tree nut", &mut flags);
            (us, allergens(label.1, "nuts", &mut flags))
        });
        larder.ingredients.push(Ingredient {
            key: key.to_owned(),
            name: row.text(name).to_owned(),
            role,
            composition: composition.read(row),
            by_volume: household.density(key, measure),
            by_count: household.counts(key),
            allergens_us,
            allergens_eu,
            names: Vec::new(),
            flags,
        });
        larder.nutrients.push(Some(nutrients.read(row)));
        larder.statements.push(statements.remove(key));
        table_names.push(row.text(name).to_owned());
    }
    table_names
}

/// Allergens of each key as the table writes them: United States, Europe.
fn labels(table: &Table) -> BTreeMap<&str, (&str, &str)> {
    let [key, us, eu] = table.columns(["key", "us_major_allergens", "eu_annex_ii_allergens"]);
    table
        .rows()
        .map(|row| (row.text(key), (row.text(us), row.text(eu))))
        .collect()
}

/// Reads "gluten:wheat,rye; milk*". A star says that it depends on the pack: the allergen counts
/// as there, and a flag asks to read the pack.
fn allergens(text: &str, nuts: &str, flags: &mut Vec<String>) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for part in text.split(';').flat_map(|part| part.split(", ")) {
        let part = part.trim();
        let (part, by_pack) = part
            .strip_suffix('*')
            .map_or((part, false), |part| (part, true));
        if part.is_empty() {
            continue;
        }
        match part.split_once(':') {
            Some((family, kinds)) => {
                let family = if family.contains("nut") { nuts } else { family };
                all.extend(
                    kinds
                        .split(',')
                        .map(|kind| format!("{family}: {}", kind.trim())),
                );
            }
            None => all.push(part.to_owned()),
        }
        let flag = format!("allergen_by_pack:{part}");
        if by_pack && !flags.contains(&flag) {
            flags.push(flag);
        }
    }
    all
}

/// USDA reports trans fat of salted butter and leaves it blank for unsalted, which is the same
/// butter: the figure is carried over by fat.
fn trans_of_unsalted_butter(larder: &mut Larder) {
    let place = |key: &str| larder.ingredients.iter().position(|one| one.key == key);
    let (Some(salted), Some(unsalted)) = (place("butter_salted"), place("butter_unsalted")) else {
        return;
    };
    let fats = (
        larder.ingredients[salted].composition.fat,
        larder.ingredients[unsalted].composition.fat,
    );
    let known = larder.nutrients[salted].as_ref().map(|all| all.trans);
    if let ((Some(from), Some(to)), Some(Trans::Known(share)), Some(all)) =
        (fats, known, larder.nutrients[unsalted].as_mut())
    {
        all.trans = Trans::Known(share * (to / from));
    }
}

/// Egg classes that USDA's weights leave out: peewee, and those of Europe by their letters.
fn egg_sizes(larder: &mut Larder) {
    let classes = egg_classes();
    for egg in larder
        .ingredients
        .iter_mut()
        .filter(|one| one.key.ends_with("egg_whole"))
    {
        for class in &classes {
            let known = egg.by_count.iter().any(|(word, ..)| *word == class.word);
            if !known || class.grading == Grading::Eu {
                egg.by_count
                    .push((class.word.clone(), class.edible, class.origin.clone()));
            }
        }
    }
}

/// What USDA does not have: rows that share another's composition.
fn additions(larder: &mut Larder, table_names: &mut Vec<String>) {
    let table = Table::read(ADDITIONS);
    let [key, like, name, role] = table.columns(["key", "like", "name", "role"]);
    let [measure, grams, count, source, had] =
        table.columns(["measure", "grams", "count", "source", "had"]);
    let shares = table.columns(["water", "protein", "fat", "carbohydrate"]);
    for row in table.rows() {
        let Some(base) = larder
            .ingredients
            .iter()
            .position(|one| one.key == row.text(like))
        else {
            continue;
        };
        let origin = Origin::new(
            row.text(source),
            Had::from_word(row.text(had)).unwrap_or(Had::CommonPractice),
        );
        let [water, protein, fat, carbohydrate] = shares.map(|column| row.number(column));
        let known = Known {
            water,
            protein,
            fat,
            carbohydrate,
            ..Known::default()
        };
        let mut one = larder.ingredients[base].clone();
        if !known.is_empty() {
            let source = format!(
                "{}; the rest from {}",
                origin.source, one.composition.origin.source
            );
            one.composition = one
                .composition
                .with(&known, Origin::new(source, origin.had));
        }
        row.text(key).clone_into(&mut one.key);
        row.text(name).clone_into(&mut one.name);
        one.role = role_of(row.text(role));
        one.by_volume = row.number(grams).map(|grams| {
            let volume = measure_of(row.text(measure)).volume();
            (
                Density::from_si(Mass::from_grams(grams).si() / volume.si()),
                origin.clone(),
            )
        });
        one.by_count = row
            .text(count)
            .split(';')
            .filter_map(|count| {
                let (word, grams) = count.split_once('=')?;
                Some((
                    word.to_owned(),
                    Mass::from_grams(grams.parse().ok()?),
                    origin.clone(),
                ))
            })
            .collect();
        let nutrients = larder.nutrients[base]
            .as_ref()
            .map(|all| all.changed(&larder.ingredients[base].composition, &one.composition));
        table_names.push(one.name.clone());
        let statement = larder.statements[base].clone();
        larder.ingredients.push(one);
        larder.nutrients.push(nutrients);
        larder.statements.push(statement);
    }
}

/// The names that people use; the first one is what pages print.
fn names(larder: &mut Larder, table_names: &[String]) {
    let places: BTreeMap<String, usize> = larder
        .ingredients
        .iter()
        .enumerate()
        .map(|(place, one)| (one.key.clone(), place))
        .collect();
    let table = Table::read(NAMES);
    let [key, name] = table.columns(["key", "name"]);
    for row in table.rows() {
        let Some(place) = places.get(row.text(key)) else {
            continue;
        };
        let one = &mut larder.ingredients[*place];
        if one.names.is_empty() {
            row.text(name).clone_into(&mut one.name);
        }
        one.names.push(row.text(name).to_lowercase());
        larder.names.add(row.text(name), *place);
    }
    for (place, one) in larder.ingredients.iter_mut().enumerate() {
        if one.names.is_empty() {
            one.names.push(one.name.to_lowercase());
        }
        larder.names.add_if_free(&table_names[place], place);
        larder.names.add_if_free(&one.key, place);
    }
}
