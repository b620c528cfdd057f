//! `backup`: a notebook with its record in one file.

use super::serve::folder_of;
use super::{Outcome, Report, envelope::Envelope};
use crate::world::archive;
use std::path::PathBuf;

/// Put a notebook with its history, bakes and readings into one file
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven backup my-recipes --into my-recipes.zip\n\n\
    It may be made while the notebook is open in a browser."
)]
pub struct Args {
    /// The folder of recipes; `everyoven-notebook` in your home folder when left out
    #[arg(value_hint = clap::ValueHint::DirPath)]
    notebook: Option<PathBuf>,
    /// The file to write; an existing one is never overwritten
    #[arg(long, value_name = "FILE.zip", value_hint = clap::ValueHint::FilePath)]
    into: PathBuf,
}

/// Writes it.
pub fn run(args: &Args) -> Outcome {
    let notebook = folder_of(args.notebook.as_deref())?;
    let held = archive::pack(&notebook, &args.into)?;
    let file = args.into.display();
    let text = format!("{file} holds {}.\n", said(&held));
    let mut json = Envelope::new("backup").with_text(&text);
    json.file(file.to_string());
    Ok(Report {
        json,
        text,
        notes: String::new(),
        stops: false,
    })
}

/// "12 files, 25 versions of texts and 2 bakes".
pub fn said(held: &archive::Held) -> String {
    let count = |number: i64, one: &str, more: &str| match number {
        1 => format!("1 {one}"),
        number => format!("{number} {more}"),
    };
    format!(
        "{}, {} and {}",
        count(
            i64::try_from(held.files).unwrap_or(i64::MAX),
            "file",
            "files"
        ),
        count(held.versions, "version of a text", "versions of texts"),
        count(held.bakes, "bake", "bakes")
    )
}
