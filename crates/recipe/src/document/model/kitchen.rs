//! A kitchen as written in its own file.

use super::Material;
use crate::source::Located;
use jiff::civil::{Date, Time};
use numerics::quantity::{
    Fraction, Length, Mass, SpecificPower, Temperature, TemperatureDifference, Volume,
};

/// A kitchen as written in its own file.
#[derive(Clone, Debug, PartialEq)]
pub struct KitchenFile {
    /// Version of the file format.
    pub format: i64,
    /// Its name.
    pub name: Located<String>,
    /// Air temperature of the room.
    pub room: Located<Temperature>,
    /// Inside the refrigerator.
    pub refrigerator: Located<Temperature>,
    /// Water from the cold tap.
    pub tap: Located<Temperature>,
    /// The warm place for rising.
    pub warm_place: Option<Located<Temperature>>,
    /// Height above the sea.
    pub altitude: Located<Length>,
    /// The ingredients that stand elsewhere than the recipe says, each with its temperature.
    pub stores: Vec<(Located<String>, Located<Temperature>)>,
    /// The mixing bowl.
    pub bowl: BowlFile,
    /// The mixer, if there is one.
    pub mixer: Option<MixerFile>,
    /// How the cook measures: grams or cups.
    pub measures: Option<Located<String>>,
    /// The oven, as noted by the cook.
    pub oven: Option<OvenFile>,
    /// What a bake day there can count on.
    pub day: Option<DayFile>,
    /// What bakes there told of it.
    pub measured: Option<MeasuredFile>,
}

/// What bakes in a kitchen told of it. Each `within` is how far eight of ten lie to either side of the figure that stands
/// at its own place in the file, or here.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasuredFile {
    /// The day on which it was worked out.
    pub on: Located<Date>,
    /// From so many bakes.
    pub bakes: Option<Located<i64>>,
    /// The yeast's power, of its usual.
    pub yeast: Option<Located<Fraction>>,
    /// Within.
    pub yeast_within: Option<Located<Fraction>>,
    /// How much mixing warms, within.
    pub mixing_within: Option<Located<Fraction>>,
    /// The warm place, within.
    pub warm_place_within: Option<Located<TemperatureDifference>>,
    /// The refrigerator, within.
    pub refrigerator_within: Option<Located<TemperatureDifference>>,
    /// The oven against its dial, within.
    pub oven_within: Option<Located<TemperatureDifference>>,
    /// Heat that the oven's air gives, of its usual.
    pub oven_heat: Option<Located<Fraction>>,
    /// Within.
    pub oven_heat_within: Option<Located<Fraction>>,
}

/// What a bake day can count on: hands, places and hours.
#[derive(Clone, Debug, PartialEq)]
pub struct DayFile {
    /// Pairs of hands.
    pub hands: Option<Located<i64>>,
    /// Trays that the oven takes at once.
    pub racks: Option<Located<i64>>,
    /// Trays or bowls that the warm place takes.
    pub warm_places: Option<Located<i64>>,
    /// Trays or bowls that the refrigerator takes.
    pub shelves: Option<Located<i64>>,
    /// The warm place is the oven itself, off.
    pub oven_warms: Option<Located<bool>>,
    /// Hours in which nobody works; none when nothing is said of them.
    pub quiet: Option<Vec<Located<Hours>>>,
    /// Breaks of those who work.
    pub breaks: Vec<Located<Hours>>,
    /// Before this hour work is early.
    pub morning: Option<Located<Time>>,
    /// Tins and trays, and how many of each there are.
    pub tins: Vec<(Located<String>, Located<i64>)>,
}

/// Hours of every day, over midnight when the end is the earlier.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hours {
    /// From.
    pub from: Time,
    /// To.
    pub to: Time,
}

/// The bowl that a dough is mixed in.
#[derive(Clone, Debug, PartialEq)]
pub struct BowlFile {
    /// Of what it is made.
    pub material: Located<Material>,
    /// Its mass, with the hook if that touches the dough.
    pub mass: Located<Mass>,
    /// Its volume.
    pub holds: Option<Located<Volume>>,
    /// The flour that its maker allows.
    pub flour_limit: Option<Located<Mass>>,
    /// Its temperature; the room's when not given.
    pub at: Option<Located<Temperature>>,
}

/// The mixer: how much it warms a dough.
#[derive(Clone, Debug, PartialEq)]
pub struct MixerFile {
    /// Work left in the dough, in watts per kilogram at medium speed.
    pub friction: Option<Located<SpecificPower>>,
    /// Or: how many degrees a whole mix warms it, as the cook measured.
    pub rise: Option<Located<TemperatureDifference>>,
}

/// The oven as the cook knows it.
#[derive(Clone, Debug, PartialEq)]
pub struct OvenFile {
    /// What the dial says.
    pub dial: Located<Temperature>,
    /// What a thermometer inside says then.
    pub inside: Located<Temperature>,
    /// Whether its fan runs.
    pub fan: Located<bool>,
    /// How far its thermostat lets it swing to either side.
    pub swing: Option<Located<TemperatureDifference>>,
}
