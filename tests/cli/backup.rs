//! A notebook in one file and back, and files that are no notebook.

use super::running::{folder, root, run};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

fn said(out: &Output) -> String {
    format!(
        "{}{}",
        String::from_utf8_lossy(&out.stdout),
        String::from_utf8_lossy(&out.stderr)
    )
}

fn words(path: &Path) -> &str {
    path.to_str().expect("UTF-8")
}

/// A notebook with a recipe, a kitchen, a pasted text, a hidden file and something published.
fn notebook(at: &Path) -> PathBuf {
    let notebook = at.join("notebook");
    fs::create_dir_all(notebook.join("kitchens")).expect("a folder");
    fs::create_dir_all(notebook.join("published/loaf")).expect("a folder");
    for (from, to) in [
        ("examples/same-day-loaf.toml", "same-day-loaf.toml"),
        ("examples/kitchens/studio.toml", "kitchens/studio.toml"),
        ("tests/browser/pasted.txt", "milk-buns.txt"),
    ] {
        fs::copy(root().join(from), notebook.join(to)).expect("copied");
    }
    fs::write(notebook.join("published/loaf/index.html"), "<p>").expect("written");
    fs::write(notebook.join(".half.toml.part-1"), "half").expect("written");
    notebook
}

#[test]
fn a_notebook_comes_back_as_it_was() {
    let at = folder("whole");
    let notebook = notebook(&at);
    let zip = at.join("all.zip");
    let out = run(&["backup", words(&notebook), "--into", words(&zip)]);
    assert!(out.status.success(), "{}", said(&out));
    assert!(
        said(&out).contains("5 files, 0 versions of texts and 0 bakes"),
        "{}",
        said(&out)
    );
    let again = run(&["backup", words(&notebook), "--into", words(&zip)]);
    assert_eq!(again.status.code(), Some(3), "never over another file");

    let back = at.join("back");
    let out = run(&["restore", words(&zip), "--into", words(&back)]);
    assert!(out.status.success(), "{}", said(&out));
    for file in [
        "same-day-loaf.toml",
        "kitchens/studio.toml",
        "milk-buns.txt",
        "published/loaf/index.html",
    ] {
        let (was, is) = (fs::read(notebook.join(file)), fs::read(back.join(file)));
        assert_eq!(was.expect("there"), is.expect("there"), "{file}");
    }
    assert!(back.join("record.sqlite").is_file());
    assert!(!back.join(".half.toml.part-1").exists());
    let out = run(&["restore", words(&zip), "--into", words(&back)]);
    assert_eq!(out.status.code(), Some(3));
    assert!(
        said(&out).contains("the folder is not empty"),
        "{}",
        said(&out)
    );
    let names: Vec<_> = fs::read_dir(&at)
        .expect("a folder")
        .map(|e| e.expect("e").file_name())
        .collect();
    assert_eq!(names.len(), 3, "nothing is left lying about: {names:?}");
}

/// CRC-32 of ISO/IEC 3309 as the archive's format wants it, and a file that holds one entry, stored.
fn archive(name: &str, bytes: &[u8], claimed: u32) -> Vec<u8> {
    entry(name, bytes, 0, claimed)
}

/// About so many zeros by the block with fixed codes of RFC 1951, 3.2.6: a zero, then matches of 258 bytes,
/// each of one byte before, and no end. What comes out is some 158 times as long.
fn deflated_zeros(bytes: usize) -> Vec<u8> {
    let mut bits: Vec<bool> = vec![true, true, false]; // last block, fixed codes (low bit first)
    let mut code = |value: u32, length: u32| {
        bits.extend((0..length).rev().map(|bit| value >> bit & 1 == 1));
    };
    code(0x30, 8);
    for _ in 0..16 {
        code(0b1100_0101, 8); // length 258
        code(0, 5); // distance 1
    }
    let whole: Vec<u8> = bits
        .chunks_exact(8)
        .map(|byte| {
            byte.iter()
                .rev()
                .fold(0, |sum, bit| sum << 1 | u8::from(*bit))
        })
        .collect();
    // Eight matches are thirteen bytes, and from the third byte on they come round.
    let (head, rest) = whole.split_at(2);
    [head, &rest[..13].repeat(bytes / 258 / 8)].concat()
}

fn entry(name: &str, bytes: &[u8], method: u8, claimed: u32) -> Vec<u8> {
    let packed = if method == 0 {
        claimed
    } else {
        u32::try_from(bytes.len()).expect("small")
    };
    let mut crc = u32::MAX;
    for byte in bytes {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 {
                (crc >> 1) ^ 0xEDB8_8320
            } else {
                crc >> 1
            };
        }
    }
    let crc = !crc;
    let length = u16::try_from(name.len()).expect("short");
    let head = |signature: u32, version: &[u8]| {
        let mut head = signature.to_le_bytes().to_vec();
        head.extend(version);
        // Version needed, flags, method (0 stored, 8 deflated), time, date.
        head.extend([20, 0, 0, 0, method, 0, 0, 0, 0x21, 0]);
        head.extend(crc.to_le_bytes());
        head.extend(packed.to_le_bytes());
        head.extend(claimed.to_le_bytes());
        head.extend(length.to_le_bytes());
        head.extend([0, 0]);
        head
    };
    let mut file = head(0x0403_4B50, &[]);
    file.extend(name.as_bytes());
    file.extend(bytes);
    let start = u32::try_from(file.len()).expect("small");
    let mut list = head(0x0201_4B50, &[20, 0]);
    list.extend([0; 6]); // comment, disk, inner attributes
    list.extend([0; 8]); // outer attributes, place of the entry
    list.extend(name.as_bytes());
    let length = u32::try_from(list.len()).expect("small");
    file.extend(list);
    file.extend(0x0605_4B50_u32.to_le_bytes());
    file.extend([0, 0, 0, 0, 1, 0, 1, 0]);
    file.extend(length.to_le_bytes());
    file.extend(start.to_le_bytes());
    file.extend([0, 0]);
    file
}

#[test]
fn what_leads_out_or_is_no_backup_is_refused_and_writes_nothing() {
    let at = folder("bad");
    let bad: [(&str, Vec<u8>, &str); 6] = [
        (
            "up",
            archive("../up.toml", b"x", 1),
            "no file of a notebook",
        ),
        (
            "root",
            archive("/up.toml", b"x", 1),
            "no file of a notebook",
        ),
        (
            "deep",
            archive("a/../../up.toml", b"x", 1),
            "no file of a notebook",
        ),
        (
            "hidden",
            archive(".hidden", b"x", 1),
            "no file of a notebook",
        ),
        (
            "huge",
            archive("loaf.toml", b"x", u32::MAX - 1),
            "larger than a notebook",
        ),
        (
            "words",
            b"These are only words.".to_vec(),
            "it is no backup",
        ),
    ];
    for (name, bytes, why) in bad {
        let file = at.join(format!("{name}.zip"));
        fs::write(&file, bytes).expect("written");
        let into = at.join("in/side");
        let out = run(&["restore", words(&file), "--into", words(&into)]);
        assert_eq!(out.status.code(), Some(3), "{name}: {}", said(&out));
        assert!(said(&out).contains(why), "{name}: {}", said(&out));
        assert!(!into.exists() && !at.join("up.toml").exists(), "{name}");
    }
    // A whole archive of something else.
    let file = at.join("other.zip");
    fs::write(&file, archive("loaf.toml", b"x", 1)).expect("written");
    let out = run(&["restore", words(&file), "--into", words(&at.join("other"))]);
    assert!(said(&out).contains("it holds no record"), "{}", said(&out));
    assert!(!at.join("other").exists());
}

#[test]
fn an_archive_that_lies_about_its_size_fills_no_disk() {
    let at = folder("lying");
    // A packed file that comes out as 2 GB and says that it holds forty bytes.
    let zeros = deflated_zeros(2_000_000_000);
    assert!(zeros.len() < 14_000_000, "{} bytes", zeros.len());
    let file = at.join("small.zip");
    fs::write(&file, entry("loaf.toml", &zeros, 8, 40)).expect("written");
    let into = at.join("back");
    let out = run(&["restore", words(&file), "--into", words(&into)]);
    assert_eq!(out.status.code(), Some(3), "{}", said(&out));
    assert!(
        said(&out).contains("`loaf.toml` in it is larger than it says"),
        "{}",
        said(&out)
    );
    let left: Vec<_> = fs::read_dir(&at).expect("a folder").collect();
    assert_eq!(left.len(), 1, "nothing is left lying about: {left:?}");
}
