//! `manual`: man page, shell completions, and the schema of `--json`.

use super::{
    Cli, Outcome, Report,
    envelope::{Envelope, SCHEMA},
};
use crate::failure::Failure;
use clap::CommandFactory;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// Print the man page, shell completions or the schema of --json
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven manual pages --into man/man1")]
pub struct Args {
    /// What to print
    #[arg(value_enum)]
    what: What,
    /// For completions: which shell
    #[arg(long, value_enum, default_value = "bash")]
    shell: clap_complete::Shell,
    /// For pages: the folder to write one page a command into
    #[arg(long, value_hint = clap::ValueHint::DirPath)]
    into: Option<PathBuf>,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum What {
    /// The man page of everyoven; with --into, one for each command
    Pages,
    /// Completions for a shell
    Completions,
    /// JSON Schema of what --json prints
    Schema,
}

/// Prints what is asked for.
pub fn run(args: &Args) -> Outcome {
    let mut envelope = Envelope::new("manual");
    let text = match args.what {
        What::Schema => SCHEMA.to_owned(),
        What::Completions => {
            let mut bytes = Vec::new();
            clap_complete::generate(args.shell, &mut Cli::command(), "everyoven", &mut bytes);
            String::from_utf8_lossy(&bytes).into_owned()
        }
        What::Pages => match &args.into {
            None => page(&Cli::command())?,
            Some(folder) => {
                let mut files = BTreeMap::from([(
                    "everyoven.1".to_owned(),
                    page(&Cli::command())?.into_bytes(),
                )]);
                for command in Cli::command().get_subcommands() {
                    let name = format!("everyoven-{}.1", command.get_name());
                    files.insert(name, page(command)?.into_bytes());
                }
                crate::world::folder::publish(folder, &files)?;
                for name in files.keys() {
                    envelope.file(folder.join(name).display().to_string());
                }
                format!("{} pages written to {}\n", files.len(), folder.display())
            }
        },
    };
    Ok(Report {
        json: envelope.with_text(&text),
        text,
        notes: String::new(),
        stops: false,
    })
}

fn page(command: &clap::Command) -> Result<String, Failure> {
    let mut bytes = Vec::new();
    clap_mangen::Man::new(command.clone())
        .render(&mut bytes)
        .map_err(|error| Failure::Bug(error.to_string()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
