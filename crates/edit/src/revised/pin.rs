//! A note to pin under what went out before: each changed figure as a correction, in the fewest words.

use super::figures::{About, Change};

/// The note: "Correction: 250 g of milk in the sponge, not 205 g." None when no reader has to know.
pub fn note(changes: &[Change]) -> Option<String> {
    let mut lines: Vec<String> = Vec::new();
    for change in changes {
        let line = match change.about {
            About::Amount => amount(change),
            About::Figure => figure(change),
            About::Words | About::Follows => None,
        };
        // One figure may stand in several places; it is corrected once.
        lines.extend(line.filter(|line| !lines.contains(line)));
    }
    match lines.as_slice() {
        [] => None,
        [line] => Some(format!("Correction: {line}")),
        lines => Some(format!("Corrections:\n{}", lines.join("\n"))),
    }
}

fn amount(change: &Change) -> Option<String> {
    let label = small(&change.label);
    match (&change.before, &change.after) {
        (Some(before), Some(after)) => Some(format!("{after} of {label}, not {before}.")),
        (None, Some(after)) => Some(format!("{after} of {label}, which was not in the list.")),
        (Some(_), None) => Some(format!("no {label}.")),
        (None, None) => None,
    }
}

fn figure(change: &Change) -> Option<String> {
    let (before, after) = (change.before.as_ref()?, change.after.as_ref()?);
    Some(format!("{}: {after}, not {before}.", change.label))
}

/// A label in the middle of a sentence.
fn small(label: &str) -> String {
    let mut letters = label.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::note;
    use crate::revised::figures::{About, Change};

    fn change(about: About, label: &str, before: Option<&str>, after: Option<&str>) -> Change {
        Change {
            about,
            label: label.to_owned(),
            before: before.map(str::to_owned),
            after: after.map(str::to_owned),
        }
    }

    #[test]
    fn one_figure_is_one_sentence() {
        let milk = change(
            About::Amount,
            "Milk in the sponge",
            Some("205 g"),
            Some("250 g"),
        );
        let share = change(
            About::Follows,
            "Milk in the sponge",
            Some("34 %"),
            Some("42 %"),
        );
        assert_eq!(
            note(&[milk, share]).as_deref(),
            Some("Correction: 250 g of milk in the sponge, not 205 g.")
        );
    }

    #[test]
    fn several_stand_below_each_other_and_words_are_left_out() {
        let changes = [
            change(About::Amount, "Salt in the dough", None, Some("10 g")),
            change(About::Amount, "Honey in the dough", Some("20 g"), None),
            change(About::Figure, "Step 9", Some("36 min"), Some("30 min")),
            change(About::Figure, "Step 9", Some("36 min"), Some("30 min")),
            change(About::Words, "Step 9", Some("Bake."), Some("Bake it.")),
        ];
        let wanted = "Corrections:\n10 g of salt in the dough, which was not in the list.\n\
                      no honey in the dough.\nStep 9: 30 min, not 36 min.";
        assert_eq!(note(&changes).as_deref(), Some(wanted));
        assert_eq!(note(&changes[4..]), None);
    }
}
