//! A deed that is told to be done now, where the talk has come past its moment: "only now do I light the oven".

use super::{DEED_BEHIND, DENIED, Stands, against, lower};
use crate::talk::finding::Kind;
use crate::talk::heard::Heard;
use crate::talk::points::{Point, begin_of, deed, event};
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
        .any(|word| DENIED.contains(&word.lower.as_str()));
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
    let before = heard.speech.words[first].sentence.checked_sub(1)?;
    if !only {
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
        && (matches!(lower(heard, at - 1, end), "that's" | "here's")
            || at > first + 1
                && lower(heard, at - 1, end) == "is"
                && matches!(lower(heard, at - 2, end), "this" | "that" | "here"));
    let told = matches!(
        lower(heard, at + 1, end),
        "you" | "we" | "i" | "it" | "they" | "you'd" | "i'd"
    );
    let before = heard.speech.words[first].sentence.checked_sub(1)?;
    if !here || !told {
        return None;
    }
    let (from, to) = heard.speech.sentences[before];
    let deeds = deed(heard, at + 1, (at + DEED_BEHIND).min(end));
    against(heard, Stands::After, &deeds, &event(heard, from, to))
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
    let told = heard.speech.words[first..at].iter().any(|word| {
        DENIED.contains(&word.lower.as_str()) || word.lower == "before" && at > first + 8
    });
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

/// "The foil goes on from the start", where the recipe has it later in the bake.
pub(super) fn from_the_start(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    let start = matches!(lower(heard, at + 2, end), "start" | "beginning" | "outset")
        && lower(heard, at, end) == "from"
        && lower(heard, at + 1, end) == "the";
    let words = &heard.speech.words[first..end];
    if !start || !words.iter().any(|word| word.lower == "foil") {
        return None;
    }
    let deeds = deed(heard, first, at);
    let moments: Vec<Point> = deeds
        .iter()
        .filter_map(|deed| begin_of(heard, deed.step))
        .collect();
    against(heard, Stands::Before, &deeds, &moments)
}
