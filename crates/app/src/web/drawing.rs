//! A figure set into a page: its names made its own, so that several can stand on one.

use maud::{Markup, PreEscaped, html};

/// The drawing, number so and so on its page.
pub fn set(svg: &str, number: usize) -> Markup {
    let mine = format!("drawing-{number}-");
    let own = svg
        .trim()
        .replace("id=\"", &format!("id=\"{mine}"))
        .replace("url(#", &format!("url(#{mine}"))
        .replace("href=\"#", &format!("href=\"#{mine}"))
        .replace(
            "aria-labelledby=\"title about\"",
            &format!("aria-labelledby=\"{mine}title {mine}about\""),
        );
    html! { div.drawing { (PreEscaped(own)) } }
}

#[cfg(test)]
mod tests {
    use super::set;

    #[test]
    fn every_name_and_what_points_at_it_is_made_its_own() {
        let svg = r#"<svg aria-labelledby="title about"><title id="title">a</title><pattern id="p"/><rect fill="url(#p)"/></svg>"#;
        let two = set(svg, 2).into_string();
        for part in [
            "aria-labelledby=\"drawing-2-title drawing-2-about\"",
            "id=\"drawing-2-title\"",
            "id=\"drawing-2-p\"",
            "url(#drawing-2-p)",
        ] {
            assert!(two.contains(part), "{part} in {two}");
        }
    }
}
