//! What stands around a recipe: what it makes, times of the whole, notes, and what a page adds.

use super::Part;
use super::seen::Seen;
use crate::import::act;
use crate::import::yields::told;
use crate::measure::read::sentence::{Token, What, count_word, times};

/// What a page has around a recipe.
pub fn is_junk(lower: &str, seen: &Seen<'_>) -> bool {
    let starts = [
        "jump to",
        "print",
        "pin ",
        "pin it",
        "share",
        "skip to",
        "advertisement",
        "save recipe",
        "rate this",
        "subscribe",
        "sign up",
        "follow ",
        "click ",
        "http://",
        "https://",
        "www.",
        "copyright",
        "©",
        "posted ",
        "photo",
        "leave a",
        "tried this",
        "did you make",
        "calories",
        "cuisine",
        "course:",
        "category",
        "keyword",
        "author:",
        "by ",
        "updated",
        "published",
        "this post",
        "home ",
        "home >",
        "recipe by",
        "scroll",
        "watch ",
        "difficulty",
        "tag ",
        "tags",
        "filed under",
        "from the kitchen of",
        "cook mode",
        "us customary",
        "metric",
    ];
    let short = seen.words <= 12;
    let photo_of_dough = lower.starts_with("print") && seen.words > 4;
    (short
        && !photo_of_dough
        && starts.iter().any(|start| lower.starts_with(start))
        && !seen.goes_in()
        && !act::begins_with_order(&seen.tokens))
        || (short
            && (lower.contains("★")
                || lower.contains("☆")
                || lower.contains(" votes")
                || lower.contains(" reviews")
                || lower.contains("affiliate link")
                || lower.contains("all rights reserved")))
        || matches!(
            lower,
            "1x" | "2x"
                | "3x"
                | "1x 2x 3x"
                | "1x2x3x"
                | "metric"
                | "cups"
                | "recipe"
                | "print recipe"
        )
}

/// What people make by the dozen.
pub const MADE: &[&str] = &[
    "loaf",
    "loaves",
    "bun",
    "buns",
    "roll",
    "rolls",
    "knot",
    "knots",
    "braid",
    "braids",
    "plait",
    "plaits",
    "teacake",
    "teacakes",
    "bread",
    "breads",
    "bagel",
    "bagels",
    "pretzel",
    "pretzels",
    "twist",
    "twists",
    "pieces",
    "servings",
    "portions",
    "sheet",
    "slices",
    "wreath",
    "wreaths",
    "boule",
    "boules",
    "batard",
    "baguettes",
    "baguette",
    "pitas",
    "flatbreads",
    "crescents",
    "dozen",
    "people",
    "doughnuts",
    "stollen",
    "pizzas",
    "breadsticks",
    "rounds",
    "cobs",
    "muffins",
    "baps",
    "batch",
    "tin",
    "tins",
    "challahs",
    "brioches",
    "brioche",
    "panettone",
    "focaccia",
];

/// Whether a line says what is made.
pub fn makes(seen: &Seen<'_>, part: Part, in_method: bool) -> bool {
    let lower = seen.lower.as_str();
    let first = seen.tokens.first().map_or("", Token::word);
    let says = matches!(
        first,
        "makes" | "yield" | "yields" | "serves" | "servings" | "makes:"
    ) || lower.starts_with("quantity:")
        || lower.starts_with("recipe makes")
        || lower.starts_with("this makes")
        || lower.starts_with("enough for")
        || lower.starts_with("portions:")
        || lower.contains("makes about ")
        || lower.contains("/ makes ");
    let numbered = seen.tokens.iter().any(|t| {
        matches!(t.what, What::Number(_)) || count_word(t.word()).is_some() || t.word() == "dozen"
    });
    let told = seen.words <= 10 && told(seen.bare.text).is_some();
    if (says && numbered || told) && seen.words <= 16 {
        return true;
    }
    if in_method || part == Part::Notes {
        return false;
    }
    let plain = seen.lower.trim_end_matches('.');
    let last = plain.split_whitespace().last().unwrap_or("");
    let begins = seen.tokens.first().is_some_and(|t| {
        matches!(t.what, What::Number(_)) || count_word(t.word()).is_some() && t.word() != "a"
    }) || lower.starts_with("for ")
        && seen
            .tokens
            .get(1)
            .is_some_and(|t| matches!(t.what, What::Number(_)) || count_word(t.word()).is_some());
    begins && seen.words <= 6 && MADE.contains(&last)
}

/// Whether a line says the times of the whole.
pub fn time_of_all(seen: &Seen<'_>) -> bool {
    let lower = seen.lower.as_str();
    let starts = [
        "prep",
        "cook",
        "total",
        "active",
        "hands-on",
        "hands on",
        "start to finish",
        "ready in",
        "time",
        "rise",
        "rising",
        "proof",
        "proving",
        "rest",
        "bake time",
        "baking time",
        "inactive",
        "chill time",
        "additional time",
        "baking:",
        "bake:",
        "takes",
        "oven time",
        "waiting time",
        "overall",
        "working time",
        "start-to-finish",
        "duration",
    ];
    seen.words <= 14
        && starts.iter().any(|start| lower.starts_with(start))
        && !times(seen.bare.text).is_empty()
        && (lower.contains(':') || lower.contains("time") || seen.words <= 6 && !seen.ends())
}

/// Whether a line announces itself as a note.
pub fn is_note(lower: &str, seen: &Seen<'_>) -> bool {
    [
        "note:",
        "tip:",
        "notes:",
        "tips:",
        "nb:",
        "n.b.",
        "note -",
        "tip -",
        "variation:",
        "storage:",
        "to store:",
        "make ahead:",
        "to freeze:",
        "storing:",
        "make-ahead:",
        "note –",
        "freezing:",
        "*note",
        "hint:",
        "keeps:",
        "ps:",
        "p.s.",
    ]
    .iter()
    .any(|start| lower.starts_with(start))
        && seen.words > 2
}

/// Whether a sentence behind the steps is about keeping.
pub fn is_closing(lower: &str, seen: &Seen<'_>) -> bool {
    let order = act::begins_with_order(&seen.tokens);
    [
        "keeps ",
        "they keep",
        "it keeps",
        "these keep",
        "best eaten",
        "best on the day",
        "leftovers",
        "store in",
        "store the",
        "freezes well",
        "they freeze",
        "to freeze",
        "enjoy",
        "will keep",
        "the loaf keeps",
        "the bread keeps",
    ]
    .iter()
    .any(|start| lower.starts_with(start))
        && (!order || !seen.bare.counted)
}
