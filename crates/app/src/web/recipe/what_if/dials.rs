//! What can be tried otherwise in one recipe: its dials, those that it never meets left out.

use super::dial::{Dial, Group, Scale, Sets};
use crate::cli::work::Made;
use edit::ledger::say::capital;
use edit::turned::is_flour;
use numerics::quantity::{Length, SpecificPower, Temperature, TemperatureDifference};
use recipe::document::KitchenValue;
use recipe::document::model::{Action, Item, Standing, Store};
use recipe::formula::model::{Resolved, ResolvedItem};
use recipe::larder::Role;
use recipe::substitution::is_wholegrain;

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

const fn kelvin(value: f64) -> TemperatureDifference {
    TemperatureDifference::from_si(value)
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // 1 to 4
fn racks(value: f64) -> KitchenValue {
    KitchenValue::Shelves(value.round().clamp(1.0, 4.0) as u8)
}

/// Every dial of a recipe in a kitchen: what it never meets is left out.
pub fn groups(made: &Made, scale: Scale) -> Vec<Group> {
    let kitchen = &made.kitchen;
    let dial = |name, label: &str, unit, (low, high, step), own, sets| Dial {
        name,
        label: label.to_owned(),
        unit,
        scale,
        low,
        high,
        step,
        own,
        sets,
    };
    let of_kitchen = |name, label, unit, reach, own, sets| {
        dial(name, label, unit, reach, own, Sets::Kitchen(sets))
    };
    let mut places = vec![of_kitchen(
        "room",
        "Room",
        "°C",
        (8.0, 40.0, 0.5),
        kitchen.room.celsius(),
        |value| KitchenValue::Room(celsius(value)),
    )];
    if stands_in(made, Standing::WarmPlace) {
        places.push(of_kitchen(
            "warm-place",
            "Warm place for rising",
            "°C",
            (10.0, 50.0, 0.5),
            kitchen.warm_place.celsius(),
            |value| KitchenValue::WarmPlace(celsius(value)),
        ));
    }
    if stands_in(made, Standing::Refrigerator) {
        places.push(of_kitchen(
            "refrigerator",
            "Refrigerator",
            "°C",
            (0.0, 15.0, 0.5),
            kitchen.refrigerator.celsius(),
            |value| KitchenValue::Refrigerator(celsius(value)),
        ));
    }
    places.push(of_kitchen(
        "altitude",
        "Height above the sea",
        "m",
        (-400.0, 4000.0, 50.0),
        kitchen.altitude.si(),
        |value| KitchenValue::Altitude(Length::from_si(value)),
    ));

    let mut things = flours(made, &dial);
    things.extend(liquid(made, &dial));
    if made.formula.every_item().any(is_yeast) {
        things.push(dial(
            "yeast-power",
            "What the yeast still does",
            "%",
            (10.0, 130.0, 5.0),
            100.0,
            Sets::Yeast,
        ));
    }
    things.push(of_kitchen(
        "bowl",
        "Mixing bowl",
        "°C",
        (0.0, 50.0, 1.0),
        kitchen.bowl.at.celsius(),
        |value| KitchenValue::Bowl(celsius(value)),
    ));
    if let bake::kitchen::Friction::Power(power) = kitchen.friction
        && !kitchen.by_hand
    {
        things.push(of_kitchen(
            "mixer",
            "Work that the mixer leaves in the dough",
            "W/kg",
            (0.0, 60.0, 1.0),
            power.si(),
            |value| KitchenValue::Mixer(SpecificPower::from_si(value)),
        ));
    }
    let mut oven = Vec::new();
    if !made.recipe.products.is_empty() {
        things.push(dial(
            "piece",
            "Pieces, of the written mass",
            "%",
            (40.0, 250.0, 5.0),
            100.0,
            Sets::Piece,
        ));
        oven = baking(made, &of_kitchen);
    }
    let mut groups = vec![
        Group {
            called: "Room and places",
            dials: places,
        },
        Group {
            called: "What goes in, and how much of it",
            dials: things,
        },
    ];
    if !oven.is_empty() {
        groups.push(Group {
            called: "Oven",
            dials: oven,
        });
    }
    groups
}

type OfKitchen<'a> = &'a dyn Fn(
    &'static str,
    &'static str,
    &'static str,
    (f64, f64, f64),
    f64,
    fn(f64) -> KitchenValue,
) -> Dial;

fn baking(made: &Made, of_kitchen: OfKitchen<'_>) -> Vec<Dial> {
    let oven = &made.kitchen.oven;
    vec![
        of_kitchen(
            "oven",
            "Hotter inside than its dial says",
            "°C",
            (-60.0, 60.0, 1.0),
            oven.hotter.si(),
            |value| KitchenValue::Oven(kelvin(value)),
        ),
        of_kitchen(
            "swing",
            "Swings to either side by",
            "°C",
            (0.0, 30.0, 1.0),
            oven.swing.si(),
            |value| KitchenValue::Swing(kelvin(value)),
        ),
        of_kitchen(
            "short",
            "Missing when the bread goes in",
            "°C",
            (0.0, 120.0, 5.0),
            oven.short.si(),
            |value| KitchenValue::Short(kelvin(value)),
        ),
        of_kitchen(
            "racks",
            "Trays or rows of tins in it at once",
            "",
            (1.0, 4.0, 1.0),
            f64::from(oven.shelves),
            racks,
        ),
    ]
}

type MakeDial<'a> =
    &'a dyn Fn(&'static str, &str, &'static str, (f64, f64, f64), f64, Sets) -> Dial;

/// Protein and temperature of the flour.
fn flours(made: &Made, dial: MakeDial<'_>) -> Vec<Dial> {
    let mut all = Vec::new();
    if let Some((_, one)) = main_flour(made)
        && let Resolved::Ingredient(flour) = &one.what
        && let Some(protein) = flour.composition.protein
        && !is_wholegrain(flour)
    {
        let own = (protein.percent() * 10.0).round() / 10.0;
        all.push(dial(
            "protein",
            &format!("Protein of the {}", flour.name),
            "%",
            (7.0, 16.0, 0.1),
            own,
            Sets::Protein,
        ));
    }
    if let Some((item, one)) = main_flour(made)
        && item.at.is_none()
    {
        let kept = kept_at(made, item, one);
        all.push(dial(
            "flour-at",
            "Flour, as it goes in",
            "°C",
            (-20.0, 40.0, 0.5),
            kept.celsius(),
            Sets::FlourAt,
        ));
    }
    all
}

/// The temperature of the liquid of which most goes in, waking liquid apart.
fn liquid(made: &Made, dial: MakeDial<'_>) -> Option<Dial> {
    let mut most: Option<(usize, usize, f64)> = None;
    for (stage, (written, sums)) in pairs(made) {
        for (place, (item, one)) in written.items.iter().zip(&sums.items).enumerate() {
            let wakes = written.steps.iter().any(|step| {
                matches!(&step.action, Action::Wake { liquid, .. } if liquid.value == item.called())
            });
            let is_liquid =
                matches!(&one.what, Resolved::Ingredient(what) if what.role == Role::Liquid);
            let mass = one.mass.map_or(0.0, numerics::quantity::Mass::si);
            if is_liquid
                && sums.in_dough
                && !wakes
                && most.is_none_or(|(_, _, so_far)| mass > so_far)
            {
                most = Some((stage, place, mass));
            }
        }
    }
    let (stage, place, _) = most?;
    let item = &made.recipe.stages[stage].items[place];
    let one = &made.formula.stages[stage].items[place];
    let own = item
        .at
        .as_ref()
        .map_or_else(|| kept_at(made, item, one), |at| at.value);
    Some(dial(
        "liquid",
        &format!("{}, as it goes in", capital(item.called())),
        "°C",
        (0.0, 60.0, 0.5),
        own.celsius(),
        Sets::ItemAt(stage, place),
    ))
}

/// Written stages with their sums, by their places.
pub fn pairs(
    made: &Made,
) -> impl Iterator<
    Item = (
        usize,
        (
            &recipe::document::model::Stage,
            &recipe::formula::model::StageSum,
        ),
    ),
> {
    made.recipe
        .stages
        .iter()
        .zip(&made.formula.stages)
        .enumerate()
}

/// Where the kitchen keeps an item that says no temperature of its own.
fn kept_at(made: &Made, item: &Item, one: &ResolvedItem) -> Temperature {
    let kitchen = &made.kitchen;
    let written = item.of.value.to_lowercase();
    let named = |name: &String| match &one.what {
        Resolved::Ingredient(what) => *name == written || what.names.contains(name),
        _ => *name == written,
    };
    let store = kitchen.stores.iter().find(|(name, _)| named(name));
    if let Some((_, at)) = store {
        return *at;
    }
    let plain_water = matches!(&one.what, Resolved::Ingredient(what) if what.role == Role::Liquid
        && what.composition.water.is_some_and(|water| water.si() > 0.99));
    match item.from.as_ref().map(|from| from.value) {
        Some(Store::Refrigerator) => kitchen.refrigerator,
        Some(Store::Tap) => kitchen.tap,
        None if plain_water => kitchen.tap,
        Some(Store::Room) | None => kitchen.room,
    }
}

/// The flour of which most goes into the dough.
pub fn main_flour(made: &Made) -> Option<(&Item, &ResolvedItem)> {
    let flours = pairs(made)
        .filter(|(_, (_, sums))| sums.in_dough)
        .flat_map(|(_, (written, sums))| written.items.iter().zip(&sums.items))
        .filter(|(_, one)| is_flour(one));
    flours.max_by(|(_, one), (_, other)| {
        let mass = |of: &ResolvedItem| of.mass.map_or(0.0, numerics::quantity::Mass::si);
        mass(one).total_cmp(&mass(other))
    })
}

/// Whether it is a yeast.
pub fn is_yeast(one: &ResolvedItem) -> bool {
    matches!(&one.what, Resolved::Ingredient(what) if matches!(what.role, Role::Yeast(_)))
}

fn stands_in(made: &Made, place: Standing) -> bool {
    let of_stages = made.recipe.stages.iter().flat_map(|stage| &stage.steps);
    let of_products = made.recipe.products.iter().flat_map(|one| &one.steps);
    of_stages.chain(of_products).any(
        |step| matches!(&step.action, Action::Rest { place: there, .. } if there.value == place),
    )
}

#[cfg(test)]
mod tests {
    use super::{Scale, groups};
    use crate::cli::work::{DEMO_RECIPE, DEMO_STUDIO, on_bytes};
    use std::collections::BTreeSet;

    #[test]
    fn every_dial_reads_its_own_figure_as_untouched_and_refuses_what_cannot_be() {
        let kitchen = Some(("studio.toml".to_owned(), DEMO_STUDIO.as_bytes().to_vec()));
        let work = on_bytes("loaf.toml", DEMO_RECIPE.as_bytes(), kitchen);
        let made = work.made.expect("the demo can be read");
        let mut names = BTreeSet::new();
        for dial in groups(&made, Scale::Celsius)
            .iter()
            .flat_map(|group| &group.dials)
        {
            assert!(names.insert(dial.name), "{} twice", dial.name);
            let own = dial.figure(dial.own);
            assert_eq!(dial.read(&own), Ok(None), "{}: {own}", dial.name);
            assert_eq!(dial.read(" "), Ok(None));
            let most = format!("{} {}", dial.figure(dial.high), dial.unit);
            assert_eq!(dial.read(&most), Ok(Some(dial.high)), "{}", dial.name);
            for wrong in ["many", "1e9", "NaN", "-1e9"] {
                let said = dial.read(wrong).expect_err(dial.name);
                assert!(said.contains(&dial.range()), "{said}");
            }
        }
        for name in ["room", "protein", "flour-at", "liquid", "oven", "piece"] {
            assert!(names.contains(name), "{name}");
        }
    }

    #[test]
    fn dials_for_readers_in_the_united_states_are_in_fahrenheit() {
        let work = on_bytes("loaf.toml", DEMO_RECIPE.as_bytes(), None);
        let made = work.made.expect("the demo can be read");
        for dial in groups(&made, Scale::Fahrenheit)
            .iter()
            .flat_map(|group| &group.dials)
        {
            let own = dial.figure(dial.own);
            assert_eq!(dial.read(&own), Ok(None), "{}: {own}", dial.name);
            for end in <[f64; 2]>::from(dial.reach()) {
                let read = dial.read(&end.to_string()).expect(dial.name);
                let itself = own == end.to_string();
                assert_eq!(read.is_none(), itself, "{}: {end}", dial.name);
            }
        }
        let all = groups(&made, Scale::Fahrenheit);
        let of = |name: &str| {
            let mut dials = all.iter().flat_map(|group| &group.dials);
            dials.find(|dial| dial.name == name).expect("the dial")
        };
        // 68 °F is 20 °C; an oven hotter by 18 °F is so by 10 °C. A letter says which scale is meant.
        for (name, words, celsius) in [
            ("room", "68", 20.0),
            ("room", "20 °C", 20.0),
            ("oven", "18", 10.0),
        ] {
            let read = of(name).read(words).expect("a figure").expect("turned");
            assert!((read - celsius).abs() < 1e-9, "{name}: {read}");
        }
        assert_eq!(of("room").range(), "47–104\u{a0}°F");
        assert_eq!(of("oven").unit_shown(), "°F");
        assert_eq!(of("altitude").unit_shown(), "m");
    }

    #[test]
    fn fahrenheit_is_understood_where_a_temperature_is_wanted() {
        let work = on_bytes("loaf.toml", DEMO_RECIPE.as_bytes(), None);
        let made = work.made.expect("the demo can be read");
        let all = groups(&made, Scale::Celsius);
        let room = &all[0].dials[0];
        let read = room.read("68 °F").expect("a temperature").expect("turned");
        assert!((read - 20.0).abs() < 1e-9);
    }
}
