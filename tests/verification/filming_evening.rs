//! Filming days by a recipe whose dough stands in the cold overnight: what is begun the evening before, what is shown on its way.

use plan::shoot::{FilmDay, Times, film};
use recipe::document::model::{Recipe, SceneFile};
use recipe::document::{read_recipe, read_scenes_bytes};
use recipe::source::Diagnostic;

fn feast() -> Recipe {
    let text = everyoven_tests::tree::text("examples/feast-bread.toml").expect("UTF-8");
    read_recipe(&text).output.expect("it reads")
}

fn file(keys: &str, scenes: &[&str]) -> SceneFile {
    let mut text = format!(
        "everyoven = 1\nshoot = \"x\"\nday = 2026-12-12\ncall = 08:30\nshelves = 3\n{keys}\n"
    );
    for (nth, scene) in scenes.iter().enumerate() {
        text += &format!(
            "[[scene]]\nname = \"S{}\"\nabout = \"x\"\nfor = \"10 min\"\n{scene}\n",
            nth + 1
        );
    }
    let read = read_scenes_bytes(text.as_bytes());
    read.output
        .unwrap_or_else(|| panic!("{:?}", read.diagnostics))
}

fn planned(keys: &str, scenes: &[&str]) -> (Option<FilmDay>, Vec<Diagnostic>) {
    let planned = film(&feast(), &file(keys, scenes), Times::Written);
    (planned.output, planned.diagnostics)
}

fn said_of<'a>(said: &'a [Diagnostic], code: &str) -> Option<&'a Diagnostic> {
    said.iter().find(|one| one.code.name == code)
}

/// A sponge that is looked at and tipped into the mixer in one scene is the batch's own.
#[test]
fn what_is_shown_on_its_way_into_the_bowl_is_not_made_twice() {
    let both = ["at = 12:00\nneeds = [\"sponge ripe\", \"dough mixing\"]\nstands = \"5 min\""];
    let (day, _) = planned("", &both);
    let day = day.expect("a plan");
    assert_eq!((day.batches.len(), day.extras.len()), (1, 0));
    // Shown after the mixer runs it is another one.
    let after = [
        "at = 12:00\nneeds = [\"dough mixing\"]",
        "at = 12:15\nneeds = [\"sponge ripe\"]",
    ];
    let (day, _) = planned("", &after);
    assert_eq!(day.expect("a plan").extras.len(), 1);
}

/// The dough is mixed in three goes, one after another, and each beginning can be filmed.
#[test]
fn work_that_begins_again_is_numbered() {
    let times = [
        "at = 12:00\nneeds = [\"dough mixing\"]",
        "at = 13:15\nneeds = [\"dough mixing 2\"]",
    ];
    let (day, said) = planned("", &times);
    assert!(said_of(&said, "scene-state-unknown").is_none(), "{said:?}");
    let day = day.expect("a plan");
    let first = &day.needs[0];
    let second = &day.needs[1];
    assert!(first.works && second.works && first.point != second.point);
    let (_, said) = planned("", &["needs = [\"dough mixing 9\"]"]);
    assert!(said_of(&said, "scene-state-unknown").is_some());
}

#[test]
fn another_word_for_what_has_risen_leads_to_the_state() {
    for (written, meant) in [
        ("feast bread risen", "feast bread proofed"),
        ("sponge risen", "sponge ripe"),
    ] {
        let needs = format!("needs = [\"{written}\"]");
        let (_, said) = planned("", &[&needs]);
        let said = said_of(&said, "scene-state-unknown").expect("it is no state");
        assert_eq!(said.hints[0], format!("Was “{meant}” meant?"));
    }
}

/// Minutes of the longest stand in the cold of a recipe's dough, as its process has it.
fn chill(day: &FilmDay, batch: usize) -> (i64, i64, i64) {
    let batch = &day.batches[batch];
    let process = &day.processes[batch.process];
    let cold = |run: &&plan::shoot::Run| {
        matches!(run.what, plan::shoot::Doing::Stands { cold: true, .. }) && run.takes_min >= 240
    };
    let run = process.runs.iter().find(cold).expect("an overnight chill");
    (
        batch.stays[run.from].leaves_min,
        run.takes_min,
        batch.stays[run.to].leaves_min,
    )
}

/// Ten hours of chilling by the recipe: for a scene in the forenoon they begin the evening before, and what
/// comes after them is not done before the written hour.
#[test]
fn what_stands_overnight_is_begun_the_evening_before() {
    let morning = ["at = 10:30\nneeds = [\"dough chilled\"]"];
    let (day, said) = planned("work-from = 07:00", &morning);
    assert!(said_of(&said, "state-not-ready").is_none(), "{said:?}");
    let day = day.expect("a plan");
    assert!(day.proven);
    let (begins, takes, goes_on) = chill(&day, 0);
    assert_eq!(takes, 600);
    assert!(begins <= 0 && day.batches[0].start_min < 0, "{begins}");
    assert!(goes_on >= 7 * 60 + 10 && begins + takes <= 10 * 60 + 30);
    // Shaping at nine needs the chill over by then and begun by midnight the evening before, not at 07:00.
    let shaped = ["at = 08:30\nneeds = [\"feast bread shaping\"]"];
    let (day, _) = planned("work-from = 07:00", &shaped);
    let day = day.expect("a plan");
    for entry in &day.table.entries {
        let hands = entry
            .occupies
            .iter()
            .any(|one| one.what == plan::timetable::Resource::Hands);
        let ends = entry.ends_min();
        assert!(
            !hands || ends <= 0 || entry.begins_min >= 7 * 60,
            "{entry:?}"
        );
    }
}

/// The chill keeps for ten hours more, so what is begun by midnight is worked by 20:00 at the latest; before
/// 07:00 it is not worked. Bread that comes out at 07:30 can be had in neither way, and both are said.
#[test]
fn where_neither_way_can_be_both_are_said_with_their_days() {
    let baked = ["at = 07:30\nneeds = [\"feast bread baked\"]"];
    let (day, said) = planned("work-from = 07:00", &baked);
    assert!(day.is_none());
    let said = said_of(&said, "state-not-ready").expect("too early");
    let text = format!("{} {}", said.message, said.hints.join(" "));
    assert!(text.contains("evening before"), "{text}");
    assert!(text.contains("begun the evening before"), "{text}");
    let (_, said) = planned(
        "work-from = 07:00",
        &["at = 07:30\nneeds = [\"dough mixing 2\"]"],
    );
    assert!(said_of(&said, "state-not-ready").is_none(), "{said:?}");
    // A name is said as it is written, also of work that begins.
    let (_, said) = planned(
        "work-from = 09:00",
        &["at = 08:30\nneeds = [\"dough mixing\"]"],
    );
    let said = said_of(&said, "state-not-ready").expect("before work begins");
    assert!(said.message.contains("“dough mixing”"), "{}", said.message);
}

/// Whatever is filmed when: no dough is worked between midnight and the written hour, every scene finds its
/// state there, and the hour never makes do with fewer batches.
#[test]
fn no_dough_is_worked_between_midnight_and_the_written_hour() {
    let states = [
        "dough chilled",
        "feast bread shaping",
        "feast bread proofed",
        "feast bread baked",
    ];
    let (mut evening, mut free) = (0, 0);
    for from in [6_i64, 8] {
        for first in 9..15 {
            for (nth, state) in states.iter().enumerate() {
                let one = format!("at = {first:02}:00\nneeds = [\"{state}\"]");
                let two = format!(
                    "at = {:02}:30\nneeds = [\"{}\"]",
                    first + 3,
                    states[(nth + 1) % 4]
                );
                let scenes = [one.as_str(), two.as_str()];
                let (Some(day), _) = planned(&format!("work-from = {from:02}:00"), &scenes) else {
                    continue;
                };
                let (without, _) = planned("", &scenes);
                let without = without.expect("any hour will do");
                assert!(day.batches.len() >= without.batches.len(), "{scenes:?}");
                free += usize::from(day.batches.len() == without.batches.len());
                for batch in &day.batches {
                    let process = &day.processes[batch.process];
                    evening += usize::from(batch.start_min < 0);
                    for run in process.runs.iter().filter(|run| batch.followed[run.to]) {
                        let begins = batch.stays[run.from].leaves_min;
                        let stands = matches!(
                            run.what,
                            plan::shoot::Doing::Stands { .. } | plan::shoot::Doing::Cools
                        );
                        let out = begins + run.takes_min <= 0 || begins >= from * 60;
                        assert!(
                            stands || run.takes_min == 0 || out,
                            "{run:?} at {begins}, {scenes:?}"
                        );
                    }
                    for need in batch.serves.iter().map(|at| &day.needs[*at]) {
                        let stay = batch.stays[need.point];
                        assert!(stay.arrives_min <= need.at_min, "{scenes:?}");
                        assert!(stay.leaves_min >= need.at_min, "{scenes:?}");
                    }
                }
            }
        }
    }
    assert!(evening > 10 && free > 10, "{evening}, {free}");
}
