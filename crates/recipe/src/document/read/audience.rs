//! Reads an audience's own file: which things differ from kitchen to kitchen, and how often each is met.

use super::fields::Fields;
use super::value::{Reader, text_of};
use crate::document::model::{AudienceFile, Met, VariableEntry};
use crate::source::Span;

/// The audience's own name, for its key at the top of the file.
const EXAMPLE: &str = "\"Readers in a hot summer\"";

/// Reads the top of an audience file.
pub fn audience(reader: &mut Reader<'_>, mut fields: Fields<'_>, format: i64) -> AudienceFile {
    let name = fields.text(reader, "audience");
    let name = fields.must(reader, "audience", EXAMPLE, name);
    let like = fields.text(reader, "like");
    let variables = super::each(reader, &mut fields, "variable", "This variable", entry);
    fields.finish(reader);
    AudienceFile {
        format,
        name,
        like,
        variables,
    }
}

/// Reads one variable.
fn entry(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> VariableEntry {
    let span = fields.span;
    let name = fields.text(reader, "name");
    fields.must_have(
        reader,
        "is",
        "{ middle = \"21 °C\", deviation = \"2.6 °C\", from = \"10 °C\", to = \"33 °C\" }",
    );
    let is = fields.table(reader, "is", "`is`");
    let source = fields.text(reader, "source");
    let had = fields.text(reader, "had");
    let goes_with = fields
        .table(reader, "goes-with", "`goes-with`")
        .map_or_else(Vec::new, |table| {
            table
                .entries()
                .filter_map(|(name, value, span)| {
                    Some((name, text_of(reader, "goes-with", value, span)?))
                })
                .collect()
        });
    let entry = VariableEntry {
        name: fields.must(reader, "name", "\"room\"", name),
        is: is.map_or_else(|| nothing(span), |table| met(reader, table)),
        goes_with,
        source: fields.must(
            reader,
            "source",
            "\"our own readers, asked in May\"",
            source,
        ),
        had: fields.must(reader, "had", "\"read\"", had),
        span,
    };
    fields.finish(reader);
    entry
}

fn nothing(span: Span) -> Met {
    Met {
        said: Vec::new(),
        one_of: None,
        span,
    }
}

/// Reads how often each value is met; of several kinds of kitchen each in its own braces.
fn met(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Met {
    let said = Met::KEYS
        .into_iter()
        .filter_map(|key| Some((key, fields.text(reader, key)?)))
        .collect();
    let one_of = fields
        .has("one-of")
        .then(|| fields.tables(reader, "one-of", "This kind"))
        .flatten()
        .map(|tables| tables.into_iter().map(|table| met(reader, table)).collect());
    let met = Met {
        said,
        one_of,
        span: fields.span,
    };
    fields.finish(reader);
    met
}
