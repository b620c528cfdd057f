//! The enthalpy balance of a mix, from what goes in to the dough and back to the liquid.
//!
//! # Relation
//! sum of `C_i` (`T_i` - `T_d`) + `C_bowl` (`T_bowl` - `T_d`) + `Q_hydration` + `Q_work` - `Q_dissolution`
//! - `Q_melting(T_d)` - `Q_ice(T_d)` = 0.
//!
//! # Symbols
//! C, heat capacity, J/K; `T_i`, what goes in, `T_d`, dough at the end, `T_bowl`, bowl, K; Q, heat, J.
//!
//! # Valid for
//! A mix of some minutes in which nothing freezes; -40 to 150 °C.
//!
//! # Source
//! The first law; which terms a dough has: the trade's and the textbooks' (see `physics::heats`).
//!
//! # Departures
//! Heat lost to the air is left out (less than 1 kJ for a kilogram in ten minutes). A rise that the
//! cook measured holds everything that warms and cools in the mix, so the work is what is left of
//! it when the other terms are taken away; it can come out below nothing.
//!
//! # Checked by
//! `tests/verification/mix.rs`, `tests/identities/mix.rs`.

use super::model::{Balance, Share};
use crate::physics::{ice, milk_fat};
use numerics::quantity::{Energy, HeatCapacity, Mass, Temperature, TemperatureDifference};

/// Everything that goes into a mix, before its end is known.
#[derive(Clone, Debug, PartialEq)]
pub struct Parts {
    /// Name of the stage.
    pub stage: String,
    /// What goes in.
    pub shares: Vec<Share>,
    /// The part of the bowl that follows the dough.
    pub bowl: Share,
    /// Heat set free when dry flour takes up water.
    pub hydration: Energy,
    /// What the mixer or the hands do.
    pub work: Work,
    /// Heat taken by dissolving sugar and salt.
    pub dissolution: Energy,
    /// Heat taken by softening butter.
    pub melting: Melting,
    /// Ice that goes in besides the shares.
    pub ice: Option<Ice>,
}

/// What warms a dough by motion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Work {
    /// Work left in the dough.
    Heat(Energy),
    /// What the cook measured: dough less the mean of all that went in, each by its heat capacity.
    NetRise(TemperatureDifference),
}

/// What butter takes.
#[derive(Clone, Debug, PartialEq)]
pub enum Melting {
    /// A known heat.
    Heat(Energy),
    /// Milk fat, each lot with its temperature; what it takes depends on where the dough ends.
    Butter(Vec<(Mass, Temperature)>),
}

/// Ice: its mass and temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ice {
    /// Its mass.
    pub mass: Mass,
    /// Its temperature.
    pub at: Temperature,
}

impl Melting {
    /// What it takes when the dough ends so.
    pub fn taken(&self, ends: Temperature) -> Energy {
        match self {
            Self::Heat(heat) => *heat,
            Self::Butter(lots) => lots
                .iter()
                .map(|(fat, at)| milk_fat::melting(*fat, *at, ends))
                .sum(),
        }
    }
}

impl Parts {
    /// Heat that warms everything, bowl included, by one kelvin.
    pub fn heat_capacity(&self) -> HeatCapacity {
        self.shares
            .iter()
            .map(|share| share.heat_capacity)
            .sum::<HeatCapacity>()
            + self.bowl.heat_capacity
    }

    /// Mass of what goes in, ice included.
    pub fn mass(&self) -> Mass {
        self.shares.iter().map(|share| share.mass).sum::<Mass>()
            + self.ice.map_or(Mass::ZERO, |ice| ice.mass)
    }

    /// The balance when the dough ends so; its residual is zero only at the right end.
    pub fn balance_at(&self, ends: Temperature) -> Balance {
        let melting = self.melting.taken(ends);
        let friction = match self.work {
            Work::Heat(heat) => heat,
            Work::NetRise(rise) => {
                self.heat_capacity() * rise - self.hydration + self.dissolution + melting
            }
        };
        Balance {
            stage: self.stage.clone(),
            shares: self.shares.clone(),
            bowl: self.bowl.clone(),
            hydration: self.hydration,
            friction,
            dissolution: self.dissolution,
            melting,
            ice: self
                .ice
                .map_or(Energy::ZERO, |i| ice::taken_by(i.mass, i.at, ends)),
            ends,
        }
    }

    /// Heat set free less heat taken up, if the dough ended so.
    fn residual_at(&self, ends: Temperature) -> Energy {
        self.balance_at(ends).residual()
    }
}

impl Balance {
    /// Heat set free less heat taken up: nothing, when the dough ends where it says.
    pub fn residual(&self) -> Energy {
        self.shares
            .iter()
            .chain([&self.bowl])
            .map(|share| share.heat_capacity * (share.at - self.ends))
            .sum::<Energy>()
            + self.hydration
            + self.friction
            - self.dissolution
            - self.melting
            - self.ice
    }
}

/// The coldest and the warmest end that is looked for, °C: far beyond any dough.
const COLDEST_C: f64 = -150.0;
const WARMEST_C: f64 = 400.0;

/// Where the dough ends. The residual falls without a break as the end rises, so halving finds it.
pub fn ends(parts: &Parts) -> Balance {
    let mut low = Temperature::from_celsius(COLDEST_C);
    let mut high = Temperature::from_celsius(WARMEST_C);
    for _ in 0..64 {
        let middle = low + (high - low) / 2.0;
        if parts.residual_at(middle) > Energy::ZERO {
            low = middle;
        } else {
            high = middle;
        }
    }
    parts.balance_at(low + (high - low) / 2.0)
}

/// What one of the shares must read so that the dough ends so; none when it has no heat capacity.
pub fn solve_for(parts: &Parts, share: usize, wanted: Temperature) -> Option<Temperature> {
    let solved = parts.shares.get(share)?;
    if solved.heat_capacity <= HeatCapacity::ZERO {
        return None;
    }
    Some(solved.at - parts.residual_at(wanted) / solved.heat_capacity)
}

/// What the bowl must read so that the dough ends so.
pub fn solve_for_bowl(parts: &Parts, wanted: Temperature) -> Option<Temperature> {
    (parts.bowl.heat_capacity > HeatCapacity::ZERO)
        .then(|| parts.bowl.at - parts.residual_at(wanted) / parts.bowl.heat_capacity)
}

/// What a share and the bowl must both read so that the dough ends so.
pub fn solve_for_both(parts: &Parts, share: usize, wanted: Temperature) -> Option<Temperature> {
    let one = parts.shares.get(share)?;
    let both = one.heat_capacity + parts.bowl.heat_capacity;
    if both <= HeatCapacity::ZERO {
        return None;
    }
    // Taken to one temperature first, the residual is what is still to be brought.
    let mut level = with_share_at(parts, share, wanted);
    level.bowl.at = wanted;
    Some(wanted - level.residual_at(wanted) / both)
}

/// The same with a share at another temperature.
#[must_use]
pub fn with_share_at(parts: &Parts, share: usize, at: Temperature) -> Parts {
    let mut changed = parts.clone();
    if let Some(found) = changed.shares.get_mut(share) {
        found.at = at;
    }
    changed
}

/// The same with ice in the place of as much of a share of water.
#[must_use]
pub fn with_ice(parts: &Parts, share: usize, ice: Ice) -> Parts {
    let mut changed = parts.clone();
    if let Some(found) = changed.shares.get_mut(share) {
        let kept = if found.mass > Mass::ZERO {
            1.0 - ice.mass / found.mass
        } else {
            1.0
        };
        found.mass = found.mass - ice.mass;
        found.heat_capacity = found.heat_capacity * kept;
    }
    changed.ice = Some(ice);
    changed
}

/// Ice in the place of as much of a share of water, so that the dough ends so; none when it has
/// no mass. It may come out above the share's mass: then even all of it as ice is not enough.
pub fn ice_for(
    parts: &Parts,
    share: usize,
    ice_at: Temperature,
    wanted: Temperature,
) -> Option<Mass> {
    let water = parts.shares.get(share)?;
    if water.mass <= Mass::ZERO {
        return None;
    }
    let too_much = parts.residual_at(wanted);
    let kept = (water.heat_capacity / water.mass.si()) * (water.at - wanted);
    let per_kg = ice::taken_by(Mass::from_si(1.0), ice_at, wanted) + kept;
    let rise = match parts.work {
        // Less water to warm makes the work behind a measured rise smaller too.
        Work::NetRise(rise) => (water.heat_capacity / water.mass.si()) * rise,
        Work::Heat(_) => Energy::ZERO,
    };
    let taken = per_kg + rise;
    (taken > Energy::ZERO).then(|| Mass::from_si(too_much / taken))
}

/// The work that a mixer left in a dough, from where the dough was seen to end.
pub fn work_seen(parts: &Parts, seen: Temperature) -> Energy {
    let still = Parts {
        work: Work::Heat(Energy::ZERO),
        ..parts.clone()
    };
    -still.residual_at(seen)
}
