//! Words for the papers that are used and not read: shopping lists, labels, patterns.

use super::Sheet;
use crate::shopping::ListSize;
use edit::ledger::model::PatternKind;

/// Short word of a shopping list.
pub(super) const fn shopping_word(size: ListSize) -> &'static str {
    match size {
        ListSize::A5 => "shopping-a5",
        ListSize::A4 => "shopping-a4",
        ListSize::Letter => "shopping-letter",
    }
}

/// What a shopping list is.
pub(super) const fn shopping_said(size: ListSize) -> &'static str {
    match size {
        ListSize::A5 => "shopping list, A5",
        ListSize::A4 => "shopping list, A4",
        ListSize::Letter => "shopping list, letter",
    }
}

/// Short word of a sheet of labels.
pub(super) const fn labels_word(sheet: Sheet) -> &'static str {
    match sheet {
        Sheet::A4 => "labels-a4",
        Sheet::Letter => "labels-letter",
    }
}

/// What a sheet of labels is.
pub(super) const fn labels_said(sheet: Sheet) -> &'static str {
    match sheet {
        Sheet::A4 => "labels for bowls, A4, to cut",
        Sheet::Letter => "labels for bowls, letter, to cut",
    }
}

/// Short word of a pattern.
pub(super) const fn pattern_word(kind: PatternKind, sheet: Sheet) -> &'static str {
    match (kind, sheet) {
        (PatternKind::Lining, Sheet::A4) => "lining-a4",
        (PatternKind::Lining, Sheet::Letter) => "lining-letter",
        (PatternKind::Dough, Sheet::A4) => "dough-a4",
        (PatternKind::Dough, Sheet::Letter) => "dough-letter",
        (PatternKind::Ring, Sheet::A4) => "ring-a4",
        (PatternKind::Ring, Sheet::Letter) => "ring-letter",
        (PatternKind::Level, Sheet::A4) => "level-a4",
        (PatternKind::Level, Sheet::Letter) => "level-letter",
    }
}

/// What a pattern is.
pub(super) const fn pattern_said(kind: PatternKind, sheet: Sheet) -> &'static str {
    match (kind, sheet) {
        (PatternKind::Lining, Sheet::A4) => "tin lining, true size, A4",
        (PatternKind::Lining, Sheet::Letter) => "tin lining, true size, letter",
        (PatternKind::Dough, Sheet::A4) => "dough, true size, A4",
        (PatternKind::Dough, Sheet::Letter) => "dough, true size, letter",
        (PatternKind::Ring, Sheet::A4) => "ring, true size, A4",
        (PatternKind::Ring, Sheet::Letter) => "ring, true size, letter",
        (PatternKind::Level, Sheet::A4) => "strips for the jar, A4",
        (PatternKind::Level, Sheet::Letter) => "strips for the jar, letter",
    }
}
