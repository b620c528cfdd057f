//! What tested bakes teach: factors that were put in are found again, and what cannot be believed is refused.
//!
//! The tested figures are made by the simulator itself, so these are identities of the fit and say nothing
//! about bread.

use bake::anchor::{Factor, MOST_BAKES, anchor, happens};
use bake::code;
use bake::kitchen::{Kitchen, in_room};
use bake::simulate::{Anchor, Anchored, Course, Follows, Grid, How, simulate};
use numerics::quantity::Temperature;
use recipe::document::model::Recipe;
use recipe::document::read_recipe;
use recipe::formula::Formula;
use recipe::larder::Larder;
use recipe::source::{Checked, Diagnostic};

/// A soft loaf in its tin, and bakes of it.
fn loaf(tested: &str) -> String {
    format!(
        r#"everyoven = 1
title = "Loaf"
kind = "soft"
[[stage]]
name = "dough"
items = [
  {{ of = "bread flour", take = "400 g" }},
  {{ of = "whole milk", take = "250 g", as = "milk", at = "30 °C" }},
  {{ of = "instant yeast", take = "5 g", as = "yeast" }},
  {{ of = "fine salt", take = "7 g", as = "salt" }},
  {{ of = "unsalted butter", take = "30 g", as = "butter" }},
]
[[stage.step]]
do = "Mix [bread flour], [milk], [yeast], [salt] and [butter] to a dough."
mix = {{ by = "hand", phases = [{{ speed = "medium", for = "10 min" }}], dough = "26 °C" }}
[[stage.step]]
do = "Cover and let rise."
rest = {{ for = "80 min", range = "50-120 min", at = "26 °C", where = "room", in = "bowl", covered = "lid" }}
until = {{ see = "doubled", volume = "2 times" }}
[[stage.step]]
do = "Cut: [loaf pieces]."
divide = {{ into = ["loaf"], for = "3 min" }}
[[product]]
name = "loaf"
from = "dough"
count = 1
piece = "680 g"
tin = {{ name = "loaf tin", size = "21.6 x 11.4 x 6.4 cm", holds = "1420 mL", material = "dark metal" }}
[[product.step]]
do = "Shape it into the tin."
shape = {{ for = "5 min" }}
[[product.step]]
do = "Cover and let rise."
rest = {{ for = "45 min", range = "30-70 min", at = "26 °C", where = "room", in = "tin", covered = "film" }}
until = {{ see = "grown", volume = "1.6 times" }}
[[product.step]]
do = "Bake."
bake = {{ phases = [{{ at = "190 °C", for = "32 min", range = "28-36 min" }}], fan = false, core = "92 °C" }}
[[product.step]]
do = "Cool."
cool = {{ for = "60 min", in = "rack", at = "21 °C" }}
{tested}"#
    )
}

fn read(text: &str) -> (Recipe, Formula) {
    let read = read_recipe(text);
    let recipe = read
        .output
        .unwrap_or_else(|| panic!("{:?}", read.diagnostics));
    let formula = recipe::formula::formula(&recipe, &Larder::open()).output;
    (recipe, formula)
}

fn how(anchor: Anchor) -> How {
    How {
        follows: Follows::Cue,
        grid: Grid::Coarse,
        anchor,
        ..How::default()
    }
}

fn studio() -> Kitchen {
    Kitchen {
        name: "Studio".to_owned(),
        ..Kitchen::standard()
    }
}

fn in_studio(room: f64, anchor: Anchor) -> Course {
    let (recipe, formula) = read(&loaf(""));
    let kitchen = in_room(&studio(), Temperature::from_celsius(room));
    simulate(&recipe, &formula, &kitchen, &how(anchor)).output
}

/// A day in a room as somebody would note it, had the dough these factors.
fn noted(day: u32, room: f64, truth: Anchor) -> String {
    let course = in_studio(room, truth);
    let cue = |number: usize| {
        let step = course.steps.iter().find(|step| step.number == number);
        step.and_then(|step| step.cue_after)
            .expect("it ends by its cue")
            .si()
    };
    let (rise, last, bake) = (cue(2), cue(5), cue(6));
    let light = course
        .doughs
        .iter()
        .flat_map(|dough| &dough.moments)
        .rfind(|moment| moment.step == 6)
        .expect("it was baked")
        .lightness;
    let shades = [
        (80.0, "pale"),
        (75.0, "golden"),
        (70.0, "brown"),
        (50.0, "dark"),
    ];
    let word = shades
        .iter()
        .min_by(|one, other| (one.0 - light).abs().total_cmp(&(other.0 - light).abs()))
        .expect("four shades")
        .1;
    println!("{room} °C: {rise:.0} s, {last:.0} s, {bake:.0} s, L* {light:.1}");
    format!(
        "[[tested]]\ndate = 2026-03-{day:02}\nkitchen = \"studio\"\nroom = \"{room} °C\"\nrises = {{ \"dough\" = \"{rise:.0} s\", \"loaf\" = \"{last:.0} s\" }}\nminutes = \"{bake:.0} s\"\ncore = \"92 °C\"\ncrust = \"{word}\"\n"
    )
}

fn taught(tested: &str) -> Checked<Anchored> {
    let (recipe, formula) = read(&loaf(tested));
    anchor(&recipe, &formula, &[studio()], &how(Anchor::default()))
}

fn codes(said: &[Diagnostic]) -> Vec<&'static str> {
    said.iter().map(|one| one.code.name).collect()
}

#[test]
fn factors_that_were_put_in_are_found_again() {
    for truth in [
        Anchor {
            vigour: 1.35,
            vapour: 0.7,
            browning: 1.0,
            ..Anchor::default()
        },
        Anchor {
            vigour: 0.7,
            vapour: 1.5,
            browning: 1.0,
            ..Anchor::default()
        },
    ] {
        let tested: String = [18.0, 21.0, 24.0, 27.0]
            .iter()
            .zip(1..)
            .map(|(room, day)| noted(day, *room, truth))
            .collect();
        let found = taught(&tested);
        println!(
            "{truth:?} -> {:?} in {} runs\n{:#?}\n{:?}",
            found.output.factors, found.output.runs, found.output.moved, found.diagnostics
        );
        // What four bakes leave to the priors: 5 % of the yeast's logarithm, 10 % of the vapour's; the
        // minutes are whole seconds.
        let off = |factor: Factor| {
            (factor.of(&found.output.factors) / factor.of(&truth))
                .ln()
                .abs()
        };
        assert!(off(Factor::Vigour) < 0.05, "{}", off(Factor::Vigour));
        assert!(off(Factor::Vapour) < 0.08, "{}", off(Factor::Vapour));
        assert!(
            found.output.compared.iter().all(|one| one.met),
            "{:#?}",
            found.output.compared
        );
        assert_eq!(codes(&found.diagnostics), Vec::<&str>::new());
        assert!(found.output.runs <= 5 * 4, "{} runs", found.output.runs);
        assert_eq!(found.output.bakes, 4);
    }
}

/// A word for a crust holds a range of shades, so the browning is found within what it spans.
#[test]
fn a_darker_crust_is_a_faster_browning() {
    let plain = noted(1, 21.0, Anchor::default());
    let dark = plain
        .lines()
        .map(|line| {
            if line.starts_with("crust") {
                "crust = \"dark\""
            } else {
                line
            }
        })
        .collect::<Vec<_>>()
        .join("\n");
    let pale = dark.replace("\"dark\"", "\"pale\"");
    let (dark, pale) = (taught(&dark), taught(&pale));
    println!("{:?} {:?}", dark.output, pale.output);
    let (of_dark, of_pale) = (dark.output.factors.browning, pale.output.factors.browning);
    assert!(of_dark > of_pale, "{of_dark} {of_pale}");
}

#[test]
fn figures_as_reckoned_move_nothing() {
    let found = taught(&noted(1, 21.0, Anchor::default()));
    let factors = found.output.factors;
    assert!((factors.vigour - 1.0).abs() < 0.01, "{factors:?}");
    assert!((factors.vapour - 1.0).abs() < 0.01, "{factors:?}");
    assert!(
        found
            .output
            .compared
            .iter()
            .filter(|one| one.unit == "s")
            .all(|one| one.met)
    );
}

#[test]
fn what_nobody_would_believe_is_refused() {
    let bake = "[[tested]]\ndate = 2026-03-01\nkitchen = \"studio\"\nroom = \"21 °C\"\nrises = { \"dough\" = \"9 min\" }\n";
    let found = taught(bake);
    assert_eq!(codes(&found.diagnostics), [code::ANCHOR_OUTSIDE_RANGE.name]);
    assert_eq!(found.output.factors, Anchor::default());
    assert!(!found.output.compared[0].met);
    let said = &found.diagnostics[0];
    println!("{}", said.message);
    assert!(
        said.message.contains("9\u{a0}min") && said.message.contains("2.5 times"),
        "{}",
        said.message
    );
    // Its neighbour within the range is taken.
    let near = taught(&bake.replace("\"9 min\"", "\"50 min\""));
    println!("{near:#?}");
    assert!(!codes(&near.diagnostics).contains(&code::ANCHOR_OUTSIDE_RANGE.name));
    assert!(near.output.factors.vigour > 1.02);
    assert_eq!(near.output.moved.len(), 1);
}

#[test]
fn an_untested_recipe_says_that_it_is_unanchored() {
    for tested in ["", "[[tested]]\ndate = 2026-03-01\nnote = \"Good.\"\n"] {
        let found = taught(tested);
        assert_eq!(codes(&found.diagnostics), [code::RECIPE_UNANCHORED.name]);
        assert_eq!(found.output, Anchored::default());
        assert_eq!((found.output.bakes, found.output.runs), (0, 0));
    }
}

#[test]
fn two_bakes_that_contradict_each_other_are_both_named() {
    let bake = |day: u32, minutes: u32| {
        format!(
            "[[tested]]\ndate = 2026-03-{day:02}\nkitchen = \"studio\"\nroom = \"21 °C\"\nrises = {{ \"dough\" = \"{minutes} min\" }}\n"
        )
    };
    let found = taught(&(bake(1, 45) + &bake(2, 150)));
    let said: Vec<_> = found
        .diagnostics
        .iter()
        .filter(|one| one.code == code::TESTED_BAKES_DISAGREE)
        .collect();
    assert_eq!(said.len(), 1, "{:?}", found.diagnostics);
    println!("{}", said[0].message);
    assert!(said[0].message.contains("2026-03-01") && said[0].message.contains("2026-03-02"));
    assert_eq!(said[0].labels.len(), 1);
    let agree = taught(&(bake(1, 78) + &bake(2, 90)));
    assert!(!codes(&agree.diagnostics).contains(&code::TESTED_BAKES_DISAGREE.name));
}

#[test]
fn a_figure_that_nothing_moves_is_named_when_it_is_not_met() {
    let plain = noted(1, 21.0, Anchor::default());
    let found = taught(&(plain.clone() + "loss = \"30 %\"\n"));
    let wrong: Vec<_> = found
        .output
        .compared
        .iter()
        .filter(|one| !one.met && one.unit == "1")
        .collect();
    assert_eq!(wrong.len(), 1, "{:?}", found.output.compared);
    assert!(codes(&found.diagnostics).contains(&code::TESTED_FIGURE_NOT_MET.name));
    let share = wrong[0].worked_out;
    let near = taught(&(plain + &format!("loss = \"{:.2} %\"\n", 100.0 * share)));
    assert!(
        near.output
            .compared
            .iter()
            .filter(|one| one.unit == "1")
            .all(|one| one.met)
    );
}

#[test]
fn what_nobody_can_tell_is_left_out_and_named() {
    let bake = "[[tested]]\ndate = 2026-03-01\nroom = \"21 °C\"\nrises = { \"spunge\" = \"60 min\" }\nproduct = \"buns\"\nminutes = \"20 min\"\n";
    let found = taught(bake);
    let said = codes(&found.diagnostics);
    let unclear = code::TESTED_FIGURE_UNCLEAR.name;
    assert_eq!(
        said.iter().filter(|one| **one == unclear).count(),
        2,
        "{said:?}"
    );
    assert!(said.contains(&code::RECIPE_UNANCHORED.name));
    let unknown = taught(
        "[[tested]]\ndate = 2026-03-01\nkitchen = \"attic\"\nroom = \"21 °C\"\nrises = { \"dough\" = \"80 min\" }\n",
    );
    assert!(codes(&unknown.diagnostics).contains(&code::TESTED_KITCHEN_UNKNOWN.name));
}

#[test]
fn only_the_newest_bakes_count() {
    let days: Vec<String> = (1..=12)
        .map(|day| {
            format!(
                "[[tested]]\ndate = 2026-03-{day:02}\nkitchen = \"studio\"\nroom = \"21 °C\"\nrises = {{ \"dough\" = \"80 min\" }}\n"
            )
        })
        .collect();
    let found = taught(&days.concat());
    assert_eq!(found.output.bakes, MOST_BAKES);
    assert!(
        found.output.compared[0].what.contains("2026-03-05"),
        "{:?}",
        found.output.compared
    );
}

/// Other kitchens are departures from the anchored bake.
#[test]
fn a_course_carries_its_anchor() {
    let truth = Anchor {
        vigour: 1.4,
        ..Anchor::default()
    };
    let text = loaf(&noted(1, 21.0, truth));
    let (recipe, formula) = read(&text);
    let cold = in_room(&studio(), Temperature::from_celsius(17.0));
    let with = happens(
        &recipe,
        &formula,
        &cold,
        &[studio()],
        &how(Anchor::default()),
    );
    let without = simulate(&recipe, &formula, &cold, &how(Anchor::default())).output;
    assert_eq!(with.output.anchored.bakes, 1);
    assert!(with.output.anchored.factors.vigour > 1.2);
    assert!(with.output.steps[1].lasts < without.steps[1].lasts);
    let again = happens(
        &recipe,
        &formula,
        &cold,
        &[studio()],
        &how(Anchor::default()),
    );
    assert_eq!(with, again, "the same bits twice");
}
