//! `check --fix --write` from outside: it writes once, and not where there is nothing to write or no recipe.

use super::{folder, run, text};

const ONE_SCALE: (&str, &str) = (
    "150 °C / 300 °F. The refrigerator",
    "150 °C. The refrigerator",
);

/// A recipe of which one heat stands on one scale alone.
fn spoilt() -> String {
    let whole = std::fs::read_to_string(super::root().join("examples/same-day-loaf.toml"))
        .expect("the demo");
    let spoilt = whole.replace(ONE_SCALE.0, ONE_SCALE.1);
    assert_ne!(whole, spoilt, "the demo has the sentence");
    spoilt
}

#[test]
fn what_is_put_right_is_written_once_and_comments_stay() {
    let out = folder("fix");
    let file = out.join("loaf.toml");
    let path = file.to_str().expect("UTF-8");
    std::fs::write(&file, spoilt()).expect("written");

    let shown = run(&["check", path, "--fix"]);
    assert!(
        text(&shown.stdout).contains("--fix --write"),
        "{}",
        text(&shown.stdout)
    );
    assert_eq!(std::fs::read_to_string(&file).expect("read"), spoilt());

    let written = run(&["check", path, "--fix", "--write"]);
    assert_eq!(written.status.code(), Some(0), "{}", text(&written.stderr));
    assert!(text(&written.stdout).contains("heat-on-one-scale"));
    let after = std::fs::read_to_string(&file).expect("read");
    assert_eq!(after, spoilt().replace(ONE_SCALE.1, ONE_SCALE.0));

    let again = run(&["check", path, "--fix", "--write"]);
    assert!(text(&again.stdout).contains("Nothing here can be put right"));
    assert_eq!(std::fs::read_to_string(&file).expect("read"), after);
    let left: Vec<_> = std::fs::read_dir(&out).expect("there").collect();
    assert_eq!(left.len(), 1, "no half file is left");
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn a_recipe_that_cannot_be_read_is_left_as_it_is() {
    let out = folder("fix-broken");
    let file = out.join("loaf.toml");
    let path = file.to_str().expect("UTF-8");
    let broken = spoilt() + "oops = [\n";
    std::fs::write(&file, &broken).expect("written");
    let answer = run(&["check", path, "--fix", "--write"]);
    assert_eq!(answer.status.code(), Some(1), "{}", text(&answer.stdout));
    assert_eq!(std::fs::read_to_string(&file).expect("read"), broken);
    std::fs::remove_dir_all(out).expect("cleaned");
}
