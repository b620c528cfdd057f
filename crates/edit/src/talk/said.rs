//! Which step of the recipe a cue is about.

use super::heard::Heard;
use super::hold::Verdict;
use super::track::Track;

/// A cue of a track and the step that it is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Said {
    /// Place of the cue among those of its track.
    pub cue: usize,
    /// Place of the step: stages first, then products, as they are printed, from 0; none when the cue is
    /// about no step.
    pub step: Option<usize>,
}

/// What a cue tells of one step.
#[derive(Clone, Copy)]
struct Vote {
    section: usize,
    step: usize,
    weight: usize,
}

/// A figure that is the recipe's tells more of where a cue is than a sentence that sounds like a step.
const SENTENCE: usize = 1;
/// See [`SENTENCE`].
const FIGURE: usize = 2;

/// The step of each cue: the first that it tells of in the section that most of it is about, so that a paragraph that
/// opens with the bread's name is about its paste. Of several the one that is spoken of already, else the next.
pub(super) fn of_cues(heard: &Heard, track: &Track, verdicts: &[Verdict]) -> Vec<Said> {
    let mut votes: Vec<Vec<Vote>> = vec![Vec::new(); track.cues.len()];
    let mut vote = |word: usize, step: usize, weight: usize| {
        let cue = heard.speech.cue(heard.speech.words[word].span.start);
        let place = heard.places.get(step);
        if let (Some(votes), Some(place)) = (votes.get_mut(cue), place) {
            votes.push(Vote {
                section: place.section,
                step,
                weight,
            });
        }
    };
    for (sentence, (step, told)) in heard.aligned.iter().enumerate() {
        if *told {
            vote(heard.speech.sentences[sentence].0, *step, SENTENCE);
        }
    }
    for (figure, verdict) in heard.speech.figures.iter().zip(verdicts) {
        let fact = match verdict {
            Verdict::Agrees(fact) | Verdict::Differs(fact) => heard.facts.get(*fact),
            Verdict::Aside => None,
        };
        if let Some(step) = fact.and_then(|fact| fact.step) {
            vote(figure.first, step, FIGURE);
        }
    }
    let mut now = 0;
    let mut all = Vec::with_capacity(votes.len());
    for (cue, votes) in votes.iter().enumerate() {
        let weight = |section: usize| -> usize {
            let own = votes.iter().filter(|vote| vote.section == section);
            own.map(|vote| vote.weight).sum()
        };
        let sections = votes.iter().map(|vote| vote.section);
        let most = sections.min_by_key(|section| {
            let most = std::cmp::Reverse(weight(*section));
            (most, *section < now, *section)
        });
        now = most.unwrap_or(now);
        let first = votes.iter().find(|vote| Some(vote.section) == most);
        all.push(Said {
            cue,
            step: first.map(|vote| vote.step),
        });
    }
    all
}
