//! What is not known well of one kitchen: each thing with how far it may stray, and what a kitchen is with it.

use crate::anchor::Factor;
use crate::kitchen::{Friction, Kitchen, in_room};
use crate::kitchens::doubts;
use crate::simulate::Anchor;
use numerics::math::{exp, ln};
use numerics::quantity::{Temperature, TemperatureDifference};
use recipe::provenance::Had;

/// Normal score of nine of ten: the edge of a band that eight of ten keep.
pub const EDGE: f64 = 1.281_551_565_5;
/// What the air of a still home oven gives, W/(m2 K): of 18 to 22 in all (correlations worked out with `ht`).
pub const FILM: f64 = 20.0;

/// One thing that is not known well here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unknown {
    /// The gassing power of this yeast.
    Vigour,
    /// The part of the vapour's conductivity that acts.
    Vapour,
    /// How fast this crust browns.
    Browning,
    /// Air of the room on the day.
    Room,
    /// The warm place.
    WarmPlace,
    /// The refrigerator.
    Refrigerator,
    /// The work that mixing leaves in the dough.
    Friction,
    /// How much hotter the oven is than its dial.
    OvenOff,
    /// How much more heat the oven's air gives to what bakes.
    OvenFilm,
    /// How steeply the yeast answers to warmth.
    Warmth,
}

impl Unknown {
    /// All of them; the place of each is the coordinate of its draw, so that a new one is put at the end.
    pub const ALL: [Self; 10] = [
        Self::Vigour,
        Self::Vapour,
        Self::Browning,
        Self::Room,
        Self::WarmPlace,
        Self::Refrigerator,
        Self::Friction,
        Self::OvenOff,
        Self::OvenFilm,
        Self::Warmth,
    ];

    /// Its place in lists.
    pub const fn place(self) -> usize {
        self as usize
    }

    /// In a cook's words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Vigour => "the yeast’s power",
            Self::Vapour => "heat that vapour carries into the crumb",
            Self::Browning => "how fast the crust browns",
            Self::Room => "the room",
            Self::WarmPlace => "the warm place",
            Self::Refrigerator => "the refrigerator",
            Self::Friction => "how much mixing warms the dough",
            Self::OvenOff => "how true the oven’s dial is",
            Self::OvenFilm => "how much heat the oven’s air gives",
            Self::Warmth => "how steeply the yeast answers to warmth",
        }
    }

    /// Whether it is a factor, which strays by its logarithm; otherwise by degrees or W/(m2 K).
    pub const fn is_a_factor(self) -> bool {
        matches!(
            self,
            Self::Vigour | Self::Vapour | Self::Browning | Self::Friction | Self::Warmth
        )
    }

    /// The factor of tested bakes that it is.
    pub const fn of_tested_bakes(self) -> Option<Factor> {
        match self {
            Self::Vigour => Some(Factor::Vigour),
            Self::Vapour => Some(Factor::Vapour),
            Self::Browning => Some(Factor::Browning),
            _ => None,
        }
    }

    /// How far it usually strays, of its logarithm, K or W/(m2 K), and how that is had.
    ///
    /// Factors: as tested bakes leave them. Room ±1.5 °C, a figure written down another day; warm place
    /// ±2 °C, a box or an oven's lamp; refrigerator ±1.5 °C (between households 2.5 °C: New Zealand survey of 127
    /// refrigerators, second-hand; within one, less); a mixer's degrees ±24 % (5 ± 1.2 °C, from memory); an oven ±8 °C
    /// off its dial where nobody has measured and ±3 °C where somebody has (common practice, 10 °C between
    /// households); film ±3 W/(m2 K) (a still home oven gives 18 to 22 in all, correlations worked out with `ht`); the yeast's answer to
    /// warmth ±10 % (the relation is fitted to trade rules, `physics::yeast`).
    pub fn strays(self, anchor: &Anchor, tested: usize, kitchen: &Kitchen) -> (f64, Had) {
        if let Some(factor) = self.of_tested_bakes() {
            return (doubts::strays(anchor, tested, factor), Had::Derived);
        }
        let measured_oven = kitchen.oven.hotter.si().abs() > 1e-9;
        match self {
            Self::WarmPlace => (2.0, Had::CommonPractice),
            Self::Room | Self::Refrigerator => (1.5, Had::CommonPractice),
            Self::Friction => (0.24, Had::FromMemory),
            Self::Warmth => (0.1, Had::Derived),
            Self::OvenOff if measured_oven => (3.0, Had::CommonPractice),
            Self::OvenOff => (8.0, Had::CommonPractice),
            _ => (3.0, Had::Derived),
        }
    }

    /// What earlier bakes in this kitchen told of it, where they did: how far its middle lies off what the kitchen is
    /// written as, and how far it still strays to either side; of a logarithm, K or W/(m2 K).
    pub fn measured(self, kitchen: &Kitchen) -> Option<(f64, f64)> {
        let measured = &kitchen.measured;
        let within = |band: f64| band / EDGE;
        // A factor's logarithm strays by about as much as its share does.
        match self {
            Self::Vigour => measured
                .yeast
                .map(|(factor, band)| (ln(factor), within(band))),
            Self::OvenFilm => measured
                .oven_heat
                .map(|(factor, band)| ((factor - 1.0) * FILM, within(band) * FILM)),
            Self::Friction => measured.mixing_within.map(|band| (0.0, within(band))),
            Self::WarmPlace => measured.warm_place_within.map(|band| (0.0, within(band))),
            Self::Refrigerator => measured.refrigerator_within.map(|band| (0.0, within(band))),
            Self::OvenOff => measured.oven_within.map(|band| (0.0, within(band))),
            Self::Vapour | Self::Browning | Self::Room | Self::Warmth => None,
        }
    }

    /// Lowest and highest that is believed of how far it strays.
    pub fn believed(self) -> (f64, f64) {
        match self {
            Self::Browning => (ln(0.25), ln(4.0)),
            Self::Vigour | Self::Vapour | Self::Friction => (ln(0.4), ln(2.5)),
            Self::Warmth => (ln(0.7), ln(1.4)),
            Self::Room => (-8.0, 8.0),
            Self::WarmPlace => (-10.0, 10.0),
            Self::Refrigerator => (-6.0, 8.0),
            Self::OvenOff => (-40.0, 40.0),
            Self::OvenFilm => (-8.0, 12.0),
        }
    }
}

/// How far each strays in one possible kitchen, in the order of [`Unknown::ALL`]: a logarithm, K or W/(m2 K).
pub type Strayed = [f64; Unknown::ALL.len()];

/// A kitchen and its factors, each unknown strayed so far.
pub fn with(kitchen: &Kitchen, anchor: &Anchor, strayed: &Strayed) -> (Kitchen, Anchor) {
    let by = |unknown: Unknown| {
        let (low, high) = unknown.believed();
        strayed[unknown.place()].clamp(low, high)
    };
    let degrees = TemperatureDifference::from_si;
    let room = kitchen.room + degrees(by(Unknown::Room));
    let mut made = in_room(kitchen, room);
    // A warm place that is the room itself goes with it, and strays no more.
    if kitchen.warm_place != kitchen.room {
        made.warm_place = kitchen.warm_place + degrees(by(Unknown::WarmPlace));
    }
    let cold = kitchen.refrigerator + degrees(by(Unknown::Refrigerator));
    made.refrigerator =
        Temperature::from_celsius(cold.celsius().clamp(-1.0, 14.0).min(room.celsius()));
    let more = exp(by(Unknown::Friction));
    made.friction = match kitchen.friction {
        Friction::Power(power) => Friction::Power(power * more),
        Friction::Rise(rise) => Friction::Rise(rise * more),
    };
    made.oven.hotter = kitchen.oven.hotter + degrees(by(Unknown::OvenOff));
    made.oven.more_film_w_m2k = kitchen.oven.more_film_w_m2k + by(Unknown::OvenFilm);
    let factor = |unknown: Unknown, now: f64, factor: Factor| {
        let (low, high) = factor.range();
        (now * exp(by(unknown))).clamp(low, high)
    };
    let anchor = Anchor {
        vigour: factor(Unknown::Vigour, anchor.vigour, Factor::Vigour),
        vapour: factor(Unknown::Vapour, anchor.vapour, Factor::Vapour),
        browning: factor(Unknown::Browning, anchor.browning, Factor::Browning),
        warmth: anchor.warmth * exp(by(Unknown::Warmth)),
    };
    (made, anchor)
}
