//! The names of everything that can be said about a day.

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
    /// A bread is wanted before the day begins.
    WANTED_IN_THE_PAST = mend_bake("wanted-in-the-past");
    /// A bread is wanted that no recipe of the day makes.
    WANTED_BREAD_UNKNOWN = mend_bake("wanted-bread-unknown");
    /// A product needs more of a tin at once than there are.
    TINS_NOT_THERE = mend_bake("tins-not-there");
    /// A dough needs more places at once than there are.
    PLACES_NOT_THERE = mend_bake("places-not-there");
    /// What is wanted cannot all be had; the nearest plan is given.
    WISHES_CONFLICT = look_bake("wishes-conflict");
    /// The day cannot be planned at all.
    DAY_IMPOSSIBLE = mend_bake("day-impossible");
    /// No plan was found within the time that was given.
    DAY_NOT_FOUND = mend_bake("day-not-found");
    /// Baked in the machine as it is planned, a dough is not risen or past its best.
    PLAN_DOES_NOT_HOLD = look_bake("plan-does-not-hold");
    /// A rise is planned for a time that lies outside the written one.
    PLANNED_OTHERWISE = look_bake("planned-otherwise");
    /// The sign of a rise or a chill does not come in this kitchen.
    SIGN_DOES_NOT_COME = look_bake("sign-does-not-come");
    /// In this kitchen, on this day, the recipe takes longer than it promises.
    PROMISE_NOT_KEPT_HERE = look_bake("promise-not-kept-here");
    /// What is said to be done is no step of the recipe.
    DONE_STEP_UNKNOWN = mend_bake("done-step-unknown");
    /// What is done comes after work that nobody named and whose time had not come.
    DONE_WITH_IT = could_bake("done-with-it");
    /// What is said to be done could be several things; by the plan it is taken as these.
    DONE_TAKEN_AS = could_bake("done-taken-as");
    /// A dough has stood past its best before what was done with it.
    DOUGH_HAS_STOOD = look_bake("dough-has-stood");
    /// The sign of a dough comes while nobody is there, and it stands past its best.
    HANDS_AWAY = look_bake("hands-away");
    /// A rest ends a little before its sign, because nobody could come at it.
    ENDED_BEFORE_ITS_SIGN = could_bake("ended-before-its-sign");
    /// It is earlier than the day begins.
    NOW_BEFORE_THE_DAY = look_bake("now-before-the-day");
    /// A dough is said to read what no dough reads after its mix.
    DOUGH_READING_UNLIKELY = look_bake("dough-reading-unlikely");
}
