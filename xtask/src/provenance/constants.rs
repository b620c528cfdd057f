//! Named constants of the code with what their comments say of where they are from.

use super::label::{Label, Row};
use std::path::Path;

/// Crates whose constants say something about bread, heat, law or when a cook is told; what `numerics` and
/// `press` hold are numerical methods and measures of drawings.
const CRATES: [&str; 4] = ["recipe", "bake", "plan", "edit"];

/// Types that hold a figure of the world.
const TYPES: [&str; 10] = [
    "f64",
    "Range",
    "Mass",
    "Temperature",
    "Duration",
    "Length",
    "Fraction",
    "Volume",
    "Kind",
    "SpecificPower",
];

/// A constant as it stands in its file.
pub struct Constant {
    /// File, without `crates/`.
    pub place: String,
    /// Its name.
    pub name: String,
    /// The comment before it and those within it.
    pub comment: String,
    /// What its file says under the heading Source; empty without one.
    pub heading: String,
}

/// Every constant with a figure, by file.
///
/// # Errors
/// When a file cannot be read.
pub fn constants(root: &Path) -> Result<Vec<Constant>, String> {
    let mut all = Vec::new();
    for name in CRATES {
        let mut files = Vec::new();
        walk(&root.join("crates").join(name).join("src"), &mut files)?;
        files.sort();
        for file in files {
            let text = std::fs::read_to_string(&file)
                .map_err(|why| format!("{}: {why}", file.display()))?;
            let place = file.strip_prefix(root.join("crates")).unwrap_or(&file);
            let place = place.to_string_lossy().replace('\\', "/");
            all.extend(of_file(&place, &text));
        }
    }
    Ok(all)
}

fn walk(folder: &Path, files: &mut Vec<std::path::PathBuf>) -> Result<(), String> {
    let entries =
        std::fs::read_dir(folder).map_err(|why| format!("{}: {why}", folder.display()))?;
    for entry in entries.filter_map(Result::ok) {
        let path = entry.path();
        if path.is_dir() {
            walk(&path, files)?;
        } else if path.extension().is_some_and(|end| end == "rs") && !path.ends_with("tests.rs") {
            files.push(path);
        }
    }
    Ok(())
}

/// The text under the heading Source, in one line.
pub fn heading(text: &str) -> String {
    let lines = text
        .lines()
        .skip_while(|line| line.trim() != "//! # Source")
        .skip(1);
    let own = lines.take_while(|line| line.starts_with("//!") && !line.starts_with("//! #"));
    own.map(|line| line.trim_start_matches("//!").trim())
        .collect::<Vec<_>>()
        .join(" ")
}

/// The constants of a file, its tests left out.
pub fn of_file(place: &str, text: &str) -> Vec<Constant> {
    let heading = heading(text);
    let own = text.split("#[cfg(test)]").next().unwrap_or(text);
    let lines: Vec<&str> = own.lines().collect();
    let mut all = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        let Some((name, kind)) = declared(line) else {
            continue;
        };
        let value = value(&lines[at..]);
        let figures = value
            .split("//")
            .next()
            .is_some_and(|code| code.contains(|c: char| c.is_ascii_digit()))
            || value.contains(|c: char| c.is_ascii_digit());
        if !figures || !TYPES.iter().any(|one| kind.contains(one)) {
            continue;
        }
        let mut comment: Vec<&str> = lines[..at]
            .iter()
            .rev()
            .map(|line| line.trim())
            .take_while(|line| line.starts_with("//") || line.starts_with("#["))
            .filter(|line| line.starts_with("//") && !line.starts_with("//!"))
            .collect();
        comment.reverse();
        comment.extend(
            value
                .lines()
                .filter_map(|line| line.find("//").map(|from| &line[from..])),
        );
        let comment: Vec<&str> = comment
            .iter()
            .map(|line| line.trim_start_matches('/').trim())
            .collect();
        all.push(Constant {
            place: place.to_owned(),
            name: name.to_owned(),
            comment: comment.join(" "),
            heading: heading.clone(),
        });
    }
    all
}

/// The name and the type of a constant that a line declares.
fn declared(line: &str) -> Option<(&str, &str)> {
    let mut rest = line.trim_start();
    if let Some(after) = rest.strip_prefix("pub") {
        rest = match after.strip_prefix('(') {
            Some(inside) => inside.split_once(')')?.1,
            None => after,
        }
        .trim_start();
    }
    let rest = rest
        .strip_prefix("const ")
        .or_else(|| rest.strip_prefix("static "))?;
    let (name, rest) = rest.split_once(": ")?;
    let capitals = name
        .bytes()
        .all(|sign| sign.is_ascii_uppercase() || sign.is_ascii_digit() || sign == b'_');
    let kind = rest.split(" =").next()?;
    (capitals && !kind.contains("fn(")).then_some((name, kind))
}

/// What stands after the sign of equality, to the semicolon at the end of a line.
fn value(lines: &[&str]) -> String {
    let mut out = String::new();
    for (at, line) in lines.iter().take(80).enumerate() {
        let own = if at == 0 {
            line.split_once(" =").map_or("", |pair| pair.1)
        } else {
            line
        };
        out.push_str(own);
        out.push('\n');
        let code = line.split("//").next().unwrap_or("").trim_end();
        if code.ends_with(';') {
            break;
        }
    }
    out
}

/// Rows of the constants; those without a label of their own by the table of labels or by their file's heading.
pub fn rows(
    all: Vec<Constant>,
    given: impl Fn(&str, &str) -> Option<(Label, String)>,
) -> (Vec<Row>, Vec<String>) {
    let mut rows = Vec::new();
    let mut without = Vec::new();
    for one in all {
        let own = Label::of_comment(&one.comment).map(|label| (label, one.comment.clone()));
        let had = own
            .or_else(|| given(&one.place, &one.name))
            .or_else(|| (!one.heading.is_empty()).then(|| (Label::ByItsPage, one.comment.clone())));
        match had {
            Some((label, says)) => rows.push(Row {
                says: if says.is_empty() { one.comment } else { says },
                place: one.place,
                name: one.name,
                figures: 1,
                label,
            }),
            None => without.push(format!("{}: {}", one.place, one.name)),
        }
    }
    (rows, without)
}

#[cfg(test)]
mod tests {
    use super::of_file;
    use crate::provenance::label::Label;

    #[test]
    fn a_constant_is_found_with_its_comment() {
        let text = "//! A file.\n/// Still air\n/// (from memory).\npub(in crate::x) const STILL: f64 = 5.0;\n\
            const NAME: &str = \"1\";\nconst BAND: [(f64, f64); 2] = [\n    (1.0, 2.0), // fitted\n    (3.0, 4.0),\n];\n\
            #[cfg(test)]\nmod tests { const X: f64 = 1.0; }";
        let all = of_file("a.rs", text);
        let said: Vec<_> = all
            .iter()
            .map(|one| (one.name.as_str(), Label::of_comment(&one.comment)))
            .collect();
        assert_eq!(
            said,
            [
                ("STILL", Some(Label::Memory)),
                ("BAND", Some(Label::Fitted))
            ]
        );
        assert_eq!(all[0].comment, "Still air (from memory).");
    }
}
