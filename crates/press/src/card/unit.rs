//! The units that a card is made up of, in reading order: none of them is parted between sides.

use serde_json::{Value, json};

use super::look::Look;
use crate::pdf::wording::{Lines, Wording};

/// What stands on a card in one piece.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Unit {
    /// The template's word for it.
    pub(super) kind: &'static str,
    /// Which one of its kind, counted from nought.
    pub(super) at: usize,
    /// For a step: its section.
    pub(super) section: usize,
    /// For a step: whether its section's heading stands over it.
    pub(super) headed: bool,
    /// For amounts: the lines that are wanted, when not all are.
    pub(super) items: Option<Vec<usize>>,
    /// For amounts: without heading.
    pub(super) bare: bool,
    /// For amounts: how much of a line is printed.
    pub(super) rows: Rows,
    /// For amounts: with their sum.
    pub(super) sum: bool,
    /// Blank above it in points, unless it begins a side.
    pub(super) above: f64,
    /// How much a side's end before it is to be avoided; from nought, welcome, to a thousand, never.
    pub(super) cost: f64,
}

/// How a line of amounts is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rows {
    /// As its card has them: in four columns, or in two where columns are narrow.
    OfCard,
    /// In four columns, though its card has two.
    Wide,
    /// Weight and name alone: the rest has been said on an earlier card.
    Short,
}

/// A side's end that must not be.
pub(super) const NEVER: f64 = 1000.0;

/// Blanks above units, in points.
#[derive(Clone, Copy, Debug)]
pub(super) struct Blanks {
    /// Between two steps.
    pub(super) step: f64,
    /// Above a heading.
    pub(super) heading: f64,
    /// Between other units.
    pub(super) other: f64,
}

impl Unit {
    pub(super) const fn new(kind: &'static str, at: usize, above: f64, cost: f64) -> Self {
        Self {
            kind,
            at,
            section: 0,
            headed: false,
            items: None,
            bare: false,
            rows: Rows::OfCard,
            sum: true,
            above,
            cost,
        }
    }

    /// As the template reads it, with everything that is printed in it.
    pub(super) fn printed(&self, look: &Look, wording: &Wording) -> Value {
        let at = self.at;
        let amounts = |stage| {
            let short = self.rows == Rows::Short;
            let lines = Lines {
                chosen: self.items.as_deref(),
                short,
            };
            wording.amounts(stage, lines, !self.bare, self.sum)
        };
        let content = match self.kind {
            "title" => wording.title_line(),
            "facts" => wording.facts(look.facts, look.facts_column_em()),
            "contains" => wording.contains(),
            "kit" => wording.kit(),
            "stage" => amounts(Some(at)),
            "besides" => amounts(None),
            "cups" => wording.cups(),
            "step" => wording.step(self.section, at),
            "banner" => wording.banner(at),
            "note" => wording.note(at),
            "caution" => wording.caution(at),
            "disclosure" => wording.disclosed(),
            "key" => wording.key(),
            _ => Value::Null,
        };
        json!({
            "kind": self.kind,
            "above": self.above,
            "bare": self.bare,
            "wide": self.rows == Rows::Wide,
            "heading": self.headed.then(|| wording.heading(self.section)),
            "content": content,
        })
    }

    /// Whether it is a part of the table of amounts.
    pub(super) fn is_amount(&self) -> bool {
        matches!(self.kind, "stage" | "besides")
    }
}

/// Title and facts.
pub(super) fn title(wording: &Wording, blanks: &Blanks) -> Vec<Unit> {
    let mut units = vec![Unit::new("title", 0, 0.0, NEVER)];
    if wording.has_facts() {
        units.push(Unit::new("facts", 0, blanks.heading * 0.8, NEVER));
    }
    units
}

/// Allergens and kit.
pub(super) fn before(wording: &Wording, blanks: &Blanks) -> Vec<Unit> {
    let mut units = vec![Unit::new("contains", 0, blanks.heading * 0.8, 20.0)];
    if wording.has_kit() {
        units.push(Unit::new("kit", 0, blanks.other, 20.0));
    }
    units
}

/// The table of amounts, a unit for each stage, and the line about cups.
pub(super) fn amounts(wording: &Wording, blanks: &Blanks) -> Vec<Unit> {
    let mut units: Vec<_> = (0..wording.stages())
        .map(|at| Unit::new("stage", at, 0.0, 3.0))
        .collect();
    if wording.has_besides() {
        units.push(Unit::new("besides", 0, 0.0, 4.0));
    }
    if let Some(first) = units.first_mut() {
        first.above = blanks.heading * 0.8;
        first.cost = 2.0;
    }
    if wording.has_cup_note() {
        units.push(Unit::new("cups", 0, blanks.other, 30.0));
    }
    units
}

/// The steps, each section's heading with its first.
pub(super) fn steps(wording: &Wording, blanks: &Blanks) -> Vec<Unit> {
    let mut units = vec![];
    for (section, count) in wording.steps_of_sections().into_iter().enumerate() {
        for at in 0..count {
            let headed = at == 0;
            // Before the first step of all a side's end is most welcome, then between sections.
            let (above, cost) = match (headed, section) {
                (true, 0) => (blanks.heading, 0.0),
                (true, _) => (blanks.heading, 0.6),
                // A heading with one step under it, or one step left over, looks lost.
                (false, _) if at == 1 || at + 1 == count => (blanks.step, 5.0),
                (false, _) => (blanks.step, 3.0),
            };
            let mut unit = Unit::new("step", at, above, cost);
            unit.section = section;
            unit.headed = headed;
            units.push(unit);
        }
    }
    units
}

/// Everything after the steps; `rooms`: with the rises in other rooms.
pub(super) fn after(wording: &Wording, blanks: &Blanks, rooms: bool) -> Vec<Unit> {
    let mut units = vec![];
    for at in wording.paragraphs(rooms) {
        units.push(Unit::new("note", at, blanks.other, 3.0));
    }
    for at in 0..wording.cautions() {
        units.push(Unit::new("caution", at, blanks.other, 3.0));
    }
    if wording.has_disclosure() {
        units.push(Unit::new("disclosure", 0, blanks.other, 3.0));
    }
    if wording.has_key() {
        units.push(Unit::new("key", 0, blanks.other * 2.0, 20.0));
    }
    if let Some(first) = units.first_mut() {
        first.cost = NEVER;
        units.insert(0, Unit::new("rule", 0, blanks.heading, 1.0));
    }
    units
}
