//! The count of ingredient lines: each case read and compared, by what the line is hard for.

use super::cases::{Case, amount, read, rows};
use recipe::larder::Larder;
use std::path::Path;

/// The cases.
pub const CASES: &str = "tests/suite/import/lines.md";

/// What became of one case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outcome {
    /// The case.
    pub case: Case,
    /// The mark that the reader gave.
    pub mark: String,
    /// What the reader read, in the notation of the cases.
    pub read: String,
    /// Amounts that the case holds.
    pub amounts: Vec<String>,
    /// Amounts that the reader gave.
    pub given: Vec<String>,
}

impl Outcome {
    /// Whether everything is as the case says.
    pub fn is_right(&self) -> bool {
        self.mark == self.case.mark && self.read == self.case.reads_as
    }

    /// How many amounts of the case were given.
    pub fn found(&self) -> usize {
        let mut left = self.given.clone();
        self.amounts
            .iter()
            .filter(|one| {
                let place = left.iter().position(|other| other == *one);
                place.map(|place| left.remove(place)).is_some()
            })
            .count()
    }

    /// How many amounts were given that the case has not.
    pub fn invented(&self) -> usize {
        self.given.len() - self.found()
    }

    /// What is wrong, in a word.
    pub fn fault(&self) -> &'static str {
        match () {
            () if self.is_right() => "right",
            () if self.invented() > 0 => "INVENTED amount",
            () if self.found() < self.amounts.len() => "missed amount",
            () if keys(&self.read) != keys(&self.case.reads_as) => "wrong ingredient",
            () if self.read != self.case.reads_as => "wrong place or state",
            () => "wrong mark",
        }
    }
}

/// The amounts in a text of the notation, "none" left out.
fn amounts(reads_as: &str) -> Vec<String> {
    let mut all = Vec::new();
    for reading in reads_as.split(" ; ").filter(|one| *one != "-") {
        let head = reading.split(" state \"").next().unwrap_or(reading);
        let (first, also) = head
            .split_once(" also ")
            .map_or((head, None), |(first, also)| (first, Some(also)));
        let name = first.find(" ?\"");
        let first = name.map_or_else(
            || {
                let plain = first.split(" for ").next().unwrap_or(first);
                plain.rsplit_once(' ').map_or("", |(amount, _)| amount)
            },
            |at| &first[..at],
        );
        if first != "none" && !first.is_empty() {
            all.push(first.to_owned());
        }
        if let Some(also) = also {
            all.push(also.split(" for ").next().unwrap_or(also).to_owned());
        }
    }
    all
}

/// The keys, or words, of a text of the notation.
fn keys(reads_as: &str) -> Vec<String> {
    reads_as
        .split(" ; ")
        .map(|reading| {
            if let Some((_, words)) = reading.split_once(" ?\"") {
                return words.split('"').next().unwrap_or(words).to_owned();
            }
            let head = reading.split(" state \"").next().unwrap_or(reading);
            let head = head.split(" also ").next().unwrap_or(head);
            let head = head.split(" for ").next().unwrap_or(head);
            head.rsplit(' ').next().unwrap_or(head).to_owned()
        })
        .collect()
}

/// Reads every case of a file.
///
/// # Errors
/// When the file cannot be read or a row has not its form.
pub fn score(path: &Path) -> Result<Vec<Outcome>, String> {
    let text = std::fs::read_to_string(path).map_err(|e| format!("{}: {e}", path.display()))?;
    let larder = Larder::open();
    Ok(rows(&text)?
        .into_iter()
        .map(|case| {
            let (mark, written, readings) = read(&case.line, &larder);
            let given = readings
                .iter()
                .flat_map(|one| one.amount.iter().chain(&one.also))
                .map(amount)
                .collect();
            Outcome {
                amounts: amounts(&case.reads_as),
                mark,
                read: written,
                given,
                case,
            }
        })
        .collect())
}

/// What a line is hard for, and whether a case is of it.
type Kind = (&'static str, fn(&Case) -> bool);

/// The kinds that are counted; a line may be of several.
const KINDS: &[Kind] = &[
    ("fractions", |case| {
        let glyph = |c: char| "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⁄".contains(c);
        let bar = case.line.as_bytes().windows(3).any(|three| {
            three[0].is_ascii_digit() && three[1] == b'/' && three[2].is_ascii_digit()
        });
        case.line.contains(glyph) || bar
    }),
    ("number words", |case| {
        let words = ["one", "two", "three", "half", "a", "an", "quarter", "dozen"];
        case.reads_as != "-"
            && case
                .line
                .split_whitespace()
                .any(|word| words.contains(&word.to_lowercase().as_str()))
    }),
    ("decimal commas and thousands", |case| {
        case.line
            .as_bytes()
            .windows(3)
            .any(|three| three[0].is_ascii_digit() && three[1] == b',' && three[2].is_ascii_digit())
    }),
    ("ranges", |case| case.reads_as.contains("..")),
    ("sums", |case| case.reads_as.contains(" + ")),
    ("packs and sticks", |case| {
        ["packet", "can", "stick"]
            .iter()
            .any(|pack| case.reads_as.contains(&format!(" {pack} ")))
    }),
    ("two amounts for one thing", |case| {
        case.reads_as.contains(" also ")
    }),
    ("pinch, knob, handful, dash", |case| {
        ["pinch", "knob", "handful", "dash", "drop"]
            .iter()
            .any(|unit| case.reads_as.contains(&format!(" {unit} ")))
    }),
    ("scant, heaped, about", |case| {
        [
            "scant ",
            "heaped ",
            "rounded ",
            "generous ",
            "level ",
            "about ",
        ]
        .iter()
        .any(|word| case.reads_as.starts_with(word))
    }),
    ("no amount", |case| case.reads_as.contains("none ")),
    ("two things in a line", |case| case.reads_as.contains(" ; ")),
    ("place", |case| {
        [" for bench", " for tin", " for top"]
            .iter()
            .any(|place| case.reads_as.contains(place))
    }),
    ("state", |case| case.reads_as.contains(" state \"")),
    ("not in the larder", |case| case.reads_as.contains("?\"")),
    ("no ingredient line", |case| case.reads_as == "-"),
    ("all lines", |_| true),
];

/// The section of the page.
pub fn section(outcomes: &[Outcome]) -> String {
    let mut text = String::from("## Ingredient lines\n\n");
    text.push_str(
        "A line is right when its mark, every amount, second amount, ingredient, place and state are \
         those of the case. Recall: amounts of the cases that were given. Precision: amounts given \
         that are those of the cases. Invented: amounts given that are not.\n\n\
         | lines with | lines | right | wrong mark | wrong ingredient | wrong place or state | amounts | recall | precision | invented |\n\
         |---|---|---|---|---|---|---|---|---|---|\n",
    );
    for (name, fits) in KINDS {
        let all: Vec<&Outcome> = outcomes.iter().filter(|one| fits(&one.case)).collect();
        let count = |fault: &str| all.iter().filter(|one| one.fault() == fault).count();
        let wanted: usize = all.iter().map(|one| one.amounts.len()).sum();
        let given: usize = all.iter().map(|one| one.given.len()).sum();
        let found: usize = all.iter().map(|one| one.found()).sum();
        let invented: usize = all.iter().map(|one| one.invented()).sum();
        text.push_str(&format!(
            "| {name} | {} | {} | {} | {} | {} | {wanted} | {} | {} | {invented} |\n",
            all.len(),
            count("right"),
            count("wrong mark"),
            count("wrong ingredient"),
            count("wrong place or state"),
            percent(found, wanted),
            percent(found, given),
        ));
    }
    let wrong: Vec<&Outcome> = outcomes.iter().filter(|one| !one.is_right()).collect();
    if wrong.is_empty() {
        text.push_str("\nEvery line is right.\n");
        return text;
    }
    text.push_str(
        "\nLines that are not right:\n\n| line | case | read | fault |\n|---|---|---|---|\n",
    );
    for one in wrong {
        text.push_str(&format!(
            "| {} | {}: {} | {}: {} | {} |\n",
            one.case.line.replace('|', "\\|"),
            one.case.mark,
            one.case.reads_as,
            one.mark,
            one.read,
            one.fault()
        ));
    }
    text
}

fn percent(part: usize, whole: usize) -> String {
    if whole == 0 {
        return "–".to_owned();
    }
    let tenths = (part * 2000 + whole) / (whole * 2);
    format!("{}.{} %", tenths / 10, tenths % 10)
}
