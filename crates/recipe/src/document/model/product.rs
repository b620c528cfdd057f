//! What is made: pieces, tin, bake, and the bakes that were done.

use super::{Crust, Item, Material, Step};
use crate::source::{Located, Span};
use jiff::civil::Date;
use numerics::quantity::{Duration, Fraction, Length, Mass, Temperature, Volume};

/// A tin, tray or mould.
#[derive(Clone, Debug, PartialEq)]
pub struct Tin {
    /// What it is called.
    pub name: Located<String>,
    /// Its three dimensions; two for a tray, diameter and height for a round one.
    pub size: Located<TinSize>,
    /// Volume when filled with water to the brim; none for a tray.
    pub holds: Option<Located<Volume>>,
    /// Of what it is made.
    pub material: Located<Material>,
    /// Baked with its lid on.
    pub lidded: Option<Located<bool>>,
    /// Where it stands.
    pub span: Span,
}

/// The dimensions of a tin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TinSize {
    /// Length and width at the rim, and depth.
    Box {
        /// Length at the rim.
        length: Length,
        /// Width at the rim.
        width: Length,
        /// Depth.
        depth: Length,
    },
    /// A flat tray.
    Tray {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
    },
    /// A round tin or mould.
    Round {
        /// Diameter at the rim.
        diameter: Length,
        /// Height.
        height: Length,
    },
}

/// Something that is made: so many pieces of so much, in a tin, baked.
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    /// Its name.
    pub name: Located<String>,
    /// The stage it is cut from.
    pub from: Located<String>,
    /// How many pieces.
    pub count: Located<u32>,
    /// Of what parts one piece is made, raw.
    pub piece: Located<Vec<Part>>,
    /// What goes into each piece besides: a filling, by stage.
    pub with: Vec<Item>,
    /// Where it is baked.
    pub tin: Option<Tin>,
    /// Mass of one piece after the bake, as weighed.
    pub after_bake: Option<Located<Mass>>,
    /// What is done with it.
    pub steps: Vec<Step>,
    /// Where it stands.
    pub span: Span,
}

/// So many parts of one mass: the 3 x 220 g of a braid, the 8 g strip of a bun.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// How many in one piece.
    pub count: u32,
    /// Mass of each.
    pub mass: Mass,
}

/// A bake that was done.
#[derive(Clone, Debug, PartialEq)]
pub struct Test {
    /// When.
    pub date: Located<Date>,
    /// By whom.
    pub by: Option<Located<String>>,
    /// In which kitchen.
    pub kitchen: Option<Located<String>>,
    /// Room temperature.
    pub room: Option<Located<Temperature>>,
    /// Which flour.
    pub flour: Option<Located<String>>,
    /// Dough temperature after mixing.
    pub dough: Option<Located<Temperature>>,
    /// Air of the warm place in which it rose.
    pub warm_place: Option<Located<Temperature>>,
    /// How long a rise took until its cue, by the name of the stage or product that it belongs to.
    pub rises: Vec<(Located<String>, Located<Duration>)>,
    /// Which product minutes, core, crust and loss are of; where it is not said, the only one.
    pub product: Option<Located<String>>,
    /// Minutes of the bake.
    pub minutes: Option<Located<Duration>>,
    /// Temperature in the middle.
    pub core: Option<Located<Temperature>>,
    /// How dark the crust was above.
    pub crust: Option<Located<Crust>>,
    /// Share of the raw mass lost in the bake.
    pub loss: Option<Located<Fraction>>,
    /// What was seen.
    pub note: Option<Located<String>>,
    /// Where it stands.
    pub span: Span,
}
