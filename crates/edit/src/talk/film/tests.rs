//! What the film's papers promise, on a talk of a minute and a half.

use super::super::track::read;
use super::captions::captions;
use super::{Caption, code, limits};
use recipe::source::Diagnostic;
use std::time::Duration;

fn made(talk: &str) -> (Vec<Caption>, Vec<Diagnostic>) {
    let mut diagnostics = Vec::new();
    let track = read(talk.as_bytes()).output;
    (captions(&track, &mut diagnostics), diagnostics)
}

fn shown(captions: &[Caption]) -> Vec<String> {
    let time = |at: Duration| at.as_millis();
    let one = |caption: &Caption| {
        format!(
            "{}-{} {}",
            time(caption.from),
            time(caption.to),
            caption.lines.join(" / ")
        )
    };
    captions.iter().map(one).collect()
}

#[test]
fn a_cue_is_set_in_blocks_that_share_its_time() {
    let (captions, said) = made(
        "[0:41] Then the butter, melted and cooled, in a slow stream. You want the dough at about seventy-nine \
         Fahrenheit when it's done.\n[0:50]",
    );
    let lines: Vec<String> = captions
        .iter()
        .map(|caption| caption.lines.join(" / "))
        .collect();
    assert_eq!(
        lines,
        [
            "Then the butter, melted and cooled, / in a slow stream. You want the dough",
            "at about seventy-nine Fahrenheit / when it's done.",
        ]
    );
    assert_eq!(captions[0].from, Duration::from_secs(41));
    assert_eq!(captions[1].to, Duration::from_secs(50));
    assert!(captions.windows(2).all(|pair| pair[0].to == pair[1].from));
    assert_eq!(said, []);
}

#[test]
fn a_short_caption_stays_while_nothing_follows() {
    // Wanted 2 s at least, and at most 1.5 s after the words.
    let text = "WEBVTT\n\n00:01.000 --> 00:02.000\nWait.\n\n00:10.000 --> 00:10.200\nNow.\n\n00:11.000 --> 00:14.000\nFold it once.\n";
    let (captions, _) = made(text);
    assert_eq!(
        shown(&captions),
        [
            "1000-3000 Wait.",
            "10000-11000 Now.",
            "11000-14000 Fold it once."
        ]
    );
}

#[test]
fn overlapping_cues_come_one_after_another() {
    let text = "1\n00:00:01,000 --> 00:00:06,000\nThe first stands too long.\n\n2\n00:00:04,000 --> 00:00:07,000\nThe second comes.\n";
    assert_eq!(
        shown(&made(text).0),
        [
            "1000-4000 The first stands too long.",
            "4000-7000 The second comes."
        ]
    );
}

#[test]
fn two_speakers_are_named_one_is_not() {
    let two = "[0:00] PETRA: How long?\n[0:02] OLA: An hour.\n[0:04] OLA: Or more.\n[0:06]";
    assert_eq!(
        shown(&made(two).0),
        [
            "0-2000 PETRA: How long?",
            "2000-4000 OLA: An hour.",
            "4000-6000 Or more."
        ]
    );
    assert_eq!(
        shown(&made("[0:00] PETRA: How long?\n[0:02]").0),
        ["0-2000 How long?"]
    );
}

#[test]
fn what_is_too_fast_is_said_with_the_seconds_that_it_wants() {
    let (captions, said) = made(
        "[0:28] Into the mixer: starter, paste, the rest of flour and milk.\n[0:30] Rest.\n[0:33]",
    );
    assert!(captions[0].is_too_fast());
    let said: Vec<(&str, &str, &str)> = said
        .iter()
        .map(|said| {
            (
                said.code.name,
                said.message.as_str(),
                said.hints[0].as_str(),
            )
        })
        .collect();
    assert_eq!(
        said,
        [(
            code::CAPTION_TOO_FAST.name,
            "“Into the mixer: starter, paste, the rest of flour and milk.” stands 2\u{a0}s from 0:28: 29.5 letters a second, where 15 are read in comfort.",
            "Say it in fewer words or leave 1.9\u{a0}s more for it before the next words.",
        )]
    );
}

#[test]
fn a_card_stands_as_long_as_it_takes_to_read() {
    assert_eq!(limits::card_stands(0, 0), Duration::from_secs(3));
    assert_eq!(limits::card_stands(11, 3), Duration::from_millis(6630));
}

#[test]
fn a_talk_without_its_end_goes_on_until_its_words_are_read() {
    let (captions, _) =
        made("[0:00] Flour and water.\n[0:04] Give it an hour on the rack before you cut it.");
    assert_eq!(
        shown(&captions),
        [
            "0-4000 Flour and water.",
            "4000-7666 Give it an hour on the rack / before you cut it."
        ]
    );
}
