//! What a plan is weighed by, as the solver knows it: each thing one variable that is at least its sum.

use super::bounds::Bounds;
use super::posted::Making;
use super::problem::{Cost, FRESH_MIN, Problem};
use pumpkin_core::predicate;
use pumpkin_core::predicates::Predicate;
use pumpkin_core::variables::{DomainId, TransformableVariable};

/// What is weighed, in the order of [`Cost::levels`].
pub(super) struct Weighed {
    /// Each as one variable.
    pub(super) sums: [DomainId; Cost::LEVELS],
    /// What each is the sum of.
    pub(super) terms: [Vec<DomainId>; Cost::LEVELS],
}

impl Making {
    /// A variable that is at least a sum and so much.
    pub(super) fn over(
        &mut self,
        mut terms: Vec<super::posted::Term>,
        plus: i32,
        most: i32,
    ) -> DomainId {
        let sum = self.variable(0, most.max(0));
        terms.push(sum.scaled(-1));
        self.at_most(terms, -plus);
        sum
    }

    /// What is weighed, each as one variable.
    pub(super) fn weighed(&mut self, problem: &Problem, bounds: &Bounds<'_>) -> Weighed {
        let horizon = problem.horizon;
        let (mut late, mut past, mut soon, mut moved) =
            (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        let (mut span, mut early, mut waits) = (Vec::new(), Vec::new(), Vec::new());
        let soonest: Vec<_> = problem
            .wishes
            .iter()
            .filter(|wish| wish.by.is_none())
            .collect();
        if !soonest.is_empty() {
            let last = self.variable(bounds.soonest(), horizon);
            for wish in soonest {
                let lasts = problem.tasks[wish.task].lasts;
                self.at_most(vec![self.start(wish.task), last.scaled(-1)], -lasts);
            }
            soon.push(last);
        }
        for wish in &problem.wishes {
            let Some(by) = wish.by else { continue };
            let lasts = problem.tasks[wish.task].lasts;
            let over = self.over(vec![self.start(wish.task)], lasts - by, horizon);
            late.push(over);
            let before = self.over(vec![self.minus(wish.task)], by - lasts, horizon.max(by));
            waits.push(before);
            let fresh = by - FRESH_MIN;
            if fresh > 0 {
                let old = self.over(vec![self.minus(wish.task)], fresh - lasts, fresh);
                past.push(old);
            }
        }
        for gap in &problem.gaps {
            let between = vec![self.start(gap.to), self.minus(gap.from)];
            if gap.most > gap.best {
                let over = self.over(between.clone(), -gap.best, gap.most - gap.best);
                past.push(over);
            }
            if gap.most > gap.least {
                let over = self.over(between, -gap.least, gap.most - gap.least);
                waits.push(over);
            }
        }
        for (task, known) in &problem.known {
            let far = self.over(vec![self.start(*task)], -known, horizon);
            self.at_most(vec![self.minus(*task), far.scaled(-1)], -known);
            moved.push(far);
        }
        for stretch in problem.stretches.iter().filter(|tasks| !tasks.is_empty()) {
            let first = self.variable(0, horizon);
            let last = self.variable(0, horizon);
            for task in stretch {
                self.at_most(vec![first.scaled(1), self.minus(*task)], 0);
                let lasts = problem.tasks[*task].lasts;
                self.at_most(vec![self.start(*task), last.scaled(-1)], -lasts);
            }
            // It is never shorter than the longest way through it, nor than its work.
            let whole = self.variable(bounds.shortest(stretch), horizon.max(1));
            let sum = vec![last.scaled(1), first.scaled(-1), whole.scaled(-1)];
            self.at_most(sum, 0);
            span.push(whole);
            for (midnight, morning) in &problem.mornings {
                // Some work of the day before midnight, or all of it after the morning, or early.
                let over = self.variable(0, morning - midnight);
                let is_early = self.solver.new_literal();
                let sum = vec![over.scaled(-1), first.scaled(-1)];
                self.at_most_if(is_early, sum, -morning);
                let mut ways: Vec<Predicate> =
                    vec![predicate![first >= *morning], is_early.get_true_predicate()];
                let before = *midnight - 1;
                for task in stretch {
                    let start = self.start(*task);
                    ways.push(predicate![start <= before]);
                }
                self.clause(ways);
                early.push(over);
            }
        }
        let terms = [late, past, moved, soon, span, early, waits];
        let sums = terms.each_ref().map(|terms| {
            let terms = terms.iter().map(|term| term.scaled(1)).collect();
            self.over(terms, 0, i32::MAX / 8)
        });
        Weighed { sums, terms }
    }
}
