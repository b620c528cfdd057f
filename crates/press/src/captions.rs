//! Tracks as files: `SubRip` and `WebVTT`, and chapters as `WebVTT`.
//!
//! `WebVTT`: W3C, "`WebVTT`: The Web Video Text Tracks Format" (read), as its syntax for authors has it: UTF-8, starts
//! that never go back, `&`, `<` and `>` written as references. `SubRip` has no standard: a number, a comma before
//! thousandths (common practice).

use edit::talk::film::Chapter;
use edit::talk::track::{Cue, Track};
use std::time::Duration;

/// A track as `SubRip`. Cues without both times are not in it; a speaker stands before the words in capitals.
pub fn srt(track: &Track) -> String {
    let mut out = String::new();
    for (number, cue) in timed(track).into_iter().enumerate() {
        let words = words(&cue.text).replace("-->", "→");
        let speaker = cue
            .speaker
            .as_deref()
            .map(name)
            .filter(|name| !name.is_empty());
        let speaker = speaker.map_or(String::new(), |name| format!("{}: ", name.to_uppercase()));
        let said = without_tags(&format!("{speaker}{words}"));
        out.push_str(&format!(
            "{}\n{} --> {}\n{said}\n\n",
            number + 1,
            clock(cue.from, ','),
            clock(cue.to, ','),
        ));
    }
    out
}

/// A track as `WebVTT`. Cues without both times are not in it.
pub fn webvtt(track: &Track) -> String {
    let mut out = String::from("WEBVTT\n");
    for cue in timed(track) {
        let words = escaped(&words(&cue.text));
        let speaker = cue
            .speaker
            .as_deref()
            .map(name)
            .filter(|name| !name.is_empty());
        let voiced = match speaker {
            Some(name) => format!("<v {}>{words}</v>", escaped(&name)),
            None => words,
        };
        out.push_str(&format!(
            "\n{} --> {}\n{voiced}\n",
            clock(cue.from, '.'),
            clock(cue.to, '.'),
        ));
    }
    out
}

/// Chapters as `WebVTT`, for a `track` element of the kind "chapters": plain text, one line each.
pub fn chapters(chapters: &[Chapter]) -> String {
    let mut out = String::from("WEBVTT\n");
    for (at, chapter) in chapters.iter().enumerate() {
        out.push_str(&format!(
            "\n{}\n{} --> {}\n{}\n",
            at + 1,
            clock(Some(chapter.from), '.'),
            clock(Some(chapter.to), '.'),
            escaped(&one_line(&chapter.name)),
        ));
    }
    out
}

/// Cues that have words, a beginning and a later end, in the order of their beginnings.
fn timed(track: &Track) -> Vec<&Cue> {
    let has_both = |cue: &&Cue| {
        cue.from.zip(cue.to).is_some_and(|(from, to)| to > from) && !words(&cue.text).is_empty()
    };
    let mut cues: Vec<&Cue> = track.cues.iter().filter(has_both).collect();
    cues.sort_by_key(|cue| cue.from);
    cues
}

/// "00:01:02.345" with the sign that the kind of file wants before thousandths.
fn clock(at: Option<Duration>, sign: char) -> String {
    let at = at.unwrap_or_default();
    let seconds = at.as_secs();
    let (h, m, s) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    format!("{h:02}:{m:02}:{s:02}{sign}{:03}", at.subsec_millis())
}

/// The lines of a cue without blank ones, which would end it, and without control characters, which no player
/// shows and of which `WebVTT` makes other letters.
fn words(text: &str) -> String {
    let shown = |line: &str| -> String {
        let signs = line
            .chars()
            .map(|sign| if sign == '\t' { ' ' } else { sign });
        signs.filter(|sign| !sign.is_control()).collect()
    };
    let lines = text
        .split(['\n', '\r'])
        .map(|line| shown(line).trim().to_owned())
        .filter(|line| !line.is_empty());
    lines.collect::<Vec<_>>().join("\n")
}

fn one_line(text: &str) -> String {
    let shown: String = text
        .chars()
        .map(|sign| if sign.is_control() { ' ' } else { sign })
        .collect();
    shown.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A speaker's name; two hyphens before the end of its tag, or before a bracket, would make an arrow, which
/// ends a cue.
fn name(text: &str) -> String {
    one_line(text).replace("--", "–")
}

/// `SubRip` knows no way to write a bracket that begins no tag, and players leave out what looks like one
/// (common practice): a blank after the bracket keeps the words in sight.
fn without_tags(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        out.push(sign);
        let opens = match sign {
            '<' => signs
                .peek()
                .is_some_and(|next| next.is_alphabetic() || *next == '/'),
            '{' => signs.peek() == Some(&'\\'),
            _ => false,
        };
        if opens {
            out.push(' ');
        }
    }
    out
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::{chapters, srt, webvtt};
    use edit::talk::film::Chapter;
    use edit::talk::track::{Cue, Track};
    use std::time::Duration;

    fn track() -> Track {
        let cue = |from: u64, to: u64, text: &str, speaker: Option<&str>| Cue {
            from: Some(Duration::from_millis(from)),
            to: Some(Duration::from_millis(to)),
            text: text.to_owned(),
            speaker: speaker.map(str::to_owned),
            ..Cue::default()
        };
        Track {
            cues: vec![
                cue(
                    3_600_500,
                    3_602_000,
                    "Flour & water,\n\nless than <1 g>.",
                    Some("Petra Lund"),
                ),
                cue(0, 2000, "Good morning.", None),
                Cue {
                    text: "no time".to_owned(),
                    ..Cue::default()
                },
            ],
            ..Track::default()
        }
    }

    #[test]
    fn a_track_is_written_as_players_want_it() {
        assert_eq!(
            srt(&track()),
            "1\n00:00:00,000 --> 00:00:02,000\nGood morning.\n\n\
             2\n01:00:00,500 --> 01:00:02,000\nPETRA LUND: Flour & water,\nless than <1 g>.\n\n"
        );
        assert_eq!(
            webvtt(&track()),
            "WEBVTT\n\n00:00:00.000 --> 00:00:02.000\nGood morning.\n\n\
             01:00:00.500 --> 01:00:02.000\n<v Petra Lund>Flour &amp; water,\nless than &lt;1 g&gt;.</v>\n"
        );
    }

    #[test]
    fn words_that_look_like_a_tag_stay_words() {
        let said = super::without_tags("salt <b>, {\\an8} </i> <<i> {a} 1<2");
        assert_eq!(said, "salt < b>, { \\an8} < /i> << i> {a} 1<2");
    }

    #[test]
    fn chapters_are_lines_of_plain_text() {
        let chapter = Chapter {
            from: Duration::ZERO,
            to: Duration::from_secs(16),
            at: "0:00".to_owned(),
            name: "Firm preferment & paste".to_owned(),
        };
        assert_eq!(
            chapters(&[chapter]),
            "WEBVTT\n\n1\n00:00:00.000 --> 00:00:16.000\nFirm preferment &amp; paste\n"
        );
    }
}
