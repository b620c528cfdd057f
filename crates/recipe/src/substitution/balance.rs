//! The amounts of what comes in, and of what makes room for it, found by least squares.
//!
//! # Relation
//! Minimise over `x, y >= 0` the sum over components k of
//! `w_k^2 (sum_i c_ki x_i + sum_j c_kj y_j - t_k)^2` plus `sum_j s^2 (y_j - y_j0)^2`, where t is what
//! the dough holds of each component now.
//!
//! # Symbols
//! x masses of what comes in; y masses of the levers, y0 as they are; c mass of a component in a
//! gram; w the weights of `Component::weight`; s the stiffness of the levers.
//!
//! # Valid for
//! Swaps in which what comes in does the work of what goes out; who may stand for whom is asked
//! before.
//!
//! # Source
//! The problem is ours; it is solved by `numerics::bounded`, where the paper is named.
//!
//! # Departures
//! A lever whose change is not worth weighing stays as it is, and the other levers are found anew.
//! A component that does not make out what goes, and that nothing can make room for, is not asked for.
//!
//! # Checked by
//! `tests/verification/substitution.rs`, `tests/identities/substitution.rs`.

use super::parts::{Component, Parts, parts};
use crate::larder::Ingredient;
use numerics::bounded::least_squares;
use numerics::quantity::Mass;

/// How stiff a lever is: small beside every weight, so that it decides only what nothing else does.
const STIFFNESS: f64 = 0.04;

/// A component of at least this share of the largest makes out what goes: the fat of egg does, the
/// fat of milk does not.
const MAKES_OUT: f64 = 0.1;

/// Something that comes in.
#[derive(Clone, Copy)]
pub struct NewOne<'a> {
    /// What it is.
    pub ingredient: &'a Ingredient,
    /// Its mass, when that is settled by something else (the power of yeast, whole eggs).
    pub mass: Option<Mass>,
}

/// Something that is there already and may be taken more or less of.
#[derive(Clone, Copy)]
pub struct Lever<'a> {
    /// What it is.
    pub ingredient: &'a Ingredient,
    /// How much there is.
    pub mass: Mass,
    /// How much must stay: of a liquid that wakes yeast, enough for the yeast.
    pub least: Mass,
    /// The component for which it is moved: a change of it that is too small is left out.
    pub moves: Component,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Balanced {
    /// Masses of what comes in, in order.
    pub new: Vec<Mass>,
    /// Masses of the levers, in order; one that did not move keeps its bits.
    pub levers: Vec<Mass>,
    /// What is there now less what was there.
    pub difference: Parts,
}

/// Finds how much comes in for what goes out, and how much the levers move.
///
/// `flour` is all flour of the dough: against it a change is worth weighing or not.
pub fn balance(
    out: &[(&Ingredient, Mass)],
    new: &[NewOne<'_>],
    levers: &[Lever<'_>],
    flour: Mass,
) -> Balanced {
    let mut target = Parts::default();
    for (ingredient, mass) in out {
        target = target.and(parts(ingredient, *mass));
    }
    let counts = counts(&target, levers);
    for lever in levers {
        target = target.and(parts(lever.ingredient, lever.mass));
    }
    let mut still = vec![false; levers.len()];
    let mut found = solve(&target, new, levers, counts, &still);
    // What comes in does not make up for a change that was not worth weighing.
    let settled: Vec<NewOne<'_>> = new
        .iter()
        .zip(&found)
        .map(|(one, mass)| NewOne {
            ingredient: one.ingredient,
            mass: Some(*mass),
        })
        .collect();
    loop {
        let before = still.clone();
        for (place, lever) in levers.iter().enumerate() {
            let moved = (found[new.len() + place] - lever.mass).abs();
            if moved < flour * lever.moves.not_worth_weighing() {
                still[place] = true;
            }
        }
        if still == before {
            break;
        }
        found = solve(&target, &settled, levers, counts, &still);
    }
    let mut now = Parts::default();
    let all = new.iter().map(|one| one.ingredient);
    for (ingredient, mass) in all.chain(levers.iter().map(|l| l.ingredient)).zip(&found) {
        now = now.and(parts(ingredient, *mass));
    }
    let levers = found.split_off(new.len());
    Balanced {
        new: found,
        levers,
        difference: now.without(target),
    }
}

/// Which components are asked for: those that make out what goes, those that a lever can move, and
/// the gentle ones. The salt of a butter must not set the mass of the butter where no salt can make
/// room for it.
fn counts(out: &Parts, levers: &[Lever<'_>]) -> [bool; 7] {
    let each = Component::ALL.map(|component| out.of(component));
    let most = each.iter().fold(
        Mass::ZERO,
        |most, one| {
            if *one > most { *one } else { most }
        },
    );
    Component::ALL.map(|component| {
        let gentle = matches!(component, Component::Protein | Component::Lactose);
        let moved = levers.iter().any(|lever| lever.moves == component);
        gentle || moved || out.of(component) > most * MAKES_OUT
    })
}

/// Solves with some levers held.
fn solve(
    target: &Parts,
    new: &[NewOne<'_>],
    levers: &[Lever<'_>],
    counts: [bool; 7],
    still: &[bool],
) -> Vec<Mass> {
    let n = new.len() + levers.len();
    let one = Mass::from_si(1.0);
    let columns: Vec<Parts> = new
        .iter()
        .map(|one| one.ingredient)
        .chain(levers.iter().map(|lever| lever.ingredient))
        .map(|ingredient| parts(ingredient, one))
        .collect();
    let (mut rows, mut b) = (Vec::new(), Vec::new());
    for component in Component::ALL {
        let weight = if counts[component as usize] {
            component.weight()
        } else {
            0.0
        };
        rows.extend(columns.iter().map(|c| weight * c.of(component).si()));
        b.push(weight * target.of(component).si());
    }
    let (mut low, mut high) = (vec![0.0; n], vec![f64::INFINITY; n]);
    for (place, one) in new.iter().enumerate() {
        if let Some(mass) = one.mass {
            (low[place], high[place]) = (mass.si(), mass.si());
        }
    }
    for (place, lever) in levers.iter().enumerate() {
        let at = new.len() + place;
        let mut row = vec![0.0; n];
        row[at] = STIFFNESS;
        rows.extend(row);
        b.push(STIFFNESS * lever.mass.si());
        low[at] = lever.least.si().clamp(0.0, lever.mass.si());
        if still[place] {
            (low[at], high[at]) = (lever.mass.si(), lever.mass.si());
        }
    }
    // The figures of the larder are finite and the lengths fit, so there is an answer.
    let answer = least_squares(&rows, &b, &low, &high);
    answer.map_or_else(
        || {
            let as_is = levers.iter().map(|lever| lever.mass);
            new.iter()
                .map(|one| one.mass.unwrap_or(Mass::ZERO))
                .chain(as_is)
                .collect()
        },
        |answer| answer.x.into_iter().map(Mass::from_si).collect(),
    )
}
