//! Numbers that are no quantity: "step three", "one of those days", "just a minute", money, ages.

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::SpokenUnit;
use super::number::word;
use crate::measure::read::sentence::Token;

/// Where a quantity stands.
pub(super) struct Words {
    /// Its first token.
    pub first: usize,
    /// The token after its number.
    pub number_end: usize,
    /// The token after all of it.
    pub end: usize,
    /// Its value in its unit.
    pub low: f64,
    /// Its unit.
    pub unit: SpokenUnit,
    /// Whether nothing but "a" stands for the number.
    pub article: bool,
}

/// Words whose number says which one.
const WHICH: &[&str] = &[
    "step",
    "chapter",
    "part",
    "page",
    "number",
    "episode",
    "season",
    "series",
    "channel",
    "square",
    "apartment",
    "flat",
    "room",
    "plan",
    "take",
    "rule",
    "lesson",
    "route",
    "route",
    "cloud",
    "version",
    "volume",
    "phase",
    "question",
    "day",
    "round",
    "catch",
    "bus",
    "line",
    "platform",
    "gate",
    "verse",
    "track",
    "highway",
    "grade",
    "row",
    "top",
    "high",
    "saves",
];

/// Sums of money, years, and what somebody is in two of.
const NOT_OURS: &[&str] = &[
    "minds",
    "euro",
    "euros",
    "dollar",
    "dollars",
    "buck",
    "bucks",
    "cent",
    "cents",
    "quid",
    "pence",
    "penny",
    "pennies",
    "years",
    "year",
    "year's",
    "percent",
    "degrees",
    "stars",
    "calories",
    "kilometres",
    "miles",
    "kids",
    "children",
    "grandchildren",
    "cats",
    "dogs",
    "daughters",
    "sons",
    "sisters",
    "brothers",
    "students",
    "pupils",
    "subscribers",
    "followers",
    "comments",
    "emails",
    "letters",
    "messages",
    "videos",
    "films",
    "episodes",
    "thumbs",
    "birds",
    "cheers",
    "centuries",
    "decades",
    "generations",
    "countries",
    "customers",
    "out",
    "hundredth",
    "thousandth",
];

/// People whose age is told.
const PEOPLE: [&str; 34] = [
    "youngest",
    "eldest",
    "oldest",
    "she",
    "he",
    "who",
    "i",
    "mother",
    "father",
    "mum",
    "mom",
    "dad",
    "grandmother",
    "grandfather",
    "grandma",
    "grandpa",
    "granny",
    "gran",
    "nan",
    "grandad",
    "mam",
    "daughter",
    "son",
    "granddaughter",
    "grandson",
    "wife",
    "husband",
    "sister",
    "brother",
    "aunt",
    "uncle",
    "niece",
    "nephew",
    "neighbour",
];

/// What is halved in talk and on no scale: "half the class laughed".
const HALVED_IN_TALK: [&str; 18] = [
    "class", "time", "people", "room", "family", "audience", "internet", "world", "street",
    "village", "town", "fun", "battle", "day", "night", "kitchen", "story", "table",
];

/// What "one" stands before when it counts nothing.
const ONE_NOTHING: [&str; 25] = [
    "hand", "of", "thing", "day", "more", "another", "reason", "else", "last", "time", "other",
    "who", "that", "way", "after", "by", "i", "you", "we", "they", "he", "she", "it", "with",
    "which",
];

/// What "one" is said to be for when it counts nothing: "that's one for the album".
const KEPT_FOR: [&str; 5] = ["album", "books", "diary", "road", "scrapbook"];

/// What only a person does.
const FEELS: [&str; 8] = [
    "loves", "likes", "hates", "thinks", "says", "reckons", "prefers", "adores",
];

/// What stands before a "one" that counts nothing.
const BEFORE_ONE: [&str; 14] = [
    "this", "that", "no", "which", "each", "every", "any", "only", "big", "little", "good", "next",
    "first", "other",
];

/// Sums of money.
const MONEY: [&str; 12] = [
    "euro", "euros", "dollar", "dollars", "buck", "bucks", "cent", "cents", "quid", "pence",
    "penny", "pennies",
];

/// Where a price ends: "three euros a packet".
pub(super) fn price(all: &[Token], end: usize) -> usize {
    // "four dollars fifty"
    let more = word(all, end + 1);
    let pence = matches!(
        more,
        "ten" | "twenty" | "thirty" | "forty" | "fifty" | "sixty" | "ninety"
    );
    if MONEY.contains(&word(all, end)) && pence {
        return end + 2;
    }
    if MONEY.contains(&word(all, end)) && matches!(word(all, end + 1), "a" | "an" | "per" | "the") {
        end + 3
    } else {
        end
    }
}

/// Whether a word begins something that only looks like a quantity.
pub(super) fn is_one(all: &[Token], at: usize) -> bool {
    let before = |back: usize| at.checked_sub(back).map_or("", |place| word(all, place));
    let next = |more: usize| word(all, at + more);
    match word(all, at) {
        // "two cups of flour and one of milk", "two eggs and one more for the top"
        "one" if before(1) == "and" && next(1) == "of" && measured_before(all, at) => false,
        "one"
            if before(1) == "and"
                && next(1) == "more"
                && matches!(next(2), "for" | "on" | "in") =>
        {
            false
        }
        // "No, make that one fifteen"
        "one" if before(1) == "that" && before(2) == "make" => false,
        "one" => {
            ONE_NOTHING.contains(&next(1))
                || BEFORE_ONE.contains(&before(1))
                || before(1) == "at" && next(1) == "point"
                // "On the one tray"
                || before(1) == "the"
                    && matches!(before(2), "on" | "in" | "for" | "from" | "to")
                    && !super::is_number_word(next(1))
                    && !super::is_unit_word(next(1))
                || next(1) == "at" && next(2) == "a" && next(3) == "time"
                || before(1) == "or" && before(2) == "way"
                || next(1) == "for" && next(2) == "the" && KEPT_FOR.contains(&next(3))
        }
        "two" => next(1) == "of" && next(2) == "us",
        "fifty" => {
            let dash = |at: usize| all.get(at).is_some_and(Token::is_dash);
            next(1) == "fifty"
                || dash(at + 1) && next(2) == "fifty"
                || before(1) == "fifty"
                || at > 1 && dash(at - 1) && before(2) == "fifty"
        }
        "half" => {
            // "half asleep": a half of nothing.
            let whole = [
                "", "the", "of", "a", "an", "it", "this", "that", "your", "my", "our", "is",
                "goes", "now", "in", "cup", "hour", "inch", "dozen", "and", "as", "again", "past",
                "then", "for", "to", "hours", "at", "first", "them", "these", "those", "what",
                "each",
            ];
            let after = next(1);
            // "The other half loves these": whom one lives with.
            if before(1) == "other" && FEELS.contains(&after) {
                return true;
            }
            // "fold it in half", but "in half an hour"
            // and "fold in half of the nuts"
            if before(1) == "in"
                && !matches!(after, "a" | "an")
                && !(after == "of" && next(2) == "the")
                && super::unit::unit_at(all, at + 1, 0.5).is_none()
            {
                return true;
            }
            let of = usize::from(after == "of");
            if next(1 + of) == "the" && HALVED_IN_TALK.contains(&next(2 + of)) {
                return true;
            }
            let known = whole.contains(&after)
                || super::unit::unit_at(all, at + 1, 0.5).is_some()
                || all.get(at + 1).is_some_and(|token| token.word().is_empty())
                || super::number::part(all, at + 1).is_some();
            !known && after.ends_with(['p', 'd', 'y'])
        }
        _ => false,
    }
}

/// Whether a measure of something stands a few words before: "six grams of salt and".
fn measured_before(all: &[Token], at: usize) -> bool {
    (3..=6).any(|back| {
        at.checked_sub(back).is_some_and(|unit| {
            word(all, unit + 1) == "of" && super::unit::unit_at(all, unit, 1.0).is_some()
        })
    })
}

/// Whether a number with what stands around it is no quantity.
pub(super) fn ends_one(all: &[Token], words: &Words) -> bool {
    let before = |back: usize| {
        words
            .first
            .checked_sub(back)
            .map_or("", |place| word(all, place))
    };
    let after = word(all, words.end);
    let bare = words.unit == SpokenUnit::None;
    if bare && !words.article && WHICH.contains(&before(1)) {
        return true;
    }
    if bare && NOT_OURS.contains(&after) {
        return true;
    }
    // "two-faced", "four-legged", "4B"
    if bare
        && let (Some(mark), Some(next)) = (all.get(words.end), all.get(words.end + 1))
        && mark.is_dash()
        && mark.span.end == next.span.start
        && next.word().ends_with("ed")
    {
        return true;
    }
    if bare
        && let (Some(number), Some(next)) = (all.get(words.number_end - 1), all.get(words.end))
        && number.span.end == next.span.start
        && next.word().len() == 1
        && number.word().is_empty()
        && !matches!(next.word(), "x")
    {
        return true;
    }
    // "she was ninety-two when she died", "my granddaughter's seven"
    let told = matches!(before(1), "was" | "is" | "turned" | "turns" | "am");
    let drawn_in = before(1)
        .strip_suffix("'s")
        .or_else(|| before(1).strip_suffix("’s"))
        .is_some_and(|who| PEOPLE.contains(&who))
        || matches!(before(1), "i'm" | "i’m");
    // "she'll be sixty-four in March"
    let will = before(1) == "be"
        && matches!(
            before(2).replace('’', "'").as_str(),
            "she'll" | "he'll" | "i'll"
        );
    if bare && (told && PEOPLE.contains(&before(2)) || drawn_in || will) {
        return true;
    }
    // "twenty-four seven"
    if bare && words.low == 24.0 && matches!(after, "seven" | "7") {
        return true;
    }
    // "two of you wrote in", "three of us"
    if bare && after == "of" && matches!(word(all, words.end + 1), "you" | "us") {
        return true;
    }
    match words.unit {
        // "Half an hour and not a second less"
        SpokenUnit::Time(seconds)
            if words.article
                && seconds <= 60.0
                && before(1) == "not"
                && matches!(after, "less" | "more" | "longer" | "later" | "sooner") =>
        {
            true
        }
        SpokenUnit::Time(seconds) if words.article && seconds <= 60.0 => matches!(
            before(1),
            "just" | "wait" | "me" | "us" | "on" | "hold" | "in" | "hang" | "got" | "every" | "any"
        ),
        // "two-fifths of a degree in chemistry"
        SpokenUnit::Degrees => words.article,
        SpokenUnit::Time(_) if words.article => before(1) == "and" && before(2) == "forever",
        SpokenUnit::Times => {
            let next = word(all, words.end + 1);
            let size = matches!(next, "big" | "large" | "much" | "high" | "tall" | "long");
            words.low >= 20.0 || after == "out" || after == "as" && !size
        }
        SpokenUnit::Percent => {
            words.low >= 100.0
                && matches!(after, "agree" | "sure" | "certain" | "right" | "worth" | "")
        }
        _ => false,
    }
}
