//! The card for the kitchen drawer: a recipe on both sides of one small sheet.

use edit::ledger::model::{Ledger, StageLines};
use serde_json::json;

use crate::pdf::wording::Wording;
use crate::pdf::{Laid, PdfFault, Template, lay_out};

/// The paper of a card, upright.
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

/// Type sizes, largest first. All stay above the 7.5 pt that 16 minutes of arc ask for at 40 cm,
/// a card in the hand.
const TYPE_PT: [f64; 3] = [9.5, 9.0, 8.5];

/// Sides of one card.
const SIDES: usize = 2;

/// How a recipe is laid on the sides.
struct Setting {
    /// Size of the text.
    type_pt: f64,
    /// Sections of steps that begin on a new side, counted from nought.
    breaks: Vec<usize>,
}

/// The sides as they are set: the fewest, in the largest type that they take. A recipe too long
/// for two sides becomes a set of cards, each side saying which it is.
pub(crate) fn laid(ledger: &Ledger, wording: &Wording, size: CardSize) -> Result<Laid, PdfFault> {
    let lay = |type_pt, breaks| lay_out(wording, &template(size, &Setting { type_pt, breaks }));
    let [.., smallest] = TYPE_PT;
    let last = lay(smallest, vec![])?;
    let fewest = last.sides().max(SIDES);
    for type_pt in TYPE_PT {
        let running = lay(type_pt, vec![])?;
        if running.sides() > fewest {
            continue;
        }
        for breaks in wished_breaks(ledger) {
            let broken = lay(type_pt, breaks)?;
            if broken.sides() <= fewest {
                return Ok(broken);
            }
        }
        return Ok(running);
    }
    Ok(last)
}

/// Where new sides are wished for, most wished first: before the steps, and again before the
/// steps of the products.
fn wished_breaks(ledger: &Ledger) -> Vec<Vec<usize>> {
    let of_stages = ledger
        .sections
        .iter()
        .take_while(|section| {
            let heads = |stage: &StageLines| stage.heading == section.heading;
            ledger.stages.iter().any(heads)
        })
        .count();
    let before_steps = vec![0];
    if of_stages == 0 || of_stages == ledger.sections.len() {
        return vec![before_steps];
    }
    vec![vec![0, of_stages], before_steps]
}

fn template(size: CardSize, setting: &Setting) -> Template {
    let (width_mm, height_mm) = size.size_mm();
    Template {
        text: include_str!("../../templates/card.typ"),
        name: "card",
        paper: json!({
            "width": width_mm,
            "height": height_mm,
            "type": setting.type_pt,
            "breaks": setting.breaks,
        }),
    }
}
