//! A recipe and its kitchen with one thing turned: how warm the flour is, what goes in at which temperature,
//! the mass of a piece, what tins are made of, the protein of the flour.

use bake::kitchen::Kitchen;
use numerics::quantity::{Fraction, Temperature};
use recipe::document::model::{Material, Recipe};
use recipe::formula::model::{Formula, Resolved, ResolvedItem};
use recipe::formula::sum::{Resolution, add_up};
use recipe::larder::Role;
use recipe::measure::write::write_temperature;
use recipe::source::Located;
use recipe::substitution::is_wholegrain;

/// Whether it is a flour.
pub fn is_flour(one: &ResolvedItem) -> bool {
    matches!(&one.what, Resolved::Ingredient(what) if what.role == Role::Flour)
}

/// A kitchen in which every flour of the recipe stands at a temperature.
pub fn flour_at(recipe: &Recipe, sums: &Formula, kitchen: &Kitchen, at: Temperature) -> Kitchen {
    let names: Vec<String> = recipe
        .stages
        .iter()
        .zip(&sums.stages)
        .flat_map(|(written, sums)| written.items.iter().zip(&sums.items))
        .filter(|(_, one)| is_flour(one))
        .map(|(item, _)| item.of.value.to_lowercase())
        .collect();
    let mut kitchen = kitchen.clone();
    kitchen.stores.retain(|(name, _)| !names.contains(name));
    kitchen
        .stores
        .extend(names.into_iter().map(|name| (name, at)));
    kitchen.name = format!("{}, flour {}", kitchen.name, write_temperature(at));
    kitchen
}

/// An item, by its stage and its place there, goes in at a temperature. One that is not there is left out.
pub fn goes_in_at(recipe: &mut Recipe, (stage, place): (usize, usize), at: Temperature) {
    let items = recipe.stages.get_mut(stage).map(|stage| &mut stage.items);
    if let Some(item) = items.and_then(|items| items.get_mut(place)) {
        let span = item.at.as_ref().map_or(item.span, |at| at.span);
        item.at = Some(Located { value: at, span });
    }
}

/// Every piece has this share of its written mass.
pub fn pieces_of(recipe: &mut Recipe, share: Fraction) {
    for product in &mut recipe.products {
        for part in &mut product.piece.value {
            part.mass = part.mass * share.si();
        }
    }
}

/// Every tin is made of a material.
pub fn tins_of(recipe: &mut Recipe, material: Material) {
    let tins = recipe
        .products
        .iter_mut()
        .filter_map(|one| one.tin.as_mut());
    for tin in tins {
        tin.material.value = material;
    }
}

/// The sums with white flours of another protein; starch makes up for it, and wholegrain flours stay as
/// they are. Fillings and what is for the bench stay as they were summed.
pub fn with_protein(recipe: &Recipe, base: &Formula, protein: Fraction) -> Formula {
    let mut stages: Vec<_> = base
        .stages
        .iter()
        .map(|stage| stage.items.clone())
        .collect();
    for one in stages.iter_mut().flatten() {
        let Resolved::Ingredient(what) = &mut one.what else {
            continue;
        };
        if what.role != Role::Flour || is_wholegrain(what) {
            continue;
        }
        let made_of = &mut what.composition;
        if let (Some(own), Some(starch)) = (made_of.protein, made_of.carbohydrate) {
            let rest = starch.si() + own.si() - protein.si();
            made_of.carbohydrate = Some(Fraction::from_si(rest.max(0.0)));
        }
        made_of.protein = Some(protein);
    }
    let resolution = Resolution {
        stages,
        with: Vec::new(),
        besides: Vec::new(),
    };
    let made = add_up(recipe, resolution).output;
    Formula {
        stages: made.stages,
        dough: made.dough,
        ..base.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::{flour_at, goes_in_at, pieces_of, with_protein};
    use bake::kitchen::Kitchen;
    use numerics::quantity::{Fraction, Temperature};
    use recipe::document::model::Recipe;
    use recipe::document::read_recipe;
    use recipe::formula::formula;
    use recipe::formula::model::{Formula, Resolved};
    use recipe::larder::Larder;

    fn demo() -> (Recipe, Formula) {
        let text = include_str!("../../../examples/same-day-loaf.toml");
        let recipe = read_recipe(text).output.expect("the demo can be read");
        let mut larder = Larder::open();
        larder.stock(&recipe.pantry);
        let sums = formula(&recipe, &larder).output;
        (recipe, sums)
    }

    #[test]
    fn starch_makes_up_for_protein_and_no_mass_changes() {
        let (recipe, sums) = demo();
        let protein = Fraction::from_percent(14.0);
        let other = with_protein(&recipe, &sums, protein);
        let mass = |of: &Formula| of.dough.mass;
        assert_eq!(mass(&other), mass(&sums));
        let pairs = sums.stages.iter().zip(&other.stages);
        let items = pairs.flat_map(|(was, is)| was.items.iter().zip(&is.items));
        let mut turned = 0;
        for (was, is) in items {
            let (Resolved::Ingredient(was), Resolved::Ingredient(is)) = (&was.what, &is.what)
            else {
                continue;
            };
            let both = |what: &recipe::larder::Ingredient| {
                let made_of = &what.composition;
                Some(made_of.protein?.si() + made_of.carbohydrate?.si())
            };
            if was.composition.protein != is.composition.protein {
                turned += 1;
                assert_eq!(is.composition.protein, Some(protein), "{}", is.name);
                let (was, is) = (both(was).expect("known"), both(is).expect("known"));
                assert!((was - is).abs() < 1e-12, "{was} {is}");
            }
        }
        assert!(turned > 0, "the demo has a white flour");
    }

    #[test]
    fn only_what_is_turned_is_otherwise() {
        let (recipe, sums) = demo();
        let mut half = recipe.clone();
        pieces_of(&mut half, Fraction::from_percent(50.0));
        for (was, is) in recipe.products.iter().zip(&half.products) {
            for (was, is) in was.piece.value.iter().zip(&is.piece.value) {
                assert!((was.mass.si() - 2.0 * is.mass.si()).abs() < 1e-12);
            }
        }
        let mut warm = recipe.clone();
        let at = Temperature::from_celsius(30.0);
        goes_in_at(&mut warm, (0, 0), at);
        assert_eq!(
            warm.stages[0].items[0].at.as_ref().map(|at| at.value),
            Some(at)
        );
        assert_eq!(warm.stages[1], recipe.stages[1]);
        goes_in_at(&mut warm, (99, 0), at);
        let kitchen = flour_at(&recipe, &sums, &Kitchen::standard(), at);
        let flours = kitchen.stores.iter().filter(|(_, there)| *there == at);
        assert!(flours.count() > 0);
    }
}
