//! Runs every case of `tests/suite`, as its README describes them, and lists all that fail.

mod cases;
mod expectation;
mod quantities;

use cases::{Case, Kind, cases};
use recipe::document::{read_kitchen, read_recipe};
use recipe::source::Diagnostic;

const FILES: [(&str, &str); 9] = [
    (
        "graph",
        include_str!("../../../../tests/suite/document/graph.md"),
    ),
    (
        "keys",
        include_str!("../../../../tests/suite/document/keys.md"),
    ),
    (
        "kitchen",
        include_str!("../../../../tests/suite/document/kitchen.md"),
    ),
    (
        "names",
        include_str!("../../../../tests/suite/document/names.md"),
    ),
    (
        "pantry",
        include_str!("../../../../tests/suite/document/pantry.md"),
    ),
    (
        "placeholders",
        include_str!("../../../../tests/suite/document/placeholders.md"),
    ),
    (
        "products",
        include_str!("../../../../tests/suite/document/products.md"),
    ),
    (
        "shape",
        include_str!("../../../../tests/suite/document/shape.md"),
    ),
    (
        "values",
        include_str!("../../../../tests/suite/document/values.md"),
    ),
];

#[test]
fn every_document_case_is_met() {
    let mut run = 0;
    let mut failures = Vec::new();
    for (file, markdown) in FILES {
        for case in cases(markdown) {
            run += 1;
            match case {
                Ok(case) => {
                    failures
                        .extend(judge(&case).map(|why| format!("{file}: {}: {why}", case.name)));
                }
                Err(broken) => {
                    failures.push(format!("{file}: the case itself is broken: {broken}"));
                }
            }
        }
    }
    assert!(run >= 250, "only {run} cases were found");
    assert!(
        failures.is_empty(),
        "{} of {run} cases fail:\n{}",
        failures.len(),
        failures.join("\n")
    );
}

/// Why a case is not met, if it is not.
fn judge(case: &Case) -> Option<String> {
    let said: Vec<Diagnostic> = match case.kind {
        Kind::Recipe => read_recipe(&case.text).diagnostics,
        Kind::Kitchen => read_kitchen(&case.text).diagnostics,
    };
    expectation::judge(&case.text, &case.expect, &said)
}

#[test]
fn every_written_quantity_means_what_it_should() {
    let (run, failures) = quantities::run(include_str!("../../../../tests/suite/quantities.md"));
    assert!(run >= 350, "only {run} rows were found");
    assert!(
        failures.is_empty(),
        "{} of {run} rows fail:\n{}",
        failures.len(),
        failures.join("\n")
    );
}
