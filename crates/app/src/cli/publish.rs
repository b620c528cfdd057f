//! `publish`: page, card, bench sheet, text, structured data and the recipe itself, in one folder.

use super::check::envelope;
use super::findings::{For, list};
use super::work::Work;
use super::{Outcome, Report, work};
use crate::failure::Failure;
use crate::world::{folder, read};
use edit::ledger::kebab;
use edit::ledger::model::Ledger;
use press::card::CardSize;
use press::page::PageOptions;
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
    /// The address under which the folder will stand on the web
    #[arg(long)]
    address: Option<String>,
}

/// Publishes one recipe.
pub fn run(args: &Args) -> Outcome {
    let mut work = work::on_files(&args.recipe, args.kitchen.as_deref())?;
    let beside = args.recipe.parent().map(Path::to_owned);
    publish(
        &mut work,
        &args.into,
        beside.as_deref(),
        args.address.as_deref(),
    )
}

/// Makes every output of a piece of work and puts the folder in its place.
pub fn publish(
    work: &mut Work,
    into: &Path,
    beside: Option<&Path>,
    address: Option<&str>,
) -> Outcome {
    if let Some(address) = address
        && !press::address::web(address)
    {
        return Err(Failure::Usage(format!(
            "`{address}` is no address on the web; it begins with https://"
        )));
    }
    let Assets { mut files, absent } = assets(work, beside)?;
    let Some(made) = work.made.as_ref().filter(|_| !work.stops()) else {
        let text = "Nothing was published: mend the findings marked `mend` first.\n".to_owned();
        return Ok(Report {
            text,
            notes: list(work, For::Print),
            json: envelope(work, "publish"),
            stops: true,
        });
    };
    let options = PageOptions {
        base: address.map(str::to_owned),
        absent,
    };
    make(&made.ledger, &work.source(0).text, &options, &mut files)?;
    let target = into.join(&made.ledger.slug);
    not_anothers(&target, &made.ledger.title)?;
    folder::publish(&target, &files)?;
    let mut json = envelope(work, "publish");
    for figure in made.ledger.figures() {
        json.figure(figure);
    }
    let mut text = format!("{}\n", target.display());
    for (name, bytes) in &files {
        json.file(target.join(name).display().to_string());
        text.push_str(&press::terminal::file_line(name, bytes.len()));
    }
    let notes = if work.findings.is_empty() {
        String::new()
    } else {
        list(work, For::Print)
    };
    Ok(Report {
        text,
        notes,
        json,
        stops: false,
    })
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
        for (name, _, _) in &made.ledger.photos {
            match photo(name, beside)? {
                Some(bytes) => {
                    assets.files.insert(name.clone(), bytes);
                }
                None => assets.absent.push(name.clone()),
            }
        }
        let glyphs: Vec<_> = press::pdf::missing_glyphs(&made.ledger)
            .into_iter()
            .map(|glyph| (glyph.character, glyph.place))
            .collect();
        work.say(edit::rules::missing_photos(&assets.absent));
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

/// A photograph that lies beside the recipe; none when it does not, or when its name is a path
/// that leads elsewhere.
fn photo(name: &str, beside: Option<&Path>) -> Result<Option<Vec<u8>>, Failure> {
    let plain = Path::new(name).file_name().is_some_and(|file| file == name);
    let path = beside.filter(|_| plain).map(|folder| folder.join(name));
    match path.filter(|path| path.is_file()) {
        Some(path) => read::whole(&path).map(Some),
        None => Ok(None),
    }
}

fn make(
    ledger: &Ledger,
    source: &str,
    options: &PageOptions,
    files: &mut BTreeMap<String, Vec<u8>>,
) -> Result<(), Failure> {
    let fault = |error: press::pdf::PdfFault| Failure::Bug(error.to_string());
    let mut add = |name: &str, bytes: Vec<u8>| files.insert(name.to_owned(), bytes);
    add(
        "index.html",
        press::page::page(ledger, options).into_bytes(),
    );
    add(
        "recipe.jsonld",
        press::jsonld::jsonld(ledger, options).into_bytes(),
    );
    add(
        "recipe.txt",
        press::text::text(ledger, press::terminal::COLUMNS).into_bytes(),
    );
    add("recipe.toml", source.as_bytes().to_vec());
    add(
        "card-a5.pdf",
        press::card::card(ledger, CardSize::A5).map_err(fault)?,
    );
    add("bench-a4.pdf", press::bench::sheet(ledger).map_err(fault)?);
    Ok(())
}
