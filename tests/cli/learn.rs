//! `learn` and `kitchens --came` from outside: what is shown, what is written and when, what is said of a log that cannot be right.

use super::running::{folder, root, run};
use std::fs;

const LOAF: &str = "examples/same-day-loaf.toml";
const LOG: &str = "examples/logs/studio.toml";
const STUDIO: &str = "examples/kitchens/studio.toml";

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).replace('\u{a0}', " ")
}

#[test]
fn a_kitchen_learns_once_from_a_bake_and_keeps_it_only_when_told() {
    let folder = folder("keeps");
    let kitchen = folder.join("studio.toml");
    fs::copy(root().join(STUDIO), &kitchen).expect("a kitchen of its own");
    let before = fs::read_to_string(&kitchen).expect("it is there");
    let path = kitchen.display().to_string();
    let arguments = ["learn", LOAF, "--log", LOG, "--kitchen", &path];
    let shown = run(&arguments);
    assert!(shown.status.success(), "{}", text(&shown.stderr));
    let said = text(&shown.stdout);
    for part in [
        "What 2 bakes told of this kitchen",
        "the yeast",
        "Eight of ten lie within the bracket",
        "Not written yet: add --write",
    ] {
        assert!(said.contains(part), "{part} in {said}");
    }
    assert_eq!(
        fs::read_to_string(&kitchen).expect("still"),
        before,
        "it was only shown"
    );

    let written = run(&[&arguments[..], &["--write"]].concat());
    assert!(written.status.success(), "{}", text(&written.stderr));
    let after = fs::read_to_string(&kitchen).expect("it is there");
    assert!(
        after.contains("[measured-here]") && after.contains("bakes = 2"),
        "{after}"
    );
    // Whatever is not learnt stays as it was, remarks too.
    for line in before
        .lines()
        .filter(|line| line.starts_with('#') || line.starts_with("stores"))
    {
        assert!(after.contains(line), "{line}");
    }
    let checked = run(&["check", LOAF, "--kitchen", &path]);
    assert!(
        !text(&checked.stdout).contains("studio.toml"),
        "{}",
        text(&checked.stdout)
    );

    let again = run(&[&arguments[..], &["--write"]].concat());
    let notes = text(&again.stderr);
    assert!(
        notes.contains("log-teaches-nothing") && notes.contains("already"),
        "{notes}"
    );
    assert_eq!(
        fs::read_to_string(&kitchen).expect("still"),
        after,
        "no bake counts twice"
    );
}

#[test]
fn a_log_that_cannot_be_right_is_said_at_its_place() {
    let folder = folder("wrong");
    let log = |name: &str, readings: &str| -> String {
        let path = folder.join(format!("{name}.toml"));
        let text = format!(
            "everyoven = 1\nlog = \"loaf\"\n[[bake]]\non = 2026-02-07\nreadings = [{readings}]\n"
        );
        fs::write(&path, text).expect("it is written");
        path.display().to_string()
    };
    let cases = [
        (
            "twice",
            "{ step = 3, after = \"20 min\", inside = \"24 °C\", grown = \"1.5 times\" }",
            "reading-unclear",
            1,
        ),
        (
            "nothing",
            "{ step = 3, after = \"20 min\" }",
            "reading-unclear",
            1,
        ),
        (
            "step",
            "{ step = 31, after = \"20 min\", inside = \"24 °C\" }",
            "reading-step-unknown",
            1,
        ),
        (
            "unit",
            "{ step = 3, after = 20, inside = \"24 °C\" }",
            "number-without-unit",
            1,
        ),
        (
            "hot",
            "{ step = 3, after = \"20 min\", inside = \"78 °C\" }",
            "reading-out-of-reach",
            0,
        ),
        ("empty", "", "log-teaches-nothing", 0),
    ];
    for (name, readings, code, exit) in cases {
        let answer = run(&["learn", LOAF, "--log", &log(name, readings)]);
        let said = text(&answer.stderr);
        assert!(said.contains(code), "{name}: {code} in {said}");
        assert_eq!(answer.status.code(), Some(exit), "{name}: {said}");
    }
    // A near miss of each: one thing in one reading, in a step that there is.
    let right = log(
        "right",
        "{ step = 3, after = \"20 min\", inside = \"25 °C\" }",
    );
    let answer = run(&["learn", LOAF, "--log", &right]);
    assert!(
        answer.status.success() && answer.stderr.is_empty(),
        "{}",
        text(&answer.stderr)
    );
    let none = run(&["learn", LOAF, "--log", "nowhere.toml"]);
    assert_eq!(none.status.code(), Some(3));
    let alone = run(&["learn", LOAF, "--log", LOG, "--write"]);
    assert_eq!(alone.status.code(), Some(2), "--write wants a kitchen");
    let recipe = run(&["learn", LOAF, "--log", LOAF]);
    assert!(
        text(&recipe.stderr).contains("This is a recipe"),
        "{}",
        text(&recipe.stderr)
    );
}

#[test]
fn a_readers_bread_is_set_against_kitchens_like_theirs() {
    let ask =
        |met: &str, came: &str| run(&["kitchens", LOAF, "-n", "256", "--met", met, "--came", came]);
    let cold = ask("room=17C", "well");
    assert!(cold.status.success(), "{}", text(&cold.stderr));
    let said = text(&cold.stdout);
    for part in [
        "Kitchens like this one:",
        "of 256",
        "How warm the kitchen is: 17 °C",
    ] {
        assert!(said.contains(part), "{part} in {said}");
    }
    for (met, came, part) in [
        ("room=17", "well", "room=17C"),
        ("rooms=17C", "well", "Is “room” meant"),
        ("room=17C", "flat", "risen-too-little"),
    ] {
        let answer = ask(met, came);
        assert_eq!(answer.status.code(), Some(2), "{met} {came}");
        assert!(
            text(&answer.stderr).contains(part),
            "{}",
            text(&answer.stderr)
        );
    }
}
