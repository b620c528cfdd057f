//! Lines of a given width: wrapping at spaces, and setting one block of lines beside another.

/// Characters of a line.
pub(super) fn length(line: &str) -> usize {
    line.chars().count()
}

/// Cuts a text into lines of at most `width` characters, at plain spaces only; a word that is
/// longer stands on a line of its own and is cut where the width ends. A pair of measures breaks
/// after its stroke, never before.
pub(crate) fn wrap(text: &str, width: usize) -> Vec<String> {
    let width = width.max(1);
    let text = text.replace(" / ", "\u{a0}/ ");
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text
        .split([' ', '\n', '\t'])
        .filter(|word| !word.is_empty())
    {
        if !line.is_empty() && length(&line) + 1 + length(word) > width {
            lines.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        for letter in word.chars() {
            if length(&line) == width {
                lines.push(std::mem::take(&mut line));
            }
            line.push(letter);
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// Sets a block to the right of another, whose lines are filled up to `column`, across a gap.
pub(crate) fn beside(left: &[String], column: usize, right: &[String], gap: usize) -> Vec<String> {
    let empty = String::new();
    (0..left.len().max(right.len()))
        .map(|index| {
            let one = left.get(index).unwrap_or(&empty);
            let other = right.get(index).unwrap_or(&empty);
            if other.is_empty() {
                return one.clone();
            }
            let fill = column.saturating_sub(length(one)) + gap;
            format!("{one}{}{other}", " ".repeat(fill))
        })
        .collect()
}

/// A finished line with plain spaces, so that it can be searched.
pub(crate) fn spaced(line: &str) -> String {
    crate::line::plain(line)
}

#[cfg(test)]
mod tests {
    use super::{beside, length, wrap};

    #[test]
    fn lines_break_at_plain_spaces_only() {
        assert_eq!(
            wrap("rest for 45\u{a0}min here", 10),
            ["rest for", "45\u{a0}min", "here"]
        );
        assert_eq!(wrap("  ", 10), Vec::<String>::new());
    }

    #[test]
    fn a_word_too_long_is_cut() {
        let lines = wrap("https://films.example/saltmarsh-lane", 12);
        assert!(lines.iter().all(|line| length(line) <= 12));
        assert_eq!(lines.concat(), "https://films.example/saltmarsh-lane");
    }

    #[test]
    fn blocks_stand_side_by_side() {
        let rows = |text: &[&str]| text.iter().map(|&t| t.to_owned()).collect::<Vec<_>>();
        let set = beside(&rows(&["a"]), 3, &rows(&["x", "y"]), 1);
        assert_eq!(set, ["a   x", "    y"]);
    }
}
