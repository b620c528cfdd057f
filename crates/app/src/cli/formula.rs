//! `formula`: the recipe in baker's percentages.

use super::check::envelope;
use super::{Outcome, Report, work};
use recipe::measure::Market;
use std::path::PathBuf;

/// Work out the formula: grams, baker's percentages, water in all
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven formula examples/cardamom-dough.toml")]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// Print for the readers of a country: en-US, en-GB or en-AU (cups, spoons, names, gas marks)
    #[arg(long = "for", value_parser = super::market)]
    readers: Option<Market>,
}

/// Prints the formula.
pub fn run(args: &Args) -> Outcome {
    let work = work::on_files_for(&args.recipe, None, args.readers)?;
    let mut json = envelope(&work, "formula");
    let text = work.made.as_ref().map_or_else(String::new, |made| {
        for figure in made.ledger.formula_figures() {
            json.figure(figure);
        }
        press::terminal::formula(&made.ledger)
    });
    Ok(Report::on(&work, text, json))
}
