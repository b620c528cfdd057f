//! The page's style sheet: our rules with the colours of the palette before them.

use crate::palette::{DARK, LIGHT, PRINT, Scheme};

/// The rules, without a colour value of their own.
const RULES: &str = include_str!("style.css");

/// The whole style sheet: colours by day, by night and on paper, then the rules.
pub fn style() -> String {
    format!(
        "html {{ color-scheme: light dark; {} }}\n\
         @media screen and (prefers-color-scheme: dark) {{ html {{ {} }} }}\n\
         @media print {{ html {{ color-scheme: light; {} }} }}\n{RULES}",
        properties(LIGHT),
        properties(DARK),
        properties(PRINT),
    )
}

fn properties(scheme: Scheme) -> String {
    let Scheme {
        paper,
        ink,
        ink_soft,
        rule,
        crust,
        milk,
    } = scheme;
    [
        ("paper", paper),
        ("ink", ink),
        ("soft", ink_soft),
        ("rule", rule),
        ("crust", crust),
        ("milk", milk),
    ]
    .map(|(name, colour)| format!("--{name}: {};", colour.css()))
    .join(" ")
}

#[cfg(test)]
mod tests {
    use super::{RULES, style};

    #[test]
    fn colours_come_from_the_palette_alone() {
        assert!(!RULES.contains('#'), "a colour value stands in the rules");
        assert!(!RULES.contains("rgb("));
    }

    #[test]
    fn at_most_three_sizes_of_type() {
        let sizes: std::collections::BTreeSet<_> = RULES
            .lines()
            .flat_map(|line| line.split("font-size: ").skip(1))
            .filter_map(|rest| rest.split(';').next())
            .filter(|size| !size.ends_with(['%', 't'])) // The root's own size, by medium.
            .collect();
        let sizes: Vec<_> = sizes.into_iter().collect();
        assert_eq!(sizes, ["1rem", "var(--large)", "var(--small)"]);
    }

    #[test]
    fn nothing_is_fetched_and_nothing_can_end_the_element() {
        let style = style();
        for banned in ["url(", "@import", "@font-face", "<", "http"] {
            assert!(!style.contains(banned), "{banned}");
        }
    }
}
