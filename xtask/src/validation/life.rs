//! Lines about what lives, what mixes and what boils: yeast, Salmonella, heights, dough temperatures, ice.

use super::rows::{Kind, Row, lines};
use bake::mix::balance::{Melting, Parts, Work, ends, solve_for};
use bake::mix::{Share, factor};
use bake::physics::{boiling, ice, salmonella, yeast};
use libm::exp;
use numerics::quantity::{Energy, HeatCapacity, Length, Mass, SpecificHeat, Temperature};
use recipe::larder::YeastForm;
use std::f64::consts::LN_10;

/// All of them.
pub fn life() -> Vec<Row> {
    let mut rows = Vec::new();
    yeasts(&mut rows);
    growth(&mut rows);
    germs(&mut rows);
    heights(&mut rows);
    mixes(&mut rows);
    iced(&mut rows);
    rows
}

/// Counts of yeast in dough at 27 °C: share of the flour, hours after mixing, rise in per cent.
fn growth(rows: &mut Vec<Row>) {
    let mut table = lines(
        rows,
        Kind::Calibration,
        "laboratory notes after Pyler (second-hand); they set rate and crowding",
        ("%", 0, 3.0),
    );
    for (percent, from, to, counted) in [
        (1.67, 2.0, 4.0, 26.0),
        (1.67, 4.0, 6.0, 9.0),
        (0.5, 2.0, 6.0, 88.0),
        (2.0, 2.0, 6.0, 29.0),
    ] {
        let crowded = yeast::crowding(percent / 100.0, 1.0);
        let cells = |hours: f64| {
            let rate = yeast::growing_per_s(27.0) * 3600.0;
            1.0 / (crowded + (1.0 - crowded) * exp(-rate * (hours - 2.0)))
        };
        table.one(
            format!("more yeast cells from {from} to {to} h at 27 °C, {percent} % yeast"),
            counted,
            100.0 * (cells(to) / cells(from) - 1.0),
        );
    }
}

fn germs(rows: &mut Vec<Row>) {
    let minutes = |celsius: f64| salmonella::ninetieth_s(celsius) / 60.0;
    let mut table = lines(
        rows,
        Kind::Calibration,
        "English-muffin dough, J. Food Prot. 2024, 87:100280 (read); sets D and z",
        ("min", 1, 3.0),
    );
    for (celsius, read) in [(55.0, 42.0), (58.5, 15.6), (62.0, 3.0)] {
        table.one(
            format!("D of Salmonella at {celsius} °C, muffin dough"),
            read,
            minutes(celsius),
        );
    }
    let mut table = lines(
        rows,
        Kind::Validation,
        "Channaiah et al. 2016, hamburger-bun dough (read); ours is meant to be the slower",
        ("min", 1, 5.0),
    );
    #[allow(clippy::approx_constant)] // 3.14 min was measured
    for (celsius, read) in [(55.0, 28.64), (58.0, 7.61), (61.0, 3.14)] {
        table.one(
            format!("D of Salmonella at {celsius} °C, bun dough"),
            read,
            minutes(celsius),
        );
    }
}

fn yeasts(rows: &mut Vec<Row>) {
    let channaiah = "Channaiah et al. 2016, J. Food Prot. 79:544, hamburger-bun dough (read)";
    let minutes = |celsius: f64| LN_10 / yeast::dying_per_s(celsius) / 60.0;
    let mut table = lines(rows, Kind::Calibration, channaiah, ("min", 2, 0.01));
    table.one("D of yeast at 55 °C", 5.67, minutes(55.0));
    table.unit = "K";
    let ten_times = 6.0 / libm::log10(minutes(52.0) / minutes(58.0));
    table.one("z of yeast", 4.74, ten_times);
    let mut table = lines(rows, Kind::Validation, channaiah, ("min", 2, 1.0));
    table.one(
        "D of yeast at 52 °C, off the line through 55 °C",
        18.73,
        minutes(52.0),
    );
    table.good_to = 0.1;
    table.one(
        "D of yeast at 58 °C, off the line through 55 °C",
        1.03,
        minutes(58.0),
    );
    let mut table = lines(
        rows,
        Kind::Validation,
        "American Society of Baking, oven profiles (read)",
        ("°C", 1, 2.0),
    );
    // Warmed as a loaf's middle is, 3 K/min.
    let (mut celsius, mut left) = (35.0, 1.0);
    while left > 0.1 && celsius < 80.0 {
        left *= exp(-yeast::dying_per_s(celsius) * 1.0);
        celsius += 0.05;
    }
    table.one(
        "temperature at which yeast is dead in a loaf that warms by 3 K/min",
        56.0,
        celsius,
    );
    let per_gram = yeast::AT_30_MOL_PER_KG_S * 8.314_46 * 303.15 / 101_325.0 * 3600.0 * 1e3;
    let mut table = lines(
        rows,
        Kind::Calibration,
        "Rincón et al. 2001, AEM 67:4279, table 3 (read; flour mass from memory); sets the rate",
        ("mL/(g h)", 0, 1.0),
    );
    table.between(
        "gas of fresh yeast in lean dough, 30 °C",
        72.0,
        86.0,
        Some(per_gram),
    );
    let atm = |water: f64, sugar: f64, salt: f64| {
        let whole = 100.0 + water + sugar + salt;
        yeast::osmotic_atm(water / whole, 100.0 / whole, sugar / whole, salt / whole)
    };
    let mut table = lines(
        rows,
        Kind::Validation,
        "Rincón et al. 2001, AEM 67:4279, table 3, strain V1 (read)",
        ("of lean", 2, 0.10),
    );
    let plain = yeast::against_osmosis(atm(60.0, 0.0, 0.0), YeastForm::Fresh);
    let sweet = yeast::against_osmosis(atm(58.0, 10.0, 0.0), YeastForm::Fresh);
    table.between(
        "gas of an ordinary yeast with 10 % sugar",
        0.24,
        0.29,
        Some(sweet / plain),
    );
    let mut table = lines(
        rows,
        Kind::Validation,
        "a chapter on baker's yeast (read): 35 to 100 atm in bread doughs",
        ("atm", 0, 5.0),
    );
    table.one(
        "pressure in the water of a lean dough, 2 % salt",
        35.0,
        atm(62.0, 0.0, 2.0),
    );
    table.one(
        "pressure with 20 % sugar, 1.5 % salt",
        100.0,
        atm(54.0, 20.0, 1.5),
    );
    let mut table = lines(
        rows,
        Kind::Validation,
        "bakemag.com, article 836 (read): 10 % a degree; it set the fit over 25 to 28 °C",
        ("%", 1, 2.0),
    );
    table.kind = Kind::Calibration;
    table.one(
        "gas from 26 to 27 °C",
        10.0,
        100.0 * (yeast::warmth(27.0) / yeast::warmth(26.0) - 1.0),
    );
    let mut table = lines(
        rows,
        Kind::Verification,
        "Bunsen's coefficients times T/273 (worked out by hand)",
        ("mL/mL", 3, 0.002),
    );
    for (celsius, published) in [(5.0, 1.450), (15.0, 1.075), (30.0, 0.738), (40.0, 0.608)] {
        table.one(
            format!("carbon dioxide in a volume of water, {celsius} °C"),
            published,
            yeast::dissolves(celsius),
        );
    }
}

fn heights(rows: &mut Vec<Row>) {
    let at = |feet: f64| boiling::pressure(Length::from_si(feet * 0.3048));
    let mut table = lines(
        rows,
        Kind::Validation,
        "a page for pastry cooks (read)",
        ("°F", 1, 0.2),
    );
    for (feet, printed) in [
        (0.0, 212.0),
        (2000.0, 208.4),
        (5000.0, 203.0),
        (7500.0, 198.4),
        (10_000.0, 194.0),
    ] {
        table.one(
            format!("water boils at {feet} ft"),
            printed,
            boiling::boiling_point(at(feet)).fahrenheit(),
        );
    }
    let less = |feet: f64| 100.0 * (1.0 - at(feet).si() / boiling::SEA_LEVEL_PA);
    let mut table = lines(
        rows,
        Kind::Validation,
        "Colorado Wheat Administrative Committee (read): ½ teaspoon of each tablespoon",
        ("%", 1, 1.0),
    );
    table.one(
        "less yeast at 5000 ft for the same rise",
        16.7,
        less(5000.0),
    );
    let mut table = lines(
        rows,
        Kind::Validation,
        "bakers who live there (read)",
        ("%", 1, 5.0),
    );
    table.one("less yeast at 6300 ft", 25.0, less(6300.0));
    table.one("less yeast at 9200 ft", 33.3, less(9200.0));
}

fn share(what: &str, grams: f64, c_kj_per_kg_k: f64, celsius: f64) -> Share {
    let mass = Mass::from_grams(grams);
    Share {
        what: what.to_owned(),
        mass,
        heat_capacity: mass * SpecificHeat::from_si(c_kj_per_kg_k * 1000.0),
        at: Temperature::from_celsius(celsius),
    }
}

fn plain(shares: Vec<Share>, bowl_j_per_k: f64) -> Parts {
    Parts {
        stage: "dough".to_owned(),
        shares,
        bowl: Share {
            what: "bowl".to_owned(),
            mass: Mass::ZERO,
            heat_capacity: HeatCapacity::from_si(bowl_j_per_k),
            at: Temperature::from_celsius(20.0),
        },
        hydration: Energy::ZERO,
        work: Work::Heat(Energy::ZERO),
        dissolution: Energy::ZERO,
        melting: Melting::Heat(Energy::ZERO),
        ice: None,
    }
}

fn mixes(rows: &mut Vec<Row>) {
    for (source, dough, others, friction, water) in [
        (
            "Pizza Today, June 2018, page 29 (read)",
            80.0,
            [65.0, 75.0],
            35.0,
            65.0,
        ),
        (
            "a how-to page, 8 min at 2 °F/min (read)",
            78.0,
            [60.0, 70.0],
            16.0,
            88.0,
        ),
        (
            "a cooking question-and-answer archive, no. 107561 (read)",
            78.0,
            [72.0, 72.0],
            0.0,
            90.0,
        ),
        (
            "Gisslen, Professional Baking (from memory)",
            80.0,
            [68.0, 72.0],
            20.0,
            80.0,
        ),
    ] {
        let mut table = lines(rows, Kind::Verification, source, ("°F", 0, 0.5));
        table.one(
            format!(
                "water by the factor method for a dough of {dough} °F, room {} °F",
                others[1]
            ),
            water,
            factor::water(dough, &others, friction),
        );
    }
    let slope = |bowl: f64| {
        let dough = |water: f64| {
            let flour = share("flour", 1000.0, 1.99, 20.0);
            let parts = plain(vec![flour, share("water", 600.0, 4.18, water)], bowl);
            ends(&parts).ends.celsius()
        };
        (dough(25.0) - dough(20.0)) / 5.0
    };
    let mut table = lines(
        rows,
        Kind::Validation,
        "Pizza Today, June 2018, page 28 (read): water 5 °F, dough 2 °F",
        ("K/K", 2, 0.05),
    );
    table.one(
        "dough for each degree of the water, with a home bowl",
        0.40,
        slope(360.0),
    );
    let mut parts = plain(
        vec![
            share("flour", 2000.0, 1.76, 15.0),
            share("water", 1000.0, 4.18, 15.0),
        ],
        0.0,
    );
    parts.hydration = Energy::from_si(45_000.0);
    let water = solve_for(&parts, 1, Temperature::from_celsius(15.0));
    let mut table = lines(
        rows,
        Kind::Verification,
        "Çengel and Boles, Thermodynamics, problem 5-157 (answer from memory)",
        ("°C", 1, 0.05),
    );
    table.between(
        "water that takes up the heat of 2 kg of wetted flour",
        4.2,
        4.2,
        water.map(Temperature::celsius),
    );
}

fn iced(rows: &mut Vec<Row>) {
    let mut table = lines(
        rows,
        Kind::Validation,
        "Ice Table of the Koerner company (read)",
        ("lb/lb", 3, 0.004),
    );
    for (tap, wanted, printed) in [
        (80.0, 75.0, 0.026),
        (70.0, 60.0, 0.054),
        (60.0, 50.0, 0.057),
        (60.0, 40.0, 0.115),
        (80.0, 40.0, 0.206),
        (40.0, 30.0, 0.065),
        (70.0, 20.0, 0.272),
        (32.0, 10.0, 0.153),
        (80.0, 0.0, 0.416),
        (70.0, 0.0, 0.380),
        (40.0, -30.0, 0.455),
        (80.0, -30.0, 0.573),
    ] {
        let ours = ice::ice_for(
            Mass::from_si(1.0),
            Temperature::from_fahrenheit(tap),
            Temperature::from_fahrenheit(wanted),
        );
        table.one(
            format!("ice in water of {tap} °F wanted at {wanted} °F").replace('-', "−"),
            printed,
            ours.si(),
        );
    }
    let mut table = lines(
        rows,
        Kind::Validation,
        "a trade note (read)",
        ("kg", 2, 0.05),
    );
    let ours = ice::ice_for(
        Mass::from_si(40.0),
        Temperature::from_celsius(20.0),
        Temperature::from_celsius(10.0),
    );
    table.one("ice in 40 kg of water from 20 to 10 °C", 4.4, ours.si());
}
