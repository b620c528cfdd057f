//! `answers`: what readers ask about a recipe, answered for the kitchen of the one who asks.

use super::check::envelope;
use super::findings::{For, list};
use super::work::Made;
use super::{Outcome, Report, work};
use crate::failure::Failure;
use crate::world::progress::Told;
use crate::world::{folder, workers};
use bake::kitchen::{Kitchen, changed};
use bake::simulate::Anchored;
use edit::Inputs;
use edit::answers::{
    Answer, Bench, Fact, Facts, Found, QUESTIONS, Question, answer, find, holds_for,
};
use edit::ledger::happens::other_rooms::how;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// Answer what readers ask: swaps, tins, kitchens, faults, each with this recipe's own figures
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven answers examples/same-day-loaf.toml cold-kitchen --set room=16C\n         everyoven answers examples/cardamom-dough.toml dense --set yeast-power=60%\n         everyoven answers examples/hearth-loaf.toml --into out"
)]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The question: its name, or a fault in a word or two; every name there is when left out
    question: Vec<String>,
    /// What the one who asks says: room=17C, tin=950mL, yeast=7g, protein=10.5%; may be given several times
    #[arg(long, value_name = "NAME=VALUE", value_parser = Fact::read, allow_hyphen_values = true)]
    set: Vec<Fact>,
    /// Their kitchen; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Option<PathBuf>,
    /// Write every answer as one page into a folder
    #[arg(long, value_name = "FOLDER", value_hint = clap::ValueHint::DirPath)]
    into: Option<PathBuf>,
}

/// The page's file.
const PAGE: &str = "answers.html";

/// Answers.
pub fn run(args: &Args) -> Outcome {
    let asked = args.question()?;
    // What must be mended in one asker's kitchen alone is what they ask about: it stops no answer.
    let here = work::on_files(&args.recipe, args.kitchen.as_deref())?;
    let work = if here.stops() && here.made.is_some() {
        work::on_files(&args.recipe, None)?
    } else {
        here
    };
    let mut json = envelope(&work, "answers");
    let Some(made) = work.made.as_ref().filter(|_| !work.stops()) else {
        return Ok(Report {
            text: "No answers: mend the findings marked `mend` first.\n".to_owned(),
            notes: list(&work, For::Bake),
            json,
            stops: true,
        });
    };
    if asked.is_none() && args.into.is_none() {
        let mut text = press::terminal::questions(&made.ledger.title);
        text.push_str(&format!(
            "\nOne of them: everyoven answers {} NAME\n",
            args.recipe.display()
        ));
        return Ok(Report {
            json: json.with_text(&text),
            text,
            notes: String::new(),
            stops: false,
        });
    }
    let own = match &args.kitchen {
        Some(path) => work::on_files(&args.recipe, Some(path))?
            .made
            .map_or_else(|| made.kitchen.clone(), |there| there.kitchen),
        None => made.kitchen.clone(),
    };
    let taught = made.taught(&own, &how()).output;
    let wanted: Vec<&Question> = if args.into.is_some() {
        QUESTIONS.iter().collect()
    } else {
        asked.into_iter().collect()
    };
    let (above, answers) = answered(made, &own, &args.set, &taught, &wanted, Told::Terminal);
    for one in &answers {
        json.answer(one);
    }
    let mut text = String::new();
    let shown = |one: &&Answer| asked.is_some_and(|asked| asked.name == one.name);
    if let Some(one) = answers.iter().find(shown) {
        text.push_str(&press::terminal::answer(one));
        text.push('\n');
        text.push_str(&press::terminal::paragraph(&above));
    }
    if let Some(into) = &args.into {
        let page = press::answers::page(&made.ledger, &above, &answers).into_bytes();
        let bytes = page.len();
        let files = BTreeMap::from([(PAGE.to_owned(), page)]);
        folder::publish(into, &files)?;
        json.file(into.join(PAGE).display().to_string());
        text.push_str(&format!("{}\n", into.display()));
        let what = "every answer under its question";
        text.push_str(&press::terminal::file_line(PAGE, what, bytes));
    }
    Ok(Report {
        text,
        notes: String::new(),
        json,
        stops: false,
    })
}

/// Answers questions for an asker's kitchen, with what they say besides; before them for whom they hold.
pub fn answered(
    made: &Made,
    own: &Kitchen,
    facts_said: &[Fact],
    taught: &Anchored,
    wanted: &[&Question],
    told: Told<'_>,
) -> (String, Vec<Answer>) {
    let mut kitchen = own.clone();
    let mut facts = Facts::default();
    for fact in facts_said {
        match fact {
            Fact::Kitchen(value) => kitchen = changed(&kitchen, *value),
            other => facts = facts.with(other.clone()),
        }
    }
    let inputs = Inputs::new(&made.recipe, &made.formula, &made.larder, &kitchen);
    let bench = Bench::new(inputs, &made.ledger, &facts, taught);
    let answers = told.of("Answering", wanted.len(), |done| {
        workers::each(wanted, |question| {
            let made = answer(&bench, question);
            done.one();
            made
        })
    });
    (holds_for(&bench), answers)
}

impl Args {
    /// The question that is meant; none when none is asked.
    fn question(&self) -> Result<Option<&'static Question>, Failure> {
        if self.question.is_empty() {
            return Ok(None);
        }
        let words = self.question.join(" ");
        match find(&words) {
            Found::One(question) => Ok(Some(question)),
            Found::Near(names) => {
                let meant = if names.is_empty() {
                    String::new()
                } else {
                    format!(" Is `{}` meant?", names.join("` or `"))
                };
                Err(Failure::Usage(format!(
                    "“{words}” is no question that is answered here.{meant} Every question: everyoven answers {}",
                    self.recipe.display()
                )))
            }
        }
    }
}
