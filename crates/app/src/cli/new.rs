//! `new`: a first recipe file to write in.

use super::{Outcome, Report, envelope::Envelope};
use crate::world::new_file;
use std::path::PathBuf;

/// Begin a recipe: write a small complete one to change
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven new my-loaf.toml --kind soft")]
pub struct Args {
    /// The file to write; an existing one is never overwritten
    #[arg(value_hint = clap::ValueHint::FilePath)]
    file: PathBuf,
    /// What kind of bread
    #[arg(long, value_enum, default_value = "soft")]
    kind: Kind,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum Kind {
    /// Flour, water, salt, yeast
    Lean,
    /// A soft tin loaf with a little sugar and butter
    Soft,
    /// Milk, eggs, sugar and butter
    Enriched,
}

/// Writes the file.
pub fn run(args: &Args) -> Outcome {
    let text = match args.kind {
        Kind::Lean => include_str!("../../assets/new-lean.toml"),
        Kind::Soft => include_str!("../../assets/new-soft.toml"),
        Kind::Enriched => include_str!("../../assets/new-enriched.toml"),
    };
    new_file::write(
        &args.file,
        text,
        "Choose another name; nothing was changed.",
    )?;
    let path = args.file.display();
    let text = format!("{path} written. Change it, then: everyoven check {path}\n");
    let mut json = Envelope::new("new").with_text(&text);
    json.file(path.to_string());
    Ok(Report {
        json,
        text,
        notes: String::new(),
        stops: false,
    })
}
