//! `talk`: what is said in a film held against the recipe that it is about.

use super::check::envelope;
use super::findings::{For, list};
use super::{Outcome, Report, work};
use crate::failure::Failure;
use crate::world::{folder, read};
use std::collections::BTreeMap;
use std::path::PathBuf;

/// Hold what is said in a film against the recipe: plain text, `SubRip` or `WebVTT`
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven talk examples/cardamom-dough.toml examples/talk/cardamom-dough.txt"
)]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The talk: a text with or without marks such as [1:20], or captions as .srt or .vtt
    #[arg(value_hint = clap::ValueHint::FilePath)]
    track: PathBuf,
    /// A folder for the film's papers: captions, chapters, cards, figures to say, the text under it
    #[arg(long, value_name = "FOLDER", value_hint = clap::ValueHint::DirPath)]
    into: Option<PathBuf>,
}

/// A film of many hours has fewer bytes of talk.
const MOST_BYTES: usize = 8 * 1024 * 1024;

/// Prints what is said otherwise and what is never said.
pub fn run(args: &Args) -> Outcome {
    let bytes = read::whole(&args.track)?;
    if bytes.len() > MOST_BYTES {
        let error = std::io::Error::new(std::io::ErrorKind::FileTooLarge, "no talk is this long");
        return Err(Failure::world("read", &args.track, &error));
    }
    let mut work = work::on_files(&args.recipe, None)?;
    let recipe_stops = work.stops();
    // What is wrong with the recipe is what `check` is for; here only what keeps it from being read.
    if work.made.is_some() {
        work.findings.clear();
    }
    let track = edit::talk::track::read(&bytes);
    let mut said = track.diagnostics;
    let mut text = String::new();
    let mut held = None;
    let mut files = Vec::new();
    if let Some(made) = &work.made {
        let inputs = edit::Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
        let talk = edit::talk::talk(&inputs, &made.ledger, &track.output);
        text = press::terminal::talk(&made.ledger.title, &talk.output, &track.output.text);
        if let Some(folder) = &args.into {
            let film = edit::talk::film::film(&made.ledger, &track.output, &talk.output.aligned);
            said.extend(film.diagnostics);
            let options = press::address::PageOptions::default();
            let papers = press::film::papers(&made.ledger, &film.output, &options)
                .map_err(|error| Failure::Bug(error.to_string()))?;
            let papers: BTreeMap<String, Vec<u8>> = papers.into_iter().collect();
            folder::publish(folder, &papers)?;
            text.push_str(&format!("\n{}\n", folder.display()));
            for (name, bytes) in &papers {
                files.push(folder.join(name).display().to_string());
                text.push_str(&press::terminal::file_line(
                    name,
                    press::film::what(name),
                    bytes.len(),
                ));
            }
        }
        held = Some(talk);
    }
    let mut json_findings = said.clone();
    if let Some(talk) = &held {
        json_findings.extend(talk.diagnostics.iter().cloned());
    }
    let talk_stops = json_findings
        .iter()
        .any(|one| one.code.severity == recipe::source::Severity::Mend);
    let source = track.output.text.as_bytes();
    // The terminal has the talk's findings in its own order; the notes draw what is wrong with the file.
    let notes = if said.is_empty() && held.is_some() {
        String::new()
    } else {
        work.say_of_file(&args.track, source, std::mem::take(&mut said));
        let notes = list(&work, For::Print);
        work.findings.clear();
        notes
    };
    work.say_of_file(&args.track, source, json_findings);
    let mut json = envelope(&work, "talk");
    if let Some(talk) = &held {
        json.talk(&talk.output);
    }
    for file in files {
        json.file(file);
    }
    Ok(Report {
        json: json.with_text(&text),
        text,
        notes,
        stops: talk_stops || held.is_none() && recipe_stops,
    })
}
