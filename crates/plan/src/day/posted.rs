//! The puzzle as the solver knows it: a variable for every moment that can move, and a clause for everything else.

use super::bounds::Bounds;
use super::problem::{Pool, Problem, Shelf, Stay, Use};
use super::rigid::Rigid;
use super::search::{Answer, Stop};
use super::watched::Watched;
use super::weighed::Weighed;
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
    ProblemSolution, SatisfactionResult, SatisfactionResultUnderAssumptions, SolutionReference,
};
use pumpkin_core::variables::{AffineView, DomainId, Literal, TransformableVariable};
use std::rc::Rc;

pub(super) type Term = AffineView<DomainId>;

/// Of a pool with more open pairs than this the solver is not told the order pair by pair.
const MOST_PAIRS: usize = 1500;

/// Two tasks that stay in the order in which they come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Order {
    /// The first.
    pub first: usize,
    /// The second.
    pub second: usize,
    /// At least so long from the start of the one to that of the other, minutes.
    pub least: i32,
}

/// A puzzle put to the solver.
pub struct Posted {
    pub(super) solver: Solver,
    pub(super) resolver: ResolutionResolver,
    /// A variable for all tasks that always lie alike.
    pub(super) moments: Vec<DomainId>,
    pub(super) rigid: Rigid,
    pub(super) weighed: Weighed,
    pub(super) brancher: Watched,
    /// The solver has said that there is no plan whatever is asked.
    pub(super) closed: bool,
}

impl Posted {
    /// Puts it; none when it cannot be solved and that is plain at once.
    pub fn new(problem: &Problem) -> Option<Self> {
        Self::with(problem, &[], MOST_PAIRS)
    }

    /// Puts it with some orders that are kept: few pairs are then open, and each is told.
    pub fn in_order(problem: &Problem, order: &[Order]) -> Option<Self> {
        Self::with(problem, order, usize::MAX)
    }

    fn with(problem: &Problem, order: &[Order], most_pairs: usize) -> Option<Self> {
        let rigid = Rigid::new(problem);
        // What was done may lie before minute 0.
        let mut windows = vec![(i32::MIN, i32::MAX); rigid.count()];
        for (task, own) in problem.tasks.iter().enumerate() {
            let (moment, after) = rigid.of(task);
            let window = &mut windows[moment];
            let latest = own.latest.min(problem.horizon - own.lasts);
            window.0 = window.0.max(own.earliest - after);
            window.1 = window.1.min(latest - after);
        }
        if windows.iter().any(|(earliest, latest)| latest < earliest) {
            return None;
        }
        let mut solver = Solver::default();
        let windows = windows.into_iter();
        let moments =
            windows.map(|(earliest, latest)| solver.new_bounded_integer(earliest, latest));
        let mut making = Making {
            moments: moments.collect(),
            solver,
            rigid,
        };
        making.gaps(problem);
        for kept in order {
            let terms = vec![making.start(kept.first), making.minus(kept.second)];
            making.at_most(terms, -kept.least);
        }
        let bounds = Bounds::in_order(problem, order);
        for pool in &problem.pools {
            // Where every pair is told nothing is left to say.
            if pool.capacity > 1 || !pool.closed.is_empty() || most_pairs < usize::MAX {
                making.pool(pool);
            }
            making.pairs(problem, &bounds, pool, most_pairs);
        }
        for (one, other) in &problem.alike {
            if let (Some(a), Some(b)) = (one.first(), other.first()) {
                making.at_most(vec![making.start(*a), making.minus(*b)], 0);
            }
        }
        for shelf in &problem.shelves {
            making.places(shelf);
        }
        making.oven(problem);
        let weighed = making.weighed(problem, &bounds);
        if making.solver.is_inconsistent() {
            return None;
        }
        let brancher = Watched {
            order: tried(&making.solver, &making.moments, None),
            decided: Rc::default(),
        };
        Some(Self {
            solver: making.solver,
            resolver: ResolutionResolver::default(),
            moments: making.moments,
            rigid: making.rigid,
            weighed,
            brancher,
            closed: false,
        })
    }

    /// No plan costs less at a level, as far as is plain without a search.
    pub fn least(&self, level: usize) -> i32 {
        self.solver.lower_bound(&self.weighed.sums[level])
    }

    /// From here on plans that cost more at a level are of no interest.
    pub fn keep(&mut self, level: usize, most: i32) {
        let tag = self.solver.new_constraint_tag();
        let weighed = self.weighed.sums[level];
        self.solver.add_clause([predicate![weighed <= most]], tag);
    }

    /// Shows the solver a plan that is already known: from then on it looks near it first.
    pub fn show(&mut self, plan: &[i32], stop: &mut Stop<'_, '_>) {
        self.near(plan);
        self.any(&[], stop);
    }

    /// From here on it looks near a plan first.
    pub fn near(&mut self, plan: &[i32]) {
        let mut moments = Vec::new();
        self.rigid.moments(plan, &mut moments);
        let warm = WarmStart::new(&self.moments, &moments);
        self.brancher.order = tried(&self.solver, &self.moments, Some(warm));
    }

    /// A plan that costs no more than so much at a level, with some tasks where they are.
    pub fn any_at(
        &mut self,
        level: usize,
        most: i32,
        fixed: &[(usize, i32)],
        stop: &mut Stop<'_, '_>,
    ) -> Answer {
        let weighed = self.weighed.sums[level];
        let given = fixed.iter().map(|(task, start)| {
            let (moment, after) = self.rigid.of(*task);
            let variable = self.moments[moment];
            let at = start - after;
            predicate![variable == at]
        });
        let given: Vec<Predicate> = [predicate![weighed <= most]]
            .into_iter()
            .chain(given)
            .collect();
        self.any(&given, stop)
    }

    /// Any plan under which something holds.
    pub fn any(&mut self, given: &[Predicate], stop: &mut Stop<'_, '_>) -> Answer {
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
                    Answer::Found(starts(&self.rigid, &self.moments, found.solution()))
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
                Answer::Found(starts(&self.rigid, &self.moments, found.solution()))
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

/// Where the tasks of a plan begin that the solver has found.
pub(super) fn starts(
    rigid: &Rigid,
    moments: &[DomainId],
    found: SolutionReference<'_>,
) -> Vec<i32> {
    let start = |task: usize| {
        let (moment, after) = rigid.of(task);
        found.get_integer_value(moments[moment]) + after
    };
    (0..rigid.tasks()).map(start).collect()
}

/// First what is known, then what was often in the way and as it was last, then each start as early as
/// it can be.
fn tried(
    solver: &Solver,
    moments: &[DomainId],
    warm: Option<WarmStart<DomainId>>,
) -> DynamicBrancher {
    let earliest = IndependentVariableValueBrancher::new(Smallest::new(moments), InDomainMin);
    let mut order = DynamicBrancher::new(Vec::new());
    if let Some(warm) = warm {
        order.add_brancher(Box::new(warm));
    }
    order.add_brancher(Box::new(AutonomousSearch::new(earliest)));
    order.add_brancher(Box::new(solver.default_brancher()));
    order
}

/// A puzzle while it is put.
pub(super) struct Making {
    pub(super) solver: Solver,
    moments: Vec<DomainId>,
    rigid: Rigid,
}

impl Making {
    /// A new variable; what is plainly impossible already takes no more of them.
    pub(super) fn variable(&mut self, least: i32, most: i32) -> DomainId {
        match self.moments.first() {
            Some(any) if self.solver.is_inconsistent() => *any,
            _ => self.solver.new_bounded_integer(least.min(most), most),
        }
    }

    pub(super) fn start(&self, task: usize) -> Term {
        let (moment, after) = self.rigid.of(task);
        self.moments[moment].offset(after)
    }

    pub(super) fn minus(&self, task: usize) -> Term {
        self.start(task).scaled(-1)
    }

    /// A sum that is at most so much.
    pub(super) fn at_most(&mut self, terms: Vec<Term>, most: i32) {
        let tag = self.solver.new_constraint_tag();
        self.solver
            .add_constraint(less_than_or_equals(terms, most, tag))
            .post();
    }

    /// The same, when a literal holds.
    pub(super) fn at_most_if(&mut self, when: Literal, terms: Vec<Term>, most: i32) {
        let tag = self.solver.new_constraint_tag();
        self.solver
            .add_constraint(less_than_or_equals(terms, most, tag))
            .implied_by(when);
    }

    pub(super) fn clause(&mut self, of: Vec<Predicate>) {
        let tag = self.solver.new_constraint_tag();
        self.solver.add_clause(of, tag);
    }

    fn gaps(&mut self, problem: &Problem) {
        for gap in &problem.gaps {
            let (from, to) = (gap.from, gap.to);
            let ((one, before), (other, after)) = (self.rigid.of(from), self.rigid.of(to));
            if one == other && (gap.least..=gap.most).contains(&(after - before)) {
                continue;
            }
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
            .map(|one| self.start(one.task).offset(one.after))
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

    /// Of two that cannot be at once one is first: what no gap and no window settles is a literal, so that a
    /// dead end teaches the order and not the minutes.
    fn pairs(&mut self, problem: &Problem, bounds: &Bounds<'_>, pool: &Pool, most_pairs: usize) {
        let oven = &problem.oven;
        let apart = |one: usize, other: usize| {
            let place = |task: usize| oven.bakes.iter().position(|bake| *bake == task);
            place(one)
                .zip(place(other))
                .is_some_and(|(one, other)| oven.apart[one][other].is_some())
        };
        let ends = |one: &Use| one.after + one.lasts;
        let settled = |one: &Use, other: &Use| {
            let way = bounds.way(one.task, other.task);
            let latest = problem.tasks[one.task].latest + ends(one);
            way.is_some_and(|way| ends(one) <= way + other.after)
                || latest <= bounds.earliest(other.task) + other.after
        };
        let uses: Vec<&Use> = pool.uses.iter().filter(|one| one.lasts > 0).collect();
        let mut pairs = Vec::new();
        for (place, one) in uses.iter().enumerate() {
            for other in &uses[..place] {
                let both = one.count + other.count > pool.capacity;
                let unsettled = !settled(one, other) && !settled(other, one);
                if both && unsettled && one.task != other.task && !apart(one.task, other.task) {
                    pairs.push((*other, *one));
                }
            }
        }
        if pairs.len() > most_pairs {
            return;
        }
        for (one, other) in pairs {
            let first = self.solver.new_literal();
            let (a, b) = (one.task, other.task);
            let then = vec![self.start(a), self.minus(b)];
            self.at_most_if(first, then, other.after - ends(one));
            let then = vec![self.start(b), self.minus(a)];
            self.at_most_if(!first, then, one.after - ends(other));
        }
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
        for pair in oven.pairs() {
            let (a, b) = (oven.bakes[pair.one], oven.bakes[pair.other]);
            // One literal and its opposite: either one is first or the other.
            let first = self.solver.new_literal();
            let to_b = problem.tasks[a].lasts + pair.there;
            let to_a = problem.tasks[b].lasts + pair.back;
            self.at_most_if(first, vec![self.start(a), self.minus(b)], -to_b);
            self.at_most_if(!first, vec![self.start(b), self.minus(a)], -to_a);
        }
        for one in 0..oven.bakes.len() {
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
}
