//! Quantiles against `SciPy`, and how evenly drawn values lie: their own published moments.

use crate::peer;
use numerics::distribution::{Distribution, beta_quantile, normal_quantile};
use numerics::draw::{Purpose, unit};
use serde_json::{Value, json};

const SHARES: [f64; 11] = [
    1e-9, 1e-4, 0.01, 0.075, 0.3, 0.5, 0.62, 0.9, 0.925_1, 0.999, 0.999_999,
];

fn numbers(of: &Value) -> Vec<f64> {
    let list = of.as_array().expect("a list");
    list.iter()
        .map(|one| one.as_f64().expect("a number"))
        .collect()
}

#[test]
fn the_same_quantiles_as_scipy() {
    let cuts = [
        (21.0, 2.6, 10.0, 33.0),
        (100.0, 5.0, 85.0, 115.0),
        (0.0, 350.0, 0.0, 2000.0),
    ];
    let betas = [(1.2, 8.0), (0.5, 0.5), (5.0, 2.0), (40.0, 300.0)];
    let mut asked = vec![json!({"kind": "normal", "shares": SHARES})];
    for (middle, deviation, low, high) in cuts {
        asked.push(
            json!({"kind": "cut", "middle": middle, "deviation": deviation,
            "low": low, "high": high, "shares": SHARES}),
        );
    }
    for (alpha, beta) in betas {
        asked.push(json!({"kind": "beta", "alpha": alpha, "beta": beta, "shares": SHARES}));
    }
    asked.push(json!({"kind": "exponential", "mean": 6.0, "shares": SHARES}));
    let heard = peer::ask("distributions.py", Some(&json!(asked)));
    let answers: Vec<Vec<f64>> = heard["answers"]
        .as_array()
        .expect("answers")
        .iter()
        .map(numbers)
        .collect();
    let mut ours: Vec<Vec<f64>> = vec![SHARES.iter().map(|u| normal_quantile(*u)).collect()];
    for (middle, deviation, low, high) in cuts {
        let normal = Distribution::Normal {
            middle,
            deviation,
            low,
            high,
        };
        ours.push(SHARES.iter().map(|u| normal.quantile(*u)).collect());
    }
    for (alpha, beta) in betas {
        ours.push(
            SHARES
                .iter()
                .map(|u| beta_quantile(alpha, beta, *u))
                .collect(),
        );
    }
    let wait = Distribution::Exponential { mean: 6.0 };
    ours.push(SHARES.iter().map(|u| wait.quantile(*u)).collect());
    let mut worst = 0.0_f64;
    for (place, (one, other)) in ours.iter().zip(&answers).enumerate() {
        assert_eq!(one.len(), other.len());
        for (x, y) in one.iter().zip(other) {
            let off = (x - y).abs() / (1.0 + y.abs());
            assert!(off < 1e-9, "{}: {x} beside {y}", asked[place]);
            worst = worst.max(off);
        }
    }
    println!(
        "SciPy {}: {} quantiles, worst {worst:.1e}",
        heard["version"],
        ours.len() * SHARES.len()
    );
}

#[test]
fn drawn_values_have_the_moments_of_their_distribution() {
    // Mean and variance in closed form: normal; beta a/(a+b), ab/((a+b)^2(a+b+1)); exponential m, m^2.
    let cases = [
        (
            Distribution::Normal {
                middle: 5.0,
                deviation: 2.0,
                low: -1e3,
                high: 1e3,
            },
            5.0,
            4.0,
        ),
        (
            Distribution::Beta {
                alpha: 1.2,
                beta: 8.0,
                from: 0.0,
                to: 1.0,
            },
            1.2 / 9.2,
            1.2 * 8.0 / (9.2 * 9.2 * 10.2),
        ),
        (Distribution::Exponential { mean: 6.0 }, 6.0, 36.0),
    ];
    let n = 4096;
    for (distribution, mean, variance) in cases {
        let drawn: Vec<f64> = (0..n)
            .map(|number| distribution.quantile(unit(3, Purpose::First, number, 11)))
            .collect();
        let middle = drawn.iter().sum::<f64>() / n as f64;
        let deviation = f64::sqrt(variance);
        let spread = drawn
            .iter()
            .map(|x| (x - middle) * (x - middle))
            .sum::<f64>()
            / n as f64;
        // Plain chance would be off by sqrt(variance/n), 1.6 % of a deviation; even points by a tenth of it.
        assert!(
            (middle - mean).abs() < 0.002 * deviation,
            "{middle} beside {mean}"
        );
        assert!(
            (spread / variance - 1.0).abs() < 0.02,
            "{spread} beside {variance}"
        );
    }
}
