//! Least squares with bounds against `SciPy`'s `lsq_linear`, and against the conditions of its answer.

use everyoven_tests::tree::root;
use numerics::bounded::least_squares;
use serde_json::{Value, json};
use std::io::Write;
use std::process::{Command, Stdio};

/// One problem: rows one after another, the right side, the bounds; an open upper bound is none.
struct Problem {
    rows: Vec<f64>,
    b: Vec<f64>,
    low: Vec<f64>,
    high: Vec<Option<f64>>,
}

impl Problem {
    fn upper(&self) -> Vec<f64> {
        let open = |high: &Option<f64>| high.unwrap_or(f64::INFINITY);
        self.high.iter().map(open).collect()
    }

    fn json(&self) -> Value {
        let rows: Vec<&[f64]> = self.rows.chunks(self.low.len()).collect();
        json!({"rows": rows, "b": self.b, "low": self.low, "high": self.high})
    }

    /// Half the sum of squares at x.
    fn cost(&self, x: &[f64]) -> f64 {
        let each = self.rows.chunks(x.len()).zip(&self.b).map(|(row, b)| {
            let r = row.iter().zip(x).map(|(a, x)| a * x).sum::<f64>() - b;
            0.5 * r * r
        });
        each.sum()
    }

    /// A^T (A x - b).
    fn gradient(&self, x: &[f64]) -> Vec<f64> {
        let mut g = vec![0.0; x.len()];
        for (row, b) in self.rows.chunks(x.len()).zip(&self.b) {
            let r = row.iter().zip(x).map(|(a, x)| a * x).sum::<f64>() - b;
            for (g, a) in g.iter_mut().zip(row) {
                *g += a * r;
            }
        }
        g
    }
}

/// The same numbers on every machine (a linear congruential generator, constants of Knuth's MMIX).
struct Numbers(u64);

impl Numbers {
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(self.0 >> 33).expect("31 bits")) / f64::from(1_u32 << 31) * 2.0
            - 1.0
    }
}

fn problems() -> Vec<Problem> {
    let mut numbers = Numbers(20_260_214);
    let mut all = Vec::new();
    for n in 1..=8 {
        for spare in [0, 3, 9] {
            for closed in [false, true] {
                let m = n + spare;
                all.push(Problem {
                    rows: (0..m * n).map(|_| numbers.next()).collect(),
                    b: (0..m).map(|_| numbers.next() * 3.0).collect(),
                    low: (0..n).map(|_| numbers.next() * 0.3 - 0.3).collect(),
                    high: (0..n)
                        .map(|_| closed.then(|| numbers.next() * 0.2 + 0.3))
                        .collect(),
                });
            }
        }
    }
    all
}

fn scipy(problems: &[Problem]) -> Value {
    let peers = root().join("tests/peers");
    let python = peers.join(".venv/bin/python");
    assert!(
        python.exists(),
        "SciPy is not installed; this installs it: \
         python3 -m venv tests/peers/.venv && \
         tests/peers/.venv/bin/pip install -r tests/peers/requirements.txt"
    );
    let mut child = Command::new(&python)
        .arg(peers.join("least_squares.py"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("Python starts");
    let asked: Vec<Value> = problems.iter().map(Problem::json).collect();
    let text = serde_json::to_string(&asked).expect("JSON");
    child
        .stdin
        .take()
        .expect("a pipe")
        .write_all(text.as_bytes())
        .expect("written");
    let out = child.wait_with_output().expect("an answer");
    assert!(out.status.success(), "least_squares.py failed");
    serde_json::from_slice(&out.stdout).expect("JSON")
}

#[test]
fn the_same_answers_as_scipy() {
    let problems = problems();
    let heard = scipy(&problems);
    let answers = heard["answers"].as_array().expect("answers");
    assert_eq!(answers.len(), problems.len());
    let (mut worst, mut compared) = (0.0_f64, 0);
    for (problem, theirs) in problems.iter().zip(answers) {
        let ours = least_squares(&problem.rows, &problem.b, &problem.low, &problem.upper())
            .expect("it fits");
        assert!(ours.settled);
        let (own, other) = (
            problem.cost(&ours.x),
            theirs["cost"].as_f64().expect("cost"),
        );
        // Neither may be better: the least is the least.
        assert!(
            (own - other).abs() <= 1e-9 * (1.0 + other),
            "{own} beside {other}"
        );
        for (x, y) in ours.x.iter().zip(theirs["x"].as_array().expect("x")) {
            worst = worst.max((x - y.as_f64().expect("a number")).abs());
            compared += 1;
        }
    }
    println!(
        "SciPy {}: {compared} unknowns, worst {worst:.1e}",
        heard["version"]
    );
    assert!(worst < 1e-6, "{worst}");
}

#[test]
fn every_answer_meets_the_conditions() {
    // Karush, Kuhn and Tucker: no slope inside, none that points inward at a bound.
    for problem in problems() {
        let upper = problem.upper();
        let answer =
            least_squares(&problem.rows, &problem.b, &problem.low, &upper).expect("it fits");
        for (j, g) in problem.gradient(&answer.x).into_iter().enumerate() {
            let (x, low, high) = (answer.x[j], problem.low[j], upper[j]);
            assert!(low <= x && x <= high);
            let at_low = x.to_bits() == low.to_bits();
            let at_high = x.to_bits() == high.to_bits();
            assert!(
                g.abs() < 1e-8 || (at_low && g > 0.0) || (at_high && g < 0.0),
                "unknown {j}: slope {g} at {x} of {low}..{high}"
            );
        }
    }
}
