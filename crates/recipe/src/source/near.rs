//! Which known word a mistyped one was probably meant to be.

/// The known word nearest to `word`, when it is near enough to be worth naming: the same but for
/// case, or about one letter in three changed (optimal string alignment).
pub fn near<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = word.trim().to_lowercase();
    let letters = wanted.chars().count();
    // Longer than any word of ours: not worth the search.
    if letters == 0 || letters > 60 {
        return None;
    }
    let allowed = ((letters + 1) / 3).max(1);
    let mut best: Option<(usize, &str)> = None;
    for candidate in known {
        let lower = candidate.to_lowercase();
        if lower.chars().count().abs_diff(letters) > allowed {
            continue;
        }
        let distance = strsim::osa_distance(&wanted, &lower);
        // One letter changed in a word of one letter is another word.
        if distance <= allowed && distance < letters && best.is_none_or(|(d, _)| distance < d) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// "a", "a and b", "a, b and c".
pub fn listed(words: &[&str], joined: &str) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [init @ .., last] => format!("{} {joined} {last}", init.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::{listed, near};

    #[test]
    fn a_slip_of_the_finger_is_named_and_a_stranger_is_not() {
        let keys = ["take", "of", "from", "state"];
        assert_eq!(near("tkae", keys), Some("take"));
        assert_eq!(near("Take", keys), Some("take"));
        assert_eq!(near("temperature", keys), None);
        assert_eq!(near("x", keys), None);
    }

    #[test]
    fn a_list_reads_as_a_sentence_does() {
        assert_eq!(listed(&["a", "b", "c"], "or"), "a, b or c");
    }
}
