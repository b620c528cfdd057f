//! What a sheet has to make room for: how many stages, steps and notes there are, and which parts are
//! left out.

use super::Wording;
use crate::pdf::faces::{Weight, width_em};

/// Widths of the table of amounts, in parts of the type that each column is set in.
pub(crate) struct Columns {
    /// Grams and sums.
    pub(crate) grams_em: f64,
    /// Kitchen measures.
    pub(crate) measure_em: f64,
    /// Shares of the flour.
    pub(crate) share_em: f64,
}

impl Wording {
    /// The widest of each column, so that every table of a card has the same columns.
    pub(crate) fn columns(&self) -> Columns {
        let widest = |texts: &mut dyn Iterator<Item = &String>, weight, least: &str| {
            texts
                .map(|text| width_em(text, weight))
                .fold(width_em(least, weight), f64::max)
        };
        let items = || {
            let of_stages = self.stages.iter().flat_map(|stage| &stage.items);
            of_stages.chain(&self.besides)
        };
        let sums = self.stages.iter().map(|stage| &stage.sum);
        Columns {
            grams_em: widest(
                &mut items().filter_map(|item| item.grams.as_ref()).chain(sums),
                Weight::Semibold,
                "weight",
            ),
            measure_em: widest(
                &mut items().filter_map(|item| item.measure.as_ref()),
                Weight::Regular,
                "measure",
            ),
            share_em: widest(
                &mut items().filter_map(|item| item.percent.as_ref()),
                Weight::Regular,
                "10 %",
            ),
        }
    }

    /// Whether there are yield or times.
    pub(crate) fn has_facts(&self) -> bool {
        !self.facts.is_empty()
    }

    /// Whether tools are named.
    pub(crate) fn has_kit(&self) -> bool {
        !self.kit.is_empty()
    }

    /// How many stages have amounts.
    pub(crate) fn stages(&self) -> usize {
        self.stages.len()
    }

    /// Whether anything is for bench, tin or top.
    pub(crate) fn has_besides(&self) -> bool {
        !self.besides.is_empty()
    }

    /// Whether a line says how cups are filled.
    pub(crate) fn has_cup_note(&self) -> bool {
        self.cup_note.is_some()
    }

    /// How many steps each section has.
    pub(crate) fn steps_of_sections(&self) -> Vec<usize> {
        let counts = self.sections.iter().map(|section| section.steps.len());
        counts.collect()
    }

    /// How many paragraphs come after the steps.
    pub(crate) fn paragraphs(&self) -> usize {
        self.paragraphs.len()
    }

    /// How many cautions there are.
    pub(crate) fn cautions(&self) -> usize {
        self.cautions.len()
    }

    /// Whether somebody paid or gave.
    pub(crate) fn has_disclosure(&self) -> bool {
        self.disclosure.is_some()
    }

    /// Whether any mark wants a key.
    pub(crate) fn has_key(&self) -> bool {
        !self.key.is_empty()
    }
}
