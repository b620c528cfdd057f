//! Which of the things that are weighed stand in each other's way: what a dead end teaches about the least of their sum.
//!
//! Each is assumed to be as little as can be. When that cannot be, the solver names those that cannot be so
//! together; their sum is then at least one more, and stands for them from there on (A. Morgado, C. Dodaro,
//! J. Marques-Silva, Core-guided `MaxSAT` with soft cardinality constraints, CP 2014, from memory; for whole
//! numbers after G. Gange and others, Core-guided and core-boosted search for CP, CPAIOR 2020, from memory).

use super::posted::{Posted, starts};
use super::search::Stop;
use pumpkin_constraints::less_than_or_equals;
use pumpkin_core::predicate;
use pumpkin_core::predicates::Predicate;
use pumpkin_core::results::SatisfactionResultUnderAssumptions;
use pumpkin_core::variables::{DomainId, TransformableVariable};

/// Terms of a sum, each with the least that it can be.
pub struct Cores {
    terms: Vec<(DomainId, i32)>,
}

/// What one question taught.
pub enum Taught {
    /// A plan in which each is as little as it can be.
    Found(Vec<i32>),
    /// The sum is at least one more.
    More,
    /// There is no plan at all.
    Never,
    /// It was stopped.
    Unknown,
}

impl Cores {
    /// Of what is weighed at a level.
    pub fn new(posted: &Posted, level: usize) -> Self {
        let terms = posted.weighed.terms[level].iter();
        Self {
            terms: terms
                .map(|term| (*term, posted.solver.lower_bound(term)))
                .collect(),
        }
    }

    /// The least that their sum can be, as far as is known.
    pub fn least(&self) -> i32 {
        self.terms.iter().map(|(_, least)| least).sum()
    }

    /// Whether it is a sum at all.
    pub fn several(&self) -> bool {
        self.terms.len() > 1
    }

    /// Asks once.
    pub fn ask(&mut self, posted: &mut Posted, stop: &mut Stop<'_, '_>) -> Taught {
        if posted.closed || posted.solver.is_inconsistent() {
            return Taught::Never;
        }
        if stop.over() {
            return Taught::Unknown;
        }
        stop.watch(&posted.brancher.decided);
        let given: Vec<Predicate> = self
            .terms
            .iter()
            .map(|&(term, least)| predicate![term <= least])
            .collect();
        let core: Vec<DomainId> = match posted.solver.satisfy_under_assumptions(
            &mut posted.brancher,
            stop,
            &mut posted.resolver,
            &given,
        ) {
            SatisfactionResultUnderAssumptions::Satisfiable(found) => {
                return Taught::Found(starts(&posted.rigid, &posted.moments, found.solution()));
            }
            SatisfactionResultUnderAssumptions::UnsatisfiableUnderAssumptions(mut why) => why
                .extract_core()
                .iter()
                .map(Predicate::get_domain)
                .collect(),
            SatisfactionResultUnderAssumptions::Unsatisfiable(_) => Vec::new(),
            SatisfactionResultUnderAssumptions::Unknown(_) => return Taught::Unknown,
        };
        self.learn(posted, &core)
    }

    /// What cannot be so little together is at least one more from there on.
    fn learn(&mut self, posted: &mut Posted, core: &[DomainId]) -> Taught {
        let (inside, outside): (Vec<_>, Vec<_>) = self
            .terms
            .iter()
            .copied()
            .partition(|(term, _)| core.contains(term));
        self.terms = outside;
        let sum: i32 = inside.iter().map(|(_, least)| least).sum();
        match inside.as_slice() {
            [] => {
                posted.closed = true;
                return Taught::Never;
            }
            [(term, _)] => self.terms.push((*term, sum + 1)),
            several => {
                let most = i32::MAX / 8;
                let whole = posted.solver.new_bounded_integer(sum + 1, most);
                let tag = posted.solver.new_constraint_tag();
                let terms: Vec<_> = several
                    .iter()
                    .map(|(term, _)| term.scaled(1))
                    .chain([whole.scaled(-1)])
                    .collect();
                let at_least = less_than_or_equals(terms, 0, tag);
                posted.solver.add_constraint(at_least).post();
                self.terms.push((whole, sum + 1));
            }
        }
        Taught::More
    }
}
