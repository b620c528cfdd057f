//! Tracks and captions before other programs: `webvtt-parser` of the standard's editors, `pysubs2`; and each tried on a bad file.

use crate::peer;
use crate::spoken_cues;
use edit::talk::Said;
use edit::talk::film::{Film, film};
use edit::talk::track::{Cue, Track, read};
use edit::{Inputs, work_out};
use everyoven_tests::demos::DEMOS;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use serde_json::{Value, json};
use std::time::Duration;

/// So many tracks made up, the same in every run.
const TRACKS: usize = 60;

fn made_up(for_webvtt: bool) -> Vec<Track> {
    let mut runner = TestRunner::deterministic();
    let strategy = spoken_cues::cues(for_webvtt);
    let mut track = || {
        let tree = strategy.new_tree(&mut runner).expect("a track");
        Track {
            cues: tree.current(),
            ..Track::default()
        }
    };
    (0..TRACKS).map(|_| track()).collect()
}

fn milliseconds(at: Option<Duration>) -> u64 {
    u64::try_from(at.expect("a time").as_millis()).expect("no film is so long")
}

fn cues(track: &Track) -> Vec<Value> {
    let one = |cue: &Cue| json!({"from": milliseconds(cue.from), "to": milliseconds(cue.to), "text": cue.text});
    track.cues.iter().map(one).collect()
}

/// What the standard's parser says of files of one mode.
fn webvtt_heard(texts: &[String], mode: &str) -> Vec<Value> {
    let files: Vec<Value> = texts
        .iter()
        .map(|text| json!({"text": text, "mode": mode}))
        .collect();
    let heard = peer::ask("tracks.mjs", Some(&json!({"files": files})));
    heard["answers"].as_array().expect("answers").clone()
}

/// The parser hears the same words at the same times, and finds no fault.
#[test]
fn webvtt_that_is_written_is_what_its_editors_parser_reads() {
    let tracks = made_up(true);
    let texts: Vec<String> = tracks.iter().map(press::captions::webvtt).collect();
    for ((track, text), heard) in tracks
        .iter()
        .zip(&texts)
        .zip(webvtt_heard(&texts, "subtitles"))
    {
        assert_eq!(heard["errors"], json!([]), "{text}");
        let there: Vec<Value> = heard["cues"]
            .as_array()
            .expect("cues")
            .iter()
            .map(|cue| json!({"from": cue["from"], "to": cue["to"], "text": cue["text"]}))
            .collect();
        assert_eq!(there, cues(track), "{text}");
        // The standard resolves references in the name of a voice; this parser does not.
        let voice = |cue: &Value| cue["voice"].as_str().map(|name| name.replace("&amp;", "&"));
        let voices: Vec<Option<String>> = heard["cues"]
            .as_array()
            .expect("cues")
            .iter()
            .map(voice)
            .collect();
        let ours: Vec<Option<String>> = track.cues.iter().map(|cue| cue.speaker.clone()).collect();
        assert_eq!(voices, ours);
    }
}

/// A file of others' making, read by both: name of a cue, hours left out, voices, looks, references, remarks, a
/// style, places on the screen, CR LF.
const FOREIGN: &str = "\u{feff}WEBVTT - made elsewhere\r\n\r\nSTYLE\r\n::cue { color: papayawhip }\r\n\r\nNOTE\r\nA remark.\r\n\r\nfirst one\r\n00:01.000 --> 00:04.250 line:85% align:start\r\n<v.loud Petra>Flour &amp; water, <i>not</i> salt</v>\r\n\r\n00:04.250 --> 00:09.000\r\n<c.yellow>Bake</c> at 180 &#176;C &ndash; or &lt;350&gt;\r\n350\r\n\r\n01:00:00.000 --> 01:00:02.500\r\nDone.\r\n";

#[test]
fn webvtt_of_others_is_read_as_its_editors_parser_reads_it() {
    let heard = webvtt_heard(&[FOREIGN.replace("&ndash;", "–")], "subtitles").remove(0);
    assert_eq!(heard["errors"], json!([]));
    let track = read(FOREIGN.replace("&ndash;", "–").as_bytes()).output;
    let ours: Vec<Value> = track
        .cues
        .iter()
        .map(|cue| json!({"from": milliseconds(cue.from), "to": milliseconds(cue.to), "text": cue.text, "voice": cue.speaker}))
        .collect();
    assert_eq!(&Value::from(ours), &heard["cues"]);
}

#[test]
fn the_parser_names_the_faults_of_a_bad_file() {
    let bad = "WEBVTT\n00:00,000 --> 00:01.000\nx\n\n00:03.000 --> 00:02.000\n<b>y\n".to_owned();
    let heard = webvtt_heard(&[bad], "subtitles").remove(0).to_string();
    for fault in [
        "No blank line after the signature",
        "No decimal separator",
        "not greater than start",
    ] {
        assert!(heard.contains(fault), "{heard}");
    }
    let tagged = "WEBVTT\n\n00:00.000 --> 00:01.000\n<i>x</i>\n".to_owned();
    assert!(
        webvtt_heard(&[tagged], "chapters")[0]
            .to_string()
            .contains("not allowed in chapter title text")
    );
}

#[test]
fn subrip_goes_to_pysubs2_and_back() {
    let tracks = made_up(false);
    let texts: Vec<String> = tracks.iter().map(press::captions::srt).collect();
    let theirs: Vec<Vec<Value>> = tracks.iter().map(cues).collect();
    let heard = peer::ask("tracks.py", Some(&json!({"read": texts, "write": theirs})));
    for (at, track) in tracks.iter().enumerate() {
        assert_eq!(
            heard["read"][at],
            json!({"error": null, "cues": cues(track)}),
            "{}",
            texts[at]
        );
        let written = heard["written"][at].as_str().expect("a file");
        let again = read(written.as_bytes());
        assert_eq!(cues(&again.output), cues(track), "{written}");
        assert!(again.diagnostics.is_empty(), "{:?}", again.diagnostics);
    }
}

#[test]
fn pysubs2_hears_nothing_in_a_bad_file() {
    let heard = peer::ask(
        "tracks.py",
        Some(&json!({"read": ["1\n00:00:0x,000 -> 00:00:02\nwords\n"], "write": []})),
    );
    assert_eq!(heard["read"][0]["cues"], json!([]));
}

const TALK: &str = include_str!("data/cardamom-talk.txt");

/// The talk about the cardamom dough, and by hand which step each of its marks is about: counted in the example.
fn cardamom() -> Film {
    let text = DEMOS
        .iter()
        .find(|(name, _)| *name == "cardamom-dough")
        .expect("the example")
        .1;
    let recipe = read_recipe(text).output.expect("it can be read");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let formula = formula(&recipe, &larder).output;
    let kitchen = bake::kitchen::Kitchen::standard();
    let ledger = work_out(&Inputs::new(&recipe, &formula, &larder, &kitchen))
        .output
        .1;
    let track = read(TALK.as_bytes());
    assert!(track.diagnostics.is_empty(), "{:?}", track.diagnostics);
    // Starter, paste, mixing, butter, the rise, knots, the loaf's rise, the loaf's cooling.
    let steps = [1, 3, 6, 7, 8, 18, 31, 35];
    let said: Vec<Said> = steps
        .iter()
        .enumerate()
        .map(|(cue, number)| Said {
            cue,
            step: Some(number - 1),
        })
        .collect();
    let made = film(&ledger, &track.output, &said);
    assert!(made.diagnostics.is_empty(), "{:?}", made.diagnostics);
    made.output
}

/// Counted here anew from the bare file: words between blanks, letters with the blanks between them.
#[test]
fn the_pace_of_a_talk_is_what_a_count_by_hand_gives() {
    let mut marks: Vec<(f64, &str)> = Vec::new();
    for line in TALK.lines() {
        let (mark, words) = line.split_once(']').expect("a mark");
        let (minutes, seconds) = mark
            .trim_start_matches('[')
            .split_once(':')
            .expect("a time");
        let at = minutes.parse::<f64>().expect("minutes") * 60.0
            + seconds.parse::<f64>().expect("seconds");
        marks.push((at, words.trim()));
    }
    let words = |text: &str| text.split(' ').filter(|word| !word.is_empty()).count() as f64;
    let whole: f64 = marks.iter().map(|(_, text)| words(text)).sum();
    let letters: f64 = marks
        .iter()
        .map(|(_, text)| text.chars().count() as f64)
        .sum();
    let lasts = |pair: &[(f64, &str)]| pair[1].0 - pair[0].0;
    let most = |of: fn(&str) -> f64| {
        marks
            .windows(2)
            .map(|pair| of(pair[0].1) / lasts(pair))
            .fold(0.0, f64::max)
    };
    let by_hand = [
        whole,
        90.0,
        whole / 90.0,
        most(|text| text.split(' ').count() as f64),
        letters / 90.0,
        most(|text| text.chars().count() as f64),
    ];
    let pace = cardamom().pace;
    let ours: Vec<f64> = pace.iter().map(|figure| figure.value).collect();
    for (ours, by_hand) in ours.iter().zip(by_hand) {
        assert!((ours - by_hand).abs() < 1e-9, "{ours} {by_hand}");
    }
    let shown: Vec<&str> = pace.iter().map(|figure| figure.shown.as_str()).collect();
    assert_eq!(
        shown,
        [
            "219 words",
            "1:30",
            "146 words a minute",
            "180 words a minute",
            "13.5 letters a second",
            "15.1 letters a second",
        ]
    );
}

#[test]
fn chapters_are_files_that_the_parser_takes() {
    let film = cardamom();
    let names: Vec<String> = film
        .chapters
        .iter()
        .map(|chapter| format!("{} {}", chapter.at, chapter.name))
        .collect();
    assert_eq!(
        names,
        [
            "0:00 Firm preferment",
            "0:16 Cooked paste",
            "0:28 Dough",
            "0:58 Knots",
            "1:10 Loaf"
        ]
    );
    let heard = webvtt_heard(&[press::captions::chapters(&film.chapters)], "chapters").remove(0);
    assert_eq!(heard["errors"], json!([]));
    let cues = heard["cues"].as_array().expect("cues");
    assert_eq!(cues[0]["from"], 0);
    assert!(cues.windows(2).all(|pair| pair[0]["to"] == pair[1]["from"]));
    assert!(
        cues.iter()
            .all(|cue| cue["to"].as_u64() >= cue["from"].as_u64().map(|from| from + 10_000))
    );
}

#[test]
fn no_caption_of_a_talk_at_an_ordinary_pace_is_too_fast() {
    let film = cardamom();
    assert!(film.captions.iter().all(|caption| !caption.is_fast()));
}

/// Counted here: at most three lines and twelve words, and the seconds that the rule gives.
#[test]
fn cards_keep_their_limits_and_the_ledgers_figures() {
    let film = cardamom();
    let words: Vec<String> = film
        .cards
        .iter()
        .map(|card| card.words().replace('\u{a0}', " "))
        .collect();
    assert_eq!(
        words[0],
        "245 g bread flour; 137 g water; 0.8 g instant yeast"
    );
    assert_eq!(
        words[2],
        "all of the firm preferment; all of the cooked paste"
    );
    assert_eq!(
        words[10],
        "175 °C / 350 °F oven; 34 min; 92 °C / 198 °F inside"
    );
    for (card, words) in film.cards.iter().zip(&words) {
        let read = words
            .split([' ', ';'])
            .filter(|word| !word.is_empty() && *word != "/");
        let many = read.clone().count() as f64;
        let numbers = read.filter(|word| word.contains(char::is_numeric)).count() as f64;
        assert!(card.lines.len() <= 3 && many <= 12.0, "{words}");
        let stands = (1.5 + 0.33 * many + 0.5 * numbers).max(3.0);
        assert!((card.stands.as_secs_f64() - stands).abs() < 1e-9, "{words}");
    }
    let at: Vec<&str> = film
        .cards
        .iter()
        .filter_map(|card| card.at.as_deref())
        .collect();
    assert_eq!(
        at,
        [
            "0:00", "0:16", "0:28", "0:32.800", "0:39.430", "0:46.390", "0:58", "1:10"
        ]
    );
}
