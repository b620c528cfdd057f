//! Addresses on a page: files beside it, absolute ones for machines, and which links may be made.

use std::fmt::Write as _;

/// Where the page will stand and which of its files are there.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PageOptions {
    /// The folder in which page and photographs will stand, `https://bread.example/loaves/`.
    /// Structured data needs absolute addresses: without this it names no picture.
    pub base: Option<String>,
    /// Photographs that the recipe names but that are not there.
    pub absent: Vec<String>,
}

impl PageOptions {
    /// Whether a file can be shown.
    pub fn has(&self, file: &str) -> bool {
        !relative(file).is_empty() && !self.absent.iter().any(|absent| absent == file)
    }

    /// The absolute address of a file beside the page, or of one that is absolute already; none
    /// when there is no base, or the file is not there.
    pub fn absolute(&self, file: &str) -> Option<String> {
        if web(file) {
            return Some(file.to_owned());
        }
        let base = self.base.as_deref().filter(|base| web(base))?;
        let folder = base.trim_end_matches('/');
        self.has(file)
            .then(|| format!("{folder}/{}", relative(file)))
    }
}

/// A file beside the page as a relative address. It never leaves the page's own place: a colon or
/// a leading slash in a file's name cannot make it another site's.
pub fn relative(file: &str) -> String {
    let mut out = String::new();
    for part in file
        .split(['/', '\\'])
        .filter(|part| !matches!(*part, "" | "." | ".."))
    {
        if !out.is_empty() {
            out.push('/');
        }
        for byte in part.bytes() {
            if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
                out.push(char::from(byte));
            } else {
                // Percent-encoding of RFC 3986, 2.1; writing to a string cannot fail.
                let _ = write!(out, "%{byte:02X}");
            }
        }
    }
    out
}

/// Whether an address may be a link: http or https, and no space in it.
pub fn web(address: &str) -> bool {
    let lower = address.to_ascii_lowercase();
    let rest = lower
        .strip_prefix("https://")
        .or_else(|| lower.strip_prefix("http://"));
    rest.is_some_and(|rest| !rest.is_empty())
        && !address.contains(|c: char| c.is_whitespace() || c.is_control())
}

#[cfg(test)]
mod tests {
    use super::{PageOptions, relative, web};

    #[test]
    fn a_file_stays_beside_the_page() {
        assert_eq!(relative("braid-cut.jpg"), "braid-cut.jpg");
        assert_eq!(relative("photos/a braid.jpg"), "photos/a%20braid.jpg");
        assert_eq!(relative("brød.jpg"), "br%C3%B8d.jpg");
        assert_eq!(relative("//other.example/x.png"), "other.example/x.png");
        assert_eq!(
            relative("https://other.example/x.png"),
            "https%3A/other.example/x.png"
        );
        assert_eq!(relative("../../secret"), "secret");
    }

    #[test]
    fn only_web_addresses_are_links() {
        assert!(web("https://films.example/1"));
        assert!(!web("javascript:alert(1)"));
        assert!(!web("https://"));
        assert!(!web("https://films.example/a b"));
        assert!(!web("films.example"));
    }

    #[test]
    fn a_picture_is_absolute_or_not_named() {
        let none = PageOptions::default();
        assert_eq!(none.absolute("a.jpg"), None);
        let mut some = PageOptions {
            base: Some("https://b.example/l/".into()),
            absent: vec![],
        };
        assert_eq!(
            some.absolute("a b.jpg").as_deref(),
            Some("https://b.example/l/a%20b.jpg")
        );
        some.absent.push("a b.jpg".into());
        assert_eq!(some.absolute("a b.jpg"), None);
        assert_eq!(
            some.absolute("https://c.example/d.jpg").as_deref(),
            Some("https://c.example/d.jpg")
        );
    }
}
