//! `everyoven kitchens --advise` from outside: each change as a sentence to write and as lines of the file, in text and in JSON.

use super::running::everyoven;
use everyoven_tests::demos::BUNS;
use std::path::Path;

fn advised(file: &Path, more: &[&str]) -> String {
    let made = everyoven()
        .arg("kitchens")
        .arg(file)
        .args(["-n", "64", "--quick", "--advise"])
        .args(more)
        .output()
        .expect("the program starts");
    let said = String::from_utf8_lossy(&made.stderr).into_owned();
    assert!(made.status.success(), "{said}");
    String::from_utf8(made.stdout).expect("UTF-8")
}

/// Buns whose rise is written far too short: something is worth changing.
#[test]
fn a_change_is_a_sentence_and_lines_of_the_file() {
    let text = BUNS
        .replace("for = \"60 min\", at", "for = \"15 min\", at")
        .replace("for = \"16 min\"", "for = \"19 min\"");
    let folder = std::env::temp_dir().join(format!("everyoven-advise-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join("buns.toml");
    std::fs::write(&file, text).expect("written");
    let shown = advised(&file, &[]);
    let flowing = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let json: serde_json::Value = serde_json::from_str(&advised(&file, &["--json"])).expect("JSON");
    let root = Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the project");
    let schema = std::fs::read_to_string(root.join("crates/app/assets/output-1.schema.json"));
    let schema = serde_json::from_str(&schema.expect("the schema")).expect("JSON");
    let judge = jsonschema::validator_for(&schema).expect("a schema");
    let faults: Vec<String> = judge
        .iter_errors(&json)
        .map(|one| one.to_string())
        .collect();
    assert!(faults.is_empty(), "{faults:?}");
    let all = json["advice"]["advised"].as_array().expect("changes");
    let held: Vec<_> = all.iter().filter(|one| one["holds"] == true).collect();
    assert!(!held.is_empty(), "{shown}");
    for one in held {
        let sentence = one["sentence"].as_str().expect("a sentence");
        assert!(
            flowing(&shown).contains(&flowing(sentence)),
            "{sentence}: {shown}"
        );
        let lines = one["lines"].as_array().expect("lines");
        assert!(!lines.is_empty(), "{sentence} changes no line");
        for line in lines {
            let line = line.as_str().expect("a line");
            assert!(line.starts_with("+ ") || line.starts_with("- "), "{line}");
            assert!(flowing(&shown).contains(&flowing(line)), "{line}: {shown}");
        }
    }
    std::fs::remove_dir_all(folder).expect("cleaned");
}
