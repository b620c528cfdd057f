//! `publish`: page, card, bench sheet, text, structured data and the recipe itself, in one folder.

use super::check::envelope;
use super::findings::{For, list};
use super::work::Work;
use super::{Outcome, Report, work};
use crate::failure::Failure;
use crate::world::notebook::{Kept, Name};
use crate::world::photo::{self, Photo};
use crate::world::record::published::Published;
use crate::world::record::{self, Record};
use crate::world::{clock, folder, read, workers};
use edit::ledger::kebab;
use edit::ledger::model::Ledger;
use press::page::PageOptions;
use press::papers::Paper;
use recipe::measure::Market;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Publish a recipe into a folder: page, card, bench sheet, text, structured data
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven publish examples/hearth-loaf.toml --into out")]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The folder in which a folder of the recipe's name is made
    #[arg(long, default_value = "out", value_hint = clap::ValueHint::DirPath)]
    into: PathBuf,
    /// The kitchen it was baked in; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// Print for the readers of a country: en-US, en-GB or en-AU (cups, spoons, names, gas marks)
    #[arg(long = "for", value_parser = super::market)]
    readers: Option<Market>,
    /// The address under which the folder will stand on the web
    #[arg(long)]
    address: Option<String>,
    /// The talk of its film (text, .srt or .vtt): its chapters go into the page's structured data
    #[arg(long, value_name = "FILE", value_hint = clap::ValueHint::FilePath)]
    talk: Option<PathBuf>,
    /// The papers to print it on, with commas between them, or `all`
    #[arg(long, value_name = "PAPERS", value_parser = papers, default_value = "usual")]
    papers: Papers,
}

/// The papers that were asked for.
#[derive(Clone)]
struct Papers(Vec<Paper>);

/// Reads "a6,bench-a4", "all" or "usual"; says every word there is when one is not known.
fn papers(words: &str) -> Result<Papers, String> {
    let mut asked = Vec::new();
    for word in words.split(',').map(str::trim) {
        match (word, Paper::of_word(word)) {
            ("all", _) => asked.extend(Paper::ALL),
            ("usual", _) => asked.extend(Paper::USUAL),
            (_, Some(paper)) => asked.push(paper),
            (_, None) => {
                let known = Paper::ALL.map(Paper::word).join(", ");
                return Err(format!(
                    "`{word}` is no paper; there are {known}, and `all` and `usual`"
                ));
            }
        }
    }
    asked.sort_unstable();
    asked.dedup();
    Ok(Papers(asked))
}

/// Publishes one recipe.
pub fn run(args: &Args) -> Outcome {
    let mut work = work::on_files_for(&args.recipe, args.kitchen.as_deref(), args.readers)?;
    let beside = args.recipe.parent().map(Path::to_owned);
    if let Some(talk) = &args.talk {
        chapters(&mut work, talk)?;
    }
    let mut report = publish(
        &mut work,
        &args.into,
        beside.as_deref(),
        args.address.as_deref(),
        &args.papers.0,
    )?;
    if !report.stops
        && let Err(failure) = told(args, &work)
    {
        // What went out is out; that nobody will remember it is worth a word.
        report.notes += &format!("The notebook does not know of it: {failure}\n");
    }
    Ok(report)
}

/// A recipe that lies in a notebook with a record: what went out is kept there, as by the notebook's own
/// page of papers.
fn told(args: &Args, work: &Work) -> Result<(), Failure> {
    let Some(made) = &work.made else {
        return Ok(());
    };
    let notebook = match args.recipe.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let stem = |path: &Path| Some(path.file_stem()?.to_str()?.to_owned());
    let name = stem(&args.recipe).as_deref().and_then(Name::of);
    let file = name.map(|name| Kept::Recipe.file(&name));
    let here = |file: &String| args.recipe.file_name() == Some(file.as_ref());
    let has_record = notebook.join(record::FILE).is_file();
    let Some(file) = file.filter(here).filter(|_| has_record) else {
        return Ok(());
    };
    let target = args.into.join(folder_name(&made.ledger));
    let whole = |path: &Path| path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let (at, root) = (whole(&target), whole(notebook));
    let published = Published {
        revision: 0,
        at: clock::moment(),
        folder: at.strip_prefix(&root).unwrap_or(&at).display().to_string(),
        kitchen: args.kitchen.as_deref().and_then(stem),
        readers: args.readers.map(|market| market.tag().to_owned()),
        papers: folder::names(&target),
    };
    let text = work.source(0).text.as_bytes();
    Record::open(notebook).went_out(&file, text, &published)
}

/// Adds the chapters of the recipe's film, found in what is said in it.
fn chapters(work: &mut Work, talk: &Path) -> Result<(), Failure> {
    let track = edit::talk::track::read(&read::whole(talk)?);
    if let Some(made) = work.made.as_mut() {
        let inputs = edit::Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
        let said = edit::talk::talk(&inputs, &made.ledger, &track.output)
            .output
            .aligned;
        let film = edit::talk::film::film(&made.ledger, &track.output, &said).output;
        if let Some(line) = made.ledger.film.as_mut() {
            line.parts = film.parts();
        }
    }
    let bytes = track.output.text.as_bytes();
    work.say_of_file(talk, bytes, track.diagnostics);
    Ok(())
}

/// Makes every output of a piece of work and puts the folder in its place.
pub fn publish(
    work: &mut Work,
    into: &Path,
    beside: Option<&Path>,
    address: Option<&str>,
    papers: &[Paper],
) -> Outcome {
    if let Some(address) = address
        && !press::address::web(address)
    {
        return Err(Failure::Usage(format!(
            "`{address}` is no address on the web; it begins with https://"
        )));
    }
    let Some((files, left_out)) = everything(work, beside, address, papers)? else {
        let text = "Nothing was published: mend the findings marked `mend` first.\n".to_owned();
        return Ok(Report {
            text,
            notes: list(work, For::Publication),
            json: envelope(work, "publish"),
            stops: true,
        });
    };
    let Some(made) = &work.made else {
        return Err(Failure::Bug("files without a recipe".to_owned()));
    };
    let target = into.join(folder_name(&made.ledger));
    not_anothers(&target, &made.ledger.title)?;
    folder::publish(&target, &files)?;
    let mut json = envelope(work, "publish");
    for figure in made.ledger.figures() {
        json.figure(figure);
    }
    let mut text = format!("{}\n", target.display());
    for (name, bytes) in &files {
        json.file(target.join(name).display().to_string());
        text.push_str(&press::terminal::file_line(name, what(name), bytes.len()));
    }
    for (words, why) in &left_out {
        text.push_str(&press::terminal::left_out(words, why));
    }
    let notes = if work.findings.is_empty() {
        String::new()
    } else {
        list(work, For::Publication)
    };
    Ok(Report {
        text,
        notes,
        json,
        stops: false,
    })
}

/// Files by their names, and papers that were left out with why.
pub type Everything = (BTreeMap<String, Vec<u8>>, Vec<(String, String)>);

/// Makes every file that is published; none when something must be mended first.
pub fn everything(
    work: &mut Work,
    beside: Option<&Path>,
    address: Option<&str>,
    papers: &[Paper],
) -> Result<Option<Everything>, Failure> {
    let Assets { mut files, absent } = assets(work, beside)?;
    if papers.is_empty() {
        super::reckoned::reckoned(work);
    } else {
        workers::meanwhile(press::pdf::get_ready, || super::reckoned::reckoned(work));
    }
    let Some(made) = work.made.as_ref().filter(|_| !work.stops()) else {
        return Ok(None);
    };
    let options = PageOptions {
        base: address.map(str::to_owned),
        absent,
    };
    make(&made.ledger, &work.source(0).text, &options, &mut files);
    let mut left_out: Vec<(String, String)> = Vec::new();
    let mut wanted: Vec<Paper> = Vec::new();
    for &paper in papers {
        if let Some(why) = paper.why_not(&made.ledger) {
            // One word on a paper that comes in two sizes.
            match left_out.iter_mut().find(|(_, other)| *other == why) {
                Some((words, _)) => words.push_str(&format!(", {}", paper.word())),
                None => left_out.push((paper.word().to_owned(), why)),
            }
        } else {
            wanted.push(paper);
        }
    }
    let batches = press::papers::batches(&wanted);
    let sheets = workers::each(&batches, |batch| {
        press::papers::make_batch(&made.ledger, batch)
    });
    for (paper, sheet) in batches.iter().flatten().zip(sheets.into_iter().flatten()) {
        let bytes = sheet.map_err(|error| Failure::Bug(error.to_string()))?;
        files.insert(paper.file_name(), bytes);
    }
    Ok(Some((files, left_out)))
}

/// What a published file is.
fn what(name: &str) -> &'static str {
    match name {
        "index.html" => "the page",
        "fragment.html" => "a piece for a page of your own",
        "recipe.jsonld" => "structured data",
        "recipe.toml" => "the recipe itself",
        "recipe.txt" => "plain text",
        _ => Paper::of_file(name).map_or("photograph", Paper::said),
    }
}

/// The folder of a recipe; one of its own for each country it is printed for.
pub fn folder_name(ledger: &Ledger) -> String {
    match ledger.language {
        "en" => ledger.slug.clone(),
        tag => format!("{}-{}", ledger.slug, tag.to_lowercase()),
    }
}

/// What a page needs from beside the recipe.
struct Assets {
    files: BTreeMap<String, Vec<u8>>,
    absent: Vec<String>,
}

/// Gathers photographs, and says what is missing: photographs that are not there, characters that
/// no printed face has.
fn assets(work: &mut Work, beside: Option<&Path>) -> Result<Assets, Failure> {
    let mut assets = Assets {
        files: BTreeMap::new(),
        absent: Vec::new(),
    };
    if let Some(made) = &work.made {
        let (mut missing, mut outside) = (Vec::new(), Vec::new());
        for (name, _, _) in &made.ledger.photos {
            let found = match beside {
                Some(folder) => photo::beside(folder, name)?,
                None => Photo::Absent,
            };
            match found {
                Photo::There(bytes) => {
                    assets.files.insert(name.clone(), bytes);
                }
                Photo::Absent => missing.push(name.clone()),
                Photo::LeadsOutside => outside.push(name.clone()),
            }
        }
        let outside_said = edit::rules::photos_outside(&made.recipe, &outside);
        let glyphs: Vec<_> = press::pdf::missing_glyphs(&made.ledger)
            .into_iter()
            .map(|glyph| (glyph.character, glyph.place))
            .collect();
        work.say(edit::rules::missing_photos(&missing));
        work.say(outside_said);
        assets.absent = [missing, outside].concat();
        work.say(edit::rules::glyph_findings(&glyphs));
    }
    Ok(assets)
}

/// Adds what publishing would say about photographs and characters.
pub fn look_over(work: &mut Work, recipe: &Path) -> Result<(), Failure> {
    assets(work, recipe.parent()).map(|_| ())
}

/// Refuses a folder that an earlier run filled with a recipe of another title: two titles can come
/// to one folder name.
fn not_anothers(target: &Path, title: &str) -> Result<(), Failure> {
    let before = target.join("recipe.toml");
    if !before.is_file() {
        return Ok(());
    }
    let read = recipe::document::read_recipe_bytes(&read::bytes(&before)?);
    match read.output.map(|recipe| recipe.title.value) {
        Some(other) if kebab(&other) != kebab(title) => Err(Failure::World {
            doing: "write",
            path: target.to_owned(),
            said: format!("another recipe is published there, \"{other}\""),
            hint: Some("Publish into another folder (--into FOLDER), or move that one.".to_owned()),
        }),
        _ => Ok(()),
    }
}

fn make(
    ledger: &Ledger,
    source: &str,
    options: &PageOptions,
    files: &mut BTreeMap<String, Vec<u8>>,
) {
    let mut add = |name: &str, text: String| files.insert(name.to_owned(), text.into_bytes());
    add("index.html", press::page::page(ledger, options));
    add("fragment.html", press::page::fragment(ledger));
    add("recipe.jsonld", press::jsonld::jsonld(ledger, options));
    add(
        "recipe.txt",
        press::text::text(ledger, press::terminal::COLUMNS),
    );
    add("recipe.toml", source.to_owned());
}

#[cfg(test)]
mod tests {
    use super::{Args, Papers, run};
    use crate::world::notebook::{Name, Notebook};
    use crate::world::record::Record;
    use crate::world::{clock, notebook::Kept};

    #[test]
    fn a_notebook_is_told_what_the_terminal_published() {
        let folder = crate::web::tests::folder("terminal");
        let notebook = Notebook::at(folder.clone());
        let name = Name::of("loaf").expect("a name");
        let text = crate::cli::work::DEMO_RECIPE.as_bytes();
        notebook.write(Kept::Recipe, &name, text).expect("written");
        let args = |into: &str| Args {
            recipe: folder.join("loaf.toml"),
            into: folder.join(into),
            kitchen: None,
            readers: None,
            address: None,
            talk: None,
            papers: Papers(Vec::new()),
        };
        // A folder that is no notebook yet gets no record by it.
        run(&args("elsewhere")).expect("published");
        assert!(!folder.join("record.sqlite").exists());

        let record = Record::open(&folder);
        record
            .reconcile(&notebook, clock::moment())
            .expect("a record");
        let changed = crate::cli::work::DEMO_RECIPE.replace("version = \"3\"", "version = \"4\"");
        notebook
            .write(Kept::Recipe, &name, changed.as_bytes())
            .expect("written");
        run(&args("published")).expect("published");
        let out = record
            .last_published("loaf.toml")
            .expect("read")
            .expect("one");
        assert_eq!(
            out.revision, 2,
            "what was changed by hand is the version that went out"
        );
        assert_eq!(out.folder, "published/same-day-braid-and-tied-buns");
        assert!(
            out.papers.contains(&"index.html".to_owned()),
            "{:?}",
            out.papers
        );
        let kept = record.revision_text("loaf.toml", 2).expect("read");
        assert_eq!(kept.as_deref(), Some(changed.as_bytes()));
    }
}
