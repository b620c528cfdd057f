//! What changes in print for the readers of a country: dials, spoons, names of things.
//!
//! The author's sentences stay as they are written; only what the ledger itself says follows.

use super::say;
use numerics::decimal::fixed;
use numerics::quantity::{Mass, Temperature, TemperatureDifference, Volume};
use recipe::document::model::Amount;
use recipe::larder::{EggClass, Ingredient, Role, egg_class, name_in};
use recipe::measure::{Market, Measure, count_for, spoons_of};
use recipe::provenance::Origin;

/// An oven's dial: "180 °C / 350 °F", with the gas mark where gas ovens are marked so.
pub fn dial(at: Temperature, market: Option<Market>) -> String {
    let both = say::oven(at);
    match market.filter(|market| *market == Market::UnitedKingdom) {
        Some(_) => gas_mark(at).map_or(both.clone(), |mark| {
            format!("{both} / gas{}{mark}", say::NBSP)
        }),
        None => both,
    }
}

/// The gas mark nearest to a temperature; none outside marks ¼ to 9.
///
/// Mark 1 is 275 °F and each further mark 25 °F more; ½ is 250 °F, ¼ is 225 °F (common practice).
pub fn gas_mark(at: Temperature) -> Option<String> {
    let fahrenheit = at.fahrenheit();
    let mark = (fahrenheit - 250.0) / 25.0;
    match fahrenheit {
        f if !(212.5..=487.5).contains(&f) => None,
        f if f < 237.5 => Some("¼".to_owned()),
        f if f < 262.5 => Some("½".to_owned()),
        _ => Some(fixed(mark.round(), 0)),
    }
}

/// How much lower the dial stands with the fan on: 15 °C or 25 °F is the custom of the United
/// States, 20 °C that of Europe and Australia (a state university's advice quoted by a newspaper,
/// second-hand).
pub fn fan(market: Option<Market>) -> TemperatureDifference {
    match market {
        Some(Market::UnitedStates) => TemperatureDifference::from_si(15.0),
        _ => TemperatureDifference::from_si(20.0),
    }
}

/// The name of an ingredient in a country's shops; the written one where it is the same.
pub fn name(written: &str, ingredient: &Ingredient, market: Option<Market>) -> String {
    market
        .and_then(|market| name_in(market, written, ingredient))
        .unwrap_or_else(|| written.to_owned())
}

/// A written kitchen measure in a country's own: cups of its own size, its own classes of egg, no
/// sticks where butter comes in packs. None when nobody there would measure it so.
pub fn measure(
    written: &Amount,
    ingredient: &Ingredient,
    mass: Option<Mass>,
    market: Option<Market>,
) -> Option<(String, Option<(Mass, Origin)>)> {
    let as_written = Some((say::amount(written), None));
    let Some((market, mass)) = market
        .filter(|market| *market != Market::UnitedStates)
        .zip(mass)
    else {
        return as_written;
    };
    match written {
        Amount::Measures(_) => {
            let spoons = spoons_of(mass, ingredient, market)?;
            let measured = mass * (1.0 + spoons.error.si());
            let (_, origin) = ingredient.by_volume.as_ref()?;
            Some((spoons.text, Some((measured, origin.clone()))))
        }
        Amount::Count {
            size: Some(size), ..
        } if ingredient.role == Role::Egg => {
            let Some(class) = egg(market, size) else {
                return as_written;
            };
            let (count, text, _) = count_for(mass, class.edible, said(&class.word, market))?;
            Some((text, Some((class.edible * count, class.origin))))
        }
        Amount::Count {
            size: Some(size), ..
        } if size == "stick" => None,
        Amount::Mass(_) | Amount::Count { .. } => as_written,
    }
}

/// The class of egg that is asked for in a country instead of an American one; none when the word
/// is no American class. A large American egg holds 50 g, an M of Europe about 51 g.
fn egg(market: Market, size: &str) -> Option<EggClass> {
    let here = egg_class(size).filter(|class| class.grading == recipe::larder::Grading::Us)?;
    match market {
        Market::UnitedStates => Some(here),
        // Australian cartons name a weight a dozen; sizes in words differ from carton to carton,
        // so the count is left as written and the grams beside it decide.
        Market::Australia => None,
        Market::UnitedKingdom => {
            let near = |class: &EggClass| (class.edible - here.edible).abs();
            recipe::larder::egg_classes()
                .into_iter()
                .filter(|class| class.grading == recipe::larder::Grading::Eu)
                .min_by(|a, b| near(a).order(near(b)))
        }
    }
}

/// A class of eggs as its box says it.
fn said(word: &str, market: Market) -> &str {
    match (market, word) {
        (Market::UnitedKingdom, "XL") => "very large",
        (Market::UnitedKingdom, "L") => "large",
        (Market::UnitedKingdom, "M") => "medium",
        (Market::UnitedKingdom, "S") => "small",
        (_, word) => word,
    }
}

/// What a tin holds: "1420 mL / 6 cups" for the author's own print and the United States, with
/// metric cups in Australia, in millilitres alone in the United Kingdom.
pub fn tin_volume(volume: Volume, market: Option<Market>) -> String {
    let market = market.unwrap_or_default();
    let cup = (market != Market::UnitedKingdom).then(|| Measure::Cup.holds(market));
    say::tin_volume(volume, cup)
}

/// What a baking vessel is called: a tin or mould in the United Kingdom and Australia, a pan or
/// mold in the United States.
pub fn vessel(words: &str, market: Option<Market>) -> String {
    let pairs = match market {
        None => return words.to_owned(),
        Some(Market::UnitedStates) => [("tin", "pan"), ("mould", "mold")],
        Some(_) => [("pan", "tin"), ("mold", "mould")],
    };
    let swapped: Vec<String> = words
        .split(' ')
        .map(|word| {
            let one = word.strip_suffix('s').unwrap_or(word);
            match pairs.iter().find(|(from, _)| *from == one) {
                Some((from, to)) => word.replacen(from, to, 1),
                None => word.to_owned(),
            }
        })
        .collect();
    swapped.join(" ")
}

/// An allergen as a country spells it: sulfites and soy in the United States.
pub fn allergen(name: &str, market: Option<Market>) -> String {
    match (market, name) {
        (Some(Market::UnitedStates), "sulphites") => "sulfites",
        (Some(Market::UnitedStates), "soya") => "soy",
        (_, name) => name,
    }
    .to_owned()
}

/// The language of a page (BCP 47).
pub const fn language(market: Option<Market>) -> &'static str {
    match market {
        Some(market) => market.tag(),
        None => "en",
    }
}

/// What a page for the readers of a country says of its words.
pub const WORDS_NOTE: &str = "English only: the sentences of the method are the author's and are \
                              not translated.";

/// Whose cups and spoons are printed; none for the author's own print.
pub fn said_of_measures(market: Option<Market>) -> Option<String> {
    let whose = match market? {
        Market::UnitedStates => "US cups and spoons (236.6, 14.8 and 4.9 mL)",
        Market::UnitedKingdom => "metric spoons (15 and 5 mL)",
        Market::Australia => "metric cups and Australian spoons (250, 20 and 5 mL)",
    };
    Some(format!("Measures here are {whose}."))
}

#[cfg(test)]
mod tests {
    use super::{allergen, dial, gas_mark, tin_volume, vessel};
    use numerics::quantity::{Temperature, Volume};
    use recipe::measure::Market;

    #[test]
    fn gas_marks_of_household_ovens() {
        // Marks printed on household ovens, common practice: 140 °C is 1, 180 °C 4, 220 °C 7.
        let mark = |celsius| gas_mark(Temperature::from_celsius(celsius));
        let marks = [
            (110.0, "¼"),
            (120.0, "½"),
            (140.0, "1"),
            (150.0, "2"),
            (165.0, "3"),
            (180.0, "4"),
            (190.0, "5"),
            (200.0, "6"),
            (220.0, "7"),
            (230.0, "8"),
            (240.0, "9"),
        ];
        for (celsius, said) in marks {
            assert_eq!(mark(celsius).as_deref(), Some(said), "{celsius} °C");
        }
        assert_eq!(mark(60.0), None);
        assert_eq!(mark(300.0), None);
    }

    #[test]
    fn a_dial_has_its_mark_in_the_united_kingdom_alone() {
        let at = Temperature::from_celsius(200.0);
        let uk = dial(at, Some(Market::UnitedKingdom));
        assert!(uk.ends_with("gas\u{a0}6"), "{uk}");
        assert_eq!(dial(at, Some(Market::Australia)), dial(at, None));
    }

    #[test]
    fn a_tin_is_a_pan_elsewhere() {
        assert_eq!(
            vessel("two loaf tins", Some(Market::UnitedStates)),
            "two loaf pans"
        );
        assert_eq!(vessel("loaf pan", Some(Market::UnitedKingdom)), "loaf tin");
        assert_eq!(
            vessel("tinned panettone mould", Some(Market::UnitedKingdom)),
            "tinned panettone mould"
        );
        assert_eq!(vessel("loaf tin", None), "loaf tin");
        assert_eq!(
            vessel("paper mould", Some(Market::UnitedStates)),
            "paper mold"
        );
    }

    #[test]
    fn a_tin_holds_the_cups_of_the_country() {
        // 1420 mL are 6.0 US cups of 236.6 mL, 5.68 metric cups of 250 mL (AS 1325).
        let loaf = Volume::from_millilitres(1420.0);
        let said = |market| tin_volume(loaf, market).replace('\u{a0}', " ");
        assert_eq!(said(None), "1420 mL / 6 cups");
        assert_eq!(said(Some(Market::UnitedStates)), "1420 mL / 6 cups");
        assert_eq!(said(Some(Market::Australia)), "1420 mL / 5¾ cups");
        assert_eq!(said(Some(Market::UnitedKingdom)), "1420 mL");
    }

    #[test]
    fn allergens_are_spelled_as_the_country_spells_them() {
        let us = Some(Market::UnitedStates);
        assert_eq!(allergen("sulphites", us), "sulfites");
        assert_eq!(allergen("sulphites", Some(Market::Australia)), "sulphites");
        assert_eq!(allergen("milk", us), "milk");
    }
}
