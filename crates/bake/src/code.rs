//! The names of everything that can be said about a mix or a kitchen.

use recipe::source::Code;

/// Declares codes and the list of all of them.
macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $make:ident($text:literal);)*) => {
        $($(#[$doc])* pub const $name: Code = Code::$make($text);)*
        /// Every code of this crate.
        pub const ALL: &[Code] = &[$($name),*];
    };
}

codes! {
    /// No temperature that the liquid can have brings the dough to where it is wanted.
    LIQUID_CANNOT_REACH_TARGET = mend_bake("liquid-cannot-reach-target");
    /// The liquid is written hotter than its yeast bears.
    LIQUID_TOO_HOT_FOR_YEAST = mend_bake("liquid-too-hot-for-yeast");
    /// In a cold bowl the waking liquid settles below the yeast's band.
    YEAST_SETTLES_TOO_COLD = look_bake("yeast-settles-too-cold");
    /// In a warm bowl the waking liquid settles above the yeast's band.
    YEAST_SETTLES_TOO_HOT = mend_bake("yeast-settles-too-hot");
    /// With the liquid as written the dough ends somewhere else than written.
    WRITTEN_LIQUID_MISSES_TARGET = look_bake("written-liquid-misses-target");
    /// Nothing is named to be adjusted, and the dough ends somewhere else than written.
    DOUGH_MISSES_TARGET = look_bake("dough-misses-target");
    /// A dough with much butter ends so warm that the butter oils out.
    DOUGH_TOO_WARM_FOR_BUTTER = look_bake("dough-too-warm-for-butter");
    /// The dough does not fit the bowl.
    BOWL_TOO_SMALL = look_bake("bowl-too-small");
    /// More flour than the bowl's maker allows.
    FLOUR_ABOVE_BOWL = look_bake("flour-above-bowl");
    /// The kitchen says where something is kept that nobody knows.
    STORE_UNKNOWN = look_bake("store-unknown");
    /// A relation is used outside the range it was found for.
    RELATION_OUTSIDE_ITS_RANGE = look_bake("relation-outside-its-range");
}
