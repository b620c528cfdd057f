//! Possible kitchens settled by the readings: kept between looks at the clock, so that a look costs no run.

use super::moved::{Bell, Drawings};
use super::{
    AT_LEAST, Ahead, Begun, ENOUGH, EachLife, Here, Known, Life, ROUNDS, Reading, Ways, Weighed,
    ahead, heard, known,
};
use numerics::quantity::Duration;
use recipe::source::Checked;

/// Possible kitchens, weighed.
#[derive(Clone, Debug)]
pub struct Settled {
    ways: Ways,
    weighed: Weighed,
    heard: Vec<Reading>,
    least: f64,
    /// How often new ones were drawn.
    pub rounds: u64,
    /// How many runs it took.
    pub runs: usize,
}

/// What one reading did to the end of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Changed {
    /// Which.
    pub reading: Reading,
    /// The step's end with it, as many sooner as later, against the same without it.
    pub later: Duration,
}

/// Weighs the first possible kitchens by readings, and draws new ones where too few count; nothing when no kitchen at
/// all goes with them.
pub fn settle(
    here: &Here,
    lives: Vec<Life>,
    readings: &[Reading],
    each: EachLife<'_>,
) -> Checked<Option<Settled>> {
    let number = lives.len();
    let mut ways = Ways::new(here, lives, 0);
    let mut said = Vec::new();
    let heard = heard(here, &ways, readings, &mut said);
    let (mut rounds, mut runs) = (0, number);
    let mut drawings = Drawings::default();
    let enough_of_them = ENOUGH * number as f64;
    let mut weighed = ways.weighed(&heard);
    while let Some(found) = &weighed
        && found.that_count < enough_of_them
        && rounds < ROUNDS
    {
        let Some(bell) = Bell::of(&[(&ways, &heard)], drawings.last(number)) else {
            break;
        };
        rounds += 1;
        let drawn = bell.draw(here, number, rounds);
        drawings.then(bell);
        let lives = each(number, &|place| here.life(drawn[place].clone(), 0.0));
        runs += number;
        ways = ways.and(here, lives, rounds, &drawings);
        weighed = ways.weighed(&heard);
    }
    let least = AT_LEAST * number as f64;
    let output = weighed.map(|weighed| Settled {
        weighed: enough(&ways, weighed, &heard, least),
        ways,
        heard,
        least,
        rounds,
        runs,
    });
    Checked {
        output,
        diagnostics: said,
    }
}

impl Settled {
    /// Every step that has not ended, by the cook's clock as it is now.
    pub fn ahead(&self, here: &Here, begun: &[Begun], now: Duration) -> Vec<Ahead> {
        ahead(here, &self.ways, &self.weighed, begun, now)
    }

    /// What the readings say about this kitchen.
    pub fn known(&self, here: &Here) -> Vec<Known> {
        known(here, &self.ways, &self.weighed)
    }

    /// How many possible kitchens count, of how many.
    pub fn counts(&self) -> (f64, usize) {
        (self.weighed.that_count, self.ways.lives.len())
    }

    /// The readings that were heard.
    pub fn heard(&self) -> &[Reading] {
        &self.heard
    }

    /// What each reading did to the end of a step, in the order of the readings: with all of them, against all but that one.
    pub fn changed(
        &self,
        here: &Here,
        begun: &[Begun],
        now: Duration,
        step: usize,
    ) -> Vec<Changed> {
        let middle = |all: Vec<Ahead>| {
            let found = all.into_iter().find(|ahead| ahead.step == step);
            found.map(|ahead| ahead.ends.middle)
        };
        let Some(with) = middle(self.ahead(here, begun, now)) else {
            return Vec::new();
        };
        let one = |place: usize| {
            let mut others = self.heard.clone();
            let reading = others.remove(place);
            let weighed = enough(&self.ways, self.ways.weighed(&others)?, &others, self.least);
            let without = middle(ahead(here, &self.ways, &weighed, begun, now))?;
            Some(Changed {
                reading,
                later: with - without,
            })
        };
        (0..self.heard.len()).filter_map(one).collect()
    }
}

/// When too few kitchens count after all, readings count less until enough do: a band that is too wide is better
/// than one that three kitchens draw.
fn enough(ways: &Ways, weighed: Weighed, readings: &[Reading], least: f64) -> Weighed {
    if weighed.that_count >= least {
        return weighed;
    }
    let (mut low, mut high) = (0.0, 1.0);
    let mut found = None;
    for _ in 0..8 {
        let power = 0.5 * (low + high);
        let Some(tried) = ways.weighed_at(readings, power) else {
            break;
        };
        if tried.that_count < least {
            high = power;
        } else {
            low = power;
            found = Some(tried);
        }
    }
    found.unwrap_or(weighed)
}
