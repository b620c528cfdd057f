//! What the readings did to a step's time, under its clock.

use super::show::Screen;
use super::told::Telling;
use maud::{Markup, html};
use numerics::quantity::Duration;

/// Whether something is being worked out.
pub const fn working(screen: &Screen) -> bool {
    matches!(screen.told, Telling::WorkingItOut(_))
}

/// What the readings did to the time of a step, or that it is being worked out.
pub fn heard(screen: &Screen, number: usize) -> Markup {
    let says = |at: Duration| screen.wall.says(at, screen.now);
    match &screen.told {
        Telling::Nothing => html! {},
        Telling::WorkingItOut(_) => html! {
            p.heard { "What you read off is being worked out; this is the time without it." }
        },
        Telling::Told(answer) => html! {
            @if let Some(heard) = answer.heard(number) {
                p.heard { @for sentence in heard.sentences(says) { (sentence) " " } }
            }
            @for said in &answer.left_out { p.heard { (said) } }
        },
    }
}
