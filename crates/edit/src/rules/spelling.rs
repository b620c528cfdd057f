//! How the author's words write figures and units: one way throughout, and none that misleads.

use super::{Case, Rule};
use crate::code;
use crate::prose::{Passage, sentences, words};
use recipe::document::model::{Amount, Degrees};
use recipe::source::{Code, Diagnostic, Span};
use std::ops::Range;

pub const RULES: &[Rule] = &[
    till,
    units,
    leading_points,
    points_in_amounts,
    fractions,
    figures_first,
];

/// A place in a passage and what is better written there.
pub struct Slip {
    span: Span,
    change: Option<Span>,
    was: String,
    new: String,
}

/// A slip at a place of a passage.
pub fn slip(case: &Case, passage: &Passage, part: &Range<usize>, new: String) -> Slip {
    Slip {
        span: passage.at(part),
        change: passage.changeable(case.inputs.written, part),
        was: passage.written[part.clone()].to_owned(),
        new,
    }
}

/// One finding for all slips of a sort: the first where it stands, the others marked.
pub fn together(
    code: Code,
    slips: Vec<Slip>,
    message: impl Fn(&Slip) -> String,
    hint: &str,
) -> Vec<Diagnostic> {
    let Some(first) = slips.first() else {
        return Vec::new();
    };
    let mut finding = Diagnostic::at(code, first.span, message(first)).hint(hint);
    for one in &slips[1..] {
        finding = finding.label(one.span, format!("{}: {}", one.was, one.new));
    }
    for one in slips {
        if let Some(span) = one.change {
            finding = finding.change(span, one.new);
        }
    }
    vec![finding]
}

fn till(case: &Case) -> Vec<Diagnostic> {
    let mut slips = Vec::new();
    for passage in case.passages {
        for (at, word) in words(&passage.words) {
            if word.eq_ignore_ascii_case("till") {
                let new = if word.starts_with('T') {
                    "Until"
                } else {
                    "until"
                };
                slips.push(slip(case, passage, &(at..at + word.len()), new.to_owned()));
            }
        }
    }
    together(
        code::TILL_FOR_UNTIL,
        slips,
        |_| "“till” is also a drawer for money; recipes say “until”.".to_owned(),
        "Write \"until\" throughout.",
    )
}

/// Other spellings of a unit behind digits, and ours.
const OTHERWISE: [(&str, &str); 30] = [
    ("gr", "g"),
    ("gm", "g"),
    ("gms", "g"),
    ("gs", "g"),
    ("kgs", "kg"),
    ("Kg", "kg"),
    ("KG", "kg"),
    ("mins", "min"),
    ("Min", "min"),
    ("hr", "h"),
    ("hrs", "h"),
    ("secs", "s"),
    ("sec", "s"),
    ("ml", "mL"),
    ("mls", "mL"),
    ("cl", "cL"),
    ("dl", "dL"),
    ("l", "L"),
    ("lt", "L"),
    ("ltr", "L"),
    ("tbsp", "Tbsp"),
    ("tbs", "Tbsp"),
    ("tbl", "Tbsp"),
    ("TBSP", "Tbsp"),
    ("Tbs", "Tbsp"),
    ("tsps", "tsp"),
    ("Tsp", "tsp"),
    ("cms", "cm"),
    ("ozs", "oz"),
    ("lbs", "lb"),
];

/// Our spellings, which want a space before them.
const OURS: [&str; 14] = [
    "g", "kg", "mg", "min", "h", "s", "mL", "cL", "dL", "L", "cm", "mm", "Tbsp", "tsp",
];

fn units(case: &Case) -> Vec<Diagnostic> {
    let degrees = case.inputs.recipe.house.degrees();
    let mut slips = Vec::new();
    for passage in case.passages {
        let text = passage.words.as_str();
        for (at, letter) in text.char_indices() {
            if !(letter.is_ascii_digit() || "½⅓⅔¼¾⅛⅜⅝⅞".contains(letter)) {
                continue;
            }
            let end = at + letter.len_utf8();
            let rest = &text[end..];
            let gap = rest.len() - rest.trim_start_matches([' ', '\u{a0}']).len();
            let unit: &str = {
                let after = &rest[gap..];
                let stop = after
                    .find(|c: char| !c.is_alphabetic())
                    .unwrap_or(after.len());
                &after[..stop]
            };
            // From the number on, so that a space that lacks can be seen.
            let number = text[..end].trim_end_matches(|sign: char| sign.is_ascii_digit());
            let begins = number.len().min(at);
            let number = &text[begins..end];
            let written = begins..end + gap + unit.len();
            if let Some((_, ours)) = OTHERWISE.iter().find(|(other, _)| *other == unit) {
                // "4 l" of a list may be a letter; a small l behind digits is a litre or a one.
                slips.push(slip(case, passage, &written, format!("{number} {ours}")));
            } else if gap == 0 && OURS.contains(&unit) {
                slips.push(slip(case, passage, &written, format!("{number} {unit}")));
            } else if unit.is_empty() && gap <= 1 {
                let sign = rest[gap..].starts_with("°C") || rest[gap..].starts_with("°F");
                let wanted = usize::from(degrees == Degrees::Spaced);
                if sign && gap != wanted {
                    let part = begins..end + gap + "°C".len();
                    let scale = &rest[gap..gap + "°C".len()];
                    slips.push(slip(
                        case,
                        passage,
                        &part,
                        format!("{number}{}{scale}", " ".repeat(wanted)),
                    ));
                }
            }
        }
    }
    together(
        code::UNIT_WRITTEN_OTHERWISE,
        slips,
        |slip| {
            format!(
                "“{}” is written otherwise than the page writes its units: “{}”.",
                slip.was.trim(),
                slip.new.trim()
            )
        },
        "The page prints g, kg, mL, L, min, h, cm, tsp and Tbsp, each with a space before it; write the sentences so too.",
    )
}

/// ".5": in print a point is lost, and the figure is ten times as large.
fn leading_points(case: &Case) -> Vec<Diagnostic> {
    let mut slips = Vec::new();
    for passage in case.passages {
        let text = passage.words.as_str();
        for (at, letter) in text.char_indices() {
            let digit = text[at + letter.len_utf8()..].starts_with(|c: char| c.is_ascii_digit());
            let before = text[..at].chars().next_back();
            let alone =
                before.is_none_or(|c| c.is_whitespace() || matches!(c, '(' | '/' | '-' | '–'));
            if letter == '.' && digit && alone {
                slips.push(slip(case, passage, &(at..at + 1), "0.".to_owned()));
            }
        }
    }
    together(
        code::DECIMAL_WITHOUT_ZERO,
        slips,
        |_| {
            "A figure begins with its decimal point; where the point is lost in print or overlooked, it is ten times as large.".to_owned()
        },
        "Write the zero: \"0.5 g\".",
    )
}

/// The same in an amount of the recipe.
fn points_in_amounts(case: &Case) -> Vec<Diagnostic> {
    let (recipe, Some(text)) = (case.inputs.recipe, case.inputs.written) else {
        return Vec::new();
    };
    let items = recipe.stages.iter().flat_map(|stage| &stage.items);
    let amounts = items
        .chain(&recipe.besides)
        .filter_map(|item| item.take.as_ref());
    let mut slips = Vec::new();
    for amount in amounts {
        let written = text.get(amount.span.start..amount.span.end).unwrap_or("");
        let start =
            amount.span.start + written.len() - written.trim_start_matches(['"', '\'', ' ']).len();
        if text[start..].starts_with(['.', ','])
            && matches!(amount.value, Amount::Mass(_) | Amount::Measures(_))
        {
            let span = Span::new(start, start + 1);
            slips.push(Slip {
                span: amount.span,
                change: Some(span),
                was: written.trim_matches('"').to_owned(),
                new: "0.".to_owned(),
            });
        }
    }
    together(
        code::DECIMAL_WITHOUT_ZERO,
        slips,
        |slip| {
            format!(
                "“{}” begins with its decimal point; where the point is overlooked, it is ten times as much.",
                slip.was
            )
        },
        "Write the zero: \"0.5 g\".",
    )
}

/// Fractions that have a letter of their own.
const LETTERS: [(&str, &str); 9] = [
    ("1/2", "½"),
    ("1/3", "⅓"),
    ("2/3", "⅔"),
    ("1/4", "¼"),
    ("3/4", "¾"),
    ("1/8", "⅛"),
    ("3/8", "⅜"),
    ("5/8", "⅝"),
    ("7/8", "⅞"),
];

fn fractions(case: &Case) -> Vec<Diagnostic> {
    let mut slips = Vec::new();
    for passage in case.passages {
        let text = passage.words.as_str();
        for (written, letter) in LETTERS {
            for (at, found) in text.match_indices(written) {
                let end = at + found.len();
                let before = text[..at].chars().next_back();
                let longer = before
                    .is_some_and(|c| c.is_ascii_digit() || matches!(c, '/' | '.' | ','))
                    || text[end..].starts_with(|c: char| c.is_ascii_digit() || c == '/');
                // "1 1/2" becomes "1½".
                let whole = text[..at].ends_with(' ')
                    && text[..at]
                        .trim_end()
                        .ends_with(|c: char| c.is_ascii_digit());
                if !longer {
                    let start = at - usize::from(whole);
                    slips.push(slip(case, passage, &(start..end), letter.to_owned()));
                }
            }
        }
    }
    together(
        code::FRACTION_WITH_STROKE,
        slips,
        |slip| {
            format!(
                "“{}” is a fraction with a stroke; the lists print “{}”, and a stroke is lost or read as a date.",
                slip.was.trim(),
                slip.new
            )
        },
        "Write the one sign for it.",
    )
}

fn figures_first(case: &Case) -> Vec<Diagnostic> {
    let mut found: Option<Diagnostic> = None;
    for passage in case.passages.iter().filter(|passage| passage.is_prose()) {
        for sentence in sentences(&passage.words) {
            let words = &passage.words[sentence.clone()];
            if !words.starts_with(|c: char| c.is_ascii_digit()) {
                continue;
            }
            let end = words.find(char::is_whitespace).unwrap_or(words.len());
            let span = passage.at(&(sentence.start..sentence.start + end));
            found = Some(match found.take() {
                Some(finding) => finding.label(span, "here too"),
                None => Diagnostic::at(
                    code::FIGURE_BEGINS_SENTENCE,
                    span,
                    format!("A sentence begins with the figure {}; after a full stop it is read as part of what went before.", &words[..end]),
                )
                .hint("Write the number as a word, or begin with another word."),
            });
        }
    }
    found.into_iter().collect()
}
