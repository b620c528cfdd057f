//! The typesetter's world: a handful of named texts, four faces, no files and no clock.

use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use super::faces;

/// The standard library of the typesetter, the same for every sheet.
static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// What the typesetter knows of the faces.
static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(faces::all())));

/// The texts of one sheet; the first is the one that is set.
pub(super) struct Texts {
    main: FileId,
    files: Vec<(FileId, String)>,
}

impl Texts {
    /// From names and texts, the one to be set first.
    pub(super) fn new(main: (&str, String), others: Vec<(&str, String)>) -> FileResult<Self> {
        let main_id = id(main.0)?;
        let mut files = vec![(main_id, main.1)];
        for (name, text) in others {
            files.push((id(name)?, text));
        }
        Ok(Self {
            main: main_id,
            files,
        })
    }

    fn text(&self, id: FileId) -> FileResult<&str> {
        self.files
            .iter()
            .find(|(known, _)| *known == id)
            .map(|(_, text)| text.as_str())
            .ok_or_else(|| FileError::NotFound(id.get().vpath().get_without_slash().into()))
    }
}

impl World for Texts {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        Ok(Source::new(id, self.text(id)?.to_owned()))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        Ok(Bytes::from_string(self.text(id)?.to_owned()))
    }

    fn font(&self, index: usize) -> Option<Font> {
        faces::all().get(index).cloned()
    }

    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}

/// The typesetter's handle for a name; names are few and fixed, so its table never grows.
fn id(name: &str) -> FileResult<FileId> {
    let path = VirtualPath::new(name).map_err(|_| FileError::NotFound(name.into()))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}
