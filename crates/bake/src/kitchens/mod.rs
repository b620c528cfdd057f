//! Many kitchens: a recipe followed by many readers, each in a kitchen of their own, through the one simulator.
//!
//! A kitchen is drawn ([`met`]), becomes a departure from what is written ([`departure`]: amounts really taken,
//! words really followed, a kitchen), runs through `simulate`, and its breads are judged against the bread that
//! is meant ([`judge`]), each flaw with what it comes from ([`cause`]). [`kitchens`] does this for a range of numbers
//! and gives a [`Tally`]; [`other_kitchens`] puts tallies together.

pub mod audience;
pub mod cause;
pub mod departure;
pub mod doubts;
pub mod judge;
pub mod met;
pub mod near;
mod other;
mod pace;
mod setup;
mod tally;
pub mod variable;

pub use other::{
    AT, Alone, Anew, Decides, Failure, OtherKitchens, PastLine, Share, Took, Ways, other_kitchens,
};
pub use setup::{Setup, setup, setup_on};
pub use tally::{Row, Tally, anew, kitchens, one, outcome};

use crate::code;
use recipe::source::Diagnostic;

/// No more kitchens than this: chance in the draws is then long less than what is not known.
pub const MOST: u64 = 200_000;
/// No fewer: each of the scrambles needs a few.
pub const LEAST: u64 = 64;

/// What is to be said of a number of kitchens that cannot be.
pub fn number_of_kitchens(number: u64) -> Option<Diagnostic> {
    if (LEAST..=MOST).contains(&number) {
        return None;
    }
    let message = if number < LEAST {
        format!("{number} kitchens say nothing: from {LEAST} on a share can be told.")
    } else {
        format!(
            "{number} kitchens say no more than {MOST}: what is not known of the reckoning is by far more than chance."
        )
    };
    Some(
        Diagnostic::whole(code::NUMBER_OF_KITCHENS, message)
            .hint("Ask for 1000 for a quick look, or for 10000, which is the usual number."),
    )
}
