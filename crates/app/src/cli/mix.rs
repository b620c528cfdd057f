//! `mix`: what the liquid must read so that the dough ends at its temperature.

use super::check::envelope;
use super::{Outcome, Report, work};
use std::path::PathBuf;

/// Work out the liquid's temperature for a kitchen, so that the dough ends where it should
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven mix examples/cardamom-dough.toml \
                        --kitchen examples/kitchens/terrace.toml")]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The kitchen; may be given several times; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Vec<PathBuf>,
}

/// Prints the temperatures.
pub fn run(args: &Args) -> Outcome {
    let kitchens: Vec<Option<&PathBuf>> = if args.kitchen.is_empty() {
        vec![None]
    } else {
        args.kitchen.iter().map(Some).collect()
    };
    let mut report: Option<Report> = None;
    for kitchen in kitchens {
        let work = work::on_files(&args.recipe, kitchen.map(PathBuf::as_path))?;
        let one = one(&work);
        report = Some(match report {
            None => one,
            Some(mut all) => {
                all.text.push('\n');
                all.text.push_str(&one.text);
                all.notes.push_str(&one.notes);
                all.json.append(one.json);
                all.stops |= one.stops;
                all
            }
        });
    }
    report.ok_or_else(|| crate::failure::Failure::Bug("no kitchen to work in".to_owned()))
}

/// The report for one kitchen.
pub fn one(work: &work::Work) -> Report {
    let mut json = envelope(work, "mix");
    let text = work.made.as_ref().map_or_else(String::new, |made| {
        for figure in made.mix.figures() {
            json.figure(figure);
        }
        press::terminal::mix(&made.mix)
    });
    Report::on(work, text, json)
}
