//! A reading at the bench: what was read, when, with what; and how well a possible bake goes with it.

use super::life::{Life, Seen};
use numerics::decimal::trimmed;
use numerics::distribution::normal_share;
use numerics::math::{exp, ln};
use numerics::quantity::{Duration, Fraction, Temperature};

/// What a temperature was read with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum By {
    /// A probe: 1 °C.
    #[default]
    Probe,
    /// A thermometer with a dial: 2.5 °C.
    Dial,
}

/// What was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum What {
    /// Temperature in the middle of the dough or the bread; after a mix, of the dough.
    Inside(Temperature, By),
    /// Air where it stands, or in the oven.
    Air(Temperature, By),
    /// So many times the volume at the step's beginning, by eye or by a mark.
    Grown(f64),
    /// The step's sign is there.
    Reached,
    /// The step's sign is not there yet.
    NotYet,
    /// Lightness of the crust by eye, L*.
    Crust(f64),
    /// Share of the raw mass lost, by scale.
    Lost(Fraction),
}

impl What {
    /// What a dough does that reads so: "reads 27 °C inside".
    pub fn of_a_dough(&self) -> String {
        let degrees = |at: &Temperature| format!("{}\u{a0}°C", trimmed(at.celsius(), 1));
        match self {
            Self::Inside(at, _) => format!("reads {} inside", degrees(at)),
            Self::Air(at, _) => format!("stands in air of {}", degrees(at)),
            Self::Grown(times) => {
                format!("has grown to {}\u{a0}times its volume", trimmed(*times, 1))
            }
            Self::Reached => "is ready".to_owned(),
            Self::NotYet => "is not ready".to_owned(),
            Self::Crust(_) => "has such a crust".to_owned(),
            Self::Lost(share) => format!("has lost {}\u{a0}%", trimmed(share.percent(), 1)),
        }
    }
}

/// A reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Number of the step on the page.
    pub step: usize,
    /// How long after the step began.
    pub after: Duration,
    /// What.
    pub what: What,
}

/// A probe's error, K (from memory: ±1 °C as sold).
pub const PROBE_K: f64 = 1.0;
/// A dial's, K (from memory).
pub const DIAL_K: f64 = 2.5;
/// An eye's for a volume, share (common practice).
pub const EYE: f64 = 0.10;
/// The clock's, s: when somebody looked (common practice).
pub const CLOCK_S: f64 = 120.0;
/// An eye's for a crust, L* (`anchor`).
pub const CRUST: f64 = crate::anchor::CRUST;
/// A scale's for a bread, share of its raw mass (`anchor`).
pub const LOST: f64 = crate::anchor::LOSS;

/// How far the reckoning of a step strays from a dough: of its minutes, as a logarithm. No less than the looks
/// of a rough grid are apart (a judgement; no rise of a baker has been held against it yet).
pub const STRAYS_LN: f64 = 0.05;
/// And of a temperature inside, K (`docs/validation.md`: chilled doughs are met within 1 °C).
pub const STRAYS_K: f64 = 0.7;

/// Air that is hotter bakes, °C.
const HOT: f64 = 100.0;

/// How the reckoning strays in one step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Strain {
    /// It takes e to this power times as long as reckoned.
    pub slower_ln: f64,
    /// It is so much warmer than reckoned, K.
    pub warmer_k: f64,
}

/// One possible bake: a life, and how the reckoning strays in each of its steps.
#[derive(Clone, Copy, Debug)]
pub struct Possible<'a> {
    /// The life.
    pub life: &'a Life,
    /// By the place of the step.
    pub strains: &'a [Strain],
}

impl Possible<'_> {
    /// How long a step really takes, s.
    pub fn lasts_s(&self, place: usize) -> f64 {
        let Some(step) = self.life.steps.get(place) else {
            return 0.0;
        };
        if step.by_sign {
            step.lasts_s * exp(self.strains[place].slower_ln)
        } else {
            step.lasts_s
        }
    }

    /// What a step really reads so many seconds after it began.
    pub fn reads(&self, place: usize, seen: Seen, after_s: f64) -> Option<f64> {
        let strain = self.strains[place];
        let step = self.life.steps.get(place)?;
        // What a dough has grown goes with its own pace; the warmth of one that stands goes with the minutes of the room.
        let stands = step.reads(Seen::Air, 0.0).is_some_and(|air| air < HOT);
        let after_s = match seen {
            Seen::Air | Seen::Middle | Seen::Mean if stands => after_s,
            _ => after_s * exp(-strain.slower_ln),
        };
        let read = step.reads(seen, after_s);
        match seen {
            Seen::Middle | Seen::Mean => {
                // After a mix nothing was followed yet.
                read.or(step.ends_celsius)
                    .map(|read| read + strain.warmer_k)
            }
            _ => read,
        }
    }

    /// What it would read less what was read, and the reading's error; none when it knows nothing of it, or the reading is no
    /// figure.
    pub fn off(&self, reading: &Reading) -> Option<(f64, f64)> {
        let place = reading.step.checked_sub(1)?;
        let step = self.life.steps.get(place)?;
        let after_s = reading.after.si();
        let seen = |seen: Seen| self.reads(place, seen, after_s);
        Some(match reading.what {
            What::Inside(read, by) => (seen(Seen::Middle)? - read.celsius(), error(by)),
            What::Air(read, by) => (seen(Seen::Air)? - read.celsius(), error(by)),
            What::Grown(times) => (ln(seen(Seen::Grown)?.max(0.1) / times.max(0.1)), EYE),
            What::Crust(lightness) => (seen(Seen::Lightness)? - lightness, CRUST),
            What::Lost(share) => (seen(Seen::Lost)? - share.si(), LOST),
            What::Reached if step.by_sign => {
                (self.lasts_s(place) - after_s, told_within_s(after_s))
            }
            What::Reached | What::NotYet => return None,
        })
    }

    /// The logarithm of how well it goes with a reading; none when it knows nothing of it.
    pub fn goes_with(&self, reading: &Reading) -> Option<f64> {
        if reading.what != What::NotYet {
            let (off, error) = self.off(reading)?;
            return Some(-0.5 * (off / error) * (off / error));
        }
        let place = reading.step.checked_sub(1)?;
        let after_s = reading.after.si();
        self.life.steps.get(place)?.by_sign.then(|| {
            let late = (self.lasts_s(place) - after_s) / told_within_s(after_s);
            ln(normal_share(late).max(1e-300))
        })
    }
}

/// How well somebody tells when a sign is there, s: by two minutes of the clock, and a twentieth of a long wait.
pub fn told_within_s(after_s: f64) -> f64 {
    let eye = 0.05 * after_s;
    (CLOCK_S * CLOCK_S + eye * eye).sqrt()
}

const fn error(by: By) -> f64 {
    match by {
        By::Probe => PROBE_K,
        By::Dial => DIAL_K,
    }
}
