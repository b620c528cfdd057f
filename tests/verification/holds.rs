//! What a hold in the cold does to the rise after it, in the plan of a bake day and of a filming day, against the
//! simulator asked directly: the same recipe with the hold written into its text as a step.
//!
//! The plans follow products alone and change minutes inside; here the text is changed and the whole dough followed.

use crate::opened::opened;
use bake::kitchen::Kitchen;
use bake::simulate::{Anchor, Course, Follows, Grid, How, Through, simulate};
use everyoven_tests::demos::DEMOS;
use jiff::civil::date;
use plan::day::means::Means;
use plan::day::tasks::Serve;
use plan::day::{Asked, Day, Wanted, day};
use plan::rise::{Alone, Wait, last_rise};
use plan::shoot::{FilmDay, Times, film_in};
use plan::timetable::Entry;
use recipe::document::model::{Hours, Recipe};
use recipe::document::read_scenes_bytes;
use recipe::formula::Formula;
use recipe::source::Diagnostic;

const CHILL: &str = "rest = { for = \"35 min\", range = \"30-50 min\", at = \"4 °C\", where = \"refrigerator\", in = \"tray\", thick = \"3 cm\", covered = \"film\" }\nuntil = { see = \"firm enough to cut cleanly\", dough = \"20 °C\" }";
const BULK: &str = "rest = { for = \"80 min\", range = \"65-100 min\", at = \"26 °C\", where = \"warm place\", in = \"bowl\", covered = \"lid\" }\nuntil = { see = \"nearly doubled; a dent fills slowly\", volume = \"1.9 times\" }";
const BENCH: &str = "rest = { for = \"10 min\", range = \"10-15 min\", at = \"21 °C\"";
/// The rest on the bench on the page of the cardamom dough.
const BENCH_STEP: usize = 12;
const LOAF_RISES: &str =
    "[[product.step]]\ndo = \"Cover and let rise in a warm place until a finger below the rim.\"";
const KNOTS_RISE: &str =
    "[[product.step]]\ndo = \"Cover and let rise in a warm place.\"\nrest = { for = \"50 min\"";

fn cardamom() -> String {
    let demo = DEMOS.iter().find(|(name, _)| *name == "cardamom-dough");
    demo.expect("there").1.to_owned()
}

fn read(text: &str) -> (Recipe, Formula) {
    opened(text)
}

/// The recipe's text with its rests in the bowl, in the cold and on the bench by the clock, so many minutes each.
fn with_rests(bulk: i64, chill: i64, bench: i64) -> String {
    let text = cardamom();
    assert!([CHILL, BULK, BENCH].iter().all(|part| text.contains(part)));
    text.replace(
        CHILL,
        &format!("rest = {{ for = \"{chill} min\", at = \"4 °C\", where = \"refrigerator\", in = \"tray\", thick = \"3 cm\", covered = \"film\" }}"),
    )
    .replace(
        BULK,
        &format!("rest = {{ for = \"{bulk} min\", at = \"26 °C\", where = \"warm place\", in = \"bowl\", covered = \"lid\" }}"),
    )
    .replace(
        BENCH,
        &format!("rest = {{ for = \"{bench} min\", at = \"21 °C\""),
    )
}

/// The day of a text, rises alone, by the signs.
fn followed(text: &str) -> Course {
    let (recipe, formula) = read(text);
    let how = How {
        grid: Grid::Coarse,
        through: Through::Rises,
        follows: Follows::Cue,
        ..How::default()
    };
    simulate(&recipe, &formula, &Kitchen::standard(), &how).output
}

/// Minutes of the last rise of a product in a text.
fn rise(text: &str, product: &str) -> f64 {
    let (recipe, _) = read(text);
    let place = recipe
        .products
        .iter()
        .position(|one| one.name.value == product)
        .expect("a product");
    let number = last_rise(&recipe, place).expect("it rises") + 1;
    let course = followed(text);
    let step = course.steps.iter().find(|step| step.number == number);
    step.expect("followed").lasts.minutes()
}

// A bake day.

/// A day from five in the morning, or from the evening before where the preferment takes its written twelve hours.
fn planned(
    text: &str,
    follows: Follows,
    breaks: Vec<Hours>,
    by: Option<i32>,
) -> (Day, Vec<Diagnostic>) {
    let (recipe, formula) = read(text);
    let kitchen = Kitchen::standard();
    let means = Means {
        breaks,
        ..Means::default()
    };
    let serve = by.map(|by| Serve {
        batch: None,
        product: None,
        by,
        out: false,
    });
    let asked = Asked {
        kitchen: &kitchen,
        means: &means,
        batches: vec![Wanted {
            recipe: &recipe,
            formula: &formula,
            label: "dough".to_owned(),
            anchor: Anchor::default(),
        }],
        serve: serve.into_iter().collect(),
        starts: match follows {
            Follows::Cue => date(2026, 12, 24).at(5, 0, 0, 0),
            _ => date(2026, 12, 23).at(18, 0, 0, 0),
        },
        zone: None,
        follows,
        now: None,
        before: None,
    };
    let mut count = 0;
    let mut budget = || {
        count += 1;
        f64::from(count) / 2000.0
    };
    let made = day(&asked, &mut budget, None);
    (made.output.expect("it can be planned"), made.diagnostics)
}

/// Nobody is there for three hours when the slab has just been laid in the cold, at the soonest that it can be: it
/// waits for them.
fn held_day(text: &str, follows: Follows) -> (Day, Vec<Diagnostic>) {
    let (soonest, _) = planned(text, follows, Vec::new(), None);
    let chills = entry(&soonest, "Chill the dough").begins_min;
    let ready = soonest.breads.iter().map(|bread| bread.ready).max();
    let clock = |minute: i64| soonest.timetable.clock(minute).time();
    let away = Hours {
        from: clock(chills + 15),
        to: clock(chills + 15 + 180),
    };
    planned(text, follows, vec![away], Some(ready.expect("bread") + 225))
}

fn entry<'a>(day: &'a Day, words: &str) -> &'a Entry {
    let mut entries = day.timetable.entries.iter();
    let found = entries.find(|entry| entry.words == words);
    found.unwrap_or_else(|| panic!("no “{words}” in {:#?}", day.timetable.entries))
}

/// Minutes from the beginning of one entry to that of another.
fn between(day: &Day, from: &str, to: &str) -> i64 {
    entry(day, to).begins_min - entry(day, from).begins_min
}

#[test]
fn a_slab_held_for_hours_rises_as_long_as_the_simulator_says() {
    let (day, said) = held_day(&cardamom(), Follows::Cue);
    let chill = between(&day, "Chill the dough", "Divide the dough");
    assert!(chill > 150, "{chill} min in the cold");
    let bulk = between(&day, "Rise of the dough", "Chill the dough");
    let mut far = Vec::new();
    for (name, shape) in [
        ("knots", "Shape the knots"),
        ("rolls", "Shape the rolls"),
        ("wreath", "Shape the wreath"),
        ("loaf", "Shape the loaf"),
    ] {
        let bench = between(&day, "Rest the dough", shape);
        let direct = rise(&with_rests(bulk, chill, bench), name);
        let rise = entry(&day, &format!("Last rise of the {name}"));
        // Planned for as long as the machine says, or a minute or two more: whole minutes, and the kept plan.
        let off = rise.lasts_min as f64 - direct;
        if !(-2.0..=3.0).contains(&off) {
            far.push(format!(
                "{name}: {} min planned, {direct:.1} by the text",
                rise.lasts_min
            ));
        }
    }
    assert_eq!(far, Vec::<String>::new());
    assert!(
        day.replayed
            .iter()
            .all(|one| i64::from(one.held) >= chill - 120)
    );
    for one in &day.replayed {
        assert!(one.holds(), "{one:?}");
    }
    assert!(said.iter().any(|one| one.code.name == "hold-changes-rise"));
    assert!(said.iter().all(|one| one.code.name != "plan-does-not-hold"));
}

/// By the written clock the author's minutes are changed in the proportion of two days of the simulator.
#[test]
fn the_written_minutes_change_in_the_same_proportion() {
    let (day, _) = held_day(&cardamom(), Follows::Clock);
    let chill = between(&day, "Chill the dough", "Divide the dough");
    assert!(chill > 150, "{chill} min in the cold");
    for (name, shape, written) in [
        ("knots", "Shape the knots", 50.0),
        ("loaf", "Shape the loaf", 75.0),
    ] {
        let bench = between(&day, "Rest the dough", shape);
        let with = rise(&with_rests(80, chill, bench), name);
        let without = rise(&with_rests(80, 35, 10), name);
        let wanted = written * with / without;
        let planned = entry(&day, &format!("Last rise of the {name}")).lasts_min as f64;
        assert!(
            (-2.0..=3.0).contains(&(planned - wanted)),
            "{name}: {planned} min planned, {wanted:.1} by the text"
        );
    }
}

/// A text whose rest on the bench goes by a sign.
fn by_a_sign(text: &str) -> String {
    let made = text.replace(
        "until = { see = \"relaxed: a piece stretches without springing back\" }",
        "until = { see = \"a little puffed\", volume = \"1.1 times\" }",
    );
    assert_ne!(made, text);
    made
}

/// Minutes of a step of a text, followed by the signs.
fn lasts(text: &str, number: usize) -> f64 {
    let course = followed(text);
    let step = course.steps.iter().find(|step| step.number == number);
    step.expect("followed").lasts.minutes()
}

/// A rest between the cold and the last rise that goes by a sign is asked for it anew too.
#[test]
fn a_rest_by_a_sign_after_the_hold_takes_what_the_simulator_says() {
    let (day, said) = held_day(&by_a_sign(&cardamom()), Follows::Cue);
    let chill = between(&day, "Chill the dough", "Divide the dough");
    assert!(chill > 150, "{chill} min in the cold");
    let bulk = between(&day, "Rise of the dough", "Chill the dough");
    let told = day.between.first().expect("it is asked");
    assert_eq!(told.step + 1, BENCH_STEP);
    assert!(told.holds(), "{told:?}");
    let direct = lasts(&by_a_sign(&with_rests(bulk, chill, 10)), BENCH_STEP);
    // It stands that long with the wait behind it; a rest that waits anyway keeps its minutes.
    let sign = f64::from(told.sign);
    assert!(
        (-2.0..=3.0).contains(&(sign - direct)),
        "{sign} min asked for, {direct:.1} by the text"
    );
    // It is another rest than without the hold, and that is said.
    assert!((f64::from(told.usual) - direct).abs() > 3.0);
    assert!(said.iter().any(|one| one.code.name == "hold-changes-rise"
        && one.message.contains(&format!("step {}", told.step + 1))));
}

// A filming day.

fn filmed(text: &str, scenes: &[(&str, &str)]) -> (FilmDay, Vec<Diagnostic>) {
    let (recipe, formula) = read(text);
    let kitchen = Kitchen::standard();
    let mut text = "everyoven = 1\nshoot = \"x\"\nday = 2026-05-09\ncall = 08:30\n".to_owned();
    for (at, needs) in scenes {
        text += &format!(
            "[[scene]]\nname = \"at {at}\"\nabout = \"x\"\nfor = \"5 min\"\nstands = \"5 min\"\nat = {at}\nneeds = [\"{needs}\"]\n"
        );
    }
    let read = read_scenes_bytes(text.as_bytes());
    let file = read
        .output
        .unwrap_or_else(|| panic!("{:?}", read.diagnostics));
    let asked = plan::rise::Asked {
        formula: &formula,
        kitchen: &kitchen,
        how: How::default(),
    };
    let made = film_in(&recipe, &file, Times::Written, Some(&asked));
    (made.output.expect("a plan"), made.diagnostics)
}

/// Of the only batch: how long it is in a state, and how long the run to it takes.
fn state(day: &FilmDay, name: &str) -> (i64, i64) {
    assert_eq!(day.batches.len(), 1);
    let batch = &day.batches[0];
    let process = &day.processes[batch.process];
    let point = process.points.iter().position(|point| point.name() == name);
    let point = point.unwrap_or_else(|| panic!("no {name}"));
    let run = process.runs.iter().find(|run| run.to == point);
    let stay = batch.stays[point];
    (
        stay.leaves_min - stay.arrives_min,
        run.expect("a run").takes_min,
    )
}

#[test]
fn a_slab_that_waits_for_its_scene_rises_longer_and_the_plan_makes_room() {
    let (day, said) = filmed(
        &cardamom(),
        &[
            ("09:00", "dough chilled"),
            ("13:00", "loaf shaping"),
            ("15:15", "loaf proofed"),
        ],
    );
    let (slab, _) = state(&day, "dough chilled");
    let (rested, _) = state(&day, "loaf rested");
    let (shaped, _) = state(&day, "loaf shaped");
    let (waits, takes) = state(&day, "loaf proofed");
    assert!(slab > 120, "{slab} min in the cold");
    // Written into the text: the slab's hold, pieces that wait on the bench or in the cold, the loaf in its tin.
    let held = |minutes: i64, vessel: &str| {
        format!(
            "[[product.step]]\ndo = \"Wait.\"\nrest = {{ for = \"{minutes} min\", at = \"4 °C\", where = \"refrigerator\", in = \"{vessel}\", covered = \"film\" }}\n\n"
        )
    };
    assert!(rested < 15, "{rested} min");
    let with = with_rests(80, 35 + slab, 10);
    let with = if shaped >= 15 {
        with.replace(LOAF_RISES, &format!("{}{LOAF_RISES}", held(shaped, "tin")))
    } else {
        with
    };
    let wanted = 75.0 * rise(&with, "loaf") / rise(&with_rests(80, 35, 10), "loaf");
    assert!(
        ((takes as f64) - wanted).abs() <= 2.0,
        "{takes} min planned, {wanted:.1} by the text; {slab} min as a slab, {shaped} shaped"
    );
    assert!(takes > 75, "{takes} min");
    // Shaped at one, five minutes of scene inside it, the rise, and it is looked at a quarter past three.
    assert_eq!(
        6 + shaped + takes + waits,
        135 + 5,
        "{shaped} {takes} {waits}"
    );
    assert!(said.iter().any(|one| one.code.name == "hold-changes-rise"));
}

/// The same of a rest on the bench that goes by a sign, where it was a slab for hours.
#[test]
fn a_rest_by_a_sign_is_filmed_later_after_a_hold() {
    let (day, said) = filmed(
        &by_a_sign(&cardamom()),
        &[("09:00", "dough chilled"), ("13:00", "loaf shaping")],
    );
    let (slab, _) = state(&day, "dough chilled");
    assert!(slab > 60, "{slab} min in the cold");
    let (_, takes) = state(&day, "loaf rested");
    let told = format!("the rest of step {BENCH_STEP} ");
    assert!(said.iter().any(|one| one.message.contains(&told)));
    let with = lasts(&by_a_sign(&with_rests(80, 35 + slab, 10)), BENCH_STEP);
    let without = lasts(&by_a_sign(&with_rests(80, 35, 10)), BENCH_STEP);
    let wanted = 10.0 * with / without;
    assert!(
        ((takes as f64) - wanted).abs() <= 2.0,
        "{takes} min planned, {wanted:.1} by the text; {slab} min as a slab"
    );
}

/// Where scenes leave no room the minutes stay, and that is said.
#[test]
fn a_rise_without_room_is_told() {
    let (_, said) = filmed(
        &cardamom(),
        &[
            ("09:00", "dough chilled"),
            ("13:00", "loaf shaping"),
            ("14:21", "loaf proofed"),
        ],
    );
    let told = said.iter().find(|one| one.code.name == "hold-changes-rise");
    let told = told.unwrap_or_else(|| panic!("{said:?}"));
    assert!(
        told.hints.iter().any(|hint| hint.contains("no room")),
        "{told:?}"
    );
}

/// What a shaped dough has grown in the cold counts towards its sign: against the volumes of one long day.
#[test]
fn what_grew_in_the_cold_is_grown() {
    let (recipe, formula) = read(&cardamom());
    let kitchen = Kitchen::standard();
    let asked = plan::rise::Asked {
        formula: &formula,
        kitchen: &kitchen,
        how: How::default(),
    };
    let knots = 0;
    let rise_of_knots = last_rise(&recipe, knots).expect("it rises");
    for hours in [1_i64, 3, 8] {
        let held = [Wait::Held {
            before: rise_of_knots,
            minutes: hours * 60,
        }];
        let alone = Alone::new(&recipe, knots, &held).expect("it can be asked");
        let rise = alone.asked(&asked, Follows::Cue).expect("it rises");
        // The same with the hold in the text and the rise by the clock: its size then, against that when shaped.
        let minutes = rise.lasts.minutes();
        let text = cardamom().replace(
            KNOTS_RISE,
            &format!("[[product.step]]\ndo = \"Wait.\"\nrest = {{ for = \"{hours} h\", at = \"4 °C\", where = \"refrigerator\", in = \"tray\", covered = \"film\" }}\n\n{KNOTS_RISE}"),
        );
        assert_ne!(text, cardamom());
        let course = followed(&text);
        let dough = course
            .doughs
            .iter()
            .find(|dough| dough.of == "knots")
            .expect("knots");
        let step = |number: usize| {
            let found = course.steps.iter().find(|step| step.number == number);
            found.expect("followed")
        };
        let cold = step(rise_of_knots + 1);
        let begins = cold.begins;
        let volume_at = |at: f64| {
            let mut moments = dough.moments.iter();
            let next = moments
                .position(|one| one.at.minutes() >= at)
                .expect("it goes so far");
            let (after, before) = (&dough.moments[next], &dough.moments[next.max(1) - 1]);
            let whole = after.at.minutes() - before.at.minutes();
            let share = if whole > 0.0 {
                (at - before.at.minutes()) / whole
            } else {
                1.0
            };
            before.volume + (after.volume - before.volume) * share
        };
        let first = volume_at(begins.minutes() + 0.01);
        let last = volume_at(begins.minutes() + hours as f64 * 60.0 + minutes);
        let times = last / first;
        assert!(
            (times - 1.7).abs() < 0.04,
            "{hours} h: {times:.3} times after {minutes:.0} min"
        );
    }
}
