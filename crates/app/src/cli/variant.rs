//! `variant`: a recipe made from another one, with what changed, what stayed and what to mind.

use super::check::envelope;
use super::findings::draw;
use super::size::Size;
use super::work::Work;
use super::{Outcome, Report, work};
use crate::failure::Failure;
use crate::world::{new_file, read, workers};
use bake::simulate::{Grid, How};
use edit::stretch::Moved;
use edit::variant::{Variant, Wish, variant};
use recipe::scale::Eggs;
use std::path::PathBuf;

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
    /// Beat and weigh eggs wherever the new size asks for part of one
    #[arg(long, help_heading = "Another size")]
    weigh_eggs: bool,
    /// Take whole eggs also where that is more than a quarter off
    #[arg(long, help_heading = "Another size", conflicts_with = "weigh_eggs")]
    whole_eggs: bool,
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
        let eggs = match (self.weigh_eggs, self.whole_eggs) {
            (true, _) => Eggs::Weighed,
            (_, true) => Eggs::Whole,
            _ => Eggs::Usual,
        };
        let size = self.size.wish(eggs)?.map(Wish::Size);
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
    // A recipe that cannot be read whole is not a base for another one.
    let Some(from) = original.made.as_ref().filter(|_| !original.stops()) else {
        return Ok(Report {
            text: "No variant was made: mend the findings marked `mend` first.\n".to_owned(),
            notes: super::findings::list(&original, super::findings::For::Bake),
            json: envelope(&original, "variant"),
            stops: true,
        });
    };
    let made = variant(&from.recipe, &from.larder, &from.kitchen, &wishes);
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
    let shown = args.name.as_ref().map_or_else(
        || "the variant".to_owned(),
        |name| name.display().to_string(),
    );
    let kitchen = match &args.kitchen {
        Some(path) => Some((path.display().to_string(), read::bytes(path)?)),
        None => None,
    };
    let times = || {
        // Two days are set beside each other, so that what a rough grid makes of the factors falls out.
        let how = How {
            grid: Grid::Rough,
            ..How::default()
        };
        let taught = from.taught(&from.kitchen, &how).output;
        edit::variant::times(
            (&from.recipe, &from.formula),
            &made_variant,
            &from.larder,
            &from.kitchen,
            taught.factors,
            &workers::days,
        )
    };
    let (work, moved) = workers::both(
        || work::on_bytes(&shown, made_variant.text.as_bytes(), kitchen),
        times,
    );
    report(args, &made_variant, work, &original, &moved)
}

/// What is printed of a variant, and the file if one is wanted.
fn report(
    args: &Args,
    variant: &Variant,
    mut work: Work,
    original: &Work,
    moved: &[Moved],
) -> Outcome {
    let mut json = envelope(&work, "variant").with_text(&variant.text);
    let stops = work.stops();
    let kitchen = original
        .made
        .as_ref()
        .map(|made| made.kitchen.name.as_str());
    let mut text = press::terminal::variant(variant, moved, kitchen.unwrap_or_default());
    if let Some(name) = &args.name {
        let hint = "Choose another name; nothing was changed.";
        new_file::write(name, &variant.text, hint)?;
        json.file(name.display().to_string());
        text.push_str(&format!("\n{} written.\n", name.display()));
    } else {
        text.push_str("\nTo keep it: --as FILE\n");
    }
    let known = super::findings::leave_out_known(&mut work, original);
    let mut notes = String::new();
    if !work.findings.is_empty() {
        notes += &super::findings::list(&work, super::findings::For::Bake);
    }
    if known > 0 {
        notes += &format!(
            "Found in the original too: {known} (everyoven check {}).\n",
            args.recipe.display()
        );
    }
    Ok(Report {
        text,
        notes,
        json,
        stops,
    })
}
