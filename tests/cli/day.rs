//! `everyoven day` from outside: what it prints, what it writes, what it refuses.

use super::running::{root, run, text};

/// So long that the search proves its answer, and the answer is the same each time.
const LONG: [&str; 6] = [
    "--follows",
    "clock",
    "--seconds",
    "3000",
    "--zone",
    "Europe/Oslo",
];

fn planned(arguments: &[&str]) -> String {
    let all: Vec<&str> = ["day"]
        .iter()
        .chain(arguments)
        .chain(&LONG)
        .copied()
        .collect();
    let answer = run(&all);
    let said = text(&answer.stdout);
    assert_eq!(answer.status.code(), Some(0), "{}", text(&answer.stderr));
    assert!(
        said.lines().all(|line| line.chars().count() <= 80),
        "{said}"
    );
    said
}

#[test]
fn a_loaf_is_planned_from_the_evening_before() {
    let said = planned(&["examples/hearth-loaf.toml", "--from", "2026-12-23 18:00"]);
    assert!(said.contains("No better plan exists"), "{said}");
    insta::assert_snapshot!(said);
}

#[test]
fn four_breads_share_one_oven() {
    let said = planned(&[
        "examples/cardamom-dough.toml",
        "--from",
        "2026-12-23 18:00",
        "--twelve",
    ]);
    assert!(said.contains("No better plan exists"), "{said}");
    insta::assert_snapshot!(said);
}

#[test]
fn a_folder_gets_every_way_out() {
    let out = std::env::temp_dir().join(format!("everyoven-day-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&out);
    let place = out.to_str().expect("UTF-8");
    planned(&[
        "examples/hearth-loaf.toml",
        "--from",
        "2026-12-23 18:00",
        "--into",
        place,
    ]);
    for (name, begins) in [
        ("day.txt", ""),
        ("day.pdf", "%PDF-"),
        ("day.svg", "<svg"),
        ("day.ics", "BEGIN:VCALENDAR"),
        ("day.csv", ""),
        ("day.json", "{"),
        ("shopping.txt", "Shopping list"),
    ] {
        let written = std::fs::read(out.join(name)).expect("written");
        assert!(
            written.len() > 100 && written.starts_with(begins.as_bytes()),
            "{name}"
        );
    }
    // Later on that day the plan is moved that was written down; one that begins otherwise is another.
    for (from, says) in [
        ("2026-12-23 18:00", "the one that was written down"),
        ("2026-12-23 18:30", "worked out anew"),
    ] {
        let slipped = planned(&[
            "examples/hearth-loaf.toml",
            "--from",
            from,
            "--now",
            "2026-12-24 06:40",
            "--done",
            "3",
            "--into",
            place,
        ]);
        let words: Vec<&str> = slipped.split_whitespace().collect();
        assert!(words.join(" ").contains(says), "{slipped}");
        assert!(slipped.contains("Moved against the plan before"));
    }
    let _ = std::fs::remove_dir_all(&out);
}

#[test]
fn recipes_are_named_by_their_titles() {
    let answer = run(&[
        "day",
        "examples/hearth-loaf.toml",
        "examples/same-day-loaf.toml",
        "--serve",
        "2026-12-23 18:10",
        "--from",
        "2026-12-23 18:00",
        "--seconds",
        "1",
    ]);
    let said = text(&answer.stderr);
    assert!(said.contains("wishes-conflict"), "{said}");
    let titles = "Overnight sponge hearth loaf, Same-day braid and tied buns";
    assert!(said.contains(titles), "{said}");
    assert!(!said.contains("in: examples/"), "{said}");
    // Two files with one title are told apart by their names.
    let copy = std::env::temp_dir().join(format!("everyoven-copy-{}.toml", std::process::id()));
    let whole = std::fs::read(root().join("examples/hearth-loaf.toml")).expect("an example");
    std::fs::write(&copy, whole).expect("written");
    let answer = run(&[
        "day",
        "examples/hearth-loaf.toml",
        copy.to_str().expect("UTF-8"),
        "--from",
        "2026-12-23 18:00",
        "--seconds",
        "1",
    ]);
    let said = text(&answer.stdout);
    assert!(
        said.contains("Overnight sponge hearth loaf (hearth-loaf.toml)"),
        "{said}"
    );
    let _ = std::fs::remove_file(&copy);
}

#[test]
fn the_answer_for_machines_follows_its_schema() {
    let schema = run(&["manual", "schema"]).stdout;
    let schema: serde_json::Value = serde_json::from_slice(&schema).expect("JSON");
    let judge = jsonschema::validator_for(&schema).expect("a schema");
    let mut all = vec![
        "day",
        "examples/hearth-loaf.toml",
        "--json",
        "--from",
        "2026-12-23 18:00",
    ];
    all.extend(LONG);
    let answer: serde_json::Value = serde_json::from_slice(&run(&all).stdout).expect("JSON");
    let faults: Vec<String> = judge
        .iter_errors(&answer)
        .map(|fault| fault.to_string())
        .collect();
    assert_eq!(faults, Vec::<String>::new());
    assert!(
        answer["timetable"]["entries"]
            .as_array()
            .is_some_and(|all| all.len() > 5)
    );
}

#[test]
fn what_cannot_be_asked_is_named_with_a_way_out() {
    let hearth = "examples/hearth-loaf.toml";
    for (arguments, code, says) in [
        (
            vec![hearth, "--serve", "loaf 25:00"],
            2,
            "25:00 is no time of the day",
        ),
        (
            vec![hearth, "--from", "24.12.2026 08:00"],
            2,
            "24.12.2026 is a date with its year in another place than it is read here; write 2026-12-24",
        ),
        (
            vec![hearth, "--zone", "Saltmarsh/Lane"],
            2,
            "no zone of the clock",
        ),
        (
            vec!["examples/hearth-loaf.toml=1/2"],
            2,
            "everyoven variant --half",
        ),
        (vec![hearth, "--seconds", "0"], 2, "--seconds"),
        (
            vec![
                hearth,
                "--serve",
                "plait 2027-01-01 16:00",
                "--from",
                "2026-12-31 08:00",
            ],
            1,
            "wanted-bread-unknown",
        ),
        (
            vec![
                hearth,
                "--serve",
                "2026-12-31 07:00",
                "--from",
                "2026-12-31 08:00",
            ],
            1,
            "wanted-in-the-past",
        ),
        (
            vec![
                hearth,
                "--from",
                "2026-12-31 08:00",
                "--now",
                "10:00",
                "--done",
                "knead",
            ],
            1,
            "done-step-unknown",
        ),
    ] {
        let all: Vec<&str> = ["day"].into_iter().chain(arguments).collect();
        let answer = run(&all);
        let said = text(&answer.stderr);
        assert_eq!(answer.status.code(), Some(code), "{all:?}: {said}");
        assert!(said.contains(says), "{all:?}: {said}");
    }
}

#[test]
fn a_day_long_past_is_said_and_planned() {
    let answer = run(&[
        "day",
        "examples/hearth-loaf.toml",
        "--from",
        "2020-12-05 08:00",
        "--seconds",
        "1",
    ]);
    assert_eq!(answer.status.code(), Some(0));
    let said = text(&answer.stderr);
    assert!(said.starts_with("Saturday 5"), "{said}");
    assert!(said.contains("December 2020 is past"), "{said}");
}
