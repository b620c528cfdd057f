//! Changes of the words tried in the same kitchens: which would save most bakes.

use super::kitchens::cut;
use crate::world::progress::Told;
use crate::world::workers;
use bake::kitchens::audience::Audience;
use bake::kitchens::doubts::{in_a_way, way};
use bake::kitchens::{Row, Setup, kitchens};
use edit::advice::{
    Advice, Changed, Chosen, HEED, Kind, MOST_CHANGES, Tried, advice, best, ways, worth,
};
use numerics::indices::Known;
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
    /// Who is told how far it is.
    pub told: Told<'a>,
}

/// Kitchens in which each change is tried, of those of the recipe itself.
fn tried_in(number: u64) -> u64 {
    (number / 10).clamp(64, 1024)
}

/// Kitchens in which a change is tried in each way that the reckoning might be.
fn in_each_way(number: u64) -> u64 {
    (number / 80).clamp(48, 128)
}

/// Changes that are tried in all ways at most: those kept, and some that do not hold.
const MOST_IN_ALL_WAYS: usize = 6;

/// A recipe with some changes, and what comes of it.
struct Base {
    changed: Changed,
    rows: Vec<Row>,
    /// The same in each way that the reckoning might be.
    ways: Vec<Vec<Row>>,
}

impl Asked<'_> {
    /// Tries one change after the other, and on top of those that hold the others again.
    pub fn advice(&self) -> Advice {
        let number = tried_in(self.number);
        let (recipe, formula) = (self.setup.recipe, self.setup.formula);
        let nothing = Changed::nothing(recipe, formula, self.audience);
        let mut base = Base {
            rows: self
                .follow(std::slice::from_ref(&nothing), number)
                .remove(0),
            ways: self.in_all_ways(&nothing),
            changed: nothing,
        };
        let mut tried: Vec<Tried> = Vec::new();
        let mut chosen: Vec<Chosen> = Vec::new();
        let mut given_up: Vec<Kind> = Vec::new();
        for round in 0..MOST_CHANGES {
            let mut next: Vec<(Kind, Changed)> = Kind::ALL
                .into_iter()
                .filter(|kind| !given_up.contains(kind))
                .filter_map(|kind| Some((kind, base.changed.and(kind, self.setup, self.larder)?)))
                .collect();
            let all: Vec<&Changed> = next.iter().map(|(_, changed)| changed).collect();
            let mut all = self.follow(&all, number);
            let mut worths: Vec<Known> = all.iter().map(|with| worth(&base.rows, with)).collect();
            if round == 0 {
                let each = next.iter().zip(&worths);
                tried = each
                    .map(|((kind, _), worth)| Tried {
                        kind: *kind,
                        worth: *worth,
                    })
                    .collect();
            }
            let mut kept = false;
            while let Some(place) = best(&worths).filter(|_| chosen.len() < MOST_IN_ALL_WAYS) {
                let (kind, changed) = next.remove(place);
                let (rows, worth) = (all.remove(place), worths.remove(place));
                let in_ways = self.in_all_ways(&changed);
                let held = (self.ways > 0).then(|| ways(&base.ways, &in_ways));
                let one = Chosen {
                    kind,
                    sentence: changed.sentence(),
                    worth,
                    ways: held,
                    recipes: (base.changed.recipe.clone(), changed.recipe.clone()),
                };
                let holds = one.holds();
                chosen.push(one);
                if holds {
                    base = Base {
                        changed,
                        rows,
                        ways: in_ways,
                    };
                    kept = true;
                    break;
                }
                given_up.push(kind);
            }
            if !kept {
                break;
            }
        }
        #[allow(clippy::cast_possible_truncation)] // a thousand at most
        advice(number as usize, HEED, &tried, &chosen)
    }

    /// Follows several recipes through the same kitchens, on every core.
    fn follow(
        &self,
        all: &[impl std::borrow::Borrow<Changed> + Sync],
        number: u64,
    ) -> Vec<Vec<Row>> {
        let setups: Vec<Option<Setup<'_>>> = all
            .iter()
            .map(|one| one.borrow().setup(self.setup))
            .collect();
        let pieces: Vec<(usize, Range<u64>)> = (0..all.len())
            .flat_map(|place| cut(0..number).map(move |range| (place, range)))
            .collect();
        let made = self.told.of("Changes of the words", pieces.len(), |done| {
            workers::each(&pieces, |(place, range)| {
                let audience = &all[*place].borrow().audience;
                let rows = setups[*place].as_ref().map_or_else(Vec::new, |setup| {
                    kitchens(setup, audience, self.seed, range.clone()).rows
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

    /// What comes of a recipe in each of the ways that the reckoning might be; nothing for a quick look.
    fn in_all_ways(&self, changed: &Changed) -> Vec<Vec<Row>> {
        let Some(setup) = changed.setup(self.setup) else {
            return Vec::new();
        };
        let number = in_each_way(self.number);
        let all: Vec<u64> = (0..self.ways).collect();
        self.told.of("Ways it might be", all.len(), |done| {
            workers::each(&all, |at| {
                // The same doubts about every change and about what it is held against.
                let might = way(&setup, &changed.audience, self.seed, *at);
                let rows = in_a_way(
                    &setup,
                    &changed.audience,
                    self.seed,
                    Some(&might),
                    0..number,
                );
                done.one();
                rows
            })
        })
    }
}
