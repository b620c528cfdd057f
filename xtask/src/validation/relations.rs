//! Lines about relations: what others measured or worked out of foods, crumb, butter and crust.

use super::rows::{Kind, Row, lines};
use bake::physics::proximate::Proximate;
use bake::physics::{boiling, conductivity, crust, density, milk_fat, specific_heat};
use libm::exp;
use numerics::quantity::Temperature;
use recipe::larder::{Found, Larder};

/// Flour 100, water 62, salt 1.8.
pub const LEAN: Proximate = Proximate {
    water: 0.4579,
    protein: 0.0702,
    fat: 0.0079,
    carbohydrate: 0.4335,
    fibre: 0.0165,
    salt: 0.0,
    ash: 0.0140,
    alcohol: 0.0,
};

/// The same with its salt told apart from the ash, as the yeast feels it.
pub const SALTED: Proximate = Proximate {
    salt: 0.0109,
    ash: 0.0031,
    ..LEAN
};

/// Flour 100, whole egg 30, milk 25, sugar 12, butter 30, salt 1.8.
pub const ENRICHED: Proximate = Proximate {
    water: 0.3181,
    protein: 0.0823,
    fat: 0.1474,
    carbohydrate: 0.4245,
    fibre: 0.0136,
    salt: 0.0,
    ash: 0.0141,
    alcohol: 0.0,
};

/// All lines about relations.
pub fn relations() -> Vec<Row> {
    let mut rows = Vec::new();
    doughs(&mut rows);
    foods(&mut rows);
    crumb(&mut rows);
    butter(&mut rows);
    colour(&mut rows);
    rows
}

fn heat(of: &Proximate, celsius: f64) -> f64 {
    specific_heat::specific_heat(of, Temperature::from_celsius(celsius)).si()
}

fn weighs(of: &Proximate, celsius: f64) -> f64 {
    density::density(of, Temperature::from_celsius(celsius))
        .map_or(0.0, numerics::quantity::Density::si)
}

fn doughs(rows: &mut Vec<Row>) {
    const BY: &str =
        "Choi and Okos's table evaluated by CoolProp 8.0 and summed by hand (worked out)";
    let table = [
        (
            "lean",
            LEAN,
            [
                (5.0, 2769.2, 1233.95, 0.4175),
                (60.0, 2821.0, 1217.82, 0.4841),
                (95.0, 2852.9, 1199.19, 0.5103),
            ],
        ),
        (
            "enriched",
            ENRICHED,
            [
                (5.0, 2474.9, 1215.71, 0.3456),
                (60.0, 2533.3, 1197.08, 0.3954),
                (95.0, 2565.1, 1179.58, 0.4146),
            ],
        ),
    ];
    for (name, of, figures) in table {
        for (celsius, c, rho, k) in figures {
            let say = |what: &str| format!("{what} of {name} dough without gas, {celsius} °C");
            let mut heats = lines(rows, Kind::Verification, BY, ("J/(kg K)", 1, 0.2));
            heats.one(say("specific heat"), c, heat(&of, celsius));
            let mut densities = lines(rows, Kind::Verification, BY, ("kg/m³", 1, 0.2));
            densities.one(say("density"), rho, weighs(&of, celsius));
            let mut conducts = lines(rows, Kind::Verification, BY, ("W/(m K)", 4, 3e-4));
            conducts.one(say("conductivity"), k, conductivity::gas_free(&of, celsius));
        }
    }
}

fn foods(rows: &mut Vec<Row>) {
    let larder = Larder::open();
    let mut table = lines(
        rows,
        Kind::Validation,
        "Geankoplis, table A.4-1, after Ordinanz 1946, Charm 1971, ASHRAE (read)",
        ("kJ/(kg K)", 2, 0.10),
    );
    for (name, low, high) in [
        ("all-purpose flour", 1.80, 1.88),
        ("whole milk", 3.85, 3.85),
        ("unsalted butter", 2.30, 2.30),
        ("egg", 3.18, 3.18),
        ("egg yolk", 2.81, 2.81),
    ] {
        if let Found::One(known) = larder.find(name) {
            let made_of = Proximate::of(&known.composition);
            let ours = made_of.map(|of| heat(&of, 25.0) / 1000.0);
            table.between(format!("specific heat of {name}"), low, high, ours);
        }
    }
    let bread = Proximate {
        water: 0.445,
        ..LEAN
    };
    let ours = bread.whole().map(|of| heat(&of, 25.0) / 1000.0);
    table.between(
        "specific heat of white bread, 44.5 % water",
        2.72,
        2.85,
        ours,
    );
    let mut fat = lines(
        rows,
        Kind::Validation,
        "University of Guelph, physical properties of milk lipids (read)",
        ("kg/m³", 0, 5.0),
    );
    let pure = Proximate {
        fat: 1.0,
        ..Proximate::default()
    };
    fat.one("density of milk fat, 20 °C", 915.0, weighs(&pure, 20.0));
    fat.unit = "W/(m K)";
    (fat.decimals, fat.good_to) = (3, 0.01);
    fat.one(
        "conductivity of milk fat, 20 °C",
        0.17,
        conductivity::gas_free(&pure, 20.0),
    );
    fat.unit = "kJ/(kg K)";
    (fat.decimals, fat.good_to) = (2, 0.1);
    fat.one(
        "specific heat of liquid milk fat, 40 °C",
        2.1,
        heat(&pure, 40.0) / 1000.0,
    );
}

/// Crumb with so many bubbles, W/(m K).
fn crumb_conducts(celsius: f64, bubbles: f64) -> f64 {
    let solid = conductivity::gas_free(&LEAN, celsius);
    let bubble = conductivity::bubble(celsius, boiling::SEA_LEVEL_PA, 1.0);
    conductivity::with_bubbles(solid, bubble, bubbles)
}

fn crumb(rows: &mut Vec<Row>) {
    // The sample was warmed to about 100 °C: the conductivity is the mean over the way.
    let mean = |bubbles: f64| -> f64 {
        (0..73)
            .map(|step| crumb_conducts(25.5 + f64::from(step), bubbles))
            .sum::<f64>()
            / 73.0
    };
    let zanoni = "Zanoni, Peri and Gianotti 1995, J. Food Eng. 26:497 (abstract read)";
    for percent in [60.0, 70.0, 80.0] {
        let bubbles = percent / 100.0;
        let weighs = weighs(&LEAN, 60.0) * (1.0 - bubbles);
        let mut table = lines(rows, Kind::Validation, zanoni, ("kg/m³", 0, 20.0));
        table.one(
            format!("density of crumb, porosity {percent} %"),
            979.0 - 9.90 * percent,
            weighs,
        );
        let mut table = lines(rows, Kind::Validation, zanoni, ("10⁻⁷ m²/s", 2, 0.5));
        table.one(
            format!("diffusivity of crumb warmed to 100 °C, porosity {percent} %"),
            1e7 * exp(0.01 * percent - 15.25),
            1e7 * mean(bubbles) / (weighs * heat(&LEAN, 60.0)),
        );
    }
    let mut table = lines(
        rows,
        Kind::Validation,
        "Rask 1989, quoted second-hand",
        ("kJ/(kg K)", 2, 0.05),
    );
    table.between(
        "specific heat of bread",
        2.74,
        2.80,
        Some(heat(&LEAN, 25.0) / 1000.0),
    );
    table.unit = "W/(m K)";
    (table.decimals, table.good_to) = (3, 0.02);
    table.between(
        "conductivity of bread, porosity 70 %, 25 °C",
        0.23,
        0.25,
        Some(crumb_conducts(25.0, 0.70)),
    );
    let mut table = lines(
        rows,
        Kind::Calibration,
        "Purlis and Salvadori 2009, fit for French bread (second-hand); sets what vapour adds at most",
        ("W/(m K)", 3, 0.10),
    );
    for (celsius, published) in [(25.0, 0.204), (60.0, 0.307), (80.0, 0.650), (95.0, 0.936)] {
        table.one(
            format!("conductivity of open crumb, porosity 75 %, {celsius} °C"),
            published,
            crumb_conducts(celsius, 0.75),
        );
    }
}

fn butter(rows: &mut Vec<Row>) {
    let solid = |celsius: f64| milk_fat::solid_share(Temperature::from_celsius(celsius));
    let mut table = lines(
        rows,
        Kind::Validation,
        "anhydrous milk fat, Milchwissenschaft 53:77, 1998 (abstract read)",
        ("kJ/kg", 1, 8.0),
    );
    let all = milk_fat::MELTING_J_PER_KG / 1000.0;
    table.one(
        "heat that melts milk fat from 8.6 °C on, half of 80.8",
        40.4,
        all * solid(8.6),
    );
    table.unit = "%";
    (table.decimals, table.good_to) = (0, 6.0);
    table.one(
        "solid share of milk fat at 8.6 °C",
        50.0,
        100.0 * solid(8.6),
    );
    table.one("solid share of milk fat at 36 °C", 0.0, 100.0 * solid(36.0));
    let mut table = lines(
        rows,
        Kind::Validation,
        "calorimetry of commercial butter (abstract read)",
        ("%", 0, 6.0),
    );
    table.between(
        "solid share of butter's fat at 10 °C, summer to winter",
        59.0,
        65.0,
        Some(100.0 * solid(10.0)),
    );
}

fn colour(rows: &mut Vec<Row>) {
    let mut table = lines(
        rows,
        Kind::Validation,
        "Zanoni, Peri and Bruno 1995, LWT 28:604, ΔE of dried crumb (abstract read); ours is the fall of L* alone, its end taken from them",
        ("units", 1, 8.0),
    );
    for (celsius, change) in [(140.0, 9.2), (165.0, 22.5), (185.0, 36.7), (200.0, 45.5)] {
        let nears = 1.0 - exp(-600.0 * crust::nearing_burnt_per_s(celsius));
        table.one(
            format!("change of colour in 10 min at {celsius} °C"),
            change,
            (crust::OF_DOUGH - crust::BURNT) * nears,
        );
    }
    let mut table = lines(
        rows,
        Kind::Calibration,
        "Purlis and Salvadori 2009, Food Res. Int. 42:865 (constants from memory); sets the rate",
        ("1/min", 4, 2e-4),
    );
    for (celsius, rate) in [(120.0, 2.74e-3), (160.0, 2.20e-2), (180.0, 5.42e-2)] {
        table.one(
            format!("rate at which a crust darkens, activity 0.3, {celsius} °C"),
            rate,
            60.0 * crust::darkening_per_s(celsius),
        );
    }
    let mut table = lines(
        rows,
        Kind::Calibration,
        "Zanoni, Schiraldi and Simonetta 1995, J. Food Eng. 24:25 (from memory); sets the rate",
        ("1/s", 4, 2e-4),
    );
    for (celsius, rate) in [(70.0, 1.939e-3), (85.0, 1.492e-2), (90.0, 2.838e-2)] {
        table.one(
            format!("rate at which starch swells, {celsius} °C"),
            rate,
            crust::swelling_per_s(celsius),
        );
    }
}
