//! Changes of the words tried in the same kitchens: which would save most bakes.

use super::kitchens::cut;
use crate::world::{progress, workers};
use bake::kitchens::audience::Audience;
use bake::kitchens::doubts::{Way, in_a_way, way};
use bake::kitchens::{Row, Setup, kitchens};
use edit::advice::{
    Advice, Changed, Chosen, HEED, Kind, MOST_CHANGES, Tried, advice, best, ways, worth,
};
use recipe::larder::Larder;
use std::ops::Range;

/// What is asked.
pub struct Asked<'a> {
    /// The recipe as it is.
    pub setup: &'a Setup<'a>,
    /// Its readers.
    pub audience: &'a Audience,
    /// What a change is weighed with.
    pub larder: &'a Larder,
    /// Which kitchens.
    pub seed: u64,
    /// How many kitchens the recipe itself was followed in.
    pub number: u64,
    /// In how many ways that the reckoning might be; none for a quick look.
    pub ways: u64,
}

/// Kitchens in which each change is tried, of those of the recipe itself.
fn tried_in(number: u64) -> u64 {
    (number / 10).clamp(64, 1024)
}

/// Kitchens in which a change is tried in each way that the reckoning might be.
fn in_each_way(number: u64) -> u64 {
    (number / 160).clamp(24, 64)
}

impl Asked<'_> {
    /// Tries one change after the other, and on top of the best the others again.
    pub fn advice(&self) -> Advice {
        let number = tried_in(self.number);
        let (recipe, formula) = (self.setup.recipe, self.setup.formula);
        let mut made = Changed::nothing(recipe, formula, self.audience);
        let mut rows = self.follow(std::slice::from_ref(&made), number);
        let mut rows = rows.pop().unwrap_or_default();
        let mut tried: Vec<Tried> = Vec::new();
        let mut chosen: Vec<Chosen> = Vec::new();
        let mut prefixes = vec![made.clone()];
        while chosen.len() < MOST_CHANGES {
            let kinds = Kind::ALL.into_iter();
            let next: Vec<Changed> = kinds
                .filter_map(|kind| made.and(kind, self.setup, self.larder))
                .collect();
            let all = self.follow(&next, number);
            let worths: Vec<_> = all.iter().map(|with| worth(&rows, with)).collect();
            let kind = |changed: &Changed| changed.changes.last().map(|(kind, _)| *kind);
            if chosen.is_empty() {
                tried = next
                    .iter()
                    .zip(&worths)
                    .filter_map(|(one, worth)| {
                        Some(Tried {
                            kind: kind(one)?,
                            worth: *worth,
                        })
                    })
                    .collect();
            }
            let Some(place) = best(&worths) else { break };
            let Some((kind, sentence)) = next[place].changes.last().cloned() else {
                break;
            };
            chosen.push(Chosen {
                kind,
                sentence,
                worth: worths[place],
                ways: None,
                recipes: (made.recipe.clone(), next[place].recipe.clone()),
            });
            made = next[place].clone();
            rows.clone_from(&all[place]);
            prefixes.push(made.clone());
        }
        self.in_all_ways(&prefixes, &mut chosen);
        #[allow(clippy::cast_possible_truncation)] // a thousand at most
        advice(number as usize, HEED, &tried, &chosen)
    }

    /// Follows several recipes through the same kitchens, on every core.
    fn follow(&self, all: &[Changed], number: u64) -> Vec<Vec<Row>> {
        let setups: Vec<Option<Setup<'_>>> = all.iter().map(|one| one.setup(self.setup)).collect();
        let pieces: Vec<(usize, Range<u64>)> = (0..all.len())
            .flat_map(|place| cut(0..number).map(move |range| (place, range)))
            .collect();
        let made = progress::watched("Changes", pieces.len(), |done| {
            workers::each(&pieces, |(place, range)| {
                let rows = setups[*place].as_ref().map_or_else(Vec::new, |setup| {
                    kitchens(setup, &all[*place].audience, self.seed, range.clone()).rows
                });
                done.one();
                rows
            })
        });
        let mut rows = vec![Vec::new(); all.len()];
        for ((place, _), more) in pieces.iter().zip(made) {
            rows[*place].extend(more);
        }
        rows
    }

    /// In which of the ways that the reckoning might be each chosen change is worth something.
    fn in_all_ways(&self, prefixes: &[Changed], chosen: &mut [Chosen]) {
        if self.ways == 0 || chosen.is_empty() {
            return;
        }
        let number = in_each_way(self.number);
        let setups: Vec<Option<Setup<'_>>> =
            prefixes.iter().map(|one| one.setup(self.setup)).collect();
        let pieces: Vec<(usize, u64)> = (0..prefixes.len())
            .flat_map(|place| (0..self.ways).map(move |way| (place, way)))
            .collect();
        let made = progress::watched("Ways it might be", pieces.len(), |done| {
            workers::each(&pieces, |(place, at)| {
                let rows = setups[*place].as_ref().map_or_else(Vec::new, |setup| {
                    // A way of the base's own, so that a change and its base are doubted alike.
                    let audience = &prefixes[*place].audience;
                    let might: Way = way(setup, audience, self.seed, *at);
                    in_a_way(setup, audience, self.seed, Some(&might), 0..number)
                });
                done.one();
                rows
            })
        });
        let mut rows: Vec<Vec<Vec<Row>>> = vec![Vec::new(); prefixes.len()];
        for ((place, _), more) in pieces.iter().zip(made) {
            rows[*place].push(more);
        }
        for (place, one) in chosen.iter_mut().enumerate() {
            one.ways = Some(ways(&rows[place], &rows[place + 1]));
        }
    }
}
