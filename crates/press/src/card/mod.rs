//! Cards for the kitchen drawer: a recipe on both sides of a small sheet, on a set of smaller ones,
//! or on a large sheet in two columns.

mod book;
mod columns;
mod fill;
mod gauge;
mod look;
mod own;
mod set;
mod unit;

use edit::ledger::model::Ledger;

use crate::pdf::wording::Wording;
use crate::pdf::{Laid, PdfFault};
use look::By;

/// The paper of a card.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CardSize {
    /// ISO 216 A5, 148 × 210 mm: half of an A4 sheet.
    #[default]
    A5,
    /// Half of a US letter sheet, 5½ × 8½ in.
    HalfLetter,
    /// ISO 216 A6 across, 148 × 105 mm.
    A6,
    /// An index card across, 6 × 4 in.
    In4x6,
    /// A card of 5 × 7 in.
    In5x7,
    /// ISO 216 A4, 210 × 297 mm.
    A4,
    /// US letter, 8½ × 11 in.
    Letter,
}

impl CardSize {
    /// Width and height in millimetres.
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A5 => (148.0, 210.0),
            Self::HalfLetter => (139.7, 215.9),
            Self::A6 => (148.0, 105.0),
            Self::In4x6 => (152.4, 101.6),
            Self::In5x7 => (127.0, 177.8),
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

/// The sides as they are set. A recipe too long for the sides of one card becomes a set, each side
/// saying which it is.
///
/// The card is made up by heights that are worked out, and set once. Should one of them have been
/// too low, it is made up again by heights that are measured.
pub(crate) fn laid(ledger: &Ledger, wording: &Wording, size: CardSize) -> Result<Laid, PdfFault> {
    let make_up = |by| match size {
        CardSize::A6 | CardSize::In4x6 => set::make_up(ledger, wording, size, by),
        CardSize::A5 | CardSize::HalfLetter | CardSize::In5x7 => book::make_up(wording, size, by),
        CardSize::A4 | CardSize::Letter => columns::make_up(wording, size, by),
    };
    if let Some(laid) = make_up(By::Letters)?.set(wording)? {
        return Ok(laid);
    }
    let measured = make_up(By::Galley)?;
    match measured.set(wording)? {
        Some(laid) => Ok(laid),
        None => measured.set_anyhow(wording),
    }
}
