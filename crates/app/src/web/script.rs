//! Our own scripts: ES modules in the binary; each address carries a digest, so that a browser may
//! keep it for good.

use super::refusal::{Answer, Refusal};
use axum::extract::Path;
use axum::http::header;
use axum::response::IntoResponse;

/// A script that a page may load. Every page works without.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Script {
    /// Forms that answer while they are filled in.
    Live,
    /// Times, taps and the bell of the bench.
    Bench,
    /// Findings beside the lines of a text.
    Write,
}

impl Script {
    const ALL: [Self; 3] = [Self::Live, Self::Bench, Self::Write];

    const fn name(self) -> &'static str {
        match self {
            Self::Live => "live",
            Self::Bench => "bench",
            Self::Write => "write",
        }
    }

    const fn text(self) -> &'static str {
        match self {
            Self::Live => include_str!("../../assets/live.js"),
            Self::Bench => include_str!("../../assets/bench.js"),
            Self::Write => include_str!("../../assets/write.js"),
        }
    }

    fn file(self) -> String {
        let digest = super::digest::base64(self.text().as_bytes());
        let letters = digest.chars().filter(char::is_ascii_alphanumeric);
        format!(
            "{}-{}.js",
            self.name(),
            letters.take(12).collect::<String>()
        )
    }

    /// Where it is.
    pub fn address(self) -> String {
        format!("/script/{}", self.file())
    }
}

/// One of them, under its present name.
pub async fn show(Path(file): Path<String>) -> Answer {
    let script = Script::ALL.into_iter().find(|script| script.file() == file);
    let script = script.ok_or_else(|| Refusal::not_found("There is no such script."))?;
    Ok((
        [
            (header::CONTENT_TYPE, "text/javascript; charset=utf-8"),
            (header::CACHE_CONTROL, "public, max-age=31536000, immutable"),
        ],
        script.text(),
    )
        .into_response())
}

#[cfg(test)]
mod tests {
    use super::Script;

    #[test]
    fn scripts_fetch_nothing_from_elsewhere_and_make_no_code_of_text() {
        for script in Script::ALL {
            for banned in ["http:", "https:", "eval(", "Function(", "innerHTML"] {
                assert!(
                    !script.text().contains(banned),
                    "{}: {banned}",
                    script.name()
                );
            }
        }
    }
}
