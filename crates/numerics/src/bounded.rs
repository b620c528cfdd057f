//! Least squares with bounds on the unknowns: the smallest ||A x - b|| with every x between its bounds.
//!
//! # Relation
//! Minimise (1/2) ||A x - b||^2 subject to l <= x <= u. At the answer the gradient g = A^T (A x - b)
//! is zero for every x between its bounds, not below zero for every x at its lower bound, and not
//! above zero for every x at its upper bound.
//!
//! # Symbols
//! A has one row an equation and one column an unknown, row by row; any bound may be infinite.
//!
//! # Valid for
//! Small dense problems (tens of unknowns). Equal or dependent columns are allowed: of two columns
//! that say the same, the later one does not move.
//!
//! # Source
//! P. B. Stark and R. L. Parker, Bounded-variable least-squares: an algorithm and applications,
//! Computational Statistics 10 (1995) 129-141, which carries on from the active set of C. L. Lawson
//! and R. J. Hanson, Solving Least Squares Problems (1974), chapter 23. Both from memory.
//!
//! # Departures
//! The step on the free set is solved for the change of x and not for x itself, by Householder
//! reflections without pivoting. Unknowns without any bound are free from the start.
//!
//! # Checked by
//! `tests/verification/bounded.rs`, against `lsq_linear` of `SciPy`, and the conditions above.

/// An answer, and how much work it took.
#[derive(Clone, Debug, PartialEq)]
pub struct Bounded {
    /// The unknowns, each between its bounds.
    pub x: Vec<f64>,
    /// How many times a smaller problem was solved.
    pub steps: usize,
    /// Whether the conditions of the answer were met before the steps ran out.
    pub settled: bool,
}

/// Where an unknown is held.
#[derive(Clone, Copy, PartialEq)]
enum Held {
    Low,
    High,
    Free,
}

/// A pivot smaller than this share of its column says that the column adds nothing of its own.
const DEPENDENT: f64 = 1e-11;

/// A gradient smaller than this share of what it is made of is zero.
const FLAT: f64 = 1e-12;

/// Finds the unknowns between their bounds that come nearest to the equations.
///
/// `rows` holds the equations one after another, each as long as `low`; `low`, `high` are the
/// bounds. Returns nothing when the lengths do not fit, a bound is above its partner, or a figure
/// is not a number.
pub fn least_squares(rows: &[f64], b: &[f64], low: &[f64], high: &[f64]) -> Option<Bounded> {
    let (m, n) = (b.len(), low.len());
    let fits = rows.len() == m * n && high.len() == n;
    let finite = rows.iter().chain(b).all(|value| value.is_finite());
    let bounds = low.iter().zip(high).all(|(l, u)| l <= u);
    if !fits || !finite || !bounds {
        return None;
    }
    let mut one = Problem::new(rows, b, low, high);
    let most = 10 * (n + 1);
    let mut steps = usize::from(one.held.contains(&Held::Free));
    if steps > 0 {
        one.settle_free(&mut steps, most);
    }
    let mut refused = vec![false; n];
    while steps < most {
        let Some(next) = one.pulls(&refused) else {
            return Some(one.done(steps, true));
        };
        let before = one.held[next];
        one.held[next] = Held::Free;
        steps += 1;
        let change = one.change();
        let inward = match before {
            Held::High => change[next] < 0.0,
            Held::Low | Held::Free => change[next] > 0.0,
        };
        if inward {
            refused.fill(false);
            one.settle_free(&mut steps, most);
        } else {
            // Rounding made it look as if it would move; it stays and another is asked.
            one.held[next] = before;
            refused[next] = true;
        }
    }
    Some(one.done(steps, false))
}

/// A problem and how far it has come.
struct Problem<'a> {
    rows: &'a [f64],
    b: &'a [f64],
    low: &'a [f64],
    high: &'a [f64],
    x: Vec<f64>,
    held: Vec<Held>,
}

impl<'a> Problem<'a> {
    fn new(rows: &'a [f64], b: &'a [f64], low: &'a [f64], high: &'a [f64]) -> Self {
        let start = low.iter().zip(high).map(|(l, u)| match (l, u) {
            (l, _) if l.is_finite() => (*l, Held::Low),
            (_, u) if u.is_finite() => (*u, Held::High),
            _ => (0.0, Held::Free),
        });
        let (x, held) = start.unzip();
        Self {
            rows,
            b,
            low,
            high,
            x,
            held,
        }
    }

    fn done(self, steps: usize, settled: bool) -> Bounded {
        Bounded {
            x: self.x,
            steps,
            settled,
        }
    }

    /// b - A x.
    fn residual(&self) -> Vec<f64> {
        let n = self.x.len();
        let row = |i: usize| -> f64 {
            let own = &self.rows[i * n..(i + 1) * n];
            own.iter().zip(&self.x).map(|(a, x)| a * x).sum()
        };
        let b = self.b.iter().enumerate();
        b.map(|(i, b)| b - row(i)).collect()
    }

    /// The held unknown that would lower the sum most, when there is one.
    fn pulls(&self, refused: &[bool]) -> Option<usize> {
        let n = self.x.len();
        let residual = self.residual();
        let size: f64 = residual.iter().map(|r| r * r).sum::<f64>().sqrt();
        let mut best: Option<(usize, f64)> = None;
        for (j, refused) in refused.iter().enumerate() {
            if self.held[j] == Held::Free || *refused || self.low[j] >= self.high[j] {
                continue;
            }
            let column = residual.iter().enumerate();
            let (mut pull, mut length) = (0.0, 0.0);
            for (i, r) in column {
                let a = self.rows[i * n + j];
                pull += a * r;
                length += a * a;
            }
            let pull = if self.held[j] == Held::Low {
                pull
            } else {
                -pull
            };
            let flat = FLAT * size * length.sqrt();
            if pull > flat && best.is_none_or(|(_, most)| pull > most) {
                best = Some((j, pull));
            }
        }
        best.map(|(j, _)| j)
    }

    /// Moves the free unknowns to their best place, holding those that meet a bound on the way.
    fn settle_free(&mut self, steps: &mut usize, most: usize) {
        loop {
            let change = self.change();
            let mut reach = 1.0;
            for (j, d) in change.iter().enumerate() {
                if self.held[j] != Held::Free {
                    continue;
                }
                let to = self.x[j] + d;
                if to > self.high[j] {
                    reach = f64::min(reach, (self.high[j] - self.x[j]) / d);
                } else if to < self.low[j] {
                    reach = f64::min(reach, (self.low[j] - self.x[j]) / d);
                }
            }
            let mut met = false;
            for (j, d) in change.iter().enumerate() {
                if self.held[j] != Held::Free {
                    continue;
                }
                let to = self.x[j] + d;
                let (over, under) = (to > self.high[j], to < self.low[j]);
                self.x[j] += reach * d;
                // The one that ended the step, and any that rounding carried over its bound.
                let at = |bound: f64, x: f64| (bound - x).abs() <= 1e-14 * (1.0 + bound.abs());
                if over && (at(self.high[j], self.x[j]) || self.x[j] > self.high[j]) {
                    self.x[j] = self.high[j];
                    self.held[j] = Held::High;
                    met = true;
                } else if under && (at(self.low[j], self.x[j]) || self.x[j] < self.low[j]) {
                    self.x[j] = self.low[j];
                    self.held[j] = Held::Low;
                    met = true;
                }
            }
            if !met || *steps >= most {
                return;
            }
            *steps += 1;
        }
    }

    /// The change of the free unknowns that solves their problem; nothing for those that are held.
    fn change(&self) -> Vec<f64> {
        let n = self.x.len();
        let m = self.b.len();
        let free: Vec<usize> = (0..n).filter(|&j| self.held[j] == Held::Free).collect();
        let mut columns: Vec<Vec<f64>> = free
            .iter()
            .map(|&j| (0..m).map(|i| self.rows[i * n + j]).collect())
            .collect();
        let mut r = self.residual();
        // Householder reflections; `at[k]` is the row of the k-th pivot, none for a column that
        // depends on those before it.
        let mut at: Vec<Option<usize>> = Vec::with_capacity(free.len());
        let mut row = 0;
        for k in 0..columns.len() {
            let whole = length(&self.column(free[k]));
            let left = length(columns[k].get(row..).unwrap_or_default());
            if left <= DEPENDENT * whole || row >= m {
                at.push(None);
                continue;
            }
            let alpha = if columns[k][row] > 0.0 { -left } else { left };
            let mut v = columns[k][row..].to_vec();
            v[0] -= alpha;
            let square: f64 = v.iter().map(|c| c * c).sum();
            for column in &mut columns[k..] {
                reflect(&v, square, &mut column[row..]);
            }
            reflect(&v, square, &mut r[row..]);
            at.push(Some(row));
            row += 1;
        }
        let mut change = vec![0.0; n];
        for k in (0..columns.len()).rev() {
            let Some(row) = at[k] else { continue };
            let mut value = r[row];
            for later in k + 1..columns.len() {
                value -= columns[later][row] * change[free[later]];
            }
            change[free[k]] = value / columns[k][row];
        }
        change
    }

    fn column(&self, j: usize) -> Vec<f64> {
        let n = self.x.len();
        (0..self.b.len()).map(|i| self.rows[i * n + j]).collect()
    }
}

/// Length of a vector.
fn length(v: &[f64]) -> f64 {
    v.iter().map(|c| c * c).sum::<f64>().sqrt()
}

/// Reflects a vector at the plane across `v`.
fn reflect(v: &[f64], square: f64, of: &mut [f64]) {
    if square <= 0.0 {
        return;
    }
    let dot: f64 = v.iter().zip(of.iter()).map(|(a, b)| a * b).sum();
    let twice = 2.0 * dot / square;
    for (a, b) in v.iter().zip(of.iter_mut()) {
        *b -= twice * a;
    }
}

#[cfg(test)]
mod tests {
    use super::least_squares;

    #[test]
    fn without_bounds_that_bite_it_is_the_exact_answer() {
        let rows = [2.0, 1.0, 1.0, 3.0];
        let far = [f64::NEG_INFINITY; 2];
        let answer = least_squares(&rows, &[5.0, 10.0], &far, &[f64::INFINITY; 2]).expect("fits");
        assert!(answer.settled);
        assert!((answer.x[0] - 1.0).abs() < 1e-12 && (answer.x[1] - 3.0).abs() < 1e-12);
    }

    #[test]
    fn a_negative_answer_is_held_at_nothing() {
        // x = (-1, 2) without bounds; with x >= 0 the rest follows: 2 y = 3, y = 1.5.
        let rows = [1.0, 1.0, 0.0, 1.0];
        let answer =
            least_squares(&rows, &[1.0, 2.0], &[0.0; 2], &[f64::INFINITY; 2]).expect("fits");
        assert_eq!(answer.x[0].to_bits(), 0.0_f64.to_bits());
        assert!((answer.x[1] - 1.5).abs() < 1e-12);
    }

    #[test]
    fn two_columns_that_say_the_same_do_no_harm() {
        let rows = [1.0, 1.0, 2.0, 2.0];
        let answer = least_squares(&rows, &[1.0, 2.0], &[0.0; 2], &[0.4, 9.0]).expect("fits");
        assert!(
            (answer.x[0] + answer.x[1] - 1.0).abs() < 1e-12,
            "{answer:?}"
        );
    }

    #[test]
    fn what_does_not_fit_is_refused() {
        assert_eq!(least_squares(&[1.0], &[1.0, 2.0], &[0.0], &[1.0]), None);
        assert_eq!(least_squares(&[1.0], &[1.0], &[2.0], &[1.0]), None);
        assert_eq!(least_squares(&[f64::NAN], &[1.0], &[0.0], &[1.0]), None);
    }
}
