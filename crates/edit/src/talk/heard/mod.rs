//! Everything that was heard, side by side with what the recipe says: what stands around a figure.

mod case;
mod cues;
mod frame;
mod mood;
mod others;
mod score;
mod told;

pub(super) use cues::{TOLD_TO, denies, is_not_told, puts_off};
pub(super) use frame::tells_to;
pub(super) use mood::Mood;
pub(super) use score::steps_off;

use super::align::align;
use super::doing::{Doing, doing};
use super::facts::{COMMON, Fact, Place, Sort, facts, places};
use super::speech::{Figure, Speech};
use super::things::{Mention, Sort as Of, Thing, mentions, things};
use super::track::Track;
use crate::Inputs;
use recipe::measure::spoken::Meant;

/// A sentence of so many words may lean on the one before.
const SHORT: usize = 8;

/// A talk beside its recipe.
pub(super) struct Heard<'a> {
    pub inputs: &'a Inputs<'a>,
    pub speech: Speech,
    pub things: Vec<Thing>,
    pub mentions: Vec<Mention>,
    pub places: Vec<Place<'a>>,
    pub facts: Vec<Fact>,
    /// For each clause the step it is about, and whether something in it tells.
    pub walk: Vec<(usize, bool)>,
    /// The same for each sentence, by its first clause that tells.
    pub aligned: Vec<(usize, bool)>,
    /// For each word the frame in which it stands.
    frames: Vec<Mood>,
    /// For each stem how many facts have it.
    spread: std::collections::BTreeMap<String, f64>,
}

/// What stands around a figure.
pub(super) struct Around {
    pub clause: Doing,
    pub sentence: Doing,
    pub before: Doing,
    /// What is done in the sentence behind, where this one tells nothing.
    behind: Doing,
    /// What is done in the clause; where nothing of the sentence tells, what was told before.
    near: Doing,
    clause_products: Vec<usize>,
    sentence_products: Vec<usize>,
    clause_stages: Vec<usize>,
    sentence_stages: Vec<usize>,
    topic: Option<usize>,
    /// Whether the topic was named in the sentence before, or in this one.
    fresh: bool,
    clause_stems: Vec<String>,
    sentence_stems: Vec<String>,
    before_stems: Vec<String>,
    step: usize,
    told: bool,
}

impl Around {
    /// Whether a bread is named in the clause.
    pub fn names(&self, section: usize) -> bool {
        self.clause_products.contains(&section)
    }

    /// The step that the talk has come to.
    pub const fn step_number(&self) -> usize {
        self.step
    }

    /// Whether a part of the recipe is spoken of.
    pub fn is_about(&self, section: usize) -> bool {
        self.topic == Some(section)
            || self.clause_products.contains(&section)
            || self.sentence_products.contains(&section)
            || self.sentence_stages.contains(&section)
    }
}

impl<'a> Heard<'a> {
    /// Puts them side by side.
    pub fn of(inputs: &'a Inputs<'a>, track: &Track) -> Self {
        let speech = Speech::of(track);
        let things = things(inputs);
        let mentions = mentions(&speech, &things);
        let places = places(inputs);
        let mut facts = facts(inputs, &things, &places);
        for fact in &mut facts {
            fact.stems.sort();
            fact.stems.dedup();
        }
        let walk = align(&speech, &things, &mentions, &places, &facts);
        let aligned = speech
            .sentences
            .iter()
            .map(|&(first, end)| {
                let (from, to) = (speech.words[first].clause, speech.words[end - 1].clause);
                let own = &walk[from..=to];
                own.iter()
                    .find(|(_, told)| *told)
                    .copied()
                    .unwrap_or(own[0])
            })
            .collect();
        let frames = frame::frames(&speech, &mentions);
        let mut spread = std::collections::BTreeMap::new();
        for fact in &facts {
            for stem in &fact.stems {
                *spread.entry(stem.clone()).or_insert(0.0) += 1.0;
            }
        }
        Self {
            inputs,
            speech,
            things,
            mentions,
            places,
            facts,
            walk,
            aligned,
            frames,
            spread,
        }
    }

    /// The frame in which a word stands.
    pub fn frame(&self, word: usize) -> Mood {
        self.frames.get(word).copied().unwrap_or(Mood::Here)
    }

    /// Whether some of a sentence is told of another bread, time or kitchen.
    pub fn is_framed(&self, sentence: usize) -> bool {
        let (first, end) = self.speech.sentences[sentence];
        !self.speech.bare && (first..end).any(|at| self.frame(at) != Mood::Here)
    }

    /// The part of the recipe that a clause is about.
    pub fn section_of(&self, around: &Around) -> Option<usize> {
        self.places.get(around.step).map(|place| place.section)
    }

    /// Mentions within some words.
    pub fn mentions_in(&self, first: usize, end: usize) -> &[Mention] {
        let from = self.mentions.partition_point(|m| m.first < first);
        let to = self.mentions.partition_point(|m| m.first < end);
        &self.mentions[from..to.max(from)]
    }

    /// Sections named within some words: products, and stages other than the dough.
    fn named(&self, first: usize, end: usize) -> (Vec<usize>, Vec<usize>) {
        let (mut products, mut stages) = (Vec::new(), Vec::new());
        for thing in self.mentions_in(first, end).iter().flat_map(|m| &m.things) {
            match self.things[*thing].sort {
                Of::Product(section) => products.push(section),
                Of::Stage(section) if self.things[*thing].name != "dough" => stages.push(section),
                _ => {}
            }
        }
        (products, stages)
    }

    /// What stands around a figure.
    pub fn around(&self, figure: &Figure) -> Around {
        let words = &self.speech.words;
        let (first, end) = self.speech.clause(figure.first);
        let (s_first, s_end) = self.speech.sentences[figure.sentence];
        let before = self.told_before(figure.sentence);
        let stems = |first: usize, end: usize| -> Vec<String> {
            let mut all: Vec<String> = words[first..end]
                .iter()
                .enumerate()
                .filter(|(at, word)| {
                    let inside = (figure.first..figure.end).contains(&(first + at));
                    !inside && word.lower.len() > 2 && !COMMON.contains(&word.lower.as_str())
                })
                .map(|(_, word)| word.stem.clone())
                .collect();
            all.sort();
            all.dedup();
            all
        };
        // A stage that goes into the one being mixed is an ingredient there.
        let home = self
            .places
            .get(self.walk[figure.clause].0)
            .map(|place| place.section);
        let goes_in = |section: usize| {
            home != Some(section)
                && self.facts.iter().any(|fact| {
                    fact.section == home
                        && fact.sort == Sort::Amount
                        && fact
                            .thing
                            .is_some_and(|thing| self.things[thing].sort == Of::Stage(section))
                })
        };
        let (clause_products, mut clause_stages) = self.named(first, end);
        clause_stages.retain(|section| !goes_in(*section));
        // What a later clause names is that clause's own: "a quarter of an hour for the small ones, forty
        // minutes for the wreath".
        let others = clause_products.is_empty()
            && words[first..end].iter().any(|word| {
                matches!(
                    word.lower.as_str(),
                    "ones" | "others" | "everything" | "both"
                )
            });
        let (sentence_products, sentence_stages) = if others {
            (Vec::new(), Vec::new())
        } else {
            self.named(s_first, end.max(s_first))
        };
        let (step, told) = self.walk[figure.clause];
        let mut sentence_stages = sentence_stages;
        sentence_stages.retain(|section| !goes_in(*section));
        // What tells of no deed ("Four months.") is about what was spoken of just before.
        let own = doing(&words[s_first..s_end]);
        let said_before = doing(&words[before.0..before.1]);
        let just = figure
            .sentence
            .checked_sub(1)
            .map_or((0, 0), |at| self.speech.sentences[at]);
        let said_just = doing(&words[just.0..just.1]);
        let fragment = own.is_none();
        let told = told
            || self.walk[figure.clause.saturating_sub(4)..figure.clause]
                .iter()
                .any(|(own, told)| *told && *own == step);
        // "In the fridge. And it has to stay in there": the cold that was named just before.
        let in_there = words[first..end]
            .windows(2)
            .any(|two| two[0].lower == "in" && two[1].lower == "there")
            && said_just.meets(Doing::CHILL);
        let clause =
            doing(&words[first..end]).and(if in_there { Doing::CHILL } else { Doing::NONE });
        let next = self.speech.sentences.get(figure.sentence + 1);
        let behind = next
            .filter(|&&(first, end)| {
                fragment
                    && !self.speech.bare
                    && self.named(first, end).0.is_empty()
                    && !self.speech.figures.iter().any(|other| {
                        other.first >= first
                            && other.end <= end
                            && matches!(other.spoken.meant, Meant::Time(_))
                    })
            })
            .map_or(Doing::NONE, |&(first, end)| doing(&words[first..end]));
        Around {
            behind,
            clause,
            near: if fragment && (s_end - s_first <= SHORT || said_just.meets(Doing::FOLD)) {
                said_just
            } else {
                clause
            },
            sentence: match (fragment, s_end - s_first <= SHORT) {
                (true, true) => said_before,
                (true, false) => said_just,
                (false, _) => own,
            },
            before: said_before,
            clause_products,
            sentence_products,
            clause_stages,
            sentence_stages,
            fresh: self
                .mentions_in(just.0, figure.first)
                .iter()
                .flat_map(|mention| &mention.things)
                .any(|thing| matches!(self.things[*thing].sort, Of::Product(_))),
            topic: self
                .topic(figure.first)
                .filter(|section| !goes_in(*section)),
            clause_stems: stems(first, end),
            sentence_stems: if fragment {
                let mut both = stems(s_first, s_end);
                both.extend(stems(before.0, before.1));
                both.sort();
                both.dedup();
                both
            } else {
                stems(s_first, s_end)
            },
            before_stems: stems(before.0, before.1),
            step,
            told,
        }
    }

    /// "I've got a baking tray that's twenty by fifteen", where the recipe bakes on one of that name.
    fn is_our_tin(&self, byte: usize) -> bool {
        let at = self.speech.words.partition_point(|w| w.span.start < byte);
        let near: Vec<&str> = self.speech.words[at..]
            .iter()
            .take(4)
            .map(|word| word.lower.as_str())
            .collect();
        let mut tins = self
            .inputs
            .recipe
            .products
            .iter()
            .filter_map(|product| product.tin.as_ref());
        tins.any(|tin| {
            let name = tin.name.value.to_lowercase();
            let own: Vec<&str> = name.split_whitespace().collect();
            near.windows(own.len().max(1)).any(|words| words == own)
        })
    }

    /// The product or stage named last before a word.
    fn topic(&self, word: usize) -> Option<usize> {
        let end = self
            .mentions
            .partition_point(|mention| mention.first < word);
        self.mentions[..end]
            .iter()
            .rev()
            .flat_map(|mention| &mention.things)
            .find_map(|thing| match self.things[*thing].sort {
                Of::Product(section) => Some(section),
                Of::Stage(section) if self.things[*thing].name != "dough" => Some(section),
                _ => None,
            })
    }
}
