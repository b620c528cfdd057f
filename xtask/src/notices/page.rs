//! The page itself: one line a package, each text of a licence once.

use super::folder::{Notice, copyright_lines};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

const HEAD: &str = "\
# What is built in, and under what terms

Everyoven is built from the packages below. Written by `cargo run -p xtask -- notices`; not edited by hand.
Each line names a package, its version, the licence its authors chose, and the text at the end of this page under
which it is used here. Where a package offers a choice, one is taken. Fonts have a section of their own.

";

const FONTS: &str = "\
## Fonts

The cards are set in faces that come with the package `typst-assets` and are embedded in every PDF:
Libertinus Serif (SIL Open Font License 1.1), New Computer Modern (GUST Font License), DejaVu Sans Mono
(Bitstream Vera and Arev terms, changes in the public domain). The package carries the Foxit faces too, which PDF
readers fall back to (BSD terms). Its own notices follow.

";

/// The page, and how many different texts it holds.
pub fn page(notices: &[Notice]) -> (String, usize) {
    let mut texts = Texts::default();
    let mut lines = String::new();
    for notice in notices {
        let numbers: Vec<String> = notice
            .terms
            .iter()
            .map(|(licence, text)| texts.number(licence, text.as_deref()))
            .collect();
        let under = numbers.join(" and ");
        let _ = write!(
            lines,
            "- `{}` {}, {}",
            notice.name, notice.version, notice.expression
        );
        if under != notice.expression {
            let _ = write!(lines, "; {under}");
        }
        lines.push('.');
        for line in &notice.copyright {
            let _ = write!(lines, " {}.", line.trim_end_matches('.'));
        }
        lines.push('\n');
    }
    let mut out = format!("{HEAD}## Packages\n\n{lines}\n");
    let (fonts, rest): (Vec<&Notice>, Vec<&Notice>) = notices
        .iter()
        .filter(|n| n.passed_on.is_some())
        .partition(|n| n.name == "typst-assets");
    out.push_str(FONTS);
    for notice in fonts {
        block(&mut out, notice.passed_on.as_deref().unwrap_or_default());
    }
    out.push_str("## Notices that packages ask to be passed on\n\n");
    for notice in rest {
        let _ = writeln!(out, "### {} {}\n", notice.name, notice.version);
        block(&mut out, notice.passed_on.as_deref().unwrap_or_default());
    }
    out.push_str("## Texts\n\n");
    for (heading, text) in &texts.shown {
        let _ = writeln!(out, "### {heading}\n");
        block(&mut out, text);
    }
    (out, texts.shown.len())
}

fn block(out: &mut String, text: &str) {
    let _ = writeln!(out, "````text\n{}\n````\n", text.trim_end());
}

/// The different texts, in the order in which they are first wanted.
#[derive(Default)]
struct Texts {
    shown: Vec<(String, String)>,
    known: BTreeMap<String, String>,
    counts: BTreeMap<&'static str, usize>,
}

impl Texts {
    /// The heading under which a text stands; equal texts share one.
    fn number(&mut self, licence: &'static str, text: Option<&str>) -> String {
        // The Apache text is the same for all; its appendix is advice to authors.
        let standard = licence == "Apache-2.0" || text.is_none();
        let body = if standard {
            standard_text(licence).to_owned()
        } else {
            without_holder(text.unwrap_or_default())
        };
        let key: String = body
            .to_lowercase()
            .chars()
            .filter(|c| c.is_alphanumeric())
            .collect::<String>()
            + licence;
        if let Some(heading) = self.known.get(&key) {
            return heading.clone();
        }
        let count = self.counts.entry(licence).or_default();
        *count += 1;
        let heading = if *count == 1 {
            licence.to_owned()
        } else {
            format!("{licence} ({count})")
        };
        self.known.insert(key, heading.clone());
        self.shown.push((heading.clone(), body));
        heading
    }
}

fn standard_text(licence: &str) -> &'static str {
    match licence {
        "Apache-2.0" => include_str!("../../../LICENSE-APACHE"),
        "MIT" => {
            let own = include_str!("../../../LICENSE-MIT");
            own.split_once("authors\n\n")
                .map_or(own, |(_, terms)| terms)
        }
        "0BSD" => ZERO_BSD,
        _ => "",
    }
}

/// The Zero-Clause BSD licence.
const ZERO_BSD: &str = "\
Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted.

THE SOFTWARE IS PROVIDED \"AS IS\" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL
IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT,
INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN
ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE USE OR PERFORMANCE OF
THIS SOFTWARE.";

/// A text without its heading and its holders, which stand on the package's own line.
fn without_holder(text: &str) -> String {
    let holders = copyright_lines(text);
    let kept: Vec<&str> = text
        .lines()
        .filter(|line| {
            let line = line.trim();
            let heading =
                line.len() < 40 && line.to_lowercase().contains("licen") && !line.ends_with(',');
            let rights = line.to_lowercase().starts_with("all rights reserved");
            !heading && !rights && !holders.iter().any(|h| h == line)
        })
        .collect();
    kept.join("\n").trim().to_owned()
}

/// Name and version of every package that a page lists.
pub fn listed(page: &str) -> BTreeSet<(String, String)> {
    let section = page
        .split("\n## ")
        .find(|s| s.starts_with("Packages"))
        .unwrap_or_default();
    section
        .lines()
        .filter_map(|line| {
            let (name, rest) = line.strip_prefix("- `")?.split_once("` ")?;
            Some((name.to_owned(), rest.split(',').next()?.to_owned()))
        })
        .collect()
}
