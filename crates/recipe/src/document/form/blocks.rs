//! Adds, takes out and moves whole pieces of a written file: steps, stages, items, phases.

use super::fill::way;
use super::keys::DEEDS;
use crate::document::revise::{NotRevised, Way};
use std::ops::Range;
use toml_edit::{Array, Document, Item, Table, TableLike, Value};

/// What is to be done to a piece of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Act {
    /// A new entry at the end of a list: `stage.0.items`, `stage`, `besides`.
    Add(String),
    /// A new step of a kind at the end of a part: `stage.0`, `rest`.
    AddStep(String, String),
    /// A piece is taken out.
    TakeOut(String),
    /// A piece changes places with the one before it.
    Earlier(String),
    /// A piece changes places with the one behind it.
    Later(String),
}

impl Act {
    /// Reads `add stage.0.items`, `add-step stage.0 rest`, `take-out besides.1`, `earlier …`, `later …`.
    pub fn of(words: &str) -> Option<Self> {
        let mut words = words.split(' ').map(str::to_owned);
        let act = match (words.next()?.as_str(), words.next()?, words.next()) {
            ("add", path, None) => Self::Add(path),
            ("add-step", path, Some(deed)) => Self::AddStep(path, deed),
            ("take-out", path, None) => Self::TakeOut(path),
            ("earlier", path, None) => Self::Earlier(path),
            ("later", path, None) => Self::Later(path),
            _ => return None,
        };
        words.next().is_none().then_some(act)
    }
}

/// The text after an act.
pub fn acted(text: &str, act: &Act) -> Result<String, NotRevised> {
    let document = Document::parse(text).map_err(|_| NotRevised::Unreadable)?;
    let headings = headings(&document, text);
    let lost = |path: &str| NotRevised::NoSuchPlace(path.to_owned());
    let ends = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let made = match act {
        Act::Add(path) => match new_block(path) {
            Some(new) => put_in(text, &headings, path, new),
            None => add_entry(text, &document, path),
        },
        Act::AddStep(path, deed) => {
            let deed = DEEDS
                .iter()
                .find(|known| known.key == deed)
                .ok_or_else(|| lost(deed))?;
            let kind = path.split('.').next().unwrap_or_default();
            let new = format!("[[{kind}.step]]\ndo = \"\"\n{} = {}\n", deed.key, deed.new);
            put_in(text, &headings, &format!("{path}.step"), &new)
        }
        Act::TakeOut(path) => match block(text, &headings, path) {
            Some(range) if range.end == text.len() => {
                Some(format!("{}\n", text[..range.start].trim_end()))
            }
            Some(range) => Some(format!("{}{}", &text[..range.start], &text[range.end..])),
            None => take_entry(text, &document, path),
        },
        Act::Earlier(path) => neighbour(path, -1)
            .and_then(|before| swapped(text, &document, &headings, &before, path)),
        Act::Later(path) => {
            neighbour(path, 1).and_then(|after| swapped(text, &document, &headings, path, &after))
        }
    };
    let (Act::Add(path)
    | Act::AddStep(path, _)
    | Act::TakeOut(path)
    | Act::Earlier(path)
    | Act::Later(path)) = act;
    let made = made.ok_or_else(|| lost(path))?;
    Ok(if ends == "\n" {
        made
    } else {
        made.replace("\r\n", "\n").replace('\n', ends)
    })
}

/// A heading of the file: where its table stands and where its piece of text begins.
struct Heading {
    path: String,
    start: usize,
}

/// Every heading, in the order of the text. Remarks right above a heading belong to it.
fn headings(document: &Document<&str>, text: &str) -> Vec<Heading> {
    let mut all = Vec::new();
    collect(document.as_table(), "", &mut all);
    for heading in &mut all {
        heading.start = lead(text, heading.start);
    }
    all.sort_by_key(|heading| heading.start);
    all
}

fn collect(table: &Table, path: &str, all: &mut Vec<Heading>) {
    let below = |key: &str| {
        if path.is_empty() {
            key.to_owned()
        } else {
            format!("{path}.{key}")
        }
    };
    for (key, item) in table {
        match item {
            Item::Table(inner) => {
                if let Some(span) = inner
                    .span()
                    .filter(|_| !inner.is_implicit() && !inner.is_dotted())
                {
                    all.push(Heading {
                        path: below(key),
                        start: span.start,
                    });
                }
                collect(inner, &below(key), all);
            }
            Item::ArrayOfTables(tables) => {
                for (number, inner) in tables.iter().enumerate() {
                    let path = format!("{}.{number}", below(key));
                    if let Some(span) = inner.span() {
                        all.push(Heading {
                            path: path.clone(),
                            start: span.start,
                        });
                    }
                    collect(inner, &path, all);
                }
            }
            _ => {}
        }
    }
}

/// Where the remarks right above a place begin.
fn lead(text: &str, at: usize) -> usize {
    let mut start = text[..at].rfind('\n').map_or(0, |end| end + 1);
    while start > 0 {
        let above = text[..start - 1].rfind('\n').map_or(0, |end| end + 1);
        if !text[above..start].trim_start().starts_with('#') {
            break;
        }
        start = above;
    }
    start
}

fn within(path: &str, whole: &str) -> bool {
    path == whole
        || path
            .strip_prefix(whole)
            .is_some_and(|rest| rest.starts_with('.'))
}

/// The text of a piece with a heading, with everything below it and the empty lines behind it.
fn block(text: &str, headings: &[Heading], path: &str) -> Option<Range<usize>> {
    let first = headings.iter().position(|heading| heading.path == path)?;
    let after = headings[first..]
        .iter()
        .find(|heading| !within(&heading.path, path));
    Some(headings[first].start..after.map_or(text.len(), |heading| heading.start))
}

/// What a new entry of a list with headings begins with; nothing for a list in brackets.
fn new_block(path: &str) -> Option<&'static str> {
    Some(match path {
        "stage" => "[[stage]]\nname = \"\"\nitems = []\n",
        "product" => "[[product]]\nname = \"\"\nfrom = \"dough\"\ncount = 1\npiece = \"\"\n",
        "besides" => "[[besides]]\nof = \"\"\ntake = \"\"\non = \"top\"\n",
        "scene" => "[[scene]]\nname = \"\"\nabout = \"\"\nfor = \"15 min\"\nneeds = []\n",
        _ => return None,
    })
}

/// Puts a piece behind the last one of its list, or else behind what the list belongs to.
fn put_in(text: &str, headings: &[Heading], list: &str, new: &str) -> Option<String> {
    let is_entry = |heading: &&Heading| {
        let number = heading
            .path
            .strip_prefix(list)
            .and_then(|rest| rest.strip_prefix('.'));
        number.is_some_and(|number| number.parse::<usize>().is_ok())
    };
    let final_one = headings
        .iter()
        .rfind(is_entry)
        .map(|heading| heading.path.as_str());
    let at = match (final_one, list.rsplit_once('.')) {
        (Some(entry), _) => block(text, headings, entry)?.end,
        (None, Some((owner, _))) => {
            // Behind the owner's own lines, before whatever else it holds.
            let own = headings.iter().position(|heading| heading.path == owner)?;
            headings.get(own + 1).map_or(text.len(), |next| next.start)
        }
        // The tested bakes stay at the end.
        (None, None) => headings
            .iter()
            .find(|heading| within(&heading.path, "tested"))
            .map_or(text.len(), |heading| heading.start),
    };
    let (before, after) = (text[..at].trim_end_matches(['\n', '\r']), &text[at..]);
    let gap = if after.is_empty() { "" } else { "\n" };
    Some(format!("{before}\n\n{new}{gap}{after}"))
}

/// The path of the entry before or behind.
fn neighbour(path: &str, by: isize) -> Option<String> {
    let (list, number) = path.rsplit_once('.')?;
    let number = number.parse::<usize>().ok()?.checked_add_signed(by)?;
    Some(format!("{list}.{number}"))
}

fn swapped(
    text: &str,
    document: &Document<&str>,
    headings: &[Heading],
    first: &str,
    second: &str,
) -> Option<String> {
    if let (Some(one), Some(other)) = (block(text, headings, first), block(text, headings, second))
    {
        let whole = |range: Range<usize>| format!("{}\n\n", text[range].trim_end());
        let (a, between, b) = (
            whole(one.clone()),
            &text[one.end..other.start],
            whole(other.clone()),
        );
        let made = format!(
            "{}{b}{between}{a}{}",
            &text[..one.start],
            &text[other.end..]
        );
        return Some(if other.end == text.len() {
            format!("{}\n", made.trim_end())
        } else {
            made
        });
    }
    let (one, other) = (entry(document, first)?, entry(document, second)?);
    let (a, b) = (text.get(one.clone())?, text.get(other.clone())?);
    Some(format!(
        "{}{b}{}{a}{}",
        &text[..one.start],
        &text[one.end..other.start],
        &text[other.end..]
    ))
}

/// A list in brackets.
fn list<'a>(document: &'a Document<&str>, path: &str) -> Option<&'a Array> {
    let mut place: &dyn TableLike = document.as_table();
    let way = way(path);
    let mut steps = way.iter().peekable();
    while let Some(step) = steps.next() {
        let Way::Key(key) = step else { return None };
        let item = place.get(key)?;
        match (item, steps.peek()) {
            (Item::Value(Value::Array(list)), None) => return Some(list),
            (Item::ArrayOfTables(tables), Some(Way::Entry(number))) => {
                steps.next();
                place = tables.get(*number)?;
            }
            (Item::Value(Value::Array(list)), Some(Way::Entry(number))) => {
                steps.next();
                place = list.get(*number)?.as_inline_table()?;
            }
            (item, Some(_)) => place = item.as_table_like()?,
            _ => return None,
        }
    }
    None
}

/// The bytes of an entry of a list in brackets.
fn entry(document: &Document<&str>, path: &str) -> Option<Range<usize>> {
    let (path, number) = path.rsplit_once('.')?;
    list(document, path)?.get(number.parse().ok()?)?.span()
}

/// What a new entry of a list in brackets begins with.
fn new_entry(path: &str) -> Option<&'static str> {
    Some(match path.rsplit('.').next()? {
        "items" => "{ of = \"\", take = \"\" }",
        "with" => "{ of = \"\", each = \"\" }",
        "phases" if path.contains(".mix.") => "{ speed = \"medium\", for = \"4 min\" }",
        "phases" => "{ at = \"180 °C\", for = \"10 min\" }",
        _ => return None,
    })
}

/// A new entry behind the last, on a line of its own where the others have one.
fn add_entry(text: &str, document: &Document<&str>, path: &str) -> Option<String> {
    let new = new_entry(path)?;
    let Some(list) = list(document, path) else {
        let owner = path.rsplit_once('.')?.0;
        let key = path.rsplit('.').next()?;
        let headings = headings(document, text);
        let own = headings.iter().position(|heading| heading.path == owner)?;
        let end = headings.get(own + 1).map_or(text.len(), |next| next.start);
        let (before, after) = (text[..end].trim_end(), &text[end..]);
        return Some(format!("{before}\n{key} = [{new}]\n\n{after}"));
    };
    let Some(final_one) = list.iter().last().and_then(Value::span) else {
        let span = list.span()?;
        return Some(format!(
            "{}[\n  {new},\n]{}",
            &text[..span.start],
            &text[span.end..]
        ));
    };
    let gap = &text[gap(text, final_one.start)..final_one.start];
    let gap = if gap.contains('\n') { gap } else { " " };
    Some(format!(
        "{},{gap}{new}{}",
        &text[..final_one.end],
        &text[final_one.end..]
    ))
}

/// Where the white space before a place begins; at most one line end is taken.
fn gap(text: &str, at: usize) -> usize {
    let before = &text[..at];
    let blank = before.trim_end_matches([' ', '\t']);
    let line = blank
        .strip_suffix('\n')
        .map_or(blank, |rest| rest.strip_suffix('\r').unwrap_or(rest));
    line.len()
}

/// The text without an entry of a list in brackets, its comma and its line.
fn take_entry(text: &str, document: &Document<&str>, path: &str) -> Option<String> {
    let span = entry(document, path)?;
    let after = &text[span.end..];
    let comma = after.len() - after.trim_start().len();
    let end = if after[comma..].starts_with(',') {
        span.end + comma + 1
    } else {
        span.end
    };
    Some(format!(
        "{}{}",
        &text[..gap(text, span.start)],
        &text[end..]
    ))
}

#[cfg(test)]
mod tests {
    use super::super::form;
    use super::{Act, acted};

    const TEXT: &str = include_str!("../../../../../examples/cardamom-dough.toml");

    fn after(words: &str) -> String {
        acted(TEXT, &Act::of(words).expect("an act")).expect("the place is there")
    }

    fn sentences(text: &str, stage: usize) -> Vec<String> {
        let form = form(text).expect("TOML");
        form.stages[stage]
            .steps
            .iter()
            .map(|step| step.sentence.text.clone())
            .collect()
    }

    #[test]
    fn a_step_moves_with_everything_that_is_its_own_and_back_again() {
        let later = after("later stage.0.step.0");
        let (was, is) = (sentences(TEXT, 0), sentences(&later, 0));
        assert_eq!((&is[0], &is[1]), (&was[1], &was[0]));
        let back = acted(&later, &Act::of("earlier stage.0.step.1").expect("an act"));
        assert_eq!(back.as_deref(), Ok(TEXT));
        assert_eq!(
            after("earlier stage.1"),
            acted(TEXT, &Act::Later("stage.0".to_owned())).expect("stages")
        );
    }

    #[test]
    fn items_come_and_go_alone() {
        let more = after("add stage.0.items");
        assert_eq!(
            more.len(),
            TEXT.len() + ",\n  { of = \"\", take = \"\" }".len()
        );
        let back = acted(&more, &Act::of("take-out stage.0.items.3").expect("an act"));
        assert_eq!(back.as_deref(), Ok(TEXT));
        let without = after("take-out stage.0.items.1");
        assert_eq!(
            without,
            TEXT.replace(
                "\n  { of = \"water\", take = \"137 g\", at = \"19 °C\" },",
                ""
            )
        );
        let phases = after("take-out stage.2.step.2.mix.phases.0");
        assert!(phases.contains("phases = [ { speed = \"medium\", for = \"2 min\" }]"));
    }

    #[test]
    fn steps_stages_and_products_come_where_they_belong_and_go_again() {
        let more = after("add-step stage.0 fold");
        assert_eq!(sentences(&more, 0).len(), 3);
        assert_eq!(sentences(&more, 1), sentences(TEXT, 1));
        let back = acted(&more, &Act::TakeOut("stage.0.step.2".to_owned()));
        assert_eq!(back.as_deref(), Ok(TEXT));
        for (kind, list) in [("stage", 4), ("product", 4), ("besides", 5)] {
            let more = after(&format!("add {kind}"));
            let back = acted(&more, &Act::TakeOut(format!("{kind}.{list}")));
            assert_eq!(back.as_deref(), Ok(TEXT), "{kind}");
        }
    }

    #[test]
    fn a_list_that_is_empty_or_missing_is_begun() {
        let stage = after("add stage");
        let item = acted(&stage, &Act::of("add stage.4.items").expect("an act")).expect("a stage");
        assert!(item.contains("name = \"\"\nitems = [\n  { of = \"\", take = \"\" },\n]\n"));
        let with = after("add product.1.with");
        assert!(with.contains("after-bake = \"35 g\"\nwith = [{ of = \"\", each = \"\" }]\n"));
    }

    #[test]
    fn a_piece_that_is_not_there_is_named() {
        for words in [
            "take-out stage.9",
            "later stage.3",
            "earlier stage.0",
            "add stage.0.colour",
            "add-step stage.0 fry",
        ] {
            assert!(
                acted(TEXT, &Act::of(words).expect("an act")).is_err(),
                "{words}"
            );
        }
        for words in ["", "burn stage.0", "add", "add a b", "take-out a b c"] {
            assert_eq!(Act::of(words), None, "{words}");
        }
    }
}
