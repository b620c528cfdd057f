//! The bench log's words: how long a step took and what was read, beside what was expected.

use crate::ledger::say;
use numerics::decimal::round_to;
use numerics::quantity::{Duration, TemperatureDifference};
use plan::under_way::{Manner, Piece};

/// How long a step took, beside what was expected.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Took {
    /// "48 min".
    pub took: String,
    /// "55 min"; none for what hands do in their own time.
    pub expected: Option<String>,
    /// "10 min sooner", where a cook notices it.
    pub differs: Option<String>,
}

/// Says how long a step took. A cook notices 10 min and a twelfth of a rise, 2 min and a twentieth of a bake
/// (common practice).
pub fn took(piece: &Piece, began: Duration, ended: Duration) -> Took {
    let took = ended - began;
    let usual = piece.length.usual;
    let (least, share) = if piece.oven.is_some() {
        (2.0, 20.0)
    } else {
        (10.0, 12.0)
    };
    let apart = Duration::from_minutes(round_to((took - usual).minutes(), 1.0));
    let notices = apart.abs().minutes() >= least && apart.abs() >= usual * (1.0 / share);
    let waits = piece.manner == Manner::Waits;
    Took {
        took: say::duration(took),
        expected: waits.then(|| say::duration(usual)),
        differs: (waits && notices).then(|| {
            let way = if apart < Duration::ZERO {
                "sooner"
            } else {
                "longer"
            };
            format!("{} {way}", say::duration(apart.abs()))
        }),
    }
}

/// A thermometer's reading beside what was expected there: "as expected", "2 °C warmer than expected". A
/// reading within a degree is as expected: probes are sold as right to 1 °C (from memory).
pub fn read_beside(celsius: f64, expected: i32) -> String {
    let apart = round_to(celsius - f64::from(expected), 1.0);
    if apart.abs() <= 1.0 {
        return "as expected".to_owned();
    }
    let way = if apart < 0.0 { "cooler" } else { "warmer" };
    let apart = TemperatureDifference::from_si(apart.abs());
    format!("{} {way} than expected", say::difference(apart))
}

#[cfg(test)]
mod tests {
    use super::{read_beside, took};
    use numerics::quantity::Duration;
    use plan::under_way::pieces;
    use recipe::document::read_recipe;

    const LOAF: &str = include_str!("../../../../../examples/same-day-loaf.toml");

    fn plain(text: &str) -> String {
        text.replace('\u{a0}', " ")
    }

    #[test]
    fn what_was_read_stands_beside_what_was_expected() {
        assert_eq!(read_beside(26.0, 27), "as expected");
        assert_eq!(plain(&read_beside(24.0, 27)), "3 °C cooler than expected");
        let recipe = read_recipe(LOAF).output.expect("it reads");
        let pieces = pieces(&recipe, |_| None);
        let minutes = Duration::from_minutes;
        // The rise of the sponge is written with 55 min, the bake of the braid with 36.
        let rise = took(&pieces[2], minutes(10.0), minutes(50.0));
        assert_eq!(
            rise.differs.as_deref().map(plain).as_deref(),
            Some("15 min sooner")
        );
        assert_eq!(took(&pieces[2], minutes(10.0), minutes(60.0)).differs, None);
        let bake = took(&pieces[14], minutes(0.0), minutes(38.0));
        assert_eq!(
            bake.differs.as_deref().map(plain).as_deref(),
            Some("2 min longer")
        );
        assert_eq!(
            took(&pieces[10], minutes(0.0), minutes(30.0)).expected,
            None
        );
    }
}
