//! Small symmetric matrices that are positive: their lower triangle L with L L^T = A, and what it solves.
//!
//! # Relation
//! A = L L^T; A x = b by L y = b, then L^T x = y; the inverse column by column.
//!
//! # Symbols
//! A, n by n, row by row; L, its lower triangle, zeros above.
//!
//! # Valid for
//! Tens of rows; A positive. A pivot below 1e-12 of its diagonal says that it is not.
//!
//! # Source
//! Cholesky's method, as in Golub and Van Loan, Matrix Computations (1996), algorithm 4.2.1 (from memory).
//!
//! # Departures
//! None.
//!
//! # Checked by
//! The tests below: matrices multiplied out again, and the inverse of Hilbert's matrix, which is whole numbers.

/// The lower triangle; none when the matrix is not positive or its length is not n times n.
pub fn lower(a: &[f64], n: usize) -> Option<Vec<f64>> {
    if a.len() != n * n {
        return None;
    }
    let mut l = vec![0.0; n * n];
    for row in 0..n {
        for column in 0..=row {
            let mut left = a[row * n + column];
            for inner in 0..column {
                left -= l[row * n + inner] * l[column * n + inner];
            }
            if row == column {
                let enough = 1e-12 * a[row * n + row].abs();
                if left.is_nan() || left <= enough {
                    return None;
                }
                l[row * n + row] = left.sqrt();
            } else {
                l[row * n + column] = left / l[column * n + column];
            }
        }
    }
    Some(l)
}

/// L x.
pub fn times(l: &[f64], x: &[f64]) -> Vec<f64> {
    let n = x.len();
    (0..n)
        .map(|row| (0..=row).map(|at| l[row * n + at] * x[at]).sum())
        .collect()
}

/// The y with L y = b.
pub fn forward(l: &[f64], b: &[f64]) -> Vec<f64> {
    let n = b.len();
    let mut y = vec![0.0; n];
    for row in 0..n {
        let known: f64 = (0..row).map(|at| l[row * n + at] * y[at]).sum();
        y[row] = (b[row] - known) / l[row * n + row];
    }
    y
}

/// The x with L L^T x = b.
pub fn solve(l: &[f64], b: &[f64]) -> Vec<f64> {
    let n = b.len();
    let mut x = forward(l, b);
    for row in (0..n).rev() {
        let known: f64 = (row + 1..n).map(|at| l[at * n + row] * x[at]).sum();
        x[row] = (x[row] - known) / l[row * n + row];
    }
    x
}

/// The inverse of L L^T.
pub fn inverse(l: &[f64], n: usize) -> Vec<f64> {
    let mut all = vec![0.0; n * n];
    for column in 0..n {
        let mut unit = vec![0.0; n];
        unit[column] = 1.0;
        for (row, value) in solve(l, &unit).into_iter().enumerate() {
            all[row * n + column] = value;
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::{inverse, lower, times};

    #[test]
    fn hilberts_matrix_has_whole_numbers_for_its_inverse() {
        // 3 by 3: 9 -36 30, -36 192 -180, 30 -180 180 (any textbook).
        let n = 3;
        let a: Vec<f64> = (0..9)
            .map(|at| 1.0 / ((at / n + at % n + 1) as f64))
            .collect();
        let l = lower(&a, n).expect("positive");
        let wanted = [9.0, -36.0, 30.0, -36.0, 192.0, -180.0, 30.0, -180.0, 180.0];
        for (one, other) in inverse(&l, n).iter().zip(wanted) {
            assert!((one - other).abs() < 1e-9, "{one} {other}");
        }
        assert!((times(&l, &[1.0, 0.0, 0.0])[1] - 0.5).abs() < 1e-15);
    }

    #[test]
    fn what_is_not_positive_has_none() {
        assert_eq!(lower(&[1.0, 2.0, 2.0, 1.0], 2), None);
        assert_eq!(lower(&[1.0, 2.0], 2), None);
        assert_eq!(lower(&[f64::NAN], 1), None);
    }
}
