//! A notebook in one file and back: every text with the record, looked over before anything is written.

use crate::failure::Failure;
use crate::world::notebook::Name;
use crate::world::record::{self, Record, Standing};
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{BufReader, BufWriter, Read, Write};
use std::path::{Path, PathBuf};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

/// Files in one notebook.
const MOST_FILES: usize = 20_000;
/// Bytes of one file: a photograph as a camera writes it.
const MOST_BYTES_OF_ONE: u64 = 256 * 1024 * 1024;
/// Bytes of all of them.
const MOST_BYTES: u64 = 4 * 1024 * 1024 * 1024;
/// Folders in folders: `published/a-loaf/page/photo.jpg` is three.
const DEEPEST: usize = 6;

/// What was put in or taken out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    /// How many files, the record counted.
    pub files: usize,
    /// How many bytes they have together.
    pub bytes: u64,
    /// How many versions of texts the record holds.
    pub versions: i64,
    /// How many bakes.
    pub bakes: i64,
}

/// Puts a notebook into a new file, which appears whole or not at all.
pub fn pack(notebook: &Path, into: &Path) -> Result<Held, Failure> {
    if fs::symlink_metadata(into).is_ok() {
        return Err(
            refused("write", into, "there is a file of that name already")
                .with_hint("Choose another name; nothing was changed."),
        );
    }
    let mut files = Vec::new();
    list(notebook, "", 0, &mut files)?;
    let record = Record::open(notebook);
    let part = beside(into, "part");
    let copy = beside(into, "record");
    let outcome = record
        .copy_into(&copy)
        .and_then(|()| write_all(notebook, &files, &copy, &part))
        .and_then(|bytes| {
            let (versions, bakes) = record.counts()?;
            Ok(Held {
                files: files.len() + 1,
                bytes,
                versions,
                bakes,
            })
        })
        .and_then(|held| {
            fs::rename(&part, into).map_err(|error| Failure::world("write", into, &error))?;
            Ok(held)
        });
    for left in [&copy, &part] {
        let _ = fs::remove_file(left);
    }
    outcome
}

/// Names of the files below a folder, without hidden ones, links and the record itself.
fn list(folder: &Path, below: &str, deep: usize, files: &mut Vec<String>) -> Result<(), Failure> {
    let fault = |error: std::io::Error| Failure::world("read", folder, &error);
    let mut entries: Vec<_> = fs::read_dir(folder)
        .map_err(fault)?
        .collect::<Result<_, _>>()
        .map_err(fault)?;
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        let Some(name) = entry.file_name().to_str().and_then(Name::of) else {
            continue;
        };
        let kind = entry.file_type().map_err(fault)?;
        let path = format!("{below}{}", name.text());
        if kind.is_dir() && deep < DEEPEST {
            list(&entry.path(), &format!("{path}/"), deep + 1, files)?;
        } else if kind.is_file() && !(below.is_empty() && path.starts_with(record::FILE)) {
            files.push(path);
        }
    }
    Ok(())
}

fn write_all(
    notebook: &Path,
    files: &[String],
    record: &Path,
    part: &Path,
) -> Result<u64, Failure> {
    let fault = |error: std::io::Error| Failure::world("write", part, &error);
    let out = File::create(part).map_err(fault)?;
    let mut zip = ZipWriter::new(BufWriter::new(out));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .large_file(true);
    let mut bytes = 0;
    let paths = files
        .iter()
        .map(|file| (file.as_str(), notebook.join(file)));
    for (name, path) in paths.chain([(record::FILE, record.to_owned())]) {
        let mut from = File::open(&path).map_err(|error| Failure::world("read", &path, &error))?;
        zip.start_file(name, options)
            .map_err(|error| fault(error.into()))?;
        bytes += std::io::copy(&mut from, &mut zip).map_err(fault)?;
    }
    let out = zip.finish().map_err(|error| fault(error.into()))?;
    let out = out
        .into_inner()
        .map_err(|error| fault(error.into_error()))?;
    out.sync_all().map_err(fault)?;
    Ok(bytes)
}

/// Takes a notebook out of a file into a folder that is empty or not there yet.
pub fn unpack(file: &Path, into: &Path) -> Result<Held, Failure> {
    let empty = match fs::read_dir(into) {
        Ok(mut entries) => entries.next().is_none(),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => true,
        Err(error) => return Err(Failure::world("write", into, &error)),
    };
    if !empty {
        return Err(refused("restore into", into, "the folder is not empty")
            .with_hint("Choose a folder that is not there yet; nothing was changed."));
    }
    let open = File::open(file).map_err(|error| Failure::world("read", file, &error))?;
    let mut zip = ZipArchive::new(BufReader::new(open))
        .map_err(|_| refused("read", file, "it is no backup of a notebook"))?;
    let names = looked_over(file, &mut zip)?;
    let part = beside(into, "part");
    let outcome = take_out(file, &mut zip, &names, &part).and_then(|bytes| {
        let record = Record::open(&part);
        if !names.iter().any(|name| name == record::FILE) || !record.moved_aside().is_empty() {
            return Err(refused(
                "read",
                file,
                "it holds no record, so it is no backup",
            ));
        }
        if let Standing::NothingKept(why) = record.standing() {
            return Err(refused("read", file, &why));
        }
        if !record.moved_aside().is_empty() {
            return Err(refused("read", file, "the record in it is damaged"));
        }
        let (versions, bakes) = record.counts()?;
        drop(record);
        // Put into its place in one move; an empty folder makes room for it.
        let _ = fs::remove_dir(into);
        if let Some(parent) = into
            .parent()
            .filter(|parent| !parent.as_os_str().is_empty())
        {
            fs::create_dir_all(parent).map_err(|error| Failure::world("write", parent, &error))?;
        }
        fs::rename(&part, into).map_err(|error| Failure::world("write", into, &error))?;
        Ok(Held {
            files: names.len(),
            bytes,
            versions,
            bakes,
        })
    });
    let _ = fs::remove_dir_all(&part);
    outcome
}

/// Names in an archive; all of it is refused when one leads out of the folder or one is too large.
fn looked_over(file: &Path, zip: &mut ZipArchive<BufReader<File>>) -> Result<Vec<String>, Failure> {
    if zip.len() > MOST_FILES {
        return Err(refused(
            "read",
            file,
            "it has more files than a notebook can have",
        ));
    }
    let mut names = Vec::new();
    let mut seen = BTreeSet::new();
    let mut bytes = 0;
    for index in 0..zip.len() {
        let entry = zip
            .by_index_raw(index)
            .map_err(|error| refused("read", file, &error.to_string()))?;
        let name = entry.name().to_owned();
        let parts: Vec<&str> = name.split('/').collect();
        let plain = parts.len() <= DEEPEST + 1 && parts.iter().all(|part| Name::of(part).is_some());
        if !plain || entry.is_symlink() || entry.is_dir() {
            let said = format!("`{name}` in it is no file of a notebook");
            return Err(refused("read", file, &said)
                .with_hint("Nothing of it was written. It may come from another program."));
        }
        // Two names that one disk takes for the same are one too many.
        if !seen.insert(name.to_lowercase()) {
            return Err(refused("read", file, &format!("`{name}` is in it twice")));
        }
        bytes += entry.size();
        if entry.size() > MOST_BYTES_OF_ONE || bytes > MOST_BYTES {
            return Err(too_large(file));
        }
        names.push(name);
    }
    Ok(names)
}

/// What an archive says of its sizes need not be so: each file is counted while it is written.
fn take_out(
    file: &Path,
    zip: &mut ZipArchive<BufReader<File>>,
    names: &[String],
    part: &Path,
) -> Result<u64, Failure> {
    fs::create_dir_all(part).map_err(|error| Failure::world("write", part, &error))?;
    let mut bytes = 0;
    for (index, name) in names.iter().enumerate() {
        let path = part.join(name);
        let fault = |error: std::io::Error| Failure::world("write", &path, &error);
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder).map_err(fault)?;
        }
        let entry = zip
            .by_index(index)
            .map_err(|error| refused("read", file, &error.to_string()))?;
        let mut out = File::create_new(&path).map_err(fault)?;
        let most = MOST_BYTES_OF_ONE.min(MOST_BYTES - bytes).min(entry.size());
        let wrote = std::io::copy(&mut entry.take(most + 1), &mut out)
            .map_err(|error| refused("read", file, &format!("`{name}` in it: {error}")))?;
        if wrote > most {
            let said = format!("`{name}` in it is larger than it says");
            return Err(refused("read", file, &said)
                .with_hint("Nothing of it was kept. It may have been made to fill a disk."));
        }
        out.flush().and_then(|()| out.sync_all()).map_err(fault)?;
        bytes += wrote;
    }
    Ok(bytes)
}

fn too_large(file: &Path) -> Failure {
    refused(
        "read",
        file,
        "what is in it is larger than a notebook can be",
    )
}

fn refused(doing: &'static str, path: &Path, said: &str) -> Failure {
    Failure::World {
        doing,
        path: path.to_owned(),
        said: said.to_owned(),
        hint: None,
    }
}

/// A hidden name beside a path, for what is not whole yet.
fn beside(path: &Path, word: &str) -> PathBuf {
    let name = path.file_name().unwrap_or_else(|| "notebook".as_ref());
    let name = format!(".{}.{word}-{}", name.to_string_lossy(), std::process::id());
    path.with_file_name(name)
}
