//! Reads what surrounds a recipe: promise, film, photographs, sponsor, pantry, tested bakes.

use super::fields::Fields;
use super::kind;
use super::value::Reader;
use crate::document::model::{Crust, Film, PantryEntry, Photo, Promise, Sponsor, Test};
use crate::source::{Diagnostic, code};
use numerics::quantity::Fraction;

/// Reads what is promised.
pub fn promise(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Promise {
    let promise = Promise {
        within: fields.quantity(reader, "within", &kind::PROMISED),
        without: fields.texts(reader, "without").unwrap_or_default(),
        span: fields.span,
    };
    fields.finish(reader);
    promise
}

/// Reads the film.
pub fn film(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Film {
    let title = fields.text(reader, "title");
    let address = fields.text(reader, "address");
    let film = Film {
        title,
        address: fields.must(reader, "address", "\"https://...\"", address),
        date: fields.date(reader, "date"),
        thumbnail: fields.text(reader, "thumbnail"),
    };
    fields.finish(reader);
    film
}

/// Reads a photograph.
pub fn photo(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Photo {
    let file = fields.text(reader, "file");
    let photo = Photo {
        file: fields.must(reader, "file", "\"loaf.jpg\"", file),
        alt: fields.text(reader, "alt"),
        credit: fields.text(reader, "credit"),
    };
    fields.finish(reader);
    photo
}

/// Reads who paid or gave.
pub fn sponsor(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Sponsor {
    let name = fields.text(reader, "name");
    let sponsor = Sponsor {
        name: fields.must(reader, "name", "\"A mill\"", name),
        gave: fields.text(reader, "gave"),
    };
    fields.finish(reader);
    sponsor
}

/// Reads an ingredient of one's own.
pub fn pantry(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> PantryEntry {
    let name = fields.text(reader, "name");
    let entry = PantryEntry {
        name: fields.must(reader, "name", "\"bread flour\"", name),
        like: fields.text(reader, "like"),
        protein: fields.quantity(reader, "protein", &kind::SHARE),
        water: fields.quantity(reader, "water", &kind::SHARE),
        fat: fields.quantity(reader, "fat", &kind::SHARE),
        sugars: fields.quantity(reader, "sugars", &kind::SHARE),
        salt: fields.quantity(reader, "salt", &kind::SHARE),
        saturated: fields.quantity(reader, "saturated", &kind::SHARE),
        trans: fields.quantity(reader, "trans", &kind::SHARE),
        added_sugars: fields.quantity(reader, "added-sugars", &kind::SHARE),
        ingredients: fields.text(reader, "ingredients"),
        allergens: fields.texts(reader, "allergens"),
        cup: fields.quantity(reader, "cup", &kind::CUP_MASS),
        span: fields.span,
    };
    fields.finish(reader);
    let shares = [
        &entry.protein,
        &entry.water,
        &entry.fat,
        &entry.sugars,
        &entry.salt,
    ];
    let all: Fraction = shares
        .iter()
        .filter_map(|s| s.as_ref())
        .map(|s| s.value)
        .sum();
    let one_above = shares
        .iter()
        .filter_map(|s| s.as_ref())
        .any(|s| s.value.si() > 1.0);
    // A tenth of a per cent is the rounding of packs.
    if all.si() > 1.001 && !one_above {
        reader.said.push(
            Diagnostic::at(
                code::PACK_IMPOSSIBLE,
                entry.span,
                format!(
                    "The shares of “{}” come to {} %, more than the whole.",
                    entry.name.value,
                    numerics::decimal::trimmed(all.percent(), 1)
                ),
            )
            .hint("Read the pack again: the column for 100 g, not the one for a portion."),
        );
    }
    entry
}

/// Reads a bake that was done.
pub fn test(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Test {
    let date = fields.date(reader, "date");
    let test = Test {
        date: fields.must(reader, "date", "2026-02-14", date),
        by: fields.text(reader, "by"),
        kitchen: fields.text(reader, "kitchen"),
        room: fields.quantity(reader, "room", &kind::ROOM),
        flour: fields.text(reader, "flour"),
        dough: fields.quantity(reader, "dough", &kind::DOUGH),
        warm_place: fields.quantity(reader, "warm-place", &kind::WARM_PLACE),
        rises: fields.named(reader, "rises", &kind::TIME),
        product: fields.text(reader, "product"),
        minutes: fields.quantity(reader, "minutes", &kind::OVEN_TIME),
        core: fields.quantity(reader, "core", &kind::CORE),
        crust: fields.word(reader, "crust", &Crust::ALL, Crust::word),
        loss: fields.quantity(reader, "loss", &kind::SHARE),
        note: fields.text(reader, "note"),
        span: fields.span,
    };
    fields.finish(reader);
    test
}
