//! Rows that say what a written quantity means, and whether the reader agrees.

use crate::cases::quoted;
use recipe::document::model::{Amount, Part, TinSize};
use recipe::measure::read::{
    Unread, read_amount, read_height, read_length, read_mass, read_multiple, read_piece,
    read_power, read_share, read_temperature, read_temperature_difference, read_temperature_range,
    read_time, read_time_range, read_tin_size, read_volume,
};

/// What was read: the words between the numbers, and the numbers in the units of the cell.
type Read = Result<(String, Vec<f64>), Unread>;

/// How many rows there are, and those that fail.
pub fn run(markdown: &str) -> (usize, Vec<String>) {
    let rows: Vec<&str> = markdown
        .lines()
        .skip_while(|line| !line.starts_with("| kind | text | means |"))
        .skip(2)
        .filter(|line| line.starts_with('|'))
        .collect();
    let failures = rows.iter().filter_map(|row| judge(row).err()).collect();
    (rows.len(), failures)
}

/// Judges one row.
fn judge(row: &str) -> Result<(), String> {
    let (kind, rest) = row[1..].split_once('|').ok_or("no kind")?;
    let rest = rest.trim_start();
    let (text, rest) = match rest.strip_prefix("(empty)") {
        Some(rest) => (String::new(), rest),
        None => raw(rest)?,
    };
    let means = rest
        .trim()
        .trim_start_matches('|')
        .trim_end_matches('|')
        .trim();
    let read = read(kind.trim(), &text);
    let shown: String = row.chars().take(90).collect();
    let fail = |what: String| Err(format!("{shown} gave {what}"));
    if let Some(codes) = means.strip_prefix("error ") {
        return match read {
            Err(unread) if codes.split(" or ").any(|c| c.trim() == unread.code.name) => {
                let inside = unread.span.start <= unread.span.end && unread.span.end <= text.len();
                if inside {
                    Ok(())
                } else {
                    fail(format!("a place outside: {:?}", unread.span))
                }
            }
            Err(unread) => fail(format!("{}: {}", unread.code.name, unread.message)),
            Ok(value) => fail(format!("{value:?}")),
        };
    }
    let (words, wanted) = numbers(means);
    match read {
        Ok((found_words, found)) if found_words == words && found.len() == wanted.len() => {
            let near = found
                .iter()
                .zip(&wanted)
                .all(|(f, (w, half))| (f - w).abs() <= half.max(w.abs() * 1e-9));
            if near {
                Ok(())
            } else {
                fail(format!("{found:?}"))
            }
        }
        Ok(value) => fail(format!("{value:?}, wanted {words:?}")),
        Err(unread) => fail(format!("{}: {}", unread.code.name, unread.message)),
    }
}

/// A text between backticks in which only `\u{HEX}` is resolved.
fn raw(rest: &str) -> Result<(String, &str), String> {
    quoted(rest, '`')
}

/// The numbers of a cell with half of their last digit, and the cell with each number made `#`.
fn numbers(cell: &str) -> (String, Vec<(f64, f64)>) {
    let mut words = String::new();
    let mut found = Vec::new();
    let mut rest = cell;
    while let Some(letter) = rest.chars().next() {
        let begins = letter.is_ascii_digit()
            || (letter == '-' && rest[1..].starts_with(|c: char| c.is_ascii_digit()));
        // The 3 of m3 and the ends of a range in dots are not numbers with a point.
        if begins && !words.ends_with('m') {
            let mut end = 1 + rest[1..]
                .find(|c: char| !c.is_ascii_digit())
                .unwrap_or(rest.len() - 1);
            let mut decimals = 0;
            if rest[end..].starts_with('.')
                && rest[end + 1..].starts_with(|c: char| c.is_ascii_digit())
            {
                decimals = rest[end + 1..]
                    .find(|c: char| !c.is_ascii_digit())
                    .unwrap_or(rest.len() - end - 1);
                end += 1 + decimals;
            }
            let value: f64 = rest[..end].parse().unwrap_or(f64::NAN);
            let half = (0..decimals).fold(0.5, |half, _| half / 10.0);
            found.push((value, half));
            words.push('#');
            rest = &rest[end..];
        } else {
            words.push(letter);
            rest = &rest[letter.len_utf8()..];
        }
    }
    (words, found)
}

/// Reads a text as its kind.
fn read(kind: &str, text: &str) -> Read {
    let say = |words: &str, numbers: Vec<f64>| (words.to_owned(), numbers);
    match kind {
        "mass" => read_mass(text).map(|m| say("# kg", vec![m.si()])),
        "amount" => read_amount(text).map(|amount| said_amount(&amount)),
        "time" => read_time(text).map(|t| say("# s", vec![t.si()])),
        "time-range" => read_time_range(text).map(|r| say("#..# s", vec![r.low.si(), r.high.si()])),
        "temperature" => read_temperature(text).map(|t| say("# K", vec![t.si()])),
        "temperature-range" => {
            read_temperature_range(text).map(|r| say("#..# K", vec![r.low.si(), r.high.si()]))
        }
        "length" => read_length(text).map(|l| say("# m", vec![l.si()])),
        "share" => read_share(text).map(|s| say("#", vec![s.si()])),
        "volume" => read_volume(text).map(|v| say("# m3", vec![v.si()])),
        "multiple" => read_multiple(text).map(|m| say("#", vec![m])),
        "height" => read_height(text).map(|h| say("# m", vec![h.si()])),
        "tin-size" => read_tin_size(text).map(|size| match size {
            TinSize::Box {
                length,
                width,
                depth,
            } => say(
                "box # # # mm",
                vec![
                    length.millimetres(),
                    width.millimetres(),
                    depth.millimetres(),
                ],
            ),
            TinSize::Tray { length, width } => say(
                "tray # # mm",
                vec![length.millimetres(), width.millimetres()],
            ),
            TinSize::Round { diameter, height } => say(
                "round # # mm",
                vec![diameter.millimetres(), height.millimetres()],
            ),
        }),
        "piece" => read_piece(text).map(|parts| said_parts(&parts)),
        "temperature-difference" => {
            read_temperature_difference(text).map(|d| say("# K", vec![d.si()]))
        }
        "power" => read_power(text).map(|p| say("# W/kg", vec![p.si()])),
        other => panic!("no kind {other}"),
    }
}

/// An amount as a cell writes it.
fn said_amount(amount: &Amount) -> (String, Vec<f64>) {
    match amount {
        Amount::Mass(mass) => ("# kg".to_owned(), vec![mass.si()]),
        Amount::Measures(spooned) => {
            let words: Vec<String> = spooned
                .iter()
                .map(|s| format!("# {}", s.measure.word()))
                .collect();
            (words.join(" + "), spooned.iter().map(|s| s.count).collect())
        }
        Amount::Count { count, size: None } => ("count #".to_owned(), vec![*count]),
        Amount::Count {
            count,
            size: Some(size),
        } => (format!("count # {size}"), vec![*count]),
    }
}

/// A piece as a cell writes it.
fn said_parts(parts: &[Part]) -> (String, Vec<f64>) {
    let mut numbers = Vec::new();
    let mut words = Vec::new();
    for part in parts {
        if part.count > 1 {
            numbers.push(f64::from(part.count));
            words.push("#x#");
        } else {
            words.push("#");
        }
        numbers.push(part.mass.grams());
    }
    (words.join(" g + ") + " g", numbers)
}
