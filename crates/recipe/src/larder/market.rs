//! What an ingredient is called in the shops of a country (common practice).

use super::Ingredient;
use super::table::{MARKET_NAMES, Table};
use crate::measure::Market;

/// The name under which an ingredient is sold in a country, when the one that is written is a
/// common name of it and another one is usual there. A name of the cook's own is left alone.
pub fn name_in(market: Market, written: &str, ingredient: &Ingredient) -> Option<String> {
    let written = written.trim();
    let same = |name: &str| name.eq_ignore_ascii_case(written);
    if !ingredient.names.iter().any(|name| same(name)) {
        return None;
    }
    let table = Table::read(MARKET_NAMES);
    let [key, us, uk, au] = table.columns(["key", "us", "uk", "au"]);
    let column = match market {
        Market::UnitedStates => us,
        Market::UnitedKingdom => uk,
        Market::Australia => au,
    };
    // A pack of the cook's own is found by the common name it is written under.
    let row = table
        .rows()
        .find(|row| row.text(key) == ingredient.key)
        .or_else(|| {
            table
                .rows()
                .find(|row| [us, uk, au].iter().any(|name| same(row.text(*name))))
        })?;
    let there = row.text(column);
    (!same(there)).then(|| there.to_owned())
}

#[cfg(test)]
mod tests {
    use super::name_in;
    use crate::larder::table::{MARKET_NAMES, Table};
    use crate::larder::{Found, Larder};
    use crate::measure::Market;

    #[test]
    fn every_row_is_an_ingredient_and_every_name_finds_it() {
        let larder = Larder::open();
        let table = Table::read(MARKET_NAMES);
        let [key, us, uk, au] = table.columns(["key", "us", "uk", "au"]);
        for row in table.rows() {
            let wanted = row.text(key);
            assert!(larder.by_key(wanted).is_some(), "{wanted}");
            for column in [us, uk, au] {
                let name = row.text(column);
                let found = match larder.find(name) {
                    Found::One(one) => one.key == wanted || wanted.starts_with("flour_"),
                    Found::Several(all) => all.iter().any(|one| one.key == wanted),
                    Found::Near(_) | Found::Nothing => false,
                };
                assert!(found, "{wanted} is not found as {name}");
            }
        }
    }

    #[test]
    fn names_go_over_and_come_back() {
        let larder = Larder::open();
        let Found::One(flour) = larder.find("bread flour") else {
            panic!("it is there")
        };
        let there = name_in(Market::UnitedKingdom, "bread flour", flour);
        assert_eq!(there.as_deref(), Some("strong white bread flour"));
        let back = name_in(Market::UnitedStates, "strong white bread flour", flour);
        assert_eq!(back.as_deref(), Some("bread flour"));
        assert_eq!(name_in(Market::UnitedStates, "bread flour", flour), None);
        assert_eq!(name_in(Market::Australia, "our mill's flour", flour), None);
    }
}
