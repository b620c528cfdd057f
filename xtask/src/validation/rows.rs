//! One line of the page: what, who published it, what they have, what is found here, the miss.

/// What a line is good for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Against arithmetic done elsewhere: a series, another code, a worked example.
    Verification,
    /// Against something measured or done by others, which set no constant here.
    Validation,
    /// Against the figure that set a constant: it shows the fit, it proves nothing.
    Calibration,
    /// Against what cooks hold to be so: common practice, no source.
    Plausibility,
}

impl Kind {
    /// All of them, in the order of the page.
    pub const ALL: [Self; 4] = [
        Self::Verification,
        Self::Validation,
        Self::Calibration,
        Self::Plausibility,
    ];

    /// In a word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Verification => "verification",
            Self::Validation => "validation",
            Self::Calibration => "calibration",
            Self::Plausibility => "plausibility",
        }
    }
}

/// A figure or a range that somebody gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Published {
    /// One figure.
    One(f64),
    /// From and to.
    Between(f64, f64),
}

/// One line.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is good for.
    pub kind: Kind,
    /// What, with its conditions; no two lines have the same.
    pub what: String,
    /// Who says so, and whether it was read.
    pub source: &'static str,
    /// What they have.
    pub published: Published,
    /// What is found here; none when it does not happen at all.
    pub ours: Option<f64>,
    /// The unit of both.
    pub unit: &'static str,
    /// Digits after the point.
    pub decimals: usize,
    /// How far off still counts as met: what the published figure is good for.
    pub good_to: f64,
}

impl Row {
    /// How far off, zero inside a range.
    pub fn miss(&self) -> Option<f64> {
        self.ours.map(|ours| match self.published {
            Published::One(figure) => ours - figure,
            Published::Between(low, _) if ours < low => ours - low,
            Published::Between(_, high) => (ours - high).max(0.0),
        })
    }

    /// Whether it is farther off than the published figure is good for.
    pub fn is_missed(&self) -> bool {
        self.miss()
            .is_none_or(|miss| miss.abs() > self.good_to * (1.0 + 1e-9))
    }
}

/// Lines of one kind that share a source, a unit and how good they are.
pub struct Lines<'a> {
    /// Kind of all.
    pub kind: Kind,
    /// Source of all.
    pub source: &'static str,
    /// Unit of all.
    pub unit: &'static str,
    /// Digits of all.
    pub decimals: usize,
    /// What they are good for.
    pub good_to: f64,
    /// Where they go.
    pub rows: &'a mut Vec<Row>,
}

impl Lines<'_> {
    /// Adds one.
    pub fn add(&mut self, what: impl Into<String>, published: Published, ours: Option<f64>) {
        self.rows.push(Row {
            kind: self.kind,
            what: what.into(),
            source: self.source,
            published,
            ours,
            unit: self.unit,
            decimals: self.decimals,
            good_to: self.good_to,
        });
    }

    /// Adds one with a single figure.
    pub fn one(&mut self, what: impl Into<String>, published: f64, ours: f64) {
        self.add(what, Published::One(published), Some(ours));
    }

    /// Adds one with a range.
    pub fn between(&mut self, what: impl Into<String>, low: f64, high: f64, ours: Option<f64>) {
        self.add(what, Published::Between(low, high), ours);
    }
}

/// A list of lines in the making.
pub fn lines<'a>(
    rows: &'a mut Vec<Row>,
    kind: Kind,
    source: &'static str,
    (unit, decimals, good_to): (&'static str, usize, f64),
) -> Lines<'a> {
    Lines {
        kind,
        source,
        unit,
        decimals,
        good_to,
        rows,
    }
}
