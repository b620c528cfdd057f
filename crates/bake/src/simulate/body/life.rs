//! What lives in a body and what changes for good: gas, growth, starch, colour, and how far it swells.

use super::super::matter::{FERMENTATION_J_PER_MOL, Matter};
use super::{Body, Room, cells};
use crate::physics::crust;
use crate::physics::yeast::GROWS_AFTER_S;
use numerics::lane::Lane;
use numerics::section::{Solid, Stretch};

/// Free sugar at which the yeast works at half its rate, mol of hexose in a kilogram (from memory:
/// a few grams a kilogram).
const FED_HALF: f64 = 0.01;

impl<L: Lane> Body<L> {
    /// Moves on what lives and what changes for good, s: gas, growth, starch, colour, volume.
    pub fn live(&mut self, matter: &Matter, step_s: f64) {
        let step = L::splat(step_s);
        let (zero, one, half) = (L::splat(0.0), L::splat(1.0), L::splat(0.5));
        let n = self.celsius.len();
        let [warmth, dying, swelling, dissolves, vapour, growing] =
            self.room_for.each_mut().map(|list| &mut list[..n]);
        for (cell, celsius) in self.celsius.iter().enumerate() {
            [
                warmth[cell],
                dying[cell],
                swelling[cell],
                dissolves[cell],
                vapour[cell],
                growing[cell],
            ] = celsius.along_all(&matter.life);
        }
        // What grows is listed where heat's flows are: nothing flows now.
        cells::live(
            matter,
            (step, self.kept),
            &self.celsius,
            &self.room_for,
            cells::Living {
                alive: &mut self.alive,
                set: &mut self.set,
                swollen: &mut self.swollen,
                works: &mut self.works,
                grows: &mut self.heat_j,
            },
        );
        let rate = cells::sum(&self.works, &self.parts);
        let growth = cells::sum(&self.heat_j, &self.parts);
        self.age += step;
        let (from, to) = GROWS_AFTER_S;
        let begun = ((self.age - L::splat(from)) * L::splat(1.0 / (to - from))).within(zero, one);
        let room = (one - self.grown * L::splat(matter.crowd)).max(zero);
        self.grown += self.grown * growth * begun * room * step;
        let lag = one - (-(self.age * L::splat(1.0 / matter.lag))).each(numerics::math::exp);
        let left = (L::splat(matter.fermentable) - half * self.made).max(zero);
        let fed = left / (left + L::splat(FED_HALF));
        let made = L::splat(matter.gassing) * self.grown * rate * lag * fed * step;
        self.stretch_out(matter);
        let keeps = ((L::splat(matter.keeps_none_at) - self.volume())
            * L::splat(1.0 / (matter.keeps_none_at - matter.keeps_all_to)))
        .within(zero, one);
        self.made += made;
        self.kept += made * keeps;
        // Its heat goes where it is made.
        let each = made * L::splat(FERMENTATION_J_PER_MOL) / rate.max(L::splat(1e-12));
        if !each.is_nought() {
            for cell in 0..self.heat.len() {
                let warms = each * self.works[cell];
                self.heat[cell] += warms;
                self.celsius[cell] += warms * self.per_capacity[cell];
            }
        }
        let burnt = L::splat(crust::BURNT);
        for rim in [&mut self.bottom, &mut self.side, &mut self.top] {
            for (lightness, surface) in rim.lightness.iter_mut().zip(&rim.surface) {
                *lightness =
                    burnt + (*lightness - burnt) / (one + step * surface.along(&matter.darkening));
            }
        }
    }

    /// How far the section is stretched by what its cells have swollen to, and what they conduct
    /// without water.
    pub(super) fn stretch_out(&mut self, matter: &Matter) {
        let one = L::splat(1.0);
        cells::open(
            matter,
            &self.swollen,
            &mut self.bubbles,
            &mut self.without_water,
        );
        let volume = self.volume();
        self.stretch = match (self.room, self.mesh.solid()) {
            (Room::Up, _) => Stretch {
                across: one,
                up: volume,
            },
            (Room::Every, Solid::Prism) => {
                let each = volume.root();
                Stretch {
                    across: each,
                    up: each,
                }
            }
            (Room::Every, Solid::Round) => {
                let each = volume.each(|v| numerics::math::pow(v, 1.0 / 3.0));
                Stretch {
                    across: each,
                    up: each,
                }
            }
        };
    }

    /// Presses gas out: a fold or a shaping keeps this share of it.
    pub fn press(&mut self, keeps: f64, matter: &Matter) {
        self.kept = self.kept * L::splat(keeps);
        self.live(matter, 0.0);
    }
}
