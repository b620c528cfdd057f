//! The heat of a mix: what temperature a dough ends at, and what the liquid must read for it.

use numerics::quantity::{Energy, HeatCapacity, Mass, Range, Temperature};

/// One line of the balance: a thing that goes in, its heat capacity and its temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Share {
    /// What it is, as sentences call it.
    pub what: String,
    /// Its mass.
    pub mass: Mass,
    /// Heat that warms it by one kelvin.
    pub heat_capacity: HeatCapacity,
    /// Its temperature when it goes in.
    pub at: Temperature,
}

/// The heat balance of one mix, every term kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Balance {
    /// Name of the stage.
    pub stage: String,
    /// What goes in, stages inside it included, the liquid to be adjusted too.
    pub shares: Vec<Share>,
    /// The part of the bowl that follows the dough.
    pub bowl: Share,
    /// Heat set free when dry flour takes up water.
    pub hydration: Energy,
    /// Work of the mixer.
    pub friction: Energy,
    /// Heat taken by dissolving sugar and salt.
    pub dissolution: Energy,
    /// Heat taken by melting butter.
    pub melting: Energy,
    /// Heat taken by ice that melts and warms to the dough.
    pub ice: Energy,
    /// Temperature of the dough at the end.
    pub ends: Temperature,
}

/// What the liquid of a mix must read, in one kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct MixAnswer {
    /// Name of the stage.
    pub stage: String,
    /// Temperature wanted, as written.
    pub wanted: Range<Temperature>,
    /// The liquid whose temperature is solved for, as sentences call it.
    pub liquid: Option<String>,
    /// What it must read; none when nothing can be adjusted.
    pub liquid_at: Option<Temperature>,
    /// Mass of ice to put in the place of as much of the liquid, when cold water is not enough.
    pub ice: Option<Mass>,
    /// The balance with everything as written.
    pub as_written: Balance,
    /// The balance with the liquid so.
    pub solved: Option<Balance>,
}

/// A liquid that wakes yeast in a cold bowl: what it must read so that it settles where wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct WakeAnswer {
    /// Name of the stage.
    pub stage: String,
    /// The liquid, as sentences call it.
    pub liquid: String,
    /// What it reads as written.
    pub written: Temperature,
    /// Where liquid, bowl and yeast settle then.
    pub settles: Temperature,
    /// The band in which this yeast wakes well.
    pub band: Range<Temperature>,
    /// What the liquid must read to settle in the middle of the band.
    pub liquid_at: Temperature,
}
