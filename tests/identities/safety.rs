//! What is counted for safety: exact sums where the answer is known, and who is told what.

use crate::opened::opened;
use bake::kitchen::Kitchen;
use bake::physics::salmonella::{dying_per_s, ninetieth_s};
use bake::simulate::safety::{Counts, MOST_TOLD, between};
use bake::simulate::{Course, Follows, Grid, How, Safety, Weight, simulate};
use everyoven_tests::tree;

fn course(text: &str, follows: Follows) -> Course {
    let (recipe, formula) = opened(text);
    let how = How {
        follows,
        grid: Grid::Coarse,
        ..How::default()
    };
    simulate(&recipe, &formula, &Kitchen::standard(), &how).output
}

fn of_example(name: &str) -> Course {
    let text = tree::text(&format!("examples/{name}.toml")).expect("UTF-8");
    course(&text, Follows::Clock)
}

fn said<'a>(course: &'a Course, of: &str, words: &str) -> Option<&'a Safety> {
    let is = |one: &&Safety| one.of == of && one.what.replace('\u{a0}', " ").contains(words);
    course.safety.iter().find(is)
}

/// A soft roll: `holds` goes into the dough, `rest` is how long it rises, `last` ends the product.
fn roll(holds: &str, rest: &str, last: &str) -> String {
    format!(
        r#"everyoven = 1
title = "Roll"
kind = "soft"
[[stage]]
name = "dough"
items = [
  {{ of = "bread flour", take = "500 g" }},
  {{ of = "instant yeast", take = "5 g", as = "yeast" }},
  {{ of = "fine salt", take = "9 g", as = "salt" }},
  {holds},
]
[[stage.step]]
do = "Mix [bread flour], [yeast], [salt] and [wet] to a dough."
mix = {{ by = "hand", phases = [{{ speed = "medium", for = "10 min" }}], dough = "26 °C" }}
[[stage.step]]
do = "Cover and let rise."
rest = {{ for = "{rest}", at = "26 °C", where = "room", in = "bowl", covered = "lid" }}
until = {{ see = "doubled", volume = "2 times" }}
[[stage.step]]
do = "Cut: [rolls pieces]."
divide = {{ into = ["rolls"], for = "5 min" }}
[[product]]
name = "rolls"
from = "dough"
count = 10
piece = "80 g"
[[product.step]]
do = "Round them."
shape = {{ for = "5 min" }}
{last}
[[besides]]
of = "egg"
take = "1 large"
on = "top"
"#
    )
}

const MILK: &str = r#"{ of = "whole milk", take = "310 g", as = "wet", at = "25 °C" }"#;
const WATER: &str = r#"{ of = "water", take = "310 g", as = "wet", at = "25 °C" }"#;
const BAKED: &str = r#"[[product.step]]
do = "Bake."
bake = { phases = [{ at = "190 °C", for = "18 min" }], fan = false, core = "92 °C" }
"#;
const BRUSHED_BEFORE: &str = r#"[[product.step]]
do = "Brush with [egg for the top]."
finish = { for = "3 min" }
"#;

#[test]
fn a_hold_at_one_temperature_counts_exactly() {
    for (celsius, above_21, cool, zone) in [
        (26.0, 1.0, 0.0, 1.0),
        (21.0, 0.0, 1.0, 1.0),
        (15.0, 0.0, 1.0, 1.0),
        (10.0, 0.0, 0.0, 1.0),
        (4.0, 0.0, 0.0, 0.0),
        (61.0, 1.0, 0.0, 0.0),
    ] {
        let mut counts = Counts::default();
        counts.stood(celsius, celsius, 5400.0);
        let all = [
            counts.above_21_s,
            counts.from_10_to_21_s,
            counts.from_4_to_60_s,
        ];
        let wanted = [above_21, cool, zone].map(|part: f64| part * 5400.0);
        assert_eq!(
            all.map(f64::to_bits),
            wanted.map(f64::to_bits),
            "{celsius} °C"
        );
    }
}

#[test]
fn a_straight_line_through_a_limit_is_cut_at_it() {
    // From 11 to 31 °C in 1000 s: half of it above 21, half of it under.
    let mut counts = Counts::default();
    counts.stood(11.0, 31.0, 1000.0);
    counts.stood(31.0, 11.0, 1000.0);
    assert!((counts.above_21_s - 1000.0).abs() < 1e-9);
    assert!((counts.from_10_to_21_s - 1000.0).abs() < 1e-9);
    assert!((between(0.0, 100.0, 4.0, 60.0, 100.0) - 56.0).abs() < 1e-9);
    assert!(between(0.0, 3.0, 4.0, 60.0, 100.0).abs() < 1e-12);
}

#[test]
fn salmonella_dies_by_the_published_time_and_no_faster_than_is_read_on() {
    // By definition one power of ten in D, wherever the measurements reach.
    for celsius in [55.0, 60.0, 62.0] {
        let mut counts = Counts::default();
        counts.baked(celsius, celsius, celsius, ninetieth_s(celsius));
        assert!((counts.salmonella - 1.0).abs() < 1e-12, "{celsius}");
    }
    assert!(dying_per_s(54.9).abs() < 1e-300);
    assert!((dying_per_s(95.0) - dying_per_s(71.1)).abs() < 1e-12);
    // The muffin dough that the line was drawn through (printed D, min), and the bun dough, which must
    // not be judged safer than it was found.
    for (celsius, minutes) in [(55.0, 42.0), (58.5, 15.6), (62.0, 3.0)] {
        let miss = ninetieth_s(celsius) / 60.0 / minutes - 1.0;
        println!(
            "{celsius} °C: {minutes} min printed, {:+.0} % here",
            100.0 * miss
        );
        assert!(miss.abs() < 0.25, "{celsius}: {miss}");
    }
    for (celsius, seconds) in [(55.0, 1718.4), (58.0, 456.6), (61.0, 188.4)] {
        assert!(ninetieth_s(celsius) > seconds, "{celsius}");
    }
}

#[test]
fn the_coldest_place_is_raw_until_it_has_been_at_71() {
    let mut counts = Counts::default();
    counts.stood(25.0, 25.0, 100.0);
    counts.baked(61.1, 81.1, 120.0, 20.0);
    assert!(counts.done);
    assert!((counts.raw_s - 110.0).abs() < 1e-9);
    counts.baked(81.1, 30.0, 60.0, 500.0);
    assert!(
        (counts.raw_s - 110.0).abs() < 1e-9,
        "cooled bread is not raw again"
    );
    let mut never = Counts::default();
    never.baked(20.0, 71.0, 90.0, 50.0);
    assert!(!never.done);
    assert!((never.raw_s - 50.0).abs() < 1e-9);
}

#[test]
fn every_line_has_who_draws_it_and_who_decides() {
    for name in [
        "same-day-loaf",
        "cardamom-dough",
        "hearth-loaf",
        "feast-bread",
    ] {
        let course = of_example(name);
        assert!(!course.safety.is_empty(), "{name}");
        for one in &course.safety {
            println!(
                "{name} {}: {} {:.1} {} line {:?} past {} ({})",
                one.of,
                one.what,
                one.value,
                one.unit,
                one.line,
                one.past,
                one.had.words()
            );
            assert!(one.source.len() > 20 && one.says.len() > 20, "{}", one.what);
            assert!(one.defers.contains("Local food codes"), "{}", one.what);
            assert!(one.value.is_finite() && one.value >= 0.0, "{}", one.what);
            assert!(!one.more_than || one.value >= MOST_TOLD, "{}", one.what);
            assert!(one.line.is_some() || !one.what.contains("egg or milk"));
        }
    }
}

#[test]
fn a_lean_dough_gets_no_egg_lines_and_a_rich_one_does() {
    let lean = of_example("hearth-loaf");
    let whats: Vec<&str> = lean.safety.iter().map(|one| one.what).collect();
    assert!(
        whats
            .iter()
            .all(|what| !what.contains("egg") && !what.contains("Salmonella")),
        "{whats:?}"
    );
    assert!(
        whats.iter().any(|what| what.contains("flour is raw")),
        "{whats:?}"
    );
    let rich = of_example("feast-bread");
    let salmonella = said(&rich, "feast bread", "Salmonella").expect("it holds egg");
    assert!(salmonella.more_than && !salmonella.past);
    assert!(said(&rich, "feast bread", "flour and egg are raw").is_some());
    // Milk alone: the warm hours, but nothing of eggs.
    let milk = course(&roll(MILK, "60 min", BAKED), Follows::Clock);
    assert!(said(&milk, "rolls", "above 21 °C").is_some());
    assert!(said(&milk, "rolls", "Salmonella").is_none());
    let water = course(&roll(WATER, "60 min", BAKED), Follows::Clock);
    assert!(said(&water, "rolls", "above 21 °C").is_none());
}

#[test]
fn warm_hours_are_past_their_line_when_they_are() {
    let long = course(&roll(MILK, "6 h", BAKED), Follows::Clock);
    let above = said(&long, "rolls", "above 21 °C").expect("milk");
    assert!(above.past && above.weight == Weight::Warns, "{above:?}");
    assert!(
        above.value > 5.5 * 3600.0 && above.value < 6.5 * 3600.0,
        "{above:?}"
    );
    let short = course(&roll(MILK, "2 h", BAKED), Follows::Clock);
    let above = said(&short, "rolls", "above 21 °C").expect("milk");
    assert!(!above.past, "{above:?}");
    // The other line is stricter, and is told for information.
    let zone = said(&short, "rolls", "between 4 and 60").expect("milk");
    assert!(zone.past && zone.weight == Weight::Tells, "{zone:?}");
}

#[test]
fn egg_on_top_counts_before_the_bake_and_warns_after_it() {
    let before = course(
        &roll(WATER, "60 min", &format!("{BRUSHED_BEFORE}{BAKED}")),
        Follows::Clock,
    );
    let top = said(&before, "rolls", "egg on it").expect("it is brushed");
    assert!(!top.past && top.value > 350.0, "{top:?}");
    assert!(said(&before, "rolls", "stays raw").is_none());
    let after = course(
        &roll(WATER, "60 min", &format!("{BAKED}{BRUSHED_BEFORE}")),
        Follows::Clock,
    );
    let raw = said(&after, "rolls", "stays raw").expect("it is brushed");
    assert!(raw.past && raw.weight == Weight::Warns);
    let none = course(&roll(WATER, "60 min", BAKED), Follows::Clock);
    assert!(said(&none, "rolls", "egg on it").is_none());
    assert!(said(&none, "rolls", "stays raw").is_none());
}

#[test]
fn a_dough_that_is_not_baked_stays_raw() {
    let raw = course(&roll(MILK, "60 min", ""), Follows::Clock);
    let flour = said(&raw, "rolls", "flour is raw").expect("flour");
    assert!(flour.past);
    let baked = course(&roll(MILK, "60 min", BAKED), Follows::Clock);
    let flour = said(&baked, "rolls", "flour is raw").expect("flour");
    assert!(!flour.past);
}

#[test]
fn egg_in_a_filling_is_baked_with_the_dough_around_it() {
    let filled = roll(WATER, "60 min", BAKED).replace(
        "[[product]]",
        "[[stage]]\nname = \"filling\"\nitems = [\n  { of = \"egg\", take = \"50 g\" },\n  { of = \"granulated sugar\", take = \"50 g\" },\n]\n[[stage.step]]\ndo = \"Beat [egg] and [granulated sugar].\"\nfinish = { for = \"3 min\" }\n[[product]]",
    );
    let filled = filled.replace(
        "piece = \"80 g\"",
        "piece = \"80 g\"\nwith = [{ of = \"filling\", each = \"10 g\" }]",
    );
    let course = course(&filled, Follows::Clock);
    assert!(said(&course, "rolls", "Salmonella").is_some());
    assert!(said(&course, "rolls", "flour and egg are raw").is_some());
    // The dough itself holds none: its warm hours are nobody's concern here.
    assert!(said(&course, "rolls", "above 21 °C").is_none());
}
