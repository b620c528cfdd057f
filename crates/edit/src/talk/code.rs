//! The names of everything that is said about a talk that does not go with its recipe.

use recipe::source::Code;

/// Declares codes and the list of all of them.
macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $make:ident($text:literal);)*) => {
        $($(#[$doc])* pub const $name: Code = Code::$make($text);)*
        /// Every code of this module.
        pub const ALL: &[Code] = &[$($name),*];
    };
}

codes! {
    /// Another amount is said than the recipe has.
    TALK_AMOUNT_DIFFERS = mend_bake("talk-amount-differs");
    /// Another temperature is said than the recipe has.
    TALK_HEAT_DIFFERS = look_bake("talk-heat-differs");
    /// Another time is said than the recipe has.
    TALK_TIME_DIFFERS = mend_bake("talk-time-differs");
    /// Another number of things is said than the recipe has.
    TALK_COUNT_DIFFERS = mend_bake("talk-count-differs");
    /// Another size is said than the recipe has.
    TALK_SIZE_DIFFERS = look_bake("talk-size-differs");
    /// Something is said to go in melted, soft or cold that goes in otherwise.
    TALK_STATE_DIFFERS = mend_bake("talk-state-differs");
    /// Another look is said to end a step than the recipe's.
    TALK_SIGN_DIFFERS = look_bake("talk-sign-differs");
    /// Something is said when it is too late to do it.
    TALK_SAYS_TOO_LATE = look_bake("talk-says-too-late");
    /// Something is said in another order, or of another stage, than the recipe has it.
    TALK_ORDER_DIFFERS = mend_bake("talk-order-differs");
    /// Something is said against the usual caution.
    TALK_AGAINST_CAUTION = mend_bake("talk-against-caution");
    /// The talk is in another language.
    TALK_NOT_ENGLISH = look_print("talk-not-english");
    /// The talk says one thing in two ways.
    TALK_CONTRADICTS_ITSELF = look_bake("talk-contradicts-itself");
    /// Something that goes in is never named.
    TALK_NEVER_NAMES = look_bake("talk-never-names");
    /// An amount, a time, a temperature or a step that is never said.
    TALK_LEAVES_OUT = could_bake("talk-leaves-out");
    /// A claim that needs a source or a softer word.
    TALK_CLAIM_WITHOUT_SOURCE = look_print("talk-claim-without-source");
    /// The allergens are not said.
    TALK_ALLERGENS_UNSAID = look_bake("talk-allergens-unsaid");
    /// A caution that the recipe calls for is not said.
    TALK_CAUTION_UNSAID = could_bake("talk-caution-unsaid");
    /// Hardly a figure of the talk is one of the recipe's.
    TALK_OF_ANOTHER_RECIPE = mend_bake("talk-of-another-recipe");
}
