//! A piece cut through at chosen minutes: each warmth a pattern, the dry crust the darkest.

use super::svg::{Anchor, SMALL, TEXT, Type, WIDE, Weave, block, fill, n, paper, pattern, text};
use crate::palette::{PRINT, WARMTH};
use edit::ledger::happens::drawn::{SectionDrawing, View, Warmth};
use maud::{Markup, html};
use std::fmt::Write;

/// Room of one view, two in a row.
const VIEW_WIDE: f64 = 158.0;
const VIEW_MOST_HIGH: f64 = 150.0;
const GAP: f64 = 20.0;

const WEAVES: [(&str, Weave); 6] = [
    ("dough", Weave::Plain),
    ("warm", Weave::Dots(7.0)),
    ("sets", Weave::Dots(4.0)),
    ("crumb", Weave::Slant(6.0)),
    ("hot", Weave::Cross(5.0)),
    ("crust", Weave::Plain),
];

/// The figure.
pub fn section(drawing: &SectionDrawing) -> String {
    let mut y = 12.0;
    let (title, high) = block(10.0, y + TEXT, WIDE - 20.0, Type::BOLD, &drawing.title);
    y += high + 6.0;
    let (about, high) = block(10.0, y + SMALL, WIDE - 20.0, Type::SOFT, &drawing.about);
    y += high + 10.0;
    let tall = (VIEW_WIDE / drawing.wide_to_high).min(VIEW_MOST_HIGH);
    let wide = tall * drawing.wide_to_high;
    let mut views = Vec::new();
    for pair in drawing.views.chunks(2) {
        for (at, view) in pair.iter().enumerate() {
            let left = 12.0 + at as f64 * (VIEW_WIDE + GAP);
            views.push(view_of(
                view,
                left + (VIEW_WIDE - wide) / 2.0,
                y,
                (wide, tall),
            ));
        }
        y += tall + 40.0;
    }
    let key_top = y + 6.0;
    let key = html! {
        @for (at, key) in drawing.key.iter().enumerate() {
            @let y = key_top + at as f64 * 20.0;
            rect x="12" y=(n(y)) width="26" height="14" fill=(fill(id(key.warmth))) stroke=(PRINT.ink.css()) stroke-width="0.8" {}
            (text(46.0, y + 11.0, Type::SOFT.in_colour(PRINT.ink), &key.shown))
        }
    };
    y = key_top + drawing.key.len() as f64 * 20.0;
    let patterns = html! {
        @for (at, (id, weave)) in WEAVES.into_iter().enumerate() {
            (pattern(id, WARMTH[at], PRINT.ink_soft, weave))
        }
    };
    let drawn = html! { (title) (about) @for view in views { (view) } (key) };
    paper(&drawing.title, &drawing.about, y + 6.0, &patterns, &drawn)
}

fn id(warmth: Warmth) -> &'static str {
    let place = Warmth::ALL.iter().position(|one| *one == warmth);
    WEAVES[place.unwrap_or(0)].0
}

/// A view on the floor of its room, its minutes and its middle under it.
fn view_of(view: &View, left: f64, top: f64, (wide, tall): (f64, f64)) -> Markup {
    let (own_wide, own_tall) = (wide * view.size.0, tall * view.size.1);
    let left = left + (wide - own_wide) / 2.0;
    let first = top + tall - own_tall;
    let row_high = own_tall / view.rows.len().max(1) as f64;
    let paths: Vec<(Warmth, String)> = Warmth::ALL
        .into_iter()
        .map(|warmth| {
            let mut d = String::new();
            for (at, row) in view.rows.iter().enumerate() {
                let y = n(first + at as f64 * row_high);
                for run in row.iter().filter(|run| run.warmth == warmth) {
                    let (from, to) = (left + run.from * own_wide, left + run.to * own_wide);
                    // Rows overlap by a hair, so that no light comes through between them.
                    let high = n(row_high + 0.15);
                    let _ = write!(d, "M{} {y}H{}v{high}H{}z", n(from), n(to), n(from));
                }
            }
            (warmth, d)
        })
        .collect();
    let middle = left + own_wide / 2.0;
    html! {
        @for (warmth, d) in &paths {
            @if !d.is_empty() { path d=(d) fill=(fill(id(*warmth))) {} }
        }
        rect x=(n(left)) y=(n(first)) width=(n(own_wide)) height=(n(own_tall)) fill="none" stroke=(PRINT.ink.css()) stroke-width="1" {}
        (text(middle, top + tall + 15.0, Type { size: SMALL, ..Type::BOLD.at(Anchor::Middle) }, &view.shown))
        (text(middle, top + tall + 29.0, Type::SOFT.at(Anchor::Middle), &view.middle))
    }
}
