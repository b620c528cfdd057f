//! `shoot` from outside: the demo's filming day on the terminal, to machines and on paper; what cannot be planned is said.

use super::running::{folder, list, run, text, word};
use serde_json::Value;
use std::path::Path;
use std::process::Command;

const RECIPE: &str = "examples/cardamom-dough.toml";
const SCENES: &str = "examples/scenes/cardamom-dough.toml";

/// The answer for machines, held against its schema.
fn json(arguments: &[&str]) -> (Option<i32>, Value) {
    let answer = run(&[&["--json", "shoot"], arguments].concat());
    let value: Value = serde_json::from_slice(&answer.stdout)
        .unwrap_or_else(|error| panic!("{arguments:?}: {error}: {}", text(&answer.stderr)));
    let schema = run(&["manual", "schema"]).stdout;
    let schema: Value = serde_json::from_slice(&schema).expect("the schema is JSON");
    let judge = jsonschema::validator_for(&schema).expect("the schema is one");
    let faults: Vec<_> = judge.iter_errors(&value).map(|e| e.to_string()).collect();
    assert!(faults.is_empty(), "{arguments:?}: {faults:?}");
    (answer.status.code(), value)
}

#[test]
fn the_demo_day_stands_on_the_terminal() {
    let answer = run(&["shoot", RECIPE, "--scenes", SCENES]);
    assert_eq!(answer.status.code(), Some(0), "{}", text(&answer.stderr));
    let shown = text(&answer.stdout);
    assert!(
        shown.lines().all(|line| line.chars().count() <= 80),
        "{shown}"
    );
    let whole = shown.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "4 batches of dough, the fewest that can do it.",
        "Ages of doughs are the author’s written times.",
        "10:15 S04 Mix the dough; butter in, 40 min dough mixing, batch 4",
        "675 g bread flour",
        "S14: loaf cooled, batch",
        "1 batch wrap",
        "4 batches wrap 16:20, as planned",
    ] {
        assert!(whole.contains(words), "{words}: {shown}");
    }
    let said = text(&answer.stderr);
    for code in [
        "work-in-meal",
        "oven-not-free",
        "shelves-too-few",
        "oven-opened",
    ] {
        assert!(said.contains(code), "{code}: {said}");
    }
}

#[test]
fn machines_get_the_same_day_with_every_figure_once() {
    let (code, answer) = json(&[RECIPE, "--scenes", SCENES]);
    assert_eq!(code, Some(0));
    let figures = list(&answer["figures"]);
    let mut names: Vec<&str> = figures.iter().map(|figure| word(&figure["name"])).collect();
    let count = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), count, "a figure's name stands twice");
    let shown = text(&run(&["shoot", RECIPE, "--scenes", SCENES]).stdout);
    let entries = list(&answer["timetable"]["entries"]);
    assert!(entries.len() > 100);
    for entry in entries {
        assert!(names.binary_search(&word(&entry["begins"])).is_ok());
        if word(&entry["kind"]) == "scene" {
            let figure = figures
                .iter()
                .find(|figure| figure["name"] == entry["begins"]);
            let begins = word(&figure.expect("there")["shown"]).to_owned();
            let mut lines = shown
                .lines()
                .filter_map(|line| line.trim_start().strip_prefix(&*begins));
            let what = word(&entry["what"]);
            assert!(
                lines.any(|rest| rest.trim_start().starts_with(what)),
                "{entry}"
            );
        }
    }
}

#[test]
fn every_paper_is_written_and_is_the_same_each_time() {
    let (one, other) = (folder("one"), folder("other"));
    for (into, more) in [(&one, "24"), (&other, "24")] {
        let into = into.to_str().expect("UTF-8");
        let answer = run(&[
            "shoot", RECIPE, "--scenes", SCENES, "--into", into, "--clock", more,
        ]);
        assert_eq!(answer.status.code(), Some(0), "{}", text(&answer.stderr));
    }
    for (name, begins) in [
        ("filming-day.pdf", "%PDF-"),
        ("timetable.pdf", "%PDF-"),
        ("shopping.pdf", "%PDF-"),
        ("timetable.svg", "<svg"),
        ("timetable.ics", "BEGIN:VCALENDAR\r\n"),
        ("timetable.csv", "number,begins,ends"),
    ] {
        let bytes = std::fs::read(one.join(name)).expect(name);
        assert!(bytes.starts_with(begins.as_bytes()), "{name}");
        assert_eq!(
            bytes,
            std::fs::read(other.join(name)).expect(name),
            "{name}"
        );
    }
    let pdf = one.join("filming-day.pdf");
    let read = Command::new("pdftotext")
        .args(["-layout"])
        .arg(&pdf)
        .arg("-")
        .output();
    let read = text(&read.expect("poppler").stdout).replace('\u{a0}', " ");
    for words in [
        "4 batches of dough, the fewest that can do it",
        "675 g bread flour",
        "Batch 4: loaf",
        "St Brannoc, Harbour Road, 3 km",
        "Contains wheat (gluten), milk and egg",
        "two-hour rule",
        "S04/2",
        "Continuity",
    ] {
        assert!(read.contains(words), "{words}");
    }
    // Four batches and twelve in a hundred to spare: 4 × 980 g × 1.12, and flour for the bench; preferment and paste, made once
    // more for their scenes, have 305 g more.
    let list = one.join("shopping.pdf");
    let read = Command::new("pdftotext")
        .args(["-layout"])
        .arg(&list)
        .arg("-")
        .output();
    let read = text(&read.expect("poppler").stdout).replace('\u{a0}', " ");
    assert!(read.contains("4799 g"), "{read}");
    for path in [one, other] {
        let _ = std::fs::remove_dir_all(path);
    }
}

#[test]
fn hours_are_said_as_the_reader_has_them() {
    let shown = text(&run(&["shoot", RECIPE, "--scenes", SCENES, "--clock", "12"]).stdout);
    assert!(shown.contains("3:30 pm"), "{shown}");
    assert!(!shown.contains("15:30"), "{shown}");
}

#[test]
fn what_cannot_be_planned_is_said_at_its_place() {
    let out = folder("bad");
    let path = out.join("scenes.toml");
    let good = std::fs::read_to_string(
        Path::new(env!("CARGO_MANIFEST_DIR"))
            .parent()
            .expect("the project")
            .join(SCENES),
    );
    let bad = good
        .expect("readable")
        .replace("\"loaf baked\"", "\"loaf bakked\"")
        .replace("at = 13:25", "at = 12:00")
        .replace("call = 08:30", "call = \"08:30\"");
    std::fs::write(&path, bad).expect("a folder for the test");
    let place = path.to_str().expect("UTF-8");
    let answer = run(&["shoot", RECIPE, "--scenes", place]);
    assert_eq!(answer.status.code(), Some(1));
    let said = text(&answer.stderr);
    // What cannot be read comes first; states are looked at when everything can be.
    assert!(
        said.contains("value-wrong-kind") && said.contains("call = 09:25"),
        "{said}"
    );
    let (code, answer) = json(&[RECIPE, "--scenes", place]);
    assert_eq!(code, Some(1));
    assert!(
        list(&answer["findings"])
            .iter()
            .any(|f| f["place"]["line"].is_number())
    );
    let mended = std::fs::read_to_string(&path)
        .expect("there")
        .replace("call = \"08:30\"", "call = 08:30");
    std::fs::write(&path, mended).expect("writable");
    let said = text(&run(&["shoot", RECIPE, "--scenes", place]).stderr);
    for words in [
        "scene-state-unknown",
        "Was “loaf baked” meant?",
        "scenes-out-of-order",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let answer = run(&["shoot", RECIPE, "--scenes", RECIPE]);
    assert_eq!(answer.status.code(), Some(1));
    assert!(text(&answer.stderr).contains("a file of scenes is wanted here"));
    let answer = run(&["shoot", RECIPE, "--scenes", "nowhere.toml"]);
    assert_eq!(answer.status.code(), Some(3));
    let _ = std::fs::remove_dir_all(out);
}
