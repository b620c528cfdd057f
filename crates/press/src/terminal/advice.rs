//! What to write otherwise as a terminal shows it: the sentence, what it is worth, and the lines of the file.

use super::{COLUMNS, left, right};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::advice::{Advice, Advised};

/// Columns of a change's name and of what it is worth.
const NAME: usize = 40;
const WORTH: usize = 24;

/// Everything.
pub fn advice(advice: &Advice) -> String {
    let mut out = vec![String::new(), "What to write otherwise".to_owned()];
    out.extend(wrap(&advice.about, COLUMNS));
    let (hold, not): (Vec<&Advised>, Vec<&Advised>) =
        advice.advised.iter().partition(|one| one.holds);
    if hold.is_empty() {
        out.push(String::new());
        out.push("No change was found that is surely worth making.".to_owned());
    }
    for (place, one) in hold.iter().enumerate() {
        out.push(String::new());
        let heading = format!("{}. {}", place + 1, one.sentence);
        out.extend(wrap(&heading, COLUMNS));
        for line in wrap(&one.shown, COLUMNS - 3) {
            out.push(format!("   {line}"));
        }
        for (sign, line) in &one.diff {
            out.push(format!("   {sign} {line}"));
        }
    }
    if !not.is_empty() {
        out.push(String::new());
        out.push("Not advised: too seldom worth anything".to_owned());
        for one in not {
            let words = format!("{}: {}", one.what, one.shown);
            for line in wrap(&words, COLUMNS - 2) {
                out.push(format!("  {line}"));
            }
        }
    }
    if !advice.tried.is_empty() {
        out.push(String::new());
        out.push("Each by itself".to_owned());
        for (what, shown, _) in &advice.tried {
            out.push(format!("  {}{}", left(what, NAME), right(shown, WORTH)));
        }
    }
    let mut text = String::new();
    for line in out {
        text.push_str(plain(&line).trim_end());
        text.push('\n');
    }
    text
}
