//! The trade's factor method for water: a second, published way beside the balance.
//!
//! # Relation
//! `T_w` = n `T_d` - sum of `T_i` - F, and back: F = n `T_d` - sum of `T_i` - `T_w`.
//!
//! # Symbols
//! `T_w`, water; `T_d`, dough; `T_i`, the other n - 1 temperatures (room, flour, preferment); F, friction
//! factor: n times the rise that mixing gives. All in degrees of one scale.
//!
//! # Valid for
//! Doughs of about the composition for which F was found; it knows neither masses nor bowl.
//!
//! # Source
//! Trade articles on dough temperature: pmq.com, spring 2003; Pizza Today, June 2018, page 29
//! (both read). The older rule "240" is n `T_d` with `T_d` = 80 °F and n = 3.
//!
//! # Departures
//! None. It is not used for answers; it stands here to be compared with the balance.
//!
//! # Checked by
//! `tests/verification/mix.rs`: four printed examples, and the balance beside it.

/// What the water must read, in the scale of the others.
pub fn water(dough: f64, others: &[f64], friction: f64) -> f64 {
    (others.len() + 1) as f64 * dough - others.iter().sum::<f64>() - friction
}

/// The friction factor that a measured dough shows.
pub fn friction(dough: f64, others: &[f64], water: f64) -> f64 {
    (others.len() + 1) as f64 * dough - others.iter().sum::<f64>() - water
}

/// Where the dough ends.
pub fn dough(others: &[f64], water: f64, friction: f64) -> f64 {
    (others.iter().sum::<f64>() + water + friction) / (others.len() + 1) as f64
}
