//! What a sheet has to make room for, and what stands in each unit of it.

use serde_json::{Value, json};

use super::{Item, Pair, Wording};
use crate::pdf::faces::{Face, width_em};

/// Widths of the table of amounts, in parts of the type that each column is set in.
pub(crate) struct Columns {
    /// Grams and sums.
    pub(crate) grams: f64,
    /// Kitchen measures.
    pub(crate) measure: f64,
    /// Shares of the flour.
    pub(crate) share: f64,
}

/// Which lines of a stage are printed, and how much of each.
#[derive(Clone, Copy)]
pub(crate) struct Lines<'a> {
    /// Those at these places; all when none are named.
    pub(crate) chosen: Option<&'a [usize]>,
    /// Weight and name alone.
    pub(crate) short: bool,
}

impl Wording {
    /// The widest of each column, so that every table of a card has the same columns.
    pub(crate) fn columns(&self) -> Columns {
        let widest = |texts: &mut dyn Iterator<Item = &String>, face, least: &str| {
            texts
                .map(|text| width_em(text, face))
                .fold(width_em(least, face), f64::max)
        };
        let items = || {
            let of_stages = self.stages.iter().flat_map(|stage| &stage.items);
            of_stages.chain(&self.besides)
        };
        let sums = self.stages.iter().map(|stage| &stage.sum);
        Columns {
            grams: widest(
                &mut items().filter_map(|item| item.grams.as_ref()).chain(sums),
                Face::Semibold,
                "weight",
            ),
            measure: widest(
                &mut items().filter_map(|item| item.measure.as_ref()),
                Face::Regular,
                "measure",
            ),
            share: widest(
                &mut items().filter_map(|item| item.percent.as_ref()),
                Face::Regular,
                "10 %",
            ),
        }
    }

    /// What a sheet says of itself: its name, its author, its colours and its line of origin.
    pub(crate) fn about(&self) -> Value {
        json!({
            "name": self.name,
            "author": self.author,
            "imprint": self.imprint,
            "colours": self.colours,
        })
    }

    /// Title and what stands under it.
    pub(crate) fn title_line(&self) -> Value {
        json!({ "title": self.title, "byline": self.byline.join("\u{a0}· ") })
    }

    /// Yield and times in rows of so many; one that is wider than a column, in parts of the type,
    /// has a row of its own.
    pub(crate) fn facts(&self, across: usize, column_em: f64) -> Value {
        const BETWEEN_EM: f64 = 0.6;
        let long = |fact: &Pair| {
            let label = width_em(&fact.label, Face::Regular);
            label + BETWEEN_EM + width_em(&fact.shown, Face::Semibold) > column_em
        };
        let mut rows: Vec<(bool, Vec<&Pair>)> = vec![];
        // A short fact fills the row that was begun, also past a long one.
        let mut begun = None;
        for fact in &self.facts {
            if long(fact) {
                rows.push((true, vec![fact]));
                continue;
            }
            let at = *begun.get_or_insert_with(|| {
                rows.push((false, vec![]));
                rows.len() - 1
            });
            rows[at].1.push(fact);
            if rows[at].1.len() >= across {
                begun = None;
            }
        }
        let row = |(whole, facts): (bool, Vec<&Pair>)| json!({ "whole": whole, "facts": facts });
        rows.into_iter().map(row).collect()
    }

    /// The allergens.
    pub(crate) fn contains(&self) -> Value {
        json!({ "contains": self.contains, "honesty": self.honesty })
    }

    /// The tools.
    pub(crate) fn kit(&self) -> Value {
        json!(self.kit.join("; "))
    }

    /// Lines of a stage, or for bench, tin and top when there is none: those that are wanted.
    pub(crate) fn amounts(
        &self,
        stage: Option<usize>,
        printed: Lines,
        headed: bool,
        summed: bool,
    ) -> Value {
        let stage = stage.and_then(|at| self.stages.get(at));
        let items = stage.map_or(&self.besides, |stage| &stage.items);
        let lines: Vec<_> = match printed.chosen {
            Some(chosen) => chosen.iter().filter_map(|&at| items.get(at)).collect(),
            None => items.iter().collect(),
        };
        let heading = stage.map_or("For bench, tin and top", |stage| &stage.heading);
        json!({
            "heading": headed.then_some(heading),
            "share": stage.filter(|_| headed).and_then(|stage| stage.share.as_ref()),
            "items": lines.into_iter().map(|item| item.printed(printed.short)).collect::<Vec<_>>(),
            "sum": stage.filter(|_| summed).map(|stage| &stage.sum),
        })
    }

    /// How cups are filled.
    pub(crate) fn cups(&self) -> Value {
        json!(self.cup_note)
    }

    /// A step with its number and its margin.
    pub(crate) fn step(&self, section: usize, at: usize) -> Value {
        json!(self.sections[section].steps[at])
    }

    /// What stands over a section.
    pub(crate) fn heading(&self, section: usize) -> Value {
        json!(self.sections[section].heading)
    }

    /// What stands over a card of a set: its section, that one's share of the flour, the recipe.
    pub(crate) fn banner(&self, section: usize) -> Value {
        const ROOM: usize = 60;
        let heading = &self.sections[section].heading;
        let stage = self.stages.iter().find(|stage| stage.heading == *heading);
        let short = self.name.chars().count() <= ROOM;
        json!({
            "heading": heading,
            "share": stage.and_then(|stage| stage.share.as_ref()),
            "title": if short { &self.title } else { "" },
        })
    }

    /// A paragraph after the steps.
    pub(crate) fn note(&self, at: usize) -> Value {
        json!(self.paragraphs[at])
    }

    /// A caution with its source.
    pub(crate) fn caution(&self, at: usize) -> Value {
        json!(self.cautions[at])
    }

    /// Who paid or gave.
    pub(crate) fn disclosed(&self) -> Value {
        json!(self.disclosure)
    }

    /// What the marks mean.
    pub(crate) fn key(&self) -> Value {
        json!(self.key)
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

    /// The section whose steps are those of a stage.
    pub(crate) fn section_of_stage(&self, stage: usize) -> Option<usize> {
        let heading = &self.stages.get(stage)?.heading;
        let mut sections = self.sections.iter();
        sections.position(|section| section.heading == *heading)
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

    /// Whether rises in other rooms are told.
    pub(crate) fn has_rooms(&self) -> bool {
        !self.rooms.is_empty()
    }

    /// The paragraphs that come after the steps; with `rooms`, those of the rises in other rooms, too. Without, the
    /// last of all stands in their place.
    pub(crate) fn paragraphs(&self, rooms: bool) -> Vec<usize> {
        if !self.has_rooms() {
            return (0..self.paragraphs.len()).collect();
        }
        let last = self.paragraphs.len() - 1;
        let told = if rooms {
            self.rooms.clone()
        } else {
            last..last + 1
        };
        let after = self.rooms.end..last;
        (0..self.rooms.start).chain(told).chain(after).collect()
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

impl Item {
    /// As a row prints it: what is said after the name in one run.
    fn printed(&self, short: bool) -> Value {
        if short {
            let weight = self.grams.as_ref().or(self.measure.as_ref());
            return json!({ "grams": weight, "name": self.name, "said": "" });
        }

        let said: Vec<_> = [&self.detail, &self.place]
            .into_iter()
            .flatten()
            .map(String::as_str)
            .collect();
        json!({
            "grams": self.grams,
            "measure": self.measure,
            "name": self.name,
            "said": said.join(", "),
            "percent": self.percent,
        })
    }
}
