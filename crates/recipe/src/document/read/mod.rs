//! Reads a recipe or kitchen file: every problem at once, each at its place, nothing mended.

mod audience;
mod day;
mod fields;
mod house;
mod kind;
mod kitchen;
mod kitchen_value;
mod log;
mod parts;
mod places;
mod prices;
mod scenes;
mod sort;
mod stand_in;
mod step;
mod surround;
mod syntax;
mod value;

use super::check;
use super::model::{AudienceFile, FORMAT, House, Kind, KitchenFile, LogFile, PriceFile, Recipe};
use crate::source::{Checked, Diagnostic, code};
pub use day::{read_hours, read_time};
use fields::Fields;
pub use kitchen_value::KitchenValue;
pub use places::Places;
pub use scenes::read_scenes_bytes;
use sort::{AUDIENCE, KITCHEN, LOG, PRICES, RECIPE, Sort};
use value::Reader;

/// The most stages, items, steps and other parts of one recipe.
const MOST_PARTS: usize = 2000;

/// Reads a recipe. There is none when something that it needs could not be read.
pub fn read_recipe(text: &str) -> Checked<Option<Recipe>> {
    file(text, &RECIPE, recipe, |reader, recipe| {
        let finding = check::recipe(reader.text, recipe, &reader.said);
        reader.broken |= finding.incomplete;
        reader.said.extend(finding.said);
    })
}

/// Reads a recipe from the bytes of its file.
pub fn read_recipe_bytes(bytes: &[u8]) -> Checked<Option<Recipe>> {
    from_bytes(bytes, read_recipe)
}

/// Reads a kitchen file.
pub fn read_kitchen(text: &str) -> Checked<Option<KitchenFile>> {
    file(text, &KITCHEN, kitchen::kitchen, |_, _| ())
}

/// Reads a file of prices from its bytes.
pub fn read_prices_bytes(bytes: &[u8]) -> Checked<Option<PriceFile>> {
    from_bytes(bytes, |text| file(text, &PRICES, prices::prices, |_, _| ()))
}

/// Reads the file of an audience from its bytes.
pub fn read_audience_bytes(bytes: &[u8]) -> Checked<Option<AudienceFile>> {
    from_bytes(bytes, |text| {
        file(text, &AUDIENCE, audience::audience, |_, _| ())
    })
}

/// Reads a log of bakes from its bytes.
pub fn read_log_bytes(bytes: &[u8]) -> Checked<Option<LogFile>> {
    from_bytes(bytes, |text| file(text, &LOG, log::log, |_, _| ()))
}

/// Reads a kitchen from the bytes of its file.
pub fn read_kitchen_bytes(bytes: &[u8]) -> Checked<Option<KitchenFile>> {
    from_bytes(bytes, read_kitchen)
}

/// Bytes first have to be text of a bearable size.
fn from_bytes<T>(bytes: &[u8], read: fn(&str) -> Checked<Option<T>>) -> Checked<Option<T>> {
    if let Some(said) = syntax::too_large(bytes.len()) {
        return nothing(said);
    }
    match syntax::decode_utf8(bytes) {
        Ok(text) => read(text),
        Err(said) => nothing(*said),
    }
}

/// Nothing but a reason.
fn nothing<T>(said: Diagnostic) -> Checked<Option<T>> {
    Checked {
        output: None,
        diagnostics: vec![said],
    }
}

/// What both kinds of file go through.
fn file<T>(
    text: &str,
    sort: &Sort,
    read: fn(&mut Reader<'_>, Fields<'_>, i64) -> T,
    check: fn(&mut Reader<'_>, &T),
) -> Checked<Option<T>> {
    if let Some(said) = syntax::too_large(text.len()) {
        return nothing(said);
    }
    if let Some(said) = syntax::turned(text) {
        return nothing(said);
    }
    let parsed = syntax::parse(text);
    if parsed.table.is_empty() && parsed.faults.is_empty() {
        return nothing(
            Diagnostic::whole(code::FILE_EMPTY, "There is nothing in the file.").hint(
                "Begin with everyoven = 1 and a title, or look whether this is the right file.",
            ),
        );
    }
    if syntax::parts(&parsed.table) > MOST_PARTS {
        return nothing(
            Diagnostic::whole(
                code::TOO_MANY_PARTS,
                format!("There are more than {MOST_PARTS} stages, items and steps; no recipe has so many."),
            )
            .hint("Look for parts that stand in the file again and again."),
        );
    }
    let mut reader = Reader {
        text,
        said: Vec::new(),
        broken: false,
    };
    let mut fields = Fields::new(&parsed.table, crate::source::Span::new(0, 0), sort.what);
    if let (Some(span), None) = (fields.key_span(sort.others), fields.key_span(sort.own)) {
        let mut said = parsed.faults;
        said.push(Diagnostic::at(code::KEY_UNKNOWN, span, sort.other).hint(sort.way_out));
        return sorted(None, said);
    }
    let Some(format) = format(&mut reader, &mut fields, parsed.lost_from) else {
        let mut said = parsed.faults;
        said.append(&mut reader.said);
        return sorted(None, said);
    };
    let output = read(&mut reader, fields, format);
    if let Some(from) = parsed.lost_from {
        // Behind a fault of the text nothing is certain, least of all what is missing.
        reader.said.retain(|d| {
            d.code != code::KEY_MISSING
                && d.code != code::STEP_WITHOUT_ACTION
                && d.span.is_some_and(|span| span.end <= from)
        });
        reader.broken = true;
    } else {
        check(&mut reader, &output);
    }
    reader.broken |= !parsed.faults.is_empty();
    // A value whose own text is at fault is not judged a second time.
    let at_fault = |d: &Diagnostic| {
        let inside = |f: &Diagnostic| match (f.span, d.span) {
            (Some(fault), Some(place)) => fault.start <= place.start && place.end <= fault.end,
            _ => false,
        };
        parsed.faults.iter().any(inside)
    };
    reader.said.retain(|d| !at_fault(d));
    let mut said = parsed.faults;
    said.append(&mut reader.said);
    sorted((!reader.broken).then_some(output), said)
}

/// In the order of the text; what has no place comes first.
fn sorted<T>(output: Option<T>, mut said: Vec<Diagnostic>) -> Checked<Option<T>> {
    said.sort_by_key(|d| d.span.map_or(0, |span| span.start + 1));
    Checked {
        output,
        diagnostics: said,
    }
}

/// Reads the version of the format; none when nothing after it can be relied on.
fn format(reader: &mut Reader<'_>, fields: &mut Fields<'_>, lost: Option<usize>) -> Option<i64> {
    if !fields.has("everyoven") {
        if lost.is_none() {
            reader.breaks(
                Diagnostic::whole(
                    code::FORMAT_MISSING,
                    "The file does not say by which rules it was written.",
                )
                .hint("Write everyoven = 1 on the first line."),
            );
        }
        reader.broken = true;
        return Some(FORMAT);
    }
    let Some(format) = fields.whole(reader, "everyoven") else {
        return Some(FORMAT);
    };
    if format.value > FORMAT {
        reader.breaks(
            Diagnostic::at(
                code::FORMAT_NEWER,
                format.span,
                format!(
                    "The file is written in format {}; this program reads format {FORMAT}.",
                    format.value
                ),
            )
            .hint("Take a newer version of the program."),
        );
        return None;
    }
    if format.value < 1 {
        reader.breaks(
            Diagnostic::at(
                code::VALUE_OUT_OF_REASON,
                format.span,
                "There is no such format.",
            )
            .hint("Write everyoven = 1."),
        );
    }
    Some(format.value)
}

/// Reads the top of a recipe.
fn recipe(reader: &mut Reader<'_>, mut fields: Fields<'_>, format: i64) -> Recipe {
    let title = fields.text(reader, "title");
    let title = fields.must(reader, "title", "\"Overnight loaf\"", title);
    let kind = fields.word(reader, "kind", &Kind::ALL, Kind::word);
    let kind = fields.must(reader, "kind", "\"lean\"", kind);
    let version = fields.text(reader, "version");
    let author = fields.text(reader, "author");
    let published = fields.date(reader, "published");
    let changed = fields.date(reader, "changed");
    let headnote = fields.text(reader, "headnote");
    let notes = fields.texts(reader, "notes").unwrap_or_default();
    let make_ahead = fields.text(reader, "make-ahead");
    let storage = fields.text(reader, "storage");
    let serves = fields.text(reader, "serves");
    let promise = fields
        .table(reader, "promise", "`promise`")
        .map(|t| surround::promise(reader, t));
    let film = fields
        .table(reader, "film", "`film`")
        .map(|t| surround::film(reader, t));
    let photos = each(
        reader,
        &mut fields,
        "photo",
        "This photograph",
        surround::photo,
    );
    let sponsor = fields
        .table(reader, "sponsor", "`sponsor`")
        .map(|t| surround::sponsor(reader, t));
    let house = fields
        .table(reader, "house", "`house`")
        .map_or_else(House::default, |t| house::house(reader, t));
    let pantry = each(
        reader,
        &mut fields,
        "pantry",
        "This pantry entry",
        surround::pantry,
    );
    let stages = each(reader, &mut fields, "stage", "This stage", parts::stage);
    let products = each(
        reader,
        &mut fields,
        "product",
        "This product",
        parts::product,
    );
    let besides = each(reader, &mut fields, "besides", "This item", parts::besides);
    let tested = each(
        reader,
        &mut fields,
        "tested",
        "This tested bake",
        surround::test,
    );
    fields.finish(reader);
    Recipe {
        format,
        title,
        kind,
        version,
        author,
        published,
        changed,
        headnote,
        notes,
        make_ahead,
        storage,
        serves,
        promise,
        film,
        photos,
        sponsor,
        house,
        pantry,
        stages,
        products,
        besides,
        tested,
    }
}

/// Reads every table of a list.
fn each<T>(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
    key: &'static str,
    what: &str,
    read: fn(&mut Reader<'_>, Fields<'_>) -> T,
) -> Vec<T> {
    let tables = fields.tables(reader, key, what).unwrap_or_default();
    tables
        .into_iter()
        .map(|table| read(reader, table))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{read_kitchen, read_recipe};
    use crate::source::{Checked, Diagnostic};

    /// Name, written place, message and first way out of the only finding.
    fn only<'t, T>(text: &'t str, read: &Checked<T>) -> (&'static str, &'t str, String, String) {
        assert_eq!(read.diagnostics.len(), 1, "{:#?}", read.diagnostics);
        let Diagnostic {
            code,
            span,
            message,
            hints,
            ..
        } = &read.diagnostics[0];
        let place = span.map_or("", |span| &text[span.start..span.end]);
        (code.name, place, message.clone(), hints[0].clone())
    }

    #[test]
    fn a_kitchen_is_no_recipe_and_a_recipe_no_kitchen() {
        let kitchen = "everyoven = 1\nkitchen = \"Studio\"\nroom = \"21 °C\"\n";
        let (code, place, message, _) = only(kitchen, &read_recipe(kitchen));
        assert_eq!((code, place), ("key-unknown", "kitchen"));
        assert!(message.starts_with("This is a kitchen file"), "{message}");
        let recipe = "everyoven = 1\ntitle = \"Loaf\"\n[[stage]]\nname = \"dough\"\n";
        let (code, place, message, _) = only(recipe, &read_kitchen(recipe));
        assert_eq!((code, place), ("key-unknown", "title"));
        assert!(message.starts_with("This is a recipe"), "{message}");
    }

    #[test]
    fn a_sign_that_turns_the_writing_is_refused_at_its_place() {
        for sign in ['\u{202A}', '\u{202E}', '\u{2066}', '\u{2069}'] {
            let text = format!("everyoven = 1\ntitle = \"Loaf\" # {sign}eaten\n");
            let read = read_recipe(&text);
            assert!(read.output.is_none());
            let (code, place, ..) = only(&text, &read);
            assert_eq!(
                (code, place),
                ("text-unreadable", sign.to_string().as_str())
            );
        }
    }

    #[test]
    fn curly_quotes_are_named_with_the_straight_ones() {
        for (open, close) in [("“", "”"), ("„", "“"), ("‘", "’"), ("”", "”")] {
            let line = format!("altitude = {open}330 m{close}");
            let text = format!(
                "everyoven = 1\nkitchen = \"x\"\nroom = \"21 °C\"\nrefrigerator = \"4 °C\"\n\
                 tap = \"15 °C\"\n{line}\nbowl = {{ material = \"steel\", mass = \"900 g\" }}\n"
            );
            let read = read_kitchen(&text);
            let (code, place, message, hint) = only(&text, &read);
            assert_eq!((code, place), ("text-unreadable", &line[11..]));
            assert!(message.starts_with("The quotes are the curly ones"));
            assert_eq!(hint, "Write \"330 m\".");
        }
    }

    #[test]
    fn curly_quotes_inside_an_item_are_named_once() {
        let text = "everyoven = 1\ntitle = \"x\"\nkind = \"lean\"\n[[stage]]\nname = \"dough\"\n\
                    items = [\n{ of = \"water\", take = “330 g” },\n]\n";
        let read = read_recipe(text);
        let curly: Vec<&Diagnostic> = read
            .diagnostics
            .iter()
            .filter(|said| {
                said.span
                    .is_some_and(|span| text[span.start..].starts_with('“'))
            })
            .collect();
        assert_eq!(curly.len(), 1, "{:#?}", read.diagnostics);
        assert_eq!(curly[0].hints, ["Write \"330 g\"."]);
    }
}
