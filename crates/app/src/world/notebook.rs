//! A notebook: a folder of text files, read by checked names and written whole or not at all.

use crate::failure::Failure;
use crate::world::{folder, read};
use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

/// Longest name of a text, in bytes, its ending not counted.
const LONGEST_NAME: usize = 100;

/// What a file of the notebook holds; each kind has its ending and its folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// A recipe.
    Recipe,
    /// A pasted text, kept whole.
    Pasted,
    /// Lines of a pasted text written anew.
    Mends,
    /// A kitchen.
    Kitchen,
    /// Scenes of a filming day.
    Scenes,
}

impl Kept {
    const fn ending(self) -> &'static str {
        match self {
            Self::Recipe | Self::Kitchen | Self::Scenes => ".toml",
            Self::Pasted => ".txt",
            Self::Mends => ".mends",
        }
    }

    /// Its folder within the notebook's; empty where texts lie in that itself.
    const fn folder(self) -> &'static str {
        match self {
            Self::Recipe | Self::Pasted | Self::Mends => "",
            Self::Kitchen => "kitchens",
            Self::Scenes => "scenes",
        }
    }

    /// The file of a name, as people see it.
    pub fn file(self, name: &Name) -> String {
        let join = if self.folder().is_empty() { "" } else { "/" };
        format!("{}{join}{}{}", self.folder(), name.0, self.ending())
    }
}

/// A name that cannot lead out of its folder: no separators, no hidden files, no control characters.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Name(String);

impl Name {
    /// The name, when it is one.
    pub fn of(text: &str) -> Option<Self> {
        let separates = |c: char| matches!(c, '/' | '\\' | ':') || c.is_control();
        let fits = !text.is_empty() && text.len() <= LONGEST_NAME;
        let plain = !text.starts_with('.') && text.trim() == text && !text.contains(separates);
        (fits && plain).then(|| Self(text.to_owned()))
    }

    /// As text.
    pub fn text(&self) -> &str {
        &self.0
    }

    /// Made of words: a title becomes a name of small letters and hyphens.
    pub fn of_words(words: &str, or: &str) -> Self {
        const LONG: usize = 60;
        let kebab = edit::ledger::kebab(words);
        let mut short = String::new();
        for word in kebab.split('-').filter(|word| !word.is_empty()) {
            if short.len() + 1 + word.len() > LONG {
                break;
            }
            if !short.is_empty() {
                short.push('-');
            }
            short += word;
        }
        Self::of(&short).unwrap_or_else(|| Self(or.to_owned()))
    }

    fn numbered(&self, number: usize) -> Self {
        Self(format!("{}-{number}", self.0))
    }
}

/// The notebook.
#[derive(Debug)]
pub struct Notebook {
    folder: PathBuf,
}

impl Notebook {
    /// The notebook in a folder, which may not be there yet.
    pub const fn at(folder: PathBuf) -> Self {
        Self { folder }
    }

    /// Its folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    fn path(&self, kept: Kept, name: &Name) -> PathBuf {
        self.folder.join(kept.file(name))
    }

    /// Names of everything of a kind, in order. A notebook that is not there yet is empty.
    pub fn names(&self, kept: Kept) -> Result<Vec<Name>, Failure> {
        let folder = match kept.folder() {
            "" => self.folder.clone(),
            below => self.folder.join(below),
        };
        let entries = match fs::read_dir(&folder) {
            Ok(entries) => entries,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Vec::new()),
            Err(error) => return Err(Failure::world("read", &folder, &error)),
        };
        let mut names: Vec<Name> = entries
            .filter_map(Result::ok)
            .filter(|entry| entry.path().is_file())
            .filter_map(|entry| {
                let file = entry.file_name();
                Name::of(file.to_str()?.strip_suffix(kept.ending())?)
            })
            .collect();
        names.sort();
        Ok(names)
    }

    /// Bytes of a text; none when there is none of that name.
    pub fn read(&self, kept: Kept, name: &Name) -> Result<Option<Vec<u8>>, Failure> {
        let path = self.path(kept, name);
        if self.inside(&path)? {
            read::bytes(&path).map(Some)
        } else {
            Ok(None)
        }
    }

    /// The path of a file that lies beside the recipes under its plain name; none when it is not
    /// there.
    pub fn beside(&self, file: &str) -> Result<Option<PathBuf>, Failure> {
        let Some(name) = Name::of(file) else {
            return Ok(None);
        };
        let path = self.folder.join(name.text());
        Ok(self.inside(&path)?.then_some(path))
    }

    /// Whether a file is there, as a file, and really in the notebook: a link that leads out of it
    /// is refused.
    fn inside(&self, path: &Path) -> Result<bool, Failure> {
        let fault = |error: std::io::Error| Failure::world("read", path, &error);
        let real = match path.canonicalize() {
            Ok(real) => real,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(false),
            Err(error) => return Err(fault(error)),
        };
        let folder = self.folder.canonicalize().map_err(fault)?;
        if !real.starts_with(&folder) {
            return Err(leads_out("read", path));
        }
        Ok(real.is_file())
    }

    /// Writes a text in one move, over an earlier one of that name.
    pub fn write(&self, kept: Kept, name: &Name, bytes: &[u8]) -> Result<(), Failure> {
        let path = self.path(kept, name);
        let folder = path.parent().unwrap_or(&self.folder);
        fs::create_dir_all(folder).map_err(|error| Failure::world("write", folder, &error))?;
        if fs::symlink_metadata(&path).is_ok_and(|there| !there.is_file()) {
            // A folder of that name, or a link: what it leads to is not ours to replace.
            return Err(leads_out("write", &path));
        }
        let real = folder.canonicalize();
        let home = self.folder.canonicalize();
        if !real.is_ok_and(|real| home.is_ok_and(|home| real.starts_with(home))) {
            return Err(leads_out("write", &path));
        }
        let part = folder.join(format!(
            ".{}{}.part-{}",
            name.text(),
            kept.ending(),
            std::process::id()
        ));
        let written = OpenOptions::new()
            .write(true)
            .create(true)
            .truncate(true)
            .open(&part)
            .and_then(|mut file| {
                file.write_all(bytes)?;
                file.sync_all()
            })
            .and_then(|()| fs::rename(&part, &path));
        written.map_err(|error| {
            let _ = fs::remove_file(&part);
            Failure::world("write", &path, &error)
        })
    }

    /// Removes what a program that was stopped in the middle of writing left behind: parts of files
    /// under hidden names. Those of a program that still runs are left alone, and where nobody can
    /// tell which run, all are.
    pub fn sweep(&self) {
        let alive = |process: &str| Path::new("/proc").join(process).exists();
        if !alive("self") {
            return;
        }
        for folder in [
            self.folder.clone(),
            self.folder.join(Kept::Kitchen.folder()),
            self.folder.join(Kept::Scenes.folder()),
        ] {
            for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
                let name = entry.file_name().to_string_lossy().into_owned();
                let process = name
                    .strip_prefix('.')
                    .and_then(|name| name.rsplit_once(".part-"))
                    .map(|(_, process)| process)
                    .filter(|process| process.bytes().all(|byte| byte.is_ascii_digit()));
                if process.is_some_and(|process| !alive(process)) {
                    let _ = fs::remove_file(entry.path());
                }
            }
        }
    }

    /// Names of the files in the folder of what was published under a short name.
    pub fn published(&self, slug: &str) -> Vec<String> {
        let slug = Name::of(slug);
        let folder = slug.map(|slug| self.folder.join("published").join(slug.text()));
        folder.map_or_else(Vec::new, |folder| folder::names(&folder))
    }

    /// Removes a text, when there is one.
    pub fn remove(&self, kept: Kept, name: &Name) -> Result<(), Failure> {
        let path = self.path(kept, name);
        match fs::remove_file(&path) {
            Err(error) if error.kind() != ErrorKind::NotFound => {
                Err(Failure::world("remove", &path, &error))
            }
            _ => Ok(()),
        }
    }

    /// A name that no text of these kinds has: the wished one, or with a number after it.
    pub fn free(&self, kinds: &[Kept], wished: &Name) -> Name {
        let taken = |name: &Name| {
            let mut paths = kinds.iter().map(|kept| self.path(*kept, name));
            paths.any(|path| fs::symlink_metadata(path).is_ok())
        };
        if !taken(wished) {
            return wished.clone();
        }
        let mut number = 2;
        while taken(&wished.numbered(number)) {
            number += 1;
        }
        wished.numbered(number)
    }
}

fn leads_out(doing: &'static str, path: &Path) -> Failure {
    Failure::World {
        doing,
        path: path.to_owned(),
        said: "it is no file of the notebook itself".to_owned(),
        hint: Some("Put the file into the notebook in place of the link.".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::{Kept, Name, Notebook};

    #[test]
    fn a_name_cannot_lead_anywhere() {
        for name in ["..", ".hidden", "a/b", "a\\b", "c:d", "", " a", "a\nb"] {
            assert_eq!(Name::of(name), None, "{name:?}");
        }
        assert_eq!(Name::of(&"a".repeat(101)), None);
        for name in ["buns", "Tante Emma's Zopf", "brød 2", "a..b"] {
            assert!(Name::of(name).is_some(), "{name}");
        }
    }

    #[test]
    fn words_become_a_name() {
        let name = |words| Name::of_words(words, "pasted").0;
        assert_eq!(name("Grandma's Braid!"), "grandmas-braid");
        assert_eq!(name("!!!"), "pasted");
        assert!(name(&"long word ".repeat(40)).len() <= 60);
    }

    #[test]
    fn a_notebook_is_made_by_its_first_text() {
        let folder = crate::web::tests::folder("notebook-first");
        let notebook = Notebook::at(folder.join("not yet there"));
        let name = Name::of("buns").expect("a name");
        assert_eq!(notebook.names(Kept::Recipe).expect("empty"), []);
        assert_eq!(notebook.read(Kept::Recipe, &name).expect("empty"), None);
        assert!(!notebook.folder().exists());
        notebook.write(Kept::Recipe, &name, b"a").expect("written");
        notebook.write(Kept::Recipe, &name, b"b").expect("again");
        let there = notebook.read(Kept::Recipe, &name).expect("read");
        assert_eq!(there.as_deref(), Some(b"b".as_slice()));
        let free = notebook.free(&[Kept::Recipe, Kept::Pasted], &name);
        assert_eq!(free.text(), "buns-2");
        let all: Vec<_> = std::fs::read_dir(notebook.folder())
            .expect("a folder")
            .map(|entry| entry.expect("an entry").file_name())
            .collect();
        assert_eq!(all, ["buns.toml"], "nothing is left lying about");
    }

    #[cfg(unix)]
    #[test]
    fn a_link_out_of_the_notebook_is_refused() {
        let folder = crate::web::tests::folder("notebook-link");
        std::fs::write(folder.join("secret.toml"), "secret").expect("written");
        let inner = folder.join("notebook");
        std::fs::create_dir_all(&inner).expect("a folder");
        std::os::unix::fs::symlink(folder.join("secret.toml"), inner.join("way.toml"))
            .expect("a link");
        let notebook = Notebook::at(inner);
        let name = Name::of("way").expect("a name");
        assert!(notebook.read(Kept::Recipe, &name).is_err());
        assert!(notebook.write(Kept::Recipe, &name, b"x").is_err());
        assert!(notebook.beside("way.toml").is_err());
        let kept = std::fs::read_to_string(folder.join("secret.toml")).expect("still there");
        assert_eq!(kept, "secret");
    }
}
