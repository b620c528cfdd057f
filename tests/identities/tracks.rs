//! Laws of tracks: whatever the bytes, nothing falls over and nothing is lost; what is written is read again; captions keep their limits.

use crate::spoken_cues::{WORDS, cues};
use edit::ledger::model::Ledger;
use edit::talk::film::{Film, film, limits};
use edit::talk::track::{Cue, Kind, Track, read};
use edit::{Inputs, work_out};
use everyoven_tests::demos::BUNS;
use press::captions::{srt, webvtt};
use proptest::prelude::*;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use std::sync::OnceLock;
use std::time::Duration;

fn ledger() -> &'static Ledger {
    static LEDGER: OnceLock<Ledger> = OnceLock::new();
    LEDGER.get_or_init(|| {
        let recipe = read_recipe(BUNS).output.expect("the buns can be read");
        let larder = Larder::open();
        let formula = formula(&recipe, &larder).output;
        let kitchen = bake::kitchen::Kitchen::standard();
        work_out(&Inputs::new(&recipe, &formula, &larder, &kitchen))
            .output
            .1
    })
}

/// From, to, words and speaker.
type Kept = (Option<Duration>, Option<Duration>, String, Option<String>);

/// The parts of a cue that a file keeps.
fn kept(track: &Track) -> Vec<Kept> {
    let one = |cue: &Cue| (cue.from, cue.to, cue.text.clone(), cue.speaker.clone());
    track.cues.iter().map(one).collect()
}

fn track_of(cues: Vec<Cue>) -> Track {
    Track {
        cues,
        ..Track::default()
    }
}

fn letters(text: &str) -> String {
    text.chars().filter(|sign| !sign.is_whitespace()).collect()
}

/// Pieces of files of all three kinds, whole and broken, to be thrown together.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        Just("WEBVTT\n\n".to_owned()),
        Just("\u{feff}".to_owned()),
        Just("\r\n".to_owned()),
        Just("\n\n".to_owned()),
        Just("00:00:01,000 --> 00:00:02,000\n".to_owned()),
        Just("00:01.000 --> 00:0x.000 line:1\n".to_owned()),
        Just("99999:00:00.000 --> 0:1\n".to_owned()),
        Just("[0:16]".to_owned()),
        Just("[0:75]".to_owned()),
        Just("(1:02:03)".to_owned()),
        Just("<v Ä b>".to_owned()),
        Just("</v>".to_owned()),
        Just("&#x1F35E;&frac12;&#0;&nope;".to_owned()),
        Just("{\\an8}<i>".to_owned()),
        Just("NOTE ".to_owned()),
        Just("STYLE\n".to_owned()),
        Just("12\n".to_owned()),
        Just("PETRA: ".to_owned()),
        "\\PC{0,12}",
    ];
    prop::collection::vec(piece, 0..24).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_bytes_are_too_much(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let checked = read(&bytes);
        let made = film(ledger(), &checked.output, &[]);
        prop_assert!(!checked.output.cues.is_empty() || !checked.diagnostics.is_empty());
        prop_assert!(made.output.captions.len() <= 4000);
    }

    #[test]
    fn no_file_is_too_broken(text in pieces()) {
        let checked = read(text.as_bytes());
        for cue in &checked.output.cues {
            prop_assert!(checked.output.text.get(cue.span.clone()).is_some(), "{:?}", cue);
            for (at, sign) in cue.text.char_indices() {
                let place = cue.place(at..at + sign.len_utf8());
                prop_assert!(cue.span.start <= place.start && place.end <= cue.span.end);
            }
        }
        for said in &checked.diagnostics {
            for span in said.span.iter().chain(said.labels.iter().map(|label| &label.span)) {
                prop_assert!(checked.output.text.get(span.start..span.end).is_some(), "{:?}", said);
            }
        }
        let _ = film(ledger(), &checked.output, &[]);
    }

    #[test]
    fn plain_text_loses_no_letter(text in "[a-zé½°,.\\n -]{1,200}") {
        let said: String = read(text.as_bytes()).output.cues.iter().map(|cue| cue.text.clone()).collect();
        prop_assert_eq!(letters(&said), letters(&text));
    }

    #[test]
    fn webvtt_is_read_as_it_was_written(cues in cues(true)) {
        let track = track_of(cues);
        let again = read(webvtt(&track).as_bytes());
        prop_assert_eq!(again.output.kind, Kind::WebVtt);
        prop_assert_eq!(kept(&again.output), kept(&track));
        prop_assert!(again.diagnostics.is_empty(), "{:?}", again.diagnostics);
    }

    #[test]
    fn subrip_is_read_as_it_was_written(cues in cues(false)) {
        let track = track_of(cues);
        let again = read(srt(&track).as_bytes());
        prop_assert_eq!(again.output.kind, Kind::SubRip);
        prop_assert_eq!(kept(&again.output), kept(&track));
        prop_assert!(again.diagnostics.is_empty(), "{:?}", again.diagnostics);
    }

    #[test]
    fn captions_keep_their_limits_and_every_letter(cues in cues(false)) {
        let track = track_of(cues);
        let Film { captions, .. } = film(ledger(), &track, &[]).output;
        for caption in &captions {
            prop_assert!(caption.from < caption.to, "{:?}", caption);
            prop_assert!((1..=limits::LINES).contains(&caption.lines.len()), "{:?}", caption);
            for line in &caption.lines {
                prop_assert!(line.chars().count() <= limits::LINE_LETTERS, "{line}");
                prop_assert!(!line.is_empty() && line.trim() == line.as_str());
            }
        }
        prop_assert!(captions.windows(2).all(|pair| pair[0].to <= pair[1].from));
        let said: String = track.cues.iter().map(|cue| letters(&cue.text)).collect();
        let lines: Vec<&str> = captions.iter().flat_map(|caption| &caption.lines).map(String::as_str).collect();
        prop_assert_eq!(letters(&lines.concat()), said);
        // A number at the end of a line, its unit at the head of the next.
        for pair in lines.windows(2) {
            let last = pair[0].rsplit(' ').next().unwrap_or_default();
            let first = pair[1].split(' ').next().unwrap_or_default();
            let split = WORDS.iter().any(|(number, unit)| *number == last && *unit == first);
            prop_assert!(!split, "{:?}", pair);
        }
    }
}

#[test]
fn the_film_of_a_talk_is_the_same_twice() {
    let track =
        read(b"[0:00] Two cups of flour, 300 g of milk. [0:08] Mix it for four minutes. [0:12]")
            .output;
    assert_eq!(film(ledger(), &track, &[]), film(ledger(), &track, &[]));
}
