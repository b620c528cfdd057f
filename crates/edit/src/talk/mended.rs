//! What a speaker puts right in the same breath: "two, no, sorry, three eggs".

use super::speech::{Figure, Word};

/// Takes back every figure that the next one puts right.
pub(super) fn mend(words: &[Word], found: &mut [Figure]) {
    // "Two, no, sorry, three eggs": what is put right in the same breath.
    for at in 1..found.len() {
        let (end, next) = (found[at - 1].end, found[at].first);
        let between = words.get(end..next).unwrap_or(&[]);
        let mends = between
            .iter()
            .any(|word| MENDS.contains(&word.lower.as_str()))
            || between.len() >= 2 && between.iter().all(|word| word.lower == "no");
        // "Two eggs, what am I saying, three eggs"
        let same = |word: &Word| {
            words
                .get(found[at].end)
                .is_some_and(|counted| counted.stem == word.stem)
        };
        if mends
            && between.len() <= MENDING_WORDS
            && between.iter().all(|word| mending(word) || same(word))
        {
            found[at - 1].withdrawn = true;
            // "Ninety grams, ninety, listen to me, nine."
            let own = found[at - 1].spoken.low;
            if let Some(before) = at.checked_sub(2)
                && found[before].sentence == found[at].sentence
                && (found[before].spoken.low - own).abs() < 1e-9
                && found[before].end == found[at - 1].first
            {
                found[before].withdrawn = true;
            }
        }
    }
}

/// Whether a word may stand in what puts a figure right.
fn mending(word: &Word) -> bool {
    MENDING.contains(&word.lower.as_str())
}

/// Whether some words are a number that is put right and nothing else: "thirty-two, no, I tell a lie".
pub(super) fn is_put_right(words: &[Word]) -> bool {
    let number = |word: &Word| recipe::measure::spoken::is_number_word(&word.lower);
    let mends = words
        .iter()
        .any(|word| word.lower == "no" || MENDS.contains(&word.lower.as_str()));
    mends
        && words.first().is_some_and(number)
        && words.iter().all(|word| number(word) || mending(word))
}

/// Words that may stand in it.
const MENDING: [&str; 41] = [
    "no",
    "nope",
    "sorry",
    "make",
    "actually",
    "wrong",
    "that's",
    "listen",
    "to",
    "me",
    "what",
    "am",
    "saying",
    "stop",
    "it",
    "silly",
    "wait",
    "oh",
    "hang",
    "on",
    "i",
    "mean",
    "scratch",
    "that",
    "rather",
    "tell",
    "a",
    "lie",
    "lying",
    "i'm",
    "you",
    "let",
    "look",
    "check",
    "see",
    "beg",
    "your",
    "pardon",
    "correction",
    "oops",
    "whoops",
];

/// Words by which a figure is put right, one of which must fall.
const MENDS: [&str; 17] = [
    "sorry",
    "wait",
    "mean",
    "scratch",
    "make",
    "actually",
    "wrong",
    "listen",
    "nope",
    "saying",
    "lie",
    "lying",
    "hang",
    "pardon",
    "correction",
    "oops",
    "whoops",
];

/// Who puts a figure right does it in so many words.
const MENDING_WORDS: usize = 5;
