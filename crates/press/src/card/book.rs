//! The whole recipe on the sides of a card or two: the fewest cards, in the roomiest setting that
//! they take.

use super::CardSize;
use std::ops::Range;

use super::fill::{Piece, Wish, fewest, fill, height};
use super::look::{By, Look, MadeUp, Margin, Side, pieces};
use super::unit::{self, Unit};
use crate::pdf::PdfFault;
use crate::pdf::wording::Wording;

/// Sides of one card.
const SIDES: usize = 2;

/// The most blank that is added before a step, in lines.
pub(super) const MOST_STRETCH: f64 = 0.4;

/// Settings from the roomiest to the closest.
pub(super) fn looks(size: CardSize) -> Vec<Look> {
    let look = |type_pt, margin| Look {
        size,
        type_pt,
        margin,
        edge_mm: if margin == Margin::Under { 7.5 } else { 9.5 },
        foot_mm: if margin == Margin::Under { 9.5 } else { 11.5 },
        leading: if margin == Margin::Under { 1.2 } else { 1.28 },
        title_pt: type_pt * 1.9,
        between: if margin == Margin::Under { 0.55 } else { 0.62 },
        stretch_pt: 0.0,
        facts: 2,
        left_mm: 0.0,
        gutter_mm: 0.0,
        called: "side",
    };
    // The last that is tried: a step hardly further from the next than a line from a line.
    let closest = |type_pt| Look {
        between: 0.4,
        ..look(type_pt, Margin::Under)
    };
    match size {
        CardSize::In5x7 => vec![
            look(9.0, Margin::Beside(39.0)),
            look(8.5, Margin::Beside(38.0)),
            look(8.5, Margin::Under),
            look(8.2, Margin::Under),
            closest(8.2),
        ],
        _ => vec![
            look(9.5, Margin::Beside(46.0)),
            look(9.0, Margin::Beside(45.0)),
            look(8.5, Margin::Beside(44.0)),
            look(9.5, Margin::Under),
            look(9.0, Margin::Under),
            look(8.5, Margin::Under),
            look(8.2, Margin::Under),
            closest(8.5),
            closest(8.2),
        ],
    }
}

/// A setting with its units and their heights.
pub(super) struct Galley {
    pub(super) look: Look,
    pub(super) units: Vec<Unit>,
    pub(super) pieces: Vec<Piece>,
}

impl Galley {
    pub(super) fn of(look: Look, wording: &Wording, by: By, rooms: bool) -> Result<Self, PdfFault> {
        let blanks = look.blanks();
        let units = [
            unit::title(wording, &blanks),
            unit::before(wording, &blanks),
            unit::amounts(wording, &blanks),
            unit::steps(wording, &blanks),
            unit::after(wording, &blanks, rooms),
        ]
        .concat();
        let labels = [Unit::new("labels", 0, 0.0, 0.0)];
        let width = look.width_mm();
        let heights = look.measure(wording, by, &[(width, &units), (width, &labels)])?;
        let labels = heights[1].first().copied().unwrap_or(0.0);
        let pieces = pieces(&units, &heights[0], labels);
        Ok(Self {
            look,
            units,
            pieces,
        })
    }

    fn sides(&self) -> usize {
        fewest(&self.pieces, |_| self.look.room_pt())
    }

    fn cards(&self) -> usize {
        self.sides().div_ceil(SIDES)
    }

    /// Sides of so many cards.
    fn made_up(&self, cards: usize) -> MadeUp {
        let wish = Wish {
            most: (cards * SIDES).max(self.sides()),
            even: 3.0,
            last: 0.0,
        };
        let filled = fill(&self.pieces, |_| self.look.room_pt(), wish).unwrap_or_default();
        let stretch_pt = self.stretch_pt(&filled);
        let look = Look {
            stretch_pt,
            ..self.look
        };
        let side = |range| {
            let mut top = begun(&self.units[range]);
            for unit in top.iter_mut().filter(|unit| unit.headed) {
                unit.above += stretch_pt;
            }
            Side {
                top,
                ..Side::default()
            }
        };
        MadeUp {
            look,
            sides: filled.into_iter().map(side).collect(),
        }
    }

    /// Blank that can be added before every step so that no side grows too high.
    fn stretch_pt(&self, sides: &[Range<usize>]) -> f64 {
        let line = self.look.type_pt * self.look.leading;
        let spare = sides.iter().filter_map(|side| {
            let inner = side.start + 1..side.end;
            let between = self.units[inner]
                .iter()
                .filter(|unit| unit.kind == "step")
                .count();
            let free = (self.look.room_pt() - height(&self.pieces[side.clone()])).max(0.0);
            (between > 0).then(|| free / between as f64)
        });
        spare.fold(MOST_STRETCH * line, f64::min)
    }
}

/// A side does not begin with a rule.
pub(super) fn begun(units: &[Unit]) -> Vec<Unit> {
    let from = usize::from(units.first().is_some_and(|unit| unit.kind == "rule"));
    units[from..].to_vec()
}

/// What stands on which side: on the fewest cards, in the roomiest setting that takes no more. The rises in other
/// rooms are left out where that saves a card.
pub(super) fn make_up(wording: &Wording, size: CardSize, by: By) -> Result<MadeUp, PdfFault> {
    let mut best: Option<(usize, Galley)> = None;
    for rooms in [true, false] {
        for look in looks(size) {
            let galley = Galley::of(look, wording, by, rooms)?;
            let cards = galley.cards();
            if best.as_ref().is_none_or(|(fewest, _)| cards < *fewest) {
                best = Some((cards, galley));
            }
            if cards < 2 {
                break;
            }
        }
        if !wording.has_rooms() || best.as_ref().is_some_and(|(cards, _)| *cards < 2) {
            break;
        }
    }
    match best {
        Some((cards, galley)) => Ok(galley.made_up(cards)),
        None => Err(PdfFault::Typesetter(vec![])),
    }
}
