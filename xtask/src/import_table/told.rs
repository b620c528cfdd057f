//! The count of recipes told in sentences: amounts, the sentence that uses each, steps, lines of a letter.

use super::cases::{cells, list, mark, reading};
use super::file::{Written, written};
use super::texts::{Share, read, what_differs};
use recipe::import::{Imported, LineKind};
use recipe::larder::Larder;
use std::path::Path;

/// The folder of the cases.
pub const TOLD: &str = "tests/suite/import/told";

/// A row of the second table of a case.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Row {
    /// The words with which a step opens.
    pub opens: String,
    /// Whether a step must begin there; otherwise one may.
    pub begins: bool,
    /// Ingredients whose amount is printed from here to the next row.
    pub uses: Vec<String>,
    /// Ingredients named again from here to the next row.
    pub names: Vec<String>,
}

/// What was written down of a text, from the text alone.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Expected {
    /// Its title.
    pub title: String,
    /// What it makes; "-" when the text does not say.
    pub makes: String,
    /// Lines of address, greeting and farewell.
    pub outside: Vec<String>,
    /// Lines that may be taken for either.
    pub either: Vec<String>,
    /// Readings with their marks.
    pub reads: Vec<String>,
    /// Steps and uses.
    pub rows: Vec<Row>,
    /// "170 °C".
    pub heat: Vec<String>,
    /// "10 min".
    pub times: Vec<String>,
}

/// What became of one text.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Name of the file.
    pub name: String,
    /// Whether the title is right.
    pub title: bool,
    /// Whether the number made is right.
    pub makes: bool,
    /// Lines outside the recipe.
    pub outside: Share,
    /// Readings with their marks.
    pub reads: Share,
    /// Where a step begins.
    pub steps: Share,
    /// Amounts printed where they go in.
    pub uses: Share,
    /// Names again.
    pub names: Share,
    /// Oven temperatures.
    pub heat: Share,
    /// Stretches of time.
    pub times: Share,
    /// What reading the file asks to have mended, by code.
    pub to_mend: Vec<String>,
    /// What differs, in words.
    pub misses: Vec<String>,
    /// All of it.
    pub imported: Imported,
}

/// Reads what was written down.
///
/// # Errors
/// When a row of a table has not its cells.
pub fn expected(text: &str) -> Result<Expected, String> {
    let mut all = Expected::default();
    for row in text.lines() {
        if let Some(rest) = row.strip_prefix("title:") {
            rest.trim().clone_into(&mut all.title);
        } else if let Some(rest) = row.strip_prefix("makes:") {
            rest.trim().clone_into(&mut all.makes);
        } else if let Some(rest) = row.strip_prefix("not the recipe:") {
            all.outside = list(rest, ',');
        } else if let Some(rest) = row.strip_prefix("either:") {
            all.either = list(rest, ',');
        } else if let Some(rest) = row.strip_prefix("heat:") {
            all.heat = list(rest, ';');
        } else if let Some(rest) = row.strip_prefix("times:") {
            all.times = list(rest, ';');
        } else if row.starts_with("|--")
            || row == "| reads as |"
            || row.starts_with("| opens with |")
        {
        } else if row.starts_with('|') {
            match &cells(row)[..] {
                [reads] => all.reads.push(reads.clone()),
                [opens, step, uses, names] => all.rows.push(Row {
                    opens: opens.clone(),
                    begins: step == "begins",
                    uses: list(uses, ','),
                    names: list(names, ','),
                }),
                _ => return Err(format!("neither one cell nor four: {row}")),
            }
        }
    }
    Ok(all)
}

/// The numbers of lines that the reader takes for no part of the recipe.
fn outside(imported: &Imported, either: &[String]) -> Vec<String> {
    imported
        .lines
        .iter()
        .filter(|line| line.kind == LineKind::Other && line.text.chars().any(char::is_alphanumeric))
        .map(|line| line.number.to_string())
        .filter(|number| !either.contains(number))
        .collect()
}

/// Readings in order, each with its mark; where the case leaves the mark open, so does this.
fn reads(imported: &Imported, wanted: &[String]) -> Vec<String> {
    imported
        .lines
        .iter()
        .flat_map(|line| &line.readings)
        .map(|one| {
            let words = reading(one);
            let open = format!("either: {words}");
            if wanted.contains(&open) {
                open
            } else {
                format!("{}: {words}", mark(one.mark))
            }
        })
        .collect()
}

/// Where each row of a case opens in the file: the place of a word of it.
fn places(rows: &[Row], file: &Written) -> Vec<Option<usize>> {
    let mut from = 0;
    rows.iter()
        .map(|row| {
            let place = file.place_of(&row.opens, from)?;
            from = place + 1;
            Some(place)
        })
        .collect()
}

/// Compares a text with what was written down of it.
pub fn outcome(name: &str, text: &str, wanted: &Expected, larder: &Larder) -> Outcome {
    let imported = read(text, larder);
    let file = written(&imported.document, larder);
    let mut misses = Vec::new();
    let mut share = |what: &str, wanted: &[String], given: &[String]| {
        let share = Share::of(wanted, given);
        let (gone, extra) = Share::apart(wanted, given);
        if !gone.is_empty() {
            misses.push(format!("{what}, missed: {}", gone.join(" ; ")));
        }
        if !extra.is_empty() {
            misses.push(format!("{what}, not in the case: {}", extra.join(" ; ")));
        }
        share
    };
    let found = places(&wanted.rows, &file);
    // A row whose words stand inside a placeholder goes with the row before it.
    let mut opens = "";
    let (mut begin, mut uses, mut names) = (Vec::new(), Vec::new(), Vec::new());
    for (row, place) in wanted.rows.iter().zip(&found) {
        if row.begins {
            begin.push(row.opens.clone());
        }
        if row.begins || place.is_some() {
            opens = &row.opens;
        }
        uses.extend(row.uses.iter().map(|key| format!("{opens}: {key}")));
        names.extend(row.names.iter().map(|key| format!("{opens}: {key}")));
    }
    let row_at = |place: usize| {
        wanted
            .rows
            .iter()
            .zip(&found)
            .filter_map(|(row, at)| at.map(|at| (at, row)))
            .filter(|(at, _)| *at <= place)
            .max_by_key(|(at, _)| *at)
            .map_or("", |(_, row)| row.opens.as_str())
    };
    let steps: Vec<String> = file
        .begins
        .iter()
        .filter_map(|start| {
            let row = wanted
                .rows
                .iter()
                .zip(&found)
                .find(|(_, at)| **at == Some(*start));
            match row {
                Some((row, _)) => row.begins.then(|| row.opens.clone()),
                None => Some(format!("“{}”", file.words_from(*start))),
            }
        })
        .collect();
    let of = |whole: bool| -> Vec<String> {
        file.uses
            .iter()
            .filter(|one| one.whole == whole)
            .map(|one| format!("{}: {}", row_at(one.place), one.key))
            .collect()
    };
    let (given_uses, given_names) = (of(true), of(false));
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
        .map(|one| ends(one.heat.low.celsius(), one.heat.high.celsius(), "°C"))
        .collect();
    let times: Vec<String> = imported
        .times
        .iter()
        .map(|one| ends(one.time.low.si() / 60.0, one.time.high.si() / 60.0, "min"))
        .collect();
    let outside = share(
        "outside the recipe",
        &wanted.outside,
        &outside(&imported, &wanted.either),
    );
    let reads = share("amounts", &wanted.reads, &reads(&imported, &wanted.reads));
    let steps = share("steps", &begin, &steps);
    let uses = share("uses", &uses, &given_uses);
    let names = share("names", &names, &given_names);
    let heat = share("heat", &wanted.heat, &heat);
    let times = share("times", &wanted.times, &times);
    let title = imported.title.as_deref() == Some(wanted.title.as_str());
    if !title {
        misses.push(format!(
            "title: the case has {}; read as {}",
            wanted.title,
            imported.title.as_deref().unwrap_or("-")
        ));
    }
    // One piece is made where nothing is said.
    let makes = file.count.unwrap_or(1) == super::file::number_in(&wanted.makes).unwrap_or(1);
    if !makes {
        misses.push(format!(
            "makes: the case has {}; the file {}",
            wanted.makes,
            file.count
                .map_or_else(|| "-".to_owned(), |count| count.to_string())
        ));
    }
    Outcome {
        name: name.to_owned(),
        title,
        makes,
        outside,
        reads,
        steps,
        uses,
        names,
        heat,
        times,
        to_mend: file.to_mend,
        misses,
        imported,
    }
}

/// Every text of a folder, in order of name.
///
/// # Errors
/// When a file cannot be read.
pub fn score(folder: &Path) -> Result<Vec<Outcome>, String> {
    let larder = Larder::open();
    super::texts::cases(folder)?
        .into_iter()
        .map(|(name, text, case)| Ok(outcome(&name, &text, &expected(&case)?, &larder)))
        .collect()
}

/// The section of the page.
pub fn section(outcomes: &[Outcome]) -> String {
    let mut text = String::from(
        "## Recipes told in sentences\n\n\
         Amounts: read with their ingredient, state, place and own mark. Steps: where one begins. Uses: amounts \
         printed in the sentence where they go in. Named again: later mentions that carry the item's name. Outside: \
         lines of address, greeting and farewell that are told and left out.\n\n\
         | text | title | makes | amounts | steps | uses | named again | heat | times | outside | reading asks to mend |\n\
         |---|---|---|---|---|---|---|---|---|---|---|\n",
    );
    let yes = |right: bool| if right { "right" } else { "wrong" };
    for one in outcomes {
        let mend = if one.to_mend.is_empty() {
            "nothing".to_owned()
        } else {
            one.to_mend.join(", ")
        };
        let shares = [
            one.reads,
            one.steps,
            one.uses,
            one.names,
            one.heat,
            one.times,
            one.outside,
        ]
        .map(Share::shown)
        .join(" | ");
        text.push_str(&format!(
            "| {} | {} | {} | {shares} | {mend} |\n",
            one.name,
            yes(one.title),
            yes(one.makes),
        ));
    }
    let misses = outcomes.iter().map(|one| (&one.name, &one.misses[..]));
    text + &what_differs(misses)
}
