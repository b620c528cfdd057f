//! The names of everything that can be said about a filming day.

use recipe::source::Code;

/// Declares codes and the list of all of them.
macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $make:ident($text:literal);)*) => {
        $($(#[$doc])* pub const $name: Code = Code::$make($text);)*
        /// Every code of a filming day.
        pub const ALL: &[Code] = &[$($name),*];
    };
}

codes! {
    /// A state that the recipe never comes to.
    SCENE_STATE_UNKNOWN = mend_bake("scene-state-unknown");
    /// A scene that begins before the one above it.
    SCENES_OUT_OF_ORDER = mend_bake("scenes-out-of-order");
    /// A scene that begins before the one above it is over and set up anew.
    SCENES_OVERLAP = mend_bake("scenes-overlap");
    /// Nothing says when the day begins.
    FIRST_CALL_UNKNOWN = look_bake("first-call-unknown");
    /// A scene shows work and, from its first minute, what that work ends in.
    MADE_IN_SCENE = look_bake("made-in-scene");
    /// A scene that runs into the meal.
    SCENE_IN_MEAL = look_bake("scene-in-meal");
    /// A dough is said to stand before the camera for longer than its scene lasts.
    STANDS_PAST_SCENE = look_bake("stands-past-scene");
    /// A dough stands before the camera longer than it keeps.
    SCENE_LONGER_THAN_HOLD = look_bake("scene-longer-than-hold");
    /// After a hold in the refrigerator a dough rises longer or shorter than is usual.
    HOLD_CHANGES_RISE = could_bake("hold-changes-rise");
    /// A state that no batch of the day can have come to so early.
    STATE_NOT_READY = mend_bake("state-not-ready");
    /// One mixer cannot make the doughs in time.
    MIXER_NOT_FREE = mend_bake("mixer-not-free");
    /// The search ended before it was sure that fewer batches cannot do.
    FEWEST_NOT_PROVEN = could_bake("fewest-not-proven");
    /// The oven is taken, or still at another temperature, when a bread must go in.
    OVEN_NOT_FREE = look_bake("oven-not-free");
    /// The oven is opened while bread is in it.
    OVEN_OPENED = could_bake("oven-opened");
    /// More stands in the refrigerator at once than it has shelves.
    SHELVES_TOO_FEW = look_bake("shelves-too-few");
    /// More is to be done at once than there are hands beside the camera.
    HANDS_TOO_FEW = look_bake("hands-too-few");
    /// Work with a dough falls into the meal.
    WORK_IN_MEAL = look_bake("work-in-meal");
    /// A long day without a meal, or with one that comes late.
    MEAL_LATE = look_bake("meal-late");
    /// A meal before everybody comes, or after all is cleared away.
    MEAL_OUTSIDE_DAY = look_bake("meal-outside-day");
    /// Work with a dough falls into the night.
    WORK_AT_NIGHT = look_bake("work-at-night");
    /// A zone that the zone database does not have.
    ZONE_UNKNOWN = mend_bake("zone-unknown");
}
