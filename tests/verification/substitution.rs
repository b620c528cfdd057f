//! Swaps against published tables and worked figures, with what is missed and why.

use numerics::quantity::{Fraction, Mass};
use recipe::larder::{Found, Ingredient, Larder, YeastForm, egg_class};
use recipe::substitution::{
    Component, Lever, NewOne, absorbs, balance, gluten_for, waking_liquid, whole_eggs,
};

fn one<'a>(larder: &'a Larder, name: &str) -> &'a Ingredient {
    match larder.find(name) {
        Found::One(one) => one,
        other => panic!("{name}: {other:?}"),
    }
}

fn grams(value: f64) -> Mass {
    Mass::from_grams(value)
}

fn near(ours: f64, theirs: f64, miss: f64, what: &str) {
    println!("{what}: {ours:.2}, published {theirs}");
    assert!(
        (ours - theirs).abs() <= miss,
        "{what}: {ours} beside {theirs}"
    );
}

/// What stands for a mass of something, with these levers of 500 g each, flour 1 000 g.
fn swapped(
    old: &str,
    mass: f64,
    new: &[&str],
    levers: &[(&str, Component)],
) -> (Vec<f64>, Vec<f64>) {
    let larder = Larder::open();
    let new: Vec<NewOne> = new
        .iter()
        .map(|name| NewOne {
            ingredient: one(&larder, name),
            mass: None,
        })
        .collect();
    let levers: Vec<Lever> = levers
        .iter()
        .map(|(name, moves)| Lever {
            ingredient: one(&larder, name),
            mass: grams(500.0),
            least: Mass::ZERO,
            moves: *moves,
        })
        .collect();
    let out = [(one(&larder, old), grams(mass))];
    let found = balance(&out, &new, &levers, grams(1000.0));
    let moved = found.levers.iter().map(|mass| mass.grams() - 500.0);
    let moved = moved.collect();
    (found.new.iter().map(|mass| mass.grams()).collect(), moved)
}

#[test]
fn yeasts_by_the_textbook_and_by_their_solids() {
    // A professional bread textbook: fresh 1, active dry 0.40, instant 0.33 (read).
    let dry = YeastForm::Instant.swapped_for(grams(9.0), YeastForm::ActiveDry);
    near(dry.grams(), 10.9, 0.05, "9 g of instant as active dry");
    let fresh = YeastForm::Instant.swapped_for(grams(9.0), YeastForm::Fresh);
    near(fresh.grams(), 27.0, 0.3, "9 g of instant as fresh");
    // Equal solids (AACC 89-01: 30, 92.5 and 95 %) give 0.324 and 0.316: the textbook gives active
    // dry a fifth more, for the cells that do not wake. Shown, not matched.
    let by_solids = 30.0 / 92.5;
    let miss = YeastForm::ActiveDry.for_fresh() / by_solids - 1.0;
    near(miss, 0.23, 0.01, "active dry above its solids");
    let miss = YeastForm::Instant.for_fresh() / (30.0 / 95.0) - 1.0;
    near(miss, 0.045, 0.005, "instant above its solids");
    // Wakes in four to five times its mass.
    near(
        waking_liquid(grams(11.0)).grams() / 11.0,
        4.5,
        0.5,
        "parts of liquid",
    );
}

#[test]
fn fresh_yeast_takes_its_water_out_of_the_liquid() {
    // 27 g of fresh yeast bring 19 g of water at 70 % (worked out in the trade's way).
    let larder = Larder::open();
    let fresh = one(&larder, "fresh yeast");
    let water = recipe::substitution::parts(fresh, grams(27.0)).of(Component::Water);
    // USDA's compressed yeast has 69 % water.
    near(water.grams(), 18.9, 0.3, "water of 27 g of fresh yeast");
}

#[test]
fn plain_flour_for_bread_flour() {
    // 980 g at 12.5 % for 10.5 %: 20 to 30 g less, by 1 to 1.5 points for a point of protein.
    let larder = Larder::open();
    let mut strong = one(&larder, "bread flour").clone();
    let mut plain = one(&larder, "plain flour").clone();
    strong.composition.protein = Some(Fraction::from_percent(12.5));
    plain.composition.protein = Some(Fraction::from_percent(10.5));
    let points = absorbs(&plain) - absorbs(&strong);
    near(
        980.0 * points / 100.0,
        -25.0,
        5.0,
        "water for 980 g of weaker flour",
    );
    // Or 30 g of gluten of 75 %: x = F (Pt - Pb) / (Pg - Pb).
    let gluten = gluten_for(
        grams(980.0),
        Fraction::from_percent(12.5),
        Fraction::from_percent(10.5),
        Fraction::from_percent(75.0),
    );
    near(gluten.expect("some").grams(), 30.0, 0.5, "gluten");
}

#[test]
fn oil_for_butter() {
    // 157 g of butter: 127 g of oil and 25 g of water.
    let (new, _) = swapped("unsalted butter", 157.0, &["olive oil", "water"], &[]);
    near(new[0], 127.0, 0.6, "oil");
    // Missed by 3 g: the rule takes 16 % of water, USDA's unsalted butter has 17.9 %.
    near(new[1], 28.2, 0.3, "water beside the oil (25 by the rule)");
    // A block of 80 % fat by its fat: 157 x 0.82 / 0.80 = 161; USDA's butter has 81.1 %.
    let (new, _) = swapped("unsalted butter", 157.0, &["unsalted margarine"], &[]);
    near(new[0], 157.0 * 81.11 / 80.71, 1.0, "margarine by its fat");
}

#[test]
fn milk_and_butter_for_egg() {
    // 100 g of egg: 84 g of milk and 8 g of butter.
    let (new, _) = swapped("egg", 100.0, &["whole milk", "unsalted butter"], &[]);
    near(new[0], 84.0, 1.0, "milk for egg");
    near(new[1], 8.0, 0.5, "butter for egg");
}

#[test]
fn honey_for_sugar() {
    // Sugar / 0.82, and 0.17 of the honey less liquid.
    let levers = [("water", Component::Water)];
    let (new, moved) = swapped("granulated sugar", 100.0, &["honey"], &levers);
    near(new[0], 100.0 / 0.82, 0.3, "honey");
    near(moved[0], -0.17 * new[0], 0.3, "liquid beside the honey");
}

#[test]
fn salted_butter_for_unsalted() {
    // 157 g bring 2.5 g of salt: 17.5 g become 15.0 g.
    let levers = [("fine salt", Component::Salt), ("water", Component::Water)];
    let (new, moved) = swapped("unsalted butter", 157.0, &["salted butter"], &levers);
    near(new[0], 157.0, 0.5, "salted butter");
    near(moved[0], -2.5, 0.05, "salt beside it");
}

#[test]
fn dry_milk_butter_and_water_for_milk() {
    // 100 g of milk: 9.1 g of dry milk, 3.9 g of butter, 87 g of water.
    let new = ["nonfat dry milk", "unsalted butter", "water"];
    let levers = [("unsalted butter", Component::Fat)];
    let (found, _) = swapped("whole milk", 100.0, &[new[0], new[2]], &levers);
    near(found[0], 9.1, 0.15, "dry milk");
    near(found[1], 87.0, 0.9, "water with the butter left alone");
    // With a kilogram the butter is worth weighing.
    let (found, moved) = swapped("whole milk", 1000.0, &[new[0], new[2]], &levers);
    near(found[0] / 10.0, 9.1, 0.15, "dry milk");
    near(moved[0] / 10.0, 3.9, 0.1, "butter");
    near(found[1] / 10.0, 87.0, 0.5, "water");
}

/// How many eggs of other sizes stand for so many large ones (American Egg Board, egg sizes,
/// equivalents and substitutions, incredibleegg.org; read): large, jumbo, extra large, medium, small.
const EGG_BOARD: [[f64; 5]; 6] = [
    [1.0, 1.0, 1.0, 1.0, 1.0],
    [2.0, 2.0, 2.0, 2.0, 3.0],
    [3.0, 2.0, 3.0, 3.0, 4.0],
    [4.0, 3.0, 4.0, 5.0, 5.0],
    [5.0, 4.0, 4.0, 6.0, 7.0],
    [6.0, 5.0, 5.0, 7.0, 8.0],
];

#[test]
fn whole_eggs_as_the_egg_board_counts_them() {
    let edible = |size: &str| egg_class(size).expect("a class").edible;
    let sizes = ["large", "jumbo", "extra large", "medium", "small"];
    let mut missed = Vec::new();
    for row in EGG_BOARD {
        let egg = edible("large") * row[0];
        for (size, theirs) in sizes.iter().zip(row) {
            let ours = whole_eggs(egg, edible(size)).count;
            if (ours - theirs).abs() > 0.5 {
                missed.push(format!(
                    "{} large = {ours} {size}, published {theirs}",
                    row[0]
                ));
            }
        }
    }
    assert_eq!(missed, Vec::<String>::new(), "of 30 counts");
}

#[test]
fn what_is_missing_of_the_egg_comes_as_water() {
    // 3 large are 150 g; 3 medium 132 g: 18 g less, 0.76 of it water.
    let eggs = whole_eggs(grams(150.0), grams(44.0));
    near(eggs.mass.grams(), 132.0, 0.01, "3 medium");
    near(eggs.water.grams(), 18.0 * 0.76, 0.05, "water for the rest");
}
