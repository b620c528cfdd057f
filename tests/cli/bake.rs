//! `bake` from outside: four recipes in four kitchens say the same on the terminal and to machines; what cannot be done is said.
//!
//! What is looked at is how the answers hang together, never how long a rise takes.

use super::running::{folder, list, root, run, squeezed, text, word};
use serde_json::Value;

const RECIPES: [&str; 4] = [
    "same-day-loaf",
    "cardamom-dough",
    "hearth-loaf",
    "feast-bread",
];
const KITCHENS: [&str; 4] = ["studio", "terrace", "flat", "plateau"];

fn example(name: &str) -> String {
    format!("examples/{name}.toml")
}

fn kitchen(name: &str) -> String {
    format!("examples/kitchens/{name}.toml")
}

/// The answer for machines, held against its schema.
fn json(arguments: &[&str]) -> Value {
    let answer = run(&[&["--json", "bake"], arguments].concat());
    let value: Value = serde_json::from_slice(&answer.stdout)
        .unwrap_or_else(|error| panic!("{arguments:?}: {error}: {}", text(&answer.stderr)));
    let schema = run(&["manual", "schema"]).stdout;
    let schema: Value = serde_json::from_slice(&schema).expect("the schema is JSON");
    let judge = jsonschema::validator_for(&schema).expect("the schema is one");
    let faults: Vec<_> = judge.iter_errors(&value).map(|e| e.to_string()).collect();
    assert!(faults.is_empty(), "{arguments:?}: {faults:?}");
    value
}

/// The figure of a name.
fn figure<'a>(answer: &'a Value, name: &Value) -> &'a Value {
    let mut figures = list(&answer["figures"]).iter();
    let found = figures.find(|figure| figure["name"] == *name);
    found.unwrap_or_else(|| panic!("no figure is called {name}"))
}

/// A column of the terminal's sheet, its lines put together.
fn column(sheet: &str, from: usize, to: usize) -> String {
    let cut = |line: &str| -> String { line.chars().skip(from).take(to - from).collect() };
    let all: Vec<String> = sheet.lines().map(cut).collect();
    squeezed(&all.join(" "))
}

#[test]
fn four_recipes_in_four_kitchens_say_the_same_on_the_terminal_and_to_machines() {
    for (recipe, kitchen) in RECIPES
        .iter()
        .flat_map(|recipe| KITCHENS.map(|kitchen| (example(recipe), self::kitchen(kitchen))))
    {
        let case = format!("{recipe} in {kitchen}");
        let shown = run(&["bake", &recipe, "--kitchen", &kitchen]);
        let sheet = text(&shown.stdout);
        let answer = json(&[&recipe, "--kitchen", &kitchen]);
        // What must be mended about the mix in this kitchen is said, and what happens all the same.
        let mend = list(&answer["findings"])
            .iter()
            .any(|f| f["grade"] == "mend");
        assert_eq!(shown.status.code(), Some(i32::from(mend)), "{case}");
        assert!(
            sheet.lines().all(|line| line.chars().count() <= 80),
            "{case}:\n{sheet}"
        );
        let whole = squeezed(&sheet);
        let (written, here) = (column(&sheet, 21, 49), column(&sheet, 51, 80));
        let mut names: Vec<&str> = list(&answer["figures"])
            .iter()
            .map(|figure| word(&figure["name"]))
            .collect();
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), count, "{case}: two figures have one name");
        let happens = &answer["happens"][0];
        let steps = list(&happens["steps"]);
        let text_of = std::fs::read_to_string(root().join(&recipe)).expect("the recipe");
        let wanted = text_of
            .lines()
            .filter(|line| line.starts_with("do = "))
            .count();
        assert_eq!(steps.len(), wanted, "{case}: every step is there");
        for (at, step) in steps.iter().enumerate() {
            assert_eq!(step["number"], at + 1, "{case}");
            figure(&answer, &step["takes"]);
            figure(&answer, &step["begins"]);
            for line in list(&step["lines"]) {
                let says = squeezed(word(&line["written"]));
                assert!(
                    written.contains(&says),
                    "{case}: {says} is not in\n{written}"
                );
                let is = squeezed(word(&line["here"]));
                assert!(here.contains(&is), "{case}: {is} is not in\n{here}");
                for name in list(&line["figures"]) {
                    let shown = word(&figure(&answer, name)["shown"]);
                    assert!(word(&line["here"]).contains(shown), "{case}: {line}");
                }
            }
        }
        for told in ["tested", "differences", "safety"].map(|what| list(&happens[what])) {
            for one in told {
                let sentence = squeezed(word(&one["sentence"]));
                assert!(whole.contains(&sentence), "{case}: {sentence}");
                assert!(
                    whole.contains(&squeezed(word(&one["source"]))),
                    "{case}: {one}"
                );
                for name in list(&one["figures"]) {
                    let shown = word(&figure(&answer, name)["shown"]);
                    assert!(word(&one["sentence"]).contains(shown), "{case}: {one}");
                }
            }
        }
        times_that_differ_are_told(&case, &answer, happens);
    }
}

/// A time that is marked as different has its sentence, and a rise that has a sentence is marked.
fn times_that_differ_are_told(case: &str, answer: &Value, happens: &Value) {
    for step in list(&happens["steps"]) {
        let takes = word(&figure(answer, &step["takes"])["shown"]);
        let mut times = list(&step["lines"])
            .iter()
            .filter(|line| line["about"] == "time" && word(&line["here"]) == takes);
        let marked = times.any(|line| line["differs"] == true);
        let told = list(&happens["differences"])
            .iter()
            .any(|one| one["step"] == step["number"] && word(&one["sentence"]).contains(takes));
        assert!(
            !marked || told,
            "{case}: step {} is marked and not told",
            step["number"]
        );
    }
}

#[test]
fn a_cook_by_the_clock_takes_the_written_time() {
    for recipe in RECIPES {
        let answer = json(&[&example(recipe), "--follows", "clock"]);
        let mut times = 0;
        for step in list(&answer["happens"][0]["steps"]) {
            for line in list(&step["lines"])
                .iter()
                .filter(|line| line["about"] == "time")
            {
                let (written, here) = (word(&line["written"]), word(&line["here"]));
                let written = written.trim_start_matches("in all ");
                assert!(written.starts_with(here), "{recipe}: {written}, {here}");
                times += usize::from(!here.is_empty());
            }
        }
        assert!(times >= 3, "{recipe}: {times} times");
    }
}

/// Values of all figures by name, the kitchen's name left out of it.
fn values(answer: &Value) -> Vec<(String, Value, Value)> {
    list(&answer["figures"])
        .iter()
        .map(|figure| {
            let name = word(&figure["name"]);
            let name = name.splitn(3, '.').nth(2).unwrap_or(name);
            (
                name.to_owned(),
                figure["value"].clone(),
                figure["shown"].clone(),
            )
        })
        .collect()
}

#[test]
fn a_value_that_is_set_does_what_the_same_value_in_the_file_does() {
    let out = folder("set");
    let own = out.join("kitchen.toml");
    let file = std::fs::read_to_string(root().join(kitchen("terrace"))).expect("read");
    // A tested bake is worked out in the kitchen as its file has it, so none is asked here.
    let recipe = out.join("untested.toml");
    let text_of = std::fs::read_to_string(root().join(example("same-day-loaf"))).expect("read");
    let untested = text_of.split("[[tested]]").next().expect("the recipe");
    std::fs::write(&recipe, untested).expect("written");
    let recipe = recipe.to_str().expect("UTF-8");
    let said = text(&run(&["bake", recipe]).stdout);
    assert!(
        said.contains("Not tested yet: these are reckoned, not measured."),
        "{said}"
    );
    for (line, other, set) in [
        ("room = \"16 °C\"", "room = \"20 °C\"", vec!["room=20C"]),
        (
            "warm-place = \"26 °C\"",
            "warm-place = \"30 °C\"",
            vec!["Warm place = 30 °C"],
        ),
        (
            "altitude = \"110 m\"",
            "altitude = \"1600 m\"",
            vec!["altitude=1600m"],
        ),
        (
            "inside = \"188 °C\"",
            "inside = \"167 °C\"",
            vec!["oven=-8C"],
        ),
        ("fan = true", "fan = false", vec!["fan=off"]),
    ] {
        assert!(file.contains(line), "{line}");
        std::fs::write(&own, file.replace(line, other)).expect("written");
        let own = own.to_str().expect("UTF-8");
        let by_file = values(&json(&[recipe, "--kitchen", own]));
        let terrace = kitchen("terrace");
        let mut arguments = vec![recipe, "--kitchen", &terrace];
        for one in &set {
            arguments.extend(["--set", one]);
        }
        assert_eq!(values(&json(&arguments)), by_file, "{set:?}");
    }
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn what_cannot_be_set_is_said_with_every_name_there_is() {
    for (set, said) in [
        ("room=17", "without its unit"),
        ("rom=17C", "Is `room` meant?"),
        ("cellar=12C", "Nothing in a kitchen is set by `cellar`"),
        ("room", "no `=`"),
        ("room=80C", "A room is between"),
        ("oven=180C", "at most 80 °C off its dial"),
        ("fan=perhaps", "on or off"),
    ] {
        let answer = run(&["bake", &example("hearth-loaf"), "--set", set]);
        let heard = text(&answer.stderr);
        assert_eq!(answer.status.code(), Some(2), "{set}: {heard}");
        assert!(heard.contains(said), "{set}: {heard}");
        for name in [
            "room=",
            "refrigerator=",
            "warm-place=",
            "tap=",
            "altitude=",
            "oven=",
            "fan=",
        ] {
            assert!(heard.contains(name), "{set}: {name} is not in {heard}");
        }
        assert_eq!(text(&answer.stdout), "");
    }
}

#[test]
fn a_kitchen_that_is_not_there_or_cannot_be_is_refused() {
    let answer = run(&[
        "bake",
        &example("hearth-loaf"),
        "--kitchen",
        "no-such-kitchen.toml",
    ]);
    assert_eq!(answer.status.code(), Some(3));
    assert!(text(&answer.stderr).contains("there is no such file"));
    let out = folder("kitchen");
    let own = out.join("kitchen.toml");
    let file = std::fs::read_to_string(root().join(kitchen("studio"))).expect("read");
    for (from, to, code) in [
        (
            "room = \"21 °C\"",
            "room = \"80 °C\"",
            "value-out-of-reason",
        ),
        ("room = \"21 °C\"", "room = 21", "number-without-unit"),
    ] {
        std::fs::write(&own, file.replace(from, to)).expect("written");
        let own = own.to_str().expect("UTF-8");
        let answer = run(&["bake", &example("hearth-loaf"), "--kitchen", own]);
        assert_eq!(answer.status.code(), Some(1), "{to}");
        assert!(
            text(&answer.stderr).contains(code),
            "{to}: {}",
            text(&answer.stderr)
        );
        assert_eq!(text(&answer.stdout), "", "{to}");
    }
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn several_kitchens_stand_under_one_another_and_twice_are_the_same_bytes() {
    let [studio, flat] = ["studio", "flat"].map(kitchen);
    let recipe = example("cardamom-dough");
    let arguments = ["bake", &recipe, "--kitchen", &studio, "--kitchen", &flat];
    let first = run(&arguments);
    let said = text(&first.stdout);
    let (studio, flat) = (said.find("in Studio"), said.find("in Hot flat"));
    assert!(studio.is_some() && studio < flat, "{said}");
    assert!(
        first.stdout == run(&arguments).stdout,
        "a second run says other bytes"
    );
}
