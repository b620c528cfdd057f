//! One JSON Schema for each command's `--json`, cut from the schema of all of them.

use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use std::path::Path;

/// Where they stand.
pub const FOLDER: &str = "docs/schema";

/// The schema of everything that can be printed.
pub const WHOLE: &str = "crates/app/assets/output-1.schema.json";

/// What every answer has.
const ALWAYS: [&str; 5] = ["everyoven", "command", "findings", "figures", "files"];

/// A command, what its answer can have beside that, and what it has whenever the command did not fail.
type Shape = (
    &'static str,
    &'static [&'static str],
    &'static [&'static str],
);

/// Every command with its parts.
pub const COMMANDS: [Shape; 25] = [
    ("answers", &["answers", "text"], &[]),
    ("backup", &["text"], &["text"]),
    ("bake", &["happens"], &[]),
    ("check", &["text"], &[]),
    ("day", &["timetable", "text"], &[]),
    ("demo", &[], &[]),
    ("explain", &["text"], &["text"]),
    ("figures", &[], &[]),
    ("formula", &[], &[]),
    ("import", &["lines", "assumed", "text"], &[]),
    ("kitchens", &["others", "advice"], &[]),
    ("label", &["text"], &[]),
    ("learn", &["text"], &[]),
    ("licences", &["text"], &["text"]),
    ("manual", &["text"], &["text"]),
    ("mix", &[], &[]),
    ("new", &["text"], &["text"]),
    ("publish", &[], &[]),
    ("report-trouble", &["text"], &["text"]),
    ("restore", &["text"], &["text"]),
    ("serve", &["text"], &[]),
    ("shoot", &["timetable", "text"], &[]),
    ("shopping", &["text"], &[]),
    ("talk", &["talk", "text"], &[]),
    ("variant", &["text"], &[]),
];

/// The schemas by the names of their files, and the page that lists them.
///
/// # Errors
/// When the schema of everything cannot be read, or a part that a command names is not in it.
pub fn files(root: &Path) -> Result<BTreeMap<String, String>, String> {
    let whole =
        std::fs::read_to_string(root.join(WHOLE)).map_err(|why| format!("{WHOLE}: {why}"))?;
    let whole: Value = serde_json::from_str(&whole).map_err(|why| format!("{WHOLE}: {why}"))?;
    let mut files = BTreeMap::new();
    for shape in COMMANDS {
        let schema = of(&whole, shape)?;
        let text = serde_json::to_string_pretty(&schema).map_err(|why| why.to_string())?;
        files.insert(format!("{}.schema.json", shape.0), text + "\n");
    }
    files.insert("README.md".to_owned(), page());
    Ok(files)
}

fn of(whole: &Value, (command, parts, always): Shape) -> Result<Value, String> {
    let mut properties = Map::new();
    for part in ALWAYS.iter().chain(parts).chain(&["failed"]) {
        let known = whole["properties"].get(*part);
        let known = known.ok_or_else(|| format!("{command}: {WHOLE} has no part {part}"))?;
        properties.insert((*part).to_owned(), known.clone());
    }
    properties.insert("command".to_owned(), json!({ "const": command }));
    let mut schema = json!({
        "$schema": whole["$schema"],
        "$id": format!("urn:everyoven:output:1:{command}"),
        "title": format!("Output of everyoven {command} --json, version 1"),
        "type": "object",
        "required": ALWAYS,
        "additionalProperties": false,
        "properties": properties,
        "$defs": needed(whole, &properties),
    });
    if !always.is_empty() {
        schema["anyOf"] = json!([{ "required": ["failed"] }, { "required": always }]);
    }
    Ok(schema)
}

/// Those definitions that the parts refer to, and what these refer to in turn.
fn needed(whole: &Value, properties: &Map<String, Value>) -> Map<String, Value> {
    let all = whole["$defs"].as_object().cloned().unwrap_or_default();
    let mut kept: Map<String, Value> = Map::new();
    loop {
        let text = json!([properties, kept]).to_string();
        let next = all.iter().find(|(name, _)| {
            !kept.contains_key(*name) && text.contains(&format!("\"#/$defs/{name}\""))
        });
        let Some((name, definition)) = next else {
            return kept;
        };
        kept.insert(name.clone(), definition.clone());
    }
}

fn page() -> String {
    let mut out = String::from(
        "# What `--json` prints\n\n\
        One schema a command (JSON Schema, draft 2020-12), written by `cargo run -p xtask -- schema` out of\n\
        `crates/app/assets/output-1.schema.json`, which `everyoven manual schema` prints. Every answer has `everyoven` (1, the\n\
        version of this shape), `command`, `findings`, `figures` (each with value, unit and the string that is shown) and `files`;\n\
        a command that failed has `failed`. A part may be added in the same version; none is taken away or changed.\n\n\
        | command | can have beside that |\n|---|---|\n",
    );
    for (command, parts, _) in COMMANDS {
        let parts: Vec<String> = parts.iter().map(|part| format!("`{part}`")).collect();
        let parts = if parts.is_empty() {
            "nothing".to_owned()
        } else {
            parts.join(", ")
        };
        out.push_str(&format!(
            "| [{command}]({command}.schema.json) | {parts} |\n"
        ));
    }
    out
}

/// Writes them.
///
/// # Errors
/// When one cannot be made or written.
pub fn write(root: &Path) -> Result<String, String> {
    let folder = root.join(FOLDER);
    std::fs::create_dir_all(&folder).map_err(|why| format!("{FOLDER}: {why}"))?;
    let files = files(root)?;
    for (name, text) in &files {
        std::fs::write(folder.join(name), text).map_err(|why| format!("{FOLDER}/{name}: {why}"))?;
    }
    Ok(format!("{} files are written to {FOLDER}", files.len()))
}
