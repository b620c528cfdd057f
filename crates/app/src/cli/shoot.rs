//! `shoot`: a filming day from a recipe and its scenes.

use super::check::envelope;
use super::findings::{For, list};
use super::work::{self, Made, Work};
use super::{Outcome, Report};
use crate::failure::Failure;
use crate::world::{clock, folder, read};
use bake::anchor::anchor;
use bake::simulate::{Course, How, simulate};
use edit::Inputs;
use edit::ledger::shoot::{FilmLines, Filmed, film_lines};
use edit::ledger::timetable::{Hours, long_past};
use plan::rise::Asked;
use plan::shoot::{FilmDay, Times, film_in};
use press::papers::Sheet;
use recipe::document::model::SceneFile;
use recipe::document::read_scenes_bytes;
use recipe::measure::Market;
use recipe::source::{Concern, Severity};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Plan a filming day: the fewest batches of dough that have every state ready when its scene begins
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven shoot examples/cardamom-dough.toml --scenes examples/scenes/cardamom-dough.toml --into out"
)]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The file of scenes, in the order in which they are filmed
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    scenes: PathBuf,
    /// The kitchen; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// Whose minutes a dough's age is counted in
    #[arg(long, value_enum, default_value = "written")]
    times: Whose,
    /// A folder for the papers: run of show, shots, labels, timetable, calendar, shopping list
    #[arg(long, value_hint = clap::ValueHint::DirPath)]
    into: Option<PathBuf>,
    /// The paper of the PDFs
    #[arg(long, value_enum, default_value = "a4")]
    paper: Paper,
    /// Hours of the clock: 24 or 12
    #[arg(long, value_enum, default_value = "24")]
    clock: Clock,
    /// Names as in the shops of a country: en-US, en-GB or en-AU
    #[arg(long = "for", value_parser = super::market)]
    readers: Option<Market>,
}

#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Whose {
    /// The author's written times
    Written,
    /// What rises, bakes and cooling come to in the kitchen, worked out
    Reckoned,
}

#[derive(Clone, Copy, clap::ValueEnum)]
pub enum Paper {
    /// 210 × 297 mm
    A4,
    /// 8½ × 11 in
    Letter,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum Clock {
    /// 13:05
    #[value(name = "24")]
    Of24,
    /// 1:05 pm
    #[value(name = "12")]
    Of12,
}

/// Plans and prints the day, and writes its papers when a folder is named.
pub fn run(args: &Args) -> Outcome {
    let mut work = work::on_files_for(&args.recipe, args.kitchen.as_deref(), args.readers)?;
    let bytes = read::bytes(&args.scenes)?;
    let Some(filming) = planned(&mut work, &args.scenes, &bytes, args.times) else {
        return Ok(Report {
            text: "Nothing was planned: mend the findings marked `mend` first.\n".to_owned(),
            notes: list(&work, purpose(&work)),
            json: envelope(&work, "shoot"),
            stops: true,
        });
    };
    let hours = match args.clock {
        Clock::Of24 => Hours::Of24,
        Clock::Of12 => Hours::Of12,
    };
    let Some(made) = &work.made else {
        return Err(Failure::Bug("a plan without a recipe".to_owned()));
    };
    let lines = filming.lines(made, args.readers, hours);
    let mut json = envelope(&work, "shoot");
    lines
        .figures()
        .into_iter()
        .for_each(|figure| json.figure(figure));
    json.timetable(&lines.table);
    let mut text = press::terminal::shoot(&lines);
    if let Some(into) = &args.into {
        let language = args.readers.map_or("en", Market::tag);
        let files = papers(&lines, &made.ledger.imprint, language, args.paper)?;
        write(into, &files, &mut text, &mut json)?;
    }
    let past = filming.past.iter().map(|past| format!("{past}\n\n"));
    let mut notes: String = past.collect();
    if work.findings.iter().any(ours) {
        notes += &list(&work, For::Bake);
    }
    Ok(Report {
        json: json.with_text(&text),
        text,
        notes,
        stops: work.stops(),
    })
}

/// A filming day.
pub struct Filming {
    /// What is said of a day that is long past.
    pub past: Option<String>,
    file: SceneFile,
    day: FilmDay,
    course: Option<Course>,
}

/// Plans it; what must be mended first is said among the work's findings.
pub fn planned(work: &mut Work, path: &Path, bytes: &[u8], whose: Whose) -> Option<Filming> {
    let read = read_scenes_bytes(bytes);
    let usable = !read.stops();
    let file = read.output.filter(|_| usable);
    work.say_of_file(path, bytes, read.diagnostics);
    if work.stops() {
        return None;
    }
    let (file, how) = (file?, taught(work)?);
    let course = reckoned(work, whose, how);
    let made = work.made.as_ref()?;
    let times = course.as_ref().map_or(Times::Written, Times::Reckoned);
    let asked = Asked {
        formula: &made.formula,
        kitchen: &made.kitchen,
        how,
    };
    let planned = film_in(&made.recipe, &file, times, Some(&asked));
    work.say_of(path, planned.diagnostics);
    let zone = clock::zone().unwrap_or(jiff::tz::TimeZone::UTC);
    let here = clock::now().to_zoned_datetime(zone).datetime();
    Some(Filming {
        day: planned.output?,
        past: long_past(
            file.day.value.to_datetime(jiff::civil::Time::midnight()),
            here,
        ),
        file,
        course,
    })
}

impl Filming {
    /// As it is said.
    pub fn lines(&self, made: &Made, readers: Option<Market>, hours: Hours) -> FilmLines {
        let mut inputs = Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
        inputs.market = readers;
        film_lines(&Filmed {
            inputs,
            ledger: &made.ledger,
            file: &self.file,
            day: &self.day,
            reckoned_in: self.course.as_ref().map(|course| course.kitchen.as_str()),
            hours,
        })
    }
}

/// Findings about the printed page are left out, unless one of them stops the plan.
fn purpose(work: &Work) -> For {
    let print = |finding: &work::Finding| {
        let code = finding.diagnostic.code;
        code.severity == Severity::Mend && code.concern == Concern::Print
    };
    if work.findings.iter().any(print) {
        For::Print
    } else {
        For::Bake
    }
}

/// Whether a finding is about the day, or stops it.
pub fn ours(finding: &work::Finding) -> bool {
    let code = finding.diagnostic.code;
    code.severity == Severity::Mend || plan::shoot::code::ALL.contains(&code)
}

/// How a dough is followed: with what the recipe's tested bakes teach.
fn taught(work: &Work) -> Option<How> {
    let made = work.made.as_ref()?;
    let kitchens = std::slice::from_ref(&made.kitchen);
    let how = How::default();
    let taught = anchor(&made.recipe, &made.formula, kitchens, &how);
    Some(How {
        anchor: taught.output.factors,
        ..how
    })
}

/// What happens in the kitchen, when its minutes are wanted.
fn reckoned(work: &Work, whose: Whose, how: How) -> Option<Course> {
    let made = work.made.as_ref().filter(|_| whose == Whose::Reckoned)?;
    Some(simulate(&made.recipe, &made.formula, &made.kitchen, &how).output)
}

/// The papers by the names of their files.
pub type Files = BTreeMap<String, Vec<u8>>;

/// What a paper is.
pub fn what(file: &str) -> &'static str {
    match file {
        "filming-day.pdf" => "run of show, batches, shots, labels, call sheet",
        "timetable.pdf" => "the day by the clock, with boxes to tick",
        "shopping.pdf" => "what to buy for every batch",
        "timetable.svg" => "the day as a drawing",
        "timetable.ics" => "the day for a calendar",
        _ => "the day for a spreadsheet",
    }
}

/// Makes them.
pub fn papers(
    lines: &FilmLines,
    imprint: &str,
    language: &str,
    paper: Paper,
) -> Result<Files, Failure> {
    let (size, list_size) = match paper {
        Paper::A4 => (Sheet::A4, press::shopping::ListSize::A4),
        Paper::Letter => (Sheet::Letter, press::shopping::ListSize::Letter),
    };
    let set = |made: Result<Vec<u8>, press::pdf::PdfFault>| {
        made.map_err(|error| Failure::Usage(error.to_string()))
    };
    let table = &lines.table;
    let mut files = Files::new();
    let mut add = |name: &str, bytes: Vec<u8>| {
        files.insert(name.to_owned(), bytes);
    };
    add(
        "filming-day.pdf",
        set(press::shoot::papers(lines, imprint, language, size))?,
    );
    add(
        "timetable.pdf",
        set(press::timetable::sheet(table, imprint, language, size))?,
    );
    add(
        "shopping.pdf",
        set(press::shopping::list(
            &lines.shopping,
            imprint,
            language,
            list_size,
        ))?,
    );
    add("timetable.svg", press::figure::gantt(table).into_bytes());
    add(
        "timetable.ics",
        press::timetable::calendar(table).into_bytes(),
    );
    add("timetable.csv", press::timetable::cells(table).into_bytes());
    Ok(files)
}

fn write(
    into: &Path,
    files: &Files,
    text: &mut String,
    json: &mut super::envelope::Envelope,
) -> Result<(), Failure> {
    folder::publish(into, files)?;
    text.push_str(&format!("\n{}\n", into.display()));
    for (name, bytes) in files {
        json.file(into.join(name).display().to_string());
        text.push_str(&press::terminal::file_line(name, what(name), bytes.len()));
    }
    Ok(())
}
