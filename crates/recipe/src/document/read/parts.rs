//! Reads stages, items and products.

use super::fields::Fields;
use super::kind;
use super::step::steps;
use super::value::{Reader, short};
use crate::document::model::{Item, Material, Place, Product, Stage, Store, Tin};
use crate::source::{Diagnostic, Located, code};

/// The most pieces of one product.
const MOST_PIECES: i64 = 10_000;

/// Reads one stage.
pub fn stage(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Stage {
    let name = fields.text(reader, "name");
    let name = fields.must(reader, "name", "\"dough\"", name);
    fields.must_have(
        reader,
        "items",
        "[{ of = \"bread flour\", take = \"500 g\" }]",
    );
    let tables = fields.tables(reader, "items", "This item");
    if tables.as_ref().is_some_and(Vec::is_empty) {
        let span = fields.key_span("items").unwrap_or(fields.span);
        reader.breaks(
            Diagnostic::at(
                code::KEY_MISSING,
                span,
                "`items` is an empty list: nothing goes in.",
            )
            .hint("Write what goes in: items = [{ of = \"bread flour\", take = \"500 g\" }]."),
        );
    }
    let items = match tables {
        Some(tables) => tables
            .into_iter()
            .map(|table| stage_item(reader, table))
            .collect(),
        None => Vec::new(),
    };
    let steps = steps(reader, &mut fields);
    let evaporates = fields.quantity(reader, "evaporates", &kind::MASS);
    let span = fields.span;
    fields.finish(reader);
    Stage {
        name,
        items,
        steps,
        evaporates,
        span,
    }
}

/// An item with nothing but its name.
fn bare_item(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Item {
    let of = fields.text(reader, "of");
    let of = fields.must(reader, "of", "\"bread flour\"", of);
    Item::bare(of, fields.span)
}

/// Reads the amount, saying of what it is when the unit does not fit.
fn amount(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
    key: &'static str,
    of: &Located<String>,
) -> Option<Located<crate::document::model::Amount>> {
    let before = reader.said.len();
    let amount = fields.quantity(reader, key, &kind::AMOUNT);
    if !of.value.is_empty() {
        for diagnostic in &mut reader.said[before..] {
            let named = format!("{} is taken", short(&of.value));
            diagnostic.message = diagnostic.message.replace("an ingredient is taken", &named);
        }
    }
    amount
}

/// Reads one item of a stage.
fn stage_item(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Item {
    let mut item = bare_item(reader, &mut fields);
    item.take = amount(reader, &mut fields, "take", &item.of);
    item.name = fields.text(reader, "as");
    item.also = amount(reader, &mut fields, "also", &item.of);
    item.at = fields.quantity(reader, "at", &kind::ITEM);
    item.from = fields.word(reader, "from", &Store::ALL, Store::word);
    item.state = fields.text(reader, "state");
    item.note = fields.text(reader, "note");
    fields.finish(reader);
    item
}

/// Reads one item for bench, tin or top.
pub fn besides(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Item {
    let mut item = bare_item(reader, &mut fields);
    item.take = amount(reader, &mut fields, "take", &item.of);
    fields.must_have(reader, "take", "\"15 g\"");
    item.name = fields.text(reader, "as");
    item.on = fields.word(reader, "on", &Place::ALL, Place::word);
    fields.must_have(reader, "on", "\"bench\"");
    fields.finish(reader);
    item
}

/// Reads what goes into each piece of a product.
fn with(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Item {
    let mut item = bare_item(reader, &mut fields);
    item.each = amount(reader, &mut fields, "each", &item.of);
    fields.must_have(reader, "each", "\"6 g\"");
    item.name = fields.text(reader, "as");
    fields.finish(reader);
    item
}

/// Reads one product.
pub fn product(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Product {
    let name = fields.text(reader, "name");
    let name = fields.must(reader, "name", "\"loaf\"", name);
    let from = fields.text(reader, "from");
    let from = fields.must(reader, "from", "\"dough\"", from);
    let count = count(reader, &mut fields);
    let count = fields.must(reader, "count", "1", count);
    let piece = fields.quantity(reader, "piece", &kind::PIECE);
    let piece = fields.must(reader, "piece", "\"900 g\"", piece);
    let withs = fields
        .tables(reader, "with", "This filling")
        .unwrap_or_default();
    let with = withs.into_iter().map(|table| with(reader, table)).collect();
    let tin = fields
        .table(reader, "tin", "`tin`")
        .map(|table| tin(reader, table));
    let after_bake = fields.quantity(reader, "after-bake", &kind::MASS);
    let steps = steps(reader, &mut fields);
    let span = fields.span;
    fields.finish(reader);
    Product {
        name,
        from,
        count,
        piece,
        with,
        tin,
        after_bake,
        steps,
        span,
    }
}

/// Reads how many pieces.
fn count(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Option<Located<u32>> {
    let count = fields.whole(reader, "count")?;
    match u32::try_from(count.value) {
        Ok(value) if value >= 1 && count.value <= MOST_PIECES => {
            Some(Located::new(value, count.span))
        }
        _ if count.value < 1 => {
            reader.breaks(
                Diagnostic::at(
                    code::AMOUNT_NOT_POSITIVE,
                    count.span,
                    format!("A count of {} makes nothing.", count.value),
                )
                .hint("Write how many pieces are made: count = 1."),
            );
            None
        }
        _ => {
            reader.breaks(Diagnostic::at(
                code::VALUE_OUT_OF_REASON,
                count.span,
                format!(
                    "{} pieces are more than any kitchen makes of one recipe.",
                    count.value
                ),
            ));
            None
        }
    }
}

/// Reads a tin.
fn tin(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Tin {
    let name = fields.text(reader, "name");
    let size = fields.quantity(reader, "size", &kind::TIN);
    let material = fields.word(reader, "material", &Material::ALL, Material::word);
    let tin = Tin {
        name: fields.must(reader, "name", "\"loaf tin\"", name),
        size: fields.must(reader, "size", "\"21.6 x 11.4 x 6.4 cm\"", size),
        holds: fields.quantity(reader, "holds", &kind::HOLDS),
        material: fields.must(reader, "material", "\"light metal\"", material),
        lidded: fields.boolean(reader, "lidded"),
        span: fields.span,
    };
    fields.finish(reader);
    tin
}
