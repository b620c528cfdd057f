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

    #[test]
    fn colours_come_from_the_palette_and_nothing_is_fetched() {
        for banned in ["#", "rgb(", "url(", "@import", "@font-face", "http"] {
            assert!(!RULES.contains(banned), "{banned}");
        }
    }

    #[test]
    fn figures_have_one_size_of_their_own_and_it_is_never_below_40_px() {
        let sizes: std::collections::BTreeSet<_> = RULES
            .lines()
            .flat_map(|line| line.split("font-size: ").skip(1))
            .filter_map(|rest| rest.split(';').next())
            .collect();
        let sizes: Vec<_> = sizes.into_iter().collect();
        assert_eq!(sizes, ["1rem", "var(--huge)", "var(--small)"]);
        assert!(RULES.contains("--huge: max(40px, "));
    }
}
