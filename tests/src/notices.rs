//! The page of notices is current: it lists what Cargo.lock builds into the program, and deny.toml agrees to it.

use everyoven_tests::tree::{root, text};
use xtask::notices::{PAGE, alternatives, listed, shipped};

#[test]
fn every_package_in_the_program_is_on_the_page_and_no_other() {
    let listed = listed(&text(PAGE).expect("UTF-8"));
    let shipped = shipped(&root()).expect("Cargo.lock");
    assert!(
        shipped.len() > 100,
        "the search through Cargo.lock stops early"
    );
    let absent: Vec<_> = shipped.difference(&listed).collect();
    let gone: Vec<_> = listed.difference(&shipped).collect();
    assert!(
        absent.is_empty() && gone.is_empty(),
        "run `cargo run -p xtask -- notices`: not listed {absent:?}, no longer built in {gone:?}"
    );
}

#[test]
fn the_page_prints_the_text_of_every_licence_it_names() {
    let page = text(PAGE).expect("UTF-8");
    let allowed: toml::Table = text("deny.toml").expect("UTF-8").parse().expect("TOML");
    let allowed: Vec<&str> = allowed["licenses"]["allow"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(toml::Value::as_str)
        .collect();
    for (name, version) in listed(&page) {
        let start = format!("- `{name}` {version}, ");
        let line = page
            .lines()
            .find_map(|l| l.strip_prefix(&start))
            .expect("listed");
        let terms = line
            .split(". ")
            .next()
            .unwrap_or(line)
            .trim_end_matches('.');
        let (expression, under) = terms.split_once("; ").unwrap_or((terms, terms));
        for licence in alternatives(expression).unwrap_or_else(|e| panic!("{name}: {e}")) {
            assert!(
                allowed.contains(&licence),
                "{name}: {licence} is not in deny.toml"
            );
            assert!(under.contains(licence), "{name}: {under} is not {licence}");
        }
        for heading in under.split(" and ") {
            let heading = format!("\n### {heading}\n\n````text\n");
            assert!(page.contains(&heading), "{name}: no text{heading}");
        }
    }
    for font in ["Libertinus", "New Computer Modern", "DejaVu"] {
        assert!(page.contains(font), "{font} is not named");
    }
}
