//! The pages that say of every finding what it says, why it matters and what to do.

use std::cmp::Ordering;

/// Includes the pages by the names of their findings.
macro_rules! pages {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../explain/", $name, ".md")))),*]
    };
}

/// Every page, by name, in alphabetical order.
pub const PAGES: &[(&str, &str)] = pages![];

/// The page of a finding.
pub fn page(name: &str) -> Option<&'static str> {
    PAGES.iter().find(|(own, _)| *own == name).map(|(_, page)| *page)
}

/// The name nearest to a mistyped one, when one is near.
pub fn near(name: &str) -> Option<&'static str> {
    let score = |own: &str| strsim::jaro_winkler(own, name);
    PAGES
        .iter()
        .map(|(own, _)| (*own, score(own)))
        .filter(|(_, score)| *score > 0.8)
        .max_by(|a, b| a.1.partial_cmp(&b.1).unwrap_or(Ordering::Equal))
        .map(|(own, _)| own)
}

/// All names, one a line, each with the first sentence of its page.
pub fn contents() -> String {
    let mut text = String::from("Findings, by name. One of them: everyoven explain NAME\n\n");
    for (name, page) in PAGES {
        let says = page
            .lines()
            .skip_while(|line| !line.starts_with("## What it says"))
            .skip(1)
            .find(|line| !line.trim().is_empty())
            .unwrap_or("");
        text.push_str(name);
        text.push_str("\n    ");
        text.push_str(says);
        text.push('\n');
    }
    text
}
