//! How much room a dough wants, and in how many mixes it must be made in a bowl that is given.

use numerics::decimal::trimmed;
use numerics::quantity::{Mass, Volume};

/// A vessel in which dough is mixed and rises holds at least so many times the mixed dough ("the
/// container must hold three times the mixed dough": an old trade formula book, read).
pub const ROOM: f64 = 3.0;

/// From this share of the maker's flour limit on, two mixes are advised: the last kneading of a
/// full bowl heats the motor and leaves the dough uneven (common practice).
pub const NEAR_LIMIT: f64 = 0.95;

/// In how many mixes, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Mixes {
    /// How many; one when everything fits or nothing is known of the bowl.
    pub count: u32,
    /// What asks for more than one; none when one is enough.
    pub why: Option<Why>,
}

/// What asks for more than one mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Why {
    /// More flour than the bowl's maker allows.
    FlourAboveLimit {
        /// Flour of the dough.
        flour: Mass,
        /// What the maker allows.
        limit: Mass,
    },
    /// Within the limit, but nearly all of it.
    FlourNearLimit {
        /// Flour of the dough.
        flour: Mass,
        /// What the maker allows.
        limit: Mass,
    },
    /// The bowl holds less than the dough wants to rise and be worked in.
    BowlTooSmall {
        /// Volume of the mixed dough.
        dough: Volume,
        /// What the bowl holds.
        bowl: Volume,
    },
}

impl Why {
    /// One sentence with the figures.
    pub fn sentence(&self) -> String {
        match self {
            Self::FlourAboveLimit { flour, limit } => format!(
                "The bowl's maker allows {} g of flour and the dough has {} g.",
                trimmed(limit.grams(), 0),
                trimmed(flour.grams(), 0)
            ),
            Self::FlourNearLimit { flour, limit } => format!(
                "{} g of flour are {} % of the {} g that the bowl's maker allows.",
                trimmed(flour.grams(), 0),
                trimmed(*flour / *limit * 100.0, 0),
                trimmed(limit.grams(), 0)
            ),
            Self::BowlTooSmall { dough, bowl } => format!(
                "The mixed dough fills {} mL and wants {} mL to rise and be worked in; the bowl \
                 holds {} mL.",
                trimmed(dough.millilitres(), 0),
                trimmed(dough.millilitres() * ROOM, 0),
                trimmed(bowl.millilitres(), 0)
            ),
        }
    }
}

/// Into how many equal mixes a dough is divided. What is not known of the bowl asks for nothing.
///
/// A flour limit already allows for working the dough, so when the maker gives one the bowl's
/// volume is asked only whether the dough fits with room to rise, and the stricter answer counts.
pub fn mixes(flour: Mass, dough: Volume, flour_limit: Option<Mass>, bowl: Option<Volume>) -> Mixes {
    let by_flour = flour_limit
        .filter(|limit| *limit > Mass::ZERO)
        .map(|limit| {
            let share = flour / limit;
            let why = match share {
                share if share > 1.0 + 1e-9 => Some(Why::FlourAboveLimit { flour, limit }),
                share if share >= NEAR_LIMIT => Some(Why::FlourNearLimit { flour, limit }),
                _ => None,
            };
            (parts_below(share, NEAR_LIMIT), why)
        });
    let by_room = bowl.filter(|bowl| *bowl > Volume::ZERO).map(|bowl| {
        let count = parts_within(dough * ROOM / bowl);
        (
            count,
            (count > 1).then_some(Why::BowlTooSmall { dough, bowl }),
        )
    });
    let (count, why) = match (by_flour, by_room) {
        (Some(flour), Some(room)) => {
            if room.0 > flour.0 {
                room
            } else {
                flour
            }
        }
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => (1, None),
    };
    Mixes { count, why }
}

/// The room that a dough wants.
pub fn room_for(dough: Volume) -> Volume {
    dough * ROOM
}

/// The least number of equal parts of which each is below a share of the limit.
fn parts_below(share: f64, near: f64) -> u32 {
    (1..1000)
        .find(|parts| share / f64::from(*parts) < near)
        .unwrap_or(1000)
}

/// The least number of equal parts of which each fits.
fn parts_within(share: f64) -> u32 {
    (1..1000)
        .find(|parts| share / f64::from(*parts) <= 1.0 + 1e-9)
        .unwrap_or(1000)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn g(grams: f64) -> Mass {
        Mass::from_grams(grams)
    }

    fn ml(millilitres: f64) -> Volume {
        Volume::from_millilitres(millilitres)
    }

    #[test]
    fn a_bowl_nearly_full_of_flour_asks_for_two_mixes() {
        let answer = mixes(g(980.0), ml(1700.0), Some(g(1000.0)), None);
        assert_eq!(answer.count, 2);
        let why = answer.why.map(|why| why.sentence());
        let said = "980 g of flour are 98 % of the 1000 g that the bowl's maker allows.";
        assert_eq!(why.as_deref(), Some(said));
        assert_eq!(mixes(g(949.0), ml(1.0), Some(g(1000.0)), None).count, 1);
        assert_eq!(mixes(g(950.0), ml(1.0), Some(g(1000.0)), None).count, 2);
    }

    #[test]
    fn more_flour_than_allowed_asks_for_as_many_as_it_takes() {
        let answer = mixes(g(2500.0), ml(1.0), Some(g(1000.0)), None);
        assert_eq!(answer.count, 3);
        assert!(matches!(answer.why, Some(Why::FlourAboveLimit { .. })));
    }

    #[test]
    fn a_bowl_holds_three_times_its_dough() {
        assert_eq!(mixes(g(500.0), ml(800.0), None, Some(ml(2400.0))).count, 1);
        let small = mixes(g(500.0), ml(801.0), None, Some(ml(2400.0)));
        assert_eq!(small.count, 2);
        assert!(matches!(small.why, Some(Why::BowlTooSmall { .. })));
    }

    #[test]
    fn nothing_known_asks_for_nothing() {
        assert_eq!(
            mixes(g(500.0), ml(800.0), None, None),
            Mixes {
                count: 1,
                why: None
            }
        );
    }
}
