//! A talk held against its recipe, as a terminal shows it: what is said otherwise, then what is never said.

use super::COLUMNS;
use edit::talk::track::clock;
use edit::talk::{Finding, Kind, Talk};

/// The answer, 80 columns wide. `track`: the text that the talk was read from, for lines where it has no times.
pub fn talk(title: &str, talk: &Talk, track: &str) -> String {
    let mut text = format!("{title}: the talk against the recipe\n");
    let counted = match talk.figures {
        0 => "No amount, temperature, time or size is said.".to_owned(),
        _ => format!(
            "{} amounts, temperatures, times and sizes are said; {} of them are the recipe’s.",
            talk.figures, talk.agree
        ),
    };
    paragraph(&mut text, &counted, "  ");
    let said: Vec<&Finding> = talk
        .findings
        .iter()
        .filter(|one| one.cue.is_some() || one.kind == Kind::Whole)
        .collect();
    let unsaid: Vec<&Finding> = talk
        .findings
        .iter()
        .filter(|one| one.cue.is_none() && one.kind != Kind::Whole)
        .collect();
    text.push('\n');
    if said.is_empty() {
        text.push_str("Nothing is said otherwise than the recipe has it.\n");
    } else {
        text.push_str("Said otherwise\n");
    }
    for finding in said {
        row(&mut text, finding, track);
    }
    if !unsaid.is_empty() {
        text.push_str("\nNever said\n");
    }
    for finding in unsaid {
        for (at, line) in wrapped(&finding.diagnostic.message, 4)
            .into_iter()
            .enumerate()
        {
            text.push_str(if at == 0 { "  - " } else { "    " });
            text.push_str(&line);
            text.push('\n');
        }
    }
    crate::line::plain(&text)
}

/// The line of a track's text in which something is said, from 1.
pub fn line_of(finding: &Finding, track: &str) -> Option<usize> {
    let at = finding.diagnostic.span?.start;
    let before = track.bytes().take(at);
    Some(1 + before.filter(|byte| *byte == b'\n').count())
}

/// A finding: when, its grade and kind, what is said, what to say.
fn row(text: &mut String, finding: &Finding, track: &str) {
    let line = || line_of(finding, track).map(|line| format!("line {line}"));
    let when = finding.at.map(clock).or_else(line).unwrap_or_default();
    text.push_str(&format!(
        "  {when:>7}  {} · {}\n",
        finding.kind.word(),
        finding.diagnostic.code.severity.word(),
    ));
    let message = finding
        .at
        .and_then(|at| {
            finding
                .diagnostic
                .message
                .strip_prefix(&format!("At {}: ", clock(at)))
        })
        .unwrap_or(&finding.diagnostic.message);
    paragraph(text, &capital(message), "           ");
    for hint in &finding.diagnostic.hints {
        paragraph(text, hint, "           ");
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

fn wrapped(words: &str, indent: usize) -> Vec<String> {
    crate::text::wrap::wrap(words, COLUMNS - indent)
}

fn paragraph(text: &mut String, words: &str, indent: &str) {
    for line in wrapped(words, indent.chars().count()) {
        text.push_str(indent);
        text.push_str(&line);
        text.push('\n');
    }
}
