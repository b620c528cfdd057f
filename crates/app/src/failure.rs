//! Why a command could not do its work, and the exit code that says so.

use std::fmt;
use std::path::{Path, PathBuf};

/// What a command ends with when it does not end well.
#[derive(Debug)]
pub enum Failure {
    /// A file or folder could not be read or written.
    World {
        /// What was being done: "read", "write".
        doing: &'static str,
        /// Which file or folder.
        path: PathBuf,
        /// What the system said.
        said: String,
        /// A way out.
        hint: Option<String>,
    },
    /// The words of the command do not fit together.
    Usage(String),
    /// A mistake of ours.
    Bug(String),
}

impl Failure {
    /// A failure of the file system.
    pub fn world(doing: &'static str, path: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind;
        let hint = match error.kind() {
            ErrorKind::NotFound => {
                Some("Check the spelling of the path, or look where it is with `ls`.")
            }
            ErrorKind::PermissionDenied if doing == "read" => {
                Some("Ask whoever owns the file to let you read it.")
            }
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                Some("Choose a folder that you may write to: --into FOLDER.")
            }
            ErrorKind::AlreadyExists | ErrorKind::NotADirectory => {
                Some("Choose another folder: --into FOLDER.")
            }
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
                Some("Make room on this disk, or choose another one: --into FOLDER.")
            }
            ErrorKind::IsADirectory => Some("Name the file inside that folder."),
            _ => None,
        };
        Self::World {
            doing,
            path: path.to_owned(),
            said: plain_words(error),
            hint: hint.map(str::to_owned),
        }
    }

    /// The same failure of a command whose folder has another flag than `--into`.
    #[must_use]
    pub fn by_flag(mut self, flag: &str) -> Self {
        if let Self::World {
            hint: Some(hint), ..
        } = &mut self
        {
            *hint = hint.replace("--into", flag);
        }
        self
    }

    /// The same failure with another way out.
    #[must_use]
    pub fn with_hint(mut self, way_out: &str) -> Self {
        if let Self::World { hint, .. } = &mut self {
            *hint = Some(way_out.to_owned());
        }
        self
    }

    /// 2 for the words of the command, 3 for the world, 70 for a mistake of ours.
    pub const fn exit_code(&self) -> u8 {
        match self {
            Self::Usage(_) => 2,
            Self::World { .. } => 3,
            Self::Bug(_) => 70,
        }
    }
}

fn plain_words(error: &std::io::Error) -> String {
    use std::io::ErrorKind;
    match error.kind() {
        ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        ErrorKind::PermissionDenied => "permission denied".to_owned(),
        ErrorKind::ReadOnlyFilesystem => "this disk can only be read".to_owned(),
        ErrorKind::StorageFull => "the disk is full".to_owned(),
        ErrorKind::IsADirectory => "this is a folder, not a file".to_owned(),
        ErrorKind::NotADirectory => "part of this path is a file, not a folder".to_owned(),
        ErrorKind::AlreadyExists => {
            "there is a file of that name, and a folder is wanted".to_owned()
        }
        _ => error.to_string(),
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::World {
                doing,
                path,
                said,
                hint,
            } => {
                write!(f, "cannot {doing} {}: {said}", path.display())?;
                if let Some(hint) = hint {
                    write!(f, "\n{hint}")?;
                }
                Ok(())
            }
            Self::Usage(text) => f.write_str(text),
            Self::Bug(text) => write!(
                f,
                "something went wrong that is our mistake, not yours: {text}\n\
                 Please report it with the recipe file, if you may share it."
            ),
        }
    }
}
