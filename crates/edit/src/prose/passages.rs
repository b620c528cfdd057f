//! Every passage that the author wrote for readers, with its place in the recipe and in the file.

use recipe::document::model::{Product, Recipe, Stage, Step};
use recipe::document::{Piece, Places, parse_sentence};
use recipe::source::{Located, Span};
use std::ops::Range;

/// What a passage is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Spot {
    /// The title of the recipe.
    Title,
    /// The title of its film.
    FilmTitle,
    /// What stands before the recipe.
    Headnote,
    /// What can be done beforehand.
    MakeAhead,
    /// How it keeps.
    Storage,
    /// For how many people it is.
    Serves,
    /// A note, by its number from 1.
    Note(usize),
    /// The sentence of a step, by its number through the whole recipe.
    Step(usize),
    /// What is seen at its end.
    See(usize),
    /// The state in which an item goes in.
    State(String),
    /// A word about an item.
    ItemNote(String),
    /// What a photograph shows, by its number from 1.
    Photo(usize),
}

impl Spot {
    /// Its place in the ledger, in dotted words.
    pub fn name(&self) -> String {
        match self {
            Self::Title => "title".to_owned(),
            Self::FilmTitle => "film.title".to_owned(),
            Self::Headnote => "headnote".to_owned(),
            Self::MakeAhead => "make-ahead".to_owned(),
            Self::Storage => "storage".to_owned(),
            Self::Serves => "serves".to_owned(),
            Self::Note(number) => format!("note.{number}"),
            Self::Step(number) => format!("step.{number}"),
            Self::See(number) => format!("step.{number}.see"),
            Self::State(item) => format!("{item}.state"),
            Self::ItemNote(item) => format!("{item}.note"),
            Self::Photo(number) => format!("photo.{number}"),
        }
    }
}

/// The step that a passage belongs to.
#[derive(Clone, Copy, Debug)]
pub struct Of<'a> {
    /// The step.
    pub step: &'a Step,
    /// Its number through the whole recipe.
    pub number: usize,
    /// The stage, when it is one's.
    pub stage: Option<&'a Stage>,
    /// The product, when it is one's.
    pub product: Option<&'a Product>,
}

/// A passage of the author's.
pub struct Passage<'a> {
    /// What it is.
    pub spot: Spot,
    /// The words, every letter of a placeholder between its brackets made an underscore, so that
    /// bytes stay where they are.
    pub words: String,
    /// The words as written.
    pub written: &'a str,
    /// The step it belongs to.
    pub of: Option<Of<'a>>,
    span: Span,
    places: Option<Places>,
}

impl Passage<'_> {
    /// Where bytes of it stand in the file; the whole of it when the file's text is not at hand.
    pub fn at(&self, part: &Range<usize>) -> Span {
        self.places.as_ref().map_or(self.span, |places| {
            places.of(Span::new(part.start, part.end))
        })
    }

    /// Where all of it stands.
    pub const fn whole(&self) -> Span {
        self.span
    }

    /// Bytes of the file that can be changed for bytes of it: none when they are written otherwise
    /// there, with an escape or over a line's end.
    pub fn changeable(&self, text: Option<&str>, part: &Range<usize>) -> Option<Span> {
        let span = self.at(part);
        let own = self.written.get(part.clone())?;
        (self.places.is_some() && text?.get(span.start..span.end)? == own).then_some(span)
    }

    /// Whether it is made of sentences: a step, or a paragraph around the recipe.
    pub const fn is_prose(&self) -> bool {
        matches!(
            self.spot,
            Spot::Step(_) | Spot::Headnote | Spot::MakeAhead | Spot::Storage | Spot::Note(_)
        )
    }

    /// Whether it says what a photograph shows.
    pub const fn is_photo(&self) -> bool {
        matches!(self.spot, Spot::Photo(_))
    }

    /// Whether it is the sentence of a step.
    pub const fn is_step(&self) -> bool {
        matches!(self.spot, Spot::Step(_))
    }
}

/// Every passage, in the order of a page. With the text of the file each knows its own bytes.
pub fn passages<'a>(recipe: &'a Recipe, text: Option<&str>) -> Vec<Passage<'a>> {
    let mut all = Collected {
        text,
        found: Vec::new(),
    };
    all.add(Spot::Title, &recipe.title, None);
    if let Some(film) = &recipe.film {
        all.maybe(Spot::FilmTitle, film.title.as_ref());
    }
    all.maybe(Spot::Headnote, recipe.headnote.as_ref());
    all.maybe(Spot::Serves, recipe.serves.as_ref());
    all.maybe(Spot::MakeAhead, recipe.make_ahead.as_ref());
    all.maybe(Spot::Storage, recipe.storage.as_ref());
    for (place, note) in recipe.notes.iter().enumerate() {
        all.add(Spot::Note(place + 1), note, None);
    }
    let in_stages = recipe.stages.iter().flat_map(|stage| &stage.items);
    for item in in_stages.chain(&recipe.besides) {
        all.maybe(Spot::State(item.called().to_owned()), item.state.as_ref());
        all.maybe(Spot::ItemNote(item.called().to_owned()), item.note.as_ref());
    }
    for of in numbered(recipe) {
        all.add(Spot::Step(of.number), &of.step.text, Some(of));
        let see = of.step.until.as_ref().and_then(|until| until.see.as_ref());
        if let Some(see) = see {
            all.add(Spot::See(of.number), see, Some(of));
        }
    }
    for (place, photo) in recipe.photos.iter().enumerate() {
        all.maybe(Spot::Photo(place + 1), photo.alt.as_ref());
    }
    all.found
}

/// Every step with its number, stages first.
fn numbered(recipe: &Recipe) -> impl Iterator<Item = Of<'_>> {
    let of_stages = recipe.stages.iter().flat_map(|stage| {
        let steps = stage.steps.iter();
        steps.map(move |step| (step, Some(stage), None))
    });
    let of_products = recipe.products.iter().flat_map(|product| {
        let steps = product.steps.iter();
        steps.map(move |step| (step, None, Some(product)))
    });
    of_stages
        .chain(of_products)
        .enumerate()
        .map(|(place, (step, stage, product))| Of {
            step,
            number: place + 1,
            stage,
            product,
        })
}

struct Collected<'a, 't> {
    text: Option<&'t str>,
    found: Vec<Passage<'a>>,
}

impl<'a> Collected<'a, '_> {
    fn maybe(&mut self, spot: Spot, text: Option<&'a Located<String>>) {
        if let Some(text) = text {
            self.add(spot, text, None);
        }
    }

    fn add(&mut self, spot: Spot, text: &'a Located<String>, of: Option<Of<'a>>) {
        let places = self
            .text
            .map(|file| Places::new(file, text.span, &text.value));
        let words = if matches!(spot, Spot::Step(_)) {
            masked(&text.value)
        } else {
            text.value.clone()
        };
        self.found.push(Passage {
            spot,
            words,
            written: &text.value,
            of,
            span: text.span,
            places,
        });
    }
}

/// A sentence whose placeholders are brackets around underscores, byte for byte as long.
fn masked(text: &str) -> String {
    let (pieces, _) = parse_sentence(text, 0);
    let mut out = text.to_owned();
    for piece in pieces {
        if matches!(piece.value, Piece::Words(_)) {
            continue;
        }
        let inside = piece.span.start + 1..piece.span.end.saturating_sub(1);
        if inside.start < inside.end && out.get(inside.clone()).is_some() {
            let length = inside.len();
            out.replace_range(inside, &"_".repeat(length));
        }
    }
    out
}

/// The words of a passage with their places: letters, digits, hyphens and apostrophes.
pub fn words(text: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let mut start = None;
    let inside = |c: char| c.is_alphanumeric() || matches!(c, '-' | '\'' | '’');
    for (at, letter) in text.char_indices() {
        match (start, inside(letter)) {
            (None, true) => start = Some(at),
            (Some(from), false) => {
                found.push((from, &text[from..at]));
                start = None;
            }
            _ => {}
        }
    }
    if let Some(from) = start {
        found.push((from, &text[from..]));
    }
    found
}

/// Abbreviations whose full stop ends no sentence.
const SHORT: [&str; 12] = [
    "approx", "min", "hr", "hrs", "oz", "lb", "tsp", "tbsp", "e.g", "i.e", "ca", "no",
];

/// The sentences of a passage, each without the space before it.
pub fn sentences(text: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, letter) in text.char_indices() {
        if !matches!(letter, '.' | '!' | '?' | '\n') {
            continue;
        }
        let end = at + letter.len_utf8();
        let after = &text[end..];
        let ends = after.trim().is_empty() || after.starts_with(char::is_whitespace);
        let before = text[start..at]
            .rsplit(char::is_whitespace)
            .next()
            .unwrap_or("")
            .to_lowercase();
        let goes_on = after
            .trim_start()
            .starts_with(|c: char| c.is_lowercase() || c.is_ascii_digit());
        if ends && !(letter == '.' && goes_on && SHORT.contains(&before.as_str())) {
            push(text, start..end, &mut found);
            start = end;
        }
    }
    push(text, start..text.len(), &mut found);
    found
}

fn push(text: &str, part: Range<usize>, found: &mut Vec<Range<usize>>) {
    let own = &text[part.clone()];
    let start = part.start + own.len() - own.trim_start().len();
    if !own.trim().is_empty() {
        found.push(start..part.end);
    }
}

#[cfg(test)]
mod tests {
    use super::{masked, sentences, words};

    #[test]
    fn a_placeholder_is_masked_byte_for_byte() {
        let text = "Add [½ of the milk] at 5 °C.";
        let out = masked(text);
        assert_eq!(out.len(), text.len());
        assert!(out.starts_with("Add [___") && out.ends_with("] at 5 °C."));
    }

    #[test]
    fn sentences_end_where_a_reader_would_pause() {
        let text = "Mix 2.5 min. at low. Then rest! 5 balls, e.g. small ones.";
        let all: Vec<&str> = sentences(text).into_iter().map(|r| &text[r]).collect();
        assert_eq!(
            all,
            [
                "Mix 2.5 min. at low.",
                "Then rest!",
                "5 balls, e.g. small ones."
            ]
        );
    }

    #[test]
    fn words_keep_their_places() {
        assert_eq!(
            words("A oven-proof tin."),
            [(0, "A"), (2, "oven-proof"), (13, "tin")]
        );
    }
}
