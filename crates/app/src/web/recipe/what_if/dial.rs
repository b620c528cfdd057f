//! A dial: its name, its unit, its range, where it stands by itself, and how what is asked of it is read.

use edit::ledger::say::{percent_whole, temperature};
use numerics::decimal::trimmed;
use numerics::quantity::{Fraction, Temperature};
use recipe::document::KitchenValue;
use recipe::measure::Market;
use recipe::measure::read::read_temperature;

/// What a dial sets.
#[derive(Clone, Copy, Debug)]
pub enum Sets {
    /// A value of the kitchen.
    Kitchen(fn(f64) -> KitchenValue),
    /// The temperature of every flour without one of its own.
    FlourAt,
    /// The temperature of an item: its stage and its place there.
    ItemAt(usize, usize),
    /// The protein of every white flour, in hundredths.
    Protein,
    /// What the yeast still does, in hundredths.
    Yeast,
    /// The mass of every piece, in hundredths of the written one.
    Piece,
}

/// The scale in which temperatures are turned.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Scale {
    /// Celsius.
    #[default]
    Celsius,
    /// Fahrenheit, for readers in the United States.
    Fahrenheit,
}

impl Scale {
    /// The scale of the readers for whom a page is worked out.
    pub fn of(readers: Option<Market>) -> Self {
        match readers {
            Some(Market::UnitedStates) => Self::Fahrenheit,
            _ => Self::Celsius,
        }
    }
}

/// A figure that can be turned.
#[derive(Clone, Debug)]
pub struct Dial {
    /// Its name in the address.
    pub name: &'static str,
    /// "Room".
    pub label: String,
    /// Its own unit, "°C"; [`Dial::unit_shown`] is the reader's.
    pub unit: &'static str,
    /// In which scale it is shown and read, where it is a temperature.
    pub scale: Scale,
    /// The least that can be asked.
    pub low: f64,
    /// The most.
    pub high: f64,
    /// From one to the next.
    pub step: f64,
    /// Where it stands when nobody turns it.
    pub own: f64,
    /// What it sets.
    pub sets: Sets,
}

/// What belongs together.
pub struct Group {
    /// "Room and places".
    pub called: &'static str,
    /// Its dials.
    pub dials: Vec<Dial>,
}

impl Dial {
    /// Whether it is shown and read in Fahrenheit.
    fn in_fahrenheit(&self) -> bool {
        self.unit == "°C" && self.scale == Scale::Fahrenheit
    }

    /// Whether it is a difference between two temperatures.
    fn is_difference(&self) -> bool {
        matches!(self.name, "oven" | "swing" | "short")
    }

    /// What is added in Fahrenheit.
    fn nought(&self) -> f64 {
        if self.is_difference() { 0.0 } else { 32.0 }
    }

    /// A value in the reader's scale.
    pub fn shown(&self, value: f64) -> f64 {
        if self.in_fahrenheit() {
            value * 1.8 + self.nought()
        } else {
            value
        }
    }

    /// A figure of the reader's scale as the dial has it.
    fn meant(&self, shown: f64) -> f64 {
        if self.in_fahrenheit() {
            (shown - self.nought()) / 1.8
        } else {
            shown
        }
    }

    /// The reader's unit: "°F".
    pub fn unit_shown(&self) -> &'static str {
        if self.in_fahrenheit() {
            "°F"
        } else {
            self.unit
        }
    }

    /// From one figure to the next, in the reader's scale: whole degrees Fahrenheit.
    pub fn step_shown(&self) -> f64 {
        if self.in_fahrenheit() { 1.0 } else { self.step }
    }

    /// The least and the most that can be asked, as figures of the reader's scale that lie within.
    pub fn reach(&self) -> (f64, f64) {
        let (low, high) = (self.shown(self.low), self.shown(self.high));
        if self.in_fahrenheit() {
            (low.ceil(), high.floor())
        } else {
            (low, high)
        }
    }

    /// A value as a figure of the reader's scale.
    pub fn figure(&self, value: f64) -> String {
        trimmed(self.shown(value), usize::from(self.step_shown() < 1.0))
    }

    /// A figure in words, in both scales where it is a temperature.
    pub fn words(&self, value: f64) -> String {
        match self.unit {
            "°C" if !self.is_difference() => temperature(Temperature::from_celsius(value)),
            "%" => percent_whole(Fraction::from_percent(value)),
            "" => self.figure(value),
            _ => format!("{}\u{a0}{}", self.figure(value), self.unit_shown()),
        }
    }

    /// "10–40 °C".
    pub fn range(&self) -> String {
        let unit = if self.unit.is_empty() {
            String::new()
        } else {
            format!("\u{a0}{}", self.unit_shown())
        };
        let (low, high) = self.reach();
        let figure = |shown: f64| trimmed(shown, usize::from(self.step_shown() < 1.0));
        if low < 0.0 {
            return format!("−{} to {}{unit}", figure(-low), figure(high));
        }
        format!("{}–{}{unit}", figure(low), figure(high))
    }

    /// Reads what was asked: none where it stands by itself; what cannot be is said.
    pub fn read(&self, words: &str) -> Result<Option<f64>, String> {
        let words = words.trim();
        if words.is_empty() {
            return Ok(None);
        }
        let bare = words.trim_end_matches(self.unit_shown()).trim();
        let bare = bare.replace(',', ".").replace('−', "-");
        let value = match bare.parse::<f64>() {
            Ok(value) => Some(self.meant(value)),
            // "64F" and "18C" are understood where a temperature is wanted.
            Err(_) if self.unit == "°C" => read_temperature(words).ok().map(Temperature::celsius),
            Err(_) => None,
        };
        let wanted = || format!("{} is {}.", self.label, self.range());
        let value = value.ok_or_else(|| format!("“{words}” is no figure. {}", wanted()))?;
        // Figures of another scale meet the ends to a hair.
        let hair = 1e-9;
        if !(self.low - hair..=self.high + hair).contains(&value) {
            return Err(format!("“{words}” is not in reach here. {}", wanted()));
        }
        let far = (value - self.own).abs() > self.step / 100.0;
        // What the field shows by itself is untouched, rounded as it is.
        let turned = far && self.figure(value) != self.figure(self.own);
        Ok(turned.then_some(value.clamp(self.low, self.high)))
    }
}
