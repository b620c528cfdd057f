//! Broken tracks of `talk/bad`: what is said of their form, what is kept of their words, when their cues begin.

use edit::talk::track::{Track, clock, read};
use everyoven_tests::tree::{none, root};
use recipe::source::Checked;

/// What these say is said of the talk against its recipe, not of the file.
const OF_THE_TALK: [&str; 3] = ["another-recipe.txt", "wrong-loaf.txt", "german.txt"];

fn cases() -> Vec<toml::Table> {
    let path = root().join("tests/suite/talk/bad/tracks.toml");
    let text = std::fs::read_to_string(path).expect("the list of tracks");
    let table: toml::Table = text.parse().expect("TOML");
    let tracks = table["track"].as_array().expect("tracks");
    tracks
        .iter()
        .map(|track| track.as_table().expect("a track").clone())
        .collect()
}

/// The bytes of a case: those of its file, or made as it says.
fn bytes(case: &toml::Table) -> (String, Vec<u8>) {
    let folder = root().join("tests/suite/talk");
    if let Some(file) = case.get("file").and_then(toml::Value::as_str) {
        let bytes = std::fs::read(folder.join("bad").join(file)).expect("the file of a case");
        return (file.to_owned(), bytes);
    }
    let name = case["name"].as_str().expect("a name").to_owned();
    let make = case["make"].as_str().expect("how it is made");
    let bytes = if let Some(rest) = make.strip_prefix("repeat ") {
        let (what, size) = rest.rsplit_once(" to ").expect("a size");
        let size: usize = size.trim_end_matches(" bytes").parse().expect("bytes");
        let once = match what.strip_prefix('"') {
            Some(text) => text.trim_end_matches('"').as_bytes().to_vec(),
            None => std::fs::read(folder.join(what)).expect("what is repeated"),
        };
        once.iter().copied().cycle().take(size).collect()
    } else {
        let mut words = make.split(' ').skip(1);
        let many: u64 = words
            .next()
            .and_then(|many| many.parse().ok())
            .expect("how many cues");
        let text = make.split('"').nth(1).expect("words");
        let at = |second: u64| {
            format!(
                "{:02}:{:02}:{:02},000",
                second / 3600,
                second / 60 % 60,
                second % 60
            )
        };
        let cue = |n: u64| format!("{}\n{} --> {}\n{text}\n\n", n + 1, at(n), at(n + 1));
        (0..many).map(cue).collect::<String>().into_bytes()
    };
    (name, bytes)
}

fn list(case: &toml::Table, key: &str) -> Vec<String> {
    let values = case.get(key).and_then(toml::Value::as_array);
    let text = |value: &toml::Value| value.as_str().expect("text").to_owned();
    values.map_or(Vec::new(), |values| values.iter().map(text).collect())
}

fn words(track: &Track) -> String {
    let cues: Vec<String> = track
        .cues
        .iter()
        .map(edit::talk::track::Cue::line)
        .collect();
    cues.join(" ")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn broken_tracks_are_read_and_their_faults_said() {
    let cases = cases();
    assert!(cases.len() > 35, "only {} cases", cases.len());
    let mut faults = Vec::new();
    for case in &cases {
        let (name, bytes) = bytes(case);
        let Checked {
            output,
            diagnostics,
        } = read(&bytes);
        let said: Vec<String> = diagnostics
            .iter()
            .flat_map(|said| std::iter::once(&said.message).chain(&said.hints))
            .map(|text| text.to_lowercase())
            .collect();
        let codes: Vec<&str> = diagnostics.iter().map(|said| said.code.name).collect();
        if !OF_THE_TALK.contains(&name.as_str()) {
            for wanted in list(case, "says") {
                if !said
                    .iter()
                    .any(|text| text.contains(&wanted.to_lowercase()))
                {
                    faults.push(format!("{name}: nothing says \"{wanted}\": {said:?}"));
                }
            }
        }
        let quiet = case.get("quiet").and_then(toml::Value::as_bool) == Some(true);
        if quiet && !codes.is_empty() {
            faults.push(format!("{name}: nothing is wrong with it, but {codes:?}"));
        }
        let heard = words(&output);
        for kept in list(case, "keeps") {
            if !heard.contains(&kept) {
                faults.push(format!("{name}: \"{kept}\" is lost from \"{heard}\""));
            }
        }
        let times = list(case, "times");
        let begins: Vec<String> = output
            .cues
            .iter()
            .map(|cue| cue.from.map_or("none".to_owned(), clock))
            .collect();
        if !times.is_empty() && begins != times {
            faults.push(format!(
                "{name}: cues begin at {begins:?}, not at {times:?}"
            ));
        }
        for said in &diagnostics {
            let lost = said
                .span
                .is_some_and(|span| output.text.get(span.start..span.end).is_none());
            if lost {
                faults.push(format!(
                    "{name}: {} has no place in the text",
                    said.code.name
                ));
            }
        }
    }
    none("broken tracks", &faults);
}
