//! Dates in forms that are not read here, so that a refusal can name them and the form to write.

use jiff::civil::Date;

/// The days that a word may mean that is a date in another form: 05.12.2026, 12/05/2026, 5-12-2026, 2026/12/05. None
/// when it is no date, or one in the form that is read.
pub fn in_another_form(word: &str) -> Vec<Date> {
    let word = word.trim_end_matches([',', ';']);
    if word.parse::<Date>().is_ok() {
        return Vec::new();
    }
    let parts: Vec<&str> = word.split(['.', '/', '-']).collect();
    let number = |part: &str| -> Option<i16> {
        let digits =
            (1..=4).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
        digits.then(|| part.parse().ok()).flatten()
    };
    let [one, two, three] = parts[..] else {
        return Vec::new();
    };
    let (Some(first), Some(second), Some(third)) = (number(one), number(two), number(three)) else {
        return Vec::new();
    };
    let day = |year: i16, month: i16, day: i16| {
        Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
    };
    // A year of two digits is one of this century.
    let year = |part: &str, number: i16| match part.len() {
        4 => Some(number),
        2 => Some(2000 + number),
        _ => None,
    };
    let candidates = if one.len() == 4 {
        vec![day(first, second, third)]
    } else {
        let last = year(three, third);
        let both = [(second, first), (first, second)];
        let both = both.map(|(month, date)| last.and_then(|year| day(year, month, date)));
        // With points the day comes first wherever that form is used (common practice).
        if word.contains('.') && both[0].is_some() {
            vec![both[0]]
        } else {
            both.to_vec()
        }
    };
    let mut all: Vec<Date> = candidates.into_iter().flatten().collect();
    all.dedup();
    all
}

/// What is said of such a word: its form, and the one to write.
pub fn named(word: &str) -> String {
    let days: Vec<String> = in_another_form(word).iter().map(Date::to_string).collect();
    format!(
        "{word} is a date with its year in another place than it is read here; write {}",
        days.join(" or ")
    )
}

#[cfg(test)]
mod tests {
    use super::in_another_form;

    #[test]
    fn a_date_is_known_in_other_forms() {
        let told = |word: &str| -> Vec<String> {
            in_another_form(word)
                .iter()
                .map(ToString::to_string)
                .collect()
        };
        assert_eq!(told("05.12.2026"), ["2026-12-05"]);
        assert_eq!(told("5.12.26"), ["2026-12-05"]);
        assert_eq!(told("12.25.2026"), ["2026-12-25"]);
        assert_eq!(told("05/12/2026"), ["2026-12-05", "2026-05-12"]);
        assert_eq!(told("24/12/2026"), ["2026-12-24"]);
        assert_eq!(told("24-12-2026,"), ["2026-12-24"]);
        assert_eq!(told("2026/12/05"), ["2026-12-05"]);
        for none in [
            "2026-12-05",
            "16:00",
            "8.30",
            "1.2.3",
            "loaf",
            "31.2.2026",
            "2026-13-01",
        ] {
            assert_eq!(told(none), Vec::<String>::new(), "{none}");
        }
    }
}
