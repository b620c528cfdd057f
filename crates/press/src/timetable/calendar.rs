//! A planned day as a calendar (iCalendar, RFC 5545).
//!
//! A day with a zone is written in universal time, form 2 of section 3.3.5, so that no rules of a zone
//! have to travel with it; a day without one has floating times, form 1, which mean the clock on the wall
//! wherever it hangs. `DTSTAMP` is minute 0 of the day, since nothing here knows what time it is; the
//! `UID` of an entry is made of names alone and stays when its time changes.

use edit::ledger::timetable::{Moment, TableLines, TableRow};
use plan::timetable::Kind;

/// A line holds so many octets (section 3.1).
const OCTETS: usize = 75;

/// The calendar; its line ends are those of the RFC.
pub fn calendar(table: &TableLines) -> String {
    let mut out = String::new();
    for (name, value) in [
        ("BEGIN", "VCALENDAR"),
        ("VERSION", "2.0"),
        ("PRODID", "-//Everyoven//Timetable 1//EN"),
        ("CALSCALE", "GREGORIAN"),
    ] {
        line(&mut out, name, value);
    }
    // NAME is that of RFC 7986, section 5.1.
    line(&mut out, "NAME", &text(&table.title));
    let stamp = table
        .stamp
        .utc
        .clone()
        .unwrap_or_else(|| format!("{}Z", table.stamp.local));
    for row in &table.rows {
        event(&mut out, row, &stamp);
    }
    line(&mut out, "END", "VCALENDAR");
    out
}

fn event(out: &mut String, row: &TableRow, stamp: &str) {
    line(out, "BEGIN", "VEVENT");
    line(out, "UID", &row.uid);
    line(out, "DTSTAMP", stamp);
    line(out, "DTSTART", moment(&row.begins_at));
    // A moment has a beginning alone (section 3.6.1).
    if row.ends_min > row.begins_min {
        line(out, "DTEND", moment(&row.ends_at));
    }
    let summary = if row.batch.is_empty() {
        row.words.clone()
    } else {
        format!("{} ({})", row.words, row.batch)
    };
    line(out, "SUMMARY", &text(&summary));
    if !row.note.is_empty() {
        line(out, "DESCRIPTION", &text(&row.note));
    }
    line(out, "CATEGORIES", &text(row.kind.word()));
    // Whoever waits is free.
    let busy = matches!(
        row.kind,
        Kind::Ready | Kind::Work | Kind::Scene | Kind::Pause
    );
    line(out, "TRANSP", if busy { "OPAQUE" } else { "TRANSPARENT" });
    if row.alarm {
        line(out, "BEGIN", "VALARM");
        line(out, "ACTION", "DISPLAY");
        line(out, "DESCRIPTION", &text(&summary));
        line(out, "TRIGGER", "PT0S");
        line(out, "END", "VALARM");
    }
    line(out, "END", "VEVENT");
}

fn moment(at: &Moment) -> &str {
    at.utc.as_deref().unwrap_or(&at.local)
}

/// A text value (section 3.3.11): its four signs escaped, other control characters left out.
fn text(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for sign in words.chars() {
        match sign {
            '\\' | ';' | ',' => {
                out.push('\\');
                out.push(sign);
            }
            '\n' => out.push_str("\\n"),
            '\u{a0}' | '\u{202f}' => out.push(' '),
            sign if sign.is_control() => {}
            sign => out.push(sign),
        }
    }
    out
}

/// A content line, folded before it has more than its octets, never inside a character.
fn line(out: &mut String, name: &str, value: &str) {
    let mut octets = 0;
    let mut put = |sign: char| {
        if octets + sign.len_utf8() > OCTETS {
            out.push_str("\r\n ");
            octets = 1;
        }
        out.push(sign);
        octets += sign.len_utf8();
    };
    name.chars().for_each(&mut put);
    put(':');
    value.chars().for_each(&mut put);
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::{OCTETS, line, text};

    #[test]
    fn no_line_is_longer_than_its_octets_and_none_is_cut_inside_a_character() {
        for filler in ["a", "é", "–", "𝄞"] {
            for count in 0..200 {
                let value = filler.repeat(count);
                let mut out = String::new();
                line(&mut out, "SUMMARY", &value);
                assert!(out.split("\r\n").all(|one| one.len() <= OCTETS), "{out}");
                assert_eq!(
                    out.replace("\r\n ", ""),
                    format!("SUMMARY:{value}\r\n"),
                    "unfolded it is the same"
                );
            }
        }
    }

    #[test]
    fn signs_of_the_format_are_escaped() {
        assert_eq!(
            text("a, b; c\\d\ne\rf\u{7}g\u{a0}h: \"i\""),
            "a\\, b\\; c\\\\d\\nefg h: \"i\""
        );
    }
}
