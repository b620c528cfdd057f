//! Lengths that the author's sentences give: sheets, rings, ropes, and how far apart pieces stand.

use recipe::document::model::Step;

/// A size that a sentence gives, mm.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    /// Rolled out to a rectangle.
    Sheet {
        /// The longer side.
        length: f64,
        /// The other.
        width: f64,
    },
    /// Rolled out to a round of this diameter.
    Round(f64),
    /// Closed to a ring of this outer diameter.
    Ring(f64),
    /// Rolled to this length; the word that the author has for it.
    Rope(f64, String),
    /// Pieces stand this far apart.
    Apart(f64),
    /// This thick.
    Thick(f64),
}

/// Every size in a step's sentence, in the order of reading.
pub fn in_step(step: &Step) -> Vec<Said> {
    in_sentence(&step.text.value)
}

/// A word without the signs around it.
fn bare(word: &str) -> String {
    word.trim_matches(|c: char| matches!(c, ',' | '.' | ';' | ':' | '(' | ')' | '[' | ']'))
        .to_lowercase()
}

fn millimetres_in(unit: &str) -> Option<f64> {
    match unit {
        "mm" => Some(1.0),
        "cm" => Some(10.0),
        "in" | "inch" | "inches" => Some(25.4),
        _ => None,
    }
}

/// "45" and "cm" of "45cm" as two words; "45", "×" and "20" of "45×20" as three.
fn words(sentence: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in sentence.split_whitespace() {
        let kind = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
        let begins = word.starts_with(|c: char| c.is_ascii_digit());
        if !begins {
            out.push(bare(word));
            continue;
        }
        let mut run = String::new();
        for letter in word.chars() {
            if run
                .chars()
                .last()
                .is_some_and(|last| kind(last) != kind(letter))
            {
                out.push(bare(&run));
                run.clear();
            }
            run.push(letter);
        }
        out.push(bare(&run));
    }
    out.retain(|word| !word.is_empty());
    out
}

fn number(word: &str) -> Option<f64> {
    let value: f64 = word.replace(',', ".").parse().ok()?;
    (value > 0.0 && value < 10_000.0).then_some(value)
}

fn in_sentence(sentence: &str) -> Vec<Said> {
    let words = words(sentence);
    let mut found = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let Some((sides, next)) = length_at(&words, at) else {
            at += 1;
            continue;
        };
        // The second half of "30 cm / 12 in" says the same once more.
        let again = at > 0 && words[at - 1] == "/";
        if !again {
            let before = &words[at.saturating_sub(4)..at];
            let after = words.get(next).map_or("", String::as_str);
            found.extend(meant(&sides, before, after));
        }
        at = next;
    }
    found
}

/// One length or two with a sign between them, and the place after it.
fn length_at(words: &[String], at: usize) -> Option<(Vec<f64>, usize)> {
    let word = |place: usize| words.get(place).map_or("", String::as_str);
    let first = number(word(at))?;
    let times = |word: &str| matches!(word, "x" | "×" | "by");
    let mut next = at + 1;
    let mut unit = millimetres_in(word(next));
    if unit.is_some() {
        next += 1;
    }
    let mut sides = vec![first];
    if times(word(next))
        && let Some(second) = number(word(next + 1))
        && let Some(own) = millimetres_in(word(next + 2))
    {
        sides = vec![first * unit.unwrap_or(own) / own, second];
        unit = Some(own);
        next += 3;
    }
    let unit = unit?;
    Some((sides.into_iter().map(|side| side * unit).collect(), next))
}

fn meant(sides: &[f64], before: &[String], after: &str) -> Option<Said> {
    let any = |names: &[&str]| {
        before
            .iter()
            .rev()
            .find(|word| names.contains(&word.trim_end_matches('s')))
            .cloned()
    };
    match (sides, after) {
        ([one], "apart") => return Some(Said::Apart(*one)),
        ([one], "thick") => return Some(Said::Thick(*one)),
        _ => {}
    }
    if any(&["tin", "tray", "pan", "mould", "dish", "rim", "rack"]).is_some() {
        return None;
    }
    match *sides {
        [one, other] => Some(Said::Sheet {
            length: one.max(other),
            width: one.min(other),
        }),
        [one] => match one {
            _ if any(&["ring", "wreath"]).is_some() => Some(Said::Ring(one)),
            _ if any(&["square"]).is_some() => Some(Said::Sheet {
                length: one,
                width: one,
            }),
            _ if any(&["round", "disc", "circle"]).is_some() => Some(Said::Round(one)),
            _ => any(&["rope", "strip", "strand", "log", "stick"])
                .map(|word| Said::Rope(one, word.trim_end_matches('s').to_owned())),
        },
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{Said, in_sentence};

    #[test]
    fn sizes_are_read_as_bakers_write_them() {
        let sheet = |length, width| Said::Sheet { length, width };
        for (sentence, wanted) in [
            (
                "Roll to a sheet of 45 × 20 cm, spread, close to a ring of 28 cm.",
                vec![sheet(450.0, 200.0), Said::Ring(280.0)],
            ),
            ("Roll out to 40x30cm.", vec![sheet(400.0, 300.0)]),
            (
                "Roll out to 30 cm by 40 cm, 5 mm thick.",
                vec![sheet(400.0, 300.0), Said::Thick(5.0)],
            ),
            (
                "Roll to a square of 30 cm / 12 in.",
                vec![sheet(300.0, 300.0)],
            ),
            ("Pat each to a round of 10 in.", vec![Said::Round(254.0)]),
            (
                "Roll the three pieces into ropes of 35 cm, braid them.",
                vec![Said::Rope(350.0, "rope".into())],
            ),
            (
                "Set on the lined tray, 5 cm apart.",
                vec![Said::Apart(50.0)],
            ),
            ("until it stands 2 cm below the rim of the 8 in tin", vec![]),
            (
                "Bake at 180 °C for 36 min in a tin of 21.6 x 11.4 cm.",
                vec![],
            ),
        ] {
            assert_eq!(in_sentence(sentence), wanted, "{sentence}");
        }
    }
}
