//! Explicit steps in time for a round section of dough: Euler's, and Runge and Kutta's held stable by Legendre.
//!
//! # Relation
//! Heat, J/m3 from 0 °C, changes by what flows over a cell's four faces. Between wet and dry stands the
//! plateau of boiling. Two ways to go on by it: u + τ f(u), stable to τ = 2/λ; and s stages whose polynomial
//! of stability is Legendre's, of the second order, stable to τ = (s² + s − 2)/4 · 2/λ.
//!
//! # Symbols
//! u, heat, J/m3; f, its change, W/m3; τ, step, s; λ, largest rate at which a difference between cells goes
//! away, 1/s; s, stages.
//!
//! # Valid for
//! The section of `xtask::validation::fronts::Section`: bare sides, one oven, constant heats, no swelling.
//!
//! # Source
//! Legendre's stages: C. D. Meyer, D. S. Balsara and T. D. Aslam, J. Comput. Phys. 257 (2014) 594, the
//! coefficients of the second order (from memory; that the order is two is tried below). The flow between
//! cells: as `numerics::section` and `bake::simulate::body`.
//!
//! # Departures
//! None in the stages. A surface is found anew in each of them by two of Newton's steps from where it was.
//!
//! # Checked by
//! The tests below and those of [`crate::stepping`].

use numerics::lane::{Curve, Lane};
use xtask::validation::fronts::{CRUST, DRY, LATENT, Section, WET, published_fit};

/// Where its water boils, °C.
const BOILS: f64 = 100.0;

/// Stefan and Boltzmann's constant, W/(m2 K4).
const STEFAN: f64 = 5.670_374e-8;

/// Least part of a boiling cell that heat still passes on either side of its middle; the simulator's.
const LEAST_LEFT: f64 = 0.02;

/// A section whose change of heat can be asked for.
#[derive(Clone, Debug)]
pub struct Change<L> {
    across: usize,
    up: usize,
    half_across_m: Vec<f64>,
    half_up_m: Vec<f64>,
    /// 2 π r of every edge but the innermost, m.
    turns_m: Vec<f64>,
    base_m2: Vec<f64>,
    volume_m3: Vec<f64>,
    per_volume: Vec<f64>,
    oven: f64,
    film: f64,
    emissivity: f64,
    /// One over the published conductivity, m K/W over °C, as finely tabulated as the simulator has it.
    wet: Curve,
    celsius: Vec<L>,
    outer: Vec<L>,
    inner: Vec<L>,
    side: Vec<L>,
    bottom: Vec<L>,
    top: Vec<L>,
    /// What each cell conducts in all, W/K; written when asked for.
    conducts: Vec<L>,
    /// How often the change was asked for.
    pub evaluations: u64,
}

impl<L: Lane> Change<L> {
    /// A section of round dough.
    pub fn of(section: &Section) -> Self {
        let mesh = &section.mesh;
        let (across, up) = (mesh.cells_across(), mesh.cells_up());
        let halves = |edges: &[f64]| -> Vec<f64> {
            let pairs = edges.windows(2);
            pairs.map(|pair| 0.5 * (pair[1] - pair[0])).collect()
        };
        let volume_m3: Vec<f64> = (0..up)
            .flat_map(|row| (0..across).map(move |column| mesh.volume_m3(column, row)))
            .collect();
        let zero = vec![L::splat(0.0); across * up];
        let at = |count| vec![L::splat(section.start); count];
        let edges = mesh.across_m()[1..].iter();
        Self {
            across,
            up,
            half_across_m: halves(mesh.across_m()),
            half_up_m: halves(mesh.up_m()),
            turns_m: edges.map(|r| 2.0 * std::f64::consts::PI * r).collect(),
            base_m2: (0..across).map(|column| mesh.base_m2(column)).collect(),
            per_volume: volume_m3.iter().map(|volume| 1.0 / volume).collect(),
            volume_m3,
            oven: section.oven,
            film: section.film,
            emissivity: section.emissivity,
            wet: Curve::of(-20.0, 110.0, 260, |celsius| 1.0 / published_fit(celsius)),
            celsius: zero.clone(),
            outer: zero.clone(),
            inner: zero.clone(),
            conducts: zero,
            side: at(up),
            bottom: at(across),
            top: at(across),
            evaluations: 0,
        }
    }

    /// Heat of every cell at the start, J/m3.
    pub fn start(&self, celsius: f64) -> Vec<L> {
        vec![L::splat(WET * celsius); self.across * self.up]
    }

    /// Temperature at a heat, °C.
    fn celsius(heat: L) -> L {
        let full = L::splat(WET * BOILS);
        let over = (heat - L::splat(WET * BOILS + LATENT)).max(L::splat(0.0));
        heat.min(full) * L::splat(1.0 / WET) + over * L::splat(1.0 / DRY)
    }

    /// Share of its water that has gone.
    fn dry(heat: L) -> L {
        ((heat - L::splat(WET * BOILS)) * L::splat(1.0 / LATENT))
            .within(L::splat(0.0), L::splat(1.0))
    }

    /// The middle, °C: between the two cells on either side of it.
    pub fn middle(&self, heat: &[L]) -> L {
        let above = self.up / 2 * self.across;
        let below = above - self.across;
        (Self::celsius(heat[below]) + Self::celsius(heat[above])) * L::splat(0.5)
    }

    /// Share of all of its water that has gone.
    pub fn dried(&self, heat: &[L]) -> L {
        let mut sum = L::splat(0.0);
        for (heat, volume) in heat.iter().zip(&self.volume_m3) {
            sum += Self::dry(*heat) * L::splat(*volume);
        }
        sum * L::splat(1.0 / self.volume_m3.iter().sum::<f64>())
    }

    /// How fast every cell's heat changes, W/m3.
    pub fn at(&mut self, heat: &[L], change: &mut [L]) {
        self.flows::<false>(heat, change);
        self.evaluations += 1;
    }

    /// The longest stable step of Euler at this heat, s: by the circles of Gershgorin, the slope of the
    /// conductivity left out. A cell that boils does not answer, and so sets no limit.
    pub fn stable_s(&mut self, heat: &[L], change: &mut [L]) -> f64 {
        self.flows::<true>(heat, change);
        let mut least = f64::INFINITY;
        for (cell, heat) in heat.iter().enumerate() {
            let heat = heat.lane(0);
            let capacity = if heat < WET * BOILS {
                WET
            } else if heat < WET * BOILS + LATENT {
                continue;
            } else {
                DRY
            };
            least = least.min(capacity * self.volume_m3[cell] / self.conducts[cell].lane(0));
        }
        least
    }

    fn flows<const SUMS: bool>(&mut self, heat: &[L], change: &mut [L]) {
        let (across, up) = (self.across, self.up);
        self.look_up(heat);
        change.fill(L::splat(0.0));
        if SUMS {
            self.conducts.fill(L::splat(0.0));
        }
        for row in 0..up {
            let cells = row * across..(row + 1) * across;
            let (celsius, outer) = (&self.celsius[cells.clone()], &self.outer[cells.clone()]);
            let (inner, change) = (&self.inner[cells.clone()], &mut change[cells.clone()]);
            let height = 2.0 * self.half_up_m[row];
            for column in 0..across - 1 {
                let next = column + 1;
                let resists = L::splat(self.half_across_m[column]) * outer[column]
                    + L::splat(self.half_across_m[next]) * inner[next];
                let passes = L::splat(height * self.turns_m[column]) / resists;
                let flow = passes * (celsius[next] - celsius[column]);
                change[column] += flow;
                change[next] = change[next] - flow;
                if SUMS {
                    self.conducts[cells.start + column] += passes;
                    self.conducts[cells.start + next] += passes;
                }
            }
        }
        for row in 0..up - 1 {
            let (here, next) = (row * across, (row + 1) * across);
            let (low, high) = (self.half_up_m[row], self.half_up_m[row + 1]);
            // The dry part of a boiling cell lies away from the middle of the section.
            let after = if row < up / 2 {
                &self.inner
            } else {
                &self.outer
            };
            let before = if row + 1 < up / 2 {
                &self.outer
            } else {
                &self.inner
            };
            for column in 0..across {
                let (one, other) = (here + column, next + column);
                let resists = L::splat(low) * after[one] + L::splat(high) * before[other];
                let passes = L::splat(self.base_m2[column]) / resists;
                let flow = passes * (self.celsius[other] - self.celsius[one]);
                change[one] += flow;
                change[other] = change[other] - flow;
                if SUMS {
                    self.conducts[one] += passes;
                    self.conducts[other] += passes;
                }
            }
        }
        self.outside::<SUMS>(change);
        for (change, per_volume) in change.iter_mut().zip(&self.per_volume) {
            *change = *change * L::splat(*per_volume);
        }
    }

    /// Temperature and resistivities of every cell.
    fn look_up(&mut self, heat: &[L]) {
        let (zero, one, two) = (L::splat(0.0), L::splat(1.0), L::splat(2.0));
        let (full, least) = (L::splat(WET * BOILS), L::splat(LEAST_LEFT));
        let crust = L::splat(1.0 / CRUST);
        for (cell, heat) in heat.iter().enumerate() {
            let celsius = Self::celsius(*heat);
            let share = Self::dry(*heat);
            let wet = celsius.along(&self.wet);
            let mixed = wet + (crust - wet) * share;
            let boils = share.if_at_least(one, zero, heat.if_at_least(full, one, zero));
            let outer = two * share.max(least) * crust;
            let inner = two * (one - share).max(least) * wet;
            self.celsius[cell] = celsius;
            self.outer[cell] = mixed + (outer - mixed) * boils;
            self.inner[cell] = mixed + (inner - mixed) * boils;
        }
    }

    /// Adds what the oven gives on all three sides, W.
    fn outside<const SUMS: bool>(&mut self, change: &mut [L]) {
        let (across, up) = (self.across, self.up);
        let half_side = self.half_across_m[across - 1];
        let (half_bottom, half_top) = (self.half_up_m[0], self.half_up_m[up - 1]);
        let radiates = L::splat(STEFAN * self.emissivity);
        let (oven, film) = (L::splat(self.oven), L::splat(self.film));
        let zero = L::splat(273.15);
        let hot = oven + zero;
        let from_walls = radiates * hot * hot * hot * hot;
        let mut meet = |surface: &mut L, cell: usize, half_m: f64, area_m2: f64| {
            let inward = L::splat(1.0 / half_m) / self.outer[cell];
            let celsius = self.celsius[cell];
            for _ in 0..2 {
                let kelvin = *surface + zero;
                let cubed = radiates * kelvin * kelvin * kelvin;
                let gives = film * (oven - *surface) + from_walls - cubed * kelvin;
                let off = gives - (*surface - celsius) * inward;
                let slope = film + L::splat(4.0) * cubed + inward;
                *surface += off / slope;
            }
            change[cell] += (*surface - celsius) * inward * L::splat(area_m2);
            if SUMS {
                let kelvin = *surface + zero;
                let out = film + L::splat(4.0) * radiates * kelvin * kelvin * kelvin;
                self.conducts[cell] += inward * out / (inward + out) * L::splat(area_m2);
            }
        };
        for (row, surface) in self.side.iter_mut().enumerate() {
            let area = 2.0 * self.half_up_m[row] * self.turns_m[across - 1];
            meet(surface, row * across + across - 1, half_side, area);
        }
        for (column, surface) in self.bottom.iter_mut().enumerate() {
            meet(surface, column, half_bottom, self.base_m2[column]);
        }
        for (column, surface) in self.top.iter_mut().enumerate() {
            let cell = (up - 1) * across + column;
            meet(surface, cell, half_top, self.base_m2[column]);
        }
    }
}

/// One step of Euler, s.
pub fn euler<L: Lane>(
    heat: &mut [L],
    change: &mut [L],
    step_s: f64,
    mut at: impl FnMut(&[L], &mut [L]),
) {
    at(heat, change);
    let step = L::splat(step_s);
    for (heat, change) in heat.iter_mut().zip(change.iter()) {
        *heat += step * *change;
    }
}

/// Legendre's stages, with room to work in.
#[derive(Clone, Debug)]
pub struct Legendre<L> {
    stages: usize,
    first_change: Vec<L>,
    start: Vec<L>,
    before: Vec<L>,
    change: Vec<L>,
}

/// How many stages carry a step so many times as long as Euler's longest: an odd number, as the authors advise.
pub fn stages_for(times: f64) -> usize {
    let mut stages = 3;
    while ((stages * stages + stages - 2) as f64) < 4.0 * times {
        stages += 2;
    }
    stages
}

impl<L: Lane> Legendre<L> {
    /// So many stages for so many cells.
    pub fn of(stages: usize, cells: usize) -> Self {
        let room = vec![L::splat(0.0); cells];
        Self {
            stages,
            first_change: room.clone(),
            start: room.clone(),
            before: room.clone(),
            change: room,
        }
    }

    /// One step, s.
    pub fn step(&mut self, heat: &mut [L], step_s: f64, mut at: impl FnMut(&[L], &mut [L])) {
        let s = self.stages as f64;
        let per_stage = 4.0 / (s * s + s - 2.0);
        let weight = |stage: f64| {
            if stage < 2.0 {
                1.0 / 3.0
            } else {
                (stage * stage + stage - 2.0) / (2.0 * stage * (stage + 1.0))
            }
        };
        self.start.copy_from_slice(heat);
        self.before.copy_from_slice(heat);
        at(heat, &mut self.first_change);
        let first = L::splat(weight(1.0) * per_stage * step_s);
        for (heat, change) in heat.iter_mut().zip(&self.first_change) {
            *heat += first * *change;
        }
        for stage in 2..=self.stages {
            let j = stage as f64;
            let last = (2.0 * j - 1.0) / j * weight(j) / weight(j - 1.0);
            let one_before = -(j - 1.0) / j * weight(j) / weight(j - 2.0);
            let by_change = last * per_stage;
            let by_first = -(1.0 - weight(j - 1.0)) * by_change;
            let by_start = L::splat(1.0 - last - one_before);
            let (by_change, by_first) = (L::splat(by_change * step_s), L::splat(by_first * step_s));
            let (last, one_before) = (L::splat(last), L::splat(one_before));
            at(heat, &mut self.change);
            let kept = self.start.iter().zip(&self.first_change);
            let moving = heat.iter_mut().zip(&mut self.before).zip(&self.change);
            for (((heat, before), change), (start, first)) in moving.zip(kept) {
                let next = last * *heat
                    + one_before * *before
                    + by_start * *start
                    + by_change * *change
                    + by_first * *first;
                *before = *heat;
                *heat = next;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is left of 1 after a time of 1 by so many steps, off what it should be, exp(-1).
    fn off(stages: usize, steps: u32) -> f64 {
        let mut left = [1.0_f64];
        let mut legendre = Legendre::of(stages, 1);
        for _ in 0..steps {
            legendre.step(&mut left, 1.0 / f64::from(steps), |is, change| {
                change[0] = -is[0];
            });
        }
        left[0] - (-1.0_f64).exp()
    }

    /// Half the step, a quarter of the error: the order that the authors claim.
    #[test]
    fn legendre_is_of_the_second_order() {
        for stages in [3, 5, 11, 23] {
            let order = (off(stages, 20) / off(stages, 40)).log2();
            assert!((order - 2.0).abs() < 0.05, "{stages} stages: {order}");
        }
    }

    /// Up to the authors' limit nothing grows, half as far again something does (an odd number reaches a little further).
    #[test]
    fn legendre_is_stable_as_far_as_its_stages_reach() {
        for stages in [3_usize, 5, 11, 23] {
            let reach = (stages * stages + stages - 2) as f64 / 2.0;
            let grows = |rate: f64| {
                let mut left = [1.0_f64];
                Legendre::of(stages, 1).step(&mut left, 1.0, |is, change| {
                    change[0] = -rate * is[0];
                });
                left[0].abs()
            };
            for tenth in 1..=10 {
                let rate = reach * f64::from(tenth) / 10.0;
                assert!(grows(rate) <= 1.0 + 1e-9, "{stages} stages at {rate}");
            }
            assert!(grows(1.5 * reach) > 1.0, "{stages} stages");
        }
    }

    #[test]
    fn stages_carry_what_is_asked_of_them() {
        // (s² + s − 2) / 4: 2.5 for three stages, 7 for five, 32.5 for eleven.
        assert_eq!(stages_for(2.5), 3);
        assert_eq!(stages_for(2.6), 5);
        assert_eq!(stages_for(32.5), 11);
        assert_eq!(stages_for(33.0), 13);
    }
}
