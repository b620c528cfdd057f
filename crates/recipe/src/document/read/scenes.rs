//! Reads a file of scenes.

use super::fields::Fields;
use super::kind;
use super::value::Reader;
use super::{Sort, file, from_bytes};
use crate::document::model::{
    HoldFile, Meal, Member, PlaceFile, SceneEntry, SceneFile, ShotEntry, ShotSize,
};
use crate::source::{Checked, Diagnostic, Located, code};

/// No filming kitchen has more of anything that is counted.
const MOST: i64 = 50;

/// Scenes.
const SCENES: Sort = Sort {
    what: "The file",
    own: "scene",
    others: "title",
    other: "This is a recipe; a file of scenes is wanted here.",
    way_out: "Give the file of scenes; it begins with everyoven = 1 and shoot = \"...\".",
};

/// Reads a file of scenes from its bytes.
pub fn read_scenes_bytes(bytes: &[u8]) -> Checked<Option<SceneFile>> {
    from_bytes(bytes, |text| file(text, &SCENES, scenes, |_, _| ()))
}

/// Reads the top of a file of scenes.
pub fn scenes(reader: &mut Reader<'_>, mut fields: Fields<'_>, format: i64) -> SceneFile {
    let shoot = fields.text(reader, "shoot");
    let shoot = fields.must(reader, "shoot", "\"Cardamom dough in one day\"", shoot);
    let day = fields.date(reader, "day");
    let day = fields.must(reader, "day", "2026-02-14", day);
    let zone = fields.text(reader, "zone");
    let call = fields.clock(reader, "call");
    let work_from = fields.clock(reader, "work-from");
    let set_up = fields.quantity(reader, "set-up", &kind::SPAN);
    let wrap = fields.quantity(reader, "wrap", &kind::SPAN);
    let meal = fields
        .table(reader, "meal", "`meal`")
        .map(|t| meal(reader, t));
    let people = count(reader, &mut fields, "people");
    let hands = count(reader, &mut fields, "hands");
    let mixers = count(reader, &mut fields, "mixers");
    let load = fields.quantity(reader, "load", &kind::SPAN);
    let ovens = count(reader, &mut fields, "ovens");
    let racks = count(reader, &mut fields, "racks");
    let change = fields.quantity(reader, "change", &kind::SPAN);
    let shelves = count(reader, &mut fields, "shelves");
    let spare = fields.quantity(reader, "spare", &kind::SHARE);
    let place = fields
        .table(reader, "place", "`place`")
        .map(|t| place(reader, t));
    let crew = super::each(
        reader,
        &mut fields,
        "crew",
        "This member of the crew",
        member,
    );
    let holds = super::each(reader, &mut fields, "hold", "This hold", hold);
    let scenes = super::each(reader, &mut fields, "scene", "This scene", scene);
    if scenes.is_empty() && !reader.broken {
        reader.breaks(
            Diagnostic::at(code::KEY_MISSING, fields.span, "The file holds no scene.").hint(
                "Write [[scene]] with name = \"S01\", about = \"Mix the dough\", for = \"20 min\" and needs = [\"dough mixing\"].",
            ),
        );
    }
    for (nth, scene) in scenes.iter().enumerate() {
        let first = scenes[..nth]
            .iter()
            .find(|other| other.name.value == scene.name.value);
        if let Some(first) = first.filter(|_| !scene.name.value.is_empty()) {
            reader.said.push(
                Diagnostic::at(
                    code::NAME_TWICE,
                    scene.name.span,
                    format!("There are two scenes named “{}”.", scene.name.value),
                )
                .label(first.name.span, "the first one")
                .hint("Give each scene a name of its own."),
            );
        }
    }
    fields.finish(reader);
    SceneFile {
        format,
        shoot,
        day,
        zone,
        call,
        work_from,
        set_up,
        wrap,
        meal,
        people,
        hands,
        mixers,
        load,
        ovens,
        racks,
        change,
        shelves,
        spare,
        holds,
        scenes,
        place,
        crew,
    }
}

/// Reads how many there are of something.
fn count(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
    key: &'static str,
) -> Option<Located<i64>> {
    let written = fields.whole(reader, key)?;
    if !(1..=MOST).contains(&written.value) {
        reader.breaks(
            Diagnostic::at(
                code::VALUE_OUT_OF_REASON,
                written.span,
                format!("`{key}` is between 1 and {MOST}."),
            )
            .hint(format!("Write {key} = 1, or leave the line out.")),
        );
    }
    Some(written)
}

/// Reads the meal.
fn meal(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Meal {
    let from = fields.clock(reader, "from");
    let lasts = fields.quantity(reader, "for", &kind::TIME);
    let meal = Meal {
        from: fields.must(reader, "from", "12:30", from),
        lasts: fields.must(reader, "for", "\"45 min\"", lasts),
        span: fields.span,
    };
    fields.finish(reader);
    meal
}

/// Reads how long a state keeps.
fn hold(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> HoldFile {
    let at = fields.text(reader, "at");
    let up_to = fields.quantity(reader, "up-to", &kind::SPAN);
    let hold = HoldFile {
        at: fields.must(reader, "at", "\"dough risen\"", at),
        up_to: fields.must(reader, "up-to", "\"20 min\"", up_to),
        span: fields.span,
    };
    fields.finish(reader);
    hold
}

/// Reads one scene.
fn scene(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> SceneEntry {
    let name = fields.text(reader, "name");
    let about = fields.text(reader, "about");
    let lasts = fields.quantity(reader, "for", &kind::TIME);
    let scene = SceneEntry {
        name: fields.must(reader, "name", "\"S01\"", name),
        about: fields.must(reader, "about", "\"Mix the dough\"", about),
        at: fields.clock(reader, "at"),
        set_up: fields.quantity(reader, "set-up", &kind::SPAN),
        lasts: fields.must(reader, "for", "\"20 min\"", lasts),
        needs: fields.texts(reader, "needs").unwrap_or_default(),
        stands: fields.quantity(reader, "stands", &kind::SPAN),
        uses_up: fields.texts(reader, "uses-up").unwrap_or_default(),
        says: fields.texts(reader, "says").unwrap_or_default(),
        shots: super::each(reader, &mut fields, "shots", "This shot", shot),
        note: fields.text(reader, "note"),
        span: fields.span,
    };
    fields.finish(reader);
    scene
}

/// Reads one shot.
fn shot(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> ShotEntry {
    let size = fields.word(reader, "size", &ShotSize::ALL, ShotSize::word);
    let of = fields.text(reader, "of");
    let shot = ShotEntry {
        size: fields.must(reader, "size", "\"close-up\"", size),
        of: fields.must(reader, "of", "\"butter going in\"", of),
        moves: fields.text(reader, "moves"),
        sound: fields.text(reader, "sound"),
    };
    fields.finish(reader);
    shot
}

/// Reads where it is filmed.
fn place(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> PlaceFile {
    let address = fields.text(reader, "address");
    let place = PlaceFile {
        address: fields.must(reader, "address", "\"4 Saltmarsh Lane\"", address),
        parking: fields.text(reader, "parking"),
        hospital: fields.text(reader, "hospital"),
        ring: fields.text(reader, "ring"),
    };
    fields.finish(reader);
    place
}

/// Reads who comes.
fn member(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> Member {
    let does = fields.text(reader, "does");
    let who = fields.text(reader, "who");
    let member = Member {
        does: fields.must(reader, "does", "\"camera\"", does),
        who: fields.must(reader, "who", "\"Ines\"", who),
        call: fields.clock(reader, "call"),
    };
    fields.finish(reader);
    member
}
