//! Money as people write it: a number and the three letters of its currency, in either order.

use super::Unread;
use super::number::{Cursor, number};
use crate::document::model::Money;
use crate::source::{Span, code};

/// Reads a sum of money: "2.49 EUR", "2,49 EUR", "USD 3.10".
pub fn read_money(text: &str) -> Result<Money, Unread> {
    let whole = Span::new(0, text.len());
    let mut cursor = Cursor::new(text);
    cursor.skip_space();
    let before = word(&mut cursor);
    cursor.skip_space();
    let start = cursor.at;
    let sum = number(&mut cursor)?;
    let digits = &text[start..cursor.at];
    cursor.skip_space();
    let after = word(&mut cursor);
    cursor.skip_space();
    let currency = match (before.as_str(), after.as_str()) {
        (one, "") | ("", one) if is_code(one) => one.to_owned(),
        _ => {
            return Err(Unread::new(
                code::UNIT_UNKNOWN,
                whole,
                "The currency is not said by its three letters, and a sign such as $ stands for several.",
            )
            .hint(format!("Write \"{} EUR\", \"{} USD\", \"{} GBP\" or the letters of yours.", digits.trim(), digits.trim(), digits.trim())));
        }
    };
    if !cursor.rest().is_empty() {
        return Err(Unread::new(
            code::NUMBER_UNREADABLE,
            Span::new(cursor.at, text.len()),
            "More stands here than a sum and its currency.",
        ));
    }
    if sum <= 0.0 {
        return Err(Unread::new(
            code::AMOUNT_NOT_POSITIVE,
            whole,
            "What was paid is nothing.",
        )
        .hint("Write what was paid, or leave the entry out."));
    }
    let decimals = digits
        .rsplit_once(['.', ','])
        .map_or(0, |(_, decimals)| decimals.trim().len());
    Ok(Money {
        sum,
        currency,
        decimals,
    })
}

/// Letters and signs up to a digit or space.
fn word(cursor: &mut Cursor<'_>) -> String {
    cursor
        .take_while(|c| !c.is_ascii_digit() && !c.is_whitespace() && c != '.' && c != ',')
        .to_owned()
}

/// Three capital letters.
fn is_code(word: &str) -> bool {
    word.len() == 3 && word.bytes().all(|letter| letter.is_ascii_uppercase())
}

#[cfg(test)]
mod tests {
    use super::read_money;

    #[test]
    fn letters_before_or_after_and_never_a_sign() {
        for (text, sum, currency, decimals) in [
            ("2.49 EUR", 2.49, "EUR", 2),
            ("2,49 EUR", 2.49, "EUR", 2),
            ("USD 3", 3.0, "USD", 0),
            (" 129 JPY ", 129.0, "JPY", 0),
        ] {
            let money = read_money(text).unwrap_or_else(|e| panic!("{text}: {}", e.message));
            assert!((money.sum - sum).abs() < 1e-12, "{text}");
            assert_eq!(
                (money.currency.as_str(), money.decimals),
                (currency, decimals)
            );
        }
        for text in [
            "2.49",
            "$2.49",
            "2.49 €",
            "2.49 eur",
            "EUR 2 EUR",
            "free",
            "0 EUR",
            "2 EUR a bag",
        ] {
            assert!(read_money(text).is_err(), "{text}");
        }
    }
}
