//! Reads what a kitchen has for a bake day: hands, places, tins and hours.

use super::fields::Fields;
use super::value::{Reader, short};
use crate::document::model::{DayFile, Hours};
use crate::source::{Diagnostic, Located, code};
use jiff::civil::Time;

/// More of anything is no kitchen.
const MOST: i64 = 1000;

/// Reads the table `day`.
pub fn day(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> DayFile {
    let made = DayFile {
        hands: count(reader, &mut fields, "hands"),
        racks: count(reader, &mut fields, "racks"),
        warm_places: count(reader, &mut fields, "warm-places"),
        shelves: count(reader, &mut fields, "shelves"),
        oven_warms: fields.boolean(reader, "oven-warms"),
        quiet: hours(reader, &mut fields, "quiet"),
        breaks: hours(reader, &mut fields, "breaks").unwrap_or_default(),
        morning: morning(reader, &mut fields),
        tins: tins(reader, &mut fields),
    };
    fields.finish(reader);
    made
}

fn count(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
    key: &'static str,
) -> Option<Located<i64>> {
    let written = fields.whole(reader, key)?;
    if (1..=MOST).contains(&written.value) {
        return Some(written);
    }
    reader.breaks(
        Diagnostic::at(
            code::VALUE_WRONG_KIND,
            written.span,
            format!("`{key}` is a number from 1 to {MOST}."),
        )
        .hint(match (key, written.value) {
            ("warm-places", 0) => "Where there is none, that dough stands in the room: write the room’s temperature as `warm-place`, and leave `warm-places` out.".to_owned(),
            _ => format!("Leave `{key}` out when there is no end of it, or write {key} = 1."),
        }),
    );
    None
}

/// Reads a list of hours: "22:00-06:30"; none when it is not there.
fn hours(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
    key: &'static str,
) -> Option<Vec<Located<Hours>>> {
    let mut all = Vec::new();
    for written in fields.texts(reader, key)? {
        match read_hours(&written.value) {
            Some(read) => all.push(Located::new(read, written.span)),
            None => reader.breaks(
                Diagnostic::at(
                    code::VALUE_WRONG_KIND,
                    written.span,
                    format!(
                        "`{key}` is a list of hours from and to; “{}” is none.",
                        short(&written.value)
                    ),
                )
                .hint(format!("Write {key} = [\"22:00-06:30\"].")),
            ),
        }
    }
    Some(all)
}

/// Hours as they are written; none when they are not, or last no time.
pub fn read_hours(text: &str) -> Option<Hours> {
    let (from, to) = text.split_once(['-', '–'])?;
    let hours = Hours {
        from: read_time(from)?,
        to: read_time(to)?,
    };
    (hours.from != hours.to).then_some(hours)
}

/// An hour and its minutes: "7:05", "22:00"; "24:00" is midnight.
pub fn read_time(text: &str) -> Option<Time> {
    let lower = text.trim().to_ascii_lowercase();
    if let Some((clock, noon)) = lower
        .strip_suffix("am")
        .map(|clock| (clock, 0))
        .or_else(|| lower.strip_suffix("pm").map(|clock| (clock, 12)))
    {
        let (hour, minute) = clock
            .trim_end()
            .split_once(':')
            .unwrap_or((clock.trim_end(), "00"));
        let hour: i8 = hour.parse().ok().filter(|hour| (1..=12).contains(hour))?;
        let minute = minute.parse().ok().filter(|_| minute.len() == 2)?;
        return Time::new(hour % 12 + noon, minute, 0, 0).ok();
    }
    let (hour, minute) = lower.split_once(':')?;
    let digits = |text: &str| text.len() <= 2 && text.bytes().all(|b| b.is_ascii_digit());
    if !digits(hour) || !digits(minute) || minute.len() != 2 {
        return None;
    }
    let (hour, minute): (i8, i8) = (hour.parse().ok()?, minute.parse().ok()?);
    if (hour, minute) == (24, 0) {
        return Some(Time::midnight());
    }
    Time::new(hour, minute, 0, 0).ok()
}

fn morning(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Option<Located<Time>> {
    let written = fields.text(reader, "morning")?;
    if let Some(time) = read_time(&written.value) {
        return Some(Located::new(time, written.span));
    }
    reader.breaks(
        Diagnostic::at(
            code::VALUE_WRONG_KIND,
            written.span,
            format!("`morning` is an hour; “{}” is none.", short(&written.value)),
        )
        .hint("Write morning = \"07:00\"."),
    );
    None
}

/// Reads how many there are of each tin.
fn tins(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Vec<(Located<String>, Located<i64>)> {
    let Some(table) = fields.table(reader, "tins", "`tins`") else {
        return Vec::new();
    };
    let mut all = Vec::new();
    for (name, value, span) in table.entries() {
        let number = match value {
            toml::de::DeValue::Integer(number) => {
                i64::from_str_radix(number.as_str(), number.radix()).ok()
            }
            _ => None,
        };
        match number.filter(|number| (0..=MOST).contains(number)) {
            Some(number) => all.push((name, Located::new(number, span))),
            None => reader.breaks(
                Diagnostic::at(
                    code::VALUE_WRONG_KIND,
                    span,
                    format!(
                        "`tins` says how many there are of each; “{}” wants a whole number.",
                        short(&name.value)
                    ),
                )
                .hint("Write tins = { \"loaf tin\" = 2 }."),
            ),
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::{read_hours, read_time};
    use jiff::civil::time;

    #[test]
    fn hours_are_read_as_clocks_show_them() {
        let night = read_hours("22:00-06:30").expect("a night");
        assert_eq!(
            (night.from, night.to),
            (time(22, 0, 0, 0), time(6, 30, 0, 0))
        );
        assert_eq!(read_time("24:00"), Some(time(0, 0, 0, 0)));
        assert_eq!(read_time(" 7:05 "), Some(time(7, 5, 0, 0)));
        for wrong in ["", "7", "7:5", "25:00", "12:60", "ab:cd", "-1:00", "+7:00"] {
            assert_eq!(read_time(wrong), None, "{wrong}");
        }
        for wrong in ["", "22:00", "22:00-22:00", "22:00-6"] {
            assert_eq!(read_hours(wrong), None, "{wrong}");
        }
    }
}
