//! Which cups and spoons a mass is measured with: few scoops, small error.

use super::read::units::COUNTED;
use super::{Market, Measure};
use crate::document::model::Spooned;
use crate::larder::Ingredient;
use numerics::decimal::trimmed;
use numerics::quantity::{Density, Fraction, Mass};

/// The measures of a kitchen drawer.
pub const KITCHEN: [Measure; 3] = [Measure::Cup, Measure::Tablespoon, Measure::Teaspoon];

/// The spoons alone, where cups are not in use.
const SPOONS: [Measure; 2] = [Measure::Tablespoon, Measure::Teaspoon];

/// Tablespoons up to which a kitchen without cups measures by the spoon (common practice).
const MOST_SPOONS: f64 = 4.0;

/// Butter is cut along the marks of its wrapper, tablespoon by tablespoon.
pub const WRAPPER: [Measure; 1] = [Measure::Tablespoon];

/// A mass in kitchen measures.
#[derive(Clone, Debug, PartialEq)]
pub struct Spoons {
    /// At most two measures, the larger first.
    pub parts: Vec<Spooned>,
    /// "¾ cup + 2 Tbsp".
    pub text: String,
    /// How far off it is, as a share of the mass; above zero when it is too much.
    pub error: Fraction,
}

/// Largest error that a measure may have.
const TOLERANCE: f64 = 0.03;

/// The same below [`SMALL`], where the smallest spoons are coarse.
const TOLERANCE_SMALL: f64 = 0.05;

/// Amounts below this are small.
const SMALL: Mass = Mass::from_grams(10.0);

/// What one per cent of error weighs against one scoop, when measures are compared.
///
/// Chosen so that 245 g of flour is not called two cups (2.9 % too much) to save four scoops.
const SCOOPS_PER_PERCENT: f64 = 1.5;

/// The same below [`SMALL`]: a pinch more sugar matters less than a spoon set that nobody owns.
const SCOOPS_PER_PERCENT_SMALL: f64 = 1.0;

/// Parts of a measure that a set holds, and how many scoops each counts as: one where the set has
/// that very measure, more where many sets lack it and a cook adds it up.
const CUP_PARTS: [(f64, f64); 7] = [
    (0.0, 0.0),
    // Few sets hold an eighth of a cup; two tablespoons are in every one.
    (0.125, 3.0),
    (0.25, 1.0),
    (1.0 / 3.0, 1.0),
    (0.5, 1.0),
    (2.0 / 3.0, 1.5),
    (0.75, 1.5),
];
const TABLESPOON_PARTS: [(f64, f64); 2] = [(0.0, 0.0), (0.5, 1.25)];
const TEASPOON_PARTS: [(f64, f64); 5] = [
    (0.0, 0.0),
    (0.125, 1.5),
    (0.25, 1.0),
    (0.5, 1.0),
    (0.75, 2.0),
];

/// Most of each measure by itself, and added to a larger one: above it the next larger is at hand.
const MOST_TABLESPOONS: f64 = 7.5;
const MOST_TABLESPOONS_ADDED: f64 = 3.5;
const MOST_TEASPOONS: f64 = 5.75;
const MOST_TEASPOONS_ON_TABLESPOONS: f64 = 2.75;
const MOST_CUPS: f64 = 40.0;
const MOST_TABLESPOONS_OF_WRAPPER: f64 = 64.0;

/// So many of one measure, and how many scoops that is.
#[derive(Clone, Copy)]
struct Scoop {
    count: f64,
    measure: Measure,
    /// What one of the measure holds.
    each_ml: f64,
    scoops: f64,
}

impl Scoop {
    fn millilitres(self) -> f64 {
        self.each_ml * self.count
    }
}

/// The measures by which a cook would want to measure a mass; none when none comes close enough.
///
/// All sums of at most two measures within 3 % (5 % below 10 g) are compared; the best has the
/// least of scoops and error together, an error of 1 % counting as one and a half scoops.
pub fn spoons(mass: Mass, density: Density, allowed: &[Measure]) -> Option<Spoons> {
    spoons_in(Market::UnitedStates, mass, density, allowed)
}

/// The same with the cups and spoons of a country.
fn spoons_in(market: Market, mass: Mass, density: Density, allowed: &[Measure]) -> Option<Spoons> {
    if !(mass.is_finite() && density.is_finite() && mass > Mass::ZERO && density > Density::ZERO) {
        return None;
    }
    let wanted_ml = (mass / density).millilitres();
    let tolerance = if mass < SMALL {
        TOLERANCE_SMALL
    } else {
        TOLERANCE
    };
    let mut best: Option<(f64, f64, Vec<Scoop>)> = None;
    let mut offer = |parts: &[Scoop]| {
        let ml: f64 = parts.iter().map(|part| part.millilitres()).sum();
        let error = ml / wanted_ml - 1.0;
        if error.abs() > tolerance {
            return;
        }
        let scoops: f64 = parts.iter().map(|part| part.scoops).sum();
        let weight = if mass < SMALL {
            SCOOPS_PER_PERCENT_SMALL
        } else {
            SCOOPS_PER_PERCENT
        };
        let cost = scoops + error.abs() * 100.0 * weight;
        if best.as_ref().is_none_or(|(least, ..)| cost < least - 1e-9) {
            best = Some((cost, error, parts.to_vec()));
        }
    };
    if allowed == WRAPPER {
        for part in whole_and_parts(
            market,
            Measure::Tablespoon,
            wanted_ml,
            MOST_TABLESPOONS_OF_WRAPPER,
        ) {
            // A knife follows the marks: only the error counts, and the half mark a little.
            let scoops = if part.count.fract() > 0.0 { 0.5 } else { 0.0 };
            offer(&[Scoop { scoops, ..part }]);
        }
    } else {
        sums(market, wanted_ml, allowed, &mut offer);
    }
    let (_, error, parts) = best?;
    let words: Vec<String> = parts
        .iter()
        .map(|part| words(part.count, part.measure))
        .collect();
    Some(Spoons {
        parts: parts
            .iter()
            .map(|p| Spooned {
                count: p.count,
                measure: p.measure,
            })
            .collect(),
        text: words.join(" + "),
        error: Fraction::from_si(error),
    })
}

/// The measures of a mass of an ingredient in a country's kitchens; none when its density is not
/// known, or when nobody there would measure so much of it by volume.
///
/// In the United States along the wrapper where it is sold in sticks and the marks come close
/// enough, else with cups and spoons. In the United Kingdom spoons alone, and only for what a few
/// of them hold: the rest is weighed (common practice of printed recipes there).
pub fn spoons_of(mass: Mass, ingredient: &Ingredient, market: Market) -> Option<Spoons> {
    let (density, _) = ingredient.by_volume.as_ref()?;
    let in_sticks = ingredient.by_count.iter().any(|(word, ..)| word == "stick");
    let along_wrapper = (in_sticks && market == Market::UnitedStates)
        .then(|| spoons(mass, *density, &WRAPPER))
        .flatten();
    let drawer: &[Measure] = match market {
        Market::UnitedKingdom => &SPOONS,
        Market::UnitedStates | Market::Australia => &KITCHEN,
    };
    let few = market != Market::UnitedKingdom
        || mass / *density <= Measure::Tablespoon.holds(market) * MOST_SPOONS;
    along_wrapper.or_else(|| {
        few.then(|| spoons_in(market, mass, *density, drawer))
            .flatten()
    })
}

/// Offers every single measure and every sum of two.
fn sums(market: Market, wanted_ml: f64, allowed: &[Measure], offer: &mut impl FnMut(&[Scoop])) {
    let of = |measure, most| {
        if allowed.contains(&measure) {
            whole_and_parts(market, measure, wanted_ml, most)
        } else {
            Vec::new()
        }
    };
    let cups = of(Measure::Cup, MOST_CUPS);
    let tablespoons = of(Measure::Tablespoon, MOST_TABLESPOONS);
    let teaspoons = of(Measure::Teaspoon, MOST_TEASPOONS);
    for one in cups.iter().chain(&tablespoons).chain(&teaspoons) {
        offer(&[*one]);
    }
    for cup in &cups {
        for spoon in &tablespoons {
            if spoon.count <= MOST_TABLESPOONS_ADDED && spoon.millilitres() < cup.millilitres() {
                offer(&[*cup, *spoon]);
            }
        }
        for spoon in &teaspoons {
            offer(&[*cup, *spoon]);
        }
    }
    for large in &tablespoons {
        for small in &teaspoons {
            if small.count <= MOST_TEASPOONS_ON_TABLESPOONS
                && small.millilitres() < large.millilitres()
            {
                offer(&[*large, *small]);
            }
        }
    }
    // An eighth on top of quarters: 1¾ tsp + ⅛ tsp.
    for small in &teaspoons {
        if small.count >= 0.25 && (small.count * 4.0).fract() == 0.0 {
            offer(&[
                *small,
                Scoop {
                    count: 0.125,
                    measure: Measure::Teaspoon,
                    each_ml: small.each_ml,
                    scoops: 1.5,
                },
            ]);
        }
    }
}

/// Counts of a measure that do not exceed what is wanted by much: wholes with each part.
fn whole_and_parts(market: Market, measure: Measure, wanted_ml: f64, most: f64) -> Vec<Scoop> {
    let parts: &[(f64, f64)] = match measure {
        Measure::Cup => &CUP_PARTS,
        Measure::Tablespoon => &TABLESPOON_PARTS,
        _ => &TEASPOON_PARTS,
    };
    let each_ml = measure.holds(market).millilitres();
    let enough = (wanted_ml * (1.0 + TOLERANCE_SMALL) / each_ml).min(most);
    let mut all = Vec::new();
    let mut whole = 0.0;
    while whole <= enough {
        for (part, scoops) in parts {
            let count = whole + part;
            if count > 0.0 && count <= enough {
                all.push(Scoop {
                    count,
                    measure,
                    each_ml,
                    scoops: whole + scoops,
                });
            }
        }
        whole += 1.0;
    }
    all
}

/// So many things by size: "2 large", "1½ large", "3 sticks".
pub fn counted(count: f64, size: &str) -> String {
    let many = COUNTED.iter().find(|(one, _)| count > 1.0 && *one == size);
    format!("{} {}", mixed(count), many.map_or(size, |(_, many)| many))
}

/// A mass as a number of things of one size, in whole ones and halves, within 5 %: 100 g of egg
/// as "2 large" with its signed error.
pub fn count_for(mass: Mass, each: Mass, size: &str) -> Option<(f64, String, Fraction)> {
    if !(mass.is_finite() && each.is_finite() && mass > Mass::ZERO && each > Mass::ZERO) {
        return None;
    }
    let count = (mass / each * 2.0).round() / 2.0;
    let error = each * count / mass - 1.0;
    (error.abs() <= TOLERANCE_SMALL)
        .then(|| (count, counted(count, size), Fraction::from_si(error)))
}

fn words(count: f64, measure: Measure) -> String {
    let plural = measure == Measure::Cup && count > 1.0;
    format!(
        "{} {}{}",
        mixed(count),
        measure.word(),
        if plural { "s" } else { "" }
    )
}

/// The glyphs of the parts that measures have.
const GLYPHS: [(f64, &str); 7] = [
    (0.125, "⅛"),
    (0.25, "¼"),
    (1.0 / 3.0, "⅓"),
    (0.5, "½"),
    (2.0 / 3.0, "⅔"),
    (0.75, "¾"),
    (0.0, ""),
];

/// A number with its part as a glyph: 1.75 as "1¾"; other parts as decimals.
pub fn mixed(count: f64) -> String {
    let whole = count.floor();
    let part = count - whole;
    match GLYPHS.iter().find(|(value, _)| (value - part).abs() < 1e-6) {
        Some((_, glyph)) if whole > 0.0 || glyph.is_empty() => {
            format!("{}{glyph}", trimmed(whole, 0))
        }
        Some((_, glyph)) => (*glyph).to_owned(),
        None => trimmed(count, 2),
    }
}

#[cfg(test)]
mod tests {
    use super::{KITCHEN, WRAPPER, count_for, mixed, spoons, spoons_of};
    use crate::measure::{Market, Measure};
    use numerics::quantity::{Density, Mass};

    fn by_cup(grams: f64) -> Density {
        Density::from_si(Mass::from_grams(grams).si() / Measure::Cup.volume().si())
    }

    fn said(grams: f64, density: Density) -> String {
        spoons(Mass::from_grams(grams), density, &KITCHEN)
            .map_or_else(|| "none".to_owned(), |spoons| spoons.text)
    }

    #[test]
    fn a_cook_gets_few_scoops() {
        let (flour, milk, salt) = (by_cup(126.0), by_cup(244.0), by_cup(288.0));
        assert_eq!(said(245.0, flour), "1¾ cups + 3 Tbsp");
        assert_eq!(said(675.0, flour), "5⅓ cups");
        assert_eq!(said(300.0, milk), "1¼ cups");
        assert_eq!(said(17.5, salt), "1 Tbsp");
        assert_eq!(said(30.5, milk), "2 Tbsp");
        assert_eq!(said(274.5, milk), "1 cup + 2 Tbsp");
        assert_eq!(said(0.8, by_cup(3.1 * 48.0)), "¼ tsp");
    }

    #[test]
    fn butter_follows_its_wrapper() {
        let butter = spoons(Mass::from_grams(157.0), by_cup(227.0), &WRAPPER);
        assert_eq!(butter.map(|butter| butter.text), Some("11 Tbsp".to_owned()));
    }

    #[test]
    fn too_little_is_not_measured() {
        assert_eq!(said(0.05, by_cup(3.1 * 48.0)), "none");
        assert_eq!(said(f64::NAN, by_cup(126.0)), "none");
        assert_eq!(said(-3.0, by_cup(126.0)), "none");
    }

    #[test]
    fn other_countries_have_other_spoons() {
        let larder = crate::larder::Larder::open();
        let said = |name: &str, grams, market| {
            let crate::larder::Found::One(found) = larder.find(name) else {
                panic!("{name} is in the larder")
            };
            spoons_of(Mass::from_grams(grams), found, market).map(|spoons| spoons.text)
        };
        let (us, uk, au) = (
            Market::UnitedStates,
            Market::UnitedKingdom,
            Market::Australia,
        );
        // Density of water: 20 mL and 15 mL spoons, 250 mL and 236.6 mL cups.
        assert_eq!(said("water", 20.0, au).as_deref(), Some("1 Tbsp"));
        assert_eq!(said("water", 15.0, uk).as_deref(), Some("1 Tbsp"));
        assert_eq!(said("water", 250.0, au).as_deref(), Some("1 cup"));
        assert_eq!(said("water", 236.0, us).as_deref(), Some("1 cup"));
        assert_eq!(said("water", 250.0, uk), None);
        assert_eq!(said("unsalted butter", 113.0, uk), None);
    }

    #[test]
    fn eggs_are_counted() {
        let large = |grams| {
            count_for(Mass::from_grams(grams), Mass::from_grams(50.0), "large")
                .map(|(_, text, _)| text)
        };
        assert_eq!(large(100.0), Some("2 large".to_owned()));
        assert_eq!(large(75.0), Some("1½ large".to_owned()));
        assert_eq!(large(60.0), None);
    }

    #[test]
    fn parts_have_glyphs() {
        assert_eq!(mixed(1.75), "1¾");
        assert_eq!(mixed(2.0 / 3.0), "⅔");
        assert_eq!(mixed(3.0), "3");
        assert_eq!(mixed(0.4), "0.4");
    }
}
