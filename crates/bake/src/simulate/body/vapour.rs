//! Where the water of a body goes: off a bare skin, inward from a wall, out through a dry crust.

use super::super::matter::Matter;
use super::super::surround::Surround;
use super::{Body, Which};
use crate::physics::steam::LATENT_J_PER_KG;
use numerics::lane::Lane;

/// How many cells in from its skin a body gives off vapour through what has dried.
const CRUST_CELLS: usize = 8;

/// Share of the vapour made at a wall that leaves along it; the rest goes inward. The middle between
/// both, for nothing read decides it; from 0.3 to 0.7 a loaf's time moves by less than 1 %.
const UP_THE_WALL: f64 = 0.5;

impl<L: Lane> Body<L> {
    /// Vapour leaves at boiling: `latent`, J, is its latent heat.
    pub(super) fn leaves(&mut self, matter: &Matter, latent: L) {
        self.gone += latent * L::splat(1.0 / LATENT_J_PER_KG);
        let as_liquid = matter.heat.water_per_latent * matter.heat.boils;
        self.carried_off += latent * L::splat(1.0 + as_liquid);
    }

    /// Water that dried off a bare side in this step.
    pub(super) fn dry_off(&mut self, matter: &Matter, which: Which) {
        let rim = match which {
            Which::Side => &self.side,
            Which::Bottom => &self.bottom,
            Which::Top => &self.top,
        };
        let water = L::splat(matter.heat.water_per_latent);
        for (face, (cell, _)) in rim.cells.iter().enumerate() {
            let latent = rim.drying[face];
            self.dried[*cell] += latent * L::splat(self.per_mass[*cell]);
            self.gone += latent * L::splat(1.0 / LATENT_J_PER_KG);
            self.carried_off += latent * water * self.celsius[*cell];
        }
    }

    /// Behind a wall vapour has no way out but along it to the open top: one part takes that. The other
    /// goes inward, as far as the crumb boils, settles in the first cell that does not and gives its
    /// heat; where a whole line boils, down to the middle, it has found an open way and leaves.
    pub(super) fn settle(&mut self, matter: &Matter, around: &Surround<L>) {
        // A corner cell passes its vapour on sideways alone, not twice.
        let all = self.side.cells.len();
        let (across, up) = (self.mesh.cells_across(), self.mesh.cells_up());
        let inner = across - usize::from(around.side.pan.is_some());
        let boils_at = L::splat(matter.heat.to_boiling);
        let latent = L::splat(matter.heat.latent);
        let water = L::splat(matter.heat.water_per_latent);
        let boils = L::splat(matter.heat.boils);
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let mut back = zero;
        for (rim, pan, faces, deep) in [
            (&self.side, around.side.pan.is_some(), all, across),
            (&self.bottom, around.bottom.pan.is_some(), inner, up / 2),
            (&self.top, around.top.pan.is_some(), inner, up / 2),
        ] {
            if !pan {
                continue;
            }
            for (cell, behind) in &rim.cells[..faces] {
                let (mut at, mut next) = (*cell, *behind);
                // J that look for a place.
                let mut vapour = self.boiled[at] * L::splat(self.mass[at] * (1.0 - UP_THE_WALL));
                for _ in 1..deep {
                    if vapour.is_nought() {
                        break;
                    }
                    (at, next) = (next, (2 * next).saturating_sub(at));
                    let more = vapour * L::splat(self.per_mass[at]);
                    let before = self.heat[at];
                    let [celsius, _, per_whole] = before.along_all(&matter.heat.curves);
                    let lift = one / (one - self.dried[at] * water * per_whole);
                    let heat = before + more * (one + water * (boils - celsius)) * lift;
                    let dried = self.dried[at] - more;
                    let over = (heat - boils_at).max(zero) / lift;
                    let goes = over.min((latent - dried).max(zero));
                    self.heat[at] = heat - goes * lift;
                    self.dried[at] = dried + goes;
                    vapour = goes * L::splat(self.mass[at]);
                    back += (more - goes) * L::splat(self.mass[at]);
                }
            }
        }
        self.leaves(matter, -back);
    }

    /// Bread out of the oven, s: behind a skin that has dried the crumb is still wet. Its vapour finds
    /// the way out through the crust, as far as the side lets it, and takes its heat from where it comes.
    pub fn breathe(&mut self, matter: &Matter, around: &Surround<L>, step_s: f64) {
        let step = L::splat(step_s);
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let solid = self.mesh.solid();
        let (base, high) = (self.stretch.base(solid), self.stretch.side(solid));
        let latent = L::splat(matter.heat.latent);
        let per_latent = L::splat(1.0 / matter.heat.latent.max(1.0));
        let water = L::splat(matter.heat.water_per_latent);
        let (across, up) = (self.mesh.cells_across(), self.mesh.cells_up());
        let (mut gone, mut carried) = (zero, zero);
        for (rim, side, times, deep) in [
            (&self.side, &around.side, high, across),
            (&self.bottom, &around.bottom, base, up),
            (&self.top, &around.top, base, up),
        ] {
            if side.pan.is_some() {
                continue;
            }
            let freely = side.dries * L::splat(LATENT_J_PER_KG) * times * step;
            for (face, (cell, behind)) in rim.cells.iter().enumerate() {
                let area = freely * L::splat(rim.areas[face]);
                // What the skin itself gives off is in its film already.
                let mut dry = (self.dried[*cell] * per_latent).within(zero, one);
                let (mut at, mut next) = (*cell, *behind);
                for _ in 1..(deep / 2).min(CRUST_CELLS) {
                    // One further in, as far again.
                    (at, next) = (next, (2 * next).saturating_sub(at));
                    let [celsius, _, per_whole] = self.heat[at].along_all(&matter.heat.curves);
                    let over = (celsius.along(&matter.vapour) - side.vapour).max(zero);
                    let holds = (latent - self.dried[at]).max(zero);
                    let wet = (holds * per_latent).min(one);
                    let goes = (area * dry * wet * over * L::splat(self.per_mass[at])).min(holds);
                    dry = dry * (one - wet);
                    let lift = one / (one - self.dried[at] * water * per_whole);
                    self.heat[at] = self.heat[at] - goes * lift;
                    self.dried[at] += goes;
                    let goes = goes * L::splat(self.mass[at]);
                    gone += goes;
                    carried += goes * (one + water * celsius);
                }
            }
        }
        self.gone += gone * L::splat(1.0 / LATENT_J_PER_KG);
        self.carried_off += carried;
        self.read(matter);
    }
}
