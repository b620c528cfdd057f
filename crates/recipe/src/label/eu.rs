//! What European law has declared (Regulation (EU) 1169/2011): its own carbohydrate, protein, salt and energy.

use super::Declared;
use super::nutrient::{Amount, Nutrient};
use super::tally::Tally;
use numerics::decimal::round_to;

/// A line of the European table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Line {
    /// Energy in kilojoules.
    EnergyKj,
    /// Energy in kilocalories.
    EnergyKcal,
    /// Fat.
    Fat,
    /// Of which saturates.
    Saturates,
    /// Carbohydrate without fibre.
    Carbohydrate,
    /// Of which sugars.
    Sugars,
    /// Fibre (may be left out).
    Fibre,
    /// Protein, nitrogen x 6.25.
    Protein,
    /// Salt, sodium x 2.5.
    Salt,
}

impl Line {
    /// In the order of annex XV.
    pub const ALL: [Self; 9] = [
        Self::EnergyKj,
        Self::EnergyKcal,
        Self::Fat,
        Self::Saturates,
        Self::Carbohydrate,
        Self::Sugars,
        Self::Fibre,
        Self::Protein,
        Self::Salt,
    ];

    /// Unit: "kJ", "kcal", "g".
    pub const fn unit(self) -> &'static str {
        match self {
            Self::EnergyKj => "kJ",
            Self::EnergyKcal => "kcal",
            _ => "g",
        }
    }
}

/// Energy of a gram by annex XIV, kJ and kcal: fat, carbohydrate, protein, fibre, alcohol (read in
/// translation). Organic acids (13 kJ, 3 kcal) are in no table here and count as carbohydrate.
const FACTORS: [[f64; 5]; 2] = [[37.0, 17.0, 17.0, 8.0, 29.0], [9.0, 4.0, 4.0, 2.0, 7.0]];

/// Salt by law is sodium times this (annex I).
const SALT_PER_SODIUM: f64 = 2.5;

/// The amount of a line in what was summed: kJ, kcal or g.
pub fn amount(tally: &Tally, line: Line) -> Amount {
    let grams = |nutrient| tally.of(nutrient).times(1e3);
    let carbohydrate = || grams(Nutrient::Carbohydrate).less(grams(Nutrient::Fibre));
    match line {
        Line::EnergyKj => energy(tally, FACTORS[0]),
        Line::EnergyKcal => energy(tally, FACTORS[1]),
        Line::Fat => grams(Nutrient::Fat),
        Line::Saturates => grams(Nutrient::Saturated).at_most(grams(Nutrient::Fat)),
        Line::Carbohydrate => carbohydrate(),
        // Sugars and carbohydrate come from different methods; sugars are part of it on a label.
        Line::Sugars => grams(Nutrient::Sugars).at_most(carbohydrate()),
        Line::Fibre => grams(Nutrient::Fibre),
        Line::Protein => grams(Nutrient::ProteinByNitrogen),
        Line::Salt => grams(Nutrient::Sodium).times(SALT_PER_SODIUM),
    }
}

/// Energy from the factors of the law. Fibre that is not known may as well be other carbohydrate:
/// the more fibre, the less energy.
fn energy(tally: &Tally, [fat, carbohydrate, protein, fibre, alcohol]: [f64; 5]) -> Amount {
    let grams = |nutrient| tally.of(nutrient).times(1e3);
    let all = grams(Nutrient::Carbohydrate);
    let indigestible = grams(Nutrient::Fibre);
    let starch_and_fibre = |all: f64, indigestible: f64| {
        carbohydrate * (all - indigestible).max(0.0) + fibre * indigestible
    };
    let rest = grams(Nutrient::Fat)
        .times(fat)
        .plus(grams(Nutrient::ProteinByNitrogen).times(protein))
        .plus(grams(Nutrient::Alcohol).times(alcohol));
    rest.plus(Amount {
        low: starch_and_fibre(all.low, indigestible.high.min(all.low)),
        high: starch_and_fibre(all.high, indigestible.low),
    })
}

/// A value as it is declared. The steps are guidance, not law (guidance of the Commission on
/// tolerances, December 2012, from memory; the limits for nothing read second-hand).
pub fn declared(line: Line, value: f64) -> Declared {
    let at_most = |limit: f64| value <= limit + 1e-9;
    // A tenth or a hundredth is kept even when it is nothing: 1.0 g is not 1 g.
    let fine = |decimals: usize, step: f64| {
        let rounded = round_to(value, step);
        Declared::Number {
            value: rounded,
            decimals,
        }
    };
    match line {
        Line::EnergyKj | Line::EnergyKcal => Declared::number(round_to(value, 1.0)),
        Line::Salt if at_most(0.0125) => Declared::ZERO,
        Line::Salt if value < 1.0 - 0.005 + 1e-9 => fine(2, 0.01),
        Line::Salt => fine(1, 0.1),
        Line::Saturates if at_most(0.1) => Declared::ZERO,
        Line::Fat | Line::Carbohydrate | Line::Sugars | Line::Fibre | Line::Protein
            if at_most(0.5) =>
        {
            Declared::ZERO
        }
        _ if round_to(value, 0.1) < 10.0 - 1e-9 => fine(1, 0.1),
        _ => Declared::number(round_to(value, 1.0)),
    }
}
