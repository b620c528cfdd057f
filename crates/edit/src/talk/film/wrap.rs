//! Where a caption and its lines end: at the end of a sentence or a clause, before a joining word, never
//! between a number and its unit.
//!
//! Rules: BBC subtitle guidelines (second-hand) for punctuation, conjunctions and prepositions; a number and
//! its unit stay together by our own rule. What each break costs is our own choice.

use super::limits::{LINE_LETTERS, LINES, SHORTEST};
use super::words::{HOW_FULL, JOINING, LEADING, bare, is_closed, is_number, is_unit};
use std::ops::Range;
use std::time::Duration;

/// Words that stay together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Atom {
    pub text: String,
    /// Goes on from the one before it without a blank: a piece of a word longer than a line.
    pub tight: bool,
}

impl Atom {
    fn letters(&self) -> usize {
        self.text.chars().count()
    }

    /// How long it takes to say, in letters: a digit is said as a word.
    fn spoken(&self) -> usize {
        const DIGIT: usize = 4;
        self.letters() + 1 + DIGIT * self.text.chars().filter(|sign| sign.is_numeric()).count()
    }

    fn first(&self) -> &str {
        self.text.split_whitespace().next().unwrap_or_default()
    }

    fn last(&self) -> &str {
        self.text.split_whitespace().next_back().unwrap_or_default()
    }
}

/// Cuts a text at its blanks; numbers keep their units, and a word longer than a line is cut.
pub(super) fn atoms(text: &str) -> Vec<Atom> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut atoms = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let mut end = at + 1;
        let counts = is_number(words[at]) || matches!(bare(words[at]).as_str(), "a" | "an");
        if counts && !is_closed(words[at]) {
            let full = words
                .get(at + 1)
                .is_some_and(|word| HOW_FULL.contains(&bare(word).as_str()));
            let unit = at + 1 + usize::from(full);
            if words.get(unit).is_some_and(|word| is_unit(word)) {
                end = unit + 1;
            }
        }
        // Degrees Celsius, hundred grams: a unit may have a second word.
        while end > at + 1
            && !is_closed(words[end - 1])
            && words.get(end).is_some_and(|word| is_unit(word))
            && !matches!(bare(words[end - 1]).as_str(), "per")
        {
            end += 1;
        }
        let whole = words[at..end].join(" ");
        if whole.chars().count() <= LINE_LETTERS {
            atoms.push(Atom {
                text: whole,
                tight: false,
            });
        } else {
            words[at..end]
                .iter()
                .for_each(|word| pieces(word, &mut atoms));
        }
        at = end;
    }
    atoms
}

/// A word, in pieces when it is longer than a line.
fn pieces(word: &str, atoms: &mut Vec<Atom>) {
    let letters: Vec<char> = word.chars().collect();
    for (index, piece) in letters.chunks(LINE_LETTERS).enumerate() {
        atoms.push(Atom {
            text: piece.iter().collect(),
            tight: index > 0,
        });
    }
}

/// What it costs to break before an atom.
fn cost_before(atoms: &[Atom], at: usize) -> f64 {
    let (Some(before), Some(after)) = (
        at.checked_sub(1).and_then(|last| atoms.get(last)),
        atoms.get(at),
    ) else {
        return 0.0;
    };
    if after.tight {
        return 30.0;
    }
    let last = before.last();
    if last.ends_with(['.', '!', '?', '…']) || last.ends_with(".”") || last.ends_with("?”") {
        return 0.0;
    }
    if is_closed(last) {
        return 2.0;
    }
    let next = bare(after.first());
    let said = bare(last);
    let number_goes_on = is_number(last) && {
        let following = atoms.get(at + 1).map(Atom::first);
        is_number(after.first()) || (next == "and" && following.is_some_and(is_number))
    };
    if number_goes_on {
        return 25.0;
    }
    let within_number = said == "and"
        && is_number(after.first())
        && at
            .checked_sub(2)
            .and_then(|before| atoms.get(before))
            .is_some_and(|atom| is_number(atom.last()));
    if within_number {
        return 25.0;
    }
    let mut cost = if JOINING.contains(&next.as_str()) {
        4.5
    } else {
        9.0
    };
    if LEADING.contains(&said.as_str()) {
        cost += 7.0;
    }
    if is_number(last) {
        cost += 8.0;
    }
    cost
}

/// A caption: its atoms by lines.
pub(super) type Block = Vec<Range<usize>>;

/// The best captions for atoms that are said within a time.
pub(super) fn blocks(atoms: &[Atom], lasts: Duration) -> Vec<Block> {
    let many = atoms.len();
    // Letters of atoms up to each place, blanks included.
    let mut letters = vec![0_usize];
    let mut spoken = vec![0_usize];
    for atom in atoms {
        let last = letters.len() - 1;
        letters.push(letters[last] + usize::from(!atom.tight) + atom.letters());
        spoken.push(spoken[last] + atom.spoken());
    }
    let width =
        |from: usize, to: usize| letters[to] - letters[from] - usize::from(!atoms[from].tight);
    let costs: Vec<f64> = (0..=many)
        .map(|at| {
            if at == many {
                0.0
            } else {
                cost_before(atoms, at)
            }
        })
        .collect();
    let seconds = |from: usize, to: usize| {
        lasts.as_secs_f64() * (spoken[to] - spoken[from]) as f64 / spoken[many].max(1) as f64
    };
    let most = LINE_LETTERS * LINES + LINES;
    let mut best: Vec<(f64, usize, Option<usize>)> = vec![(0.0, 0, None)];
    for to in 1..=many {
        let mut found = (f64::INFINITY, to - 1, None);
        for from in (0..to).rev() {
            if width(from, to) > most {
                break;
            }
            let Some((lines, second)) = lines_cost(&costs, &width, from, to) else {
                continue;
            };
            let short = (SHORTEST.as_secs_f64() - seconds(from, to)).max(0.0);
            let sentences = (from + 1..to).filter(|at| costs[*at] == 0.0).count() as f64;
            // A sentence that is begun here and goes on in the next caption is worse than two whole ones.
            let torn = match costs[to] {
                end if sentences == 0.0 || end == 0.0 => 0.0,
                end if end <= 2.0 => 2.0,
                _ => 6.0,
            };
            let block = 5.0 + costs[to] + lines + 6.0 * short + 1.5 * sentences + torn;
            let cost = best[from].0 + block;
            if cost < found.0 {
                found = (cost, from, second);
            }
        }
        best.push(found);
    }
    let mut blocks = Vec::new();
    let mut to = many;
    while to > 0 {
        let (_, from, second) = best[to];
        blocks.push(match second {
            Some(second) => vec![from..second, second..to],
            None => vec![from..to; 1],
        });
        to = from;
    }
    blocks.reverse();
    blocks
}

/// What the lines of a caption cost, and where the second begins; none when they do not fit.
fn lines_cost(
    costs: &[f64],
    width: &impl Fn(usize, usize) -> usize,
    from: usize,
    to: usize,
) -> Option<(f64, Option<usize>)> {
    if width(from, to) <= LINE_LETTERS {
        return Some((0.0, None));
    }
    let cost = |at: usize| {
        let (first, second) = (width(from, at), width(at, to));
        let fits = first <= LINE_LETTERS && second <= LINE_LETTERS;
        fits.then(|| 1.0 + 0.6 * costs[at] + 0.06 * first.abs_diff(second) as f64)
    };
    let mut found: Option<(f64, usize)> = None;
    for at in from + 1..to {
        if let Some(cost) = cost(at)
            && found.is_none_or(|(best, _)| cost < best)
        {
            found = Some((cost, at));
        }
    }
    found.map(|(cost, at)| (cost, Some(at)))
}

/// The line of a range of atoms.
pub(super) fn line(atoms: &[Atom], of: Range<usize>) -> String {
    let mut out = String::new();
    for (index, atom) in atoms[of].iter().enumerate() {
        if index > 0 && !atom.tight {
            out.push(' ');
        }
        out.push_str(&atom.text);
    }
    out
}

/// How long a range of atoms takes to say, in letters.
pub(super) fn spoken(atoms: &[Atom]) -> usize {
    atoms.iter().map(Atom::spoken).sum()
}

#[cfg(test)]
mod tests {
    use super::{atoms, blocks, line};
    use std::time::Duration;

    fn wrapped(text: &str, seconds: u64) -> Vec<String> {
        let atoms = atoms(text);
        let blocks = blocks(&atoms, Duration::from_secs(seconds));
        let lines = |block: &Vec<std::ops::Range<usize>>| {
            let lines: Vec<String> = block
                .iter()
                .map(|range| line(&atoms, range.clone()))
                .collect();
            lines.join(" / ")
        };
        blocks.iter().map(lines).collect()
    }

    #[test]
    fn numbers_keep_their_units() {
        let words: Vec<String> = atoms("two level teaspoons of salt, seventy-five degrees Celsius, 2 1/4 cups, half an hour, 18 °C")
            .into_iter()
            .map(|atom| atom.text)
            .collect();
        assert_eq!(
            words,
            [
                "two level teaspoons",
                "of",
                "salt,",
                "seventy-five degrees Celsius,",
                "2",
                "1/4 cups,",
                "half",
                "an hour,",
                "18 °C"
            ]
        );
    }

    #[test]
    fn lines_end_where_the_sense_does() {
        assert_eq!(
            wrapped(
                "Then the butter, melted and cooled, in a slow stream. You want the dough at about seventy-nine Fahrenheit when it's done.",
                9
            ),
            [
                "Then the butter, melted and cooled, / in a slow stream. You want the dough",
                "at about seventy-nine Fahrenheit / when it's done.",
            ]
        );
        assert_eq!(wrapped("Mix it well.", 3), ["Mix it well."]);
    }

    #[test]
    fn a_word_longer_than_a_line_is_cut() {
        let blocks = wrapped(&"x".repeat(80), 9);
        let lines: Vec<&str> = blocks.iter().flat_map(|block| block.split(" / ")).collect();
        let letters: Vec<usize> = lines.iter().map(|line| line.len()).collect();
        assert_eq!(letters, [37, 37, 6]);
    }
}
