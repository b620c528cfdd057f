//! When each stage and each product is spoken of.

use super::Said;
use super::captions::end_of;
use crate::ledger::model::Ledger;
use crate::talk::track::Track;
use recipe::source::Span;
use std::collections::BTreeMap;
use std::time::Duration;

/// When something is spoken of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stretch {
    /// Which section of the ledger; none before any is spoken of.
    pub section: Option<usize>,
    /// From when.
    pub from: Duration,
    /// Until when; the beginning of the next, or the end of the talk.
    pub to: Duration,
    /// Where its first words stand.
    pub span: Span,
}

/// What the film is about, moment by moment.
#[derive(Clone, Debug, Default)]
pub(super) struct Scenes {
    /// Stretches in the order of the film, each about another section than the one before it.
    pub stretches: Vec<Stretch>,
    /// When each step is first spoken of, by its number.
    pub steps: BTreeMap<usize, Duration>,
    /// Headings of the sections.
    pub headings: Vec<String>,
}

impl Scenes {
    /// The longest stretch about a section.
    pub fn of(&self, section: usize) -> Option<Stretch> {
        let about = self
            .stretches
            .iter()
            .filter(|one| one.section == Some(section));
        about
            .copied()
            .max_by_key(|one| (one.to.saturating_sub(one.from), std::cmp::Reverse(one.from)))
    }
}

/// Lays the cues out by the sections of the recipe. A cue about no step belongs to what was spoken of last.
pub(super) fn scenes(ledger: &Ledger, track: &Track, said: &[Said]) -> Scenes {
    let mut scenes = Scenes {
        headings: ledger
            .sections
            .iter()
            .map(|section| section.heading.clone())
            .collect(),
        ..Scenes::default()
    };
    let section_of = |number: usize| {
        let has = |section: &crate::ledger::model::Section| {
            section.steps.iter().any(|step| step.number == number)
        };
        ledger.sections.iter().position(has)
    };
    let mut steps_of: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for said in said {
        steps_of.entry(said.cue).or_default().extend(said.step);
    }
    let mut order: Vec<usize> = (0..track.cues.len())
        .filter(|at| track.cues[*at].from.is_some())
        .collect();
    order.sort_by_key(|at| track.cues[*at].from);
    let mut section = None;
    let mut end = Duration::ZERO;
    for at in order {
        let cue = &track.cues[at];
        let Some(from) = cue.from else { continue };
        let steps = steps_of.get(&at).into_iter().flatten();
        let numbers: Vec<usize> = steps
            .map(|step| step + 1)
            .filter(|number| section_of(*number).is_some())
            .collect();
        for number in &numbers {
            scenes.steps.entry(*number).or_insert(from);
        }
        section = numbers
            .first()
            .and_then(|number| section_of(*number))
            .or(section);
        end = end.max(end_of(cue, from));
        if let Some(last) = scenes.stretches.last_mut() {
            if last.section == section {
                last.to = end;
                continue;
            }
            last.to = from;
        }
        scenes.stretches.push(Stretch {
            section,
            from,
            to: end,
            span: cue.span.clone().into(),
        });
    }
    if let Some(last) = scenes.stretches.last_mut() {
        last.to = end;
    }
    scenes
}
