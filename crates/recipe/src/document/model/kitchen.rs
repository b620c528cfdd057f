//! A kitchen as written in its own file.

use super::Material;
use crate::source::Located;
use numerics::quantity::{Length, Mass, SpecificPower, Temperature, TemperatureDifference, Volume};

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
