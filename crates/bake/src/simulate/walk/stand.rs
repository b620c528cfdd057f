//! A dough that is left standing: until its clock, or until its cue.

use super::super::body::Body;
use super::super::matter::Matter;
use super::super::{Ended, Follows, Grid, StepCourse, Within};
use super::limit_s;
use super::stage::{FOLD_KEEPS, Noted};
use super::track::{State, Track, Watch};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Timing, Until};

/// How deep the outside of a dough is taken to go, m.
const OUTER_M: f64 = 0.02;

/// A dough that is left standing.
pub struct Stand<'a> {
    /// What ends it.
    pub follows: Follows,
    /// How finely it is stepped.
    pub grid: Grid,
    /// Seconds of heat and life for a second of the clock.
    pub pace: f64,
    /// As written.
    pub timing: &'a Timing,
    /// Its cue.
    pub until: Option<&'a Until>,
    /// Air.
    pub air: Temperature,
    /// All around.
    pub around: super::super::surround::Surround<f64>,
    /// Folds, seconds into it.
    pub folds: &'a [f64],
    /// The rim over the bottom, m, for a height against it.
    pub rim: Option<f64>,
}

/// Lets it stand until its clock or cue.
pub fn stand(track: &mut Track<'_>, noted: &Noted, how: &Stand<'_>) -> StepCourse {
    let usual_s = how.timing.usual.value.si();
    let start = track.body.volume();
    let began = track.body.mean_celsius(track.matter);
    let mut cue_s: Option<f64> = None;
    let mut folds = how.folds.iter().copied().peekable();
    let measurable = how.until.is_some_and(|until| {
        until.volume.is_some()
            || until.dough.is_some()
            || (until.height.is_some() && how.rim.is_some())
    });
    let met = |body: &Body<f64>, matter: &Matter| {
        let Some(until) = how.until else { return false };
        let volume = until
            .volume
            .as_ref()
            .map(|times| body.volume() >= times.value * start);
        let height = until
            .height
            .as_ref()
            .zip(how.rim)
            .map(|(height, rim)| body.height_m() >= rim + height.value.si());
        let dough = until.dough.as_ref().map(|wanted| {
            let (now, wanted) = (body.mean_celsius(matter), wanted.value.celsius());
            if began > wanted {
                now <= wanted
            } else {
                now >= wanted
            }
        });
        // Where several are written, all of them.
        [volume, height, dough].into_iter().flatten().all(|one| one)
    };
    let by_clock = how.follows == Follows::Clock || !measurable;
    // To know the cue as well, the clock's cook is followed no longer than the clock.
    let limit = if by_clock {
        usual_s
    } else {
        limit_s(how.timing)
    };
    let step_s = how.grid.in_a_rise(usual_s);
    let watch = Watch {
        step: noted.number,
        limit_s: limit,
        step_s,
        pace: how.pace,
        look_s: step_s,
        lives_every: 1,
        state: State::Dough,
        sections_s: &[],
    };
    let mut events = Vec::new();
    let first = how.follows == Follows::First;
    let (air, around) = (how.air, how.around);
    // Folds are given between runs, so the standing is cut at each of them.
    let mut took = 0.0;
    let mut ended = Ended::Limit;
    loop {
        let next_fold = folds.next_if(|at| *at < limit);
        let until_s = next_fold.unwrap_or(limit);
        let part = Watch {
            limit_s: (until_s - took).max(0.0),
            ..watch
        };
        let offset = took;
        let mut part_events = Vec::new();
        let (part_s, stopped) = track.run(
            &part,
            &mut part_events,
            |_, _| (air, around),
            |body, matter, gone_s| {
                let now = offset + gone_s;
                if measurable && cue_s.is_none() && met(body, matter) {
                    cue_s = Some(now);
                }
                let clock = first && now >= usual_s - 1e-9;
                (!by_clock && cue_s.is_some()) || clock
            },
        );
        took += part_s;
        for mut event in part_events {
            event.after += Duration::from_si(offset);
            events.push(event);
        }
        if stopped {
            ended = if cue_s.is_some() {
                Ended::Cue
            } else {
                Ended::Clock
            };
            break;
        }
        if next_fold.is_none() {
            if by_clock {
                ended = Ended::Clock;
            }
            break;
        }
        track.body.press(FOLD_KEEPS, track.matter);
    }
    let mut done = noted.done(Some(how.timing), took, ended);
    done.cue_after = cue_s.map(Duration::from_si);
    done.dough = Some(Temperature::from_celsius(
        track.body.mean_celsius(track.matter),
    ));
    done.within = Some(Within {
        middle: Temperature::from_celsius(track.body.middle(track.matter)),
        outer: Temperature::from_celsius(track.body.outer(track.matter, OUTER_M)),
    });
    done.grown = track.body.volume() / start;
    done.events = events;
    done
}
