//! What the sentences use of one item, and whether that comes to the whole.

use super::Finding;
use crate::document::model::{Amount, Item};
use crate::document::placeholder::Part;
use crate::source::{Diagnostic, Span, code};
use numerics::decimal::trimmed;

/// Of a whole, so much may be lost in rounding: a hundredth, or half a gram.
const ALLOWED_SHARE: f64 = 0.01;
const ALLOWED_G: f64 = 0.5;

/// One use of an item.
#[derive(Clone, Debug)]
pub struct Use {
    /// How much.
    pub part: Part,
    /// Where.
    pub span: Span,
}

/// Every use of one item, in the order of the sentences.
#[derive(Clone, Debug, Default)]
pub struct Tally {
    /// The uses.
    pub uses: Vec<Use>,
}

/// What a part is measured in, so that parts can be added.
#[derive(Clone, Copy, PartialEq)]
enum Unit {
    Gram,
    Millilitre,
    Count,
    Share,
}

impl Unit {
    /// A value as a message prints it.
    fn shown(self, value: f64) -> String {
        match self {
            Self::Gram => format!("{} g", trimmed(value, 1)),
            Self::Millilitre => format!("{} mL", trimmed(value, 1)),
            Self::Count => trimmed(value, 2),
            Self::Share => format!("{} %", trimmed(value * 100.0, 1)),
        }
    }
}

/// An amount in a unit in which it can be added to others like it.
fn measured(amount: &Amount) -> (Unit, f64) {
    match amount {
        Amount::Mass(mass) => (Unit::Gram, mass.grams()),
        Amount::Measures(spooned) => {
            let all = spooned
                .iter()
                .map(|s| s.measure.volume().millilitres() * s.count)
                .sum();
            (Unit::Millilitre, all)
        }
        Amount::Count { count, .. } => (Unit::Count, *count),
    }
}

impl Tally {
    /// Says what does not come to the whole.
    pub fn judge(&self, item: &Item, nobody: &str, say_unused: bool, finding: &mut Finding) {
        let name = item.called();
        if name.is_empty() {
            return;
        }
        if self.uses.is_empty() {
            if say_unused {
                let place = item
                    .on
                    .as_ref()
                    .map_or(String::new(), |on| format!(" for the {}", on.value.word()));
                finding.said.push(
                    Diagnostic::at(
                        code::ITEM_NEVER_USED,
                        item.span,
                        format!("“{name}”{place} is listed, and {nobody} uses it."),
                    )
                    .hint(format!(
                        "Write [{name}{place}] in the sentence in which it goes in."
                    )),
                );
            }
            return;
        }
        let whole = self.uses.iter().filter(|u| u.part == Part::Whole).count();
        if whole > 0 {
            if self.uses.len() > 1 {
                let second = self.uses[1].span;
                finding.said.push(
                    Diagnostic::at(
                        code::ITEM_USED_TWICE,
                        second,
                        format!("“{name}” goes in whole, and it is used more than once."),
                    )
                    .label(self.uses[0].span, "used first")
                    .hint(format!("Say how much each time, as in [half of the {name}], or write [the {name}] where only the name is meant.")),
                );
            }
            return;
        }
        self.parts(item, finding);
    }

    /// Parts and the rest.
    fn parts(&self, item: &Item, finding: &mut Finding) {
        let name = item.called();
        let rests: Vec<usize> = (0..self.uses.len())
            .filter(|n| self.uses[*n].part == Part::Rest)
            .collect();
        let not_whole = |span: Span, message: String| {
            Diagnostic::at(code::PARTS_DO_NOT_ADD_UP, span, message).label(item.span, "all of it")
        };
        if let Some(&rest) = rests.first()
            && rest + 1 < self.uses.len()
        {
            finding.said.push(
                not_whole(
                    self.uses[rest + 1].span,
                    format!("The rest of “{name}” has gone in before this; nothing is left."),
                )
                .hint("Write the rest where the last of it goes in."),
            );
            return;
        }
        let Some((unit, total, sum)) = self.sum(item) else {
            return;
        };
        let allowed = (total * ALLOWED_SHARE).max(if unit == Unit::Gram { ALLOWED_G } else { 0.0 });
        let last = self.uses.last().map_or(item.span, |u| u.span);
        let (all, used) = (unit.shown(total), unit.shown(sum));
        if sum > total + allowed {
            finding.said.push(
                not_whole(
                    last,
                    format!("The sentences use {used} of “{name}”; there is {all} of it."),
                )
                .hint(format!(
                    "Take {} out of a sentence, or list more.",
                    unit.shown(sum - total)
                )),
            );
        } else if rests.is_empty() && sum < total - allowed {
            let left = unit.shown(total - sum);
            finding.said.push(
                not_whole(
                    last,
                    format!("The sentences use {used} of “{name}”; of {all}, {left} is left over."),
                )
                .hint(format!("Write the last part as [the rest of the {name}].")),
            );
        } else if !rests.is_empty() && sum >= total - allowed {
            finding.said.push(
                not_whole(
                    last,
                    format!("The parts before this are all of “{name}”; there is no rest."),
                )
                .hint("Make one of the parts smaller, or take the rest out."),
            );
        }
    }

    /// All of the item and the sum of its parts, in one unit; none when they cannot be compared
    /// without knowing what a cup of it weighs.
    fn sum(&self, item: &Item) -> Option<(Unit, f64, f64)> {
        let total = item.take.as_ref().map(|take| measured(&take.value));
        let only_shares = self
            .uses
            .iter()
            .all(|u| matches!(u.part, Part::Fraction(_) | Part::Rest));
        let (unit, total) = match total {
            Some(known) if !only_shares => known,
            _ if only_shares => (Unit::Share, 1.0),
            _ => return None,
        };
        let mut sum = 0.0;
        for one in &self.uses {
            sum += match &one.part {
                Part::Fraction(share) => share * total,
                Part::Mass(mass) if unit == Unit::Gram => mass.grams(),
                Part::Amount(amount) if measured(amount).0 == unit => measured(amount).1,
                Part::Rest => 0.0,
                _ => return None,
            };
        }
        Some((unit, total, sum))
    }
}
