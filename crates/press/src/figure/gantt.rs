//! A planned day lying across the page: a row for each dough, a bar for each thing that is done or waited for.
//!
//! Every kind of bar has a pattern of its own besides its shade, and the key below says which. Bars carry
//! their words where there is room, and else the number under which the table of the day has them.

use super::svg::{
    Anchor, SMALL, TEXT, Type, Weave, block, broken, fill, n, paper_of, pattern, text, width,
};
use crate::palette::{CRUST, PRINT};
use edit::ledger::timetable::{Axis, Lane, Stretch, TableLines, TableRow};
use maud::{Markup, html};
use plan::timetable::Kind;

/// Width of the paper, of the names, of the blank to the right.
const WIDE: f64 = 1120.0;
const NAMES: f64 = 168.0;
const RIGHT: f64 = 16.0;
/// A row and its bar.
const ROW: f64 = 24.0;
const BAR: f64 = 17.0;
/// A stretch that is drawn short.
const CUT: f64 = 34.0;
/// Clock times stand at least so far apart.
const APART: f64 = 46.0;

/// Words in a bar.
const BAR_WORDS: Type = Type {
    size: 10.5,
    ..Type::WORDS
};

/// A date over the clock.
const DATE: Type = Type {
    size: 10.0,
    ..Type::SOFT
};

/// The figure.
pub fn gantt(table: &TableLines) -> String {
    let along = Along::of(&table.axis);
    let (title, high) = block(
        10.0,
        14.0 + TEXT,
        WIDE - 20.0,
        Type::BOLD,
        &format!("{}. {}", table.title, table.when),
    );
    let top = 14.0 + high + 44.0;
    let bottom = top + table.lanes.len() as f64 * ROW;
    let mut rows = Vec::new();
    let mut y = top;
    for (at, lane) in table.lanes.iter().enumerate() {
        let first = !lane.name.is_empty();
        rows.push(html! {
            @if first && at > 0 {
                line x1="10" x2=(n(WIDE - RIGHT)) y1=(n(y)) y2=(n(y)) stroke=(PRINT.rule.css()) stroke-width="0.5" {}
            }
        });
        rows.push(lane_of(table, lane, y, &along));
        y += ROW;
    }
    let mut names = Vec::new();
    for (at, lane) in table.lanes.iter().enumerate() {
        if lane.name.is_empty() {
            continue;
        }
        let deep = table.lanes[at + 1..]
            .iter()
            .take_while(|below| below.name.is_empty())
            .count();
        let room = 1 + deep;
        for (line, words) in broken(&lane.name, NAMES - 18.0, Type::SOFT)
            .iter()
            .take(2 * room)
            .enumerate()
        {
            let y = top + at as f64 * ROW + 11.0 + line as f64 * 11.5;
            names.push(text(10.0, y, Type::SOFT.in_colour(PRINT.ink), words));
        }
    }
    let (key, key_high) = key(table, bottom + 26.0);
    let about = format!(
        "{}. The clock runs from left to right; each row is a dough or what is shared. The table of the day has the same entries by number.",
        table.when
    );
    let patterns =
        html! { @for kind in Kind::ALL { @for cold in [false, true] { (weave(kind, cold)) } } };
    let drawn = html! {
        (title)
        (clock(&table.axis, &along, top, bottom))
        @for row in rows { (row) }
        @for name in names { (name) }
        line x1="10" x2=(n(WIDE - RIGHT)) y1=(n(bottom)) y2=(n(bottom)) stroke=(PRINT.ink.css()) stroke-width="0.8" {}
        (key)
    };
    let high = bottom + 26.0 + key_high + 8.0;
    paper_of((WIDE, high), &table.title, &about, &patterns, &drawn)
}

/// Where a minute lies on the paper: stretches drawn to one scale, empty ones short.
struct Along {
    /// From minute, to minute, from place, to place.
    pieces: Vec<(f64, f64, f64, f64)>,
}

impl Along {
    fn of(axis: &Axis) -> Self {
        let long = |one: &Stretch| (one.to_min - one.from_min) as f64;
        let whole = axis.stretches.iter().filter(|one| one.cut.is_none());
        let minutes: f64 = whole.map(long).sum();
        let cuts = axis
            .stretches
            .iter()
            .filter(|one| one.cut.is_some())
            .count();
        let room = WIDE - RIGHT - NAMES - cuts as f64 * CUT;
        let scale = room / minutes.max(1.0);
        let mut x = NAMES;
        let mut pieces = Vec::new();
        for one in &axis.stretches {
            let wide = if one.cut.is_some() {
                CUT
            } else {
                long(one) * scale
            };
            pieces.push((one.from_min as f64, one.to_min as f64, x, x + wide));
            x += wide;
        }
        Self { pieces }
    }

    fn at(&self, minute: i64) -> f64 {
        let minute = minute as f64;
        let piece = self.pieces.iter().find(|piece| minute <= piece.1);
        match piece.or(self.pieces.last()) {
            Some((from, to, left, right)) if to > from => {
                let share = ((minute - from) / (to - from)).clamp(0.0, 1.0);
                left + share * (right - left)
            }
            _ => NAMES,
        }
    }
}

/// Hours as upright lines with their clock, and a break where time was taken out.
fn clock(axis: &Axis, along: &Along, top: f64, bottom: f64) -> Markup {
    let mut last = f64::NEG_INFINITY;
    let mut dated_to = f64::NEG_INFINITY;
    let mut ticks = Vec::new();
    for (minute, words, date) in &axis.ticks {
        let x = along.at(*minute);
        let told = x - last >= APART;
        if told {
            last = x;
        }
        // A date that would stand on the one before it stands above it.
        let mut date_y = top - 22.0;
        if let Some(date) = date {
            if x < dated_to {
                date_y -= 12.0;
            }
            dated_to = x + width(DATE, date) + 6.0;
        }
        ticks.push(html! {
            line x1=(n(x)) x2=(n(x)) y1=(n(top - 4.0)) y2=(n(bottom)) stroke=(PRINT.rule.css()) stroke-width="0.4" {}
            @if told { (text(x, top - 8.0, Type::SOFT.at(Anchor::Middle), words)) }
            @if let Some(date) = date { (text(x - 4.0, date_y, DATE, date)) }
        });
    }
    let cuts = axis.stretches.iter().filter_map(|one| {
        let words = one.cut.as_ref()?;
        let (left, right) = (along.at(one.from_min), along.at(one.to_min));
        let middle = f64::midpoint(left, right);
        Some(html! {
            rect x=(n(middle - 3.0)) y=(n(top - 4.0)) width="6" height=(n(bottom - top + 8.0)) fill=(PRINT.paper.css()) {}
            @for side in [middle - 3.0, middle + 3.0] {
                line x1=(n(side)) x2=(n(side)) y1=(n(top - 4.0)) y2=(n(bottom + 4.0)) stroke=(PRINT.ink.css()) stroke-width="0.8" stroke-dasharray="2 2" {}
            }
            (text(middle, bottom + 15.0, Type { size: 9.5, ..Type::SOFT.at(Anchor::Middle) }, words))
        })
    });
    html! { @for tick in ticks { (tick) } @for cut in cuts { (cut) } }
}

/// The bars of a row.
fn lane_of(table: &TableLines, lane: &Lane, y: f64, along: &Along) -> Markup {
    let place = |at: usize| {
        let row = &table.rows[at];
        (along.at(row.begins_min), along.at(row.ends_min))
    };
    let bars = lane.rows.iter().enumerate().map(|(nth, at)| {
        let row = &table.rows[*at];
        let (left, right) = place(*at);
        let free_to = lane
            .rows
            .get(nth + 1)
            .map_or(WIDE - RIGHT, |next| place(*next).0);
        bar(row, (left, right, free_to), y)
    });
    html! { @for bar in bars { (bar) } }
}

fn bar(row: &TableRow, (left, right, free_to): (f64, f64, f64), y: f64) -> Markup {
    let top = y + (ROW - BAR) / 2.0;
    let base = top + BAR / 2.0 + 3.8;
    let number = row.number.to_string();
    let full = width(BAR_WORDS, &row.words);
    let told = format!("{}, {} to {}", row.words, row.begins.shown, row.ends.shown);
    if row.ends_min == row.begins_min {
        let mark = format!(
            "M{} {}l5 {}l-5 {}l-5 {}z",
            n(left),
            n(top),
            n(BAR / 2.0),
            n(BAR / 2.0),
            n(-BAR / 2.0)
        );
        let words = if full + 10.0 <= free_to - left {
            row.words.clone()
        } else {
            number
        };
        return html! {
            g { title { (told) }
                path d=(mark) fill=(PRINT.ink.css()) {}
                (text(left + 8.0, base, BAR_WORDS, &words)) }
        };
    }
    let wide = (right - left).max(1.5);
    let inside = full + 8.0 <= wide;
    let beside = !inside && full + 8.0 <= free_to - right;
    let small = Type {
        size: 9.0,
        ..Type::WORDS.at(Anchor::Middle)
    };
    let (stroke, dashed) = match row.kind {
        Kind::Scene => ("1.8", None),
        Kind::Waits | Kind::Pause => ("0.8", Some("3 2")),
        _ => ("0.8", None),
    };
    html! {
        g { title { (told) }
            rect x=(n(left)) y=(n(top)) width=(n(wide)) height=(n(BAR)) fill=(ground(row.kind, row.cold))
                stroke=(PRINT.ink.css()) stroke-width=(stroke) stroke-dasharray=[dashed] {}
            @if inside {
                (text(left + 4.0, base, BAR_WORDS, &row.words))
            } @else if beside {
                (text(right + 4.0, base, BAR_WORDS, &row.words))
            } @else if wide >= width(small, &number) {
                (text(left + wide / 2.0, base - 0.6, small, &number))
            }
        }
    }
}

/// The ground of a kind: a colour alone, or a pattern.
fn ground(kind: Kind, cold: bool) -> String {
    match kind {
        Kind::Work => PRINT.ink_soft.css(),
        Kind::Scene | Kind::Pause | Kind::Mark => PRINT.paper.css(),
        _ => fill(&id(kind, cold)),
    }
}

fn id(kind: Kind, cold: bool) -> String {
    let cold = if cold && cold_looks(kind) {
        "-cold"
    } else {
        ""
    };
    format!("{}{cold}", kind.word().replace(' ', "-"))
}

/// What stands or waits in the refrigerator is drawn otherwise than what stands in the room.
const fn cold_looks(kind: Kind) -> bool {
    matches!(kind, Kind::Stands | Kind::Waits)
}

/// The pattern of a kind.
fn weave(kind: Kind, cold: bool) -> Markup {
    let pale = CRUST[0];
    let (ground, ink, weave) = match (kind, cold) {
        (Kind::Stands | Kind::Waits, true) => (PRINT.paper, PRINT.milk, Weave::Slant(3.0)),
        (_, true) => return html! {},
        (Kind::Stands, false) => (pale, PRINT.rule, Weave::Bubbles),
        (Kind::Waits, false) => (PRINT.paper, PRINT.rule, Weave::Dots(5.0)),
        (Kind::Ready, false) => (PRINT.paper, PRINT.ink, Weave::Dots(3.2)),
        (Kind::Heats, false) => (PRINT.paper, PRINT.crust, Weave::Slant(5.0)),
        (Kind::Bakes, false) => (CRUST[2], PRINT.crust, Weave::Cross(5.0)),
        (Kind::Cools, false) => (PRINT.paper, PRINT.rule, Weave::Cross(7.0)),
        (Kind::Work | Kind::Scene | Kind::Pause | Kind::Mark, false) => return html! {},
    };
    pattern(&id(kind, cold), ground, ink, weave)
}

/// Each kind that the day has, with its pattern and its word, in lines.
fn key(table: &TableLines, y: f64) -> (Markup, f64) {
    let mut shown = Vec::new();
    let (mut x, mut line) = (10.0, 0.0);
    for kind in Kind::ALL {
        for cold in [false, true] {
            let has = |row: &TableRow| row.kind == kind && (row.cold && cold_looks(kind)) == cold;
            if kind == Kind::Mark || !table.rows.iter().any(has) {
                continue;
            }
            let words = if cold {
                format!("{} in the cold", kind.word())
            } else {
                kind.word().to_owned()
            };
            let wide = 34.0 + width(Type::SOFT, &words) + 18.0;
            if x + wide > WIDE - RIGHT {
                x = 10.0;
                line += 20.0;
            }
            let dashed = matches!(kind, Kind::Waits | Kind::Pause).then_some("3 2");
            let edge = if kind == Kind::Scene { "1.8" } else { "0.8" };
            shown.push(html! {
                rect x=(n(x)) y=(n(y + line)) width="26" height="13" fill=(ground(kind, cold))
                    stroke=(PRINT.ink.css()) stroke-width=(edge) stroke-dasharray=[dashed] {}
                (text(x + 32.0, y + line + 10.5, Type { size: SMALL, ..Type::WORDS }, &words))
            });
            x += wide;
        }
    }
    let drawn = html! { @for one in shown { (one) } };
    (drawn, line + 20.0)
}
