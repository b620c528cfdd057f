//! What was told before a figure or around it: questions, rows, scales, other people's stories.

use super::Heard;
use crate::talk::doing::{Doing, doing};
use crate::talk::facts::{Fine, Sort};
use crate::talk::hold::{Scale, Verdict, as_temperature};
use crate::talk::mended::is_put_right;
use crate::talk::speech::Figure;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// A story is told within so many words of its figure.
const STORY_BEFORE: usize = 22;
const STORY_AFTER: usize = 14;

/// A stage that an amount is in is named within so many words.
const STAGE_WORDS: usize = 6;

/// Words before a sentence in which she may have been named.
const STORY_WORDS: usize = 25;

/// Whose bread a story is about.
const FAMILY: [&str; 23] = [
    "grandmother",
    "grandma",
    "granny",
    "gran",
    "nan",
    "nana",
    "grandad",
    "grandpa",
    "aunt",
    "auntie",
    "brother",
    "sister",
    "mate",
    "uncle",
    "mother",
    "mum",
    "mom",
    "mama",
    "dad",
    "father",
    "husband",
    "wife",
    "neighbour",
];

/// How a story is told.
const PAST: [&str; 14] = [
    "made", "did", "used", "had", "gave", "was", "were", "baked", "let", "ran", "put", "never",
    "left", "took",
];

/// What opens a sentence and is put right takes so many words.
const MENDED_WORDS: usize = 10;

/// So many sentences back may what is done have been told.
const FRAGMENTS: usize = 3;

/// Figures of one row stand at most so many words apart.
const ROW_WORDS: usize = 8;

impl Heard<'_> {
    /// The words of the nearest sentence before that tells of a deed, three back at most; what tells of
    /// none ("Four months.") is about what was spoken of there.
    pub(super) fn told_before(&self, sentence: usize) -> (usize, usize) {
        let nearest = (1..=FRAGMENTS)
            .filter_map(|back| sentence.checked_sub(back))
            .map(|at| self.speech.sentences[at])
            .find(|&(first, end)| !doing(&self.speech.words[first..end]).is_none());
        nearest
            .or_else(|| Some(self.speech.sentences[sentence.checked_sub(1)?]))
            .unwrap_or((0, 0))
    }

    /// Whether a sentence asks; a question states nothing.
    pub fn asks(&self, sentence: usize) -> bool {
        self.speech
            .slice(self.speech.sentence_span(sentence))
            .ends_with('?')
    }

    /// What the sentence before asks for, where this one answers it with a number: "How long? Forty."
    pub fn asked_for(&self, figure: &Figure) -> Option<Sort> {
        let before = figure.sentence.checked_sub(1)?;
        let (first, _) = self.speech.sentences[figure.sentence];
        if !self.asks(before) || figure.first > first + 2 {
            return None;
        }
        // "How many have you tied? Of the knots? About three hundred."
        let from = before
            .checked_sub(1)
            .filter(|earlier| self.asks(*earlier))
            .unwrap_or(before);
        let (first, _) = self.speech.sentences[from];
        let (_, end) = self.speech.sentences[before];
        self.speech.words[first..end]
            .iter()
            .find_map(|word| match word.lower.as_str() {
                "temperature" | "hot" | "warm" | "degrees" | "cold" => Some(Sort::Heat),
                "long" | "minutes" | "hours" | "time" => Some(Sort::Time),
                "much" | "heavy" | "weigh" | "grams" => Some(Sort::Amount),
                "many" => Some(Sort::Count),
                _ => None,
            })
    }

    /// The scale that a speaker with one system of measures means: grams and centimetres go with Celsius,
    /// ounces and inches with Fahrenheit; none where both are used.
    pub fn scale(&self) -> Option<Scale> {
        let (mut metric, mut other) = (0, 0);
        for word in &self.speech.words {
            match word.lower.as_str() {
                "grams" | "gram" | "kilo" | "centimetres" | "celsius" | "millilitres" | "litre" => {
                    metric += 1;
                }
                "ounces" | "ounce" | "pounds" | "cups" | "cup" | "inches" | "inch"
                | "fahrenheit" | "stick" | "sticks" => other += 1,
                _ => {}
            }
        }
        // "four fifty", where the oven stands at 230 °C: grams with Fahrenheit.
        let dial = self.speech.figures.iter().any(|figure| {
            let kelvin = as_temperature(figure.spoken.low, Scale::Fahrenheit);
            let bare = matches!(figure.spoken.meant, Meant::Number(..) | Meant::Degrees(..));
            bare && self.facts.iter().any(|fact| {
                fact.sort == Sort::Heat
                    && fact.fine == Fine::Dial
                    && (fact.usual - kelvin).abs() < 6.0
            })
        });
        match (metric, other) {
            (3.., 0) if dial => None,
            (3.., 0) => Some(Scale::Celsius),
            (0, 3..) => Some(Scale::Fahrenheit),
            _ => None,
        }
    }

    /// Where the sentence before begins, when the clause of a figure says "it" of something named there
    /// that is made warm: "Warm a cup of milk. You want it at thirty-eight."
    pub fn pronoun_from(&self, figure: &Figure) -> Option<usize> {
        let (first, _) = self.speech.clause(figure.first);
        let it = self.speech.words[first..figure.first]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "it" | "it's"));
        let (before, end) = *self.speech.sentences.get(figure.sentence.checked_sub(1)?)?;
        let warmed = self.speech.words[before..end]
            .iter()
            .any(|word| matches!(word.stem.as_str(), "warm" | "heat"));
        // "Water, two hundred and twenty grams. That's at twenty-four."
        let that_at = self.speech.words[first..figure.first]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "it's" | "that's" | "they're"))
            && self.speech.words[..figure.first]
                .last()
                .is_some_and(|word| word.lower == "at");
        // "Thirty-two, no, I tell a lie, thirty-eight degrees": what is put right stands for what it puts right.
        let sentence = self.speech.sentences[figure.sentence].0;
        let mended = figure.first - sentence <= MENDED_WORDS
            && is_put_right(&self.speech.words[sentence..figure.first]);
        let opens = first == sentence || mended;
        // "Stir the yeast into the warm milk. Forty-five degrees, so it gets going."
        let alone = opens && figure.first == first;
        if that_at && !opens {
            return Some(self.speech.sentences[figure.sentence].0);
        }
        (opens && ((it || alone) && warmed || that_at)).then_some(before)
    }

    /// What was being done at the figure just before, where this one goes on in the same row: "Rolls,
    /// twelve. Loaf, thirty-four."
    pub fn row(&self, at: usize, verdicts: &[Verdict]) -> Option<(Sort, Doing)> {
        let figure = &self.speech.figures[at];
        // "Knots and rolls, fifteen minutes, you can eat one, go ahead. Wreath, forty."
        let passed = |at: usize| {
            matches!(self.speech.figures[at].spoken.meant, Meant::Number(low, _) if low < 2.0)
                && verdicts.get(at) == Some(&Verdict::Aside)
        };
        let before = (0..at).rev().find(|before| !passed(*before))?;
        let other = &self.speech.figures[before];
        if figure.first.saturating_sub(other.end) > ROW_WORDS {
            return None;
        }
        match verdicts.get(before)? {
            Verdict::Agrees(fact) | Verdict::Differs(fact) => {
                let fact = &self.facts[*fact];
                Some((fact.sort, fact.doing))
            }
            Verdict::Aside => None,
        }
    }

    /// How much surer a figure must be where somebody's story is told.
    pub fn story(&self, figure: &Figure) -> f64 {
        let (first, end) = self.speech.sentences[figure.sentence];
        // "With two hundred and eighty grams of butter in the dough it falls apart, and then she rings me up": who comes in
        // behind our own dough is no story of its figures.
        let end = match self.in_our_stage(figure) {
            Some(stage_end) => end.min(stage_end),
            None => end,
        };
        if self.speech.bare {
            let end = (figure.end + STORY_AFTER / 2).min(self.speech.words.len());
            // "Now my mate Dave says": what opens behind is another matter.
            let end = (figure.end..end)
                .find(|at| {
                    self.speech.words[*at].sentence != figure.sentence
                        && self.speech.words[*at].lower == "now"
                })
                .unwrap_or(end);
            return self.story_within(figure.first.saturating_sub(STORY_BEFORE), end);
        }
        self.story_within(
            figure.first.saturating_sub(STORY_BEFORE).max(first),
            (figure.end + STORY_AFTER).min(end),
        )
    }

    /// Where "in the dough" ends, right behind a figure.
    fn in_our_stage(&self, figure: &Figure) -> Option<usize> {
        let from = figure.end;
        let mention = self
            .mentions_in(from, from + STAGE_WORDS)
            .iter()
            .find(|mention| matches!(self.things[mention.things[0]].sort, Of::Stage(_)))?;
        let lower = |back: usize| self.speech.words[mention.first - back].lower.as_str();
        (mention.first >= from + 2 && lower(1) == "the" && matches!(lower(2), "in" | "into"))
            .then_some(mention.end)
    }

    /// The same of a sentence.
    pub fn story_of(&self, sentence: usize) -> f64 {
        let (first, end) = self.speech.sentences[sentence];
        self.story_within(first, end)
    }

    /// The same of some words.
    pub fn story_within(&self, first: usize, end: usize) -> f64 {
        let told = self.speech.words[first..end]
            .iter()
            .enumerate()
            .any(|(at, word)| {
                let next = self
                    .speech
                    .words
                    .get(first + at + 1)
                    .map_or("", |w| w.lower.as_str());
                match word.lower.as_str() {
                    "once" => !matches!(
                        next,
                        "it" | "it's"
                            | "they"
                            | "they're"
                            | "the"
                            | "you"
                            | "over"
                            | "your"
                            | "that"
                            | "that's"
                            | "again"
                            | "folded"
                            | "around"
                            | "in"
                            | "at"
                            | "during"
                            | "all"
                    ),
                    "years" | "she" | "he" | "dog" | "cat" | "since" => true,
                    "used" => next == "to",
                    "remember" => at > 0 && self.speech.words[first + at - 1].lower == "i",
                    own => FAMILY.contains(&own.strip_suffix("'s").unwrap_or(own)),
                }
            });
        let all = &self.speech.words[first..end];
        let (nearest, _) = (first.saturating_sub(STORY_WORDS), end);
        let hers = all.iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "she'd" | "he'd" | "they'd" | "she" | "he"
            )
        }) && self.speech.words[nearest..first]
            .iter()
            .any(|word| FAMILY.contains(&word.lower.as_str()));
        let out_there = all.windows(2).any(|two| {
            matches!(
                (two[0].lower.as_str(), two[1].lower.as_str()),
                ("out", "there")
                    | ("i", "had" | "once")
                    | ("i've", "got" | "counted")
                    | (
                        "since",
                        "sunday"
                            | "monday"
                            | "tuesday"
                            | "wednesday"
                            | "thursday"
                            | "friday"
                            | "saturday"
                            | "yesterday"
                    )
            ) && !self.is_ours(two[1].span.end)
                && !self.goes_on(two[1].span.end)
                && !self.is_our_tin(two[1].span.end)
                && !self.is_told_of(two[1].span.end)
        });
        let of_others = hers
            || out_there
            || all.iter().any(|word| FAMILY.contains(&word.lower.as_str()))
                && all.iter().any(|word| PAST.contains(&word.lower.as_str()));
        let elsewhere = (first..end).any(|at| {
            let word = &self.speech.words[at];
            // "Doesn't that smell like church": what something is likened to is no story.
            if (1..=2).any(|back| {
                at.checked_sub(back)
                    .is_some_and(|n| n >= first && self.speech.words[n].lower == "like")
            }) {
                return false;
            }
            // "Some film over it": a word of the recipe is no story.
            let own = word.lower.strip_suffix("'s").unwrap_or(&word.lower);
            let ours = || {
                self.places.iter().any(|place| {
                    let covered = match &place.step.action {
                        recipe::document::model::Action::Rest { covered, .. } => covered.as_ref(),
                        _ => None,
                    };
                    covered.is_some_and(|covered| covered.value == own)
                })
            };
            matches!(
                own,
                "neighbour"
                    | "neighbor"
                    | "neighbour's"
                    | "neighbor's"
                    | "ran"
                    | "childhood"
                    | "ago"
                    | "restaurant"
                    | "married"
                    | "wedding"
                    | "bus"
                    | "train"
                    | "ferry"
                    | "boat"
                    | "flight"
                    | "plane"
                    | "journey"
                    | "chemistry"
                    | "record"
                    | "film"
                    | "podcast"
                    | "homework"
                    | "traffic"
                    | "church"
                    | "nursery"
                    | "video"
                    | "fete"
                    | "charity"
                    | "firehouse"
                    | "village"
                    | "easter"
                    | "bought"
                    | "paid"
                    | "holiday"
                    | "snow"
                    | "snowed"
                    | "snowing"
                    | "rain"
                    | "raining"
                    | "hail"
                    | "forecast"
                    | "weather"
                    | "storm"
                    | "outside"
            ) && !ours()
        });
        match (elsewhere || of_others, told) {
            (true, _) => 20.0,
            (false, true) => 3.0,
            _ => 0.0,
        }
    }

    /// Whether a bread, or a stage other than the dough, is named in the clause of a figure.
    pub fn names_part(&self, figure: &Figure) -> bool {
        let (first, end) = self.speech.clause(figure.first);
        self.mentions_in(first, end)
            .iter()
            .flat_map(|mention| &mention.things)
            .any(|thing| match self.things[*thing].sort {
                Of::Product(_) => true,
                Of::Stage(_) => self.things[*thing].name != "dough",
                Of::Ingredient => false,
            })
    }

    /// Whether what one has is only told of: "the tin I've got is thirty centimetres across".
    fn is_told_of(&self, byte: usize) -> bool {
        let at = self.speech.words.partition_point(|w| w.span.start < byte);
        self.speech.words.get(at).is_some_and(|word| {
            matches!(
                word.lower.as_str(),
                "is" | "are" | "here" | "measures" | "holds"
            )
        })
    }

    /// "I've got mine in the hot cupboard": what is being made here.
    fn is_ours(&self, byte: usize) -> bool {
        let at = self.speech.words.partition_point(|w| w.span.start < byte);
        self.speech.words.get(at).is_some_and(|word| {
            matches!(
                word.lower.as_str(),
                "mine" | "ours" | "it" | "them" | "these" | "this"
            )
        })
    }

    /// Whether a thing of the recipe stands right behind a place: "I've got twenty grams of cream here".
    fn goes_on(&self, byte: usize) -> bool {
        let at = self.speech.words.partition_point(|w| w.span.start < byte);
        let named = self.mentions_in(at, at + 6).first();
        named.is_some_and(|mention| self.things[mention.things[0]].sort == Of::Ingredient)
            && !self.speech.words[at..(at + 3).min(self.speech.words.len())]
                .iter()
                .any(|word| word.stem == "egg")
    }
}
