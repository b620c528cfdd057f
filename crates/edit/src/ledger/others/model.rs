//! A recipe in other kitchens as the strings that every face prints.

use crate::ledger::model::Figure;

/// A recipe in other kitchens.
#[derive(Clone, Debug, PartialEq)]
pub struct Others {
    /// "Tall orange feast bread in other kitchens".
    pub title: String,
    /// Whose kitchens, how many, and that it is an estimate.
    pub about: String,
    /// Their audience.
    pub audience: String,
    /// How many there were.
    pub kitchens: usize,
    /// How many come out well: all of it, then each product.
    pub well: Vec<Line>,
    /// What the range after a share is made of, and what is not in it.
    pub band: String,
    /// What goes wrong, most often first.
    pub failures: Vec<Line>,
    /// Each stated time for whoever waits for the sign.
    pub times: Vec<Line>,
    /// What decides whether all comes out well, most first.
    pub decides: Vec<Line>,
    /// What is said before those.
    pub decides_about: String,
    /// Single things that decide by themselves.
    pub alone: Vec<Line>,
    /// Counted for safety, beside the share and never in it.
    pub safety: Vec<Line>,
    /// The biggest unknowns.
    pub unknowns: Vec<String>,
    /// For drawing.
    pub drawn: Drawn,
}

impl Others {
    /// Over what decides by itself: it stands alone where nothing was followed that decides together.
    pub fn alone_heading(&self) -> &'static str {
        if self.decides.is_empty() {
            "What decides it, each thing by itself"
        } else {
            "What decides that by itself"
        }
    }
}

/// One line.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Number of its step, where it is of one.
    pub step: Option<usize>,
    /// What it is about: "the braid", "risen too little".
    pub what: String,
    /// The figure in short: "30 % (15–45 %)".
    pub shown: String,
    /// More in words: where from, what holds.
    pub more: Option<String>,
    /// The figures in it.
    pub figures: Vec<Figure>,
}

/// What the figures draw: shares from 0 to 1 with their words.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The kitchens: well first, then by what they are lost to, most often first.
    pub strip: Vec<(f64, String)>,
    /// What decides: value, from, to, words, the figure in words.
    pub decides: Vec<(f64, f64, f64, String, String)>,
    /// Each stated time.
    pub times: Vec<TimeDrawn>,
}

/// A stated time with how long it takes for whoever waits for the sign, min.
#[derive(Clone, Debug, PartialEq)]
pub struct TimeDrawn {
    /// "12 Braid, last rise".
    pub what: String,
    /// In words.
    pub shown: String,
    /// Minutes at every twentieth of the kitchens, rising.
    pub twentieths: Vec<f64>,
    /// The written window, min.
    pub written: Option<(f64, f64)>,
    /// The window that holds in eight of ten, min.
    pub holds: (f64, f64),
}

impl Others {
    /// Every line, in the order of the page.
    pub fn lines(&self) -> impl Iterator<Item = &Line> {
        self.well
            .iter()
            .chain(&self.failures)
            .chain(&self.times)
            .chain(&self.decides)
            .chain(&self.alone)
            .chain(&self.safety)
    }

    /// Every figure.
    pub fn figures(&self) -> impl Iterator<Item = &Figure> {
        self.lines().flat_map(|line| &line.figures)
    }
}
