//! Files of captions: `WebVTT` by its parser's rules for blocks, `SubRip` by what is in use.

use super::notes::Notes;
use super::payload::{Spoken, joined, named, of_subrip, of_webvtt};
use super::time::{Form, meant_as_time, stamp};
use super::{Cue, Kind, Line, Track, code};
use recipe::source::{Diagnostic, Span};
use std::ops::Range;
use std::time::Duration;

/// Whether the file begins as `WebVTT` must.
pub(super) fn is_webvtt(lines: &[Line]) -> bool {
    lines.first().is_some_and(|line| {
        let rest = line.text.strip_prefix("WEBVTT");
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t']))
    })
}

/// Whether a line of the file has an arrow between times.
pub(super) fn is_subrip(lines: &[Line]) -> bool {
    lines.iter().any(|line| is_timing(line.text))
}

fn is_timing(line: &str) -> bool {
    let Some((before, after)) = line.split_once("-->") else {
        return false;
    };
    let after = after.split_whitespace().next().unwrap_or_default();
    [before.trim(), after]
        .into_iter()
        .any(|side| stamp(side).is_some() || meant_as_time(side))
}

/// What is counted over a whole file and said once.
struct Counts {
    kind: Kind,
    otherwise: Option<(Range<usize>, usize)>,
    /// Of those otherwise, how many are as `WebVTT` has them.
    as_webvtt: usize,
    left_out: Option<(Range<usize>, usize)>,
}

impl Counts {
    const fn of(kind: Kind) -> Self {
        Self {
            kind,
            otherwise: None,
            as_webvtt: 0,
            left_out: None,
        }
    }

    fn wants(&self, form: Form) -> bool {
        match self.kind {
            Kind::WebVtt => form.is_webvtt(),
            Kind::SubRip => form.is_subrip(),
            Kind::Text => true,
        }
    }

    fn count(counted: &mut Option<(Range<usize>, usize)>, at: Range<usize>, many: usize) {
        if many > 0 {
            counted.get_or_insert((at, 0)).1 += many;
        }
    }

    fn say(self, track: &mut Track, notes: &mut Notes) {
        track.left_out = self.left_out;
        if let Some((at, many)) = self.otherwise {
            if self.as_webvtt == many {
                notes.say(
                    Diagnostic::at(
                        code::TIME_CODE_OTHERWISE,
                        at.into(),
                        "The times are written as WebVTT has them, but the file does not begin with WEBVTT. The times were understood, but players may not take the file.",
                    )
                    .hint("Begin the file with a line WEBVTT and a blank line, or take the file that is written from this one."),
                );
                return;
            }
            let (wanted, other) = match self.kind {
                Kind::WebVtt => ("00:00:16.000", "a full stop before three digits"),
                _ => (
                    "00:00:16,000",
                    "two digits for hours and a comma before three digits",
                ),
            };
            notes.say(
                Diagnostic::at(
                    code::TIME_CODE_OTHERWISE,
                    at.into(),
                    format!(
                        "{} here {} written otherwise than {} has it: {other}. The {} understood, but players may skip the words.",
                        counted(many, "time code"),
                        if many == 1 { "is" } else { "are" },
                        self.kind.said(),
                        if many == 1 { "time was" } else { "times were" },
                    ),
                )
                .hint(format!("Write it as {wanted}, or take the file that is written from this one.")),
            );
        }
    }
}

fn counted(many: usize, what: &str) -> String {
    if many == 1 {
        format!("One {what}")
    } else {
        format!("{many} {what}s")
    }
}

/// The two times of a cue.
#[derive(Clone, Copy, Default)]
struct Times {
    from: Option<Duration>,
    to: Option<Duration>,
}

/// Reads a line with an arrow; says what cannot be read.
fn times(line: Line, counts: &mut Counts, notes: &mut Notes) -> Times {
    let Some((before, after)) = line.text.split_once("-->") else {
        return Times::default();
    };
    let from = before.trim();
    let from_at = line.at + (before.len() - before.trim_start().len());
    let to_trimmed = after.trim_start();
    let to = to_trimmed.split_whitespace().next().unwrap_or_default();
    let to_at = line.at + before.len() + 3 + (after.len() - to_trimmed.len());
    if !to_trimmed[to.len()..].trim().is_empty() {
        Counts::count(&mut counts.left_out, line.span(), 1);
    }
    let mut read = |text: &str, at: usize, which: &str| {
        let place = if text.is_empty() {
            line.span()
        } else {
            at..at + text.len()
        };
        let Some(stamp) = stamp(text) else {
            let what = if text.is_empty() {
                "is missing".to_owned()
            } else {
                format!("\u{201c}{text}\u{201d} cannot be read")
            };
            let what = format!("The time at which the cue {which}, {what}");
            notes.say(unreadable(place.into(), &what));
            return None;
        };
        if !counts.wants(stamp.form) {
            Counts::count(&mut counts.otherwise, place, 1);
            counts.as_webvtt += usize::from(counts.kind != Kind::WebVtt && stamp.form.is_webvtt());
        }
        Some(stamp.at)
    };
    Times {
        from: read(from, from_at, "begins"),
        to: read(to, to_at, "ends"),
    }
}

/// What is said of a time code that cannot be read.
pub(super) fn unreadable(place: Span, what: &str) -> Diagnostic {
    Diagnostic::at(
        code::TIME_CODE_UNREADABLE,
        place,
        format!("{what}. The words are kept, but not when they are said."),
    )
    .hint("Hours, minutes and seconds stand between colons, seconds from 00 to 59: 00:01:16.500.")
}

fn without_time(place: Span) -> Diagnostic {
    Diagnostic::at(
        code::WORDS_WITHOUT_TIME,
        place,
        "These words stand under no time code. They are kept, but a player does not show them.",
    )
    .hint(
        "Put a time code before them, or join them to the cue above by taking out the blank line.",
    )
}

fn cues(spoken: Vec<Spoken>, times: Times, span: &Range<usize>) -> impl Iterator<Item = Cue> {
    let span = span.clone();
    spoken.into_iter().map(move |(speaker, words)| Cue {
        from: times.from,
        to: times.to,
        speaker,
        ..Cue::of(words, span.clone())
    })
}

/// From the first of these lines to the last.
fn span_of(lines: &[Line]) -> Range<usize> {
    match (lines.first(), lines.last()) {
        (Some(first), Some(last)) => first.at..last.span().end,
        _ => 0..0,
    }
}

/// Reads `WebVTT`.
pub(super) fn webvtt(lines: &[Line], notes: &mut Notes) -> Track {
    let mut track = Track {
        kind: Kind::WebVtt,
        ..Track::default()
    };
    let mut counts = Counts::of(Kind::WebVtt);
    let mut next = 1;
    while let Some(line) = lines.get(next) {
        if line.text.is_empty() || line.text.contains("-->") {
            break;
        }
        if let Some((key, value)) = line.text.split_once(':')
            && key.trim().eq_ignore_ascii_case("language")
        {
            track.language = Some(value.trim().to_owned()).filter(|value| !value.is_empty());
        }
        next += 1;
    }
    while next < lines.len() {
        next = block(lines, next, &mut track, &mut counts, notes);
    }
    counts.say(&mut track, notes);
    track
}

/// Takes one block in; gives back the line after it.
fn block(
    lines: &[Line],
    start: usize,
    track: &mut Track,
    counts: &mut Counts,
    notes: &mut Notes,
) -> usize {
    let mut next = start;
    let mut body: Vec<Line> = Vec::new();
    let mut timing = None;
    while let Some(&line) = lines.get(next) {
        let count = next - start + 1;
        if line.text.contains("-->") && !no_time_at_all(line.text) {
            if count > 2 || timing.is_some() {
                break;
            }
            // What stood above is the cue's name.
            body.clear();
            timing = Some(times(line, counts, notes));
        } else if line.text.is_empty() {
            next += 1;
            break;
        } else {
            body.push(line);
        }
        next += 1;
    }
    let span = span_of(&body);
    if let Some(timing) = timing {
        let (spoken, left_out) = of_webvtt(&joined(&body));
        Counts::count(&mut counts.left_out, span.clone(), left_out);
        track.cues.extend(cues(spoken, timing, &span));
    } else if let Some(first) = body.first() {
        if is_remark(first.text, track.cues.is_empty() && body.len() > 1) {
            Counts::count(&mut counts.left_out, span, 1);
        } else {
            let (spoken, left_out) = of_webvtt(&joined(&body));
            Counts::count(&mut counts.left_out, span.clone(), left_out);
            if !spoken.is_empty() {
                notes.say(without_time(span.clone().into()));
            }
            track.cues.extend(cues(spoken, Times::default(), &span));
        }
    }
    next
}

/// An arrow between words, not between times.
fn no_time_at_all(line: &str) -> bool {
    !line.contains(|sign: char| sign.is_ascii_digit())
}

fn is_remark(first: &str, before_cues: bool) -> bool {
    let note = first.strip_prefix("NOTE");
    let note = note.is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t']));
    note || (before_cues && matches!(first.trim_end(), "STYLE" | "REGION"))
}

/// Reads `SubRip`: a number, a line of times, the words, until the next number and line of times.
pub(super) fn subrip(lines: &[Line], notes: &mut Notes) -> Track {
    let mut track = Track {
        kind: Kind::SubRip,
        ..Track::default()
    };
    let mut counts = Counts::of(Kind::SubRip);
    let timings: Vec<usize> = (0..lines.len())
        .filter(|at| is_timing(lines[*at].text))
        .collect();
    let mut number = None;
    // Where the words before a line of times end: before its number, when it has one.
    let ends: Vec<usize> = timings
        .iter()
        .map(|&timing| {
            let above = timing.checked_sub(1).map(|above| lines[above]);
            let counter = above.and_then(|line| line.text.trim().parse::<u64>().ok());
            let follows =
                counter.is_some() && counter == number.map(|number: u64| number.saturating_add(1));
            let stands_alone = timing < 2 || lines[timing - 2].is_blank();
            if counter.is_some() && (follows || stands_alone) {
                number = counter;
                timing - 1
            } else {
                timing
            }
        })
        .collect();
    let before = &lines[..ends.first().copied().unwrap_or(lines.len())];
    take_subrip(before, None, &mut track, &mut counts, notes);
    for (index, &timing) in timings.iter().enumerate() {
        let times = times(lines[timing], &mut counts, notes);
        let end = ends.get(index + 1).copied().unwrap_or(lines.len());
        take_subrip(
            &lines[timing + 1..end],
            Some(times),
            &mut track,
            &mut counts,
            notes,
        );
    }
    counts.say(&mut track, notes);
    track
}

fn take_subrip(
    lines: &[Line],
    times: Option<Times>,
    track: &mut Track,
    counts: &mut Counts,
    notes: &mut Notes,
) {
    let first = lines
        .iter()
        .position(|line| !line.is_blank())
        .unwrap_or(lines.len());
    let last = lines
        .iter()
        .rposition(|line| !line.is_blank())
        .map_or(first, |last| last + 1);
    let body = &lines[first..last];
    let span = span_of(body);
    let (words, left_out) = of_subrip(&joined(body));
    Counts::count(&mut counts.left_out, span.clone(), left_out);
    if words.text.is_empty() {
        return;
    }
    if times.is_none() {
        notes.say(without_time(span.clone().into()));
    }
    track
        .cues
        .extend(cues(vec![named(words)], times.unwrap_or_default(), &span));
}
