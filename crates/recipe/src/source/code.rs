//! The names of everything that can be said about a written recipe or kitchen.

use super::Code;

/// Declares codes and the list of all of them.
macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $make:ident($text:literal);)*) => {
        $($(#[$doc])* pub const $name: Code = Code::$make($text);)*
        /// Every code of this crate.
        pub const ALL: &[Code] = &[$($name),*];
    };
}

codes! {
    /// There is nothing in the file.
    FILE_EMPTY = mend_bake("file-empty");
    /// The file is larger than any recipe.
    FILE_TOO_LARGE = mend_bake("file-too-large");
    /// The bytes are not UTF-8.
    TEXT_NOT_UTF8 = mend_bake("text-not-utf8");
    /// The text is not TOML.
    TEXT_UNREADABLE = mend_bake("text-unreadable");
    /// More stages, items or steps than any recipe has.
    TOO_MANY_PARTS = mend_bake("too-many-parts");
    /// `everyoven = 1` is missing.
    FORMAT_MISSING = mend_bake("format-missing");
    /// The file was written for a newer format.
    FORMAT_NEWER = mend_bake("format-newer");
    /// A key that the format does not know; a near miss is named.
    KEY_UNKNOWN = mend_bake("key-unknown");
    /// A reading in a log that says nothing, or two things.
    READING_UNCLEAR = mend_bake("reading-unclear");
    /// A key that must be there is not.
    KEY_MISSING = mend_bake("key-missing");
    /// A value of another kind than its key wants: a list where text is wanted.
    VALUE_WRONG_KIND = mend_bake("value-wrong-kind");
    /// A bare number where a unit is wanted.
    NUMBER_WITHOUT_UNIT = mend_bake("number-without-unit");
    /// Text where a number is wanted, or a number that is none (NaN, infinite).
    NUMBER_UNREADABLE = mend_bake("number-unreadable");
    /// A unit that is not known; a near miss is named.
    UNIT_UNKNOWN = mend_bake("unit-unknown");
    /// A known unit of the wrong sort: 3 °C of flour.
    UNIT_DOES_NOT_FIT = mend_bake("unit-does-not-fit");
    /// Zero or less where something is wanted.
    AMOUNT_NOT_POSITIVE = mend_bake("amount-not-positive");
    /// A value far outside what can be: a room of 300 °C.
    VALUE_OUT_OF_REASON = mend_bake("value-out-of-reason");
    /// A range whose low end is above its high end.
    RANGE_BACKWARDS = mend_bake("range-backwards");
    /// The usual value lies outside its own range.
    RANGE_MISSES_USUAL = look_print("range-misses-usual");
    /// A date that is not in the calendar, or changed before published.
    DATE_IMPOSSIBLE = mend_print("date-impossible");
    /// A word where one of a few is wanted.
    WORD_UNKNOWN = mend_bake("word-unknown");
    /// Two things with one name.
    NAME_TWICE = mend_bake("name-twice");
    /// Two items of one stage that sentences cannot tell apart.
    ITEM_NAME_TWICE = mend_bake("item-name-twice");
    /// No stage at all.
    NO_STAGE = mend_bake("no-stage");
    /// No product at all.
    NO_PRODUCT = mend_bake("no-product");
    /// A product is cut from a stage that is not there.
    PRODUCT_FED_BY_NOTHING = mend_bake("product-fed-by-nothing");
    /// Stages that name each other.
    STAGES_IN_A_CIRCLE = mend_bake("stages-in-a-circle");
    /// A stage is used before it is made.
    STAGE_USED_TOO_EARLY = mend_bake("stage-used-too-early");
    /// A stage that goes nowhere.
    STAGE_NEVER_USED = mend_bake("stage-never-used");
    /// A listed item that no sentence uses.
    ITEM_NEVER_USED = mend_bake("item-never-used");
    /// A placeholder that names nothing in the stage.
    PLACEHOLDER_UNKNOWN = mend_bake("placeholder-unknown");
    /// A bracket that is not closed, or is empty.
    PLACEHOLDER_UNCLOSED = mend_print("placeholder-unclosed");
    /// Parts of an item that do not come to the whole.
    PARTS_DO_NOT_ADD_UP = mend_bake("parts-do-not-add-up");
    /// The whole of an item is used more than once.
    ITEM_USED_TWICE = mend_bake("item-used-twice");
    /// A step that says nothing measurable.
    STEP_WITHOUT_ACTION = mend_bake("step-without-action");
    /// A step that says two things at once.
    STEP_WITH_TWO_ACTIONS = mend_bake("step-with-two-actions");
    /// A rise without words and a measurable end to tell when it is over.
    REST_WITHOUT_CUE = look_bake("rest-without-cue");
    /// A bake of loaves without a tin or tray.
    TIN_MISSING = look_bake("tin-missing");
    /// A name that the larder does not know; near ones are named.
    INGREDIENT_UNKNOWN = mend_bake("ingredient-unknown");
    /// A name that could mean several things.
    INGREDIENT_AMBIGUOUS = look_bake("ingredient-ambiguous");
    /// A cup, spoon or count of something whose weight is not known.
    WEIGHT_UNKNOWN = mend_bake("weight-unknown");
    /// A figure that a sum needs is not known.
    FIGURE_UNKNOWN = look_print("figure-unknown");
    /// A pack entry that contradicts itself: shares above the whole.
    PACK_IMPOSSIBLE = mend_bake("pack-impossible");
    /// The stages hold no flour.
    NO_FLOUR = mend_bake("no-flour");
    /// The pieces want more dough than there is.
    PIECES_EXCEED_DOUGH = mend_bake("pieces-exceed-dough");
    /// More than 4 % of the dough is left when all pieces are cut.
    TRIM_LARGE = look_bake("trim-large");
    /// More of a stage is taken than it comes to.
    STAGE_OVERDRAWN = mend_bake("stage-overdrawn");
    /// More water leaves a stage than it holds.
    EVAPORATES_TOO_MUCH = mend_bake("evaporates-too-much");
    /// Things are counted without their size; the usual size is taken.
    SIZE_NOT_SAID = look_bake("size-not-said");
    /// Salt on flour is unusual for the kind.
    SALT_OUTSIDE_BAND = look_bake("salt-outside-band");
    /// Yeast on flour is unusual for the kind.
    YEAST_OUTSIDE_BAND = look_bake("yeast-outside-band");
    /// Water in all is unusual for the kind.
    WATER_OUTSIDE_BAND = look_bake("water-outside-band");
    /// Fat on flour is unusual for the kind.
    FAT_OUTSIDE_BAND = look_bake("fat-outside-band");
    /// Sugar on flour is unusual for the kind.
    SUGAR_OUTSIDE_BAND = look_bake("sugar-outside-band");
    /// More sugar in the dough's water than a yeast for sweet doughs works well in.
    SUGAR_ON_WATER_HIGH = look_bake("sugar-on-water-high");
    /// Egg on flour is unusual for the kind.
    EGG_OUTSIDE_BAND = look_bake("egg-outside-band");
    /// A tin too small or too large for its dough.
    TIN_OUTSIDE_BAND = look_bake("tin-outside-band");
    /// Prices in more than one currency.
    CURRENCIES_MIXED = mend_print("currencies-mixed");
    /// A price of which the weight bought is not known.
    PRICE_WITHOUT_WEIGHT = look_print("price-without-weight");
    /// A price more than a year older than the newest one.
    PRICE_OLD = could_print("price-old");
    /// A printed total that its printed parts do not come to.
    PRINTED_TOTAL_DIFFERS = mend_print("printed-total-differs");
    /// A printed total that is its parts' sum rounded coarser than they are.
    PRINTED_TOTAL_ROUNDED = could_print("printed-total-rounded");
    /// A printed percentage that its printed mass contradicts.
    PRINTED_PERCENT_DIFFERS = mend_print("printed-percent-differs");
    /// A spoon or cup and a mass of one thing that cannot both be right.
    MEASURE_CONTRADICTS_MASS = mend_print("measure-contradicts-mass");
    /// A wish for another size that could mean several things, or nothing that is there.
    SIZE_WISH_UNCLEAR = mend_bake("size-wish-unclear");
    /// A wish for another size that no dough can fulfil.
    SIZE_WISH_IMPOSSIBLE = mend_bake("size-wish-impossible");
    /// A whole number of eggs where the new size asks for part of one; water is trued up.
    EGGS_MADE_WHOLE = could_bake("eggs-made-whole");
    /// The volume of a tin is reckoned from its dimensions.
    TIN_VOLUME_RECKONED = look_bake("tin-volume-reckoned");
    /// So little or so much dough that hook or heat behave otherwise.
    BATCH_BEHAVES_OTHERWISE = look_bake("batch-behaves-otherwise");
    /// Figures in the author's own words that are for the old size.
    WORDS_FOR_OLD_SIZE = look_print("words-for-old-size");
}
