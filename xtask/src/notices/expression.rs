//! A licence expression and the one of its alternatives under which we take the package.

/// Licences in the order in which we would rather have them: short texts first.
const ORDER: &[&str] = &[
    "MIT",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "Zlib",
    "Unicode-3.0",
    "BSL-1.0",
    "0BSD",
    "ISC",
    "Unlicense",
    "CC0-1.0",
];

/// The licences that hold together when the best alternative of each OR is taken.
/// `(MIT OR Apache-2.0) AND Unicode-3.0` gives `MIT` and `Unicode-3.0`.
///
/// # Errors
/// When every alternative is a licence that this project has not agreed to.
pub fn alternatives(expression: &str) -> Result<Vec<&'static str>, String> {
    expression
        .split(" AND ")
        .map(|part| one_of(part, expression))
        .collect()
}

fn one_of(part: &str, whole: &str) -> Result<&'static str, String> {
    let names: Vec<&str> = part
        .split(['/', '(', ')'])
        .flat_map(|piece| piece.split(" OR "))
        .map(str::trim)
        .collect();
    ORDER
        .iter()
        .find(|licence| names.contains(licence))
        .copied()
        .ok_or_else(|| format!("no licence of `{whole}` is on the list in deny.toml"))
}

#[cfg(test)]
mod tests {
    use super::alternatives;

    #[test]
    fn the_shortest_text_of_each_choice_is_taken() {
        assert_eq!(alternatives("Apache-2.0 / MIT"), Ok(vec!["MIT"]));
        assert_eq!(
            alternatives("Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT"),
            Ok(vec!["MIT"])
        );
        assert_eq!(
            alternatives("(MIT OR Apache-2.0) AND Unicode-3.0"),
            Ok(vec!["MIT", "Unicode-3.0"])
        );
        assert!(alternatives("GPL-3.0-only").is_err());
    }
}
