//! The frame of the bench: no tabs and no margin, one screen for one hand.

use crate::web::script::Script;
use crate::web::shell::{Frame, Shell, framed};
use axum::response::Response;
use maud::Markup;

/// The bench's own rules; they are the only ones with large type.
pub const RULES: &str = include_str!("../../../assets/bench.css");

/// A whole page of the bench.
pub fn page(title: &str, main: &Markup) -> Response {
    let frame = Frame {
        document: Some("at-bench"),
        body: "bench",
        rules: Some("/bench.css"),
    };
    framed(&Shell::titled(title).with(&[Script::Bench]), &frame, main)
}

#[cfg(test)]
mod tests {
    use super::RULES;
    use crate::web::shell::tests::{no_colour_and_nothing_fetched, sizes_of_type};

    #[test]
    fn colours_come_from_the_palette_and_nothing_is_fetched() {
        no_colour_and_nothing_fetched(RULES);
    }

    #[test]
    fn figures_have_one_size_of_their_own_and_it_is_never_below_40_px() {
        let sizes = sizes_of_type(RULES);
        assert_eq!(sizes, ["1rem", "var(--huge)", "var(--small)"]);
        assert!(RULES.contains("--huge: max(40px, "));
    }
}
