//! Which step each clause is about: the likeliest walk through the recipe, forward for the most part.
//!
//! One pass of dynamic programming (Viterbi, 1967, from memory) over clauses and steps: what a clause
//! shares with a step speaks for it, going on costs little, going back costs more.

use super::doing::{Doing, doing};
use super::facts::{COMMON, Fact, Place, Sort};
use super::speech::Speech;
use super::things::{Mention, Sort as Of, Thing};
use recipe::measure::spoken::Meant;

/// What speaks for a step, and what a move from step to step costs; chosen by hand on talks of our own.
const BY_DOING: f64 = 1.2;
const BY_FIGURE: f64 = 0.8;
const BY_SECTION: f64 = 2.0;
const BY_WORD: f64 = 1.6;
const ONWARD: f64 = 0.2;
const ONWARD_EACH: f64 = 0.08;
const ONWARD_MOST: f64 = 1.2;
const BACK: f64 = 1.6;
const BACK_UNNAMED: f64 = 0.6;
const BACK_EACH: f64 = 0.08;
const BACK_MOST: f64 = 3.2;

/// Below this nothing in a clause tells of its step.
const LEAST: f64 = 0.9;

/// For each clause the step that it is about, and whether something in it tells.
pub(super) fn align(
    speech: &Speech,
    things: &[Thing],
    mentions: &[Mention],
    places: &[Place],
    facts: &[Fact],
) -> Vec<(usize, bool)> {
    let n = places.len();
    if n == 0 {
        return speech.clauses.iter().map(|_| (0, false)).collect();
    }
    let spread = |stem: &String| {
        places
            .iter()
            .filter(|place| place.stems.contains(stem))
            .count()
    };
    let weights: std::collections::BTreeMap<&String, f64> = places
        .iter()
        .flat_map(|place| &place.stems)
        .map(|stem| {
            (
                stem,
                BY_WORD / (1.0 + f64::from(u32::try_from(spread(stem)).unwrap_or(1))),
            )
        })
        .collect();
    // Parts without a bread come first.
    let breads = things
        .iter()
        .filter(|thing| matches!(thing.sort, Of::Stage(_)))
        .count();
    let mut best = vec![0.0; n];
    let mut back: Vec<Vec<usize>> = Vec::with_capacity(speech.clauses.len());
    let mut told: Vec<Vec<f64>> = Vec::with_capacity(speech.clauses.len());
    for (at, &(first, end)) in speech.clauses.iter().enumerate() {
        let clause = Clause::of(speech, things, mentions, at, first, end);
        let own: Vec<f64> = places
            .iter()
            .map(|place| clause.speaks_for(place, &weights, facts))
            .collect();
        let mut next = vec![f64::NEG_INFINITY; n];
        let mut from = vec![0; n];
        for to in 0..n {
            for (before, reached) in best.iter().enumerate() {
                // Who goes back to another bread names it.
                let back = to < before
                    && at > 0
                    && places[to].section >= breads
                    && places[to].section != places[before].section
                    && !clause.sections.contains(&places[to].section);
                let unnamed = if back { BACK_UNNAMED } else { 0.0 };
                let score = reached - cost(before, to, at == 0) - unnamed;
                if score > next[to] {
                    next[to] = score;
                    from[to] = before;
                }
            }
            next[to] += own[to];
        }
        best = next;
        back.push(from);
        told.push(own);
    }
    let mut at = (0..n)
        .max_by(|a, b| best[*a].total_cmp(&best[*b]))
        .unwrap_or(0);
    let mut walk = vec![(0, false); speech.clauses.len()];
    for clause in (0..speech.clauses.len()).rev() {
        walk[clause] = (at, told[clause][at] >= LEAST);
        at = back[clause][at];
    }
    walk
}

fn cost(before: usize, to: usize, start: bool) -> f64 {
    let steps = |n: usize| f64::from(u32::try_from(n).unwrap_or(u32::MAX));
    if start || before == to {
        0.0
    } else if to > before {
        (ONWARD + ONWARD_EACH * steps(to - before - 1)).min(ONWARD_MOST)
    } else {
        (BACK + BACK_EACH * steps(before - to)).min(BACK_MOST)
    }
}

/// What a clause brings.
struct Clause<'a> {
    stems: Vec<&'a String>,
    doing: Doing,
    sections: Vec<usize>,
    times: Vec<(f64, f64)>,
    heats: Vec<(f64, f64)>,
    masses: Vec<(f64, f64)>,
}

impl<'a> Clause<'a> {
    fn of(
        speech: &'a Speech,
        things: &[Thing],
        mentions: &[Mention],
        at: usize,
        first: usize,
        end: usize,
    ) -> Self {
        let words = &speech.words[first..end];
        let mut stems: Vec<&String> = words
            .iter()
            .filter(|word| word.lower.len() > 2 && !COMMON.contains(&word.lower.as_str()))
            .map(|word| &word.stem)
            .collect();
        stems.sort();
        stems.dedup();
        let from = mentions.partition_point(|mention| mention.first < first);
        let sections = mentions[from..]
            .iter()
            .take_while(|mention| mention.first < end)
            .flat_map(|mention| &mention.things)
            .filter_map(|thing| match things[*thing].sort {
                Of::Stage(section) if things[*thing].name != "dough" => Some(section),
                Of::Product(section) => Some(section),
                _ => None,
            })
            .collect();
        let mut clause = Self {
            stems,
            doing: doing(words),
            sections,
            times: Vec::new(),
            heats: Vec::new(),
            masses: Vec::new(),
        };
        let from = speech.figures.partition_point(|figure| figure.clause < at);
        for figure in speech.figures[from..].iter().take_while(|f| f.clause == at) {
            match &figure.spoken.meant {
                Meant::Time(range) => clause.times.push((range.low.si(), range.high.si())),
                Meant::Temperature(range) => clause.heats.push((range.low.si(), range.high.si())),
                Meant::Mass(range) => clause.masses.push((range.low.si(), range.high.si())),
                _ => {}
            }
        }
        clause
    }

    /// How much speaks for a step.
    fn speaks_for(
        &self,
        place: &Place,
        weights: &std::collections::BTreeMap<&String, f64>,
        facts: &[Fact],
    ) -> f64 {
        let words: f64 = place
            .stems
            .iter()
            .filter(|stem| self.stems.binary_search(stem).is_ok())
            .filter_map(|stem| weights.get(stem))
            .sum();
        let deeds = BY_DOING * f64::from(self.doing.shared(place.doing));
        let named = if self.sections.contains(&place.section) {
            BY_SECTION
        } else if self.sections.is_empty() {
            0.0
        } else {
            -0.5
        };
        let figures: f64 = facts
            .iter()
            .filter(|fact| fact.step == Some(place.number) && !fact.only_allowed)
            .map(|fact| {
                let said = match fact.sort {
                    Sort::Time => &self.times,
                    Sort::Heat => &self.heats,
                    Sort::Amount => &self.masses,
                    _ => return 0.0,
                };
                let close = |(low, high): &(f64, f64)| {
                    let slack = if fact.sort == Sort::Heat {
                        1.0
                    } else {
                        fact.usual * 0.02
                    };
                    *low <= fact.high + slack && *high >= fact.low - slack
                };
                if said.iter().any(close) {
                    BY_FIGURE
                } else {
                    0.0
                }
            })
            .sum();
        // A figure alone may be a slip that another step happens to have.
        let borne = words > 0.3 || deeds > 0.0 || named > 0.0;
        words + deeds + named + if borne { figures.min(2.0) } else { 0.0 }
    }
}
