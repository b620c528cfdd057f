//! The papers of a film: captions, chapters, cards, the sheet of figures to say, the text under it.

mod card;
mod description;
mod say;

use crate::address::PageOptions;
use crate::pdf::PdfFault;
use crate::{captions, jsonld};
use edit::ledger::model::Ledger;
use edit::talk::film::{Caption, Card, Film};
use edit::talk::track::{Cue, Track};
pub use say::SayOn;

/// Width and height of a card's picture: those of a film in high definition (ITU-R BT.709).
pub const PICTURE: (u32, u32) = (1920, 1080);

/// Every paper by the name of its file. Captions and chapters are left out when the talk has no times, and the
/// structured data when the recipe names no film.
pub fn papers(
    ledger: &Ledger,
    film: &Film,
    options: &PageOptions,
) -> Result<Vec<(String, Vec<u8>)>, PdfFault> {
    let mut files: Vec<(String, Vec<u8>)> = Vec::new();
    let mut text = |name: &str, text: String| files.push((name.to_owned(), text.into_bytes()));
    if !film.captions.is_empty() {
        let track = track_of(&film.captions);
        text("captions.srt", captions::srt(&track));
        text("captions.vtt", captions::webvtt(&track));
        text("captions-pace.txt", description::pace(film));
    }
    if !film.chapters.is_empty() {
        text("chapters.vtt", captions::chapters(&film.chapters));
    }
    text(
        "description.txt",
        description::description(ledger, film, options),
    );
    text("say-these.txt", say::text(ledger, film));
    text("cards.csv", card::list(&film.cards));
    if let Some(with_parts) = with_parts(ledger, film) {
        text("recipe.jsonld", jsonld::jsonld(&with_parts, options));
    }
    for on in [SayOn::A4, SayOn::Letter] {
        files.push((on.file_name().to_owned(), say::sheet(ledger, film, on)?));
    }
    for card in &film.cards {
        let (svg, png) = card::pictures(card, ledger)?;
        files.push((card_file(card, "svg"), svg.into_bytes()));
        files.push((card_file(card, "png"), png));
    }
    Ok(files)
}

/// What a file of a film is.
pub fn what(name: &str) -> &'static str {
    match name {
        "captions.srt" => "captions, SubRip",
        "captions.vtt" => "captions, WebVTT",
        "captions-pace.txt" => "how fast each caption is read",
        "chapters.vtt" => "chapters, WebVTT",
        "description.txt" => "the text under the film",
        "say-these.txt" => "figures to say",
        "say-these-a4.pdf" => "figures to say, A4",
        "say-these-letter.pdf" => "figures to say, letter",
        "cards.csv" => "list of the cards and their seconds",
        "recipe.jsonld" => "structured data with the film's chapters",
        _ if name.rsplit('.').next() == Some("png") => "card to lay over the picture, transparent",
        _ => "the same card, drawn",
    }
}

fn card_file(card: &Card, ending: &str) -> String {
    format!("card-{}.{ending}", card.name)
}

/// Captions as a track to be written.
fn track_of(captions: &[Caption]) -> Track {
    let cue = |caption: &Caption| Cue {
        from: Some(caption.from),
        to: Some(caption.to),
        text: caption.lines.join("\n"),
        ..Cue::default()
    };
    Track {
        cues: captions.iter().map(cue).collect(),
        ..Track::default()
    }
}

/// The ledger with the film's chapters; none when it names no film.
fn with_parts(ledger: &Ledger, film: &Film) -> Option<Ledger> {
    let mut ledger = ledger.clone();
    let line = ledger.film.as_mut()?;
    line.parts = film.parts();
    Some(ledger)
}

#[cfg(test)]
mod tests;
