//! What each line of a pasted text is: title, heading, ingredient, step and so on.

use super::act;
use super::line::read_line;
use super::model::{Line, LineKind, Mark, Reading};
use super::split::{Bare, Raw, bare};
use crate::larder::Larder;
use crate::measure::read::sentence::{Token, What, count_word, times, tokens};
use std::collections::BTreeMap;

/// Which part of a text a line stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// Before anything of the recipe.
    Start,
    /// Among the things that go in.
    Amounts,
    /// Among the things done.
    Method,
    /// After it: notes.
    Notes,
    /// After it: what is no recipe.
    Rest,
}

/// Every line with its kind, in order; `said` has those that somebody has said, by number.
pub fn kinds(raws: &[Raw<'_>], said: &BTreeMap<usize, LineKind>, larder: &Larder) -> Vec<Line> {
    let mut part = Part::Start;
    let mut titled = false;
    let has_list = raws.iter().any(|raw| {
        heading_of(&bare(raw.text).text.to_lowercase())
            .is_some_and(|(part, _)| part == Part::Amounts)
    }) || raws.iter().filter(|raw| like_an_amount(raw)).count() >= 2;
    let mut lines: Vec<Line> = Vec::with_capacity(raws.len());
    for (index, raw) in raws.iter().enumerate() {
        let seen = Seen::new(raw, larder);
        let next = raws[index + 1..]
            .iter()
            .find(|raw| !raw.text.trim().is_empty());
        let next = next.map(|raw| bare(raw.text));
        let after_blank = index == 0 || raws[index - 1].text.trim().is_empty();
        let kind = kind(&seen, &mut part, &mut titled, next, after_blank, has_list);
        let kind = said.get(&raw.number).copied().unwrap_or(kind);
        part = part_after(kind, part);
        lines.push(line(raw, kind, &seen));
    }
    lines
}

/// The part that a line of this kind leaves behind, when somebody has said what it is.
const fn part_after(kind: LineKind, part: Part) -> Part {
    match (kind, part) {
        (LineKind::Ingredient, Part::Start) => Part::Amounts,
        (LineKind::Step, Part::Start | Part::Amounts) => Part::Method,
        _ => part,
    }
}

/// A line and what can be seen of it.
struct Seen<'t> {
    bare: Bare<'t>,
    lower: String,
    tokens: Vec<Token>,
    words: usize,
    /// Whether an amount begins it.
    amount: bool,
    read: (Mark, Option<String>, Vec<Reading>),
}

impl<'t> Seen<'t> {
    fn new(raw: &Raw<'t>, larder: &Larder) -> Self {
        let bare = bare(raw.text);
        let tokens = tokens(bare.text);
        let words = tokens
            .iter()
            .filter(|t| matches!(t.what, What::Word(_) | What::Number(_)))
            .count();
        let read = if bare.text.is_empty() || words > 40 {
            (Mark::NotUnderstood, None, Vec::new())
        } else {
            read_line(bare.text, larder)
        };
        Self {
            lower: bare.text.to_lowercase(),
            amount: begins_with_amount(&tokens),
            bare,
            words,
            tokens,
            read,
        }
    }

    /// Whether it can be a thing that goes in: something of the larder is in it, or an amount.
    fn goes_in(&self) -> bool {
        let known = self.read.2.iter().any(|reading| reading.key.is_some());
        let unit = self.read.2.iter().any(|reading| {
            reading.amount.as_ref().is_some_and(|amount| {
                amount
                    .pieces
                    .iter()
                    .any(|piece| piece.unit != super::model::LineUnit::Number)
            })
        });
        self.words <= 30 && (known || self.amount && unit)
    }

    /// Whether it is written as a sentence that says what is done.
    fn orders(&self) -> bool {
        let heavy =
            !times(self.bare.text).is_empty() || self.tokens.iter().any(|t| t.word() == "oven");
        act::begins_with_order(&self.tokens)
            || (heavy && !self.amount && self.words >= 4 && act::act(&self.tokens).is_some())
    }

    /// Whether it ends as sentences end.
    fn ends(&self) -> bool {
        self.bare.text.ends_with(['.', '!', '?', '…'])
    }
}

/// Whether an amount begins a line: a number, "a handful", "half a litre".
fn begins_with_amount(all: &[Token]) -> bool {
    let past = all
        .iter()
        .position(|t| {
            !matches!(
                t.word(),
                "about"
                    | "approx"
                    | "scant"
                    | "heaped"
                    | "generous"
                    | "around"
                    | "approximately"
                    | "roughly"
            )
        })
        .unwrap_or(0);
    let Some(first) = all.get(past) else {
        return false;
    };
    match &first.what {
        What::Number(_) => true,
        What::Word(word) => {
            let next = all.get(past + 1).map_or("", Token::word);
            matches!(
                word.as_str(),
                "half" | "pinch" | "knob" | "handful" | "dash" | "splash"
            ) || count_word(word).is_some() && !matches!(word.as_str(), "a" | "an" | "another")
                || matches!(word.as_str(), "a" | "an")
                    && matches!(
                        next,
                        "little"
                            | "pinch"
                            | "knob"
                            | "handful"
                            | "dash"
                            | "splash"
                            | "few"
                            | "small"
                            | "large"
                            | "big"
                            | "cup"
                            | "teaspoon"
                            | "tablespoon"
                            | "pint"
                            | "quarter"
                            | "half"
                            | "drop"
                            | "bit"
                            | "good"
                            | "generous"
                            | "packet"
                            | "sachet"
                            | "stick"
                            | "couple"
                            | "dozen"
                    )
        }
        What::Mark(_) => false,
    }
}

/// The part that a heading's words begin, and whether they are sure of it.
fn heading_of(lower: &str) -> Option<(Part, bool)> {
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
const PARTS: &[&str] = &[
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

fn kind(
    seen: &Seen<'_>,
    part: &mut Part,
    titled: &mut bool,
    next: Option<Bare<'_>>,
    after_blank: bool,
    has_list: bool,
) -> LineKind {
    let lower = seen.lower.as_str();
    if seen.bare.text.is_empty() {
        return LineKind::Blank;
    }
    if !lower.chars().any(char::is_alphanumeric) || is_junk(lower, seen) {
        return LineKind::Other;
    }
    if let Some((begins, true)) = heading_of(lower) {
        *part = begins;
        return LineKind::Heading;
    }
    if *part == Part::Rest {
        return LineKind::Other;
    }
    let in_method = matches!(part, Part::Method);
    if makes(seen, *part, in_method) {
        return LineKind::Makes;
    }
    if !in_method && time_of_all(seen) {
        return LineKind::Time;
    }
    if is_note(lower, seen) {
        return LineKind::Note;
    }
    if !*titled
        && *part == Part::Start
        && !seen.orders()
        && !(seen.amount && seen.goes_in())
        && seen.words <= 14
    {
        *titled = true;
        return LineKind::Title;
    }
    match part {
        Part::Start => start(seen, part, next, after_blank, has_list),
        Part::Amounts => amounts(seen, part, next, after_blank),
        Part::Method => {
            // A second recipe part: a heading, then things that go in.
            if part_heading(seen, next, after_blank) {
                if next.is_some_and(|next| begins_with_amount(&tokens(next.text)) && !next.counted)
                {
                    *part = Part::Amounts;
                }
                return LineKind::Heading;
            }
            if after_blank && is_closing(lower, seen) {
                return LineKind::Note;
            }
            LineKind::Step
        }
        Part::Notes => LineKind::Note,
        Part::Rest => LineKind::Other,
    }
}

/// Whether a line is written as one of a list of things that go in.
fn like_an_amount(raw: &Raw<'_>) -> bool {
    let bare = bare(raw.text);
    let all = tokens(bare.text);
    let units = [
        "g",
        "kg",
        "ml",
        "cup",
        "cups",
        "tbsp",
        "tsp",
        "teaspoon",
        "teaspoons",
        "tablespoon",
        "tablespoons",
        "dl",
        "l",
        "oz",
        "lb",
        "pound",
        "pounds",
        "egg",
        "eggs",
        "large",
        "litre",
        "packet",
        "sachet",
    ];
    !bare.counted
        && all.len() <= 24
        && begins_with_amount(&all)
        && times(bare.text).is_empty()
        && all
            .iter()
            .take(8)
            .any(|token| units.contains(&token.word()))
}

/// A line before the recipe has begun.
fn start(
    seen: &Seen<'_>,
    part: &mut Part,
    next: Option<Bare<'_>>,
    after_blank: bool,
    has_list: bool,
) -> LineKind {
    if part_heading(seen, next, after_blank) {
        *part = Part::Amounts;
        return LineKind::Heading;
    }
    if seen.goes_in() && (seen.amount || seen.bare.bullet) && !(seen.orders() && seen.ends()) {
        *part = Part::Amounts;
        return LineKind::Ingredient;
    }
    let works =
        !has_list && seen.orders() && (act::act(&seen.tokens).is_some() || seen.bare.counted);
    if works && (begins_here(seen) || seen.bare.counted) {
        *part = Part::Method;
        return LineKind::Step;
    }
    LineKind::About
}

/// Whether a sentence before any list begins the work itself: it names an amount, a time, or
/// begins with a verb of the kitchen.
fn begins_here(seen: &Seen<'_>) -> bool {
    let first = seen.tokens.first().map_or("", Token::word);
    act::is_verb(first)
        || seen
            .tokens
            .iter()
            .any(|t| matches!(t.what, What::Number(_)))
}

/// A line among the things that go in.
fn amounts(
    seen: &Seen<'_>,
    part: &mut Part,
    next: Option<Bare<'_>>,
    after_blank: bool,
) -> LineKind {
    if part_heading(seen, next, after_blank) {
        return LineKind::Heading;
    }
    let sentence = seen.ends() && seen.words >= 5;
    let works = seen.orders() && act::act(&seen.tokens).is_some();
    let listed = seen.amount && !seen.bare.counted;
    let method = (seen.bare.counted && works)
        || (!listed && works && (sentence || after_blank || !seen.goes_in()))
        || (!listed && sentence && (after_blank || seen.words >= 8))
        || (listed && sentence && seen.words >= 12 && after_blank);
    if method {
        *part = Part::Method;
        return LineKind::Step;
    }
    LineKind::Ingredient
}

/// Whether a line is the heading of a part: "For the dough:", "Filling", "# Glaze".
fn part_heading(seen: &Seen<'_>, next: Option<Bare<'_>>, after_blank: bool) -> bool {
    let text = seen.bare.text;
    let plain = seen.lower.trim_start_matches('#').trim();
    if seen.words == 0 || seen.words > 8 || seen.ends() || next.is_none() {
        return false;
    }
    let numbers = seen
        .tokens
        .iter()
        .any(|t| matches!(t.what, What::Number(_)));
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
    (of_part && seen.words <= 4 && after_blank && !act::begins_with_order(&seen.tokens)
        || capitals && after_blank && seen.words <= 6
        || (after_blank
            && seen.words <= 4
            && list_follows
            && !seen.goes_in()
            && !act::begins_with_order(&seen.tokens)))
        && !text.contains(',')
}

/// What a page has around a recipe.
fn is_junk(lower: &str, seen: &Seen<'_>) -> bool {
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
const MADE: &[&str] = &[
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
fn makes(seen: &Seen<'_>, part: Part, in_method: bool) -> bool {
    let lower = seen.lower.as_str();
    let first = seen.tokens.first().map_or("", Token::word);
    let says = matches!(
        first,
        "makes" | "yield" | "yields" | "serves" | "servings" | "makes:"
    ) || lower.starts_with("quantity:")
        || lower.starts_with("recipe makes")
        || lower.starts_with("this makes")
        || lower.starts_with("enough for")
        || lower.starts_with("portions:");
    let numbered = seen.tokens.iter().any(|t| {
        matches!(t.what, What::Number(_)) || count_word(t.word()).is_some() || t.word() == "dozen"
    });
    if says && numbered && seen.words <= 16 {
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
fn time_of_all(seen: &Seen<'_>) -> bool {
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
fn is_note(lower: &str, seen: &Seen<'_>) -> bool {
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
fn is_closing(lower: &str, seen: &Seen<'_>) -> bool {
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

/// A line of the text, with what was read of it.
fn line(raw: &Raw<'_>, kind: LineKind, seen: &Seen<'_>) -> Line {
    let (mark, reason, readings) = if kind == LineKind::Ingredient {
        seen.read.clone()
    } else {
        (Mark::Understood, None, Vec::new())
    };
    Line {
        number: raw.number,
        span: raw.span,
        text: raw.text.to_owned(),
        kind,
        mark,
        reason,
        readings,
    }
}

/// A line of structured data whose kind is known.
pub fn plain_line(number: usize, text: &str, kind: LineKind) -> Line {
    Line {
        number,
        span: crate::source::Span::default(),
        text: text.to_owned(),
        kind,
        mark: Mark::Understood,
        reason: None,
        readings: Vec::new(),
    }
}

/// An ingredient of structured data.
pub fn as_ingredient(number: usize, text: &str, larder: &Larder) -> Line {
    let (mark, reason, readings) = read_line(bare(text).text, larder);
    Line {
        mark,
        reason,
        readings,
        ..plain_line(number, text, LineKind::Ingredient)
    }
}
