//! `everyoven variant` from outside: what it prints, what it writes, what it refuses.

use super::running::{run, text};

fn variant(recipe: &str, wishes: &[&str]) -> String {
    let recipe = format!("examples/{recipe}.toml");
    let mut arguments = vec!["variant", &recipe];
    for wish in wishes {
        arguments.extend(["--instead", wish]);
    }
    let answer = run(&arguments);
    let code = answer.status.code().unwrap_or(-1);
    if code == 0 {
        text(&answer.stdout)
    } else {
        format!("{}---\n{}", text(&answer.stdout), text(&answer.stderr))
    }
}

#[test]
fn fresh_yeast_puts_the_waking_step_away() {
    insta::assert_snapshot!(variant(
        "same-day-loaf",
        &["fresh yeast for active dry yeast"]
    ));
}

#[test]
fn active_dry_yeast_brings_a_waking_step() {
    insta::assert_snapshot!(variant(
        "hearth-loaf",
        &["active dry yeast for instant yeast"]
    ));
}

#[test]
fn without_milk_butter_and_egg() {
    insta::assert_snapshot!(variant(
        "cardamom-dough",
        &["oat drink for milk", "sunflower oil for butter", "no egg"]
    ));
}

#[test]
fn a_quarter_wholemeal() {
    insta::assert_snapshot!(variant(
        "hearth-loaf",
        &["wholemeal flour for 25 % of the bread flour"]
    ));
}

#[test]
fn another_bread_is_refused_with_its_reason() {
    let refused = [
        variant("same-day-loaf", &["rice flour for flour"]),
        variant("same-day-loaf", &["no salt"]),
        variant("hearth-loaf", &["oat drink for milk"]),
        variant("hearth-loaf", &["fresh yeast"]),
    ];
    insta::assert_snapshot!(refused.join("===\n"));
}

#[test]
fn the_file_is_a_recipe_and_is_never_overwritten() {
    let path = std::env::temp_dir().join(format!("everyoven-variant-{}.toml", std::process::id()));
    let file = path.to_str().expect("UTF-8");
    let _ = std::fs::remove_file(&path);
    let arguments = [
        "variant",
        "examples/feast-bread.toml",
        "--instead",
        "medium eggs for eggs",
        "--as",
        file,
    ];
    let first = run(&arguments);
    assert!(first.status.success(), "{}", text(&first.stderr));
    let written = std::fs::read_to_string(&path).expect("written");
    assert!(
        written.starts_with(
            "# A variant of “Tall orange feast bread”, version 4: with medium eggs. Not baked yet.\n"
        ),
        "{}",
        written.lines().next().unwrap_or_default()
    );
    assert!(run(&["check", file]).status.success());
    let second = run(&arguments);
    assert_eq!(second.status.code(), Some(3));
    assert_eq!(std::fs::read_to_string(&path).expect("there"), written);
    std::fs::remove_file(path).expect("cleaned");
}
