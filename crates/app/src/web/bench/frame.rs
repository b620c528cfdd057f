//! The frame of the bench: no tabs and no margin, one screen for one hand.

use crate::web::script::Script;
use axum::http::header;
use axum::response::{Html, IntoResponse, Response};
use maud::{DOCTYPE, Markup, html};

/// The bench's own rules; they are the only ones with large type.
pub const RULES: &str = include_str!("../../../assets/bench.css");

/// Seconds after which a page without script asks again.
const AGAIN_S: u32 = 60;

/// A whole page of the bench. `live`: whether timers run on it.
pub fn page(title: &str, live: bool, main: &Markup) -> Response {
    let document = html! {
        (DOCTYPE)
        html.at-bench lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) " · everyoven" }
                link rel="icon" href="/icon.svg" type="image/svg+xml";
                link rel="stylesheet" href="/style.css";
                link rel="stylesheet" href="/bench.css";
                @if live {
                    noscript { meta http-equiv="refresh" content=(AGAIN_S); }
                }
                script type="module" src=(Script::Bench.address()) {}
            }
            body.desk.bench { (main) }
        }
    };
    (
        [(header::CACHE_CONTROL, "no-store")],
        Html(document.into_string()),
    )
        .into_response()
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
