//! `restore`: a notebook out of the file that `backup` wrote.

use super::backup::said;
use super::{Outcome, Report, envelope::Envelope};
use crate::world::archive;
use std::path::PathBuf;

/// Take a notebook out of a backup, into a folder that is empty or not there yet
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven restore my-recipes.zip --into my-recipes")]
pub struct Args {
    /// The file that `everyoven backup` wrote
    #[arg(value_name = "FILE.zip", value_hint = clap::ValueHint::FilePath)]
    file: PathBuf,
    /// The folder to make; one that has anything in it is left alone
    #[arg(long, value_name = "FOLDER", value_hint = clap::ValueHint::DirPath)]
    into: PathBuf,
}

/// Takes it out.
pub fn run(args: &Args) -> Outcome {
    let held = archive::unpack(&args.file, &args.into)?;
    let folder = args.into.display();
    let text = format!("{folder} holds {}.\n", said(&held));
    let mut json = Envelope::new("restore").with_text(&text);
    json.file(folder.to_string());
    Ok(Report {
        json,
        text,
        notes: String::new(),
        stops: false,
    })
}
