//! What was read at the bench and what it did to the time of a step, in words.

use super::read_off;
use crate::ledger::say;
use bake::condition::{Ahead, Begun, Changed, What};
use bake::learn::COULD_NOT_TELL;
use numerics::decimal::round_to;
use numerics::quantity::{Duration, Temperature};

/// A change that a cook notices, min (common practice).
const NOTICED_MINUTES: f64 = 3.0;
/// So many readings are told of at most.
const MOST: usize = 2;

/// What the readings did to the end of a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Heard {
    /// What the largest changes came from: what was read, when by the cook's clock, and by how much the end moved.
    pub changes: Vec<(String, Duration, Duration)>,
    /// Whether the band became narrower than four fifths of what it was.
    pub could_tell: bool,
}

/// Puts together what the readings did. `told`: the step with them; `blind`: without any.
pub fn heard(told: &Ahead, blind: &Ahead, changed: &[Changed], begun: &[Begun]) -> Heard {
    let mut all: Vec<&Changed> = changed
        .iter()
        .filter(|one| one.later.abs().minutes() >= NOTICED_MINUTES)
        .collect();
    all.sort_by(|one, other| other.later.abs().order(one.later.abs()));
    let wide = |ahead: &Ahead| (ahead.ends.high - ahead.ends.low).minutes();
    Heard {
        changes: all
            .into_iter()
            .take(MOST)
            .map(|one| {
                let own = begun.iter().find(|begun| begun.step == one.reading.step);
                let from = own.map_or(Duration::ZERO, |own| own.at);
                (read(one.reading.what), from + one.reading.after, one.later)
            })
            .collect(),
        could_tell: wide(told) < COULD_NOT_TELL * wide(blind),
    }
}

fn read(what: What) -> String {
    let at = |at: Temperature| read_off(at.celsius());
    match what {
        What::Inside(read, _) => format!("the thermometer, {},", at(read)),
        What::Air(read, _) => format!("the air, {},", at(read)),
        What::Grown(_) => "how far the dough had grown".to_owned(),
        What::Reached => "the sign that was there".to_owned(),
        What::NotYet => "the sign that was not there yet".to_owned(),
        What::Crust(_) => "the crust".to_owned(),
        What::Lost(_) => "the scale".to_owned(),
    }
}

impl Heard {
    /// In sentences; `says` tells a moment by the clock on the wall.
    pub fn sentences(&self, says: impl Fn(Duration) -> String) -> Vec<String> {
        let mut out: Vec<String> = self
            .changes
            .iter()
            .map(|(what, at, later)| {
                let by = Duration::from_minutes(round_to(later.abs().minutes(), 1.0));
                let way = if *later < Duration::ZERO {
                    "sooner"
                } else {
                    "later"
                };
                let said = format!(
                    "{what} at {} makes it {} {way}.",
                    says(*at),
                    say::duration(by)
                );
                say::capital(&said)
            })
            .collect();
        if out.is_empty() && !self.could_tell {
            out.push("What you read off so far tells no more about this step.".to_owned());
        } else {
            out.push(
                "Eight of ten doughs that read like yours end between these times.".to_owned(),
            );
        }
        out
    }
}
