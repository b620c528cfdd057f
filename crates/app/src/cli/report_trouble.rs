//! `report-trouble`: a file to send to whoever mends the program, with nothing of a recipe in it.

use super::serve::folder_of;
use super::work::on_bytes;
use super::{Outcome, Report, envelope::Envelope};
use crate::failure::Failure;
use crate::world::bundle::bundle;
use crate::world::log::{self, Log};
use crate::world::notebook::{Kept, Notebook};
use crate::world::record::{Record, Standing};
use std::collections::BTreeMap;
use std::fs::OpenOptions;
use std::io::Write;
use std::panic::{self, AssertUnwindSafe};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

/// So many lines of the log go in.
const LINES: usize = 300;

/// Write a file to send when something goes wrong: no recipe, name or path in it
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven report-trouble my-recipes --into trouble.zip\n\n\
    Look into it before you send it; it is a few short texts."
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
    let folder = folder_of(args.notebook.as_deref())?;
    let log = Log::of(&folder);
    let record = Record::open(&folder);
    let notebook = Notebook::at(folder);
    let found = findings(&notebook)?;
    let mut lines = log.last(LINES);
    if lines.is_empty() {
        lines.push("nothing was noted".to_owned());
    }
    let files: BTreeMap<String, Vec<u8>> = [
        ("read-me.txt", READ_ME.to_owned()),
        ("program.txt", program()),
        ("counts.txt", counts(&notebook, &record, &found)?),
        ("findings.csv", found.table()),
        ("log.txt", lines.join("\n") + "\n"),
    ]
    .map(|(name, text)| (name.to_owned(), text.into_bytes()))
    .into();
    let packed = bundle("everyoven-trouble", &files)?;
    let written = OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(&args.into)
        .and_then(|mut file| file.write_all(&packed));
    written.map_err(|error| Failure::world("write", &args.into, &error))?;
    let file = args.into.display();
    let text = format!(
        "{file} holds version and system, how many texts there are, which findings they have and what was noted\n\
        lately: nothing of a recipe, no name, no path. Look into it before you send it.\n"
    );
    let mut json = Envelope::new("report-trouble").with_text(&text);
    json.file(file.to_string());
    Ok(Report {
        json,
        text,
        notes: String::new(),
        stops: false,
    })
}

const READ_ME: &str = "\
This file helps whoever mends Everyoven. In it are:

program.txt    version and system
counts.txt     how many texts the notebook has, and how it stands with its record
findings.csv   which findings the program has for them, and how often; `everyoven explain NAME` says what each means
log.txt        what was asked for lately: kinds of pages, times, and places in the program's code where it fell over

Nothing of a recipe is in it: no text, no title, no name of a file or folder, nobody's name. Look for yourself before you send it.
";

fn program() -> String {
    use std::env::consts::{ARCH, FAMILY, OS};
    let cores = std::thread::available_parallelism().map_or(0, usize::from);
    let built = if cfg!(debug_assertions) {
        "for testing"
    } else {
        "for use"
    };
    format!(
        "version {}\nsystem {OS} ({FAMILY}), {ARCH}, {cores} cores\nbuilt {built}\n",
        env!("CARGO_PKG_VERSION")
    )
}

/// What the program has to say about all recipes together.
#[derive(Default)]
struct Found {
    /// How often, by name and grade.
    codes: BTreeMap<(&'static str, &'static str), usize>,
    /// Recipes that could not be read.
    unread: usize,
    /// Where the program fell over one, in our code.
    fell: Vec<String>,
}

impl Found {
    fn table(&self) -> String {
        let mut out = String::from("finding,grade,times\n");
        for ((name, grade), times) in &self.codes {
            out.push_str(&format!("{name},{grade},{times}\n"));
        }
        out
    }
}

fn findings(notebook: &Notebook) -> Result<Found, Failure> {
    let mut found = Found::default();
    for name in notebook.names(Kept::Recipe)? {
        let Some(bytes) = notebook.read(Kept::Recipe, &name)? else {
            continue;
        };
        let place = Arc::new(Mutex::new(None));
        let kept = Arc::clone(&place);
        let usual = panic::take_hook();
        // What a fault says may hold words of the recipe; only its place in our code is kept.
        panic::set_hook(Box::new(move |fault| {
            let at = fault.location().map(log::fault_at);
            *kept.lock().unwrap_or_else(PoisonError::into_inner) = at;
        }));
        let worked = panic::catch_unwind(AssertUnwindSafe(|| on_bytes("recipe", &bytes, None)));
        panic::set_hook(usual);
        let Ok(work) = worked else {
            let at = place.lock().unwrap_or_else(PoisonError::into_inner).take();
            found.fell.push(at.unwrap_or_else(|| "fault".to_owned()));
            continue;
        };
        found.unread += usize::from(work.made.is_none());
        for one in &work.findings {
            let code = one.diagnostic.code;
            *found
                .codes
                .entry((code.name, code.severity.word()))
                .or_default() += 1;
        }
    }
    Ok(found)
}

fn counts(notebook: &Notebook, record: &Record, found: &Found) -> Result<String, Failure> {
    let mut out = String::new();
    for (kept, what) in [
        (Kept::Recipe, "recipes"),
        (Kept::Pasted, "pasted texts"),
        (Kept::Kitchen, "kitchens"),
    ] {
        out.push_str(&format!("{what}: {}\n", notebook.names(kept)?.len()));
    }
    out.push_str(&format!("recipes that cannot be read: {}\n", found.unread));
    for at in &found.fell {
        out.push_str(&format!("recipe over which the program falls: {at}\n"));
    }
    // Why nothing is kept may hold a path; that it is so is enough here.
    let kept = match record.standing() {
        Standing::Kept => "kept",
        Standing::NothingKept(_) => "nothing is kept",
    };
    out.push_str(&format!("record: {kept}\n"));
    if let Ok((versions, bakes)) = record.counts() {
        out.push_str(&format!("versions of texts: {versions}\nbakes: {bakes}\n"));
    }
    out.push_str(&format!(
        "damaged records moved aside: {}\n",
        record.moved_aside().len()
    ));
    Ok(out)
}
