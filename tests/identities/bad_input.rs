//! Kitchens and recipes that nobody can bake: each is told with its place, figure, limit and way out.

use crate::opened::opened;
use bake::code;
use bake::kitchen::{Kitchen, in_room};
use bake::physics::proximate::Proximate;
use bake::simulate::body::{Body, Room};
use bake::simulate::matter::{Holds, Matter};
use bake::simulate::surround::{Side, Surround};
use bake::simulate::{Anchor, Course, Ended, Follows, Grid, How, simulate};
use everyoven_tests::demos::BUNS;
use everyoven_tests::demos::DEMOS;
use numerics::quantity::{Length, Pressure, Temperature, TemperatureDifference};
use numerics::section::{Mesh, Solid};
use recipe::larder::YeastForm;
use recipe::source::{Checked, Code, Diagnostic};

fn run(text: &str, kitchen: &Kitchen, follows: Follows) -> Checked<Course> {
    let (recipe, formula) = opened(text);
    let how = How {
        follows,
        grid: Grid::Coarse,
        ..How::default()
    };
    simulate(&recipe, &formula, kitchen, &how)
}

fn changed(pairs: &[(&str, &str)]) -> String {
    pairs.iter().fold(BUNS.to_owned(), |text, (old, new)| {
        assert_eq!(text.matches(old).count(), 1, "{old}");
        text.replace(old, new)
    })
}

fn found(said: &[Diagnostic], code: Code) -> &Diagnostic {
    let names: Vec<_> = said.iter().map(|one| one.code.name).collect();
    let one = said
        .iter()
        .find(|one| one.code == code)
        .unwrap_or_else(|| panic!("no {}: {names:?}", code.name));
    println!("{}: {}\n  {:?}", code.name, one.message, one.hints);
    assert!(!one.hints.is_empty(), "{} has no way out", code.name);
    assert!(
        one.message.chars().any(|letter| letter.is_ascii_digit()),
        "{} has no figure",
        code.name
    );
    one
}

fn lacks(said: &[Diagnostic], code: Code) {
    assert!(said.iter().all(|one| one.code != code), "{said:?}");
}

/// Where a finding points, in the text.
fn place<'a>(text: &'a str, one: &Diagnostic) -> &'a str {
    let span = one.span.expect("it has a place");
    &text[span.start..span.end]
}

fn finite(course: &Course) {
    for dough in &course.doughs {
        for moment in &dough.moments {
            let all = [
                moment.middle.si(),
                moment.mean.si(),
                moment.outside.si(),
                moment.volume,
                moment.lightness,
                moment.lost.si(),
            ];
            assert!(all.iter().all(|value| value.is_finite()), "{moment:?}");
        }
    }
}

#[test]
fn a_usual_kitchen_says_nothing() {
    let run = run(BUNS, &Kitchen::standard(), Follows::Cue);
    assert_eq!(run.diagnostics, Vec::new());
}

#[test]
fn a_kitchen_of_80_degrees() {
    let hot = in_room(&Kitchen::standard(), Temperature::from_celsius(80.0));
    let run = run(BUNS, &hot, Follows::Cue);
    let said = found(&run.diagnostics, code::KITCHEN_OUT_OF_REASON);
    assert!(
        said.message.contains("`room`")
            && said.message.contains("80\u{a0}°C")
            && said.message.contains("45")
    );
    assert!(
        said.hints[0].contains("27\u{a0}°C"),
        "80 °F is meant: {:?}",
        said.hints
    );
    finite(&run.output);
    let warm = in_room(&Kitchen::standard(), Temperature::from_celsius(44.0));
    lacks(
        &by_the_clock(&warm).diagnostics,
        code::KITCHEN_OUT_OF_REASON,
    );
}

fn by_the_clock(kitchen: &Kitchen) -> Checked<Course> {
    run(BUNS, kitchen, Follows::Clock)
}

#[test]
fn a_refrigerator_warmer_than_its_room() {
    let mut exchanged = in_room(&Kitchen::standard(), Temperature::from_celsius(3.0));
    exchanged.refrigerator = Temperature::from_celsius(14.0);
    let run = by_the_clock(&exchanged);
    found(&run.diagnostics, code::REFRIGERATOR_WARMER_THAN_ROOM);
    lacks(&run.diagnostics, code::KITCHEN_OUT_OF_REASON);
}

#[test]
fn an_oven_of_40_degrees() {
    let text = changed(&[("at = \"200 °C\"", "at = \"40 °C\"")]);
    let run = run(&text, &Kitchen::standard(), Follows::Cue);
    let said = found(&run.diagnostics, code::OVEN_TOO_COLD);
    assert!(place(&text, said).contains("40 °C"));
    let limit = found(&run.diagnostics, code::CUE_NEVER_MET);
    assert!(limit.message.contains("in the middle"), "{}", limit.message);
    finite(&run.output);
    // Cold by the kitchen's own oven, not by the recipe.
    let mut broken = Kitchen::standard();
    broken.oven.hotter = TemperatureDifference::from_si(-180.0);
    let said = by_the_clock(&broken).diagnostics;
    found(&said, code::OVEN_TOO_COLD);
    found(&said, code::KITCHEN_OUT_OF_REASON);
    // A cool oven that bakes is only outside of what was measured.
    let cool = changed(&[("at = \"200 °C\"", "at = \"110 °C\"")]);
    let said = self::run(&cool, &Kitchen::standard(), Follows::Clock).diagnostics;
    found(&said, code::RELATION_OUTSIDE_ITS_RANGE);
    lacks(&said, code::OVEN_TOO_COLD);
}

#[test]
fn a_bun_of_40_kg() {
    let text = changed(&[("piece = \"80 g\"", "piece = \"40 kg\"")]);
    let run = run(&text, &Kitchen::standard(), Follows::Cue);
    let said = found(&run.diagnostics, code::PIECE_TOO_LARGE);
    assert!(place(&text, said).contains("40 kg"));
    assert!(said.message.contains("40\u{a0}kg") && said.message.contains("5\u{a0}kg"));
    let late = found(&run.diagnostics, code::CUE_NEVER_MET);
    assert!(
        late.message.contains("32\u{a0}min"),
        "twice the written time: {}",
        late.message
    );
    finite(&run.output);
}

#[test]
fn no_yeast_at_all() {
    let text = changed(&[
        (
            "  { of = \"instant yeast\", take = \"6 g\", as = \"yeast\" },\n",
            "",
        ),
        (", [yeast]", ""),
    ]);
    let run = run(&text, &Kitchen::standard(), Follows::Cue);
    let said = found(&run.diagnostics, code::DOUGH_WITHOUT_YEAST);
    assert!(place(&text, said).contains("doubled"));
    let never = found(&run.diagnostics, code::CUE_NEVER_MET);
    assert!(
        never.message.contains("1.0"),
        "what it saw: {}",
        never.message
    );
    finite(&run.output);
}

#[test]
fn a_step_that_never_ends() {
    let cold = in_room(&Kitchen::standard(), Temperature::from_celsius(3.0));
    let text = changed(&[("take = \"6 g\"", "take = \"1 g\"")]);
    let run = run(&text, &cold, Follows::Cue);
    let said = found(&run.diagnostics, code::CUE_NEVER_MET);
    assert!(
        said.message.contains("2 times its volume")
            && said.message.contains("after 4\u{a0}h it has 1."),
        "{}",
        said.message
    );
    assert!(place(&text, said).contains("doubled"));
    let step = run
        .output
        .steps
        .iter()
        .find(|step| step.number == 2)
        .expect("the rise");
    assert_eq!((step.ended, step.cue_after), (Ended::Limit, None));
    // Whoever goes by the clock waits for nothing.
    lacks(
        &self::run(&text, &cold, Follows::Clock).diagnostics,
        code::CUE_NEVER_MET,
    );
    lacks(
        &self::run(&text, &cold, Follows::First).diagnostics,
        code::CUE_NEVER_MET,
    );
}

#[test]
fn a_month_of_rest_is_given_up_in_time() {
    let text = changed(&[("for = \"60 min\"", "for = \"10 d\""), ("6 g", "0.001 g")]);
    let run = run(
        &text,
        &in_room(&Kitchen::standard(), Temperature::from_celsius(2.0)),
        Follows::Cue,
    );
    let step = &run.output.steps[1];
    assert_eq!(step.ended, Ended::Limit);
    assert!(
        step.lasts.si() <= 12.0 * 86_400.0 + 1.0,
        "{}",
        step.lasts.si()
    );
}

#[test]
fn a_kitchen_at_9000_m_and_one_in_space() {
    let mut high = Kitchen::standard();
    high.altitude = Length::from_si(9000.0);
    let run = by_the_clock(&high);
    let said = found(&run.diagnostics, code::KITCHEN_OUT_OF_REASON);
    assert!(
        said.message.contains("9000") && said.message.contains("5500"),
        "{}",
        said.message
    );
    finite(&run.output);
    assert!(!run.output.steps.is_empty());
    for nowhere in [60_000.0, f64::NAN, f64::INFINITY] {
        high.altitude = Length::from_si(nowhere);
        let run = by_the_clock(&high);
        assert!(
            run.output.steps.is_empty(),
            "{nowhere}: nothing can be worked out"
        );
        assert!(
            run.diagnostics
                .iter()
                .any(|one| one.code == code::KITCHEN_OUT_OF_REASON),
            "{nowhere}"
        );
    }
    let mut no_room = Kitchen::standard();
    no_room.room = Temperature::from_si(f64::NAN);
    let run = by_the_clock(&no_room);
    assert!(run.output.steps.is_empty());
    assert!(
        run.diagnostics
            .iter()
            .any(|one| one.code == code::KITCHEN_OUT_OF_REASON)
    );
}

#[test]
fn a_dough_of_which_nothing_is_known() {
    let text = changed(&[(
        "mix = { by = \"hand\", phases = [{ speed = \"medium\", for = \"10 min\" }], dough = \"26 °C\" }",
        "shape = { for = \"5 min\" }",
    )]);
    let run = run(&text, &Kitchen::standard(), Follows::Cue);
    let names: Vec<_> = run
        .diagnostics
        .iter()
        .filter(|one| one.code == code::DOUGH_NOT_FOLLOWED)
        .map(|one| place(&text, one))
        .collect();
    assert_eq!(names, ["\"dough\"", "\"buns\""]);
}

/// A mesh of one cell is coarse, but it is a body like any other.
#[test]
fn a_mesh_of_one_cell() {
    assert_eq!(Mesh::of(Solid::Round, vec![0.0], vec![0.0, 0.05]), None);
    assert_eq!(
        Mesh::of(Solid::Round, vec![0.0, f64::NAN], vec![0.0, 0.05]),
        None
    );
    let mesh = Mesh::of(Solid::Round, vec![0.0, 0.04], vec![0.0, 0.05]).expect("edges rise");
    let holds = Holds {
        made_of: Proximate {
            water: 0.45,
            carbohydrate: 0.45,
            protein: 0.08,
            fat: 0.02,
            ..Proximate::default()
        },
        milk_fat: 0.0,
        flour: 0.6,
        sugar: 0.0,
        yeast: 0.01,
        form: YeastForm::Instant,
        woken: false,
        power: 1.0,
        protein: 0.12,
    };
    let matter = Matter::of(holds, Pressure::from_si(101_325.0), Anchor::default());
    let mut body: Body<f64> =
        Body::new(mesh, Room::Every, &matter, Temperature::from_celsius(25.0));
    let side = Side::still(200.0, 8.0, 0.9);
    let around = Surround {
        bottom: side,
        side,
        top: side,
    };
    for _ in 0..720 {
        body.warm(&matter, &around, 2.5);
        body.live(&matter, 2.5);
    }
    let middle = body.middle(&matter);
    assert!(
        middle.is_finite() && middle > 60.0 && middle < 201.0,
        "{middle}"
    );
}

#[test]
fn the_demo_recipes_are_not_scolded() {
    for (name, text) in DEMOS {
        let run = run(text, &Kitchen::standard(), Follows::Cue);
        for one in &run.diagnostics {
            println!("{name}: {} {}", one.code.name, one.message);
        }
        for code in [
            code::KITCHEN_OUT_OF_REASON,
            code::OVEN_TOO_COLD,
            code::PIECE_TOO_LARGE,
            code::DOUGH_WITHOUT_YEAST,
            code::DOUGH_NOT_FOLLOWED,
            code::RELATION_OUTSIDE_ITS_RANGE,
        ] {
            lacks(&run.diagnostics, code);
        }
    }
}
