//! The whole recipe on the sides of a card or two: the fewest cards, in the roomiest setting that
//! they take.

use super::CardSize;
use super::fill::{Piece, Wish, fewest, fill, height};
use super::look::{Look, Margin, Side, pieces};
use super::unit::{self, Unit};
use crate::pdf::wording::Wording;
use crate::pdf::{Laid, PdfFault};

/// Sides of one card.
const SIDES: usize = 2;

/// Settings from the roomiest to the closest.
fn looks(size: CardSize) -> Vec<Look> {
    let look = |type_pt, margin| Look {
        size,
        type_pt,
        margin,
        edge_mm: if margin == Margin::Under { 7.5 } else { 9.5 },
        foot_mm: if margin == Margin::Under { 9.5 } else { 11.5 },
        leading: if margin == Margin::Under { 1.2 } else { 1.28 },
        title_pt: type_pt * 1.9,
        facts: 2,
        left_mm: 0.0,
        gutter_mm: 0.0,
        called: "side",
    };
    match size {
        CardSize::In5x7 => vec![
            look(9.0, Margin::Beside(39.0)),
            look(8.5, Margin::Beside(38.0)),
            look(8.5, Margin::Under),
            look(8.2, Margin::Under),
        ],
        _ => vec![
            look(9.5, Margin::Beside(46.0)),
            look(9.0, Margin::Beside(45.0)),
            look(8.5, Margin::Beside(44.0)),
            look(9.0, Margin::Under),
            look(8.5, Margin::Under),
            look(8.2, Margin::Under),
        ],
    }
}

/// A setting with its units and their heights.
struct Galley {
    look: Look,
    units: Vec<Unit>,
    pieces: Vec<Piece>,
}

impl Galley {
    fn of(look: Look, wording: &Wording) -> Result<Self, PdfFault> {
        let blanks = look.blanks();
        let units = [
            unit::title(wording, &blanks),
            unit::before(wording, &blanks),
            unit::amounts(wording, &blanks),
            unit::steps(wording, &blanks),
            unit::after(wording, &blanks),
        ]
        .concat();
        let labels = [Unit::new("labels", 0, 0.0, 0.0)];
        let width = look.width_mm();
        let heights = look.measure(wording, &[(width, &units), (width, &labels)])?;
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

    /// Sides that another look would fill, by the area that its type takes; text that wraps better
    /// in small type makes this a little too many.
    fn guess(&self, look: &Look) -> f64 {
        let smaller = look.type_pt / self.look.type_pt;
        height(&self.pieces) / self.look.room_pt() * smaller * smaller.sqrt()
    }

    /// Sides of so many cards.
    fn set(&self, wording: &Wording, cards: usize) -> Result<Laid, PdfFault> {
        let room = |_| self.look.room_pt();
        let wish = Wish {
            most: (cards * SIDES).max(self.sides()),
            even: 3.0,
            last: 0.0,
        };
        let filled = fill(&self.pieces, room, wish).unwrap_or_default();
        let sides: Vec<_> = filled
            .into_iter()
            .map(|range| Side {
                top: begun(&self.units[range]),
                ..Side::default()
            })
            .collect();
        self.look.set(wording, &sides)
    }
}

/// A side does not begin with a rule.
pub(super) fn begun(units: &[Unit]) -> Vec<Unit> {
    let from = usize::from(units.first().is_some_and(|unit| unit.kind == "rule"));
    units[from..].to_vec()
}

/// The sides as they are set. The roomiest setting is measured first; only when it needs a second
/// card the closest is. When that one saves a card, those between them that may do so too are
/// tried, the roomier first.
pub(super) fn laid(wording: &Wording, size: CardSize) -> Result<Laid, PdfFault> {
    let [first, between @ .., last] = &looks(size)[..] else {
        return Err(PdfFault::Typesetter(vec![]));
    };
    let roomiest = Galley::of(*first, wording)?;
    let cards = roomiest.cards();
    if cards < 2 {
        return roomiest.set(wording, cards);
    }
    let closest = Galley::of(*last, wording)?;
    let fewest = closest.cards();
    if fewest == cards {
        return roomiest.set(wording, cards);
    }
    for look in between {
        let like = if look.margin == last.margin {
            &closest
        } else {
            &roomiest
        };
        if like.guess(look) > (fewest * SIDES) as f64 {
            continue;
        }
        let galley = Galley::of(*look, wording)?;
        if galley.cards() == fewest {
            return galley.set(wording, fewest);
        }
    }
    closest.set(wording, fewest)
}
