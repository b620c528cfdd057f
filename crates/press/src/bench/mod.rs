//! The sheet that lies on the bench: what to set out, then every step's measures in large type.

use edit::ledger::model::Ledger;

use crate::pdf::wording::Wording;
use crate::pdf::{Laid, PdfFault, Template, lay_out};

/// The bench sheet as PDF/UA-1 on A4, to be read at 70 cm; the same bytes for the same ledger.
pub fn sheet(ledger: &Ledger) -> Result<Vec<u8>, PdfFault> {
    laid(ledger)?.export()
}

/// The pages as they are set.
pub(crate) fn laid(ledger: &Ledger) -> Result<Laid, PdfFault> {
    let template = Template {
        text: include_str!("../../templates/bench.typ"),
        name: "bench",
        paper: serde_json::Value::Null,
    };
    let wording = Wording::of(ledger);
    wording.check()?;
    lay_out(&wording, &template)
}
