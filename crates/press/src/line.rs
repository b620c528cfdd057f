//! Lines that text and structured data share: an ingredient as one string, a step as one string,
//! and which ingredient lines are things to buy.

use edit::ledger::model::{ItemLine, Ledger, MarginKind, MarginLine, Run, StepLine};

/// Spaces that break nowhere become plain ones, for machines and terminals.
pub fn plain(shown: &str) -> String {
    shown.replace(['\u{a0}', '\u{202f}'], " ")
}

/// What a percentage after a kitchen measure means.
pub const HOW_FAR: &str = "A percentage after a measure says how far it is from the grams.";

/// Whether any kitchen measure has such a percentage.
pub fn says_how_far(ledger: &Ledger) -> bool {
    let items = ledger
        .stages
        .iter()
        .flat_map(|stage| &stage.items)
        .chain(&ledger.besides);
    items.into_iter().any(|item| item.measure_error.is_some())
}

/// "180 g (1 cup + 7 Tbsp) all-purpose flour, at room temperature".
pub fn ingredient(item: &ItemLine) -> String {
    let mut out = String::new();
    match (&item.grams, &item.measure) {
        (Some(grams), Some(measure)) => out = format!("{} ({}) ", grams.shown, measure.shown),
        (Some(only), None) | (None, Some(only)) => out = format!("{} ", only.shown),
        (None, None) => {}
    }
    out.push_str(&item.name);
    for more in [&item.detail, &item.place].into_iter().flatten() {
        out.push_str(", ");
        out.push_str(more);
    }
    out
}

/// What is bought: every item but the stages that go into later ones.
pub fn bought(ledger: &Ledger) -> impl Iterator<Item = &ItemLine> {
    let stage = |item: &&ItemLine| {
        let name = item.name.to_lowercase();
        ledger
            .stages
            .iter()
            .any(|stage| stage.heading.to_lowercase() == name)
    };
    let items = ledger.stages.iter().flat_map(|stage| &stage.items);
    items
        .filter(move |item| !stage(item))
        .chain(&ledger.besides)
}

/// The sentence of a step.
pub fn sentence(step: &StepLine) -> String {
    step.runs
        .iter()
        .map(|run| match run {
            Run::Words(words) => words.as_str(),
            Run::Figure(figure) => figure.shown.as_str(),
        })
        .collect()
}

/// A margin line in words: a cue says "until".
pub fn margin(line: &MarginLine) -> String {
    if until(line) {
        format!("until {}", line.shown)
    } else {
        line.shown.clone()
    }
}

/// Whether a margin line is a cue that does not say "until" by itself.
pub fn until(line: &MarginLine) -> bool {
    line.kind == MarginKind::Cue && !line.shown.starts_with("until ")
}

#[cfg(test)]
mod tests {
    use super::{bought, ingredient, plain};
    use crate::sample;

    #[test]
    fn a_line_reads_as_it_is_printed() {
        let ledger = sample::ledger();
        let lines: Vec<_> = bought(&ledger)
            .map(|item| plain(&ingredient(item)))
            .collect();
        assert_eq!(
            lines[0],
            "180 g (1 cup + 7 Tbsp) all-purpose flour, 11 % protein, at room temperature"
        );
        assert_eq!(lines[10], "15 g (2 Tbsp) all-purpose flour, for the bench");
    }

    #[test]
    fn a_stage_is_not_bought() {
        let ledger = sample::ledger();
        let items = ledger
            .stages
            .iter()
            .map(|stage| stage.items.len())
            .sum::<usize>();
        assert_eq!(bought(&ledger).count(), items - 1 + ledger.besides.len());
        assert!(bought(&ledger).all(|item| item.name != "sponge"));
    }
}
