//! What recipes are called where several stand beside each other: by their titles.

/// Titles, each with its file where another has the same one; the file alone where there is no title.
pub fn told_apart<Of>(
    all: Vec<(Of, Option<String>)>,
    file: impl Fn(&Of) -> String,
) -> Vec<(Of, String)> {
    let small: Vec<Option<String>> = all
        .iter()
        .map(|(_, title)| title.as_ref().map(|title| title.to_lowercase()))
        .collect();
    let called = |(place, (of, title)): (usize, (Of, Option<String>))| {
        let words = match title {
            None => file(&of),
            Some(title) => {
                let twice = small.iter().filter(|other| **other == small[place]).count() > 1;
                if twice {
                    format!("{title} ({})", file(&of))
                } else {
                    title
                }
            }
        };
        (of, words)
    };
    all.into_iter().enumerate().map(called).collect()
}

#[cfg(test)]
mod tests {
    use super::told_apart;

    #[test]
    fn a_file_is_named_only_where_titles_are_equal() {
        let all = vec![
            ("a.toml", Some("Milk loaf".to_owned())),
            ("b.toml", Some("Rye".to_owned())),
            ("c.toml", Some("milk loaf".to_owned())),
            ("d.toml", None),
        ];
        let called = told_apart(all, |file| (*file).to_owned());
        let words: Vec<&str> = called.iter().map(|(_, words)| words.as_str()).collect();
        assert_eq!(
            words,
            ["Milk loaf (a.toml)", "Rye", "milk loaf (c.toml)", "d.toml"]
        );
    }
}
