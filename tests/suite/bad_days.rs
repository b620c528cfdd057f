//! The list of `talk/bad/day.md`: for every row what is said of it, or why nobody can ask it here.

use everyoven_tests::tree::{root, text};
use std::path::Path;
use std::process::Command;

/// The numbers of the rows of a list.
fn rows(list: &str) -> Vec<u32> {
    let text = text(list).expect("UTF-8");
    let number = |line: &str| line.strip_prefix("| ")?.split(' ').next()?.parse().ok();
    text.lines().filter_map(number).collect()
}

const HEARTH: &str = "examples/hearth-loaf.toml";
const BRAID: &str = "examples/same-day-loaf.toml";
const FOUR: &str = "examples/cardamom-dough.toml";

/// A row, what is asked, the exit status, and words of which each stands in what is printed.
fn wishes() -> Vec<(u32, Vec<&'static str>, i32, &'static [&'static str])> {
    let morning = ["--from", "2026-12-24 08:00"];
    let with =
        |recipe: &'static str, more: &[&'static str]| [&[recipe], &morning[..], more].concat();
    vec![
        (
            1,
            with(HEARTH, &["--serve", "loaf 12:00"]),
            0,
            // Hands from 05:00 on, 12 h after the sponge was mixed; 5 h 41 min to a loaf that is cool.
            &[
                "cannot be had here: loaf ready by 24 December, 12:00",
                "nearest plan",
                "22 h 41 min",
            ],
        ),
        (
            2,
            vec![
                BRAID,
                "--from",
                "2026-12-24 12:00",
                "--serve",
                "braid 16:00",
            ],
            0,
            &["wishes-conflict", "Later than wanted"],
        ),
        (
            3,
            vec![
                "examples/feast-bread.toml",
                "--from",
                "2026-12-24 20:00",
                "--serve",
                "2026-12-25 08:00",
            ],
            0,
            &["wishes-conflict", "begin earlier with --from", "5 h 55 min"],
        ),
        (
            4,
            with(HEARTH, &["--serve", "2026-12-23 08:00"]),
            1,
            &["wanted-in-the-past", "Write a later time"],
        ),
        (
            5,
            with(HEARTH, &["--serve", "loaf 2027-02-30 08:00"]),
            2,
            &["2027-02-30 is no day of the calendar"],
        ),
        (
            5,
            with(HEARTH, &["--serve", "loaf 24:30"]),
            2,
            &["24:30 is no time of the day", "23:59"],
        ),
        (
            5,
            vec![
                HEARTH,
                "--from",
                "2026-03-28 08:00",
                "--serve",
                "loaf 2026-03-29 02:30",
            ],
            2,
            &["clock goes forward", "02:30 is left out"],
        ),
        (
            6,
            with(
                FOUR,
                &[
                    "--out",
                    "knots 2026-12-25 13:00",
                    "--out",
                    "loaf 2026-12-25 13:00",
                ],
            ),
            0,
            &["knots", "loaf"],
        ),
        (
            25,
            with(FOUR, &["--serve", "baguette 16:00"]),
            1,
            &[
                "no recipe of this day makes it",
                "knots, loaf, rolls and wreath",
            ],
        ),
        (
            26,
            with(HEARTH, &["--serve", "loaf 16"]),
            2,
            &["16 is no time of the day"],
        ),
        (
            27,
            with(HEARTH, &["--serve", "loaf 16:00", "--serve", "loaf 16:00"]),
            2,
            &["stands twice", "RECIPE=2"],
        ),
        (
            28,
            with(HEARTH, &["--serve", "loaf"]),
            2,
            &["has no time in it; write"],
        ),
        (
            29,
            vec!["examples/hearth-loaf.toml=-1"],
            2,
            &["`-1` is no number of batches; write 1 to 20"],
        ),
        (
            29,
            vec!["examples/hearth-loaf.toml=0"],
            2,
            &["`0` is no number of batches"],
        ),
        (
            29,
            vec!["examples/hearth-loaf.toml=1.5"],
            2,
            &["`1.5` is no number of batches"],
        ),
        (
            29,
            vec!["examples/hearth-loaf.toml=1000000"],
            2,
            &["`1000000` is no number of batches"],
        ),
        (
            30,
            vec!["examples/kitchens/studio.toml"],
            1,
            &["This is a kitchen file; a recipe is wanted here"],
        ),
        (
            31,
            vec![
                BRAID,
                "--from",
                "2026-12-24 11:00",
                "--now",
                "10:40",
                "--done",
                "mix",
            ],
            0,
            &[
                "now-before-the-day",
                "earlier than planned, and the rest moves up",
            ],
        ),
        (
            32,
            with(BRAID, &["--now", "09:40", "--done", "shape braid"]),
            0,
            &["done-with-it", "Divide the"],
        ),
        (
            33,
            with(BRAID, &["--now", "10:40", "--done", "fry"]),
            1,
            &["done-step-unknown", "Say the step's number"],
        ),
        (
            34,
            with(
                BRAID,
                &["--now", "08:40", "--done", "mix", "--dough", "45C"],
            ),
            0,
            &["above 40 °C yeast suffers"],
        ),
        (
            34,
            with(BRAID, &["--now", "08:40", "--done", "mix", "--dough", "4C"]),
            0,
            &["hardly comes out so cold"],
        ),
        (
            36,
            with(BRAID, &["--now", "07:40", "--done", "mix"]),
            0,
            &["now-before-the-day"],
        ),
    ]
}

/// Rows that are held elsewhere or cannot be asked, and why.
const NOT_WISHES: [(u32, &str); 18] = [
    (
        7,
        "two heats in one oven: tests/identities/day_plans.rs looks at every pair of bakes of 500 days",
    ),
    (
        8,
        "tins: tins-not-there in tests/suite/rules, shelves of tins in tests/identities/day_search.rs",
    ),
    (9, "loads of a tray: crates/plan/src/day/trays.rs"),
    (
        10,
        "a bowl is judged by `check` with a kitchen: flour-above-bowl",
    ),
    (
        11,
        "nobody can say when a mix is: the plan puts one after the other",
    ),
    (12, "[day] oven-warms: tests/identities/day_search.rs"),
    (13, "[day] fridge places: tests/identities/day_search.rs"),
    (14, "two loaves of one oven: tests/identities/day_plans.rs"),
    (15, "closed hours: tests/identities/day_plans.rs"),
    (16, "closed hours: tests/identities/day_plans.rs"),
    (17, "the question `for-breakfast` of `ask`"),
    (18, "hands: tests/identities/day_plans.rs"),
    (19, "no step is cut in two: tests/identities/day_plans.rs"),
    (20, "a kitchen always has a refrigerator here"),
    (21, "promise-not-kept-here"),
    (22, "an oven that is too weak is a finding of `check`"),
    (23, "a tin that is too small is a finding of `check`"),
    (
        24,
        "the kitchen's own refrigerator is what the simulator chills in",
    ),
];
/// Of a day that has begun.
const NOT_SLIPS: [(u32, &str); 2] = [
    (35, "what is in the oven is not said with --done"),
    (
        37,
        "how late it becomes stands in the table; what gives is what is best, in the order of docs/day.md",
    ),
];

#[test]
fn every_wish_that_cannot_be_is_answered() {
    let exe = std::env::current_exe().expect("a test knows its own path");
    let folder = exe.parent().and_then(Path::parent).expect("target/debug");
    let binary = folder.join("everyoven");
    assert!(binary.exists(), "run `cargo build` first");
    let mut faults = Vec::new();
    for (row, arguments, status, words) in wishes() {
        let answer = Command::new(&binary)
            .current_dir(root())
            .arg("day")
            .args(&arguments)
            .args([
                "--follows",
                "clock",
                "--seconds",
                "0.5",
                "--zone",
                "Europe/Oslo",
            ])
            .output()
            .expect("the program starts");
        let said = [answer.stderr, answer.stdout].concat();
        let said = String::from_utf8_lossy(&said).replace('\u{a0}', " ");
        let whole = said.split_whitespace().collect::<Vec<_>>().join(" ");
        if answer.status.code() != Some(status) {
            faults.push(format!(
                "{row}: ends with {:?}\n{said}",
                answer.status.code()
            ));
        }
        for word in words.iter().filter(|word| !whole.contains(**word)) {
            faults.push(format!("{row}: {word}\n{said}"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_row_of_the_wishes_is_asked() {
    let mut asked: Vec<u32> = wishes().iter().map(|case| case.0).collect();
    asked.extend(NOT_WISHES.map(|row| row.0));
    asked.extend(NOT_SLIPS.map(|row| row.0));
    asked.sort_unstable();
    asked.dedup();
    assert_eq!(asked, rows("tests/suite/talk/bad/day.md"));
}
