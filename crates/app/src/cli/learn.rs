//! `learn`: what the readings of several bakes say about a kitchen, and how it is kept in the kitchen's file.

use super::check::envelope;
use super::findings::{For, list};
use super::work::{self, Made, Work};
use super::{Outcome, Report};
use crate::failure::Failure;
use crate::world::{clock, exchange, read, workers};
use bake::learn::{LIVES, Learnt, Noted, learn};
use bake::log::noted;
use edit::ledger::learnt as words;
use edit::stretch::{Yardstick, coarse};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use recipe::document::{read_kitchen_bytes, read_log_bytes};
use recipe::source::Checked;
use std::fmt::Write;
use std::path::PathBuf;

/// Which draws: the same log teaches the same every time.
pub const SEED: u64 = 11;

/// Learn from what was read in several bakes: the yeast, the mixer, the warm place, the refrigerator, the oven
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven learn examples/same-day-loaf.toml --log examples/logs/studio.toml --kitchen examples/kitchens/studio.toml"
)]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The log of its bakes
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    log: PathBuf,
    /// The kitchen that they were baked in; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// Keep what was learnt in the kitchen's file; without it, it is only shown
    #[arg(long, requires = "kitchen")]
    write: bool,
}

/// Learns.
pub fn run(args: &Args) -> Outcome {
    let mut work = work::on_files(&args.recipe, args.kitchen.as_deref())?;
    let log_bytes = read::bytes(&args.log)?;
    let log = read_log_bytes(&log_bytes);
    work.say_of_file(&args.log, &log_bytes, log.diagnostics);
    let kitchen = match &args.kitchen {
        Some(path) => {
            let bytes = read::bytes(path)?;
            let file = read_kitchen_bytes(&bytes).output;
            Some((path, bytes, file))
        }
        None => None,
    };
    let file = kitchen.as_ref().and_then(|(_, _, file)| file.as_ref());
    let since = file
        .and_then(|file| file.measured.as_ref())
        .map(|measured| measured.on.value);
    let mut bakes = Vec::new();
    if let (Some(made), Some(log), false) = (&work.made, &log.output, work.stops()) {
        let found = set_up(made, |taught, yardstick| {
            noted(
                log,
                &made.recipe,
                &made.formula,
                &made.kitchen,
                taught,
                |bake| since.is_some_and(|since| bake.on.value <= since),
                |number| yardstick.pace(number),
                SEED,
            )
        });
        work.say_of(&args.log, found.diagnostics);
        bakes = found.output;
    }
    let found = if work.stops() || bakes.is_empty() {
        None
    } else {
        let found = taught(&bakes);
        work.say_of(&args.log, found.diagnostics);
        found.output
    };
    let mut report = Report {
        text: String::new(),
        notes: said(&work),
        json: envelope(&work, "learn"),
        stops: work.stops(),
    };
    let Some(learnt) = found else {
        if !bakes.is_empty() && !work.stops() {
            report.text.push_str(NOTHING_GOES);
        }
        report.json = report.json.with_text(&report.text);
        return Ok(report);
    };
    let here = &bakes[0].here;
    report.text = press::terminal::learnt(&words::learnt(here, &learnt, bakes.len()));
    if let Some((path, bytes, Some(file))) = &kitchen {
        let text = String::from_utf8_lossy(bytes);
        let (made, changes) = words::kept(&text, file, here, &learnt, today(), bakes.len())
            .map_err(|why| Failure::Usage(why.to_string()))?;
        report.text.push_str(&press::terminal::kept(&changes));
        let path = path.display();
        if args.write && !changes.is_empty() {
            exchange::exchange(path_of(args)?, bytes, made.as_bytes())?;
            report.json.file(path.to_string());
            let _ = writeln!(report.text, "\nWritten: {path}");
        } else if !changes.is_empty() {
            let _ = writeln!(
                report.text,
                "\nNot written yet: add --write, and {path} keeps it."
            );
        }
    } else {
        report
            .text
            .push_str("\nGive --kitchen with a file, and what was learnt can be kept in it.\n");
    }
    report.json = report.json.with_text(&report.text);
    Ok(report)
}

/// When nothing fits.
pub const NOTHING_GOES: &str = "No kitchen that this one could be goes with all of these readings: look whether steps, minutes and units are right.\n";

fn path_of(args: &Args) -> Result<&std::path::Path, Failure> {
    let path = args.kitchen.as_deref();
    path.ok_or_else(|| Failure::Bug("a kitchen was given".to_owned()))
}

/// What is to be said of recipe, kitchen and log: of the recipe only what stops.
fn said(work: &Work) -> String {
    if work.stops() {
        return list(work, For::Bake);
    }
    let mut notes = String::new();
    for finding in work.findings.iter().filter(|finding| finding.file > 0) {
        let source = work.source(finding.file);
        notes.push_str(&super::findings::draw(
            &source.path,
            &source.text,
            &finding.diagnostic,
        ));
        notes.push('\n');
    }
    notes
}

/// Sets bakes up with what the recipe's tested bakes teach and how its own times go with what is reckoned.
pub fn set_up<T>(made: &Made, bakes: impl FnOnce(&bake::simulate::Anchored, &Yardstick) -> T) -> T {
    let how = coarse(bake::simulate::Anchor::default());
    let taught = made.taught(&made.kitchen, &how).output;
    let yardstick = Yardstick::of(&made.recipe, &made.formula, taught.factors);
    bakes(&taught, &yardstick)
}

/// Learns on every core.
pub fn taught(bakes: &[Noted]) -> Checked<Option<Learnt>> {
    learn(bakes, LIVES, &workers::lives)
}

/// The day on the wall.
pub fn today() -> Date {
    let zone = clock::zone().unwrap_or(TimeZone::UTC);
    zone.to_datetime(clock::now()).date()
}
