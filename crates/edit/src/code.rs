//! The names of everything that the editor says about a recipe that could be read and worked out.

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
    /// The written times come to more than title or film promise.
    PROMISE_NOT_KEPT = mend_print("promise-not-kept");
    /// The promise counts the day of the bake alone, and nothing before the recipe says so.
    PROMISE_LEAVES_OUT_THE_NIGHT = look_print("promise-leaves-out-the-night");
    /// By the slow end of the written ranges the promise does not hold.
    PROMISE_TIGHT = could_print("promise-tight");
    /// A step needs a tool that the recipe promises to do without.
    PROMISED_TOOL_NEEDED = mend_print("promised-tool-needed");
    /// A promise that the steps cannot show to be kept or broken.
    PROMISE_NOT_CHECKED = could_print("promise-not-checked");

    /// Nobody is named as its author.
    AUTHOR_MISSING = look_print("author-missing");
    /// It has no version.
    VERSION_MISSING = could_print("version-missing");
    /// It has no date of publication.
    DATE_MISSING = look_print("date-missing");
    /// Nothing is said before the recipe.
    HEADNOTE_MISSING = could_print("headnote-missing");
    /// Nothing is said of how the bread keeps.
    STORAGE_MISSING = look_print("storage-missing");
    /// Nothing is said of what can be done beforehand.
    MAKE_AHEAD_MISSING = could_print("make-ahead-missing");
    /// It is not said for how many people it is.
    SERVES_MISSING = could_print("serves-missing");
    /// The bread for each person is far from a usual portion.
    SERVES_UNUSUAL = could_print("serves-unusual");
    /// No test bake is noted.
    NEVER_TESTED = look_print("never-tested");
    /// Fewer than three test bakes, or all by one person in one kitchen.
    TESTED_LITTLE = could_print("tested-little");
    /// A photograph without words for whoever cannot see it.
    PHOTO_WITHOUT_WORDS = look_print("photo-without-words");
    /// No photograph at all.
    PHOTO_NONE = could_print("photo-none");
    /// A film without its date or its still.
    FILM_INCOMPLETE = could_print("film-incomplete");
    /// A sponsor is named, but not what came from them.
    SPONSOR_GIFT_UNSAID = look_print("sponsor-gift-unsaid");
    /// The disclosure of a sponsor did not reach the page.
    SPONSOR_UNDISCLOSED = mend_print("sponsor-undisclosed");
    /// The mass of a product after the bake is not given.
    BAKED_MASS_MISSING = could_print("baked-mass-missing");
    /// The mass after the bake is not below the mass before it by a usual share.
    BAKED_MASS_UNLIKELY = look_print("baked-mass-unlikely");
    /// It is not said how long a product cools.
    COOLING_MISSING = look_print("cooling-missing");

    /// The middle of the bread is taken from the oven before its crumb has set.
    CORE_TOO_LOW = mend_bake("core-too-low");
    /// A lean loaf taken out with a damp middle.
    CORE_LOW_FOR_LEAN = look_bake("core-low-for-lean");
    /// A target so near the boiling point of water here that it is late or never reached.
    CORE_NEAR_BOILING = look_bake("core-near-boiling");
    /// A dial in °C that is a usual figure in °F.
    OVEN_LOOKS_LIKE_FAHRENHEIT = mend_bake("oven-looks-like-fahrenheit");
    /// A dial hotter than most household ovens go.
    OVEN_VERY_HOT = look_bake("oven-very-hot");
    /// Nothing says that the oven is heated.
    PREHEAT_MISSING = look_bake("preheat-missing");
    /// The oven has less time to heat than ovens need.
    PREHEAT_SHORT = look_bake("preheat-short");
    /// The oven is heated to one figure and the bake begins at another.
    PREHEAT_DIFFERS = look_bake("preheat-differs");
    /// The wait during which the oven heats is shorter than the heating.
    PREHEAT_LONGER_THAN_WAIT = look_bake("preheat-longer-than-wait");
    /// A bake of uncertain length that does not say when to look for the first time.
    BAKE_WITHOUT_CHECK = look_bake("bake-without-check");
    /// The first look comes after the bread may be done.
    CHECK_TOO_LATE = look_bake("check-too-late");
    /// Nothing but the clock tells when a bake is over.
    BAKE_WITHOUT_CUE = look_bake("bake-without-cue");
    /// A mould that may crack goes from the refrigerator into the hot oven.
    COLD_GLASS_IN_HOT_OVEN = look_bake("cold-glass-in-hot-oven");

    /// A rise or a bake with one time only.
    TIME_WITHOUT_RANGE = look_print("time-without-range");
    /// A range so wide that it says little, and nothing else to go by.
    RANGE_TOO_WIDE = look_print("range-too-wide");

    /// Egg or milk dough is warm for more than four hours before a full bake.
    WARM_OVER_FOUR_HOURS = could_bake("warm-over-four-hours");
    /// Egg or milk dough is warm for too long.
    WARM_TOO_LONG = look_bake("warm-too-long");
    /// A filling with egg, milk or cream is warm for too long.
    FILLING_WARM_TOO_LONG = mend_bake("filling-warm-too-long");
    /// A dough with butter rises where butter melts.
    RISE_TOO_WARM_FOR_BUTTER = look_bake("rise-too-warm-for-butter");
    /// So much sugar that an ordinary yeast is slow.
    SUGAR_SLOWS_YEAST = could_bake("sugar-slows-yeast");
    /// So much sugar that a yeast for sweet doughs is wanted.
    SUGAR_WANTS_OTHER_YEAST = look_bake("sugar-wants-other-yeast");

    /// A tin of which the volume is not given.
    TIN_WITHOUT_VOLUME = look_print("tin-without-volume");
    /// The volume of a tin does not fit its dimensions.
    TIN_SIZE_AND_VOLUME_DIFFER = look_print("tin-size-and-volume-differ");
    /// Flour without its protein.
    FLOUR_WITHOUT_PROTEIN = could_print("flour-without-protein");
    /// Butter of which it is not said whether it is salted.
    BUTTER_SALT_UNSAID = look_print("butter-salt-unsaid");

    /// Salt by the spoon of no kind.
    SALT_KIND_UNSAID = look_bake("salt-kind-unsaid");
    /// Two sugars under one name.
    SUGARS_CALLED_ALIKE = look_print("sugars-called-alike");

    /// Saturated and trans fat of a row that dates from hydrogenated oils.
    FAT_BY_PACK = look_print("fat-by-pack");

    /// A film whose address is none on the web.
    FILM_ADDRESS_NO_LINK = mend_print("film-address-no-link");
    /// A letter that the page's typefaces do not hold.
    GLYPH_MISSING = mend_print("glyph-missing");
    /// A photograph that is named and not found.
    PHOTO_MISSING = look_print("photo-missing");
    /// A photograph that is a link out of the recipe's folder.
    PHOTO_LEADS_OUTSIDE = look_print("photo-leads-outside");

    /// A figure in the author's words contradicts the recipe's own.
    WORDS_CONTRADICT_FIGURE = mend_print("words-contradict-figure");
    /// A figure stands in words alone, where the recipe should hold it.
    FIGURE_WITHOUT_A_PLACE = look_print("figure-without-a-place");
    /// Title, headnote or notes count otherwise than the recipe makes.
    COUNT_DIFFERS = mend_print("count-differs");
    /// A photograph is said to show another number than is made.
    PHOTO_COUNT_DIFFERS = could_print("photo-count-differs");
    /// A sentence sends the reader to a step that is not there.
    STEP_NOT_THERE = mend_print("step-not-there");

    /// The two scales of a written temperature do not say the same.
    SCALES_DISAGREE = mend_print("scales-disagree");
    /// A temperature in words stands on one scale alone.
    HEAT_ON_ONE_SCALE = look_print("heat-on-one-scale");
    /// A temperature in words without its degree sign.
    DEGREE_SIGN_MISSING = could_print("degree-sign-missing");
    /// A dial that no oven can be set to.
    OVEN_OFF_THE_DIAL = could_print("oven-off-the-dial");

    /// "till" in place of "until".
    TILL_FOR_UNTIL = could_print("till-for-until");
    /// A unit in words is written otherwise than the page writes it.
    UNIT_WRITTEN_OTHERWISE = could_print("unit-written-otherwise");
    /// A figure that begins with its decimal point.
    DECIMAL_WITHOUT_ZERO = look_bake("decimal-without-zero");
    /// A fraction with a stroke.
    FRACTION_WITH_STROKE = could_print("fraction-with-stroke");
    /// A sentence that begins with a figure.
    FIGURE_BEGINS_SENTENCE = could_print("figure-begins-sentence");
    /// Ranges with a dash here and "to" there.
    RANGES_TWO_WAYS = could_print("ranges-two-ways");
    /// A cup or spoon in words without grams or millilitres.
    MEASURE_WITHOUT_MASS = look_print("measure-without-mass");

    /// A step of more words than can be kept in mind.
    STEP_LONG = could_print("step-long");
    /// A step of more things to do than the house style allows.
    STEP_MANY_ACTIONS = could_print("step-many-actions");
    /// A step that does not begin with its verb, where the house style wants it.
    STEP_OPENING = could_print("step-opening");
    /// An instruction that names nobody who does it.
    STEP_IN_PASSIVE = could_print("step-in-passive");
    /// One thing under two names.
    TWO_WORDS_FOR_ONE = could_print("two-words-for-one");
    /// Sentences of which half are too long to be read aloud.
    SENTENCES_LONG = could_print("sentences-long");
    /// A word of the trade that is not explained.
    JARGON_UNEXPLAINED = could_print("jargon-unexplained");
    /// A cue that names nothing to see, feel or hear.
    CUE_SAYS_NOTHING = look_print("cue-says-nothing");

    /// A list of allergens in words that is not the one of the ingredients.
    ALLERGENS_DIFFER = mend_print("allergens-differ");
    /// "Free of" something that is in it.
    CLAIM_AGAINST_INGREDIENTS = mend_print("claim-against-ingredients");
    /// A claim that the list of ingredients cannot show.
    CLAIM_NOT_SUPPORTED = look_print("claim-not-supported");
    /// Something told as a fact without who says so.
    CLAIM_WITHOUT_SOURCE = look_print("claim-without-source");
    /// Advice to taste raw dough.
    RAW_DOUGH_TASTED = mend_bake("raw-dough-tasted");
    /// Flour heated at home and held for safe.
    FLOUR_HEATED_AT_HOME = look_bake("flour-heated-at-home");

    /// A list in another order than its steps.
    ITEMS_OUT_OF_ORDER = look_print("items-out-of-order");
    /// The lighter before the heavier of one step, where the house style wants it otherwise.
    HEAVIER_ITEM_LATER = could_print("heavier-item-later");
    /// A mass finer than it can be weighed.
    FALSE_PRECISION = look_print("false-precision");
    /// A measure for which there is no cup or spoon.
    MEASURE_UNMEASURABLE = look_print("measure-unmeasurable");
    /// A printed measure that does not weigh what the list says.
    MEASURE_MISSES_MASS = look_print("measure-misses-mass");
    /// Cups and spoons of which only a table says the mass.
    MASS_FROM_TABLES = could_print("mass-from-tables");
    /// A cup of something prepared, filled before or after.
    BEFORE_OR_AFTER = look_print("before-or-after");
    /// A liquid or egg without its temperature, where the dough's own is wanted.
    TEMPERATURE_NOT_SAID = look_bake("temperature-not-said");
    /// Active dry yeast that is never woken.
    YEAST_NOT_TRIED = look_bake("yeast-not-tried");

    /// A sentence takes something that no list has.
    INGREDIENT_NOT_LISTED = look_bake("ingredient-not-listed");
    /// A sentence and the list have a thing in two states.
    STATE_CONTRADICTS_STEP = mend_bake("state-contradicts-step");
    /// A filling of which no step says when it goes in.
    STAGE_NOT_NAMED = look_print("stage-not-named");

    /// A step that cannot come where it stands.
    STEP_BEFORE_ITS_TIME = mend_bake("step-before-its-time");
    /// Something takes time beforehand, and nothing says when to begin.
    LEAD_NOT_SAID = look_bake("lead-not-said");
    /// A night that nothing announces.
    NIGHT_NOT_SAID = look_print("night-not-said");
    /// The dough rises in the oven that is heated meanwhile.
    OVEN_RISES_AND_HEATS = mend_bake("oven-rises-and-heats");
    /// Film or cloth in an oven in which dough rises.
    COVER_IN_THE_OVEN = look_bake("cover-in-the-oven");
    /// A tin that nobody greases or lines.
    TIN_NOT_READY = look_bake("tin-not-ready");
    /// Pieces that wait for the oven longer than their rise allows.
    PIECE_WAITS_TOO_LONG = look_bake("piece-waits-too-long");
    /// Storage without days, or freezing without its temperature.
    STORAGE_VAGUE = look_print("storage-vague");

    /// A wish that does not say what stands for what.
    SWAP_UNREADABLE = mend_bake("swap-unreadable");
    /// A wish about something that the recipe does not have.
    SWAP_FINDS_NOTHING = mend_bake("swap-finds-nothing");
    /// A swap after which it would be another bread.
    SWAP_CANNOT_KEEP = mend_bake("swap-cannot-keep");
    /// A yeast that must wake in liquid, where there is no liquid.
    SWAP_WITHOUT_LIQUID = mend_bake("swap-without-liquid");
}
