//! A dial: its name, its unit, its range, where it stands by itself, and how what is asked of it is read.

use edit::ledger::say::{percent_whole, temperature};
use numerics::decimal::trimmed;
use numerics::quantity::{Fraction, Temperature};
use recipe::document::KitchenValue;
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

/// A figure that can be turned.
#[derive(Clone, Debug)]
pub struct Dial {
    /// Its name in the address.
    pub name: &'static str,
    /// "Room".
    pub label: String,
    /// "°C".
    pub unit: &'static str,
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
    /// Decimals of its figures.
    pub fn figure(&self, value: f64) -> String {
        trimmed(value, usize::from(self.step < 1.0))
    }

    /// A figure in words, in both scales where it is a temperature.
    pub fn words(&self, value: f64) -> String {
        match self.unit {
            "°C" if !matches!(self.name, "oven" | "swing" | "short") => {
                temperature(Temperature::from_celsius(value))
            }
            "%" => percent_whole(Fraction::from_percent(value)),
            "" => self.figure(value),
            unit => format!("{}\u{a0}{unit}", self.figure(value)),
        }
    }

    /// "10–40 °C".
    pub fn range(&self) -> String {
        let unit = if self.unit.is_empty() {
            String::new()
        } else {
            format!("\u{a0}{}", self.unit)
        };
        if self.low < 0.0 {
            let (low, high) = (self.figure(-self.low), self.figure(self.high));
            return format!("−{low} to {high}{unit}");
        }
        format!("{}–{}{unit}", self.figure(self.low), self.figure(self.high))
    }

    /// Reads what was asked: none where it stands by itself; what cannot be is said.
    pub fn read(&self, words: &str) -> Result<Option<f64>, String> {
        let words = words.trim();
        if words.is_empty() {
            return Ok(None);
        }
        let bare = words.trim_end_matches(self.unit).trim();
        let bare = bare.replace(',', ".").replace('−', "-");
        let value = match bare.parse::<f64>() {
            Ok(value) => Some(value),
            // "64F" is understood where a temperature is wanted.
            Err(_) if self.unit == "°C" => read_temperature(words).ok().map(Temperature::celsius),
            Err(_) => None,
        };
        let wanted = || format!("{} is {}.", self.label, self.range());
        let value = value.ok_or_else(|| format!("“{words}” is no figure. {}", wanted()))?;
        if !(self.low..=self.high).contains(&value) {
            return Err(format!("“{words}” is not in reach here. {}", wanted()));
        }
        let turned = (value - self.own).abs() > self.step / 100.0;
        Ok(turned.then_some(value))
    }
}
