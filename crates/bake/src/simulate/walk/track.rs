//! A body followed through one step after another: its clock, what is noted of it, what ends a step.

use super::super::body::Body;
use super::super::matter::Matter;
use super::super::safety::Counts;
use super::super::surround::Surround;
use super::super::{Event, Happening, Moment, SectionView, Shade};
use numerics::quantity::{Duration, Fraction, Temperature};
use numerics::section::Solid;

/// A dough on its way.
#[derive(Clone, Debug)]
pub struct Track<'m> {
    /// Its properties.
    pub matter: &'m Matter,
    /// Itself.
    pub body: Body<f64>,
    /// Seconds since its stage began.
    pub clock_s: f64,
    /// Moments noted so far.
    pub moments: Vec<Moment>,
    /// Sections noted so far.
    pub sections: Vec<SectionView>,
    /// What is counted for safety.
    pub counts: Counts,
    /// Height of the rim over the bottom of what it stands in, m; none without walls.
    pub rim_m: Option<f64>,
    /// What has been told of it once: its butter is oily, it stands over the rim.
    pub told: [bool; 2],
    every_s: f64,
    noted_s: f64,
}

/// Milk fat from which the butter decides how a dough feels, share of the flour: 15 % butter (common practice).
const BUTTERY: f64 = 0.12;
/// Where the butter in a dough no longer holds, °C (common practice).
const OILY_C: f64 = 28.0;

/// At most so many moments are kept.
const MOMENTS: usize = 300;

/// What a step looks for.
pub struct Watch<'a> {
    /// Number of the step on the page.
    pub step: usize,
    /// Longest time, s.
    pub limit_s: f64,
    /// Seconds of one step of heat.
    pub step_s: f64,
    /// Seconds of heat and life for a second of the clock.
    pub pace: f64,
    /// Seconds between two looks at what ends it.
    pub look_s: f64,
    /// Looks after which yeast, gas and colour are moved on.
    pub lives_every: u32,
    /// What is watched.
    pub state: State,
    /// Minutes of the oven after which a section is noted, s, rising.
    pub sections_s: &'a [f64],
}

/// What a body is at: it decides what is watched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Dough that rises or chills.
    Dough,
    /// In the oven.
    Baking,
    /// Out of it: nothing lives in it any more.
    Baked,
}

impl<'m> Track<'m> {
    /// From a body that has just been made.
    pub fn new(matter: &'m Matter, body: Body<f64>, clock_s: f64) -> Self {
        Self {
            matter,
            body,
            clock_s,
            moments: Vec::with_capacity(MOMENTS + 1),
            sections: Vec::new(),
            counts: Counts::default(),
            rim_m: None,
            told: [false; 2],
            every_s: 60.0,
            noted_s: f64::NEG_INFINITY,
        }
    }

    /// Moves on until `ends` says so or the limit is there; gives the seconds it took and whether
    /// `ends` was met.
    pub fn run(
        &mut self,
        watch: &Watch<'_>,
        events: &mut Vec<Event>,
        mut around: impl FnMut(f64, &Body<f64>) -> (Temperature, Surround<f64>),
        mut ends: impl FnMut(&Body<f64>, &Matter, f64) -> bool,
    ) -> (f64, bool) {
        let began = Seen::of(&self.body, self.matter);
        let start_volume = self.body.volume();
        let mut seen = began;
        let mut gone_s = 0.0;
        let (mut unlived_s, mut counted) = (0.0, 0);
        let mut sections = watch.sections_s.iter().copied().peekable();
        let air = around(0.0, &self.body).0;
        self.note(watch.step, air, &seen);
        loop {
            if ends(&self.body, self.matter, gone_s) {
                let air = around(gone_s, &self.body).0;
                self.note(watch.step, air, &seen);
                return (gone_s, true);
            }
            if gone_s >= watch.limit_s - 1e-9 {
                let air = around(gone_s, &self.body).0;
                self.note(watch.step, air, &seen);
                return (gone_s, false);
            }
            let look_s = watch.look_s.min(watch.limit_s - gone_s);
            let (air, surround) = around(gone_s, &self.body);
            let mut left_s = look_s;
            while left_s > 1e-9 {
                let step_s = watch.step_s.min(left_s);
                self.body.warm(self.matter, &surround, watch.pace * step_s);
                if watch.state == State::Baked {
                    self.body
                        .breathe(self.matter, &surround, watch.pace * step_s);
                }
                left_s -= step_s;
            }
            unlived_s += look_s;
            counted += 1;
            let last = gone_s + look_s >= watch.limit_s - 1e-9;
            if watch.state != State::Baked && (last || counted % watch.lives_every == 0) {
                self.body.live(self.matter, watch.pace * unlived_s);
                unlived_s = 0.0;
            }
            gone_s += look_s;
            self.clock_s += look_s;
            let now = Seen::of(&self.body, self.matter);
            if watch.state == State::Dough {
                self.counts.stood(seen.mean, now.mean, look_s);
            } else {
                let (before, outside) = (seen.coldest, now.outside);
                self.counts.baked(before, now.coldest, outside, look_s);
            }
            now.since(&seen, start_volume, watch.state, gone_s, events);
            self.once(&now, watch.state, gone_s, events);
            seen = now;
            if self.clock_s - self.noted_s >= self.every_s {
                self.note(watch.step, air, &seen);
            }
            if sections.next_if(|at| gone_s >= *at).is_some() {
                let view = self.section(gone_s);
                self.sections.push(view);
            }
        }
    }

    /// What is told of a dough once, when it first is so.
    fn once(&mut self, now: &Seen, state: State, after_s: f64, events: &mut Vec<Event>) {
        let holds = &self.matter.holds;
        let buttery = holds.milk_fat >= BUTTERY * holds.flour;
        let oily = state == State::Dough && buttery && now.mean >= OILY_C;
        let over = self.rim_m.is_some_and(|rim| self.body.height_m() > rim);
        let over = state != State::Baked && over;
        for (told, (is, what)) in self
            .told
            .iter_mut()
            .zip([(oily, Happening::ButterOily), (over, Happening::OverTheRim)])
        {
            if is && !*told {
                *told = true;
                events.push(Event {
                    after: Duration::from_si(after_s),
                    what,
                });
            }
        }
    }

    fn note(&mut self, step: usize, air: Temperature, now: &Seen) {
        self.noted_s = self.clock_s;
        self.moments.push(Moment {
            at: Duration::from_si(self.clock_s),
            step,
            air,
            middle: Temperature::from_celsius(now.middle),
            mean: Temperature::from_celsius(now.mean),
            outside: Temperature::from_celsius(now.outside),
            volume: now.volume,
            lightness: now.lightness,
            lost: Fraction::from_si(self.body.gone()),
        });
        if self.moments.len() > MOMENTS {
            // Every second one stays, and the last of each step.
            let last = self.moments.len() - 1;
            let mut kept = 0;
            for at in 0..=last {
                let ends = at == last || self.moments[at + 1].step != self.moments[at].step;
                if at % 2 == 0 || ends {
                    self.moments[kept] = self.moments[at];
                    kept += 1;
                }
            }
            self.moments.truncate(kept);
            self.every_s *= 2.0;
        }
    }

    /// The section as it lies.
    fn section(&self, after_s: f64) -> SectionView {
        let (mesh, stretch) = (self.body.mesh(), self.body.stretch());
        let cells = 0..mesh.cells();
        SectionView {
            after: Duration::from_si(after_s),
            round: mesh.solid() == Solid::Round,
            across_m: mesh
                .across_m()
                .iter()
                .map(|edge| edge * stretch.across)
                .collect(),
            up_m: mesh.up_m().iter().map(|edge| edge * stretch.up).collect(),
            celsius: cells
                .clone()
                .map(|cell| self.body.cell_celsius(self.matter, cell))
                .collect(),
            dry: cells.map(|cell| self.body.dry(self.matter, cell)).collect(),
        }
    }
}

/// What is looked at.
#[derive(Clone, Copy, Debug)]
struct Seen {
    middle: f64,
    mean: f64,
    coldest: f64,
    outside: f64,
    volume: f64,
    lightness: f64,
    alive: f64,
    set: f64,
}

impl Seen {
    fn of(body: &Body<f64>, matter: &Matter) -> Self {
        let glance = body.glance(matter);
        Self {
            middle: glance.middle,
            mean: glance.mean,
            coldest: glance.coldest,
            outside: body.outside(),
            volume: glance.volume,
            lightness: body.lightness(),
            alive: glance.alive,
            set: glance.set,
        }
    }

    /// What has happened since an earlier look.
    fn since(
        &self,
        before: &Self,
        start_volume: f64,
        state: State,
        after_s: f64,
        events: &mut Vec<Event>,
    ) {
        let mut add = |what| {
            events.push(Event {
                after: Duration::from_si(after_s),
                what,
            });
        };
        let passed = |line: f64, was: f64, is: f64| was < line && is >= line;
        let fell = |line: f64, was: f64, is: f64| was > line && is <= line;
        if state == State::Dough {
            for times in [1.5, 2.0, 3.0] {
                let line = times * start_volume;
                if passed(line, before.volume, self.volume) {
                    add(Happening::Grown(times));
                }
            }
            if fell(-1e-4, self.volume - before.volume, 0.0) && before.volume > 1.5 * start_volume {
                add(Happening::PastItsBest);
            }
            return;
        }
        for line in [60.0, 80.0, 88.0, 90.0, 93.0, 96.0] {
            if passed(line, before.middle, self.middle) {
                add(Happening::Middle(Temperature::from_celsius(line)));
            }
        }
        if fell(0.1, before.alive, self.alive) {
            add(Happening::YeastDead);
        }
        if passed(0.95, before.set, self.set) {
            add(Happening::CrumbSet);
        }
        for shade in Shade::ALL {
            if fell(shade.lightness(), before.lightness, self.lightness) {
                add(Happening::Crust(shade));
            }
        }
        if fell(40.0, before.middle, self.middle) {
            add(Happening::Sliceable);
        }
        if fell(32.0, before.middle, self.middle) {
            add(Happening::Wrappable);
        }
    }
}
