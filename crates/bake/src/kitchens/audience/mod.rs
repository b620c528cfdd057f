//! An audience: how often each thing is met in the kitchens that a recipe goes out to.

mod read;

pub use read::{audience, no_such_audience, ready};

use super::variable::{Group, Variable};
use numerics::distribution::{Distribution, normal_quantile, normal_share};
use recipe::provenance::Origin;

/// The ready audiences: the name by which each is called, and its file.
pub const READY: [(&str, &str); 5] = [
    (
        "common",
        include_str!("../../../data/audiences/common.toml"),
    ),
    ("us", include_str!("../../../data/audiences/us.toml")),
    (
        "europe",
        include_str!("../../../data/audiences/europe.toml"),
    ),
    (
        "plateau",
        include_str!("../../../data/audiences/plateau.toml"),
    ),
    (
        "summer",
        include_str!("../../../data/audiences/summer.toml"),
    ),
];

/// An audience.
#[derive(Clone, Debug, PartialEq)]
pub struct Audience {
    /// Its name.
    pub name: String,
    /// Every variable, in the order of [`Variable::ALL`].
    pub variables: Vec<Varied>,
}

/// How one thing differs.
#[derive(Clone, Debug, PartialEq)]
pub struct Varied {
    /// How often each value is met, in the variable's own unit: °C, g, m, min, shares.
    pub distribution: Distribution,
    /// Of several kinds, the word of each, by its place among the variable's choices.
    pub words: Vec<Option<usize>>,
    /// What it goes with, each with the correlation of their normal scores.
    pub goes_with: Vec<(Variable, f64)>,
    /// Who says so.
    pub origin: Origin,
}

impl Audience {
    /// How a thing differs.
    pub fn of(&self, variable: Variable) -> &Varied {
        &self.variables[variable.place()]
    }

    /// Groups of things that are drawn together: those that go together in this audience are one.
    pub fn groups(&self) -> Vec<Vec<Group>> {
        let mut parts: Vec<Vec<Group>> = Group::ALL.iter().map(|group| vec![*group]).collect();
        for variable in Variable::ALL {
            for (other, by) in &self.of(*variable).goes_with {
                if *by == 0.0 || other.group() == variable.group() {
                    continue;
                }
                let place = |group: Group| parts.iter().position(|part| part.contains(&group));
                let (Some(one), Some(two)) = (place(variable.group()), place(other.group())) else {
                    continue;
                };
                if one != two {
                    let moved = parts.remove(one.max(two));
                    parts[one.min(two)].extend(moved);
                }
            }
        }
        parts
    }

    /// Shares between 0 and 1 that are independent of each other, turned into such as go together the way
    /// this audience's things do: `own` by coordinate.
    pub fn together(&self, variable: Variable, own: &[f64]) -> f64 {
        let with = &self.of(variable).goes_with;
        let raw = own[variable.dimension() as usize];
        if with.is_empty() {
            return raw;
        }
        let mut z = 0.0;
        let mut left = 1.0;
        for (other, by) in with {
            z += by * normal_quantile(self.together(*other, own));
            left -= by * by;
        }
        z += left.max(0.0).sqrt() * normal_quantile(raw);
        normal_share(z).clamp(1e-12, 1.0 - 1e-12)
    }
}

#[cfg(test)]
mod tests {
    use super::{READY, ready};
    use crate::kitchens::variable::{Group, Variable};

    #[test]
    fn every_ready_audience_can_be_read_and_says_all() {
        for (name, _) in READY {
            let audience = ready(name).unwrap_or_else(|| panic!("{name}"));
            assert_eq!(audience.variables.len(), Variable::ALL.len());
            for varied in &audience.variables {
                assert!(varied.distribution.can_be());
            }
        }
        let us = ready("us").expect("ready");
        let share = us.of(Variable::Weighs).distribution.quantile(0.66);
        assert!(share > 0.5, "35 % weigh: the upper end of u");
    }

    #[test]
    fn what_goes_together_is_one_group() {
        let groups = ready("common").expect("ready").groups();
        let with = groups
            .iter()
            .find(|part| part.contains(&Group::Measuring))
            .expect("there");
        assert!(with.contains(&Group::Probe) && with.contains(&Group::Pieces));
        assert!(!with.contains(&Group::Oven));
        let all: usize = groups.iter().map(Vec::len).sum();
        assert_eq!(all, Group::ALL.len());
    }
}
