//! A text file that is exchanged for its new version in one move, or stays as it was.

use crate::failure::Failure;
use std::ffi::OsString;
use std::fs;
use std::io::Write;
use std::path::Path;

/// Puts new bytes in the place of a file that still holds the old ones.
///
/// A link is followed to the file itself, whose permissions stay. Whoever changed the file since it
/// was read keeps that change, and is told.
pub fn exchange(path: &Path, old: &[u8], new: &[u8]) -> Result<(), Failure> {
    let fault = |error| Failure::world("write", path, &error);
    let file = fs::canonicalize(path).map_err(fault)?;
    if fs::read(&file).map_err(fault)? != old {
        return Err(Failure::World {
            doing: "write",
            path: path.to_owned(),
            said: "it was changed since it was read".to_owned(),
            hint: Some("Look at it and try again.".to_owned()),
        });
    }
    let mut name = OsString::from(".");
    name.push(file.file_name().unwrap_or_else(|| "recipe".as_ref()));
    name.push(format!(".part-{}", std::process::id()));
    let part = file.with_file_name(name);
    let written = fs::OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(&part)
        .and_then(|mut out| {
            out.write_all(new)?;
            out.set_permissions(fs::metadata(&file)?.permissions())?;
            out.sync_all()
        })
        .and_then(|()| fs::rename(&part, &file));
    if written.is_err() {
        let _ = fs::remove_file(&part);
    }
    written.map_err(fault)
}

#[cfg(test)]
mod tests {
    use super::exchange;

    #[test]
    fn what_was_changed_meanwhile_is_kept_and_told() {
        let file = std::env::temp_dir().join(format!("everyoven-exchange-{}", std::process::id()));
        std::fs::write(&file, "as somebody else has it").expect("written");
        let fault = exchange(&file, b"as it was read", b"as it should be").expect_err("refused");
        assert!(format!("{fault:?}").contains("changed since it was read"));
        let kept = std::fs::read_to_string(&file).expect("read");
        assert_eq!(kept, "as somebody else has it");
        exchange(&file, kept.as_bytes(), b"as it should be").expect("exchanged");
        let now = std::fs::read_to_string(&file).expect("read");
        assert_eq!(now, "as it should be");
        std::fs::remove_file(file).expect("cleaned");
    }
}
