//! Checks of the plain text: the whole of it, its width, and its two columns.

use super::text;
use crate::sample;

#[test]
fn the_sample_at_eighty_columns() {
    insta::assert_snapshot!(text(&sample::ledger(), 80));
}

#[test]
fn the_sample_on_a_narrow_terminal() {
    insta::assert_snapshot!(text(&sample::ledger(), 48));
}

#[test]
fn no_line_is_wider_than_asked() {
    for width in [40, 48, 64, 80, 120] {
        for line in text(&sample::ledger(), width).lines() {
            assert!(line.chars().count() <= width, "{width}: {line}");
            assert_eq!(line, line.trim_end());
        }
    }
}

#[test]
fn below_forty_it_is_forty_wide() {
    assert_eq!(text(&sample::ledger(), 0), text(&sample::ledger(), 40));
}
