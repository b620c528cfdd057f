//! Every paper that goes out of a recipe, each by a short word and the name of its file.

mod practical;
mod revised;

use edit::ledger::model::{Ledger, PatternKind};

use crate::bench::{self, BenchSize};
use crate::card::{self, CardSize};
use crate::pdf::wording::Wording;
use crate::pdf::{Laid, PdfFault};
use crate::shopping::ListSize;
use crate::{bowl_labels, patterns, shopping};

/// Paper as it lies in a printer at home.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sheet {
    /// ISO 216 A4, 210 × 297 mm.
    A4,
    /// US letter, 8½ × 11 in.
    Letter,
}

impl Sheet {
    /// Width and height in millimetres.
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

/// A paper: what is on it and what it is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Paper {
    /// A set of cards by stage and product, ISO 216 A6 across, 148 × 105 mm.
    CardA6,
    /// The same on index cards, 6 × 4 in across.
    Card4x6In,
    /// The whole recipe on cards of 5 × 7 in.
    Card5x7In,
    /// The whole recipe on A5.
    CardA5,
    /// The whole recipe on half a US letter, 5½ × 8½ in.
    CardHalfLetter,
    /// Amounts beside the method on US letter.
    CardLetter,
    /// Amounts beside the method on A4.
    CardA4,
    /// Every step large, to be read at arm's length, on A4.
    BenchA4,
    /// The same on US letter.
    BenchLetter,
    /// A4 across with two A5 cards and cut marks.
    SheetA4Of2A5,
    /// A4 across with four A6 cards and cut marks.
    SheetA4Of4A6,
    /// US letter across with two half-letter cards and cut marks.
    SheetLetterOf2HalfLetter,
    /// US letter with two 4 × 6 in cards and cut marks.
    SheetLetterOf2Cards4x6In,
    /// What to buy for one batch.
    Shopping(ListSize),
    /// Labels for bowls and trays, with cut lines.
    BowlLabels(Sheet),
    /// Patterns at true size.
    Pattern(PatternKind, Sheet),
}

/// What a paper has on it.
#[derive(Clone, Copy, PartialEq)]
enum Holds {
    /// Cards, alone or several on a sheet.
    Cards(CardSize),
    Bench(BenchSize),
    Shopping(ListSize),
    BowlLabels(Sheet),
    Pattern(PatternKind, Sheet),
}

impl Paper {
    /// Every paper, cards first, small before large.
    pub const ALL: [Self; 26] = [
        Self::CardA6,
        Self::Card4x6In,
        Self::Card5x7In,
        Self::CardA5,
        Self::CardHalfLetter,
        Self::CardLetter,
        Self::CardA4,
        Self::BenchA4,
        Self::BenchLetter,
        Self::SheetA4Of2A5,
        Self::SheetA4Of4A6,
        Self::SheetLetterOf2HalfLetter,
        Self::SheetLetterOf2Cards4x6In,
        Self::Shopping(ListSize::A5),
        Self::Shopping(ListSize::A4),
        Self::Shopping(ListSize::Letter),
        Self::BowlLabels(Sheet::A4),
        Self::BowlLabels(Sheet::Letter),
        Self::Pattern(PatternKind::Lining, Sheet::A4),
        Self::Pattern(PatternKind::Lining, Sheet::Letter),
        Self::Pattern(PatternKind::Dough, Sheet::A4),
        Self::Pattern(PatternKind::Dough, Sheet::Letter),
        Self::Pattern(PatternKind::Ring, Sheet::A4),
        Self::Pattern(PatternKind::Ring, Sheet::Letter),
        Self::Pattern(PatternKind::Level, Sheet::A4),
        Self::Pattern(PatternKind::Level, Sheet::Letter),
    ];

    /// What is made when nothing else is asked for.
    pub const USUAL: [Self; 2] = [Self::CardA5, Self::BenchA4];

    /// Short word to ask for it: "a6", "4x6in", "bench-a4".
    pub const fn word(self) -> &'static str {
        match self {
            Self::CardA6 => "a6",
            Self::Card4x6In => "4x6in",
            Self::Card5x7In => "5x7in",
            Self::CardA5 => "a5",
            Self::CardHalfLetter => "half-letter",
            Self::CardLetter => "letter",
            Self::CardA4 => "a4",
            Self::BenchA4 => "bench-a4",
            Self::BenchLetter => "bench-letter",
            Self::SheetA4Of2A5 => "2-a5-on-a4",
            Self::SheetA4Of4A6 => "4-a6-on-a4",
            Self::SheetLetterOf2HalfLetter => "2-half-letter-on-letter",
            Self::SheetLetterOf2Cards4x6In => "2-4x6in-on-letter",
            Self::Shopping(size) => practical::shopping_word(size),
            Self::BowlLabels(sheet) => practical::labels_word(sheet),
            Self::Pattern(kind, sheet) => practical::pattern_word(kind, sheet),
        }
    }

    /// The paper that a word asks for.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|paper| paper.word() == word)
    }

    /// Name of its file: "card-a6.pdf", "bench-a4.pdf", "sheet-2-a5-on-a4.pdf".
    pub fn file_name(self) -> String {
        let word = self.word();
        match self {
            Self::BenchA4
            | Self::BenchLetter
            | Self::Shopping(_)
            | Self::BowlLabels(_)
            | Self::Pattern(..) => format!("{word}.pdf"),
            Self::SheetA4Of2A5
            | Self::SheetA4Of4A6
            | Self::SheetLetterOf2HalfLetter
            | Self::SheetLetterOf2Cards4x6In => format!("sheet-{word}.pdf"),
            _ => format!("card-{word}.pdf"),
        }
    }

    /// The paper that a file of this name holds.
    pub fn of_file(name: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|paper| paper.file_name() == name)
    }

    /// What it is, for a list to choose from: "card, A5".
    pub const fn said(self) -> &'static str {
        match self {
            Self::CardA6 => "cards by stage and piece, A6",
            Self::Card4x6In => "cards by stage and piece, 6 × 4 in",
            Self::Card5x7In => "card, 5 × 7 in",
            Self::CardA5 => "card, A5",
            Self::CardHalfLetter => "card, half letter",
            Self::CardLetter => "amounts beside method, letter",
            Self::CardA4 => "amounts beside method, A4",
            Self::BenchA4 => "bench sheet, A4",
            Self::BenchLetter => "bench sheet, letter",
            Self::SheetA4Of2A5 => "two A5 cards on A4, to cut",
            Self::SheetA4Of4A6 => "four A6 cards on A4, to cut",
            Self::SheetLetterOf2HalfLetter => "two half-letter cards, to cut",
            Self::SheetLetterOf2Cards4x6In => "two 6 × 4 in cards, to cut",
            Self::Shopping(size) => practical::shopping_said(size),
            Self::BowlLabels(sheet) => practical::labels_said(sheet),
            Self::Pattern(kind, sheet) => practical::pattern_said(kind, sheet),
        }
    }

    /// Width and height of a page in millimetres, as it is read.
    pub const fn size_mm(self) -> (f64, f64) {
        const A4: (f64, f64) = (210.0, 297.0);
        const LETTER: (f64, f64) = (215.9, 279.4);
        match self {
            Self::CardA6 => (148.0, 105.0),
            Self::Card4x6In => (152.4, 101.6),
            Self::Card5x7In => (127.0, 177.8),
            Self::CardA5 => (148.0, 210.0),
            Self::CardHalfLetter => (139.7, 215.9),
            Self::CardA4 | Self::BenchA4 => A4,
            Self::CardLetter | Self::BenchLetter | Self::SheetLetterOf2Cards4x6In => LETTER,
            Self::SheetA4Of2A5 | Self::SheetA4Of4A6 => (A4.1, A4.0),
            Self::SheetLetterOf2HalfLetter => (LETTER.1, LETTER.0),
            Self::Shopping(size) => size.size_mm(),
            Self::BowlLabels(sheet) | Self::Pattern(_, sheet) => sheet.size_mm(),
        }
    }

    /// What is on it.
    const fn holds(self) -> Holds {
        match self {
            Self::CardA6 | Self::SheetA4Of4A6 => Holds::Cards(CardSize::A6),
            Self::Card4x6In | Self::SheetLetterOf2Cards4x6In => Holds::Cards(CardSize::In4x6),
            Self::Card5x7In => Holds::Cards(CardSize::In5x7),
            Self::CardA5 | Self::SheetA4Of2A5 => Holds::Cards(CardSize::A5),
            Self::CardHalfLetter | Self::SheetLetterOf2HalfLetter => {
                Holds::Cards(CardSize::HalfLetter)
            }
            Self::CardLetter => Holds::Cards(CardSize::Letter),
            Self::CardA4 => Holds::Cards(CardSize::A4),
            Self::BenchA4 => Holds::Bench(BenchSize::A4),
            Self::BenchLetter => Holds::Bench(BenchSize::Letter),
            Self::Shopping(size) => Holds::Shopping(size),
            Self::BowlLabels(sheet) => Holds::BowlLabels(sheet),
            Self::Pattern(kind, sheet) => Holds::Pattern(kind, sheet),
        }
    }

    /// Its cards as they lie on it.
    fn of_cards(self, cards: Laid) -> Laid {
        let (across, down) = match self {
            Self::SheetA4Of2A5 | Self::SheetLetterOf2HalfLetter => (2, 1),
            Self::SheetA4Of4A6 => (2, 2),
            Self::SheetLetterOf2Cards4x6In => (1, 2),
            _ => return cards,
        };
        cards.on_sheets(self.size_mm(), across, down)
    }

    /// Why a recipe has nothing for this paper; none when it has.
    pub fn why_not(self, ledger: &Ledger) -> Option<String> {
        match self {
            Self::Pattern(kind, _) => ledger.patterns.why_none(kind).map(str::to_owned),
            Self::BowlLabels(_) if ledger.bowl_labels.is_empty() => {
                Some("No stage stands in a bowl.".to_owned())
            }
            Self::Shopping(_) if ledger.shopping.groups.is_empty() => {
                Some("There is nothing to buy.".to_owned())
            }
            _ => None,
        }
    }
}

/// Papers in batches that are made together: cards are set once for their own paper and for the
/// sheet to cut.
pub fn batches(papers: &[Paper]) -> Vec<Vec<Paper>> {
    let mut batches: Vec<Vec<Paper>> = vec![];
    for &paper in papers {
        let shares = |batch: &&mut Vec<Paper>| {
            let same = |other: &Paper| other.holds() == paper.holds();
            batch.iter().any(same)
        };
        match batches.iter_mut().find(shares) {
            Some(batch) => batch.push(paper),
            None => batches.push(vec![paper]),
        }
    }
    batches
}

/// The papers of a batch, each as `make` makes it.
pub fn make_batch(ledger: &Ledger, batch: &[Paper]) -> Vec<Result<Vec<u8>, PdfFault>> {
    let shared = match batch {
        [first, _, ..] => match first.holds() {
            Holds::Cards(size) => Some(cards(ledger, size)),
            _ => None,
        },
        _ => None,
    };
    let one = |paper: &Paper| match &shared {
        Some(Ok(cards)) => paper.of_cards(cards.clone()).export(),
        Some(Err(fault)) => Err(fault.clone()),
        None => make(ledger, *paper),
    };
    batch.iter().map(one).collect()
}

fn cards(ledger: &Ledger, size: CardSize) -> Result<Laid, PdfFault> {
    card::laid(ledger, &checked(ledger)?, size)
}

/// The ledger's strings, all of which can be printed.
fn checked(ledger: &Ledger) -> Result<Wording, PdfFault> {
    let wording = Wording::of(ledger);
    wording.check()?;
    Ok(wording)
}

/// The paper as PDF/UA-1, the same bytes for the same ledger.
pub fn make(ledger: &Ledger, paper: Paper) -> Result<Vec<u8>, PdfFault> {
    laid(ledger, paper)?.export()
}

/// The paper as it is set.
pub(crate) fn laid(ledger: &Ledger, paper: Paper) -> Result<Laid, PdfFault> {
    if let Some(why) = paper.why_not(ledger) {
        return Err(PdfFault::NothingToPrint(why));
    }
    match paper.holds() {
        Holds::Cards(size) => Ok(paper.of_cards(cards(ledger, size)?)),
        Holds::Bench(size) => bench::laid(&checked(ledger)?, size),
        Holds::Shopping(size) => shopping::of_ledger(ledger, size),
        Holds::BowlLabels(sheet) => bowl_labels::laid(ledger, sheet.size_mm()),
        Holds::Pattern(kind, sheet) => patterns::laid(ledger, kind, sheet.size_mm()),
    }
}

#[cfg(test)]
mod tests {
    use super::{Paper, batches, make, make_batch};
    use crate::sample;

    #[test]
    fn a_batch_gives_the_bytes_that_each_paper_gives_alone() {
        let ledger = sample::ledger();
        let papers = [
            Paper::CardA6,
            Paper::CardA5,
            Paper::BenchA4,
            Paper::SheetA4Of2A5,
            Paper::SheetA4Of4A6,
        ];
        let batches = batches(&papers);
        assert_eq!(
            batches,
            [
                vec![Paper::CardA6, Paper::SheetA4Of4A6],
                vec![Paper::CardA5, Paper::SheetA4Of2A5],
                vec![Paper::BenchA4],
            ]
        );
        for batch in batches {
            let made = make_batch(&ledger, &batch);
            for (paper, bytes) in batch.into_iter().zip(made) {
                assert!(bytes == make(&ledger, paper), "{}", paper.word());
            }
        }
    }
}
