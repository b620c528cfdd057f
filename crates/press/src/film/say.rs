//! The sheet of figures to say before the camera, as text and on paper.

use crate::line::plain;
use crate::pdf::{PdfFault, Template, lay_out_value, palette};
use crate::text::wrap::wrap;
use edit::ledger::model::Ledger;
use edit::talk::film::{Film, SheetLine};
use serde_json::{Value, json};

/// The paper of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SayOn {
    /// ISO 216 A4.
    A4,
    /// US letter.
    Letter,
}

impl SayOn {
    /// Name of its file.
    pub const fn file_name(self) -> &'static str {
        match self {
            Self::A4 => "say-these-a4.pdf",
            Self::Letter => "say-these-letter.pdf",
        }
    }

    /// Width and height in millimetres.
    const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

const TITLE: &str = "Say these figures";

/// What is said of the sheet in one sentence.
const ABOUT: &str =
    "Large is what the recipe prints. Say either scale, cups or grams, but these figures.";

/// The sheet as PDF/UA-1.
pub(super) fn sheet(ledger: &Ledger, film: &Film, on: SayOn) -> Result<Vec<u8>, PdfFault> {
    let (width_mm, height_mm) = on.size_mm();
    let template = Template {
        text: include_str!("../../templates/say.typ"),
        name: "say",
        paper: json!({ "width": width_mm, "height": height_mm }),
    };
    let parts = film.sheet.iter().map(|part| {
        let (items, steps): (Vec<&SheetLine>, Vec<&SheetLine>) =
            part.lines.iter().partition(|line| line.step.is_none());
        json!({
            "heading": part.heading,
            "at": part.at,
            "items": items.into_iter().map(line).collect::<Vec<_>>(),
            "steps": steps.into_iter().map(line).collect::<Vec<_>>(),
        })
    });
    let data = json!({
        "title": TITLE,
        "of": ledger.title,
        "about": ABOUT,
        "parts": parts.collect::<Vec<_>>(),
        "contains": ledger.allergens.contains,
        "disclosure": ledger.disclosure,
        "cautions": ledger.cautions.iter().map(|caution| &caution.text).collect::<Vec<_>>(),
        "imprint": ledger.imprint,
        "colours": palette(),
    });
    lay_out_value(&data, &ledger.slug, ledger.language, &template)?.export()
}

/// A line of the sheet; a range is not broken at its dash.
fn line(line: &SheetLine) -> Value {
    let whole = |text: &String| text.replace('–', "\u{2060}–\u{2060}");
    json!({
        "step": line.step.map(|step| step.to_string()),
        "at": line.at,
        "figures": line.figures.iter().map(whole).collect::<Vec<_>>(),
        "signs": line.signs.iter().map(whole).collect::<Vec<_>>(),
        "of": whole(&line.of),
    })
}

/// The sheet as text, 72 letters wide.
pub(super) fn text(ledger: &Ledger, film: &Film) -> String {
    const WIDE: usize = 72;
    let mut out = format!(
        "{TITLE}\n{}\n{}\n\n",
        "=".repeat(TITLE.len()),
        plain(&ledger.title)
    );
    let mut add = |indent: usize, text: &str| {
        for line in wrap(text, WIDE - indent) {
            out.push_str(&" ".repeat(indent));
            out.push_str(plain(&line).trim_end());
            out.push('\n');
        }
    };
    add(0, ABOUT);
    for part in &film.sheet {
        add(0, "");
        add(0, "\u{a0}");
        let at = part
            .at
            .as_ref()
            .map_or(String::new(), |at| format!(" [{at}]"));
        add(0, &format!("{}{at}", part.heading));
        for line in &part.lines {
            let said: Vec<&str> = line
                .figures
                .iter()
                .chain(&line.signs)
                .map(String::as_str)
                .collect();
            let figures = said.join(" · ");
            if let Some(step) = line.step {
                let at = line
                    .at
                    .as_ref()
                    .map_or(String::new(), |at| format!(" [{at}]"));
                add(2, &format!("{step}.{at} {figures}"));
                add(6, &line.of);
            } else {
                add(2, &format!("{figures} {}", line.of));
            }
        }
    }
    add(0, "\u{a0}");
    add(0, "Say once");
    add(2, &ledger.allergens.contains);
    for caution in &ledger.cautions {
        add(2, &caution.text);
    }
    if let Some(disclosure) = &ledger.disclosure {
        add(2, disclosure);
    }
    out
}
