//! How one reader's making differs from what is written: the figures by which a failure gets its cause.

use super::super::setup::Setup;
use recipe::larder::Role;

/// How one making differs; 1 is just as written where nothing else is said.
#[derive(Clone, Debug, PartialEq)]
#[allow(clippy::struct_excessive_bools)] // each is a thing that happened or did not
pub struct Facts {
    /// Flour taken against flour written.
    pub flour: f64,
    /// Water that the flour feels, against what is written: its moisture and its thirst in it.
    pub hydration: f64,
    /// The same as a share of the flour.
    pub hydration_of_flour: f64,
    /// Protein of the flour less that of the written one, share.
    pub protein_more: f64,
    /// Moisture of the flour less that of the written one, share.
    pub moisture_more: f64,
    /// Liquid taken against liquid written.
    pub liquid: f64,
    /// Salt against flour, against the written ratio.
    pub salt: f64,
    /// The same as a share of the flour.
    pub salt_of_flour: f64,
    /// Butter, share of the flour.
    pub butter_of_flour: f64,
    /// What the yeast can do, against what the written amount of fresh yeast can.
    pub yeast: f64,
    /// Power left in the yeast as bought.
    pub yeast_power: f64,
    /// The other dry yeast was used.
    pub other_yeast: bool,
    /// The yeast met liquid that kills.
    pub killed: bool,
    /// Flour, salt and yeast by cup and spoon.
    pub by_volume: bool,
    /// The salt of the spoon is dense coarse or flake.
    pub other_salt: bool,
    /// Salted butter was used.
    pub salted_butter: bool,
    /// Tablespoons of this for teaspoons.
    pub mixed_up: Option<Role>,
    /// This was left out.
    pub left_out: Option<Role>,
    /// Butter when it went in, less what is written, °C; none without butter.
    pub butter_warmer: Option<f64>,
    /// Air of the kitchen, °C.
    pub room_celsius: f64,
    /// The warm place, °C.
    pub warm_celsius: f64,
    /// The refrigerator, °C.
    pub refrigerator_celsius: f64,
    /// Height above the sea, m.
    pub altitude_m: f64,
    /// How much hotter the oven is than its dial, °C.
    pub oven_kelvin: f64,
    /// How much slower the oven is for being full, share of its minutes.
    pub slower: f64,
    /// Two trays were in it at once.
    pub two_trays: bool,
    /// The oven was not hot.
    pub not_preheated: bool,
    /// A fan blew that the recipe does not know of.
    pub fan: bool,
    /// °C on a dial of °F.
    pub dial_mixed_up: bool,
    /// How much the mix warms the dough, °C.
    pub mixing_kelvin: f64,
    /// By hand.
    pub by_hand: bool,
    /// Of what the tin is, by its place among the words of `pan`; none without a tin that was exchanged.
    pub pan: Option<usize>,
    /// What each product's tin holds against a gram of dough, against the written ratio; none without a tin.
    pub tin: Vec<Option<f64>>,
    /// The mass of each product's piece against the written one.
    pub piece: Vec<f64>,
    /// Goes by the clock.
    pub by_clock: bool,
    /// How much the dough is let grow, against what the sign says; what kept the cook away in it.
    pub sign: f64,
    /// Uses a thermometer.
    pub probe: bool,
    /// How far the thermometer is off, °C.
    pub probe_off: f64,
}

impl Facts {
    /// Just as written.
    pub fn written(setup: &Setup<'_>) -> Self {
        Self {
            flour: 1.0,
            hydration: 1.0,
            hydration_of_flour: 0.0,
            protein_more: 0.0,
            moisture_more: 0.0,
            liquid: 1.0,
            salt: 1.0,
            salt_of_flour: 0.0,
            butter_of_flour: 0.0,
            yeast: 1.0,
            yeast_power: 1.0,
            other_yeast: false,
            killed: false,
            by_volume: false,
            other_salt: false,
            salted_butter: false,
            mixed_up: None,
            left_out: None,
            butter_warmer: None,
            room_celsius: setup.kitchen.room.celsius(),
            warm_celsius: setup.kitchen.warm_place.celsius(),
            refrigerator_celsius: setup.kitchen.refrigerator.celsius(),
            altitude_m: 0.0,
            oven_kelvin: 0.0,
            slower: 0.0,
            two_trays: false,
            not_preheated: false,
            fan: false,
            dial_mixed_up: false,
            mixing_kelvin: 0.0,
            by_hand: false,
            pan: None,
            tin: vec![None; setup.recipe.products.len()],
            piece: vec![1.0; setup.recipe.products.len()],
            by_clock: false,
            sign: 1.0,
            probe: false,
            probe_off: 0.0,
        }
    }
}
