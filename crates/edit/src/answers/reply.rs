//! A reply while it is written: its sentences, and each figure in them with where it comes from.

use super::list::Question;
use super::{Answer, Cause};
use crate::ledger::model::Figure;
use crate::ledger::{figure, say};
use numerics::decimal::{fixed, round_to, trimmed};
use numerics::quantity::{Duration, Fraction, Mass, Range, Temperature, Volume};
use recipe::provenance::{Had, Origin};

/// A figure that is worked out from the recipe's own amounts.
pub fn here() -> Origin {
    Origin::new("the recipe's own amounts", Had::Derived)
}

/// A figure that the simulator gives.
pub fn reckoned() -> Origin {
    Origin::new(
        "the author's time in proportion to what is reckoned, docs/answers.md",
        Had::Derived,
    )
}

/// A figure that is worked out of the heat of the mix.
pub fn balance() -> Origin {
    Origin::new("the heat of the mix, docs/models/mix.md", Had::Derived)
}

/// A figure of the dough or the bread as the simulator follows it.
pub fn followed() -> Origin {
    Origin::new(
        "the recipe followed through this kitchen, docs/happens.md",
        Had::Derived,
    )
}

/// A habit of the trade.
pub fn habit() -> Origin {
    Origin::new("habit of bakers", Had::CommonPractice)
}

/// Written by the author or said by the one who asks.
pub fn written() -> Origin {
    Origin::new("the recipe, or the one who asks", Had::Written)
}

/// What somebody quotes of a source.
pub fn quoted(source: &str) -> Origin {
    Origin::new(source, Had::SecondHand)
}

/// From memory.
pub fn memory(source: &str) -> Origin {
    Origin::new(source, Had::FromMemory)
}

/// A reply while it is written.
pub struct Reply {
    place: &'static str,
    sentences: Vec<String>,
    more: Vec<String>,
    figures: Vec<Figure>,
    rests_on: Vec<String>,
    pub(super) changes: Vec<String>,
    pub(super) causes: Vec<Cause>,
    refused: bool,
}

impl Reply {
    /// An empty reply to a question.
    pub const fn new(place: &'static str) -> Self {
        Self {
            place,
            sentences: Vec::new(),
            more: Vec::new(),
            figures: Vec::new(),
            rests_on: Vec::new(),
            changes: Vec::new(),
            causes: Vec::new(),
            refused: false,
        }
    }

    /// Adds a sentence.
    pub fn say(&mut self, sentence: impl Into<String>) {
        self.sentences
            .push(say::units_kept(&say::capital(&sentence.into())));
    }

    /// Adds a sentence to what stands under the reply: what need not be pasted.
    pub fn more(&mut self, sentence: impl Into<String>) {
        self.more
            .push(say::units_kept(&say::capital(&sentence.into())));
    }

    /// Says why no figure is honest.
    pub fn refuse(&mut self, why: impl Into<String>) {
        self.refused = true;
        self.say(why);
    }

    /// Adds what it rests on besides its figures.
    pub fn rests(&mut self, on: impl Into<String>) {
        let on = say::units_kept(&on.into());
        if !self.rests_on.contains(&on) {
            self.rests_on.push(on);
        }
    }

    /// Adds a figure and gives back its string.
    pub fn put(
        &mut self,
        what: &str,
        value: f64,
        unit: &'static str,
        shown: String,
        origin: Origin,
    ) -> String {
        let name = format!("answer.{}.{what}", self.place);
        // A figure that several sentences name is one figure.
        let made = figure(name, value, unit, shown, origin);
        let shown = made.shown.clone();
        let taken = self.figures.iter().any(|one| one.name == made.name);
        if taken {
            let count = self
                .figures
                .iter()
                .filter(|one| one.name.starts_with(&made.name))
                .count();
            let same = self
                .figures
                .iter()
                .any(|one| one.name.starts_with(&made.name) && one.shown == made.shown);
            if !same {
                let name = format!("{}.{}", made.name, count + 1);
                self.figures.push(Figure { name, ..made });
            }
        } else {
            self.figures.push(made);
        }
        shown
    }

    /// A mass.
    pub fn mass(&mut self, what: &str, mass: Mass, origin: Origin) -> String {
        self.put(what, mass.si(), Mass::SI, say::mass(mass), origin)
    }

    /// A temperature in both scales.
    pub fn temperature(&mut self, what: &str, at: Temperature, origin: Origin) -> String {
        self.put(what, at.si(), Temperature::SI, say::temperature(at), origin)
    }

    /// From one temperature to another, in both scales.
    pub fn band(&mut self, what: &str, low_c: f64, high_c: f64, origin: Origin) -> String {
        let range = Range {
            low: Temperature::from_celsius(low_c),
            high: Temperature::from_celsius(high_c),
        };
        let shown = say::temperature_range(range);
        self.put(what, range.high.si(), Temperature::SI, shown, origin)
    }

    /// An oven's dial.
    pub fn dial(&mut self, what: &str, at: Temperature, origin: Origin) -> String {
        self.put(what, at.si(), Temperature::SI, say::oven(at), origin)
    }

    /// A time that is told as it is.
    pub fn time(&mut self, what: &str, time: Duration, origin: Origin) -> String {
        self.put(what, time.si(), Duration::SI, say::duration(time), origin)
    }

    /// From one time to another.
    pub fn times_between(&mut self, what: &str, low: f64, high: f64, origin: Origin) -> String {
        let range = Range {
            low: Duration::from_minutes(low),
            high: Duration::from_minutes(high),
        };
        let shown = say::duration_range(range);
        self.put(what, range.high.si(), Duration::SI, shown, origin)
    }

    /// A share in per cent with one decimal where it is needed.
    pub fn percent(&mut self, what: &str, share: f64, origin: Origin) -> String {
        let shown = say::percent(Fraction::from_si(round_to(share, 0.001)));
        self.put(what, share, "1", shown, origin)
    }

    /// A share in whole per cent: what the simulator gives is no finer.
    pub fn percent_whole(&mut self, what: &str, share: f64, origin: Origin) -> String {
        let shown = say::percent_whole(Fraction::from_si(share));
        self.put(what, share, "1", shown, origin)
    }

    /// "1.9 times".
    pub fn multiple(&mut self, what: &str, times: f64, origin: Origin) -> String {
        let shown = say::times(round_to(times, 0.05));
        self.put(what, times, "1", shown, origin)
    }

    /// A volume in millilitres.
    pub fn volume(&mut self, what: &str, volume: Volume, origin: Origin) -> String {
        let shown = say::tin_volume(volume, None);
        self.put(what, volume.si(), Volume::SI, shown, origin)
    }

    /// "2.29 mL/g".
    pub fn room_for(&mut self, what: &str, ml_per_g: f64, origin: Origin) -> String {
        let shown = format!("{}{}mL/g", fixed(ml_per_g, 2), say::NBSP);
        // A millilitre for each gram is a thousandth of a cubic metre for each kilogram.
        self.put(what, ml_per_g * 1e-3, "m3/kg", shown, origin)
    }

    /// A plain number with its word after it: "2 mixes".
    pub fn count(&mut self, what: &str, count: f64, word: &str, origin: Origin) -> String {
        let shown = format!("{}{}{word}", trimmed(count, 2), say::NBSP);
        self.put(what, count, "1", shown, origin)
    }

    /// The answer.
    pub fn finish(self, question: &Question) -> Answer {
        let mut sources: Vec<Origin> = Vec::new();
        for one in &self.figures {
            if !sources.contains(&one.origin) {
                sources.push(one.origin.clone());
            }
        }
        Answer {
            name: question.name,
            asks: question.asks,
            about: question.about,
            reply: self.sentences.join(" "),
            more: self.more,
            changes: self.changes,
            causes: self.causes,
            figures: self.figures,
            rests_on: self.rests_on,
            sources,
            refused: self.refused,
        }
    }
}
