//! Answers as a terminal shows them: the list of questions, and a reply with its causes and sources.

use super::COLUMNS;
use crate::line::plain;
use crate::text::wrap;
use edit::answers::{About, Answer, QUESTIONS};

/// Every question with its name, by what it is about.
pub fn questions(title: &str) -> String {
    let mut text = format!("{title}: what can be asked\n");
    for about in About::ALL {
        text.push_str(&format!("\n{}\n", about.heading()));
        for question in QUESTIONS.iter().filter(|one| one.about == about) {
            text.push_str(&format!("  {:<19} {}\n", question.name, question.asks));
        }
    }
    text
}

/// One answer: the reply to paste, and under it what changes, what causes it, what else there is to say.
pub fn answer(answer: &Answer) -> String {
    let mut text = format!("{}\n\n", answer.asks);
    push(&mut text, &answer.reply, "", "");
    if !answer.changes.is_empty() {
        text.push_str("\nIn the recipe\n");
        for change in &answer.changes {
            push(&mut text, change, "  ", "    ");
        }
    }
    if !answer.causes.is_empty() {
        text.push_str("\nCauses, tried one at a time\n");
        for cause in &answer.causes {
            let line = format!(
                "{} ({}): {}. {}",
                cause.what, cause.verdict, cause.does, cause.way_out
            );
            push(&mut text, &line, "  ", "    ");
        }
    }
    if !answer.more.is_empty() {
        text.push_str("\nMore\n");
        for words in &answer.more {
            push(&mut text, words, "  ", "    ");
        }
    }
    let rests = answer.rests(false);
    if !rests.is_empty() {
        text.push_str("\nIt rests on\n");
        for line in &rests {
            push(&mut text, line, "  ", "    ");
        }
    }
    text
}

/// A paragraph, its first line and the later ones set in.
fn push(text: &mut String, line: &str, first: &str, later: &str) {
    for (place, part) in wrap::wrap(line, COLUMNS - 4).iter().enumerate() {
        text.push_str(if place == 0 { first } else { later });
        text.push_str(&plain(part));
        text.push('\n');
    }
}

/// A paragraph in the width of a terminal.
pub fn paragraph(words: &str) -> String {
    let mut text = String::new();
    push(&mut text, words, "", "");
    text
}
