//! Changes that findings propose, made in a text: comments, order and every other byte stay.

use recipe::source::{Change, Diagnostic};

/// Every change that findings propose, each once, in the order of the text; of two that overlap
/// the first is kept, for the other may look different afterwards.
pub fn changes<'a>(findings: impl IntoIterator<Item = &'a Diagnostic>) -> Vec<Change> {
    let mut all: Vec<Change> = findings
        .into_iter()
        .flat_map(|finding| finding.changes.iter().cloned())
        .collect();
    all.sort();
    all.dedup();
    let mut kept: Vec<Change> = Vec::new();
    for change in all {
        if kept
            .last()
            .is_none_or(|before| before.span.end <= change.span.start)
        {
            kept.push(change);
        }
    }
    kept
}

/// The text with its changes; a change whose place is not in the text is left out.
pub fn changed(text: &str, changes: &[Change]) -> String {
    let mut out = String::with_capacity(text.len());
    let mut at = 0;
    for change in changes {
        let Some(before) = text.get(at..change.span.start) else {
            continue;
        };
        if text.get(change.span.start..change.span.end).is_none() {
            continue;
        }
        out.push_str(before);
        out.push_str(&change.new);
        at = change.span.end;
    }
    out.push_str(text.get(at..).unwrap_or(""));
    out
}

/// A line that is taken out and the line that is put in, with its number in the old text from 1.
pub type LineChange<'a> = (usize, &'a str, &'a str);

/// The lines of two texts that differ; none when lines were added or taken away, which no change
/// of a finding does.
pub fn lines<'a>(old: &'a str, new: &'a str) -> Option<Vec<LineChange<'a>>> {
    (old.lines().count() == new.lines().count()).then(|| {
        old.lines()
            .zip(new.lines())
            .enumerate()
            .filter(|(_, (was, is))| was != is)
            .map(|(number, (was, is))| (number + 1, was, is))
            .collect()
    })
}

#[cfg(test)]
mod tests {
    use super::{changed, changes, lines};
    use recipe::source::{Diagnostic, Span, code};

    #[test]
    fn changes_are_made_from_the_left_and_never_twice() {
        let text = "bake at 180C till done # ours\n";
        let one = Diagnostic::whole(code::FILE_EMPTY, "").change(Span::new(11, 12), " °C");
        let two = Diagnostic::whole(code::FILE_EMPTY, "")
            .change(Span::new(13, 17), "until")
            .change(Span::new(10, 12), "0 °C / 350 °F");
        let all = changes([&one, &two]);
        assert_eq!(all.len(), 2);
        assert_eq!(
            changed(text, &all),
            "bake at 180 °C / 350 °F until done # ours\n"
        );
        let made = changed(text, &all);
        assert_eq!(
            lines(text, &made),
            Some(vec![(1, text.trim_end(), made.trim_end())])
        );
    }
}
