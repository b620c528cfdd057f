//! An oven and what stands in it: what must follow when it is colder, fuller or less even; what a dough tells once.

use crate::opened::opened;
use bake::kitchen::{Kitchen, Oven};
use bake::simulate::{Course, Event, Grid, Happening, How, simulate};
use everyoven_tests::demos::{BUNS, DEMOS};
use numerics::quantity::{Temperature, TemperatureDifference};

fn baked(text: &str, kitchen: &Kitchen) -> Course {
    let (recipe, formula) = opened(text);
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    simulate(&recipe, &formula, kitchen, &how).output
}

/// The ten buns in an oven.
fn buns(oven: Oven) -> Course {
    let kitchen = Kitchen {
        oven,
        ..Kitchen::standard()
    };
    baked(BUNS, &kitchen)
}

/// Minutes of the ten buns in an oven.
fn minutes(oven: Oven) -> f64 {
    let course = buns(oven);
    let bake = course.steps.last().expect("a bake");
    bake.cue_after.expect("they bake").si() / 60.0
}

fn kelvin(size: f64) -> TemperatureDifference {
    TemperatureDifference::from_si(size)
}

#[test]
fn an_oven_that_was_not_hot_takes_longer() {
    let hot = minutes(Oven::default());
    let mut before = hot;
    for short in [20.0, 40.0, 80.0] {
        let now = minutes(Oven {
            short: kelvin(short),
            ..Oven::default()
        });
        println!("{short} K short: {now:.1} min, hot {hot:.1}");
        assert!(now > before, "{short}: {now} after {before}");
        before = now;
    }
    assert!(before < hot + 10.0, "its element brings it up: {before}");
}

#[test]
fn two_trays_take_longer_than_one_and_three_than_two() {
    let tray = |shelves| {
        minutes(Oven {
            shelves,
            ..Oven::default()
        })
    };
    let (one, two, three) = (tray(1), tray(2), tray(3));
    println!("one tray {one:.1} min, two {two:.1}, three {three:.1}");
    assert!(one < two && two < three, "{one} {two} {three}");
}

#[test]
fn a_swing_goes_both_ways_and_nearly_cancels() {
    let still = minutes(Oven::default());
    let swings = minutes(Oven {
        swing: kelvin(10.0),
        ..Oven::default()
    });
    println!("still {still:.2} min, swinging {swings:.2}");
    assert!((swings / still - 1.0).abs() < 0.05, "{swings} {still}");
    let hottest = |oven| {
        let course = buns(oven);
        let air = course.doughs.last().expect("buns").moments.iter();
        air.map(|moment| moment.air.celsius()).fold(0.0, f64::max)
    };
    let more = hottest(Oven {
        swing: kelvin(10.0),
        ..Oven::default()
    }) - hottest(Oven::default());
    assert!((8.0..=10.0).contains(&more), "{more}");
}

/// What a step tells, by the words of its `of` and of what happens.
fn events(course: &Course, of: &str, is: impl Fn(&Happening) -> bool) -> Vec<Event> {
    let steps = course.steps.iter().filter(|step| step.of == of);
    steps
        .flat_map(|step| step.events.iter().copied())
        .filter(|event| is(&event.what))
        .collect()
}

#[test]
fn butter_is_told_oily_once_and_only_where_it_is_warm_and_there_is_butter() {
    let oily = |course: &Course, of: &str| {
        events(course, of, |what| matches!(what, Happening::ButterOily)).len()
    };
    let warm = Kitchen {
        warm_place: Temperature::from_celsius(36.0),
        ..bake::kitchen::in_room(&Kitchen::standard(), Temperature::from_celsius(32.0))
    };
    let feast = DEMOS.iter().find(|(name, _)| *name == "feast-bread");
    let feast = feast.expect("a demo").1;
    let told = |kitchen: &Kitchen| {
        let course = baked(feast, kitchen);
        (oily(&course, "dough"), oily(&course, "feast bread"))
    };
    let (dough, bread) = told(&warm);
    assert_eq!(
        dough + bread,
        1,
        "once: {dough} in the dough, {bread} later"
    );
    let cool = bake::kitchen::in_room(&Kitchen::standard(), Temperature::from_celsius(18.0));
    assert_eq!(
        told(&Kitchen {
            warm_place: cool.room,
            ..cool
        }),
        (0, 0)
    );
    let lean = baked(BUNS, &warm);
    assert_eq!(
        oily(&lean, "dough") + oily(&lean, "buns"),
        0,
        "no butter in it"
    );
}

#[test]
fn a_dough_too_large_for_its_tin_is_told_over_the_rim() {
    let over = |deep: &str| {
        let tin = format!(
            "count = 1\npiece = \"800 g\"\ntin = {{ name = \"tin\", size = \"24 x 12 x {deep} cm\", material = \"light metal\" }}"
        );
        let text = BUNS.replace("count = 10\npiece = \"80 g\"", &tin);
        let text = text.replace(
            "do = \"Bake.\"",
            "do = \"Let rise.\"\nrest = { for = \"90 min\", at = \"26 °C\", where = \"room\", in = \"tin\", covered = \"lid\" }\nuntil = { see = \"doubled\", volume = \"2 times\" }\n[[product.step]]\ndo = \"Bake.\"",
        );
        let course = baked(&text, &Kitchen::standard());
        events(&course, "buns", |what| {
            matches!(what, Happening::OverTheRim)
        })
    };
    let (deep, flat) = (over("20"), over("5"));
    assert_eq!(deep, []);
    assert_eq!(flat.len(), 1);
}
