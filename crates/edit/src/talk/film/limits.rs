//! The limits of what stands on a screen, each with its source.

use std::time::Duration;

/// Letters of a line of captions: BBC practice since teletext, second-hand.
pub const LINE_LETTERS: usize = 37;

/// Lines of a caption: BBC subtitle guidelines, second-hand.
pub const LINES: usize = 2;

/// Nothing stands shorter: DCMP Captioning Key, second-hand.
pub const SHORTEST: Duration = Duration::from_secs(2);

/// How long a caption may stay after its words are spoken: BBC practice, quoted by a W3C note, second-hand.
pub const STAYS_AFTER: Duration = Duration::from_millis(1500);

/// Letters a second to aim at. Viewers coped with 12, 16 and 20 in a test (Szarkowska and
/// Gerber-Morón 2018, abstract); a secondary page gives 15 to 17.
pub const LETTERS_A_SECOND: f64 = 15.0;

/// Letters a second above which it is said; as above.
pub const LETTERS_A_SECOND_FAST: f64 = 17.0;

/// Letters a second above which it is too fast; as above.
pub const LETTERS_A_SECOND_TOO_FAST: f64 = 20.0;

/// Words a minute to aim at: Ofcom, by way of BBC R&D, second-hand: 160 to 180.
pub const WORDS_A_MINUTE: f64 = 180.0;

/// Words a minute above which many find captions hard: Ofcom, by way of BBC R&D, second-hand.
pub const WORDS_A_MINUTE_FAST: f64 = 200.0;

/// Words a minute above which captions are too fast: DCMP Captioning Key, second-hand.
pub const WORDS_A_MINUTE_TOO_FAST: f64 = 225.0;

/// Fewer words than these make no pace. Our own choice.
pub const WORDS_FOR_A_PACE: usize = 4;

/// Chapters from which hosts show them: partly read in a host's advice, the rest from memory.
pub const CHAPTERS: usize = 3;

/// The shortest chapter; from memory.
pub const CHAPTER_SHORTEST: Duration = Duration::from_secs(10);

/// Letters of a chapter's name; our own choice.
pub const CHAPTER_LETTERS: usize = 40;

/// Things on a card; our own choice.
pub const CARD_LINES: usize = 3;

/// Words on a card; our own choice.
pub const CARD_WORDS: usize = 12;

/// How long a card stands: 1.5 s, a third of a second for each word, half a second for each number, and
/// never less than 3 s. Our own choice, from reading speeds of captions.
pub fn card_stands(words: usize, numbers: usize) -> Duration {
    let words = u64::try_from(words).unwrap_or(u64::MAX / 1000);
    let numbers = u64::try_from(numbers).unwrap_or(u64::MAX / 1000);
    let milliseconds = 1500 + words.saturating_mul(330) + numbers.saturating_mul(500);
    Duration::from_millis(milliseconds).max(Duration::from_secs(3))
}
