//! `licences`: under what terms this program and everything in it may be used.

use super::{Report, envelope::Envelope};

/// Print the licence of this program and of everything built into it
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven licences | less")]
pub struct Args {}

const OWN: &str =
    "everyoven is free to use under the MIT licence or the Apache License 2.0, at your choice.\n\n";
const NOTICES: &str = include_str!("../../../../THIRD-PARTY.md");

/// Prints the notices.
pub fn run(_args: &Args) -> Report {
    let text = format!("{OWN}{NOTICES}");
    Report {
        json: Envelope::new("licences").with_text(&text),
        text,
        notes: String::new(),
        stops: false,
    }
}
