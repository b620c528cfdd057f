//! A deed that is told to be done now, where the talk has come past its moment: "only now do I light the oven".

use super::breads::of_one_bread;
use super::{DEED_BEHIND, Stands, against, anchor, lower};
use crate::talk::finding::Kind;
use crate::talk::heard::{Heard, TOLD_TO, is_not_told, tells_to};
use crate::talk::moments::{event, is_over};
use crate::talk::points::{HALF, Point, SOON, begin_of, deed};
use crate::talk::speech::Word;
use recipe::document::model::Action;
use recipe::source::Code;

/// "This is the moment to slash the top", told where the talk has come to; "so the dough's mixed, and that's your moment
/// to get the butter out".
pub(super) fn now_is_the_moment(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    let moment = matches!(lower(heard, at, end), "moment" | "time" | "point")
        && matches!(lower(heard, at + 1, end), "to" | "you" | "when");
    let near = first.max(at.saturating_sub(5));
    let this = heard.speech.words[near..at]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "this" | "that's" | "now's" | "now"));
    let denied = heard.speech.words[near..at]
        .iter()
        .any(|word| is_not_told(&word.lower));
    if !moment || !this || denied {
        return None;
    }
    let deeds = deed(heard, at + 1, (at + DEED_BEHIND).min(end));
    let said = event(heard, first, at);
    let moments = if said.is_empty() {
        let sentence = heard.speech.words[first].sentence;
        let (place, _) = heard.aligned[..sentence]
            .iter()
            .rev()
            .find(|(_, told)| *told)?;
        vec![begin_of(heard, *place)?]
    } else {
        said
    };
    against(heard, Stands::At, &deeds, &moments)
}

/// "It's a finger off the rim. Only now do I light the oven.": after what was told just before.
pub(super) fn only_now(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    let only = lower(heard, at, end) == "only"
        && matches!(lower(heard, at + 1, end), "now" | "then" | "at")
        && at <= first + 2;
    // "At this stage, and not a moment sooner, I put a match to the oven."
    let words = &heard.speech.words[at..end.min(at + DEED_BEHIND)];
    let lower_at = |n: usize| words.get(n).map_or("", |word| word.lower.as_str());
    let stage = at == first
        && lower_at(0) == "at"
        && lower_at(1) == "this"
        && matches!(lower_at(2), "stage" | "point" | "moment")
        && words
            .iter()
            .any(|word| matches!(word.lower.as_str(), "sooner" | "earlier" | "only"));
    let before = heard.speech.words[first].sentence.checked_sub(1)?;
    if !only && !stage {
        return None;
    }
    let (from, to) = heard.speech.sentences[before];
    let deeds = deed(heard, at + 1, (at + DEED_BEHIND).min(end));
    against(heard, Stands::After, &deeds, &event(heard, from, to))
}

/// "It's had its eighty minutes and it's doubled. This is where we fold it.": after what was told just before.
pub(super) fn this_is_where(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    let here = matches!(lower(heard, at, end), "where" | "when")
        && at > first
        && (matches!(lower(heard, at - 1, end), "that's" | "here's" | "now's")
            || at > first + 1
                && lower(heard, at - 1, end) == "is"
                && matches!(lower(heard, at - 2, end), "this" | "that" | "here"));
    let told = matches!(
        lower(heard, at + 1, end),
        "you" | "we" | "i" | "it" | "they" | "you'd" | "i'd"
    );
    if !here || !told {
        return None;
    }
    let deeds = deed(heard, at + 1, (at + DEED_BEHIND).min(end));
    let within = moments_of(heard, first, at);
    if !within.is_empty() {
        let mut wrong = within
            .iter()
            .map(|(stands, moments)| against(heard, *stands, &deeds, moments));
        return wrong
            .clone()
            .all(|own| own.is_some())
            .then(|| wrong.find_map(|own| own))
            .flatten();
    }
    let before = heard.speech.words[first].sentence.checked_sub(1)?;
    let (from, to) = heard.speech.sentences[before];
    against(heard, Stands::After, &deeds, &event(heard, from, to))
}

/// The moments that the clauses before "that's when" tell, each with how it stands.
fn moments_of(heard: &Heard, first: usize, at: usize) -> Vec<(Stands, Vec<Point>)> {
    let words = &heard.speech.words;
    let from = first.max(at.saturating_sub(MOMENTS_WORDS));
    let mut found = Vec::new();
    let mut begin = from;
    while begin < at {
        let clause = words[begin].clause;
        let end = (begin..at)
            .find(|n| words[*n].clause != clause)
            .unwrap_or(at);
        let led = (begin..end.min(begin + 3)).find_map(|n| anchor(heard, begin, n, end));
        if let Some((stands, start)) = led {
            let moments = event(heard, start.min(end), end);
            if !moments.is_empty() {
                found.push((stands, moments));
            }
        }
        begin = end;
    }
    found
}

/// The moments of "that's when" stand within so many words before it.
const MOMENTS_WORDS: usize = 24;

/// Words that tell to do something, besides those that open a clause.
const TOLD: [&str; 16] = [
    "do", "chuck", "bung", "paint", "slash", "score", "scatter", "sprinkle", "dust", "whisk",
    "spread", "throw", "lay", "grease", "soak", "fold",
];

/// "It's had its two hours. Fold it now, twice, and out on the bench": told to be done now, after what was told just before.
pub(super) fn told_now(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    if heard.speech.bare {
        return None;
    }
    let words = &heard.speech.words;
    let before = words[first].sentence.checked_sub(1)?;
    let begins = at == first || words[at].clause != words[at - 1].clause;
    let opens = at <= first + 2
        && words[first..at].iter().all(|word| {
            matches!(
                word.lower.as_str(),
                "now" | "so" | "and" | "right" | "okay" | "you" | "then" | "quick" | "we" | "i"
            )
        });
    // "You fold it now".
    let by_whom = words[first..at]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "you" | "we" | "i"));
    let own = lower(heard, at, end);
    // "I'd better get that oven warming up", "egg wash on now".
    let next = at == first && is_next(&words[first..end]);
    let tells = next || {
        tells_to(&heard.speech, first, at)
            || opens && (TOLD.contains(&own) || TOLD_TO.contains(&own))
            || begins && TOLD.contains(&own)
    };
    if !tells {
        return None;
    }
    let stop = (at + 1..end)
        .find(|n| words[*n].clause != words[at].clause)
        .unwrap_or(end)
        .min(at + DEED_BEHIND);
    let (from, to) = heard.speech.sentences[before];
    let untold = |from: usize, to: usize| words[from..to].iter().any(|w| is_not_told(&w.lower));
    let later = (at..stop).any(|n| {
        // "Before I do anything else" is now.
        words[n].lower == "before"
            && !words[n..end.min(n + 5)]
                .iter()
                .any(|word| matches!(word.lower.as_str(), "anything" | "forget"))
            || matches!(
                words[n].lower.as_str(),
                "next" | "until" | "wait" | "while" | "half" | "halfway" | "during" | "start"
            )
    });
    let over = is_over(heard, from, to);
    let stop = if next {
        end.min(first + NEXT_WORDS)
    } else {
        stop
    };
    if untold(first, stop) || later {
        return None;
    }
    // "You lay it on its side in the mould. I cut the cross in it now": while what was told just before goes on.
    let at_this_point = words[first..end].iter().any(|word| word.lower == "now")
        || words[first..end]
            .windows(2)
            .any(|two| two[0].lower == "this" && two[1].lower == "point");
    let (told_just, sure) = heard.aligned[before];
    let baked = sure
        && matches!(
            heard.places[told_just].step.action,
            Action::Bake { .. } | Action::Cool { .. }
        );
    if !over && at_this_point && baked && by_whom {
        let moments: Vec<Point> = begin_of(heard, told_just).into_iter().collect();
        let (deeds, moments) = of_one_bread(
            heard,
            (at, stop, deed(heard, at, stop)),
            (from, to, moments),
        );
        return against(heard, Stands::After, &deeds, &moments);
    }
    if untold(from, to) || !over {
        return None;
    }
    let (deeds, moments) = of_one_bread(
        heard,
        (at, stop, deed(heard, at, stop)),
        (from, to, event(heard, from, to)),
    );
    against(heard, Stands::After, &deeds, &moments)
}

/// Words by which something is to be done next.
const NEXT: [[&str; 2]; 12] = [
    ["i'd", "better"],
    ["we'd", "better"],
    ["better", "get"],
    ["time", "to"],
    ["going", "to"],
    ["need", "to"],
    ["got", "to"],
    ["want", "to"],
    ["on", "now"],
    ["in", "now"],
    ["over", "now"],
    ["i'm", "gonna"],
];

/// What is to be done next is told within so many words.
const NEXT_WORDS: usize = 18;

/// Whether a sentence tells what is to be done next, and nothing that is past.
fn is_next(words: &[Word]) -> bool {
    words.windows(2).any(|two| {
        NEXT.iter()
            .any(|next| two[0].lower == next[0] && two[1].lower == next[1])
    }) && !words.iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "i've"
                | "we've"
                | "had"
                | "was"
                | "were"
                | "already"
                | "earlier"
                | "remember"
                | "ready"
                | "when"
        )
    })
}

/// "The loaf has been in the oven for fifteen minutes. Quick, slash the top.": told to be done after what was told just before.
pub(super) fn slashed_late(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    let blade = matches!(lower(heard, at, end), "slash" | "score");
    let before = heard.speech.words[first].sentence.checked_sub(1)?;
    let told = heard.speech.words[first..at]
        .iter()
        .any(|word| is_not_told(&word.lower) || word.lower == "before" && at > first + 8);
    if !blade || told {
        return None;
    }
    let (from, to) = heard.speech.sentences[before];
    against(
        heard,
        Stands::After,
        &deed(heard, at, end),
        &event(heard, from, to),
    )
}

/// "Ten minutes in, once you can see a skin on it, cut the top"; "halfway through I brush them": a deed in the course of what
/// goes on.
pub(super) fn in_the_course(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    let words = &heard.speech.words;
    let clause_ends = |n: usize| {
        words
            .get(n)
            .is_none_or(|word| word.clause != words[n - 1].clause)
    };
    let timed = heard
        .speech
        .figures
        .iter()
        .any(|figure| figure.end == at && figure.is_moment(&heard.speech));
    let (share, begin) = match lower(heard, at, end) {
        "in" if timed => (SOON, at + 1),
        "halfway" | "midway"
            if matches!(
                lower(heard, at + 1, end),
                "through" | "in" | "there" | "along"
            ) =>
        {
            (HALF, at + 2)
        }
        _ => return None,
    };
    let denied = words[first..end]
        .iter()
        .any(|word| is_not_told(&word.lower));
    if denied || begin >= end || clause_ends(begin) && lower(heard, begin, end).is_empty() {
        return None;
    }
    let going_on = heard.walk[..=words[at].clause]
        .iter()
        .rev()
        .take(COURSE_CLAUSES)
        .find(|(step, told)| {
            *told
                && matches!(
                    heard.places[*step].step.action,
                    Action::Bake { .. } | Action::Rest { .. } | Action::Mix { .. }
                )
        })
        .map(|(step, _)| *step)
        .or_else(|| {
            // "It's in the oven. Halfway through I brush it."
            let (from, to) = heard.speech.sentences[words[first].sentence.checked_sub(1)?];
            event(heard, from, to).last().map(|point| point.step)
        })?;
    let begins = begin_of(heard, going_on)?;
    let moment = Point {
        at: begins.at + share,
        ..begins
    };
    let deeds = deed(heard, begin, end.min(begin + 2 * DEED_BEHIND));
    against(heard, Stands::After, &deeds, &[moment])
}

/// What goes on was told within so many clauses before.
const COURSE_CLAUSES: usize = 6;

/// "The foil goes on from the start", "on goes the foil at once", where the recipe has it later in the bake.
pub(super) fn from_the_start(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    let start = match (lower(heard, at, end), lower(heard, at + 1, end)) {
        ("from", "the") => matches!(
            lower(heard, at + 2, end),
            "start" | "beginning" | "outset" | "off"
        ),
        ("at", "once") | ("straight" | "right", "away") | ("immediately", _) => true,
        _ => false,
    };
    let words = &heard.speech.words[first..end];
    let denied = heard.speech.words[first..at]
        .iter()
        .any(|word| is_not_told(&word.lower));
    if !start || denied || !words.iter().any(|word| word.lower == "foil") {
        return None;
    }
    let deeds = deed(heard, first, at);
    let moments: Vec<Point> = deeds
        .iter()
        .filter_map(|deed| begin_of(heard, deed.step))
        .collect();
    against(heard, Stands::Before, &deeds, &moments)
}
