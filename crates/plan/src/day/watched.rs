//! The order in which the solver tries things, watched so that it is stopped only where it can go on later.
//!
//! Stopped before its first decision or after it has taken all of them back, version 0.5 of the library
//! does not return to where it can be asked again. It is therefore stopped right after a decision.

use pumpkin_core::branching::branchers::dynamic_brancher::DynamicBrancher;
use pumpkin_core::branching::{Brancher, BrancherEvent, SelectionContext};
use pumpkin_core::predicates::Predicate;
use pumpkin_core::results::SolutionReference;
use pumpkin_core::variables::DomainId;
use std::cell::Cell;
use std::rc::Rc;

/// An order that notes each decision.
#[derive(Debug)]
pub struct Watched {
    /// The order.
    pub order: DynamicBrancher,
    /// Something was decided since somebody last looked.
    pub decided: Rc<Cell<bool>>,
}

impl Brancher for Watched {
    fn next_decision(&mut self, context: &mut SelectionContext) -> Option<Predicate> {
        let next = self.order.next_decision(context);
        self.decided.set(next.is_some());
        next
    }

    fn on_conflict(&mut self) {
        self.order.on_conflict();
    }

    fn on_backtrack(&mut self) {
        self.order.on_backtrack();
    }

    fn on_solution(&mut self, solution: SolutionReference) {
        self.order.on_solution(solution);
    }

    fn on_unassign_integer(&mut self, variable: DomainId, value: i32) {
        self.order.on_unassign_integer(variable, value);
    }

    fn on_appearance_in_conflict_predicate(&mut self, predicate: Predicate) {
        self.order.on_appearance_in_conflict_predicate(predicate);
    }

    fn on_restart(&mut self) {
        self.order.on_restart();
    }

    fn synchronise(&mut self, context: &mut SelectionContext) {
        self.order.synchronise(context);
    }

    fn is_restart_pointless(&mut self) -> bool {
        self.order.is_restart_pointless()
    }

    fn subscribe_to_events(&self) -> Vec<BrancherEvent> {
        self.order.subscribe_to_events()
    }
}
