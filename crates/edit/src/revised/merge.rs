//! Two changed copies of one text made into one, where they do not touch the same lines.
//!
//! Departures from the common text are found on both sides; runs that overlap or meet are both kept,
//! one after the other, between lines that a reader of TOML takes for comments.

use super::lines::{Hunk, hunks};
use std::ops::Range;

/// Above the first of two versions of the same lines.
pub const YOURS: &str = "# --- yours:";
/// Above the second.
pub const THEIRS: &str = "# --- the other:";
/// Below both.
pub const AS_FAR_AS: &str = "# --- as far as here";

/// What became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Merged {
    /// The text.
    pub text: String,
    /// Places where both changed the same lines, and both stand.
    pub both: usize,
}

/// Makes one text of two that began as `base`.
pub fn merge(base: &str, mine: &str, theirs: &str) -> Merged {
    let of = |text| -> Vec<&str> { str::lines(text).collect() };
    let (base, my, their) = (of(base), of(mine), of(theirs));
    let sides = [hunks(&base, &my), hunks(&base, &their)];
    let mut made: Vec<&str> = Vec::new();
    let mut both = 0;
    let (mut at, mut next) = (0, [0, 0]);
    while let Some(mut run) = first(&sides, next) {
        // Everything of either side that touches the run belongs to it.
        let from = next;
        loop {
            let mut grown = false;
            for side in [0, 1] {
                while let Some(hunk) = sides[side].get(next[side])
                    && hunk.before.start <= run.end
                {
                    run.end = run.end.max(hunk.before.end);
                    next[side] += 1;
                    grown = true;
                }
            }
            if !grown {
                break;
            }
        }
        made.extend(&base[at..run.start]);
        let part = |side: usize| of_base(&sides[side], from[side]..next[side], &run);
        let my_part = &my[part(0)];
        let their_part = &their[part(1)];
        let changed = |side: usize| next[side] > from[side];
        if !changed(1) || my_part == their_part {
            made.extend(my_part);
        } else if !changed(0) {
            made.extend(their_part);
        } else {
            both += 1;
            made.push(YOURS);
            made.extend(my_part);
            made.push(THEIRS);
            made.extend(their_part);
            made.push(AS_FAR_AS);
        }
        at = run.end;
    }
    made.extend(&base[at..]);
    let mut text = made.join("\n");
    if !made.is_empty() && (mine.ends_with('\n') || theirs.ends_with('\n')) {
        text.push('\n');
    }
    Merged { text, both }
}

/// The lines of the common text at which the next departure of either side begins.
fn first(sides: &[Vec<Hunk>; 2], next: [usize; 2]) -> Option<Range<usize>> {
    let waiting = [0, 1]
        .into_iter()
        .filter_map(|side| sides[side].get(next[side]));
    waiting
        .min_by_key(|hunk| hunk.before.start)
        .map(|hunk| hunk.before.start..hunk.before.end)
}

/// The lines that one side has for a run of the common text, when these of its departures lie in it.
fn of_base(hunks: &[Hunk], within: Range<usize>, run: &Range<usize>) -> Range<usize> {
    // Before its first departure in the run a side has the common lines, moved by what came before.
    let moved = |line: usize, hunk: Option<&Hunk>| match hunk {
        Some(hunk) => hunk.after.end + (line - hunk.before.end),
        None => line,
    };
    let before = within
        .start
        .checked_sub(1)
        .and_then(|index| hunks.get(index));
    let last = within.end.checked_sub(1).and_then(|index| hunks.get(index));
    moved(run.start, before)..moved(run.end, last)
}

#[cfg(test)]
mod tests {
    use super::{AS_FAR_AS, THEIRS, YOURS, merge};

    #[test]
    fn changes_in_different_places_become_one_text() {
        let merged = merge("a\nb\nc\nd\ne\n", "A\nb\nc\nd\ne\n", "a\nb\nc\nd\nE\nf\n");
        assert_eq!(
            (merged.text.as_str(), merged.both),
            ("A\nb\nc\nd\nE\nf\n", 0)
        );
    }

    #[test]
    fn the_same_change_twice_is_made_once() {
        let merged = merge("a\nb\n", "a\nB\n", "a\nB\n");
        assert_eq!((merged.text.as_str(), merged.both), ("a\nB\n", 0));
    }

    #[test]
    fn where_both_changed_the_same_line_both_stand() {
        let merged = merge("a\nb\nc\n", "a\nmine\nc\n", "a\ntheirs\nc\n");
        let wanted = format!("a\n{YOURS}\nmine\n{THEIRS}\ntheirs\n{AS_FAR_AS}\nc\n");
        assert_eq!((merged.text, merged.both), (wanted, 1));
    }

    #[test]
    fn a_side_that_changed_nothing_gives_way_to_the_other() {
        let texts = ["", "a\n", "a\nb\nc\n", "c\nb\n", "x\na\ny\nb\nb\n"];
        for base in texts {
            for other in texts {
                assert_eq!(merge(base, base, other).text, other, "{base:?} {other:?}");
                assert_eq!(merge(base, other, base).text, other, "{base:?} {other:?}");
                assert_eq!(merge(base, other, other).text, other, "{base:?} {other:?}");
            }
        }
    }

    #[test]
    fn no_line_of_either_is_lost() {
        let texts = ["", "a\nb\nc\n", "c\nb\n", "x\na\ny\nb\nq\n", "a\nz\nc\nw\n"];
        for base in texts {
            for mine in texts {
                for theirs in texts {
                    let merged = merge(base, mine, theirs);
                    for (side, other) in [(mine, theirs), (theirs, mine)] {
                        // A line that one side wrote, and not one that the other took out.
                        let new = side
                            .lines()
                            .filter(|line| !base.lines().any(|b| b == *line));
                        for line in new {
                            assert!(
                                merged.text.lines().any(|there| there == line),
                                "{line:?} of {side:?} beside {other:?} on {base:?}: {merged:?}"
                            );
                        }
                    }
                }
            }
        }
    }
}
