//! Many kitchens: each is the same alone and among many, however the work is cut; and what cannot be is said.

use crate::opened::opened;
use bake::anchor::anchor;
use bake::kitchens::audience::{Audience, audience, ready};
use bake::kitchens::doubts::{in_a_way, way};
use bake::kitchens::judge::Flaw;
use bake::kitchens::met::met;
use bake::kitchens::variable::{Group, Unit, Variable};
use bake::kitchens::{
    Row, Setup, Tally, anew, departure, kitchens, number_of_kitchens, other_kitchens, setup,
};
use bake::simulate::{Grid, How};
use everyoven_tests::tree::{root, text};
use recipe::document::model::{Action, Recipe};
use recipe::document::read_audience_bytes;
use recipe::formula::Formula;

fn read(name: &str) -> (Recipe, Formula) {
    let written = text(&format!("examples/{name}.toml")).expect("UTF-8");
    opened(&written)
}

fn set_up((recipe, formula): &(Recipe, Formula)) -> Setup<'_> {
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    let taught = anchor(recipe, formula, &[], &how).output;
    let made = setup(recipe, formula, taught.factors, taught.bakes);
    made.output.expect("it can be followed")
}

/// All bits of a row: what is not a number is the same as itself here.
fn bits(row: &Row) -> String {
    format!("{row:?}")
}

#[test]
fn a_kitchen_is_the_same_alone_and_among_many() {
    let written = read("hearth-loaf");
    let setup = set_up(&written);
    let us = ready("us").expect("ready");
    let whole = kitchens(&setup, &us, 9, 0..40);
    for number in [0, 7, 23, 39] {
        let alone = kitchens(&setup, &us, 9, number..number + 1);
        let place = usize::try_from(number).expect("few");
        assert_eq!(bits(&alone.rows[0]), bits(&whole.rows[place]));
    }
    let mut pieces = Tally::default();
    for range in [0..1, 1..17, 17..18, 18..40] {
        pieces.merge(kitchens(&setup, &us, 9, range));
    }
    let all = |tally: &Tally| tally.rows.iter().map(bits).collect::<Vec<_>>();
    assert_eq!(all(&pieces), all(&whole));
    // Far beyond one sequence of points a kitchen is drawn as any other.
    let far = 8 * 65_536 + 3;
    let one = kitchens(&setup, &us, 9, far..far + 2);
    let other = kitchens(&setup, &us, 9, far + 1..far + 2);
    assert_eq!(bits(&one.rows[1]), bits(&other.rows[0]));
    let put_together = other_kitchens(&setup, &us, &whole, &[], &Vec::new());
    assert_eq!(put_together.kitchens, 40);
}

#[test]
fn another_seed_draws_other_kitchens() {
    let us = ready("us").expect("ready");
    let (one, other) = (met(&us, 1, 5, &[]), met(&us, 2, 5, &[]));
    assert!(
        one.at
            .iter()
            .zip(&other.at)
            .all(|(x, y)| (x - y).abs() > 1e-9)
    );
}

#[test]
fn a_group_that_the_recipe_never_meets_changes_nothing() {
    // A loaf on a stone has no tin.
    let written = read("hearth-loaf");
    let setup = set_up(&written);
    let us = ready("us").expect("ready");
    let first = kitchens(&setup, &us, 3, 0..64);
    let again = anew(&setup, &us, 3, 0..16, &[Group::Tin]);
    for (one, other) in first.rows.iter().zip(&again.rows) {
        assert_eq!(one.flaws, other.flaws);
        assert_eq!(format!("{:?}", one.took_s), format!("{:?}", other.took_s));
    }
    let oven = anew(&setup, &us, 3, 0..64, &[Group::Oven]);
    assert!(
        first
            .rows
            .iter()
            .zip(&oven.rows)
            .any(|(one, other)| one.flaws != other.flaws)
    );
}

/// An audience in which everything is as written.
fn just_so() -> Audience {
    let mut lines = String::from("everyoven = 1\naudience = \"Just so\"\n");
    for variable in Variable::ALL {
        let is = match (variable, variable.unit()) {
            (
                Variable::Weighs
                | Variable::FineScale
                | Variable::HasMixer
                | Variable::PiecesWeighed,
                _,
            ) => "yes = \"100 %\"",
            (_, Unit::YesNo) => "yes = \"0 %\"",
            (Variable::SaltKind, _) => "one-of = [{ share = \"100 %\", word = \"fine\" }]",
            (Variable::Pan, _) => "one-of = [{ share = \"100 %\", word = \"light metal\" }]",
            (Variable::ButterAt, _) => "always = \"19 °C\"",
            (Variable::Room, _) => "always = \"21 °C\"",
            (Variable::WarmPlace, _) => "always = \"27 °C\"",
            (Variable::Refrigerator, _) => "always = \"4 °C\"",
            (Variable::MixerWarms, _) => "always = \"5 °C\"",
            (Variable::HandsWarm, _) => "always = \"1.5 °C\"",
            (Variable::BreadProtein, _) => "always = \"12.5 %\"",
            (Variable::PlainProtein, _) => "always = \"10.8 %\"",
            (Variable::FlourMoisture, _) => "always = \"13.5 %\"",
            (Variable::ButterFat, _) => "always = \"81 %\"",
            (Variable::FlourCup, _) => "always = \"126 g\"",
            (Variable::Egg, _) => "always = \"50 g\"",
            (Variable::ScaleOff, _) => "always = \"0 g\"",
            (_, Unit::Kelvin) => "always = \"0 °C\"",
            (_, Unit::Metre) => "always = \"0 m\"",
            (_, Unit::Minute) => "always = \"0 min\"",
            _ => "always = \"100 %\"",
        };
        lines.push_str(&format!(
            "[[variable]]\nname = \"{}\"\nis = {{ {is} }}\nsource = \"a test\"\nhad = \"derived\"\n",
            variable.key()
        ));
    }
    let file = read_audience_bytes(lines.as_bytes());
    assert_eq!(file.diagnostics, Vec::new());
    let made = audience(&file.output.expect("it reads"));
    assert_eq!(made.diagnostics, Vec::new());
    made.output.expect("it can be")
}

#[test]
fn where_all_is_as_written_amounts_and_words_stay_as_written() {
    let written = read("same-day-loaf");
    let setup = set_up(&written);
    let made = departure::of(&setup, &met(&just_so(), 1, 0, &[]));
    for (stage, before) in made.formula.stages.iter().zip(&written.1.stages) {
        for (item, as_written) in stage.items.iter().zip(&before.items) {
            let (now, then) = (
                item.mass.expect("weighed"),
                as_written.mass.expect("weighed"),
            );
            assert!(
                (now / then - 1.0).abs() < 1e-9,
                "{}: {now:?} {then:?}",
                item.called
            );
        }
    }
    for (product, before) in made.recipe.products.iter().zip(&written.0.products) {
        assert_eq!(product.piece.value.len(), before.piece.value.len());
        for (part, as_written) in product.piece.value.iter().zip(&before.piece.value) {
            assert!((part.mass / as_written.mass - 1.0).abs() < 1e-9);
        }
        for (step, as_written) in product.steps.iter().zip(&before.steps) {
            if matches!(step.action, Action::Rest { .. }) {
                assert_eq!(step.action, as_written.action);
            }
        }
    }
    let facts = &made.facts;
    assert!((facts.salt - 1.0).abs() < 1e-9 && (facts.yeast - 1.0).abs() < 1e-9);
    // Who has all of it as meant, and waits for the sign, gets what is meant but for the thermometer.
    let rows = kitchens(&setup, &just_so(), 1, 0..1).rows;
    let raw = Flaw::RawInside.bit() | Flaw::Pale.bit();
    assert!(
        rows[0].flaws.iter().all(|set| set & !raw == 0),
        "{:?}",
        rows[0].causes
    );
}

#[test]
fn ways_are_the_usual_one_where_nothing_is_doubted() {
    let written = read("hearth-loaf");
    let setup = set_up(&written);
    let us = ready("us").expect("ready");
    let usual = in_a_way(&setup, &us, 5, None, 0..8);
    let straight = kitchens(&setup, &us, 5, 0..8).rows;
    assert_eq!(
        usual.iter().map(bits).collect::<Vec<_>>(),
        straight.iter().map(bits).collect::<Vec<_>>()
    );
    for number in 0..64 {
        let one = way(&setup, &us, 5, number);
        for (variable, varied) in Variable::ALL.iter().zip(&one.audience.variables) {
            assert!(varied.distribution.can_be(), "{variable:?} in way {number}");
        }
        assert!(one.anchor.vigour >= 0.4 && one.anchor.vigour <= 2.5);
    }
}

/// The names of what is said of an audience's file.
fn said(text: &str) -> Vec<&'static str> {
    let file = read_audience_bytes(text.as_bytes());
    let mut all: Vec<&str> = file.diagnostics.iter().map(|d| d.code.name).collect();
    if let Some(file) = &file.output {
        let checked = audience(file);
        assert_eq!(checked.output.is_some(), checked.diagnostics.is_empty());
        all.extend(checked.diagnostics.iter().map(|d| d.code.name));
    }
    all
}

fn file(variables: &str) -> String {
    format!("everyoven = 1\naudience = \"Ours\"\n{variables}")
}

fn variable(name: &str, is: &str, more: &str) -> String {
    format!(
        "[[variable]]\nname = \"{name}\"\nis = {{ {is} }}\n{more}source = \"asked\"\nhad = \"read\"\n"
    )
}

#[test]
fn every_problem_of_an_audience_is_said_at_once() {
    let of = |name: &str, is: &str, more: &str| said(&file(&variable(name, is, more)));
    let room = "from = \"18 °C\", to = \"24 °C\"";
    assert_eq!(of("room", room, ""), Vec::<&str>::new());
    assert_eq!(of("rom", room, ""), ["variable-unknown"]);
    assert_eq!(
        of("room", "from = \"24 °C\", to = \"18 °C\"", ""),
        ["variable-impossible"]
    );
    assert_eq!(of("room", "one-of = []", ""), ["variable-impossible"]);
    assert_eq!(
        of("room", "middle = \"21 °C\"", ""),
        ["variable-impossible"]
    );
    assert_eq!(of("room", "", ""), ["variable-impossible"]);
    assert_eq!(
        of("room", "from = \"18 g\", to = \"24 °C\"", ""),
        ["unit-does-not-fit"]
    );
    assert_eq!(of("weighs", "yes = \"140 %\"", ""), ["variable-impossible"]);
    assert_eq!(
        of("salt-kind", "word = \"pink\"", ""),
        ["variable-impossible"]
    );
    let with = |with: &str| of("room", room, &format!("goes-with = {{ {with} }}\n"));
    assert_eq!(with("weighs = \"40 %\""), Vec::<&str>::new());
    assert_eq!(with("weighs = \"-40 %\""), Vec::<&str>::new());
    assert_eq!(with("weighs = \"140 %\""), ["variables-cannot-go-together"]);
    assert_eq!(with("room = \"40 %\""), ["variables-cannot-go-together"]);
    assert_eq!(with("moon = \"40 %\""), ["variable-unknown"]);
    assert_eq!(
        with("weighs = \"90 %\", altitude = \"90 %\""),
        ["variables-cannot-go-together"]
    );
    let circle = variable("room", room, "goes-with = { altitude = \"40 %\" }\n")
        + &variable(
            "altitude",
            "from = \"0 m\", to = \"9 m\"",
            "goes-with = { room = \"40 %\" }\n",
        );
    assert_eq!(said(&file(&circle)), ["variables-cannot-go-together"; 2]);
    let twice = variable("room", room, "") + &variable("room", room, "");
    assert_eq!(said(&file(&twice)), ["name-twice"]);
    let like = "everyoven = 1\naudience = \"Ours\"\nlike = \"uss\"\n";
    assert_eq!(said(like), ["audience-unknown"]);
    let three = variable("rom", room, "")
        + &variable("weighs", "yes = \"no\"", "")
        + &variable("tin-holds", "from = \"2 cm\", to = \"100 %\"", "");
    assert_eq!(said(&file(&three)).len(), 3);
    assert_eq!(said("everyoven = 1\ntitle = \"x\"\n"), ["key-unknown"]);
    assert_eq!(said(""), ["file-empty"]);
}

#[test]
fn the_example_audience_can_be_drawn_from() {
    let path = root().join("examples/audiences/allotment-club.toml");
    let bytes = std::fs::read(path).expect("it is there");
    let file = read_audience_bytes(&bytes);
    assert_eq!(file.diagnostics, Vec::new());
    let made = audience(&file.output.expect("it reads"));
    assert_eq!(made.diagnostics, Vec::new());
}

#[test]
fn a_number_of_kitchens_that_cannot_be_is_said() {
    for number in [0, 63, 200_001, 1_000_000_000, u64::MAX] {
        let said = number_of_kitchens(number).expect("it is said");
        assert_eq!(said.code.name, "number-of-kitchens");
    }
    assert_eq!(number_of_kitchens(64), None);
    assert_eq!(number_of_kitchens(200_000), None);
}

#[test]
fn the_page_has_the_table_of_what_differs() {
    let page = xtask::kitchens_table::current(&root()).expect("it can be written");
    let now =
        std::fs::read_to_string(root().join(xtask::kitchens_table::PAGE)).expect("it is there");
    assert!(page == now, "run `cargo run -p xtask -- kitchens-table`");
}
