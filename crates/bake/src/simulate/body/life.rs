//! What lives in a body and what changes for good: gas, growth, starch, colour, and how far it swells.

use super::super::matter::{FERMENTATION_J_PER_MOL, Matter};
use super::{Body, Room};
use crate::physics::crust;
use crate::physics::yeast::GROWS_AFTER_S;
use numerics::lane::Lane;
use numerics::section::{Solid, Stretch};

/// Free sugar at which the yeast works at half its rate, mol of hexose in a kilogram (from memory:
/// a few grams a kilogram).
const FED_HALF: f64 = 0.01;

/// Most of the air's pressure that vapour takes in a bubble before the bubble opens, 1: 75 °C at the
/// sea, where pores are read to open (71 to 81 °C).
const MOST_STEAM: f64 = 0.38;

impl<L: Lane> Body<L> {
    /// Moves on what lives and what changes for good, s: gas, growth, starch, colour, volume.
    pub fn live(&mut self, matter: &Matter, step_s: f64) {
        let step = L::splat(step_s);
        let (zero, one, half) = (L::splat(0.0), L::splat(1.0), L::splat(0.5));
        let air = L::splat(matter.beaten_in / (1.0 - matter.beaten_in) / 298.15);
        let gas = L::splat(8.314_46 * matter.density / matter.pressure) * self.kept;
        let pressure = L::splat(matter.pressure);
        let most_steam = L::splat(matter.pressure * MOST_STEAM);
        let (mut rate, mut growth) = (zero, zero);
        let share = 1.0 / self.all;
        for cell in 0..self.heat.len() {
            let [celsius, ..] = self.heat[cell].along_all(&matter.heat.curves);
            let [warmth, dying, swelling, dissolves, vapour, growing] =
                celsius.along_all(&matter.life);
            let alive = self.alive[cell] / (one + step * dying);
            let set = one - (one - self.set[cell]) / (one + step * swelling);
            self.alive[cell] = alive;
            self.set[cell] = set;
            let part = L::splat(self.mass[cell] * share);
            let works = warmth * alive;
            self.works[cell] = works;
            rate += works * part;
            growth += growing * alive * part;
            // The bubbles that the gas of the last look makes at this temperature; crumb that is set no
            // longer moves.
            let kelvin = celsius + L::splat(273.15);
            let air = air * kelvin;
            let all = gas * kelvin;
            let water = dissolves * L::splat(matter.water_volume);
            let b = air + water - all;
            let free = half * ((b * b + L::splat(4.0) * all * air).root() - b);
            let volume = one + (air + free) * pressure / (pressure - vapour.min(most_steam));
            let before = self.swollen[cell];
            self.swollen[cell] = before + (volume - before) * (one - set);
        }
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
        for (heat, works) in self.heat.iter_mut().zip(&self.works) {
            *heat += each * *works;
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
        let (solid, gas) = (
            L::splat(matter.heat.dry.solid),
            L::splat(matter.heat.dry.gas),
        );
        let solids = L::splat(1.0 - matter.heat.dry.water);
        let (twice, more, ratio) = (L::splat(2.0) * solid + gas, solid - gas, one / solid);
        for cell in 0..self.swollen.len() {
            let share = one / self.swollen[cell];
            self.bubbles[cell] = one - share;
            let holes = one - share * solids;
            let less = more * holes;
            self.without_water[cell] = ratio * (twice + less) / (twice - L::splat(2.0) * less);
        }
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
