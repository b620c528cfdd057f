//! Filming days that nobody wrote: five hundred lists of scenes, each plan walked by a judge of its own, the fewest batches counted by every grouping.

use crate::filming_judge::{faults, fewest_at_one_mixer, fewest_of_all, good_starts, of_doughs};
use everyoven_tests::demos::DEMOS;
use plan::shoot::batch::{Need, alone, fits, overlap, window};
use plan::shoot::{FilmDay, ScenePlan, Times, conflicts, film, processes, state_names};
use recipe::document::model::Recipe;
use recipe::document::{read_recipe, read_scenes_bytes};
use std::fmt::Write;

/// Numbers that look random and are the same each time (`SplitMix64`, from memory).
struct Draws(u64);

impl Draws {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.next() % count as u64).expect("small")
    }

    fn one_in(&mut self, count: usize) -> bool {
        self.below(count) == 0
    }
}

fn recipe(which: usize) -> (&'static str, Recipe) {
    let (name, text) = DEMOS[which % DEMOS.len()];
    (name, read_recipe(text).output.expect("a demo"))
}

/// A list of scenes with so many at most.
fn scenes(recipe: &Recipe, draws: &mut Draws, most: usize, mixers: usize) -> String {
    let states = state_names(&processes(recipe, Times::Written, 0));
    let mut text = format!(
        "everyoven = 1\nshoot = \"Drawn\"\nday = 2026-05-09\nmixers = {mixers}\nracks = 2\n\
         load = \"{} min\"\n",
        1 + draws.below(8)
    );
    if draws.one_in(3) {
        text += "meal = { from = 12:30, for = \"45 min\" }\n";
    }
    if draws.one_in(3) {
        let keeps = 1 + draws.below(40);
        let _ = write!(text, "[[hold]]\nat = \"risen\"\nup-to = \"{keeps} min\"\n");
    }
    let count = 1 + draws.below(most);
    for nth in 0..count {
        let lasts = 5 + draws.below(20);
        let _ = write!(
            text,
            "[[scene]]\nname = \"S{nth}\"\nabout = \"x\"\nfor = \"{lasts} min\"\nset-up = \"{} min\"\n\
             stands = \"{} min\"\n",
            1 + draws.below(90),
            1 + draws.below(5)
        );
        let mut needs = vec![states[draws.below(states.len())].clone()];
        if draws.one_in(4) {
            needs.push(states[draws.below(states.len())].clone());
        }
        let _ = writeln!(text, "needs = {needs:?}");
        if draws.one_in(5) {
            let product = &recipe.products[draws.below(recipe.products.len())];
            let _ = writeln!(text, "uses-up = [{:?}]", product.name.value);
        }
    }
    text
}

fn planned(recipe: &Recipe, text: &str) -> (Option<FilmDay>, Vec<&'static str>) {
    let read = read_scenes_bytes(text.as_bytes());
    let file = read
        .output
        .unwrap_or_else(|| panic!("{:?}\n{text}", read.diagnostics));
    let planned = film(recipe, &file, Times::Written);
    let codes = planned.diagnostics.iter().map(|d| d.code.name).collect();
    (planned.output, codes)
}

#[test]
fn five_hundred_days_keep_every_rule_and_small_ones_have_the_fewest_batches() {
    let mut draws = Draws(7);
    let (mut plans, mut counted, mut refused) = (0, 0, 0);
    for case in 0..500 {
        let (name, recipe) = recipe(case);
        // Enough mixers for all of them, so that doughs alone decide; and one.
        let mixers = if case % 2 == 0 { 9 } else { 1 };
        let most = if case % 5 == 4 { 14 } else { 6 };
        let text = scenes(&recipe, &mut draws, most, mixers);
        let (day, codes) = planned(&recipe, &text);
        let Some(day) = day else {
            assert_eq!(mixers, 1, "{name}, case {case}: {codes:?}\n{text}");
            assert!(
                codes.contains(&"mixer-not-free"),
                "case {case}: {codes:?}\n{text}"
            );
            refused += 1;
            continue;
        };
        let wrong = faults(&day, mixers, 2, 8);
        assert!(wrong.is_empty(), "{name}, case {case}: {wrong:#?}\n{text}");
        plans += 1;
        if of_doughs(&day).len() <= 6 {
            let fewest = if mixers == 1 {
                fewest_at_one_mixer(&day)
            } else {
                Some(fewest_of_all(&day))
            };
            assert_eq!(
                Some(day.batches.len()),
                fewest,
                "{name}, case {case}\n{text}"
            );
            assert!(day.proven, "{name}, case {case}");
            counted += 1;
        }
    }
    assert!(
        plans > 450 && counted > 300 && refused < 50,
        "{plans} {counted} {refused}"
    );
}

#[test]
fn pairs_decide_what_one_batch_can_serve() {
    let mut draws = Draws(11);
    let mut several = 0;
    for case in 0..150 {
        let (name, recipe) = recipe(case);
        let text = scenes(&recipe, &mut draws, 4, 9);
        let (Some(day), _) = planned(&recipe, &text) else {
            continue;
        };
        let needs = of_doughs(&day);
        let process = &day.processes[0];
        let by_pairs = needs.iter().enumerate().all(|(nth, a)| {
            needs[nth + 1..]
                .iter()
                .all(|b| fits_alone(&day, &day.needs[*a], &day.needs[*b]))
        });
        if needs.len() < 2 {
            continue;
        }
        several += 1;
        let at_once = !good_starts(&day, process, &needs).is_empty();
        assert_eq!(by_pairs, at_once, "{name}, case {case}\n{text}");
        // And where all go together, the window of all is where theirs overlap.
        let all: Vec<&Need> = needs.iter().map(|need| &day.needs[*need]).collect();
        let single: Option<Vec<_>> = all
            .iter()
            .map(|need| Some((need.at_min, alone(process, need)?)))
            .collect();
        let of_each = single.and_then(|single| overlap(single, None));
        if by_pairs {
            assert_eq!(
                window(process, &all, None),
                of_each,
                "{name}, case {case}\n{text}"
            );
        }
    }
    assert!(several > 60, "{several}");
}

/// Whether two needs go together by their minutes alone.
fn fits_alone(day: &FilmDay, one: &Need, other: &Need) -> bool {
    let bare = |need: &Need| Need {
        uses_up: Vec::new(),
        ..need.clone()
    };
    fits(&day.processes[0], &bare(one), &bare(other))
}

#[test]
fn fewer_batches_never_end_the_day_earlier() {
    let mut draws = Draws(23);
    let (mut rows, mut close_days) = (0, 0_u32);
    for case in 0..60 {
        let (name, recipe) = recipe(case);
        let text = scenes(&recipe, &mut draws, 7, 1);
        let (Some(day), _) = planned(&recipe, &text) else {
            continue;
        };
        let last = day.trade.last().expect("a row");
        assert_eq!(last.batches, day.batches.len(), "{name}, case {case}");
        assert_eq!(last.wrap_min, Some(day.wrap_min), "{name}, case {case}");
        for pair in day.trade.windows(2) {
            rows += 1;
            let (fewer, more) = (pair[0], pair[1]);
            // The fewest is the fewest: one batch less cannot keep the clock. Where scenes leave a gap before
            // the meal one of them can move in it and the day still ends as planned.
            let close = |pair: &[ScenePlan]| pair[0].ends_min == pair[1].set_up_min;
            let no_gap = day.scenes.windows(2).all(close);
            close_days += u32::from(no_gap);
            if no_gap && more.batches == day.batches.len() && day.proven && fewer.proven {
                assert!(
                    fewer.wrap_min.is_none_or(|wrap| wrap > day.wrap_min),
                    "{name}, case {case}\n{text}"
                );
            }
            if let (Some(fewer), Some(more)) = (fewer.wrap_min, more.wrap_min) {
                assert!(fewer >= more, "{name}, case {case}\n{text}");
            }
        }
    }
    assert!(rows > 20 && close_days > 10, "{rows}, {close_days}");
}

#[test]
fn two_of_one_bread_in_one_scene_are_two_batches() {
    let (_, recipe) = recipe(1);
    let text = "everyoven = 1\nshoot = \"x\"\nday = 2026-05-09\nmixers = 2\n[[scene]]\nname = \"S1\"\n\
                about = \"x\"\nfor = \"5 min\"\nneeds = [\"loaf cooled\", \"loaf cooled\"]\n";
    let (day, _) = planned(&recipe, text);
    let day = day.expect("a plan");
    assert_eq!(day.batches.len(), 2);
    assert!(conflicts(&day.processes, &day.needs[0], &day.needs[1]));
}
