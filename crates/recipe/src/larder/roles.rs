//! What each group and each exception does in a dough, and by which spoon it is measured.

use super::table::{ROLES, Table};
use super::{Role, YeastForm};
use crate::measure::Measure;
use std::collections::BTreeMap;

/// A role and the measure whose household weight counts: a cup for flour, a teaspoon for spices.
#[derive(Clone, Copy)]
pub(super) struct Duty {
    pub(super) role: Role,
    pub(super) measure: Measure,
}

/// Roles by key, and by group for all others.
pub(super) struct Roles {
    by_key: BTreeMap<String, Duty>,
    by_group: BTreeMap<String, Duty>,
}

impl Roles {
    /// Reads the table.
    pub(super) fn read() -> Self {
        let table = Table::read(ROLES);
        let [of, what, role, measure] = table.columns(["of", "what", "role", "measure"]);
        let mut roles = Self {
            by_key: BTreeMap::new(),
            by_group: BTreeMap::new(),
        };
        for row in table.rows() {
            let duty = Duty {
                role: role_of(row.text(role)),
                measure: measure_of(row.text(measure)),
            };
            let map = match row.text(of) {
                "key" => &mut roles.by_key,
                _ => &mut roles.by_group,
            };
            map.insert(row.text(what).to_owned(), duty);
        }
        roles
    }

    /// The duty of a row.
    pub(super) fn of(&self, key: &str, group: &str) -> Duty {
        let other = Duty {
            role: Role::Other,
            measure: Measure::Cup,
        };
        self.by_key
            .get(key)
            .or_else(|| self.by_group.get(group))
            .copied()
            .unwrap_or(other)
    }
}

/// The role that a word of the tables names.
pub(super) fn role_of(word: &str) -> Role {
    match word {
        "flour" => Role::Flour,
        "liquid" => Role::Liquid,
        "egg" => Role::Egg,
        "fat" => Role::Fat,
        "sugar" => Role::Sugar,
        "salt" => Role::Salt,
        "yeast fresh" => Role::Yeast(YeastForm::Fresh),
        "yeast active dry" => Role::Yeast(YeastForm::ActiveDry),
        "yeast instant" => Role::Yeast(YeastForm::Instant),
        "yeast instant osmotolerant" => Role::Yeast(YeastForm::InstantOsmotolerant),
        "milk powder" => Role::MilkPowder,
        "flavour" => Role::Flavour,
        "addition" => Role::Addition,
        _ => Role::Other,
    }
}

/// The measure that a word of the tables names.
pub(super) fn measure_of(word: &str) -> Measure {
    match word {
        "tsp" => Measure::Teaspoon,
        "tbsp" => Measure::Tablespoon,
        "fl_oz" => Measure::FluidOunce,
        _ => Measure::Cup,
    }
}
