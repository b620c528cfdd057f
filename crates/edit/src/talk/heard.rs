//! Everything that was heard, side by side with what the recipe says, and how well the two go together.

use super::align::align;
use super::doing::{Doing, doing};
use super::facts::{COMMON, Fact, Place, Sort, facts, places};
use super::speech::{Figure, Speech};
use super::things::{Mention, Sort as Of, Thing, mentions, things};
use super::track::Track;
use crate::Inputs;

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
    /// For each stem how many facts have it.
    spread: std::collections::BTreeMap<String, f64>,
}

/// What stands around a figure.
pub(super) struct Around {
    pub clause: Doing,
    pub sentence: Doing,
    pub before: Doing,
    clause_products: Vec<usize>,
    sentence_products: Vec<usize>,
    clause_stages: Vec<usize>,
    sentence_stages: Vec<usize>,
    topic: Option<usize>,
    clause_stems: Vec<String>,
    sentence_stems: Vec<String>,
    before_stems: Vec<String>,
    step: usize,
    told: bool,
}

impl Around {
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
            spread,
        }
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
        let before = figure
            .sentence
            .checked_sub(1)
            .map_or((0, 0), |sentence| self.speech.sentences[sentence]);
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
        let (clause_products, clause_stages) = self.named(first, end);
        let (sentence_products, sentence_stages) = self.named(s_first, s_end);
        let (step, told) = self.walk[figure.clause];
        // What tells of no deed ("Four months.") is about what was spoken of just before.
        let own = doing(&words[s_first..s_end]);
        let said_before = doing(&words[before.0..before.1]);
        let fragment = own.is_none();
        let told = told
            || self.walk[figure.clause.saturating_sub(4)..figure.clause]
                .iter()
                .any(|(own, told)| *told && *own == step);
        Around {
            clause: doing(&words[first..end]),
            sentence: if fragment { said_before } else { own },
            before: said_before,
            clause_products,
            sentence_products,
            clause_stages,
            sentence_stages,
            topic: self.topic(figure.first),
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

    /// How much surer a figure must be where somebody's story is told.
    pub fn story(&self, sentence: usize) -> f64 {
        let (first, end) = self.speech.sentences[sentence];
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
                    "grandmother" | "grandma" | "granny" | "aunt" | "uncle" | "remember"
                    | "years" | "she" | "he" | "dog" | "cat" => true,
                    "used" => next == "to",
                    _ => false,
                }
            });
        let elsewhere = self.speech.words[first..end].iter().any(|word| {
            matches!(
                word.lower.as_str(),
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
                    | "chemistry"
                    | "record"
                    | "film"
                    | "podcast"
                    | "homework"
                    | "traffic"
            )
        });
        match (elsewhere, told) {
            (true, _) => 20.0,
            (false, true) => 3.0,
            _ => 0.0,
        }
    }

    /// How well a fact goes with what stands around a figure; higher is better.
    pub fn score(&self, around: &Around, fact: &Fact) -> f64 {
        self.by_words(around, fact)
            + self.by_section(around, fact)
            + self.by_step(around, fact)
            + by_doing(around, fact)
    }

    fn by_words(&self, around: &Around, fact: &Fact) -> f64 {
        let sum = |stems: &[String]| -> f64 {
            fact.stems
                .iter()
                .filter(|stem| stems.binary_search(stem).is_ok())
                .map(|stem| 1.5 / (1.0 + self.spread.get(stem).copied().unwrap_or(0.0) / 6.0))
                .sum()
        };
        let clause = sum(&around.clause_stems).min(3.0);
        let sentence = (0.5 * sum(&around.sentence_stems)).min(1.5);
        let before = (0.2 * sum(&around.before_stems)).min(0.6);
        clause + sentence + before
    }

    fn by_section(&self, around: &Around, fact: &Fact) -> f64 {
        let Some(section) = fact.section else {
            return 0.0;
        };
        let product = section >= self.inputs.recipe.stages.len();
        let named = |products: &[usize], weight: f64| {
            if products.contains(&section) {
                weight
            } else if products.is_empty() {
                0.0
            } else if product {
                -1.5 * weight
            } else {
                -0.7 * weight
            }
        };
        let mut score = if around.clause_products.is_empty() {
            named(&around.sentence_products, 2.0)
        } else {
            named(&around.clause_products, 4.0)
        };
        if around.clause_stages.contains(&section) {
            score += 2.5;
        } else if around.sentence_stages.contains(&section) {
            score += 1.2;
        }
        if around.topic == Some(section) {
            score += 1.5;
        }
        score
    }

    fn by_step(&self, around: &Around, fact: &Fact) -> f64 {
        let Some(step) = fact.step else { return 0.0 };
        let apart = f64::from(u32::try_from(step.abs_diff(around.step)).unwrap_or(u32::MAX));
        let sure = if around.told { 1.0 } else { 0.6 };
        let same = fact.section == self.places.get(around.step).map(|place| place.section);
        let near = match step.abs_diff(around.step) {
            0 => 3.0,
            1 => 1.5,
            _ if same => 0.5,
            _ => -(0.25 * apart).min(2.5),
        };
        near * sure
    }
}

/// How well what is done goes together.
fn by_doing(around: &Around, fact: &Fact) -> f64 {
    let clause = around.clause;
    if fact.doing.is_none() {
        return 0.0;
    }
    let mut score = if clause.meets(fact.doing) {
        3.0 + f64::from(clause.shared(fact.doing)).min(3.0)
    } else if around.sentence.meets(fact.doing) {
        2.0
    } else if around.before.meets(fact.doing) {
        0.5
    } else {
        -1.0
    };
    // Some things are meant only where their own word falls.
    let wide = around.clause.and(around.sentence);
    if fact.doing.meets(Doing::CHILL) && !clause.meets(Doing::CHILL) {
        score -= 1.5;
    }
    if fact.doing.meets(Doing::FOLD) && !clause.meets(Doing::FOLD) {
        score -= 3.0;
    }
    let heat = fact.sort == Sort::Heat;
    if heat && fact.doing.meets(Doing::COOL) && !clause.meets(Doing::COOL) {
        score -= 3.0;
    }
    if heat
        && fact.doing.meets(Doing::WARM)
        && !around.clause.and(around.sentence).meets(Doing::REST)
        && !around.before.meets(Doing::REST)
    {
        score -= 2.0;
    }
    for (own, missing) in [
        (Doing::CHECK, 2.5),
        (Doing::READY, 3.0),
        (Doing::FOLD, 3.0),
        (Doing::STORE, 5.0),
        (Doing::CHILL, 1.5),
        (Doing::CORE, 1.5),
        (Doing::DOUGH, 1.5),
    ] {
        if fact.doing.meets(own) && !wide.meets(own) {
            score -= missing;
        }
    }
    for (own, alien) in [
        (Doing::CHILL, 2.5),
        (Doing::STORE, 3.0),
        (Doing::CORE, 3.0),
        (Doing::CHECK, 1.0),
        (Doing::FOLD, 1.0),
        (Doing::DOUGH, 2.0),
        (Doing::READY, 1.5),
        (Doing::WAKE, 2.0),
    ] {
        if clause.meets(own) && !fact.doing.meets(own) {
            score -= alien;
        }
    }
    if fact.doing.meets(Doing::TOTAL) && !wide.meets(Doing::TOTAL) {
        score -= 9.0;
    }
    if fact.sort == Sort::Time && fact.doing == Doing::PREHEAT && !wide.meets(Doing::PREHEAT) {
        score -= 3.0;
    }
    score
}
