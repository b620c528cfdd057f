//! What is looked up once for all kitchens: the recipe, its anchor, and the bread that it is meant to be.

use super::judge::{Bread, breads};
use crate::code;
use crate::kitchen::Kitchen;
use crate::simulate::{Anchor, Course, Follows, Grid, How, Through, Weight, simulate_paced};
use numerics::quantity::Duration;
use recipe::document::model::{Action, Recipe, TinSize};
use recipe::formula::Formula;
use recipe::formula::model::Resolved;
use recipe::larder::{Role, YeastForm};
use recipe::source::{Checked, Diagnostic};

/// A product is left to cool for so long only, s: nothing of what follows is judged.
pub const COOLS_S: f64 = 1.0;

/// What is looked up once for all kitchens.
#[derive(Clone, Debug)]
#[allow(clippy::struct_excessive_bools)] // each is a thing that the recipe does or does not
pub struct Setup<'a> {
    /// As written.
    pub recipe: &'a Recipe,
    /// The same without what nobody follows: notes, photographs, tested bakes. Every reader's words begin as these.
    pub words: Recipe,
    /// Its sums.
    pub formula: &'a Formula,
    /// A usual kitchen, from which the others differ.
    pub kitchen: Kitchen,
    /// How finely sections are cut: roughly, unless somebody wants to know what that misses.
    pub grid: Grid,
    /// Seconds of heat and life for a second of the clock, of every step: what the grid is late by (`pace`).
    pub pace: Vec<f64>,
    /// What the tested bakes teach.
    pub anchor: Anchor,
    /// How many of them there are.
    pub tested: usize,
    /// The breads that it is meant to be: in a usual kitchen, each step by its sign.
    pub meant: Vec<Option<Bread>>,
    /// Every step of it there: number, whose, minutes as written.
    pub course: Course,
    /// What is counted for safety, and of which product.
    pub safety: Vec<(String, &'static str)>,
    /// The dial of the first bake, °C.
    pub dial_celsius: Option<f64>,
    /// It is written for an oven with its fan on.
    pub with_fan: bool,
    /// All that is baked lies on trays, several pieces of each.
    pub all_on_trays: bool,
    /// It warms a liquid that yeast goes into.
    pub warms_liquid: bool,
    /// Its yeast is dry.
    pub has_dry_yeast: bool,
    /// Ingredients that a reader may forget: stage and place.
    pub can_be_left_out: Vec<(usize, usize)>,
}

/// How a kitchen's day is followed: by what its reader goes by, which is in the words. `no_sooner`: nobody
/// takes bread out before its shortest written time.
pub fn how(grid: Grid, anchor: Anchor, no_sooner: bool) -> How {
    How {
        follows: Follows::Cue,
        grid,
        anchor,
        through: Through::Everything,
        dough: None,
        no_sooner,
    }
}

fn words(recipe: &Recipe) -> Recipe {
    let mut words = recipe.clone();
    words.headnote = None;
    words.make_ahead = None;
    words.storage = None;
    words.serves = None;
    words.film = None;
    words.sponsor = None;
    words.notes = Vec::new();
    words.photos = Vec::new();
    words.tested = Vec::new();
    words
}

/// Looks everything up; none when no product can be followed to its end.
pub fn setup<'a>(
    recipe: &'a Recipe,
    formula: &'a Formula,
    anchor: Anchor,
    tested: usize,
) -> Checked<Option<Setup<'a>>> {
    setup_on(recipe, formula, anchor, tested, Grid::Rough)
}

/// The same on another grid.
pub fn setup_on<'a>(
    recipe: &'a Recipe,
    formula: &'a Formula,
    anchor: Anchor,
    tested: usize,
    grid: Grid,
) -> Checked<Option<Setup<'a>>> {
    let kitchen = Kitchen::standard();
    let mut meant = recipe.clone();
    let steps = meant
        .products
        .iter_mut()
        .flat_map(|product| &mut product.steps);
    for step in steps {
        if let Action::Cool { timing, .. } = &mut step.action {
            timing.usual.value = Duration::from_si(COOLS_S);
            timing.range = None;
            step.until = None;
        }
    }
    let follow = |grid, pace: &[f64]| {
        simulate_paced(&meant, formula, &kitchen, &how(grid, anchor, false), pace)
    };
    let mut found = follow(grid, &[]);
    let mut pace = Vec::new();
    if grid == Grid::Rough {
        pace = super::pace::pace(&meant, &found.output, &follow(Grid::Usual, &[]).output);
        found = follow(grid, &pace);
    }
    let breads = breads(recipe, &found.output);
    if breads.iter().all(Option::is_none) {
        let said = Diagnostic::whole(
            code::NOTHING_TO_JUDGE,
            "No product of this recipe can be followed from its dough out of the oven, so nothing can be said of it in other kitchens.",
        )
        .hint("A product needs the stage it is cut from, a piece mass and a `bake` step.");
        let mut diagnostics = found.diagnostics;
        diagnostics.push(said);
        return Checked {
            output: None,
            diagnostics,
        };
    }
    let bakes = || {
        let steps = recipe.products.iter().flat_map(|product| &product.steps);
        steps.filter_map(|step| match &step.action {
            Action::Bake { phases, fan, .. } => Some((phases, fan)),
            _ => None,
        })
    };
    let every = || recipe.stages.iter().zip(&formula.stages);
    let dry = |role: Role| matches!(role, Role::Yeast(form) if form != YeastForm::Fresh);
    let ingredients = || {
        every()
            .flat_map(|(_, sums)| &sums.items)
            .filter_map(|item| match &item.what {
                Resolved::Ingredient(one) => Some(one),
                _ => None,
            })
    };
    let safety = found
        .output
        .safety
        .iter()
        .filter(|count| count.weight == Weight::Warns)
        .map(|count| (count.of.clone(), count.what))
        .collect();
    let output = Setup {
        recipe,
        words: words(recipe),
        formula,
        kitchen,
        grid,
        pace,
        anchor,
        tested,
        meant: breads,
        safety,
        dial_celsius: bakes()
            .next()
            .and_then(|(phases, _)| phases.first())
            .map(|phase| phase.at.value.celsius()),
        with_fan: bakes().next().is_some_and(|(_, fan)| fan.value),
        all_on_trays: recipe.products.iter().all(|product| {
            let walls = product
                .tin
                .as_ref()
                .is_some_and(|tin| !matches!(tin.size.value, TinSize::Tray { .. }));
            !walls && product.count.value > 1
        }),
        warms_liquid: every().any(|(stage, sums)| {
            let wakes = stage
                .steps
                .iter()
                .any(|step| matches!(step.action, Action::Wake { .. }));
            let warm = stage.items.iter().zip(&sums.items).any(|(item, sum)| {
                let liquid =
                    matches!(&sum.what, Resolved::Ingredient(one) if one.role == Role::Liquid);
                liquid
                    && item
                        .at
                        .as_ref()
                        .is_some_and(|at| at.value.celsius() >= 30.0)
            });
            wakes || warm
        }),
        has_dry_yeast: ingredients().any(|one| dry(one.role)),
        can_be_left_out: every()
            .enumerate()
            .filter(|(_, (_, sums))| sums.in_dough)
            .flat_map(|(place, (_, sums))| {
                sums.items
                    .iter()
                    .enumerate()
                    .filter_map(move |(at, item)| match &item.what {
                        Resolved::Ingredient(one) if one.role != Role::Flour => Some((place, at)),
                        _ => None,
                    })
            })
            .collect(),
        course: found.output,
    };
    Checked {
        output: Some(output),
        diagnostics: found.diagnostics,
    }
}
