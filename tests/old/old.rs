//! Documents and records of earlier programs, opened by this one: all of it is there, and what is said is for a cook.

use bake::kitchen::{Friction, Kitchen, kitchen};
use edit::{Inputs, work_out};
use everyoven_tests::tree::{root, target, text};
use recipe::document::{read_kitchen_bytes, read_recipe, read_recipe_bytes};
use recipe::formula::formula;
use recipe::larder::Larder;
use recipe::source::Severity;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Old recipes with what stands in them: stages, products, and grams of flour that go into the dough, added up by hand.
const RECIPES: [(&str, usize, usize, f64); 4] = [
    ("same-day-loaf-first", 2, 2, 600.0),
    ("feast-bread-first", 2, 1, 340.0),
    ("hearth-before-two-scales", 2, 1, 550.0),
    ("cardamom-before-two-scales", 4, 4, 980.0),
];

fn document(name: &str) -> String {
    text(&format!("tests/old/documents/{name}.toml")).expect("UTF-8")
}

#[test]
fn old_recipes_are_read_whole_and_nothing_of_them_must_be_mended() {
    for (name, stages, products, flour_g) in RECIPES {
        let written = document(name);
        let read = read_recipe_bytes(written.as_bytes());
        let recipe = read
            .output
            .unwrap_or_else(|| panic!("{name}: {:?}", read.diagnostics));
        assert_eq!(
            (recipe.stages.len(), recipe.products.len()),
            (stages, products),
            "{name}"
        );
        let mut larder = Larder::open();
        larder.stock(&recipe.pantry);
        let formula = formula(&recipe, &larder).output;
        let standard = Kitchen::standard();
        let inputs = Inputs::new(&recipe, &formula, &larder, &standard).written_as(&written);
        let worked = work_out(&inputs);
        let flour = formula.dough.flour.grams();
        assert!((flour - flour_g).abs() < 0.5, "{name}: {flour} g of flour");
        for said in read.diagnostics.iter().chain(&worked.diagnostics) {
            assert!(
                said.code.severity != Severity::Mend,
                "{name}: {}",
                said.message
            );
            // A sentence with a place, not the name of a key.
            assert!(
                said.message.ends_with(['.', '?']),
                "{name}: {}",
                said.message
            );
            assert!(!said.message.contains("key"), "{name}: {}", said.message);
        }
    }
}

#[test]
fn an_old_kitchen_keeps_its_mixer() {
    let read = read_kitchen_bytes(document("studio-mixer-by-rise").as_bytes());
    assert!(read.diagnostics.is_empty(), "{:?}", read.diagnostics);
    let made = kitchen(&read.output.expect("it can be read"));
    assert!(made.diagnostics.is_empty(), "{:?}", made.diagnostics);
    let Friction::Rise(rise) = made.output.friction else {
        panic!("the mixer was told by its rise");
    };
    assert!((rise.si() - 5.0).abs() < 1e-9, "{rise:?}");
}

/// What cannot be opened is told in words that say what to do: a newer format, none, a format that never was.
#[test]
fn a_format_that_is_not_ours_is_told_with_a_way_out() {
    let old = document("hearth-before-two-scales");
    for (line, code, way_out) in [
        (
            "everyoven = 2",
            "format-newer",
            "newer version of the program",
        ),
        ("", "format-missing", "everyoven = 1 on the first line"),
        ("everyoven = 0", "value-out-of-reason", "everyoven = 1"),
    ] {
        let changed = old.replacen("everyoven = 1", line, 1);
        let said = read_recipe(&changed).diagnostics;
        let one = said.iter().find(|one| one.code.name == code);
        let one = one.unwrap_or_else(|| panic!("{line}: no {code} in {said:?}"));
        assert!(
            one.hints.iter().any(|hint| hint.contains(way_out)),
            "{:?}",
            one.hints
        );
    }
}

fn folder() -> PathBuf {
    let path = std::env::temp_dir().join(format!("everyoven-old-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&path);
    std::fs::create_dir_all(&path).expect("a folder");
    path
}

/// Asks a record with Python's own reader of `SQLite`, which is nobody of ours.
fn asked(script: &str, arguments: &[&Path]) -> String {
    let out = Command::new("python3")
        .arg("-c")
        .arg(script)
        .args(arguments)
        .output()
        .expect("python3");
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    String::from_utf8(out.stdout).expect("UTF-8")
}

const MAKE: &str = "import sqlite3, sys\n\
    c = sqlite3.connect(sys.argv[2]); c.executescript(open(sys.argv[1], encoding='utf-8').read()); c.commit()";

const COUNT: &str = "import sqlite3, sys\n\
    c = sqlite3.connect(sys.argv[1])\n\
    for t in 'body file revision published paper bake reading calibration calibration_bake pin report'.split():\n\
    \x20   print(t, c.execute(f'select count(*) from {t}').fetchone()[0])\n\
    print(c.execute('select value, unit from reading where number = 1').fetchone())\n\
    print(c.execute(\"select words from bake\").fetchone()[0])\n\
    print(c.execute('pragma integrity_check').fetchone()[0])";

#[test]
fn the_first_record_opens_and_keeps_everything() {
    let out = folder();
    let notebook = out.join("notebook");
    std::fs::create_dir_all(&notebook).expect("a notebook");
    let record = notebook.join("record.sqlite");
    asked(MAKE, &[&root().join("tests/old/record-1.sql"), &record]);
    std::fs::copy(
        root().join("tests/old/buns.toml"),
        notebook.join("buns.toml"),
    )
    .expect("its text");
    let before = asked(COUNT, &[&record]);
    assert!(
        before.contains("revision 2") && before.contains("(26.5, 'degC')"),
        "{before}"
    );
    let everyoven = |arguments: &[&str]| {
        let mut command = Command::new(target().join("debug/everyoven"));
        let answer = command
            .current_dir(&out)
            .args(arguments)
            .output()
            .expect("it starts");
        let said = String::from_utf8_lossy(&answer.stderr).into_owned();
        assert!(answer.status.success(), "{arguments:?}: {said}");
        String::from_utf8(answer.stdout).expect("UTF-8")
    };
    let said = everyoven(&["backup", "notebook", "--into", "kept.zip"]);
    assert!(said.contains("2 versions of texts and 1 bake"), "{said}");
    everyoven(&["restore", "kept.zip", "--into", "again"]);
    for there in [record, out.join("again/record.sqlite")] {
        assert_eq!(asked(COUNT, &[&there]), before, "{}", there.display());
    }
    let moved = std::fs::read_dir(&notebook)
        .expect("the notebook")
        .filter_map(Result::ok);
    let names: Vec<String> = moved
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    assert!(
        names.iter().all(|name| !name.contains("damaged")),
        "{names:?}"
    );
    std::fs::remove_dir_all(out).expect("cleaned");
}
