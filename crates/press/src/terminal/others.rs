//! A recipe in other kitchens as a terminal shows it: how many come out well, what goes wrong, times, what decides.

use super::{COLUMNS, left, right};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::others::{Line, Others, ReaderLines};

/// Columns of a line's name and of its figure.
const NAME: usize = 36;
const FIGURE: usize = 20;
/// Of it, what a share may be.
const MAY_BE: usize = 10;

/// A reader's bake among those of kitchens like theirs.
pub fn reader(lines: &ReaderLines) -> String {
    let mut out = vec![lines.like.clone()];
    out.extend(lines.told.iter().map(|told| format!("  {told}")));
    out.push(String::new());
    for said in [&lines.share, &lines.all, &lines.usual] {
        if !said.is_empty() {
            out.extend(wrap(said, COLUMNS));
        }
    }
    let mut text = String::new();
    for line in out {
        text.push_str(plain(&line).trim_end());
        text.push('\n');
    }
    text
}

/// Everything.
pub fn others(others: &Others) -> String {
    let mut out = Vec::new();
    out.extend(wrap(&others.title, COLUMNS));
    out.extend(wrap(&others.about, COLUMNS));
    list("How many come out well", &others.well, &mut out);
    list("What goes wrong", &others.failures, &mut out);
    list(
        "Each stated time, for whoever waits for the sign: what would hold in eight of ten",
        &others.times,
        &mut out,
    );
    if !others.decides.is_empty() {
        list(
            "What decides whether all of it comes out well",
            &others.decides,
            &mut out,
        );
        out.push(String::new());
        out.extend(wrap(&others.decides_about, COLUMNS));
    }
    list(others.alone_heading(), &others.alone, &mut out);
    list(
        "For safety: in how many kitchens this is past the usual line (no part of the share above)",
        &others.safety,
        &mut out,
    );
    out.push(String::new());
    out.push("What is not known".to_owned());
    for line in std::iter::once(&others.band).chain(&others.unknowns) {
        indented(line, 2, &mut out);
    }
    let mut text = String::new();
    for line in out {
        text.push_str(plain(&line).trim_end());
        text.push('\n');
    }
    text
}

fn list(heading: &str, lines: &[Line], out: &mut Vec<String>) {
    if lines.is_empty() {
        return;
    }
    out.push(String::new());
    out.extend(wrap(heading, COLUMNS));
    for line in lines {
        let what = match line.step {
            Some(step) => format!("{step} {}", line.what),
            None => line.what.clone(),
        };
        let mut name = wrap(&what, NAME);
        let last = name.pop().unwrap_or_default();
        out.extend(name.into_iter().map(|line| format!("  {line}")));
        // As it will be printed: what joins words has no width.
        let (last, shown) = (plain(&last), plain(&line.shown));
        out.push(format!("  {}{}", left(&last, NAME), figure(&shown)));
        if let Some(more) = &line.more {
            indented(more, 6, out);
        }
    }
}

/// A figure at the right, its share and what it may be in columns of their own: "15 % (0–25 %)".
fn figure(shown: &str) -> String {
    match shown.split_once(" (") {
        Some((share, may_be)) => format!(
            "{} {}",
            right(share, FIGURE - MAY_BE - 1),
            right(&format!("({may_be}"), MAY_BE)
        ),
        None => right(shown, FIGURE),
    }
}

fn indented(words: &str, by: usize, out: &mut Vec<String>) {
    for line in wrap(words, COLUMNS - by) {
        out.push(format!("{}{line}", " ".repeat(by)));
    }
}
