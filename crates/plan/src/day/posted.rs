//! The puzzle as the solver knows it: a variable for every start, and a clause for everything else.

use super::problem::{Cost, Pool, Problem, Shelf, Stay};
use super::search::{Answer, Stop};
use super::watched::Watched;
use pumpkin_conflict_resolvers::resolvers::ResolutionResolver;
use pumpkin_constraints::{cumulative, less_than_or_equals};
use pumpkin_core::Solver;
use pumpkin_core::branching::branchers::autonomous_search::AutonomousSearch;
use pumpkin_core::branching::branchers::dynamic_brancher::DynamicBrancher;
use pumpkin_core::branching::branchers::independent_variable_value_brancher::IndependentVariableValueBrancher;
use pumpkin_core::branching::branchers::warm_start::WarmStart;
use pumpkin_core::branching::value_selection::InDomainMin;
use pumpkin_core::branching::variable_selection::Smallest;
use pumpkin_core::predicate;
use pumpkin_core::predicates::Predicate;
use pumpkin_core::results::{
    ProblemSolution, SatisfactionResult, SatisfactionResultUnderAssumptions,
};
use pumpkin_core::variables::{AffineView, DomainId, Literal, TransformableVariable};
use std::rc::Rc;

type Term = AffineView<DomainId>;

/// A puzzle put to the solver.
pub struct Posted {
    solver: Solver,
    resolver: ResolutionResolver,
    starts: Vec<DomainId>,
    weighed: [DomainId; Cost::LEVELS],
    brancher: Watched,
    /// The solver has said that there is no plan whatever is asked.
    closed: bool,
}

impl Posted {
    /// Puts it; none when it cannot be solved and that is plain at once.
    pub fn new(problem: &Problem) -> Option<Self> {
        let mut making = Making {
            solver: Solver::default(),
            starts: Vec::new(),
        };
        for task in &problem.tasks {
            let latest = task.latest.min(problem.horizon - task.lasts);
            if latest < task.earliest {
                return None;
            }
            let start = making.solver.new_bounded_integer(task.earliest, latest);
            making.starts.push(start);
        }
        making.gaps(problem);
        for pool in &problem.pools {
            making.pool(pool);
        }
        for shelf in &problem.shelves {
            making.places(shelf);
        }
        making.oven(problem);
        let weighed = making.weighed(problem);
        if making.solver.is_inconsistent() {
            return None;
        }
        let brancher = Watched {
            order: order(&making.solver, &making.starts, None),
            decided: Rc::default(),
        };
        Some(Self {
            solver: making.solver,
            resolver: ResolutionResolver::default(),
            starts: making.starts,
            weighed,
            brancher,
            closed: false,
        })
    }

    /// No plan costs less at a level, as far as is plain without a search.
    pub fn least(&self, level: usize) -> i32 {
        self.solver.lower_bound(&self.weighed[level])
    }

    /// From here on plans that cost more at a level are of no interest.
    pub fn keep(&mut self, level: usize, most: i32) {
        let tag = self.solver.new_constraint_tag();
        let weighed = self.weighed[level];
        self.solver.add_clause([predicate![weighed <= most]], tag);
    }

    /// Shows the solver a plan that is already known: from then on it looks near it first.
    pub fn show(&mut self, plan: &[i32], stop: &mut Stop<'_, '_>) {
        let warm = WarmStart::new(&self.starts, plan);
        self.brancher.order = order(&self.solver, &self.starts, Some(warm));
        self.any(&[], stop);
    }

    /// A plan that costs no more than so much at a level, with some tasks where they are.
    pub fn any_at(
        &mut self,
        level: usize,
        most: i32,
        fixed: &[(usize, i32)],
        stop: &mut Stop<'_, '_>,
    ) -> Answer {
        let weighed = self.weighed[level];
        let starts = &self.starts;
        let given = fixed.iter().map(|(task, start)| {
            let variable = starts[*task];
            predicate![variable == *start]
        });
        let given: Vec<Predicate> = [predicate![weighed <= most]]
            .into_iter()
            .chain(given)
            .collect();
        self.any(&given, stop)
    }

    /// Any plan under which something holds.
    pub fn any(&mut self, given: &[Predicate], stop: &mut Stop<'_, '_>) -> Answer {
        let starts = &self.starts;
        let read = |solution: &dyn Fn(DomainId) -> i32| -> Vec<i32> {
            starts.iter().map(|start| solution(*start)).collect()
        };
        if self.closed || self.solver.is_inconsistent() {
            return Answer::Never;
        }
        if stop.over() {
            return Answer::Unknown;
        }
        stop.watch(&self.brancher.decided);
        if given.is_empty() {
            return match self
                .solver
                .satisfy(&mut self.brancher, stop, &mut self.resolver)
            {
                SatisfactionResult::Satisfiable(found) => {
                    let found = found.solution();
                    Answer::Found(read(&|start| found.get_integer_value(start)))
                }
                SatisfactionResult::Unsatisfiable(..) => {
                    self.closed = true;
                    Answer::Never
                }
                SatisfactionResult::Unknown(..) => Answer::Unknown,
            };
        }
        match self.solver.satisfy_under_assumptions(
            &mut self.brancher,
            stop,
            &mut self.resolver,
            given,
        ) {
            SatisfactionResultUnderAssumptions::Satisfiable(found) => {
                let found = found.solution();
                Answer::Found(read(&|start| found.get_integer_value(start)))
            }
            SatisfactionResultUnderAssumptions::UnsatisfiableUnderAssumptions(_) => Answer::Never,
            SatisfactionResultUnderAssumptions::Unsatisfiable(_) => {
                self.closed = true;
                Answer::Never
            }
            SatisfactionResultUnderAssumptions::Unknown(_) => Answer::Unknown,
        }
    }
}

/// First what is known, then what was often in the way and as it was last, then each start as early as
/// it can be.
fn order(
    solver: &Solver,
    starts: &[DomainId],
    warm: Option<WarmStart<DomainId>>,
) -> DynamicBrancher {
    let earliest = IndependentVariableValueBrancher::new(Smallest::new(starts), InDomainMin);
    let mut order = DynamicBrancher::new(Vec::new());
    if let Some(warm) = warm {
        order.add_brancher(Box::new(warm));
    }
    order.add_brancher(Box::new(AutonomousSearch::new(earliest)));
    order.add_brancher(Box::new(solver.default_brancher()));
    order
}

/// A puzzle while it is put.
struct Making {
    solver: Solver,
    starts: Vec<DomainId>,
}

impl Making {
    /// A new variable; what is plainly impossible already takes no more of them.
    fn variable(&mut self, least: i32, most: i32) -> DomainId {
        match self.starts.first() {
            Some(any) if self.solver.is_inconsistent() => *any,
            _ => self.solver.new_bounded_integer(least.min(most), most),
        }
    }

    fn start(&self, task: usize) -> Term {
        self.starts[task].scaled(1)
    }

    fn minus(&self, task: usize) -> Term {
        self.starts[task].scaled(-1)
    }

    /// A sum that is at most so much.
    fn at_most(&mut self, terms: Vec<Term>, most: i32) {
        let tag = self.solver.new_constraint_tag();
        self.solver
            .add_constraint(less_than_or_equals(terms, most, tag))
            .post();
    }

    /// The same, when a literal holds.
    fn at_most_if(&mut self, when: Literal, terms: Vec<Term>, most: i32) {
        let tag = self.solver.new_constraint_tag();
        self.solver
            .add_constraint(less_than_or_equals(terms, most, tag))
            .implied_by(when);
    }

    fn clause(&mut self, of: Vec<Predicate>) {
        let tag = self.solver.new_constraint_tag();
        self.solver.add_clause(of, tag);
    }

    fn gaps(&mut self, problem: &Problem) {
        for gap in &problem.gaps {
            let (from, to) = (gap.from, gap.to);
            self.at_most(vec![self.start(from), self.minus(to)], -gap.least);
            self.at_most(vec![self.start(to), self.minus(from)], gap.most);
        }
    }

    fn pool(&mut self, pool: &Pool) {
        let uses: Vec<_> = pool.uses.iter().filter(|one| one.lasts > 0).collect();
        if uses.is_empty() {
            return;
        }
        let mut starts: Vec<Term> = uses
            .iter()
            .map(|one| self.starts[one.task].offset(one.after))
            .collect();
        let mut lasts: Vec<i32> = uses.iter().map(|one| one.lasts).collect();
        let mut counts: Vec<i32> = uses.iter().map(|one| one.count).collect();
        for (from, to) in pool.closed.iter().filter(|(from, to)| from < to) {
            starts.push(self.variable(*from, *from).scaled(1));
            lasts.push(to - from);
            counts.push(pool.capacity);
        }
        let tag = self.solver.new_constraint_tag();
        self.solver
            .add_constraint(cumulative(starts, lasts, counts, pool.capacity, tag))
            .post();
    }

    /// A literal under which one moment is no later than another.
    fn before(&mut self, earlier: Term, later: Term, by: i32) -> Literal {
        let literal = self.solver.new_literal();
        self.at_most_if(literal, vec![earlier, later.scaled(-1)], -by);
        literal
    }

    /// At the beginning of each stay, no more stands there than can.
    fn places(&mut self, of: &Shelf) {
        let all: i32 = of.stays.iter().map(|stay| stay.count).sum();
        if all <= of.capacity {
            return;
        }
        for (place, one) in of.stays.iter().enumerate() {
            let mut terms = Vec::new();
            for (other_place, other) in of.stays.iter().enumerate() {
                if place == other_place {
                    continue;
                }
                let not_yet = self.before(self.start(one.from), self.start(other.from), 1);
                let (left, now) = (self.start(other.to), self.start(one.from));
                let no_more = self.before(left, now, other.beyond);
                let there = self.variable(0, 1);
                self.clause(vec![
                    not_yet.get_true_predicate(),
                    no_more.get_true_predicate(),
                    predicate![there >= 1],
                ]);
                terms.push(there.scaled(other.count));
            }
            self.at_most(terms, of.capacity - one.count);
        }
    }

    fn oven(&mut self, problem: &Problem) {
        let oven = &problem.oven;
        for one in 0..oven.bakes.len() {
            for other in 0..one {
                let (Some(back), Some(there)) = (oven.apart[one][other], oven.apart[other][one])
                else {
                    continue;
                };
                let (a, b) = (oven.bakes[other], oven.bakes[one]);
                // One literal and its opposite: either one is first or the other.
                let first = self.solver.new_literal();
                let (to_b, to_a) = (
                    problem.tasks[a].lasts + there,
                    problem.tasks[b].lasts + back,
                );
                self.at_most_if(first, vec![self.start(a), self.minus(b)], -to_b);
                self.at_most_if(!first, vec![self.start(b), self.minus(a)], -to_a);
            }
            for rise in &oven.rises {
                self.cold(problem, rise, one);
            }
        }
    }

    fn cold(&mut self, problem: &Problem, rise: &Stay, place: usize) {
        let oven = &problem.oven;
        let bake = oven.bakes[place];
        let first = self.solver.new_literal();
        let out = vec![self.start(rise.to), self.minus(bake)];
        self.at_most_if(first, out, -(rise.beyond + oven.heats[place]));
        let after = vec![self.start(bake), self.minus(rise.from)];
        self.at_most_if(!first, after, -(problem.tasks[bake].lasts + oven.cools));
    }

    /// A variable that is at least a sum and so much.
    fn over(&mut self, mut terms: Vec<Term>, plus: i32, most: i32) -> DomainId {
        let sum = self.variable(0, most.max(0));
        terms.push(sum.scaled(-1));
        self.at_most(terms, -plus);
        sum
    }

    /// What is weighed, each as one variable.
    fn weighed(&mut self, problem: &Problem) -> [DomainId; Cost::LEVELS] {
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
            let last = self.variable(0, horizon);
            for wish in soonest {
                let lasts = problem.tasks[wish.task].lasts;
                self.at_most(vec![self.start(wish.task), last.scaled(-1)], -lasts);
            }
            soon.push(last.scaled(1));
        }
        for wish in &problem.wishes {
            let Some(by) = wish.by else { continue };
            let lasts = problem.tasks[wish.task].lasts;
            let over = self.over(vec![self.start(wish.task)], lasts - by, horizon);
            late.push(over.scaled(1));
            let before = self.over(vec![self.minus(wish.task)], by - lasts, horizon.max(by));
            waits.push(before.scaled(1));
        }
        for gap in &problem.gaps {
            let between = vec![self.start(gap.to), self.minus(gap.from)];
            if gap.most > gap.best {
                let over = self.over(between.clone(), -gap.best, gap.most - gap.best);
                past.push(over.scaled(1));
            }
            if gap.most > gap.least {
                let over = self.over(between, -gap.least, gap.most - gap.least);
                waits.push(over.scaled(1));
            }
        }
        for (task, known) in &problem.known {
            let far = self.over(vec![self.start(*task)], -known, horizon);
            self.at_most(vec![self.minus(*task), far.scaled(-1)], -known);
            moved.push(far.scaled(1));
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
            let whole = self.variable(problem.shortest(stretch), horizon.max(1));
            let sum = vec![last.scaled(1), first.scaled(-1), whole.scaled(-1)];
            self.at_most(sum, 0);
            span.push(whole.scaled(1));
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
                    let start = self.starts[*task];
                    ways.push(predicate![start <= before]);
                }
                self.clause(ways);
                early.push(over.scaled(1));
            }
        }
        let sum = |making: &mut Self, terms: Vec<Term>, plus: i32| {
            let most = i32::MAX / 8;
            making.over(terms, plus, most)
        };
        [
            sum(self, late, 0),
            sum(self, past, 0),
            sum(self, soon, 0),
            sum(self, moved, 0),
            sum(self, span, 0),
            sum(self, early, 0),
            sum(self, waits, 0),
        ]
    }
}
