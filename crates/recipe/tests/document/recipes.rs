//! Any recipe: every key there or not.

use crate::quantities::{amount, celsius, day, length, mass, nowhere, number, share, text, volume};
use crate::steps::step;
use numerics::quantity::{Duration, Mass};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use recipe::document::model::{
    Crust, Degrees, Film, House, Item, Kind, ListOrder, Material, PantryEntry, Part, Photo, Place,
    Product, Promise, Recipe, Scales, Sponsor, Stage, Store, Test, Tin, TinSize,
};
use recipe::source::{Located, Span};

fn bare_item() -> impl Strategy<Value = Item> {
    text().prop_map(|of| Item::bare(of, Span::default()))
}

fn stage_item() -> impl Strategy<Value = Item> {
    let first = (bare_item(), amount(), of(text()), of(amount()));
    let second = (
        of(celsius(-30, 100)),
        of(prop::sample::select(Store::ALL.to_vec())),
        of(text()),
        of(text()),
    );
    (first, second).prop_map(|((item, take, name, also), (at, from, state, note))| Item {
        take: Some(nowhere(take)),
        name,
        also: also.map(nowhere),
        at: at.map(nowhere),
        from: from.map(nowhere),
        state,
        note,
        ..item
    })
}

fn stage() -> impl Strategy<Value = Stage> {
    (
        text(),
        vec(stage_item(), 1..4),
        vec(step(), 0..4),
        of(mass()),
    )
        .prop_map(|(name, items, steps, evaporates)| Stage {
            name,
            items,
            steps,
            evaporates: evaporates.map(nowhere),
            span: Span::default(),
        })
}

fn tin() -> impl Strategy<Value = Tin> {
    let size = prop_oneof![
        (length(60), length(60), length(60)).prop_map(|(length, width, depth)| TinSize::Box {
            length,
            width,
            depth
        }),
        (length(60), length(60)).prop_map(|(length, width)| TinSize::Tray { length, width }),
        (length(60), length(60)).prop_map(|(diameter, height)| TinSize::Round { diameter, height }),
    ];
    let material = prop::sample::select(Material::ALL.to_vec());
    (text(), size, of(volume()), material, of(any::<bool>())).prop_map(
        |(name, size, holds, material, lidded)| Tin {
            name,
            size: nowhere(size),
            holds: holds.map(nowhere),
            material: nowhere(material),
            lidded: lidded.map(nowhere),
            span: Span::default(),
        },
    )
}

fn product() -> impl Strategy<Value = Product> {
    let part = (1..6_u32, number(900)).prop_map(|(count, g)| Part {
        count,
        mass: Mass::from_grams(g.max(0.2)),
    });
    let with = (bare_item(), amount(), of(text())).prop_map(|(item, each, name)| Item {
        each: Some(nowhere(each)),
        name,
        ..item
    });
    let first = (text(), text(), 1..200_u32, vec(part, 1..4));
    (
        first,
        vec(with, 0..2),
        of(tin()),
        of(mass()),
        vec(step(), 0..4),
    )
        .prop_map(
            |((name, from, count, piece), with, tin, after_bake, steps)| Product {
                name,
                from,
                count: nowhere(count),
                piece: nowhere(piece),
                with,
                tin,
                after_bake: after_bake.map(nowhere),
                steps,
                span: Span::default(),
            },
        )
}

fn besides() -> impl Strategy<Value = Item> {
    (
        bare_item(),
        amount(),
        of(text()),
        prop::sample::select(Place::ALL.to_vec()),
    )
        .prop_map(|(item, take, name, on)| Item {
            take: Some(nowhere(take)),
            name,
            on: Some(nowhere(on)),
            ..item
        })
}

fn pantry() -> impl Strategy<Value = PantryEntry> {
    let shares = (
        of(share()),
        of(share()),
        of(share()),
        of(share()),
        of(share()),
    );
    let cup = of(number(500).prop_map(|g| Mass::from_grams(g.max(6.0))));
    let label = (of(share()), of(share()), of(share()), of(text()));
    let rest = (of(vec(text(), 0..3)), cup);
    (text(), of(text()), shares, label, rest).prop_map(
        |(
            name,
            like,
            (protein, water, fat, sugars, salt),
            (saturated, trans, added_sugars, ingredients),
            (allergens, cup),
        )| PantryEntry {
            name,
            like,
            protein: protein.map(nowhere),
            water: water.map(nowhere),
            fat: fat.map(nowhere),
            sugars: sugars.map(nowhere),
            salt: salt.map(nowhere),
            saturated: saturated.map(nowhere),
            trans: trans.map(nowhere),
            added_sugars: added_sugars.map(nowhere),
            ingredients,
            allergens,
            cup: cup.map(nowhere),
            span: Span::default(),
        },
    )
}

fn test() -> impl Strategy<Value = Test> {
    let words = (of(text()), of(text()), of(text()), of(text()));
    let heat = (
        of(celsius(0, 40)),
        of(celsius(10, 40)),
        of(celsius(60, 100)),
    );
    let more = (
        of(celsius(15, 40)),
        vec((text(), number(90)), 0..3),
        of(text()),
        of(prop::sample::select(Crust::ALL.to_vec())),
    );
    (day(), words, heat, of(number(90)), of(share()), more).prop_map(
        |(date, (by, kitchen, flour, note), (room, dough, core), minutes, loss, more)| Test {
            warm_place: more.0.map(nowhere),
            rises: once(more.1),
            product: more.2,
            crust: more.3.map(nowhere),
            date,
            by,
            kitchen,
            room: room.map(nowhere),
            flour,
            dough: dough.map(nowhere),
            minutes: minutes.map(|n| nowhere(Duration::from_minutes(n.max(0.1)))),
            core: core.map(nowhere),
            loss: loss.map(nowhere),
            note,
            span: Span::default(),
        },
    )
}

/// Each name once, as keys of a table are.
fn once(rises: Vec<(Located<String>, f64)>) -> Vec<(Located<String>, Located<Duration>)> {
    let mut all: Vec<(Located<String>, Located<Duration>)> = Vec::new();
    for (name, minutes) in rises {
        if all.iter().all(|(other, _)| other.value != name.value) {
            let took = Duration::from_minutes(minutes.max(0.1));
            all.push((name, nowhere(took)));
        }
    }
    all
}

/// A house style, of which any part may be open.
fn house() -> impl Strategy<Value = House> {
    let list = of(prop::sample::select(ListOrder::ALL.to_vec()));
    let scales = of(prop::sample::select(Scales::ALL.to_vec()));
    let degrees = of(prop::sample::select(Degrees::ALL.to_vec()));
    (list, scales, degrees).prop_map(|(list, scales, degrees)| House {
        list: list.map(nowhere),
        scales: scales.map(nowhere),
        degrees: degrees.map(nowhere),
        ..House::default()
    })
}

/// Any recipe, its places all nowhere.
pub fn recipe() -> impl Strategy<Value = Recipe> {
    let words = (
        text(),
        of(text()),
        of(text()),
        of(text()),
        of(text()),
        of(text()),
        of(text()),
    );
    let dates = (of(day()), of(day()));
    let film = (of(text()), text(), of(day()), of(text())).prop_map(
        |(title, address, date, thumbnail)| Film {
            title,
            address,
            date,
            thumbnail,
        },
    );
    let photo = (text(), of(text()), of(text())).prop_map(|(file, alt, credit)| Photo {
        file,
        alt,
        credit,
    });
    let sponsor = (text(), of(text())).prop_map(|(name, gave)| Sponsor { name, gave });
    let promise = (of(number(2000)), vec(text(), 0..2)).prop_map(|(within, without)| Promise {
        within: within.map(|n| nowhere(Duration::from_minutes(n.max(1.0)))),
        without,
        span: Span::default(),
    });
    let around = (
        vec(text(), 0..3),
        of(promise),
        of(film),
        vec(photo, 0..2),
        of(sponsor),
        house(),
    );
    let parts = (
        vec(pantry(), 0..2),
        vec(stage(), 0..3),
        vec(product(), 0..3),
        vec(besides(), 0..3),
        vec(test(), 0..2),
    );
    let kind = prop::sample::select(Kind::ALL.to_vec());
    (words, kind, dates, around, parts).prop_map(
        |(
            (title, version, author, headnote, make_ahead, storage, serves),
            kind,
            (published, changed),
            (notes, promise, film, photos, sponsor, house),
            (pantry, stages, products, besides, tested),
        )| Recipe {
            format: 1,
            title,
            kind: nowhere(kind),
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
        },
    )
}
