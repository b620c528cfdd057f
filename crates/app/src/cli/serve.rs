//! `serve`: the notebook as local pages, for this machine alone.

use super::{Outcome, Report, envelope::Envelope};
use crate::failure::Failure;
use crate::web::{self, Served};
use crate::world::{browser, notebook::Notebook};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

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
    /// Let a telephone or tablet of the same network in, which shows a code once
    #[arg(long)]
    share: bool,
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
            share: false,
            look: std::io::stdout().is_terminal(),
        }
    }
}

/// Serves until it is told to stop.
pub fn run(args: &Args, json: bool) -> Outcome {
    let folder = folder_of(args.notebook.as_deref())?;
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
        let mut aside = std::io::stderr();
        let _ = match served.shared() {
            None => writeln!(
                aside,
                "The notebook is {place}. It can be seen from this machine alone; Ctrl-C closes it."
            ),
            Some(shared) => writeln!(
                aside,
                "The notebook is {place}; Ctrl-C closes it.\nDevices of this network find it at {shared}\n\
                 A device that was paired can read and change everything in it. Nothing of that is encrypted: \
                 share it in a network that you trust, as long as you bake."
            ),
        };
        if args.look {
            browser::open(&address);
        }
    };
    let tell: fn(&str) = told;
    let share = args.share.then_some(tell);
    web::serve(Notebook::at(folder), args.port.unwrap_or(0), share, said)?;
    Ok(Report {
        text: String::new(),
        notes: String::new(),
        json: Envelope::new("serve"),
        stops: false,
    })
}

/// Shows a code to whoever sits at this machine.
fn told(code: &str) {
    let (first, last) = code.split_at(code.len() / 2);
    let _ = writeln!(
        std::io::stderr(),
        "Code for one device: {first} {last} (10 minutes, five tries)"
    );
}

/// The folder of a notebook: the named one, or that in the home folder.
pub fn folder_of(notebook: Option<&Path>) -> Result<PathBuf, Failure> {
    match notebook {
        Some(folder) if folder.exists() && !folder.is_dir() => {
            let kind = std::io::ErrorKind::NotADirectory;
            Err(Failure::world("open", folder, &kind.into()))
        }
        Some(folder) => Ok(folder.to_owned()),
        None => Ok(home()?.join("everyoven-notebook")),
    }
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
