//! The lists of `talk/bad/scenes.md` and `talk/bad/day.md`: for every row what is said of it, or why nobody can ask it here.

use everyoven_tests::tree::{root, text};
use plan::shoot::{Times, film};
use recipe::document::{read_recipe, read_scenes_bytes};
use recipe::source::{Diagnostic, Severity};
use std::path::Path;
use std::process::Command;

/// The numbers of the rows of a list.
fn rows(list: &str) -> Vec<u32> {
    let text = text(list).expect("UTF-8");
    let number = |line: &str| line.strip_prefix("| ")?.split(' ').next()?.parse().ok();
    text.lines().filter_map(number).collect()
}

fn everything(diagnostics: &[Diagnostic]) -> String {
    let mut said = String::new();
    for one in diagnostics {
        said += &format!("{} {} ", one.code.name, one.message);
        said += &one.hints.join(" ");
        said.push('\n');
    }
    said.replace('\u{a0}', " ")
}

/// What is said of a file of scenes, whether it is planned, and with how many batches that begin when.
fn told(bytes: &[u8]) -> (String, Option<Vec<i64>>) {
    let read = read_scenes_bytes(bytes);
    let mut said = everything(&read.diagnostics);
    let stops = read
        .diagnostics
        .iter()
        .any(|one| one.code.severity == Severity::Mend);
    let placed =
        |one: &Diagnostic| one.span.is_some() || bytes.len() > 1_000_000 || bytes.is_empty();
    assert!(read.diagnostics.iter().all(placed), "{said}");
    let Some(file) = read.output.filter(|_| !stops) else {
        return (said, None);
    };
    let cardamom = text("examples/cardamom-dough.toml").expect("UTF-8");
    let recipe = read_recipe(&cardamom).output.expect("it reads");
    let planned = film(&recipe, &file, Times::Written);
    assert!(planned.diagnostics.iter().all(|one| !one.hints.is_empty()));
    said += &everything(&planned.diagnostics);
    let batches = planned
        .output
        .map(|day| day.batches.iter().map(|batch| batch.start_min).collect());
    (said, batches)
}

const HEAD: &str = "everyoven = 1\nshoot = \"x\"\nday = 2026-05-09\ncall = 06:00\n";

fn scene(name: &str, lasts: &str, more: &str) -> String {
    format!("[[scene]]\nname = \"{name}\"\nabout = \"x\"\nfor = {lasts}\n{more}\n")
}

fn of(scenes: &[(&str, &str, &str)]) -> String {
    let scenes: Vec<String> = scenes
        .iter()
        .map(|(name, lasts, more)| scene(name, lasts, more))
        .collect();
    format!("{HEAD}{}", scenes.concat())
}

fn one(more: &str) -> String {
    of(&[("S1", "\"10 min\"", more)])
}

fn hold(at: &str, up_to: &str) -> String {
    one(&format!("[[hold]]\nat = \"{at}\"\nup-to = \"{up_to}\""))
}

/// A row, its file, and words of which each stands in what is said.
fn scene_files() -> Vec<(u32, Vec<u8>, &'static [&'static str])> {
    let cardamom = text("examples/cardamom-dough.toml").expect("UTF-8");
    let demo = text("examples/scenes/cardamom-dough.toml").expect("UTF-8");
    let utf16: Vec<u8> = [0xFF, 0xFE]
        .into_iter()
        .chain(demo.encode_utf16().flat_map(u16::to_le_bytes))
        .collect();
    let mut all: Vec<(u32, Vec<u8>, &'static [&'static str])> = vec![
        (19, Vec::new(), &["nothing in the file"]),
        (19, vec![b'a'; 5_000_000], &["5 MB", "larger than 1 MB"]),
        (19, utf16, &["saved as UTF-16; it is read as UTF-8"]),
        (
            20,
            cardamom.into_bytes(),
            &["This is a recipe", "file of scenes"],
        ),
    ];
    let texts: Vec<(u32, String, &'static [&'static str])> = vec![
        (
            1,
            one("needs = [\"dough sour\"]"),
            &["never comes to", "dough mixed", "dough risen"],
        ),
        (
            2,
            one("needs = [\"wreeth baked\"]"),
            &["Was “wreath baked” meant?"],
        ),
        (
            3,
            one("needs = [\"loaf fried\"]"),
            &["“loaf fried”", "states are loaf", "loaf cooled."],
        ),
        (
            4,
            one("needs = [\"filling risen\"]"),
            &["“filling risen”, a state that this recipe never"],
        ),
        (
            5,
            of(&[("S1", "\"0 min\"", ""), ("S2", "\"-10 min\"", "")]),
            &[
                "“0 min” is nothing",
                "“-10 min” is less than nothing",
                "Write more than nothing",
            ],
        ),
        (
            6,
            of(&[("S1", "45", "")]),
            &["its unit is missing", " min\"."],
        ),
        (
            7,
            of(&[("S1", "\"5 min\"", ""), ("S1", "\"5 min\"", "")]),
            &["two scenes named “S1”", "a name of its own"],
        ),
        (
            8,
            of(&[
                ("S1", "\"20 min\"", "at = 10:00"),
                ("S2", "\"5 min\"", "at = 10:00\nset-up = \"0 min\""),
            ]),
            &["S1 is over at 10:20", "Write at = 10:20"],
        ),
        (
            9,
            one("at = 25:10"),
            &["“25:10” is no time of the day", "00 to 23"],
        ),
        (
            10,
            one("").replace("call = 06:00\n", ""),
            &["Nothing says when the day begins", "call = 08:30"],
        ),
        (
            12,
            one("").replace("[[scene]]", "[[sceen]]"),
            &["no key `sceen`", "Was `scene` meant?"],
        ),
        (13, HEAD.to_owned(), &["holds no scene", "Write [[scene]]"]),
        (
            14,
            of(&[
                ("S1", "\"20 min\"", "at = 11:40"),
                ("S2", "\"20 min\"", "at = 12:30"),
            ])
            .replace("call", "meal = { from = 12:00, for = \"45 min\" }\ncall"),
            &[
                "S2 is filmed from 12:30 to 12:50, and the meal is from 12:00 to 12:45",
                "12:45",
            ],
        ),
        (
            15,
            of(&[("S1", "\"50 min\"", "at = 11:50")])
                .replace("call", "meal = { from = 12:00, for = \"45 min\" }\ncall"),
            &[
                "from 11:50 to 12:40",
                "from 12:00 to 12:45",
                "or move the meal",
            ],
        ),
        (
            16,
            one("needs = [\"dough mixing\", \"dough mixed\"]"),
            &[
                "shows “dough mixing”, which ends with “dough mixed”",
                "another dough",
            ],
        ),
        (17, hold("dough risen", "-5 min"), &["less than nothing"]),
        (
            17,
            hold("dough risen", "400 h"),
            &["far outside what can be", "48 h"],
        ),
        (
            17,
            hold("dough risen", "long"),
            &["does not begin with a number"],
        ),
        (
            18,
            hold("dough sour", "5 min"),
            &["This hold is of “dough sour”", "never comes to"],
        ),
        (
            19,
            "no list at all {".to_owned(),
            &["A key stands without a value"],
        ),
        (
            22,
            one("at = 10:00\nneeds = [\"wreath shaped\"]")
                .replace("call", "work-from = 09:00\ncall"),
            &["is ready at 11:48 at the earliest", "begin work at 07:12"],
        ),
        (
            24,
            one("at = 15:00\nneeds = [\"knots baking\", \"loaf baking\"]"),
            &["oven-not-free", "175", "200"],
        ),
        (
            25,
            one("at = 15:00\nneeds = [\"dough dividing\", \"dough dividing\", \"dough dividing\"]")
                .replace("call", "mixers = 3\nshelves = 1\ncall"),
            &["shelves-too-few", "3"],
        ),
        (
            26,
            of(&[
                ("S1", "\"5 min\"", MIXES),
                ("S2", "\"5 min\"", MIXES),
                ("S3", "\"5 min\"", MIXES),
                ("S4", "\"5 min\"", MIXES),
            ]),
            &["mixer-not-free", "mixers = 2"],
        ),
        (
            28,
            one("needs = [\"knots proofed\"]\nstands = \"40 min\""),
            &["scene-longer-than-hold"],
        ),
    ];
    all.extend(
        texts
            .into_iter()
            .map(|(row, text, words)| (row, text.into_bytes(), words)),
    );
    all
}

const MIXES: &str = "needs = [\"dough mixing\"]\nset-up = \"1 min\"";

/// Rows of which a plan is the answer: so many batches, and when the first of them begins at the latest.
fn planned() -> Vec<(u32, String, usize, i64)> {
    let two =
        |first: &str, then: &str| of(&[("S1", "\"10 min\"", first), ("S2", "\"10 min\"", then)]);
    vec![
        // 332 min from the mix to a cool loaf: 15:32 after a mix at ten, so another begins by 07:28.
        (
            23,
            two(
                "at = 10:00\nneeds = [\"dough mixing\"]",
                "at = 13:00\nneeds = [\"loaf cooled\"]",
            ),
            2,
            448,
        ),
        (
            29,
            two(
                "at = 10:00\nneeds = [\"loaf cooled\"]\nuses-up = [\"loaf\"]",
                "at = 16:00\nneeds = [\"loaf cooled\"]",
            ),
            2,
            600,
        ),
        (
            30,
            two(
                "at = 08:00\nneeds = [\"dough chilled\"]",
                "at = 19:30\nneeds = [\"dough chilled\"]",
            ),
            2,
            480,
        ),
        (
            31,
            two(
                "at = 10:00\nneeds = [\"knots baked\"]",
                "at = 14:00\nneeds = [\"knots shaped\"]",
            ),
            2,
            600,
        ),
        (
            32,
            one("at = 16:00\nneeds = [\"loaf cooled\", \"loaf cooled\", \"loaf cooled\"]")
                .replace("call", "mixers = 3\ncall"),
            3,
            960,
        ),
    ]
}

/// Rows that no file of scenes can say, and why.
const NOT_SCENES: [(u32, &str); 3] = [
    (11, "`wrap` is a length after the last scene, not an hour"),
    (21, "a file cannot say that nobody comes the evening before"),
    (
        27,
        "a bowl is judged by `check` with a kitchen: flour-above-bowl",
    ),
];

#[test]
fn every_fault_of_a_file_of_scenes_is_told() {
    let mut faults = Vec::new();
    for (row, bytes, words) in scene_files() {
        let (said, _) = told(&bytes);
        for word in words {
            if !said.contains(word) {
                faults.push(format!("{row}: {word}\n  {said}"));
            }
        }
    }
    for (row, text, count, latest) in planned() {
        let (said, batches) = told(text.as_bytes());
        let batches = batches.unwrap_or_default();
        if batches.len() != count || batches.first().is_none_or(|first| *first > latest) {
            faults.push(format!(
                "{row}: {batches:?}, not {count} from {latest}\n  {said}"
            ));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_row_of_the_scenes_is_asked() {
    let mut asked: Vec<u32> = scene_files().iter().map(|case| case.0).collect();
    asked.extend(planned().iter().map(|case| case.0));
    asked.extend(NOT_SCENES.map(|row| row.0));
    asked.sort_unstable();
    asked.dedup();
    assert_eq!(asked, rows("tests/suite/talk/bad/scenes.md"));
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
            &[
                "cannot be had here: loaf ready by 24 December, 12:00",
                "nearest plan",
                "13 h 44 min",
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
