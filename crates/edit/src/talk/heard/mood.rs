//! Whether what is said around a figure is of this bread, of what one could do, or of something that happened elsewhere.
//!
//! The words that tell are the grammar's: who does it (he, my cousin, some people), whether it is done at all
//! (could, would, if) and whether it is long past (I've seen, last year). The nearest before the figure decides.

use super::cues::others_do;
use super::{Heard, frame};
use crate::talk::speech::{Figure, Word};

/// What a clause tells of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::talk) enum Mood {
    /// This bread, now.
    Here,
    /// What one could do, or does in one case.
    Perhaps,
    /// What somebody else did, or what was another time.
    Elsewhere,
}

/// Who does it, when it is not the speaker or the viewer.
const OTHERS: [&str; 46] = [
    "he",
    "she",
    "he'd",
    "she'd",
    "he's",
    "she's",
    "his",
    "hers",
    "somebody",
    "someone",
    "nobody",
    "everyone",
    "everybody",
    "people",
    "folk",
    "folks",
    "friend",
    "friends",
    "cousin",
    "boss",
    "teacher",
    "chef",
    "baker",
    "bakers",
    "colleague",
    "colleagues",
    "neighbour",
    "neighbor",
    "grandmother",
    "grandma",
    "granny",
    "grandad",
    "grandpa",
    "grandfather",
    "aunt",
    "auntie",
    "uncle",
    "brother",
    "mother",
    "mum",
    "mom",
    "dad",
    "father",
    "husband",
    "wife",
    "niece",
];

/// What stands in a kitchen and is no person: "my oven".
const IN_A_KITCHEN: [&str; 40] = [
    "oven",
    "fridge",
    "kitchen",
    "room",
    "house",
    "bowl",
    "mixer",
    "machine",
    "tin",
    "pan",
    "tray",
    "scale",
    "scales",
    "hand",
    "hands",
    "finger",
    "fingers",
    "dough",
    "sponge",
    "starter",
    "paste",
    "milk",
    "butter",
    "flour",
    "yeast",
    "water",
    "sugar",
    "salt",
    "eggs",
    "bench",
    "counter",
    "table",
    "thermometer",
    "probe",
    "dial",
    "loaf",
    "bread",
    "braid",
    "wreath",
    "notes",
];

/// Verbs that after "I've" or "I have" tell of other times: "I've had it done in forty".
const OTHER_TIMES: [&str; 9] = [
    "had", "seen", "known", "been", "done", "made", "tried", "baked", "heard",
];

/// So many sentences of a story go on with "that", "it", "he".
pub(super) const PAST: [&str; 14] = [
    "was", "were", "had", "took", "did", "went", "came", "got", "knew", "gave", "made", "used",
    "ran", "could",
];

impl Heard<'_> {
    /// The mood of what is said around a figure.
    pub fn mood(&self, figure: &Figure) -> Mood {
        let frame = self.frame(figure.first);
        if frame != Mood::Here {
            return frame;
        }
        let (first, end) = self.speech.sentences[figure.sentence];
        let first = if self.speech.bare {
            first.max(figure.first.saturating_sub(BARE_WORDS))
        } else {
            first
        };
        // "Last week I put them in for twenty-five minutes": the first words say when.
        if (first..figure.first.min(first + 3)).any(|at| self.long_past(at))
            || (first..figure.first).any(|at| self.is_year(at))
        {
            return Mood::Elsewhere;
        }
        // "Three times I've forgotten to set the alarm": what opens with the number was another time.
        let next = |n: usize| {
            self.speech
                .words
                .get(figure.end + n)
                .map_or("", |word| word.lower.as_str())
        };
        let done = |word: &str| OTHER_TIMES.contains(&word) || word.ends_with("en");
        if figure.first <= first + 1
            && (next(0) == "i've" && done(next(1))
                || next(0) == "i" && next(1) == "have" && done(next(2)))
        {
            return Mood::Elsewhere;
        }
        // "If it springs back, give it five minutes more."
        let (_, last) = self.speech.clause(figure.first);
        let more = self.speech.words[figure.end.min(last)..last]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "more" | "longer" | "extra"));
        if more
            && self.speech.words[first..figure.first]
                .iter()
                .any(|word| word.lower == "if")
        {
            return Mood::Perhaps;
        }
        if let Some(mood) = self.mood_before(first, figure.first) {
            return mood;
        }
        let (_, clause_end) = self.speech.clause(figure.first);
        let words = &self.speech.words;
        // "Twenty minutes if your room is cold", "fifty minutes on the boat that year"
        let behind = &words[figure.end.min(clause_end)..clause_end.min(end)];
        if behind.iter().any(|word| word.lower == "if") {
            return Mood::Perhaps;
        }
        // "That was on the boat, where the oven only knew two-fifty."
        let opens = words[first].lower.as_str();
        let goes_on = matches!(opens, "that" | "it" | "they" | "this" | "which" | "and")
            && words[first + 1..figure.first.max(first + 1)]
                .iter()
                .take(2)
                .any(|word| PAST.contains(&word.lower.as_str()));
        if goes_on
            && !self.speech.bare
            && let Some(before) = figure.sentence.checked_sub(1)
        {
            let (start, stop) = self.speech.sentences[before];
            if self.mood_before(start, stop) == Some(Mood::Elsewhere) {
                return Mood::Elsewhere;
            }
        }
        Mood::Here
    }

    /// Whether a word is of another time: last week, a year of the past, a century.
    fn long_past(&self, at: usize) -> bool {
        let words = &self.speech.words;
        let lower = |n: usize| words.get(n).map_or("", |word| word.lower.as_str());
        match lower(at) {
            "last" => matches!(
                lower(at + 1).strip_suffix("'s").unwrap_or(lower(at + 1)),
                "week" | "month" | "year" | "time" | "summer" | "winter" | "spring"
            ),
            "years" | "yesterday" | "ago" | "century" | "centuries" => true,
            _ => self.is_year(at),
        }
    }

    /// Whether a number in figures is a year of the past.
    fn is_year(&self, at: usize) -> bool {
        let own = self
            .speech
            .words
            .get(at)
            .map_or("", |word| word.lower.as_str());
        own.len() == 4
            && own
                .parse::<u32>()
                .is_ok_and(|year| (1400..=2100).contains(&year))
    }

    /// The mood that the nearest telling word within some words gives.
    fn mood_before(&self, first: usize, end: usize) -> Option<Mood> {
        (first..end).rev().find_map(|at| self.tells(first, at, end))
    }

    /// What one word tells of the mood.
    fn tells(&self, first: usize, at: usize, end: usize) -> Option<Mood> {
        let words = &self.speech.words;
        let lower = |n: usize| words.get(n).map_or("", |word: &Word| word.lower.as_str());
        let before = if at > first { lower(at - 1) } else { "" };
        let next = lower(at + 1);
        let own = lower(at);
        if let Some(who) = own.strip_suffix("'s").or(Some(own))
            && OTHERS.contains(&who)
        {
            // "you and your friends", "bread for the neighbours"
            return (!matches!(before, "for" | "you" | "with" | "like")).then_some(Mood::Elsewhere);
        }
        match own {
            "we" | "you" | "we're" | "you're" | "let's" | "you'll" | "we'll" | "you've" | "i'm" => {
                // "You see, with those in it": a manner of speaking.
                let spoken = next == "see"
                    && words
                        .get(at + 2)
                        .is_some_and(|word| word.clause != words[at + 1].clause);
                match next {
                    _ if spoken => None,
                    "could" | "might" | "may" | "see" | "hear" | "find" => Some(Mood::Perhaps),
                    // "if you", "when I", "you know"
                    _ if matches!(before, "if" | "tell" | "tells" | "thank") => None,
                    "know" | "see," => None,
                    _ => Some(Mood::Here),
                }
            }
            "i" => match next {
                // "I had it at forty degrees": what lies on the bench.
                "had" if matches!(lower(at + 2), "it" | "them" | "those" | "mine" | "ours") => {
                    Some(Mood::Here)
                }
                "once" | "had" => Some(Mood::Elsewhere),
                "used" if lower(at + 2) == "to" => Some(Mood::Elsewhere),
                "have" if OTHER_TIMES.contains(&lower(at + 2)) => Some(Mood::Elsewhere),
                "could" | "would" | "might" | "can" => Some(Mood::Perhaps),
                _ if matches!(before, "when" | "where" | "time" | "one" | "if") => None,
                // "When I made this for the fair I did four kilos": what stands before tells when.
                _ if PAST.contains(&next) => None,
                _ => Some(Mood::Here),
            },
            "i've" if OTHER_TIMES.contains(&next) => Some(Mood::Elsewhere),
            // "If you own a thermometer, the middle should be ninety."
            "should" | "must" if before != "if" => Some(Mood::Here),
            "today" | "now" | "here" | "tonight" => Some(Mood::Here),
            // "If you have a thermometer": who has none is told nothing else.
            "if" if matches!(next, "you've" | "you") && self.owns(at, end) => None,
            // "If you're wondering whether it's done, it comes out at ninety": who asks is told what is so.
            "if" if self.is_asked(at) => None,
            // "I'd have a first look at thirty-five", "to, I'd say, forty": advice.
            "i'd"
                if (matches!(next, "say" | "look" | "check" | "give" | "leave" | "call")
                    || next == "have" && matches!(lower(at + 2), "a"))
                    && !(first..end).any(|n| matches!(lower(n), "if" | "with" | "never")) =>
            {
                None
            }
            "i'd" | "could" | "might" | "if" => Some(Mood::Perhaps),
            // "Fresh yeast would be twenty-seven grams"
            "would" | "wouldn't"
                if matches!(next, "be" | "need" | "want" | "take" | "have")
                    && !matches!(before, "that" | "it" | "this" | "which") =>
            {
                Some(Mood::Perhaps)
            }
            // "The oven is at two-forty": what stands in this kitchen.
            "is" | "are" | "goes" | "gets" | "needs" | "wants" | "takes" | "bakes"
                if matches!(lower(at.saturating_sub(2)), "the" | "your")
                    && at >= first + 2
                    && (IN_A_KITCHEN.contains(&before)
                        || !self.mentions_in(at - 1, at).is_empty()) =>
            {
                Some(Mood::Here)
            }
            _ if frame::tells_to(&self.speech, first, at)
                && !(first..at).any(|n| lower(n) == "if") =>
            {
                Some(Mood::Here)
            }
            "when" if next == "i" && PAST.contains(&lower(at + 2)) => Some(Mood::Elsewhere),
            "when" if next == "i" && matches!(lower(at + 2), "made" | "started" | "lived") => {
                Some(Mood::Elsewhere)
            }
            _ if self.long_past(at) => Some(Mood::Elsewhere),
            "some" | "other" | "most" if matches!(next, "recipes" | "books" | "bakeries") => {
                Some(Mood::Elsewhere)
            }
            "mine" if matches!(next, "had" | "took" | "was" | "went" | "has") => {
                Some(Mood::Elsewhere)
            }
            "the" if lower(at + 1) == "one" && lower(at + 2) == "for" => Some(Mood::Elsewhere),
            "my" | "our" => self.of_a_person(at, end).then_some(Mood::Elsewhere),
            _ => None,
        }
    }

    /// Whether "if" asks only for a tool: "if you've got a thermometer".
    fn owns(&self, at: usize, end: usize) -> bool {
        let near = &self.speech.words[at + 1..(at + TOOL_WORDS).min(end)];
        let any = |wanted: &[&str]| {
            near.iter()
                .any(|word| wanted.contains(&word.lower.as_str()))
        };
        any(&["have", "own", "got", "you've", "use"])
            && any(&["thermometer", "probe", "scale", "scales", "gear", "one"])
    }

    /// Whether "if" asks for nothing but what the viewer thinks: "if you're wondering", "if you want to know".
    fn is_asked(&self, at: usize) -> bool {
        let lower = |n: usize| {
            self.speech
                .words
                .get(at + n)
                .map_or("", |word| word.lower.as_str())
        };
        match lower(1) {
            "you're" | "anybody's" | "anyone's" => ASKS.contains(&lower(2)),
            "you" => {
                lower(2) == "are" && ASKS.contains(&lower(3))
                    || lower(2) == "want" && lower(3) == "to" && lower(4) == "know"
                    || matches!(lower(2), "ask" | "wonder" | "doubt")
            }
            "anybody" | "anyone" => matches!(lower(2), "asks" | "wonders"),
            _ => false,
        }
    }

    /// Whether "my" is followed by somebody, or a bread of another time, who then does or has something:
    /// "my old boss gave", "my first wreath had".
    fn of_a_person(&self, at: usize, end: usize) -> bool {
        let words = &self.speech.words;
        let mut noun = at + 1;
        let first = words.get(noun).map_or("", |word| word.lower.as_str());
        if matches!(first, "first" | "last") {
            return words[noun..end.min(noun + 4)]
                .iter()
                .any(|word| PAST.contains(&word.lower.as_str()));
        }
        let old = matches!(first, "old" | "late" | "poor");
        while noun < end
            && matches!(
                words[noun].lower.as_str(),
                "old" | "own" | "dear" | "late" | "poor" | "big" | "little" | "good" | "other"
            )
        {
            noun += 1;
        }
        let Some(who) = words.get(noun).filter(|_| noun < end) else {
            return false;
        };
        let lower = who.lower.strip_suffix("'s").unwrap_or(&who.lower);
        let known = IN_A_KITCHEN.contains(&lower) || !self.mentions_in(noun, noun + 1).is_empty();
        // Whoever does something: "my cousin does six", "my father plaited".
        let does = words
            .get(noun + 1)
            .is_some_and(|verb| others_do(&verb.lower));
        // "My currant loaf has two hundred and twenty": another bread.
        let other_bread = !known
            && noun + 1 < end
            && matches!(
                words[noun + 1].stem.as_str(),
                "loaf" | "bread" | "bun" | "roll" | "cak" | "dough" | "braid" | "wreath"
            )
            && self.mentions_in(noun, noun + 1).is_empty();
        // "My old oven took an hour and a quarter"
        let did = words
            .get(noun + 1)
            .is_some_and(|verb| PAST.contains(&verb.lower.as_str()));
        !known && does || other_bread || old && did
    }
}

/// What a viewer is who would like to be told.
const ASKS: [&str; 10] = [
    "wondering",
    "asking",
    "unsure",
    "nervous",
    "worried",
    "curious",
    "doubtful",
    "watching",
    "counting",
    "new",
];

/// The tool stands within so many words of "if".
const TOOL_WORDS: usize = 9;

/// Without punctuation the mood reaches so many words.
const BARE_WORDS: usize = 14;
