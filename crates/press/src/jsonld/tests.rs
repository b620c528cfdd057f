//! Checks of the structured data: what is in it, what is kept out, and that it can stand in a page.

use serde_json::Value;

use super::jsonld;
use crate::address::PageOptions;
use crate::sample;

fn placed() -> PageOptions {
    PageOptions {
        base: Some("https://bread.example/loaves/".to_owned()),
        absent: vec![],
    }
}

fn read(text: &str) -> Value {
    serde_json::from_str(text).expect("structured data is JSON")
}

#[test]
fn the_sample_in_full() {
    insta::assert_snapshot!(jsonld(&sample::ledger(), &placed()));
}

#[test]
fn without_a_base_nothing_is_named_by_address() {
    let recipe = read(&jsonld(&sample::ledger(), &PageOptions::default()));
    assert!(recipe.get("image").is_none());
    assert!(
        recipe.get("video").is_none(),
        "a film needs a still, and the still an address"
    );
}

#[test]
fn a_film_without_a_date_is_left_out() {
    let mut ledger = sample::ledger();
    ledger.film.as_mut().expect("the sample has a film").date = None;
    assert!(read(&jsonld(&ledger, &placed())).get("video").is_none());
}

#[test]
fn an_absent_photograph_is_left_out() {
    let mut options = placed();
    options.absent.push("braid-cut.jpg".to_owned());
    let recipe = read(&jsonld(&sample::ledger(), &options));
    assert!(recipe.get("image").is_none() && recipe.get("video").is_none());
}

#[test]
fn one_time_alone_is_left_out() {
    let mut ledger = sample::ledger();
    ledger.iso_times.cook.clear();
    let recipe = read(&jsonld(&ledger, &placed()));
    assert!(recipe.get("prepTime").is_none() && recipe.get("cookTime").is_none());
    assert_eq!(recipe["totalTime"], "PT5H50M");
}

#[test]
fn nothing_is_invented() {
    let text = jsonld(&sample::ledger(), &placed());
    for word in [
        "aggregateRating",
        "keywords",
        "review",
        "isAccessibleForFree",
    ] {
        assert!(!text.contains(word), "{word}");
    }
}

/// A figure that is not known to its end would be taken as the whole by a machine.
#[test]
fn nutrition_is_the_printed_one_and_leaves_out_what_is_not_known() {
    let ledger = sample::ledger();
    let said = &read(&jsonld(&ledger, &placed()))["nutrition"];
    let rows = &ledger.label.products[0].us.rows;
    let shown = |place: usize| {
        rows[place].cells[0]
            .as_ref()
            .map(|one| one.shown.replace('\u{a0}', " "))
    };
    assert_eq!(said["calories"].as_str().map(str::to_owned), shown(0));
    assert_eq!(said["fatContent"].as_str().map(str::to_owned), shown(1));
    assert_eq!(said["servingSize"], "Braid: 1 slice (56 g)");
    assert!(!rows[2].complete && said.get("transFatContent").is_none());
}

#[test]
fn steps_are_numbered_as_on_the_page() {
    let recipe = read(&jsonld(&sample::ledger(), &placed()));
    let sections = recipe["recipeInstructions"].as_array().expect("sections");
    let numbers: Vec<_> = sections
        .iter()
        .flat_map(|section| section["itemListElement"].as_array().expect("steps"))
        .map(|step| step["position"].as_u64().expect("a number"))
        .collect();
    assert_eq!(numbers, (1..=21).collect::<Vec<_>>());
}

#[test]
fn no_name_can_end_the_script() {
    let mut ledger = sample::ledger();
    ledger.title = "</script><script>\"x\" & <!-- 'y'".to_owned();
    let text = jsonld(&ledger, &placed());
    assert!(!text.contains('<'));
    assert_eq!(read(&text)["name"], ledger.title.as_str());
}
