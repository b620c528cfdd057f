//! Time codes: how they are read in each kind of file, and how a time is said.
//!
//! `WebVTT`: W3C, "`WebVTT`: The Web Video Text Tracks Format", 6.3 "collect a `WebVTT` timestamp" (read):
//! `[hh+:]mm:ss.ttt`, hours of two digits or more, minutes and seconds up to 59. `SubRip` has no
//! standard: `HH:MM:SS,mmm` (common practice).

use super::Kind;
use std::time::Duration;

/// A time that could be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stamp {
    /// Since the film's beginning.
    pub at: Duration,
    /// How it was written.
    pub form: Form,
}

/// The parts of a time code that differ between kinds of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Form {
    /// Digits of its hours, when there are any.
    pub hours: Option<usize>,
    /// Digits of its minutes.
    pub minutes: usize,
    /// The sign before its fraction, with how many digits follow.
    pub fraction: Option<(char, usize)>,
}

impl Form {
    /// As the standard of `WebVTT` wants it.
    pub fn is_webvtt(self) -> bool {
        self.hours != Some(1) && self.minutes == 2 && self.fraction == Some(('.', 3))
    }

    /// As players of `SubRip` expect it.
    pub fn is_subrip(self) -> bool {
        self.hours == Some(2) && self.minutes == 2 && self.fraction == Some((',', 3))
    }
}

/// Reads "0:16", "1:02:03", "00:01:02,345" or "01:02.5"; none when a part is missing or too large.
pub(super) fn stamp(text: &str) -> Option<Stamp> {
    let (clock, fraction) = match text.find(['.', ',']) {
        Some(at) => (&text[..at], Some(&text[at..])),
        None => (text, None),
    };
    let parts: Vec<&str> = clock.split(':').collect();
    let digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    if !parts.iter().all(|part| !part.is_empty() && digits(part)) {
        return None;
    }
    let (hours, minutes, seconds) = match parts[..] {
        [minutes, seconds] => (None, minutes, seconds),
        [hours, minutes, seconds] => (Some(hours), minutes, seconds),
        _ => return None,
    };
    if seconds.len() != 2 || hours.is_some_and(|hours| hours.len() > 5) || minutes.len() > 4 {
        return None;
    }
    let h: u64 = hours.map_or(Some(0), |hours| hours.parse().ok())?;
    let m: u64 = minutes.parse().ok()?;
    let s: u64 = seconds.parse().ok()?;
    // The largest unit may count on: 75 minutes and 10 seconds is written 75:10 by many.
    if s > 59 || (hours.is_some() && m > 59) {
        return None;
    }
    let (milliseconds, fraction) = match fraction {
        None => (0, None),
        Some(fraction) => {
            let sign = fraction.chars().next()?;
            let after = &fraction[1..];
            if after.is_empty() || after.len() > 3 || !digits(after) {
                return None;
            }
            let value: u64 = after.parse().ok()?;
            let scaled = match after.len() {
                1 => value * 100,
                2 => value * 10,
                _ => value,
            };
            (scaled, Some((sign, after.len())))
        }
    };
    Some(Stamp {
        at: Duration::from_millis(((h * 60 + m) * 60 + s) * 1000 + milliseconds),
        form: Form {
            hours: hours.map(str::len),
            minutes: minutes.len(),
            fraction,
        },
    })
}

/// Whether a text looks like a time that somebody tried to write.
pub(super) fn meant_as_time(text: &str) -> bool {
    let letters = text.chars().filter(|sign| sign.is_alphabetic()).count();
    let digits = text.chars().filter(char::is_ascii_digit).count();
    let others = text
        .chars()
        .any(|sign| !sign.is_alphanumeric() && !matches!(sign, ':' | '.' | ',' | ';' | ' '));
    digits >= 2 && letters <= 1 && !others && text.contains([':', ';'])
}

/// A time as it is said of a film: "0:16", "1:02:03"; with thousandths where they matter.
pub fn clock(at: Duration) -> String {
    let seconds = at.as_secs();
    let (h, m, s) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    let whole = if h > 0 {
        format!("{h}:{m:02}:{s:02}")
    } else {
        format!("{m}:{s:02}")
    };
    match at.subsec_millis() {
        0 => whole,
        milliseconds => format!("{whole}.{milliseconds:03}"),
    }
}

/// A time as a kind of file writes it, so that it is found there: "0:16", "00:00:16,000", "00:00:16.000".
pub(super) fn written(at: Duration, kind: Kind) -> String {
    let sign = match kind {
        Kind::Text => return clock(at),
        Kind::SubRip => ',',
        Kind::WebVtt => '.',
    };
    let seconds = at.as_secs();
    let (h, m, s) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    format!("{h:02}:{m:02}:{s:02}{sign}{:03}", at.subsec_millis())
}

/// A length of time as it is said: "45 s", "12 min", "1 h 2 min".
pub(super) fn length(of: Duration) -> String {
    let seconds = of.as_secs();
    match seconds {
        0..100 => format!("{seconds} s"),
        100..3600 => format!("{} min", seconds / 60),
        _ if seconds % 3600 < 60 => format!("{} h", seconds / 3600),
        _ => format!("{} h {} min", seconds / 3600, seconds % 3600 / 60),
    }
}

#[cfg(test)]
mod tests {
    use super::{clock, meant_as_time, stamp};
    use std::time::Duration;

    #[test]
    fn times_of_every_kind_are_read() {
        for (text, milliseconds) in [
            ("0:16", 16_000),
            ("1:02:03", 3_723_000),
            ("00:01:02,345", 62_345),
            ("01:02.500", 62_500),
            ("01:02.5", 62_500),
            ("75:10", 4_510_000),
            ("100:00:00.000", 360_000_000),
        ] {
            let read = stamp(text).map(|stamp| stamp.at);
            assert_eq!(read, Some(Duration::from_millis(milliseconds)), "{text}");
        }
    }

    #[test]
    fn broken_times_are_not_guessed() {
        for text in [
            "",
            ":",
            "0:7",
            "0:75",
            "1:60:00",
            "0:1x",
            "1:2:3:04",
            "0:16.",
            "0:16.1234",
            "-0:16",
        ] {
            assert_eq!(stamp(text), None, "{text}");
        }
        assert!(meant_as_time("0:1O") && meant_as_time("0:75"));
        assert!(!meant_as_time("see: 12 below") && !meant_as_time("oven"));
    }

    #[test]
    fn a_time_is_said_without_what_is_zero() {
        assert_eq!(clock(Duration::from_secs(16)), "0:16");
        assert_eq!(clock(Duration::from_millis(3_723_004)), "1:02:03.004");
    }
}
