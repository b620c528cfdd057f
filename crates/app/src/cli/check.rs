//! `check`: everything there is to say about a recipe, and what of it can be put right by itself.

use super::findings::{For, list};
use super::{Outcome, Report, envelope::Envelope, publish, work};
use crate::world::{exchange, read};
use recipe::source::Severity;
use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::{Path, PathBuf};

/// Look a recipe over: what would spoil the bake, and what would spoil the page
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven check examples/same-day-loaf.toml --for print")]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The kitchen to judge it in; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// Look for what would spoil the bake, or for everything before it is printed
    #[arg(long = "for", value_enum, default_value = "bake")]
    purpose: Purpose,
    /// Show what can be put right without a cook's decision: spellings, scales, the order of a list
    #[arg(long)]
    fix: bool,
    /// With --fix: change the file; comments and everything else stay as they are
    #[arg(long, requires = "fix")]
    write: bool,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum Purpose {
    /// What would spoil the bake; the rest is counted
    Bake,
    /// Everything
    Print,
}

/// Prints the findings.
pub fn run(args: &Args) -> Outcome {
    if args.fix {
        return fix(args);
    }
    let mut work = work::on_files(&args.recipe, args.kitchen.as_deref())?;
    let purpose = match args.purpose {
        Purpose::Bake => For::Bake,
        Purpose::Print => For::Print,
    };
    if purpose == For::Print {
        publish::look_over(&mut work, &args.recipe)?;
    }
    Ok(Report {
        text: list(&work, purpose),
        notes: String::new(),
        json: envelope(&work, "check"),
        stops: work.stops(),
    })
}

/// An envelope with every finding of a piece of work.
pub fn envelope(work: &work::Work, command: &'static str) -> Envelope {
    let mut envelope = Envelope::new(command);
    for finding in &work.findings {
        let source = work.source(finding.file);
        envelope.finding(&source.path, &source.text, &finding.diagnostic);
    }
    envelope
}

/// What one change makes possible another may build on: a sign first, then the other scale.
const ROUNDS: usize = 4;

/// Shows the changes, and makes them when asked.
fn fix(args: &Args) -> Outcome {
    let before = read::bytes(&args.recipe)?;
    let kitchen = match &args.kitchen {
        Some(path) => Some((path.display().to_string(), read::bytes(path)?)),
        None => None,
    };
    let on =
        |bytes: &[u8]| work::on_bytes(&args.recipe.display().to_string(), bytes, kitchen.clone());
    let first = on(&before);
    let old = first.source(0).text.clone();
    let mut text = old.clone();
    let mut last = on(text.as_bytes());
    let mut done: BTreeSet<&'static str> = BTreeSet::new();
    for _ in 0..ROUNDS {
        let of_recipe = last.findings.iter().filter(|finding| finding.file == 0);
        let changes = edit::mend::changes(of_recipe.clone().map(|finding| &finding.diagnostic));
        if changes.is_empty() {
            break;
        }
        let names: Vec<&'static str> = of_recipe
            .filter(|finding| !finding.diagnostic.changes.is_empty())
            .map(|finding| finding.diagnostic.code.name)
            .collect();
        let next = edit::mend::changed(&text, &changes);
        let after = on(next.as_bytes());
        // What would make anything worse is not done.
        if mends(&after) > mends(&last) || after.made.is_none() {
            break;
        }
        done.extend(names);
        text = next;
        last = after;
    }
    let mut shown = drawn(&args.recipe, &old, &text);
    let mut json = envelope(&last, "check");
    if text == old {
        shown.push_str("Nothing here can be put right without a cook's decision.\n");
    } else if args.write {
        // A file that is no UTF-8 has no changes, so its bytes are those of the text.
        exchange::exchange(&args.recipe, &before, text.as_bytes())?;
        json.file(args.recipe.display().to_string());
        let _ = writeln!(shown, "Written: {}", args.recipe.display());
    } else {
        let _ = writeln!(
            shown,
            "Not written yet: everyoven check {} --fix --write",
            args.recipe.display()
        );
    }
    if !done.is_empty() {
        let names: Vec<&str> = done.into_iter().collect();
        let _ = writeln!(shown, "Put right: {}", names.join(", "));
    }
    Ok(Report {
        json: json.with_text(&shown),
        text: shown,
        notes: String::new(),
        stops: last.stops(),
    })
}

fn mends(work: &work::Work) -> usize {
    let of = |finding: &&work::Finding| finding.diagnostic.code.severity == Severity::Mend;
    work.findings.iter().filter(of).count()
}

/// The lines that change, as they were and as they become.
fn drawn(path: &Path, old: &str, new: &str) -> String {
    let mut shown = String::new();
    for (number, was, is) in edit::mend::lines(old, new).unwrap_or_default() {
        let _ = writeln!(shown, "{}:{number}\n- {was}\n+ {is}\n", path.display());
    }
    shown
}
