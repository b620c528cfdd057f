//! Lines about bread: the example recipes followed through a kitchen, beside what is published and what cooks hold.

use super::rows::{Kind, Published, Row, lines};
use bake::kitchen::{Kitchen, kitchen};
use bake::mix::wake;
use bake::simulate::{Course, DoughCourse, Follows, Grid, Happening, How, simulate};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Action, Recipe};
use recipe::document::{read_kitchen, read_recipe};
use recipe::formula::{Formula, formula};
use recipe::larder::Larder;

/// The four recipes: name and text.
pub const RECIPES: [(&str, &str); 4] = [
    (
        "same-day loaf",
        include_str!("../../../examples/same-day-loaf.toml"),
    ),
    (
        "cardamom dough",
        include_str!("../../../examples/cardamom-dough.toml"),
    ),
    (
        "hearth loaf",
        include_str!("../../../examples/hearth-loaf.toml"),
    ),
    (
        "feast bread",
        include_str!("../../../examples/feast-bread.toml"),
    ),
];

/// The kitchen in which the examples were tried.
///
/// # Panics
/// When the example kitchen no longer reads.
pub fn studio() -> Kitchen {
    let text = include_str!("../../../examples/kitchens/studio.toml");
    let file = read_kitchen(text)
        .output
        .expect("the example kitchen reads");
    kitchen(&file).output
}

/// A recipe and what its items weigh.
#[derive(Clone, Debug)]
pub struct Read {
    /// As written.
    pub recipe: Recipe,
    /// Weighed.
    pub formula: Formula,
}

/// Reads a text, so many of its words changed.
///
/// # Panics
/// When the text does not read, or words to be changed do not stand in it.
pub fn read(text: &str, changes: &[(&str, &str)]) -> Read {
    let mut text = text.to_owned();
    for (old, new) in changes {
        assert!(text.contains(old), "{old} does not stand there");
        text = text.replace(old, new);
    }
    let mut larder = Larder::open();
    let recipe = read_recipe(&text).output.expect("the example reads");
    larder.stock(&recipe.pantry);
    let formula = formula(&recipe, &larder).output;
    Read { recipe, formula }
}

/// What happens to it.
pub fn course(read: &Read, kitchen: &Kitchen, follows: Follows, grid: Grid) -> Course {
    let how = How {
        follows,
        grid,
        ..How::default()
    };
    simulate(&read.recipe, &read.formula, kitchen, &how).output
}

/// Lets every bake go on so many times as long as written.
pub fn lengthened(read: &Read, times: f64) -> Read {
    let mut longer = read.clone();
    for product in &mut longer.recipe.products {
        for step in &mut product.steps {
            if let Action::Bake { phases, .. } = &mut step.action
                && let Some(last) = phases.last_mut()
            {
                last.timing.usual.value = last.timing.usual.value * times;
            }
        }
    }
    longer
}

/// A product's bake: number of its step, begin and written minutes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Baking {
    /// Number of the step on the page.
    pub number: usize,
    /// Seconds from the first step of the day.
    pub begins_s: f64,
    /// As written, s.
    pub written_s: f64,
}

/// The bake of a product; written times from the recipe, which may have been lengthened in the course.
pub fn baking(read: &Read, course: &Course, product: &str) -> Option<Baking> {
    // Steps are numbered through stages, then products.
    let mut number = read
        .recipe
        .stages
        .iter()
        .map(|one| one.steps.len())
        .sum::<usize>();
    for one in &read.recipe.products {
        if one.name.value != product {
            number += one.steps.len();
            continue;
        }
        for step in &one.steps {
            number += 1;
            if let Action::Bake { phases, .. } = &step.action {
                let followed = course.steps.iter().find(|step| step.number == number)?;
                let all = phases.iter().map(|phase| phase.timing.usual.value.si());
                return Some(Baking {
                    number,
                    begins_s: followed.begins.si(),
                    written_s: all.sum(),
                });
            }
        }
    }
    None
}

/// Seconds into a product's bake at which its middle passes a temperature that is noted as an event.
pub fn middle_passes(course: &Course, baking: Baking, celsius: f64) -> Option<f64> {
    let step = course
        .steps
        .iter()
        .find(|step| step.number == baking.number)?;
    step.events.iter().find_map(|event| match event.what {
        Happening::Middle(at) if (at.celsius() - celsius).abs() < 0.01 => Some(event.after.si()),
        _ => None,
    })
}

/// A dough's moment by name.
pub fn dough<'a>(course: &'a Course, of: &str) -> Option<&'a DoughCourse> {
    course
        .doughs
        .iter()
        .find(|dough| dough.of == of && dough.piece)
}

/// A figure of a dough at a second of the day, between its moments by a straight line.
pub fn at(dough: &DoughCourse, second: f64, of: impl Fn(&bake::simulate::Moment) -> f64) -> f64 {
    let mut before = &dough.moments[0];
    for moment in &dough.moments {
        if moment.at.si() >= second {
            let (low, high) = (before.at.si(), moment.at.si());
            if high <= low {
                return of(moment);
            }
            let part = (second - low) / (high - low);
            return of(before) + part.clamp(0.0, 1.0) * (of(moment) - of(before));
        }
        before = moment;
    }
    of(before)
}

fn minutes(duration: Duration) -> f64 {
    duration.si() / 60.0
}

/// The share lost at the end of the bake and of the cooling, %.
fn lost(read: &Read, course: &Course, product: &str) -> Option<(f64, f64)> {
    let baking = baking(read, course, product)?;
    let dough = dough(course, product)?;
    let baked = at(dough, baking.begins_s + baking.written_s, |m| m.lost.si());
    let cooled = dough.moments.last()?.lost.si();
    Some((100.0 * baked, 100.0 * cooled))
}

/// All lines about bread.
pub fn bread() -> Vec<Row> {
    let mut rows = Vec::new();
    let kitchen = studio();
    let read: Vec<Read> = RECIPES
        .iter()
        .map(|(_, text)| self::read(text, &[]))
        .collect();
    let by_clock: Vec<Course> = read
        .iter()
        .map(|read| course(read, &kitchen, Follows::Clock, Grid::Usual))
        .collect();
    published(&mut rows, &read, &by_clock);
    losses(&mut rows, &read, &by_clock);
    usual_times(&mut rows, &read, &by_clock, &kitchen);
    written_times(&mut rows, &read, &by_clock, &kitchen);
    rows
}

fn published(rows: &mut Vec<Row>, read: &[Read], by_clock: &[Course]) {
    let loss = |place: usize, product: &str| lost(&read[place], &by_clock[place], product);
    let mut table = lines(
        rows,
        Kind::Validation,
        "a trade dictionary, bake-out loss (read): baking and cooling, of the raw dough",
        ("%", 1, 0.5),
    );
    for (place, product) in [(2, "loaf"), (0, "braid"), (1, "loaf")] {
        let name = RECIPES[place].0;
        table.between(
            format!("lost in oven and on the rack, {product} of the {name}"),
            9.8,
            11.5,
            loss(place, product).map(|both| both.1),
        );
    }
    let half = |place: usize, product: &str, celsius: f64| {
        let baking = baking(&read[place], &by_clock[place], product)?;
        let passes = middle_passes(&by_clock[place], baking, celsius)?;
        Some(100.0 * passes / baking.written_s)
    };
    let mut table = lines(
        rows,
        Kind::Validation,
        "oven profiles of pan bread, trade press (read): 60 °C at half of the bake",
        ("% of the bake", 0, 10.0),
    );
    table.add(
        "middle at 60 °C, cardamom loaf in its tin",
        Published::One(50.0),
        half(1, "loaf", 60.0),
    );
    table.add(
        "middle at 60 °C, braid in its tin",
        Published::One(50.0),
        half(0, "braid", 60.0),
    );
    let mut table = lines(
        rows,
        Kind::Validation,
        "oven profiles, trade press (read): crumb has arrived, 93 °C, at 85 % of the bake",
        ("% of the bake", 0, 10.0),
    );
    table.add(
        "middle at 93 °C, hearth loaf",
        Published::One(85.0),
        half(2, "loaf", 93.0),
    );
}

const HELD: &str = "common practice";

fn losses(rows: &mut Vec<Row>, read: &[Read], by_clock: &[Course]) {
    for (place, product, low, high) in [
        (2, "loaf", 8.0, 15.0),
        (0, "buns", 8.0, 15.0),
        (1, "knots", 8.0, 15.0),
        (1, "rolls", 8.0, 15.0),
        (1, "wreath", 6.0, 10.0),
        (1, "loaf", 4.0, 8.0),
        (0, "braid", 4.0, 8.0),
        (3, "feast bread", 6.0, 10.0),
    ] {
        let name = RECIPES[place].0;
        let both = lost(&read[place], &by_clock[place], product);
        let mut table = lines(rows, Kind::Plausibility, HELD, ("%", 1, 0.0));
        table.between(
            format!("lost in the oven, {product} of the {name}"),
            low,
            high,
            both.map(|both| both.0),
        );
        table.between(
            format!("lost on the rack, {product} of the {name}"),
            1.0,
            3.0,
            both.map(|both| both.1 - both.0),
        );
    }
}

fn usual_times(rows: &mut Vec<Row>, read: &[Read], by_clock: &[Course], kitchen: &Kitchen) {
    // Milk in a cold steel bowl.
    let changes = [
        ("at = \"45 °C\"", "at = \"48 °C\""),
        ("in = \"plastic\"", "in = \"steel\""),
    ];
    let mut cold = kitchen.clone();
    cold.room = Temperature::from_celsius(18.0);
    cold.bowl.at = cold.room;
    let milk = self::read(RECIPES[0].1, &changes);
    let woken = wake(&milk.recipe, &milk.formula, &cold).output;
    let mut table = lines(rows, Kind::Plausibility, HELD, ("°C", 1, 0.0));
    table.between(
        "60 g of milk of 48 °C settles in a steel bowl of 18 °C",
        38.0,
        43.0,
        woken.first().map(|answer| answer.settles.celsius()),
    );
    // A rich loaf and small pieces at 190 °C.
    let hot = self::read(RECIPES[0].1, &[("180 °C", "190 °C")]);
    let longer = lengthened(&hot, 1.6);
    let oven = {
        let mut exact = kitchen.clone();
        exact.oven = bake::kitchen::Oven::default();
        exact
    };
    let baked = course(&longer, &oven, Follows::Clock, Grid::Usual);
    let to_88 = |product: &str| {
        let baking = baking(&hot, &baked, product)?;
        Some(middle_passes(&baked, baking, 88.0)? / 60.0)
    };
    let mut table = lines(rows, Kind::Plausibility, HELD, ("min", 1, 0.0));
    table.between(
        "rich braid of 660 g in a tin at 190 °C, middle at 88 °C",
        30.0,
        35.0,
        to_88("braid"),
    );
    table.between(
        "tied buns of 56 g at 190 °C, middle at 88 °C (bakers wait for colour)",
        18.0,
        20.0,
        to_88("buns"),
    );
    // The second proof in an oven with its light on.
    let mut lit = kitchen.clone();
    lit.warm_place = Temperature::from_celsius(30.0);
    let proofed = course(&read[0], &lit, Follows::Cue, Grid::Usual);
    let proof = proofed.steps.iter().find(|step| {
        step.of == "buns"
            && step
                .written
                .is_some_and(|w| (minutes(w) - 65.0).abs() < 0.1)
    });
    let mut table = lines(rows, Kind::Plausibility, HELD, ("min", 0, 0.0));
    table.add(
        "second rise of buns to 1.8 times in an oven with its light on, 30 °C",
        Published::One(45.0),
        proof.and_then(|step| step.cue_after).map(minutes),
    );
    // Cooling.
    let warm = |place: usize, product: &str, celsius: f64| {
        let (course, dough) = (&by_clock[place], dough(&by_clock[place], product)?);
        let baking = baking(&read[place], course, product)?;
        let out = baking.begins_s + baking.written_s;
        let cool = dough
            .moments
            .iter()
            .find(|moment| moment.at.si() > out && moment.middle.celsius() <= celsius)?;
        Some((cool.at.si() - out) / 60.0)
    };
    let mut table = lines(rows, Kind::Plausibility, HELD, ("min", 0, 0.0));
    table.between(
        "buns on a rack, middle at 40 °C",
        20.0,
        30.0,
        warm(0, "buns", 40.0),
    );
    table.between(
        "braid on a rack, middle at 40 °C",
        20.0,
        90.0,
        warm(0, "braid", 40.0),
    );
}

/// Every step of the four recipes that has a cue, and every piece after its bake.
fn written_times(rows: &mut Vec<Row>, read: &[Read], by_clock: &[Course], kitchen: &Kitchen) {
    for (((name, _), read), by_clock) in RECIPES.iter().zip(read).zip(by_clock) {
        let by_cue = course(read, kitchen, Follows::Cue, Grid::Usual);
        for step in &by_cue.steps {
            let Some(range) = step.written_range else {
                continue;
            };
            let measured = step.cue_after.is_some() || step.ended == bake::simulate::Ended::Limit;
            if !measured {
                continue;
            }
            let mut table = lines(
                rows,
                Kind::Plausibility,
                "the recipe's own range (invented)",
                ("min", 0, 0.0),
            );
            table.between(
                format!(
                    "step {} of the {name} ({}) comes to its cue",
                    step.number, step.of
                ),
                minutes(range.low),
                minutes(range.high),
                step.cue_after.map(minutes),
            );
        }
        for product in &read.recipe.products {
            let Some(after) = &product.after_bake else {
                continue;
            };
            let weighs = dough(by_clock, &product.name.value).and_then(|dough| {
                let lost = dough.moments.last()?.lost.si();
                Some(1000.0 * dough.mass.si() * (1.0 - lost))
            });
            let mut table = lines(
                rows,
                Kind::Plausibility,
                "the recipe's own weight (invented)",
                ("g", 0, 0.0),
            );
            table.add(
                format!(
                    "{} of the {name}, weight when cool, filling left out",
                    product.name.value
                ),
                Published::One(after.value.si() * 1000.0),
                weighs,
            );
        }
    }
}
