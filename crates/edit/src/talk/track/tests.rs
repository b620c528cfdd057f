//! What the reader of tracks promises, on small files.

use super::{Cue, Kind, clock, read};
use recipe::source::Checked;
use std::time::Duration;

fn said(bytes: &[u8]) -> (Vec<String>, Vec<&'static str>) {
    let Checked {
        output,
        diagnostics,
    } = read(bytes);
    let time = |at: Option<Duration>| at.map_or("?".to_owned(), clock);
    let cues = output.cues.iter().map(|cue| {
        let who = cue
            .speaker
            .as_ref()
            .map_or(String::new(), |who| format!("{who}: "));
        format!(
            "{}-{} {who}{}",
            time(cue.from),
            time(cue.to),
            cue.text.replace('\n', " / ")
        )
    });
    (
        cues.collect(),
        diagnostics.iter().map(|said| said.code.name).collect(),
    )
}

fn clean(text: &str, wanted: &[&str]) {
    let (cues, codes) = said(text.as_bytes());
    assert_eq!(cues, wanted);
    assert_eq!(codes, [""; 0]);
}

#[test]
fn marks_cut_plain_text_and_a_last_mark_ends_it() {
    clean(
        "> [0:00] Last night I stirred it up.\n> Twelve hours.\n\n> [0:16] This morning, the paste.\n> [0:28]\n",
        &[
            "0:00-0:16 Last night I stirred it up. / Twelve hours.",
            "0:16-0:28 This morning, the paste.",
        ],
    );
    clean(
        "[0:00] one [0:05] two [0:02:03.5] three",
        &["0:00-0:05 one", "0:05-2:03.500 two", "2:03.500-? three"],
    );
    clean(
        "[0:00 – 0:04] PETRA: Good morning.",
        &["0:00-0:04 PETRA: Good morning."],
    );
    clean(
        "0:00\nGood morning.\n0:04\nFlour [see below] first.",
        &["0:00-0:04 Good morning.", "0:04-? Flour [see below] first."],
    );
}

#[test]
fn text_without_marks_is_cut_at_its_paragraphs() {
    clean(
        "Mix flour\nand water.\n\nRest 20 min.",
        &["?-? Mix flour / and water.", "?-? Rest 20 min."],
    );
    let heading = said(b"The cardamom dough\n\n[0:00] Good morning.\n[0:03]");
    assert_eq!(
        heading.0,
        ["?-? The cardamom dough", "0:00-0:03 Good morning."]
    );
    assert_eq!(heading.1, ["words-without-time"]);
}

#[test]
fn a_broken_mark_keeps_its_words() {
    let (cues, codes) = said(b"[0:00] one [0:7] two [0:1O] three [0:20] four [0:75] five");
    assert_eq!(
        cues,
        [
            "0:00-? one",
            "?-? two",
            "?-? three",
            "0:20-? four",
            "?-? five"
        ]
    );
    assert_eq!(codes, ["time-code-unreadable"; 3]);
}

#[test]
fn subrip_is_read_with_its_numbers_tags_and_names() {
    clean(
        "1\r\n00:00:00,000 --> 00:00:02,500\r\nPETRA: Flour,\r\nthen water.\r\n\r\n2\r\n00:00:03,000 --> 00:00:04,000\r\n350\r\n",
        &["0:00-0:02.500 PETRA: Flour, / then water.", "0:03-0:04 350"],
    );
    let (cues, codes) = said(b"1\n0:00:01.5 --> 00:00:02,000 X1:3\n<i>Mix</i> {\\an8}it.\n2\n00:00:03,000-->00:00:04,000\n1 < 2\n");
    assert_eq!(cues, ["0:01.500-0:02 Mix it.", "0:03-0:04 1 < 2"]);
    assert_eq!(codes, ["time-code-otherwise"]);
}

#[test]
fn webvtt_is_read_by_its_blocks() {
    clean(
        "WEBVTT - talk\nKind: captions\nLanguage: en\n\nfirst\n00:00.000 --> 00:02.000\n<v Petra Lund>Flour &amp; water,\nnot <b a lot.\n\n00:00:03.000 --> 00:00:04.000\n&#189; &lt;cup&gt;",
        &[
            "0:00-0:02 Petra Lund: Flour & water, / not <b a lot.",
            "0:03-0:04 ½ <cup>",
        ],
    );
}

#[test]
fn what_a_webvtt_player_drops_is_kept_and_said() {
    let text = "WEBVTT\n\nSTYLE\n::cue { color: red }\n\nNOTE a remark\n\n00:00.000 --> 00:01.000 line:0\n<i>one</i> <00:00.500>two\n\nlost words\n\n00:02,000 --> 00:03.000\nthree\n00:03.000 --> 00:0x.000\nfour\n";
    let (cues, codes) = said(text.as_bytes());
    assert_eq!(
        cues,
        [
            "0:00-0:01 one two",
            "?-? lost words",
            "0:02-0:03 three",
            "0:03-? four"
        ]
    );
    assert_eq!(
        codes,
        [
            "words-without-time",
            "time-code-otherwise",
            "time-code-unreadable"
        ]
    );
}

#[test]
fn two_voices_of_one_cue_are_two_cues_and_no_overlap() {
    clean(
        "WEBVTT\n\n00:00.000 --> 00:02.000\n<v Petra>How long?</v>\n<v Ola>An hour.</v>\n\n00:02.000 --> 00:03.000\nGood.",
        &[
            "0:00-0:02 Petra: How long?",
            "0:00-0:02 Ola: An hour.",
            "0:02-0:03 Good.",
        ],
    );
}

#[test]
fn times_that_cannot_be_are_named_with_both_places() {
    let text = "1\n00:00:01,000 --> 00:00:05,000\none\n\n2\n00:00:04,000 --> 00:00:03,000\ntwo\n\n3\n00:00:02,000 --> 00:00:02,500\nthree\n";
    let checked = read(text.as_bytes());
    let said: Vec<_> = checked
        .diagnostics
        .iter()
        .map(|said| (said.code.name, said.message.as_str()))
        .collect();
    assert_eq!(
        said,
        [
            (
                "cue-ends-before-start",
                "“two …” ends before it begins: from 00:00:04,000 to 00:00:03,000. Its beginning is kept."
            ),
            (
                "cues-overlap",
                "“two …” begins at 00:00:04,000, when the words before it still stand until 00:00:05,000."
            ),
            (
                "cues-out-of-order",
                "“three …” begins at 00:00:02,000, but stands after words that begin at 00:00:04,000."
            ),
        ]
    );
    assert_eq!(checked.diagnostics[1].labels.len(), 1);
}

#[test]
fn an_hour_of_silence_is_asked_about() {
    // A mark says when something begins, not that it goes on until the next.
    let (_, codes) = said(b"[0:00] Mix. [0:04] Knead. [1:04:00] Bake. [1:04:10]");
    assert_eq!(codes, [""; 0]);
    let (_, codes) = said(b"WEBVTT\n\n00:00.000 --> 30:00.000\nWe wait.\n");
    assert_eq!(codes, ["long-silence"]);
    let (_, codes) = said(b"WEBVTT\n\n01:00:00.000 --> 01:00:02.000\nBake.\n");
    assert_eq!(codes, ["long-silence"]);
    let (_, codes) = said(b"WEBVTT\n\n04:59.000 --> 05:02.000\nBake.\n");
    assert_eq!(codes, [""; 0]);
}

#[test]
fn files_in_other_encodings_are_read_and_it_is_said() {
    let text = "[0:00] Bake at 180 °C, ½ hour.";
    let le: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let be: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
    let latin: Vec<u8> = text
        .chars()
        .map(|sign| u8::try_from(u32::from(sign)).expect("Latin-1"))
        .collect();
    let with_mark = |mark: &[u8], body: &[u8]| [mark, body].concat();
    let wanted = ["0:00-? Bake at 180 °C, ½ hour."];
    for (bytes, code) in [
        (with_mark(&[0xef, 0xbb, 0xbf], text.as_bytes()), None),
        (with_mark(&[0xff, 0xfe], &le), Some("track-encoding-other")),
        (with_mark(&[0xfe, 0xff], &be), Some("track-encoding-other")),
        (le, Some("track-encoding-other")),
        (be, Some("track-encoding-other")),
        (latin, Some("track-encoding-guessed")),
    ] {
        let (cues, codes) = said(&bytes);
        assert_eq!(cues, wanted);
        assert_eq!(codes, code.into_iter().collect::<Vec<_>>());
    }
    let quotes = said(b"[0:00] It\x92s 180 \xb0C.");
    assert_eq!(quotes.0, ["0:00-? It’s 180 °C."]);
}

#[test]
fn nothing_and_a_film_are_no_talk() {
    for bytes in [
        &b""[..],
        b"\n \n",
        b"WEBVTT\n\n",
        b"\xef\xbb\xbf",
        b"[0:00]\n",
    ] {
        assert_eq!(said(bytes), (vec![], vec!["track-empty"]), "{bytes:?}");
    }
    let film: Vec<u8> = (0..4000_u32)
        .map(|at| u8::try_from(at * 7919 % 251).unwrap_or(0))
        .collect();
    let (cues, codes) = said(&film);
    assert_eq!(cues, [""; 0]);
    assert!(
        codes.contains(&"track-not-text") && !codes.contains(&"track-empty"),
        "{codes:?}"
    );
}

#[test]
fn sounds_alone_are_kept_but_nothing_is_spoken() {
    let text = "1\n00:00:00,000 --> 00:00:04,000\n[whisk on glass]\n\n2\n00:00:04,000 --> 00:00:08,000\n♪ a song of dough ♪\n";
    let (cues, codes) = said(text.as_bytes());
    assert_eq!(cues.len(), 2);
    assert_eq!(codes, ["track-empty"]);
    let (_, codes) = said(b"[0:00] [whisk on glass] Mix it. [0:04]");
    assert_eq!(codes, [""; 0]);
}

#[test]
fn a_file_cut_in_a_letter_is_utf_8_all_the_same() {
    let (cues, codes) = said(b"[0:00] \xc2\xbd cup at 45 \xc2");
    assert_eq!(cues, ["0:00-? ½ cup at 45 \u{fffd}"]);
    assert_eq!(codes, ["track-encoding-guessed"]);
}

#[test]
fn rolling_captions_are_said_once() {
    let mut text = String::from("WEBVTT\n\n");
    let lines = [
        "we begin with flour",
        "five hundred grams of it",
        "then the water goes in",
        "and a little salt on top",
        "mix it for four minutes",
    ];
    for (at, line) in lines.iter().enumerate() {
        let before = at
            .checked_sub(1)
            .map_or(" ".to_owned(), |before| lines[before].to_owned());
        text += &format!(
            "00:0{at}.000 --> 00:0{at}.900\n{before}\n{line}\n\n00:0{at}.900 --> 00:0{at}.910\n{line}\n \n\n"
        );
    }
    let (cues, codes) = said(text.as_bytes());
    assert_eq!(codes, ["captions-roll"]);
    let words: Vec<&str> = cues
        .iter()
        .map(|cue| cue.split_once(' ').expect("a time").1)
        .collect();
    assert_eq!(words, lines);
    assert!(cues[0].starts_with("0:00-0:00.910 "), "{}", cues[0]);
}

#[test]
fn two_who_say_the_same_do_not_roll() {
    let mut text = String::from("WEBVTT\n");
    for at in 0..10 {
        let who = ["Ana", "Bea"][at % 2];
        text += &format!("\n00:0{at}.000 --> 00:0{at}.900\n<v {who}>Stretch and fold it.</v>\n");
    }
    let (cues, codes) = said(text.as_bytes());
    assert_eq!((cues.len(), codes), (10, vec![]));
}

#[test]
fn every_word_knows_its_place_in_the_file() {
    let text = "\u{feff}WEBVTT\n\n00:00.000 --> 00:02.000\n<v Petra>Flour &amp; water,\n  then <b>two</b> eggs.\n";
    let track = read(text.as_bytes()).output;
    let Cue { text: words, .. } = &track.cues[0];
    assert_eq!(
        (track.kind, words.as_str()),
        (Kind::WebVtt, "Flour & water,\nthen two eggs.")
    );
    for word in ["Flour", "water", "then", "two", "eggs."] {
        let at = words.find(word).expect("the word");
        assert_eq!(&text[track.cues[0].place(at..at + word.len())], word);
    }
}
