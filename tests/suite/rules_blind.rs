//! Rule cases that were written from the sentence of the rule alone, before any rule was looked at.

use crate::case::{Case, every_case, plain, stands, wanted};
use bake::kitchen::Kitchen;
use everyoven_tests::tree;
use recipe::document::{read_kitchen, read_recipe};
use recipe::larder::Larder;
use recipe::source::{Code, Diagnostic};
use std::collections::BTreeMap;

const FOLDER: &str = "tests/suite/rules/blind";

/// A row of the table: the guessed name and what the program calls it.
struct Named {
    codes: Vec<Code>,
    /// The severity that the rule asks.
    severity: String,
    /// What is said beside the name: a grade of one's own, a switch, who holds it otherwise.
    aside: String,
}

impl Named {
    /// Whether its cases count.
    fn counts(&self) -> bool {
        !self.codes.is_empty() && !self.aside.contains("switched off")
    }
}

/// The table of `README.md`, by guessed name.
fn table() -> BTreeMap<String, Named> {
    let text = tree::text(&format!("{FOLDER}/README.md")).expect("the table");
    let mut all = BTreeMap::new();
    for line in text.lines().filter(|line| line.starts_with("| ")) {
        let cells: Vec<&str> = line.trim_matches('|').split(" | ").map(str::trim).collect();
        let [_, guess, program, severity, _] = cells[..] else {
            continue;
        };
        let Some(guess) = guess
            .strip_prefix('`')
            .and_then(|rest| rest.strip_suffix('`'))
        else {
            continue;
        };
        let (names, aside) = program.split_once(';').unwrap_or((program, ""));
        let names = names.split('`').skip(1).step_by(2);
        let found = names
            .filter(|name| !name.contains('/'))
            .map(|name| {
                edit::book::every_code()
                    .find(|code| code.name == name)
                    .unwrap_or_else(|| panic!("{guess}: no finding is called {name}"))
            })
            .collect();
        let known = Named {
            codes: found,
            severity: severity.to_owned(),
            aside: aside.to_owned(),
        };
        all.insert(guess.to_owned(), known);
    }
    all
}

/// Everything that is said about a case; of one that cannot be read, what reading says.
fn said(case: &Case) -> Vec<Diagnostic> {
    let read = read_recipe(&case.text);
    let mut said = read.diagnostics;
    let Some(recipe) = read.output else {
        return said;
    };
    let mut larder = Larder::open();
    said.extend(larder.stock(&recipe.pantry));
    let kitchen = case
        .kitchen
        .as_ref()
        .map_or_else(Kitchen::standard, |text| {
            let mut whole = text.clone();
            for (key, line) in [
                ("room", "room = \"21 °C\"\n"),
                ("refrigerator", "refrigerator = \"4 °C\"\n"),
                ("tap", "tap = \"15 °C\"\n"),
                ("altitude", "altitude = \"40 m\"\n"),
                (
                    "bowl",
                    "bowl = { material = \"steel\", mass = \"900 g\" }\n",
                ),
            ] {
                if !whole.contains(&format!("{key} = ")) {
                    whole.push_str(line);
                }
            }
            let file = read_kitchen(&whole);
            let file = file
                .output
                .unwrap_or_else(|| panic!("{}: {:?}", case.name, file.diagnostics));
            bake::kitchen::kitchen(&file).output
        });
    let formula = recipe::formula::formula(&recipe, &larder);
    said.extend(formula.diagnostics);
    let formula = formula.output;
    let inputs = edit::Inputs::new(&recipe, &formula, &larder, &kitchen).written_as(&case.text);
    said.extend(edit::work_out(&inputs).diagnostics);
    said
}

/// What a case wants and does not get.
fn faults(case: &Case, table: &BTreeMap<String, Named>) -> Vec<String> {
    let said = said(case);
    let mut faults = Vec::new();
    let all = || {
        let each = said.iter().map(|one| {
            let place = one
                .span
                .and_then(|span| case.text.get(span.start..span.end));
            format!(
                "{} at {:?}: {}",
                one.code.name,
                place.unwrap_or(""),
                plain(&one.message)
            )
        });
        each.collect::<Vec<_>>().join("\n      ")
    };
    for line in &case.expect {
        if line == "only" || line.starts_with("may ") {
            continue;
        }
        if line == "clean" {
            if !said.is_empty() {
                faults.push(format!("not clean\n      {}", all()));
            }
            continue;
        }
        if let Some(guess) = line.strip_prefix("not ") {
            let named = table
                .get(guess)
                .unwrap_or_else(|| panic!("no row for {guess}"));
            let found = said.iter().find(|one| named.codes.contains(&one.code));
            if let Some(found) = found.filter(|_| named.counts()) {
                faults.push(format!(
                    "found: {}: {}",
                    found.code.name,
                    plain(&found.message)
                ));
            }
            continue;
        }
        let wanted = wanted(line);
        let named = table
            .get(&wanted.code)
            .unwrap_or_else(|| panic!("no row for {}", wanted.code));
        assert_eq!(
            wanted.severity, named.severity,
            "{}: the table asks otherwise",
            case.name
        );
        let there = said
            .iter()
            .any(|one| named.codes.contains(&one.code) && stands(one, &wanted, &case.text));
        if !there && named.counts() {
            faults.push(format!("not found: {line}\n      {}", all()));
        }
    }
    faults
}

#[test]
fn each_blind_case_is_judged_as_its_sentence_says() {
    let table = table();
    assert!(table.len() > 75, "only {} rows were read", table.len());
    let mut all = Vec::new();
    let mut counted = 0;
    for (path, cases) in every_case(FOLDER) {
        for case in &cases {
            counted += 1;
            let faults = faults(case, &table);
            all.extend(
                faults
                    .into_iter()
                    .map(|fault| format!("{path}: {}: {fault}", case.name)),
            );
        }
    }
    assert!(counted > 150, "only {counted} cases were read");
    tree::none("what was written blind is found", &all);
}

#[test]
fn a_grade_of_ones_own_has_its_reason() {
    let mut faults = Vec::new();
    for (guess, named) in table() {
        let other = named
            .codes
            .iter()
            .any(|code| code.severity.word() != named.severity);
        if other && !named.aside.contains("graded") && !named.aside.contains("switched off") {
            faults.push(format!(
                "{guess}: asked {}, and no reason beside the name",
                named.severity
            ));
        }
    }
    tree::none("grades differ for a reason", &faults);
}
