//! What a text says it makes: how many, and of what.

use super::act::Act;
use super::clause::Doing;
use crate::measure::read::sentence::{Token, What, count_word, tokens};

/// So many of something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Made {
    /// How many; of a range the low end.
    pub count: u32,
    /// "buns".
    pub name: String,
}

/// Words that are no name of a thing made.
const ASIDE: &[&str] = &[
    "about",
    "approximately",
    "approx",
    "large",
    "small",
    "medium",
    "big",
    "equal",
    "the",
    "dough",
    "each",
    "round",
    "standard",
    "good",
    "lovely",
    "soft",
    "sized",
    "size",
    "around",
    "roughly",
    "of",
    "even",
    "yields",
    "makes",
    "yield",
    "quantity",
    "g",
    "kg",
    "gram",
    "pound",
    "lb",
    "oz",
    "inch",
    "cm",
    "recipe",
    "this",
    "pieces",
    "piece",
];

/// For whom, not what.
const PEOPLE: &[&str] = &[
    "people", "persons", "servings", "serving", "portions", "guests", "slices", "hungry",
];

/// Whether a text says for how many people.
pub fn says_people(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["serves", "serving", "people", "portion"]
        .iter()
        .any(|word| lower.contains(word))
}

/// Without "Makes:" at its beginning and the stop at its end.
pub fn plain(text: &str) -> &str {
    let text = super::split::bare(text).text;
    let lower = text.to_lowercase();
    let starts = [
        "this recipe makes",
        "recipe makes",
        "this makes",
        "it makes",
        "that makes",
        "this will make",
        "it will make",
        "makes",
        "yields",
        "yield",
        "quantity",
        "servings",
        "portions",
        "serves",
        "enough for",
    ];
    let rest = starts
        .iter()
        .find(|start| lower.starts_with(**start))
        .filter(|start| !matches!(**start, "serves" | "enough for" | "servings" | "portions"))
        .and_then(|start| text.get(start.len()..))
        .unwrap_or(text);
    rest.trim_start_matches([':', '-', '–', ' ', '\u{a0}', '='])
        .trim_end_matches(['.', ' '])
}

/// How many pieces a text makes, if it says pieces and not people.
pub fn made(text: &str) -> Option<Made> {
    let all = tokens(text);
    let at = all.iter().position(|t| number(&t.what).is_some())?;
    let mut count = number(&all[at].what)?;
    let mut past = at + 1;
    if all
        .get(past)
        .is_some_and(|t| t.is_dash() || t.word() == "to" || t.word() == "or")
        && all.get(past + 1).is_some_and(|t| number(&t.what).is_some())
    {
        past += 2;
    }
    if all.get(past).is_some_and(|t| t.word() == "dozen") && all[at].word() != "dozen" {
        count *= 12.0;
    }
    if !(1.0..=2000.0).contains(&count) || (count - count.round()).abs() > 1e-9 {
        return None;
    }
    let name = all[past..]
        .iter()
        .take_while(|t| !(t.is(',') || t.is('.') || t.is('(') || t.is(';')) || t.is_dash())
        // "3 pieces of 215 g each and round them".
        .take_while(|t| t.word() != "and")
        .map(Token::word)
        .find(|word| word.len() > 2 && !ASIDE.contains(word) && count_word(word).is_none());
    if name.is_some_and(|name| PEOPLE.contains(&name)) || name.is_none() && says_people(text) {
        return None;
    }
    let name = name.or_else(|| {
        let parts = ["piece", "pieces", "portions", "parts", "about"];
        all.iter()
            .any(|token| parts.contains(&token.word()))
            .then_some("pieces")
    })?;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 1 and 2000"
    )]
    Some(Made {
        count: count as u32,
        name: name.to_owned(),
    })
}

/// The number of a token.
fn number(what: &What) -> Option<f64> {
    match what {
        What::Number(value) => Some(*value),
        What::Word(word) => count_word(word).filter(|_| word != "another"),
        What::Mark(_) => None,
    }
}

/// How many of what: as the text says, as the dough is divided, or one.
pub fn count(
    makes: Option<&str>,
    title: Option<&str>,
    told: Option<Made>,
    doings: &[Doing],
) -> (Made, bool) {
    let said = makes.and_then(made).or(told);
    let shaped = || {
        doings
            .iter()
            .filter(|doing| matches!(doing.act, Act::Divide | Act::Shape))
    };
    // Ropes that are plaited are not what is made of them.
    let plaits = shaped().any(|doing| {
        let lower = doing.sentence.to_lowercase();
        ["plait", "braid"].iter().any(|word| lower.contains(word))
            && ["rope", "strand", "strip"]
                .iter()
                .any(|word| lower.contains(word))
    });
    let divided = shaped()
        .filter_map(named)
        .next_back()
        .or_else(|| shaped().filter(|_| !plaits).find_map(divided));
    let noun = title.map(str::to_lowercase).and_then(|title| {
        title
            .split(|c: char| !c.is_alphanumeric())
            .rev()
            .find(|word| {
                [
                    "loaf",
                    "bread",
                    "braid",
                    "plait",
                    "buns",
                    "rolls",
                    "knots",
                    "wreath",
                    "baguettes",
                    "bagels",
                    "teacakes",
                    "brioche",
                    "focaccia",
                ]
                .contains(word)
            })
            .map(str::to_owned)
    });
    if let Some(made) = said {
        // A word of another language for pieces gives way to the title's.
        let name = if made.name.len() <= 3 {
            noun.unwrap_or(made.name)
        } else {
            made.name
        };
        return (
            Made {
                count: made.count,
                name,
            },
            true,
        );
    }
    let ropes = |made: &Made| ["ropes", "strands", "strips"].contains(&made.name.as_str());
    match divided {
        Some(made) if !ropes(&made) => {
            let thing = is_piece(&made.name) && made.name != "pieces" && made.name != "balls";
            let name = if thing {
                made.name
            } else {
                noun.unwrap_or_else(|| "pieces".to_owned())
            };
            (
                Made {
                    count: made.count,
                    name,
                },
                true,
            )
        }
        _ => (
            Made {
                count: 1,
                name: noun.unwrap_or_else(|| "loaf".to_owned()),
            },
            false,
        ),
    }
}

/// What people make, in the plural, apart from pieces.
const THINGS: [&str; 17] = [
    "loaves",
    "buns",
    "rolls",
    "plaits",
    "braids",
    "knots",
    "baguettes",
    "bagels",
    "wreaths",
    "rings",
    "breads",
    "rounds",
    "boules",
    "teacakes",
    "pretzels",
    "twists",
    "crescents",
];

/// One of them.
const THING: [&str; 7] = ["loaf", "plait", "braid", "wreath", "ring", "boule", "bread"];

/// So many things by their name, in a sentence: "plait two loaves", "shape about 30 buns".
fn named(doing: &Doing) -> Option<Made> {
    let all = tokens(&doing.sentence);
    things_in(&all, &THINGS).filter(|made| made.count > 1)
}

/// The first number with a thing that people make within two words behind it.
fn things_in(all: &[Token], things: &[&str]) -> Option<Made> {
    (0..all.len()).find_map(|at| {
        let value = number(&all[at].what)?;
        let each = at.checked_sub(2).is_some_and(|before| {
            all[before..at]
                .iter()
                .any(|token| matches!(token.word(), "each" | "every"))
        });
        let name = all[at + 1..]
            .iter()
            .take(3)
            .take_while(|token| !token.word().is_empty())
            .find(|token| things.contains(&token.word()))?;
        let whole = (value - value.round()).abs() < 1e-9 && (1.0..=2000.0).contains(&value);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 1 and 2000"
        )]
        (!each && whole).then(|| Made {
            count: value as u32,
            name: name.word().to_owned(),
        })
    })
}

/// What a sentence says is made: "my mother's bread makes two round loaves".
pub fn told(sentence: &str) -> Option<Made> {
    let all = tokens(sentence);
    let at = all
        .iter()
        .position(|token| matches!(token.word(), "makes" | "yields" | "gives"))?;
    let short = all.len() <= 16 && crate::measure::read::sentence::times(sentence).is_empty();
    let of = |things: &[&str]| things_in(&all[at..], things);
    of(&THINGS)
        .or_else(|| of(&THING).filter(|made| made.count == 1))
        .filter(|_| short)
}

/// How many pieces of dough each of the things made is put together of: one loaf of three pieces, a plait of four
/// ropes; one where the text does not divide it so.
pub fn pieces_of_each(made: &Made, doings: &[Doing]) -> u32 {
    const MOST: u32 = 9;
    let mut divides = doings
        .iter()
        .filter(|doing| doing.act == Act::Divide)
        .filter_map(divided);
    let pieces = |part: &Made| {
        [
            "pieces", "balls", "portions", "parts", "ropes", "strands", "strips",
        ]
        .contains(&part.name.as_str())
    };
    let part = divides.next().filter(pieces).map_or(1, |part| part.count);
    let each = part
        .checked_div(made.count)
        .filter(|_| part.is_multiple_of(made.count));
    each.filter(|each| (2..=MOST).contains(each) && made.count <= 4)
        .unwrap_or(1)
}

/// The grams that a text says each piece of dough weighs, where that is near what the dough gives: "into 3 pieces of
/// about 235 g each", "(85 g each)".
pub fn piece_said(text: &str, gives_g: f64) -> Option<f64> {
    let all = tokens(text);
    (0..all.len()).find_map(|at| {
        let What::Number(value) = all[at].what else {
            return None;
        };
        let grams = match all.get(at + 1)?.word() {
            "g" | "grams" | "gram" => value,
            "oz" | "ounces" | "ounce" => value * 28.349_523,
            _ => return None,
        };
        let before = at.saturating_sub(6);
        let near = all[before..(at + 5).min(all.len())].iter().map(Token::word);
        let mut near = near.filter(|word| !word.is_empty());
        let each =
            near.any(|word| matches!(word, "each" | "apiece" | "pieces" | "portions" | "balls"));
        (each && (grams / gives_g - 1.0).abs() < 0.25).then_some(grams)
    })
}

/// Into how many pieces a sentence divides the dough.
fn divided(doing: &Doing) -> Option<Made> {
    const BEFORE: [&str; 7] = [
        "into ",
        "cut ",
        "form ",
        "shape ",
        "make ",
        "divide in ",
        "cut in ",
    ];
    let lower = doing.sentence.to_lowercase();
    let places = BEFORE
        .iter()
        .filter_map(|word| lower.find(word).map(|at| at + word.len()));
    let mut rest = places.filter_map(|at| doing.sentence.get(at..));
    if doing.act == Act::Shape {
        // "Form 10 balls", but not "roll into a ball".
        return rest
            .filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
            .find_map(made)
            .filter(|made| made.count > 1 && is_piece(&made.name));
    }
    rest.find_map(|rest| {
        let number = rest.split(|c: char| !c.is_alphanumeric()).next()?;
        made(rest).or_else(|| made(&format!("{number} pieces")))
    })
}

/// Whether a word names what a dough is divided into.
fn is_piece(name: &str) -> bool {
    [
        "rolls",
        "buns",
        "loaves",
        "balls",
        "rounds",
        "baguettes",
        "knots",
        "pieces",
        "boules",
        "bagels",
        "pretzels",
    ]
    .contains(&name)
}

#[cfg(test)]
mod tests {
    use super::{made, plain};

    #[test]
    fn what_is_made_is_counted() {
        for (text, count, name) in [
            ("12 buns", 12, "buns"),
            ("two large loaves", 2, "loaves"),
            ("one sheet", 1, "sheet"),
            ("a dozen rolls", 12, "rolls"),
            ("10–12 rolls", 10, "rolls"),
        ] {
            let made = made(text).expect("it says so");
            assert_eq!((made.count, made.name.as_str()), (count, name), "{text}");
        }
        assert_eq!(made("serves 8"), None);
        assert_eq!(plain("Makes one sheet."), "one sheet");
        assert_eq!(plain("Yield: 15 rolls"), "15 rolls");
    }
}
