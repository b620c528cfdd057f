//! A recipe in other kitchens: a strip of all of them, what decides it, and stated times beside written windows.

use super::svg::{
    Anchor, SMALL, TEXT, Type, WIDE, Weave, block, broken, fill, n, paper, pattern, text,
};
use crate::palette::{CRUST, Colour, PRINT, WARMTH};
use edit::ledger::others::{Drawn, Others, TimeDrawn};
use maud::{Markup, html};

/// Left and right edge of what is drawn.
const LEFT: f64 = 12.0;
const RIGHT: f64 = 348.0;
/// The strip is so high.
const STRIP: f64 = 44.0;
/// A bar is so high.
const BAR: f64 = 12.0;
/// How high the hills of the times are at most.
const HILL: f64 = 30.0;

/// Grounds and patterns of the strip's segments: no two alike without colour.
const SEGMENTS: [(&str, Colour, Weave); 10] = [
    ("well", PRINT.paper, Weave::Plain),
    ("s1", WARMTH[4], Weave::Plain),
    ("s2", WARMTH[2], Weave::Slant(5.0)),
    ("s3", WARMTH[1], Weave::Dots(6.0)),
    ("s4", CRUST[2], Weave::Cross(6.0)),
    ("s5", PRINT.paper, Weave::Slant(3.0)),
    ("s6", WARMTH[1], Weave::Cross(4.5)),
    ("s7", CRUST[1], Weave::Dots(4.0)),
    ("s8", WARMTH[3], Weave::Slant(7.0)),
    ("s9", CRUST[4], Weave::Plain),
];

fn patterns() -> Markup {
    html! {
        @for (id, ground, weave) in SEGMENTS { (pattern(id, ground, PRINT.ink, weave)) }
        (pattern("window", PRINT.paper, PRINT.milk, Weave::Slant(5.0)))
        (pattern("hill", WARMTH[2], PRINT.ink, Weave::Plain))
    }
}

/// Title and what stands under it; gives the drawing and where it ends.
fn head(title: &str, about: &str) -> (Markup, f64) {
    let mut top = 12.0;
    let (title, high) = block(LEFT, top + TEXT, RIGHT - LEFT, Type::BOLD, title);
    top += high + 6.0;
    let (about, high) = block(LEFT, top + SMALL, RIGHT - LEFT, Type::SOFT, about);
    (html! { (title) (about) }, top + high + 8.0)
}

/// All kitchens as one strip, and in words under it what each part is.
pub fn strip(others: &Others) -> String {
    let (head, mut y) = head(&others.title, &others.about);
    let mut x = LEFT;
    let mut parts = Vec::new();
    let mut words = Vec::new();
    let strip = y;
    y += STRIP + 14.0;
    for (at, (share, said)) in others.drawn.strip.iter().enumerate() {
        let (id, _, _) = SEGMENTS[at.min(SEGMENTS.len() - 1)];
        let wide = share * (RIGHT - LEFT);
        parts.push(html! {
            rect x=(n(x)) y=(n(strip)) width=(n(wide)) height=(n(STRIP)) fill=(fill(id)) stroke=(PRINT.ink.css()) stroke-width="0.8" {}
        });
        x += wide;
        let look = if at == 0 { Type::BOLD } else { Type::WORDS };
        words.push(html! {
            rect x=(n(LEFT)) y=(n(y)) width="18" height=(n(BAR)) fill=(fill(id)) stroke=(PRINT.ink.css()) stroke-width="0.8" {}
            (text(LEFT + 26.0, y + 10.5, look, said))
        });
        y += 20.0;
    }
    let note = "Each kitchen that is lost counts once, by what most of its faults come from.";
    let (note, high) = block(LEFT, y + SMALL + 2.0, RIGHT - LEFT, Type::SOFT, note);
    let drawn = html! { (head) @for part in parts { (part) } @for line in words { (line) } (note) };
    paper(
        &others.title,
        &others.about,
        y + high + 12.0,
        &patterns(),
        &drawn,
    )
}

/// What decides it: a bar for each, with how sure it is.
pub fn decides(others: &Others) -> String {
    let title = format!("{}: what decides it", others.title);
    let (head, mut y) = head(&title, &others.decides_about);
    let Drawn { decides, .. } = &others.drawn;
    let most = decides
        .iter()
        .map(|(_, _, to, _, _)| *to)
        .fold(0.1, f64::max);
    let x = |share: f64| LEFT + share / most * (RIGHT - LEFT);
    let mut rows = Vec::new();
    for (value, from, to, words, shown) in decides {
        let lines = broken(words, RIGHT - LEFT - 95.0, Type::WORDS);
        let first = y + TEXT;
        let under = first + 15.0 * (lines.len() as f64 - 1.0) + 5.0;
        rows.push(html! {
            @for (at, line) in lines.iter().enumerate() { (text(LEFT, first + 15.0 * at as f64, Type::WORDS, line)) }
            (text(RIGHT, first, Type::SOFT.at(Anchor::End), shown))
            rect x=(n(LEFT)) y=(n(under)) width=(n(x(*value) - LEFT)) height=(n(BAR)) fill=(fill("s1")) stroke=(PRINT.ink.css()) stroke-width="0.8" {}
            line x1=(n(x(*from))) x2=(n(x(*to).min(RIGHT))) y1=(n(under + BAR / 2.0)) y2=(n(under + BAR / 2.0)) stroke=(PRINT.ink.css()) stroke-width="1.6" {}
            @for end in [from, to] {
                line x1=(n(x(*end).min(RIGHT))) x2=(n(x(*end).min(RIGHT))) y1=(n(under + 1.0)) y2=(n(under + BAR - 1.0)) stroke=(PRINT.ink.css()) stroke-width="1.6" {}
            }
        });
        y = under + BAR + 12.0;
    }
    let drawn = html! { (head) @for row in rows { (row) } };
    paper(&title, &others.decides_about, y + 4.0, &patterns(), &drawn)
}

/// Each stated time: when the sign comes, as a hill, and the written window over it.
pub fn times(others: &Others) -> String {
    let title = format!("{}: stated times", others.title);
    let about = "For whoever waits for the sign. The hill: when it comes. The line under it: eight of ten. Slanting: what is written.";
    let (head, mut y) = head(&title, about);
    let mut rows = Vec::new();
    for time in &others.drawn.times {
        let lines = broken(&time.what, 185.0, Type::BOLD);
        let first = y + TEXT;
        rows.push(html! {
            @for (at, line) in lines.iter().enumerate() { (text(LEFT, first + 15.0 * at as f64, Type::BOLD, line)) }
            (text(RIGHT, first, Type::SOFT.at(Anchor::End), &time.shown))
        });
        y = first + 15.0 * (lines.len() as f64 - 1.0) + 10.0;
        rows.push(one_time(time, y));
        y += HILL + 42.0;
    }
    let drawn = html! { (head) @for row in rows { (row) } };
    paper(&title, about, y + 4.0, &patterns(), &drawn)
}

/// Minutes that stand under an axis, at most six of them.
fn ticks(to: f64) -> Vec<f64> {
    let steps = [
        1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 180.0, 240.0, 360.0, 720.0,
    ];
    let step = steps
        .into_iter()
        .find(|step| to / step <= 6.0)
        .unwrap_or(1440.0);
    let mut all = vec![0.0];
    let mut at = step;
    while at <= to {
        all.push(at);
        at += step;
    }
    all
}

fn one_time(time: &TimeDrawn, top: f64) -> Markup {
    let last = time.twentieths.len().saturating_sub(1);
    // The last twentieth may lie far out; the axis ends at nineteen of twenty, or behind what is written.
    let far = time
        .twentieths
        .get(last.saturating_sub(1))
        .copied()
        .unwrap_or(1.0);
    let to = 1.08 * far.max(time.written.map_or(0.0, |(_, high)| high)).max(1.0);
    let x = |minutes: f64| LEFT + (minutes / to).min(1.0) * (RIGHT - LEFT);
    let floor = top + HILL;
    // Between two twentieths a twentieth of the kitchens: the narrower, the higher; not higher than a
    // sixtieth of the axis allows, for many that stop at one minute are one line.
    let narrowest = to / 60.0;
    let pairs = time.twentieths.windows(2).filter(|pair| pair[0] < to);
    let parts: Vec<(f64, f64, f64)> = pairs
        .filter(|pair| pair[1] - pair[0] > to / 1000.0)
        .map(|pair| {
            (
                x(pair[0]),
                x(pair[1]),
                1.0 / (pair[1] - pair[0]).max(narrowest),
            )
        })
        .collect();
    let most = parts.iter().map(|(_, _, high)| *high).fold(1e-9, f64::max);
    let minutes = if to > 240.0 { "hours" } else { "minutes" };
    let shown = |at: f64| {
        if to > 240.0 {
            numerics::decimal::trimmed(at / 60.0, 1)
        } else {
            numerics::decimal::fixed(at, 0)
        }
    };
    html! {
        @if let Some((low, high)) = time.written {
            rect x=(n(x(low))) y=(n(top)) width=(n((x(high) - x(low)).max(2.0))) height=(n(HILL)) fill=(fill("window")) {}
        }
        @for (from, to, high) in &parts {
            @let tall = (HILL - 4.0) * high / most;
            rect x=(n(*from)) y=(n(floor - tall)) width=(n((to - from).max(0.3))) height=(n(tall)) fill=(fill("hill")) fill-opacity="0.75" stroke=(PRINT.ink.css()) stroke-width="0.3" {}
        }
        line x1=(n(LEFT)) x2=(n(RIGHT)) y1=(n(floor)) y2=(n(floor)) stroke=(PRINT.ink.css()) stroke-width="1" {}
        line x1=(n(x(time.holds.0))) x2=(n(x(time.holds.1))) y1=(n(floor + 4.0)) y2=(n(floor + 4.0)) stroke=(PRINT.ink.css()) stroke-width="3.5" {}
        @for at in ticks(to) {
            line x1=(n(x(at))) x2=(n(x(at))) y1=(n(floor)) y2=(n(floor + 8.0)) stroke=(PRINT.ink.css()) stroke-width="1" {}
            (text(x(at), floor + 20.0, Type::SOFT.at(Anchor::Middle), &shown(at)))
        }
        (text(RIGHT, floor + 31.0, Type::SOFT.at(Anchor::End), minutes))
    }
}

/// So wide is every figure of these.
const _: () = assert!(RIGHT < WIDE);
