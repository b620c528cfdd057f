//! One reader's bake among the kitchens that were drawn: of those that are like theirs, how many came out as theirs did.
//!
//! # Relation
//! share = k/n; its band (Wilson) has the ends (k + z²/2 ± z sqrt(k (n - k)/n + z²/4))/(n + z²).
//!
//! # Symbols
//! n, kitchens like the one that is told of; k, those among them with the same outcome; z, 1.2816: the band holds
//! eight of ten.
//!
//! # Valid for
//! Any n; none, and nothing is said.
//!
//! # Source
//! Wilson 1927, J. Am. Stat. Assoc. 22:209 (from memory). How near is like: common practice.
//!
//! # Departures
//! Drawn kitchens lie more evenly than by chance, so the band is wider than need be.
//!
//! # Checked by
//! The tests below.

use super::audience::Audience;
use super::judge::Flaw;
use super::tally::Row;
use super::variable::{Unit, Variable};

/// Something that a reader says of their kitchen: a variable and its value, in its own unit; yes is 1; of words, which
/// of its choices.
pub type Stated = (Variable, f64);

/// What came out, as a reader tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// All of it came out well.
    Well,
    /// Something was wrong with any of the products.
    With(Flaw),
}

/// Kitchens like one that somebody tells of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Near {
    /// How many of those drawn are like it.
    pub kitchens: usize,
    /// How many of these came out so.
    pub so: usize,
    /// Their share, and the band that holds eight of ten; none without kitchens.
    pub share: Option<(f64, f64, f64)>,
}

/// Normal score of nine of ten.
const Z: f64 = 1.281_551_565_5;

/// How near a value must be in its unit to count as like (common practice: what a reader can tell).
const fn like(unit: Unit) -> f64 {
    match unit {
        Unit::YesNo | Unit::Words => 0.5,
        Unit::Celsius => 1.5,
        Unit::Gram => 6.0,
        Unit::Metre => 200.0,
        Unit::Kelvin | Unit::Minute => 5.0,
        Unit::Share => 0.07,
    }
}

/// Of the kitchens that are like the one told of, how many came out so.
pub fn near(rows: &[Row], audience: &Audience, stated: &[Stated], outcome: Outcome) -> Near {
    let is_like = |row: &&Row| {
        stated.iter().all(|(variable, value)| {
            let varied = audience.of(*variable);
            let at = row.at[variable.place()];
            let which = varied
                .words
                .get(varied.distribution.which(at))
                .copied()
                .flatten();
            // Who has only a word for it has no figure, and the other way round.
            let own = match (variable.unit(), which) {
                (Unit::Words, Some(which)) => which as f64,
                (Unit::Words, None) | (_, Some(_)) => return false,
                (_, None) => varied.distribution.quantile(at),
            };
            (own - value).abs() <= like(variable.unit())
        })
    };
    let came_so = |row: &&Row| match outcome {
        Outcome::Well => row.well(),
        Outcome::With(flaw) => row.flaws.iter().any(|set| set & flaw.bit() != 0),
    };
    let alike: Vec<&Row> = rows.iter().filter(is_like).collect();
    let so = alike.iter().filter(|row| came_so(row)).count();
    Near {
        kitchens: alike.len(),
        so,
        share: band(so, alike.len()),
    }
}

/// A share, and the ends of its band.
fn band(so: usize, of: usize) -> Option<(f64, f64, f64)> {
    if of == 0 {
        return None;
    }
    let (k, n) = (so as f64, of as f64);
    let middle = k + 0.5 * Z * Z;
    let half = Z * (k * (n - k) / n + 0.25 * Z * Z).sqrt();
    let end = |sum: f64| (sum / (n + Z * Z)).clamp(0.0, 1.0);
    Some((k / n, end(middle - half), end(middle + half)))
}

#[cfg(test)]
mod tests {
    use super::{Outcome, Z, band, near};
    use crate::kitchens::audience::ready;
    use crate::kitchens::judge::Flaw;
    use crate::kitchens::met::met;
    use crate::kitchens::tally::Row;
    use crate::kitchens::variable::Variable;

    /// Kitchens in which a cold room makes a bread that has risen too little, and nothing else does.
    fn rows() -> Vec<Row> {
        let audience = ready("common").expect("ready");
        let row = |number| {
            let met = met(&audience, 3, number, &[]);
            let cold = met.value(Variable::Room) < 20.0;
            Row {
                number,
                flaws: vec![if cold { Flaw::TooLittleRise.bit() } else { 0 }],
                at: met.at,
                causes: Vec::new(),
                took_s: Vec::new(),
                past_lines: 0,
                dough_celsius: None,
                flour: 1.0,
                hydration: 0.6,
                salt: 0.018,
            }
        };
        (0..2000).map(row).collect()
    }

    #[test]
    fn kitchens_like_a_cold_one_have_its_flaw_and_those_like_a_warm_one_have_not() {
        let (audience, rows) = (ready("common").expect("ready"), rows());
        let told = |room: f64, outcome| near(&rows, &audience, &[(Variable::Room, room)], outcome);
        let cold = told(18.0, Outcome::With(Flaw::TooLittleRise));
        assert!(cold.kitchens > 100 && cold.so == cold.kitchens, "{cold:?}");
        let warm = told(23.0, Outcome::Well);
        assert!(warm.kitchens > 100 && warm.so == warm.kitchens, "{warm:?}");
        let fewer = near(
            &rows,
            &audience,
            &[(Variable::Room, 18.0), (Variable::HasProbe, 1.0)],
            Outcome::Well,
        );
        assert!(fewer.kitchens < cold.kitchens && fewer.kitchens > 0);
    }

    #[test]
    fn the_band_is_where_the_score_test_turns() {
        // At its ends |k/n - p| = z sqrt(p (1 - p)/n), which is what Wilson solved.
        for (k, n) in [(3, 20), (0, 7), (50, 60)] {
            let (share, low, high) = band(k, n).expect("some");
            for p in [low, high].into_iter().filter(|p| *p > 0.0) {
                let score = (share - p).abs() / (p * (1.0 - p) / n as f64).sqrt();
                assert!((score - Z).abs() < 1e-9, "{k} of {n}: {score}");
            }
        }
        assert_eq!(band(0, 0), None);
    }
}
