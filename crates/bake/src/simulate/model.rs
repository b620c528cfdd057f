//! What happens, as plain values: every step with its time and its end, every dough through the day.

use numerics::quantity::{Duration, Fraction, Mass, Range, Temperature};
use recipe::provenance::Had;

/// How a cook follows the written words when clock and cue disagree.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Follows {
    /// The written minutes, whatever the dough looks like.
    Clock,
    /// The cue, however long it takes (up to four times the longest written time).
    #[default]
    Cue,
    /// Whichever comes first.
    First,
}

/// How finely a section is cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grid {
    /// For ten thousand kitchens, each held against a bread that is followed on this grid too.
    Rough,
    /// For a page, and for what is tried often.
    Coarse,
    /// For one.
    #[default]
    Usual,
    /// For comparison.
    Fine,
}

/// How far a day is followed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Through {
    /// To the last product cool.
    #[default]
    Everything,
    /// Until the bread comes out: cooling has its written time.
    Bakes,
    /// To the oven's door: bakes and what comes after have their written times.
    Rises,
}

impl Grid {
    /// How many times as long a step of time is as on the usual grid.
    pub const fn strides(self) -> f64 {
        match self {
            Self::Rough => 4.0,
            Self::Coarse => 2.0,
            Self::Usual | Self::Fine => 1.0,
        }
    }

    /// Seconds of a step of heat in a rise that is written as so long. A hundred steps a rise: what moves in it takes
    /// as long as the rise itself; a quarter of them on the rough grid.
    pub fn in_a_rise(self, usual_s: f64) -> f64 {
        match self {
            Self::Rough => (usual_s / 25.0).clamp(80.0, 900.0),
            _ => (usual_s / 100.0).clamp(10.0, 60.0) * self.strides(),
        }
    }

    /// Seconds of a step in the oven, how many of them lie between two looks at what bakes, and after how many
    /// looks yeast, gas and colour are moved on.
    pub const fn in_the_oven(self) -> (f64, f64, u32) {
        match self {
            Self::Rough => (30.0, 1.0, 1),
            Self::Coarse => (5.0, 2.0, 2),
            Self::Usual | Self::Fine => (2.5, 2.0, 2),
        }
    }
}

/// How a run is done.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct How {
    /// What ends a step.
    pub follows: Follows,
    /// How finely sections are cut.
    pub grid: Grid,
    /// The factors by which the tested bakes move the constants.
    pub anchor: Anchor,
    /// How far the day is followed.
    pub through: Through,
    /// What the dough of the products read after its mix, where somebody measured it; otherwise it is
    /// worked out.
    pub dough: Option<Temperature>,
    /// No bread comes out before its shortest written time, whatever its sign says.
    pub no_sooner: bool,
}

/// Factors on constants, had from a recipe's own tested bakes; one where nothing is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Anchor {
    /// On the yeast's gassing power.
    pub vigour: f64,
    /// On the part of the conductivity that is vapour moving from cell to cell.
    pub vapour: f64,
    /// On the rate of browning.
    pub browning: f64,
    /// How steeply the yeast answers to warmth: its rate against 30 °C to this power. No tested bake moves it.
    pub warmth: f64,
}

impl Default for Anchor {
    fn default() -> Self {
        Self {
            vigour: 1.0,
            vapour: 1.0,
            browning: 1.0,
            warmth: 1.0,
        }
    }
}

/// What the tested bakes had to say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Anchored {
    /// How many tested bakes had something to say; none: the recipe is not anchored.
    pub bakes: usize,
    /// The factors.
    pub factors: Anchor,
    /// Which of them were moved, with the figure that moved each, in words.
    pub moved: Vec<String>,
    /// Each tested figure beside what the run gives: what, tested, worked out, met or not.
    pub compared: Vec<Compared>,
    /// How many runs it took: counted, not timed.
    pub runs: usize,
}

/// A tested figure and the same one worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// What: "minutes of the bake, braid".
    pub what: String,
    /// As tested, SI.
    pub tested: f64,
    /// As worked out, SI.
    pub worked_out: f64,
    /// The SI unit of both.
    pub unit: &'static str,
    /// Whether they agree within what such a figure is good for.
    pub met: bool,
}

/// What happens in one kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// Its name.
    pub kitchen: String,
    /// What the tested bakes had to say.
    pub anchored: Anchored,
    /// One for each written step, in the order in which a page numbers them: stages, then products.
    pub steps: Vec<StepCourse>,
    /// Every dough and every piece, from its mixing on.
    pub doughs: Vec<DoughCourse>,
    /// Minutes and kills that matter for safety.
    pub safety: Vec<Safety>,
    /// What it took to work it out.
    pub work: Work,
}

/// A step as it goes in this kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct StepCourse {
    /// Its number on the page, from 1.
    pub number: usize,
    /// The stage or product it belongs to.
    pub of: String,
    /// When it begins, from the first step of the day on which its dough is mixed.
    pub begins: Duration,
    /// How long it takes as this cook follows it.
    pub lasts: Duration,
    /// The usual time as written.
    pub written: Option<Duration>,
    /// From and to, as written.
    pub written_range: Option<Range<Duration>>,
    /// When the cue is reached, from the beginning of the step; none when it has no measurable cue,
    /// or does not reach it within the limit.
    pub cue_after: Option<Duration>,
    /// What ended it.
    pub ended: Ended,
    /// Mean temperature of the dough at its end; none where there is no dough yet.
    pub dough: Option<Temperature>,
    /// Of a dough that stands, the middle and the mean of its outer 2 cm at the step's end.
    pub within: Option<Within>,
    /// Volume against the start of the step.
    pub grown: f64,
    /// What happens in it, in order.
    pub events: Vec<Event>,
}

/// How warm a dough is inside and near its outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Within {
    /// In the middle.
    pub middle: Temperature,
    /// Mean of what lies no deeper than 2 cm.
    pub outer: Temperature,
}

/// What ended a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ended {
    /// The written time.
    Clock,
    /// The cue.
    Cue,
    /// Neither came before the limit.
    Limit,
}

/// Something that happens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Event {
    /// When, from the beginning of the step.
    pub after: Duration,
    /// What.
    pub what: Happening,
}

/// What can happen to a dough.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Happening {
    /// Woken yeast stands in foam.
    Foamed,
    /// The volume is so many times that of the step's beginning.
    Grown(f64),
    /// The gas begins to leave faster than it is made.
    PastItsBest,
    /// The middle has this temperature.
    Middle(Temperature),
    /// The outside has this temperature.
    Outside(Temperature),
    /// Butter in the dough is past the window in which it is soft and holds.
    ButterOily,
    /// The yeast has died (nine of ten cells).
    YeastDead,
    /// The crumb no longer moves.
    CrumbSet,
    /// The crust is pale gold (L* 80), golden (75) or brown (70).
    Crust(Shade),
    /// Cool enough to slice.
    Sliceable,
    /// Cool enough to wrap.
    Wrappable,
    /// The dough stands over the rim of what it is in.
    OverTheRim,
}

/// How dark a crust is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shade {
    /// L* 80.
    Pale,
    /// L* 75.
    Golden,
    /// L* 70.
    Brown,
    /// L* 50.
    Dark,
}

impl Shade {
    /// Every shade, from pale on.
    pub const ALL: [Self; 4] = [Self::Pale, Self::Golden, Self::Brown, Self::Dark];

    /// The lightness from which a crust is taken to have it, L* (80, 75 and 70 are the ends at which
    /// Purlis and Salvadori stop their bakes, from memory; 50 for a dark crust is ours).
    pub const fn lightness(self) -> f64 {
        match self {
            Self::Pale => 80.0,
            Self::Golden => 75.0,
            Self::Brown => 70.0,
            Self::Dark => 50.0,
        }
    }
}

/// One dough, or one piece of a product, through the day.
#[derive(Clone, Debug, PartialEq)]
pub struct DoughCourse {
    /// The stage or product.
    pub of: String,
    /// Mass of the body that is followed: the whole dough, or one piece.
    pub mass: Mass,
    /// A product's pieces; none for a stage.
    pub piece: bool,
    /// Moments at even steps, at most about three hundred, the first at the start and one at each
    /// step's end.
    pub moments: Vec<Moment>,
    /// Sections through a piece in the oven at chosen minutes, for a drawing.
    pub sections: Vec<SectionView>,
}

/// A dough at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// From the first step of its day.
    pub at: Duration,
    /// Number of the step it is in.
    pub step: usize,
    /// Air around it: room, refrigerator, warm place, oven.
    pub air: Temperature,
    /// Middle.
    pub middle: Temperature,
    /// Mean.
    pub mean: Temperature,
    /// Skin or crust.
    pub outside: Temperature,
    /// Volume against the dough without gas.
    pub volume: f64,
    /// Lightness of the crust, L*; 85 and more is dough.
    pub lightness: f64,
    /// Share of the raw mass that has left as vapour.
    pub lost: Fraction,
}

/// A section at one moment: cells as they lie, swollen.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionView {
    /// From the moment it went in.
    pub after: Duration,
    /// Whether it is a body of revolution (a half prism otherwise).
    pub round: bool,
    /// Edges from the middle outward, m.
    pub across_m: Vec<f64>,
    /// Edges from the bottom up, m.
    pub up_m: Vec<f64>,
    /// Temperature of each cell, rows from the bottom up, °C.
    pub celsius: Vec<f64>,
    /// Dry share of each cell: 1 is crust.
    pub dry: Vec<f64>,
}

/// A count that matters for safety.
#[derive(Clone, Debug, PartialEq)]
pub struct Safety {
    /// Which product.
    pub of: String,
    /// What is counted, in plain words.
    pub what: &'static str,
    /// The count, SI.
    pub value: f64,
    /// Its SI unit.
    pub unit: &'static str,
    /// The count is more than `value`, which is as far as anybody has measured.
    pub more_than: bool,
    /// The line that it is held against, SI; none where nobody draws one.
    pub line: Option<f64>,
    /// Whether it is on the wrong side of that line.
    pub past: bool,
    /// Whether being past it is a warning, or is told for information.
    pub weight: Weight,
    /// Who draws the line.
    pub source: &'static str,
    /// How the line was had.
    pub had: Had,
    /// What to do, and what to know with it.
    pub says: &'static str,
    /// Who decides.
    pub defers: &'static str,
}

/// How much it weighs that a count is past its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// For information.
    Tells,
    /// A warning.
    Warns,
}

/// What a run took: counted, not timed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// Steps of time.
    pub steps: u64,
    /// Cells moved on by one step, in all.
    pub cell_steps: u64,
}

impl Work {
    /// Both together.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self {
            steps: self.steps + other.steps,
            cell_steps: self.cell_steps + other.cell_steps,
        }
    }
}
