//! What a film about a recipe needs besides its picture: captions, chapters, cards, figures to say.

mod captions;
mod cards;
mod chapters;
pub mod code;
pub mod limits;
mod pace;
mod scenes;
mod sheet;
mod words;
mod wrap;

use super::Said;
use super::track::Track;
use crate::ledger::model::{Figure, FilmPart, Ledger};
pub use captions::Caption;
pub use cards::{Card, CardLine};
pub use chapters::Chapter;
pub use pace::Paced;
use recipe::source::{Checked, Diagnostic};
pub use sheet::{SheetLine, SheetPart};

/// Everything that is written for a film.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Film {
    /// What stands under the picture, and when.
    pub captions: Vec<Caption>,
    /// Its parts by the recipe's stages and products.
    pub chapters: Vec<Chapter>,
    /// Whether there are enough chapters for hosts to show them.
    pub chapters_shown: bool,
    /// Amounts to lay over the picture.
    pub cards: Vec<Card>,
    /// The figures to say, scene by scene.
    pub sheet: Vec<SheetPart>,
    /// How fast it is said: in all, and where it is fastest.
    pub pace: Vec<Figure>,
    /// How fast each cue of the track is said.
    pub paced: Vec<Paced>,
}

impl Film {
    /// Its chapters as parts of the film, for structured data; none when there are too few to be shown.
    pub fn parts(&self) -> Vec<FilmPart> {
        let shown = self.chapters.iter().filter(|_| self.chapters_shown);
        let part = |chapter: &Chapter| FilmPart {
            name: chapter.name.clone(),
            from_seconds: chapter.from.as_secs(),
            to_seconds: chapter.to.as_secs(),
        };
        shown.map(part).collect()
    }
}

/// Works out a film's papers from its recipe's figures, its talk and which step each cue is about.
pub fn film(ledger: &Ledger, track: &Track, said: &[Said]) -> Checked<Film> {
    let mut diagnostics = Vec::new();
    let timed = track.cues.iter().any(|cue| cue.from.is_some());
    let scenes = scenes::scenes(ledger, track, said);
    let captions = captions::captions(track, &mut diagnostics);
    let chapters = chapters::chapters(&scenes, timed, &mut diagnostics);
    let cards = cards::cards(ledger, &scenes, &mut diagnostics);
    let paced = pace::paced(track);
    if let Some((at, many)) = &track.left_out {
        let marks = if *many == 1 {
            "One mark".to_owned()
        } else {
            format!("{many} marks")
        };
        let are = if *many == 1 { "is" } else { "are" };
        diagnostics.push(
            Diagnostic::at(
                code::TRACK_MARKS_LEFT_OUT,
                at.clone().into(),
                format!("{marks} of colour, slant, place on the screen or remark {are} not kept; the words are."),
            )
            .hint("Set them anew in the files that are written, where they matter."),
        );
    }
    if !timed && !track.cues.is_empty() {
        diagnostics.push(
            Diagnostic::whole(
                code::TALK_WITHOUT_TIMES,
                "The talk has no times: cards and the list of figures are made, captions and chapters are not.",
            )
            .hint("Put marks before what is said, such as [0:16], or take the file of captions from the editing program."),
        );
    }
    Checked {
        output: Film {
            pace: pace::figures(&paced),
            sheet: sheet::sheet(ledger, &scenes),
            chapters_shown: chapters.len() >= limits::CHAPTERS,
            captions,
            chapters,
            cards,
            paced,
        },
        diagnostics,
    }
}

#[cfg(test)]
mod tests;
