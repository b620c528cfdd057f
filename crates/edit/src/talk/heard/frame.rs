//! The frame in which a passage stands: our own doing, one case, another bread, another time, somebody else's word.
//!
//! A frame opens at its cue and reaches to the end of the sentence, and on into the next where that goes on with
//! "it was" or "she"; it closes where the speaker returns to what is being made here. Which words open and close is
//! our own choice, from how people tell such things.

use super::cues::{BAKED, FARES, READ, SAYS, TIMES_OF_OLD, TOLD_TO, WEEKDAYS, is_past, others_do};
use super::mood::{Mood, PAST};
use crate::talk::speech::Speech;
use crate::talk::things::Mention;

/// Without punctuation a frame reaches so many words.
const REACH_WORDS: usize = 24;

/// Without punctuation what is called another matter was told so many words back.
const BACK_WORDS: usize = 16;
/// What another bread does is told within so many words of it, and of one's own with words between.
const FARES_WORDS: usize = 6;
const APART_WORDS: usize = 12;

/// For each word of a talk the frame in which it stands.
pub(super) fn frames(speech: &Speech, mentions: &[Mention]) -> Vec<Mood> {
    let frame = Frame { speech, mentions };
    let mut all = vec![Mood::Here; speech.words.len()];
    let (mut carried, mut left) = (Mood::Here, 0);
    for &(first, end) in &speech.sentences {
        let goes_on = carried == Mood::Elsewhere && frame.goes_on(first, end);
        // Where nothing parts sentences, a frame reaches as far as it reaches.
        let mut mood = if (speech.bare || goes_on) && !speech.begins_paragraph(first) {
            carried
        } else {
            Mood::Here
        };
        if !speech.bare {
            left = usize::MAX;
        }
        let reach = if speech.bare { speech.words.len() } else { end };
        for at in first..end {
            if let Some((from, opened)) = frame.opens(first, at, reach) {
                mood = opened;
                left = if speech.bare { REACH_WORDS } else { usize::MAX };
                for own in &mut all[from..at] {
                    *own = opened;
                }
            } else if mood != Mood::Here && (left == 0 || frame.returns(mood, first, at)) {
                mood = Mood::Here;
            }
            left = left.saturating_sub(1);
            all[at] = mood;
        }
        carried = mood;
    }
    all
}

pub(super) struct Frame<'a> {
    speech: &'a Speech,
    mentions: &'a [Mention],
}

impl Frame<'_> {
    pub(super) fn lower(&self, at: usize) -> &str {
        self.speech
            .words
            .get(at)
            .map_or("", |word| word.lower.as_str())
    }

    pub(super) fn before(&self, first: usize, at: usize, back: usize) -> &str {
        at.checked_sub(back)
            .filter(|n| *n >= first)
            .map_or("", |n| self.lower(n))
    }

    /// A word without its 's and its s.
    pub(super) fn single(&self, at: usize) -> &str {
        let own = self.lower(at);
        let own = own.strip_suffix("'s").unwrap_or(own);
        own.strip_suffix('s').unwrap_or(own)
    }

    pub(super) fn any(&self, first: usize, end: usize, wanted: &[&str]) -> bool {
        (first..end.min(self.speech.words.len())).any(|at| wanted.contains(&self.lower(at)))
    }

    pub(super) fn is_mention(&self, at: usize) -> bool {
        let next = self.mentions.partition_point(|mention| mention.end <= at);
        self.mentions
            .get(next)
            .is_some_and(|mention| mention.first <= at)
    }

    /// Whether a clause begins at a word.
    pub(super) fn begins(&self, first: usize, at: usize) -> bool {
        at == first || self.speech.words[at].clause != self.speech.words[at - 1].clause
    }

    /// Whether a sentence goes on with what was told before: "It was at nine degrees down there", "she gave it an hour".
    fn goes_on(&self, first: usize, end: usize) -> bool {
        let at = first
            + usize::from(matches!(
                self.lower(first),
                "and" | "but" | "so" | "well" | "oh"
            ));
        let who = self.lower(at);
        let person = matches!(
            who,
            "he" | "she" | "his" | "her" | "she'd" | "he'd" | "they'd"
        );
        let thing = matches!(
            who,
            "it" | "that" | "they" | "this" | "which" | "those" | "them" | "we" | "i"
        );
        let past = (at + 1..(at + 4).min(end)).any(|n| {
            let verb = self.lower(n);
            PAST.contains(&verb) || verb.len() > 4 && verb.ends_with("ed")
        });
        person || thing && past
    }

    /// Whether a frame opens at a word, from where, and which.
    fn opens(&self, first: usize, at: usize, end: usize) -> Option<(usize, Mood)> {
        let back = if self.speech.bare {
            first.max(at.saturating_sub(BACK_WORDS))
        } else {
            first
        };
        if self.another_time(first, at, end) || self.word_of(first, at, end) {
            // "The dog had three of them off the rack last week": all of its clause is past.
            let clause = (first..at)
                .rev()
                .find(|n| self.speech.words[*n].clause != self.speech.words[at].clause)
                .map_or(first, |n| n + 1);
            let told = self.lower(at) == "last"
                && !self.speech.bare
                && (clause..at).any(|n| is_past(self.lower(n)));
            return Some((if told { clause } else { at }, Mood::Elsewhere));
        }
        if self.another_matter(first, at, end) {
            return Some((back, Mood::Elsewhere));
        }
        if self.another_bread(first, at, end)
            || self.another_kind(first, at, end)
            || self.somebody(first, at, end)
        {
            return Some((at, Mood::Elsewhere));
        }
        self.is_case(first, at, end).then_some((at, Mood::Perhaps))
    }

    /// "Last month's batch", "two Christmases ago", "in the war", "when I worked in a bakery".
    fn another_time(&self, first: usize, at: usize, end: usize) -> bool {
        let next = self.lower(at + 1);
        match self.lower(at) {
            "last" => TIMES_OF_OLD.contains(&next.strip_suffix("'s").unwrap_or(next)),
            "ago" => {
                let near = first.max(at.saturating_sub(3))..at;
                !self.any(
                    near.start,
                    near.end,
                    &["hour", "hours", "minute", "minutes", "moment"],
                )
            }
            // "At the bakery we gave it three days"
            "bakery" | "restaurant" | "college" => {
                self.before(first, at, 1) == "the"
                    && (at + 1..(at + 6).min(end)).any(|n| is_past(self.lower(n)))
            }
            // "I did one with six strands for the fair"
            "i" | "we" => {
                matches!(next, "did" | "made" | "baked" | "had" | "saw" | "tried")
                    && matches!(self.lower(at + 2), "one" | "some" | "two" | "a")
                    && !self.any(at + 2, (at + 5).min(end), &["here", "earlier"])
            }
            "war" | "olden" => matches!(self.before(first, at, 1), "the"),
            "century" | "centuries" | "medieval" | "victorian" | "victorians" | "romans"
            | "monks" | "monk" => true,
            // "in those days", "in my gran's day"
            "day" | "days" => {
                let before = self.before(first, at, 1);
                before == "those" || before.ends_with("'s") && !before.starts_with("today")
            }
            "used" => {
                next == "to" && matches!(self.before(first, at, 1), "they" | "people" | "we" | "i")
            }
            "took" => matches!(next, "me" | "us" | "him" | "her" | "them"),
            "seventeen" | "eighteen" | "nineteen" => self.year_in_words(first, at),
            // "Two weekends back", "a while back"
            "back"
                if matches!(
                    self.before(first, at, 1),
                    "weeks" | "weekends" | "months" | "years" | "days" | "while" | "week" | "month"
                ) =>
            {
                true
            }
            // "The other day, with the window open"
            "other" => {
                self.before(first, at, 1) == "the"
                    && matches!(
                        next,
                        "day" | "week" | "night" | "weekend" | "month" | "evening"
                    )
            }
            // "The first time I", "the first one of these I made"
            "first" => {
                next == "time" && matches!(self.lower(at + 2), "i" | "we" | "she" | "he" | "they")
                    || matches!(next, "one" | "ones" | "loaf" | "batch" | "attempt" | "go")
                        && (at + 2..(at + 6).min(end))
                            .any(|n| matches!(self.lower(n), "i" | "we" | "she" | "he"))
                        && (at + 2..(at + 8).min(end)).any(|n| {
                            matches!(self.lower(n), "made" | "did" | "ever" | "baked" | "had")
                        })
            }
            "on" => {
                WEEKDAYS.contains(&next)
                    && (at + 2..(at + 8).min(end)).any(|n| is_past(self.lower(n)))
            }
            "back" => next == "then" || next == "in" && self.lower(at + 2) == "the",
            "when" => {
                matches!(next, "i" | "we")
                    && matches!(
                        self.lower(at + 2),
                        "worked"
                            | "was"
                            | "were"
                            | "lived"
                            | "started"
                            | "made"
                            | "first"
                            | "learned"
                            | "learnt"
                    )
                    && !self.any(at + 2, (at + 6).min(end), &["dough", "saying"])
            }
            _ => false,
        }
    }

    /// "In nineteen sixty-two".
    fn year_in_words(&self, first: usize, at: usize) -> bool {
        let led = matches!(
            self.before(first, at, 1),
            "in" | "since" | "year" | "around" | "about" | "from"
        );
        let goes_on = recipe::measure::spoken::is_number_word(self.lower(at + 1));
        let measured =
            (at + 1..at + 5).any(|n| recipe::measure::spoken::is_unit_word(self.lower(n)));
        led && goes_on && !measured
    }

    /// "The packet tells you twenty grams", "the old book in the drawer wants five hundred".
    fn word_of(&self, first: usize, at: usize, end: usize) -> bool {
        let subject = (1..=3).any(|back| {
            matches!(
                self.before(first, at, back),
                "the" | "my" | "most" | "other" | "every" | "some"
            )
        });
        READ.contains(&self.lower(at)) && subject && (self.any(at + 1, (at + 6).min(end), &SAYS))
    }

    /// "But that's a different animal", "naan is another matter", "that is another bread".
    fn another_matter(&self, first: usize, at: usize, end: usize) -> bool {
        let other = matches!(
            self.lower(at),
            "another" | "different" | "tougher" | "separate"
        );
        let said = (1..=3).any(|back| {
            matches!(
                self.before(first, at, back),
                "is" | "are" | "that's" | "they're" | "it's" | "a" | "an" | "beast's" | "cake's"
            )
        });
        other
            && said
            && self.any(
                at + 1,
                (at + 3).min(end),
                &[
                    "matter", "animal", "beast", "bread", "recipe", "story", "video", "article",
                    "kettle", "loaf", "creature", "dough", "film", "world",
                ],
            )
    }

    /// "My pizza goes in at two-fifty", "a fruit cake of this size needs four hours".
    fn another_bread(&self, first: usize, at: usize, end: usize) -> bool {
        if !BAKED.contains(&self.single(at)) || self.is_mention(at) {
            return false;
        }
        // "The rye I sell out front", "the focaccia my brother makes": whose it is stands behind.
        let theirs = match self.lower(at + 1) {
            "i" | "we" => !matches!(self.lower(at + 2), "am" | "are" | "have"),
            "he" | "she" | "they" => true,
            "my" | "our" => others_do(self.lower(at + 3)),
            _ => false,
        };
        if theirs && self.before(first, at, 1) == "the" {
            return true;
        }
        let subject = (0..=3).any(|back| {
            at >= first + back
                && (self.begins(first, at - back) && back <= 1
                    || matches!(
                        self.before(first, at, back),
                        "my" | "me"
                            | "our"
                            | "a"
                            | "an"
                            | "your"
                            | "his"
                            | "her"
                            | "these"
                            | "those"
                            | "the"
                    ))
        });
        let led =
            |wanted: &[&str]| (1..=2).any(|back| wanted.contains(&self.before(first, at, back)));
        // "For a focaccia it's two thirty".
        if led(&["for", "with", "unlike"]) {
            return self.any(
                at + 1,
                (at + 5).min(end),
                &["it's", "you", "you'd", "i", "i'd", "takes", "wants", "goes"],
            );
        }
        // "My focaccia, the one with the olives, that takes four hundred grams".
        let reach = if matches!(self.before(first, at, 1), "my" | "our") {
            APART_WORDS
        } else {
            FARES_WORDS
        };
        subject
            && !led(&["like", "as", "of", "than", "to"])
            && self.any(at + 1, (at + reach).min(end), &FARES)
    }

    /// Whether the speaker returns to what is made here.
    fn returns(&self, mood: Mood, first: usize, at: usize) -> bool {
        let next = self.lower(at + 1);
        let own = self.lower(at);
        let turn = matches!(own, "but" | "so" | "now" | "anyway" | "otherwise" | "okay");
        let ours = matches!(
            next,
            "we" | "we're"
                | "you"
                | "you're"
                | "you'll"
                | "let's"
                | "i'm"
                | "this"
                | "ours"
                | "mine"
                | "stick"
                | "keep"
                | "do"
                | "don't"
                | "for"
                | "believe"
                | "here"
                | "today"
                | "then"
        ) || own == "now" && next == "the";
        if turn && ours || matches!(own, "today" | "anyway" | "otherwise") {
            return true;
        }
        mood == Mood::Elsewhere && self.tells_to(first, at)
    }

    /// Whether a word tells the viewer to do something: first in its clause, and nobody's saying.
    pub(super) fn tells_to(&self, first: usize, at: usize) -> bool {
        if !TOLD_TO.contains(&self.lower(at)) {
            return false;
        }
        let before = self.before(first, at, 1);
        let quoted = matches!(
            before,
            "say" | "says" | "said" | "told" | "me" | "saying" | "used"
        );
        let narrated = (first..at).any(|n| PAST.contains(&self.lower(n)));
        self.begins(first, at) && !quoted && !(narrated && matches!(before, "and" | "then"))
    }
}

/// Whether a word tells the viewer to do something.
pub(in crate::talk) fn tells_to(speech: &Speech, first: usize, at: usize) -> bool {
    let frame = Frame {
        speech,
        mentions: &[],
    };
    frame.tells_to(first, at)
}
