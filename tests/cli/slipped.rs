//! `everyoven day` on a day that slips, from outside: whose clock what is done keeps, what words are taken for what.

use super::running::{folder, run, squeezed, text};
use std::path::{Path, PathBuf};

/// A kitchen of 20 °C with one pair of hands that sleeps from ten until half past six.
const HOME: &str = r#"everyoven = 1
kitchen = "Home"
room = "20 °C"
refrigerator = "4 °C"
tap = "12 °C"
warm-place = "27 °C"
altitude = "120 m"
bowl = { material = "steel", mass = "900 g", holds = "4.5 L" }
mixer = { friction = "13 W/kg" }
oven = { dial = "175 °C", inside = "172 °C", fan = false }

[day]
hands = 1
racks = 2
quiet = ["22:00-06:30"]
breaks = ["12:30-13:15"]
morning = "07:00"
"#;

const FRIDAY: &str = "2026-12-04 17:00";

/// A day of one recipe that was planned and written down.
struct Morning {
    folder: PathBuf,
    recipe: &'static str,
    serve: &'static str,
}

impl Morning {
    fn of(recipe: &'static str, serve: &'static str) -> Self {
        let folder = folder("slipped");
        std::fs::write(folder.join("home.toml"), HOME).expect("written");
        let own = Self {
            folder,
            recipe,
            serve,
        };
        let into = own.folder.join("day");
        let (status, said) = own.planned(&["--into", name(&into)]);
        assert_eq!(status, Some(0), "{said}");
        own
    }

    fn planned(&self, more: &[&str]) -> (Option<i32>, String) {
        let kitchen = self.folder.join("home.toml");
        let own = [
            "day",
            self.recipe,
            "--kitchen",
            name(&kitchen),
            "--from",
            FRIDAY,
            "--serve",
            self.serve,
            "--zone",
            "Europe/Oslo",
        ];
        let all: Vec<&str> = own.into_iter().chain(more.iter().copied()).collect();
        let answer = run(&all);
        let said = [answer.stderr, answer.stdout].concat();
        (answer.status.code(), squeezed(&text(&said)))
    }

    /// The same at a moment, when something is done.
    fn slipped(&self, now: &str, done: &[&str]) -> (Option<i32>, String) {
        let before = self.folder.join("day").join("day.json");
        let mut more = vec!["--before", name(&before), "--now", now];
        for one in done {
            more.extend(["--done", one]);
        }
        self.planned(&more)
    }
}

impl Drop for Morning {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

fn name(path: &Path) -> &str {
    path.to_str().expect("UTF-8")
}

fn holds(said: &str, words: &[&str]) {
    for word in words {
        assert!(said.contains(word), "{word} is not said:\n{said}");
    }
}

const HEARTH: &str = "examples/hearth-loaf.toml";

/// The plan: sponge mixed on Friday at 21:57, dough at 06:33, folds 30 and 60 minutes into its rise as the recipe has
/// them, divided at 08:55.
#[test]
fn a_dough_that_stood_keeps_its_clock_and_is_followed_from_there() {
    let morning = Morning::of(HEARTH, "2026-12-05 18:00");
    let (_, planned) = morning.planned(&[]);
    holds(
        &planned,
        &[
            "*21:57 3 min Mix the sponge",
            "06:41 2 h 14 min Rise of the dough",
            "*07:11 2 min Fold the dough",
            "*07:41 2 min Fold the dough",
            "*08:55 3 min Divide the dough",
        ],
    );
    // Two and a half hours late: what lies behind stays where it was, and the last rise is another.
    let (_, late) = morning.slipped("2026-12-05 11:30", &["divide"]);
    holds(
        &late,
        &[
            "dough-has-stood",
            "“Rise of the dough” has stood 2 h 32 min past its sign",
            "The last rise of the loaf takes some",
            "*21:57 3 min Mix the sponge",
            "*06:33 8 min Mix the dough",
            "*07:11 2 min Fold the dough",
            "08:55 2 h 32 min Waits: rise of the dough",
            "*11:27 3 min Divide the dough",
            "the one that was written down",
        ],
    );
    let lost = late
        .find("Dough past its best")
        .map(|at| &late[at..at + 30]);
    assert!(lost.is_some_and(|lost| !lost.contains("none")), "{late}");
    // Five and a half hours late the machine gives it up.
    let (_, lost) = morning.slipped("2026-12-05 14:30", &["divide"]);
    holds(
        &lost,
        &["has stood 5 h 32 min", "comes to its sign no more"],
    );
    // A quarter of an hour early the rise was so much shorter, and nothing has stood too long.
    let (_, early) = morning.slipped("2026-12-05 08:40", &["divide"]);
    holds(
        &early,
        &["06:41 1 h 56 min Rise of the dough", "*08:37 3 min Divide"],
    );
    assert!(!early.contains("dough-has-stood"), "{early}");
}

#[test]
fn what_is_done_is_said_in_the_words_of_the_plan() {
    let morning = Morning::of(HEARTH, "2026-12-05 18:00");
    // Words, the hour, and what ended then or follows it.
    for (words, now, ended) in [
        (
            "rise of the dough",
            "2026-12-05 09:00",
            "*09:00 3 min Divide the dough",
        ),
        (
            "rest the dough",
            "2026-12-05 09:20",
            "*09:20 5 min Shape the loaf",
        ),
        (
            "step 6",
            "2026-12-05 09:00",
            "*08:57 3 min Divide the dough",
        ),
        (
            "shape the loaf",
            "2026-12-05 09:20",
            "*09:15 5 min Shape the loaf",
        ),
        (
            "Last rise of the loaf",
            "2026-12-05 10:40",
            "*10:40 41 min Bake the loaf",
        ),
        (
            "loaf: mix the sponge",
            "2026-12-04 22:00",
            "*21:57 3 min Mix the sponge",
        ),
        // The sponge is mixed twice over in words: what the clock has come to is meant, and that is said.
        ("mix", "2026-12-04 22:04", "*22:01 3 min Mix the sponge"),
        ("mix", "2026-12-05 06:20", "*06:12 8 min Mix the dough"),
    ] {
        let (status, said) = morning.slipped(now, &[words]);
        assert_eq!(status, Some(0), "{words}: {said}");
        holds(&said, &[ended]);
        assert_eq!(
            said.contains("done-taken-as"),
            words == "mix",
            "{words}: {said}"
        );
    }
    for (words, says) in [
        ("9: mix", "dough 9"),
        ("2: mix", "Leave the number out"),
        ("13", "“13” is said to be done"),
        ("lof: mix", "Is “loaf” meant?"),
    ] {
        let (status, said) = morning.slipped("2026-12-05 09:00", &[words]);
        assert_eq!(status, Some(1), "{words}: {said}");
        holds(&said, &["done-step-unknown", says]);
    }
}

#[test]
fn an_hour_before_the_day_is_no_impossible_day() {
    let morning = Morning::of(HEARTH, "2026-12-05 18:00");
    for now in ["2026-12-03 07:50", "2026-12-04 09:50"] {
        let (status, said) = morning.slipped(now, &["mix the sponge"]);
        assert_eq!(status, Some(0), "{said}");
        holds(
            &said,
            &[
                "now-before-the-day",
                "the rest moves up",
                &format!("*{}:47 3 min Mix the sponge", &now[11..13]),
            ],
        );
        // Moved up, not left to stand until the day begins.
        assert!(!said.contains("dough-has-stood"), "{said}");
    }
}

#[test]
fn egg_dough_ends_its_rise_before_the_quiet_hours_or_the_night_is_named() {
    let morning = Morning::of("examples/feast-bread.toml", "2026-12-05 16:00");
    // Its rise of 77 min would end a little after ten; the recipe has 50 to 75.
    let (_, sooner) = morning.slipped("2026-12-04 20:50", &["6"]);
    holds(
        &sooner,
        &[
            "ended-before-its-sign",
            "before its sign",
            "20:50 1 h 9 min Rise of the dough",
        ],
    );
    // Too late for that: the dough stands all night, and both is said.
    let (_, night) = morning.slipped("2026-12-04 21:30", &["6"]);
    holds(
        &night,
        &[
            "hands-away",
            "the quiet hours from 22:00 to 06:30",
            "warm-too-long",
            "dough with egg or milk stands out of the refrigerator",
        ],
    );
}

#[test]
fn a_wish_for_one_batch_stands_before_one_for_all() {
    let answer = run(&[
        "day",
        "examples/same-day-loaf.toml=2",
        "--from",
        "2026-12-06 06:00",
        "--serve",
        "2026-12-06 20:00",
        "--serve",
        "buns 2026-12-06 21:00",
        "--serve",
        "2: buns 2026-12-06 22:00",
        "--follows",
        "clock",
        "--seconds",
        "1",
        "--json",
    ]);
    let answer: serde_json::Value = serde_json::from_slice(&answer.stdout).expect("JSON");
    let mut wanted: Vec<&str> = answer["figures"]
        .as_array()
        .expect("figures")
        .iter()
        .filter(|figure| {
            figure["name"]
                .as_str()
                .is_some_and(|name| name.ends_with(".wanted"))
        })
        .filter_map(|figure| figure["shown"].as_str())
        .collect();
    wanted.sort_unstable();
    // Both braids by the wish for everything, the first buns by that for buns, the second by their own.
    assert_eq!(wanted, ["20:00", "20:00", "21:00", "22:00"]);
}
