//! The clock along the drawing of a day: hours, dates, time that was cut out, hours in which nobody works.

use super::looks::closed;
use super::{Along, RIGHT};
use crate::figure::svg::{Anchor, Type, n, text, width};
use crate::palette::PRINT;
use edit::ledger::timetable::{Axis, TableLines};
use maud::{Markup, html};

/// A date over the clock, and how long a stretch is that was cut out.
const SMALL: Type = Type {
    size: 10.0,
    ..Type::SOFT
};

/// Two labels on one level are at least so far apart.
const APART: f64 = 6.0;
/// From one level of labels to the next.
const LEVEL: f64 = 12.0;

/// A label with its left edge and its level, so that none stands on another.
struct Label<'a> {
    words: &'a str,
    left: f64,
    level: usize,
}

/// Puts labels on levels, each on the first where it is free. `places`: words and where they would begin.
fn levels<'a>(places: impl Iterator<Item = (&'a str, f64)>, to: f64) -> Vec<Label<'a>> {
    let mut ends: Vec<f64> = Vec::new();
    let mut all = Vec::new();
    for (words, left) in places {
        let long = width(SMALL, words);
        let left = left.min(to - long).max(2.0);
        let free = ends.iter().position(|end| end + APART <= left);
        let level = free.unwrap_or(ends.len());
        if level == ends.len() {
            ends.push(0.0);
        }
        ends[level] = left + long;
        all.push(Label { words, left, level });
    }
    all
}

fn deep(labels: &[Label<'_>]) -> f64 {
    let levels = labels.iter().map(|label| label.level + 1).max();
    levels.unwrap_or(0) as f64 * LEVEL
}

fn dates<'a>(axis: &'a Axis, along: &Along) -> Vec<Label<'a>> {
    let dated = axis.ticks.iter().filter_map(|(minute, _, date)| {
        date.as_ref()
            .map(|date| (date.as_str(), along.at(*minute) - 4.0))
    });
    levels(dated, along.wide - 4.0)
}

fn cuts<'a>(axis: &'a Axis, along: &Along) -> Vec<Label<'a>> {
    let cut = axis.stretches.iter().filter_map(|one| {
        let words = one.cut.as_deref()?;
        Some((
            words,
            middle(along, one.from_min, one.to_min) - width(SMALL, words) / 2.0,
        ))
    });
    levels(cut, along.wide - 4.0)
}

fn middle(along: &Along, from_min: i64, to_min: i64) -> f64 {
    f64::midpoint(along.at(from_min), along.at(to_min))
}

/// How much room the clock and its dates take above the rows.
pub(super) fn above(axis: &Axis, along: &Along) -> f64 {
    20.0 + deep(&dates(axis, along))
}

/// And what was cut out below them.
pub(super) fn below(axis: &Axis, along: &Along) -> f64 {
    14.0 + deep(&cuts(axis, along))
}

/// Hours in which nobody works, behind everything else.
pub(super) fn quiet(table: &TableLines, along: &Along, top: f64, bottom: f64) -> Markup {
    html! {
        @for one in &table.closed {
            @let (left, right) = (along.at(one.from_min), along.at(one.to_min));
            g { title { (one.word) }
                rect x=(n(left)) y=(n(top - 4.0)) width=(n((right - left).max(1.0))) height=(n(bottom - top + 4.0)) fill=(closed()) {} }
        }
    }
}

/// Hours as upright lines with their clock, and a break where time was taken out.
pub(super) fn clock(axis: &Axis, along: &Along, top: f64, bottom: f64) -> Markup {
    let mut told_to = f64::NEG_INFINITY;
    let mut ticks = Vec::new();
    for (minute, words, _) in &axis.ticks {
        let x = along.at(*minute);
        let half = width(Type::SOFT, words) / 2.0;
        let at = x.min(along.wide - 4.0 - half);
        let told = at - half >= told_to + APART;
        if told {
            told_to = at + half;
        }
        ticks.push(html! {
            line x1=(n(x)) x2=(n(x)) y1=(n(top - 4.0)) y2=(n(bottom)) stroke=(PRINT.rule.css()) stroke-width="0.4" {}
            @if told { (text(at, top - 8.0, Type::SOFT.at(Anchor::Middle), words)) }
        });
    }
    html! {
        @for tick in ticks { (tick) }
        @for date in dates(axis, along) {
            (text(date.left, top - 22.0 - date.level as f64 * LEVEL, SMALL, date.words))
        }
        @for one in axis.stretches.iter().filter(|one| one.cut.is_some()) {
            @let middle = middle(along, one.from_min, one.to_min);
            rect x=(n(middle - 3.0)) y=(n(top - 4.0)) width="6" height=(n(bottom - top + 8.0)) fill=(PRINT.paper.css()) {}
            @for side in [middle - 3.0, middle + 3.0] {
                line x1=(n(side)) x2=(n(side)) y1=(n(top - 4.0)) y2=(n(bottom + 4.0)) stroke=(PRINT.ink.css()) stroke-width="0.8" stroke-dasharray="2 2" {}
            }
        }
        @for cut in cuts(axis, along) {
            (text(cut.left, bottom + 15.0 + cut.level as f64 * LEVEL, SMALL, cut.words))
        }
        line x1="10" x2=(n(along.wide - RIGHT)) y1=(n(bottom)) y2=(n(bottom)) stroke=(PRINT.ink.css()) stroke-width="0.8" {}
    }
}

#[cfg(test)]
mod tests {
    use super::{APART, SMALL, levels};
    use crate::figure::svg::width;

    #[test]
    fn labels_of_one_level_never_meet() {
        let words = [
            "3 h 54 min",
            "2 h 50 min",
            "11 h",
            "9 h 5 min",
            "2 h 31 min",
        ];
        for apart in [0.0, 5.0, 34.0, 60.0] {
            let places = words
                .iter()
                .enumerate()
                .map(|(at, words)| (*words, 20.0 + at as f64 * apart));
            let all = levels(places, 150.0);
            for (at, one) in all.iter().enumerate() {
                assert!(one.left >= 2.0 && one.left + width(SMALL, one.words) <= 150.0);
                for other in all[..at].iter().filter(|other| other.level == one.level) {
                    let (first, second) = if other.left < one.left {
                        (other, one)
                    } else {
                        (one, other)
                    };
                    assert!(first.left + width(SMALL, first.words) + APART <= second.left);
                }
            }
        }
    }
}
