//! The things that sentences may name, and what is known of each.

use super::spelled;
use crate::document::model::Place;
use crate::import::clause::Doing;
use crate::import::draft::{Draft, Entry, Item, Part, Stage};
use crate::measure::read::sentence::tokens;

/// How far sentences have named a thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Met {
    /// None has.
    NotYet,
    /// A part of it.
    InPart,
    /// All of it.
    Whole,
}

/// A thing that sentences may name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thing {
    /// What stands in brackets: "milk", "egg for the top".
    pub(super) placeholder: String,
    /// The words of its name, in the singular.
    pub(super) name: Vec<String>,
    /// Its amount, as the file writes it.
    pub(super) take: Option<String>,
    /// The words under which several are named at once: "egg wash".
    pub(super) group: Option<String>,
    /// How far sentences have named it.
    pub(super) met: Met,
    /// The words of the sentence that put it in, in small letters, where no list does.
    pub(super) said: Option<String>,
    /// Whether it is an item of a stage, which sentences may name again.
    pub(super) item: bool,
    /// Its state, where only the sentence can say it.
    pub(super) state: Option<String>,
    /// Whether "most of it" goes in and no sentence tells of the rest.
    pub(super) most_is_all: bool,
}

impl Thing {
    /// A thing by its name.
    pub fn new(
        name: &str,
        placeholder: String,
        take: Option<&String>,
        group: Option<&String>,
    ) -> Self {
        let words = tokens(name);
        let words = words.iter().map(spelled).filter(|word| !word.is_empty());
        // A bracket in a name would end the placeholder.
        let named = placeholder.contains(['[', ']']) || placeholder.trim().is_empty();
        Self {
            name: words.collect(),
            take: take.map(|take| take.to_lowercase()),
            group: group.map(|group| group.to_lowercase()),
            placeholder,
            met: if named { Met::Whole } else { Met::NotYet },
            said: None,
            item: false,
            state: None,
            most_is_all: false,
        }
    }

    /// Where "most of the flour" goes in and no sentence tells of the rest, all of it is counted there.
    pub fn with_no_rest(self) -> Self {
        Self {
            most_is_all: true,
            ..self
        }
    }

    /// An item, with the words that put it in.
    pub fn told(self, said: Option<&String>) -> Self {
        Self {
            said: said.map(|said| said.to_ascii_lowercase()),
            item: true,
            ..self
        }
    }

    /// With a state that no list prints: "melted".
    pub fn in_state(self, state: Option<&String>) -> Self {
        Self {
            state: state.cloned(),
            ..self
        }
    }

    /// Whether it stands on bench, in tin or on top.
    pub(super) fn is_beside(&self) -> bool {
        self.group.is_some()
    }
}

/// What the sentences of a stage may name: its items, and the stages that go into it.
pub fn things_of(draft: &Draft, stage: &Stage, doings: &[Doing]) -> Vec<Thing> {
    let rest = doings.iter().any(|doing| {
        let lower = doing.sentence.to_lowercase();
        ["rest of", "the rest", "remaining", "remainder"]
            .iter()
            .any(|words| lower.contains(words))
    });
    let thing = |item: &Item| {
        let name = item.name();
        let thing = Thing::new(name, name.to_owned(), item.take.as_ref(), None);
        thing.told(item.said.as_ref())
    };
    let mut things: Vec<Thing> = stage
        .items()
        .map(thing)
        .map(|thing| if rest { thing } else { thing.with_no_rest() })
        .collect();
    if stage.part == Part::Dough {
        let before = draft
            .stages
            .iter()
            .filter(|other| other.part == Part::Before);
        things.extend(before.map(|other| Thing::new(&other.name, other.name.clone(), None, None)));
    }
    things
}

/// What the sentences about the pieces may name: things for bench, tin and top.
pub fn things_beside(draft: &Draft) -> Vec<Thing> {
    let mut things = Vec::new();
    for entry in &draft.besides {
        if let Entry::Item(item) = entry {
            let place = item.place.unwrap_or(Place::Top).word();
            let egg = ["egg", "yolk", "cream", "milk"]
                .iter()
                .any(|word| item.of.to_lowercase().contains(word));
            let group = item.group.clone().unwrap_or_else(|| {
                if egg {
                    "egg wash".to_owned()
                } else {
                    format!("{} mixture", item.of)
                }
            });
            let placeholder = format!("{} for the {place}", item.name());
            let thing = Thing::new(item.name(), placeholder, item.take.as_ref(), Some(&group));
            things.push(thing.told(item.said.as_ref()).in_state(item.state.as_ref()));
        }
    }
    things
}
