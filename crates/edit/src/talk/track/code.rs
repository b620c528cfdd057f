//! The names of everything that is said about a file with a talk or with captions.

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
    /// There is not a word in the file.
    TRACK_EMPTY = mend_print("track-empty");
    /// The file is a film, a picture or another file that holds no text.
    TRACK_NOT_TEXT = mend_print("track-not-text");
    /// Which encoding the file is in had to be guessed.
    TRACK_ENCODING_GUESSED = look_print("track-encoding-guessed");
    /// The file is in UTF-16, where players want UTF-8.
    TRACK_ENCODING_OTHER = could_print("track-encoding-other");
    /// A time code that cannot be read.
    TIME_CODE_UNREADABLE = mend_print("time-code-unreadable");
    /// A time code that is written otherwise than its kind of file wants it.
    TIME_CODE_OTHERWISE = could_print("time-code-otherwise");
    /// A cue that is over before it begins.
    CUE_ENDS_BEFORE_START = mend_print("cue-ends-before-start");
    /// Two cues at once.
    CUES_OVERLAP = look_print("cues-overlap");
    /// A cue that begins before the one above it.
    CUES_OUT_OF_ORDER = look_print("cues-out-of-order");
    /// Minutes in which nothing is said.
    LONG_SILENCE = look_print("long-silence");
    /// Words that stand under no time code, in a file that has time codes.
    WORDS_WITHOUT_TIME = could_print("words-without-time");
    /// Each cue says the line before it once more.
    CAPTIONS_ROLL = could_print("captions-roll");
}
