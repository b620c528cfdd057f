//! `explain`: what a finding says, why it matters, and what to do.

use super::{Outcome, Report, envelope::Envelope};
use crate::failure::Failure;

/// Explain a finding: what it says, why it matters, an example, what to do
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven explain liquid-cannot-reach-target")]
pub struct Args {
    /// Name of the finding; without one, all names are listed
    name: Option<String>,
    /// Every rule of the editor by family, with its findings and its source
    #[arg(long, conflicts_with = "name")]
    list: bool,
}

/// Prints a page, or the list of names.
pub fn run(args: &Args) -> Outcome {
    let text = match &args.name {
        Some(name) => edit::explain::page(name)
            .ok_or_else(|| {
                let near = edit::explain::near(name);
                Failure::Usage(match near {
                    Some(near) => format!("no finding is called `{name}`; did you mean `{near}`?"),
                    None => format!("no finding is called `{name}`; all names: everyoven explain"),
                })
            })?
            .to_owned(),
        None if args.list => edit::book::listed(),
        None => edit::explain::contents(),
    };
    Ok(Report {
        json: Envelope::new("explain").with_text(&text),
        text,
        notes: String::new(),
        stops: false,
    })
}
