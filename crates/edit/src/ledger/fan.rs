//! The dial for the same bake with the oven's fan on or off.
//!
//! 20 °C or 25 °F less with the fan on: custom in the EU, UK and US; a state university's advice
//! quoted by a newspaper (second-hand).

use numerics::quantity::{Temperature, TemperatureDifference};

/// How much lower the dial stands with the fan on.
const FAN: TemperatureDifference = TemperatureDifference::from_si(20.0);

/// The dial for the same bake with the fan on.
pub fn fan_on(dial: Temperature) -> Temperature {
    dial - FAN
}

/// The dial for the same bake without the fan.
pub fn fan_off(dial: Temperature) -> Temperature {
    dial + FAN
}
