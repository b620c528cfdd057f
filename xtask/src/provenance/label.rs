//! How a figure was had, as a word of its comment or of a table says it.

/// How a figure was had.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Label {
    /// From memory of a text or of the trade.
    Memory,
    /// A habit of the trade without a source.
    CommonPractice,
    /// Read in a text that quotes the source.
    SecondHand,
    /// Fitted here so that something measured is met.
    Fitted,
    /// Read in the source.
    Read,
    /// A number that a law sets.
    Law,
    /// By definition.
    Exact,
    /// Worked out here from figures that have sources of their own.
    Derived,
    /// By the heading `Source` of its file.
    ByItsPage,
    /// A choice of ours: what is worth a word, where a rule begins to speak.
    Ours,
    /// Of a numerical method.
    Method,
}

impl Label {
    /// Every label, those first that no source was read for.
    pub const ALL: [Self; 11] = [
        Self::Memory,
        Self::CommonPractice,
        Self::SecondHand,
        Self::Fitted,
        Self::Read,
        Self::Law,
        Self::Exact,
        Self::Derived,
        Self::ByItsPage,
        Self::Ours,
        Self::Method,
    ];

    /// The word of the table.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Memory => "memory",
            Self::CommonPractice => "common practice",
            Self::SecondHand => "second-hand",
            Self::Fitted => "fitted",
            Self::Read => "read",
            Self::Law => "law",
            Self::Exact => "exact",
            Self::Derived => "derived",
            Self::ByItsPage => "by the file's heading Source",
            Self::Ours => "ours",
            Self::Method => "method",
        }
    }

    /// What it means, for whoever reads the page.
    pub const fn means(self) -> &'static str {
        match self {
            Self::Memory => "from memory of a text or of the trade, not read",
            Self::CommonPractice => "a habit of the trade without a source",
            Self::SecondHand => "read in a text that quotes the source",
            Self::Fitted => "fitted here so that something measured is met",
            Self::Read => "read in the source that stands beside it",
            Self::Law => "a number that a law or a standard sets",
            Self::Exact => "by definition",
            Self::Derived => "worked out here from figures with sources of their own",
            Self::ByItsPage => {
                "told by the heading Source of its file, and on its page in `docs/models/`"
            }
            Self::Ours => "a choice of ours: what is worth a word, where a rule begins to speak",
            Self::Method => "of a numerical method",
        }
    }

    /// The label of a word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|label| label.word() == word)
    }

    /// Whether a figure of the world stands here that nobody of us has read in a source.
    pub const fn is_not_read(self) -> bool {
        matches!(
            self,
            Self::Memory | Self::CommonPractice | Self::SecondHand | Self::Fitted
        )
    }

    /// The label that a comment says; the weakest of several.
    pub fn of_comment(comment: &str) -> Option<Self> {
        const SAYS: [(&str, Label); 19] = [
            ("from memory", Label::Memory),
            ("memory", Label::Memory),
            ("placeholder", Label::Memory),
            ("common practice", Label::CommonPractice),
            ("second-hand", Label::SecondHand),
            ("fitted", Label::Fitted),
            ("read)", Label::Read),
            ("(read", Label::Read),
            (", read", Label::Read),
            ("cfr", Label::Law),
            ("annex", Label::Law),
            ("wcag", Label::Law),
            ("worked out", Label::Derived),
            ("derived", Label::Derived),
            ("by definition", Label::Exact),
            ("(exact", Label::Exact),
            ("(ours", Label::Ours),
            ("our own choice", Label::Ours),
            ("judgement", Label::Ours),
        ];
        let small = comment.to_lowercase();
        let said = SAYS.iter().find(|(word, _)| small.contains(word));
        said.map(|(_, label)| *label)
    }
}

/// A row of the page.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Row {
    /// File, from `crates/`.
    pub place: String,
    /// The figure's name, or the table's.
    pub name: String,
    /// How many figures it stands for.
    pub figures: usize,
    /// How they were had.
    pub label: Label,
    /// What its comment, or the table of labels, says of where it is from.
    pub says: String,
}
