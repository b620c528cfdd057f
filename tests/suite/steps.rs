//! Every step of every demo recipe is a complete physical instruction without its prose.
//!
//! Places, vessels, speeds and materials are demanded by the reader already; what is looked for
//! here is what a reader cannot demand of a first draft.

use everyoven_tests::demos::DEMOS;
use recipe::document::model::{Action, Recipe, Step, Until};
use recipe::document::read_recipe;

fn measurable(until: &Until) -> bool {
    until.volume.is_some()
        || until.height.is_some()
        || until.core.is_some()
        || until.dough.is_some()
}

/// What a step leaves unsaid; none when it is complete.
fn unsaid(step: &Step) -> Option<&'static str> {
    let until = step.until.as_ref();
    let words = until.is_some_and(|until| until.see.is_some());
    let end = until.is_some_and(measurable);
    match &step.action {
        Action::Rest { timing, .. } => {
            // A rest on the bench of a quarter of an hour is ended by touch alone.
            let short = timing.usual.value.minutes() <= 20.0;
            match () {
                () if timing.range.is_none() => Some("a rest without a range"),
                () if !words => Some("a rest without words for its end"),
                () if !end && !short => Some("a rest without a measurable end"),
                () => None,
            }
        }
        Action::Bake {
            phases,
            core,
            check,
            ..
        } => match () {
            () if core.is_none() => Some("a bake without a core temperature"),
            () if check.is_none() => Some("a bake without a first look"),
            () if !words || !end => Some("a bake without a cue"),
            () if phases.iter().all(|phase| phase.timing.range.is_none()) => {
                Some("a bake without a range")
            }
            () => None,
        },
        Action::Heat { .. } | Action::Cool { .. } => {
            (!words || !end).then_some("heating or cooling without a cue")
        }
        Action::Wake { .. } => (!words).then_some("waking without a cue"),
        Action::Mix { phases, .. } => phases.is_empty().then_some("a mix without minutes"),
        _ => None,
    }
}

fn steps(recipe: &Recipe) -> impl Iterator<Item = &Step> {
    let of_stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    of_stages.chain(recipe.products.iter().flat_map(|product| &product.steps))
}

#[test]
fn every_step_is_complete_without_its_sentence() {
    let mut faults = Vec::new();
    let mut seen = 0;
    for (name, text) in DEMOS {
        let recipe = read_recipe(text).output.expect("the demo reads");
        for step in steps(&recipe) {
            seen += 1;
            if let Some(fault) = unsaid(step) {
                faults.push(format!("{name}: {fault}: {}", step.text.value));
            }
        }
        for product in &recipe.products {
            if product.tin.is_none() {
                faults.push(format!(
                    "{name}: {} without a tin or tray",
                    product.name.value
                ));
            }
        }
        let wants_a_temperature =
            steps(&recipe).any(|step| matches!(step.action, Action::Mix { dough: Some(_), .. }));
        if !wants_a_temperature {
            faults.push(format!("{name}: no mix says where the dough should end"));
        }
    }
    assert!(seen > 90, "{seen} steps looked at");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn an_incomplete_step_is_seen() {
    let text = DEMOS[2].1.replacen(", volume = \"2.5 times\"", "", 1);
    let recipe = read_recipe(&text).output.expect("it still reads");
    let faults: Vec<_> = steps(&recipe).filter_map(unsaid).collect();
    assert_eq!(faults, ["a rest without a measurable end"]);
}
