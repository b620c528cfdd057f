//! What is wrong with the times of a track, and lines that are said again and again.

use super::notes::Notes;
use super::time::{clock, length, written};
use super::{Cue, Kind, Track, code};
use recipe::source::Diagnostic;
use std::time::Duration;

/// So long a silence is asked about. Our own choice: no scene of hands at work lasts so long without a word.
const SILENCE: Duration = Duration::from_mins(5);

/// Fewer words a minute than this in a long cue, and most of it is silence. Our own choice; talk has
/// 100 and more.
const FEW_WORDS_A_MINUTE: u64 = 20;

/// Looks a track over.
pub(super) fn check(track: &mut Track, notes: &mut Notes) {
    if track.kind != Kind::Text {
        unroll(track, notes);
    }
    unspoken(track, notes);
    ends(track, notes);
    order(track, notes);
    silences(track, notes);
}

/// Says when nothing is spoken: no cue at all, or sounds alone.
fn unspoken(track: &Track, notes: &mut Notes) {
    if track.cues.iter().any(|cue| is_spoken(&cue.text)) {
        return;
    }
    let message = if track.cues.is_empty() {
        "The file is empty: not a word is spoken in it."
    } else {
        "Nothing is spoken in it: its cues tell of sounds and music alone."
    };
    notes.say(
        Diagnostic::whole(code::TRACK_EMPTY, message)
            .hint("Write what is said into it: plain text, with marks such as [0:16] before what is said then."),
    );
}

/// Whether a cue has words besides sounds, which stand in brackets or between notes of music.
fn is_spoken(text: &str) -> bool {
    let mut depth = 0_usize;
    let mut sung = false;
    let mut spoken = false;
    for sign in text.chars() {
        match sign {
            '[' | '(' => depth += 1,
            ']' | ')' => depth = depth.saturating_sub(1),
            '♪' | '♫' => sung = !sung,
            _ if depth == 0 && !sung && sign.is_alphanumeric() => spoken = true,
            _ => {}
        }
    }
    spoken
}

/// The first words of a cue, to be recognised by.
fn begins(cue: &Cue) -> String {
    let line = cue.line();
    let mut words: Vec<&str> = line.split_whitespace().take(6).collect();
    while words.len() > 1 && words.iter().map(|word| word.len() + 1).sum::<usize>() > 48 {
        words.pop();
    }
    let first: String = words.join(" ").chars().take(48).collect();
    format!(
        "\u{201c}{} …\u{201d}",
        first.trim_end_matches(['.', ',', ';', ':'])
    )
}

/// A cue that ends before it begins keeps its beginning.
fn ends(track: &mut Track, notes: &mut Notes) {
    let kind = track.kind;
    for cue in &mut track.cues {
        let (Some(from), Some(to)) = (cue.from, cue.to) else {
            continue;
        };
        if to > from {
            continue;
        }
        let what = if to == from {
            "the moment it begins"
        } else {
            "before it begins"
        };
        notes.say(
            Diagnostic::at(
                code::CUE_ENDS_BEFORE_START,
                cue.span.clone().into(),
                format!(
                    "{} ends {what}: from {} to {}. Its beginning is kept.",
                    begins(cue),
                    written(from, kind),
                    written(to, kind),
                ),
            )
            .hint("Look at both times: one of them has a slip, or they stand the wrong way round."),
        );
        cue.to = None;
    }
}

fn order(track: &Track, notes: &mut Notes) {
    let clock = |at: Duration| written(at, track.kind);
    let mut before: Option<&Cue> = None;
    for cue in &track.cues {
        let Some(from) = cue.from else { continue };
        if let Some(last) = before
            && let Some(begun) = last.from
        {
            if from < begun {
                notes.say(
                    Diagnostic::at(
                        code::CUES_OUT_OF_ORDER,
                        cue.span.clone().into(),
                        format!(
                            "{} begins at {}, but stands after words that begin at {}.",
                            begins(cue),
                            clock(from),
                            clock(begun),
                        ),
                    )
                    .label(last.span.clone().into(), format!("from {}", clock(begun)))
                    .hint("Put the cues in the order in which they are said, or mend the time."),
                );
                continue;
            }
            // Two people at once are one cue of the file.
            let together = last.span == cue.span;
            if let Some(to) = last.to.filter(|to| from < *to && !together) {
                notes.say(
                    Diagnostic::at(
                        code::CUES_OVERLAP,
                        cue.span.clone().into(),
                        format!(
                            "{} begins at {}, when the words before it still stand until {}.",
                            begins(cue),
                            clock(from),
                            clock(to),
                        ),
                    )
                    .label(last.span.clone().into(), format!("until {}", clock(to)))
                    .hint(format!("End the cue before it at {}.", clock(from))),
                );
            }
        }
        before = Some(cue);
    }
}

fn silences(track: &Track, notes: &mut Notes) {
    let mut said_until = Duration::ZERO;
    for cue in &track.cues {
        let Some(from) = cue.from else { continue };
        if from >= said_until + SILENCE {
            notes.say(
                Diagnostic::at(
                    code::LONG_SILENCE,
                    cue.span.clone().into(),
                    format!(
                        "Silence from {} to {}: nothing is said for {}.",
                        clock(said_until),
                        clock(from),
                        length(from.saturating_sub(said_until)),
                    ),
                )
                .hint("Look whether a part of the talk is missing, or whether the film was cut and its times are old."),
            );
        }
        // A mark in a text says when something begins, not that words fill the time to the next.
        if let Some(to) = cue.to.filter(|_| track.kind != Kind::Text) {
            let lasts = to.saturating_sub(from);
            let words = cue.text.split_whitespace().count() as u64;
            if lasts >= SILENCE && words * 60 < FEW_WORDS_A_MINUTE * lasts.as_secs() {
                notes.say(
                    Diagnostic::at(
                        code::LONG_SILENCE,
                        cue.span.clone().into(),
                        format!(
                            "From {} to {} only {words} words are said in {}.",
                            clock(from),
                            clock(to),
                            length(lasts),
                        ),
                    )
                    .hint("Look whether a mark or a cue is missing between the two."),
                );
            }
        }
        said_until = said_until.max(cue.to.unwrap_or(from));
    }
}

/// Captions made by a machine often roll: each cue says the line before it once more and adds one.
/// What was said once is kept once. Who says what another has just said speaks, and does not roll.
fn unroll(track: &mut Track, notes: &mut Notes) {
    let repeats = |pair: &&[Cue]| {
        let last = pair[0].text.lines().next_back();
        last.is_some()
            && pair[1].text.lines().next() == last
            && pair[1].text.len() > 12
            && pair[0].speaker == pair[1].speaker
    };
    let rolling = track.cues.windows(2).filter(repeats).count();
    if rolling < 4 || rolling * 5 < track.cues.len() * 2 {
        return;
    }
    let mut kept: Vec<Cue> = Vec::new();
    let mut last_line = String::new();
    let mut last_speaker = None;
    for mut cue in std::mem::take(&mut track.cues) {
        let again = !last_line.is_empty()
            && cue.text.lines().next() == Some(last_line.as_str())
            && cue.speaker == last_speaker;
        cue.text
            .lines()
            .next_back()
            .unwrap_or_default()
            .clone_into(&mut last_line);
        last_speaker.clone_from(&cue.speaker);
        if again {
            let (text, places) = cue.without_first_line();
            cue.text = text;
            cue.places = places;
        }
        if cue.text.is_empty() {
            if let Some(before) = kept.last_mut() {
                before.to = before.to.max(cue.to);
            }
        } else {
            if let Some(before) = kept.last_mut()
                && let (Some(to), Some(from)) = (before.to, cue.from)
                && from < to
                && before.from.is_some_and(|begun| begun < from)
            {
                before.to = Some(from);
            }
            kept.push(cue);
        }
    }
    track.cues = kept;
    notes.say(
        Diagnostic::whole(
            code::CAPTIONS_ROLL,
            format!("Each cue says the line before it once more ({rolling} times): what is said once was taken once."),
        )
        .hint("The files that are written from it have every line once."),
    );
}
