//! The bench: what a tap keeps, what is taken back, a clock that is set, a program begun again.

use super::{Served, Told, fake, folder, sent};
use crate::web::bench::{Shelf, Tellings};
use crate::web::desk::Desk;
use crate::web::router::router;
use crate::world::notebook::Notebook;
use crate::world::steady::Steady;
use axum::http::StatusCode;
use std::sync::{Arc, Mutex};

const BENCH: &str = "/recipe/same-day-loaf/bench";
const LOG: &str = "/recipe/same-day-loaf/log";
/// 14 February 2026, 12:00 UTC, in ms.
const NOON_MS: i64 = 1_771_070_400_000;

/// A bench whose clock the test moves.
struct Bench {
    served: Served,
    times: Arc<Mutex<(i64, i64)>>,
    tellings: Tellings,
}

impl Bench {
    fn new(name: &str) -> Self {
        let times = Arc::new(Mutex::new((NOON_MS, 1_000)));
        let folder = folder(name).join("notebook");
        let (served, tellings) = Self::serve(&folder, &times);
        let bench = Self {
            served,
            times,
            tellings,
        };
        bench.served.post("/demo", "").to();
        bench
    }

    fn serve(folder: &std::path::Path, times: &Arc<Mutex<(i64, i64)>>) -> (Served, Tellings) {
        let mut desk = Desk::new(Notebook::at(folder.to_owned()), 4700);
        desk.importer = fake;
        desk.bench = Shelf::new(Steady::held(times.clone()));
        let tellings = desk.bench.tellings.clone();
        let served = Served {
            folder: folder.to_owned(),
            app: router(desk),
        };
        (served, tellings)
    }

    /// The program ends and begins again.
    fn again(&mut self) {
        (self.served, self.tellings) = Self::serve(&self.served.folder.clone(), &self.times);
    }

    fn begun(name: &str, form: &str) -> Self {
        let bench = Self::new(name);
        assert_eq!(bench.served.post(BENCH, form).to(), BENCH);
        bench
    }

    fn minutes(&self, minutes: i64) {
        let mut times = self.times.lock().expect("held");
        times.0 += minutes * 60_000;
        times.1 += minutes * 60_000;
    }

    /// Somebody sets the machine's clock.
    fn set_clock(&self, minutes: i64) {
        self.times.lock().expect("held").0 += minutes * 60_000;
    }

    fn page(&self) -> String {
        let told = self.served.get(BENCH);
        assert_eq!(told.status, StatusCode::OK, "{}", told.text());
        told.text().replace('\u{a0}', " ")
    }

    fn mark(&self) -> String {
        let page = self.page();
        let mark = page.split("name=\"mark\" value=\"").nth(1).expect("a mark");
        mark.split('"').next().expect("its end").to_owned()
    }

    fn tap(&self, does: &str, step: usize, more: &str) -> Told {
        let mark = self.mark();
        self.tap_marked(does, step, &mark, more)
    }

    fn tap_marked(&self, does: &str, step: usize, mark: &str, more: &str) -> Told {
        let form = format!("do={does}&bake=1&step={step}&mark={mark}{more}");
        self.served.post(&format!("{BENCH}/tap"), &form)
    }

    /// What is left of a step's time, as the strip has it.
    fn left(&self, step: usize) -> Option<String> {
        let page = self.page();
        let row = page
            .split(&format!("id=\"time-{step}\""))
            .nth(1)?
            .to_owned();
        let left = row.split("class=\"left\">").nth(1)?.to_owned();
        Some(left.split('<').next()?.to_owned())
    }

    fn heading(&self) -> String {
        let page = self.page();
        let heading = page
            .split("<h1 id=\"step\" tabindex=\"-1\">")
            .nth(1)
            .expect("a heading");
        heading.split('<').next().expect("its end").to_owned()
    }
}

#[test]
fn a_bake_is_begun_once_and_shows_one_step() {
    let bench = Bench::new("bench-begin");
    assert!(bench.page().contains("Begin the bake"));
    for _ in 0..2 {
        bench
            .served
            .post(BENCH, "kitchen=studio&follows=sign&hours=24")
            .to();
    }
    let page = bench.page();
    assert_eq!(page.matches("<h1").count(), 1);
    assert_eq!(bench.heading(), "Wake the yeast");
    for shown in [
        ">9 g<",
        ">60 g<",
        "8 min",
        "45 °C / 113 °F",
        "The yeast is in",
        "All steps",
    ] {
        assert!(page.contains(shown), "{shown} in {page}");
    }
    let log = bench.served.get(LOG);
    assert_eq!(
        log.text().matches("id=\"bake-").count(),
        1,
        "two taps, one bake"
    );
}

#[test]
fn a_kitchen_or_a_recipe_that_is_not_there_begins_nothing() {
    let bench = Bench::new("bench-nowhere");
    let told = bench.served.post(BENCH, "kitchen=elsewhere&follows=sign");
    assert_eq!(told.status, StatusCode::NOT_FOUND);
    let told = bench.served.post("/recipe/nothing/bench", "follows=sign");
    assert_eq!(told.status, StatusCode::NOT_FOUND);
    assert!(bench.page().contains("Begin the bake"));
}

#[test]
fn times_run_by_the_clock_and_outlive_a_program_begun_again() {
    let mut bench = Bench::begun("bench-again", "follows=clock");
    bench.tap("begin", 1, "").to();
    // Written: the yeast stands 8 min.
    assert_eq!(bench.left(1).as_deref(), Some("8 min"));
    bench.minutes(3);
    assert_eq!(bench.left(1).as_deref(), Some("5 min"));
    bench.again();
    assert_eq!(
        bench.left(1).as_deref(),
        Some("5 min"),
        "after the program began again"
    );
    bench.minutes(7);
    assert_eq!(bench.left(1).as_deref(), Some("2 min past"));
    // The yeast's bell, and that of the butter, which was due after five minutes.
    let bells = || bench.page().matches("Stop the bell").count();
    assert_eq!(bells(), 2);
    bench.tap("quiet", 1, "").to();
    assert_eq!(bells(), 1);
    bench.tap("longer", 1, "").to();
    assert_eq!(
        bench.left(1).as_deref(),
        Some("3 min"),
        "five minutes more from its own end"
    );
}

#[test]
fn what_is_expected_here_is_told_where_it_is_not_what_is_written() {
    let bench = Bench::begun("bench-here", "kitchen=terrace&follows=sign");
    let step = |number: usize| bench.served.get(&format!("{BENCH}?step={number}")).text();
    // A cold terrace lengthens a rise in the room that is written for 21 °C; a mixer goes by its written minutes.
    assert!(step(7).contains("expected here"));
    assert!(!step(5).contains("expected here"));
    let by_clock = Bench::begun("bench-here-clock", "kitchen=terrace&follows=clock");
    assert!(
        !by_clock
            .served
            .get(&format!("{BENCH}?step=7"))
            .text()
            .contains("expected here")
    );
}

#[test]
fn a_machine_whose_clock_is_set_keeps_what_is_left() {
    let bench = Bench::begun("bench-set", "follows=clock");
    bench.tap("begin", 1, "").to();
    bench.minutes(2);
    for (by, way) in [(60, "1 h forward"), (-180, "2 h back")] {
        bench.set_clock(by);
        assert_eq!(bench.left(1).as_deref(), Some("6 min"), "{way}");
        let page = bench.page();
        assert!(page.contains(&format!("was set {way}")), "{page}");
    }
    let now = bench.served.get(&format!("{BENCH}/now"));
    assert_eq!(now.text(), (NOON_MS + 120_000).to_string());
}

#[test]
fn a_tap_that_is_sent_twice_is_kept_once_and_can_be_taken_back() {
    let bench = Bench::begun("bench-twice", "follows=clock");
    bench.tap("over", 1, "").to();
    let mark = bench.mark();
    for _ in 0..2 {
        bench.tap_marked("seen", 3, &mark, "").to();
    }
    let log = bench.served.get(LOG).text();
    assert_eq!(log.matches("The sign is there").count(), 1, "{log}");
    bench.tap("undo", 0, "").to();
    assert!(!bench.served.get(LOG).text().contains("The sign is there"));
    // The tap before it: the step that was over, and what began with it.
    bench.tap("undo", 0, "").to();
    assert_eq!(bench.heading(), "Wake the yeast");
    // Nothing before the beginning is taken back, and a tap after an undo counts.
    bench.tap("undo", 0, "").to();
    bench.tap("begin", 1, "").to();
    assert_eq!(bench.left(1).as_deref(), Some("8 min"));
}

#[test]
fn what_is_read_off_stands_in_the_log_beside_what_was_expected() {
    let bench = Bench::begun("bench-log", "kitchen=studio&follows=sign");
    bench.tap("over", 1, "").to();
    bench.minutes(3);
    bench.tap("over", 2, "").to();
    bench.minutes(20);
    let there = bench.tap("temperature", 3, "&celsius=12,5&stay=3");
    assert_eq!(there.to(), format!("{BENCH}?step=3"));
    bench
        .tap("note", 3, &format!("&words={}", sent("<b>bubbles</b>")))
        .to();
    for wrong in ["", "hot", "900", "NaN"] {
        let told = bench.tap("temperature", 3, &format!("&celsius={wrong}"));
        assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY, "{wrong}");
    }
    assert_eq!(
        bench.tap("juggle", 3, "").status,
        StatusCode::UNPROCESSABLE_ENTITY
    );
    let log = bench.served.get(LOG).text().replace('\u{a0}', " ");
    for words in [
        "12.5 °C",
        "cooler than expected",
        "&lt;b&gt;bubbles&lt;/b&gt;",
        "In studio.",
    ] {
        assert!(log.contains(words), "{words} in {log}");
    }
    bench.tap("end", 0, "&words=good").to();
    assert!(bench.page().contains("Begin the bake"));
    assert!(bench.served.get(LOG).text().contains("<p>good</p>"));
    // A page that was left open taps into nothing.
    bench.tap_marked("over", 3, "old", "").to();
    assert!(bench.page().contains("Begin the bake"));
}

#[test]
fn a_readers_report_is_kept_as_it_was_written() {
    let bench = Bench::new("bench-report");
    let form = format!(
        "room=17&outcome={}&words={}",
        sent("dry"),
        sent("Mine & hers <3")
    );
    assert_eq!(bench.served.post(LOG, &form).to(), format!("{LOG}#reports"));
    let log = bench.served.get(LOG).text().replace('\u{a0}', " ");
    assert!(
        log.contains("Dry, in a room of 17 °C / 63 °F. Mine &amp; hers &lt;3"),
        "{log}"
    );
}

/// The words under a step's clock.
fn under_the_clock(page: &str) -> String {
    let found = page.split("class=\"clock\">").nth(1).expect("a clock");
    found
        .split("class=\"measures\"")
        .next()
        .expect("its end")
        .to_owned()
}

#[test]
fn a_reading_changes_the_times_and_taking_it_back_gives_them_again() {
    let bench = Bench::begun("bench-told", "kitchen=studio&follows=sign");
    let step = || {
        bench
            .served
            .get(&format!("{BENCH}?step=3"))
            .text()
            .replace('\u{a0}', " ")
    };
    bench.tap("over", 1, "").to();
    bench.minutes(2);
    bench.tap("over", 2, "").to();
    bench.minutes(25);
    let before = under_the_clock(&step());
    assert!(
        !before.contains("class=\"heard\""),
        "nothing was read yet: {before}"
    );
    bench.tap("temperature", 3, "&celsius=20").to();
    let meanwhile = step();
    assert!(meanwhile.contains("data-working") && meanwhile.contains("being worked out"));
    bench.tellings.rest();
    let cold = step();
    assert!(!cold.contains("data-working"));
    assert!(
        cold.contains("20 °C / 68 °F") && cold.contains("later."),
        "{}",
        under_the_clock(&cold)
    );
    let minutes = |page: &str| {
        let until = page
            .split("until</span> <span class=\"huge\">")
            .nth(1)
            .expect("a time");
        let (hours, minutes) = until.split_once(':').expect("a time of day");
        60 * hours.parse::<i32>().expect("hours") + minutes[..2].parse::<i32>().expect("minutes")
    };
    assert!(
        minutes(&cold) >= minutes(&before) + 5,
        "a cold dough takes longer"
    );
    // Of a dough that reads as expected no time is moved by much.
    bench.tap("undo", 0, "").to();
    assert!(
        !step().contains("class=\"heard\""),
        "nothing was read any more"
    );
    bench.tap("temperature", 3, "&celsius=27").to();
    step();
    bench.tellings.rest();
    let usual = step();
    assert!(
        (minutes(&usual) - minutes(&before)).abs() <= 8,
        "{}",
        under_the_clock(&usual)
    );
    // One that cannot be is left out, and said.
    bench.tap("temperature", 3, "&celsius=90").to();
    step();
    bench.tellings.rest();
    assert!(step().contains("the reading is left out"));
}

#[test]
fn who_looks_and_finds_no_sign_waits_longer_and_the_bell_is_put_off() {
    let bench = Bench::begun("bench-not-yet", "kitchen=studio&follows=sign");
    bench.tap("over", 1, "").to();
    bench.tap("over", 2, "").to();
    bench.minutes(80);
    bench.tap("longer", 3, "").to();
    bench.page();
    bench.tellings.rest();
    let page = bench.served.get(&format!("{BENCH}?step=3")).text();
    assert!(page.contains("class=\"heard\""), "it was heard");
    let left = bench.left(3).expect("it runs").replace('\u{a0}', " ");
    let left: i32 = left
        .split(' ')
        .next()
        .and_then(|left| left.parse().ok())
        .expect("minutes");
    assert!(
        (5..60).contains(&left),
        "{left} min, and five were asked for"
    );
}

#[test]
fn bakes_teach_a_kitchen_when_a_button_says_so_and_are_kept_by_another() {
    let bench = Bench::begun("bench-learn", "kitchen=studio&follows=sign");
    for (step, minutes) in [(1, 8), (2, 2), (3, 75)] {
        bench.minutes(minutes);
        bench.tap("over", step, "").to();
    }
    let log = bench.served.get(LOG).text();
    assert!(
        !log.contains("Learn about"),
        "a bake under way teaches nothing yet"
    );
    bench.tap("end", 0, "&words=slow").to();
    assert!(bench.served.get(LOG).text().contains("Learn about studio"));
    let kitchen = || bench.served.read("kitchens/studio.toml");
    let before = kitchen();
    let learn = "/recipe/same-day-loaf/learn";
    let begun = bench.served.post(learn, "kitchen=studio");
    let page = bench.served.over(&begun).text();
    assert!(page.contains("What 1 bake told of this kitchen"), "{page}");
    assert_eq!(kitchen(), before, "it was only shown");
    assert!(page.contains("Keep it in studio"), "{page}");
    bench
        .served
        .post(&format!("{learn}/keep"), "kitchen=studio")
        .to();
    assert!(kitchen().contains("[measured-here]"), "{}", kitchen());
    // Kept, that bake teaches no more.
    let again = bench.served.post(learn, "kitchen=studio");
    assert_eq!(again.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(again.text().contains("left to learn from"));
}
