//! How long a dough is worked by hand that is written for a mixer.

/// Stirring until no flour is dry, minutes (common practice).
pub const STIR_MIN: i32 = 5;
/// The rest after it, minutes (common practice).
pub const REST_MIN: i32 = 15;
/// Slapping and folding, from and to, minutes (common practice).
pub const FOLD_MIN: (i32, i32) = (10, 15);
/// Smearing soft butter in, minutes (common practice).
pub const BUTTER_MIN: i32 = 10;
/// All of it, minutes: as long as a day must leave room for.
pub const fn minutes(much_butter: bool) -> i32 {
    let butter = if much_butter { BUTTER_MIN } else { 0 };
    STIR_MIN + REST_MIN + FOLD_MIN.1 + butter
}
