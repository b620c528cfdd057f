//! Reading a file, no more of it than any recipe can need.

use crate::failure::Failure;
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// One byte more than the reader accepts, so that it can say that a file is too large without
/// having it all in memory.
const MOST_BYTES: u64 = 2 * 1024 * 1024;

/// Bytes of a file; of a larger one its beginning, which is already too much.
pub fn bytes(path: &Path) -> Result<Vec<u8>, Failure> {
    let fault = |error| Failure::world("read", path, &error);
    let file = File::open(path).map_err(fault)?;
    if file.metadata().map_err(fault)?.is_dir() {
        return Err(fault(std::io::ErrorKind::IsADirectory.into()));
    }
    let mut bytes = Vec::new();
    file.take(MOST_BYTES)
        .read_to_end(&mut bytes)
        .map_err(fault)?;
    Ok(bytes)
}

/// All bytes of a file, a photograph for one.
pub fn whole(path: &Path) -> Result<Vec<u8>, Failure> {
    std::fs::read(path).map_err(|error| Failure::world("read", path, &error))
}
