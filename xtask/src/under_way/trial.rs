//! One bake that is made up: a truth, readings of it with their errors at random moments, and the bands told from them.

use super::World;
use bake::condition::{
    Ahead, Begun, By, CRUST, Conditioned, EYE, EachLife, Here, Known, LOST, Life, PROBE_K,
    Possible, Reading, Seen, Strain, Ways, What, ahead, condition, known, told_within_s, when_s,
};
use bake::learn::COULD_NOT_TELL;
use numerics::distribution::normal_quantile;
use numerics::draw::{DIMENSIONS, Purpose, unit};
use numerics::math::exp;
use numerics::quantity::{Duration, Fraction, Temperature};

/// How many bands held their truths.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Held {
    /// Trials.
    pub trials: u64,
    /// Trials that were left out: too few kitchens of the bank counted, and new ones would be drawn.
    pub left_out: u64,
    /// Bands for the next sign to come, one a trial, and those that held.
    pub next: (u64, u64),
    /// Bands for everything that is still to come by a sign, and those that held.
    pub all: (u64, u64),
    /// Truths below and above their bands.
    pub outside: (u64, u64),
    /// Bands for what is not known of the kitchen that readings narrowed, and those that held.
    pub narrowed: (u64, u64),
    /// The same of all of them.
    pub known: (u64, u64),
    /// Readings.
    pub readings: u64,
    /// Sum of the possible kitchens that counted.
    pub counted: f64,
    /// Runs, and drawings anew.
    pub runs: u64,
    /// See `runs`.
    pub rounds: u64,
    /// Sum of the widths of the next bands, min, and of the same without any reading.
    pub width_min: (f64, f64),
}

impl Held {
    /// Puts another one's counts to these.
    pub fn add(&mut self, other: &Self) {
        self.trials += other.trials;
        self.left_out += other.left_out;
        self.next.0 += other.next.0;
        self.next.1 += other.next.1;
        self.all.0 += other.all.0;
        self.all.1 += other.all.1;
        self.outside.0 += other.outside.0;
        self.outside.1 += other.outside.1;
        self.narrowed.0 += other.narrowed.0;
        self.narrowed.1 += other.narrowed.1;
        self.known.0 += other.known.0;
        self.known.1 += other.known.1;
        self.readings += other.readings;
        self.counted += other.counted;
        self.runs += other.runs;
        self.rounds += other.rounds;
        self.width_min.0 += other.width_min.0;
        self.width_min.1 += other.width_min.1;
    }

    /// The shares that held: of the next, of all.
    pub fn shares(&self) -> (f64, f64) {
        (share(self.next), share(self.all))
    }

    /// The shares that held of what is not known of the kitchen: of what readings narrowed, of all.
    pub fn shares_of_known(&self) -> (f64, f64) {
        (share(self.narrowed), share(self.known))
    }
}

fn share((all, held): (u64, u64)) -> f64 {
    held as f64 / (all as f64).max(1.0)
}

/// Chance in a trial: one coordinate after the other.
pub struct Chance {
    trial: u64,
    next: u32,
}

impl Chance {
    /// Of a trial.
    pub const fn of(trial: u64) -> Self {
        Self { trial, next: 0 }
    }

    /// Between 0 and 1.
    pub fn share(&mut self) -> f64 {
        // More draws than there are coordinates: the next are of another seed.
        let (again, at) = (self.next / DIMENSIONS, self.next % DIMENSIONS);
        self.next += 1;
        unit(77 + u64::from(again), Purpose::Again, self.trial, at)
    }

    fn error(&mut self, size: f64) -> f64 {
        size * normal_quantile(self.share())
    }
}

/// One trial.
///
/// # Panics
/// When the recipe has no sign to wait for.
pub fn trial(
    here: &Here,
    bank: &Ways,
    truth: &Life,
    way: Way<'_>,
    number: u64,
    world: World,
) -> Held {
    let mut chance = Chance::of(number);
    let mut strains: Vec<Strain> = here.strains(1, number);
    if world == World::StraysTwice {
        let other = here.strains(2, number);
        let usual = |one: &mut Strain, more: &Strain| {
            // Twice as far: three times the square more.
            one.slower_ln += 3.0_f64.sqrt() * more.slower_ln;
            one.warmer_k += 3.0_f64.sqrt() * more.warmer_k;
        };
        strains
            .iter_mut()
            .zip(&other)
            .for_each(|(one, more)| usual(one, more));
    }
    let truth = Possible {
        life: truth,
        strains: &strains,
    };
    let signs: Vec<usize> = (0..here.course.steps.len())
        .filter(|place| here.course.steps[*place].ended != bake::simulate::Ended::Clock)
        .collect();
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a place in the list
    let which = (chance.share() * signs.len() as f64) as usize;
    let under_way = signs[which.min(signs.len() - 1)];
    let usual_s = here.course.steps[under_way].lasts.si();
    let looks_s = usual_s * (0.1 + 0.9 * chance.share());
    let mut readings = Vec::new();
    for place in 0..under_way {
        before(&truth, here, place, &mut chance, &mut readings);
    }
    // Whoever waits looks all the time; the sign is told within so much of when it is there.
    let lasts_s = truth.lasts_s(under_way);
    let told_s = (lasts_s + chance.error(told_within_s(lasts_s))).max(1.0);
    let ended = told_s <= looks_s;
    let now_s = if ended { told_s } else { looks_s };
    for _ in 0..3 {
        let after_s = now_s * chance.share();
        readings.extend(read(&truth, under_way, after_s, &mut chance));
    }
    readings.push(Reading {
        step: under_way + 1,
        after: Duration::from_si(now_s),
        what: if ended { What::Reached } else { What::NotYet },
    });
    let begun = [Begun {
        step: under_way + 1,
        at: Duration::ZERO,
    }];
    let now = Duration::from_si(now_s);
    let mut held = Held {
        trials: 1,
        readings: readings.len() as u64,
        ..Held::default()
    };
    let made_up = MadeUp {
        readings,
        begun: begun[0],
        now,
    };
    let tell = |readings: &[Reading]| tell(here, bank, way, readings, &begun, now);
    let (Some(told), Some(blind)) = (tell(&made_up.readings), tell(&[])) else {
        // Nothing goes with the readings: no band, and none that held.
        held.next.0 += 1;
        held.all.0 += 1;
        return held;
    };
    if told.counts.0 < ENOUGH_OF_BANK && matches!(way, Way::Bank) {
        return Held {
            trials: 1,
            left_out: 1,
            ..Held::default()
        };
    }
    held.counted += told.counts.0;
    held.runs += told.runs as u64;
    held.rounds += told.rounds;
    if let Some((with, without)) = told
        .ahead
        .iter()
        .zip(&blind.ahead)
        .find(|(one, _)| one.by_sign && !(ended && one.step == under_way + 1))
    {
        let width_min = |one: &Ahead| (one.ends.high.si() - one.ends.low.si()) / 60.0;
        held.width_min.0 += width_min(with);
        held.width_min.1 += width_min(without);
    }
    held.compare(here, truth, &made_up, ended, &told.ahead, &told.known);
    held
}

/// What readings tell, from the bank as it is or with new kitchens drawn.
fn tell(
    here: &Here,
    bank: &Ways,
    way: Way<'_>,
    readings: &[Reading],
    begun: &[Begun],
    now: Duration,
) -> Option<Conditioned> {
    match way {
        Way::Whole(each) => {
            let told = condition(here, bank.lives.clone(), readings, begun, now, each).output;
            (told.counts.0 > 0.0).then_some(told)
        }
        Way::Bank => {
            let weighed = bank.weighed(readings)?;
            Some(Conditioned {
                ahead: ahead(here, bank, &weighed, begun, now),
                known: known(here, bank, &weighed),
                counts: (weighed.that_count, bank.lives.len()),
                rounds: 0,
                runs: 0,
            })
        }
    }
}

/// What is known of a made-up bake.
struct MadeUp {
    readings: Vec<Reading>,
    begun: Begun,
    now: Duration,
}

/// How a trial is told.
#[derive(Clone, Copy)]
pub enum Way<'a> {
    /// From the bank alone.
    Bank,
    /// By the whole road, new kitchens drawn where too few count.
    Whole(EachLife<'a>),
}

/// So many kitchens of the bank must count.
pub const ENOUGH_OF_BANK: f64 = 30.0;

impl Held {
    fn compare(
        &mut self,
        here: &Here,
        truth: Possible<'_>,
        made_up: &MadeUp,
        ended: bool,
        all: &[Ahead],
        learnt: &[Known],
    ) {
        for known in learnt {
            let place = known.unknown.place();
            let really = here.told(known.unknown, truth.life.scores[place]);
            let inside = u64::from(known.low <= really && really <= known.high);
            self.known.0 += 1;
            self.known.1 += inside;
            if known.narrower < COULD_NOT_TELL {
                self.narrowed.0 += 1;
                self.narrowed.1 += inside;
            }
        }
        let mut first = true;
        for one in all {
            if !one.by_sign || (ended && one.step == made_up.begun.step) {
                continue;
            }
            let really = when_s(here, truth, &made_up.begun, one.step, true);
            let really = really.max(made_up.now.si());
            let (low, high) = (one.ends.low.si(), one.ends.high.si());
            let inside = low <= really && really <= high;
            self.all.0 += 1;
            self.all.1 += u64::from(inside);
            self.outside.0 += u64::from(really < low);
            self.outside.1 += u64::from(really > high);
            if first {
                self.next.0 += 1;
                self.next.1 += u64::from(inside);
                first = false;
            }
        }
    }
}

/// What was read of a whole bake: after half of the mixes its temperature; of every step with a sign one reading on the way, and
/// when the sign was there, in half of them, or that it was not there yet. When somebody looks says nothing of the truth that
/// the readings do not say.
pub fn whole_bake(truth: &Possible<'_>, here: &Here, chance: &mut Chance) -> Vec<Reading> {
    let mut readings = Vec::new();
    for (place, step) in here.course.steps.iter().enumerate() {
        if step.ended == bake::simulate::Ended::Clock {
            before(truth, here, place, chance, &mut readings);
            continue;
        }
        let lasts_s = truth.lasts_s(place);
        let told_s = (lasts_s + chance.error(told_within_s(lasts_s))).max(1.0);
        let looks_s = step.lasts.si() * chance.share();
        let is_noted = chance.share() < 0.5 || told_s <= looks_s;
        let (after_s, at_s, what) = if is_noted {
            (told_s * chance.share(), told_s, What::Reached)
        } else {
            (looks_s, looks_s, What::NotYet)
        };
        readings.extend(read(truth, place, after_s, chance));
        readings.push(Reading {
            step: place + 1,
            after: Duration::from_si(at_s),
            what,
        });
    }
    readings
}

/// What was read of an earlier step, if anything.
fn before(
    truth: &Possible<'_>,
    here: &Here,
    place: usize,
    chance: &mut Chance,
    readings: &mut Vec<Reading>,
) {
    let step = &here.course.steps[place];
    let noted = chance.share() < 0.5;
    if step.ended == bake::simulate::Ended::Clock {
        // After a mix the probe goes in.
        let lasts_s = truth.lasts_s(place);
        let read = truth.reads(place, Seen::Middle, lasts_s);
        if let (true, Some(read)) = (noted, read) {
            let read = read + chance.error(PROBE_K);
            readings.push(Reading {
                step: place + 1,
                after: Duration::from_si(lasts_s),
                what: What::Inside(Temperature::from_celsius(read), By::Probe),
            });
        }
        return;
    }
    let lasts_s = truth.lasts_s(place);
    let told_s = (lasts_s + chance.error(told_within_s(lasts_s))).max(1.0);
    if noted {
        readings.push(Reading {
            step: place + 1,
            after: Duration::from_si(told_s),
            what: What::Reached,
        });
    }
}

/// One reading of a step at a moment, of a kind by chance.
fn read(truth: &Possible<'_>, place: usize, after_s: f64, chance: &mut Chance) -> Option<Reading> {
    let hot = truth.reads(place, Seen::Air, after_s)? > 100.0;
    let kind = chance.share();
    let what = match (hot, kind) {
        (_, kind) if kind < 0.4 => {
            let read = truth.reads(place, Seen::Middle, after_s)? + chance.error(PROBE_K);
            What::Inside(Temperature::from_celsius(read), By::Probe)
        }
        (_, kind) if kind < 0.6 => {
            let read = truth.reads(place, Seen::Air, after_s)? + chance.error(PROBE_K);
            What::Air(Temperature::from_celsius(read), By::Probe)
        }
        (false, _) => {
            let grown = truth.reads(place, Seen::Grown, after_s)?;
            What::Grown(grown * exp(chance.error(EYE)))
        }
        (true, kind) if kind < 0.8 => {
            What::Crust(truth.reads(place, Seen::Lightness, after_s)? + chance.error(CRUST))
        }
        (true, _) => {
            let lost = truth.reads(place, Seen::Lost, after_s)? + chance.error(LOST);
            What::Lost(Fraction::from_si(lost))
        }
    };
    Some(Reading {
        step: place + 1,
        after: Duration::from_si(after_s),
        what,
    })
}
