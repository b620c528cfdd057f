//! What is said in a film about a recipe: its track, read from the file that holds it, and the track held
//! against the recipe; and the film's papers.
//!
//! Speech is cut into sentences and clauses, its quantities are read by `recipe::measure::spoken`, each
//! sentence is set beside a step (`align`), and each figure beside what the recipe says (`hold`). What is
//! the same in other units, rounded, or said with its unit left out is not a difference.

mod align;
mod claims;
pub mod code;
mod differs;
mod doing;
mod facts;
pub mod film;
mod finding;
mod heard;
mod hold;
mod instead;
mod late;
mod said;
mod speech;
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
    /// How many figures agree with the recipe.
    pub agree: usize,
}

/// With fewer figures than this nothing is said of the whole.
const ENOUGH_FIGURES: usize = 8;

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
    let agree = verdicts
        .iter()
        .filter(|verdict| matches!(verdict, Verdict::Agrees(_)))
        .count();
    let agree_measured = (0..verdicts.len())
        .filter(|at| measured(*at) && matches!(verdicts[*at], Verdict::Agrees(_)))
        .count();
    let aligned = cues(&heard, track);
    let share = |part: usize, of: usize| {
        f64::from(u32::try_from(part).unwrap_or(u32::MAX))
            / f64::from(u32::try_from(of.max(1)).unwrap_or(u32::MAX))
    };
    let mut findings = Vec::new();
    if figures >= ENOUGH_FIGURES && share(agree_measured, figures) < ANOTHER_RECIPE {
        let message = format!(
            "This does not seem to be about this recipe: {agree_measured} of {figures} figures match."
        );
        findings.push(
            Finding::of_nothing(Kind::Whole, code::TALK_OF_ANOTHER_RECIPE, "", message)
                .hint("Name the recipe that the film is about."),
        );
    } else if !track.cues.is_empty() {
        findings.extend(differs::differs(&heard, track, &verdicts));
        findings.extend(differs::contradictions(&heard, track, &verdicts));
        findings.extend(states::states(&heard, track));
        findings.extend(late::late(&heard, track));
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

/// The step of each cue: that of its first sentence that tells.
fn cues(heard: &Heard, track: &Track) -> Vec<Said> {
    let mut all: Vec<Said> = (0..track.cues.len())
        .map(|cue| Said { cue, step: None })
        .collect();
    for (sentence, (step, told)) in heard.aligned.iter().enumerate() {
        let (first, _) = heard.speech.sentences[sentence];
        let cue = heard.speech.cue(heard.speech.words[first].span.start);
        if let Some(said) = all.get_mut(cue)
            && *told
            && said.step.is_none()
        {
            said.step = Some(*step);
        }
    }
    all
}

#[cfg(test)]
mod tests;
