//! Which letters the bytes of a file stand for.
//!
//! UTF-8 and UTF-16 by their byte order marks (Unicode Standard, 23.8; from memory) or by their
//! looks; otherwise windows-1252, which the WHATWG Encoding Standard reads for Latin-1 (its table
//! from memory). What had to be guessed is said.

use super::{code, notes::Notes};
use recipe::source::Diagnostic;

/// A file larger than this is no talk: ten hours of talk are about 600 kB.
const LARGEST_BYTES: usize = 8 << 20;

/// Letters of windows-1252 between 0x80 and 0x9f; the five that it leaves open are marked.
const WINDOWS_1252: [char; 32] = [
    '€', '\u{fffd}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{fffd}', 'Ž',
    '\u{fffd}', '\u{fffd}', '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{fffd}',
    'ž', 'Ÿ',
];

/// The text of a file. For UTF-8 without faults it is the file's bytes, byte order mark included.
pub(super) fn decode(bytes: &[u8], notes: &mut Notes) -> String {
    if bytes.len() > LARGEST_BYTES {
        let megabytes = bytes.len() >> 20;
        notes.say(
            Diagnostic::whole(
                code::TRACK_NOT_TEXT,
                format!("The file has {megabytes} MB, more than any talk: it is taken for something else."),
            )
            .hint("Name the file that holds the words: plain text, .srt or .vtt."),
        );
        return String::new();
    }
    if let Some((little, body)) = utf16(bytes) {
        let text = of_utf16(little, body);
        notes.say(
            Diagnostic::whole(
                code::TRACK_ENCODING_OTHER,
                "The file is in UTF-16. It could be read, but players and the web want captions in UTF-8.",
            )
            .hint("The files that are written from it are in UTF-8."),
        );
        return not_binary(text, true, notes);
    }
    let text = match std::str::from_utf8(bytes) {
        // In whole UTF-8 this sign was written by somebody and tells of no fault.
        Ok(text) => return not_binary(text.to_owned(), false, notes).replace('\0', "\u{fffd}"),
        Err(error) if error.error_len().is_none() => cut_off(bytes, error.valid_up_to(), notes),
        Err(_) => guessed(bytes, notes),
    };
    not_binary(text, true, notes)
}

/// Whether it is UTF-16, little end first or not, and what follows its mark.
fn utf16(bytes: &[u8]) -> Option<(bool, &[u8])> {
    match bytes {
        [0xff, 0xfe, rest @ ..] => return Some((true, rest)),
        [0xfe, 0xff, rest @ ..] => return Some((false, rest)),
        _ => {}
    }
    // Without a mark: every other byte of western text is zero.
    let pairs = bytes.len().min(2000) / 2;
    if pairs < 4 {
        return None;
    }
    let zeros = |offset: usize| {
        let places = bytes.iter().skip(offset).step_by(2).take(pairs);
        places.filter(|byte| **byte == 0).count()
    };
    let (first, second) = (zeros(0), zeros(1));
    if second * 10 > pairs * 7 && first * 10 < pairs {
        Some((true, bytes))
    } else if first * 10 > pairs * 7 && second * 10 < pairs {
        Some((false, bytes))
    } else {
        None
    }
}

fn of_utf16(little: bool, body: &[u8]) -> String {
    let units = body.chunks(2).map(|pair| {
        let pair = [pair[0], pair.get(1).copied().unwrap_or_default()];
        if little {
            u16::from_le_bytes(pair)
        } else {
            u16::from_be_bytes(pair)
        }
    });
    char::decode_utf16(units)
        .map(|unit| unit.unwrap_or(char::REPLACEMENT_CHARACTER))
        .map(|sign| {
            if sign == '\0' {
                char::REPLACEMENT_CHARACTER
            } else {
                sign
            }
        })
        .collect()
}

/// UTF-8 that ends in the middle of a letter.
fn cut_off(bytes: &[u8], whole: usize, notes: &mut Notes) -> String {
    let line = bytes[..whole].split(|byte| *byte == b'\n').count();
    notes.say(
        Diagnostic::whole(
            code::TRACK_ENCODING_GUESSED,
            format!("The file is cut off in the middle of its last letter, in line {line}; \u{fffd} stands in its place."),
        )
        .hint("Take the file anew from where it comes from: what follows may be missing."),
    );
    String::from_utf8_lossy(bytes).replace('\0', "\u{fffd}")
}

/// Bytes that are no UTF-8: UTF-8 with a fault here and there, or one byte for each letter.
fn guessed(bytes: &[u8], notes: &mut Notes) -> String {
    let mut broken = 0_usize;
    let mut whole = 0_usize;
    let mut first = None;
    let mut at = 0;
    for chunk in bytes.utf8_chunks() {
        whole += chunk
            .valid()
            .chars()
            .filter(|sign| !sign.is_ascii())
            .count();
        at += chunk.valid().len();
        if !chunk.invalid().is_empty() {
            broken += 1;
            first.get_or_insert(bytes[..at].split(|byte| *byte == b'\n').count());
            at += chunk.invalid().len();
        }
    }
    let line = first.unwrap_or(1);
    if whole > broken {
        notes.say(
            Diagnostic::whole(
                code::TRACK_ENCODING_GUESSED,
                format!(
                    "The file is in UTF-8 but for {broken} broken {}, the first in line {line}; \u{fffd} stands in their place.",
                    if broken == 1 { "letter" } else { "letters" },
                ),
            )
            .hint("Look at that line in an editor, write the letter anew and save the file as UTF-8."),
        );
        return String::from_utf8_lossy(bytes).replace('\0', "\u{fffd}");
    }
    notes.say(
        Diagnostic::whole(
            code::TRACK_ENCODING_GUESSED,
            format!(
                "The encoding of the file is not UTF-8, and the file does not say which; the first letter in doubt is in line {line}. It was read as Latin-1 (windows-1252)."
            ),
        )
        .hint("Look at é, ° and ½: if they read as others, save the file as UTF-8 in the program that wrote it."),
    );
    bytes.iter().map(|byte| latin(*byte)).collect()
}

fn latin(byte: u8) -> char {
    match byte {
        0 => char::REPLACEMENT_CHARACTER,
        0x80..=0x9f => WINDOWS_1252[usize::from(byte - 0x80)],
        _ => char::from(byte),
    }
}

/// The text, unless so much of it is no text that it must be another kind of file; `replaced`: U+FFFD stands for what could
/// not be read.
fn not_binary(text: String, replaced: bool, notes: &mut Notes) -> String {
    let signs = text.chars().count();
    let is_odd = |sign: &char| {
        replaced && *sign == char::REPLACEMENT_CHARACTER
            || (sign.is_control() && !matches!(sign, '\t' | '\n' | '\r' | '\u{c}'))
    };
    let odd = text.chars().filter(is_odd).count();
    if odd * 20 <= signs {
        return text;
    }
    notes.say(
        Diagnostic::whole(
            code::TRACK_NOT_TEXT,
            "The file holds no text: it may be the film itself, a picture or a packed file.",
        )
        .hint("Name the file that holds the words: plain text, .srt or .vtt."),
    );
    String::new()
}
