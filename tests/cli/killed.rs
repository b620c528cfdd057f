//! The notebook killed in the middle of saving, two hundred times: every change that was acknowledged is there, no file is half.

use crate::running;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

const KILLS: u64 = 200;
/// The random moments come from here.
const SEED: u64 = 0x005E_ED0F_0B04;

/// Steele, Lea and Flood, Fast splittable pseudorandom number generators, OOPSLA 2014: `SplitMix64`.
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// A text with its number, long enough that half of it is seen to be half.
fn text(number: u64) -> String {
    let mut lines = String::new();
    for line in 0..400 {
        lines += &format!("# {number} line {line}\n");
    }
    format!("everyoven = 1\ntitle = \"Loaf {number}\"\n{lines}# end of {number}\n")
}

fn number_of(text: &str) -> Option<u64> {
    let number = text.strip_prefix("everyoven = 1\ntitle = \"Loaf ")?;
    number.split('"').next()?.parse().ok()
}

struct Served {
    program: Child,
    host: String,
}

impl Served {
    fn new(folder: &Path) -> Self {
        let mut program = running::everyoven()
            .arg("serve")
            .arg(folder)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("everyoven starts");
        let out = program.stdout.take().expect("its output");
        let mut address = String::new();
        BufReader::new(out).read_line(&mut address).expect("a line");
        let host = address.trim().trim_end_matches('/');
        let host = host.strip_prefix("http://").expect("an address").to_owned();
        Self { program, host }
    }

    fn ask(&self, request: &str) -> std::io::Result<String> {
        ask(&self.host, request)
    }

    fn page(&self, path: &str) -> String {
        let host = &self.host;
        self.ask(&format!(
            "GET {path} HTTP/1.1\r\nhost: {host}\r\nconnection: close\r\n\r\n"
        ))
        .expect("an answer")
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.program.kill();
        let _ = self.program.wait();
    }
}

fn ask(host: &str, request: &str) -> std::io::Result<String> {
    let mut stream = TcpStream::connect(host)?;
    stream.write_all(request.as_bytes())?;
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer)?;
    Ok(String::from_utf8_lossy(&answer).into_owned())
}

/// What the form says the file was: its mark, from the page.
fn seen(page: &str) -> Option<&str> {
    page.split("name=\"seen\" value=\"")
        .nth(1)?
        .split('"')
        .next()
}

fn sent(words: &str) -> String {
    words
        .bytes()
        .map(|byte| match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(byte).to_string(),
            _ => format!("%{byte:02X}"),
        })
        .collect()
}

/// Saves a text as the form does; whether that was acknowledged.
fn save(host: &str, seen: &str, number: u64) -> bool {
    let body = format!("seen={}&text={}", sent(seen), sent(&text(number)));
    let request = format!(
        "POST /recipe/loaf HTTP/1.1\r\nhost: {host}\r\nconnection: close\r\n\
         content-type: application/x-www-form-urlencoded\r\ncontent-length: {}\r\n\r\n{body}",
        body.len()
    );
    let answer = ask(host, &request).unwrap_or_default();
    assert!(
        answer.is_empty() || answer.starts_with("HTTP/1.1 303"),
        "{}",
        answer.lines().next().unwrap_or_default()
    );
    answer.starts_with("HTTP/1.1 303") && answer.contains("said=saved")
}

/// The mark that the page of this text carries, asked from the page itself.
fn mark(served: &Served) -> String {
    let page = served.page("/recipe/loaf");
    seen(&page).expect("a form").to_owned()
}

#[test]
fn a_kill_at_any_moment_loses_nothing_that_was_acknowledged() {
    let folder = running::folder("killed");
    let file = folder.join("loaf.toml");
    fs::write(&file, text(0)).expect("written");

    let mut state = SEED;
    let mut number = 0;
    let mut acknowledged = Vec::new();
    for kill in 0..KILLS {
        let mut served = Served::new(&folder);
        let host = served.host.clone();
        let first = mark(&served);
        let last_said = acknowledged.last().copied().unwrap_or(0);
        let from = number;
        let (kept, told) = mpsc::channel();
        // Saves go out one after another while the program is killed under them.
        let saving = thread::spawn(move || {
            let mut said = Vec::new();
            let mut seen_now = first;
            let mut number = from;
            loop {
                number += 1;
                if !save(&host, &seen_now, number) {
                    return (said, number);
                }
                said.push(number);
                let _ = kept.send(());
                let request = format!(
                    "GET /recipe/loaf HTTP/1.1\r\nhost: {host}\r\nconnection: close\r\n\r\n"
                );
                match ask(&host, &request).ok().as_deref().and_then(seen) {
                    Some(now) => now.clone_into(&mut seen_now),
                    None => return (said, number),
                }
            }
        });
        // On a busy machine a save takes longer: so many are waited for, then the moment is random.
        for _ in 0..next(&mut state) % 4 {
            if told.recv().is_err() {
                break;
            }
        }
        thread::sleep(Duration::from_micros(next(&mut state) % 30_000));
        served.program.kill().expect("killed");
        served.program.wait().expect("gone");
        let (said, reached) = saving.join().expect("it ends");
        let there = fs::read_to_string(&file).expect("the file is there");
        let found = number_of(&there).unwrap_or_else(|| panic!("kill {kill}: half a file"));
        assert_eq!(there, text(found), "kill {kill}: half a file");
        let least = said.last().copied().unwrap_or(last_said);
        assert!(
            found == least || found == reached,
            "kill {kill}: {found} is in the file, {least} was acknowledged, {reached} was sent"
        );
        number = reached;
        acknowledged.extend(said);
        acknowledged.extend((found > least).then_some(found));
    }

    let served = Served::new(&folder);
    // Every acknowledged text is a version of its own, whole.
    let history = served.page("/recipe/loaf/history");
    assert!(!history.contains("record-damaged"));
    let versions = history.matches("/recipe/loaf/history/").count();
    let mut kept = Vec::new();
    for version in 1..=versions {
        let page = served.page(&format!("/recipe/loaf/history/{version}"));
        let whole = page.rsplit("Its whole text").next().expect("a part");
        let title = whole.split("Loaf ").nth(1).expect("a title");
        let title = title.split('&').next().expect("a number");
        let found: u64 = title.parse().expect("a number");
        assert!(
            whole.contains(&format!("# end of {found}\n")),
            "version {version} is half"
        );
        kept.push(found);
    }
    for said in &acknowledged {
        assert!(
            kept.contains(said),
            "{said} was acknowledged and is not in the record"
        );
    }
    assert!(
        acknowledged.len() as u64 > KILLS,
        "too little was saved to tell: {}",
        acknowledged.len()
    );
    drop(served);
    let left: Vec<String> = fs::read_dir(&folder)
        .expect("a folder")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .filter(|name| name != "loaf.toml" && name != ".everyoven-log")
        .filter(|name| !name.starts_with("record.sqlite"))
        .collect();
    assert_eq!(left, Vec::<String>::new(), "nothing is left lying about");
    fs::remove_dir_all(&folder).expect("removed");
}
