//! `serve`: the notebook as local pages, for this machine alone.

use super::{Outcome, Report, envelope::Envelope};
use crate::failure::Failure;
use crate::web::{self, Served};
use crate::world::{browser, notebook::Notebook};
use std::io::{IsTerminal, Write};
use std::path::PathBuf;

/// Open a notebook of recipes as pages for the browser on this machine
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven serve my-recipes --port 8080\n\n\
    Everyoven without a command does the same with the notebook in your home folder, \
    and opens the browser.")]
pub struct Args {
    /// The folder of recipes; `everyoven-notebook` in your home folder when left out
    #[arg(value_hint = clap::ValueHint::DirPath)]
    notebook: Option<PathBuf>,
    /// The port to listen on; a free one is found when left out
    #[arg(long)]
    port: Option<u16>,
    /// Whether the browser is to be opened.
    #[arg(skip)]
    look: bool,
}

impl Args {
    /// What the program's name alone stands for.
    pub fn alone() -> Self {
        Self {
            notebook: None,
            port: None,
            look: std::io::stdout().is_terminal(),
        }
    }
}

/// Serves until it is told to stop.
pub fn run(args: &Args, json: bool) -> Outcome {
    let folder = match &args.notebook {
        Some(folder) if folder.exists() && !folder.is_dir() => {
            let kind = std::io::ErrorKind::NotADirectory;
            return Err(Failure::world("open", folder, &kind.into()));
        }
        Some(folder) => folder.clone(),
        None => home()?.join("everyoven-notebook"),
    };
    let place = folder.display().to_string();
    let said = |served: &Served| {
        let address = served.address();
        let mut out = std::io::stdout();
        // A reader that has gone away is no reason to stop.
        let _ = if json {
            let envelope = Envelope::new("serve").with_text(&address);
            writeln!(out, "{}", envelope.text().trim_end())
        } else {
            writeln!(out, "{address}")
        };
        let _ = out.flush();
        let _ = writeln!(
            std::io::stderr(),
            "The notebook is {place}. It can be seen from this machine alone; Ctrl-C closes it."
        );
        if args.look {
            browser::open(&address);
        }
    };
    web::serve(Notebook::at(folder), args.port.unwrap_or(0), said)?;
    Ok(Report {
        text: String::new(),
        notes: String::new(),
        json: Envelope::new("serve"),
        stops: false,
    })
}

fn home() -> Result<PathBuf, Failure> {
    std::env::home_dir()
        .filter(|home| !home.as_os_str().is_empty())
        .ok_or_else(|| {
            Failure::Usage(
                "no home folder is known here; name one: everyoven serve FOLDER".to_owned(),
            )
        })
}
