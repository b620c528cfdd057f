//! A planned day lying across the page: a row for each dough, a bar for each thing that is done or waited for.
//!
//! Every kind of bar has a pattern of its own besides its shade, and the key below says which. Bars carry
//! their words where there is room, and else the number under which the table of the day has them.

mod looks;
mod marks;

use super::svg::{Anchor, TEXT, Type, block, broken, n, paper_of, text, width};
use crate::palette::PRINT;
use edit::ledger::timetable::{Axis, Lane, Stretch, TableLines, TableRow};
use looks::ground;
use maud::{Markup, html};
use plan::timetable::Kind;

/// Width of the names, of the blank to the right.
const NAMES: f64 = 168.0;
const RIGHT: f64 = 16.0;
/// Above and below a bar in its row.
const EDGE: f64 = 7.0;
/// A stretch that is drawn short.
const CUT: f64 = 34.0;
/// A line of a name, and of words in a bar.
const LEAD: f64 = 11.5;

/// Words in a bar.
const BAR_WORDS: Type = Type {
    size: 10.5,
    ..Type::WORDS
};

/// The size of a drawing.
#[derive(Clone, Copy)]
struct Size {
    wide: f64,
    /// A row at the least.
    row: f64,
    /// The title stands on it, not on the paper around it.
    titled: bool,
}

/// On a screen and as a file of its own.
const SCREEN: Size = Size {
    wide: 1120.0,
    row: 31.0,
    titled: true,
};

/// On paper: the same type is larger there.
const PAPER_WIDE: f64 = 940.0;
/// Rows that have more room than this are no easier to read.
const HIGHEST_ROW: f64 = 46.0;

/// The figure.
pub fn gantt(table: &TableLines) -> String {
    drawn(table, SCREEN).0
}

/// The figure without its title, as high as a paper of this width and height has room for.
pub fn gantt_on(table: &TableLines, (wide_mm, high_mm): (f64, f64)) -> String {
    let size = |row: f64| Size {
        wide: PAPER_WIDE,
        row,
        titled: false,
    };
    let room = PAPER_WIDE * high_mm / wide_mm;
    let (narrow, high) = drawn(table, size(SCREEN.row));
    let rows = table.lanes.len().max(1) as f64;
    let more = ((room - high) / rows).clamp(0.0, HIGHEST_ROW - SCREEN.row);
    if more < 1.0 {
        return narrow;
    }
    drawn(table, size(SCREEN.row + more)).0
}

/// The drawing and its height.
fn drawn(table: &TableLines, size: Size) -> (String, f64) {
    let along = Along::of(&table.axis, size.wide);
    let words = format!("{}. {}", table.title, table.when);
    let (title, high) = if size.titled {
        block(10.0, 14.0 + TEXT, size.wide - 20.0, Type::BOLD, &words)
    } else {
        (html! {}, 0.0)
    };
    let top = 18.0 + high + marks::above(&table.axis, &along);
    let (rows, bottom) = lanes(table, &along, size.row, top);
    let (key, key_high) = looks::key(
        table,
        size.wide,
        bottom + 12.0 + marks::below(&table.axis, &along),
    );
    let about = format!(
        "{}. The clock runs from left to right; each row is a dough or what is shared. The table of the day has the same entries by number.",
        table.when
    );
    let drawn = html! {
        (title)
        (marks::quiet(table, &along, top, bottom))
        (marks::clock(&table.axis, &along, top, bottom))
        (rows)
        (key)
    };
    let high = bottom + 12.0 + marks::below(&table.axis, &along) + key_high + 8.0;
    let whole = paper_of(
        (size.wide, high),
        &table.title,
        &about,
        &looks::patterns(),
        &drawn,
    );
    (whole, high)
}

/// Every row with its name, from a height on; and where the last one ends.
fn lanes(table: &TableLines, along: &Along, row: f64, top: f64) -> (Markup, f64) {
    let mut parts = Vec::new();
    let mut y = top;
    for (at, lane) in table.lanes.iter().enumerate() {
        let mut high = row;
        if !lane.name.is_empty() {
            let below = table.lanes[at + 1..].iter();
            let deep = below.take_while(|below| below.name.is_empty()).count();
            let name = broken(&lane.name, NAMES - 18.0, Type::SOFT);
            // A name that is longer than its rows makes the first of them higher.
            let tall = name.len() as f64 * LEAD + 8.0;
            high = high.max(tall - deep as f64 * row);
            let first = y + (high - (tall - 8.0)).max(8.0) / 2.0 + 9.0;
            parts.push(html! {
                @if at > 0 {
                    line x1="10" x2=(n(along.wide - RIGHT)) y1=(n(y)) y2=(n(y)) stroke=(PRINT.rule.css()) stroke-width="0.5" {}
                }
                @for (line, words) in name.iter().enumerate() {
                    (text(10.0, first + line as f64 * LEAD, Type::SOFT.in_colour(PRINT.ink), words))
                }
            });
        }
        parts.push(lane_of(table, lane, (y, high, row), along));
        y += high;
    }
    (html! { @for part in parts { (part) } }, y)
}

/// Where a minute lies on the paper: stretches drawn to one scale, empty ones short.
struct Along {
    /// From minute, to minute, from place, to place.
    pieces: Vec<(f64, f64, f64, f64)>,
    /// The width of the paper.
    wide: f64,
}

impl Along {
    fn of(axis: &Axis, wide: f64) -> Self {
        let long = |one: &Stretch| (one.to_min - one.from_min) as f64;
        let whole = axis.stretches.iter().filter(|one| one.cut.is_none());
        let minutes: f64 = whole.map(long).sum();
        let cuts = axis
            .stretches
            .iter()
            .filter(|one| one.cut.is_some())
            .count();
        let room = wide - RIGHT - NAMES - cuts as f64 * CUT;
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
        Self { pieces, wide }
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

/// The bars of a row that lies so high, is so high, and has bars as high as a row of that height.
fn lane_of(
    table: &TableLines,
    lane: &Lane,
    (y, high, row): (f64, f64, f64),
    along: &Along,
) -> Markup {
    let place = |at: usize| {
        let row = &table.rows[at];
        (along.at(row.begins_min), along.at(row.ends_min))
    };
    let tall = row - EDGE;
    let top = y + (high - tall) / 2.0;
    let bars = lane.rows.iter().enumerate().map(|(nth, at)| {
        let (left, right) = place(*at);
        let free_to = lane
            .rows
            .get(nth + 1)
            .map_or(along.wide - RIGHT, |next| place(*next).0);
        bar(&table.rows[*at], (left, right, free_to), (top, tall))
    });
    html! { @for bar in bars { (bar) } }
}

/// Lines of words about a height, on paper of their own, so that no line and no pattern runs through them.
fn words(x: f64, middle: f64, look: Type, lines: &[String]) -> Markup {
    let deep = lines.len().saturating_sub(1) as f64 * LEAD;
    let first = middle + look.size * 0.36 - deep / 2.0;
    let wide = lines
        .iter()
        .map(|line| width(look, line))
        .fold(0.0, f64::max);
    let left = if look.anchor == Anchor::Middle {
        x - wide / 2.0
    } else {
        x
    };
    html! {
        rect x=(n(left - 1.0)) y=(n(first - look.size * 0.85)) width=(n(wide + 2.0)) height=(n(look.size * 1.15 + deep))
            fill=(PRINT.paper.css()) {}
        @for (line, words) in lines.iter().enumerate() {
            (text(x, first + line as f64 * LEAD, look, words))
        }
    }
}

/// What is written of an entry in so much room: its words in as many lines as there is height for, or nothing.
fn fitting(said: &str, room: f64, tall: f64) -> Option<Vec<String>> {
    let most = ((tall - 2.0) / LEAD).floor();
    let lines = broken(said, room, BAR_WORDS);
    let narrow = lines.iter().all(|line| width(BAR_WORDS, line) <= room);
    // A word that was cut in two is worse than a number.
    let mut single = said.split(' ');
    let whole = single.all(|word| width(BAR_WORDS, word) <= room);
    (narrow && whole && lines.len() as f64 <= most).then_some(lines)
}

fn bar(row: &TableRow, (left, right, free_to): (f64, f64, f64), (top, tall): (f64, f64)) -> Markup {
    let middle = top + tall / 2.0;
    let number = [row.number.to_string()];
    let told = format!("{}, {} to {}", row.words, row.begins.shown, row.ends.shown);
    let small = Type {
        size: 9.0,
        ..Type::WORDS
    };
    if row.ends_min == row.begins_min {
        let half = 8.5;
        let mark = format!(
            "M{} {}l5 {}l-5 {}l-5 {}z",
            n(left),
            n(middle - half),
            n(half),
            n(half),
            n(-half)
        );
        let lines = fitting(&row.words, free_to - left - 12.0, tall);
        let numbered = free_to - left - 10.0 >= width(small, &number[0]);
        return html! {
            g { title { (told) }
                path d=(mark) fill=(PRINT.ink.css()) {}
                @if let Some(lines) = lines {
                    (words(left + 8.0, middle, BAR_WORDS, &lines))
                } @else if numbered {
                    (words(left + 8.0, middle, small, &number))
                }
            }
        };
    }
    let wide = (right - left).max(1.5);
    let inside = fitting(&row.words, wide - 8.0, tall);
    let beside = fitting(&row.words, free_to - right - 8.0, tall);
    let (stroke, dashed) = match row.kind {
        Kind::Scene => ("1.8", None),
        Kind::Waits | Kind::Pause => ("0.8", Some("3 2")),
        _ => ("0.8", None),
    };
    html! {
        g { title { (told) }
            rect x=(n(left)) y=(n(top)) width=(n(wide)) height=(n(tall)) fill=(ground(row.kind, row.cold))
                stroke=(PRINT.ink.css()) stroke-width=(stroke) stroke-dasharray=[dashed] {}
            @if let Some(lines) = inside {
                (words(left + 4.0, middle, BAR_WORDS, &lines))
            } @else if let Some(lines) = beside {
                (words(right + 4.0, middle, BAR_WORDS, &lines))
            } @else if wide >= width(small, &number[0]) {
                (words(left + wide / 2.0, middle, small.at(Anchor::Middle), &number))
            }
        }
    }
}
