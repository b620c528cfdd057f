//! Of what an amount is: what follows it, or what was named just before.

use crate::talk::doing::doing;
use crate::talk::heard::Heard;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// The things that an amount is of: what follows it, else what was named just before.
pub(super) fn linked(heard: &Heard, at: usize) -> Vec<usize> {
    let figure = &heard.speech.figures[at];
    let words = &heard.speech.words;
    // "a third of a cup of sugar plus two teaspoons"
    if let Some(mention) = heard.mentions_in(figure.first, figure.end).first() {
        return mention.things.clone();
    }
    let next_figure = heard
        .speech
        .figures
        .get(at + 1)
        .map_or(words.len(), |next| next.first);
    // "245 grams of strong bread flour"
    let forward = heard
        .mentions_in(figure.end, (figure.end + 5).min(next_figure))
        .first()
        .filter(|mention| {
            let same_clause = words[mention.first].clause == words[figure.end - 1].clause;
            let of = words[figure.end..mention.first]
                .iter()
                .all(|word| !STOPS.contains(&word.lower.as_str()));
            same_clause && of
        });
    if let Some(mention) = forward {
        return mention.things.clone();
    }
    // "Tip the yeast in, go on. Nine grams of that"
    let lower = |at: usize| words.get(at).map_or("", |word| word.lower.as_str());
    // "Three and a half grams of that same yeast"
    let same = heard
        .mentions_in(figure.end, figure.end + 4)
        .first()
        .filter(|mention| {
            lower(figure.end) == "of"
                && matches!(lower(figure.end + 1), "that" | "this" | "those" | "the")
                && words[mention.first].clause == words[figure.end - 1].clause
        });
    if let Some(mention) = same {
        return mention.things.clone();
    }
    let of_that = lower(figure.end) == "of"
        && matches!(
            lower(figure.end + 1),
            "that" | "it" | "this" | "those" | "them"
        );
    if of_that {
        let from = heard.speech.sentences[figure.sentence.saturating_sub(2)].0;
        let from = from.max(figure.first.saturating_sub(THAT_WORDS));
        let named = heard
            .mentions_in(from, figure.first)
            .iter()
            .rev()
            .find(|mention| heard.things[mention.things[0]].sort == Of::Ingredient);
        if let Some(mention) = named {
            return mention.things.clone();
        }
    }
    // "four teaspoons, which is eight grams of the stuff"
    if let Some(before) = at.checked_sub(1) {
        let other = &heard.speech.figures[before];
        let between = &words[other.end.min(figure.first)..figure.first];
        let same = other.sentence == figure.sentence
            && between.len() <= 3
            && between
                .iter()
                .any(|word| matches!(word.lower.as_str(), "which" | "that's" | "so" | "or" | "is"));
        let amount = matches!(
            other.spoken.meant,
            Meant::Mass(_) | Meant::Volume(_) | Meant::Packets(..)
        );
        if same && amount {
            return linked(heard, before);
        }
    }
    // "the flour, six hundred and seventy-five grams"
    let previous_end = at
        .checked_sub(1)
        .map_or(0, |before| heard.speech.figures[before].end);
    let (sentence, _) = heard.speech.sentences[figure.sentence];
    let backward = heard
        .mentions_in(sentence.max(previous_end), figure.first)
        .iter()
        .rev()
        .find(|mention| {
            (at == 0 || !taken(heard, at - 1, mention.first))
                && !says_where(heard, mention.first)
                && !is_compared(heard, mention.first, figure.first)
        });
    if let Some(mention) = backward {
        return mention.things.clone();
    }
    // "Salt, twenty-seven, away you go, seventeen and a half grams": a number and then its figure.
    if let Some(before) = at.checked_sub(1) {
        let other = &heard.speech.figures[before];
        if matches!(other.spoken.meant, Meant::Number(low, _) if low >= 3.0)
            && !matches!(figure.spoken.meant, Meant::Number(..))
            && other.sentence == figure.sentence
            && figure.first - other.end <= AGAIN_WORDS
        {
            let same = linked(heard, before);
            if !same.is_empty() {
                return same;
            }
        }
    }
    // "Then it's the butter, so that's a hundred and eighty grams": what was named last.
    let (first, end) = heard.speech.sentences[figure.sentence];
    let that_is = figure.first > 0
        && matches!(
            words[figure.first - 1].lower.as_str(),
            "that's" | "thats" | "it's" | "its"
        )
        && heard.mentions_in(first, figure.first).is_empty()
        && figure.first - first <= THAT_IS_WORDS;
    if that_is
        && let Some(before) = figure.sentence.checked_sub(1)
        && let Some(mention) = heard
            .mentions_in(heard.speech.sentences[before].0.max(previous_end), first)
            .last()
    {
        return mention.things.clone();
    }
    // "Now the sugar. A hundred and fifty-seven grams."
    let short = end - first <= figure.end - figure.first + 5;
    // "Cardamom, ground fresh. Eighteen grams, it's a lot but trust me."
    let (before, stop) = figure
        .sentence
        .checked_sub(1)
        .map_or((first, first), |at| heard.speech.sentences[at]);
    let awaited = figure.first == first
        && heard.mentions_in(first, end).is_empty()
        && !heard
            .speech
            .figures
            .iter()
            .any(|other| other.first >= before && other.end <= stop);
    // "Honey. A good dollop. Thirty-five grams, call it."
    let before = match before_that(heard, figure.sentence) {
        Some(earlier)
            if stop - before <= FEW_WORDS
                && heard.mentions_in(before, stop).is_empty()
                && doing(&words[before..stop]).is_none()
                && !heard
                    .speech
                    .figures
                    .iter()
                    .any(|other| other.first >= earlier && other.end <= stop) =>
        {
            earlier
        }
        _ => before,
    };
    if (short || awaited)
        && figure.sentence > 0
        && let Some(mention) = heard.mentions_in(before, stop).last()
    {
        return mention.things.clone();
    }
    // "weigh out 157 grams and that is the sugar"
    heard
        .mentions_in(figure.end, next_figure.min(end))
        .first()
        .filter(|mention| {
            let put_into = words[figure.end..mention.first].iter().any(|word| {
                matches!(
                    word.lower.as_str(),
                    "into" | "in" | "to" | "with" | "for" | "onto" | "under" | "over"
                )
            });
            words[mention.first].clause <= figure.clause + 1 && !put_into
        })
        .map_or_else(Vec::new, |mention| mention.things.clone())
}

/// "More flour on your cardigan than in the bowl, four kilos": what is compared is weighed by nobody.
fn is_compared(heard: &Heard, mention: usize, figure: usize) -> bool {
    let words = &heard.speech.words;
    let more = mention
        .checked_sub(1)
        .is_some_and(|at| matches!(words[at].lower.as_str(), "more" | "less"));
    more && words[mention..figure]
        .iter()
        .any(|word| word.lower == "than")
}

/// Where the sentence before the one before a sentence begins.
fn before_that(heard: &Heard, sentence: usize) -> Option<usize> {
    Some(heard.speech.sentences[sentence.checked_sub(2)?].0)
}

/// A sentence of so few words tells nothing by itself.
const FEW_WORDS: usize = 4;

/// "So that's" stands within so many words of the beginning.
const THAT_IS_WORDS: usize = 3;

/// A number is said again with its unit within so many words.
const AGAIN_WORDS: usize = 7;

/// "That" was named within so many words.
const THAT_WORDS: usize = 25;

/// Whether a mention says where something goes, or for what it is: "the flour for the sponge".
pub(super) fn says_where(heard: &Heard, mention: usize) -> bool {
    let words = &heard.speech.words;
    let stage = heard
        .mentions_in(mention, mention + 1)
        .first()
        .is_some_and(|own| matches!(heard.things[own.things[0]].sort, Of::Stage(_)));
    let lower = |back: usize| {
        mention
            .checked_sub(back)
            .map_or("", |at| words[at].lower.as_str())
    };
    let into = |word: &str| matches!(word, "for" | "in" | "into" | "to" | "with");
    stage
        && (into(lower(1)) || into(lower(2)))
        && heard
            .mentions_in(mention.saturating_sub(5), mention)
            .iter()
            .any(|own| heard.things[own.things[0]].sort == Of::Ingredient)
}

/// Words after an amount by which it is not of what follows.
const STOPS: [&str; 19] = [
    "on", "over", "onto", "from", "each", "apiece", "into", "in", "to", "for", "and", "per",
    "with", "if", "you", "when", "that", "which", "so",
];

/// Whether a mention belongs to the figure before: "two cups of milk and a hundred grams".
fn taken(heard: &Heard, before: usize, mention: usize) -> bool {
    let figure = &heard.speech.figures[before];
    let measured = !matches!(
        figure.spoken.meant,
        Meant::Time(_) | Meant::Temperature(_) | Meant::Number(..)
    );
    measured
        && mention >= figure.end
        && mention < figure.end + 4
        && heard.speech.words[mention].clause == figure.clause
}
