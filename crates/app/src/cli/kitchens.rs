//! `kitchens`: a recipe in many other kitchens, how many breads come out well, and what decides it.

use super::check::envelope;
use super::findings::{For, draw, list};
use super::work::{self, Work};
use super::{Outcome, Report};
use crate::failure::Failure;
use crate::world::stop::Stop;
use crate::world::{folder, progress, read, workers};
use bake::anchor::anchor;
use bake::kitchens::audience::{self, Audience, READY, ready};
use bake::kitchens::doubts::{WAYS, Way, in_a_way, way};
use bake::kitchens::variable::Group;
use bake::kitchens::{
    Anew, OtherKitchens, Row, Setup, Tally, Ways, anew, kitchens, number_of_kitchens,
    other_kitchens, setup,
};
use bake::simulate::{Grid, How};
use edit::Inputs;
use edit::ledger::others::others;
use recipe::document::read_audience_bytes;
use recipe::measure::Market;
use std::ops::Range;
use std::path::{Path, PathBuf};

/// Follow a recipe through many other kitchens: how many come out well, what goes wrong, what decides it
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven kitchens examples/same-day-loaf.toml --audience us -n 1000\n         everyoven kitchens examples/hearth-loaf.toml --audience examples/audiences/allotment-club.toml"
)]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// Whose kitchens: common, us, europe, plateau, summer, or a file of your own
    #[arg(long, default_value = "common")]
    audience: String,
    /// How many kitchens
    #[arg(short = 'n', long = "number", default_value_t = 10_000)]
    number: u64,
    /// Which kitchens: the same seed draws the same ones
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Leave out what is not known of the reckoning and what decides it, for a quick look
    #[arg(long)]
    quick: bool,
    /// Try changes of the words in the same kitchens, and say which would save most bakes
    #[arg(long)]
    advise: bool,
    /// Draw into a folder: all kitchens as a strip, what decides it, stated times
    #[arg(long, value_name = "FOLDER", value_hint = clap::ValueHint::DirPath)]
    figures: Option<PathBuf>,
    /// Print for the readers of a country: en-US, en-GB or en-AU (gas marks)
    #[arg(long = "for", value_parser = super::market)]
    readers: Option<Market>,
}

/// Kitchens of one piece of work.
const PIECE: u64 = 16;

/// How many kitchens the ways that it might be are asked of, and the groups that are drawn anew: enough that
/// chance among them does not show beside what is not known.
fn fewer(number: u64) -> (u64, u64) {
    ((number / 20).clamp(16, 160), (number / 10).clamp(64, 1024))
}

/// One piece of work.
enum Piece {
    /// The kitchens themselves.
    Kitchens(Range<u64>),
    /// Those of a way that it might be; the usual one has no number.
    Way(usize, Range<u64>),
    /// A group drawn anew.
    Anew(usize, Range<u64>),
}

/// What a piece of work made.
enum Made {
    Rows(Vec<Row>),
    Stopped,
}

/// Follows the recipe.
pub fn run(args: &Args) -> Outcome {
    let mut work = work::on_files_for(&args.recipe, None, args.readers)?;
    let audience = whose(&args.audience, &mut work)?;
    if let Some(said) = number_of_kitchens(args.number) {
        work.say(vec![said]);
    }
    let mut report = Report {
        text: String::new(),
        notes: String::new(),
        json: envelope(&work, "kitchens"),
        stops: work.stops(),
    };
    let (Some(audience), false) = (audience, work.stops()) else {
        report.notes = list(&work, For::Bake);
        report.stops = true;
        return Ok(report);
    };
    let Some(made) = &work.made else {
        return Ok(report);
    };
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    let taught = anchor(&made.recipe, &made.formula, &[], &how);
    let found = setup(
        &made.recipe,
        &made.formula,
        taught.output.factors,
        taught.output.bakes,
    );
    let Some(setup) = found.output else {
        let source = work.source(0);
        for said in &found.diagnostics {
            report
                .notes
                .push_str(&draw(&source.path, &source.text, said));
            report.notes.push('\n');
        }
        work.say(found.diagnostics);
        report.json = envelope(&work, "kitchens");
        report.stops = true;
        return Ok(report);
    };
    let many = Many {
        setup: &setup,
        audience: &audience,
        seed: args.seed,
        groups: audience.groups(),
        ways: if args.quick { 0 } else { WAYS },
    };
    let Some(found) = many.run(args) else {
        "Stopped before enough kitchens were done for a share.\n".clone_into(&mut report.notes);
        report.stops = true;
        return Ok(report);
    };
    let mut inputs = Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
    inputs.market = args.readers;
    let tested = taught.output.bakes;
    let others = others(&inputs, &made.ledger, &audience, &found, tested);
    report.json.others(&others, args.seed);
    report.text = press::terminal::others(&others);
    if args.advise {
        let asked = super::advise::Asked {
            setup: &setup,
            audience: &audience,
            larder: &made.larder,
            seed: args.seed,
            number: args.number,
            ways: many.ways,
        };
        let advice = asked.advice();
        report.json.advice(&advice);
        report.text.push_str(&press::terminal::advice(&advice));
    }
    if let Some(folder) = &args.figures {
        write(folder, &others, &mut report)?;
    }
    Ok(report)
}

/// Puts the figures into a folder and says so.
fn write(
    folder: &Path,
    others: &edit::ledger::others::Others,
    report: &mut Report,
) -> Result<(), Failure> {
    let figures = press::figure::of_others(others);
    let files = figures
        .iter()
        .map(|figure| (figure.name.clone(), figure.svg.clone().into_bytes()))
        .collect();
    folder::publish(folder, &files).map_err(|failure| failure.by_flag("--figures"))?;
    report.text.push_str(&format!("\n{}\n", folder.display()));
    for figure in &figures {
        report
            .json
            .file(folder.join(&figure.name).display().to_string());
        let line = press::terminal::file_line(&figure.name, figure.what, figure.svg.len());
        report.text.push_str(&line);
    }
    Ok(())
}

/// A ready audience, or one of the author's own from a file; none when the file has something to mend.
fn whose(name: &str, work: &mut Work) -> Result<Option<Audience>, Failure> {
    if let Some(ready) = ready(name) {
        return Ok(Some(ready));
    }
    let path = Path::new(name);
    let looks_like_a_file = name.contains(['/', '\\', '.']) || path.exists();
    if !looks_like_a_file {
        let known: Vec<&str> = READY.iter().map(|(name, _)| *name).collect();
        let meant = recipe::source::near(name, known.iter().copied());
        let meant = meant.map_or_else(String::new, |meant| format!(" Is “{meant}” meant?"));
        return Err(Failure::Usage(format!(
            "{}{meant} Or give a file of your own.",
            audience::no_such_audience(name)
        )));
    }
    let bytes = read::bytes(path)?;
    let file = read_audience_bytes(&bytes);
    let mut said = file.diagnostics;
    let mut made = None;
    if let Some(file) = &file.output {
        let checked = audience::audience(file);
        said.extend(checked.diagnostics);
        made = checked.output;
    }
    work.say_of_file(path, &bytes, said);
    Ok(made)
}

/// Many kitchens.
struct Many<'a> {
    setup: &'a Setup<'a>,
    audience: &'a Audience,
    seed: u64,
    groups: Vec<Vec<Group>>,
    ways: u64,
}

impl Many<'_> {
    /// All of it on every core; none when it was stopped too early to say anything.
    fn run(&self, args: &Args) -> Option<OtherKitchens> {
        let (of_ways, of_groups) = fewer(args.number);
        let mut pieces: Vec<Piece> = cut(0..args.number).map(Piece::Kitchens).collect();
        let ways: Vec<Option<Way>> = std::iter::once(None)
            .chain(
                (0..self.ways)
                    .map(|number| Some(way(self.setup, self.audience, self.seed, number))),
            )
            .collect();
        if !args.quick {
            for place in 0..ways.len() {
                pieces.extend(cut(0..of_ways).map(|range| Piece::Way(place, range)));
            }
            for place in 0..self.groups.len() {
                let range = 0..of_groups.min(args.number);
                pieces.extend(cut(range).map(|range| Piece::Anew(place, range)));
            }
        }
        let stop = Stop::listen();
        let made = progress::watched("Other kitchens", pieces.len(), |done| {
            workers::each(&pieces, |piece| {
                if stop.wanted() {
                    return Made::Stopped;
                }
                let made = self.one(piece, &ways);
                done.one();
                Made::Rows(made)
            })
        });
        self.together(&pieces, made, ways.len())
    }

    fn one(&self, piece: &Piece, ways: &[Option<Way>]) -> Vec<Row> {
        match piece {
            Piece::Kitchens(range) => {
                kitchens(self.setup, self.audience, self.seed, range.clone()).rows
            }
            Piece::Way(place, range) => in_a_way(
                self.setup,
                self.audience,
                self.seed,
                ways[*place].as_ref(),
                range.clone(),
            ),
            Piece::Anew(place, range) => {
                let groups = &self.groups[*place];
                anew(self.setup, self.audience, self.seed, range.clone(), groups).rows
            }
        }
    }

    /// Puts the pieces together in their order. Where somebody stopped, the kitchens up to there count, and of
    /// the rest only what is whole.
    fn together(&self, pieces: &[Piece], made: Vec<Made>, ways: usize) -> Option<OtherKitchens> {
        let mut tally = Tally::default();
        let mut of_ways: Ways = vec![Vec::new(); ways];
        let mut of_groups: Vec<Tally> = vec![Tally::default(); self.groups.len()];
        let (mut whole, mut all_ways, mut all_groups) = (true, true, true);
        for (piece, made) in pieces.iter().zip(made) {
            match (piece, made) {
                (Piece::Kitchens(_), Made::Rows(rows)) if whole => tally.merge(Tally { rows }),
                (Piece::Kitchens(_), _) => whole = false,
                (Piece::Way(place, _), Made::Rows(rows)) => of_ways[*place].extend(rows),
                (Piece::Way(..), Made::Stopped) => all_ways = false,
                (Piece::Anew(place, _), Made::Rows(rows)) => {
                    of_groups[*place].merge(Tally { rows });
                }
                (Piece::Anew(..), Made::Stopped) => all_groups = false,
            }
        }
        if (tally.rows.len() as u64) < bake::kitchens::LEAST {
            return None;
        }
        if !all_ways || self.ways == 0 {
            of_ways.clear();
        }
        let anew: Vec<Anew> = if all_groups && self.ways > 0 {
            self.groups.iter().cloned().zip(of_groups).collect()
        } else {
            Vec::new()
        };
        Some(other_kitchens(
            self.setup,
            self.audience,
            &tally,
            &anew,
            &of_ways,
        ))
    }
}

/// A range cut into pieces, in order.
pub fn cut(range: Range<u64>) -> impl Iterator<Item = Range<u64>> {
    let end = range.end;
    (range.start..end)
        .step_by(usize::try_from(PIECE).unwrap_or(1))
        .map(move |from| from..(from + PIECE).min(end))
}
