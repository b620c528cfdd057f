//! The sentences of steps: words, and bracketed placeholders that stand for something of the recipe.

use super::model::{Amount, Place};
use crate::measure::read::{read_amount, read_share};
use crate::source::{Diagnostic, Located, Span, code};
use numerics::quantity::Mass;

/// One piece of a sentence, as parsed; whether what it names is there is asked elsewhere.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// The author's words, brackets written twice made one.
    Words(String),
    /// An item or earlier stage that goes in here: `[milk]`, `[60 g of sugar]`.
    Use {
        /// The name by which it is called.
        item: String,
        /// How much of it.
        part: Part,
    },
    /// A name alone: `[the milk]`.
    Mention(String),
    /// An item's temperature: `[milk temperature]`.
    Temperature(String),
    /// What the stage's mix should end at: `[dough temperature]`.
    DoughTemperature,
    /// The bake's dial: `[oven]`.
    Oven,
    /// The bake's core: `[core]`.
    Core,
    /// How a product is cut: `[braid pieces]`.
    Pieces(String),
    /// An item for bench, tin or top: `[butter for the tin]`.
    Besides {
        /// The name by which it is called.
        item: String,
        /// What it is for.
        place: Place,
    },
}

/// How much of an item.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// All of it.
    Whole,
    /// So much by mass.
    Mass(Mass),
    /// So much by measure, or so many.
    Amount(Amount),
    /// A share of it, between nothing and all.
    Fraction(f64),
    /// What is left.
    Rest,
}

/// Parses a sentence that begins at byte `offset` of its file. Every piece has its place, brackets
/// included.
pub fn parse_sentence(text: &str, offset: usize) -> (Vec<Located<Piece>>, Vec<Diagnostic>) {
    let mut parser = Parser {
        offset,
        pieces: Vec::new(),
        said: Vec::new(),
        words: String::new(),
        words_at: 0,
    };
    parser.sentence(text);
    (parser.pieces, parser.said)
}

/// What has been parsed so far.
struct Parser {
    offset: usize,
    pieces: Vec<Located<Piece>>,
    said: Vec<Diagnostic>,
    words: String,
    words_at: usize,
}

impl Parser {
    /// Parses all of it.
    fn sentence(&mut self, text: &str) {
        let mut at = 0;
        while let Some(letter) = text[at..].chars().next() {
            let rest = &text[at..];
            if rest.starts_with("[[") {
                self.word("[", at);
                at += 2;
            } else if letter == '[' {
                let inside = &rest[1..];
                let end = inside.find(['[', ']']);
                match end {
                    Some(end) if inside[end..].starts_with(']') => {
                        self.bracket(&inside[..end], at, at + end + 2);
                        at += end + 2;
                    }
                    _ => {
                        let stop = at + 1 + end.unwrap_or(inside.len());
                        let what = "A bracket is opened here and not closed.";
                        self.unclosed(
                            at,
                            stop,
                            what,
                            "Close it with ], or write [[ for a bracket that is meant as one.",
                        );
                        self.word(&text[at..stop], at);
                        at = stop;
                    }
                }
            } else {
                self.word(&rest[..letter.len_utf8()], at);
                at += letter.len_utf8();
            }
        }
        self.end_words(text.len());
    }

    /// Adds to the words.
    fn word(&mut self, text: &str, at: usize) {
        if self.words.is_empty() {
            self.words_at = at;
        }
        self.words.push_str(text);
    }

    /// Ends a run of words.
    fn end_words(&mut self, end: usize) {
        if !self.words.is_empty() {
            let words = std::mem::take(&mut self.words);
            self.push(Piece::Words(words), self.words_at, end);
        }
    }

    /// Adds a piece.
    fn push(&mut self, piece: Piece, start: usize, end: usize) {
        let span = Span::new(start + self.offset, end + self.offset);
        self.pieces.push(Located::new(piece, span));
    }

    /// Says that brackets do not fit.
    fn unclosed(&mut self, start: usize, end: usize, what: &str, hint: &str) {
        let span = Span::new(start + self.offset, end + self.offset);
        self.said
            .push(Diagnostic::at(code::PLACEHOLDER_UNCLOSED, span, what).hint(hint));
    }

    /// Parses what stands between brackets.
    fn bracket(&mut self, inside: &str, start: usize, end: usize) {
        self.end_words(start);
        let plain = inside.split_whitespace().collect::<Vec<_>>().join(" ");
        if plain.is_empty() {
            self.unclosed(
                start,
                end,
                "There is nothing in this bracket.",
                "Write the name of what goes in, or take the bracket out.",
            );
            return;
        }
        match placeholder(&plain) {
            Ok(piece) => self.push(piece, start, end),
            Err(mut said) => {
                said.span = Some(Span::new(start + self.offset, end + self.offset));
                self.said.push(*said);
            }
        }
    }
}

/// Parses a placeholder whose spaces are single.
fn placeholder(plain: &str) -> Result<Piece, Box<Diagnostic>> {
    match plain {
        "oven" => return Ok(Piece::Oven),
        "core" => return Ok(Piece::Core),
        "dough temperature" => return Ok(Piece::DoughTemperature),
        _ => {}
    }
    for place in Place::ALL {
        let ending = format!(" for the {}", place.word());
        if let Some(item) = plain.strip_suffix(&ending) {
            return Ok(Piece::Besides {
                item: item.to_owned(),
                place,
            });
        }
    }
    if let Some(item) = plain.strip_suffix(" temperature") {
        return Ok(Piece::Temperature(
            item.strip_prefix("the ").unwrap_or(item).to_owned(),
        ));
    }
    if let Some(product) = plain.strip_suffix(" pieces") {
        return Ok(Piece::Pieces(
            product.strip_prefix("the ").unwrap_or(product).to_owned(),
        ));
    }
    for start in [
        "the rest of the ",
        "the rest of ",
        "rest of the ",
        "rest of ",
    ] {
        if let Some(item) = plain.strip_prefix(start) {
            return Ok(Piece::Use {
                item: item.to_owned(),
                part: Part::Rest,
            });
        }
    }
    if let Some((share, item)) = share_of(plain) {
        return Ok(Piece::Use {
            item: item.to_owned(),
            part: Part::Fraction(share),
        });
    }
    if plain.starts_with(|c: char| c.is_ascii_digit() || "½⅓⅔¼¾⅛⅜⅝⅞-−".contains(c))
        && let Some((amount, item)) = plain.split_once(" of ")
    {
        return amount_of(amount, item.strip_prefix("the ").unwrap_or(item));
    }
    if let Some(item) = plain.strip_prefix("the ") {
        return Ok(Piece::Mention(item.to_owned()));
    }
    Ok(Piece::Use {
        item: plain.to_owned(),
        part: Part::Whole,
    })
}

/// "60 g of sugar", "2 of the eggs", "25 % of the milk", "½ of the milk".
fn amount_of(written: &str, item: &str) -> Result<Piece, Box<Diagnostic>> {
    let item = item.to_owned();
    if written.ends_with('%') {
        let share = read_share(written).map_err(unread)?.si();
        if !(share > 0.0 && share <= 1.0) {
            return Err(Box::new(Diagnostic::at(
                code::VALUE_OUT_OF_REASON,
                Span::default(),
                format!("{written} is no part of a whole."),
            )));
        }
        return Ok(Piece::Use {
            item,
            part: Part::Fraction(share),
        });
    }
    let amount = read_amount(written).map_err(unread)?;
    let part = match amount {
        Amount::Mass(mass) => Part::Mass(mass),
        Amount::Count { count, size: None } if count < 1.0 => Part::Fraction(count),
        other => Part::Amount(other),
    };
    Ok(Piece::Use { item, part })
}

/// A quantity within a placeholder that cannot be read.
fn unread(unread: crate::measure::Unread) -> Box<Diagnostic> {
    let mut said = Diagnostic::at(unread.code, Span::default(), unread.message);
    said.hints.extend(unread.hint);
    Box::new(said)
}

/// Shares that have words, and the item after them.
fn share_of(plain: &str) -> Option<(f64, &str)> {
    const SHARES: [(&str, f64); 10] = [
        ("half", 0.5),
        ("a half", 0.5),
        ("one half", 0.5),
        ("a third", 1.0 / 3.0),
        ("one third", 1.0 / 3.0),
        ("two thirds", 2.0 / 3.0),
        ("a quarter", 0.25),
        ("one quarter", 0.25),
        ("three quarters", 0.75),
        ("a fifth", 0.2),
    ];
    SHARES.iter().find_map(|(words, share)| {
        let rest = plain.strip_prefix(words)?;
        // "half-fat milk" and "half milk" are names.
        let item = [" of the ", " of ", " the "]
            .iter()
            .find_map(|of| rest.strip_prefix(of))?;
        Some((*share, item))
    })
}

#[cfg(test)]
mod tests {
    use super::{Part, Piece, parse_sentence};
    use crate::document::model::Place;
    use numerics::quantity::Mass;

    /// The pieces of a sentence without fault.
    fn pieces(text: &str) -> Vec<Piece> {
        let (pieces, said) = parse_sentence(text, 0);
        assert_eq!(said, [], "{text}");
        pieces.into_iter().map(|piece| piece.value).collect()
    }

    /// The only placeholder of a sentence.
    fn only(text: &str) -> Piece {
        pieces(text).remove(0)
    }

    #[test]
    fn every_placeholder_of_the_format_is_understood() {
        let all = |item: &str, part| Piece::Use {
            item: item.to_owned(),
            part,
        };
        assert_eq!(only("[milk]"), all("milk", Part::Whole));
        assert_eq!(
            only("[60 g of sugar]"),
            all("sugar", Part::Mass(Mass::from_grams(60.0)))
        );
        assert_eq!(only("[half of the milk]"), all("milk", Part::Fraction(0.5)));
        assert_eq!(only("[½ of the milk]"), all("milk", Part::Fraction(0.5)));
        assert_eq!(
            only("[25 % of the milk]"),
            all("milk", Part::Fraction(0.25))
        );
        assert_eq!(only("[the rest of the milk]"), all("milk", Part::Rest));
        assert_eq!(only("[the milk]"), Piece::Mention("milk".to_owned()));
        assert_eq!(only("[half-fat milk]"), all("half-fat milk", Part::Whole));
        assert_eq!(
            only("[milk temperature]"),
            Piece::Temperature("milk".to_owned())
        );
        assert_eq!(only("[dough temperature]"), Piece::DoughTemperature);
        assert_eq!(only("[oven]"), Piece::Oven);
        assert_eq!(only("[core]"), Piece::Core);
        assert_eq!(only("[braid pieces]"), Piece::Pieces("braid".to_owned()));
        assert_eq!(
            only("[butter for the tin]"),
            Piece::Besides {
                item: "butter".to_owned(),
                place: Place::Tin
            }
        );
    }

    #[test]
    fn a_bracket_written_twice_is_a_bracket() {
        assert_eq!(
            only("Serve [[warm]."),
            Piece::Words("Serve [warm].".to_owned())
        );
    }

    #[test]
    fn places_count_from_the_offset() {
        let (pieces, _) = parse_sentence("Stir [yeast] in.", 100);
        assert_eq!((pieces[1].span.start, pieces[1].span.end), (105, 112));
    }

    #[test]
    fn open_and_empty_brackets_are_named() {
        for text in ["Add [milk and stir.", "Add [] and stir.", "Add [a [b]"] {
            let (_, said) = parse_sentence(text, 0);
            assert_eq!(said.len(), 1, "{text}");
            assert_eq!(said[0].code.name, "placeholder-unclosed");
        }
    }

    #[test]
    fn an_amount_that_is_none_is_named() {
        let (_, said) = parse_sentence("Add [60 gg of sugar].", 0);
        assert_eq!(said[0].code.name, "unit-unknown");
    }
}
