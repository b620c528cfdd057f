//! What a speaker puts right in the same breath: "two, no, sorry, three eggs".

use super::speech::{Figure, Word};

/// Takes back every figure that the next one puts right.
pub(super) fn mend(words: &[Word], found: &mut [Figure]) {
    // "Two, no, sorry, three eggs": what is put right in the same breath.
    for at in 1..found.len() {
        let (end, next) = (found[at - 1].end, found[at].first);
        let between = words.get(end..next).unwrap_or(&[]);
        let mending = |word: &Word| {
            matches!(
                word.lower.as_str(),
                "no" | "nope"
                    | "sorry"
                    | "make"
                    | "actually"
                    | "wrong"
                    | "that's"
                    | "listen"
                    | "to"
                    | "me"
                    | "what"
                    | "am"
                    | "saying"
                    | "stop"
                    | "it"
                    | "silly"
                    | "wait"
                    | "oh"
                    | "hang"
                    | "on"
                    | "i"
                    | "mean"
                    | "scratch"
                    | "that"
                    | "rather"
            )
        };
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

/// Words by which a figure is put right, one of which must fall.
const MENDS: [&str; 10] = [
    "sorry", "wait", "mean", "scratch", "make", "actually", "wrong", "listen", "nope", "saying",
];

/// Who puts a figure right does it in so many words.
const MENDING_WORDS: usize = 5;
