//! What is said from beginning to end: its words in sentences and clauses, and the quantities among them.

use super::mended::mend;
pub(super) use super::spelled::stem;
use super::spelled::words;
use super::track::Track;
use recipe::measure::spoken::{Spoken, spoken};
use recipe::source::Span;

/// A word with its place.
#[derive(Clone, Debug)]
pub(super) struct Word {
    /// Its letters in lower case.
    pub lower: String,
    /// Its stem, by which forms of one word meet.
    pub stem: String,
    /// Its bytes in the speech.
    pub span: Span,
    /// The sentence it stands in.
    pub sentence: usize,
    /// The clause it stands in, counted through the whole speech.
    pub clause: usize,
}

/// A quantity with its place among the words.
#[derive(Clone, Debug)]
pub(super) struct Figure {
    /// What is said.
    pub spoken: Spoken,
    /// Its first word.
    pub first: usize,
    /// The word after it.
    pub end: usize,
    /// The sentence it stands in.
    pub sentence: usize,
    /// The clause it stands in.
    pub clause: usize,
    /// Whether the speaker takes it back or says that it is not so.
    pub withdrawn: bool,
}

impl Figure {
    /// "Ten minutes in, you open the door": a moment in the course of a step, and no length.
    pub fn is_moment(&self, speech: &Speech) -> bool {
        let word = |n: usize| speech.words.get(self.end + n);
        let lower = |n: usize| word(n).map_or("", |word| word.lower.as_str());
        let ends = |n: usize| word(n).is_none_or(|word| word.clause != self.clause);
        let own = word(0).is_some_and(|word| word.clause == self.clause);
        let opens = own && self.first <= speech.sentences[self.sentence].0 + 2;
        matches!(self.spoken.meant, recipe::measure::spoken::Meant::Time(_))
            && (lower(0) == "in" && ends(1) && opens
                || lower(0) == "into" && matches!(lower(1), "it" | "the") && opens)
    }

    /// "Five minutes to go", "with ten minutes left": how long it is yet, and not how long in all.
    pub fn counts_down(&self, speech: &Speech) -> bool {
        let lower = |n: usize| {
            speech
                .words
                .get(self.end + n)
                .filter(|word| word.sentence == self.sentence)
                .map_or("", |word| word.lower.as_str())
        };
        // "It's got another twenty-five to go": how long it is from there.
        let another = self
            .first
            .checked_sub(1)
            .is_some_and(|n| speech.words[n].lower == "another");
        if another {
            return false;
        }
        let ends = |n: usize| {
            speech
                .words
                .get(self.end + n)
                .is_none_or(|word| word.clause != self.clause)
                || matches!(lower(n), "on" | "in" | "you" | "and" | "before")
        };
        matches!((lower(0), lower(1)), ("to", "go")) && ends(2)
            || matches!(lower(0), "left" | "remaining") && ends(1)
            || matches!((lower(0), lower(1)), ("from", "the")) && lower(2) == "end"
    }
}

/// The whole of it.
#[derive(Clone, Debug)]
pub(super) struct Speech {
    /// Every cue's words, one after another.
    pub text: String,
    /// Its words.
    pub words: Vec<Word>,
    /// Words of each sentence.
    pub sentences: Vec<(usize, usize)>,
    /// Words of each clause.
    pub clauses: Vec<(usize, usize)>,
    /// Its quantities.
    pub figures: Vec<Figure>,
    /// Whether it has no punctuation to speak of.
    pub bare: bool,
    /// Whether its cues are paragraphs: what was begun in one ends with it.
    pub paragraphs: bool,
    /// Where each cue begins in the text.
    starts: Vec<usize>,
}

/// A track with fewer stops than one in so many words is taken for one without punctuation.
const WORDS_PER_STOP: usize = 40;

/// Words with which a sentence begins where nothing else parts them.
const OPENINGS: [&str; 8] = [
    "then", "now", "so", "okay", "next", "right", "well", "let's",
];

/// A sentence of a track without punctuation ends with its cue from so many words on.
const LONGEST_BARE: usize = 18;

/// Without punctuation a sentence ends at the next "and" from so many words on.
const LONG_BREATH: usize = 60;

/// No sentence is longer than so many words.
const ENDLESS: usize = 200;

/// Cues of so many words, one with another, are paragraphs and no captions.
const PARAGRAPH_WORDS: usize = 24;

/// Words that begin a clause.
const TURNS: [&str; 4] = ["then", "but", "while", "whereas"];

impl Speech {
    /// From a track.
    pub fn of(track: &Track) -> Self {
        let mut text = String::new();
        let mut starts = Vec::with_capacity(track.cues.len());
        for cue in &track.cues {
            starts.push(text.len());
            text.push_str(&cue.line());
            text.push(' ');
        }
        let mut words = words(&text);
        let quantities = spoken(&text);
        let paragraphs = words.len() >= starts.len() * PARAGRAPH_WORDS;
        let bare = part(&text, &mut words, &quantities, &starts, paragraphs);
        let sentences = ranges(&words, |word| word.sentence);
        let clauses = ranges(&words, |word| word.clause);
        let figures = place(&words, quantities);
        Self {
            text,
            words,
            sentences,
            clauses,
            figures,
            bare,
            paragraphs,
            starts,
        }
    }

    /// The cue in which a byte of the speech stands.
    pub fn cue(&self, byte: usize) -> usize {
        self.starts
            .partition_point(|start| *start <= byte)
            .saturating_sub(1)
    }

    /// The bytes in the file of a stretch of the speech; a stretch that runs on into the next cue is
    /// cut at its own.
    pub fn place(&self, track: &Track, span: Span) -> Span {
        let at = self.cue(span.start);
        let (Some(cue), Some(start)) = (track.cues.get(at), self.starts.get(at)) else {
            return Span::default();
        };
        let end = (span.end - start).min(cue.text.len());
        let begin = (span.start - start).min(end);
        let place = cue.place(begin..end);
        Span::new(place.start, place.end)
    }

    /// The letters of a stretch.
    pub fn slice(&self, span: Span) -> &str {
        self.text.get(span.start..span.end).unwrap_or("")
    }

    /// The bytes of a sentence.
    pub fn sentence_span(&self, sentence: usize) -> Span {
        let (first, end) = self.sentences[sentence];
        let start = self.words[first].span.start;
        let last = self.words[end - 1].span.end;
        let next = self
            .words
            .get(end)
            .map_or(self.text.len(), |w| w.span.start);
        let tail = self.text[last..next].trim_end();
        let stop = tail.find(['.', '!', '?', '…']).map_or(0, |at| {
            at + tail[at..].chars().next().map_or(1, char::len_utf8)
        });
        Span::new(start, last + stop)
    }

    /// Whether a word begins a paragraph.
    pub fn begins_paragraph(&self, word: usize) -> bool {
        self.paragraphs
            && (word == 0
                || self.cue(self.words[word].span.start)
                    != self.cue(self.words[word - 1].span.start))
    }

    /// The words of the clause in which a word stands.
    pub fn clause(&self, word: usize) -> (usize, usize) {
        self.clauses[self.words[word].clause]
    }
}

/// Gives each word its sentence and clause, and tells whether stops are missing. A quantity is never parted.
fn part(
    text: &str,
    words: &mut [Word],
    quantities: &[Spoken],
    starts: &[usize],
    paragraphs: bool,
) -> bool {
    let stops = text
        .char_indices()
        .filter(|(at, c)| matches!(c, '.' | '!' | '?') && ends(text, *at))
        .count();
    let bare = stops * WORDS_PER_STOP < words.len();
    let mut inside = quantities.iter().map(|q| q.span).peekable();
    let mut cue = starts.iter().copied().peekable();
    let (mut sentence, mut clause) = (0, 0);
    let (mut since, mut figure_since) = (0, false);
    for at in 0..words.len() {
        let start = words[at].span.start;
        while inside.peek().is_some_and(|span| span.end <= start) {
            inside.next();
            figure_since = true;
        }
        let within = inside
            .peek()
            .is_some_and(|span| span.start < start && start < span.end);
        let mut new_cue = false;
        while cue.peek().is_some_and(|begin| *begin <= start) {
            cue.next();
            new_cue = true;
        }
        if at > 0 && !within {
            let before = words[at - 1].span.end;
            let gap = &text[before..start];
            let stop = gap
                .char_indices()
                .any(|(n, c)| matches!(c, '.' | '!' | '?' | '…') && ends(text, before + n));
            let lower = words[at].lower.as_str();
            // "two hours in the mould and in the oven at 165"
            let turn = TURNS.contains(&lower) || lower == "and" && figure_since;
            // "Wreath: twenty-four minutes": a name with what is said of it.
            let named = gap.trim_end() == ":"
                && (at < 2
                    || words[at - 1].clause != words[at - 2].clause
                    || at < 3
                    || words[at - 1].clause != words[at - 3].clause);
            let comma = !named && gap.contains([',', ';', ':', '–', '—', '(', ')', '\n'])
                || gap.contains(" - ")
                || gap.contains("--");
            let long = at - since >= LONGEST_BARE;
            // Who never stops is parted somewhere, or every figure would be read beside the whole talk.
            let endless = at - since >= ENDLESS
                || bare
                    && at - since >= LONG_BREATH
                    && matches!(lower, "and" | "you" | "i" | "it" | "we" | "the");
            if stop
                || endless
                || bare
                    && (OPENINGS.contains(&lower) && at > since + 2
                        || new_cue && paragraphs
                        || new_cue && long && !figure_just(quantities, words, at))
            {
                sentence += 1;
                clause += 1;
                since = at;
                figure_since = false;
            } else if comma
                || turn
                || bare
                    && (new_cue && !figure_just(quantities, words, at)
                        || figure_since
                            && lower.ends_with("ed")
                            && quantity_ends(quantities, words, at))
            {
                clause += 1;
                figure_since = false;
            }
        }
        words[at].sentence = sentence;
        words[at].clause = clause;
    }
    bare
}

/// Whether a quantity ends one or two words before a word: "and five large | eggs", cut by the edge of a cue.
fn figure_just(quantities: &[Spoken], words: &[Word], at: usize) -> bool {
    quantity_ends(quantities, words, at) || at > 1 && quantity_ends(quantities, words, at - 1)
}

/// Whether a quantity ends right before a word.
fn quantity_ends(quantities: &[Spoken], words: &[Word], at: usize) -> bool {
    let before = words[at - 1].span;
    let next = quantities.partition_point(|q| q.span.end < before.end);
    quantities
        .get(next)
        .is_some_and(|q| q.span.end == before.end)
}

/// Whether a stop ends a sentence rather than stands in a figure or a short form.
fn ends(text: &str, at: usize) -> bool {
    let after = text[at..].chars().nth(1);
    let before = text[..at].chars().next_back();
    let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    !(digit(before) && digit(after)) && after.is_none_or(|c| !c.is_alphanumeric())
}

/// The words of each part, by the number of the part that a word stands in.
fn ranges(words: &[Word], part: fn(&Word) -> usize) -> Vec<(usize, usize)> {
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (at, word) in words.iter().enumerate() {
        if part(word) == found.len() {
            found.push((at, at + 1));
        } else if let Some(last) = found.last_mut() {
            last.1 = at + 1;
        }
    }
    found
}

/// Words before a figure by which it is said not to be so.
const DENIED: [&str; 9] = [
    "not", "never", "isn't", "wasn't", "don't", "than", "without", "aren't", "nor",
];

/// Quantities among the words.
/// The first word of the clause of a word, and that word.
fn clauses(words: &[Word], at: usize) -> (usize, usize) {
    let clause = words[at].clause;
    let first = words[..at]
        .iter()
        .rposition(|word| word.clause != clause)
        .map_or(0, |n| n + 1);
    (first, at)
}

fn place(words: &[Word], quantities: Vec<Spoken>) -> Vec<Figure> {
    let mut found: Vec<Figure> = Vec::with_capacity(quantities.len());
    for spoken in quantities {
        let first = words.partition_point(|word| word.span.end <= spoken.span.start);
        let end = words.partition_point(|word| word.span.start < spoken.span.end);
        if first >= end {
            continue;
        }
        let near = words[first.saturating_sub(2)..first]
            .iter()
            .filter(|word| word.clause == words[first].clause)
            .collect::<Vec<_>>();
        let (clause_first, _) = clauses(words, first);
        let never = words[clause_first..first]
            .iter()
            .any(|word| word.lower == "never");
        let denied = never
            || near
                .iter()
                .any(|word| DENIED.contains(&word.lower.as_str()))
                && !near
                    .iter()
                    .any(|word| matches!(word.lower.as_str(), "more" | "less"))
            || near.len() == 2 && near[0].lower == "instead" && near[1].lower == "of";
        found.push(Figure {
            first,
            end,
            sentence: words[first].sentence,
            clause: words[first].clause,
            withdrawn: denied,
            spoken,
        });
    }
    mend(words, &mut found);
    found
}
