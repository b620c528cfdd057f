//! The cases of `suite/rules`, `suite/mix` and `suite/happens`: each is read, worked out and judged, and what is found is compared.

use crate::case::{Case, Wanted, every_case, plain, stands, wanted};
use bake::kitchen::Kitchen;
use everyoven_tests::tree;
use recipe::document::{read_kitchen, read_recipe};
use recipe::larder::Larder;
use recipe::source::{Code, Diagnostic, Severity};

/// Everything that is said with one of these codes; the rest is looked at by cases of its own.
fn judged(case: &Case, codes: &[Code]) -> Vec<Diagnostic> {
    let is_looked_at = |diagnostic: &Diagnostic| codes.contains(&diagnostic.code);
    let read = read_recipe(&case.text);
    let mut said = Vec::new();
    let Some(recipe) = read.output else {
        panic!("{}: not read: {:?}", case.name, messages(&read.diagnostics));
    };
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let kitchen = case
        .kitchen
        .as_ref()
        .map_or_else(Kitchen::standard, |text| {
            let file = read_kitchen(text);
            let file = file
                .output
                .unwrap_or_else(|| panic!("{}: {:?}", case.name, file.diagnostics));
            said.extend(bake::kitchen::unknown_stores(&file, &larder));
            let made = bake::kitchen::kitchen(&file);
            said.extend(made.diagnostics);
            made.output
        });
    let formula = recipe::formula::formula(&recipe, &larder).output;
    let inputs = edit::Inputs::new(&recipe, &formula, &larder, &kitchen).written_as(&case.text);
    said.extend(read.diagnostics);
    said.extend(edit::work_out(&inputs).diagnostics);
    if codes == bake::code::HAPPENS {
        let how = bake::simulate::How {
            grid: bake::simulate::Grid::Coarse,
            ..Default::default()
        };
        let at_hand = std::slice::from_ref(&kitchen);
        let course = bake::anchor::happens(&recipe, &formula, &kitchen, at_hand, &how);
        said.extend(course.diagnostics);
    }
    let broken: Vec<_> = said
        .iter()
        .filter(|one| one.code.severity == Severity::Mend && !is_looked_at(one))
        .cloned()
        .collect();
    assert!(
        broken.is_empty(),
        "{}: the case itself: {:?}",
        case.name,
        messages(&broken)
    );
    said.into_iter().filter(is_looked_at).collect()
}

fn messages(diagnostics: &[Diagnostic]) -> Vec<String> {
    diagnostics
        .iter()
        .map(|d| format!("{}: {}", d.code.name, plain(&d.message)))
        .collect()
}

fn meets(finding: &Diagnostic, wanted: &Wanted, text: &str) -> bool {
    finding.code.name == wanted.code
        && finding.code.severity.word() == wanted.severity
        && stands(finding, wanted, text)
}

fn faults(case: &Case, codes: &[Code]) -> Vec<String> {
    let mut left = judged(case, codes);
    let mut faults = Vec::new();
    let mut only = false;
    for line in &case.expect {
        if line == "clean" || line == "only" {
            only = true;
        } else if line.starts_with("may ") {
            // Looked at below.
        } else if let Some(code) = line.strip_prefix("not ") {
            assert!(
                codes.iter().any(|own| own.name == code),
                "{}: there is no {code}",
                case.name
            );
            if left.iter().any(|finding| finding.code.name == code) {
                faults.push(format!("found, and should not be: {code}"));
            }
        } else {
            let wanted = wanted(line);
            match left
                .iter()
                .position(|finding| meets(finding, &wanted, &case.text))
            {
                Some(place) => drop(left.remove(place)),
                None => faults.push(format!("not found: {line}")),
            }
        }
    }
    let allowed = |finding: &Diagnostic| {
        case.expect
            .iter()
            .any(|line| line.strip_prefix("may ") == Some(finding.code.name))
    };
    left.retain(|finding| !allowed(finding));
    if only && !left.is_empty() {
        faults.push("more is found than the case allows".to_owned());
    }
    let mend = left
        .iter()
        .any(|finding| finding.code.severity == Severity::Mend);
    if mend && !only {
        faults.push("a finding to mend that the case does not name".to_owned());
    }
    if !faults.is_empty() {
        let spans = left.iter().filter_map(|finding| {
            let span = finding.span?;
            Some(format!(
                "{} at {:?}",
                finding.code.name,
                case.text.get(span.start..span.end)?
            ))
        });
        faults.extend(
            messages(&left)
                .into_iter()
                .map(|said| format!("  said: {said}")),
        );
        faults.extend(spans.map(|said| format!("  {said}")));
    }
    faults
}

fn judge_all(folder: &str, codes: &[Code]) {
    let mut all = Vec::new();
    for (path, cases) in every_case(folder) {
        for case in &cases {
            let faults = faults(case, codes);
            all.extend(
                faults
                    .into_iter()
                    .map(|fault| format!("{path}: {}: {fault}", case.name)),
            );
        }
    }
    tree::none("what is found is what the case says", &all);
}

/// Each code is found by a case and left alone by another, save those named as tried elsewhere.
fn both_ways(folder: &str, codes: &[Code], elsewhere: &[&str]) {
    let lines: Vec<String> = every_case(folder)
        .into_iter()
        .flat_map(|(_, cases)| cases)
        .flat_map(|case| case.expect)
        .collect();
    let mut faults = Vec::new();
    for code in codes.iter().filter(|code| !elsewhere.contains(&code.name)) {
        let starts = format!("{} {}", code.severity.word(), code.name);
        if !lines
            .iter()
            .any(|line| *line == starts || line.starts_with(&format!("{starts} ")))
        {
            faults.push(format!("{} is found by no case", code.name));
        }
        if !lines.contains(&format!("not {}", code.name)) {
            faults.push(format!("{} is left alone by no case", code.name));
        }
    }
    tree::none("each rule is tried both ways", &faults);
}

#[test]
fn every_case_is_judged_as_its_file_says() {
    judge_all("tests/suite/rules", edit::code::ALL);
}

#[test]
fn every_mix_is_judged_as_its_file_says() {
    judge_all("tests/suite/mix", &of_a_mix());
}

#[test]
fn every_day_is_judged_as_its_file_says() {
    judge_all("tests/suite/happens", bake::code::HAPPENS);
}

/// Codes of a mix and its kitchen alone.
fn of_a_mix() -> Vec<Code> {
    let mix = |code: &Code| !bake::code::HAPPENS.contains(code);
    bake::code::ALL.iter().copied().filter(mix).collect()
}

#[test]
fn every_rule_has_a_case_that_it_finds_and_one_that_it_leaves_alone() {
    // Found after the page is laid out, not in the recipe; the disclosure cannot be left off.
    // Swaps are asked for, not written: `tests/identities/variants.rs` tries each both ways.
    let elsewhere = [
        "glyph-missing",
        "photo-leads-outside",
        "photo-missing",
        "sponsor-undisclosed",
        "swap-cannot-keep",
        "swap-finds-nothing",
        "swap-unreadable",
        "swap-without-liquid",
    ];
    both_ways("tests/suite/rules", edit::code::ALL, &elsewhere);
    // The reader turns such figures away first; `bake::kitchen` has its own test.
    // What is wrong with an audience stands in its own file: `tests/identities/kitchens.rs`, `tests/cli/kitchens.rs`.
    // Readings at the bench are tried both ways in `tests/plausibility/readings.rs`, those of a log in `tests/cli/learn.rs`.
    let elsewhere = [
        "relation-outside-its-range",
        "audience-unknown",
        "variable-unknown",
        "variable-impossible",
        "variables-cannot-go-together",
        "number-of-kitchens",
        "nothing-to-judge",
        "log-teaches-nothing",
        "reading-of-nothing",
        "reading-step-unknown",
        "reading-out-of-reach",
    ];
    both_ways("tests/suite/mix", &of_a_mix(), &elsewhere);
    // No written recipe is known to do it; `bake::anchor` has its own test.
    let elsewhere = ["anchor-does-not-settle"];
    both_ways("tests/suite/happens", bake::code::HAPPENS, &elsewhere);
}

#[test]
fn letters_and_photographs_that_are_not_there_are_named() {
    let letters = edit::rules::glyph_findings(&[('日', "Sunday 日".to_owned())]);
    assert_eq!(letters.len(), 1);
    assert_eq!(letters[0].code, edit::code::GLYPH_MISSING);
    assert!(letters[0].message.contains("U+65E5") && letters[0].message.contains("Sunday 日"));
    assert!(edit::rules::glyph_findings(&[]).is_empty());
    let photos = edit::rules::missing_photos(&["braid-cut.jpg".to_owned()]);
    assert_eq!(photos.len(), 1);
    assert_eq!(photos[0].code, edit::code::PHOTO_MISSING);
    assert!(photos[0].message.contains("braid-cut.jpg"));
    let loaf = include_str!("../golden/documents/v1/every-key.toml");
    let recipe = read_recipe(loaf).output.expect("it reads");
    let file = recipe.photos[0].file.value.clone();
    let outside = edit::rules::photos_outside(&recipe, std::slice::from_ref(&file));
    assert_eq!(outside.len(), 1);
    assert_eq!(outside[0].code, edit::code::PHOTO_LEADS_OUTSIDE);
    assert!(outside[0].message.contains(&file));
    assert!(edit::rules::photos_outside(&recipe, &[]).is_empty());
}
