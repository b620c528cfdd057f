//! The stages run one after another on one recipe in one kitchen.

use crate::failure::Failure;
use crate::world::{read, workers};
use bake::anchor::anchor_by;
use bake::kitchen::Kitchen;
use bake::simulate::{Anchored, How};
use edit::ledger::model::Ledger;
use edit::mixture::MixLines;
use recipe::document::model::Kind;
use recipe::document::model::Recipe;
use recipe::document::{read_kitchen_bytes, read_recipe_bytes};
use recipe::formula::Formula;
use recipe::larder::Larder;
use recipe::measure::Market;
use recipe::source::{Checked, Diagnostic, Severity};
use std::path::Path;
use std::sync::OnceLock;

/// The built-in demo: the same files as in `examples/`.
pub const DEMO_RECIPE: &str = include_str!("../../../../examples/same-day-loaf.toml");
/// The demo's own kitchen.
pub const DEMO_STUDIO: &str = include_str!("../../../../examples/kitchens/studio.toml");
/// A colder kitchen for comparison.
pub const DEMO_TERRACE: &str = include_str!("../../../../examples/kitchens/terrace.toml");

/// A text and the name under which it is spoken of.
pub struct Source {
    /// Path as given.
    pub path: String,
    /// The text.
    pub text: String,
}

/// A finding and the file it is about: 0 the recipe, then the others in the order they were read.
pub struct Finding {
    /// Which source.
    pub file: usize,
    /// What is said.
    pub diagnostic: Diagnostic,
}

/// Everything that could be made of one recipe in one kitchen.
pub struct Work {
    sources: Vec<Source>,
    /// Everything there is to say, in the order of the stages.
    pub findings: Vec<Finding>,
    /// What kind of bread it is, when its text could be read.
    pub kind: Option<Kind>,
    /// The recipe, when its text could be read.
    pub made: Option<Made>,
}

/// What the stages made.
pub struct Made {
    /// What each mix does there.
    pub mix: MixLines,
    /// Every figure and string of the outputs.
    pub ledger: Ledger,
    /// The recipe as written.
    pub recipe: Recipe,
    /// Its sums.
    pub formula: Formula,
    /// The larder with the recipe's own pantry on its shelf.
    pub larder: Larder,
    /// The kitchen it was worked out in.
    pub kitchen: Kitchen,
}

impl Made {
    /// What the recipe's own tested bakes teach, with one kitchen at hand; a bake that names another has it as it says.
    pub fn taught(&self, at_hand: &Kitchen, how: &How) -> Checked<Anchored> {
        let at_hand = std::slice::from_ref(at_hand);
        anchor_by(&self.recipe, &self.formula, at_hand, how, &workers::bakes)
    }
}

impl Work {
    /// A source by its place.
    pub fn source(&self, file: usize) -> &Source {
        &self.sources[file.min(self.sources.len() - 1)]
    }

    /// Adds what the outputs have to say about the recipe.
    pub fn say(&mut self, diagnostics: Vec<Diagnostic>) {
        let found = diagnostics.into_iter().map(|diagnostic| Finding {
            file: 0,
            diagnostic,
        });
        self.findings.extend(found);
    }

    /// Adds a file and what is to be said about it.
    pub fn say_of_file(&mut self, path: &Path, bytes: &[u8], diagnostics: Vec<Diagnostic>) {
        let file = self.sources.len();
        self.sources.push(Source {
            path: path.display().to_string(),
            text: lossy(bytes),
        });
        let found = diagnostics
            .into_iter()
            .map(|diagnostic| Finding { file, diagnostic });
        self.findings.extend(found);
    }

    /// Adds what is to be said about a file that was read before, in the order of its text.
    pub fn say_of(&mut self, path: &Path, diagnostics: Vec<Diagnostic>) {
        let name = path.display().to_string();
        let file = self.sources.iter().rposition(|source| source.path == name);
        let found = diagnostics.into_iter().map(|diagnostic| Finding {
            file: file.unwrap_or(0),
            diagnostic,
        });
        self.findings.extend(found);
    }

    /// Whether anything must be mended first.
    pub fn stops(&self) -> bool {
        self.findings
            .iter()
            .any(|f| f.diagnostic.code.severity == Severity::Mend)
    }

    /// Whether anything must be mended before a day with it can be planned: a dough that does not get as warm as it is
    /// written can be baked as it is.
    pub fn stops_the_day(&self) -> bool {
        let mends = |f: &&Finding| f.diagnostic.code.severity == Severity::Mend;
        let mut mends = self.findings.iter().filter(mends);
        mends.any(|f| !bake::code::OF_THE_MIX.contains(&f.diagnostic.code))
    }

    /// What is to be said of its dough in the kitchen it is mixed in, though a day can be planned with it.
    pub fn of_the_mix(&self) -> impl Iterator<Item = &Diagnostic> {
        let all = self.findings.iter().map(|f| &f.diagnostic);
        all.filter(|diagnostic| bake::code::OF_THE_MIX.contains(&diagnostic.code))
    }
}

/// Reads files and runs the stages on them.
pub fn on_files(recipe: &Path, kitchen: Option<&Path>) -> Result<Work, Failure> {
    on_files_for(recipe, kitchen, None)
}

/// The same, printed for the readers of a country.
pub fn on_files_for(
    recipe: &Path,
    kitchen: Option<&Path>,
    market: Option<Market>,
) -> Result<Work, Failure> {
    let recipe_bytes = read::bytes(recipe)?;
    let kitchen = match kitchen {
        Some(path) => Some((path.display().to_string(), read::bytes(path)?)),
        None => None,
    };
    Ok(on_bytes_for(
        &recipe.display().to_string(),
        &recipe_bytes,
        kitchen,
        market,
    ))
}

/// Runs the stages on texts that are already there.
pub fn on_bytes(path: &str, recipe_bytes: &[u8], kitchen: Option<(String, Vec<u8>)>) -> Work {
    on_bytes_for(path, recipe_bytes, kitchen, None)
}

/// The same, printed for the readers of a country.
pub fn on_bytes_for(
    path: &str,
    recipe_bytes: &[u8],
    kitchen: Option<(String, Vec<u8>)>,
    market: Option<Market>,
) -> Work {
    let mut sources = vec![Source {
        path: path.to_owned(),
        text: lossy(recipe_bytes),
    }];
    let mut findings = Vec::new();
    let mut say = |file: usize, diagnostics: Vec<Diagnostic>| {
        findings.extend(
            diagnostics
                .into_iter()
                .map(|diagnostic| Finding { file, diagnostic }),
        );
    };

    let read = read_recipe_bytes(recipe_bytes);
    say(0, read.diagnostics);
    let mut larder = larder();
    if let Some(recipe) = &read.output {
        say(0, larder.stock(&recipe.pantry));
    }
    let mut here = Some(Kitchen::standard());
    if let Some((path, bytes)) = kitchen {
        sources.push(Source {
            path,
            text: lossy(&bytes),
        });
        let file = read_kitchen_bytes(&bytes);
        // A kitchen with an impossible figure is not worked in.
        let usable = !file.stops();
        say(1, file.diagnostics);
        here = file.output.filter(|_| usable).map(|file| {
            say(1, bake::kitchen::unknown_stores(&file, &larder));
            let kitchen = bake::kitchen::kitchen(&file);
            say(1, kitchen.diagnostics);
            kitchen.output
        });
    }

    let kind = read.output.as_ref().map(|recipe| recipe.kind.value);
    let made = read.output.zip(here).map(|(recipe, kitchen)| {
        let formula = recipe::formula::formula(&recipe, &larder);
        say(0, formula.diagnostics);
        let formula = formula.output;
        let mut inputs = edit::Inputs::new(&recipe, &formula, &larder, &kitchen);
        inputs.market = market;
        inputs.written = Some(&sources[0].text);
        let heard = edit::work_out(&inputs);
        say(0, heard.diagnostics);
        let (mix, ledger) = heard.output;
        (mix, ledger, recipe, formula, kitchen)
    });
    let made = made.map(|(mix, ledger, recipe, formula, kitchen)| Made {
        mix,
        ledger,
        recipe,
        formula,
        larder,
        kitchen,
    });
    findings.sort_by_key(|f| {
        (
            f.file,
            f.diagnostic.span.map_or(usize::MAX, |span| span.start),
        )
    });
    Work {
        sources,
        findings,
        kind,
        made,
    }
}

/// The larder as the program brings it along, opened once: opening it is the longest part of
/// working out a recipe.
pub fn larder() -> Larder {
    static OPENED: OnceLock<Larder> = OnceLock::new();
    OPENED.get_or_init(Larder::open).clone()
}

/// Text as the reader places it: byte positions are kept for UTF-8 texts.
fn lossy(bytes: &[u8]) -> String {
    const SHOWN: usize = 1024 * 1024;
    String::from_utf8_lossy(&bytes[..bytes.len().min(SHOWN)]).into_owned()
}
