//! Laws of print for a country: the same grams everywhere, and measures that weigh what the grams say.

use bake::kitchen::Kitchen;
use edit::ledger::model::{ItemLine, Ledger};
use edit::{Inputs, work_out};
use everyoven_tests::demos::DEMOS;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use recipe::measure::Market;

fn ledger(text: &str, market: Option<Market>) -> Ledger {
    let recipe = read_recipe(text).output.expect("the examples can be read");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let formula = formula(&recipe, &larder).output;
    let kitchen = Kitchen::standard();
    let mut inputs = Inputs::new(&recipe, &formula, &larder, &kitchen);
    inputs.market = market;
    work_out(&inputs).output.1
}

fn lines(ledger: &Ledger) -> Vec<&ItemLine> {
    let stages = ledger.stages.iter().flat_map(|stage| &stage.items);
    stages.chain(&ledger.besides).collect()
}

#[test]
fn grams_are_the_same_for_every_reader() {
    for (name, text) in DEMOS {
        let own = ledger(text, None);
        for market in Market::ALL {
            let there = ledger(text, Some(market));
            let grams = |ledger: &Ledger| -> Vec<Option<String>> {
                let lines = lines(ledger);
                let shown = |line: &&ItemLine| line.grams.as_ref().map(|grams| grams.shown.clone());
                lines.iter().map(shown).collect()
            };
            assert_eq!(grams(&own), grams(&there), "{name}, {}", market.tag());
            assert_eq!(own.yield_line, there.yield_line);
            assert_eq!(own.iso_times, there.iso_times);
        }
    }
}

/// What a shown measure holds in a country, by its own words: "1¾ cups + 3 Tbsp" in millilitres.
/// Sizes of cups and spoons are written here anew: 236.588 mL, 14.787 mL, 4.929 mL; metric 250, 15,
/// 5; Australian tablespoon 20.
fn millilitres(shown: &str, market: Market) -> Option<f64> {
    let (cup, tablespoon, teaspoon) = match market {
        Market::UnitedStates => (236.588, 14.787, 4.929),
        Market::UnitedKingdom => (250.0, 15.0, 5.0),
        Market::Australia => (250.0, 20.0, 5.0),
    };
    let mut sum = 0.0;
    for part in shown.split(" + ") {
        let (number, unit) = part.split_once('\u{a0}')?;
        let each = match unit {
            "cup" | "cups" => cup,
            "Tbsp" => tablespoon,
            "tsp" => teaspoon,
            _ => return None,
        };
        let glyphs = [
            ('⅛', 0.125),
            ('¼', 0.25),
            ('⅓', 1.0 / 3.0),
            ('½', 0.5),
            ('⅔', 2.0 / 3.0),
            ('¾', 0.75),
        ];
        let digits: String = number.chars().filter(char::is_ascii_digit).collect();
        let whole = digits.parse::<f64>().unwrap_or(0.0);
        let part: f64 = glyphs
            .iter()
            .filter(|(glyph, _)| number.contains(*glyph))
            .map(|(_, value)| value)
            .sum();
        sum += each * (whole + part);
    }
    Some(sum)
}

#[test]
fn cups_and_spoons_of_each_country_hold_the_grams_beside_them() {
    let mut compared = 0;
    for (name, text) in DEMOS {
        let us = ledger(text, Some(Market::UnitedStates));
        for market in Market::ALL {
            let there = ledger(text, Some(market));
            for (line, own) in lines(&there).into_iter().zip(lines(&us)) {
                let Some((grams, measure)) = line.grams.as_ref().zip(line.measure.as_ref()) else {
                    continue;
                };
                if line.place.is_some() {
                    continue;
                }
                let Some(holds) = millilitres(&measure.shown, market) else {
                    continue;
                };
                // Density from the US print of the same line, where there is one.
                let Some(us_holds) = own
                    .measure
                    .as_ref()
                    .and_then(|m| millilitres(&m.shown, Market::UnitedStates))
                else {
                    continue;
                };
                let density = own.measure.as_ref().map_or(0.0, |m| m.value) / us_holds;
                let weighs = holds * density;
                // 3 %, or 5 % below 10 g, is what a measure may be off (measure::spoon).
                let most = if grams.value < 0.010 { 0.0501 } else { 0.0301 };
                let off = (weighs / grams.value - 1.0).abs();
                assert!(
                    off <= most,
                    "{name}, {}: {} is {off:.3} from {}",
                    market.tag(),
                    measure.shown,
                    grams.shown
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 60, "only {compared} measures were compared");
}

#[test]
fn a_britain_page_has_no_cups_and_says_gas() {
    for (name, text) in DEMOS {
        let there = ledger(text, Some(Market::UnitedKingdom));
        assert_eq!(there.language, "en-GB");
        for line in lines(&there) {
            let shown = line.measure.as_ref().map_or("", |m| m.shown.as_str());
            assert!(
                !shown.contains("cup") && !shown.contains("stick"),
                "{name}: {shown}"
            );
            assert!(!line.name.contains("all-purpose"), "{name}: {}", line.name);
        }
        let oven = there
            .facts
            .iter()
            .find(|fact| fact.label == "Oven")
            .expect("the oven is a fact");
        assert!(oven.shown.contains("gas\u{a0}"), "{name}: {}", oven.shown);
    }
}
