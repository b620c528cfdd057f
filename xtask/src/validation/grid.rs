//! The grid study: how much of a result is the mesh, for every product of the four recipes.

use super::bread::{
    RECIPES, Read, at, baking, course, dough, lengthened, middle_passes, read, studio,
};
use bake::kitchen::Kitchen;
use bake::simulate::{Course, Follows, Grid};
use numerics::decimal::fixed;

/// What is compared of one product on one mesh.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// Minutes to 88 °C in the middle; none when it does not come to that in half again its written time.
    pub to_88_min: Option<f64>,
    /// Lost at the end of the written bake, %.
    pub lost: f64,
    /// Lightness of the crust above at that time, L*.
    pub lightness: f64,
}

/// One product on three meshes.
#[derive(Clone, Debug, PartialEq)]
pub struct Study {
    /// Recipe and product.
    pub of: String,
    /// Coarse, usual, fine.
    pub on: [Figures; 3],
}

/// Bakes are let go on, so that slow ones come to 88 °C too.
const LONGER: f64 = 1.6;

/// How a mesh may differ from the fine one: time, share; loss, points; lightness, L*.
pub const LIMITS: [(&str, f64, f64, f64); 2] =
    [("coarse", 0.03, 0.3, 2.0), ("usual", 0.01, 0.1, 0.5)];

/// The oven is looked at every so often, s: no time is known better.
pub const LOOK_S: f64 = 5.0;

/// Every product of the four recipes in the studio, by the clock.
///
/// # Panics
/// When a recipe could not be followed to its end.
pub fn studies() -> Vec<Study> {
    let kitchen = studio();
    // One thread a recipe; what each finds does not depend on the others.
    std::thread::scope(|scope| {
        let running: Vec<_> = RECIPES
            .iter()
            .map(|(name, text)| scope.spawn(|| of_recipe(name, text, &kitchen)))
            .collect();
        running
            .into_iter()
            .flat_map(|one| one.join().expect("a recipe is followed to its end"))
            .collect()
    })
}

fn of_recipe(name: &str, text: &str, kitchen: &Kitchen) -> Vec<Study> {
    let written = read(text, &[]);
    let longer = lengthened(&written, LONGER);
    let courses = [Grid::Coarse, Grid::Usual, Grid::Fine]
        .map(|grid| course(&longer, kitchen, Follows::Clock, grid));
    let products = written.recipe.products.iter();
    products
        .filter_map(|product| {
            let product = &product.name.value;
            let [coarse, usual, fine] = courses
                .each_ref()
                .map(|course| figures(&written, course, product));
            Some(Study {
                of: format!("{name}, {product}"),
                on: [coarse?, usual?, fine?],
            })
        })
        .collect()
}

fn figures(written: &Read, course: &Course, product: &str) -> Option<Figures> {
    let baking = baking(written, course, product)?;
    let dough = dough(course, product)?;
    let end = baking.begins_s + baking.written_s;
    Some(Figures {
        to_88_min: middle_passes(course, baking, 88.0).map(|seconds| seconds / 60.0),
        lost: 100.0 * at(dough, end, |moment| moment.lost.si()),
        lightness: at(dough, end, |moment| moment.lightness),
    })
}

/// What is beyond its limit: product, mesh, what and how far off.
#[derive(Clone, Debug, PartialEq)]
pub struct Beyond {
    /// "cardamom dough, loaf: usual mesh, time to 88 °C".
    pub what: String,
    /// In words with units.
    pub off: String,
}

/// Everything that is beyond the limits.
pub fn beyond(studies: &[Study]) -> Vec<Beyond> {
    let mut all = Vec::new();
    for study in studies {
        let fine = study.on[2];
        for ((mesh, time, points, shade), here) in LIMITS.iter().zip(study.on) {
            let mut add = |what: &str, off: String| {
                all.push(Beyond {
                    what: format!("{}: {mesh} mesh, {what}", study.of),
                    off,
                });
            };
            match (here.to_88_min, fine.to_88_min) {
                (Some(here), Some(fine)) => {
                    let off = here - fine;
                    // No time is known better than one look.
                    if off.abs() > (time * fine).max(LOOK_S / 60.0 + 1e-9) {
                        add("time to 88 °C", signed(100.0 * off / fine, 1, "%"));
                    }
                }
                (None, None) => {}
                _ => add("time to 88 °C", "comes to it on one mesh only".to_owned()),
            }
            let off = here.lost - fine.lost;
            if off.abs() > *points {
                add("loss", signed(off, 2, "points"));
            }
            let off = here.lightness - fine.lightness;
            if off.abs() > *shade {
                add("lightness", signed(off, 2, "L*"));
            }
        }
    }
    all
}

/// A difference with its sign and unit.
pub fn signed(off: f64, decimals: usize, unit: &str) -> String {
    let sign = if off < 0.0 { "−" } else { "+" };
    format!("{sign}{} {unit}", fixed(off.abs(), decimals))
}

/// The table of the page.
pub fn table(studies: &[Study]) -> String {
    let mut text = String::from(
        "| product | to 88 °C: coarse, usual, fine, min | lost: coarse, usual, fine, % | crust: coarse, usual, fine, L* |\n\
         |---|---|---|---|\n",
    );
    for study in studies {
        let each = |of: &dyn Fn(&Figures) -> String| {
            study.on.iter().map(of).collect::<Vec<_>>().join(", ")
        };
        let time = |one: &Figures| {
            one.to_88_min
                .map_or_else(|| "not reached".to_owned(), |t| fixed(t, 2))
        };
        text.push_str(&format!(
            "| {} | {} | {} | {} |\n",
            study.of,
            each(&time),
            each(&|one| fixed(one.lost, 2)),
            each(&|one| fixed(one.lightness, 1)),
        ));
    }
    text
}
