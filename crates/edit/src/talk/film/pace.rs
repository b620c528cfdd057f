//! How fast it is said: words a minute, letters a second.
//!
//! A word is what stands between blanks; letters are counted with the blanks between them, as captions are.

use crate::ledger::figure;
use crate::ledger::model::Figure;
use crate::talk::track::Track;
use numerics::decimal::trimmed;
use recipe::provenance::{Had, Origin};
use std::time::Duration;

/// How fast a cue is said.
#[derive(Clone, Debug, PartialEq)]
pub struct Paced {
    /// Which cue.
    pub cue: usize,
    /// How long it lasts.
    pub lasts: Duration,
    /// Words.
    pub words: usize,
    /// Letters, blanks between words counted.
    pub letters: usize,
}

impl Paced {
    /// Words a minute.
    pub fn words_a_minute(&self) -> f64 {
        rate(self.words, self.lasts) * 60.0
    }

    /// Letters a second.
    pub fn letters_a_second(&self) -> f64 {
        rate(self.letters, self.lasts)
    }
}

pub(super) fn rate(many: usize, within: Duration) -> f64 {
    many as f64 / within.as_secs_f64().max(0.001)
}

/// Every cue that has both times.
pub(super) fn paced(track: &Track) -> Vec<Paced> {
    let of = |(at, cue): (usize, &crate::talk::track::Cue)| {
        let lasts = cue.to?.checked_sub(cue.from?)?;
        let words: Vec<&str> = cue.text.split_whitespace().collect();
        let letters: usize = words.iter().map(|word| word.chars().count()).sum();
        Some(Paced {
            cue: at,
            lasts,
            words: words.len(),
            letters: letters + words.len().saturating_sub(1),
        })
    };
    track.cues.iter().enumerate().filter_map(of).collect()
}

/// The pace of the whole and of its fastest cue.
pub(super) fn figures(paced: &[Paced]) -> Vec<Figure> {
    let lasts: Duration = paced.iter().map(|one| one.lasts).sum();
    if lasts.is_zero() {
        return Vec::new();
    }
    let words: usize = paced.iter().map(|one| one.words).sum();
    let letters: usize = paced.iter().map(|one| one.letters).sum();
    let most = |of: fn(&Paced) -> f64| paced.iter().map(of).fold(0.0, f64::max);
    let origin = || Origin::new("counted in the talk", Had::Derived);
    let a_minute = |name: &str, value: f64| {
        let shown = format!("{} words a minute", trimmed(value, 0));
        figure(format!("film.{name}"), value / 60.0, "1/s", shown, origin())
    };
    let a_second = |name: &str, value: f64| {
        let shown = format!("{} letters a second", trimmed(value, 1));
        figure(format!("film.{name}"), value, "1/s", shown, origin())
    };
    vec![
        figure(
            "film.words",
            words as f64,
            "1",
            format!("{words} words"),
            origin(),
        ),
        figure(
            "film.speaks",
            lasts.as_secs_f64(),
            "s",
            crate::talk::track::clock(lasts),
            origin(),
        ),
        a_minute("pace", rate(words, lasts) * 60.0),
        a_minute("pace-most", most(Paced::words_a_minute)),
        a_second("letters", rate(letters, lasts)),
        a_second("letters-most", most(Paced::letters_a_second)),
    ]
}
