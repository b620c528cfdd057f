//! For every finding of a filming day a file of scenes in which it is found, and a near miss.

use crate::filming::{HEAD, scene};

/// A code, a text in which it must be found, and a near miss in which it must not.
pub fn cases() -> Vec<(&'static str, String, String)> {
    let one = |more: &str| format!("{HEAD}{}", scene(more));
    let two = |first: &str, then: &str| format!("{HEAD}{}{}", scene(first), scene(then));
    let top = |keys: &str, more: &str| format!("{HEAD}{keys}\n{}", scene(more));
    let many = |count: usize| scene("needs = [\"dough mixing\"]\nset-up = \"1 min\"").repeat(count);
    vec![
        ("key-missing", HEAD.to_owned(), one("")),
        (
            "scene-state-unknown",
            one("needs = [\"bread proofed\"]"),
            one("needs = [\"loaf proofed\"]"),
        ),
        (
            "scene-state-unknown",
            one("uses-up = [\"bread\"]"),
            one("uses-up = [\"loaf\"]"),
        ),
        (
            "scene-state-unknown",
            top("[[hold]]\nat = \"dough ripe\"\nup-to = \"5 min\"", ""),
            top("[[hold]]\nat = \"dough risen\"\nup-to = \"5 min\"", ""),
        ),
        (
            "amount-not-positive",
            top("", "").replace("for = \"10 min\"", "for = \"0 min\""),
            top("", "").replace("for = \"10 min\"", "for = \"1 min\""),
        ),
        (
            "scenes-out-of-order",
            two("at = 10:30", "at = 10:00"),
            two("at = 10:00", "at = 10:30"),
        ),
        (
            "scenes-overlap",
            two("at = 10:00", "at = 10:14"),
            two("at = 10:00", "at = 10:15"),
        ),
        (
            "first-call-unknown",
            one("needs = [\"dough risen\"]"),
            top("call = 08:30", "needs = [\"dough risen\"]"),
        ),
        (
            "made-in-scene",
            one("needs = [\"dough mixing\", \"dough mixed\"]"),
            one("needs = [\"dough mixing\", \"dough half risen\"]"),
        ),
        (
            "scene-in-meal",
            top("meal = { from = 12:30, for = \"45 min\" }", "at = 12:21"),
            top("meal = { from = 12:30, for = \"45 min\" }", "at = 12:20"),
        ),
        (
            "meal-outside-day",
            top("meal = { from = 09:00, for = \"11 min\" }", "at = 08:30"),
            top("meal = { from = 09:00, for = \"10 min\" }", "at = 08:30"),
        ),
        (
            "meal-outside-day",
            top(
                "call = 08:00\nmeal = { from = 07:59, for = \"20 min\" }",
                "at = 08:30",
            ),
            top(
                "call = 08:00\nmeal = { from = 08:00, for = \"20 min\" }",
                "at = 08:30",
            ),
        ),
        (
            "stands-past-scene",
            one("needs = [\"wreath shaped\"]\nstands = \"11 min\""),
            one("needs = [\"wreath shaped\"]\nstands = \"10 min\""),
        ),
        (
            "scene-longer-than-hold",
            one("needs = [\"loaf proofed\"]\nstands = \"11 min\""),
            one("needs = [\"loaf proofed\"]\nstands = \"10 min\""),
        ),
        (
            "state-not-ready",
            top("work-from = 07:00", "at = 09:12\nneeds = [\"loaf rested\"]"),
            top("work-from = 07:00", "at = 09:37\nneeds = [\"loaf rested\"]"),
        ),
        (
            "zone-unknown",
            top("zone = \"Oslo\"", ""),
            top("zone = \"Europe/Oslo\"", ""),
        ),
        (
            "mixer-not-free",
            format!("{HEAD}{}", many(2)),
            format!("{HEAD}mixers = 2\n{}", many(2)),
        ),
        (
            "oven-not-free",
            two(
                "at = 15:00\nneeds = [\"loaf baked\"]",
                "at = 15:15\nneeds = [\"knots baked\"]",
            ),
            top(
                "ovens = 2",
                "at = 15:00\nneeds = [\"loaf baked\", \"knots baked\"]",
            ),
        ),
        (
            "oven-opened",
            format!(
                "{HEAD}racks = 2\n{}{}",
                scene("at = 15:00\nneeds = [\"loaf baking\"]"),
                scene("at = 15:15\nneeds = [\"wreath baked\"]")
            ),
            one("at = 15:00\nneeds = [\"loaf baking\"]"),
        ),
        (
            "shelves-too-few",
            top(
                "shelves = 1",
                "at = 15:00\nneeds = [\"dough dividing\", \"dough dividing\"]",
            ),
            top(
                "shelves = 2",
                "at = 15:00\nneeds = [\"dough dividing\", \"dough dividing\"]",
            ),
        ),
        (
            "hands-too-few",
            top(
                "mixers = 2",
                "at = 15:00\nneeds = [\"dough risen\", \"dough risen\"]",
            ),
            top(
                "mixers = 2\nhands = 2",
                "at = 15:00\nneeds = [\"dough risen\", \"dough risen\"]",
            ),
        ),
        (
            // Loaded in the same minute, though filling the bowl is short.
            "hands-too-few",
            top(
                "mixers = 2",
                "at = 15:00\nneeds = [\"dough mixed\", \"dough mixed\"]",
            ),
            top("mixers = 2", "at = 15:00\nneeds = [\"dough mixed\"]"),
        ),
        (
            "work-at-night",
            one("at = 08:30\nneeds = [\"loaf baked\"]"),
            one("at = 15:00\nneeds = [\"loaf baked\"]"),
        ),
        (
            "work-in-meal",
            top(
                "meal = { from = 12:00, for = \"45 min\" }",
                "at = 14:05\nneeds = [\"dough risen\"]",
            ),
            top(
                "meal = { from = 12:00, for = \"45 min\" }",
                "at = 16:30\nneeds = [\"dough risen\"]",
            ),
        ),
        (
            "meal-late",
            top(
                "call = 07:00\nmeal = { from = 13:01, for = \"45 min\" }",
                "at = 14:00",
            ),
            top(
                "call = 07:00\nmeal = { from = 13:00, for = \"45 min\" }",
                "at = 14:00",
            ),
        ),
    ]
}
