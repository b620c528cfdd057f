//! A bake: the oven's air, the crust and the middle over minutes, the crust's colour below.

use super::svg::{Anchor, SMALL, TEXT, Type, WIDE, Weave, block, fill, n, paper, pattern, text};
use crate::palette::{CRUST, PRINT};
use bake_words::shade_place;
use edit::ledger::happens::drawn::{BakeDrawing, Drawn, Line};
use maud::{Markup, html};

/// The field of the drawing.
const LEFT: f64 = 40.0;
const RIGHT: f64 = 322.0;
const HIGH: f64 = 220.0;
/// Room of the words on a line.
const WORDS: f64 = 135.0;
/// The strip of colours.
const STRIP: f64 = 20.0;

/// The figure.
pub fn bake(drawing: &BakeDrawing) -> String {
    let mut top = 12.0;
    let (title, high) = block(10.0, top + TEXT, WIDE - 20.0, Type::BOLD, &drawing.title);
    top += high + 6.0;
    let (about, high) = block(10.0, top + SMALL, WIDE - 20.0, Type::SOFT, &drawing.about);
    top += high + 34.0;
    let floor = top + HIGH;
    let x = |share: f64| LEFT + share * (RIGHT - LEFT);
    let y = |share: f64| floor - share * HIGH;
    let strip = floor + 44.0;
    let drawn = html! {
        (title) (about)
        (text(LEFT - 6.0, top - 10.0, Type::SOFT.at(Anchor::End), "°C"))
        (text(RIGHT + 6.0, top - 10.0, Type::SOFT, "°F"))
        @if let Some(window) = &drawing.window {
            rect x=(n(x(window.from))) y=(n(top)) width=(n(x(window.to) - x(window.from))) height=(n(HIGH))
                fill=(fill("recipe")) {}
            (text(x(window.to).min(RIGHT), top - 20.0, Type::SOFT.at(Anchor::End), &window.shown))
        }
        @for (tick, fahrenheit) in &drawing.degrees {
            line x1=(n(LEFT)) x2=(n(RIGHT)) y1=(n(y(tick.at))) y2=(n(y(tick.at))) stroke=(PRINT.rule.css()) stroke-width="0.4" {}
            (text(LEFT - 6.0, y(tick.at) + 4.0, Type::SOFT.at(Anchor::End), &tick.shown))
            (text(RIGHT + 6.0, y(tick.at) + 4.0, Type::SOFT, fahrenheit))
        }
        @for tick in &drawing.minutes {
            line x1=(n(x(tick.at))) x2=(n(x(tick.at))) y1=(n(floor)) y2=(n(floor + 5.0)) stroke=(PRINT.ink.css()) stroke-width="1" {}
            (text(x(tick.at), floor + 17.0, Type::SOFT.at(Anchor::Middle), &tick.shown))
        }
        (text(RIGHT, floor + 31.0, Type::SOFT.at(Anchor::End), "minutes in the oven"))
        line x1=(n(LEFT)) x2=(n(RIGHT)) y1=(n(floor)) y2=(n(floor)) stroke=(PRINT.ink.css()) stroke-width="1" {}
        line x1=(n(x(drawing.done.at))) x2=(n(x(drawing.done.at))) y1=(n(top - 8.0)) y2=(n(floor)) stroke=(PRINT.ink.css()) stroke-width="1.2" {}
        (done(drawing, x(drawing.done.at), top))
        @for line in &drawing.lines { (path(line, x, y)) }
        @for (words, place) in spread(drawing, floor) { (words_of(words, x(drawing.done.at), place)) }
        (text(LEFT, strip - 6.0, Type::SOFT, "colour of the crust"))
        @for (shade, band) in &drawing.colours {
            @let wide = x(band.to) - x(band.from);
            rect x=(n(x(band.from))) y=(n(strip)) width=(n(wide)) height=(n(STRIP))
                fill=(fill(bake_words::ID[shade_place(*shade)])) stroke=(PRINT.ink.css()) stroke-width="0.6" {}
            @if wide > 7.0 * band.shown.chars().count() as f64 {
                (text(x(band.from) + 5.0, strip + 14.0, Type::SOFT.in_colour(PRINT.ink), &band.shown))
            }
        }
        @let below = drawing.colours.iter().filter(|(_, band)| x(band.to) - x(band.from) <= 7.0 * band.shown.chars().count() as f64);
        @for (at, (_, band)) in below.enumerate() {
            (text(x(band.from), strip + STRIP + 14.0 + 13.0 * at as f64, Type::SOFT, &format!("↑ {}", band.shown)))
        }
    };
    let narrow = drawing
        .colours
        .iter()
        .filter(|(_, band)| x(band.to) - x(band.from) <= 7.0 * band.shown.chars().count() as f64);
    let high = strip + STRIP + 12.0 + 13.0 * narrow.count() as f64;
    let patterns = html! {
        (pattern("recipe", PRINT.paper, PRINT.rule, Weave::Slant(6.0)))
        @for (at, weave) in bake_words::WEAVES.into_iter().enumerate() {
            (pattern(bake_words::ID[at], CRUST[at], PRINT.ink, weave))
        }
    };
    paper(&drawing.title, &drawing.about, high, &patterns, &drawn)
}

/// The words on the line of the end, to the side that has room.
fn done(drawing: &BakeDrawing, x: f64, top: f64) -> Markup {
    let anchor = if drawing.done.at > 0.5 {
        Anchor::End
    } else {
        Anchor::Start
    };
    let look = Type {
        size: SMALL,
        ..Type::BOLD.at(anchor)
    };
    text(x, top - 7.0 + 1.0, look, &drawing.done.shown)
}

fn path(line: &Line, x: impl Fn(f64) -> f64, y: impl Fn(f64) -> f64) -> Markup {
    let mut d = String::new();
    for (at, (along, up)) in line.points.iter().enumerate() {
        d.push_str(&format!(
            "{}{} {}",
            if at == 0 { 'M' } else { 'L' },
            n(x(*along)),
            n(y(*up))
        ));
    }
    let (colour, wide, dashes) = match line.of {
        Drawn::Oven => (PRINT.crust, "1.4", Some("6 3")),
        Drawn::Crust => (PRINT.crust, "2.2", None),
        Drawn::Middle => (PRINT.milk, "2.2", Some("1.5 2.5")),
    };
    html! {
        path d=(d) fill="none" stroke=(colour.css()) stroke-width=(wide) stroke-dasharray=[dashes] stroke-linejoin="round" {}
    }
}

/// Where the words of each line stand: over its end, those of the middle under it; none over another.
fn spread(drawing: &BakeDrawing, floor: f64) -> Vec<(&Line, f64)> {
    let mut all: Vec<(&Line, f64)> = drawing
        .lines
        .iter()
        .filter_map(|line| {
            let last = line.points.last()?;
            let up = |share: f64| floor - share * HIGH;
            if line.of != Drawn::Middle {
                return Some((line, up(last.1) - 6.0));
            }
            // Under the lowest point that the words would lie on.
            let from = last.0 - WORDS / (RIGHT - LEFT);
            let over = line.points.iter().filter(|point| point.0 >= from);
            let low = over.map(|point| up(point.1)).fold(up(last.1), f64::max);
            Some((line, (low + 14.0).min(floor - 6.0)))
        })
        .collect();
    all.sort_by(|one, other| one.1.total_cmp(&other.1));
    for at in 1..all.len() {
        let least = all[at - 1].1 + 15.0;
        all[at].1 = all[at].1.max(least);
    }
    all
}

fn words_of(line: &Line, end: f64, y: f64) -> Markup {
    let colour = match line.of {
        Drawn::Oven | Drawn::Crust => PRINT.crust,
        Drawn::Middle => PRINT.milk,
    };
    let look = Type {
        size: SMALL,
        colour,
        ..Type::BOLD.at(Anchor::End)
    };
    text(end - 5.0, y, look, &line.shown)
}

/// The patterns of a crust that darkens.
mod bake_words {
    use super::Weave;
    use bake::simulate::Shade;

    pub const ID: [&str; 5] = ["dough", "pale", "golden", "brown", "dark"];
    pub const WEAVES: [Weave; 5] = [
        Weave::Plain,
        Weave::Dots(7.0),
        Weave::Dots(4.5),
        Weave::Slant(4.0),
        Weave::Plain,
    ];

    pub const fn shade_place(shade: Option<Shade>) -> usize {
        match shade {
            None => 0,
            Some(Shade::Pale) => 1,
            Some(Shade::Golden) => 2,
            Some(Shade::Brown) => 3,
            Some(Shade::Dark) => 4,
        }
    }
}
