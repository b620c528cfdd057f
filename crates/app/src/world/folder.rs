//! A folder of outputs that appears whole or not at all, and never takes other people's files with it.

use crate::failure::Failure;
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

/// Writes all files into `folder`, replacing what an earlier run wrote there.
///
/// Everything is written beside the folder first and put in its place in one move. Files in it
/// that are not among `files` are kept. When anything fails, the folder is as it was before.
pub fn publish(folder: &Path, files: &BTreeMap<String, Vec<u8>>) -> Result<(), Failure> {
    let parent = match folder.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
        _ => PathBuf::from("."),
    };
    fs::create_dir_all(&parent).map_err(|error| Failure::world("write", &parent, &error))?;
    if folder.is_file() {
        return Err(Failure::world(
            "write",
            folder,
            &std::io::ErrorKind::NotADirectory.into(),
        ));
    }
    let part = beside(folder, ".part");
    let old = beside(folder, ".before");
    let outcome = write_part(&part, files).and_then(|()| swap(folder, &part, &old, files));
    if outcome.is_err() {
        let _ = fs::remove_dir_all(&part);
    }
    outcome
}

fn beside(folder: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(".");
    name.push(folder.file_name().unwrap_or_else(|| "out".as_ref()));
    name.push(format!("{ending}-{}", std::process::id()));
    folder.with_file_name(name)
}

fn write_part(part: &Path, files: &BTreeMap<String, Vec<u8>>) -> Result<(), Failure> {
    fs::create_dir(part).map_err(|error| Failure::world("write", part, &error))?;
    for (name, bytes) in files {
        let path = part.join(name);
        fs::write(&path, bytes).map_err(|error| Failure::world("write", &path, &error))?;
    }
    Ok(())
}

fn swap(
    folder: &Path,
    part: &Path,
    old: &Path,
    files: &BTreeMap<String, Vec<u8>>,
) -> Result<(), Failure> {
    let fault = |error| Failure::world("write", folder, &error);
    if !folder.exists() {
        return fs::rename(part, folder).map_err(fault);
    }
    // A folder that may not be written to would still let itself be moved by its parent.
    let trial = folder.join(".everyoven-trial");
    fs::write(&trial, b"")
        .and_then(|()| fs::remove_file(&trial))
        .map_err(fault)?;
    fs::rename(folder, old).map_err(fault)?;
    let kept = keep_others(old, part, files);
    if let Err(error) = kept.and_then(|()| fs::rename(part, folder)) {
        let _ = return_others(part, old, files);
        let _ = fs::rename(old, folder);
        return Err(fault(error));
    }
    fs::remove_dir_all(old).map_err(fault)
}

/// Moves what is not ours from the old folder into the new one.
fn keep_others(old: &Path, part: &Path, files: &BTreeMap<String, Vec<u8>>) -> std::io::Result<()> {
    for entry in fs::read_dir(old)? {
        let name = entry?.file_name();
        if !name.to_str().is_some_and(|name| files.contains_key(name)) {
            fs::rename(old.join(&name), part.join(&name))?;
        }
    }
    Ok(())
}

/// Moves it back when the last move failed.
fn return_others(
    part: &Path,
    old: &Path,
    files: &BTreeMap<String, Vec<u8>>,
) -> std::io::Result<()> {
    for entry in fs::read_dir(part)? {
        let name = entry?.file_name();
        if !name.to_str().is_some_and(|name| files.contains_key(name)) {
            fs::rename(part.join(&name), old.join(&name))?;
        }
    }
    Ok(())
}

/// Names of what is in a folder, in order; none when it cannot be read.
pub fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .collect();
    names.sort();
    names
}
