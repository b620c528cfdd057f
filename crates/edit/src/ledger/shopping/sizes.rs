//! Sizes in which flour, milk, butter, sugar, salt and eggs are commonly sold, for whoever has written none.

use super::{Order, Pack};
use numerics::quantity::Mass;
use recipe::document::model::{Amount, Spooned};
use recipe::formula::Resolved;
use recipe::larder::{Ingredient, Role};
use recipe::measure::{Market, Measure};
use recipe::provenance::{Had, Origin};

/// Who says so, of every pack of this file.
const SAYS: &str = "a size commonly sold (common practice)";

/// What a pack holds.
enum Holds {
    Grams(f64),
    Litres(f64),
    Eggs(f64),
}

/// A pack: its word, what it holds, and how that is said where it is not plain.
type Sold = (&'static str, Holds, &'static str);

/// A common size of something in the shops of a country; metric sizes where none is named. None of them has
/// a source: common practice, from memory.
fn sold(ingredient: &Ingredient, market: Option<Market>) -> Option<Sold> {
    use Holds::{Eggs, Grams, Litres};
    let states = market == Some(Market::UnitedStates);
    let kingdom = market == Some(Market::UnitedKingdom);
    let key = &*ingredient.key;
    Some(match ingredient.role {
        Role::Flour if states => ("bag", Grams(2267.96), "5\u{a0}lb"),
        Role::Flour if kingdom => ("bag", Grams(1500.0), ""),
        Role::Flour => ("bag", Grams(1000.0), ""),
        Role::Sugar if key == "sugar_granulated" && states => ("bag", Grams(1814.37), "4\u{a0}lb"),
        Role::Sugar if key == "sugar_granulated" => ("bag", Grams(1000.0), ""),
        Role::Salt if states => ("box", Grams(737.1), "26\u{a0}oz"),
        Role::Salt => ("pack", Grams(500.0), ""),
        // In the United States butter is counted in sticks.
        Role::Fat if key.starts_with("butter_") && !states => ("pack", Grams(250.0), ""),
        Role::Liquid if key.starts_with("milk_") && states => {
            ("carton", Litres(0.946_353), "1\u{a0}qt")
        }
        Role::Liquid if key.starts_with("milk_") => ("carton", Litres(1.0), "1\u{a0}L"),
        Role::Egg if key == "egg_whole" && (states || market == Some(Market::Australia)) => {
            ("carton", Eggs(12.0), "")
        }
        Role::Egg if key == "egg_whole" && kingdom => ("carton", Eggs(6.0), ""),
        Role::Egg if key == "egg_whole" => ("carton", Eggs(10.0), ""),
        _ => return None,
    })
}

/// The common packs of everything that a recipe uses.
pub fn common(order: &Order) -> Vec<Pack> {
    let mut packs: Vec<Pack> = Vec::new();
    for item in order.inputs.formula.every_item() {
        let Resolved::Ingredient(used) = &item.what else {
            continue;
        };
        if packs.iter().any(|pack| pack.key == used.key) {
            continue;
        }
        packs.extend(pack(order, used));
    }
    packs
}

fn pack(order: &Order, used: &Ingredient) -> Option<Pack> {
    let (word, holds, said) = sold(used, order.inputs.market)?;
    let (amount, pieces) = match holds {
        Holds::Grams(grams) => (Amount::Mass(Mass::from_grams(grams)), None),
        Holds::Litres(count) => {
            let measure = Measure::Litre;
            (Amount::Measures(vec![Spooned { count, measure }]), None)
        }
        Holds::Eggs(count) => {
            let size = Some("large".to_owned());
            let pieces = Some((count, "large".to_owned()));
            (Amount::Count { count, size }, pieces)
        }
    };
    let (holds, _) = order.inputs.larder.weigh(used, &amount).ok()?;
    Some(Pack {
        key: used.key.clone(),
        holds,
        said: match (&amount, said) {
            (Amount::Mass(mass), "") => super::pack_said(*mass),
            (amount, "") => super::say::amount(amount),
            (_, said) => said.to_owned(),
        },
        pieces,
        word: Some(word),
        origin: Origin::new(SAYS, Had::CommonPractice),
    })
}

/// Whether a figure counts packs of a common size.
pub fn is_common(origin: &Origin) -> bool {
    origin.source == SAYS
}
