//! Which papers of a recipe that went out say something else now.

use super::{Holds, Paper};
use crate::pdf::wording::Wording;
use edit::ledger::model::Ledger;

impl Paper {
    /// Whether this paper is another one since the ledger changed. Versions and dates in its imprint
    /// do not count: they always change with it.
    pub fn says_otherwise(self, before: &Ledger, after: &Ledger) -> bool {
        match self.holds() {
            Holds::Cards(_) | Holds::Bench(_) => said(before) != said(after),
            Holds::Shopping(_) => before.shopping != after.shopping,
            Holds::BowlLabels(_) => before.bowl_labels != after.bowl_labels,
            Holds::Pattern(kind, _) => {
                let of = |ledger: &Ledger| {
                    let drawn = ledger.patterns.drawn.iter();
                    drawn
                        .filter(|pattern| pattern.kind == kind)
                        .cloned()
                        .collect::<Vec<_>>()
                };
                of(before) != of(after)
            }
        }
    }
}

/// All strings of a sheet.
fn said(ledger: &Ledger) -> Option<serde_json::Value> {
    let mut said = serde_json::to_value(Wording::of(ledger)).ok()?;
    if let Some(said) = said.as_object_mut() {
        said.remove("imprint");
        said.remove("byline");
    }
    Some(said)
}

#[cfg(test)]
mod tests {
    use super::Paper;
    use crate::papers::Sheet;
    use crate::sample;

    #[test]
    fn a_paper_says_otherwise_when_what_is_on_it_changed() {
        let before = sample::ledger();
        let mut after = before.clone();
        after.imprint.push('x');
        assert!(!Paper::CardA5.says_otherwise(&before, &after));
        after.stages[0].items[0].name.push('x');
        assert!(Paper::CardA5.says_otherwise(&before, &after));
        assert!(Paper::BenchLetter.says_otherwise(&before, &after));
        assert!(!Paper::BowlLabels(Sheet::A4).says_otherwise(&before, &after));
    }
}
