//! What a speaker looks back on with another time than was said: "so that was twenty-five minutes for the buns",
//! after fifteen; "it's been in there four hours now", after ten.

use super::doing::{Doing, doing};
use super::facts::{Fact, Sort};
use super::finding::Finding;
use super::heard::{Heard, Mood};
use super::hold::Verdict;
use super::speech::Figure;
use super::things::Sort as Of;
use super::track::Track;
use recipe::measure::spoken::Meant;

/// So many sentences back was told what is looked back on.
const BACK_SENTENCES: usize = 14;

/// The same in words, where nothing parts sentences.
const BACK_WORDS: usize = 140;

/// What is so many times longer or shorter is of something else.
const FAR: f64 = 6.0;

/// A time looked back on may differ by this share.
const SLACK: f64 = 0.15;

/// Every time that is looked back on otherwise.
pub(super) fn recaps(heard: &Heard, track: &Track, verdicts: &[Verdict]) -> Vec<Finding> {
    let mut found = Vec::new();
    for (at, figure) in heard.speech.figures.iter().enumerate() {
        let Meant::Time(range) = &figure.spoken.meant else {
            continue;
        };
        let folded = matches!(&verdicts[at], Verdict::Agrees(fact) if heard.facts[*fact].doing.meets(Doing::FOLD));
        let told = heard.mood(figure) != Mood::Here || heard.story(figure) > 5.0;
        if figure.withdrawn
            || folded
            || told
            || heard.asks(figure.sentence)
            || matches!(verdicts[at], Verdict::Differs(_))
            || !looks_back(heard, figure)
        {
            continue;
        }
        let said: Vec<(&Figure, &Fact)> = before(heard, at, verdicts);
        let near = |fact: &Fact| {
            range.low.si() <= fact.high.max(fact.usual) * (1.0 + SLACK)
                && range.high.si() >= fact.low.min(fact.usual) * (1.0 - SLACK)
        };
        let Some((other, fact)) = said.first() else {
            continue;
        };
        if !(1.0 / FAR..=FAR).contains(&(range.low.si() / fact.usual.max(1.0))) {
            continue;
        }
        if said.iter().any(|(_, fact)| near(fact)) {
            continue;
        }
        let message = format!(
            "you say {}; before you said {} for {}.",
            heard.speech.slice(figure.spoken.span),
            heard.speech.slice(other.spoken.span),
            fact.what
        );
        let hint = format!("Say the same both times; the recipe has {}.", fact.shown);
        found.push(Finding::two_figures(
            heard,
            track,
            (figure, other),
            &message,
            hint,
        ));
    }
    found
}

/// Whether the words before a time look back: "that was", "were in for", "has had its", "it's been in there".
pub(super) fn looks_back(heard: &Heard, figure: &Figure) -> bool {
    let (sentence, _) = heard.speech.sentences[figure.sentence];
    let words = &heard.speech.words[sentence.max(figure.first.saturating_sub(7))..figure.first];
    let lower: Vec<&str> = words.iter().map(|word| word.lower.as_str()).collect();
    let run = |wanted: &[&str]| lower.windows(wanted.len()).any(|own| own == wanted);
    // "That's your twenty-five minutes of steam done"
    let behind = &heard.speech.words[figure.end..(figure.end + 4).min(heard.speech.words.len())];
    let over = behind.iter().any(|word| {
        word.sentence == figure.sentence
            && matches!(word.lower.as_str(), "done" | "up" | "over" | "gone")
    });
    let yours = lower
        .split_last()
        .is_some_and(|(last, _)| matches!(*last, "your" | "its" | "the" | "their" | "our"))
        && lower
            .iter()
            .rev()
            .nth(1)
            .is_some_and(|word| matches!(*word, "that's" | "thats" | "there's" | "was"));
    if over && yours {
        return true;
    }
    run(&["that", "was"])
        || run(&["those", "were"])
        || run(&["were", "in"])
        || run(&["had", "its"])
        || run(&["had", "their"])
        || run(&["had", "that"])
        || run(&["been", "in"])
        || run(&["been", "cooling"])
        || run(&["been", "rising"])
        || run(&["after", "its"])
        || run(&["after", "their"])
}

/// The times said before, the last first, of the bread or the deed that is looked back on.
fn before<'a>(heard: &'a Heard, at: usize, verdicts: &[Verdict]) -> Vec<(&'a Figure, &'a Fact)> {
    let figure = &heard.speech.figures[at];
    let (first, end) = heard.speech.sentences[figure.sentence];
    let (first, end) = if heard.speech.bare {
        (
            first.max(figure.first.saturating_sub(8)),
            end.min(figure.end + 6),
        )
    } else {
        (first, end)
    };
    let words = &heard.speech.words[first..end];
    let waits = Doing::REST
        .and(Doing::CHILL)
        .and(Doing::BAKE)
        .and(Doing::COOL);
    let product = heard
        .mentions_in(first, end)
        .iter()
        .flat_map(|mention| &mention.things)
        .find_map(|thing| match heard.things[*thing].sort {
            Of::Product(section) => Some(section),
            _ => None,
        });
    let warm = words
        .iter()
        .any(|word| matches!(word.lower.as_str(), "warm" | "rising" | "risen" | "towel"));
    let deed = if warm { Doing::REST } else { doing(words) };
    let mut all: Vec<(&Figure, &Fact)> = heard.speech.figures[..at]
        .iter()
        .zip(verdicts)
        .rev()
        .take_while(|(other, _)| {
            if heard.speech.bare {
                figure.first - other.end <= BACK_WORDS
            } else {
                figure.sentence - other.sentence <= BACK_SENTENCES
                    || figure.first - other.end <= BACK_WORDS
            }
        })
        .filter_map(|(other, verdict)| match verdict {
            Verdict::Agrees(fact) => Some((other, &heard.facts[*fact])),
            _ => None,
        })
        .filter(|(other, fact)| {
            fact.sort == Sort::Time
                && !fact.only_allowed
                && fact.doing.meets(waits)
                && !fact.doing.meets(Doing::CHECK.and(Doing::FOLD))
                && matches!(other.spoken.meant, Meant::Time(_))
                && product.is_none_or(|section| fact.section == Some(section))
        })
        .collect();
    if all.iter().any(|(_, fact)| fact.doing.meets(deed)) {
        all.retain(|(_, fact)| fact.doing.meets(deed));
    } else if product.is_none() && deed.is_none() {
        // "It's been in there four hours": what was told last.
        all.truncate(2);
    } else if product.is_none() {
        all.clear();
    }
    all
}
