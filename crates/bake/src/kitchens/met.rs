//! What one kitchen meets: a value of every variable, a function of seed and number alone.

use super::audience::Audience;
use super::variable::{DIMENSIONS, Group, Unit, Variable};
use numerics::draw::{Purpose, unit};

/// What one kitchen meets.
#[derive(Clone, Debug, PartialEq)]
pub struct Met {
    /// Its number.
    pub number: u64,
    /// The share at which each variable lies, dependence in it, in the order of [`Variable::ALL`].
    pub at: Vec<f64>,
    /// The value of each, in its own unit; yes is 1.
    values: Vec<f64>,
    /// The word of each, where it has one.
    words: Vec<Option<usize>>,
    /// What keeps the cook from each rise, min.
    interruptions: Vec<f64>,
}

/// A kitchen of an audience; `anew`: groups that are drawn a second time, for what decides a bake.
pub fn met(audience: &Audience, seed: u64, number: u64, anew: &[Group]) -> Met {
    let mut own = vec![0.5; DIMENSIONS as usize];
    for variable in Variable::ALL {
        let purpose = if anew.contains(&variable.group()) {
            Purpose::Again
        } else {
            Purpose::First
        };
        for draw in 0..variable.draws() {
            let dimension = variable.dimension() + draw;
            own[dimension as usize] = unit(seed, purpose, number, dimension);
        }
    }
    let mut met = Met {
        number,
        at: Vec::with_capacity(Variable::ALL.len()),
        values: Vec::with_capacity(Variable::ALL.len()),
        words: Vec::with_capacity(Variable::ALL.len()),
        interruptions: Vec::new(),
    };
    for variable in Variable::ALL {
        let varied = audience.of(*variable);
        let at = audience.together(*variable, &own);
        met.at.push(at);
        met.values.push(varied.distribution.quantile(at));
        let which = varied.distribution.which(at);
        met.words.push(varied.words.get(which).copied().flatten());
    }
    let waits = &audience.of(Variable::Interruption).distribution;
    let first = Variable::Interruption.dimension();
    for draw in 0..Variable::Interruption.draws() {
        met.interruptions
            .push(waits.quantile(own[(first + draw) as usize]).max(0.0));
    }
    met
}

impl Met {
    /// The value of a variable, in its own unit.
    pub fn value(&self, variable: Variable) -> f64 {
        self.values[variable.place()]
    }

    /// Whether a yes or no is yes.
    pub fn yes(&self, variable: Variable) -> bool {
        debug_assert_eq!(variable.unit(), Unit::YesNo);
        self.values[variable.place()] > 0.5
    }

    /// The word of a variable, by its place among its choices.
    pub fn word(&self, variable: Variable) -> Option<usize> {
        self.words[variable.place()]
    }

    /// What keeps the cook from the rise of a place, min.
    pub fn interruption(&self, rise: usize) -> f64 {
        let last = self.interruptions.len().saturating_sub(1);
        self.interruptions
            .get(rise.min(last))
            .copied()
            .unwrap_or(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::met;
    use crate::kitchens::audience::ready;
    use crate::kitchens::variable::{Group, Variable};

    #[test]
    fn a_group_drawn_anew_leaves_all_others_as_they_were() {
        let audience = ready("us").expect("ready");
        let (first, anew) = (
            met(&audience, 4, 77, &[]),
            met(&audience, 4, 77, &[Group::Oven]),
        );
        for variable in Variable::ALL {
            let bits = |at: &[f64]| at[variable.place()].to_bits();
            let same = bits(&first.at) == bits(&anew.at);
            assert_eq!(same, variable.group() != Group::Oven, "{variable:?}");
        }
    }

    #[test]
    fn shares_and_dependence_are_what_the_file_says() {
        let audience = ready("common").expect("ready");
        let (mut weighs, mut probe, mut both) = (0.0, 0.0, 0.0);
        let n = 4000;
        for number in 0..n {
            let met = met(&audience, 1, number, &[]);
            let (scale, thermometer) = (met.yes(Variable::Weighs), met.yes(Variable::HasProbe));
            weighs += f64::from(u8::from(scale));
            probe += f64::from(u8::from(thermometer));
            both += f64::from(u8::from(scale && thermometer));
        }
        let n = n as f64;
        assert!((weighs / n - 0.5).abs() < 0.01, "{}", weighs / n);
        assert!((probe / n - 0.15).abs() < 0.012, "{}", probe / n);
        // Normal scores correlated by 0.4, cut at 0 and 1.036: P = 0.1121 (SciPy 1.17, multivariate normal).
        assert!((both / n - 0.1121).abs() < 0.012, "{}", both / n);
    }
}
