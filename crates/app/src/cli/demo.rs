//! `demo`: the main job on a recipe that is built in.

use super::work::{DEMO_RECIPE, DEMO_STUDIO, DEMO_TERRACE};
use super::{Outcome, Report, mix, publish, work};
use press::papers::Paper;
use std::path::PathBuf;

/// Publish the built-in recipe and show its formula and its mix in two kitchens
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven demo --into out")]
pub struct Args {
    /// The folder in which a folder of the recipe's name is made
    #[arg(long, default_value = "out", value_hint = clap::ValueHint::DirPath)]
    into: PathBuf,
}

/// Runs the demo.
pub fn run(args: &Args) -> Outcome {
    let in_kitchen = |name: &str, text: &str| {
        work::on_bytes(
            "examples/same-day-loaf.toml",
            DEMO_RECIPE.as_bytes(),
            Some((
                format!("examples/kitchens/{name}.toml"),
                text.as_bytes().to_vec(),
            )),
        )
    };
    let mut studio = in_kitchen("studio", DEMO_STUDIO);
    let terrace = in_kitchen("terrace", DEMO_TERRACE);
    let mut text = String::new();
    if let Some(made) = &studio.made {
        text.push_str(&press::terminal::formula(&made.ledger));
        text.push('\n');
    }
    let here = mix::one(&studio);
    let there = mix::one(&terrace);
    text.push_str(&here.text);
    text.push('\n');
    text.push_str(&there.text);
    text.push('\n');
    let published = publish::publish(&mut studio, &args.into, None, None, &Paper::ALL)?;
    text.push_str("Published into ");
    text.push_str(&published.text);
    let mut json = published.json;
    json.append(here.json);
    json.append(there.json);
    json.rename("demo");
    Ok(Report {
        text,
        notes: published.notes,
        json,
        stops: published.stops,
    })
}
