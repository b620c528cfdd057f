//! The file for whoever mends the program: what it must hold, and that no word of a recipe is in it.

use super::running::{everyoven, folder};
use everyoven_tests::tree::text;
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Command, Stdio};

/// Every name and text in the archive, by Python's reader of ZIP.
fn unpacked(file: &Path) -> String {
    let script = "import sys, zipfile\n\
        z = zipfile.ZipFile(sys.argv[1])\n\
        for n in z.namelist(): print('##', n); print(z.read(n).decode('utf-8'))";
    let out = Command::new("python3")
        .args(["-c", script])
        .arg(file)
        .output()
        .expect("python3");
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    String::from_utf8(out.stdout).expect("UTF-8")
}

fn reported(notebook: &Path, into: &Path) -> String {
    let out = everyoven()
        .arg("report-trouble")
        .arg(notebook)
        .arg("--into")
        .arg(into)
        .output();
    let out = out.expect("it starts");
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    unpacked(into)
}

/// Words of three letters and more, small.
fn words(text: &str) -> BTreeSet<String> {
    let words = text.split(|sign: char| !sign.is_alphabetic());
    words
        .filter(|word| word.chars().count() >= 3)
        .map(str::to_lowercase)
        .collect()
}

/// Opens the notebook, asks for a page of the recipe and for one that is nowhere, and stops it.
fn looked_at(notebook: &Path, name: &str) {
    let mut served = everyoven()
        .arg("serve")
        .arg(notebook)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("it starts");
    let mut address = String::new();
    let mut out = BufReader::new(served.stdout.take().expect("its output"));
    out.read_line(&mut address).expect("its address");
    let host = address
        .trim()
        .trim_start_matches("http://")
        .trim_end_matches('/')
        .to_owned();
    for path in [
        format!("/recipe/{name}/formula?kitchen=petras"),
        format!("/{name}"),
    ] {
        let mut stream = TcpStream::connect(&host).expect("it listens");
        let ask = format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
        stream.write_all(ask.as_bytes()).expect("asked");
        let mut said = Vec::new();
        stream.read_to_end(&mut said).expect("answered");
    }
    let _ = served.kill();
    let _ = served.wait();
}

#[test]
fn no_word_of_a_recipe_goes_out() {
    let out = folder("words");
    let empty = out.join("empty");
    std::fs::create_dir_all(&empty).expect("a notebook");
    let nothing = reported(&empty, &out.join("nothing.zip"));
    let name = "grossmutters-sonntagszopf";
    let notebook = out.join("petras-notizbuch");
    std::fs::create_dir_all(&notebook).expect("a notebook");
    let mut demos = String::new();
    for (file, demo) in [
        (name, "feast-bread"),
        ("zweiter", "hearth-loaf"),
        ("dritter", "cardamom-dough"),
    ] {
        let recipe = text(&format!("examples/{demo}.toml")).expect("UTF-8");
        std::fs::write(notebook.join(format!("{file}.toml")), &recipe).expect("written");
        demos.push_str(&recipe);
    }
    std::fs::write(
        notebook.join("vierter.toml"),
        "everyoven = 1\ntitle = [\"Geheimnis\"",
    )
    .expect("written");
    let kitchen = text("examples/kitchens/flat.toml").expect("UTF-8");
    std::fs::create_dir_all(notebook.join("kitchens")).expect("a folder");
    std::fs::write(notebook.join("kitchens/petras.toml"), kitchen).expect("written");
    looked_at(&notebook, name);
    let log = notebook.join(".everyoven-log");
    let mut noted = std::fs::read_to_string(&log).expect("the program notes what it did");
    noted.push_str("2026-11-28T10:00:00Z somebody wrote Kardamomknoten here\n");
    std::fs::write(&log, noted).expect("written");

    let full = reported(&notebook, &out.join("full.zip"));
    // It is of use: version, system, counts, findings, what was asked for and how that ended.
    for part in [
        concat!("version ", env!("CARGO_PKG_VERSION")),
        std::env::consts::OS,
        "recipes: 4",
        "kitchens: 1",
        "recipes that cannot be read: 1",
        "text-unreadable,mend,1",
        "GET /recipe/{name}/formula 200 ",
        "GET other 404 ",
    ] {
        assert!(full.contains(part), "{part}: {full}");
    }
    // What a notebook adds to an empty one: names of findings, kinds of pages, numbers, and nothing else.
    let codes = everyoven()
        .args(["explain", "--list"])
        .output()
        .expect("it starts")
        .stdout;
    let codes = words(&String::from_utf8_lossy(&codes));
    let router = words(&text("crates/app/src/web/router.rs").expect("UTF-8"));
    let grades = words("mend look again could other GET ended began");
    let said: BTreeSet<String> = words(&full).difference(&words(&nothing)).cloned().collect();
    let known =
        |word: &String| codes.contains(word) || router.contains(word) || grades.contains(word);
    let strange: Vec<&String> = said.iter().filter(|word| !known(word)).collect();
    assert!(strange.is_empty(), "{strange:?}: {full}");
    // Names of findings share words with recipes ("butter"); in a recipe's own order they never stand here.
    for line in demos.lines().filter(|line| line.trim().len() > 12) {
        assert!(!full.contains(line.trim()), "{line}");
    }
    let (place, lower) = (out.display().to_string(), full.to_lowercase());
    for secret in [
        name,
        "petra",
        "zopf",
        "notizbuch",
        "geheimnis",
        "kardamom",
        "zweiter",
        &place,
        "/home",
        "/tmp",
    ] {
        assert!(!lower.contains(secret), "{secret}: {full}");
    }
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn a_file_that_is_there_is_left_alone() {
    let out = folder("there");
    let file = out.join("trouble.zip");
    std::fs::write(&file, "mine").expect("written");
    let answer = everyoven()
        .arg("report-trouble")
        .arg(&out)
        .arg("--into")
        .arg(&file)
        .output();
    let answer = answer.expect("it starts");
    assert_eq!(
        answer.status.code(),
        Some(3),
        "{}",
        String::from_utf8_lossy(&answer.stderr)
    );
    assert_eq!(std::fs::read_to_string(&file).expect("it is there"), "mine");
    std::fs::remove_dir_all(out).expect("cleaned");
}
