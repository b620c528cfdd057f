//! Routes to the answers about kitchens, clocks, ovens, faults and keeping: ten per cent a degree, plain balances, published laws by hand.

use super::{FOUR_WAYS, In, Row, row};

/// Minutes until a dough has had so many minutes' worth of rising at 26 °C: ten per cent a degree (the trade
/// press), its own warmth going over into the air with a time of 200 min (2 kg in a bowl: 5.5 kJ/K behind
/// 0.08 m² at 7 W/(m² K), and what lies within).
fn minutes_for(equivalent: f64, start_c: f64, air_c: f64) -> f64 {
    let (mut had, mut minute) = (0.0, 0.0);
    while had < equivalent {
        let celsius = air_c + (start_c - air_c) * libm::exp(-minute / 200.0);
        had += libm::exp(0.0953 * (celsius - 26.0)) * 0.5;
        minute += 0.5;
    }
    minute
}

/// How large a dough is after hours at 4 °C from 26 °C, 0.9 of growth for 80 min at 26 °C.
fn after_a_night(tau_min: f64, hours: u32) -> f64 {
    let minutes: f64 = (0..hours * 60)
        .map(|minute| {
            let celsius = 4.0 + 22.0 * libm::exp(-f64::from(minute) / tau_min);
            libm::exp(0.0953 * (celsius - 26.0))
        })
        .sum();
    1.0 + 0.9 * minutes / 80.0
}

/// Kitchens and clocks.
pub fn kitchens_and_clocks() -> Vec<Row> {
    use In::{Celsius, Grams, Minutes, Plain};
    let usual = minutes_for(80.0, 26.0, 26.0);
    vec![
        row(
            "risen",
            &[],
            "here.rise-of-the-dough",
            Minutes,
            (minutes_for(usual, 25.6, 27.0), 8.0),
            "ten per cent a degree and Newton's cooling: from 25.6 °C in a warm place of 27 °C",
        ),
        row(
            "cold-kitchen",
            &[],
            "in-the-room.rise-of-the-dough",
            Minutes,
            // Ours keeps its warmth a little longer: it misses by as much as a sixth.
            (minutes_for(usual, 23.2, 16.0), 22.0),
            "the same from the author's 23.2 °C in a room of 16 °C",
        ),
        row(
            "hot-kitchen",
            &[],
            "in-the-room.rise-of-the-dough",
            Minutes,
            (minutes_for(usual, 29.8, 30.0), 8.0),
            "the same from 29.8 °C (the author: 28.4 °C in 27 °C) in 30 °C",
        ),
        row(
            "altitude",
            &["altitude=2000m"],
            "gas",
            Plain,
            (1.0 / libm::pow(1.0 - 2.25577e-5 * 2000.0, 5.25588), 2e-3),
            "the international standard atmosphere",
        ),
        row(
            "faster",
            &[],
            "more-yeast.rise-of-the-dough",
            Minutes,
            (
                minutes_for(usual, 25.6, 27.0) * libm::pow(1.0 / 1.5, 0.9),
                8.0,
            ),
            "as risen, by (1 / 1.5) to the power 0.9, a rule of thumb",
        ),
        row(
            "overnight",
            &[],
            "slab-8-h",
            Plain,
            (after_a_night(90.0, 8), 0.3),
            "ten per cent a degree summed while a slab of 3 cm cools with 90 min",
        ),
        row(
            "for-breakfast",
            &[],
            "out-loaf",
            Minutes,
            // Ours bakes a cold loaf six minutes longer.
            (480.0 - 60.0 - 34.0, 10.0),
            "by hand: 08:00 less 60 min of cooling and the written 34 min of baking",
        ),
        row(
            "left-out",
            &[],
            "not-between",
            Celsius,
            ((140.0 - 32.0) / 1.8, 0.01),
            "the two-hour rule: 40 to 140 °F",
        ),
        row(
            "altitude",
            &[],
            "yeast",
            Grams,
            (9.8 * 0.824, 0.03),
            "the same atmosphere at 1 600 m: 0.824",
        ),
    ]
}

/// Lightness when the browning that is written has had so much of its time or speed, as a falling exponential
/// between 85 (dough) and 33 (burnt).
fn lightness(meant: f64, share: f64) -> f64 {
    33.0 + 52.0 * libm::pow((meant - 33.0) / 52.0, share)
}

/// Ovens, faults, keeping.
pub fn ovens_faults_and_keeping() -> Vec<Row> {
    use In::{Celsius, Grams, Kcal, Minutes, Plain};
    let meant = FOUR_WAYS.figure("pale", &[], "lightness");
    // Purlis and Salvadori's 8 866 K at a crust of 150 °C; the crust follows 0.6 of an oven's 20 °C.
    let slower = libm::exp(-8866.0 * (1.0 / (423.15 - 12.0) - 1.0 / 423.15));
    vec![
        row(
            "done",
            &[],
            "lost-loaf",
            Plain,
            (65.0 / 620.0, 1e-9),
            "the author's weights: 555 g of 620 g",
        ),
        row(
            "fan",
            &[],
            "less-25-f",
            Celsius,
            (175.0 - 25.0 / 1.8, 0.05),
            "Michigan State University Extension: 25 °F",
        ),
        row(
            "other-material",
            &[],
            "glass-dial",
            Celsius,
            (175.0 - 25.0 / 1.8, 0.05),
            "cookery pages: 25 °F less in glass",
        ),
        row(
            "dense",
            &[],
            "water-scooped",
            Plain,
            (0.612 * 126.0 / 159.0, 1e-3),
            "USDA's cup of 126 g, kitchen tests' 159 g: water by their ratio",
        ),
        row(
            "collapsed",
            &[],
            "waited-45-min",
            Plain,
            (200.0 / 155.0, 1e-6),
            "by hand: 80 + 75 + 45 of 155 min",
        ),
        row(
            "holes",
            &[],
            "last-rise-two-thirds",
            Plain,
            ((80.0 + 75.0 * 0.67) / 155.0, 1e-6),
            "by hand: 80 + 50 of 155 min",
        ),
        row(
            "flat",
            &["tin=1893mL"],
            "next-tin-up",
            Plain,
            (1.893 / 620.0, 1e-6),
            "by hand: 1 893 mL / 620 g",
        ),
        row(
            "over-the-rim",
            &[],
            "all-in-one-tin",
            Plain,
            (1.420 / 1976.3, 2e-6),
            "by hand: 1 420 mL / 1 976.3 g",
        ),
        row(
            "sticky",
            &[],
            "flour-sifted",
            Plain,
            (0.612 * 126.0 / 113.0, 1e-3),
            "a sifted cup of 113 g: water by the ratio",
        ),
        row(
            "stiff",
            &["cup=145g"],
            "flour-scooped",
            Plain,
            (0.612 * 126.0 / 145.0, 1e-3),
            "by hand: 126 g / 145 g",
        ),
        row(
            "greasy",
            &[],
            "in-a-room-of-30",
            Celsius,
            (28.4 + 3.0 * (28.4 - 23.2) / 11.0, 0.8),
            "the author's plain balance, 23.2 and 28.4 °C in rooms of 16 and 27, read on to 30",
        ),
        row(
            "pale",
            &[],
            "oven-20-colder",
            Plain,
            // One crust temperature for a whole bake is rough: steps of the words are five apart.
            (lightness(meant, slower), 7.0),
            "Purlis and Salvadori's law by hand at one crust temperature, 150 and 138 °C",
        ),
        row(
            "pale",
            &[],
            "three-quarters",
            Plain,
            // The crust is dry and hot only in the last half: a quarter of the time is more than a quarter of the colour.
            (lightness(meant, 0.5), 7.0),
            "the same with half of its hot minutes",
        ),
        row(
            "burnt-outside",
            &[],
            "oven-25-hotter-after",
            Minutes,
            (34.0 * 80.0 / 105.0, 4.0),
            "by hand: 34 min by (175 - 95) / (200 - 95)",
        ),
        row(
            "freeze",
            &[],
            "more-yeast-least",
            Grams,
            (980.0 * 0.25 * 3.1 / 378.0, 1e-6),
            "a university's column: a quarter teaspoon for 3 cups",
        ),
        row(
            "calories",
            &[],
            "in-100-g-loaf",
            Kcal,
            (550.0 * 3.61 * (930.0 / 936.9) / 8.05, 5.0),
            "USDA 20083: 3.61 kcal in a gram of flour, 550 g of it in a loaf of 805 g",
        ),
    ]
}
