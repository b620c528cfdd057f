//! Where two texts differ, as runs of whole lines.
//!
//! The longest common subsequence of lines by dynamic programming; of texts too long for that,
//! everything between their common beginning and their common end counts as changed.

use std::ops::Range;

/// A run of lines that differ; either side may be empty. Lines are counted from 0.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hunk {
    /// Lines of the text before.
    pub before: Range<usize>,
    /// Lines of the text after.
    pub after: Range<usize>,
}

/// A line as it is shown when two texts are laid over each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line<'a> {
    /// In both.
    Both(&'a str),
    /// In the text before.
    Gone(&'a str),
    /// In the text after.
    New(&'a str),
    /// So many lines that are in both are left out.
    LeftOut(usize),
}

/// Cells of the table that may be filled: two texts of 2000 lines each.
const MOST_CELLS: usize = 4_000_000;

/// Where two texts differ, from top to bottom.
pub fn hunks(before: &[&str], after: &[&str]) -> Vec<Hunk> {
    let start = before
        .iter()
        .zip(after)
        .take_while(|(one, other)| one == other)
        .count();
    let rest = before.len().min(after.len()) - start;
    let end = before
        .iter()
        .rev()
        .zip(after.iter().rev())
        .take(rest)
        .take_while(|(one, other)| one == other)
        .count();
    let (old, new) = (
        &before[start..before.len() - end],
        &after[start..after.len() - end],
    );
    if old.is_empty() && new.is_empty() {
        return Vec::new();
    }
    if old.len().saturating_mul(new.len()) > MOST_CELLS {
        return vec![Hunk {
            before: start..before.len() - end,
            after: start..after.len() - end,
        }];
    }
    let kept = common(old, new);
    let mut hunks = Vec::new();
    let (mut at, mut to) = (0, 0);
    for (one, other) in kept.into_iter().chain([(old.len(), new.len())]) {
        if one > at || other > to {
            hunks.push(Hunk {
                before: start + at..start + one,
                after: start + to..start + other,
            });
        }
        (at, to) = (one + 1, other + 1);
    }
    hunks
}

/// Pairs of lines that stand in both, in order: as many as there can be.
fn common(old: &[&str], new: &[&str]) -> Vec<(usize, usize)> {
    let width = new.len() + 1;
    // Longest common subsequence of what begins at each pair of lines.
    let mut longest = vec![0_u32; (old.len() + 1) * width];
    for one in (0..old.len()).rev() {
        for other in (0..new.len()).rev() {
            longest[one * width + other] = if old[one] == new[other] {
                longest[(one + 1) * width + other + 1] + 1
            } else {
                longest[(one + 1) * width + other].max(longest[one * width + other + 1])
            };
        }
    }
    let (mut one, mut other) = (0, 0);
    let mut pairs = Vec::new();
    while one < old.len() && other < new.len() {
        if old[one] == new[other] {
            pairs.push((one, other));
            one += 1;
            other += 1;
        } else if longest[(one + 1) * width + other] >= longest[one * width + other + 1] {
            one += 1;
        } else {
            other += 1;
        }
    }
    pairs
}

/// Two texts laid over each other, with so many lines around every difference.
pub fn laid_over<'a>(before: &'a str, after: &'a str, around: usize) -> Vec<Line<'a>> {
    let old: Vec<&str> = before.lines().collect();
    let new: Vec<&str> = after.lines().collect();
    let mut shown = Vec::new();
    let mut at = 0;
    let hunks = hunks(&old, &new);
    let Some(last) = hunks.len().checked_sub(1) else {
        return shown;
    };
    for (index, hunk) in hunks.iter().enumerate() {
        let before_it = if index == 0 { 0 } else { around };
        between(&old[at..hunk.before.start], before_it, around, &mut shown);
        shown.extend(old[hunk.before.clone()].iter().copied().map(Line::Gone));
        shown.extend(new[hunk.after.clone()].iter().copied().map(Line::New));
        at = hunk.before.end;
        if index == last {
            between(&old[at..], around, 0, &mut shown);
        }
    }
    shown
}

/// Lines that are in both: the first and the last of them.
fn between<'a>(lines: &[&'a str], first: usize, last: usize, shown: &mut Vec<Line<'a>>) {
    let left_out = lines.len().saturating_sub(first + last);
    // One line takes as much room as the words that it is left out.
    if left_out <= 1 {
        shown.extend(lines.iter().copied().map(Line::Both));
        return;
    }
    shown.extend(lines[..first].iter().copied().map(Line::Both));
    shown.push(Line::LeftOut(left_out));
    shown.extend(lines[lines.len() - last..].iter().copied().map(Line::Both));
}

#[cfg(test)]
mod tests {
    use super::{Hunk, Line, hunks, laid_over};

    fn of(before: &str, after: &str) -> Vec<Hunk> {
        let old: Vec<&str> = before.lines().collect();
        let new: Vec<&str> = after.lines().collect();
        hunks(&old, &new)
    }

    /// Puts the runs of a difference into the text before: that is the text after.
    fn put(before: &str, after: &str) -> String {
        let old: Vec<&str> = before.lines().collect();
        let new: Vec<&str> = after.lines().collect();
        let mut made: Vec<&str> = Vec::new();
        let mut at = 0;
        for hunk in hunks(&old, &new) {
            made.extend(&old[at..hunk.before.start]);
            made.extend(&new[hunk.after]);
            at = hunk.before.end;
        }
        made.extend(&old[at..]);
        made.join("\n")
    }

    #[test]
    fn differences_put_into_the_text_before_make_the_text_after() {
        let texts = [
            "",
            "a",
            "a\nb\nc",
            "b\nc\nd",
            "c\nb\na",
            "a\na\na\nb",
            "x\na\nb\ny\nc",
        ];
        for before in texts {
            for after in texts {
                assert_eq!(put(before, after), after, "{before:?} {after:?}");
            }
            assert_eq!(of(before, before), []);
        }
    }

    #[test]
    fn one_changed_line_is_one_run() {
        let hunk = Hunk {
            before: 1..2,
            after: 1..2,
        };
        assert_eq!(of("a\nb\nc", "a\nx\nc"), [hunk]);
    }

    #[test]
    fn far_lines_are_left_out() {
        let before = "1\n2\n3\n4\n5\n6";
        let shown = laid_over(before, "1\n2\n3\n4\n5\nsix", 1);
        let wanted = [
            Line::LeftOut(4),
            Line::Both("5"),
            Line::Gone("6"),
            Line::New("six"),
        ];
        assert_eq!(shown, wanted);
        assert_eq!(laid_over(before, before, 1), []);
    }
}
