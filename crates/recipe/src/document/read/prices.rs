//! Reads a file of prices.

use super::fields::Fields;
use super::kind;
use super::value::Reader;
use crate::document::model::{PriceEntry, PriceFile};
use crate::source::{Diagnostic, code};

/// Reads the top of a file of prices.
pub fn prices(reader: &mut Reader<'_>, mut fields: Fields<'_>, format: i64) -> PriceFile {
    let prices = super::each(reader, &mut fields, "price", "This price", entry);
    if prices.is_empty() && !reader.broken {
        reader.breaks(
            Diagnostic::at(code::KEY_MISSING, fields.span, "The file holds no price.").hint(
                "Write [[price]] with of = \"bread flour\", pay = \"2.49 EUR\", for = \"1 kg\" and seen = 2026-01-12.",
            ),
        );
    }
    fields.finish(reader);
    PriceFile { format, prices }
}

/// Reads one price.
fn entry(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> PriceEntry {
    let of = fields.text(reader, "of");
    let pay = fields.quantity(reader, "pay", &kind::MONEY);
    let amount = fields.quantity(reader, "for", &kind::AMOUNT);
    let seen = fields.date(reader, "seen");
    let entry = PriceEntry {
        of: fields.must(reader, "of", "\"bread flour\"", of),
        pay: fields.must(reader, "pay", "\"2.49 EUR\"", pay),
        amount: fields.must(reader, "for", "\"1 kg\"", amount),
        seen: fields.must(reader, "seen", "2026-01-12", seen),
        span: fields.span,
    };
    fields.finish(reader);
    entry
}
