//! A card as a picture to lay over the film: drawn letters on an opaque box, nothing else.
//!
//! 1920 × 1080. The box stands inside 90 % of width and height (EBU R 95, second-hand: both of its readings
//! are kept by 5 % all round), at the top, for captions have the bottom. Capitals are 4 % of the height or more;
//! ink on paper has a contrast above 7 : 1 (WCAG 2.2, 1.4.3), whatever the film shows behind it.

use super::PICTURE;
use crate::line::plain;
use crate::palette::LIGHT;
use crate::pdf::{PdfFault, Template, lay_out_value};
use edit::ledger::model::Ledger;
use edit::talk::film::Card;
use maud::html;
use resvg::{tiny_skia, usvg};
use serde_json::json;

/// Size of its letters in pixels: a capital of the serif has 0.645 of it, 46 of 1080.
pub(super) const LETTERS: f64 = 72.0;

/// The card as SVG and as a transparent PNG.
pub(super) fn pictures(card: &Card, ledger: &Ledger) -> Result<(String, Vec<u8>), PdfFault> {
    let (wide, high) = PICTURE;
    let data = json!({
        "lines": card.lines.iter().map(|line| json!({
            "amount": line.amount,
            "name": line.name,
        })).collect::<Vec<_>>(),
        "colours": {
            "paper": LIGHT.paper.css(),
            "ink": LIGHT.ink.css(),
        },
    });
    let template = Template {
        text: include_str!("../../templates/film-card.typ"),
        name: "film-card",
        paper: json!({ "width": wide, "height": high, "letters": LETTERS }),
    };
    let laid = lay_out_value(&data, &ledger.slug, ledger.language, &template)?;
    let drawn = laid.first_as_svg();
    let svg = standing_alone(&drawn, card, ledger);
    let png = rendered(&svg)?;
    Ok((svg, png))
}

/// The drawing in pixels, with a title and its words for whoever cannot see it.
fn standing_alone(drawn: &str, card: &Card, ledger: &Ledger) -> String {
    let (head, body) = drawn.split_once('>').unwrap_or((drawn, ""));
    let head = head.replace("pt\"", "\"");
    let words = html! {
        title { (plain(&ledger.title)) ", " (plain(&card.of)) }
        desc { (plain(&card.words())) }
    };
    format!("{head} role=\"img\">{}{body}\n", words.into_string())
}

/// The drawing as pixels; where nothing is drawn nothing covers the film.
fn rendered(svg: &str) -> Result<Vec<u8>, PdfFault> {
    let fault = |what: String| PdfFault::Typesetter(vec![what]);
    let tree = usvg::Tree::from_str(svg, &usvg::Options::default())
        .map_err(|error| fault(error.to_string()))?;
    let (wide, high) = PICTURE;
    let mut pixels =
        tiny_skia::Pixmap::new(wide, high).ok_or_else(|| fault("no room for a card".to_owned()))?;
    resvg::render(
        &tree,
        tiny_skia::Transform::identity(),
        &mut pixels.as_mut(),
    );
    pixels
        .encode_png()
        .map_err(|error| fault(error.to_string()))
}

/// The cards with their seconds, as a table that editing programs and people read.
pub(super) fn list(cards: &[Card]) -> String {
    let mut out = String::from("file,stage,comes at,stands,says\n");
    for card in cards {
        let cells = [
            super::card_file(card, "png"),
            card.of.clone(),
            card.at.clone().unwrap_or_default(),
            card.stands_shown.clone(),
            card.words(),
        ];
        let cells: Vec<String> = cells.iter().map(|cell| quoted(&plain(cell))).collect();
        out.push_str(&cells.join(","));
        out.push('\n');
    }
    out
}

/// A cell as RFC 4180 has it.
fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell.to_owned()
    }
}
