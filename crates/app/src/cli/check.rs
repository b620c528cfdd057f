//! `check`: everything there is to say about a recipe.

use super::findings::{For, list};
use super::{Outcome, Report, envelope::Envelope, publish, work};
use std::path::PathBuf;

/// Look a recipe over: what would spoil the bake, and what would spoil the page
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven check examples/same-day-loaf.toml --for print")]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The kitchen to judge it in; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// Look for what would spoil the bake, or for everything before it is printed
    #[arg(long = "for", value_enum, default_value = "bake")]
    purpose: Purpose,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum Purpose {
    /// What would spoil the bake; the rest is counted
    Bake,
    /// Everything
    Print,
}

/// Prints the findings.
pub fn run(args: &Args) -> Outcome {
    let mut work = work::on_files(&args.recipe, args.kitchen.as_deref())?;
    let purpose = match args.purpose {
        Purpose::Bake => For::Bake,
        Purpose::Print => For::Print,
    };
    if purpose == For::Print {
        publish::look_over(&mut work, &args.recipe)?;
    }
    Ok(Report {
        text: list(&work, purpose),
        notes: String::new(),
        json: envelope(&work, "check"),
        stops: work.stops(),
    })
}

/// An envelope with every finding of a piece of work.
pub fn envelope(work: &work::Work, command: &'static str) -> Envelope {
    let mut envelope = Envelope::new(command);
    for finding in &work.findings {
        let source = work.source(finding.file);
        envelope.finding(&source.path, &source.text, &finding.diagnostic);
    }
    envelope
}
