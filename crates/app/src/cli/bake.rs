//! `bake`: what happens to a recipe in one kitchen or in several, beside what it says.

use super::check::envelope;
use super::findings::{For, draw, list};
use super::work::{self, Work};
use super::{Outcome, Report};
use crate::failure::Failure;
use crate::world::{folder, progress, workers};
use bake::anchor::anchor_by;
use bake::kitchen::{Kitchen, changed};
use bake::simulate::{Anchored, Course, Follows, How, simulate};
use edit::Inputs;
use edit::ledger::happens::drawn::drawn;
use edit::ledger::happens::happens;
use edit::ledger::kebab;
use press::figure::Figure;
use recipe::document::KitchenValue;
use recipe::measure::Market;
use recipe::source::Checked;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

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
    /// Draw into a folder: the day running down the page, each bake, each piece cut through
    #[arg(long, value_name = "FOLDER", value_hint = clap::ValueHint::DirPath)]
    figures: Option<PathBuf>,
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
    // The recipe's own tested bakes are asked once, and what they teach holds in every kitchen.
    let baked = progress::watched("Baking", asked.len() + 1, |done| {
        let taught = asked.first().and_then(|first| first.taught(&asked, &how));
        done.one();
        let factors = taught.as_ref().map(|taught| taught.output.factors);
        let how = How {
            anchor: factors.unwrap_or_default(),
            ..how
        };
        let baked = workers::each(&asked, |one| {
            let made = one.baked(&how);
            done.one();
            made
        });
        (taught, baked)
    });
    let (taught, mut baked) = baked;
    for (at, course) in baked.iter_mut().enumerate() {
        if let (Some(course), Some(taught)) = (course, &taught) {
            course.output.anchored = taught.output.clone();
            if at == 0 {
                let own = std::mem::take(&mut course.diagnostics);
                course.diagnostics = taught.diagnostics.iter().cloned().chain(own).collect();
            }
        }
    }
    let several = asked.len() > 1;
    let mut all: Option<Report> = None;
    let mut drawn = BTreeMap::new();
    for (mut one, baked) in asked.into_iter().zip(baked) {
        let (report, figures) = one.report(baked, &how, args.figures.is_some());
        for figure in figures {
            let name = name_of(&figure.name, several, one.kitchen.as_ref(), &drawn);
            drawn.insert(name, figure);
        }
        all = Some(match all {
            None => report,
            Some(mut all) => {
                all.text.push('\n');
                all.text.push_str(&report.text);
                all.notes.push_str(&report.notes);
                all.json.append(report.json);
                all.stops |= report.stops;
                all
            }
        });
    }
    let mut all = all.ok_or_else(|| Failure::Bug("no kitchen to bake in".to_owned()))?;
    if let Some(folder) = args.figures.as_ref().filter(|_| !drawn.is_empty()) {
        write(folder, &drawn, &mut all)?;
    }
    Ok(all)
}

/// Figures by the names of their files.
type Drawn = BTreeMap<String, Figure>;

/// Puts figures into a folder and says so.
fn write(folder: &Path, drawn: &Drawn, report: &mut Report) -> Result<(), Failure> {
    let bytes = |figure: &Figure| figure.svg.clone().into_bytes();
    let files = drawn
        .iter()
        .map(|(name, figure)| (name.clone(), bytes(figure)))
        .collect();
    folder::publish(folder, &files).map_err(|failure| failure.by_flag("--figures"))?;
    report.text.push_str(&format!("\n{}\n", folder.display()));
    for (name, figure) in drawn {
        report.json.file(folder.join(name).display().to_string());
        let line = press::terminal::file_line(name, figure.what, figure.svg.len());
        report.text.push_str(&line);
    }
    Ok(())
}

/// A figure's name; with its kitchen's before it when there are several, and a number when two
/// kitchens are called the same.
fn name_of(name: &str, several: bool, kitchen: Option<&Kitchen>, taken: &Drawn) -> String {
    let Some(kitchen) = kitchen.filter(|_| several) else {
        return name.to_owned();
    };
    let kitchen = kebab(&kitchen.name).replace('.', "-");
    let first = format!("{kitchen}-{name}");
    let next = (2..).map(|at| format!("{kitchen}-{at}-{name}"));
    std::iter::once(first)
        .chain(next)
        .find(|name| !taken.contains_key(name))
        .unwrap_or_else(|| name.to_owned())
}

impl Asked {
    /// What the recipe's tested bakes teach; a test names one of the kitchens that are asked for.
    fn taught(&self, all: &[Self], how: &How) -> Option<Checked<Anchored>> {
        let made = self.work.made.as_ref()?;
        let kitchens: Vec<Kitchen> = all
            .iter()
            .filter_map(|one| one.work.made.as_ref())
            .map(|made| made.kitchen.clone())
            .collect();
        Some(anchor_by(
            &made.recipe,
            &made.formula,
            &kitchens,
            how,
            &workers::bakes,
        ))
    }

    /// What happens there; none when the recipe or the kitchen could not be read.
    fn baked(&self, how: &How) -> Option<Checked<Course>> {
        let (made, kitchen) = self.work.made.as_ref().zip(self.kitchen.as_ref())?;
        Some(simulate(&made.recipe, &made.formula, kitchen, how))
    }

    /// The answer, and the figures when they are wanted.
    fn report(
        &mut self,
        baked: Option<Checked<Course>>,
        how: &How,
        draws: bool,
    ) -> (Report, Vec<Figure>) {
        let mut notes = String::new();
        let course = baked.map(|baked| {
            let source = self.work.source(0);
            for diagnostic in &baked.diagnostics {
                notes.push_str(&draw(&source.path, &source.text, diagnostic));
                notes.push('\n');
            }
            self.work.say(baked.diagnostics);
            baked.output
        });
        let stops = self.work.stops();
        let mut json = envelope(&self.work, "bake");
        let mut text = String::new();
        let mut figures = Vec::new();
        if let (Some(course), Some(inputs)) = (&course, self.inputs())
            && let Some(made) = &self.work.made
        {
            let happens = happens(&inputs, &made.ledger, course, how);
            json.happens(&happens);
            text = press::terminal::happens(&happens);
            if draws {
                let drawings = drawn(&inputs, course, &happens);
                figures = press::figure::figures(&drawings);
            }
        }
        // What must be mended comes with everything else there is to say; the bake's own always.
        if stops {
            notes = list(&self.work, For::Bake);
        }
        let report = Report {
            text,
            notes,
            json,
            stops,
        };
        (report, figures)
    }

    /// What the editor works from, in the kitchen with its changes.
    fn inputs(&self) -> Option<Inputs<'_>> {
        let (made, kitchen) = self.work.made.as_ref().zip(self.kitchen.as_ref())?;
        let mut inputs = Inputs::new(&made.recipe, &made.formula, &made.larder, kitchen);
        inputs.market = self.readers;
        Some(inputs)
    }
}
