//! Which packages of Cargo.lock end up in the program: everything that `app` reaches, tests left out.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Name and version of each package from outside that the program is built from, on any machine.
///
/// # Errors
/// When Cargo.lock or a crate's Cargo.toml cannot be read.
pub fn shipped(root: &Path) -> Result<BTreeSet<(String, String)>, String> {
    let lock = read(&root.join("Cargo.lock"))?;
    let mut versions: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut imports: BTreeMap<(String, String), Vec<String>> = BTreeMap::new();
    for package in lock["package"].as_array().into_iter().flatten() {
        let word = |key: &str| {
            package
                .get(key)
                .and_then(toml::Value::as_str)
                .unwrap_or_default()
        };
        let key = (word("name").to_owned(), word("version").to_owned());
        versions
            .entry(key.0.clone())
            .or_default()
            .push(key.1.clone());
        let list = package.get("dependencies").and_then(toml::Value::as_array);
        let list = list
            .into_iter()
            .flatten()
            .filter_map(toml::Value::as_str)
            .map(str::to_owned);
        // Our own crates have no source; what their tests need is told apart by their Cargo.toml.
        let list = if package.get("source").is_none() {
            own(root, &key.0, list)?
        } else {
            list.collect()
        };
        imports.insert(key, list);
    }
    let mut reached = BTreeSet::new();
    let mut open = vec!["app".to_owned()];
    while let Some(entry) = open.pop() {
        // "name", or "name version" where the lock holds several.
        let mut words = entry.split(' ');
        let name = words.next().unwrap_or_default().to_owned();
        let version = words
            .next()
            .map(str::to_owned)
            .or_else(|| versions.get(&name)?.first().cloned());
        let key = (name, version.unwrap_or_default());
        if let Some(list) = imports.get(&key)
            && reached.insert(key)
        {
            open.extend(list.iter().cloned());
        }
    }
    let members: BTreeSet<String> = ["app", "press", "edit", "plan", "bake", "recipe", "numerics"]
        .into_iter()
        .map(str::to_owned)
        .collect();
    reached.retain(|(name, _)| !members.contains(name));
    Ok(reached)
}

/// Of what the lock says one of our crates depends on, the part that its program needs.
fn own(root: &Path, name: &str, list: impl Iterator<Item = String>) -> Result<Vec<String>, String> {
    let path = root.join("crates").join(name).join("Cargo.toml");
    if !path.is_file() {
        return Ok(Vec::new());
    }
    let manifest = read(&path)?;
    let needed = manifest
        .get("dependencies")
        .and_then(toml::Value::as_table)
        .cloned()
        .unwrap_or_default();
    Ok(list
        .filter(|entry| {
            entry
                .split(' ')
                .next()
                .is_some_and(|n| needed.contains_key(n))
        })
        .collect())
}

fn read(path: &Path) -> Result<toml::Table, String> {
    let text = std::fs::read_to_string(path).map_err(|e| format!("{}: {e}", path.display()))?;
    text.parse().map_err(|e| format!("{}: {e}", path.display()))
}
