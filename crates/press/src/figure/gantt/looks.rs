//! How each kind of thing looks in the drawing of a day, and the key that says so.

use super::RIGHT;
use crate::figure::svg::{SMALL, Type, Weave, fill, n, pattern, text, width};
use crate::palette::{CRUST, PRINT};
use edit::ledger::timetable::{TableLines, TableRow};
use maud::{Markup, html};
use plan::timetable::Kind;

/// The pattern of hours in which nobody works.
const CLOSED: &str = "closed";

/// The ground of a kind: a colour alone, or a pattern.
pub(super) fn ground(kind: Kind, cold: bool) -> String {
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

/// Every pattern.
pub(super) fn patterns() -> Markup {
    html! {
        @for kind in Kind::ALL { @for cold in [false, true] { (weave(kind, cold)) } }
        (pattern(CLOSED, PRINT.paper, PRINT.rule, Weave::Slant(9.0)))
    }
}

/// The ground of hours in which nobody works.
pub(super) fn closed() -> String {
    fill(CLOSED)
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

/// A box of the key: its ground, its edge, whether that is broken, its words.
type Box = (String, &'static str, Option<&'static str>, String);

/// Each kind that the day has, with its pattern and its word, in lines; and the height they take.
pub(super) fn key(table: &TableLines, wide: f64, y: f64) -> (Markup, f64) {
    let mut boxes: Vec<Box> = Vec::new();
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
            let dashed = matches!(kind, Kind::Waits | Kind::Pause).then_some("3 2");
            let edge = if kind == Kind::Scene { "1.8" } else { "0.8" };
            boxes.push((ground(kind, cold), edge, dashed, words));
        }
    }
    for word in ["quiet hours", "break"] {
        if table.closed.iter().any(|one| one.word == word) {
            boxes.push((closed(), "0", None, word.to_owned()));
        }
    }
    let (mut x, mut line) = (10.0, 0.0);
    let mut shown = Vec::new();
    for (ground, edge, dashed, words) in boxes {
        let long = 34.0 + width(Type::SOFT, &words) + 18.0;
        if x + long > wide - RIGHT {
            x = 10.0;
            line += 20.0;
        }
        shown.push(html! {
            rect x=(n(x)) y=(n(y + line)) width="26" height="13" fill=(ground)
                stroke=(PRINT.ink.css()) stroke-width=(edge) stroke-dasharray=[dashed] {}
            (text(x + 32.0, y + line + 10.5, Type { size: SMALL, ..Type::WORDS }, &words))
        });
        x += long;
    }
    let drawn = html! { @for one in shown { (one) } };
    (drawn, line + 20.0)
}
