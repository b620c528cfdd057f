//! The count of whole texts: each recipe read and compared, line by line, heat by heat, time by time.

use super::cases::{cells, list, mark, reading};
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::import::{Imported, LineKind, Mark, import, is_page, saved_page};
use recipe::larder::Larder;
use recipe::source::Severity;
use std::path::Path;

/// The folder of the recipes.
pub const RECIPES: &str = "tests/suite/import/recipes";

/// What somebody who had not seen the reader wrote down of a text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Expected {
    /// Its title.
    pub title: String,
    /// What it makes; "-" when the text does not say.
    pub makes: String,
    /// Line, kind and readings.
    pub lines: Vec<[String; 3]>,
    /// "step 6: 170 °C".
    pub heat: Vec<String>,
    /// "step 1: 10 min".
    pub times: Vec<String>,
    /// "yield".
    pub left_out: Vec<String>,
}

/// Reads what was written down.
///
/// # Errors
/// When a row of the table has not three cells.
pub fn expected(text: &str) -> Result<Expected, String> {
    let mut all = Expected::default();
    for row in text.lines() {
        if let Some(rest) = row.strip_prefix("title:") {
            rest.trim().clone_into(&mut all.title);
        } else if let Some(rest) = row.strip_prefix("makes:") {
            rest.trim().clone_into(&mut all.makes);
        } else if let Some(rest) = row.strip_prefix("heat:") {
            all.heat = list(rest, ';');
        } else if let Some(rest) = row.strip_prefix("times:") {
            all.times = list(rest, ';');
        } else if let Some(rest) = row.strip_prefix("left out:") {
            all.left_out = list(rest, ',');
        } else if row.starts_with('|') && !row.starts_with("|--") && !row.contains("| what it is |")
        {
            all.lines.push(
                <[String; 3]>::try_from(cells(row))
                    .map_err(|_| format!("not three cells: {row}"))?,
            );
        }
    }
    Ok(all)
}

/// So many of so many.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Share {
    /// Right ones.
    pub right: usize,
    /// Of the case.
    pub wanted: usize,
    /// Given by the reader.
    pub given: usize,
}

impl Share {
    /// What only the one list has, and what only the other has.
    pub(super) fn apart(wanted: &[String], given: &[String]) -> (Vec<String>, Vec<String>) {
        let mut extra = given.to_vec();
        let gone = wanted
            .iter()
            .filter(|one| {
                extra
                    .iter()
                    .position(|other| other == *one)
                    .map(|at| extra.remove(at))
                    .is_none()
            })
            .cloned()
            .collect();
        (gone, extra)
    }

    /// Counts what is in both lists, each as often as in the shorter.
    pub(super) fn of(wanted: &[String], given: &[String]) -> Self {
        let mut left = given.to_vec();
        let right = wanted
            .iter()
            .filter(|one| {
                left.iter()
                    .position(|other| other == *one)
                    .map(|at| left.remove(at))
                    .is_some()
            })
            .count();
        Self {
            right,
            wanted: wanted.len(),
            given: given.len(),
        }
    }

    pub(super) fn shown(self) -> String {
        let more = self.given - self.right;
        let extra = if more > 0 {
            format!(", {more} not in the case")
        } else {
            String::new()
        };
        format!("{} of {}{extra}", self.right, self.wanted)
    }
}

/// What became of one text.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Name of the file.
    pub name: String,
    /// Whether title and yield are right.
    pub title: bool,
    /// Whether what it makes is right.
    pub makes: bool,
    /// Kinds of lines.
    pub kinds: Share,
    /// Readings of lines, marks included.
    pub readings: Share,
    /// Oven temperatures.
    pub heat: Share,
    /// Stretches of time.
    pub times: Share,
    /// What is left out.
    pub left_out: Share,
    /// How the file can be used.
    pub file: String,
    /// Whether the formula of the file can be worked out, or its findings say what is missing.
    pub usable: bool,
    /// What differs, in words.
    pub misses: Vec<String>,
    /// All of it.
    pub imported: Imported,
}

/// The word of a kind in the cases.
fn kind(kind: LineKind) -> &'static str {
    match kind {
        LineKind::Blank => "blank",
        LineKind::Title => "title",
        LineKind::About => "about",
        LineKind::Heading => "heading",
        LineKind::Ingredient => "ingredient",
        LineKind::Step => "step",
        LineKind::Makes => "makes",
        LineKind::Time => "time",
        LineKind::Note => "note",
        LineKind::Other => "other",
    }
}

/// Reads a text as the command does.
pub fn read(text: &str, larder: &Larder) -> Imported {
    if is_page(text) {
        saved_page(text, larder)
    } else {
        import(text, larder)
    }
}

/// Compares a text with what was written down of it.
pub fn outcome(name: &str, text: &str, wanted: &Expected, larder: &Larder) -> Outcome {
    let imported = read(text, larder);
    let page = is_page(text);
    let mut misses = Vec::new();
    let mut miss = |what: &str, wanted: &str, given: &str| {
        misses.push(format!("{what}: the case has {wanted}; read as {given}"));
    };
    let (mut kinds, mut readings) = (Vec::new(), Vec::new());
    for [place, what, reads] in &wanted.lines {
        let found = imported
            .lines
            .iter()
            .find(|line| match place.rsplit_once(' ') {
                Some((list, number)) => {
                    kind(line.kind) == list && line.number.to_string() == number
                }
                None => line.number.to_string() == *place && !page,
            });
        let given = found.map_or("nothing", |line| kind(line.kind));
        if given != what {
            miss(&format!("line {place}"), what, given);
        }
        kinds.push((what.clone(), given.to_owned()));
        if reads != "-" || found.is_some_and(|line| !line.readings.is_empty()) {
            // A line has one mark: the weakest of its readings.
            let parts: Vec<(&str, &str)> = reads
                .split(" ; ")
                .map(|one| one.split_once(": ").unwrap_or(("understood", one)))
                .collect();
            let weakest = [Mark::NotUnderstood, Mark::Doubtful, Mark::Understood]
                .into_iter()
                .map(mark)
                .find(|mark| parts.iter().any(|(one, _)| one == mark))
                .unwrap_or("understood");
            let wanted = format!(
                "{weakest}: {}",
                parts
                    .iter()
                    .map(|(_, reading)| *reading)
                    .collect::<Vec<_>>()
                    .join(" ; ")
            );
            let given = found.map_or_else(String::new, |line| {
                let all: Vec<String> = line.readings.iter().map(reading).collect();
                format!(
                    "{}: {}",
                    mark(line.mark),
                    if all.is_empty() {
                        "-".to_owned()
                    } else {
                        all.join(" ; ")
                    }
                )
            });
            if given != wanted {
                miss(&format!("line {place}"), &wanted, &given);
            }
            readings.push((wanted, given));
        }
    }
    let agree = |pairs: &[(String, String)]| Share {
        right: pairs.iter().filter(|(one, other)| one == other).count(),
        wanted: pairs.len(),
        given: pairs.len(),
    };
    let ends = |low: f64, high: f64, unit: &str| {
        if high > low {
            format!("{}..{} {unit}", low.round(), high.round())
        } else {
            format!("{} {unit}", low.round())
        }
    };
    let heat: Vec<String> = imported
        .heats
        .iter()
        .map(|one| {
            format!(
                "step {}: {}",
                one.line,
                ends(one.heat.low.celsius(), one.heat.high.celsius(), "°C")
            )
        })
        .collect();
    let times: Vec<String> = imported
        .times
        .iter()
        .map(|one| {
            format!(
                "step {}: {}",
                one.line,
                ends(one.time.low.si() / 60.0, one.time.high.si() / 60.0, "min")
            )
        })
        .collect();
    let left_out: Vec<String> = imported
        .left_out
        .iter()
        .map(|one| (*one).to_owned())
        .collect();
    for (what, wanted, given) in [
        ("heat", &wanted.heat, &heat),
        ("times", &wanted.times, &times),
        ("left out", &wanted.left_out, &left_out),
    ] {
        if wanted != given {
            miss(what, &wanted.join(" ; "), &given.join(" ; "));
        }
    }
    let title = imported.title.as_deref() == Some(wanted.title.as_str());
    let makes = imported.makes.as_deref().unwrap_or("-") == wanted.makes;
    if !title {
        miss(
            "title",
            &wanted.title,
            imported.title.as_deref().unwrap_or("-"),
        );
    }
    if !makes {
        miss(
            "makes",
            &wanted.makes,
            imported.makes.as_deref().unwrap_or("-"),
        );
    }
    let (file, usable) = file(&imported.document, larder);
    Outcome {
        name: name.to_owned(),
        title,
        makes,
        kinds: agree(&kinds),
        readings: agree(&readings),
        heat: Share::of(&wanted.heat, &heat),
        times: Share::of(&wanted.times, &times),
        left_out: Share::of(&wanted.left_out, &left_out),
        file,
        usable,
        misses,
        imported,
    }
}

/// What a file is good for, in words.
fn file(document: &str, larder: &Larder) -> (String, bool) {
    let read = read_recipe(document);
    let Some(recipe) = read.output else {
        // Uses that no sentence names do not keep a file from being worked out.
        let asks: Vec<&str> = read
            .diagnostics
            .iter()
            .filter(|said| {
                said.code.severity == Severity::Mend && said.code.name != "item-never-used"
            })
            .map(|said| said.message.as_str())
            .collect();
        return (format!("asks first: {}", asks.join(" ")), !asks.is_empty());
    };
    let formula = formula(&recipe, larder);
    if formula.output.is_whole() && formula.output.dough.flour.si() > 0.0 {
        return ("the formula is worked out".to_owned(), true);
    }
    let missing: Vec<&str> = formula
        .diagnostics
        .iter()
        .map(|said| said.message.as_str())
        .collect();
    (
        format!("in the formula is missing: {}", missing.join(" ")),
        !missing.is_empty(),
    )
}

/// Every case of a folder, in order of name: its name, its text, what was written down of it.
///
/// # Errors
/// When a file cannot be read.
pub(super) fn cases(folder: &Path) -> Result<Vec<(String, String, String)>, String> {
    let fault = |path: &Path, error: std::io::Error| format!("{}: {error}", path.display());
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .map_err(|error| fault(folder, error))?
        .filter_map(|entry| entry.ok().map(|entry| entry.path()))
        .filter(|path| {
            path.extension()
                .is_some_and(|ending| ending == "txt" || ending == "html")
        })
        .collect();
    paths.sort();
    paths
        .iter()
        .map(|path| {
            let text = std::fs::read_to_string(path).map_err(|error| fault(path, error))?;
            let case = path.with_extension("expected.md");
            let case = std::fs::read_to_string(&case).map_err(|error| fault(&case, error))?;
            let name = path
                .file_stem()
                .and_then(|stem| stem.to_str())
                .unwrap_or("")
                .replace('-', " ");
            Ok((name, text, case))
        })
        .collect()
}

/// Every recipe of a folder, in order of name.
///
/// # Errors
/// When a file cannot be read.
pub fn score(folder: &Path) -> Result<Vec<Outcome>, String> {
    let larder = Larder::open();
    cases(folder)?
        .into_iter()
        .map(|(name, text, case)| Ok(outcome(&name, &text, &expected(&case)?, &larder)))
        .collect()
}

/// The section of the page.
pub fn section(outcomes: &[Outcome]) -> String {
    let mut text = String::from(
        "## Whole texts\n\n\
         Each text is read as the command reads it. Lines: what each is. Readings: lines whose mark and \
         every reading are those of the case. Heat and times: right ones with their step. Left out: \
         what the case says a baker misses.\n\n\
         | text | title | makes | lines | readings | heat | times | left out | the file |\n\
         |---|---|---|---|---|---|---|---|---|\n",
    );
    let yes = |right: bool| if right { "right" } else { "wrong" };
    for one in outcomes {
        text.push_str(&format!(
            "| {} | {} | {} | {} | {} | {} | {} | {} | {} |\n",
            one.name,
            yes(one.title),
            yes(one.makes),
            one.kinds.shown(),
            one.readings.shown(),
            one.heat.shown(),
            one.times.shown(),
            one.left_out.shown(),
            one.file.replace('|', "\\|"),
        ));
    }
    let misses = outcomes.iter().map(|one| (&one.name, &one.misses[..]));
    text + &what_differs(misses)
}

/// What differs in each text, by its name, one a line.
pub fn what_differs<'a, N: std::fmt::Display + 'a>(
    all: impl Iterator<Item = (&'a N, &'a [String])>,
) -> String {
    let line = |name: &N, miss: &String| format!("- {name}, {miss}\n");
    let lines: String = all
        .flat_map(|(name, misses)| misses.iter().map(move |miss| line(name, miss)))
        .collect();
    if lines.is_empty() {
        "\nNothing differs.\n".to_owned()
    } else {
        format!("\nWhat differs:\n\n{lines}")
    }
}
