//! Rows of the data that are built in, with how each was had.

use super::label::{Label, Row};
use std::path::Path;

/// Tables of the larder and the book of rules.
const FOLDERS: [&str; 2] = ["recipe", "edit"];

/// Audiences of the simulator.
const AUDIENCES: &str = "crates/bake/data/audiences";

/// One row for each table and label; what has none is told.
///
/// # Errors
/// When a file cannot be read.
pub fn rows(
    root: &Path,
    given: impl Fn(&str, &str) -> Option<(Label, String)>,
) -> Result<(Vec<Row>, Vec<String>), String> {
    let mut rows = Vec::new();
    let mut without = Vec::new();
    for name in FOLDERS {
        for file in listed(&root.join(format!("crates/{name}/data")), ".csv")? {
            let path = root.join(format!("crates/{name}/data/{file}"));
            let place = format!("{name}/data/{file}");
            let whole = given(&format!("data/{file}"), "*");
            let mut reader =
                csv::Reader::from_path(&path).map_err(|why| format!("{place}: {why}"))?;
            let heads = reader
                .headers()
                .map_err(|why| format!("{place}: {why}"))?
                .clone();
            let had = heads.iter().position(|head| head == "had");
            for (number, record) in reader.records().enumerate() {
                let record = record.map_err(|why| format!("{place}: {why}"))?;
                let word = had.and_then(|at| record.get(at)).unwrap_or("").trim();
                let label = match (had, &whole) {
                    (Some(_), _) => {
                        label_of(word).map(|label| (label, "its columns source and had".to_owned()))
                    }
                    (None, whole) => whole.clone(),
                };
                match label {
                    Some((label, says)) => add(&mut rows, &place, label, &says),
                    None => without.push(format!("{place}: row {} says {word:?}", number + 2)),
                }
            }
        }
    }
    for file in listed(&root.join(AUDIENCES), ".toml")? {
        let place = format!("bake/data/audiences/{file}");
        let text = std::fs::read_to_string(root.join(AUDIENCES).join(&file))
            .map_err(|why| format!("{place}: {why}"))?;
        let value: toml::Value = toml::from_str(&text).map_err(|why| format!("{place}: {why}"))?;
        let variables = value.get("variable").and_then(toml::Value::as_array);
        for one in variables.into_iter().flatten() {
            let word = |key: &str| one.get(key).and_then(toml::Value::as_str).unwrap_or("");
            match label_of(word("had")) {
                Some(label) if !word("source").is_empty() => {
                    add(&mut rows, &place, label, "its keys source and had");
                }
                _ => without.push(format!("{place}: {}", word("name"))),
            }
        }
    }
    Ok((rows, without))
}

fn label_of(word: &str) -> Option<Label> {
    match word {
        "written" | "measured" => None,
        word => Label::of_word(word),
    }
}

fn add(rows: &mut Vec<Row>, place: &str, label: Label, says: &str) {
    let same = |row: &&mut Row| row.place == place && row.label == label;
    if let Some(row) = rows.iter_mut().find(same) {
        row.figures += 1;
    } else {
        rows.push(Row {
            place: place.to_owned(),
            name: "rows".to_owned(),
            figures: 1,
            label,
            says: says.to_owned(),
        });
    }
}

fn listed(folder: &Path, ending: &str) -> Result<Vec<String>, String> {
    let entries =
        std::fs::read_dir(folder).map_err(|why| format!("{}: {why}", folder.display()))?;
    let names = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
    let mut names: Vec<String> = names.filter(|name| name.ends_with(ending)).collect();
    names.sort();
    Ok(names)
}
