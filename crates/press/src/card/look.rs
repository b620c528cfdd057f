//! How a card is set: paper, type, columns; and its two settings, the galley that is measured and
//! the sides that are printed.

use serde_json::{Value, json};

use super::CardSize;
use super::fill::Piece;
use super::gauge;
use super::unit::{Blanks, Unit};
use crate::pdf::wording::Wording;
use crate::pdf::{Laid, PdfFault, Template, lay_out_units};

/// Where a step's margin stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Margin {
    /// In a column of its own, so many millimetres wide, to the right of the sentence.
    Beside(f64),
    /// In a run under the sentence, for a card with little room.
    Under,
    /// Large, over a small sentence, for a card that is read at arm's length.
    Over(f64),
}

/// Everything about a card's setting that is not a unit.
#[derive(Clone, Copy, Debug)]
pub(super) struct Look {
    pub(super) size: CardSize,
    /// Size of the text in points.
    pub(super) type_pt: f64,
    pub(super) margin: Margin,
    /// White to the left, to the right and at the top.
    pub(super) edge_mm: f64,
    /// White at the bottom, with the line of origin in it.
    pub(super) foot_mm: f64,
    /// Distance of baselines in parts of the type.
    pub(super) leading: f64,
    pub(super) title_pt: f64,
    /// Blank between steps in parts of a line.
    pub(super) between: f64,
    /// Blank added between steps where the sides have it to spare, in points.
    pub(super) stretch_pt: f64,
    /// Facts on one line.
    pub(super) facts: usize,
    /// Width of the left column; nought when there is one column.
    pub(super) left_mm: f64,
    /// Blank between the columns.
    pub(super) gutter_mm: f64,
    /// What a side is called in the line of origin.
    pub(super) called: &'static str,
}

/// How the height of a unit is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum By {
    /// From the widths of its letters: at once, and a little too high.
    Letters,
    /// From the typesetter, which sets every unit alone: as it will be.
    Galley,
}

/// A card that is made up and not yet set.
pub(super) struct MadeUp {
    pub(super) look: Look,
    pub(super) sides: Vec<Side>,
}

/// What stands on one side: units across the whole of it, then units in two columns.
#[derive(Clone, Debug, Default)]
pub(super) struct Side {
    pub(super) top: Vec<Unit>,
    pub(super) left: Vec<Unit>,
    pub(super) right: Vec<Unit>,
}

/// Points in a millimetre.
pub(super) const PT_PER_MM: f64 = 72.0 / 25.4;

impl Look {
    /// Height between the white at the top and the white at the bottom, in points.
    pub(super) fn room_pt(&self) -> f64 {
        (self.size.size_mm().1 - self.edge_mm - self.foot_mm) * PT_PER_MM
    }

    /// Width between the white to the left and to the right.
    pub(super) fn width_mm(&self) -> f64 {
        self.size.size_mm().0 - 2.0 * self.edge_mm
    }

    /// Width of the right column.
    pub(super) fn right_mm(&self) -> f64 {
        self.width_mm() - self.left_mm - self.gutter_mm
    }

    /// Size of second things: 0.86 of the text's, and never less than the 7.5 pt that 16 minutes of
    /// arc ask for at 40 cm, a card in the hand.
    pub(super) fn small_pt(&self) -> f64 {
        (self.type_pt * 0.86).max(7.5)
    }

    /// Blank above a stage's heading in the table of amounts.
    pub(super) fn stage_gap_mm(&self) -> f64 {
        self.blanks().heading * 0.7 / PT_PER_MM
    }

    /// Blank between a section's heading and its first step.
    pub(super) fn below_heading_mm(&self) -> f64 {
        if self.margin == Margin::Under {
            1.6
        } else {
            2.4
        }
    }

    /// Blanks above units.
    pub(super) fn blanks(&self) -> Blanks {
        let line = self.type_pt * self.leading;
        let close = self.margin == Margin::Under;
        Blanks {
            step: line * self.between + self.stretch_pt,
            heading: line * if close { 0.7 } else { 0.95 },
            other: line * 0.33,
        }
    }

    /// Widths of grams, measure and share. A measure wider than a quarter of the card breaks.
    fn columns_pt(&self, wording: &Wording) -> [f64; 3] {
        let columns = wording.columns();
        let small = self.small_pt();
        [
            columns.grams * self.type_pt,
            (columns.measure * small).min(self.width_mm() * PT_PER_MM * 0.27),
            columns.share * small,
        ]
    }

    fn paper(&self, wording: &Wording) -> Value {
        let (width, height) = self.size.size_mm();
        let small = self.small_pt();
        let (form, beside, margin_type) = match self.margin {
            Margin::Beside(mm) => ("beside", mm, small),
            Margin::Under => ("under", 0.0, small),
            Margin::Over(pt) => ("over", 0.0, pt),
        };
        json!({
            "width": width,
            "height": height,
            "edge": self.edge_mm,
            "foot": self.foot_mm,
            "called": self.called,
            "type": self.type_pt,
            "small": small,
            "margin_type": margin_type,
            "leading": self.leading,
            "title": self.title_pt,
            "facts": self.facts,
            "facts_gap": Self::FACTS_GAP_MM,
            "amounts": if self.left_mm > 0.0 { "narrow" } else { "wide" },
            "columns": self.columns_pt(wording),
            "stage_gap": self.stage_gap_mm(),
            "form": form,
            "beside": beside,
            "step_gap": self.blanks().step,
            "left": self.left_mm,
            "gutter": self.gutter_mm,
            "below_heading": self.below_heading_mm(),
            "below_top": self.blanks().heading,
        })
    }

    /// Blank between two columns of facts.
    pub(super) const FACTS_GAP_MM: f64 = 6.0;

    /// Width of a column of facts in parts of the type.
    pub(super) fn facts_column_em(&self) -> f64 {
        let across = self.facts.max(1) as f64;
        let gaps = (across - 1.0) * Self::FACTS_GAP_MM;
        (self.width_mm() - gaps) / across * PT_PER_MM / self.type_pt
    }

    fn printed(&self, units: &[Unit], wording: &Wording) -> Vec<Value> {
        let printed = units.iter().map(|unit| unit.printed(self, wording));
        printed.collect()
    }

    /// Heights of units for each width of a column in millimetres.
    pub(super) fn measure(
        &self,
        wording: &Wording,
        by: By,
        columns: &[(f64, &[Unit])],
    ) -> Result<Vec<Vec<f64>>, PdfFault> {
        if by == By::Letters {
            let widths = self.columns_pt(wording);
            let high = |(width_mm, units): &(f64, &[Unit])| {
                gauge::heights(self, widths, *width_mm, &self.printed(units, wording))
            };
            return Ok(columns.iter().map(high).collect());
        }
        let galley: Vec<_> = columns
            .iter()
            .map(|(width_mm, units)| json!({ "width": width_mm, "units": self.printed(units, wording) }))
            .collect();
        let laid = self.lay(wording, &json!({ "galley": galley }))?;
        let mut heights = laid.heights_pt().into_iter();
        let taken = |(_, units): &(f64, &[Unit])| heights.by_ref().take(units.len()).collect();
        Ok(columns.iter().map(taken).collect())
    }

    /// The card itself, its sides numbered as they were counted, or as they came out.
    fn set(&self, wording: &Wording, sides: &[Side], counted: bool) -> Result<Laid, PdfFault> {
        let printed: Vec<_> = sides
            .iter()
            .map(|side| {
                json!({
                    "top": self.printed(&side.top, wording),
                    "left": self.printed(&side.left, wording),
                    "right": self.printed(&side.right, wording),
                })
            })
            .collect();
        self.lay(wording, &json!({ "sides": printed, "counted": counted }))
    }

    fn lay(&self, wording: &Wording, units: &Value) -> Result<Laid, PdfFault> {
        let template = Template {
            text: include_str!("../../templates/card.typ"),
            name: "card",
            paper: self.paper(wording),
        };
        lay_out_units(wording, &template, units)
    }
}

impl MadeUp {
    /// The card as it is set; none when it took more sides than it was made up for.
    pub(super) fn set(&self, wording: &Wording) -> Result<Option<Laid>, PdfFault> {
        let laid = self.look.set(wording, &self.sides, true)?;
        let fits = laid.heights_pt().len() == self.sides.len();
        Ok(fits.then_some(laid))
    }

    /// The card as it is set, its sides numbered as they come out: a unit higher than a side takes
    /// more than one.
    pub(super) fn set_anyhow(&self, wording: &Wording) -> Result<Laid, PdfFault> {
        self.look.set(wording, &self.sides, false)
    }
}

/// Units with their heights, to be put on sides.
pub(super) fn pieces(units: &[Unit], heights: &[f64], labels: f64) -> Vec<Piece> {
    units
        .iter()
        .zip(heights)
        .map(|(unit, &height)| Piece {
            height,
            above: unit.above,
            cost: unit.cost,
            labels: if unit.is_amount() { labels } else { 0.0 },
        })
        .collect()
}
