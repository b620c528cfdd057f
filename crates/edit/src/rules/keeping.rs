//! Whether what is said of keeping and freezing says how long and how cold.

use super::{Case, Rule};
use crate::code;
use crate::prose::{Spot, words};
use recipe::measure::Quantity;
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[vague];

fn vague(case: &Case) -> Vec<Diagnostic> {
    let place = case
        .passages
        .iter()
        .position(|passage| passage.spot == Spot::Storage);
    let Some((place, passage)) = place.map(|place| (place, &case.passages[place])) else {
        return Vec::new();
    };
    let said = case.said.iter().filter(|said| said.passage == place);
    let (mut times, mut heats) = (0, 0);
    for one in said {
        match one.quantity {
            Quantity::Time(_) => times += 1,
            Quantity::Temperature(_) => heats += 1,
            _ => {}
        }
    }
    let lower = passage.words.to_lowercase();
    // "best on the day", "a week wrapped"
    let in_words = words(&lower).iter().any(|(_, word)| {
        [
            "day",
            "days",
            "week",
            "weeks",
            "month",
            "months",
            "overnight",
        ]
        .contains(word)
    });
    let freezes = lower.contains("freez");
    let hint = "Say where, how many days, and for freezing the temperature: \"Two days in a closed tin; sliced, up to 2 months at -18 °C / 0 °F.\"";
    if times == 0 && !in_words && !passage.words.trim().is_empty() {
        return vec![
            Diagnostic::at(
                code::STORAGE_VAGUE,
                passage.whole(),
                "It is not said how long it keeps, in days.",
            )
            .hint(hint),
        ];
    }
    if freezes && heats == 0 {
        return vec![
            Diagnostic::at(
                code::STORAGE_VAGUE,
                passage.whole(),
                "It is told to freeze it, and not how cold: at -6 °C it keeps a week, at -18 °C for months.",
            )
            .hint(hint),
        ];
    }
    Vec::new()
}
