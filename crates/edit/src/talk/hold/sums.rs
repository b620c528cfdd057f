//! Amounts that are of several things or of another than stands nearest: all flours, what is needed, what goes in with company.

use super::amounts::masses;
use super::{Verdict, fits};
use crate::talk::facts::Sort;
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;

/// "Three hundred and thirty of flour going in now": the flours of one stage together.
pub(super) fn all_kinds(heard: &Heard, figure: &Figure, linked: &[usize]) -> Option<usize> {
    let (low, high) = masses(&figure.spoken, None).filter(|_| linked.len() > 1)?;
    let stages = heard.inputs.recipe.stages.len();
    (0..stages).find_map(|stage| {
        let mut own = heard.facts.iter().enumerate().filter(|(_, fact)| {
            fact.sort == Sort::Amount
                && !fact.only_allowed
                && fact.section == Some(stage)
                && fact.thing.is_some_and(|thing| linked.contains(&thing))
        });
        let (first, fact) = own.next()?;
        let (mut sum, mut many) = (fact.usual, 1);
        for (_, fact) in own {
            sum += fact.usual;
            many += 1;
        }
        (many > 1 && fits::mass(low, high, &figure.spoken, sum)).then_some(first)
    })
}

/// "A hundred and eighty grams, so that's a bit more than six ounces": the figure before, in other measures.
pub(super) fn same_again(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Option<usize> {
    let figure = &heard.speech.figures[at];
    let before = &heard.speech.figures[at.checked_sub(1)?];
    let Some(Verdict::Agrees(fact)) = verdicts.get(at - 1) else {
        return None;
    };
    let between = heard.speech.words.get(before.end..figure.first)?;
    let again = between
        .iter()
        .any(|word| matches!(word.lower.as_str(), "that's" | "which" | "that"));
    let fact_before = &heard.facts[*fact];
    let own = fact_before
        .thing
        .and_then(|thing| heard.things[thing].ingredient.as_ref());
    let (low, high) = masses(&figure.spoken, own)?;
    (again
        && before.sentence == figure.sentence
        && fact_before.sort == Sort::Amount
        && heard.mentions_in(before.end, figure.first).is_empty()
        && fits::mass(low, high, &figure.spoken, fact_before.usual))
    .then_some(*fact)
}

/// Sums of the flour of several stages.
pub(super) const SUMS: [&str; 2] = ["flour so far", "all the flour"];

/// Whether a figure stands before anything is made: "you'll need six hundred grams of flour".
pub(super) fn says_what_is_needed(heard: &Heard, figure: &Figure) -> bool {
    !heard.walk[..=figure.clause].iter().any(|(_, told)| *told)
        || heard.speech.words[..figure.first]
            .iter()
            .rev()
            .take(SUMMED_WORDS)
            .any(|word| {
                matches!(
                    word.lower.as_str(),
                    "need" | "needs" | "list" | "ingredients"
                )
            })
}

/// Whether a number is told of all of a thing, through all steps: "four eggs in all", "you'll need four eggs".
pub(super) fn counts_all(heard: &Heard, figure: &Figure) -> bool {
    let (first, end) = heard.speech.sentences[figure.sentence];
    let words = &heard.speech.words[first..end];
    let all = words.iter().enumerate().any(|(at, word)| {
        let flour = words
            .get(at + 1)
            .is_some_and(|next| next.lower == "purpose");
        matches!(
            word.lower.as_str(),
            "all" | "altogether" | "total" | "overall" | "buy" | "shop" | "shopping" | "plus"
        ) && !flour
    });
    all || says_what_is_needed(heard, figure)
}

/// What is needed is said within so many words before its amount.
const SUMMED_WORDS: usize = 30;

/// The fact of what is named before "with" in the sentence, where it fits.
pub(super) fn before_its_company(heard: &Heard, figure: &Figure) -> Option<usize> {
    let words = &heard.speech.words;
    let (first, _) = heard.speech.sentences[figure.sentence];
    let with = (first..figure.first).rfind(|at| words[*at].lower == "with")?;
    let mention = heard.mentions_in(first, with).last()?;
    let (low, high) = masses(&figure.spoken, None)?;
    heard.facts.iter().position(|fact| {
        fact.sort == Sort::Amount
            && !fact.only_allowed
            && fact
                .thing
                .is_some_and(|thing| mention.things.contains(&thing))
            && fits::mass(low, high, &figure.spoken, fact.usual)
    })
}
