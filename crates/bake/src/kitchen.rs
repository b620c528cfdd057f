//! A kitchen as the physics needs it: temperatures of what stands where, bowl, mixer, height.

mod changed;

use crate::code;
use crate::physics::{boiling, heats, vessel};
use numerics::decimal::fixed;
use numerics::quantity::{
    Fraction, HeatCapacity, Length, Mass, SpecificPower, Temperature, TemperatureDifference, Volume,
};
use recipe::document::model::{KitchenFile, Material, MeasuredFile};
use recipe::larder::{Found, Larder};
use recipe::source::{Checked, Diagnostic, Located};

pub use changed::changed;

/// One kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Kitchen {
    /// Its name.
    pub name: String,
    /// Air of the room.
    pub room: Temperature,
    /// Inside the refrigerator.
    pub refrigerator: Temperature,
    /// Water from the cold tap.
    pub tap: Temperature,
    /// The warm place; the room when there is none.
    pub warm_place: Temperature,
    /// Height above the sea.
    pub altitude: Length,
    /// Ingredients that stand elsewhere than their item says: name in lower case, temperature.
    pub stores: Vec<(String, Temperature)>,
    /// The bowl.
    pub bowl: Bowl,
    /// How mixing warms a dough.
    pub friction: Friction,
    /// Mixes in this kitchen are done by hand: it has no mixer.
    pub by_hand: bool,
    /// The oven.
    pub oven: Oven,
    /// How well what is written here is known, where bakes told it.
    pub measured: Measured,
}

/// What bakes in a kitchen told of it: how well its figures are known, and two that it has no other place for. Eight of
/// ten lie so far to either side.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measured {
    /// The yeast's power against the usual, and within what share of it.
    pub yeast: Option<(f64, f64)>,
    /// Heat that the oven's air gives against the usual, and within what share of it.
    pub oven_heat: Option<(f64, f64)>,
    /// Within what share the work of mixing is known.
    pub mixing_within: Option<f64>,
    /// Within how many K the warm place.
    pub warm_place_within: Option<f64>,
    /// And the refrigerator.
    pub refrigerator_within: Option<f64>,
    /// And the oven.
    pub oven_within: Option<f64>,
}

/// An oven as it differs from its dial.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oven {
    /// How much hotter it is inside than its dial says.
    pub hotter: TemperatureDifference,
    /// Whether its fan runs.
    pub fan: bool,
    /// How far its thermostat lets it swing to either side.
    pub swing: TemperatureDifference,
    /// How much is missing when the bread goes in: it was not heated long enough.
    pub short: TemperatureDifference,
    /// Trays or rows of tins in it at once, loaded alike.
    pub shelves: u8,
    /// How much more heat its air gives to what bakes than such an oven usually does, W/(m2 K).
    pub more_film_w_m2k: f64,
}

impl Default for Oven {
    fn default() -> Self {
        Self {
            hotter: TemperatureDifference::from_si(0.0),
            fan: false,
            swing: TemperatureDifference::from_si(0.0),
            short: TemperatureDifference::from_si(0.0),
            shelves: 1,
            more_film_w_m2k: 0.0,
        }
    }
}

/// The bowl a dough is mixed in.
#[derive(Clone, Debug, PartialEq)]
pub struct Bowl {
    /// Of what it is made.
    pub material: Material,
    /// Its mass.
    pub mass: Mass,
    /// Heat that warms the part of it that follows the dough.
    pub heat_capacity: HeatCapacity,
    /// Its temperature at the start.
    pub at: Temperature,
    /// Its volume.
    pub holds: Option<Volume>,
    /// The flour that its maker allows.
    pub flour_limit: Option<Mass>,
}

/// How mixing warms a dough.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Friction {
    /// Work left in the dough at medium speed; other speeds by their ratio.
    Power(SpecificPower),
    /// The whole mix of the final dough warms it by so much, as the cook measured.
    Rise(TemperatureDifference),
}

/// Bowl of a home mixer, with its hook, when nothing else is known: common practice.
const USUAL_BOWL: Mass = Mass::from_grams(900.0);

impl Kitchen {
    /// A usual kitchen, for a recipe without one: room and flour at 21 °C, refrigerator 4 °C, tap
    /// 15 °C, warm place 27 °C, at the sea, steel bowl of 900 g, a home mixer whose work nobody has
    /// measured (13 W/kg, see `physics::heats`). Temperatures: common practice.
    pub fn standard() -> Self {
        let room = Temperature::from_celsius(21.0);
        Self {
            name: "a usual kitchen".to_owned(),
            room,
            refrigerator: Temperature::from_celsius(4.0),
            tap: Temperature::from_celsius(15.0),
            warm_place: Temperature::from_celsius(27.0),
            altitude: Length::ZERO,
            stores: Vec::new(),
            bowl: Bowl {
                material: Material::Steel,
                mass: USUAL_BOWL,
                heat_capacity: vessel::following(Material::Steel, USUAL_BOWL, vessel::MIXING),
                at: room,
                holds: None,
                flour_limit: None,
            },
            friction: Friction::Power(heats::MIXER),
            by_hand: false,
            oven: Oven::default(),
            measured: Measured::default(),
        }
    }
}

/// The kitchen that a file describes.
///
/// Not written, and what is taken for it: the bowl's temperature, the room's; the warm place, the
/// room; 80 % of the bowl follows the dough; no `[mixer]`, hands (2.5 W/kg, the middle of 0 to
/// 5 W/kg, common practice); a `[mixer]` without a figure, 13 W/kg. When both are written, the rise
/// counts, for the cook has measured it.
pub fn kitchen(file: &KitchenFile) -> Checked<Kitchen> {
    let room = file.room.value;
    let bowl = &file.bowl;
    let friction = match &file.mixer {
        None => Friction::Power(heats::HAND),
        Some(mixer) => match (&mixer.rise, &mixer.friction) {
            (Some(rise), _) => Friction::Rise(rise.value),
            (None, Some(power)) => Friction::Power(power.value),
            (None, None) => Friction::Power(heats::MIXER),
        },
    };
    let mut stores: Vec<(String, Temperature)> = file
        .stores
        .iter()
        .map(|(name, at)| (name.value.to_lowercase(), at.value))
        .collect();
    stores.sort_by(|one, other| one.0.cmp(&other.0));
    let made = Kitchen {
        name: file.name.value.clone(),
        room,
        refrigerator: file.refrigerator.value,
        tap: file.tap.value,
        warm_place: file.warm_place.as_ref().map_or(room, |place| place.value),
        altitude: file.altitude.value,
        stores,
        bowl: Bowl {
            material: bowl.material.value,
            mass: bowl.mass.value,
            heat_capacity: vessel::following(bowl.material.value, bowl.mass.value, vessel::MIXING),
            at: bowl.at.as_ref().map_or(room, |at| at.value),
            holds: bowl.holds.as_ref().map(|holds| holds.value),
            flour_limit: bowl.flour_limit.as_ref().map(|limit| limit.value),
        },
        friction,
        by_hand: file.mixer.is_none(),
        oven: file.oven.as_ref().map_or_else(Oven::default, |oven| Oven {
            hotter: oven.inside.value - oven.dial.value,
            fan: oven.fan.value,
            swing: oven
                .swing
                .as_ref()
                .map_or(TemperatureDifference::from_si(0.0), |swing| swing.value),
            ..Oven::default()
        }),
        measured: file
            .measured
            .as_ref()
            .map_or_else(Measured::default, measured),
    };
    let mut checked = Checked::clean(made);
    if !boiling::holds_at(file.altitude.value) {
        checked.diagnostics.push(
            Diagnostic::at(
                code::RELATION_OUTSIDE_ITS_RANGE,
                file.altitude.span,
                format!(
                    "A height of {} m lies outside −500 to 11 000 m, where the relation of air pressure and height holds.",
                    fixed(file.altitude.value.si(), 0)
                ),
            )
            .hint("Write the height of the place above the sea."),
        );
    }
    checked
}

fn measured(file: &MeasuredFile) -> Measured {
    let share = |at: &Option<Located<Fraction>>| at.as_ref().map(|at| at.value.si());
    let kelvin = |at: &Option<Located<TemperatureDifference>>| at.as_ref().map(|at| at.value.si());
    let usual = |factor: Option<f64>, within: Option<f64>| Some((factor?, within?));
    Measured {
        yeast: usual(share(&file.yeast), share(&file.yeast_within)),
        oven_heat: usual(share(&file.oven_heat), share(&file.oven_heat_within)),
        mixing_within: share(&file.mixing_within),
        warm_place_within: kelvin(&file.warm_place_within),
        refrigerator_within: kelvin(&file.refrigerator_within),
        oven_within: kelvin(&file.oven_within),
    }
}

/// Names under `stores` that lead to no ingredient, so that what is written there counts for nothing.
pub fn unknown_stores(kitchen: &KitchenFile, larder: &Larder) -> Vec<Diagnostic> {
    let finding = |(name, _): &(Located<String>, Located<Temperature>)| {
        let hint = match larder.find(&name.value) {
            Found::One(_) | Found::Several(_) => return None,
            Found::Near(names) => match names.first() {
                Some(near) => format!("Is “{near}” meant?"),
                None => ASK_LARDER.to_owned(),
            },
            Found::Nothing => ASK_LARDER.to_owned(),
        };
        let message = format!(
            "`stores` says where “{}” is kept, but no ingredient has that name.",
            name.value
        );
        Some(Diagnostic::at(code::STORE_UNKNOWN, name.span, message).hint(hint))
    };
    kitchen.stores.iter().filter_map(finding).collect()
}

/// What to do about a name that nothing is like.
const ASK_LARDER: &str = "Write the ingredient's name as in the recipe's `of`.";

/// The same kitchen with another room: what had the old room's temperature has the new one's, so
/// the bowl, a warm place that is the room itself, and what is kept in the room.
#[must_use]
pub fn in_room(kitchen: &Kitchen, room: Temperature) -> Kitchen {
    let moved = |at: Temperature| if at == kitchen.room { room } else { at };
    let mut changed = kitchen.clone();
    changed.room = room;
    changed.warm_place = moved(kitchen.warm_place);
    changed.bowl.at = moved(kitchen.bowl.at);
    for (_, at) in &mut changed.stores {
        *at = moved(*at);
    }
    changed
}

#[cfg(test)]
mod tests {
    use super::*;
    use recipe::document::read_kitchen;

    /// A kitchen file with so much more in it.
    fn file(bowl: &str, more: &str) -> KitchenFile {
        let text = format!(
            "everyoven = 1\nkitchen = \"Test\"\nroom = \"19 °C\"\nrefrigerator = \"4 °C\"\n\
             tap = \"12 °C\"\naltitude = \"100 m\"\nstores = {{ \"Whole Milk\" = \"7 °C\" }}\n\
             [bowl]\nmaterial = \"glass\"\nmass = \"1000 g\"\n{bowl}\n{more}"
        );
        let read = read_kitchen(&text);
        assert_eq!(read.diagnostics, Vec::new());
        read.output.expect("it reads")
    }

    #[test]
    fn what_is_not_written_is_taken_as_documented() {
        let made = kitchen(&file("", "")).output;
        assert_eq!(made.bowl.at, made.room);
        assert_eq!(made.warm_place, made.room);
        assert!((made.bowl.heat_capacity.si() - 0.8 * 830.0).abs() < 1e-9);
        assert!(made.by_hand);
        assert_eq!(made.friction, Friction::Power(heats::HAND));
        assert_eq!(made.stores[0].0, "whole milk");
    }

    #[test]
    fn a_bowl_and_a_mixer_of_their_own_are_kept() {
        let made = kitchen(&file("at = \"30 °C\"", "[mixer]\nrise = \"5 °C\"")).output;
        assert_eq!(made.bowl.at, Temperature::from_celsius(30.0));
        assert!(!made.by_hand);
        let five = TemperatureDifference::from_si(5.0);
        assert_eq!(made.friction, Friction::Rise(five));
        let moved = in_room(&made, Temperature::from_celsius(25.0));
        assert_eq!(moved.bowl.at, made.bowl.at, "a warmed bowl stays warm");
    }

    #[test]
    fn a_store_that_nothing_knows_is_named() {
        let larder = Larder::open();
        let mut written = file("", "");
        assert_eq!(unknown_stores(&written, &larder), Vec::new());
        written.stores[0].0.value = "eggz".to_owned();
        let said = unknown_stores(&written, &larder);
        assert_eq!(said.len(), 1);
        assert_eq!(said[0].code, code::STORE_UNKNOWN);
        assert!(said[0].hints[0].contains("egg"), "{:?}", said[0].hints);
        written.stores[0].0.value = "qqqqqqqq".to_owned();
        let said = unknown_stores(&written, &larder);
        assert_eq!(said[0].hints, [ASK_LARDER]);
    }

    #[test]
    fn a_height_beyond_the_relation_is_named() {
        let mut high = file("", "");
        high.altitude.value = Length::from_si(12_000.0);
        let said = kitchen(&high).diagnostics;
        assert_eq!(said.len(), 1);
        assert_eq!(said[0].code, code::RELATION_OUTSIDE_ITS_RANGE);
        high.altitude.value = Length::from_si(11_000.0);
        assert!(kitchen(&high).diagnostics.is_empty());
    }
}
