//! The answer for machines of every command, on the demos, held against that command's schema.

use super::running::{everyoven, folder, root};
use serde_json::Value;
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader};
use std::process::Stdio;

fn schema(command: &str) -> Value {
    let path = root().join(format!("docs/schema/{command}.schema.json"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{command}: {why}"));
    serde_json::from_str(&text).expect("JSON")
}

fn faults(command: &str, answer: &Value) -> Vec<String> {
    let judge = jsonschema::validator_for(&schema(command)).expect("a schema");
    judge
        .iter_errors(answer)
        .map(|fault| fault.to_string())
        .collect()
}

/// The answer of a command, and whether its program ended with 0 or, having something to mend, with 1.
fn answer(arguments: &[&str]) -> Value {
    let out = everyoven()
        .arg("--json")
        .args(arguments)
        .output()
        .expect("it starts");
    serde_json::from_slice(&out.stdout).unwrap_or_else(|why| {
        let said = String::from_utf8_lossy(&out.stderr);
        panic!("{arguments:?}: {why}: {said}")
    })
}

#[test]
fn the_schemas_are_those_of_the_commands() {
    let files = xtask::schema::files(&root()).expect("the schemas");
    for (name, text) in &files {
        let path = root().join(xtask::schema::FOLDER).join(name);
        let kept = std::fs::read_to_string(path).unwrap_or_default();
        assert!(kept == *text, "{name}: run `cargo run -p xtask -- schema`");
        if name != "README.md" {
            let schema: Value = serde_json::from_str(text).expect("JSON");
            assert!(jsonschema::meta::is_valid(&schema), "{name} is no schema");
        }
    }
    // A command without a schema, or a schema without a command, is told.
    let help = everyoven()
        .arg("--help")
        .output()
        .expect("it starts")
        .stdout;
    let help = String::from_utf8(help).expect("UTF-8");
    let commands: BTreeSet<&str> = help
        .lines()
        .skip_while(|line| *line != "Commands:")
        .skip(1)
        .take_while(|line| !line.is_empty())
        .filter_map(|line| line.strip_prefix("  ")?.split(' ').next())
        .filter(|word| !word.is_empty() && *word != "help")
        .collect();
    let ours = xtask::schema::COMMANDS.map(|(command, ..)| command);
    assert_eq!(commands, ours.into_iter().collect());
}

/// Every command that ends by itself, with what its answer must have in it here.
#[test]
fn every_answer_for_machines_follows_its_schema() {
    let out = folder("all");
    let at = |name: &str| out.join(name).display().to_string();
    let (new, imported, published) = (at("new.toml"), at("braids.toml"), at("published"));
    let (demo, packed, back) = (at("demo"), at("notebook.zip"), at("back"));
    let (notebook, variant, trouble) = (at("notebook"), at("variant.toml"), at("trouble.zip"));
    std::fs::create_dir_all(&notebook).expect("a notebook");
    std::fs::copy(
        root().join("examples/hearth-loaf.toml"),
        out.join("notebook/loaf.toml"),
    )
    .expect("a recipe in it");
    let pasted = "tests/suite/import/recipes/egg-braids-step-by-step.txt";
    let (hearth, cardamom) = ("examples/hearth-loaf.toml", "examples/cardamom-dough.toml");
    let (feast, same_day) = ("examples/feast-bread.toml", "examples/same-day-loaf.toml");
    let flat = "examples/kitchens/flat.toml";
    let mut tried = BTreeSet::from(["serve"]);
    for (arguments, has) in [
        (vec!["check", cardamom], "findings"),
        (vec!["check", hearth, "--fix"], "text"),
        (vec!["check", "no-such-file.toml"], "failed"),
        (vec!["formula", same_day], "figures"),
        (vec!["mix", same_day, "--kitchen", flat], "figures"),
        (vec!["bake", hearth, "--kitchen", flat], "happens"),
        (vec!["kitchens", hearth, "-n", "64", "--quick"], "others"),
        (
            vec!["learn", same_day, "--log", "examples/logs/studio.toml"],
            "text",
        ),
        (vec!["figures", cardamom], "figures"),
        (vec!["label", cardamom, "--law", "both"], "text"),
        (
            vec![
                "shoot",
                cardamom,
                "--scenes",
                "examples/scenes/cardamom-dough.toml",
            ],
            "timetable",
        ),
        (
            vec!["shopping", "examples/same-day-loaf.toml=2", hearth],
            "figures",
        ),
        (
            vec!["talk", cardamom, "examples/talk/cardamom-dough.txt"],
            "talk",
        ),
        (
            vec![
                "day",
                hearth,
                "--from",
                "2026-12-23 18:00",
                "--follows",
                "clock",
            ],
            "timetable",
        ),
        (
            vec![
                "variant",
                feast,
                "--instead",
                "medium eggs for eggs",
                "--as",
                &variant,
            ],
            "text",
        ),
        (vec!["answers", hearth, "fresh-yeast"], "answers"),
        (
            vec!["publish", feast, "--into", &published, "--papers", "letter"],
            "files",
        ),
        (vec!["demo", "--into", &demo], "figures"),
        (vec!["new", &new], "text"),
        (vec!["import", pasted, "--as", &imported], "lines"),
        (vec!["backup", &notebook, "--into", &packed], "text"),
        (vec!["restore", &packed, "--into", &back], "text"),
        (
            vec!["report-trouble", &notebook, "--into", &trouble],
            "text",
        ),
        (vec!["explain", "--list"], "text"),
        (vec!["explain", "no-such-finding"], "failed"),
        (vec!["licences"], "text"),
        (vec!["manual", "pages"], "text"),
    ] {
        let value = answer(&arguments);
        assert_eq!(
            faults(arguments[0], &value),
            Vec::<String>::new(),
            "{arguments:?}"
        );
        assert!(!value[has].is_null(), "{arguments:?} has no {has}: {value}");
        tried.insert(arguments[0]);
    }
    let all = xtask::schema::COMMANDS.map(|(command, ..)| command);
    assert_eq!(tried, all.into_iter().collect(), "a command was not tried");
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn the_served_notebook_says_its_address_for_machines() {
    let out = folder("served");
    let mut served = everyoven()
        .args(["--json", "serve"])
        .arg(&out)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("it starts");
    let lines = BufReader::new(served.stdout.take().expect("its output")).lines();
    let mut text = String::new();
    for line in lines {
        let line = line.expect("UTF-8");
        text.push_str(&line);
        if line == "}" {
            break;
        }
    }
    let _ = served.kill();
    let _ = served.wait();
    let value: Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(faults("serve", &value), Vec::<String>::new());
    assert!(
        value["text"]
            .as_str()
            .is_some_and(|text| text.contains("://127.0.0.1:")),
        "{value}"
    );
    let _ = std::fs::remove_dir_all(out);
}

/// Each thing that a schema is for is broken once.
#[test]
fn an_answer_that_is_wrong_is_not_let_through() {
    let right = answer(&["formula", "examples/same-day-loaf.toml"]);
    assert!(faults("formula", &right).is_empty());
    assert!(
        !faults("mix", &right).is_empty(),
        "another command's answer"
    );
    let spoilt = |change: fn(&mut Value)| {
        let mut wrong = right.clone();
        change(&mut wrong);
        faults("formula", &wrong)
    };
    assert!(!spoilt(|wrong| wrong["everyoven"] = 2.into()).is_empty());
    assert!(!spoilt(|wrong| wrong["happens"] = Value::Array(Vec::new())).is_empty());
    assert!(!spoilt(|wrong| wrong["figures"][0]["value"] = "600".into()).is_empty());
    assert!(!spoilt(|wrong| wrong["findings"][0]["grade"] = "bad".into()).is_empty());
    assert!(
        !spoilt(|wrong| {
            let figure = wrong["figures"][0].as_object_mut().expect("a figure");
            figure.remove("unit");
        })
        .is_empty()
    );
    let explained = answer(&["explain", "--list"]);
    let mut silent = explained.clone();
    silent.as_object_mut().expect("an answer").remove("text");
    assert!(faults("explain", &explained).is_empty());
    assert!(
        !faults("explain", &silent).is_empty(),
        "an answer without its text"
    );
}
