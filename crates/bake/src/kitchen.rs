//! A kitchen as the physics needs it: temperatures of what stands where, bowl, mixer, height.

use numerics::quantity::{
    HeatCapacity, Length, Mass, SpecificPower, Temperature, TemperatureDifference, Volume,
};
use recipe::document::model::Material;

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
