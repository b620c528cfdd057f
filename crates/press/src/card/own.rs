//! Which amounts a card of a set repeats: those that its own steps name.

use edit::ledger::model::{ItemLine, Ledger, Run, StageLines, StepLine};

use crate::line::sentence;

/// One line of the amounts: of a stage, or for bench, tin and top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// The stage; none for bench, tin and top.
    pub(super) stage: Option<usize>,
    /// Which of its lines.
    pub(super) at: usize,
}

/// Every line of the amounts, in reading order.
pub(super) fn lines(ledger: &Ledger) -> Vec<Line> {
    let of_stage = |(stage, lines): (usize, &StageLines)| {
        (0..lines.items.len()).map(move |at| Line {
            stage: Some(stage),
            at,
        })
    };
    let besides = (0..ledger.besides.len()).map(|at| Line { stage: None, at });
    let stages = ledger.stages.iter().enumerate();
    stages.flat_map(of_stage).chain(besides).collect()
}

/// Whether a line's amount stands in one of the steps of a stage or product (`of`: the stage), or its name does
/// while no other line of that name has its amount there. Where an egg goes into a stage, its steps do not mean
/// the egg for the top.
pub(super) fn is_used(ledger: &Ledger, line: Line, of: Option<usize>, steps: &[StepLine]) -> bool {
    let item = item(ledger, line);
    let of_the_stage = || {
        lines(ledger)
            .into_iter()
            .filter(|other| line.stage.is_none() && other.stage.is_some() && other.stage == of)
            .map(|other| self::item(ledger, other))
            .any(|other| same_word(&short(other), &short(item)) && stands(other, steps))
    };
    let other = || {
        lines(ledger)
            .into_iter()
            .filter(|other| *other != line)
            .map(|other| self::item(ledger, other))
            .any(|other| same_word(&short(other), &short(item)) && stands(other, steps))
    };
    let named = || {
        let name = short(item).replace('-', " ");
        steps.iter().any(|step| has_word(&sentence(step), &name))
    };
    // In the steps of a stage a bare name is of what goes into it: "whole milk" is not the milk for the top.
    let may_be_meant = line.stage.is_some() || of.is_none();
    stands(item, steps) && !of_the_stage() || may_be_meant && named() && !other()
}

fn item(ledger: &Ledger, line: Line) -> &ItemLine {
    match line.stage {
        Some(stage) => &ledger.stages[stage].items[line.at],
        None => &ledger.besides[line.at],
    }
}

/// An item's short name as figures carry it: "butter" in `stage.dough.butter.mass`.
fn short(item: &ItemLine) -> String {
    let figure = item.grams.as_ref().or(item.measure.as_ref());
    let of_figure = figure.and_then(|figure| figure.name.rsplit('.').nth(1));
    of_figure.unwrap_or(&item.name).to_owned()
}

/// Whether the sentences give this line's amount: `step.6.butter.used` with its grams.
fn stands(item: &ItemLine, steps: &[StepLine]) -> bool {
    let name = short(item);
    let amounts = || [&item.grams, &item.measure].into_iter().flatten();
    let runs = steps.iter().flat_map(|step| &step.runs);
    runs.filter_map(|run| match run {
        Run::Figure(figure) => Some(figure),
        Run::Words(_) => None,
    })
    .filter(|figure| figure.name.split('.').any(|part| part == name))
    .any(|figure| amounts().any(|amount| amount.shown == figure.shown))
}

/// Whether two names are one word, one of them in the plural: "egg" and "eggs".
fn same_word(one: &str, other: &str) -> bool {
    let single = |name: &str| name.strip_suffix('s').unwrap_or(name).to_owned();
    single(one) == single(other)
}

/// Whether a name stands in a text, its last word in any number: "egg" in "3 large eggs".
fn has_word(text: &str, name: &str) -> bool {
    let (text, name) = (text.to_lowercase(), name.to_lowercase());
    text.match_indices(&name)
        .any(|(at, _)| !text[..at].ends_with(char::is_alphabetic))
}

#[cfg(test)]
mod tests {
    use super::{has_word, same_word};

    #[test]
    fn a_name_is_found_in_any_number_and_not_inside_another() {
        assert!(has_word("Beat the Eggs in", "egg"));
        assert!(!has_word("a little buttermilk", "milk"));
        assert!(has_word("the waking milk", "waking milk"));
    }

    #[test]
    fn eggs_for_the_dough_are_not_the_egg_for_the_top() {
        assert!(same_word("egg", "eggs"));
        assert!(!same_word("egg", "egg wash"));
    }
}
