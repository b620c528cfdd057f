//! An oven while something bakes in it: the door that was open, its element and thermostat, what stands on its shelves.
//!
//! # Relation
//! C dT/dt = P - U (T - `T_room`) - Q, with P whatever holds T at the dial, between nothing and all that the
//! element gives. The air is T + s sin(2 pi t / p) - (T - `T_room`)/6 exp(-t / 150 s).
//!
//! # Symbols
//! T, walls, °C; C, heat that they hold, J/K; U, loss through them, W/K; P, W; Q, heat that the bread takes up,
//! W, from the section that is followed; s, half the thermostat's swing, K; p, its period, s.
//!
//! # Valid for
//! Home ovens of 2 to 3.5 kW, 120 to 260 °C.
//!
//! # Source
//! 2.5 kW, 3 W/K and 12 kJ/K are from memory: so an oven takes 16 min to 200 °C and 8 min to fall by
//! 25 °C (common practice). The fall at the door and a swing of 8 min: from memory.
//!
//! # Departures
//! Trays in the oven at once are taken to be loaded alike. Half of each of two hides from the walls behind
//! the other: what faces it sees the other's surface instead. Tins and trays are no load of their own.
//!
//! # Checked by
//! The tests below; no baker has measured its ovens.

use super::around;
use super::body::Body;
use super::surround::Surround;
use crate::kitchen::Kitchen;
use numerics::math::{exp, sin};
use numerics::quantity::{Mass, Temperature};
use recipe::document::model::{OvenPhase, Product, TinSize};

/// What an element gives, W.
const ELEMENT_W: f64 = 2500.0;
/// What goes through the walls, W/K.
const LOSS_W_PER_K: f64 = 3.0;
/// What the walls hold, J/K.
const HOLDS_J_PER_K: f64 = 12_000.0;
/// Period of a thermostat's swing, s.
const SWING_S: f64 = 480.0;
/// The share of its height over the room by which the air falls when the door is opened.
const DOOR: f64 = 1.0 / 6.0;
/// How fast it comes back, s.
const DOOR_S: f64 = 150.0;

/// An oven with a product in it.
pub struct OvenRun<'a> {
    kitchen: &'a Kitchen,
    product: &'a Product,
    phases: &'a [OvenPhase],
    with_fan: bool,
    in_tin: bool,
    /// How many of the sections that are followed stand in it.
    times: f64,
    walls_c: f64,
    at_s: f64,
    taken_j: f64,
}

impl<'a> OvenRun<'a> {
    /// Loaded at this moment with all pieces of a product, on as many shelves as the kitchen says.
    pub fn loaded(
        kitchen: &'a Kitchen,
        product: &'a Product,
        phases: &'a [OvenPhase],
        with_fan: bool,
        body: &Body<f64>,
    ) -> Self {
        let piece: Mass = recipe::formula::piece_mass(&product.piece.value);
        let all = piece.si() * f64::from(product.count.value) * f64::from(kitchen.oven.shelves);
        let mut run = Self {
            kitchen,
            product,
            phases,
            with_fan,
            in_tin: product
                .tin
                .as_ref()
                .is_some_and(|tin| !matches!(tin.size.value, TinSize::Tray { .. })),
            times: all / body.section_mass().si().max(1e-9),
            walls_c: 0.0,
            at_s: 0.0,
            taken_j: body.taken(),
        };
        run.walls_c = run.wanted_c(0.0) - kitchen.oven.short.si();
        run
    }

    /// What the thermostat holds, °C.
    fn wanted_c(&self, since_s: f64) -> f64 {
        let phase = phase_at(self.phases, since_s);
        let dial = around::dial_here(self.kitchen, phase.at.value, self.with_fan);
        (dial + self.kitchen.oven.hotter).celsius()
    }

    /// The air so long after it was loaded, and what stands around a piece; asked in the order of time.
    pub fn around(&mut self, since_s: f64, body: &Body<f64>) -> (Temperature, Surround<f64>) {
        let room = self.kitchen.room.celsius();
        let passed_s = since_s - self.at_s;
        if passed_s > 0.0 {
            let bread_w = (body.taken() - self.taken_j) / passed_s * self.times;
            self.walls_c = walls_after(
                self.walls_c,
                self.wanted_c(since_s),
                room,
                bread_w,
                passed_s,
            );
            (self.at_s, self.taken_j) = (since_s, body.taken());
        }
        let swing =
            self.kitchen.oven.swing.si() * sin(2.0 * std::f64::consts::PI * since_s / SWING_S);
        let door = (self.walls_c - room) * DOOR * exp(-since_s / DOOR_S);
        let air = Temperature::from_celsius(self.walls_c + swing - door);
        let phase = phase_at(self.phases, since_s);
        let is = |word: &Option<recipe::source::Located<bool>>| {
            word.as_ref().is_some_and(|word| word.value)
        };
        let tin = self.product.tin.as_ref();
        let (steam, foil) = (is(&phase.steam), is(&phase.foil));
        let mut around = around::baking(self.kitchen, air, tin, self.in_tin, steam, foil);
        let shelves = f64::from(self.kitchen.oven.shelves.max(1));
        let hidden = (shelves - 1.0) / shelves;
        if hidden > 0.0 {
            let (under, over) = (body.underside(), body.outside());
            around.top.walls += hidden * (under - around.top.walls);
            around.bottom.walls += hidden * (over - around.bottom.walls);
        }
        (air, around)
    }
}

/// The walls a short while later, °C: with no more than the element gives, and no less than nothing.
fn walls_after(walls_c: f64, wanted_c: f64, room_c: f64, bread_w: f64, passed_s: f64) -> f64 {
    let falls = LOSS_W_PER_K * (walls_c - room_c) + bread_w;
    let free = walls_c - falls * passed_s / HOLDS_J_PER_K;
    let most = free + ELEMENT_W * passed_s / HOLDS_J_PER_K;
    wanted_c.max(free).min(most)
}

/// The setting that an oven is at, so long after it was loaded.
pub fn phase_at(phases: &[OvenPhase], since_s: f64) -> &OvenPhase {
    let mut until_s = 0.0;
    for phase in phases {
        until_s += phase.timing.usual.value.si();
        if since_s < until_s {
            return phase;
        }
    }
    &phases[phases.len() - 1]
}

#[cfg(test)]
mod tests {
    use super::{ELEMENT_W, HOLDS_J_PER_K, LOSS_W_PER_K, walls_after};
    use numerics::math::exp;

    /// Steps of 10 s for so many minutes.
    fn after(from: f64, wanted: f64, bread_w: f64, minutes: usize) -> f64 {
        (0..6 * minutes).fold(from, |walls, _| {
            walls_after(walls, wanted, 20.0, bread_w, 10.0)
        })
    }

    #[test]
    fn an_oven_turned_down_falls_as_a_body_that_loses_heat_does() {
        let exact =
            |minutes: f64| 20.0 + 210.0 * exp(-LOSS_W_PER_K * 60.0 * minutes / HOLDS_J_PER_K);
        for minutes in [1_u8, 4, 8] {
            let miss = after(230.0, 180.0, 0.0, minutes.into()) - exact(minutes.into());
            assert!(miss.abs() < 0.05, "{minutes} min: {miss}");
        }
        assert!(
            (after(230.0, 205.0, 0.0, 30) - 205.0).abs() < 1e-9,
            "it stays at its dial"
        );
    }

    #[test]
    fn an_oven_that_is_heated_rises_as_its_element_lets_it() {
        let ends = 20.0 + ELEMENT_W / LOSS_W_PER_K;
        let exact = |minutes: f64| {
            ends - (ends - 20.0) * exp(-LOSS_W_PER_K * 60.0 * minutes / HOLDS_J_PER_K)
        };
        for minutes in [4_u8, 8, 14] {
            let miss = after(20.0, 250.0, 0.0, minutes.into()) - exact(minutes.into());
            assert!(miss.abs() < 0.3, "{minutes} min: {miss}");
        }
        assert!(
            (after(20.0, 200.0, 0.0, 30) - 200.0).abs() < 1e-9,
            "it stays at its dial"
        );
    }

    #[test]
    fn more_bread_than_the_element_can_feed_cools_it() {
        let most = ELEMENT_W - LOSS_W_PER_K * 180.0;
        assert!((after(200.0, 200.0, 0.99 * most, 5) - 200.0).abs() < 1e-9);
        assert!(after(200.0, 200.0, 1.2 * most, 5) < 198.0);
    }
}
