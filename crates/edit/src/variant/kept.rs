//! What should have stayed as it was, before and after, and which allergens are new or gone.

use super::model::Kept;
use crate::ledger::say;
use numerics::decimal::fixed;
use numerics::quantity::Mass;
use recipe::formula::{Formula, PartSum, Resolved};
use recipe::larder::Ingredient;

/// So many points of the flour a cook does not notice; common practice.
const POINT: f64 = 0.010;
/// The same for salt and for protein of the flour.
const SALT: f64 = 0.001;
const PROTEIN: f64 = 0.005;
/// Yeast and the whole dough may differ by this share of themselves.
const PART: f64 = 0.03;

/// One figure to keep: its name, how it is had, by how much it may differ.
type Figure = (&'static str, fn(&PartSum) -> Mass, f64);

/// Compares two formulas; a recipe in another size has another mass of dough.
pub fn kept(before: &Formula, after: &Formula, resized: bool) -> Vec<Kept> {
    let figures: [Figure; 8] = [
        ("water on flour", |sum| sum.water, POINT),
        ("fat on flour", |sum| sum.fat, POINT),
        ("sugar on flour", |sum| sum.sugar, POINT),
        ("salt on flour", |sum| sum.salt, SALT),
        ("protein of the flour", |sum| sum.flour_protein, PROTEIN),
        ("milk solids on flour", |sum| sum.milk_solids, POINT),
        ("egg solids on flour", |sum| sum.egg_solids, POINT),
        ("yeast on flour, as fresh", |sum| sum.yeast_fresh, 0.0),
    ];
    let (was, is) = (&with_gluten(before), &with_gluten(after));
    let mut kept: Vec<Kept> = figures
        .iter()
        .filter_map(|(name, of, may)| {
            let (b, a) = (was.of_flour(of(was))?.si(), is.of_flour(of(is))?.si());
            let may = if *may > 0.0 { *may } else { b * PART };
            (b > 0.0 || a > 0.0).then(|| Kept {
                name: (*name).to_owned(),
                before: format!("{} %", fixed(b * 100.0, 1)),
                after: format!("{} %", fixed(a * 100.0, 1)),
                held: (a - b).abs() <= may + 1e-9,
            })
        })
        .collect();
    if resized {
        return kept;
    }
    let relative = (is.mass / was.mass - 1.0).abs();
    kept.push(Kept {
        name: "dough".to_owned(),
        before: say::mass(was.mass),
        after: say::mass(is.mass),
        held: was.mass > Mass::ZERO && relative <= PART,
    });
    kept
}

/// The dough's sums with added gluten counted as the flour that it strengthens.
fn with_gluten(formula: &Formula) -> PartSum {
    let mut sum = formula.dough.clone();
    let stages = formula.stages.iter().filter(|stage| stage.in_dough);
    for item in stages.flat_map(|stage| &stage.items) {
        if let (Resolved::Ingredient(one), Some(mass)) = (&item.what, item.mass)
            && one.key == "gluten_vital"
        {
            sum.flour += mass;
            let protein = one
                .composition
                .protein
                .map_or(0.0, numerics::quantity::Fraction::si);
            sum.flour_protein += mass * protein;
        }
    }
    sum
}

/// Which allergens are new, and which are no longer an ingredient by name.
pub fn allergens(before: &Formula, after: &Formula) -> Vec<String> {
    let (was, is) = (named(before), named(after));
    let new: Vec<String> = is
        .iter()
        .filter(|one| !was.contains(one))
        .cloned()
        .collect();
    let gone: Vec<String> = was
        .iter()
        .filter(|one| !is.contains(one))
        .cloned()
        .collect();
    let mut said = Vec::new();
    if !new.is_empty() {
        said.push(format!("New among the allergens: {}.", say::list(&new)));
    }
    if !gone.is_empty() {
        said.push(format!(
            "No longer an ingredient by name: {}. The packs of what is left may still list it, and \
             so may traces in the kitchen.",
            say::list(&gone)
        ));
    }
    // Oat drink for milk, and the butter stays: whoever must avoid milk is told so.
    for name in was.iter().filter(|one| is.contains(one)) {
        let (had, has) = (holders(before, name), holders(after, name));
        let went = had.iter().any(|one| !has.contains(one));
        let none_new = has.iter().all(|one| had.contains(one));
        if went && none_new {
            let from = say::list(&has);
            said.push(format!("{} is still in it: {from}.", say::capital(name)));
        }
    }
    said
}

/// The names of what an allergen is in.
fn holders(formula: &Formula, allergen: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    let items = formula.stages.iter().flat_map(|stage| &stage.items);
    for item in items.chain(&formula.besides) {
        if let Resolved::Ingredient(one) = &item.what
            && allergens_of(one).any(|own| own == allergen)
            && !found.contains(&one.name)
        {
            found.push(one.name.clone());
        }
    }
    found
}

/// The allergens of an ingredient, by EU and US law, in one spelling.
fn allergens_of(one: &Ingredient) -> impl Iterator<Item = &str> {
    let all = one.allergens_eu.iter().chain(&one.allergens_us);
    all.map(|name| match name.rsplit(": ").next().unwrap_or(name) {
        "eggs" => "egg",
        "soybeans" | "soya" => "soy",
        other => other,
    })
}

/// The allergens of every ingredient, the wider word once.
fn named(formula: &Formula) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    let items = formula.stages.iter().flat_map(|stage| &stage.items);
    for item in items.chain(&formula.besides) {
        let Resolved::Ingredient(one) = &item.what else {
            continue;
        };
        for plain in allergens_of(one) {
            if !names.iter().any(|own| own == plain) {
                names.push(plain.to_owned());
            }
        }
    }
    names
}
