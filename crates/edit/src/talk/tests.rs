//! The demo's talk against the demo's recipe.

use super::track::read;
use super::{Kind, Talk, talk};
use crate::{Inputs, work_out};
use bake::kitchen::Kitchen;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;

const CARDAMOM: &str = include_str!("../../../../examples/cardamom-dough.toml");
const TRACK: &str = include_str!("../../../../examples/talk/cardamom-dough.txt");

/// A talk held against the cardamom dough.
fn held(text: &str) -> Talk {
    let recipe = read_recipe(CARDAMOM).output.expect("the demo reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    let kitchen = Kitchen::standard();
    let inputs = Inputs::new(&recipe, &sums, &larder, &kitchen);
    let (_, ledger) = work_out(&inputs).output;
    talk(&inputs, &ledger, &read(text.as_bytes()).output).output
}

/// What is said otherwise, as kinds and words.
fn otherwise(talk: &Talk) -> Vec<(Kind, String)> {
    talk.findings
        .iter()
        .filter(|finding| finding.cue.is_some())
        .map(|finding| (finding.kind, finding.words.clone()))
        .collect()
}

#[test]
fn the_demo_has_five_slips_and_no_more() {
    let talk = held(TRACK);
    let wanted = [
        (Kind::Temperature, "seventy-five Celsius"),
        (Kind::Amount, "two level teaspoons"),
        (Kind::State, "butter, melted"),
        (Kind::Count, "ten"),
        (Kind::Time, "forty-five minutes"),
    ]
    .map(|(kind, words)| (kind, words.to_owned()));
    assert_eq!(otherwise(&talk), wanted);
}
