//! `kitchens` from outside: the same on the terminal, to machines and in figures, on one core and on several; what cannot be is said.
//!
//! What is looked at is how the answers hang together, never how many breads come out well.

use super::running::{folder, list, program, root, run, squeezed, text, word};
use serde_json::Value;
use std::process::Command;

const LOAF: &str = "examples/hearth-loaf.toml";
/// A quick look at few kitchens.
const QUICK: [&str; 5] = ["kitchens", LOAF, "-n", "64", "--quick"];

/// The answer for machines, held against its schema.
fn json(arguments: &[&str]) -> Value {
    let answer = run(&[&["--json"], arguments].concat());
    let value: Value = serde_json::from_slice(&answer.stdout)
        .unwrap_or_else(|error| panic!("{arguments:?}: {error}: {}", text(&answer.stderr)));
    let schema = run(&["manual", "schema"]).stdout;
    let schema: Value = serde_json::from_slice(&schema).expect("the schema is JSON");
    let judge = jsonschema::validator_for(&schema).expect("the schema is one");
    let faults: Vec<_> = judge.iter_errors(&value).map(|e| e.to_string()).collect();
    assert!(faults.is_empty(), "{arguments:?}: {faults:?}");
    value
}

/// Every line of the answer stands on the sheet with its figure.
fn hangs_together(answer: &Value, sheet: &str) {
    let whole = squeezed(sheet);
    for part in ["well", "wrong", "times", "decides", "alone", "safety"] {
        for line in list(&answer["others"][part]) {
            assert!(
                whole.contains(&squeezed(word(&line["shown"]))),
                "{part}: {line}"
            );
            for name in list(&line["figures"]) {
                let figures = list(&answer["figures"]);
                let found = figures
                    .iter()
                    .filter(|figure| figure["name"] == *name)
                    .count();
                assert_eq!(found, 1, "{name}");
            }
        }
    }
    assert!(
        sheet.lines().all(|line| line.chars().count() <= 80),
        "{sheet}"
    );
    for banned in ["ensemble", "spread", "residual", "index"] {
        assert!(!whole.to_lowercase().contains(banned), "{banned}:\n{sheet}");
    }
}

#[test]
fn a_quick_look_says_the_same_everywhere_and_again() {
    let sheet = text(&run(&QUICK).stdout);
    assert!(sheet.contains("comes out well"), "{sheet}");
    assert!(sheet.contains("The model estimates"), "{sheet}");
    hangs_together(&json(&QUICK), &sheet);
    assert_eq!(sheet, text(&run(&QUICK).stdout));
    let other = run(&[&QUICK[..], &["--seed", "2"]].concat());
    assert_ne!(
        sheet,
        text(&other.stdout),
        "another seed draws other kitchens"
    );
}

#[test]
fn one_core_says_the_same_as_all() {
    let one = Command::new("taskset")
        .args(["-c", "0"])
        .arg(program())
        .args(QUICK)
        .current_dir(root())
        .output()
        .expect("taskset, from util-linux, is there");
    assert!(one.status.success(), "{}", text(&one.stderr));
    assert_eq!(text(&one.stdout), text(&run(&QUICK).stdout));
}

#[test]
fn all_of_it_with_figures_and_an_audience_of_ones_own() {
    let into = folder("figures");
    let drawn = into.join("drawn");
    let whole = [
        "kitchens",
        LOAF,
        "-n",
        "64",
        "--audience",
        "examples/audiences/allotment-club.toml",
        "--figures",
        drawn.to_str().expect("UTF-8"),
    ];
    let answer = json(&whole);
    let others = &answer["others"];
    assert_eq!(others["audience"], "Allotment club");
    assert!(!list(&others["decides"]).is_empty());
    assert!(word(&others["band"]).contains("leaves out"));
    assert_eq!(list(&answer["files"]).len(), 3);
    for file in list(&answer["files"]) {
        let svg = std::fs::read_to_string(word(file)).expect("it is written");
        let read = roxmltree::Document::parse(&svg).expect("it is XML");
        assert_eq!(read.root_element().tag_name().name(), "svg");
        for (name, value) in [("x", 360.0), ("x2", 360.0)] {
            let places = read.descendants().filter_map(|node| node.attribute(name));
            for place in places.filter_map(|place| place.parse::<f64>().ok()) {
                assert!((0.0..=value).contains(&place), "{file}: {name} = {place}");
            }
        }
    }
    let _ = std::fs::remove_dir_all(into);
}

#[test]
fn what_cannot_be_is_said_and_nothing_is_written() {
    let into = folder("bad");
    let drawn = into.join("drawn");
    let figures = ["--figures", drawn.to_str().expect("UTF-8")];
    let file = |name: &str, text: &str| {
        let path = into.join(name);
        std::fs::write(&path, text).expect("written");
        path.to_str().expect("UTF-8").to_owned()
    };
    let three = file(
        "three.toml",
        "everyoven = 1\naudience = \"Ours\"\nlike = \"us\"\n\n[[variable]]\nname = \"rom\"\nis = { from = \"18 °C\", to = \"24 °C\" }\nsource = \"asked\"\nhad = \"read\"\n\n[[variable]]\nname = \"weighs\"\nis = { yes = \"130 %\" }\ngoes-with = { weighs = \"20 %\" }\nsource = \"asked\"\nhad = \"read\"\n",
    );
    let unbaked = file(
        "unbaked.toml",
        "everyoven = 1\ntitle = \"x\"\nkind = \"lean\"\n[[stage]]\nname = \"dough\"\nitems = [\n{ of = \"bread flour\", take = \"100 g\" },\n{ of = \"water\", take = \"60 g\" },\n]\n[[stage.step]]\ndo = \"Mix [bread flour] and [water].\"\nmix = { by = \"hand\", phases = [{ speed = \"low\", for = \"5 min\" }] }\n[[product]]\nname = \"loaf\"\nfrom = \"dough\"\ncount = 1\npiece = \"150 g\"\n",
    );
    let broken = file("broken.toml", "everyoven = 1\ntitle = \"x\"\n");
    let cases: [(&[&str], i32, &[&str]); 8] = [
        (
            &[LOAF, "--audience", "uss"],
            2,
            &["There is no audience “uss”", "Is “us” meant?"],
        ),
        (
            &[LOAF, "--audience", &three],
            1,
            &[
                "variable-unknown",
                "variable-impossible",
                "variables-cannot-go-together",
            ],
        ),
        (&[LOAF, "--audience", LOAF], 1, &["This is a recipe"]),
        (
            &[LOAF, "--audience", "no/such/file.toml"],
            3,
            &["no/such/file.toml"],
        ),
        (&[LOAF, "-n", "0"], 1, &["number-of-kitchens"]),
        (&[LOAF, "-n", "1000000000"], 1, &["number-of-kitchens"]),
        (&[&unbaked, "-n", "64"], 1, &["nothing-to-judge"]),
        (&[&broken, "-n", "64"], 1, &["key-missing"]),
    ];
    for (arguments, code, says) in cases {
        let out = run(&[&["kitchens"], arguments, &figures].concat());
        let said = text(&out.stderr);
        assert_eq!(out.status.code(), Some(code), "{arguments:?}: {said}");
        for words in says {
            assert!(said.contains(words), "{arguments:?}: {words}: {said}");
        }
        assert!(out.stdout.is_empty(), "{arguments:?}");
        assert!(!drawn.exists(), "{arguments:?}");
    }
    let _ = std::fs::remove_dir_all(into);
}
