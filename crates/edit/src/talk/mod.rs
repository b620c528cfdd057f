//! What is said in a film about a recipe: its track, read from the file that holds it, and the track held
//! against the recipe; and the film's papers.
//!
//! Speech is cut into sentences and clauses, its quantities are read by `recipe::measure::spoken`, each
//! sentence is set beside a step (`align`), and each figure beside what the recipe says (`hold`). What is
//! the same in other units, rounded, or said with its unit left out is not a difference.

mod against;
mod align;
mod anchored;
mod claims;
pub mod code;
mod company;
mod differs;
mod doing;
mod facts;
pub mod film;
mod finding;
mod heard;
mod hold;
mod instead;
mod late;
mod lit;
mod mended;
mod moments;
mod order;
mod points;
mod recap;
mod refused;
mod said;
mod speech;
mod spelled;
mod states;
mod things;
pub mod track;
mod unsaid;

use crate::Inputs;
use crate::ledger::model::Ledger;
pub use finding::{Finding, Kind, Value};
use heard::Heard;
use hold::Verdict;
use recipe::measure::spoken::Meant;
use recipe::source::{Checked, Diagnostic};
pub use said::Said;
use track::Track;

/// A talk held against its recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Talk {
    /// Everything there is to say: first what is said otherwise, in the order of the talk, then what is
    /// never said, in the order of the recipe.
    pub findings: Vec<Finding>,
    /// For each cue the step that it is about.
    pub aligned: Vec<Said>,
    /// How many amounts, temperatures and times were said.
    pub figures: usize,
    /// How many of them agree with the recipe.
    pub agree: usize,
}

/// With fewer figures than this nothing is said of the whole.
const ENOUGH_FIGURES: usize = 5;

/// A talk of which a smaller share of the figures agrees is about something else.
const ANOTHER_RECIPE: f64 = 0.25;

/// Holds a talk against its recipe.
pub fn talk(inputs: &Inputs, ledger: &Ledger, track: &Track) -> Checked<Talk> {
    let heard = Heard::of(inputs, track);
    let verdicts = hold::hold(&heard);
    let measured = |at: usize| {
        let figure = &heard.speech.figures[at];
        !figure.withdrawn
            && !matches!(
                figure.spoken.meant,
                Meant::Number(..) | Meant::Times(..) | Meant::Share(_)
            )
    };
    let figures = (0..verdicts.len()).filter(|at| measured(*at)).count();
    let agree = (0..verdicts.len())
        .filter(|at| measured(*at) && matches!(verdicts[*at], Verdict::Agrees(_)))
        .count();
    let aligned = said::of_cues(&heard, track, &verdicts);
    let share = |part: usize, of: usize| {
        f64::from(u32::try_from(part).unwrap_or(u32::MAX))
            / f64::from(u32::try_from(of.max(1)).unwrap_or(u32::MAX))
    };
    let mut findings = Vec::new();
    if is_foreign(&heard) {
        findings.push(
            Finding::of_nothing(
                Kind::Whole,
                code::TALK_NOT_ENGLISH,
                "",
                "This does not seem to be English, and nothing else is understood.".to_owned(),
            )
            .hint("Have it translated before it is held against the recipe."),
        );
    } else if figures >= ENOUGH_FIGURES
        && (share(agree, figures) < ANOTHER_RECIPE
            || share(agree, figures) < ANOTHER_RECIPE_OF_OTHER_THINGS
                && named(&heard) < NAMED_ENOUGH)
    {
        let message = format!(
            "This does not seem to be about this recipe: {agree} of {figures} figures match."
        );
        findings.push(
            Finding::of_nothing(Kind::Whole, code::TALK_OF_ANOTHER_RECIPE, "", message)
                .hint("If the film is about another recipe, name that one."),
        );
    } else if !track.cues.is_empty() {
        findings.extend(differs::differs(&heard, track, &verdicts));
        findings.extend(differs::contradictions(&heard, track, &verdicts));
        findings.extend(recap::recaps(&heard, track, &verdicts));
        findings.extend(states::states(&heard, track));
        findings.extend(late::late(&heard, track));
        findings.extend(order::orders(&heard, track));
        findings.extend(company::companies(&heard, track));
        findings.extend(refused::refusals(&heard, track));
        let told = anchored::anchored(&heard, track, &findings);
        findings.extend(told);
        findings.extend(against::against(&heard, track));
        findings.extend(claims::claims(&heard, track));
        findings.sort_by_key(|finding| {
            finding
                .diagnostic
                .span
                .map_or(usize::MAX, |span| span.start)
        });
        findings.extend(unsaid::unsaid(&heard, ledger, &verdicts));
    }
    let diagnostics: Vec<Diagnostic> = findings
        .iter()
        .map(|finding| finding.diagnostic.clone())
        .collect();
    Checked {
        output: Talk {
            findings,
            aligned,
            figures,
            agree,
        },
        diagnostics,
    }
}

/// The same where most of the recipe's ingredients are never named; the shares are our own choice.
const ANOTHER_RECIPE_OF_OTHER_THINGS: f64 = 0.45;
const NAMED_ENOUGH: f64 = 0.4;

/// The share of the recipe's ingredients that are named.
fn named(heard: &Heard) -> f64 {
    let all = heard
        .things
        .iter()
        .enumerate()
        .filter(|(_, thing)| thing.sort == things::Sort::Ingredient);
    let (mut known, mut said) = (0.0, 0.0);
    for (place, _) in all {
        known += 1.0;
        if heard
            .mentions
            .iter()
            .any(|mention| mention.things[0] == place)
        {
            said += 1.0;
        }
    }
    said / f64::max(known, 1.0)
}

/// Words of which every English sentence has some.
const ENGLISH: [&str; 40] = [
    "the", "and", "a", "of", "to", "in", "it", "is", "you", "for", "on", "that", "with", "at",
    "then", "minutes", "grams", "hours", "hour", "degrees", "it's", "this", "so", "i", "we",
    "until", "into", "an", "them", "your", "as", "but", "have", "not", "be", "go", "put", "two",
    "three", "off",
];

/// Fewer words than this tell nothing of their language.
const ENOUGH_WORDS: usize = 12;

/// A text with fewer English words than one in so many is of another language.
const WORDS_PER_ENGLISH: usize = 12;

/// Whether the words are of another language than English.
fn is_foreign(heard: &Heard) -> bool {
    let words: Vec<&str> = heard
        .speech
        .words
        .iter()
        .map(|word| word.lower.as_str())
        .filter(|word| word.chars().all(|c| c.is_alphabetic() || c == '\''))
        .collect();
    let own = words.iter().filter(|word| ENGLISH.contains(word)).count();
    words.len() >= ENOUGH_WORDS && own * WORDS_PER_ENGLISH < words.len()
}

#[cfg(test)]
mod tests;
