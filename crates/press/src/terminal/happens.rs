//! What happens in a kitchen as a terminal shows it: each step, what the recipe says, and what it comes to there.

use super::{COLUMNS, left};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::happens::{Beside, Happens, StepHappens, Told};
use edit::ledger::model::MarginKind;

/// Columns of a step's number and name, of what is written and of what it comes to; the mark between.
const NAME: usize = 21;
const WRITTEN: usize = 28;
const HERE: usize = COLUMNS - NAME - WRITTEN - 2;

/// The mark of a line that differs by so much that it matters.
const DIFFERS: char = '≠';

/// Every step in its margin, then a line for each difference that matters, then what is counted for
/// safety.
pub fn happens(happens: &Happens) -> String {
    let mut out = Vec::new();
    out.extend(wrap(
        &format!("{} in {}", happens.title, happens.kitchen),
        COLUMNS,
    ));
    let conditions: Vec<String> = happens
        .conditions
        .iter()
        .map(|(what, figure)| format!("{what} {}", figure.shown))
        .collect();
    out.extend(wrap(&(conditions.join("; ") + "."), COLUMNS));
    out.extend(wrap(happens.follows, COLUMNS));
    let mut tested = happens.tested.iter();
    if let Some(first) = tested.next() {
        out.extend(wrap(&sentence(first), COLUMNS));
    }
    out.push(String::new());
    out.push(format!(
        "{}{}  here",
        left("     step", NAME),
        left("the recipe says", WRITTEN),
    ));
    for part in &happens.sections {
        out.push(String::new());
        out.extend(wrap(&part.heading, COLUMNS));
        for step in &part.steps {
            rows(step, &mut out);
        }
    }
    list(
        "What differs here, and matters",
        &happens.differences,
        &mut out,
    );
    if happens.differences.is_empty() {
        out.push(String::new());
        out.push("Nothing here differs by so much that it matters.".to_owned());
    }
    let tested: Vec<Told> = tested.cloned().collect();
    list("The recipe’s own bakes", &tested, &mut out);
    list("For safety", &happens.safety, &mut out);
    let mut text = String::new();
    for line in out {
        text.push_str(plain(&line).trim_end());
        text.push('\n');
    }
    text
}

fn rows(step: &StepHappens, out: &mut Vec<String>) {
    let mut name = wrap(&step.what, NAME - 6);
    // What comes before the first step has no clock of the day: "1 h before".
    let begins = &step.begins.shown;
    name.push(if begins.ends_with("before") {
        begins.clone()
    } else {
        format!("at {begins}")
    });
    let mut beside: Vec<[String; 2]> = Vec::new();
    for line in &step.lines {
        beside.extend(row(line));
    }
    for at in 0..name.len().max(beside.len()) {
        let number = if at == 0 {
            step.number.to_string()
        } else {
            String::new()
        };
        let called = format!("{number:>3}  {}", name.get(at).map_or("", String::as_str));
        let [written, here] = beside.get(at).map_or(["", ""], |row| [&row[0], &row[1]]);
        out.push(format!(
            "{}{}{here}",
            left(&called, NAME),
            left(written, WRITTEN)
        ));
    }
}

/// What is written, and after its mark what it comes to, line by line.
fn row(line: &Beside) -> Vec<[String; 2]> {
    let until = line.kind == MarginKind::Cue && line.written.is_some();
    let written = line.written.as_ref().map_or_else(Vec::new, |written| {
        let until = if until { "until " } else { "" };
        wrap(&format!("{until}{written}"), WRITTEN - 1)
    });
    let here = line
        .here
        .as_ref()
        .map_or_else(Vec::new, |here| wrap(here, HERE));
    let text = |lines: &[String], at: usize| lines.get(at).cloned().unwrap_or_default();
    (0..written.len().max(here.len()))
        .map(|at| {
            let mark = if line.differs && at == 0 {
                DIFFERS
            } else {
                ' '
            };
            [text(&written, at), format!("{mark} {}", text(&here, at))]
        })
        .collect()
}

/// A sentence with its source.
fn sentence(told: &Told) -> String {
    match &told.source {
        Some(source) => format!("{} ({source})", told.sentence),
        None => told.sentence.clone(),
    }
}

fn list(heading: &str, all: &[Told], out: &mut Vec<String>) {
    if all.is_empty() {
        return;
    }
    out.push(String::new());
    out.push(heading.to_owned());
    for told in all {
        let step = told.step.map_or_else(String::new, |step| step.to_string());
        for (at, line) in wrap(&sentence(told), COLUMNS - 5).into_iter().enumerate() {
            let step = if at == 0 { step.as_str() } else { "" };
            out.push(format!("{step:>3}  {line}"));
        }
    }
}
