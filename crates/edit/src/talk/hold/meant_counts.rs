//! Numbers whose noun is said elsewhere: the bread that pieces are cut for, the number that a question asks for.

use super::Verdict;
use super::counts::{BETWEEN, FAR, bread, dividing};
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;

/// "Cut three for the braid", "nine go into the knots": the bread that so many pieces are for.
pub(super) fn cut_for(heard: &Heard, figure: &Figure) -> Option<usize> {
    let words = &heard.speech.words;
    let (first, end) = heard.speech.clause(figure.first);
    let lower = |at: usize| {
        words
            .get(at)
            .filter(|_| at < end)
            .map_or("", |word| word.lower.as_str())
    };
    // "Twelve pieces for the knots"
    let pieces = is_piece(words.get(figure.end).map_or("", |word| word.stem.as_str()));
    let mut at = figure.end + usize::from(pieces);
    let goes = matches!(lower(at), "go" | "goes" | "are");
    at += usize::from(goes);
    if !matches!(lower(at), "for" | "into") || !matches!(lower(at + 1), "the" | "your" | "our") {
        return None;
    }
    let cut = words[first..figure.first].iter().any(|word| {
        matches!(
            word.stem.as_str(),
            "cut" | "divid" | "weigh" | "portion" | "make"
        )
    });
    let named = heard
        .mentions_in(at + 2, (at + 4).min(end))
        .first()?
        .things
        .iter()
        .find_map(|thing| bread(heard, *thing))?;
    (cut || goes && dividing(heard, figure)).then_some(named)
}

/// Whether a word is one of what a dough is cut into.
pub(super) fn is_piece(stem: &str) -> bool {
    matches!(stem, "piec" | "lump" | "ball" | "portion")
}

/// "How big are the buns?" "Cut me fourteen.": of the bread that was named just before.
pub(super) fn cut_of_the_topic(heard: &Heard, figure: &Figure) -> Option<usize> {
    let words = &heard.speech.words;
    let (first, end) = heard.speech.clause(figure.first);
    let cut = matches!(
        words[first].stem.as_str(),
        "cut" | "divid" | "portion" | "mak" | "shap"
    );
    let few = figure.first <= first + 2 && figure.end >= end;
    let before = heard.speech.sentences[figure.sentence.saturating_sub(1)].0;
    let named = heard
        .mentions_in(before, figure.first)
        .iter()
        .rev()
        .flat_map(|mention| &mention.things)
        .find_map(|thing| bread(heard, *thing))?;
    let several = heard.inputs.recipe.products[named - heard.inputs.recipe.stages.len()]
        .count
        .value
        > 1;
    (cut && few && several).then_some(named)
}

/// "How many balls for the tin?" "Six, snug.": the number that a question asks for.
pub(super) fn answered(heard: &Heard, figure: &Figure) -> Verdict {
    let Some(before) = figure.sentence.checked_sub(1) else {
        return Verdict::Aside;
    };
    let (first, end) = heard.speech.sentences[before];
    let words = &heard.speech.words[first..end];
    let Some(many) = words.iter().position(|word| word.lower == "many") else {
        return Verdict::Aside;
    };
    let many_at = first + many;
    let named: Vec<usize> = heard
        .mentions_in(many_at + 1, end.min(many_at + 1 + BETWEEN))
        .iter()
        .flat_map(|mention| mention.things.iter().copied())
        .collect();
    let asked: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| {
            fact.counts_things()
                && words[many + 1..].iter().take(BETWEEN).any(|word| {
                    fact.stems.contains(&word.stem)
                        || fact.thing.is_some_and(|thing| named.contains(&thing))
                })
        })
        .collect();
    let said = figure.spoken.low;
    if let Some((place, _)) = asked
        .iter()
        .find(|(_, fact)| fact.low <= said + 0.01 && said <= fact.high + 0.01)
    {
        return Verdict::Agrees(*place);
    }
    let around = heard.around(figure);
    asked
        .iter()
        .filter(|(_, fact)| !fact.only_allowed)
        .max_by(|a, b| {
            heard
                .score(&around, a.1)
                .total_cmp(&heard.score(&around, b.1))
        })
        .filter(|(_, fact)| said <= FAR * fact.high)
        .map_or(Verdict::Aside, |(place, _)| Verdict::Differs(*place))
}
