//! Filling sides with units of known height: as few as can be, their ends where they hurt least.
//!
//! The best ends are found over all of them at once, by dynamic programming from the first unit to
//! the last, as Knuth and Plass (1981), "Breaking paragraphs into lines", do for lines.

use std::ops::Range;

/// A unit's height, the blank above it and the cost of a side's end before it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    /// Height in points.
    pub(super) height: f64,
    /// Blank above it, unless it begins a side.
    pub(super) above: f64,
    /// Cost of a side's end before it.
    pub(super) cost: f64,
    /// Height that the first such unit of a side adds: the labels of its table.
    pub(super) labels: f64,
}

/// What is wished of the sides.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wish {
    /// How many there may be.
    pub(super) most: usize,
    /// How much a blank at the foot of a side is to be avoided.
    pub(super) even: f64,
    /// The same for the last side.
    pub(super) last: f64,
}

/// Room that rounding may take: a hundredth of a point.
const NEAR_PT: f64 = 0.01;

/// What another side costs.
const SIDE_COST: f64 = 6.0;

/// Height of units under one another on one side.
pub(super) fn height(pieces: &[Piece]) -> f64 {
    let labels = pieces.iter().map(|piece| piece.labels).fold(0.0, f64::max);
    let above: f64 = pieces.iter().skip(1).map(|piece| piece.above).sum();
    let own: f64 = pieces.iter().map(|piece| piece.height).sum();
    own + above + labels
}

/// Which units stand on which side; none when there are too many. `room` is the height of a side
/// by its number. A unit that is higher than a side stands alone.
pub(super) fn fill(
    pieces: &[Piece],
    room: impl Fn(usize) -> f64,
    wish: Wish,
) -> Option<Vec<Range<usize>>> {
    let count = pieces.len();
    let most = wish.most;
    if count == 0 {
        return Some(vec![]);
    }
    // Cost of the best way to put the first units on the first sides, and where its last begins.
    let mut best: Vec<Vec<Option<(f64, usize)>>> = vec![vec![None; count + 1]; most + 1];
    best[0][0] = Some((0.0, 0));
    for side in 0..most {
        for from in 0..count {
            let Some((cost, _)) = best[side][from] else {
                continue;
            };
            for to in from + 1..=count {
                let high = height(&pieces[from..to]);
                let room = room(side);
                if high > room + NEAR_PT && to > from + 1 {
                    break;
                }
                let free = (room - high).max(0.0) / room;
                let (end, weight) = match pieces.get(to) {
                    Some(next) => (next.cost, wish.even),
                    None => (0.0, wish.last),
                };
                let total = cost + SIDE_COST + end + weight * free * free;
                let place = &mut best[side + 1][to];
                if place.is_none_or(|(known, _)| total < known) {
                    *place = Some((total, from));
                }
            }
        }
    }
    let (sides, _) = (1..=most)
        .filter_map(|sides| best[sides][count].map(|(cost, _)| (sides, cost)))
        .min_by(|one, other| one.1.total_cmp(&other.1))?;
    let mut ranges = vec![];
    let mut to = count;
    for side in (1..=sides).rev() {
        let (_, from) = best[side][to]?;
        ranges.push(from..to);
        to = from;
    }
    ranges.reverse();
    Some(ranges)
}

/// The fewest sides that take all units.
pub(super) fn fewest(pieces: &[Piece], room: impl Fn(usize) -> f64) -> usize {
    let mut sides = 0;
    let mut from = 0;
    while from < pieces.len() {
        let fits = |to: &usize| height(&pieces[from..*to]) <= room(sides) + NEAR_PT;
        let mut to = (from + 1..=pieces.len())
            .take_while(fits)
            .last()
            .unwrap_or(from + 1);
        // An end that must not be moves back to the last that may.
        let allowed = (from + 1..=to).rev().find(|&end| {
            pieces
                .get(end)
                .is_none_or(|piece| piece.cost < super::unit::NEVER)
        });
        to = allowed.unwrap_or(to);
        from = to;
        sides += 1;
    }
    sides
}

#[cfg(test)]
mod tests {
    use super::{Piece, Wish, fewest, fill, height};

    fn piece(height: f64, cost: f64) -> Piece {
        Piece {
            height,
            above: 2.0,
            cost,
            labels: 0.0,
        }
    }

    const fn wish(most: usize) -> Wish {
        Wish {
            most,
            even: 3.0,
            last: 0.0,
        }
    }

    #[test]
    fn a_blank_is_left_out_where_a_side_begins_and_labels_come_once() {
        let mut pieces = vec![piece(10.0, 0.0); 3];
        assert!((height(&pieces) - 34.0).abs() < 1e-9);
        for piece in &mut pieces {
            piece.labels = 5.0;
        }
        assert!((height(&pieces) - 39.0).abs() < 1e-9);
    }

    #[test]
    fn every_unit_stands_once_and_no_side_is_too_full() {
        let pieces: Vec<_> = (0..40)
            .map(|at| piece(7.0 + f64::from(at % 5) * 9.0, f64::from(at % 3)))
            .collect();
        let sides = fill(&pieces, |_| 100.0, wish(40)).expect("they fit");
        assert_eq!(sides.first().map(|side| side.start), Some(0));
        assert_eq!(sides.last().map(|side| side.end), Some(40));
        for pair in sides.windows(2) {
            assert_eq!(pair[0].end, pair[1].start);
        }
        for side in sides {
            assert!(height(&pieces[side]) <= 100.01);
        }
    }

    #[test]
    fn a_side_ends_where_it_hurts_least() {
        // Six of ten points on sides of forty: three to a side; the cheap end is after the second.
        let mut pieces = vec![piece(10.0, 5.0); 4];
        pieces[2].cost = 0.0;
        let sides = fill(&pieces, |_| 40.0, wish(9)).expect("they fit");
        assert_eq!(sides, [0..2, 2..4]);
    }

    #[test]
    fn fewest_is_what_filling_finds() {
        let pieces: Vec<_> = (0..30)
            .map(|at| piece(5.0 + f64::from(at % 7) * 4.0, 1.0))
            .collect();
        let fewest = fewest(&pieces, |_| 90.0);
        assert!(fill(&pieces, |_| 90.0, wish(fewest)).is_some());
        assert!(fill(&pieces, |_| 90.0, wish(fewest - 1)).is_none());
    }

    #[test]
    fn what_is_higher_than_a_side_stands_alone() {
        let pieces = [piece(10.0, 1.0), piece(300.0, 1.0), piece(10.0, 1.0)];
        let sides = fill(&pieces, |_| 100.0, wish(9)).expect("they fit");
        assert_eq!(sides, [0..1, 1..2, 2..3]);
    }

    #[test]
    fn nothing_fills_nothing() {
        assert_eq!(fill(&[], |_| 100.0, wish(3)), Some(vec![]));
        assert_eq!(fewest(&[], |_| 100.0), 0);
    }
}
