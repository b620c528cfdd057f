//! A thing that goes in: what, how much, in what state, from where.

use crate::source::{Located, Span};
use numerics::quantity::{Mass, Temperature};

/// A thing that goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is: an ingredient by name, or an earlier stage.
    pub of: Located<String>,
    /// How much; a stage may leave it out and then goes in whole.
    pub take: Option<Located<Amount>>,
    /// For each piece of a product: how much.
    pub each: Option<Located<Amount>>,
    /// The short name by which sentences call it.
    pub name: Option<Located<String>>,
    /// A kitchen measure that the author wants printed instead of the computed one.
    pub also: Option<Located<Amount>>,
    /// Its temperature when it goes in.
    pub at: Option<Located<Temperature>>,
    /// Where it has been standing, which gives its temperature in each kitchen.
    pub from: Option<Located<Store>>,
    /// Its state when it goes in: "soft", "melted", "beaten".
    pub state: Option<Located<String>>,
    /// For items outside the dough: what they are for.
    pub on: Option<Located<Place>>,
    /// A word for the reader.
    pub note: Option<Located<String>>,
    /// Where it stands.
    pub span: Span,
}

impl Item {
    /// An item with nothing but its name.
    pub const fn bare(of: Located<String>, span: Span) -> Self {
        Self {
            of,
            take: None,
            each: None,
            name: None,
            also: None,
            at: None,
            from: None,
            state: None,
            on: None,
            note: None,
            span,
        }
    }

    /// The name by which sentences call it.
    pub fn called(&self) -> &str {
        self.name
            .as_ref()
            .map_or(&self.of.value, |name| &name.value)
    }
}

/// Where an ingredient has been standing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Store {
    /// The room, long enough to have its temperature.
    Room,
    /// The refrigerator.
    Refrigerator,
    /// The cold tap.
    Tap,
}

impl Store {
    /// Every store.
    pub const ALL: [Self; 3] = [Self::Room, Self::Refrigerator, Self::Tap];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Room => "room",
            Self::Refrigerator => "refrigerator",
            Self::Tap => "tap",
        }
    }
}

/// What an item outside the dough is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// Dusting or oiling the bench.
    Bench,
    /// Greasing or lining the tin.
    Tin,
    /// Brushing and scattering on top.
    Top,
}

impl Place {
    /// Every place.
    pub const ALL: [Self; 3] = [Self::Bench, Self::Tin, Self::Top];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bench => "bench",
            Self::Tin => "tin",
            Self::Top => "top",
        }
    }
}

/// An amount as written.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// A mass.
    Mass(Mass),
    /// One or more kitchen measures added together: 1 3/4 cups + 3 Tbsp.
    Measures(Vec<Spooned>),
    /// A number of things, with their size: 3 large.
    Count {
        /// How many.
        count: f64,
        /// What size or unit: "large", "packet"; none when only a number stands.
        size: Option<String>,
    },
}

/// So many of one measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spooned {
    /// How many.
    pub count: f64,
    /// Of what.
    pub measure: crate::measure::Measure,
}
