//! How fast baker's yeast makes gas in a dough: warmth, what is dissolved, time, death.
//!
//! # Relation
//! r = m `r_30` f(T) `f_O` (1 - exp(-t/t_lag)) a; f after Sharpe and Schoolfield,
//! f = exp(-(`E_a`/R)(1/T - 1/303.15)) / (1 + exp((`E_d`/R)(1/`T_h` - 1/T))), divided by its value at
//! 30 °C; `f_O` = exp(-k (P - 36 atm)); death dN/dt = -N ln 10 / D(T), D = 5.67 min 10^((55 - T)/4.74).
//! Growth, after two hours: dN/dt = u g(T) N (1 - N/K), g the cardinal-temperature form of Rosso,
//! Lobry and Flandrois between 2.8, 32.3 and 45.4 °C against its value at 27 °C.
//!
//! # Symbols
//! r, mol CO2/s; m, fresh yeast, kg; `r_30`, mol/(kg s); `E_a`, `E_d`, J/mol; P, osmotic pressure of
//! the dough's water, atm; k, 1/atm; t, s; a, age of the yeast, 1; D, min; u, 1/h; N, K, fresh
//! yeast, share of the flour; T in K, in D and g in °C.
//!
//! # Valid for
//! 2 to 50 °C; doughs of 36 to 130 atm; D from 52 to 58 °C, read on beyond.
//!
//! # Source
//! `r_30`: 80 mL an hour and gram of fresh yeast (70 to 90), from rheofermentometer figures of Rincón
//! et al. 2001, Appl. Environ. Microbiol. 67:4279 (read; flour mass from memory). f: fitted here to
//! trade rules (10 % a degree at 25 to 28 °C, best at 36 to 39 °C), not published. `f_O`: a
//! placeholder that anchors move (0.012 per atm; 0.006 for sugar-bearing strains), from memory of the
//! trade. D and z: Channaiah et al. 2016, J. Food Prot. 79:544, in bun dough (read). Lags: from memory.
//! Growth: u = 0.2 1/h and K = 3.4 % fitted here to counts in dough at 27 °C (lab notes after Pyler,
//! second-hand: no growth in two hours, then in four hours 88 % with 0.5 % of yeast, 29 % with 2 %; 37 %
//! with 1.67 % is met within 2 points, though not as 26 and then 9 %); cardinal temperatures: Salvadó et al. 2011, Appl.
//! Environ. Microbiol. 77:2292 (read).
//!
//! # Departures
//! One strain of each form. Acid and alcohol slow nothing. The osmotic pressure counts sugar as
//! inverted, salt, and 1.5 % of the flour as free sugar, in the water that flour does not bind.
//!
//! # Checked by
//! `tests/verification/relations.rs`.

use numerics::math::{exp, exp10};
use recipe::larder::YeastForm;

/// Gas made by fresh yeast in a lean salted dough at 30 °C, mol/(kg s): 80 mL/(g h).
pub const AT_30_MOL_PER_KG_S: f64 = 80.0e-6 / 1e-3 * 101_325.0 / (8.314_46 * 303.15) / 3600.0;

/// How fast at a temperature in °C, against 30 °C.
pub fn warmth(celsius: f64) -> f64 {
    const GAS: f64 = 8.314_46;
    let raw = |kelvin: f64| {
        exp(-65e3 / GAS * (1.0 / kelvin - 1.0 / 303.15))
            / (1.0 + exp(250e3 / GAS * (1.0 / 314.65 - 1.0 / kelvin)))
    };
    raw(celsius + 273.15) / raw(303.15)
}

/// Osmotic pressure of the water in a dough, atm, from kilograms in a kilogram of dough: water in all,
/// flour, sugar, salt; at 27 °C.
pub fn osmotic_atm(water: f64, flour: f64, sugar: f64, salt: f64) -> f64 {
    // 86 % of flour is dry; each kilogram of it binds 0.3 kg of water.
    let free = (water + 0.14 * flour - 0.3 * 0.86 * flour).max(0.05 * water.max(1e-6));
    let osmol = 2.0 * sugar / 0.3423 + 2.0 * 0.93 * salt / 0.058_44 + 0.015 * flour / 0.180_16;
    // Moles in a kilogram of water, and a kilogram of water is a litre.
    osmol / free * 1000.0 * 8.314_46 * 300.15 / 101_325.0
}

/// What the dissolved leaves of the gassing: 1 at 36 atm, the lean salted dough.
pub fn against_osmosis(atm: f64, form: YeastForm) -> f64 {
    let per_atm = match form {
        YeastForm::InstantOsmotolerant => 0.006,
        _ => 0.012,
    };
    exp(-per_atm * (atm - 36.0)).min(UNSALTED)
}

/// Most that a dough without salt or sugar gains on the lean salted dough: salt at 2 % takes 10 to
/// 20 % (from memory).
const UNSALTED: f64 = 1.2;

/// The lag before gas comes at its rate, s.
pub const fn lag_s(form: YeastForm, woken: bool) -> f64 {
    match (form, woken) {
        (YeastForm::ActiveDry, true) => 5.0 * 60.0,
        (YeastForm::ActiveDry, false) => 20.0 * 60.0,
        (YeastForm::Fresh, _) => 12.0 * 60.0,
        (YeastForm::Instant | YeastForm::InstantOsmotolerant, _) => 15.0 * 60.0,
    }
}

/// Rate of dying at a temperature in °C, 1/s.
pub fn dying_per_s(celsius: f64) -> f64 {
    let minutes = 5.67 * exp10((55.0 - celsius) / 4.74);
    std::f64::consts::LN_10 / (minutes * 60.0)
}

/// Growth of yeast that has room, 1/s, at a temperature in °C.
pub fn growing_per_s(celsius: f64) -> f64 {
    0.2 / 3600.0 * cardinal(celsius) / cardinal(27.0)
}

/// Rosso, Lobry and Flandrois 1993: 1 at the best temperature, 0 beyond both ends.
fn cardinal(celsius: f64) -> f64 {
    const LEAST: f64 = 2.8;
    const BEST: f64 = 32.3;
    const MOST: f64 = 45.4;
    if celsius <= LEAST || celsius >= MOST {
        return 0.0;
    }
    let over = celsius - LEAST;
    let below = (BEST - LEAST)
        * ((BEST - LEAST) * (celsius - BEST) - (BEST - MOST) * (BEST + LEAST - 2.0 * celsius));
    (celsius - MOST) * over * over / below
}

/// Yeast against what a dough feeds in the end, 1; both as shares of the dough, the yeast as fresh.
pub fn crowding(yeast: f64, flour: f64) -> f64 {
    yeast / (0.034 * flour.max(1e-9))
}

/// How far growth has begun in yeast of this age, s: not in the first hour and a half, wholly after
/// two and a half.
pub const GROWS_AFTER_S: (f64, f64) = (1.5 * 3600.0, 2.5 * 3600.0);

/// Carbon dioxide dissolved in water under its own pressure: volumes a volume (Ostwald), at °C.
///
/// Bunsen's coefficients from memory (0 °C 1.713 to 40 °C 0.530), times T/273.15; beyond 40 °C it goes
/// on falling by the same ratio a degree, to nothing near boiling.
pub fn dissolves(celsius: f64) -> f64 {
    const BUNSEN: [f64; 9] = [
        1.713, 1.424, 1.194, 1.019, 0.878, 0.759, 0.665, 0.592, 0.530,
    ];
    let at = (celsius / 5.0).max(0.0);
    let bunsen = if at >= 8.0 {
        0.530 * exp(-0.024 * (celsius - 40.0))
    } else {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // between 0 and 7
        let below = at as usize;
        BUNSEN[below] + (BUNSEN[below + 1] - BUNSEN[below]) * (at - below as f64)
    };
    bunsen * (celsius + 273.15) / 273.15
}
