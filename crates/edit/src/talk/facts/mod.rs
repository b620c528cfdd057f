//! What a recipe says that a talk can get right or wrong: amounts, heats, times, counts, sizes.

mod amounts;
pub(super) mod counts;
mod heats;
mod times;

use super::doing::{Doing, doing};
use super::speech::{Speech, stem};
use super::spelled::is_paper;
use super::things::Thing;
use super::track::{Cue, Track};
use crate::Inputs;
use recipe::document::model::{Action, Standing, Step};

/// What a fact is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sort {
    /// A mass in kilograms.
    Amount,
    /// A temperature in kelvin.
    Heat,
    /// A stretch of time in seconds.
    Time,
    /// A number of things.
    Count,
    /// A length in metres.
    Size,
}

/// How finely a temperature is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fine {
    /// A dial, in steps of 5 °C and 25 °F.
    Dial,
    /// A probe, to a degree.
    Probe,
    /// The air of a place or the warmth of an ingredient, to two degrees.
    Place,
}

/// One thing that the recipe says.
#[derive(Clone, Debug)]
pub(super) struct Fact {
    /// What it is about.
    pub sort: Sort,
    /// Low end, in SI.
    pub low: f64,
    /// High end, in SI.
    pub high: f64,
    /// The usual value, in SI.
    pub usual: f64,
    /// Stages first, then products.
    pub section: Option<usize>,
    /// Its step, counted through the whole recipe from nought.
    pub step: Option<usize>,
    /// What is being done there.
    pub doing: Doing,
    /// Stems of the words that go with it.
    pub stems: Vec<String>,
    /// The ingredient or product that it is of.
    pub thing: Option<usize>,
    /// What it is, for a sentence: "the rise of the loaf".
    pub what: String,
    /// The string that every face prints.
    pub shown: String,
    /// Its two or three sides, for the size of a tin.
    pub sides: Vec<f64>,
    /// How finely a temperature is meant.
    pub fine: Fine,
    /// Where it stands: `dough/salt`, `knots/rest`; nothing for what stands in no one place.
    pub path: String,
    /// It may be said, and nothing is wrong when something else is.
    pub only_allowed: bool,
}

impl Fact {
    /// Whether it counts things: neither how far a dough grows nor how often a loaf is slashed.
    pub fn counts_things(&self) -> bool {
        let otherwise = [counts::GROWTH, counts::SLASHES];
        self.sort == Sort::Count && !otherwise.contains(&self.path.as_str())
    }

    /// A fact with nothing around it.
    pub fn new(sort: Sort, usual: f64, what: impl Into<String>, shown: impl Into<String>) -> Self {
        Self {
            sort,
            low: usual,
            high: usual,
            usual,
            section: None,
            step: None,
            doing: Doing::NONE,
            stems: Vec::new(),
            thing: None,
            what: what.into(),
            shown: shown.into(),
            sides: Vec::new(),
            fine: Fine::Probe,
            path: String::new(),
            only_allowed: false,
        }
    }

    /// The same at a step.
    pub fn at(mut self, place: &Place, doing: Doing) -> Self {
        self.section = Some(place.section);
        self.step = Some(place.number);
        self.doing = doing;
        self.stems.extend(place.stems.iter().cloned());
        self
    }

    /// The same between two ends.
    pub const fn between(mut self, low: f64, high: f64) -> Self {
        self.low = low;
        self.high = high;
        self
    }

    /// The same of a thing.
    pub const fn of(mut self, thing: Option<usize>) -> Self {
        self.thing = thing;
        self
    }

    /// The same, allowed and no more.
    pub const fn allowed(mut self) -> Self {
        self.only_allowed = true;
        self
    }

    /// The same with further words.
    pub fn with(mut self, words: &str) -> Self {
        self.stems.extend(words.split(' ').map(stem));
        self
    }
}

/// A step with where it stands.
#[derive(Clone, Debug)]
pub(super) struct Place<'a> {
    /// Counted through the whole recipe from nought.
    pub number: usize,
    /// Stages first, then products.
    pub section: usize,
    /// The step.
    pub step: &'a Step,
    /// Stems of the words of its sentence and cue.
    pub stems: Vec<String>,
    /// What is done, by its action.
    pub doing: Doing,
    /// The name of its section.
    pub of: &'a str,
}

impl Place<'_> {
    /// Where it stands: `dough/fold`.
    pub fn path(&self) -> String {
        format!("{}/{}", self.of, self.step.action.word())
    }
}

/// Whether a dough grows in a rest, and is looked at for it.
pub(super) fn rises(place: &Place) -> bool {
    let until = place.step.until.as_ref();
    until.is_some_and(|until| until.volume.is_some() || until.height.is_some())
}

/// Every step in the order of the recipe.
pub(super) fn places<'a>(inputs: &Inputs<'a>) -> Vec<Place<'a>> {
    let recipe = inputs.recipe;
    let stages = recipe
        .stages
        .iter()
        .map(|stage| (stage.name.value.as_str(), &stage.steps));
    let products = recipe
        .products
        .iter()
        .map(|product| (product.name.value.as_str(), &product.steps));
    let mut all = Vec::new();
    for (section, (of, steps)) in stages.chain(products).enumerate() {
        for step in steps {
            let see = step.until.as_ref().and_then(|until| until.see.as_ref());
            let words = format!("{} {}", step.text.value, see.map_or("", |see| &see.value));
            let lower = words.to_lowercase();
            let words: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).collect();
            let mut stems: Vec<String> = words
                .iter()
                .enumerate()
                .filter(|(_, word)| word.len() > 2 && !COMMON.contains(word))
                .filter(|(at, word)| {
                    let paper = words.get(at + 1).is_some_and(|next| is_paper(next));
                    **word != "baking" || !paper
                })
                .map(|(_, word)| stem(word))
                .collect();
            stems.sort();
            stems.dedup();
            all.push(Place {
                number: all.len(),
                section,
                doing: of_action(step),
                step,
                stems,
                of,
            });
        }
    }
    all
}

/// Words that stand in every step and tell nothing.
pub(super) const COMMON: [&str; 40] = [
    "the", "and", "with", "for", "into", "from", "that", "this", "until", "then", "than", "them",
    "its", "are", "not", "over", "out", "each", "all", "your", "you", "let", "leave", "when",
    "has", "have", "will", "just", "what", "they", "can", "but", "one", "two", "now", "some",
    "there", "about", "minutes", "minute",
];

/// What an action is, in the words of doings.
fn of_action(step: &Step) -> Doing {
    match &step.action {
        Action::Ready { .. } => Doing::READY,
        Action::Wake { .. } => Doing::WAKE,
        Action::Mix { .. } => Doing::MIX,
        Action::Heat { .. } => Doing::HEAT,
        Action::Rest { place, .. } if place.value == Standing::Refrigerator => {
            Doing::REST.and(Doing::CHILL)
        }
        Action::Rest { .. } => Doing::REST,
        Action::Fold { .. } => Doing::FOLD,
        Action::Divide { .. } => Doing::DIVIDE,
        Action::Shape { .. } => Doing::SHAPE,
        Action::Finish { .. } => Doing::FINISH,
        Action::Preheat { .. } => Doing::PREHEAT.and(Doing::OVEN),
        Action::Bake { .. } => Doing::BAKE.and(Doing::OVEN),
        Action::Cool { .. } => Doing::COOL,
    }
}

/// Figures that stand in an author's sentence, heard as if they were spoken.
pub(super) fn in_words(text: &str) -> Speech {
    let track = Track {
        cues: vec![Cue {
            text: text.replace(['[', ']'], " "),
            ..Cue::default()
        }],
        ..Track::default()
    };
    Speech::of(&track)
}

/// What is done around a figure of an author's sentence.
pub(super) fn doing_there(speech: &Speech, at: usize) -> Doing {
    let (first, end) = speech.clause(at);
    let near = doing(&speech.words[first..end]);
    if near.is_none() {
        let (first, end) = speech.sentences[speech.words[at].sentence];
        return doing(&speech.words[first..end]);
    }
    near
}

/// Everything that the recipe says.
pub(super) fn facts(inputs: &Inputs, things: &[Thing], places: &[Place]) -> Vec<Fact> {
    let mut all = amounts::amounts(inputs, things, places);
    all.extend(heats::heats(inputs, things, places));
    all.extend(times::times(inputs, places));
    all.extend(counts::counts(inputs, things, places));
    all
}

/// What stands behind the name of a dial to which an oven is turned down.
pub(super) const LATER: &str = "later in the bake";

/// "of the loaf", or nothing where the whole recipe is meant.
pub(super) fn of_section(of: &str) -> String {
    format!("of the {of}")
}
