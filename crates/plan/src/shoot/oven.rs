//! Bread in ovens: which oven, from when, and by how much too late.
//!
//! An oven has one temperature at a time. Breads of one dial share it as far as its racks go; a change of
//! temperature takes time in which nothing bakes. What a scene waits for goes first; what no scene waits for
//! is baked when an oven is free.

use numerics::quantity::Temperature;

/// What ovens there are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ovens {
    /// How many.
    pub count: usize,
    /// Racks of each.
    pub racks: usize,
    /// Minutes for a change of 25 °C.
    pub change_min: i64,
}

/// A bread that wants an oven.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// Earliest and latest minute to go in.
    pub window: (i64, i64),
    /// The minute that suits its dough best.
    pub best: i64,
    /// Minutes of the bake.
    pub takes_min: i64,
    /// Dial at the beginning.
    pub first: Temperature,
    /// Dial at the end.
    pub last: Temperature,
}

/// A bread that has one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Which oven.
    pub oven: usize,
    /// In.
    pub from_min: i64,
    /// Out.
    pub to_min: i64,
    /// Dial at the beginning.
    pub first: Temperature,
    /// Dial at the end.
    pub last: Temperature,
}

/// A bread is put off by so much at most, minutes.
const FURTHEST: i64 = 24 * 60;

/// Minutes from one dial to another.
#[expect(
    clippy::cast_possible_truncation,
    reason = "an oven has fewer than a thousand degrees"
)]
pub fn change(ovens: &Ovens, from: Temperature, to: Temperature) -> i64 {
    let kelvin = (to - from).abs().si();
    if kelvin <= 0.5 {
        return 0;
    }
    (kelvin / 25.0 * ovens.change_min as f64 - 1e-9).ceil() as i64
}

/// The place in an oven that suits a bread best beside those that are placed, and how late it is.
pub fn place(ovens: &Ovens, placed: &[Placed], wish: &Wish) -> (Placed, i64) {
    let (from, to) = wish.window;
    let best = wish.best.clamp(from, to.max(from));
    let mut minutes: Vec<i64> = (from..=to.min(from + FURTHEST)).collect();
    minutes.sort_by_key(|minute| ((minute - best).abs(), *minute));
    let later = (to + 1).max(from)..=to.max(from) + FURTHEST;
    for minute in minutes.into_iter().chain(later) {
        for oven in 0..ovens.count {
            let here = Placed {
                oven,
                from_min: minute,
                to_min: minute + wish.takes_min,
                first: wish.first,
                last: wish.last,
            };
            if bears(ovens, placed, &here) {
                return (here, (minute - to).max(0));
            }
        }
    }
    // A day with more bread than a whole day of ovens: it stands beside the others, and is told as late.
    let minute = to.max(from) + FURTHEST;
    let here = Placed {
        oven: 0,
        from_min: minute,
        to_min: minute + wish.takes_min,
        first: wish.first,
        last: wish.last,
    };
    (here, FURTHEST)
}

/// Whether an oven bears one more.
fn bears(ovens: &Ovens, placed: &[Placed], here: &Placed) -> bool {
    let same = |a: Temperature, b: Temperature| (a - b).abs().si() <= 0.5;
    let mut beside: Vec<&Placed> = Vec::new();
    for other in placed.iter().filter(|other| other.oven == here.oven) {
        if other.from_min < here.to_min && here.from_min < other.to_min {
            let one_dial = same(other.first, other.last)
                && same(here.first, here.last)
                && same(other.first, here.first);
            if !one_dial {
                return false;
            }
            beside.push(other);
        } else if other.to_min <= here.from_min {
            if here.from_min - other.to_min < change(ovens, other.last, here.first) {
                return false;
            }
        } else if other.from_min - here.to_min < change(ovens, here.last, other.first) {
            return false;
        }
    }
    let full = |at: i64| {
        let inside = beside.iter().filter(|o| o.from_min <= at && at < o.to_min);
        inside.count() >= ovens.racks
    };
    let moments = beside
        .iter()
        .map(|other| other.from_min.max(here.from_min))
        .chain([here.from_min]);
    !moments.into_iter().any(full)
}

#[cfg(test)]
mod tests {
    use super::{Ovens, Placed, Wish, change, place};
    use numerics::quantity::Temperature;

    const ONE: Ovens = Ovens {
        count: 1,
        racks: 2,
        change_min: 8,
    };

    fn bread(oven: f64, from_min: i64, to_min: i64) -> Placed {
        let dial = Temperature::from_celsius(oven);
        Placed {
            oven: 0,
            from_min,
            to_min,
            first: dial,
            last: dial,
        }
    }

    fn wish(oven: f64, window: (i64, i64), takes_min: i64) -> Wish {
        let dial = Temperature::from_celsius(oven);
        Wish {
            window,
            best: window.0,
            takes_min,
            first: dial,
            last: dial,
        }
    }

    #[test]
    fn a_change_of_temperature_takes_its_time() {
        let dial = Temperature::from_celsius;
        assert_eq!(change(&ONE, dial(200.0), dial(175.0)), 8);
        assert_eq!(change(&ONE, dial(200.0), dial(200.0)), 0);
        // Rolls are out at 13:27; the loaf that wants 13:31 goes in at 13:35.
        let rolls = [bread(200.0, 795, 807)];
        let (loaf, late) = place(&ONE, &rolls, &wish(175.0, (811, 811), 34));
        assert_eq!((loaf.from_min, late), (815, 4));
    }

    #[test]
    fn two_share_two_racks_and_a_third_waits() {
        let two = [bread(175.0, 0, 34), bread(175.0, 4, 28)];
        let (third, late) = place(&ONE, &two, &wish(175.0, (10, 10), 24));
        assert_eq!((third.from_min, late), (28, 18));
        let (beside, late) = place(&ONE, &two[..1], &wish(175.0, (10, 10), 24));
        assert_eq!((beside.from_min, late), (10, 0));
    }
}
