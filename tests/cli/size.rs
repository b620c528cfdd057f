//! Another size from outside: what a cook reads of half a recipe, another tin, more pieces, and what
//! is refused.

use super::running::everyoven;
use std::process::Output;

/// The binary that `cargo build` made beside the tests, run in the project's root.
fn variant(arguments: &[&str]) -> Output {
    everyoven()
        .arg("variant")
        .args(arguments)
        .output()
        .expect("the program is built: run `cargo build`")
}

fn printed(arguments: &[&str]) -> String {
    let answer = variant(arguments);
    let said = String::from_utf8_lossy(&answer.stderr).into_owned();
    assert!(answer.status.success(), "{said}");
    String::from_utf8_lossy(&answer.stdout).into_owned()
}

#[test]
fn half_of_a_braid_and_its_buns() {
    insta::assert_snapshot!(printed(&["examples/same-day-loaf.toml", "--half"]));
}

#[test]
fn another_tin_for_the_loaf_alone() {
    let tin = ["examples/cardamom-dough.toml", "--tin", "loaf=950mL"];
    insta::assert_snapshot!(printed(&tin));
}

#[test]
fn half_a_feast_bread_with_weighed_eggs() {
    let half = ["examples/feast-bread.toml", "--half", "--weigh-eggs"];
    insta::assert_snapshot!(printed(&half));
}

#[test]
fn two_loaves() {
    insta::assert_snapshot!(printed(&["examples/hearth-loaf.toml", "--times", "2"]));
}

#[test]
fn too_much_flour_for_the_bowl_is_said_of_the_new_recipe() {
    let answer = variant(&[
        "examples/hearth-loaf.toml",
        "--times",
        "4",
        "--kitchen",
        "examples/kitchens/studio.toml",
    ]);
    let said = String::from_utf8_lossy(&answer.stderr).into_owned();
    assert!(
        said.contains("flour-above-bowl") && said.contains("2200 g"),
        "{said}"
    );
}

#[test]
fn what_cannot_be_meant_is_refused() {
    let several = variant(&["examples/cardamom-dough.toml", "--pieces", "12"]);
    let said = String::from_utf8_lossy(&several.stderr).into_owned();
    assert_eq!(several.status.code(), Some(1), "{said}");
    assert!(
        said.contains("size-wish-unclear") && said.contains("knots="),
        "{said}"
    );
    for wrong in [
        ["--tin", "a large one"],
        ["--flour", "500"],
        ["--pieces", "buns=many"],
        ["--times", "much"],
    ] {
        let answer = variant(&["examples/same-day-loaf.toml", wrong[0], wrong[1]]);
        assert_eq!(answer.status.code(), Some(2), "{wrong:?}");
    }
    let two = variant(&["examples/hearth-loaf.toml", "--half", "--times", "2"]);
    assert_eq!(two.status.code(), Some(2));
}
