//! A written file as fields to be filled in: what stands in each, and the file with them filled in anew.
//!
//! The text stays the truth. A form shows the values as they are written; what was not changed keeps
//! its bytes, and what has no field (tested bakes, a house style, packs of one's own) stays where it is.

mod blocks;
mod fill;
pub mod keys;
mod scenes;

pub use blocks::{Act, acted};
pub use fill::{filled, same};
pub use scenes::{SceneForm, scene_form, scenes_filled, scenes_named};

use keys::{BESIDES, DEEDS, Deed, ITEM, Keys, Kind, PRODUCT, STAGE, TOP, UNTIL, WITH};
use std::ops::Range;
use toml_edit::{Document, Item, TableLike, Value};

/// One value to be filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// Where it stands: `stage.0.items.2.take`.
    pub path: String,
    /// Its key: `take`, or `promise.within`.
    pub key: &'static str,
    /// How it is filled in.
    pub kind: Kind,
    /// What stands there, as one would type it; empty when nothing does.
    pub text: String,
    /// The bytes of the value in the file.
    pub span: Option<Range<usize>>,
}

/// Fields that belong together: an item, a phase.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Where they stand.
    pub path: String,
    /// The fields.
    pub fields: Vec<Field>,
}

/// A step.
#[derive(Clone, Debug, PartialEq)]
pub struct StepFields {
    /// Where it stands.
    pub path: String,
    /// The key that says what is done; nothing when none or several do.
    pub deed: Option<&'static str>,
    /// The author's sentence.
    pub sentence: Field,
    /// What is said of what is done.
    pub said: Vec<Field>,
    /// Its phases.
    pub phases: Vec<Row>,
    /// By what one sees the end.
    pub until: Vec<Field>,
}

/// A stage or a product.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Where it stands.
    pub path: String,
    /// What is said of it.
    pub head: Vec<Field>,
    /// A stage's items; what a product takes from other stages.
    pub items: Vec<Row>,
    /// Its steps.
    pub steps: Vec<StepFields>,
}

/// A whole file.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// What stands at the top.
    pub top: Vec<Field>,
    /// The stages.
    pub stages: Vec<Part>,
    /// The products.
    pub products: Vec<Part>,
    /// Items for bench, tin and top.
    pub besides: Vec<Row>,
}

impl Form {
    /// Every field, in order.
    pub fn fields(&self) -> Vec<&Field> {
        let mut all: Vec<&Field> = self.top.iter().collect();
        for part in self.stages.iter().chain(&self.products) {
            all.extend(&part.head);
            all.extend(part.items.iter().flat_map(|row| &row.fields));
            for step in &part.steps {
                all.push(&step.sentence);
                all.extend(&step.said);
                all.extend(step.phases.iter().flat_map(|row| &row.fields));
                all.extend(&step.until);
            }
        }
        all.extend(self.besides.iter().flat_map(|row| &row.fields));
        all
    }
}

/// The form of a text; nothing when the text is not TOML, for then no place in it is certain.
pub fn form(text: &str) -> Option<Form> {
    let document = Document::parse(text).ok()?;
    let top = document.as_table();
    let parts = |key: &str, head: Keys, items: &str, keys: Keys| {
        entries(top.get(key))
            .into_iter()
            .enumerate()
            .map(|(number, table)| part(&format!("{key}.{number}"), table, head, (items, keys)))
            .collect()
    };
    Some(Form {
        top: fields("", top, TOP),
        stages: parts("stage", STAGE, "items", ITEM),
        products: parts("product", PRODUCT, "with", WITH),
        besides: rows("besides", top.get("besides"), BESIDES),
    })
}

fn part(path: &str, table: &dyn TableLike, head: Keys, items: (&str, Keys)) -> Part {
    let steps = entries(table.get("step"));
    let steps = steps.into_iter().enumerate();
    Part {
        path: path.to_owned(),
        head: fields(path, table, head),
        items: rows(&format!("{path}.{}", items.0), table.get(items.0), items.1),
        steps: steps
            .map(|(number, step)| step_fields(&format!("{path}.step.{number}"), step))
            .collect(),
    }
}

fn step_fields(path: &str, step: &dyn TableLike) -> StepFields {
    let mut done = DEEDS.iter().filter(|deed| step.get(deed.key).is_some());
    let deed: Option<&Deed> = match (done.next(), done.next()) {
        (Some(deed), None) => Some(deed),
        _ => None,
    };
    let below = |key: &str| format!("{path}.{key}");
    let table = deed.and_then(|deed| step.get(deed.key)?.as_table_like());
    let (mut said, mut phases) = (Vec::new(), Vec::new());
    if let (Some(deed), Some(table)) = (deed, table) {
        let place = below(deed.key);
        said = fields(&place, table, deed.keys);
        phases = rows(&format!("{place}.phases"), table.get("phases"), deed.phases);
    }
    let until = step.get("until").and_then(Item::as_table_like);
    let nothing = toml_edit::InlineTable::new();
    StepFields {
        path: path.to_owned(),
        deed: deed.map(|deed| deed.key),
        sentence: field(path, step, ("do", Kind::Paragraph)),
        said,
        phases,
        until: fields(&below("until"), until.unwrap_or(&nothing), UNTIL),
    }
}

/// The tables of a list, written with headings or in brackets.
fn entries(item: Option<&Item>) -> Vec<&dyn TableLike> {
    match item {
        Some(Item::ArrayOfTables(tables)) => {
            tables.iter().map(|table| table as &dyn TableLike).collect()
        }
        Some(Item::Value(Value::Array(list))) => list
            .iter()
            .filter_map(|value| value.as_inline_table().map(|table| table as &dyn TableLike))
            .collect(),
        _ => Vec::new(),
    }
}

fn rows(path: &str, item: Option<&Item>, keys: Keys) -> Vec<Row> {
    let row = |(number, table)| {
        let path = format!("{path}.{number}");
        let fields = fields(&path, table, keys);
        Row { path, fields }
    };
    entries(item).into_iter().enumerate().map(row).collect()
}

fn fields(path: &str, table: &dyn TableLike, keys: Keys) -> Vec<Field> {
    keys.iter().map(|key| field(path, table, *key)).collect()
}

fn field(path: &str, table: &dyn TableLike, (key, kind): (&'static str, Kind)) -> Field {
    let found = match key.split_once('.') {
        Some((outer, inner)) => table
            .get(outer)
            .and_then(Item::as_table_like)
            .and_then(|table| table.get(inner)),
        None => table.get(key),
    };
    Field {
        path: if path.is_empty() {
            key.to_owned()
        } else {
            format!("{path}.{key}")
        },
        key,
        kind,
        text: found.map(|item| typed(item, kind)).unwrap_or_default(),
        span: found.and_then(Item::span),
    }
}

/// A value as one would type it.
fn typed(item: &Item, kind: Kind) -> String {
    let plain = |value: &Value| match value {
        Value::String(text) => text.value().clone(),
        Value::Boolean(set) => (if *set.value() { "yes" } else { "no" }).to_owned(),
        other => other.to_string().trim().to_owned(),
    };
    match item {
        Item::Value(Value::Array(list)) => {
            let join = if kind == Kind::Lines { "\n" } else { ", " };
            list.iter().map(plain).collect::<Vec<_>>().join(join)
        }
        Item::Value(value) => plain(value),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::form;

    const TEXT: &str = include_str!("../../../../../examples/cardamom-dough.toml");

    #[test]
    fn every_value_of_a_recipe_stands_in_its_form() {
        let form = form(TEXT).expect("TOML");
        assert_eq!(form.stages.len(), 4);
        assert_eq!(form.stages[2].items.len(), 10);
        assert_eq!(form.products[3].steps.len(), 5);
        let fields = form.fields();
        for field in &fields {
            let there = field.span.clone().and_then(|span| TEXT.get(span));
            assert_eq!(there.is_none(), field.text.is_empty(), "{}", field.path);
        }
        // Everything in quotes has a field, but for packs of one's own, tested bakes and a photograph.
        let inside = |at: usize| {
            fields
                .iter()
                .filter_map(|field| field.span.clone())
                .any(|span| span.contains(&at))
        };
        let tested = TEXT.find("[[tested]]").expect("tested bakes");
        let pantry =
            TEXT.find("[[pantry]]").expect("a pack")..TEXT.find("[[stage]]").expect("a stage");
        let quotes = TEXT.match_indices("= \"").map(|(at, _)| at + 2);
        let without: Vec<&str> = quotes
            .filter(|at| *at < tested && !pantry.contains(at) && !inside(*at))
            .filter_map(|at| TEXT[..at].rsplit('\n').next())
            .collect();
        assert_eq!(without, Vec::<&str>::new());
    }

    #[test]
    fn a_text_that_is_not_toml_has_no_form() {
        assert_eq!(form("title = "), None);
    }
}
