//! `everyoven answers` from outside: the list, a few answers, a page, and what is not understood.

use super::running::{root, run, text};

fn answered(arguments: &[&str]) -> String {
    let mut all = vec!["answers"];
    all.extend(arguments);
    let answer = run(&all);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    text(&answer.stdout)
}

#[test]
fn without_a_question_every_name_is_listed() {
    insta::assert_snapshot!(answered(&["examples/hearth-loaf.toml"]));
}

#[test]
fn a_swap_a_tin_and_a_refusal() {
    let all = [
        answered(&["examples/same-day-loaf.toml", "salted butter"]),
        answered(&[
            "examples/cardamom-dough.toml",
            "other-tin",
            "--set",
            "tin=950mL",
        ]),
        answered(&["examples/hearth-loaf.toml", "gluten free"]),
    ];
    insta::assert_snapshot!(all.join("===\n"));
}

#[test]
fn a_fault_in_a_reader_s_own_words() {
    let named = answered(&["examples/cardamom-dough.toml", "stiff"]);
    let asked = answered(&[
        "examples/cardamom-dough.toml",
        "the",
        "dough",
        "climbs",
        "the",
        "hook",
    ]);
    assert_eq!(named, asked);
    insta::assert_snapshot!(named);
}

/// A liquid that cannot be warm enough in a reader's kitchen is what they ask about, and stops nothing.
#[test]
fn a_kitchen_that_asks_too_much_of_a_liquid_is_answered() {
    let cold = answered(&[
        "examples/feast-bread.toml",
        "cold kitchen",
        "--kitchen",
        "examples/kitchens/terrace.toml",
    ]);
    let cold = cold.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(cold.contains("Cold terrace with a room of 16"), "{cold}");
    assert!(cold.contains("in their shells"), "{cold}");
}

#[test]
fn what_is_not_understood_is_said_with_what_is_near() {
    for (arguments, said) in [
        (
            vec!["examples/hearth-loaf.toml", "colander"],
            "no question that is answered here",
        ),
        (
            vec!["examples/hearth-loaf.toml", "cold kettle"],
            "cold-kitchen",
        ),
        (
            vec!["examples/hearth-loaf.toml", "dense", "--set", "protien=11%"],
            "protein=10.5%",
        ),
    ] {
        let mut all = vec!["answers"];
        all.extend(arguments);
        let answer = run(&all);
        let out = text(&answer.stdout) + &text(&answer.stderr);
        assert!(out.contains(said), "{said}: {out}");
    }
    assert_eq!(
        run(&["answers", "examples/hearth-loaf.toml", "colander"])
            .status
            .code(),
        Some(2)
    );
}

#[test]
fn the_page_stands_alone_with_an_anchor_for_every_question() {
    let folder = std::env::temp_dir().join(format!("everyoven-answers-{}", std::process::id()));
    let into = folder.to_str().expect("UTF-8");
    let json = answered(&["examples/hearth-loaf.toml", "--into", into, "--json"]);
    let page = std::fs::read_to_string(folder.join("answers.html")).expect("written");
    let json: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    let schema = std::fs::read_to_string(root().join("crates/app/assets/output-1.schema.json"));
    let schema = serde_json::from_str(&schema.expect("the schema")).expect("JSON");
    let judge = jsonschema::validator_for(&schema).expect("a schema");
    let faults: Vec<String> = judge
        .iter_errors(&json)
        .map(|one| one.to_string())
        .collect();
    assert!(faults.is_empty(), "{faults:?}");
    let answers = json["answers"].as_array().expect("answers");
    assert_eq!(answers.len(), edit::answers::QUESTIONS.len());
    for answer in answers {
        let name = answer["name"].as_str().expect("a name");
        assert!(page.contains(&format!("id=\"{name}\"")), "{name}");
    }
    for banned in ["<script", "http:", "https:", "url("] {
        assert!(!page.contains(banned), "{banned}");
    }
    std::fs::remove_dir_all(folder).expect("cleaned");
}
