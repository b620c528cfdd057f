//! Puts what was typed into fields into the file; every other byte stays.

use super::keys::Kind;
use super::{Field, form};
use crate::document::read_time;
use crate::document::revise::{NewValue, NotRevised, Way, set_value, without};
use std::collections::BTreeMap;

/// Whether what came back from a page is what was there: line ends apart, and the white space at the end.
pub fn same(there: &str, back: &str) -> bool {
    let plain = |text: &str| text.replace("\r\n", "\n").trim_end().to_owned();
    plain(there) == plain(back)
}

/// The text with fields filled in anew: by path what was typed. A field left empty is taken out; one
/// that is not among the typed ones, or holds what it held, stays as it is. A path that the form does
/// not have is left alone.
pub fn filled(text: &str, typed: &BTreeMap<String, String>) -> Result<String, NotRevised> {
    let before = form(text).ok_or(NotRevised::Unreadable)?;
    fill_in(text, before.fields(), typed)
}

/// The text with some of its fields filled in anew.
pub(super) fn fill_in<'a>(
    text: &str,
    fields: impl IntoIterator<Item = &'a Field>,
    typed: &BTreeMap<String, String>,
) -> Result<String, NotRevised> {
    let mut made = text.to_owned();
    for field in fields {
        let Some(back) = typed.get(&field.path) else {
            continue;
        };
        if !same(&field.text, back) {
            made = fill(&made, field, &back.replace("\r\n", "\n"))?;
        }
    }
    Ok(made)
}

fn fill(text: &str, field: &Field, typed: &str) -> Result<String, NotRevised> {
    let way = way(&field.path);
    let typed = typed.trim();
    if typed.is_empty() {
        // What has to be there stays as an empty value, and a finding asks for it.
        return if needed(field.key) {
            set_value(text, &way, &"".into())
        } else {
            without(text, &way)
        };
    }
    let new = value(field.kind, typed);
    match set_value(text, &way, &new) {
        Err(NotRevised::NoSuchPlace(_)) => {
            let (Some(Way::Key(key)), Some(table)) = (way.last(), way.get(..way.len() - 1)) else {
                return set_value(text, &way, &new);
            };
            let braces = NewValue::Braces(vec![((*key).to_owned(), new)]);
            set_value(text, table, &braces)
        }
        other => other,
    }
}

fn needed(key: &str) -> bool {
    matches!(
        key,
        "title" | "kind" | "name" | "of" | "do" | "about" | "shoot"
    )
}

/// What was typed, as a value of a file.
fn value(kind: Kind, typed: &str) -> NewValue {
    let list = |parts: Vec<&str>| {
        let parts = parts
            .into_iter()
            .map(str::trim)
            .filter(|part| !part.is_empty());
        NewValue::List(parts.map(str::to_owned).collect())
    };
    match kind {
        Kind::Words => list(typed.split(',').collect()),
        Kind::Lines => list(typed.lines().collect()),
        Kind::YesNo if typed == "yes" => NewValue::Set(true),
        Kind::YesNo if typed == "no" => NewValue::Set(false),
        Kind::Clock => match read_time(typed) {
            Some(time) => NewValue::Date(format!("{:02}:{:02}", time.hour(), time.minute())),
            None => typed.into(),
        },
        // Who types a number there means minutes.
        Kind::Minutes if typed.bytes().all(|byte| byte.is_ascii_digit()) => {
            format!("{typed} min").as_str().into()
        }
        Kind::Whole => typed.parse().map_or_else(|_| typed.into(), NewValue::Whole),
        Kind::Date => match typed.parse::<toml_edit::Datetime>() {
            Ok(date) if date.date.is_some() => NewValue::Date(date.to_string()),
            _ => typed.into(),
        },
        _ => typed.into(),
    }
}

/// The way that a path writes.
pub(super) fn way(path: &str) -> Vec<Way<'_>> {
    let step = |part| str::parse(part).map_or(Way::Key(part), Way::Entry);
    path.split('.').map(step).collect()
}

#[cfg(test)]
mod tests {
    use super::filled;
    use std::collections::BTreeMap;

    const TEXT: &str = include_str!("../../../../../examples/cardamom-dough.toml");

    fn with(path: &str, typed: &str) -> String {
        filled(TEXT, &BTreeMap::from([(path.to_owned(), typed.to_owned())])).expect("TOML")
    }

    #[test]
    fn a_form_sent_back_as_it_was_changes_no_byte() {
        let form = super::form(TEXT).expect("TOML");
        let back = form.fields().into_iter();
        let back = back.map(|field| (field.path.clone(), field.text.replace('\n', "\r\n")));
        assert_eq!(filled(TEXT, &back.collect()).as_deref(), Ok(TEXT));
    }

    #[test]
    fn one_amount_changes_alone() {
        let made = with("stage.0.items.0.take", "250 g");
        assert_eq!(made, TEXT.replace("take = \"245 g\"", "take = \"250 g\""));
    }

    #[test]
    fn a_value_left_empty_is_taken_out_and_a_new_one_is_put_in() {
        let made = with("stage.0.items.2.as", "");
        assert_eq!(
            made,
            TEXT.replace(
                ", as = \"yeast\", from = \"room\" },\n]\n\n[[stage.step]]\ndo = \"The",
                ", from = \"room\" },\n]\n\n[[stage.step]]\ndo = \"The"
            )
        );
        let made = with("stage.0.items.0.note", "strong");
        assert!(made.contains("take = \"245 g\", from = \"room\", note = \"strong\" },"));
        let made = with("serves", "");
        assert_eq!(made, TEXT.replace("serves = \"20-24\"\n", ""));
    }

    #[test]
    fn a_table_that_is_not_there_yet_is_begun() {
        let made = with("stage.0.step.0.until.see", "a rough ball");
        assert!(made.contains(
            "{ speed = \"low\", for = \"2 min\" }] }\nuntil = { see = \"a rough ball\" }\n"
        ));
    }

    #[test]
    fn lists_dates_and_numbers_are_written_as_such() {
        assert!(
            with("stage.2.step.0.ready.what", "eggs, butter, milk")
                .contains("what = [\"eggs\", \"butter\", \"milk\"]")
        );
        assert!(with("published", "2026-03-01").contains("published = 2026-03-01\n"));
        assert!(with("product.0.count", "9").contains("count = 9\n"));
        assert!(with("product.0.count", "nine").contains("count = \"nine\"\n"));
        assert!(
            with("product.0.step.4.bake.fan", "yes")
                .contains("fan = true, rack = \"middle\", core = \"90 °C\", check = \"11 min\"")
        );
    }
}
