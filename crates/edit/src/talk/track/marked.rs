//! Plain text, with or without marks such as `[0:16]` before what is said then.

use super::captions::unreadable;
use super::notes::Notes;
use super::payload::named;
use super::time::{clock, meant_as_time, stamp};
use super::written::Written;
use super::{Cue, Kind, Line, Track, code};
use recipe::source::Diagnostic;
use std::ops::Range;
use std::time::Duration;

/// What a line is made of.
enum Piece<'a> {
    /// A mark; none for a time that cannot be read. A second time is that of the end.
    Mark(Option<Duration>, Option<Duration>),
    /// A mark that cannot be read, and where it stands.
    Broken(&'a str, Range<usize>),
    /// Words at a byte of the file.
    Words(&'a str, usize),
    /// The end of a line at a byte of the file.
    End(usize),
    /// A line without words.
    Blank,
}

impl Piece<'_> {
    /// The two times of a mark; none of either when it cannot be read.
    fn mark(&self) -> Option<(Option<Duration>, Option<Duration>)> {
        match self {
            Self::Mark(from, to) => Some((*from, *to)),
            Self::Broken(..) => Some((None, None)),
            _ => None,
        }
    }

    /// The time of a mark that can be read.
    fn readable(&self) -> Option<Duration> {
        self.mark().and_then(|(from, _)| from)
    }
}

/// A cue in the making.
#[derive(Default)]
struct Open {
    from: Option<Duration>,
    to: Option<Duration>,
    words: Written,
    span: Option<Range<usize>>,
}

/// Reads plain text. A mark ends the cue before it; a mark at the end with nothing after it ends the last.
pub(super) fn marked(lines: &[Line], notes: &mut Notes) -> Track {
    let mut pieces = Vec::new();
    for &line in lines {
        cut(line, &mut pieces);
    }
    broken(&pieces, notes);
    let has_marks = pieces.iter().any(|piece| piece.mark().is_some());
    let mut track = Track {
        kind: Kind::Text,
        ..Track::default()
    };
    let mut open = Open::default();
    let mut seen_mark = false;
    for piece in pieces {
        if let Some((from, to)) = piece.mark() {
            let next = Open {
                from,
                to,
                ..Open::default()
            };
            let mut done = std::mem::replace(&mut open, next);
            if seen_mark {
                // Out of order is said of the cues; a cue does not end before it begins because of it.
                let ends = from.filter(|from| done.from.is_some_and(|begin| begin < *from));
                done.to = done.to.or(ends);
            }
            close(done, has_marks && !seen_mark, &mut track, notes);
            seen_mark = true;
            continue;
        }
        match piece {
            Piece::Mark(..) | Piece::Broken(..) => {}
            Piece::Words(words, at) => {
                open.words.push(words, at);
                let end = at + words.len();
                open.span.get_or_insert(at..end).end = end;
            }
            Piece::End(at) => open.words.push("\n", at),
            Piece::Blank if has_marks => {}
            Piece::Blank => close(std::mem::take(&mut open), false, &mut track, notes),
        }
    }
    close(open, has_marks && !seen_mark, &mut track, notes);
    track
}

/// Says which marks cannot be read, and between which others they stand.
fn broken(pieces: &[Piece], notes: &mut Notes) {
    let mut next = None;
    let mut nexts: Vec<Option<Duration>> = Vec::with_capacity(pieces.len());
    for piece in pieces.iter().rev() {
        nexts.push(next);
        next = piece.readable().or(next);
    }
    let mut before = None;
    for (piece, after) in pieces.iter().zip(nexts.into_iter().rev()) {
        before = piece.readable().or(before);
        let Piece::Broken(mark, place) = piece else {
            continue;
        };
        let around = match (before, after) {
            (Some(before), Some(after)) => {
                format!(", between {} and {},", clock(before), clock(after))
            }
            (Some(before), None) => format!(", after {},", clock(before)),
            (None, Some(after)) => format!(", before {},", clock(after)),
            (None, None) => String::new(),
        };
        let what = format!("The mark {mark}{around} cannot be read");
        notes.say(unreadable(place.clone().into(), &what));
    }
}

fn close(open: Open, without_time: bool, track: &mut Track, notes: &mut Notes) {
    let (Some(span), words) = (open.span, open.words.tidy()) else {
        return;
    };
    if words.text.is_empty() {
        return;
    }
    if without_time {
        notes.say(
            Diagnostic::at(
                code::WORDS_WITHOUT_TIME,
                span.clone().into(),
                "These words stand before the first mark: they are read as said, but not when.",
            )
            .hint(
                "Put [0:00] before them if they are said, or take them out if they are a heading.",
            ),
        );
    }
    let (speaker, words) = named(words);
    track.cues.push(Cue {
        from: open.from,
        to: open.to,
        speaker,
        ..Cue::of(words, span)
    });
}

/// Cuts a line at its marks.
fn cut<'a>(line: Line<'a>, pieces: &mut Vec<Piece<'a>>) {
    // Signs of quotation, and of another speaker in some transcripts.
    let body = line.text.trim_start_matches(['>', ' ', '\t']);
    let start = line.at + (line.text.len() - body.len());
    if body.trim().is_empty() {
        pieces.push(Piece::Blank);
        return;
    }
    if let Some(at) = stamp(body.trim()).map(|stamp| stamp.at) {
        // A line that is a time and nothing else, as players copy their transcripts.
        pieces.push(Piece::Mark(Some(at), None));
        return;
    }
    let mut done = 0;
    let mut from = 0;
    while let Some((mark, inside)) = bracket(body, from) {
        from = mark.end;
        let read = times(inside);
        if read.is_none() && !meant_as_time(inside.trim()) {
            continue;
        }
        if mark.start > done {
            pieces.push(Piece::Words(&body[done..mark.start], start + done));
        }
        pieces.push(match read {
            Some((begin, end)) => Piece::Mark(begin, end),
            None => Piece::Broken(&body[mark.clone()], start + mark.start..start + mark.end),
        });
        done = mark.end;
    }
    if done < body.len() {
        pieces.push(Piece::Words(&body[done..], start + done));
    }
    pieces.push(Piece::End(line.span().end));
}

/// The next square bracket from a byte on, or a round one at the beginning of the line; with what is in it.
fn bracket(body: &str, from: usize) -> Option<(Range<usize>, &str)> {
    let (at, closing) = if from == 0 && body.starts_with('(') {
        (0, ')')
    } else {
        (from + body[from..].find('[')?, ']')
    };
    let end = at + 1 + body[at + 1..].find(closing)?;
    Some((at..end + 1, &body[at + 1..end]))
}

/// "0:16", or "0:16–0:28".
fn times(inside: &str) -> Option<(Option<Duration>, Option<Duration>)> {
    let mut parts = inside
        .split(['-', '–', '—', '>'])
        .map(str::trim)
        .filter(|part| !part.is_empty());
    let from = stamp(parts.next()?)?.at;
    let to = match parts.next() {
        Some(to) => Some(stamp(to)?.at),
        None => None,
    };
    parts.next().is_none().then_some((Some(from), to))
}
