//! Changes one value of a written file; comments, order and every other byte stay as they are.

use std::ops::Range;
use toml_edit::{Document, Item, Table, TableLike, Value};

/// Why a value could not be changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotRevised {
    /// The text is not TOML, so no place in it is certain.
    Unreadable,
    /// There is no such place: the path as far as it led.
    NoSuchPlace(String),
    /// The place holds a table or a list, not one value.
    NotOneValue(String),
}

impl std::fmt::Display for NotRevised {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unreadable => out.write_str("The text cannot be read; mend it first."),
            Self::NoSuchPlace(path) => write!(out, "There is no “{path}” in the text."),
            Self::NotOneValue(path) => write!(out, "“{path}” is not one value."),
        }
    }
}

/// One step of the way to a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way<'a> {
    /// The value of a key.
    Key(&'a str),
    /// An entry of a list, from 0.
    Entry(usize),
    /// The entry of a list whose `name`, `as` or else `of` is so: a stage, a product, an item.
    Called(&'a str),
}

/// What a value becomes.
#[derive(Clone, Debug, PartialEq)]
pub enum NewValue {
    /// Text in quotes: a quantity, a word.
    Text(String),
    /// True or false.
    Set(bool),
    /// A whole number.
    Whole(i64),
    /// A date of TOML: `2026-02-14`.
    Date(String),
    /// Texts in brackets.
    List(Vec<String>),
    /// Keys with their values in braces.
    Braces(Vec<(String, NewValue)>),
}

impl NewValue {
    /// As it is written in a file.
    fn written(&self) -> String {
        let joined = |parts: Vec<String>| parts.join(", ");
        match self {
            Self::Text(text) => Value::from(text.as_str()).to_string(),
            Self::Set(set) => set.to_string(),
            Self::Whole(number) => number.to_string(),
            Self::Date(date) => date.clone(),
            Self::List(parts) => {
                let parts = parts
                    .iter()
                    .map(|part| Value::from(part.as_str()).to_string());
                format!("[{}]", joined(parts.collect()))
            }
            Self::Braces(parts) => {
                let parts = parts
                    .iter()
                    .map(|(key, new)| format!("{key} = {}", new.written()));
                format!("{{ {} }}", joined(parts.collect()))
            }
        }
    }
}

impl From<&str> for NewValue {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

/// The text with the value at the end of the way made new. A key that is missing in the last table
/// is added at its end.
///
/// ```
/// use recipe::document::revise::{Way::{Called, Key}, set_value};
///
/// let text = "[[stage]]\nname = \"dough\" # all of it\nitems = [{ of = \"milk\", at = \"20 °C\" }]\n";
/// let way = [Key("stage"), Called("dough"), Key("items"), Called("milk"), Key("at")];
/// let warmer = set_value(text, &way, &"31 °C".into()).unwrap();
/// assert_eq!(warmer, text.replace("20 °C", "31 °C"));
/// ```
pub fn set_value(text: &str, way: &[Way<'_>], new: &NewValue) -> Result<String, NotRevised> {
    let document = Document::parse(text).map_err(|_| NotRevised::Unreadable)?;
    let written = new.written();
    let (place, written) = match find(Place::Table(document.as_table()), way, 0, new)? {
        Found::Value(range) => (range, written),
        Found::InBraces {
            at,
            before,
            key,
            after,
        } => (at..at, format!("{before}{key} = {written}{after}")),
        Found::OnItsOwnLine { after, key } => {
            // A remark behind the last value stays on its line.
            let rest = text.get(after..).ok_or(NotRevised::Unreadable)?;
            let line = rest.split('\n').next().unwrap_or("");
            let end = if line.ends_with('\r') { "\r\n" } else { "\n" };
            let at = after + line.trim_end_matches('\r').len();
            (at..at, format!("{end}{key} = {written}"))
        }
    };
    // The parser counts bytes from the start of the text, a byte order mark included.
    let mut revised = String::with_capacity(text.len() + written.len());
    revised.push_str(text.get(..place.start).ok_or(NotRevised::Unreadable)?);
    revised.push_str(&written);
    revised.push_str(text.get(place.end..).ok_or(NotRevised::Unreadable)?);
    Ok(revised)
}

/// The text without the key at the end of the way: with its comma in braces, with its line and what
/// is remarked on it under a heading. A key that is not there leaves the text as it is.
///
/// ```
/// use recipe::document::revise::{Way::{Entry, Key}, without};
///
/// let text = "[[stage]]\nname = \"dough\"\nitems = [{ of = \"milk\", at = \"20 °C\" }]\n";
/// let plain = without(text, &[Key("stage"), Entry(0), Key("items"), Entry(0), Key("at")]).unwrap();
/// assert_eq!(plain, text.replace(", at = \"20 °C\"", ""));
/// ```
pub fn without(text: &str, way: &[Way<'_>]) -> Result<String, NotRevised> {
    let document = Document::parse(text).map_err(|_| NotRevised::Unreadable)?;
    let lost = || NotRevised::NoSuchPlace(shown(way));
    let Some((Way::Key(key), owner)) = way.split_last() else {
        return Err(lost());
    };
    let Some(place) = walk(Place::Table(document.as_table()), owner) else {
        return Ok(text.to_owned());
    };
    let range = match place {
        Place::Table(table) => table.get(key).and_then(Item::span).and_then(|value| {
            let (name, _) = table.get_key_value(key)?;
            let start = text[..name.span()?.start]
                .rfind('\n')
                .map_or(0, |end| end + 1);
            let end = text[value.end..]
                .find('\n')
                .map_or(text.len(), |end| value.end + end + 1);
            Some(start..end)
        }),
        Place::Inline(table) => table.get(key).and_then(|_| in_braces(table, key)),
        _ => return Err(lost()),
    };
    let Some(range) = range else {
        return Ok(text.to_owned());
    };
    Ok(format!("{}{}", &text[..range.start], &text[range.end..]))
}

/// The bytes of a key in braces with its value and one comma.
fn in_braces(table: &toml_edit::InlineTable, key: &str) -> Option<Range<usize>> {
    let table: &dyn TableLike = table;
    let mut all: Vec<(bool, Range<usize>)> = table
        .iter()
        .filter_map(|(name, item)| {
            let (written, _) = table.get_key_value(name)?;
            Some((name == key, written.span()?.start..item.span()?.end))
        })
        .collect();
    all.sort_by_key(|(_, span)| span.start);
    let at = all.iter().position(|(is, _)| *is)?;
    let span = all[at].1.clone();
    Some(match (at.checked_sub(1), all.get(at + 1)) {
        (Some(before), _) => all[before].1.end..span.end,
        (None, Some((_, after))) => span.start..after.start,
        (None, None) => span,
    })
}

/// Where the search stands.
enum Place<'a> {
    Table(&'a Table),
    Inline(&'a toml_edit::InlineTable),
    Tables(&'a toml_edit::ArrayOfTables),
    List(&'a toml_edit::Array),
    Scalar(Range<usize>),
}

/// What was found at the end of the way.
enum Found {
    /// The bytes of the value.
    Value(Range<usize>),
    /// A key that is not there yet, and where in its braces it would stand.
    InBraces {
        at: usize,
        before: &'static str,
        key: String,
        after: &'static str,
    },
    /// A key that is not there yet, and the end of the value after which its line would stand.
    OnItsOwnLine { after: usize, key: String },
}

/// A place from a value.
fn of_value(value: &Value) -> Place<'_> {
    match value {
        Value::InlineTable(table) => Place::Inline(table),
        Value::Array(list) => Place::List(list),
        other => Place::Scalar(other.span().unwrap_or(0..0)),
    }
}

/// A place from an item.
fn of_item(item: &Item) -> Option<Place<'_>> {
    Some(match item {
        Item::Table(table) => Place::Table(table),
        Item::ArrayOfTables(tables) => Place::Tables(tables),
        Item::Value(value) => of_value(value),
        Item::None => return None,
    })
}

/// Whether sentences call a table so.
fn is_called(table: &dyn TableLike, name: &str) -> bool {
    ["name", "as", "of"]
        .iter()
        .find_map(|key| table.get(key).and_then(Item::as_str))
        .is_some_and(|found| found == name)
}

/// Goes along the way.
fn find(
    place: Place<'_>,
    way: &[Way<'_>],
    gone: usize,
    new: &NewValue,
) -> Result<Found, NotRevised> {
    let Some(next) = way.get(gone) else {
        return match place {
            Place::Scalar(range) if range.end > range.start => Ok(Found::Value(range)),
            Place::List(list) if matches!(new, NewValue::List(_)) => list
                .span()
                .map(Found::Value)
                .ok_or_else(|| NotRevised::NotOneValue(shown(way))),
            _ => Err(NotRevised::NotOneValue(shown(way))),
        };
    };
    let lost = || NotRevised::NoSuchPlace(shown(&way[..=gone]));
    if gone + 1 == way.len()
        && let Way::Key(key) = next
    {
        match &place {
            Place::Table(table) if !table.contains_key(key) => {
                return missing_in_table(table, key).ok_or_else(lost);
            }
            Place::Inline(table) if !table.contains_key(key) => {
                return missing_in_braces(table, key).ok_or_else(lost);
            }
            _ => {}
        }
    }
    find(one_step(&place, next).ok_or_else(lost)?, way, gone + 1, new)
}

/// The place at the end of a way; nothing when the way does not lead anywhere.
fn walk<'a>(place: Place<'a>, way: &[Way<'_>]) -> Option<Place<'a>> {
    way.iter()
        .try_fold(place, |place, step| one_step(&place, step))
}

fn one_step<'a>(place: &Place<'a>, step: &Way<'_>) -> Option<Place<'a>> {
    match (place, step) {
        (Place::Table(table), Way::Key(key)) => table.get(key).and_then(of_item),
        (Place::Inline(table), Way::Key(key)) => table.get(key).map(of_value),
        (Place::Tables(tables), Way::Entry(number)) => tables.get(*number).map(Place::Table),
        (Place::Tables(tables), Way::Called(name)) => tables
            .iter()
            .find(|table| is_called(*table, name))
            .map(Place::Table),
        (Place::List(entries), Way::Entry(number)) => entries.get(*number).map(of_value),
        (Place::List(entries), Way::Called(name)) => entries
            .iter()
            .find(|value| {
                value
                    .as_inline_table()
                    .is_some_and(|table| is_called(table, name))
            })
            .map(of_value),
        _ => None,
    }
}

/// Where a new key goes in braces: after the last value.
fn missing_in_braces(table: &toml_edit::InlineTable, key: &str) -> Option<Found> {
    let key = key.to_owned();
    let end = table
        .iter()
        .filter_map(|(_, value)| value.span())
        .map(|span| span.end)
        .max();
    if let Some(at) = end {
        Some(Found::InBraces {
            at,
            before: ", ",
            key,
            after: "",
        })
    } else {
        let at = table.span()?.start + 1;
        Some(Found::InBraces {
            at,
            before: " ",
            key,
            after: " ",
        })
    }
}

/// Where a new key goes under a heading: after its last plain value, or right below the heading.
fn missing_in_table(table: &Table, key: &str) -> Option<Found> {
    let after = table
        .iter()
        .filter_map(|(_, item)| item.as_value().and_then(Value::span))
        .map(|span| span.end)
        .max()
        .or_else(|| table.span().map(|span| span.end))?;
    Some(Found::OnItsOwnLine {
        after,
        key: key.to_owned(),
    })
}

/// The way in words: `stage.dough.items.milk.at`.
fn shown(way: &[Way<'_>]) -> String {
    let parts: Vec<String> = way
        .iter()
        .map(|step| match step {
            Way::Key(key) => (*key).to_owned(),
            Way::Entry(number) => number.to_string(),
            Way::Called(name) => (*name).to_owned(),
        })
        .collect();
    parts.join(".")
}

#[cfg(test)]
mod tests {
    use super::Way::{Called, Entry, Key};
    use super::{NewValue, NotRevised, set_value};

    const TEXT: &str = include_str!("../../../../tests/golden/documents/v1/same-day-loaf.toml");

    #[test]
    fn every_other_byte_stays() {
        let way = [
            Key("stage"),
            Called("sponge"),
            Key("items"),
            Called("waking milk"),
            Key("at"),
        ];
        let revised = set_value(TEXT, &way, &"47 °C".into()).expect("the place is there");
        let start = TEXT.find("at = \"45 °C\"").expect("as written") + "at = \"".len();
        assert_eq!(&revised[..start], &TEXT[..start]);
        assert_eq!(&revised[start..start + "47".len()], "47");
        assert_eq!(&revised[start + 2..], &TEXT[start + 2..]);
    }

    #[test]
    fn a_value_deep_in_a_step_is_reached() {
        let way = [
            Key("product"),
            Called("buns"),
            Key("step"),
            Entry(3),
            Key("bake"),
            Key("fan"),
        ];
        let revised = set_value(TEXT, &way, &NewValue::Set(true)).expect("the place is there");
        assert_eq!(revised.matches("fan = true").count(), 1);
        assert_eq!(revised.len(), TEXT.len() - 1);
    }

    #[test]
    fn a_missing_key_is_added_beside_the_others() {
        let way = [
            Key("stage"),
            Called("dough"),
            Key("items"),
            Called("salt"),
            Key("note"),
        ];
        let revised = set_value(TEXT, &way, &"fine".into()).expect("the item is there");
        assert!(revised.contains("as = \"salt\", from = \"room\", note = \"fine\" },"));
        let way = [Key("besides"), Entry(0), Key("as")];
        let revised = set_value(TEXT, &way, &"flour".into()).expect("the table is there");
        assert!(revised.contains("on = \"bench\"\nas = \"flour\"\n"));
    }

    #[test]
    fn a_remark_stays_behind_its_value() {
        let text = "[film]\r\naddress = \"a\" # ours\r\n\r\n[sponsor]\r\nname = \"b\"\r\n";
        let revised = set_value(text, &[Key("film"), Key("title")], &"T".into());
        let expected = text.replace("# ours\r\n", "# ours\r\ntitle = \"T\"\r\n");
        assert_eq!(revised.as_deref(), Ok(expected.as_str()));
    }

    #[test]
    fn a_place_that_is_not_there_is_named() {
        let way = [Key("stage"), Called("filling"), Key("name")];
        let lost = set_value(TEXT, &way, &"x".into());
        assert_eq!(
            lost,
            Err(NotRevised::NoSuchPlace("stage.filling".to_owned()))
        );
        let way = [Key("stage"), Called("dough")];
        let table = set_value(TEXT, &way, &"x".into());
        assert_eq!(
            table,
            Err(NotRevised::NotOneValue("stage.dough".to_owned()))
        );
        assert_eq!(
            set_value("= =", &way, &"x".into()),
            Err(NotRevised::Unreadable)
        );
    }
}
