//! The frame of every page: head, way to the contents, main part; and the one style sheet.

use super::script::Script;
use axum::http::header;
use axum::response::{Html, IntoResponse, Response};
use maud::{DOCTYPE, Markup, html};

/// Our rules for forms and lists; the published page's rules and colours stand before them.
const RULES: &str = include_str!("../../assets/web.css");

/// What the frame says.
pub struct Shell<'a> {
    /// Title of the page.
    title: &'a str,
    /// What is wrong with what was sent, so that the title says it first.
    faulty: bool,
    /// Loaded after the page.
    scripts: &'a [Script],
    /// Asked for again after so many seconds where no script does.
    again_s: Option<u32>,
}

impl<'a> Shell<'a> {
    /// With a title.
    pub const fn titled(title: &'a str) -> Self {
        Self {
            title,
            faulty: false,
            scripts: &[],
            again_s: None,
        }
    }

    /// Of a form that came back.
    pub const fn faulty(title: &'a str) -> Self {
        Self {
            title,
            faulty: true,
            scripts: &[],
            again_s: None,
        }
    }

    /// With scripts, which only add to what the page does without.
    pub const fn with(mut self, scripts: &'a [Script]) -> Self {
        self.scripts = scripts;
        self
    }

    /// Asked for again after so many seconds, in a browser without scripts.
    pub const fn again_after(mut self, seconds: u32) -> Self {
        self.again_s = Some(seconds);
        self
    }
}

/// A whole page around its main part.
pub fn page(shell: &Shell, main: &Markup) -> Response {
    let body = html! {
        a.skip href="#main" { "Skip to the page" }
        header.top {
            nav aria-label="Notebook" { a href="/" { "Contents" } }
        }
        main #main tabindex="-1" { (main) }
    };
    framed(shell, &Frame::default(), &body)
}

/// A frame other than that of a page at the desk.
#[derive(Default)]
pub struct Frame {
    /// Class of the whole document.
    pub document: Option<&'static str>,
    /// Class of its body, besides that of the desk.
    pub body: &'static str,
    /// Address of rules of its own.
    pub rules: Option<&'static str>,
}

/// A document with the head of every page, around a body that is given whole.
pub fn framed(shell: &Shell, frame: &Frame, body: &Markup) -> Response {
    let class = format!("desk {}", frame.body);
    let document = html! {
        (DOCTYPE)
        html class=[frame.document] lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title {
                    @if shell.faulty { "To mend: " }
                    (shell.title)
                    " · everyoven"
                }
                link rel="icon" href="/icon.svg" type="image/svg+xml";
                link rel="stylesheet" href="/style.css";
                @if let Some(rules) = frame.rules { link rel="stylesheet" href=(rules); }
                @if let Some(seconds) = shell.again_s {
                    noscript { meta http-equiv="refresh" content=(seconds); }
                }
                @for script in shell.scripts {
                    script type="module" src=(script.address()) {}
                }
            }
            body class=(class.trim_end()) { (body) }
        }
    };
    (
        [(header::CACHE_CONTROL, "no-store")],
        Html(document.into_string()),
    )
        .into_response()
}

/// Parts of a page alone, for a script to put in their places.
pub fn bare(parts: &Markup) -> Response {
    let document = html! {
        (DOCTYPE)
        html lang="en" {
            head { meta charset="utf-8"; title { "Parts" } }
            body { (parts) }
        }
    };
    (
        [(header::CACHE_CONTROL, "no-store")],
        Html(document.into_string()),
    )
        .into_response()
}

/// A sentence about what was done, read out when the page opens.
pub fn done(said: &str) -> Markup {
    html! { p.done role="status" { (said) } }
}

/// The style sheet.
pub fn style() -> String {
    format!("{}\n{RULES}", press::page::style())
}

/// A slice of bread in the two accents' ink: the mark in the browser's tab.
pub fn icon() -> String {
    let ink = press::palette::LIGHT.crust.css();
    html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16" {
            path d="M2 6a3 3 0 0 1 3-3h6a3 3 0 0 1 1.500 5.600V13h-9V8.600A3 3 0 0 1 2 6z"
                fill=(ink) {}
        }
    }
    .into_string()
}

#[cfg(test)]
pub mod tests {
    use super::RULES;

    /// What no sheet of rules has: colours beside the palette, anything fetched.
    pub fn no_colour_and_nothing_fetched(rules: &str) {
        for banned in ["#", "rgb(", "url(", "@import", "@font-face", "http"] {
            assert!(!rules.contains(banned), "{banned}");
        }
    }

    /// The sizes of type of a sheet, each once, in the order of the alphabet.
    pub fn sizes_of_type(rules: &str) -> Vec<&str> {
        let sizes: std::collections::BTreeSet<_> = rules
            .lines()
            .flat_map(|line| line.split("font-size: ").skip(1))
            .filter_map(|rest| rest.split(';').next())
            .collect();
        sizes.into_iter().collect()
    }

    #[test]
    fn colours_come_from_the_palette_and_nothing_is_fetched() {
        no_colour_and_nothing_fetched(RULES);
    }

    #[test]
    fn no_size_of_type_is_added() {
        assert_eq!(sizes_of_type(RULES), ["1rem", "var(--small)"]);
    }
}
