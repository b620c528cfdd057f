//! `variant`: a recipe made from another one, with what changed, what stayed and what to mind.

use super::check::envelope;
use super::findings::draw;
use super::size::Size;
use super::{Outcome, Report, work};
use crate::failure::Failure;
use crate::world::read;
use bake::kitchen::Kitchen;
use edit::variant::{Variant, Wish, variant};
use recipe::document::{read_kitchen_bytes, read_recipe_bytes};
use recipe::larder::Larder;
use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

/// Make a variant of a recipe: one thing for another, or another size, with all that follows
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven variant examples/same-day-loaf.toml --instead \"fresh yeast for active dry yeast\" --as fresh.toml\n         everyoven variant examples/cardamom-dough.toml --tin loaf=950mL"
)]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// One thing for another: "oat drink for milk", "no egg", "wholemeal flour for 25 % of the bread flour"
    #[arg(long, value_name = "THIS FOR THAT")]
    instead: Vec<String>,
    #[command(flatten)]
    size: Size,
    /// Beat and weigh eggs where the new size asks for part of one, instead of taking whole ones
    #[arg(long, help_heading = "Another size")]
    weigh_eggs: bool,
    /// The kitchen in which liquids get their temperatures; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// The file to write the new recipe to; an existing one is never overwritten
    #[arg(long = "as", value_name = "FILE", value_hint = clap::ValueHint::FilePath)]
    name: Option<PathBuf>,
}

impl Args {
    /// The wishes, in the order in which they are granted.
    fn wishes(&self) -> Result<Vec<Wish>, Failure> {
        let swaps = self.instead.iter().cloned().map(Wish::Instead);
        let size = self.size.wish(self.weigh_eggs)?.map(Wish::Size);
        Ok(swaps.chain(size).collect())
    }
}

/// Makes the variant.
pub fn run(args: &Args) -> Outcome {
    let wishes = args.wishes()?;
    if wishes.is_empty() {
        return Err(Failure::Usage(
            "say what is wished, for example --instead \"oat drink for milk\" or --half".to_owned(),
        ));
    }
    let original = work::on_files(&args.recipe, args.kitchen.as_deref())?;
    let bytes = read::bytes(&args.recipe)?;
    // A recipe that cannot be read whole is not a base for another one.
    let recipe = read_recipe_bytes(&bytes)
        .output
        .filter(|_| !original.stops());
    let Some(recipe) = recipe else {
        return Ok(Report {
            text: "No variant was made: mend the findings marked `mend` first.\n".to_owned(),
            notes: super::findings::list(&original, super::findings::For::Bake),
            json: envelope(&original, "variant"),
            stops: true,
        });
    };
    let mut larder = Larder::open();
    // What there is to say about the pantry was said with the original.
    let _ = larder.stock(&recipe.pantry);
    let kitchen = kitchen(args.kitchen.as_deref())?;
    let made = variant(&recipe, &larder, &kitchen, &wishes);
    let path = args.recipe.display().to_string();
    let Some(made_variant) = made.output else {
        let mut json = super::envelope::Envelope::new("variant");
        let mut notes = String::new();
        for diagnostic in &made.diagnostics {
            json.finding(&path, "", diagnostic);
            notes.push_str(&draw(&path, "", diagnostic));
            notes.push('\n');
        }
        return Ok(Report {
            text: "No variant was made.\n".to_owned(),
            notes,
            json,
            stops: true,
        });
    };
    report(args, &made_variant)
}

/// What is printed of a variant, and the file if one is wanted.
fn report(args: &Args, variant: &Variant) -> Outcome {
    let shown = args.name.as_ref().map_or_else(
        || "the variant".to_owned(),
        |name| name.display().to_string(),
    );
    let kitchen = match &args.kitchen {
        Some(path) => Some((path.display().to_string(), read::bytes(path)?)),
        None => None,
    };
    let work = work::on_bytes(&shown, variant.text.as_bytes(), kitchen);
    let mut json = envelope(&work, "variant").with_text(&variant.text);
    let mut text = press::terminal::variant(variant);
    if let Some(name) = &args.name {
        write_new(name, &variant.text)?;
        json.file(name.display().to_string());
        text.push_str(&format!("\n{} written.\n", name.display()));
    } else {
        text.push_str("\nTo keep it: --as FILE\n");
    }
    let notes = if work.findings.is_empty() {
        String::new()
    } else {
        super::findings::list(&work, super::findings::For::Bake)
    };
    Ok(Report {
        text,
        notes,
        json,
        stops: work.stops(),
    })
}

/// The kitchen of a file, or an ordinary one.
fn kitchen(path: Option<&Path>) -> Result<Kitchen, Failure> {
    let Some(path) = path else {
        return Ok(Kitchen::standard());
    };
    let file = read_kitchen_bytes(&read::bytes(path)?);
    let usable = !file.stops();
    let file = file.output.filter(|_| usable);
    Ok(file.map_or_else(Kitchen::standard, |file| {
        bake::kitchen::kitchen(&file).output
    }))
}

/// Writes a file that is not there yet.
fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    let written = OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(path)
        .and_then(|mut file| file.write_all(text.as_bytes()));
    written.map_err(|error| {
        if error.kind() == ErrorKind::AlreadyExists {
            Failure::World {
                doing: "write",
                path: path.to_owned(),
                said: "there is a file of that name already".to_owned(),
                hint: Some("Choose another name; nothing was changed.".to_owned()),
            }
        } else {
            Failure::world("write", path, &error)
        }
    })
}
