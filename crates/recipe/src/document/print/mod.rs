//! Prints a recipe as the text that reads back as the same recipe, always in one form.

mod step;
mod text;

use super::model::{House, Item, PantryEntry, Product, Recipe, Stage, Test, Tin};
use crate::measure::write::{
    write_amount, write_mass, write_piece, write_share, write_temperature, write_time,
    write_tin_size, write_volume,
};
use crate::source::Located;
use text::{Braces, quoted, string, strings};

/// The text of a recipe. Comments and the author's own order are not in it: to change one value of
/// a written file use [`revise`](super::revise).
pub fn print_recipe(recipe: &Recipe) -> String {
    let mut out = top(recipe);
    if let Some(film) = &recipe.film {
        let mut table = Braces::default();
        table
            .maybe("title", value(film.title.as_ref()))
            .text("address", &film.address.value);
        date(&mut table, "date", film.date.as_ref());
        table.maybe("thumbnail", value(film.thumbnail.as_ref()));
        heading(&mut out, "[film]", &table.lines());
    }
    for photo in &recipe.photos {
        let mut table = Braces::default();
        table
            .text("file", &photo.file.value)
            .maybe("alt", value(photo.alt.as_ref()))
            .maybe("credit", value(photo.credit.as_ref()));
        heading(&mut out, "[[photo]]", &table.lines());
    }
    if let Some(sponsor) = &recipe.sponsor {
        let mut table = Braces::default();
        table
            .text("name", &sponsor.name.value)
            .maybe("gave", value(sponsor.gave.as_ref()));
        heading(&mut out, "[sponsor]", &table.lines());
    }
    house(&mut out, &recipe.house);
    for entry in &recipe.pantry {
        heading(&mut out, "[[pantry]]", &pantry(entry));
    }
    for one in &recipe.stages {
        stage(&mut out, one);
    }
    for one in &recipe.products {
        product(&mut out, one);
    }
    for one in &recipe.besides {
        heading(&mut out, "[[besides]]", &item(one).lines());
    }
    for one in &recipe.tested {
        heading(&mut out, "[[tested]]", &test(one));
    }
    out
}

/// The house style, when anything is chosen.
fn house(out: &mut String, house: &House) {
    let mut table = Braces::default();
    for (key, word) in [
        ("list", house.list.as_ref().map(|one| one.value.word())),
        (
            "measures",
            house.measures.as_ref().map(|one| one.value.word()),
        ),
        ("scales", house.scales.as_ref().map(|one| one.value.word())),
        ("ranges", house.ranges.as_ref().map(|one| one.value.word())),
        (
            "degrees",
            house.degrees.as_ref().map(|one| one.value.word()),
        ),
        (
            "opening",
            house.opening.as_ref().map(|one| one.value.word()),
        ),
        (
            "actions",
            house.actions.as_ref().map(|one| one.value.word()),
        ),
    ] {
        table.maybe(key, word);
    }
    let lines = table.lines();
    if !lines.is_empty() {
        heading(out, "[house]", &lines);
    }
}

/// The text of a value that may be missing.
fn value(text: Option<&Located<String>>) -> Option<&String> {
    text.map(|text| &text.value)
}

/// Adds a date when there is one.
fn date(table: &mut Braces, key: &str, day: Option<&Located<jiff::civil::Date>>) {
    if let Some(day) = day {
        table.raw(key, day.value.to_string());
    }
}

/// A table with its heading, after a blank line.
fn heading(out: &mut String, name: &str, lines: &str) {
    out.push('\n');
    out.push_str(name);
    out.push('\n');
    out.push_str(lines);
}

/// What stands above all tables.
fn top(recipe: &Recipe) -> String {
    let mut out = Braces::default();
    out.raw("everyoven", recipe.format.to_string())
        .text("title", &recipe.title.value)
        .text("kind", recipe.kind.value.word())
        .maybe("version", value(recipe.version.as_ref()))
        .maybe("author", value(recipe.author.as_ref()));
    date(&mut out, "published", recipe.published.as_ref());
    date(&mut out, "changed", recipe.changed.as_ref());
    out.maybe("headnote", value(recipe.headnote.as_ref()))
        .maybe("serves", value(recipe.serves.as_ref()));
    if let Some(promise) = &recipe.promise {
        let mut table = Braces::default();
        table.maybe(
            "within",
            promise.within.as_ref().map(|time| write_time(time.value)),
        );
        if !promise.without.is_empty() {
            table.raw(
                "without",
                strings(promise.without.iter().map(|tool| &tool.value)),
            );
        }
        out.raw("promise", table.done());
    }
    out.maybe("make-ahead", value(recipe.make_ahead.as_ref()))
        .maybe("storage", value(recipe.storage.as_ref()));
    if !recipe.notes.is_empty() {
        let notes: Vec<String> = recipe
            .notes
            .iter()
            .map(|note| format!("  {},\n", string(&note.value)))
            .collect();
        out.raw("notes", format!("[\n{}]", notes.concat()));
    }
    out.lines()
}

/// A pantry entry.
fn pantry(entry: &PantryEntry) -> String {
    let mut out = Braces::default();
    out.text("name", &entry.name.value)
        .maybe("like", value(entry.like.as_ref()));
    for (key, share) in [
        ("protein", &entry.protein),
        ("water", &entry.water),
        ("fat", &entry.fat),
        ("sugars", &entry.sugars),
        ("salt", &entry.salt),
        ("saturated", &entry.saturated),
        ("trans", &entry.trans),
        ("added-sugars", &entry.added_sugars),
    ] {
        out.maybe(key, share.as_ref().map(|share| write_share(share.value)));
    }
    if let Some(allergens) = &entry.allergens {
        out.raw(
            "allergens",
            strings(allergens.iter().map(|name| &name.value)),
        );
    }
    out.maybe("ingredients", value(entry.ingredients.as_ref()));
    out.maybe("cup", entry.cup.as_ref().map(|mass| write_mass(mass.value)));
    out.lines()
}

/// An item, wherever it stands.
fn item(item: &Item) -> Braces {
    let mut out = Braces::default();
    out.text("of", &item.of.value)
        .maybe(
            "take",
            item.take.as_ref().map(|amount| write_amount(&amount.value)),
        )
        .maybe(
            "each",
            item.each.as_ref().map(|amount| write_amount(&amount.value)),
        )
        .maybe("as", value(item.name.as_ref()))
        .maybe(
            "also",
            item.also.as_ref().map(|amount| write_amount(&amount.value)),
        )
        .maybe("at", item.at.as_ref().map(|at| write_temperature(at.value)))
        .maybe("from", item.from.as_ref().map(|from| from.value.word()))
        .maybe("state", value(item.state.as_ref()))
        .maybe("on", item.on.as_ref().map(|on| on.value.word()))
        .maybe("note", value(item.note.as_ref()));
    out
}

/// A stage with its steps.
fn stage(out: &mut String, stage: &Stage) {
    let mut table = Braces::default();
    table.text("name", &stage.name.value).maybe(
        "evaporates",
        stage.evaporates.as_ref().map(|mass| write_mass(mass.value)),
    );
    let items: Vec<String> = stage
        .items
        .iter()
        .map(|one| format!("  {},\n", item(one).done()))
        .collect();
    table.raw("items", format!("[\n{}]", items.concat()));
    heading(out, "[[stage]]", &table.lines());
    for one in &stage.steps {
        heading(out, "[[stage.step]]", &step::step(one));
    }
}

/// A product with its steps.
fn product(out: &mut String, product: &Product) {
    let mut table = Braces::default();
    table
        .text("name", &product.name.value)
        .text("from", &product.from.value)
        .raw("count", product.count.value.to_string())
        .text("piece", write_piece(&product.piece.value));
    if !product.with.is_empty() {
        let with: Vec<String> = product.with.iter().map(|one| item(one).done()).collect();
        table.raw("with", format!("[{}]", with.join(", ")));
    }
    if let Some(written) = &product.tin {
        table.raw("tin", tin(written));
    }
    table.maybe(
        "after-bake",
        product
            .after_bake
            .as_ref()
            .map(|mass| write_mass(mass.value)),
    );
    heading(out, "[[product]]", &table.lines());
    for one in &product.steps {
        heading(out, "[[product.step]]", &step::step(one));
    }
}

/// A tin.
fn tin(tin: &Tin) -> String {
    let mut out = Braces::default();
    out.text("name", &tin.name.value)
        .text("size", write_tin_size(&tin.size.value))
        .maybe(
            "holds",
            tin.holds.as_ref().map(|volume| write_volume(volume.value)),
        )
        .text("material", tin.material.value.word());
    if let Some(lidded) = &tin.lidded {
        out.raw("lidded", lidded.value.to_string());
    }
    out.done()
}

/// A bake that was done.
fn test(test: &Test) -> String {
    let mut out = Braces::default();
    date(&mut out, "date", Some(&test.date));
    out.maybe("by", value(test.by.as_ref()))
        .maybe("kitchen", value(test.kitchen.as_ref()))
        .maybe(
            "room",
            test.room.as_ref().map(|at| write_temperature(at.value)),
        )
        .maybe("flour", value(test.flour.as_ref()))
        .maybe(
            "dough",
            test.dough.as_ref().map(|at| write_temperature(at.value)),
        )
        .maybe(
            "warm-place",
            test.warm_place
                .as_ref()
                .map(|at| write_temperature(at.value)),
        );
    if !test.rises.is_empty() {
        let mut table = Braces::default();
        for (name, took) in &test.rises {
            table.text(&quoted(&name.value), write_time(took.value));
        }
        out.raw("rises", table.done());
    }
    out.maybe("product", value(test.product.as_ref()))
        .maybe(
            "minutes",
            test.minutes.as_ref().map(|time| write_time(time.value)),
        )
        .maybe(
            "core",
            test.core.as_ref().map(|at| write_temperature(at.value)),
        )
        .maybe("crust", test.crust.as_ref().map(|crust| crust.value.word()))
        .maybe(
            "loss",
            test.loss.as_ref().map(|share| write_share(share.value)),
        )
        .maybe("note", value(test.note.as_ref()));
    out.lines()
}
