//! A figure that somebody noted of a bake: what it is, what it is good for, what it pulls at.

use super::Factor;
use numerics::math::{exp, ln};
use recipe::source::Span;

/// A rise is seen to be over within so much of its time, by eye, and within three minutes (common practice).
pub const RISE_LN: f64 = 0.10;
/// Minutes to a core temperature: an oven's swing and its door, and a minute (common practice).
pub const CORE_LN: f64 = 0.05;
/// A crust's shade by eye, L* (common practice); twice that for dark, which goes far down.
pub const CRUST: f64 = 4.0;
/// A bread weighed, share of its raw mass (common practice).
pub const LOSS: f64 = 0.01;
/// A dough's temperature by a kitchen probe, K (common practice).
pub const DOUGH_K: f64 = 1.0;
/// Met: within twice what it is good for.
pub const MET: f64 = 2.0;

/// What was noted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum What {
    /// How long a rise took until its cue, s; the number of its step in the run.
    Rise(usize),
    /// How long a bake took until its middle read so much, °C, s.
    Core(f64),
    /// Lightness of the crust after the bake, L*.
    Crust,
    /// Share lost.
    Loss,
    /// Temperature after the mix, K.
    Dough,
}

/// A figure of a tested bake.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What.
    pub what: What,
    /// The same in words: "minutes until the middle of the braid reads 89 °C".
    pub words: String,
    /// As tested, SI.
    pub tested: f64,
    /// Its SI unit.
    pub unit: &'static str,
    /// Where it stands.
    pub span: Span,
}

impl Figure {
    /// The factor that it pulls at; none where it is only compared.
    pub const fn pulls(&self) -> Option<Factor> {
        match self.what {
            What::Rise(_) => Some(Factor::Vigour),
            What::Core(_) => Some(Factor::Vapour),
            What::Crust => Some(Factor::Browning),
            What::Loss | What::Dough => None,
        }
    }

    /// Whether it is compared by its logarithm.
    const fn by_ratio(&self) -> bool {
        matches!(self.what, What::Rise(_) | What::Core(_))
    }

    /// On the scale on which it is compared.
    pub fn scaled(&self, value: f64) -> f64 {
        if self.by_ratio() {
            ln(value.max(1.0))
        } else {
            value
        }
    }

    /// Back from that scale.
    pub fn unscaled(&self, value: f64) -> f64 {
        if self.by_ratio() { exp(value) } else { value }
    }

    /// What it is good for, on that scale.
    pub fn good_for(&self) -> f64 {
        let both = |share: f64, seconds: f64| {
            let other = seconds / self.tested.max(1.0);
            (share * share + other * other).sqrt()
        };
        match self.what {
            What::Rise(_) => both(RISE_LN, 180.0),
            What::Core(_) => both(CORE_LN, 60.0),
            What::Crust if self.tested < 60.0 => 2.0 * CRUST,
            What::Crust => CRUST,
            What::Loss => LOSS,
            What::Dough => DOUGH_K,
        }
    }

    /// How far a worked-out value is off, in what the figure is good for.
    pub fn off(&self, worked_out: f64) -> f64 {
        (self.scaled(worked_out) - self.scaled(self.tested)) / self.good_for()
    }

    /// How the figure changes with the logarithm of its factor, on its scale, before a second run shows it.
    pub fn slope(&self, worked_out: f64) -> f64 {
        match self.what {
            What::Rise(_) => -0.8,
            What::Core(_) => -0.25,
            // L = 85 exp(-b I), so dL/d(ln b) = L ln(L/85).
            What::Crust => {
                let light = worked_out.clamp(5.0, 84.9);
                light * ln(light / crate::physics::crust::OF_DOUGH)
            }
            What::Loss | What::Dough => 0.0,
        }
    }
}
