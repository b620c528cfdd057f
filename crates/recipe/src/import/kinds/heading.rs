//! The headings of a recipe: of its parts and of what goes in, the method, the notes.

use super::Part;
use super::seen::{Seen, begins_with_amount};
use crate::import::act;
use crate::import::split::Bare;
use crate::measure::read::sentence::{Token, What, times, tokens};

/// The part that a heading's words begin, and whether they are sure of it.
pub fn heading_of(lower: &str) -> Option<(Part, bool)> {
    let plain = lower.trim_matches(|c: char| !c.is_alphanumeric());
    let words: Vec<&str> = plain.split_whitespace().collect();
    let sure = |list: &[&str]| list.contains(&plain);
    if sure(&[
        "ingredients",
        "ingredient list",
        "you will need",
        "you'll need",
        "you’ll need",
        "what you need",
        "what you'll need",
        "what you’ll need",
        "what goes in",
        "shopping list",
        "the ingredients",
        "what you will need",
    ]) || words.len() <= 4 && plain.starts_with("ingredients")
    {
        return Some((Part::Amounts, true));
    }
    if sure(&[
        "method",
        "instructions",
        "directions",
        "steps",
        "preparation",
        "procedure",
        "how to do it",
        "how to make it",
        "what you do",
        "what to do",
        "making it",
        "the method",
        "to make",
        "process",
        "technique",
        "how it is done",
        "how you do it",
        "preparation method",
        "how to",
    ]) || words.len() <= 5
        && words.iter().any(|word| {
            matches!(
                word.trim_matches(|c: char| !c.is_alphabetic()),
                "method" | "instructions" | "directions"
            )
        })
    {
        return Some((Part::Method, true));
    }
    if sure(&[
        "notes",
        "note",
        "tips",
        "tip",
        "storage",
        "to store",
        "variations",
        "recipe notes",
        "baker's notes",
        "make ahead",
        "storing",
        "freezing",
        "to freeze",
        "cook's notes",
        "baker’s notes",
        "cook’s notes",
        "hints",
        "keeping",
    ]) {
        return Some((Part::Notes, true));
    }
    if sure(&[
        "nutrition",
        "nutrition information",
        "nutrition facts",
        "comments",
        "reviews",
        "leave a reply",
        "leave a comment",
        "related",
        "you may also like",
        "equipment",
        "video",
        "share this",
        "about the author",
        "more recipes",
        "nutritional information",
    ]) || plain.ends_with(" comments") && words.len() <= 3
    {
        return Some((Part::Rest, true));
    }
    None
}

/// The words with which headings of parts are made.
pub const PARTS: &[&str] = &[
    "dough",
    "sponge",
    "poolish",
    "biga",
    "levain",
    "starter",
    "preferment",
    "pre-ferment",
    "tangzhong",
    "yudane",
    "filling",
    "topping",
    "glaze",
    "icing",
    "frosting",
    "finish",
    "finishing",
    "crumble",
    "streusel",
    "syrup",
    "wash",
    "crust",
    "soaker",
    "scald",
    "roux",
    "bread",
    "buns",
    "rolls",
    "loaf",
    "loaves",
    "coating",
    "decoration",
    "brine",
    "swirl",
    "custard",
    "butter",
    "paste",
    "mixture",
    "base",
    "final",
    "main",
    "egg",
    "wet",
    "dry",
];

/// Whether a line is the heading of a part: "For the dough:", "Filling", "# Glaze".
pub fn part_heading(seen: &Seen<'_>, next: Option<Bare<'_>>, after_blank: bool) -> bool {
    let text = seen.bare.text;
    let plain = seen.lower.trim_start_matches('#').trim();
    if seen.words == 0 || seen.words > 8 || seen.ends() || next.is_none() {
        return false;
    }
    let numbers = seen
        .tokens
        .iter()
        .any(|t| matches!(t.what, What::Number(_)));
    let day = ["day", "stage", "part", "phase"]
        .contains(&seen.tokens.first().map_or("", Token::word))
        && matches!(seen.tokens.get(1).map(|t| &t.what), Some(What::Number(_)))
        && seen.words <= 5;
    if day && times(text).is_empty() {
        return true;
    }
    let marked = text.ends_with(':') || text.starts_with('#');
    if marked && !(seen.amount && seen.goes_in()) {
        return true;
    }
    if numbers
        || seen.bare.counted
        || seen.bare.bullet && !text.starts_with('#') && !seen.lower.starts_with("for ")
    {
        return false;
    }
    let list_follows = next.is_some_and(|next| begins_with_amount(&tokens(next.text)));
    let named = plain.starts_with("for the ")
        || plain.starts_with("for ")
        || plain.starts_with("to finish")
        || plain.starts_with("to serve")
        || plain.starts_with("to decorate")
        || plain.starts_with("make the ")
        || plain.starts_with("day ");
    if named && seen.words <= 6 && (after_blank || list_follows) && !text.contains(',') {
        return true;
    }
    let of_part = plain
        .split(|c: char| !c.is_alphanumeric() && c != '-')
        .any(|word| PARTS.contains(&word));
    let capitals = text.chars().any(char::is_alphabetic) && !text.chars().any(char::is_lowercase);
    let alone = after_blank || !seen.goes_in() && !seen.amount && !plain.starts_with("all ");
    (of_part && seen.words <= 4 && alone && !act::begins_with_order(&seen.tokens)
        || capitals && after_blank && seen.words <= 6
        || (after_blank
            && seen.words <= 4
            && list_follows
            && !seen.goes_in()
            && !act::begins_with_order(&seen.tokens)))
        && !text.contains(',')
}
