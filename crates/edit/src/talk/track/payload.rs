//! The words of a cue without its tags, and who speaks them.
//!
//! `WebVTT`: the standard's cue text tokenizer (read); a bracket that opens none of its tags is kept as it
//! is written, where a player would drop it. `SubRip`: the tags in use (common practice).

use super::Line;
use super::time::stamp;
use super::written::Written;
use std::ops::Range;

/// Words of one speaker.
pub(super) type Spoken = (Option<String>, Written);

/// Lines of a file as one text.
pub(super) fn joined(lines: &[Line]) -> Written {
    let mut out = Written::default();
    for (index, line) in lines.iter().enumerate() {
        if index > 0 {
            out.push("\n", line.at.saturating_sub(1));
        }
        out.push(line.text, line.at);
    }
    out
}

/// The words of a `WebVTT` cue by their speakers, and how many tags were left out.
pub(super) fn of_webvtt(raw: &Written) -> (Vec<Spoken>, usize) {
    let mut spoken: Vec<Spoken> = vec![(None, Written::default())];
    let mut left_out = 0;
    let mut at = 0;
    while at < raw.text.len() {
        let rest = &raw.text[at..];
        let plain = rest.find(['<', '&']).unwrap_or(rest.len());
        let current = spoken.len() - 1;
        spoken[current].1.push_part(raw, at..at + plain);
        at += plain;
        let rest = &raw.text[at..];
        if rest.is_empty() {
            break;
        }
        if let Some((sign, length)) = reference(rest) {
            spoken[current]
                .1
                .push(sign.encode_utf8(&mut [0; 4]), raw.file(at));
            at += length;
        } else if let Some((tag, length)) = webvtt_tag(rest) {
            match tag {
                Tag::Voice(name) => spoken.push((name, Written::default())),
                Tag::LeftOut { opens } => left_out += usize::from(opens),
            }
            at += length;
        } else {
            spoken[current].1.push_part(raw, at..at + 1);
            at += 1;
        }
    }
    let mut out: Vec<Spoken> = Vec::new();
    for (speaker, words) in spoken {
        let words = words.tidy();
        if words.text.is_empty() {
            continue;
        }
        match out.last_mut() {
            Some((last, before)) if *last == speaker => {
                before.push("\n", words.file(0).saturating_sub(1));
                before.push_part(&words, 0..words.text.len());
            }
            _ => out.push((speaker, words)),
        }
    }
    (out, left_out)
}

enum Tag {
    /// Who speaks from here on.
    Voice(Option<String>),
    /// A look, a language, a time within the words.
    LeftOut { opens: bool },
}

/// A tag of `WebVTT` at the beginning of a text, and its length.
fn webvtt_tag(text: &str) -> Option<(Tag, usize)> {
    let inside = text.strip_prefix('<')?;
    let end = inside.find('>')?;
    let inside = &inside[..end];
    let length = end + 2;
    if stamp(inside).is_some() {
        return Some((Tag::LeftOut { opens: true }, length));
    }
    let (closes, body) = match inside.strip_prefix('/') {
        Some(body) => (true, body),
        None => (false, inside),
    };
    let name_end = body.find(['.', ' ', '\t', '\n']).unwrap_or(body.len());
    let (name, after) = body.split_at(name_end);
    match name {
        "v" if closes => Some((Tag::Voice(None), length)),
        "v" => {
            // Classes stand before the name: <v.loud Petra>.
            let said = after
                .split_once([' ', '\t', '\n'])
                .map_or("", |(_, said)| said);
            let name = resolved(said)
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" ");
            Some((Tag::Voice((!name.is_empty()).then_some(name)), length))
        }
        "c" | "i" | "b" | "u" | "ruby" | "rt" | "lang" => {
            Some((Tag::LeftOut { opens: !closes }, length))
        }
        _ => None,
    }
}

/// A text with its references resolved.
fn resolved(text: &str) -> String {
    let mut out = String::new();
    let mut at = 0;
    while at < text.len() {
        let rest = &text[at..];
        let (sign, length) = match reference(rest) {
            Some(found) => found,
            None => rest
                .chars()
                .next()
                .map_or((' ', 1), |sign| (sign, sign.len_utf8())),
        };
        out.push(sign);
        at += length;
    }
    out
}

/// A reference to a letter such as `&amp;` or `&#176;` at the beginning of a text, and its length.
fn reference(text: &str) -> Option<(char, usize)> {
    let inside = text.strip_prefix('&')?;
    let end = inside.bytes().take(12).position(|byte| byte == b';')?;
    let name = inside.get(..end)?;
    let number = |digits: &str, base: u32| {
        let letter = u32::from_str_radix(digits, base)
            .ok()
            .and_then(char::from_u32)?;
        (letter != '\0').then_some(letter)
    };
    let sign = match name {
        "amp" => '&',
        "lt" => '<',
        "gt" => '>',
        "quot" => '"',
        "apos" => '\'',
        "nbsp" => '\u{a0}',
        "lrm" => '\u{200e}',
        "rlm" => '\u{200f}',
        "deg" => '°',
        "frac12" => '½',
        "frac14" => '¼',
        "frac34" => '¾',
        _ => {
            let digits = name.strip_prefix('#')?;
            match digits.strip_prefix(['x', 'X']) {
                Some(hex) => number(hex, 16)?,
                None => number(digits, 10)?,
            }
        }
    };
    Some((sign, end + 2))
}

/// The words of a `SubRip` cue, and how many tags were left out.
pub(super) fn of_subrip(raw: &Written) -> (Written, usize) {
    let mut out = Written::default();
    let mut left_out = 0;
    let mut at = 0;
    while at < raw.text.len() {
        let rest = &raw.text[at..];
        let plain = rest.find(['<', '{']).unwrap_or(rest.len());
        out.push_part(raw, at..at + plain);
        at += plain;
        let rest = &raw.text[at..];
        match subrip_tag(rest) {
            Some((length, opens)) => {
                left_out += usize::from(opens);
                at += length;
            }
            None if rest.is_empty() => {}
            None => {
                out.push_part(raw, at..at + 1);
                at += 1;
            }
        }
    }
    (out.tidy(), left_out)
}

/// A tag in use in `SubRip` at the beginning of a text: its length, and whether it opens something.
fn subrip_tag(text: &str) -> Option<(usize, bool)> {
    if text.starts_with("{\\") {
        return text.find('}').map(|end| (end + 1, true));
    }
    let inside = text.strip_prefix('<')?;
    let end = inside.find('>')?;
    let inside = &inside[..end];
    let body = inside.strip_prefix('/').unwrap_or(inside);
    let name = body
        .split([' ', '='])
        .next()
        .unwrap_or(body)
        .to_ascii_lowercase();
    let known = matches!(name.as_str(), "i" | "b" | "u" | "s" | "font");
    known.then(|| (end + 2, !inside.starts_with('/')))
}

/// Who speaks, written before the words in capitals: "PETRA: Last night". The name, and the rest.
pub(super) fn named(words: Written) -> Spoken {
    match name_before(&words.text) {
        Some((name, rest)) => {
            let name = words.text[name].to_owned();
            (Some(name), words.after(rest))
        }
        None => (None, words),
    }
}

fn name_before(text: &str) -> Option<(Range<usize>, usize)> {
    let colon = text.find(':')?;
    let name = &text[..colon];
    let after = &text[colon + 1..];
    let blank = after.len() - after.trim_start_matches([' ', '\t']).len();
    let rest = colon + 1 + blank;
    let letters = name.chars().filter(|sign| sign.is_alphabetic());
    let capitals = letters.clone().all(char::is_uppercase) && letters.count() >= 2;
    let signs = name
        .chars()
        .all(|sign| sign.is_alphanumeric() || matches!(sign, ' ' | '.' | '\'' | '’' | '-'));
    let begins = name.starts_with(char::is_alphabetic) && !name.ends_with(' ');
    let short = name.chars().count() <= 30;
    // Words must follow in the same line, after a blank.
    let goes_on = blank > 0 && text[rest..].starts_with(|sign: char| !sign.is_whitespace());
    (capitals && signs && begins && short && goes_on).then_some((0..colon, rest))
}
