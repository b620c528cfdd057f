//! A quantity as a run of terms: sign, number or range, unit, and what joins it to the next.

use super::Unread;
use super::number::{Cursor, begins, is_dash, no_number, number};
use super::units::{COUNTED, Sort, Unit, meant, unit};
use crate::source::{Span, code};

/// One number, or two with a dash, and the unit after it.
#[derive(Clone, Debug)]
pub struct Term {
    /// The number, or the first of a range.
    pub low: f64,
    /// The second of a range.
    pub high: Option<f64>,
    /// The unit; none when the number stands alone.
    pub unit: Option<Unit>,
    /// All of it.
    pub span: Span,
    /// Whether a plus stands before it.
    pub added: bool,
}

/// Reads a whole text as terms; there is at least one. The sorts of unit that are wanted steer what
/// is proposed for one that is not known.
pub fn terms(text: &str, sorts: &[Sort]) -> Result<Vec<Term>, Unread> {
    let mut cursor = Cursor::new(text);
    let mut found: Vec<Term> = Vec::new();
    loop {
        cursor.skip_space();
        if cursor.rest().is_empty() && !found.is_empty() {
            return Ok(found);
        }
        let at = cursor.at;
        let added = !found.is_empty() && cursor.eat('+');
        if let Some(before) = found.last()
            && !added
            && cursor.peek().is_some_and(is_dash)
        {
            return Err(unit_twice(text, before));
        }
        cursor.skip_space();
        let mut next = term(&mut cursor, sorts)?;
        next.added = added;
        if let Some(before) = found.last()
            && before.unit.is_none()
        {
            return Err(Unread::new(
                code::NUMBER_WITHOUT_UNIT,
                before.span,
                format!(
                    "“{}” stands without its unit.",
                    &text[before.span.start..before.span.end]
                ),
            ));
        }
        debug_assert!(cursor.at > at, "every term is at least one letter long");
        found.push(next);
    }
}

/// "45 min - 75 min".
fn unit_twice(text: &str, before: &Term) -> Unread {
    Unread::new(
        code::NUMBER_UNREADABLE,
        Span::new(before.span.start, text.len()),
        format!(
            "“{}” cannot be read as a range: its unit stands once, after both numbers.",
            text.trim()
        ),
    )
    .hint("Write a range as \"45-75 min\".")
}

/// Reads a sign.
fn sign(cursor: &mut Cursor<'_>) -> f64 {
    match cursor.peek() {
        Some(c) if is_dash(c) => {
            cursor.at += c.len_utf8();
            -1.0
        }
        _ => 1.0,
    }
}

/// Reads one term.
pub fn term(cursor: &mut Cursor<'_>, sorts: &[Sort]) -> Result<Term, Unread> {
    let start = cursor.at;
    let minus = sign(cursor);
    if !cursor.peek().is_some_and(begins) {
        let span = Span::new(start, cursor.text.len());
        return Err(Unread::new(
            code::NUMBER_UNREADABLE,
            span,
            no_number(&cursor.text[start..]),
        ));
    }
    let low = minus * number(cursor)?;
    let mut high = None;
    let mut ahead = cursor.clone();
    if range_sign(&mut ahead) {
        let minus = sign(&mut ahead);
        if !ahead.peek().is_some_and(begins) {
            return Err(half_range(cursor.text, start, low));
        }
        high = Some(minus * number(&mut ahead)?);
        *cursor = ahead;
        if range_sign(&mut cursor.clone()) {
            return Err(half_range(cursor.text, start, low));
        }
    }
    after_number(cursor, start)?;
    let unit = unit_after(cursor, sorts)?;
    let span = cursor.since(start);
    if let Some(high) = high
        && high < low
    {
        return Err(Unread::new(
            code::RANGE_BACKWARDS,
            span,
            format!(
                "“{}” runs from high to low.",
                &cursor.text[start..cursor.at]
            ),
        )
        .hint("Write the low end first."));
    }
    Ok(Term {
        low,
        high,
        unit,
        span,
        added: false,
    })
}

/// Goes past what stands between the two numbers of a range: a dash, or "to".
fn range_sign(cursor: &mut Cursor<'_>) -> bool {
    cursor.skip_space();
    if cursor.peek().is_some_and(is_dash) {
        cursor.at += cursor.peek().map_or(0, char::len_utf8);
    } else if cursor.rest().starts_with("to ") {
        cursor.at += "to ".len();
    } else {
        return false;
    }
    cursor.skip_space();
    true
}

/// A range with more or fewer than two ends.
fn half_range(text: &str, start: usize, low: f64) -> Unread {
    let message = if low.is_finite() {
        format!("“{}” is not a range of two numbers.", text[start..].trim())
    } else {
        "This is not a number.".to_owned()
    };
    Unread::new(
        code::NUMBER_UNREADABLE,
        Span::new(start, text.len()),
        message,
    )
    .hint("Write both ends and the unit once: \"45-75 min\".")
}

/// What stands right behind a number must be able to begin a unit.
fn after_number(cursor: &Cursor<'_>, start: usize) -> Result<(), Unread> {
    let mut ahead = cursor.clone();
    ahead.skip_space();
    let joined = ahead.at == cursor.at;
    let refused = ahead
        .peek()
        .is_some_and(|c| begins(c) || matches!(c, '/' | '⁄' | ':' | '_' | '\'' | '’') && joined);
    if !refused {
        return Ok(());
    }
    ahead.take_while(|c| !c.is_whitespace());
    let written = &cursor.text[start..ahead.at];
    Err(Unread::new(
        code::NUMBER_UNREADABLE,
        Span::new(start, ahead.at),
        format!("“{written}” is not a number."),
    )
    .hint("Write a number as 2.5, 2,5, ½, 1½ or 1 1/2, and a thousand as 1000."))
}

/// Reads the unit that follows a number, up to the next number, plus or range dash.
fn unit_after(cursor: &mut Cursor<'_>, sorts: &[Sort]) -> Result<Option<Unit>, Unread> {
    let mut ahead = cursor.clone();
    ahead.skip_space();
    let start = ahead.at;
    let mut end = start;
    while let Some(letter) = ahead.peek() {
        let number_next = begins(letter) && !matches!(letter, '.' | ',');
        if number_next || letter == '+' || (is_dash(letter) && dash_begins_number(&ahead)) {
            break;
        }
        ahead.at += letter.len_utf8();
        if !letter.is_whitespace() {
            end = ahead.at;
        }
    }
    let written = &cursor.text[start..end];
    if written.is_empty() {
        return Ok(None);
    }
    let plain = written.split_whitespace().collect::<Vec<_>>().join(" ");
    let known = unit(&plain);
    if known.is_none() {
        return Err(stranger(
            cursor.text,
            cursor.at,
            Span::new(start, end),
            &plain,
            sorts,
        ));
    }
    cursor.at = end;
    Ok(known)
}

/// Whether a number follows the dash that is next.
fn dash_begins_number(cursor: &Cursor<'_>) -> bool {
    let rest = cursor.rest().trim_start_matches(is_dash).trim_start();
    rest.starts_with(|c: char| begins(c) && !matches!(c, '.' | ','))
}

/// What to say of a unit that is not known.
fn stranger(text: &str, number_end: usize, span: Span, plain: &str, sorts: &[Sort]) -> Unread {
    let first_end = text[span.start..span.end]
        .find(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '('))
        .map_or(span.end, |n| span.start + n);
    let first = &text[span.start..first_end];
    if first_end < span.end && unit(first).is_some() {
        let after = text[first_end..span.end]
            .trim_start_matches([',', ';'])
            .trim();
        return Unread::new(
            code::UNIT_UNKNOWN,
            Span::new(first_end, span.end),
            format!("After the unit stands “{after}”; a quantity is a number and its unit, nothing more."),
        )
        .hint(format!("Write \"{}\".", text[..first_end].trim()));
    }
    if matches!(plain.to_lowercase().as_str(), "pinch" | "pinches") {
        return Unread::new(code::UNIT_UNKNOWN, span, "A pinch is not a measure.")
            .hint("Write \"⅛ tsp\" or grams.");
    }
    let unread = Unread::new(
        code::UNIT_UNKNOWN,
        span,
        format!("“{plain}” is not a unit that is known here."),
    );
    match meant(plain, sorts) {
        Some(meant) if meant.contains(" or ") => unread.hint(format!("Is it {meant}?")),
        Some(meant) => {
            let number = text[..number_end].trim();
            let many = COUNTED
                .iter()
                .find(|(one, _)| *one == meant && number != "1")
                .map_or(meant.as_str(), |(_, many)| many);
            unread.hint(format!("Write \"{number} {many}\"."))
        }
        None => unread.hint(
            "Known are g kg mg oz lb, cup Tbsp tsp fl oz L dL cL mL, °C °F, s min h d, mm cm m in, %.",
        ),
    }
}

#[cfg(test)]
mod tests {
    use crate::measure::read::read_amount;

    #[test]
    fn a_unit_that_is_not_known_leads_to_one_that_fits() {
        let way_out = |text| read_amount(text).err().and_then(|unread| unread.hint);
        let is = |text, hint: &str| assert_eq!(way_out(text).as_deref(), Some(hint), "{text}");
        is("1 pkt", "Write \"1 packet\".");
        is("3 pkg", "Write \"3 packets\".");
        is("3 tb", "Write \"3 Tbsp\".");
        is("3 teasp", "Write \"3 tsp\".");
        is("3 pinch", "Write \"⅛ tsp\" or grams.");
        is("1 t", "Is it Tbsp or tsp?");
    }
}
