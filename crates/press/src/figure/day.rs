//! The day running down: a step under the one before it, its dough beside it in a jar.

use super::svg::{
    Anchor, SMALL, TEXT, Type, WIDE, Weave, block, broken, fill, n, paper, pattern, text,
};
use crate::palette::{CRUST, PRINT};
use edit::ledger::happens::drawn::{DayDrawing, DayRow, DayStep, Jar, Stands, Window};
use maud::{Markup, html};

/// Right edge of the times, the line of the day, the words, the jars.
const TIMES: f64 = 68.0;
const LINE: f64 = 79.0;
const WORDS: f64 = 92.0;
const WORDS_TO: f64 = 270.0;
const JAR: f64 = 300.0;
const JAR_WIDE: f64 = 46.0;
/// A row of a standing dough is at least so high, its jar always.
const STANDING: f64 = 74.0;
const JAR_HIGH: f64 = 62.0;

/// The figure.
pub fn day(drawing: &DayDrawing) -> String {
    let mut y = 12.0;
    let (title, high) = block(10.0, y + TEXT, WIDE - 20.0, Type::BOLD, &drawing.title);
    y += high + 6.0;
    let (about, high) = block(10.0, y + SMALL, WIDE - 20.0, Type::SOFT, &drawing.about);
    y += high + 8.0;
    let mut rows = Vec::new();
    for row in &drawing.rows {
        match row {
            DayRow::Heading(heading) => {
                y += 14.0;
                rows.push(text(WORDS, y + TEXT, Type::BOLD, heading));
                y += 24.0;
            }
            DayRow::Step(step) => {
                let (drawn, high) = row_of(step, y);
                rows.push(drawn);
                y += high;
            }
        }
    }
    let patterns = html! {
        (pattern("dough", CRUST[0], PRINT.rule, Weave::Bubbles))
        (pattern("cold", PRINT.paper, PRINT.milk, Weave::Slant(3.0)))
        (pattern("recipe", PRINT.paper, PRINT.rule, Weave::Slant(3.5)))
    };
    let drawn = html! { (title) (about) @for row in rows { (row) } };
    paper(&drawing.title, &drawing.about, y + 12.0, &patterns, &drawn)
}

fn row_of(step: &DayStep, y: f64) -> (Markup, f64) {
    let mut lines: Vec<String> = Vec::new();
    for line in &step.lines {
        let to = if step.jar.is_some() {
            WORDS_TO
        } else {
            WIDE - 20.0
        };
        lines.extend(broken(line, to - WORDS, Type::SOFT));
    }
    let name = match &step.takes {
        Some(takes) => format!("{}, {takes}", step.what),
        None => step.what.clone(),
    };
    let name = if step.differs {
        format!("{name} ≠")
    } else {
        name
    };
    let gauge = step.window.map_or(0.0, |_| 15.0);
    let words = 17.0 + lines.len() as f64 * 14.0 + gauge + 9.0;
    let least = if step.jar.is_some() {
        STANDING * step.tall
    } else {
        0.0
    };
    let high = words.max(least);
    let under = y + 13.0 + lines.len() as f64 * 14.0 + 6.0;
    let drawn = html! {
        (text(TIMES, y + 12.0, Type::SOFT.at(Anchor::End), &step.begins))
        (stretch(step.stands, y, high))
        circle cx=(n(LINE)) cy=(n(y + 8.0)) r="3.2" fill=(PRINT.paper.css()) stroke=(PRINT.ink.css()) stroke-width="1.4" {}
        (text(WORDS, y + 12.5, Type::BOLD, &name))
        @for (at, line) in lines.iter().enumerate() {
            (text(WORDS, y + 27.0 + at as f64 * 14.0, Type::SOFT, line))
        }
        @if let Some(window) = &step.window { (gauge_of(window, under)) }
        @if let Some(jar) = &step.jar { (jar_of(jar, y + 4.0)) }
    };
    (drawn, high)
}

/// The line of the day along a step: thin in hands, broad where it stands, hatched in the cold.
fn stretch(stands: Stands, y: f64, high: f64) -> Markup {
    let (wide, ground, edge) = match stands {
        Stands::Hands => (1.2, PRINT.ink.css(), None),
        Stands::Room => (6.0, PRINT.paper.css(), Some(PRINT.ink_soft.css())),
        Stands::Warm => (6.0, PRINT.crust.css(), Some(PRINT.crust.css())),
        Stands::Cold => (6.0, fill("cold"), Some(PRINT.milk.css())),
    };
    html! {
        rect x=(n(LINE - wide / 2.0)) y=(n(y + 8.0)) width=(n(wide)) height=(n(high))
            fill=(ground) stroke=[edge] stroke-width="0.8" {}
    }
}

/// The written window, hatched, and the time here as a pointer on it.
fn gauge_of(window: &Window, y: f64) -> Markup {
    let wide = WORDS_TO - WORDS;
    let at = |share: f64| WORDS + share * wide;
    let here = at(window.here);
    let pointer = format!("M{} {}l-3.5 -5h7z", n(here), n(y + 5.0));
    html! {
        line x1=(n(WORDS)) x2=(n(WORDS_TO)) y1=(n(y + 9.0)) y2=(n(y + 9.0)) stroke=(PRINT.rule.css()) stroke-width="0.8" {}
        rect x=(n(at(window.from))) y=(n(y + 5.0)) width=(n(at(window.to) - at(window.from))) height="8"
            fill=(fill("recipe")) stroke=(PRINT.rule.css()) stroke-width="0.8" {}
        path d=(pointer) fill=(PRINT.ink.css()) {}
        line x1=(n(here)) x2=(n(here)) y1=(n(y + 4.0)) y2=(n(y + 13.0)) stroke=(PRINT.ink.css()) stroke-width="1.6" {}
    }
}

fn jar_of(jar: &Jar, y: f64) -> Markup {
    let floor = y + JAR_HIGH;
    let level = |share: f64| floor - share * JAR_HIGH;
    let (left, right) = (JAR, JAR + JAR_WIDE);
    let walls = format!(
        "M{} {}V{}q0 4 4 4H{}q4 0 4 -4V{}",
        n(left),
        n(y - 2.0),
        n(floor - 4.0),
        n(right - 4.0),
        n(y - 2.0)
    );
    let (to, from, doubled) = (level(jar.to), level(jar.from), level(jar.doubled));
    html! {
        rect x=(n(left)) y=(n(to)) width=(n(JAR_WIDE)) height=(n(floor - to)) rx="2" fill=(fill("dough")) {}
        line x1=(n(left)) x2=(n(right)) y1=(n(to)) y2=(n(to)) stroke=(PRINT.crust.css()) stroke-width="1.8" {}
        line x1=(n(left)) x2=(n(right)) y1=(n(from)) y2=(n(from)) stroke=(PRINT.ink_soft.css()) stroke-width="1" stroke-dasharray="3 2" {}
        path d=(walls) fill="none" stroke=(PRINT.ink.css()) stroke-width="1.4" {}
        line x1=(n(left - 5.0)) x2=(n(left + 5.0)) y1=(n(doubled)) y2=(n(doubled)) stroke=(PRINT.ink.css()) stroke-width="1.4" {}
        (text(left - 7.0, doubled + 3.5, Type { size: 9.5, ..Type::SOFT.at(Anchor::End) }, "2 ×"))
        (text(left + JAR_WIDE / 2.0, floor - 4.0, Type { size: 9.5, ..Type::SOFT.at(Anchor::Middle) }, &jar.grown))
    }
}
