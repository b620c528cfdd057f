//! Stated times in other kitchens: when the sign comes, what holds, and the window that would hold.

use super::{Line, TimeDrawn, one, percent};
use crate::ledger::{figure, say};
use bake::kitchens::Took;
use numerics::decimal::round_to;
use numerics::indices::quantile;
use numerics::quantity::{Duration, Range};

/// A rise is told to 5 min, a bake to 1 min.
fn step_min(baked: bool) -> f64 {
    if baked { 1.0 } else { 5.0 }
}

/// Rounded outward.
fn outward(low_min: f64, high_min: f64, step: f64) -> Range<Duration> {
    Range {
        low: Duration::from_minutes((low_min / step + 1e-9).floor() * step),
        high: Duration::from_minutes((high_min / step - 1e-9).ceil() * step),
    }
}

/// "45–75 min"; from two hours up "1 h to 4 h 55 min".
fn range(window: Range<Duration>) -> String {
    if window.high.minutes() < 119.5 {
        return say::duration_range(window);
    }
    let low = if window.low.minutes() < 0.5 {
        format!("0{}min", say::NBSP)
    } else {
        say::duration(window.low)
    };
    format!("{low} to {}", say::duration(window.high))
}

/// The line of a step and its drawing; `what`: "Braid, last rise".
pub fn line(took: &Took, what: &str, baked: bool) -> (Line, TimeDrawn) {
    let step = step_min(baked);
    let minutes = |share: f64| quantile(&took.sorted_s, share).unwrap_or(0.0) / 60.0;
    let window = outward(minutes(0.10), minutes(0.90), step);
    let middle = Duration::from_minutes(round_to(minutes(0.5), step));
    let place = format!("others.step.{}", took.step);
    let shown = range(window);
    let mut figures = vec![
        figure(
            format!("{place}.window"),
            window.low.si() + 0.5 * (window.high - window.low).si(),
            Duration::SI,
            shown.clone(),
            super::origin(),
        ),
        figure(
            format!("{place}.middle"),
            middle.si(),
            Duration::SI,
            say::duration(middle),
            super::origin(),
        ),
    ];
    let mut more = format!("half of them before {}", say::duration(middle));
    if let (Some(range), Some(holds)) = (took.written_range, took.holds) {
        let step = if holds.within >= 0.05 { 0.05 } else { 0.01 };
        let share = percent(holds.value, step);
        more = format!(
            "written {}, which holds for {share}; {more}",
            self::range(range)
        );
        figures.push(one(
            &format!("step.{}.holds", took.step),
            holds.value,
            &share,
        ));
    } else if let Some(written) = took.written {
        more = format!("written {}; {more}", say::duration(written));
    }
    let drawn = TimeDrawn {
        what: format!("{} {what}", took.step),
        shown: format!("eight of ten {shown}"),
        twentieths: (0..=20).map(|at| minutes(f64::from(at) / 20.0)).collect(),
        written: took
            .written_range
            .map(|range| (range.low.minutes(), range.high.minutes()))
            .or_else(|| took.written.map(|time| (time.minutes(), time.minutes()))),
        holds: (window.low.minutes(), window.high.minutes()),
    };
    (
        Line {
            step: Some(took.step),
            what: what.to_owned(),
            shown,
            more: Some(more),
            figures,
        },
        drawn,
    )
}
