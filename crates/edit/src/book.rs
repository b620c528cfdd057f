//! The book of editorial rules: what each says, who says so, and the findings that hold it.

use crate::explain::page;
use recipe::provenance::{Had, Origin};
use recipe::source::Code;
use std::fmt::Write;
use std::sync::LazyLock;

/// A rule of recipe writing, and what holds it here.
#[derive(Clone, Debug)]
pub struct EditorialRule {
    /// "ingredients", "words", "safety".
    pub family: String,
    /// The rule in one sentence.
    pub says: String,
    /// Findings that hold it.
    pub codes: Vec<Code>,
    /// A test that shows that the page is made so, as file#function; none where findings do it all.
    pub held_by: Option<String>,
    /// Who says so.
    pub origin: Origin,
}

/// The table as it is kept.
const TABLE: &str = include_str!("../data/rules.csv");

static BOOK: LazyLock<Vec<EditorialRule>> = LazyLock::new(|| {
    read(TABLE).expect("the embedded table of rules is read by this file's tests")
});

/// Every rule, in the order of the book.
pub fn book() -> &'static [EditorialRule] {
    &BOOK
}

/// Every finding that there is.
pub fn every_code() -> impl Iterator<Item = Code> {
    recipe::source::code::ALL
        .iter()
        .chain(bake::code::ALL)
        .chain(crate::code::ALL)
        .chain(crate::talk::code::ALL)
        .chain(crate::talk::track::code::ALL)
        .chain(crate::talk::film::code::ALL)
        .copied()
}

fn read(table: &str) -> Result<Vec<EditorialRule>, String> {
    let mut rules = Vec::new();
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    for (row, record) in reader.records().enumerate() {
        let record = record.map_err(|fault| fault.to_string())?;
        let fault = |what: &str| format!("row {}: {what}", row + 2);
        let field = |place: usize| record.get(place).unwrap_or("");
        let codes = field(2)
            .split_whitespace()
            .map(|name| every_code().find(|code| code.name == name).ok_or(name))
            .collect::<Result<Vec<_>, _>>()
            .map_err(|name| fault(&format!("no finding is called {name}")))?;
        let held_by = Some(field(3).to_owned()).filter(|by| !by.is_empty());
        if codes.is_empty() && held_by.is_none() {
            return Err(fault("nothing holds it"));
        }
        let had = Had::from_word(field(5)).ok_or_else(|| fault("how it was had"))?;
        rules.push(EditorialRule {
            family: field(0).to_owned(),
            says: field(1).to_owned(),
            codes,
            held_by,
            origin: Origin::new(field(4), had),
        });
    }
    Ok(rules)
}

/// The families in the order in which the book has them.
fn families() -> Vec<&'static str> {
    let mut all: Vec<&str> = Vec::new();
    for rule in book() {
        if !all.contains(&rule.family.as_str()) {
            all.push(&rule.family);
        }
    }
    all
}

/// Findings that hold no rule of the book, by what they are about.
fn besides() -> Vec<(&'static str, Vec<Code>)> {
    let in_book = |code: &Code| book().iter().any(|rule| rule.codes.contains(code));
    let rest = |all: &[Code]| -> Vec<Code> {
        let others = all.iter().filter(|code| !in_book(code));
        others.copied().collect()
    };
    let happens = |code: &Code| bake::code::HAPPENS.contains(code);
    let (days, mixes): (Vec<Code>, Vec<Code>) = rest(bake::code::ALL)
        .into_iter()
        .partition(|code| happens(code));
    vec![
        ("text, figures and sums", rest(recipe::source::code::ALL)),
        ("mix and kitchen", mixes),
        ("what happens to the dough", days),
        ("page and other versions", rest(crate::code::ALL)),
        ("a talk against its recipe", rest(crate::talk::code::ALL)),
        ("the track of a talk", rest(crate::talk::track::code::ALL)),
        ("the papers of a film", rest(crate::talk::film::code::ALL)),
    ]
}

/// The source that a finding's page names, as one line.
fn source_of(code: Code) -> String {
    let text = page(code.name).unwrap_or("");
    let after = text.split("## Source").nth(1).unwrap_or("");
    after.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Every rule with its findings, and every finding, by family, for a terminal.
pub fn listed() -> String {
    let mut out = String::from(
        "The rules of the editor by family, each with the findings that hold it and who says so.\n\
         One of them: everyoven explain NAME\n",
    );
    for family in families() {
        let _ = write!(out, "\n{}\n", family.to_uppercase());
        for rule in book().iter().filter(|rule| rule.family == family) {
            let _ = write!(out, "\n  {}\n", rule.says);
            for code in &rule.codes {
                let _ = writeln!(out, "    {:<11} {}", code.severity.word(), code.name);
            }
            if rule.held_by.is_some() {
                out.push_str("    always      the page is made so\n");
            }
            let _ = writeln!(
                out,
                "    source      {} ({})",
                rule.origin.source,
                rule.origin.had.words()
            );
        }
    }
    for (family, codes) in besides() {
        let _ = write!(out, "\n{}\n\n", family.to_uppercase());
        for code in codes {
            let _ = writeln!(out, "    {:<11} {}", code.severity.word(), code.name);
            let _ = writeln!(out, "    source      {}", source_of(code));
        }
    }
    out
}

/// The same as the page `docs/rules.md`.
pub fn markdown() -> String {
    let mut out = String::from(
        "# The rules of the editor\n\n\
         `cargo run -p xtask -- rules` writes this page from `crates/edit/data/rules.csv`; \
         `everyoven explain --list` prints the same.\n\
         A rule is held by findings, by the way the page is made, or by both. Grades: mend (nothing is published), \
         look again (put it right or say why it is meant), could (it could be better).\n\
         `everyoven check RECIPE --fix` shows what can be put right without a cook's decision; `--fix --write` does it. \
         Where guides disagree the recipe chooses in `[house]`, see [format.md](format.md).\n",
    );
    for family in families() {
        let mut heading: String = family.to_owned();
        if let Some(first) = heading.get_mut(..1) {
            first.make_ascii_uppercase();
        }
        let _ = write!(
            out,
            "\n## {heading}\n\n| rule | held by | source |\n|---|---|---|\n"
        );
        for rule in book().iter().filter(|rule| rule.family == family) {
            let mut held: Vec<String> = rule
                .codes
                .iter()
                .map(|code| format!("`{}` ({})", code.name, code.severity.word()))
                .collect();
            if let Some(test) = &rule.held_by {
                let file = test.split('#').next().unwrap_or(test);
                held.push(format!("the way the page is made (`{file}`)"));
            }
            let _ = writeln!(
                out,
                "| {} | {} | {} ({}) |",
                rule.says,
                held.join(", "),
                rule.origin.source,
                rule.origin.had.words()
            );
        }
    }
    let _ = write!(
        out,
        "\n## Findings that no guide has a rule for\n\n| about | findings |\n|---|---|\n"
    );
    for (family, codes) in besides() {
        let names: Vec<String> = codes
            .iter()
            .map(|code| format!("`{}` ({})", code.name, code.severity.word()))
            .collect();
        let _ = writeln!(out, "| {family} | {} |", names.join(", "));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{TABLE, book, every_code, listed, read};

    #[test]
    fn the_table_can_be_read_and_no_rule_stands_twice() {
        read(TABLE).expect("a table that can be read");
        let mut all: Vec<&str> = book().iter().map(|rule| rule.says.as_str()).collect();
        let count = all.len();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), count);
    }

    #[test]
    fn a_row_that_nothing_holds_is_named() {
        let head = "family,rule,codes,held_by,source,had\n";
        let fault = |row: &str| read(&format!("{head}{row}")).err().unwrap_or_default();
        assert_eq!(fault("a,b,,,c,read\n"), "row 2: nothing holds it");
        assert_eq!(
            fault("a,b,no-such,,c,read\n"),
            "row 2: no finding is called no-such"
        );
    }

    #[test]
    fn every_finding_is_listed_with_its_grade() {
        let list = listed();
        for code in every_code() {
            let line = format!("    {:<11} {}\n", code.severity.word(), code.name);
            assert!(list.contains(&line), "{}", code.name);
        }
    }
}
