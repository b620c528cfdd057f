//! What stands in a place whose value could not be read, so that the rest can still be looked at.
//!
//! A recipe that holds one is never handed out.

use crate::document::model::{
    Amount, Kind, Material, Money, Part, Place, ShotSize, Speed, Standing, TinSize, Tool,
};
use jiff::civil::{Date, Time};
use numerics::quantity::{Duration, Length, Mass, Range, Temperature};

/// A value for a place that could not be read.
pub trait StandIn {
    /// The value.
    fn stand_in() -> Self;
}

/// Declares stand-ins.
macro_rules! stand_in {
    ($($kind:ty = $value:expr;)*) => {
        $(impl StandIn for $kind {
            fn stand_in() -> Self {
                $value
            }
        })*
    };
}

stand_in! {
    String = Self::new();
    bool = false;
    u32 = 1;
    Date = Self::constant(2000, 1, 1);
    Time = Self::constant(0, 0, 0, 0);
    ShotSize = Self::Wide;
    Mass = Self::ZERO;
    Duration = Self::ZERO;
    Length = Self::ZERO;
    Temperature = Self::from_celsius(20.0);
    Range<Temperature> = Self { low: Temperature::stand_in(), high: Temperature::stand_in() };
    Vec<Part> = Self::new();
    TinSize = Self::Tray { length: Length::ZERO, width: Length::ZERO };
    Kind = Self::Lean;
    Material = Self::Steel;
    Place = Self::Bench;
    Speed = Self::Low;
    Standing = Self::Room;
    Tool = Self::Mixer;
    Amount = Self::Mass(Mass::ZERO);
    Money = Self { sum: 0.0, currency: String::new(), decimals: 0 };
}
