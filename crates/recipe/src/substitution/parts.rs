//! What an ingredient brings that a dough must keep: water, fat, sugar, salt and three sorts of protein and milk sugar.

use super::flour::forms_gluten;
use crate::formula::brings;
use crate::larder::{Ingredient, Role};
use numerics::quantity::{Fraction, Mass};

/// What a swap should keep.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Component {
    /// Water, as the formula counts it.
    Water,
    /// Fat, the flour's own not counted.
    Fat,
    /// Sugar added as such or by honey and syrup.
    Sugar,
    /// Salt added as such or by salted butter.
    Salt,
    /// Protein of wheat and its kin, which holds the gas.
    Gluten,
    /// Protein of milk, egg and soya.
    Protein,
    /// Milk sugar, which browns and which yeast leaves alone.
    Lactose,
}

impl Component {
    /// Every component, in the order of the equations.
    pub const ALL: [Self; 7] = [
        Self::Water,
        Self::Fat,
        Self::Sugar,
        Self::Salt,
        Self::Gluten,
        Self::Protein,
        Self::Lactose,
    ];

    /// What a gram too much or too little of it weighs against a gram of water.
    ///
    /// Chosen here, with the reasons in `docs/decisions/substitution-weights.md`: a cook notices one
    /// gram of salt as soon as some ten grams of water; protein other than gluten and milk sugar
    /// colour and tenderise, and give way to everything else.
    pub const fn weight(self) -> f64 {
        match self {
            Self::Water | Self::Fat | Self::Gluten => 1.0,
            Self::Sugar => 0.7,
            Self::Salt => 10.0,
            Self::Protein => 0.1,
            Self::Lactose => 0.07,
        }
    }

    /// A change smaller than this share of the flour is not worth a second weighing; common
    /// practice, less for salt and more for sugar.
    pub const fn not_worth_weighing(self) -> f64 {
        match self {
            Self::Salt => 0.000_5,
            Self::Sugar => 0.01,
            _ => 0.005,
        }
    }
}

/// Masses of every component.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Parts([f64; 7]);

impl Parts {
    /// Of one component.
    pub const fn of(&self, component: Component) -> Mass {
        Mass::from_si(self.0[component as usize])
    }

    /// Both together.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        for (own, more) in self.0.iter_mut().zip(other.0) {
            *own += more;
        }
        self
    }

    /// The first without the second.
    #[must_use]
    pub fn without(mut self, other: Self) -> Self {
        for (own, less) in self.0.iter_mut().zip(other.0) {
            *own -= less;
        }
        self
    }
}

/// What a mass of an ingredient brings; a figure that is not known counts as none of it.
pub fn parts(ingredient: &Ingredient, mass: Mass) -> Parts {
    let sum = brings(ingredient, mass);
    let what = &ingredient.composition;
    let share = |share: Option<Fraction>| share.map_or(0.0, Fraction::si);
    let protein = mass.si() * share(what.protein);
    let gluten = forms_gluten(ingredient);
    let milk = ingredient
        .allergens_us
        .iter()
        .any(|allergen| allergen.starts_with("milk"));
    let dairy = milk && matches!(ingredient.role, Role::Liquid | Role::MilkPowder);
    // The sugar of milk that was not sweetened is lactose.
    let lactose = match what.lactose {
        Some(lactose) => mass.si() * lactose.si(),
        None if dairy => (mass.si() * share(what.sugars) - sum.sugar.si()).max(0.0),
        None => 0.0,
    };
    let counted = !matches!(ingredient.role, Role::Flour | Role::Yeast(_));
    Parts([
        sum.water.si(),
        sum.fat.si(),
        sum.sugar.si(),
        sum.salt.si(),
        if gluten { protein } else { 0.0 },
        if counted && !gluten { protein } else { 0.0 },
        if dairy { lactose } else { 0.0 },
    ])
}
