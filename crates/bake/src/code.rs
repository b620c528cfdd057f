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
    /// No tested bake says anything that the simulator can be held against.
    RECIPE_UNANCHORED = could_bake("recipe-unanchored");
    /// A tested figure of which nobody can tell what it is of.
    TESTED_FIGURE_UNCLEAR = look_bake("tested-figure-unclear");
    /// A tested figure that no believable factor meets.
    TESTED_FIGURE_NOT_MET = look_bake("tested-figure-not-met");
    /// Two tested figures that cannot both be right.
    TESTED_BAKES_DISAGREE = look_bake("tested-bakes-disagree");
    /// A tested figure asks for a factor that nobody would believe.
    ANCHOR_OUTSIDE_RANGE = look_bake("anchor-outside-range");
    /// The factors did not come to rest within the tries.
    ANCHOR_DOES_NOT_SETTLE = look_bake("anchor-does-not-settle");
    /// A bake was tested in a kitchen that is not at hand.
    TESTED_KITCHEN_UNKNOWN = could_bake("tested-kitchen-unknown");
    /// A temperature or height of a kitchen that no kitchen has.
    KITCHEN_OUT_OF_REASON = mend_bake("kitchen-out-of-reason");
    /// The refrigerator is warmer than the room.
    REFRIGERATOR_WARMER_THAN_ROOM = look_bake("refrigerator-warmer-than-room");
    /// An oven in which no crumb sets.
    OVEN_TOO_COLD = mend_bake("oven-too-cold");
    /// A piece that no kitchen oven takes.
    PIECE_TOO_LARGE = look_bake("piece-too-large");
    /// A dough without yeast that is to grow.
    DOUGH_WITHOUT_YEAST = look_bake("dough-without-yeast");
    /// A cue that does not come within the longest time.
    CUE_NEVER_MET = look_bake("cue-never-met");
    /// A dough of which nothing can be worked out.
    DOUGH_NOT_FOLLOWED = look_bake("dough-not-followed");
    /// No ready audience has that name.
    AUDIENCE_UNKNOWN = mend_bake("audience-unknown");
    /// Nothing that differs from kitchen to kitchen has that name.
    VARIABLE_UNKNOWN = mend_bake("variable-unknown");
    /// A variable of which no value can be drawn.
    VARIABLE_IMPOSSIBLE = mend_bake("variable-impossible");
    /// Variables that cannot go with each other as written.
    VARIABLES_CANNOT_GO_TOGETHER = mend_bake("variables-cannot-go-together");
    /// No kitchens, or more than anybody needs.
    NUMBER_OF_KITCHENS = mend_bake("number-of-kitchens");
    /// A reading at a step of which nothing is reckoned.
    READING_OF_NOTHING = look_bake("reading-of-nothing");
    /// A reading in a step that the recipe does not have.
    READING_STEP_UNKNOWN = mend_bake("reading-step-unknown");
    /// Every bake of a log is in the kitchen's figures already, or none has a reading.
    LOG_TEACHES_NOTHING = look_bake("log-teaches-nothing");
    /// A reading that no possible dough of the kitchen has.
    READING_OUT_OF_REACH = look_bake("reading-out-of-reach");
    /// No product of the recipe can be followed to its end.
    NOTHING_TO_JUDGE = mend_bake("nothing-to-judge");
    /// A relation is used outside the range it was found for.
    RELATION_OUTSIDE_ITS_RANGE = look_bake("relation-outside-its-range");
}

/// Those about a dough and the kitchen it is mixed in, with which it can be baked all the same: as warm as it gets, in lots.
pub const OF_THE_MIX: &[Code] = &[LIQUID_CANNOT_REACH_TARGET, BOWL_TOO_SMALL, FLOUR_ABOVE_BOWL];

/// Those that are found when a recipe is followed minute by minute, or held against its tested bakes.
pub const HAPPENS: &[Code] = &[
    RECIPE_UNANCHORED,
    TESTED_FIGURE_UNCLEAR,
    TESTED_FIGURE_NOT_MET,
    TESTED_BAKES_DISAGREE,
    ANCHOR_OUTSIDE_RANGE,
    ANCHOR_DOES_NOT_SETTLE,
    TESTED_KITCHEN_UNKNOWN,
    KITCHEN_OUT_OF_REASON,
    REFRIGERATOR_WARMER_THAN_ROOM,
    OVEN_TOO_COLD,
    PIECE_TOO_LARGE,
    DOUGH_WITHOUT_YEAST,
    CUE_NEVER_MET,
    DOUGH_NOT_FOLLOWED,
];
