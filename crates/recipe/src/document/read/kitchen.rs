//! Reads a kitchen's own file.

use super::day;
use super::fields::Fields;
use super::kind;
use super::value::{Reader, short};
use crate::document::model::{BowlFile, KitchenFile, Material, MeasuredFile, MixerFile, OvenFile};
use crate::source::{Diagnostic, Located, code, near};

/// Reads the top of a kitchen file.
pub fn kitchen(reader: &mut Reader<'_>, mut fields: Fields<'_>, format: i64) -> KitchenFile {
    let name = fields.text(reader, "kitchen");
    let name = fields.must(reader, "kitchen", "\"Studio\"", name);
    let room = fields.quantity(reader, "room", &kind::ROOM);
    let room = fields.must(reader, "room", "\"21 °C\"", room);
    let refrigerator = fields.quantity(reader, "refrigerator", &kind::REFRIGERATOR);
    let refrigerator = fields.must(reader, "refrigerator", "\"4 °C\"", refrigerator);
    let tap = fields.quantity(reader, "tap", &kind::TAP);
    let tap = fields.must(reader, "tap", "\"15 °C\"", tap);
    let warm_place = fields.quantity(reader, "warm-place", &kind::WARM_PLACE);
    let altitude = fields.quantity(reader, "altitude", &kind::ALTITUDE);
    let altitude = fields.must(reader, "altitude", "\"40 m\"", altitude);
    let measures = measures(reader, &mut fields);
    let stores = fields.named(reader, "stores", &kind::ITEM);
    fields.must_have(reader, "bowl", "{ material = \"steel\", mass = \"900 g\" }");
    let bowl = match fields.table(reader, "bowl", "`bowl`") {
        Some(table) => bowl(reader, table),
        None => no_bowl(&fields),
    };
    let mixer = fields
        .table(reader, "mixer", "`mixer`")
        .map(|table| mixer(reader, table));
    let oven = fields
        .table(reader, "oven", "`oven`")
        .map(|table| oven(reader, table));
    let day = fields
        .table(reader, "day", "`day`")
        .map(|table| day::day(reader, table));
    let told = fields
        .table(reader, "measured-here", "`measured-here`")
        .map(|table| measured(reader, table));
    fields.finish(reader);
    KitchenFile {
        format,
        name,
        room,
        refrigerator,
        tap,
        warm_place,
        altitude,
        stores,
        bowl,
        mixer,
        measures,
        oven,
        day,
        measured: told,
    }
}

/// Reads what bakes told.
fn measured(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> MeasuredFile {
    let on = fields.date(reader, "on");
    let bakes = fields.whole(reader, "bakes");
    let measured = MeasuredFile {
        on: fields.must(reader, "on", "2026-02-14", on),
        bakes,
        yeast: fields.quantity(reader, "yeast", &kind::OF_USUAL),
        yeast_within: fields.quantity(reader, "yeast-within", &kind::WITHIN_SHARE),
        mixing_within: fields.quantity(reader, "mixing-within", &kind::WITHIN_SHARE),
        warm_place_within: fields.quantity(reader, "warm-place-within", &kind::WITHIN),
        refrigerator_within: fields.quantity(reader, "refrigerator-within", &kind::WITHIN),
        oven_within: fields.quantity(reader, "oven-within", &kind::WITHIN),
        oven_heat: fields.quantity(reader, "oven-heat", &kind::OF_USUAL),
        oven_heat_within: fields.quantity(reader, "oven-heat-within", &kind::WITHIN_SHARE),
    };
    fields.finish(reader);
    measured
}

/// Stands in for a bowl that could not be read.
fn no_bowl(fields: &Fields<'_>) -> BowlFile {
    BowlFile {
        material: Located::new(Material::Steel, fields.span),
        mass: Located::new(numerics::quantity::Mass::ZERO, fields.span),
        holds: None,
        flour_limit: None,
        at: None,
    }
}

/// Reads how the cook measures.
fn measures(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Option<Located<String>> {
    let written = fields.text(reader, "measures")?;
    if ["grams", "cups"].contains(&&*written.value) {
        return Some(written);
    }
    let diagnostic = Diagnostic::at(
        code::WORD_UNKNOWN,
        written.span,
        format!(
            "`measures` is grams or cups; “{}” is neither.",
            short(&written.value)
        ),
    );
    reader.breaks(match near(&written.value, ["grams", "cups"]) {
        Some(meant) => diagnostic.hint(format!("Write measures = \"{meant}\".")),
        None => diagnostic,
    });
    None
}

/// Reads the bowl.
fn bowl(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> BowlFile {
    let material = fields.word(reader, "material", &Material::ALL, Material::word);
    let mass = fields.quantity(reader, "mass", &kind::BOWL_MASS);
    let bowl = BowlFile {
        material: fields.must(reader, "material", "\"steel\"", material),
        mass: fields.must(reader, "mass", "\"900 g\"", mass),
        holds: fields.quantity(reader, "holds", &kind::HOLDS),
        flour_limit: fields.quantity(reader, "flour-limit", &kind::MASS),
        at: fields.quantity(reader, "at", &kind::ITEM),
    };
    fields.finish(reader);
    bowl
}

/// Reads the mixer: one of two figures.
fn mixer(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> MixerFile {
    let mixer = MixerFile {
        friction: fields.quantity(reader, "friction", &kind::FRICTION),
        rise: fields.quantity(reader, "rise", &kind::RISE),
    };
    let (friction, rise) = (fields.has("friction"), fields.has("rise"));
    if friction && rise {
        reader.said.push(
            Diagnostic::at(
                code::NAME_TWICE,
                fields.key_span("rise").unwrap_or(fields.span),
                "`mixer` says both `friction` and `rise`; each is the whole warmth of the mix.",
            )
            .hint("Keep the one that was measured."),
        );
    }
    if !friction && !rise {
        fields.must_have(reader, "rise", "\"5 °C\"");
    }
    fields.finish(reader);
    mixer
}

/// Reads the oven.
fn oven(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> OvenFile {
    let dial = fields.quantity(reader, "dial", &kind::OVEN);
    let inside = fields.quantity(reader, "inside", &kind::OVEN);
    let fan = fields.boolean(reader, "fan");
    let oven = OvenFile {
        swing: fields.quantity(reader, "swing", &kind::SWING),
        dial: fields.must(reader, "dial", "\"175 °C\"", dial),
        inside: fields.must(reader, "inside", "\"172 °C\"", inside),
        fan: fields.must(reader, "fan", "false", fan),
    };
    fields.finish(reader);
    oven
}
