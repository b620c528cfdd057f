//! `bake`: what happens to a recipe in one kitchen or in several, beside what it says.

use super::check::envelope;
use super::findings::{For, list};
use super::work::{self, Work};
use super::{Outcome, Report};
use crate::failure::Failure;
use crate::world::{progress, workers};
use bake::kitchen::{Kitchen, changed};
use bake::simulate::{Course, Follows, How, simulate};
use edit::Inputs;
use edit::ledger::happens::{Happens, happens};
use recipe::document::KitchenValue;
use recipe::measure::Market;
use recipe::source::Checked;
use std::path::PathBuf;

/// Bake a recipe in the machine: each step's time, temperature and sign in a kitchen, beside what it says
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven bake examples/same-day-loaf.toml --kitchen examples/kitchens/terrace.toml\n         everyoven bake examples/hearth-loaf.toml --set room=17C --set oven=-8C"
)]
pub struct Args {
    /// The recipe file
    #[arg(value_hint = clap::ValueHint::FilePath)]
    recipe: PathBuf,
    /// The kitchen; may be given several times; an ordinary one at 21 °C when left out
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    kitchen: Vec<PathBuf>,
    /// One value of the kitchen in the place of its own: room=17C, warm-place=30C, fan=on; may be given several times
    #[arg(long, value_name = "NAME=VALUE", value_parser = KitchenValue::read, allow_hyphen_values = true)]
    set: Vec<KitchenValue>,
    /// What ends a step when clock and sign disagree
    #[arg(long, value_enum, default_value = "cue")]
    follows: By,
    /// Print for the readers of a country: en-US, en-GB or en-AU (gas marks)
    #[arg(long = "for", value_parser = super::market)]
    readers: Option<Market>,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum By {
    /// The written minutes
    Clock,
    /// The sign of the dough or the bread, however long it takes
    Cue,
    /// Whichever comes first
    First,
}

impl By {
    const fn follows(self) -> Follows {
        match self {
            Self::Clock => Follows::Clock,
            Self::Cue => Follows::Cue,
            Self::First => Follows::First,
        }
    }
}

/// A recipe read, and the kitchen that it is baked in.
struct Asked {
    work: Work,
    kitchen: Option<Kitchen>,
    readers: Option<Market>,
}

/// Bakes it in every kitchen.
pub fn run(args: &Args) -> Outcome {
    let kitchens: Vec<Option<&PathBuf>> = if args.kitchen.is_empty() {
        vec![None]
    } else {
        args.kitchen.iter().map(Some).collect()
    };
    let how = How {
        follows: args.follows.follows(),
        ..How::default()
    };
    let mut asked = Vec::new();
    for path in kitchens {
        let path = path.map(PathBuf::as_path);
        let work = work::on_files_for(&args.recipe, path, args.readers)?;
        let own = work.made.as_ref().map(|made| made.kitchen.clone());
        asked.push(Asked {
            kitchen: own.map(|own| {
                args.set
                    .iter()
                    .fold(own, |own, value| changed(&own, *value))
            }),
            readers: args.readers,
            work,
        });
    }
    let baked = progress::watched("Baking", asked.len(), |done| {
        workers::each(&asked, |one| {
            let made = one.baked(&how);
            done.one();
            made
        })
    });
    let mut report: Option<Report> = None;
    for (one, baked) in asked.into_iter().zip(baked) {
        let one = one.report(baked, &how);
        report = Some(match report {
            None => one,
            Some(mut all) => {
                all.text.push('\n');
                all.text.push_str(&one.text);
                all.notes.push_str(&one.notes);
                all.json.append(one.json);
                all.stops |= one.stops;
                all
            }
        });
    }
    report.ok_or_else(|| Failure::Bug("no kitchen to bake in".to_owned()))
}

impl Asked {
    /// What happens there; none when the recipe or the kitchen could not be read.
    fn baked(&self, how: &How) -> Option<Checked<Course>> {
        let (made, kitchen) = self.work.made.as_ref().zip(self.kitchen.as_ref())?;
        Some(simulate(&made.recipe, &made.formula, kitchen, how))
    }

    fn told(&self, course: &Course, how: &How) -> Option<Happens> {
        let (made, kitchen) = self.work.made.as_ref().zip(self.kitchen.as_ref())?;
        let mut inputs = Inputs::new(&made.recipe, &made.formula, &made.larder, kitchen);
        inputs.market = self.readers;
        Some(happens(&inputs, &made.ledger, course, how))
    }

    fn report(mut self, baked: Option<Checked<Course>>, how: &How) -> Report {
        let course = baked.map(|baked| {
            self.work.say(baked.diagnostics);
            baked.output
        });
        let happens = course.and_then(|course| self.told(&course, how));
        let stops = self.work.stops();
        let mut json = envelope(&self.work, "bake");
        let text = happens.as_ref().map_or_else(String::new, |happens| {
            json.happens(happens);
            press::terminal::happens(happens)
        });
        Report {
            text,
            notes: if stops {
                list(&self.work, For::Bake)
            } else {
                String::new()
            },
            json,
            stops,
        }
    }
}
