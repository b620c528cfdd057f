//! `day`: when everything is done, for one recipe or several, in one kitchen.

use super::day_before;
use super::day_said::once;
use super::day_titles::told_apart;
use super::day_words::{self, Asks};
use super::findings::{For, draw, list};
use super::{Outcome, Report, check, envelope, work};
use crate::failure::Failure;
use crate::world::beside::beside;
use crate::world::{folder, read};
use bake::anchor::anchor;
use bake::kitchen::Kitchen;
use bake::simulate::{Follows, How};
use edit::ledger::day::{DayLines, day_lines};
use edit::ledger::shopping::{self, Order};
use edit::ledger::timetable::Hours;
use plan::day::before::Before;
use plan::day::means::{Means, means};
use plan::day::{Asked, Day, Wanted, day};
use recipe::document::read_kitchen_bytes;
use recipe::source::{Checked, Diagnostic};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Instant;

/// Plan a bake day: recipes and batches, one kitchen, and when each bread is to be ready
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven day examples/cardamom-dough.toml --serve \"wreath 2026-12-24 16:00\" --from \"2026-12-23 18:00\"\n         everyoven day examples/same-day-loaf.toml=2 examples/hearth-loaf.toml --kitchen examples/kitchens/studio.toml --into day"
)]
pub struct Args {
    /// Recipe files, each with its batches after an equals sign: loaf.toml=2
    #[arg(required = true, value_name = "RECIPE[=BATCHES]")]
    recipes: Vec<String>,
    /// When a bread is to be ready to eat: "loaf 2026-12-24 16:00", "2: loaf 16:00" for the second batch, "16:00" for everything; may be given several times
    #[arg(long, value_name = "[BREAD] [DATE] TIME")]
    serve: Vec<String>,
    /// When a bread is to come out of the oven, in the same words
    #[arg(long, value_name = "[BREAD] [DATE] TIME")]
    out: Vec<String>,
    /// Nothing begins before; now when left out
    #[arg(long, value_name = "DATE TIME")]
    from: Option<String>,
    /// Whose clock it is: Europe/Oslo; this machine's when left out, or none
    #[arg(long)]
    zone: Option<String>,
    /// The kitchen; an ordinary one at 21 °C with one rack when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// What ends a step: its sign, as it comes in this kitchen, or the written clock
    #[arg(long, value_enum, default_value = "cue")]
    follows: By,
    /// The day has begun: what time it is
    #[arg(long, value_name = "[DATE] TIME")]
    now: Option<String>,
    /// What is done by now, with all before it: mix, divide, 8, "shape knots", "chill the dough"; of several doughs "2: mix", counted as their recipes are given, or "loaf: mix"; may be given several times
    #[arg(long, requires = "now")]
    done: Vec<String>,
    /// What the dough read after its mix: 24.1C
    #[arg(long, requires = "now")]
    dough: Option<String>,
    /// The plan so far: the day.json that this command wrote; the one in the folder of --into when left out
    #[arg(long, requires = "now", value_name = "FILE", value_hint = clap::ValueHint::FilePath)]
    before: Option<PathBuf>,
    /// How long to look for a better plan
    #[arg(long, default_value_t = 5.0)]
    seconds: f64,
    /// A file of your own prices, whose packs are then counted for what to buy
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    prices: Option<PathBuf>,
    /// Clocks as 1:05 pm
    #[arg(long)]
    twelve: bool,
    /// A folder for the drawing, the sheet to print, the calendar and the tables
    #[arg(long, value_name = "FOLDER", value_hint = clap::ValueHint::DirPath)]
    into: Option<PathBuf>,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum By {
    /// The written minutes
    Clock,
    /// The sign of the dough or the bread, however long it takes
    Cue,
}

/// Plans it.
pub fn run(args: &Args) -> Outcome {
    let asks = Asks {
        serve: &args.serve,
        out: &args.out,
        from: args.from.as_deref(),
        zone: args.zone.as_deref(),
        now: args.now.as_deref(),
        done: &args.done,
        dough: args.dough.as_deref(),
        in_a_form: false,
    };
    if !(args.seconds > 0.0 && args.seconds <= 3600.0) {
        return Err(Failure::Usage(
            "--seconds is more than 0 and at most 3600".to_owned(),
        ));
    }
    let read_asks = day_words::read(&asks)?;
    let mut works = Vec::new();
    for asked in &args.recipes {
        let (path, batches) = day_words::batches(asked)?;
        let work = work::on_files_for(Path::new(path), args.kitchen.as_deref(), None)?;
        works.push((work, batches));
    }
    if works.iter().any(|(work, _)| work.stops_the_day()) {
        return Ok(to_mend(&works));
    }
    let mut means = match &args.kitchen {
        Some(path) => read_kitchen_bytes(&read::bytes(path)?)
            .output
            .map_or_else(Means::usual, |file| means(&file)),
        None => Means::usual(),
    };
    if read_asks.now.is_some() {
        means.is_up();
    }
    let kitchen = works
        .iter()
        .find_map(|(work, _)| work.made.as_ref())
        .map_or_else(Kitchen::standard, |made| made.kitchen.clone());
    let follows = match args.follows {
        By::Clock => Follows::Clock,
        By::Cue => Follows::Cue,
    };
    let before = plan_before(args, &read_asks)?;
    let asked = Asked {
        before,
        kitchen: &kitchen,
        means: &means,
        batches: wanted(&works, &kitchen, follows),
        serve: read_asks.serve,
        starts: read_asks.starts,
        zone: read_asks.zone.as_ref(),
        follows,
        now: read_asks.now,
    };
    // The budget is the clock's: asked again and again, it says which share of the seconds is gone since it
    // was asked first, which is when the search begins.
    let mut began: Option<Instant> = None;
    let mut budget = || {
        let began = began.get_or_insert_with(Instant::now);
        began.elapsed().as_secs_f64() / args.seconds
    };
    let planned = day(&asked, &mut budget, Some(&beside));
    let past = read_asks.past.iter().map(|past| format!("{past}\n\n"));
    let mut report = Report {
        text: String::new(),
        notes: past.collect(),
        json: envelope::Envelope::new("day"),
        stops: plan::day::stops(&planned.diagnostics),
    };
    for (work, _) in &works {
        let source = work.source(0);
        for diagnostic in work.of_the_mix() {
            let drawn = draw(&source.path, &source.text, diagnostic);
            report.notes.push_str(&drawn);
            report.notes.push('\n');
            report.json.finding(&source.path, &source.text, diagnostic);
        }
    }
    let titles = titles(&works);
    let all = said(&asked, &planned);
    let found = once(all, planned.output.as_ref(), &asked.batches);
    for diagnostic in &found {
        let about = about(&works, diagnostic);
        let source = works[about.unwrap_or(0)].0.source(0);
        // What is about a place is drawn in its file; what is about the day is said of it by its recipes.
        let whose = match diagnostic.span {
            Some(_) => source.path.clone(),
            None => titles.join(", "),
        };
        report
            .notes
            .push_str(&draw(&whose, &source.text, diagnostic));
        report.notes.push('\n');
        report.json.finding(&source.path, &source.text, diagnostic);
    }
    let Some(planned) = planned.output else {
        return Ok(report);
    };
    let hours = if args.twelve {
        Hours::Of12
    } else {
        Hours::Of24
    };
    let lines = day_lines(&planned, &means, hours);
    lines
        .figures()
        .for_each(|figure| report.json.figure(figure));
    report.json.timetable(&lines.table);
    report.text = press::terminal::day(&lines);
    let orders = orders(&works, &kitchen);
    let packs = super::shopping::packs(&orders, args.prices.as_deref())?;
    let list = press::terminal::shopping(&shopping::list(&orders, &packs));
    if let Some(into) = &args.into {
        let said: Vec<String> = found.iter().map(on_the_sheet).collect();
        write(into, &lines, &said, &list, &mut report)?;
    } else {
        report.text.push('\n');
        report.text.push_str(&list);
    }
    Ok(report)
}

/// The plan of a day that has begun, where it was written down.
fn plan_before(args: &Args, asks: &day_words::Meant) -> Result<Option<Before>, Failure> {
    let beside = args.into.as_ref().map(|into| into.join("day.json"));
    let path = match (&args.before, beside.filter(|path| path.is_file())) {
        _ if asks.now.is_none() => None,
        (Some(path), _) => Some(path.clone()),
        (None, beside) => beside,
    };
    path.map_or(Ok(None), |path| day_before::before(&path, asks))
}

/// What the recipes of a day are called: by their titles, with the file only where two are equal.
pub fn titles(works: &[(work::Work, u32)]) -> Vec<String> {
    let all = works.iter().map(|(work, _)| {
        let title = work.made.as_ref().map(|made| &made.recipe.title.value);
        (&work.source(0).path, title.cloned())
    });
    let file = |path: &&String| {
        let name = Path::new(path.as_str()).file_name();
        name.map_or_else(
            || (*path).clone(),
            |name| name.to_string_lossy().into_owned(),
        )
    };
    let called = told_apart(all.collect(), file);
    called.into_iter().map(|(_, words)| words).collect()
}

/// Of which recipe a finding is that is about a place in its file: the promise that stands there.
fn about(works: &[(work::Work, u32)], diagnostic: &Diagnostic) -> Option<usize> {
    let span = diagnostic.span?;
    works.iter().position(|(work, _)| {
        work.made.as_ref().is_some_and(|made| {
            let promise = made.recipe.promise.as_ref();
            let within = promise.and_then(|promise| promise.within.as_ref());
            within.is_some_and(|within| within.span == span)
                && diagnostic.message.starts_with(&made.recipe.title.value)
        })
    })
}

/// Every batch with what its recipe's tested bakes teach.
pub fn wanted<'a>(
    works: &'a [(work::Work, u32)],
    kitchen: &Kitchen,
    follows: Follows,
) -> Vec<Wanted<'a>> {
    let how = How {
        follows,
        ..How::default()
    };
    let mut all = Vec::new();
    for ((work, batches), title) in works.iter().zip(titles(works)) {
        let Some(made) = &work.made else { continue };
        let kitchens = [kitchen.clone()];
        let taught = anchor(&made.recipe, &made.formula, &kitchens, &how).output;
        for number in 1..=*batches {
            all.push(Wanted {
                recipe: &made.recipe,
                formula: &made.formula,
                label: if *batches > 1 {
                    format!("{title} {number}")
                } else {
                    title.clone()
                },
                anchor: taught.factors,
            });
        }
    }
    all
}

/// Everything that is to be said of a day: what its plan says, and for how long it leaves dough with egg or milk warm.
pub fn said(asked: &Asked<'_>, planned: &Checked<Option<Day>>) -> Vec<Diagnostic> {
    let mut all = planned.diagnostics.clone();
    let Some(day) = &planned.output else {
        return all;
    };
    for (number, batch) in asked.batches.iter().enumerate() {
        let own = day.stands.iter().filter(|one| one.batch == number);
        let stands: Vec<(usize, &[(usize, i32)])> =
            own.map(|one| (one.product, &*one.rests)).collect();
        let (recipe, formula) = (batch.recipe, batch.formula);
        all.extend(edit::rules::warm_as_planned(
            recipe,
            formula,
            &batch.label,
            &stands,
        ));
    }
    all
}

/// What is to be mended before anything is planned.
fn to_mend(works: &[(work::Work, u32)]) -> Report {
    let mut notes = String::new();
    let mut json = envelope::Envelope::new("day");
    for (work, _) in works.iter().filter(|(work, _)| work.stops_the_day()) {
        notes.push_str(&list(work, For::Bake));
        json.append(check::envelope(work, "day"));
    }
    Report {
        text: "No day was planned: mend the findings marked `mend` first.\n".to_owned(),
        notes,
        json,
        stops: true,
    }
}

/// What to buy for all batches, in packs of common sizes.
pub fn bought(works: &[(work::Work, u32)], kitchen: &Kitchen) -> String {
    let orders = orders(works, kitchen);
    let packs: Vec<shopping::Pack> = orders.iter().flat_map(shopping::common).collect();
    press::terminal::shopping(&shopping::list(&orders, &packs))
}

/// Every recipe with its batches.
fn orders<'a>(works: &'a [(work::Work, u32)], kitchen: &'a Kitchen) -> Vec<Order<'a>> {
    works
        .iter()
        .filter_map(|(work, batches)| {
            let made = work.made.as_ref()?;
            Some(Order {
                inputs: edit::Inputs::new(&made.recipe, &made.formula, &made.larder, kitchen),
                batches: f64::from(*batches),
                again: &[],
            })
        })
        .collect()
}

/// A finding as the sheet has it: its weight, what it is, the ways out.
pub fn on_the_sheet(found: &Diagnostic) -> String {
    let weight = edit::ledger::say::capital(found.code.severity.word());
    let mut words = format!("{weight}: {}", found.message);
    for hint in &found.hints {
        words += &format!(" {hint}");
    }
    words
}

/// The papers of a day by the names of their files; `found` is what was found about it.
pub fn papers(
    lines: &DayLines,
    found: &[String],
    list: &str,
) -> Result<BTreeMap<String, Vec<u8>>, Failure> {
    let imprint = concat!("everyoven ", env!("CARGO_PKG_VERSION"));
    let size = press::papers::Sheet::A4;
    let sheet = press::timetable::day_sheet(lines, found, imprint, "en", size)
        .map_err(|error| Failure::Usage(error.to_string()))?;
    let files = [
        ("day.pdf", sheet),
        ("day.svg", press::figure::gantt(&lines.table).into_bytes()),
        (
            "day.ics",
            press::timetable::calendar(&lines.table).into_bytes(),
        ),
        (
            "day.csv",
            press::timetable::cells(&lines.table).into_bytes(),
        ),
        ("shopping.txt", list.as_bytes().to_vec()),
    ];
    let named = files.map(|(name, bytes)| (name.to_owned(), bytes));
    Ok(named.into_iter().collect())
}

/// What a file of a day is.
pub fn what(file: &str) -> &'static str {
    match file {
        "day.pdf" => "the sheet to print",
        "day.svg" => "the drawing",
        "day.ics" => "the calendar, with bells",
        "day.csv" => "the table for a spreadsheet",
        "day.json" => "the table for machines",
        "shopping.txt" => "what to buy for all batches",
        _ => "the plan as text",
    }
}

/// A day for machines, as `day.json` has it.
pub fn told(lines: &DayLines) -> Vec<u8> {
    let mut json = envelope::Envelope::new("day");
    lines.figures().for_each(|figure| json.figure(figure));
    json.timetable(&lines.table);
    json.text().into_bytes()
}

/// Puts everything that a day goes out as into a folder.
fn write(
    into: &Path,
    lines: &DayLines,
    found: &[String],
    list: &str,
    report: &mut Report,
) -> Result<(), Failure> {
    let mut files = papers(lines, found, list)?;
    files.insert("day.txt".to_owned(), report.text.clone().into_bytes());
    files.insert("day.json".to_owned(), report.json.text().into_bytes());
    folder::publish(into, &files)?;
    report.text.push_str(&format!("\n{}\n", into.display()));
    for name in [
        "day.txt",
        "day.pdf",
        "day.svg",
        "day.ics",
        "day.csv",
        "day.json",
        "shopping.txt",
    ] {
        report.json.file(into.join(name).display().to_string());
        let bytes = files.get(name).map_or(0, Vec::len);
        report
            .text
            .push_str(&press::terminal::file_line(name, what(name), bytes));
    }
    Ok(())
}
