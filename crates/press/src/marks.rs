//! The marks and words that tell margin lines apart without colour, and where figures stand in
//! what a line prints.

use edit::ledger::model::{Figure, Ledger, MarginKind};

/// The kinds in the order in which a key explains them.
pub const KINDS: [MarginKind; 6] = [
    MarginKind::Time,
    MarginKind::Heat,
    MarginKind::Cold,
    MarginKind::Cue,
    MarginKind::How,
    MarginKind::Here,
];

/// The mark where only letters can be set; every one is in the common character set WGL4.
pub const fn sign(kind: MarginKind) -> char {
    match kind {
        MarginKind::Time => '○',
        MarginKind::Heat => '▲',
        MarginKind::Cold => '▼',
        MarginKind::Cue => '→',
        MarginKind::How => '·',
        MarginKind::Here => '⌂',
    }
}

/// What the mark means, as a key says it and a screen reader reads it.
pub const fn word(kind: MarginKind) -> &'static str {
    match kind {
        MarginKind::Time => "time",
        MarginKind::Heat => "heat",
        MarginKind::Cold => "cold or liquid",
        MarginKind::Cue => "the sign to go by",
        MarginKind::How => "how",
        MarginKind::Here => "in this kitchen",
    }
}

/// The kinds that a ledger's margin uses, in the key's order.
pub fn used(ledger: &Ledger) -> Vec<MarginKind> {
    let lines = || {
        ledger
            .sections
            .iter()
            .flat_map(|s| &s.steps)
            .flat_map(|s| &s.margin)
    };
    KINDS
        .into_iter()
        .filter(|&kind| lines().any(|line| line.kind == kind))
        .collect()
}

/// A stretch of a printed line: words, or a figure to be kept whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece<'a> {
    /// Words.
    Words(&'a str),
    /// A figure as printed.
    Figure(&'a str),
}

/// Cuts a printed line at its figures; put together the pieces are the line again.
pub fn pieces<'a>(shown: &'a str, figures: &[Figure]) -> Vec<Piece<'a>> {
    let mut out = Vec::new();
    let mut rest = shown;
    loop {
        // The first figure in the rest; of two that begin together the longer.
        let next = figures
            .iter()
            .filter(|figure| !figure.shown.is_empty())
            .filter_map(|figure| rest.find(&figure.shown).map(|at| (at, figure.shown.len())))
            .min_by_key(|&(at, length)| (at, usize::MAX - length));
        let Some((at, length)) = next else { break };
        if at > 0 {
            out.push(Piece::Words(&rest[..at]));
        }
        out.push(Piece::Figure(&rest[at..at + length]));
        rest = &rest[at + length..];
    }
    if !rest.is_empty() {
        out.push(Piece::Words(rest));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{KINDS, Piece, pieces, sign, used, word};
    use edit::ledger::model::Figure;
    use recipe::provenance::{Had, Origin};

    fn figure(shown: &str) -> Figure {
        Figure {
            name: String::new(),
            value: 0.0,
            unit: "1",
            shown: shown.to_owned(),
            origin: Origin::new("test", Had::Written),
        }
    }

    #[test]
    fn a_line_is_cut_at_its_figures() {
        let cut = pieces(
            "look from 8 min, 8–10 min in all",
            &[figure("8 min"), figure("8–10 min")],
        );
        assert_eq!(
            cut,
            [
                Piece::Words("look from "),
                Piece::Figure("8 min"),
                Piece::Words(", "),
                Piece::Figure("8–10 min"),
                Piece::Words(" in all"),
            ]
        );
    }

    #[test]
    fn a_line_without_its_figure_stays_whole() {
        assert_eq!(pieces("a dent fills slowly", &[figure("2 min")]).len(), 1);
        assert_eq!(pieces("", &[]), []);
    }

    #[test]
    fn no_two_kinds_share_a_mark_or_a_word() {
        for (index, &kind) in KINDS.iter().enumerate() {
            for &other in &KINDS[index + 1..] {
                assert_ne!(sign(kind), sign(other));
                assert_ne!(word(kind), word(other));
            }
        }
    }

    #[test]
    fn the_sample_fills_every_kind() {
        assert_eq!(used(&crate::sample::ledger()), KINDS);
    }
}
