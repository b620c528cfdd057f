//! Opening a record: whole, new, from a newer program, only to be read, or damaged and moved aside.

use super::{FILE, fault, schema};
use crate::failure::Failure;
use rusqlite::{Connection, Error, ErrorCode, OpenFlags};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// What a damaged record is called from then on, before its number.
const DAMAGED: &str = "record-damaged-";
/// How long one program waits for another one that writes.
const PATIENCE: Duration = Duration::from_secs(5);

/// An open record, and why it can only be read when that is so.
pub type Opened = (Connection, Option<String>);

/// Opens the record of a folder; makes one where none is. A damaged one is moved aside whole.
pub fn at(folder: &Path) -> Result<Opened, Failure> {
    let path = folder.join(FILE);
    match usual(&path) {
        Ok(opened) => Ok(opened),
        Err(error) if damaged(&error) => {
            move_aside(folder)?;
            usual(&path).map_err(|error| fault(&path, "open", &error))
        }
        Err(error) if locked_out(&error) && path.is_file() => {
            let why = match fault(&path, "open", &error) {
                Failure::World { said, .. } => said,
                other => other.to_string(),
            };
            let connection = to_read(&path).map_err(|error| fault(&path, "open", &error))?;
            Ok((connection, Some(why)))
        }
        Err(error) => Err(fault(&path, "open", &error)),
    }
}

/// An empty record that is nowhere.
pub fn in_memory() -> rusqlite::Result<Connection> {
    let mut connection = Connection::open_in_memory()?;
    schema::migrate(&mut connection)?;
    Ok(connection)
}

/// An empty record in a new file.
pub fn new_at(path: &Path) -> rusqlite::Result<()> {
    let mut connection = Connection::open(path)?;
    schema::migrate(&mut connection)
}

/// Whether an error says that the file itself is broken.
pub fn damaged(error: &Error) -> bool {
    matches!(
        error.sqlite_error_code(),
        Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase)
    )
}

fn locked_out(error: &Error) -> bool {
    matches!(
        error.sqlite_error_code(),
        Some(
            ErrorCode::ReadOnly
                | ErrorCode::CannotOpen
                | ErrorCode::PermissionDenied
                | ErrorCode::DiskFull
        )
    )
}

fn usual(path: &Path) -> rusqlite::Result<Opened> {
    let mut connection = Connection::open(path)?;
    connection.busy_timeout(PATIENCE)?;
    whole(&connection)?;
    if schema::of(&connection)? > schema::present() {
        let why = "it was made by a newer version of this program".to_owned();
        return Ok((connection, Some(why)));
    }
    let mode: String =
        connection.pragma_update_and_check(None, "journal_mode", "wal", |row| row.get(0))?;
    // Some network disks refuse it; the older way is as safe and a little slower.
    if mode != "wal" {
        connection.pragma_update(None, "journal_mode", "delete")?;
    }
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "trusted_schema", false)?;
    schema::migrate(&mut connection)?;
    Ok((connection, None))
}

/// Looks the whole file over: `ok`, or it is damaged.
fn whole(connection: &Connection) -> rusqlite::Result<()> {
    let said: String = connection.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
    if said == "ok" {
        return Ok(());
    }
    Err(Error::SqliteFailure(
        rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_CORRUPT),
        Some(said),
    ))
}

/// A record on a disk that cannot be written to.
fn to_read(path: &Path) -> rusqlite::Result<Connection> {
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let plain = Connection::open_with_flags(path, flags)
        .and_then(|connection| schema::of(&connection).map(|_| connection));
    plain.or_else(|_| {
        // Without a place for its side files it can be read as a file that nobody changes.
        let text = path.to_string_lossy();
        let text = text
            .replace('%', "%25")
            .replace('?', "%3f")
            .replace('#', "%23");
        let address = format!("file:{text}?immutable=1");
        Connection::open_with_flags(address, flags | OpenFlags::SQLITE_OPEN_URI)
    })
}

/// Files that belong to one record.
fn parts(path: &Path) -> [PathBuf; 3] {
    ["", "-wal", "-shm"].map(|ending| {
        let mut name = path.as_os_str().to_owned();
        name.push(ending);
        PathBuf::from(name)
    })
}

/// Gives a damaged record another name, with all that belongs to it.
fn move_aside(folder: &Path) -> Result<(), Failure> {
    let mut number = 1;
    let named = |number: u32| folder.join(format!("{DAMAGED}{number}.sqlite"));
    while named(number).exists() {
        number += 1;
    }
    let (from, to) = (folder.join(FILE), named(number));
    for (old, new) in parts(&from).into_iter().zip(parts(&to)) {
        if old.exists() {
            fs::rename(&old, &new).map_err(|error| Failure::world("move aside", &old, &error))?;
        }
    }
    Ok(())
}

/// Damaged records in a folder, in order.
pub fn moved_aside(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut names: Vec<String> = entries
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| name.starts_with(DAMAGED) && name.ends_with(".sqlite"))
        .collect();
    names.sort();
    names
}
