//! Transcendental functions that give the same bits on every machine.
//!
//! The standard library's `exp`, `ln` and `powf` may differ by platform; these are the pure-Rust
//! routines of the `libm` crate (a port of musl's), and every crate below `app` uses only them.

/// e to the power `x`.
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// Natural logarithm of `x`.
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// Decimal logarithm of `x`.
pub fn log10(x: f64) -> f64 {
    libm::log10(x)
}

/// `base` to the power `exponent`.
pub fn pow(base: f64, exponent: f64) -> f64 {
    libm::pow(base, exponent)
}

/// `base` to the power of ten: 10^`x`.
pub fn exp10(x: f64) -> f64 {
    libm::exp10(x)
}

/// Sine of an angle in radians.
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// Cosine of an angle in radians.
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Cube root of `x`.
pub fn cbrt(x: f64) -> f64 {
    libm::cbrt(x)
}

/// One less the error function of `x`.
pub fn erfc(x: f64) -> f64 {
    libm::erfc(x)
}

/// Natural logarithm of the gamma function of `x`, `x` above 0.
pub fn ln_gamma(x: f64) -> f64 {
    libm::lgamma(x)
}
