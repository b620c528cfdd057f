//! How a number is rounded and written: half away from zero on the decimal digits.

/// Rounds to the nearest multiple of `step`, halves away from zero.
///
/// A value a hair below a half because binary cannot hold it (0.15 / 0.1) counts as the half.
pub fn round_to(value: f64, step: f64) -> f64 {
    if !value.is_finite() || step <= 0.0 {
        return value;
    }
    let steps = value / step;
    let whole = (steps.abs() + 0.5 + 1e-9).floor();
    whole.copysign(steps) * step
}

/// Writes a value with a fixed number of decimals, halves away from zero, never "-0".
///
/// ```
/// assert_eq!(numerics::decimal::fixed(2.345, 2), "2.35");
/// assert_eq!(numerics::decimal::fixed(-0.04, 1), "0.0");
/// ```
pub fn fixed(value: f64, decimals: usize) -> String {
    let mut step = 1.0;
    for _ in 0..decimals {
        step /= 10.0;
    }
    let text = format!("{:.decimals$}", round_to(value, step));
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        _ => text,
    }
}

/// Writes a value with at most a number of decimals and no trailing zeros.
///
/// ```
/// assert_eq!(numerics::decimal::trimmed(17.50, 2), "17.5");
/// assert_eq!(numerics::decimal::trimmed(980.0, 2), "980");
/// ```
pub fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}
