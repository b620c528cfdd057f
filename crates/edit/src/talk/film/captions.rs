//! Captions: the words of a track in blocks that can be read, each with its times.

use super::code;
use super::limits::{
    LETTERS_A_SECOND, LETTERS_A_SECOND_FAST, LETTERS_A_SECOND_TOO_FAST, SHORTEST, STAYS_AFTER,
    WORDS_A_MINUTE, WORDS_A_MINUTE_FAST, WORDS_A_MINUTE_TOO_FAST, WORDS_FOR_A_PACE,
};
use super::pace::rate;
use super::wrap::{Atom, atoms, blocks, line, spoken};
use crate::talk::track::{Cue, Notes, Track, clock};
use numerics::decimal::trimmed;
use recipe::source::{Diagnostic, Span};
use std::collections::BTreeSet;
use std::time::Duration;

/// What stands under the picture for a while.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caption {
    /// From when.
    pub from: Duration,
    /// Until when.
    pub to: Duration,
    /// Its lines, two at most.
    pub lines: Vec<String>,
    /// Where its words were said.
    pub span: Span,
}

impl Caption {
    /// Its letters, blanks counted; the line end counts as one.
    pub fn letters(&self) -> usize {
        let letters: usize = self.lines.iter().map(|line| line.chars().count()).sum();
        letters + self.lines.len().saturating_sub(1)
    }

    /// Its words.
    pub fn words(&self) -> usize {
        self.lines
            .iter()
            .map(|line| line.split_whitespace().count())
            .sum()
    }

    /// How long it stands.
    pub fn stands(&self) -> Duration {
        self.to.saturating_sub(self.from)
    }

    /// Letters a second.
    pub fn letters_a_second(&self) -> f64 {
        rate(self.letters(), self.stands())
    }

    /// Words a minute; none for so few words that they make no pace.
    pub fn words_a_minute(&self) -> Option<f64> {
        (self.words() >= WORDS_FOR_A_PACE).then(|| rate(self.words(), self.stands()) * 60.0)
    }

    /// Whether it is faster than its limits.
    pub fn is_fast(&self) -> bool {
        self.letters_a_second() > LETTERS_A_SECOND_FAST
            || self
                .words_a_minute()
                .is_some_and(|pace| pace > WORDS_A_MINUTE_FAST)
    }

    /// Whether most readers do not finish it.
    pub fn is_too_fast(&self) -> bool {
        self.letters_a_second() > LETTERS_A_SECOND_TOO_FAST
            || self
                .words_a_minute()
                .is_some_and(|pace| pace > WORDS_A_MINUTE_TOO_FAST)
    }

    /// Its words, pace and time as one line: "0:50.000 2.1 s, 21 letters a second: It rises ...".
    pub fn paced(&self) -> String {
        format!(
            "{} {}\u{a0}s, {} letters a second, {} words a minute: {}",
            clock(self.from),
            trimmed(self.stands().as_secs_f64(), 1),
            trimmed(self.letters_a_second(), 1),
            trimmed(rate(self.words(), self.stands()) * 60.0, 0),
            self.lines.join(" "),
        )
    }
}

/// Cues that begin together, with their end.
struct Group<'a> {
    from: Duration,
    to: Duration,
    cues: Vec<&'a Cue>,
}

/// The captions of a track, in the order in which they come; none overlaps another.
pub(super) fn captions(track: &Track, diagnostics: &mut Vec<Diagnostic>) -> Vec<Caption> {
    let groups = groups(track);
    let speakers: BTreeSet<&str> = track
        .cues
        .iter()
        .filter_map(|cue| cue.speaker.as_deref())
        .collect();
    let named = speakers.len() > 1;
    let mut speaker = None;
    let mut captions = Vec::new();
    for (at, group) in groups.iter().enumerate() {
        let mut words = Vec::new();
        for cue in &group.cues {
            if named && cue.speaker.is_some() && cue.speaker != speaker {
                let name = cue.speaker.as_deref().unwrap_or_default().to_uppercase();
                words.extend(atoms(&format!("{name}:")));
            }
            speaker.clone_from(&cue.speaker);
            words.extend(atoms(&cue.text));
        }
        let next = groups.get(at + 1).map(|next| next.from);
        let span = group
            .cues
            .first()
            .map(|cue| cue.span.clone().into())
            .unwrap_or_default();
        set(&words, group, next, span, &mut captions);
    }
    judge(&captions, diagnostics);
    captions
}

/// When a cue ends; where the file does not say it, when its words are read.
pub(super) fn end_of(cue: &Cue, from: Duration) -> Duration {
    let letters = cue.text.chars().count() as f64;
    let words = cue.text.split_whitespace().count() as f64;
    let seconds = (letters / LETTERS_A_SECOND).max(words * 60.0 / WORDS_A_MINUTE);
    let read = Duration::from_secs_f64(seconds).max(SHORTEST);
    // To the millisecond, as files of captions have it.
    let read = Duration::from_millis(u64::try_from(read.as_millis()).unwrap_or(u64::MAX));
    cue.to.unwrap_or(from + read)
}

fn groups(track: &Track) -> Vec<Group<'_>> {
    let mut cues: Vec<(Duration, &Cue)> = track
        .cues
        .iter()
        .filter_map(|cue| Some((cue.from?, cue)))
        .collect();
    cues.sort_by_key(|(from, _)| *from);
    let mut groups: Vec<Group> = Vec::new();
    for (from, cue) in cues {
        let end = end_of(cue, from);
        match groups.last_mut() {
            Some(last) if last.from == from => {
                last.to = last.to.max(end);
                last.cues.push(cue);
            }
            _ => {
                if let Some(last) = groups.last_mut() {
                    last.to = last.to.min(from);
                }
                groups.push(Group {
                    from,
                    to: end,
                    cues: vec![cue],
                });
            }
        }
    }
    groups
}

/// Sets a group in blocks; each has its share of the time by how long its words take to say.
fn set(
    words: &[Atom],
    group: &Group,
    next: Option<Duration>,
    span: Span,
    captions: &mut Vec<Caption>,
) {
    let lasts = group.to.saturating_sub(group.from);
    let blocks = blocks(words, lasts);
    let whole = spoken(words).max(1);
    let milliseconds = u64::try_from(lasts.as_millis()).unwrap_or(u64::MAX / (1 << 20));
    let mut said = 0;
    let mut from = group.from;
    let many = blocks.len();
    for (index, block) in blocks.into_iter().enumerate() {
        let (Some(first), Some(last)) = (block.first(), block.last()) else {
            continue;
        };
        said += spoken(&words[first.start..last.end]);
        let share = milliseconds.saturating_mul(said as u64) / whole as u64;
        let mut to =
            (group.from + Duration::from_millis(share)).max(from + Duration::from_millis(1));
        let lines: Vec<String> = block
            .iter()
            .map(|range| line(words, range.clone()))
            .collect();
        if index + 1 == many {
            to = to.max(stays(&lines, from, to, next));
        }
        captions.push(Caption {
            from,
            to,
            lines,
            span,
        });
        from = to;
    }
}

/// Until when the last block of a cue stays when its time is short and nothing follows at once.
fn stays(lines: &[String], from: Duration, to: Duration, next: Option<Duration>) -> Duration {
    let letters: usize = lines.iter().map(|line| line.chars().count() + 1).sum();
    let wanted = Duration::from_secs_f64(letters as f64 / LETTERS_A_SECOND).max(SHORTEST);
    let free = next.unwrap_or(Duration::MAX);
    // To the millisecond, as files of captions have it.
    let wanted = Duration::from_millis(u64::try_from(wanted.as_millis()).unwrap_or(u64::MAX));
    (from + wanted).min(to + STAYS_AFTER).min(free)
}

fn judge(captions: &[Caption], diagnostics: &mut Vec<Diagnostic>) {
    let mut notes = Notes::default();
    for caption in captions.iter().filter(|caption| caption.is_fast()) {
        let too = caption.is_too_fast();
        let letters = caption.letters();
        let stands = caption.stands().as_secs_f64();
        let by_letters = caption.letters_a_second() > LETTERS_A_SECOND_FAST;
        let pace = if by_letters {
            format!(
                "{} letters a second, where {} are read in comfort",
                trimmed(caption.letters_a_second(), 1),
                trimmed(LETTERS_A_SECOND, 0),
            )
        } else {
            format!(
                "{} words a minute, where more than {} are hard to read",
                trimmed(caption.words_a_minute().unwrap_or_default(), 0),
                trimmed(WORDS_A_MINUTE_FAST, 0),
            )
        };
        let wanted = (letters as f64 / LETTERS_A_SECOND)
            .max(caption.words() as f64 * 60.0 / WORDS_A_MINUTE_FAST);
        notes.say(
            Diagnostic::at(
                if too {
                    code::CAPTION_TOO_FAST
                } else {
                    code::CAPTION_FAST
                },
                caption.span,
                format!(
                    "\u{201c}{}\u{201d} stands {}\u{a0}s from {}: {pace}.",
                    caption.lines.join(" "),
                    trimmed(stands, 1),
                    clock(caption.from),
                ),
            )
            .hint(format!(
                "Say it in fewer words or leave {}\u{a0}s more for it before the next words.",
                trimmed((wanted - stands).max(0.1), 1),
            )),
        );
    }
    diagnostics.extend(notes.all());
}
