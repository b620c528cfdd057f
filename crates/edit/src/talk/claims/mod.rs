//! Claims that a viewer will believe: keeping, health, history, "only", "always". Each wants a source or
//! a softer word, unless the recipe itself says it.

mod signs;

use super::code;
use super::finding::{Finding, Kind};
use super::heard::{Heard, Mood};
use super::track::Track;
use recipe::source::Span;
use signs::{HISTORY, SIGNS, SOFTEN};

/// Claims of how long something keeps.
const KEEPS: [&str; 5] = ["keep", "stay", "last", "keeps", "stays"];
const KEPT: [&str; 8] = [
    "fresh", "soft", "moist", "tender", "days", "week", "weeks", "longer",
];

/// Words by which a speaker softens a claim or names who says it.
const SOFT: [&str; 12] = [
    "find",
    "think",
    "according",
    "says",
    "book",
    "maybe",
    "supposedly",
    "story",
    "legend",
    "reckon",
    "paper",
    "told",
];

/// Every claim in a talk.
pub(super) fn claims(heard: &Heard, track: &Track) -> Vec<Finding> {
    let words = &heard.speech.words;
    let own = own_words(heard);
    let mut found: Vec<(usize, Finding)> = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate() {
        let lower: Vec<&str> = words[first..end]
            .iter()
            .map(|word| word.lower.as_str())
            .collect();
        if lower.iter().any(|word| SOFT.contains(word)) {
            continue;
        }
        let sign = SIGNS.iter().find_map(|sign| {
            let at = (0..lower.len()).find(|at| {
                sign.words.len() <= lower.len() - at
                    && sign
                        .words
                        .iter()
                        .zip(&lower[*at..])
                        .all(|(wanted, said)| *wanted == "*" || wanted == said)
            })?;
            let denied = lower[at.saturating_sub(4)..at].iter().any(|word| {
                matches!(
                    *word,
                    "not" | "isn't" | "no" | "never" | "don't" | "nothing"
                )
            });
            // "because I wasn't listening": the reason of what one did oneself is no claim.
            let own_doing = lower[at..]
                .iter()
                .skip(sign.words.len())
                .take(2)
                .any(|word| matches!(*word, "i" | "i'm" | "i'd" | "i've" | "we" | "my"));
            // "My first one could have stood there another six hundred years", "this oven is like four hundred years old".
            let own_story = sign.way_out == HISTORY
                && (lower[..at].iter().any(|word| {
                    matches!(*word, "my" | "mine" | "could" | "like" | "another" | "i")
                }) || !of_bread(heard, first, end, &lower));
            (!denied && !own_doing && !own_story).then_some((at, sign.words.len(), sign.way_out))
        });
        let hit = sign.or_else(|| keeps(heard, sentence, &lower));
        let Some((at, length, way_out)) = hit else {
            continue;
        };
        let span = Span::new(
            words[first + at].span.start,
            words[first + at + length - 1].span.end,
        );
        let said = heard.speech.slice(span).to_lowercase();
        if own.contains(&said) {
            continue;
        }
        let whole = heard
            .speech
            .slice(heard.speech.sentence_span(sentence))
            .to_owned();
        let message = format!("“{whole}” is a claim, and nothing in the recipe bears it out.");
        let finding = Finding::at(
            heard,
            track,
            Kind::Claim,
            code::TALK_CLAIM_WITHOUT_SOURCE,
            span,
            &message,
        )
        .hint(way_out);
        found.push((sentence, finding));
    }
    found.into_iter().map(|(_, finding)| finding).collect()
}

/// Whether this bread or its kind is spoken of, and not what people got, ate or did.
fn of_bread(heard: &Heard, first: usize, end: usize, lower: &[&str]) -> bool {
    let given = lower.iter().any(|word| {
        matches!(
            *word,
            "pounds" | "pound" | "ale" | "each" | "pizza" | "they'd" | "penny" | "pence"
        )
    });
    let bread = heard
        .mentions_in(first, end)
        .iter()
        .any(|mention| !mention.things.is_empty())
        || lower.iter().any(|word| {
            matches!(
                *word,
                "bread"
                    | "breads"
                    | "loaf"
                    | "loaves"
                    | "recipe"
                    | "recipes"
                    | "it"
                    | "this"
                    | "these"
                    | "they"
                    | "bakers"
                    | "baking"
                    | "baked"
                    | "dough"
                    | "yeast"
                    | "invented"
            )
        });
    bread && !given
}

/// "It stays soft for a week": a claim unless the recipe's own line on keeping has as much.
fn keeps(heard: &Heard, sentence: usize, lower: &[&str]) -> Option<(usize, usize, &'static str)> {
    let at = (0..lower.len()).find(|at| {
        // "last week" keeps nothing.
        let when = lower[*at] == "last"
            && lower
                .get(at + 1)
                .is_some_and(|next| matches!(*next, "week" | "month" | "year" | "night" | "time"));
        KEEPS.contains(&lower[*at]) && !when
    })?;
    let end = (at + 9).min(lower.len());
    let kept = lower[at..end]
        .iter()
        .rposition(|word| KEPT.contains(word))?;
    let days = heard.speech.figures.iter().any(|figure| {
        figure.sentence == sentence
            && matches!(&figure.spoken.meant, recipe::measure::spoken::Meant::Time(range) if range.high.hours() >= 20.0)
    });
    let vague = lower[at..end]
        .iter()
        .any(|word| matches!(*word, "days" | "weeks" | "longer" | "week"));
    if !days && !vague {
        return None;
    }
    // "My cheese stays eight weeks": of something else.
    let (first, _) = heard.speech.sentences[sentence];
    let other = heard.frame(first + at) != Mood::Here
        || lower[..at].windows(2).any(|two| {
            two[0] == "my"
                && !matches!(
                    two[1],
                    "loaf" | "bread" | "buns" | "braid" | "knots" | "rolls" | "wreath"
                )
                && !matches!(two[1], "first" | "own")
        });
    if other {
        return None;
    }
    let storage = heard
        .inputs
        .recipe
        .storage
        .as_ref()
        .map_or("", |text| &text.value);
    let known = super::facts::in_words(storage);
    let figure = heard
        .speech
        .figures
        .iter()
        .find(|figure| figure.sentence == sentence);
    let borne = figure.is_some_and(|figure| {
        let recipe::measure::spoken::Meant::Time(said) = &figure.spoken.meant else {
            return false;
        };
        known.figures.iter().any(|own| {
            // What a freezer keeps bears out nothing on the shelf.
            let frozen = |speech: &super::speech::Speech, sentence: usize| {
                let (first, end) = speech.sentences[sentence];
                speech.words[first..end]
                    .iter()
                    .any(|word| word.stem.starts_with("freez"))
            };
            frozen(&known, own.sentence) == frozen(&heard.speech, sentence)
                && matches!(&own.spoken.meant, recipe::measure::spoken::Meant::Time(written)
                if said.high.si() <= written.high.si() * 1.05)
        }) || storage.to_lowercase().contains("a week") && said.high.hours() <= 170.0
    });
    (!borne).then_some((at, kept + 1, SOFTEN))
}

/// What the recipe says in its author's own words.
fn own_words(heard: &Heard) -> String {
    let recipe = heard.inputs.recipe;
    [&recipe.headnote, &recipe.storage, &recipe.make_ahead]
        .into_iter()
        .flatten()
        .chain(&recipe.notes)
        .map(|text| text.value.to_lowercase() + "\n")
        .collect()
}
