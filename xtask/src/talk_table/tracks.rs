//! Talks with their slips and decoys, and which of them are found and which disturbed.

use bake::kitchen::Kitchen;
use edit::ledger::model::Ledger;
use edit::talk::track::{Track, read};
use edit::talk::{Finding, Kind, talk};
use edit::{Inputs, work_out};
use recipe::document::model::Recipe;
use recipe::document::read_recipe;
use recipe::formula::{Formula, formula};
use recipe::larder::Larder;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::{Mutex, PoisonError};

/// What became of one kind.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Count {
    /// Slips.
    pub slips: usize,
    /// Slips that were found.
    pub found: usize,
    /// Decoys.
    pub decoys: usize,
    /// Decoys that were taken for slips.
    pub disturbed: usize,
}

/// What became of a folder of talks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// By kind, in alphabetical order.
    pub kinds: BTreeMap<String, Count>,
    /// Findings on true words that nobody had marked.
    pub strays: usize,
    /// How many talks.
    pub talks: usize,
    /// How many figures were said in all.
    pub figures: usize,
    /// Everything that went wrong, a line each.
    pub misses: Vec<String>,
}

/// Words that somebody marked.
struct Marked {
    words: String,
    flag: bool,
    kind: String,
    or: Vec<String>,
    place: String,
    span: (usize, usize),
}

/// Scores that were counted once: several tests of one program ask for the same folders.
static COUNTED: Mutex<BTreeMap<PathBuf, Score>> = Mutex::new(BTreeMap::new());

/// Counts the talks of a folder, once in a program.
///
/// # Errors
/// When a file cannot be read or has not its form.
pub fn score(root: &Path, folder: &Path) -> Result<Score, String> {
    let mut counted = COUNTED.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(known) = counted.get(folder) {
        return Ok(known.clone());
    }
    let score = count(root, folder)?;
    counted.insert(folder.to_owned(), score.clone());
    Ok(score)
}

fn count(root: &Path, folder: &Path) -> Result<Score, String> {
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .map_err(|e| format!("{}: {e}", folder.display()))?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ext| ext == "toml"))
        .filter(|path| path.file_stem().is_some_and(|stem| stem != "phrases"))
        .collect();
    files.sort();
    let mut score = Score::default();
    for file in files {
        one(root, &file, &mut score).map_err(|e| format!("{}: {e}", file.display()))?;
        score.talks += 1;
    }
    Ok(score)
}

fn text_of(value: &toml::Value, key: &str) -> String {
    value
        .get(key)
        .and_then(toml::Value::as_str)
        .unwrap_or("")
        .to_owned()
}

fn one(root: &Path, file: &Path, score: &mut Score) -> Result<(), String> {
    let table: toml::Table = std::fs::read_to_string(file)
        .map_err(|e| e.to_string())?
        .parse()
        .map_err(|e| format!("{e}"))?;
    let name = file
        .file_stem()
        .and_then(|stem| stem.to_str())
        .unwrap_or("")
        .to_owned();
    let recipe_name = table["recipe"].as_str().ok_or("no recipe")?;
    let track_file = file.with_file_name(table["track"].as_str().ok_or("no track")?);
    let bytes = std::fs::read(&track_file).map_err(|e| e.to_string())?;
    let track = read(&bytes).output;
    let recipe_file = root.join("examples").join(format!("{recipe_name}.toml"));
    let recipe = std::fs::read_to_string(&recipe_file).map_err(|e| e.to_string())?;
    let held = held(&recipe, &track).ok_or("the recipe cannot be read")?;
    score.figures += held.figures;
    let whole: String = track.cues.iter().map(|cue| cue.line() + " ").collect();
    let empty = Vec::new();
    let list = |key: &str| {
        table
            .get(key)
            .and_then(toml::Value::as_array)
            .unwrap_or(&empty)
    };
    let mut marked = Vec::new();
    for said in list("said") {
        let words = text_of(said, "words");
        let start = whole
            .find(&words)
            .ok_or_else(|| format!("“{words}” is not in the talk"))?;
        let or = said
            .get("or")
            .and_then(toml::Value::as_array)
            .map(|all| {
                all.iter()
                    .filter_map(|one| one.as_str().map(str::to_owned))
                    .collect()
            })
            .unwrap_or_default();
        marked.push(Marked {
            span: (start, start + words.len()),
            words,
            flag: said
                .get("flag")
                .and_then(toml::Value::as_bool)
                .unwrap_or(false),
            kind: text_of(said, "kind"),
            or,
            place: text_of(said, "where"),
        });
    }
    for mark in &marked {
        judge(&name, mark, &held.findings, score);
    }
    for left_out in list("unsaid") {
        let (place, kind) = (text_of(left_out, "where"), text_of(left_out, "kind"));
        let count = score.kinds.entry(kind.clone()).or_default();
        count.slips += 1;
        if held.findings.iter().any(|finding| names(finding, &place)) {
            count.found += 1;
        } else {
            score
                .misses
                .push(format!("{name}: not found, {kind}: {place}"));
        }
    }
    for finding in &held.findings {
        if !says_wrong(finding.kind)
            || matches!(
                finding.kind,
                Kind::Claim | Kind::TooLate | Kind::Order | Kind::Contradiction
            )
        {
            continue;
        }
        let on_slip = marked
            .iter()
            .any(|mark| mark.flag && overlaps(finding, mark.span));
        let on_decoy = marked
            .iter()
            .any(|mark| !mark.flag && overlaps(finding, mark.span));
        if !on_slip && !on_decoy {
            score.strays += 1;
            score
                .misses
                .push(format!("{name}: stray, {}", finding.diagnostic.message));
        }
    }
    Ok(())
}

/// A recipe worked out, to hold talks against.
struct Ready {
    recipe: Recipe,
    sums: Formula,
    larder: Larder,
    kitchen: Kitchen,
    ledger: Ledger,
}

impl Ready {
    fn of(recipe: &str) -> Option<Self> {
        let recipe = read_recipe(recipe).output?;
        let mut larder = Larder::open();
        larder.stock(&recipe.pantry);
        let sums = formula(&recipe, &larder).output;
        let kitchen = Kitchen::standard();
        let (_, ledger) = work_out(&Inputs::new(&recipe, &sums, &larder, &kitchen)).output;
        Some(Self {
            recipe,
            sums,
            larder,
            kitchen,
            ledger,
        })
    }
}

thread_local! {
    /// Recipes by their texts: hundreds of talks are held against each of a few.
    static READY: RefCell<BTreeMap<String, Rc<Ready>>> = const { RefCell::new(BTreeMap::new()) };
}

/// A talk held against a recipe's text; none when the recipe cannot be read.
pub fn held(recipe: &str, track: &Track) -> Option<edit::talk::Talk> {
    let known = READY.with_borrow(|all| all.get(recipe).cloned());
    let ready = if let Some(ready) = known {
        ready
    } else {
        let ready = Rc::new(Ready::of(recipe)?);
        READY.with_borrow_mut(|all| all.insert(recipe.to_owned(), ready.clone()));
        ready
    };
    let inputs = Inputs::new(&ready.recipe, &ready.sums, &ready.larder, &ready.kitchen);
    Some(talk(&inputs, &ready.ledger, track).output)
}

/// Whether a finding says that words are wrong.
pub(super) const fn says_wrong(kind: Kind) -> bool {
    !matches!(kind, Kind::Unsaid | Kind::Caution | Kind::Whole)
}

/// The word of a kind in the cases.
pub(super) const fn word(kind: Kind) -> &'static str {
    match kind {
        Kind::Time => "duration",
        Kind::TooLate => "order",
        Kind::Unsaid => "never said",
        other => other.word(),
    }
}

pub(super) fn overlaps(finding: &Finding, span: (usize, usize)) -> bool {
    finding
        .within
        .is_some_and(|own| own.start < span.1 && span.0 < own.end)
}

/// Whether a finding of something that is not said is about a place.
fn names(finding: &Finding, place: &str) -> bool {
    let place = place.split('#').next().unwrap_or(place);
    finding.places.iter().any(|own| own == place)
}

fn judge(name: &str, mark: &Marked, findings: &[Finding], score: &mut Score) {
    let count = score.kinds.entry(mark.kind.clone()).or_default();
    if mark.flag {
        count.slips += 1;
        let fits = |finding: &&Finding| {
            let kind = word(finding.kind);
            kind == mark.kind || mark.or.iter().any(|or| or == kind)
        };
        let found = findings.iter().filter(fits).any(|finding| {
            overlaps(finding, mark.span) || !says_wrong(finding.kind) && names(finding, &mark.place)
        });
        if found {
            count.found += 1;
        } else {
            let other = findings.iter().find(|finding| overlaps(finding, mark.span));
            let other = other.map_or_else(String::new, |finding| {
                format!(" (found as {})", word(finding.kind))
            });
            score.misses.push(format!(
                "{name}: not found, {}: “{}” is {}{other}",
                mark.kind, mark.words, mark.place
            ));
        }
        return;
    }
    count.decoys += 1;
    let disturbing = findings.iter().find(|finding| {
        if says_wrong(finding.kind) {
            overlaps(finding, mark.span)
        } else {
            matches!(mark.kind.as_str(), "never said" | "caution") && names(finding, &mark.place)
        }
    });
    if let Some(finding) = disturbing {
        count.disturbed += 1;
        score.misses.push(format!(
            "{name}: disturbed, {}: “{}” is {}: {}",
            mark.kind, mark.words, mark.place, finding.diagnostic.message
        ));
    }
}

/// True figures, each made wrong in turn by arithmetic, and how many of them are found then.
///
/// # Errors
/// When a file cannot be read or has not its form.
pub fn spoilt(root: &Path, folder: &Path) -> Result<Score, String> {
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .map_err(|e| format!("{}: {e}", folder.display()))?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ext| ext == "toml"))
        .filter(|path| path.file_stem().is_some_and(|stem| stem != "phrases"))
        .collect();
    files.sort();
    let mut score = Score::default();
    for file in files {
        spoil(root, &file, &mut score).map_err(|e| format!("{}: {e}", file.display()))?;
        score.talks += 1;
    }
    Ok(score)
}

fn spoil(root: &Path, file: &Path, score: &mut Score) -> Result<(), String> {
    let table: toml::Table = std::fs::read_to_string(file)
        .map_err(|e| e.to_string())?
        .parse()
        .map_err(|e| format!("{e}"))?;
    let name = file
        .file_stem()
        .and_then(|stem| stem.to_str())
        .unwrap_or("")
        .to_owned();
    let recipe_name = table["recipe"].as_str().ok_or("no recipe")?;
    let track_file = file.with_file_name(table["track"].as_str().ok_or("no track")?);
    let text = std::fs::read_to_string(&track_file).map_err(|e| e.to_string())?;
    let recipe_file = root.join("examples").join(format!("{recipe_name}.toml"));
    let recipe = std::fs::read_to_string(&recipe_file).map_err(|e| e.to_string())?;
    let empty = Vec::new();
    let said = table
        .get("said")
        .and_then(toml::Value::as_array)
        .unwrap_or(&empty);
    for said in said {
        let kind = text_of(said, "kind");
        let (words, place) = (text_of(said, "words"), text_of(said, "where"));
        let flag = said
            .get("flag")
            .and_then(toml::Value::as_bool)
            .unwrap_or(false);
        let named = !matches!(
            place.as_str(),
            "story" | "opinion" | "products" | "hydration" | "fan" | "claim" | "tested"
        );
        let Some(worse) = worse(&kind, &words)
            .filter(|_| !flag && named && text.matches(words.as_str()).count() == 1)
        else {
            continue;
        };
        let track = read(text.replace(&words, &worse).as_bytes()).output;
        let whole: String = track.cues.iter().map(|cue| cue.line() + " ").collect();
        let Some(start) = whole.find(&worse) else {
            continue;
        };
        let held = held(&recipe, &track).ok_or("the recipe cannot be read")?;
        let count = score.kinds.entry(kind.clone()).or_default();
        count.slips += 1;
        let span = (start, start + worse.len());
        if held
            .findings
            .iter()
            .any(|finding| says_wrong(finding.kind) && overlaps(finding, span))
        {
            count.found += 1;
        } else {
            score.misses.push(format!(
                "{name}: spoilt, {kind}: “{worse}” for “{words}” is {place}"
            ));
        }
    }
    Ok(())
}

/// Words with another figure in the same manner.
fn worse(kind: &str, words: &str) -> Option<String> {
    use recipe::measure::spoken::{Meant, in_words, spoken};
    let quantity = spoken(words).into_iter().next()?;
    if quantity.is_range()
        || quantity.article
        || matches!(quantity.meant, Meant::Sides(..) | Meant::Gas(..))
    {
        return None;
    }
    let value = match kind {
        "amount" => quantity.low * 1.4,
        "temperature" => quantity.low * 1.2,
        "duration" => quantity.low * 2.0,
        "count" => quantity.low + 2.0,
        "size" => quantity.low * 1.6,
        _ => return None,
    };
    let value = if value < 10.0 && kind != "count" {
        (value * 4.0).round() / 4.0
    } else {
        value.round()
    };
    let shown = if quantity.in_words {
        in_words(value)?
    } else {
        numerics::decimal::trimmed(value, 2)
    };
    let (start, end) = (quantity.number.start, quantity.number.end);
    // A part after the unit would stay: "a cup and a half".
    let rest = words[end..quantity.span.end].contains(" and ");
    (!rest).then(|| format!("{}{shown}{}", &words[..start], &words[end..]))
}
