//! `kitchens`: a recipe in many other kitchens, how many breads come out well, and what decides it.

use super::check::envelope;
use super::findings::{For, draw, list};
use super::work::{self, Made, Work};
use super::{Outcome, Report, reader};
use crate::failure::Failure;
use crate::world::progress::Told;
use crate::world::stop::Stop;
use crate::world::{folder, read, workers};
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
use edit::advice::Advice;
use edit::ledger::others::{Others, others};
use recipe::document::read_audience_bytes;
use recipe::measure::Market;
use recipe::source::Diagnostic;
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
    /// What a reader tells of the kitchen: "room=17C weighs=no"; with --came
    #[arg(long, value_name = "FACTS", requires = "came")]
    met: Vec<String>,
    /// How the reader's bread came out: well, dense, pale, raw; says how usual that is in kitchens like it
    #[arg(long, value_name = "WORD")]
    came: Option<String>,
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
enum Part {
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
    if let Some(came) = &args.came {
        let told = Told::Terminal;
        let asked = reader::Report::read(&args.met, came).map_err(Failure::Usage)?;
        let which = (args.number, args.seed);
        let stop = Stop::listen();
        let lines = reader::set_against(made, &audience, which, &asked, &stop, told)?;
        report.text = press::terminal::reader(&lines);
        report.json = report.json.with_text(&report.text);
        return Ok(report);
    }
    let question = Question {
        audience,
        number: args.number,
        seed: args.seed,
        quick: args.quick,
        advise: args.advise,
    };
    let stop = Stop::listen();
    let found = followed(made, args.readers, &question, &stop, Told::Terminal);
    let (others, advice) = match found {
        Followed::Found(found) => *found,
        Followed::TooFew => {
            TOO_FEW.clone_into(&mut report.notes);
            report.notes.push('\n');
            report.stops = true;
            return Ok(report);
        }
        Followed::Refused(diagnostics) => {
            let source = work.source(0);
            for said in &diagnostics {
                report
                    .notes
                    .push_str(&draw(&source.path, &source.text, said));
                report.notes.push('\n');
            }
            work.say(diagnostics);
            report.json = envelope(&work, "kitchens");
            report.stops = true;
            return Ok(report);
        }
    };
    report.json.others(&others, args.seed);
    report.text = press::terminal::others(&others);
    if let Some(advice) = &advice {
        report.json.advice(advice);
        report.text.push_str(&press::terminal::advice(advice));
    }
    if let Some(folder) = &args.figures {
        write(folder, &others, &mut report)?;
    }
    Ok(report)
}

/// What is asked of many kitchens.
#[derive(Clone, Debug)]
pub struct Question {
    /// Whose kitchens.
    pub audience: Audience,
    /// How many.
    pub number: u64,
    /// Which.
    pub seed: u64,
    /// Without what is not known of the reckoning and what decides it.
    pub quick: bool,
    /// With changes of the words tried.
    pub advise: bool,
}

/// What came of it.
pub enum Followed {
    /// How many come out well and why, and what to write otherwise where that was asked.
    Found(Box<(Others, Option<Advice>)>),
    /// The recipe cannot be followed.
    Refused(Vec<Diagnostic>),
    /// Stopped before anything can be said.
    TooFew,
}

/// What is said when it was stopped too early.
pub const TOO_FEW: &str = "Stopped before enough kitchens were done for a share.";

/// Follows a recipe through many kitchens.
pub fn followed(
    made: &Made,
    readers: Option<Market>,
    question: &Question,
    stop: &Stop,
    told: Told<'_>,
) -> Followed {
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
        return Followed::Refused(found.diagnostics);
    };
    let audience = &question.audience;
    let many = Many {
        setup: &setup,
        audience,
        seed: question.seed,
        groups: audience.groups(),
        ways: if question.quick { 0 } else { WAYS },
    };
    let Some(found) = many.run(question, stop, told) else {
        return Followed::TooFew;
    };
    let mut inputs = Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
    inputs.market = readers;
    let tested = taught.output.bakes;
    let others = others(&inputs, &made.ledger, audience, &found, tested);
    let advice = (question.advise && !stop.wanted()).then(|| {
        let asked = super::advise::Asked {
            setup: &setup,
            audience,
            larder: &made.larder,
            seed: question.seed,
            number: question.number,
            ways: many.ways,
            told,
        };
        asked.advice()
    });
    Followed::Found(Box::new((others, advice)))
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
    fn run(&self, asked: &Question, stop: &Stop, told: Told<'_>) -> Option<OtherKitchens> {
        let (of_ways, of_groups) = fewer(asked.number);
        let mut pieces: Vec<Piece> = cut(0..asked.number).map(Piece::Kitchens).collect();
        let ways: Vec<Option<Way>> = std::iter::once(None)
            .chain(
                (0..self.ways)
                    .map(|number| Some(way(self.setup, self.audience, self.seed, number))),
            )
            .collect();
        if !asked.quick {
            for place in 0..ways.len() {
                pieces.extend(cut(0..of_ways).map(|range| Piece::Way(place, range)));
            }
            for place in 0..self.groups.len() {
                let range = 0..of_groups.min(asked.number);
                pieces.extend(cut(range).map(|range| Piece::Anew(place, range)));
            }
        }
        let made = told.of("Other kitchens", pieces.len(), |done| {
            workers::each(&pieces, |piece| {
                if stop.wanted() {
                    return Part::Stopped;
                }
                let made = self.one(piece, &ways);
                done.one();
                Part::Rows(made)
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
    fn together(&self, pieces: &[Piece], made: Vec<Part>, ways: usize) -> Option<OtherKitchens> {
        let mut tally = Tally::default();
        let mut of_ways: Ways = vec![Vec::new(); ways];
        let mut of_groups: Vec<Tally> = vec![Tally::default(); self.groups.len()];
        let (mut whole, mut all_ways, mut all_groups) = (true, true, true);
        for (piece, made) in pieces.iter().zip(made) {
            match (piece, made) {
                (Piece::Kitchens(_), Part::Rows(rows)) if whole => tally.merge(Tally { rows }),
                (Piece::Kitchens(_), _) => whole = false,
                (Piece::Way(place, _), Part::Rows(rows)) => of_ways[*place].extend(rows),
                (Piece::Way(..), Part::Stopped) => all_ways = false,
                (Piece::Anew(place, _), Part::Rows(rows)) => {
                    of_groups[*place].merge(Tally { rows });
                }
                (Piece::Anew(..), Part::Stopped) => all_groups = false,
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
