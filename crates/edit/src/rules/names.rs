//! Whether things are named so that a reader buys and uses the same: tins, flour, butter.

use super::limits::Limit;
use super::route::{ingredients, is_butter};
use super::{Case, Rule};
use crate::code;
use crate::ledger::readers;
use numerics::decimal::fixed;
use numerics::quantity::{Fraction, Length, Volume};
use recipe::document::model::{Amount, Tin, TinSize};
use recipe::larder::Role;
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[tins, flour, butter, salt, sugars];

fn tins(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for tin in case
        .inputs
        .recipe
        .products
        .iter()
        .filter_map(|product| product.tin.as_ref())
    {
        let Some(box_volume) = around(&tin.size.value) else {
            found.extend(flat_tin(tin));
            continue;
        };
        match &tin.holds {
            // A round mould stands straight, so its dimensions say what it holds.
            None if matches!(tin.size.value, TinSize::Round { .. }) => {}
            None => found.push(
                Diagnostic::at(
                    code::TIN_WITHOUT_VOLUME,
                    tin.size.span,
                    format!(
                        "It is not said how much the {} holds; tins of one size differ by their \
                         sloping walls.",
                        tin.name.value
                    ),
                )
                .hint(format!(
                    "Fill it with water to the brim on a scale and write `holds`; straight walls \
                     would give {}.",
                    readers::tin_volume(box_volume, case.inputs.market)
                )),
            ),
            Some(holds) => {
                let share = holds.value / box_volume;
                let (least, most) = Limit::PartOfItsBox.shares();
                if (least..=most).contains(&share) {
                    continue;
                }
                found.push(
                    Diagnostic::at(
                        code::TIN_SIZE_AND_VOLUME_DIFFER,
                        holds.span,
                        format!(
                            "The {} is said to hold {}, and its dimensions give {} with straight \
                             walls: {} %. One of the two is a slip.",
                            tin.name.value,
                            readers::tin_volume(holds.value, case.inputs.market),
                            readers::tin_volume(box_volume, case.inputs.market),
                            fixed(share * 100.0, 0)
                        ),
                    )
                    .label(tin.size.span, "dimensions")
                    .hint(
                        "Measure the rim and the depth inside, and fill it with water on a scale.",
                    ),
                );
            }
        }
    }
    found
}

/// Longer than this a thing of two dimensions is a tray, whatever it is called.
const LONGEST_LOAF_TIN: Length = Length::from_si(0.33);

/// A tin or mould of which only two dimensions are given.
fn flat_tin(tin: &Tin) -> Option<Diagnostic> {
    let TinSize::Tray { length, width } = tin.size.value else {
        return None;
    };
    let name = tin.name.value.to_lowercase();
    let deep = ["tin", "mould", "mold"]
        .iter()
        .any(|word| name.split_whitespace().any(|one| one == *word));
    let short = length < LONGEST_LOAF_TIN && width < LONGEST_LOAF_TIN;
    (deep && short && tin.holds.is_none()).then(|| {
        Diagnostic::at(
            code::TIN_WITHOUT_VOLUME,
            tin.size.span,
            format!(
                "The {} has two dimensions; without its depth nobody can find one that holds as much.",
                tin.name.value
            ),
        )
        .hint("Give length and width at the rim and the depth, and in `holds` what it holds to the brim.")
    })
}

/// Volume of a tin with straight walls; none for a tray.
fn around(size: &TinSize) -> Option<Volume> {
    match *size {
        TinSize::Box {
            length,
            width,
            depth,
        } => Some(Volume::from_si(length.si() * width.si() * depth.si())),
        TinSize::Round { diameter, height } => Some(Volume::from_si(
            std::f64::consts::FRAC_PI_4 * diameter.si() * diameter.si() * height.si(),
        )),
        TinSize::Tray { .. } => None,
    }
}

/// A flour below this share of all flour hardly changes the dough by its protein.
const MATTERS: f64 = 0.2;

fn flour(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let mut seen: Vec<String> = Vec::new();
    let mut found = Vec::new();
    for stage in &recipe.stages {
        for (item, ingredient, _) in ingredients(recipe, formula, stage) {
            let name = item.of.value.trim().to_lowercase();
            if ingredient.role != Role::Flour || seen.contains(&name) {
                continue;
            }
            seen.push(name.clone());
            let said = recipe.pantry.iter().any(|entry| {
                entry.name.value.trim().to_lowercase() == name && entry.protein.is_some()
            });
            if said || share_of_flour(case, &name) < MATTERS {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::FLOUR_WITHOUT_PROTEIN,
                    item.of.span,
                    format!(
                        "It is not said how much protein the {} has; a flour with two points more takes \
                         up more water and bears a longer mix.",
                        item.of.value
                    ),
                )
                .hint(format!(
                    "Add `[[pantry]]` with `name = \"{}\"` and `protein` as its bag declares it.",
                    item.of.value
                )),
            );
        }
    }
    found
}

/// Share of a flour, by its written name, of all flour of the dough.
fn share_of_flour(case: &Case, name: &str) -> f64 {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    recipe
        .stages
        .iter()
        .zip(&formula.stages)
        .filter(|(_, sum)| sum.in_dough)
        .flat_map(|(stage, sum)| stage.items.iter().zip(&sum.items))
        .filter(|(item, _)| item.of.value.trim().to_lowercase() == name)
        .filter_map(|(_, resolved)| resolved.of_flour)
        .map(Fraction::si)
        .sum()
}

fn butter(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let mut found = Vec::new();
    for stage in &recipe.stages {
        for (item, ingredient, _) in ingredients(recipe, formula, stage) {
            let name = item.of.value.trim().to_lowercase();
            let said = ["salt", "ghee", "clarified", "oil"]
                .iter()
                .any(|word| name.contains(word));
            // The plain word alone is asked about where ingredients are looked up.
            if !is_butter(ingredient) || said || name == "butter" {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::BUTTER_SALT_UNSAID,
                    item.of.span,
                    format!(
                        "It is not said whether the {} is salted; salted butter brings 1.5–2 % of \
                         its mass in salt.",
                        item.of.value
                    ),
                )
                .hint("Write \"unsalted butter\" or \"salted butter\", or say it in its pantry entry's name."),
            );
        }
    }
    found
}

/// Salt by the spoon: a spoon of flakes holds half of what a spoon of fine salt holds.
fn salt(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let mut found = Vec::new();
    for stage in &recipe.stages {
        for (item, ingredient, _) in ingredients(recipe, formula, stage) {
            let Some(take) = &item.take else { continue };
            let by_the_spoon = matches!(take.value, Amount::Measures(_));
            let plain =
                ["salt", "sea salt"].contains(&item.of.value.trim().to_lowercase().as_str());
            if ingredient.role != Role::Salt || !by_the_spoon || !plain {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::SALT_KIND_UNSAID,
                    item.span,
                    "Salt is measured by the spoon and not said to be fine, coarse or in flakes: a spoon of flakes holds half of a spoon of fine salt.",
                )
                .label(take.span, "by the spoon")
                .hint("Write \"fine salt\", or better grams."),
            );
        }
    }
    found
}

/// Two sugars that sentences call alike.
fn sugars(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let sugars: Vec<_> = recipe
        .stages
        .iter()
        .flat_map(|stage| ingredients(recipe, formula, stage))
        .filter(|(_, ingredient, _)| ingredient.role == Role::Sugar)
        .collect();
    let mut found = Vec::new();
    for (place, (item, ingredient, _)) in sugars.iter().enumerate() {
        let alike = sugars[..place].iter().find(|(other, kind, _)| {
            other.called().eq_ignore_ascii_case(item.called()) && kind.key != ingredient.key
        });
        if let Some((other, _, _)) = alike {
            found.push(
                Diagnostic::at(
                    code::SUGARS_CALLED_ALIKE,
                    item.span,
                    format!(
                        "{} and {} are both called {} in the sentences; the reader has two sugars on the bench.",
                        other.of.value, item.of.value, item.called()
                    ),
                )
                .label(other.span, "the other")
                .hint(format!("Give it its own name: `as = \"{}\"`.", item.of.value)),
            );
        }
    }
    found
}
