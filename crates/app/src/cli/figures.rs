//! `figures`: every figure of a recipe, on whatever it is printed, and where it comes from.

use super::check::envelope;
use super::{Outcome, Report, work};
use recipe::measure::Market;
use std::path::PathBuf;

/// List every figure of a recipe with where it comes from, those in the author's words too
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven figures examples/same-day-loaf.toml")]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The kitchen it is worked out in; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// As printed for the readers of a country: en-US, en-GB or en-AU
    #[arg(long = "for", value_parser = super::market)]
    readers: Option<Market>,
}

/// Prints the list.
pub fn run(args: &Args) -> Outcome {
    let work = work::on_files_for(&args.recipe, args.kitchen.as_deref(), args.readers)?;
    let mut json = envelope(&work, "figures");
    let text = work.made.as_ref().map_or_else(String::new, |made| {
        let printed = press::printed::printed(&made.ledger);
        let said = made.ledger.said.iter().map(|said| &said.figure);
        for figure in made.ledger.figures().into_iter().chain(said) {
            json.figure_on(figure, printed.get(&figure.name));
        }
        press::terminal::figures(&made.ledger, &printed)
    });
    Ok(Report::on(&work, text, json))
}
