//! Single sentences, each at its place of a recipe, and whether something must be found in them.

use super::tracks::{Count, held, overlaps, says_wrong, word};
use edit::talk::track::read;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// What became of the sentences of a file, by kind, and everything that went wrong.
type Counted = (BTreeMap<String, Count>, Vec<String>);

/// Files that were counted once: several tests of one program ask for the same.
static COUNTED: Mutex<BTreeMap<PathBuf, Counted>> = Mutex::new(BTreeMap::new());

/// Counts the sentences, once in a program: by kind those in which something must be found, and all others under "none".
///
/// # Errors
/// When the file cannot be read or has not its form.
pub fn score(root: &Path, file: &Path) -> Result<Counted, String> {
    let mut counted = COUNTED.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(known) = counted.get(file) {
        return Ok(known.clone());
    }
    let score = count(root, file)?;
    counted.insert(file.to_owned(), score.clone());
    Ok(score)
}

fn count(root: &Path, file: &Path) -> Result<Counted, String> {
    let table: toml::Table = std::fs::read_to_string(file)
        .map_err(|e| e.to_string())?
        .parse()
        .map_err(|e| format!("{e}"))?;
    let mut kinds: BTreeMap<String, Count> = BTreeMap::new();
    let mut misses = Vec::new();
    let none = Vec::new();
    let all = table
        .get("sentence")
        .and_then(toml::Value::as_array)
        .unwrap_or(&none);
    for sentence in all {
        let text = |key: &str| {
            sentence
                .get(key)
                .and_then(toml::Value::as_str)
                .unwrap_or("")
        };
        let flag = sentence
            .get("flag")
            .and_then(toml::Value::as_bool)
            .unwrap_or(false);
        let recipe = root
            .join("examples")
            .join(format!("{}.toml", text("recipe")));
        let recipe =
            std::fs::read_to_string(&recipe).map_err(|e| format!("{}: {e}", recipe.display()))?;
        let before = text("before");
        let whole = format!("{before}\n\n{}", text("say"));
        let track = read(whole.as_bytes()).output;
        let joined: String = track.cues.iter().map(|cue| cue.line() + " ").collect();
        let start = joined
            .find(text("say"))
            .ok_or_else(|| format!("“{}” is cut", text("say")))?;
        let span = (start, start + text("say").len());
        let talk = held(&recipe, &track).ok_or("the recipe cannot be read")?;
        let mut found = talk
            .findings
            .iter()
            .filter(|finding| says_wrong(finding.kind) && overlaps(finding, span));
        if flag {
            let kind = text("kind");
            let count = kinds.entry(kind.to_owned()).or_default();
            count.slips += 1;
            let said: Vec<&str> = found.map(|finding| word(finding.kind)).collect();
            if said.contains(&kind) {
                count.found += 1;
            } else {
                misses.push(format!(
                    "not found, {kind}: “{}” (found: {said:?})",
                    text("say")
                ));
            }
        } else {
            let count = kinds.entry("none".to_owned()).or_default();
            count.decoys += 1;
            if let Some(finding) = found.next() {
                count.disturbed += 1;
                misses.push(format!(
                    "disturbed: “{}”: {}",
                    text("say"),
                    finding.diagnostic.message
                ));
            }
        }
    }
    Ok((kinds, misses))
}
