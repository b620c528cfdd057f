//! Several files in one ZIP archive (PKWARE APPNOTE 6.3), the same bytes for the same files.

use crate::failure::Failure;
use std::collections::BTreeMap;
use std::io::{Cursor, Write};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// Files by their names, in one archive below a folder. Every file has the archive format's earliest date.
pub fn bundle(folder: &str, files: &BTreeMap<String, Vec<u8>>) -> Result<Vec<u8>, Failure> {
    let bug = |error: &dyn std::fmt::Display| Failure::Bug(format!("an archive: {error}"));
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().last_modified_time(zip::DateTime::default());
    for (name, bytes) in files {
        archive
            .start_file(format!("{folder}/{name}"), options)
            .map_err(|error| bug(&error))?;
        archive.write_all(bytes).map_err(|error| bug(&error))?;
    }
    let done = archive.finish().map_err(|error| bug(&error))?;
    Ok(done.into_inner())
}

#[cfg(test)]
mod tests {
    use super::bundle;
    use std::collections::BTreeMap;
    use std::io::{Cursor, Read};

    #[test]
    fn what_goes_in_comes_out_and_the_bytes_stay_the_same() {
        let files: BTreeMap<String, Vec<u8>> = [("a.txt", "flour"), ("b.txt", "milk")]
            .map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec()))
            .into();
        let one = bundle("loaf", &files).expect("an archive");
        assert_eq!(one, bundle("loaf", &files).expect("an archive"));
        let mut read = zip::ZipArchive::new(Cursor::new(one)).expect("an archive");
        assert_eq!(read.len(), 2);
        let mut text = String::new();
        let mut file = read.by_name("loaf/b.txt").expect("it is there");
        file.read_to_string(&mut text).expect("text");
        assert_eq!(text, "milk");
    }
}
