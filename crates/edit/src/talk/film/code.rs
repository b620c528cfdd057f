//! The names of everything that is said about the papers of a film.

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
    /// Colours, places on the screen and notes, which are not kept.
    TRACK_MARKS_LEFT_OUT = could_print("track-marks-left-out");
    /// A talk without times: no captions and no chapters.
    TALK_WITHOUT_TIMES = could_print("talk-without-times");
    /// A caption that is read in time only by quick readers.
    CAPTION_FAST = could_print("caption-fast");
    /// A caption that most readers do not finish.
    CAPTION_TOO_FAST = look_print("caption-too-fast");
    /// Fewer chapters than hosts show.
    CHAPTERS_TOO_FEW = could_print("chapters-too-few");
    /// The cards of a scene want more seconds than the scene has.
    CARDS_WITHOUT_ROOM = could_print("cards-without-room");
}
