//! A dough put into a refrigerator, against a home baker's own readings.

use xtask::validation::doughs::{READINGS, chilled};

/// The readings themselves are no smooth curve (5 K in the hour before 4 h, less than 3 K in the hour
/// before that): what is asked is the right hour, not the right degree.
#[test]
fn three_quarters_of_a_kilogram_cools_overnight() {
    for ((minute, read), found) in READINGS.iter().zip(chilled()) {
        println!("{minute} min: {found:.1} °C worked out, {read} read");
        assert!(
            (found - read).abs() <= 4.0,
            "{minute} min: {found:.1}, {read} read"
        );
    }
}
