//! A deed that is told at a moment: "when it comes out, brush it", "pour the water in just before it is done".
//!
//! The moment and the deed are each a point of the recipe's road (`points`). What is said puts one before or after
//! the other, and it is another order when no pair of them in one part of the recipe lies that way.

mod breads;
mod foil;
mod now;
mod rows;

use super::code;
use super::finding::{Finding, Kind};
use super::heard::{Heard, Mood, denies, is_not_told};
use super::lit::is_kept_off;
use super::moments::event;
use super::points::{Point, deed, main_stage, uses, waiting};
use super::things::Sort;
use super::track::Track;
use breads::of_named_breads;
use foil::foil_first;
use now::{
    from_the_start, in_the_course, now_is_the_moment, only_now, slashed_late, this_is_where,
    told_now,
};
use recipe::document::model::Action;
use recipe::source::{Code, Span};
use rows::one_then_other;

/// How the deed stands to the moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stands {
    /// After it.
    After,
    /// Before it.
    Before,
    /// At it, or right before.
    At,
}

/// A moment is told in so many words.
const MOMENT_WORDS: usize = 10;

/// A deed is told so many words before its moment, and so many behind.
const DEED_BEFORE: usize = 16;
const DEED_BEHIND: usize = 14;

/// Who does at a moment what needs longer than this before it does it too late, in minutes; our own choice.
const TOO_SHORT_MIN: f64 = 9.0;

/// A longer sentence is meant only where its deed stands, and so is one that has two halves.
const LONG_SENTENCE: usize = 45;
const NEAR_BEHIND: usize = 12;

/// Words before "before" by which it is right before.
const SOON: [&str; 5] = ["just", "right", "minute", "second", "moment"];

/// Everything that is told at another moment, on sentences that nothing else was found on.
pub(super) fn anchored(heard: &Heard, track: &Track, found: &[Finding]) -> Vec<Finding> {
    let mut all = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate() {
        let whole = heard.speech.sentence_span(sentence);
        let span = whole;
        let known = found.iter().any(|own| {
            matches!(own.kind, Kind::Order | Kind::TooLate)
                && own
                    .within
                    .is_some_and(|own| own.start < span.end && span.start < own.end)
        });
        if known || heard.asks(sentence) || heard.story_of(sentence) > 5.0 {
            continue;
        }
        let hit = (first..end)
            .filter(|at| heard.frame(*at) == Mood::Here)
            .find_map(|at| Some((at, at_moment(heard, first, at, end)?)))
            .or_else(|| Some((end - 1, one_then_other(heard, first, end)?)));
        let Some((at, (message, kind, code))) = hit else {
            continue;
        };
        // Where nothing parts sentences, the words near by are meant.
        let words = &heard.speech.words;
        let joined = at > first && matches!(words[at - 1].lower.as_str(), "and" | "so" | "but");
        let span = if end - first > LONG_SENTENCE || joined {
            let to = end.min(at + NEAR_BEHIND);
            Span::new(words[at].span.start, words[to - 1].span.end)
        } else {
            span
        };
        all.push(
            Finding::at(heard, track, kind, code, span, &message)
                .hint("Say it in the recipe’s order."),
        );
    }
    all
}

fn lower<'a>(heard: &'a Heard, at: usize, end: usize) -> &'a str {
    heard
        .speech
        .words
        .get(at)
        .filter(|_| at < end)
        .map_or("", |word| word.lower.as_str())
}

/// How an anchor at a word puts the deed to its moment, and where the moment begins.
fn anchor(heard: &Heard, first: usize, at: usize, end: usize) -> Option<(Stands, usize)> {
    let word = |n: usize| lower(heard, at + n, end);
    let before = |back: usize| {
        at.checked_sub(back)
            .filter(|n| *n >= first)
            .map_or("", |n| lower(heard, n, end))
    };
    Some(match word(0) {
        "when" | "once" if !matches!(word(1), "you" | "i" | "in" | "or" | "a" | "over") => {
            (Stands::After, at + 1)
        }
        // "When I switch the mixer on"
        "when" if matches!(word(2), "switch" | "start" | "turn") && word(1) != "the" => {
            (Stands::At, at + 2)
        }
        // "When you take it out in the morning"
        "when" | "once" if matches!(word(2), "take" | "get" | "bring" | "pull" | "lift") => {
            (Stands::After, at + 2)
        }
        "after" if !matches!(word(1), "that" | "a" | "you" | "about" | "is") => {
            (Stands::After, at + 1)
        }
        "now" if word(1) == "that" => (Stands::After, at + 2),
        // "In the morning you work the raisins in"; "in the last minute of mixing"
        "in" | "next"
            if word(1) == "the" && word(2) == "morning"
                || word(0) == "next" && word(1) == "morning" =>
        {
            (Stands::After, at)
        }
        "in" | "for"
            if word(1) == "the"
                && matches!(word(2), "last" | "final")
                && matches!(word(3), "minute" | "minutes" | "moments" | "bit") =>
        {
            (Stands::After, at)
        }
        "while" | "whilst" if (1..=3).any(|n| matches!(word(n), "hot" | "warm")) => {
            (Stands::After, at + 1)
        }
        "until" | "till" => {
            let held = heard.speech.words[first..at].iter().any(|word| {
                denies(&word.lower) && word.lower != "no"
                    || matches!(word.lower.as_str(), "wait" | "waits" | "hold" | "save")
            });
            // "The water I leave until the crust has some colour"
            let back = matches!(before(1), "back" | "out" | "aside")
                && (2..=5).any(|n| matches!(before(n), "keep" | "leave" | "hold" | "put" | "set"));
            let off = is_kept_off(&heard.speech.words[first..at]);
            if !held && !back && !off && !matches!(before(1), "leave" | "keep") {
                return None;
            }
            (Stands::After, at + 1)
        }
        "before" if word(1) != "that" => {
            let soon = (1..=4).any(|back| SOON.contains(&before(back)));
            (if soon { Stands::At } else { Stands::Before }, at + 1)
        }
        "at" if matches!(word(1), "the") && word(2) == "end" => (Stands::At, at + 2),
        "moment" | "minute"
            if before(1) == "the" && !matches!(word(1), "to" | "you" | "when" | "before") =>
        {
            (Stands::At, at + 1)
        }
        "soon" if before(1) == "as" && word(1) == "as" => (Stands::After, at + 2),
        "as" if word(1) != "soon" && before(1) != "soon" => {
            let begins = (2..=4).any(|n| {
                matches!(
                    word(n),
                    "goes"
                        | "go"
                        | "put"
                        | "starting"
                        | "start"
                        | "slide"
                        | "comes"
                        | "turn"
                        | "switch"
                )
            });
            if !begins {
                return None;
            }
            (Stands::At, at + 1)
        }
        _ => return None,
    })
}

/// What is wrong with the deed of an anchor at a word.
fn at_moment(heard: &Heard, first: usize, at: usize, end: usize) -> Option<(String, Kind, Code)> {
    let words = &heard.speech.words;
    if let Some(told) = now_is_the_moment(heard, first, at, end)
        .or_else(|| only_now(heard, first, at, end))
        .or_else(|| this_is_where(heard, first, at, end))
        .or_else(|| slashed_late(heard, first, at, end))
        .or_else(|| from_the_start(heard, first, at, end))
        .or_else(|| foil_first(heard, first, at, end))
        .or_else(|| in_the_course(heard, first, at, end))
        .or_else(|| told_now(heard, first, at, end))
    {
        return Some(told);
    }
    let (stands, begin) = anchor(heard, first, at, end)?;
    if begin >= end {
        return None;
    }
    let clause = words[begin].clause;
    let stop = (begin + 1..(begin + MOMENT_WORDS).min(end))
        .find(|n| {
            words[*n].clause != clause
                || *n >= begin + 2
                    && matches!(
                        words[*n].lower.as_str(),
                        "you" | "i" | "we" | "that's" | "then" | "do" | "does"
                    )
        })
        .unwrap_or((begin + MOMENT_WORDS).min(end));
    let moments = event(heard, begin, stop);
    if moments.is_empty() {
        return None;
    }
    // The deed stands before its moment, where the sentence does not begin with the moment.
    let from = first.max(at.saturating_sub(DEED_BEFORE));
    let opens = words[first..at].iter().all(|word| {
        matches!(
            word.lower.as_str(),
            "and" | "so" | "now" | "right" | "then" | "well" | "okay" | "but" | "just" | "only"
        )
    });
    // "It rises eighty minutes, and when they are done you fold it": what is to be done stands behind.
    let opens =
        opens || at > first && matches!(lower(heard, at - 1, end), "and" | "so" | "but" | "then");
    let ahead = (stop..(stop + 3).min(end)).any(|n| words[n].lower == "that's");
    let behind = (stop, (stop + DEED_BEHIND).min(end));
    // "Into the oven, and let them rise once they're baked": the clause right before is meant first.
    let clause_begin = (from..at)
        .rev()
        .find(|n| words[*n].lower == "and" || words[*n].clause != words[at - 1].clause)
        .map_or(from, |n| n + 1);
    // "The oven goes on now, so it's hot when the braid goes in": the moment is of what it is for.
    let purpose = clause_begin > from && lower(heard, clause_begin, end) == "so";
    let places = if opens || ahead {
        vec![behind]
    } else if purpose {
        vec![(clause_begin, at)]
    } else {
        vec![(clause_begin, at), (from, at), behind]
    };
    let until = matches!(lower(heard, at, end), "until" | "till");
    // "I never turn it on before the bread is in": not before is after.
    let not_before = stands == Stands::Before
        && words[clause_begin..at]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "don't" | "never" | "not"))
        && !words[clause_begin..at]
            .iter()
            .any(|word| word.lower == "forget");
    let stands = if not_before { Stands::After } else { stands };
    let negated_until = until || not_before;
    // "Wash and sugar? After, when it's cool.": the question tells what is done.
    let mut places = places;
    if let Some(before) = words[first]
        .sentence
        .checked_sub(1)
        .filter(|n| heard.asks(*n))
        && at <= first + 3
    {
        places.push(heard.speech.sentences[before]);
    }
    for (deed_first, deed_end) in places {
        if deed_first >= deed_end {
            continue;
        }
        let denied = words[deed_first..deed_end]
            .iter()
            .enumerate()
            .any(|(n, word)| {
                let forget = words
                    .get(deed_first + n + 1)
                    .is_some_and(|next| next.lower == "forget");
                is_not_told(&word.lower) && !forget
            });
        if denied && !negated_until {
            return None;
        }
        let deeds = deed(heard, deed_first, deed_end);
        let deeds = if deeds.is_empty() {
            named_alone(heard, deed_first, deed_end)
        } else {
            deeds
        };
        if deeds.is_empty() {
            continue;
        }
        let (deeds, moments) =
            of_named_breads(heard, (deed_first, deed_end, deeds), (begin, stop, moments));
        return against(heard, stands, &deeds, &moments);
    }
    None
}

/// "And last of all, once the butter's gone, your eggs": what is named and nothing else is put in.
fn named_alone(heard: &Heard, first: usize, end: usize) -> Vec<Point> {
    let words = &heard.speech.words;
    let named = heard
        .mentions_in(first, end)
        .iter()
        .find(|mention| heard.things[mention.things[0]].sort == Sort::Ingredient);
    let Some(mention) = named.filter(|mention| mention.first <= first + 2) else {
        return Vec::new();
    };
    let alone = words[first..mention.first]
        .iter()
        .all(|word| matches!(word.lower.as_str(), "your" | "the" | "my" | "in" | "those"))
        && (mention.end >= end || words[mention.end].clause != words[mention.first].clause);
    if alone {
        uses(heard, &mention.things, 0.0)
    } else {
        Vec::new()
    }
}

/// What is said of a pair when no pair lies as is said.
fn against(
    heard: &Heard,
    stands: Stands,
    deeds: &[Point],
    moments: &[Point],
) -> Option<(String, Kind, Code)> {
    let all: Vec<(Point, Point)> = deeds
        .iter()
        .flat_map(|deed| moments.iter().map(move |moment| (*deed, *moment)))
        .filter(|(deed, moment)| comparable(heard, *deed, *moment))
        // What is done within the shaping is in nobody's order.
        .filter(|(deed, moment)| {
            deed.step != moment.step
                || !matches!(
                    heard.places[deed.step].step.action,
                    Action::Shape { .. } | Action::Finish { .. }
                )
        })
        .collect();
    let same: Vec<(Point, Point)> = all
        .iter()
        .copied()
        .filter(|(deed, moment)| deed.section == moment.section)
        .collect();
    let pairs = if same.is_empty() { all } else { same };
    let holds = |(deed, moment): &(Point, Point)| match stands {
        Stands::After => deed.at >= moment.at,
        Stands::Before => deed.at <= moment.at,
        Stands::At => {
            deed.at > moment.at || waiting(heard, *deed, *moment).minutes() <= TOO_SHORT_MIN
        }
    };
    if pairs.is_empty() || pairs.iter().any(holds) {
        return None;
    }
    let (deed, moment) = pairs[0];
    let place = &heard.places[deed.step];
    // Whoever lights the oven early, or takes butter out early, is in nobody's way.
    let early = |point: Point| {
        matches!(
            heard.places[point.step].step.action,
            Action::Preheat { .. } | Action::Ready { .. }
        )
    };
    if stands == Stands::Before && (early(deed) || early(moment)) {
        return None;
    }
    let text = place.step.text.value.replace(['[', ']'], "");
    let step = deed.step + 1;
    Some(match stands {
        Stands::After | Stands::At => (
            format!("by then it is too late: step {step} of the recipe is “{text}”"),
            Kind::TooLate,
            code::TALK_SAYS_TOO_LATE,
        ),
        Stands::Before => (
            format!("the recipe does it later: step {step} is “{text}”"),
            Kind::Order,
            code::TALK_ORDER_DIFFERS,
        ),
    })
}

/// Whether two points are of one road: of one part, or of a part and what is made of it.
fn comparable(heard: &Heard, one: Point, other: Point) -> bool {
    let stages = heard.inputs.recipe.stages.len();
    one.section == other.section
        || (one.section < stages) != (other.section < stages)
            && one.section.min(other.section) == main_stage(heard)
}
