//! Sheets for a printer: our templates and the ledger's strings, set and written as PDF/UA-1.

pub(crate) mod faces;
mod fault;
#[cfg(test)]
mod proof;
mod sheets;
pub(crate) mod wording;
mod world;

use edit::ledger::model::Ledger;
use typst::diag::SourceDiagnostic;
use typst::foundations::Smart;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

pub use fault::{MissingGlyph, PdfFault};
use wording::Wording;
use world::Texts;

/// Marks, margin and amounts, shared by card and bench sheet.
const MARGIN: &str = include_str!("../../templates/margin.typ");

/// One of our templates and what it is told about the paper.
pub(crate) struct Template {
    /// Its text.
    pub(crate) text: &'static str,
    /// What kind of sheet it makes; part of the document's identifier.
    pub(crate) name: &'static str,
    /// Paper and type in the template's own words, as JSON.
    pub(crate) paper: serde_json::Value,
}

/// Characters of a recipe that no embedded face has, with their places; none when it can be
/// printed as it stands.
pub fn missing_glyphs(ledger: &Ledger) -> Vec<MissingGlyph> {
    Wording::of(ledger).missing_glyphs()
}

/// Pages that are set and not yet written.
#[derive(Clone)]
pub(crate) struct Laid {
    document: PagedDocument,
    /// What the typesetter said about our template; read by the tests, which allow nothing.
    #[cfg_attr(not(test), expect(dead_code, reason = "only the tests read it"))]
    warnings: Vec<String>,
    ident: String,
}

/// Sets a template with a ledger's strings.
pub(crate) fn lay_out(wording: &Wording, template: &Template) -> Result<Laid, PdfFault> {
    let data = serde_json::to_string(wording).map_err(|error| program_fault(error.to_string()))?;
    set(data, wording.ident(), wording.language(), template)
}

/// Sets a template with units that are put together already; the sheet says of itself what the
/// wording says. Its characters have been looked at with the wording.
pub(crate) fn lay_out_units(
    wording: &Wording,
    template: &Template,
    units: &serde_json::Value,
) -> Result<Laid, PdfFault> {
    let mut data = wording.about();
    data["units"] = units.clone();
    set(
        data.to_string(),
        wording.ident(),
        wording.language(),
        template,
    )
}

/// Sets a template with strings of its own; `ident` tells this recipe's papers from another's,
/// `language` is that of the readers. A fault when a character would come out as an empty box.
pub(crate) fn lay_out_value(
    data: &serde_json::Value,
    ident: &str,
    language: &str,
    template: &Template,
) -> Result<Laid, PdfFault> {
    lay_out_with(data, Vec::new(), ident, language, template)
}

/// The same with drawings that the template names.
pub(crate) fn lay_out_with(
    data: &serde_json::Value,
    drawings: Vec<(&'static str, String)>,
    ident: &str,
    language: &str,
    template: &Template,
) -> Result<Laid, PdfFault> {
    let mut missing = Vec::new();
    look_for_glyphs(data, "", template.name, &mut missing);
    if !missing.is_empty() {
        return Err(PdfFault::Glyphs(missing));
    }
    set_with(data.to_string(), drawings, ident, language, template)
}

/// Colours of print by the names that templates use.
pub(crate) fn palette() -> serde_json::Value {
    use crate::palette::PRINT;
    serde_json::json!({
        "ink": PRINT.ink.css(),
        "soft": PRINT.ink_soft.css(),
        "rule": PRINT.rule.css(),
        "crust": PRINT.crust.css(),
        "milk": PRINT.milk.css(),
    })
}

fn look_for_glyphs(
    value: &serde_json::Value,
    key: &str,
    sheet: &str,
    missing: &mut Vec<MissingGlyph>,
) {
    use serde_json::Value;
    match value {
        Value::String(text) => {
            for character in text.chars().filter(|sign| !faces::can_print(*sign)) {
                let place = format!("the {key} of the {sheet} sheet");
                let glyph = MissingGlyph { character, place };
                if !missing.contains(&glyph) {
                    missing.push(glyph);
                }
            }
        }
        Value::Array(all) => {
            for one in all {
                look_for_glyphs(one, key, sheet, missing);
            }
        }
        Value::Object(all) => {
            for (key, one) in all {
                look_for_glyphs(one, key, sheet, missing);
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// Opens the typesetter's faces and library and sets one word, so that the first sheet need not wait for it.
pub fn get_ready() {
    let word = Texts::new(("sheet.typ", "everyoven".to_owned()), Vec::new());
    if let Ok(world) = word {
        // Nothing is made of it, and what is wrong with the typesetter the first sheet says.
        let _ = typst::compile::<PagedDocument>(&world);
        let _ = faces::advance_em('e', faces::Face::Regular);
    }
}

fn set(data: String, ident: &str, language: &str, template: &Template) -> Result<Laid, PdfFault> {
    set_with(data, Vec::new(), ident, language, template)
}

fn set_with(
    data: String,
    drawings: Vec<(&'static str, String)>,
    ident: &str,
    language: &str,
    template: &Template,
) -> Result<Laid, PdfFault> {
    let mut paper = template.paper.clone();
    let (lang, region) = parted(language);
    paper["lang"] = lang.into();
    paper["region"] = region.into();
    let mut files = vec![
        ("margin.typ", MARGIN.to_owned()),
        ("data.json", data),
        ("paper.json", paper.to_string()),
    ];
    files.extend(drawings);
    let world = Texts::new(("sheet.typ", template.text.to_owned()), files)
        .map_err(|error| program_fault(error.to_string()))?;
    let set = typst::compile::<PagedDocument>(&world);
    // The typesetter remembers what it has set: what the papers of one recipe share is set once,
    // and after some sixty more the memory is free again.
    typst::comemo::evict(60);
    match set.output {
        Ok(document) => Ok(Laid {
            document,
            warnings: set.warnings.iter().map(message).collect(),
            ident: format!("everyoven/{}/{}", template.name, ident),
        }),
        Err(errors) => Err(PdfFault::Typesetter(errors.iter().map(message).collect())),
    }
}

impl Laid {
    /// Heights of the pages in points.
    pub(crate) fn heights_pt(&self) -> Vec<f64> {
        let pages = self.document.pages().iter();
        pages.map(|page| page.frame.height().to_pt()).collect()
    }

    /// The first page as a drawing, its letters drawn too.
    pub(crate) fn first_as_svg(&self) -> String {
        let page = self.document.pages().first();
        page.map_or(String::new(), |page| {
            typst_svg::svg(page, &typst_svg::SvgOptions::default())
        })
    }

    /// Writes the pages as PDF/UA-1, without a date and with an identifier that comes from the
    /// recipe alone.
    pub(crate) fn export(self) -> Result<Vec<u8>, PdfFault> {
        let standards = PdfStandards::new(&[PdfStandard::Ua_1])
            .map_err(|error| program_fault(error.message().to_string()))?;
        let options = PdfOptions {
            ident: Smart::Custom(self.ident),
            creator: Smart::Custom(Some("everyoven".to_owned())),
            standards,
            ..PdfOptions::default()
        };
        typst_pdf::pdf(&self.document, &options)
            .map_err(|errors| PdfFault::Typesetter(errors.iter().map(message).collect()))
    }
}

/// Language and country of a tag as BCP 47 has them: "en-US" is "en" and "US".
fn parted(language: &str) -> (&str, Option<&str>) {
    match language.split_once('-') {
        Some((lang, region)) => (lang, Some(region)),
        None => (language, None),
    }
}

fn message(diagnostic: &SourceDiagnostic) -> String {
    let hints: Vec<_> = diagnostic
        .hints
        .iter()
        .map(|hint| hint.v.as_str())
        .collect();
    if hints.is_empty() {
        diagnostic.message.to_string()
    } else {
        format!("{} ({})", diagnostic.message, hints.join("; "))
    }
}

fn program_fault(message: String) -> PdfFault {
    PdfFault::Typesetter(vec![message])
}
