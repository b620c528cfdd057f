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
use numerics::quantity::{Duration, Fraction, Length, Mass, Temperature};
use recipe::measure::read::{
    read_length, read_mass, read_share, read_temperature, read_temperature_difference, read_time,
};
use recipe::source::near as near_word;

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

impl Outcome {
    /// All of them, each with its word.
    pub const WORDS: [(&'static str, Self); 14] = [
        ("well", Self::Well),
        ("risen-too-little", Self::With(Flaw::TooLittleRise)),
        ("risen-too-far", Self::With(Flaw::TooMuchRise)),
        ("greasy", Self::With(Flaw::Greasy)),
        ("dry-dough", Self::With(Flaw::Stiff)),
        ("wet-dough", Self::With(Flaw::Slack)),
        ("too-little-salt", Self::With(Flaw::Bland)),
        ("too-much-salt", Self::With(Flaw::Salty)),
        ("raw", Self::With(Flaw::RawInside)),
        ("pale", Self::With(Flaw::Pale)),
        ("dark", Self::With(Flaw::Dark)),
        ("dense", Self::With(Flaw::Small)),
        ("low-in-tin", Self::With(Flaw::LowInTin)),
        ("over-tin", Self::With(Flaw::OverTin)),
    ];

    /// In a cook's words: "come out well", "have a pale crust".
    pub const fn words(self) -> &'static str {
        match self {
            Self::Well => "everything came out well",
            Self::With(flaw) => flaw.words(),
        }
    }
}

/// Reads what a reader states: `room=17C`, `weighs=no`, `pan=glass`.
///
/// # Errors
/// With what is wrong with it, in a sentence.
pub fn stated(text: &str) -> Result<Stated, String> {
    let Some((key, value)) = text.split_once('=') else {
        return Err(format!(
            "\u{201c}{text}\u{201d} is no fact; write one as in room=17C."
        ));
    };
    let (key, value) = (key.trim(), value.trim());
    let Some(variable) = Variable::named(key) else {
        let names = Variable::ALL.iter().map(|one| one.key());
        let meant = near_word(key, names).map_or_else(String::new, |meant| {
            format!(" Is \u{201c}{meant}\u{201d} meant?")
        });
        return Err(format!(
            "Nothing that differs from kitchen to kitchen is called \u{201c}{key}\u{201d}.{meant}"
        ));
    };
    let example = || {
        let example = match variable.unit() {
            Unit::YesNo => "yes or no",
            Unit::Words => "one of its words",
            Unit::Celsius | Unit::Kelvin => "17C",
            Unit::Gram => "150g",
            Unit::Metre => "1600m",
            Unit::Minute => "10min",
            Unit::Share => "90%",
        };
        format!("\u{201c}{value}\u{201d} is no value of {key}; write it as in {key}={example}.")
    };
    let read = match variable.unit() {
        Unit::YesNo => match value {
            "yes" => Some(1.0),
            "no" => Some(0.0),
            _ => None,
        },
        Unit::Words => {
            let place = variable.choices().iter().position(|word| *word == value);
            place.map(|place| place as f64)
        }
        Unit::Celsius => read_temperature(value).ok().map(Temperature::celsius),
        Unit::Kelvin => {
            let (sign, size) = value
                .strip_prefix(['-', '\u{2212}'])
                .map_or((1.0, value), |size| (-1.0, size));
            read_temperature_difference(size)
                .ok()
                .map(|off| sign * off.si())
        }
        Unit::Gram => read_mass(value).ok().map(Mass::grams),
        Unit::Metre => read_length(value).ok().map(Length::si),
        Unit::Minute => read_time(value).ok().map(Duration::minutes),
        Unit::Share => read_share(value).ok().map(Fraction::si),
    };
    match (read, variable.unit()) {
        (Some(read), _) => Ok((variable, read)),
        (None, Unit::Words) => Err(format!(
            "\u{201c}{value}\u{201d} is no word of {key}; its words are: {}.",
            variable.choices().join(", ")
        )),
        (None, _) => Err(example()),
    }
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
    use super::{Outcome, Z, band, near, stated};
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
    fn facts_are_read_with_their_units_and_others_are_said() {
        let close = |text: &str, value: f64| {
            let (_, read) = stated(text).expect(text);
            assert!((read - value).abs() < 1e-9, "{text}: {read}");
        };
        close("room=17C", 17.0);
        close("room = 63 °F", 155.0 / 9.0);
        close("weighs=no", 0.0);
        close("pan=glass", 2.0);
        close("oven-off=-10 °C", -10.0);
        close("altitude=1600m", 1600.0);
        close("flour-cup=150g", 150.0);
        for (text, part) in [
            ("room", "no fact"),
            ("rooom=17C", "Is “room” meant"),
            ("room=17", "17C"),
            ("weighs=perhaps", "yes or no"),
            ("pan=stone", "light metal, dark metal, glass"),
        ] {
            let said = stated(text).expect_err(text);
            assert!(said.contains(part), "{said}");
        }
    }

    #[test]
    fn every_flaw_has_a_word() {
        for flaw in Flaw::ALL {
            let words = Outcome::WORDS
                .iter()
                .filter(|(_, one)| *one == Outcome::With(flaw));
            assert_eq!(words.count(), 1, "{flaw:?}");
        }
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
