//! `label`: nutrition, ingredient list, allergens and cost of what a recipe makes.

use super::check::envelope;
use super::findings::{For, list};
use super::{Outcome, Report, work};
use crate::failure::Failure;
use crate::world::read;
use edit::ledger::label::model::{CostLines, Law};
use recipe::document::read_prices_bytes;
use recipe::label::prices::prices;
use std::path::{Path, PathBuf};

/// Work out nutrition, ingredient list and allergens after the bake, and the cost by your prices
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven label examples/same-day-loaf.toml --law both \
                        --prices examples/prices/receipts.toml"
)]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// By whose rules
    #[arg(long, value_enum, default_value = "us")]
    law: Laws,
    /// A file of your own prices, each with its day
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    prices: Option<PathBuf>,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum Laws {
    /// The United States: by the serving, with shares of a day
    Us,
    /// The European Union: by 100 g and by the piece; readers in Australia get it too, for their own is not made
    Eu,
    /// Both
    Both,
}

/// Prints the label.
pub fn run(args: &Args) -> Outcome {
    let mut work = work::on_files(&args.recipe, None)?;
    let cost = match &args.prices {
        Some(path) => priced(&mut work, path)?,
        None => None,
    };
    let laws: &[Law] = match args.law {
        Laws::Us => &[Law::UnitedStates],
        Laws::Eu => &[Law::Europe],
        Laws::Both => &[Law::UnitedStates, Law::Europe],
    };
    let mut json = envelope(&work, "label");
    let mut text = String::new();
    if let Some(made) = &work.made {
        let lines = &made.ledger.label;
        text = press::terminal::label(&made.ledger.title, lines, laws);
        for product in &lines.products {
            product
                .figures
                .iter()
                .for_each(|figure| json.figure(figure));
            for law in laws {
                let figures = product.panel(*law).figures();
                figures.for_each(|figure| json.figure(figure));
            }
        }
        if let Some(cost) = &cost {
            text.push_str(&press::terminal::cost(cost));
            cost.figures()
                .into_iter()
                .for_each(|figure| json.figure(figure));
        }
    }
    let priced = args.prices.is_some() && !work.findings.is_empty();
    let notes = if work.stops() || priced {
        list(&work, For::Bake)
    } else {
        String::new()
    };
    Ok(Report {
        json: json.with_text(&text),
        text,
        notes,
        stops: work.stops(),
    })
}

/// Reads a file of prices and works out what the recipe costs by it.
fn priced(work: &mut work::Work, path: &Path) -> Result<Option<CostLines>, Failure> {
    let bytes = read::bytes(path)?;
    let file = read_prices_bytes(&bytes);
    let mut said = file.diagnostics;
    let mut lines = None;
    if let (Some(file), Some(made)) = (file.output, &work.made) {
        let looked_up = prices(&file, &made.larder);
        said.extend(looked_up.diagnostics);
        lines = looked_up.output.map(|prices| {
            edit::ledger::label::cost(&made.recipe, &made.formula, &made.larder, &prices)
        });
    }
    work.say_of_file(path, &bytes, said);
    Ok(lines)
}
