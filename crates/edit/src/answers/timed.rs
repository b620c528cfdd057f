//! Rises and bakes with their times as a cook reads them, and which of them moves most.

use super::reply::{Reply, reckoned};
use crate::ledger::say;
use crate::stretch::{Stretch, What};
use numerics::quantity::Duration;

/// A rise or bake as a cook reads it.
#[derive(Clone, Debug)]
pub struct Timed {
    /// Which.
    pub stretch: Stretch,
    /// The author's time in proportion.
    pub there: Duration,
}

impl Timed {
    /// "the rise of the dough".
    pub fn name(&self) -> String {
        self.stretch.name()
    }

    /// Whether a cook who reads the recipe notices the difference.
    pub fn differs(&self) -> bool {
        self.stretch.noticed(self.stretch.written, self.there)
    }

    /// Whether it is a rise.
    pub fn rises(&self) -> bool {
        self.stretch.what != What::Bake
    }
}

impl Reply {
    /// A time of a stretch: "1 h 35 min", or that its sign does not come.
    pub fn stretch(&mut self, timed: &Timed, why: &str) -> String {
        let what = format!("{why}.{}", timed.name().trim_start_matches("the "));
        let shown = timed.stretch.said(timed.there);
        let shown = if timed.stretch.reached || !timed.rises() {
            shown
        } else {
            format!("more than {shown}")
        };
        self.put(&what, timed.there.si(), Duration::SI, shown, reckoned())
    }

    /// Rises and bakes that take noticeably longer or shorter than is written: "the rise of the dough 2 h 35 min
    /// (written: 1 h 20 min)".
    pub fn against_written(&mut self, all: &[Timed], why: &str) -> Option<Moved> {
        let mut parts = Vec::new();
        for timed in all.iter().filter(|timed| timed.differs()) {
            let there = self.stretch(timed, why);
            let written = say::duration(timed.stretch.written);
            let words = format!("{} {there} (written: {written})", timed.name());
            parts.push((how_far(timed.stretch.written, timed.there), words));
        }
        Moved::of(parts)
    }

    /// The same beside another day: "the rise of the dough 1 h 5 min, not 1 h 20 min".
    pub fn against(&mut self, all: &[Timed], other: &[Timed], why: &str) -> Option<Moved> {
        let mut parts = Vec::new();
        for timed in all {
            let same = |one: &&Timed| one.name() == timed.name();
            let Some(was) = other.iter().find(same) else {
                continue;
            };
            if timed.stretch.noticed(was.there, timed.there) {
                let there = self.stretch(timed, why);
                let before = self.stretch(was, "usual");
                let words = format!("{} {there}, not {before}", timed.name());
                parts.push((how_far(was.there, timed.there), words));
            }
        }
        Moved::of(parts)
    }

    /// Says the rise or bake that moves most, and puts all of several under the reply.
    pub fn moved(&mut self, moved: &Moved, before: &str) {
        self.say(format!("{before} {}.", moved.most));
        self.all_moved(moved, before);
    }

    /// Puts all of several rises and bakes that move under the reply.
    pub fn all_moved(&mut self, moved: &Moved, before: &str) {
        if moved.several {
            self.more(format!("{before} {}.", moved.all));
        }
    }
}

/// How many times as long, or as short, on a scale that treats both alike.
fn how_far(was: Duration, is: Duration) -> f64 {
    if was > Duration::ZERO && is > Duration::ZERO {
        numerics::math::ln(is / was).abs()
    } else {
        0.0
    }
}

/// Rises and bakes that take another time.
pub struct Moved {
    /// The one that moves most.
    pub most: String,
    /// All of them.
    pub all: String,
    several: bool,
}

impl Moved {
    fn of(parts: Vec<(f64, String)>) -> Option<Self> {
        // Of several as far, the first on the page.
        let mut most: Option<&(f64, String)> = None;
        for part in &parts {
            if most.is_none_or(|most| part.0 > most.0 * 1.02) {
                most = Some(part);
            }
        }
        let most = most?.1.clone();
        let several = parts.len() > 1;
        let words: Vec<String> = parts.into_iter().map(|(_, words)| words).collect();
        Some(Self {
            most,
            all: words.join("; "),
            several,
        })
    }
}
