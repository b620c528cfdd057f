//! Lines that one paragraph runs across, as a letter or an e-mail breaks it, joined and told apart again.

use super::model::{Line, Mark};
use super::split::{Raw, bare};
use std::collections::BTreeMap;

/// Shorter lines are no lines of broken prose.
const SHORTEST: usize = 50;

/// A line of a broken paragraph is at least so long beside the longest, in hundredths.
const FILLED: usize = 70;

/// A paragraph: one line, or several that were joined.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Paragraph {
    /// Its words, without the marks of a reply.
    pub text: String,
    /// Where each of its lines begins in the words, with its place among all lines.
    starts: Vec<(usize, usize)>,
}

/// Every paragraph of a text. What somebody has said of a line stands for that line alone.
pub fn paragraphs(raws: &[Raw<'_>], said: impl Fn(usize) -> bool) -> Vec<Paragraph> {
    let quoted = raws
        .iter()
        .filter(|raw| raw.text.trim_start().starts_with('>'))
        .count()
        >= 2;
    let words: Vec<&str> = raws
        .iter()
        .map(|raw| if quoted { unquoted(raw.text) } else { raw.text })
        .collect();
    let mut found: Vec<Paragraph> = Vec::with_capacity(raws.len());
    let mut at = 0;
    while at < raws.len() {
        let end = (at..raws.len())
            .find(|next| words[*next].trim().is_empty())
            .unwrap_or(raws.len())
            .max(at + 1);
        let full = full_from(&words[at..end]);
        for index in at..end {
            let joins = index > at
                && full.is_some_and(|full| words[index - 1].trim().chars().count() >= full)
                && !listed(words[index])
                && !listed(words[index - 1])
                && !said(raws[index].number)
                && !said(raws[index - 1].number);
            match found.last_mut() {
                Some(before) if joins => {
                    before.text.truncate(before.text.trim_end().len());
                    before.text.push(' ');
                    before.starts.push((before.text.len(), index));
                    before.text.push_str(words[index].trim());
                }
                _ => found.push(Paragraph {
                    text: words[index].to_owned(),
                    starts: vec![(0, index)],
                }),
            }
        }
        at = end;
    }
    found
}

/// The length from which on a line of a block goes on in the next, when the block is prose whose
/// lines are broken at one width.
fn full_from(block: &[&str]) -> Option<usize> {
    let long = |line: &&str| line.trim().chars().count();
    let width = block.iter().map(long).max()?;
    let goes_on = block
        .iter()
        .skip(1)
        .any(|line| line.trim().starts_with(char::is_lowercase));
    let ends = block
        .iter()
        .any(|line| line.contains(". ") || line.trim_end().ends_with('.'));
    (block.len() > 1 && width >= SHORTEST && goes_on && ends).then_some(width * FILLED / 100)
}

/// Whether a bullet or a number stands before a line.
fn listed(line: &str) -> bool {
    let seen = bare(line);
    seen.bullet || seen.counted
}

/// A line without the marks that a reply sets before it: "> ", ">> ".
fn unquoted(line: &str) -> &str {
    let mut rest = line;
    while let Some(after) = rest.trim_start().strip_prefix('>') {
        rest = after.strip_prefix(' ').unwrap_or(after);
    }
    rest
}

impl Paragraph {
    /// The paragraph as one line to be read.
    pub fn as_raw<'t>(&'t self, raws: &[Raw<'_>]) -> Raw<'t> {
        let first = raws[self.starts[0].1];
        let last = raws[self.starts[self.starts.len() - 1].1];
        Raw {
            number: first.number,
            span: crate::source::Span::new(first.span.start, last.span.end),
            text: &self.text,
        }
    }

    /// The line of the text in which a byte of the words stands.
    fn index_at(&self, offset: usize) -> usize {
        let after = self.starts.partition_point(|(start, _)| *start <= offset);
        self.starts[after.saturating_sub(1)].1
    }
}

/// Which line of the text each byte of a paragraph stands in.
#[derive(Clone, Debug, Default)]
pub struct Folds {
    /// By the number of the paragraph's first line: where each line begins, and its number.
    folded: BTreeMap<usize, Vec<(usize, usize)>>,
}

impl Folds {
    /// The folds of some paragraphs.
    pub fn of(paragraphs: &[Paragraph], raws: &[Raw<'_>]) -> Self {
        let folded = paragraphs
            .iter()
            .filter(|one| one.starts.len() > 1)
            .map(|one| {
                let starts = one.starts.iter();
                (
                    raws[one.starts[0].1].number,
                    starts
                        .map(|(at, index)| (*at, raws[*index].number))
                        .collect(),
                )
            })
            .collect();
        Self { folded }
    }

    /// The number of the line in which a byte of a paragraph's words stands.
    pub fn number(&self, line: &Line, offset: usize) -> usize {
        let Some(starts) = self.folded.get(&line.number) else {
            return line.number;
        };
        let after = starts.partition_point(|(start, _)| *start <= offset);
        starts[after.saturating_sub(1)].1
    }
}

/// The lines of the text again, each with what was read in it.
pub fn unfolded(lines: Vec<Line>, paragraphs: &[Paragraph], raws: &[Raw<'_>]) -> Vec<Line> {
    let mut out: Vec<Line> = Vec::with_capacity(raws.len());
    for (line, paragraph) in lines.into_iter().zip(paragraphs) {
        let first = out.len();
        let alone = paragraph.starts.len() == 1;
        for (_, index) in &paragraph.starts {
            let raw = raws[*index];
            out.push(Line {
                number: raw.number,
                span: raw.span,
                text: raw.text.to_owned(),
                kind: line.kind,
                mark: if alone { line.mark } else { Mark::Understood },
                reason: if alone { line.reason.clone() } else { None },
                readings: Vec::new(),
            });
        }
        if alone {
            out[first].readings = line.readings;
            continue;
        }
        let mut from = 0;
        for reading in line.readings {
            let offset = reading
                .said
                .as_ref()
                .and_then(|said| line.text[from..].find(said.as_str()))
                .map_or(from, |at| from + at);
            from = offset;
            let place = first + paragraph.index_at(offset) - paragraph.starts[0].1;
            let own = &mut out[place];
            if reading.mark > own.mark {
                own.mark = reading.mark;
                own.reason.clone_from(&reading.reason);
            }
            own.readings.push(reading);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{paragraphs, unfolded};
    use crate::import::split::lines;

    fn joined(text: &str) -> Vec<String> {
        let raws = lines(text);
        paragraphs(&raws, |_| false)
            .into_iter()
            .map(|one| one.text)
            .collect()
    }

    #[test]
    fn prose_that_was_broken_at_a_width_is_joined() {
        let text = "> Warm the milk, stir in the yeast and wait until it foams on the\n> top. Add 500 g of flour.\n>\n> Bake.";
        assert_eq!(
            joined(text),
            [
                "Warm the milk, stir in the yeast and wait until it foams on the top. Add 500 g of flour.",
                "",
                "Bake."
            ]
        );
        let raws = lines(text);
        let numbers: Vec<usize> = paragraphs(&raws, |_| false)[0]
            .starts
            .iter()
            .map(|(_, index)| *index)
            .collect();
        assert_eq!(numbers, [0, 1]);
        assert!(unfolded(Vec::new(), &[], &raws).is_empty());
    }

    #[test]
    fn a_list_stays_a_list() {
        for text in [
            "500 g strong white bread flour, and a little more for the bench\n300 ml water, lukewarm",
            "1. Mix everything that is in the list above, and knead it well.\n2. then let it rest.",
            "Stir the yeast into the milk and let it stand for ten minutes.\nAdd the flour.",
        ] {
            assert_eq!(joined(text).len(), 2, "{text}");
        }
    }
}
