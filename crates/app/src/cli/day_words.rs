//! What the command `day` is told in words: breads with their times, batches, what is done.

use super::dates::{in_another_form, named};
use crate::failure::Failure;
use crate::world::clock;
use edit::ledger::timetable::long_past;
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use plan::day::slip::{Done, Now};
use plan::day::tasks::Serve;
use plan::timetable::{clock as later, minutes_between};
use recipe::document::KitchenValue;
use recipe::document::read_time;

/// The words.
pub struct Asks<'a> {
    /// Breads to be ready.
    pub serve: &'a [String],
    /// Breads to be out of the oven.
    pub out: &'a [String],
    /// The day's beginning.
    pub from: Option<&'a str>,
    /// Whose clock.
    pub zone: Option<&'a str>,
    /// The moment that it is.
    pub now: Option<&'a str>,
    /// What is done.
    pub done: &'a [String],
    /// What the dough read.
    pub dough: Option<&'a str>,
    /// Whether they stand in a form, which knows nothing of options.
    pub in_a_form: bool,
}

/// What they mean.
pub struct Meant {
    /// What is wanted when.
    pub serve: Vec<Serve>,
    /// The clock at minute 0.
    pub starts: DateTime,
    /// Where it hangs.
    pub zone: Option<TimeZone>,
    /// What is true now.
    pub now: Option<Now>,
    /// What is said of a day that is long past.
    pub past: Option<String>,
}

/// A day that is wanted later than this is planned from so many minutes before it on.
const LEAD_MIN: i64 = 3 * 24 * 60;
/// Nothing is planned further ahead: ten years.
const MOST_MIN: i64 = 10 * 366 * 24 * 60;

fn usage(message: String) -> Failure {
    Failure::Usage(message)
}

/// Reads them.
pub fn read(asks: &Asks<'_>) -> Result<Meant, Failure> {
    let said = |flag: &str, text: &str| {
        if asks.in_a_form {
            format!("“{text}”")
        } else {
            format!("`{flag} \"{text}\"`")
        }
    };
    let zone = match asks.zone {
        Some(name) => Some(TimeZone::get(name).map_err(|_| {
            usage(format!(
                "{} is no zone of the clock; write Europe/Oslo or America/Chicago",
                said("--zone", name)
            ))
        })?),
        None => clock::zone(),
    };
    let own = zone.clone().unwrap_or(TimeZone::UTC);
    let here = clock::now().to_zoned_datetime(own).datetime();
    let starts = match asks.from {
        Some(text) => {
            let at = moment(text, here).ok_or_else(|| not_a_time(&said("--from", text), text))?;
            on_the_clock(&said("--from", text), at, zone.as_ref())?;
            at
        }
        None => next_five(here),
    };
    let mut wanted = Vec::new();
    for (text, flag, out) in asks
        .serve
        .iter()
        .map(|text| (text, "--serve", false))
        .chain(asks.out.iter().map(|text| (text, "--out", true)))
    {
        let (batch, rest) = numbered(text);
        let (product, at) =
            bread(rest, starts).ok_or_else(|| not_a_time(&said(flag, text), text))?;
        on_the_clock(&said(flag, text), at, zone.as_ref())?;
        let wish = (batch, product, at, out);
        if wanted.contains(&wish) {
            return Err(usage(format!(
                "{} stands twice; {}",
                said(flag, text),
                if asks.in_a_form {
                    "give its recipe two batches"
                } else {
                    "for two batches write RECIPE=2 behind the recipe"
                }
            )));
        }
        wanted.push(wish);
    }
    // A day far ahead is not planned from now on.
    let first = wanted
        .iter()
        .map(|(_, _, at, _)| minutes_between(starts, *at, zone.as_ref()))
        .min();
    if first.is_some_and(|first| first.abs() > MOST_MIN) {
        return Err(usage("that is more than ten years away".to_owned()));
    }
    let starts = match first {
        Some(first) if asks.from.is_none() && first > LEAD_MIN => {
            later(starts, zone.as_ref(), first - LEAD_MIN)
        }
        _ => starts,
    };
    let last = wanted.iter().map(|(_, _, at, _)| *at).max();
    let past = long_past(last.map_or(starts, |last| last.max(starts)), here);
    let minute = |at: DateTime| {
        let minute = minutes_between(starts, at, zone.as_ref());
        i32::try_from(minute).unwrap_or(i32::MAX / 16)
    };
    let serve = wanted
        .into_iter()
        .map(|(batch, product, at, out)| Serve {
            batch,
            product,
            by: minute(at),
            out,
        })
        .collect();
    let now = match asks.now {
        None => None,
        Some(text) => {
            let at = moment(text, starts).ok_or_else(|| not_a_time(&said("--now", text), text))?;
            on_the_clock(&said("--now", text), at, zone.as_ref())?;
            let dough = match asks.dough {
                None => None,
                Some(text) => match KitchenValue::read(&format!("room={text}")) {
                    Ok(KitchenValue::Room(at)) => Some(at),
                    _ => {
                        return Err(usage(format!(
                            "{} is no temperature of a dough; write 24.1C or 75F",
                            said("--dough", text)
                        )));
                    }
                },
            };
            Some(Now {
                minute: minute(at),
                done: asks.done.iter().map(|text| done(text)).collect(),
                dough,
            })
        }
    };
    Ok(Meant {
        serve,
        starts,
        zone,
        now,
        past,
    })
}

/// An hour that the change of the clock leaves out is none.
fn on_the_clock(said: &str, at: DateTime, zone: Option<&TimeZone>) -> Result<(), Failure> {
    let Some(zone) = zone else { return Ok(()) };
    if left_out(zone, at) {
        return Err(usage(format!(
            "{said}: the clock goes forward then, and {:02}:{:02} is left out; write an hour later",
            at.hour(),
            at.minute()
        )));
    }
    Ok(())
}

/// Whether a clock comes to a time at all: one that is left out is read as another.
fn left_out(zone: &TimeZone, at: DateTime) -> bool {
    at.to_zoned_datetime(zone.clone())
        .is_ok_and(|moment| moment.datetime() != at)
}

fn not_a_time(said: &str, text: &str) -> Failure {
    let (_, rest) = numbered(text);
    let number = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit());
    let mut words = rest.split_whitespace().rev();
    let (last, before) = (words.next().filter(number), words.next().filter(number));
    let dated = rest
        .split_whitespace()
        .find(|word| !in_another_form(word).is_empty());
    if let Some(date) = dated {
        return usage(format!("{said}: {}", named(date)));
    }
    if let Some(date) = before.filter(|date| date.contains('-') && date.parse::<Date>().is_err()) {
        return usage(format!(
            "{said}: {date} is no day of the calendar; write 2026-12-24"
        ));
    }
    if let Some(time) = last.filter(|time| read_time(time).is_none() && !time.contains('-')) {
        return usage(format!(
            "{said}: {time} is no time of the day; write hours and minutes, 00:00 to 23:59"
        ));
    }
    usage(format!(
        "{said} has no time in it; write \"2026-12-24 16:00\", \"16:00\" or \"4:00 pm\""
    ))
}

/// "2: loaf" is the second batch's.
fn numbered(text: &str) -> (Option<usize>, &str) {
    let parts = text.split_once(':');
    match parts.map(|(number, rest)| (number.trim().parse::<usize>(), rest)) {
        // "16:00" is a time and no batch: what follows it begins with two digits.
        Some((Ok(number), rest))
            if number > 0 && !rest.starts_with(|c: char| c.is_ascii_digit()) =>
        {
            (Some(number - 1), rest.trim())
        }
        _ => (None, text.trim()),
    }
}

/// "loaf 2026-12-24 16:00": which bread, and when.
fn bread(text: &str, starts: DateTime) -> Option<(Option<String>, DateTime)> {
    let text = one_word(text);
    let words: Vec<&str> = text.split_whitespace().collect();
    let (time, before) = words.split_last()?;
    let (name, at) = match before.split_last() {
        // Three numbers with hyphens are meant as a date, whether the calendar has it or not.
        Some((date, name)) if looks_like_date(date) || !in_another_form(date).is_empty() => {
            (name, moment(&format!("{date} {time}"), starts)?)
        }
        _ => (before, moment(time, starts)?),
    };
    Some(((!name.is_empty()).then(|| name.join(" ")), at))
}

/// "4:00 pm" as one word, so that a time is the last word of a text.
fn one_word(text: &str) -> String {
    let text = text.trim();
    let cut = text.len().saturating_sub(2);
    match text.split_at_checked(cut) {
        Some((before, half))
            if half.eq_ignore_ascii_case("am") || half.eq_ignore_ascii_case("pm") =>
        {
            format!("{}{half}", before.trim_end())
        }
        _ => text.to_owned(),
    }
}

fn looks_like_date(word: &str) -> bool {
    let parts: Vec<&str> = word.split('-').collect();
    let digits = |part: &&str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    parts.len() == 3 && parts.iter().all(digits)
}

/// "2026-12-24 16:00", or "16:00" on the day of another moment.
fn moment(text: &str, near: DateTime) -> Option<DateTime> {
    let text = one_word(text);
    let words: Vec<&str> = text.split_whitespace().collect();
    match words[..] {
        [time] => Some(near.date().to_datetime(read_time(time)?)),
        [date, time] => {
            let date: Date = date.parse().ok()?;
            Some(date.to_datetime(read_time(time)?))
        }
        _ => None,
    }
}

/// The next whole five minutes.
fn next_five(at: DateTime) -> DateTime {
    let over = i64::from(at.minute()) % 5;
    let whole = at
        .with()
        .second(0)
        .subsec_nanosecond(0)
        .build()
        .unwrap_or(at);
    later(whole, None, (5 - over) % 5)
}

/// "2: shape knots", "feast bread: mix": of which dough, and what.
fn done(text: &str) -> Done {
    let (batch, rest) = numbered(text);
    let (whose, step) = match rest.split_once(':') {
        Some((whose, step)) if batch.is_none() => (Some(whose.trim().to_owned()), step.trim()),
        _ => (None, rest),
    };
    Done {
        batch,
        step: step.to_owned(),
        whose,
    }
}

/// A recipe's path and its batches: `loaf.toml=2`. A path may have an equals sign of its own.
pub fn batches(asked: &str) -> Result<(&str, u32), Failure> {
    const MOST: u32 = 20;
    let Some((path, count)) = asked.rsplit_once('=') else {
        return Ok((asked, 1));
    };
    match count.trim().parse::<u32>() {
        Ok(count) if (1..=MOST).contains(&count) => Ok((path, count)),
        _ if std::path::Path::new(asked).exists() => Ok((asked, 1)),
        _ => Err(usage(format!(
            "`{count}` is no number of batches; write 1 to {MOST}. For half a batch or more in one bowl make the recipe in that size first: everyoven variant --half"
        ))),
    }
}

#[cfg(test)]
mod tests {
    use super::{batches, bread, done, numbered};
    use jiff::civil::date;

    #[test]
    fn a_bread_and_its_time_are_told_apart() {
        let day = date(2026, 12, 24).at(8, 0, 0, 0);
        let (name, at) = bread("tin loaf 2026-12-25 16:00", day).expect("a bread");
        assert_eq!(name.as_deref(), Some("tin loaf"));
        assert_eq!(at.to_string(), "2026-12-25T16:00:00");
        let (name, at) = bread("16:00", day).expect("a time");
        assert_eq!((name, at.day()), (None, 24));
        for wrong in ["", "loaf", "loaf 25:00", "loaf 2026-13-01 16:00 x"] {
            assert!(bread(wrong, day).is_none(), "{wrong}");
        }
    }

    #[test]
    fn a_batch_stands_before_a_colon() {
        assert_eq!(numbered("2: loaf 16:00"), (Some(1), "loaf 16:00"));
        assert_eq!(numbered("16:00"), (None, "16:00"));
        assert_eq!(numbered("0: mix"), (None, "0: mix"));
        let shaped = done("2: shape knots");
        assert_eq!((shaped.batch, &*shaped.step), (Some(1), "shape knots"));
        let mixed = done("feast bread: mix");
        assert_eq!(
            (mixed.whose.as_deref(), &*mixed.step),
            (Some("feast bread"), "mix")
        );
    }

    #[test]
    fn batches_are_whole() {
        assert_eq!(batches("loaf.toml=2").ok(), Some(("loaf.toml", 2)));
        assert!(batches("loaf.toml=1/2").is_err());
        assert!(batches("loaf.toml=0").is_err());
    }
}
