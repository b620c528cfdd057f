//! On which outputs each figure of a ledger is printed: told by printing a ledger whose figures carry marks.

use std::collections::{BTreeMap, BTreeSet};

use edit::ledger::marked::marks_in;
use edit::ledger::model::Ledger;
use edit::talk::film::film;
use edit::talk::track::Track;

use crate::address::PageOptions;
use crate::pdf::wording::Wording;

/// Something that goes out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Output {
    /// The page, without its structured data.
    Page,
    /// The page as text.
    Text,
    /// The card for the drawer.
    Card,
    /// The sheet for the bench.
    Bench,
    /// Structured data.
    Data,
    /// The film's papers: cards over the picture and figures to say. Captions have the speaker's words.
    Film,
    /// The shopping list.
    Shopping,
    /// Labels for bowls and trays.
    Labels,
}

impl Output {
    /// Every one.
    pub const ALL: [Self; 8] = [
        Self::Page,
        Self::Text,
        Self::Card,
        Self::Bench,
        Self::Data,
        Self::Film,
        Self::Shopping,
        Self::Labels,
    ];

    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Page => "page",
            Self::Text => "text",
            Self::Card => "card",
            Self::Bench => "bench sheet",
            Self::Data => "structured data",
            Self::Film => "film papers",
            Self::Shopping => "shopping list",
            Self::Labels => "bowl labels",
        }
    }
}

/// For each figure by its name the outputs that print it.
pub type Printed = BTreeMap<String, BTreeSet<Output>>;

/// What prints each figure of a ledger.
pub fn printed(ledger: &Ledger) -> Printed {
    let (marked, names) = ledger.marked();
    let mut all = Printed::new();
    for output in Output::ALL {
        for at in marks_in(&of(&marked, output)) {
            if let Some(name) = names.get(at) {
                all.entry(name.clone()).or_default().insert(output);
            }
        }
    }
    all
}

/// Everything that an output prints, in one string.
fn of(ledger: &Ledger, output: Output) -> String {
    let options = PageOptions::default();
    match output {
        Output::Page => crate::page::without_data(ledger, &options),
        Output::Text => crate::text::text(ledger, 80),
        // Card and bench sheet print everything that is handed to the typesetter.
        Output::Card | Output::Bench => Wording::of(ledger).handed_over(),
        Output::Data => crate::jsonld::jsonld(ledger, &options),
        Output::Film => {
            let film = film(ledger, &Track::default(), &[]).output;
            let lines = film.sheet.iter().flat_map(|part| &part.lines);
            let mut all: String = lines
                .flat_map(|line| line.figures.iter().chain(&line.signs).chain([&line.of]))
                .map(String::as_str)
                .collect();
            all.extend(film.cards.iter().map(edit::talk::film::Card::words));
            all
        }
        Output::Shopping => {
            let lines = ledger.shopping.groups.iter().flat_map(|group| &group.lines);
            lines.map(crate::shopping::printed).collect()
        }
        Output::Labels => {
            let labels = ledger.bowl_labels.iter();
            labels
                .flat_map(|label| {
                    label
                        .stands
                        .iter()
                        .chain(label.mass.iter().map(|mass| &mass.shown))
                })
                .map(String::as_str)
                .collect()
        }
    }
}
