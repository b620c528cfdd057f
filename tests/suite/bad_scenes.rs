//! The list of `talk/bad/scenes.md`: for every row what is said of it, or why nobody can ask it here.

use everyoven_tests::tree::text;
use plan::shoot::{Times, film};
use recipe::document::{read_recipe, read_scenes_bytes};
use recipe::source::{Diagnostic, Severity};

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
    let texts: Vec<(u32, String, &'static [&'static str])> =
        vec![
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
                ("S2", "\"5 min\"", "at = 10:00"),
            ]),
            &["S1 is over at 10:20", "Write at = 10:25"],
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
        (17, hold("dough risen", "-5 min"), &["far outside what can be", "none at all"]),
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
            &["oven-not-free", "at another temperature", "ovens = 2"],
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

/// Scenes may follow one another without a set-up; a scene of no time is none, and nothing is less than nothing.
#[test]
fn a_set_up_may_be_nothing_at_all() {
    let cardamom = text("examples/cardamom-dough.toml").expect("UTF-8");
    let recipe = read_recipe(&cardamom).output.expect("it reads");
    let two = |set_up: &str, own: &str, lasts: &str| {
        let scenes = [
            scene("S1", "\"10 min\"", "at = 09:00"),
            scene("S2", lasts, own),
        ];
        format!("{HEAD}set-up = \"{set_up}\"\n{}", scenes.concat())
    };
    for (set_up, own, then) in [
        ("0 min", "", 550),
        ("7 min", "", 557),
        ("7 min", "set-up = \"0 s\"", 550),
    ] {
        let read = read_scenes_bytes(two(set_up, own, "\"5 min\"").as_bytes());
        let file = read.output.expect("it reads");
        let day = film(&recipe, &file, Times::Written).output.expect("a plan");
        assert_eq!(day.scenes[1].at_min, then, "{set_up} {own}");
    }
    for wrong in [
        two("-5 min", "", "\"5 min\""),
        two("0 min", "", "\"0 min\""),
    ] {
        assert!(read_scenes_bytes(wrong.as_bytes()).stops(), "{wrong}");
    }
}
