//! The sheet that lies on the bench: what to set out, then every step's measures in large type.

use serde_json::json;

use crate::pdf::wording::Wording;
use crate::pdf::{Laid, PdfFault, Template, lay_out};

/// The paper of a bench sheet, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BenchSize {
    /// ISO 216 A4, 210 × 297 mm.
    #[default]
    A4,
    /// US letter, 8½ × 11 in.
    Letter,
}

impl BenchSize {
    /// Width and height in millimetres.
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

/// The pages as they are set, to be read at 70 cm.
pub(crate) fn laid(wording: &Wording, size: BenchSize) -> Result<Laid, PdfFault> {
    let (width_mm, height_mm) = size.size_mm();
    let template = Template {
        text: include_str!("../../templates/bench.typ"),
        name: "bench",
        paper: json!({ "width": width_mm, "height": height_mm }),
    };
    lay_out(wording, &template)
}
