//! A step: the author's sentence and what can be measured about it.

use super::{Material, Speed, Standing, Tool};
use crate::source::{Located, Span};
use numerics::quantity::{Duration, Length, Range, Temperature};

/// A thing done: the author's sentence and what can be measured about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The author's sentence, with bracketed placeholders.
    pub text: Located<String>,
    /// What is done, measurably.
    pub action: Action,
    /// How one sees that it is done.
    pub until: Option<Until>,
    /// Where it stands.
    pub span: Span,
}

/// How one sees that a step is done: words, and a measurable end.
#[derive(Clone, Debug, PartialEq)]
pub struct Until {
    /// What to look for.
    pub see: Option<Located<String>>,
    /// Volume as a multiple of the start.
    pub volume: Option<Located<f64>>,
    /// Height against the rim: negative is below.
    pub height: Option<Located<Length>>,
    /// Temperature in the middle of bread.
    pub core: Option<Located<Temperature>>,
    /// Temperature of the dough.
    pub dough: Option<Located<Temperature>>,
    /// Where it stands.
    pub span: Span,
}

/// Minutes as written: a usual value and a range.
#[derive(Clone, Debug, PartialEq)]
pub struct Timing {
    /// The usual time.
    pub usual: Located<Duration>,
    /// From and to.
    pub range: Option<Located<Range<Duration>>>,
}

/// What a step does.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Take things out beforehand.
    Ready {
        /// Names of items.
        what: Vec<Located<String>>,
        /// How long before the stage begins.
        before: Located<Duration>,
        /// Hands-on minutes.
        timing: Timing,
    },
    /// Wake yeast in warm liquid.
    Wake {
        /// Name of the yeast item.
        yeast: Located<String>,
        /// Name of the liquid item.
        liquid: Located<String>,
        /// In what.
        vessel: Located<Material>,
        /// How long.
        timing: Timing,
    },
    /// Mix.
    Mix {
        /// With what.
        by: Located<Tool>,
        /// Speeds and minutes, in order.
        phases: Vec<Phase>,
        /// Dough temperature wanted at the end.
        dough: Option<Located<Range<Temperature>>>,
        /// Name of the liquid item whose temperature is to be solved for.
        adjust: Option<Located<String>>,
    },
    /// Heat in a pan.
    Heat {
        /// To what temperature.
        to: Located<Temperature>,
        /// How long.
        timing: Timing,
    },
    /// Let stand: rise, rest, chill, proof.
    Rest {
        /// How long.
        timing: Timing,
        /// At what temperature.
        at: Located<Temperature>,
        /// Where it stands.
        place: Located<Standing>,
        /// In what.
        vessel: Located<String>,
        /// How thick, when it is a slab.
        thick: Option<Located<Length>>,
        /// Covered with what; none when open.
        covered: Option<Located<String>>,
    },
    /// Fold.
    Fold {
        /// Hands-on minutes.
        timing: Timing,
        /// How many minutes into the rest before it; several folds have several.
        into_rest: Vec<Located<Duration>>,
    },
    /// Divide into products.
    Divide {
        /// Names of products.
        into: Vec<Located<String>>,
        /// Hands-on minutes.
        timing: Timing,
    },
    /// Shape.
    Shape {
        /// Hands-on minutes.
        timing: Timing,
    },
    /// Brush, fill, scatter, cut, stir a filling together.
    Finish {
        /// Hands-on minutes.
        timing: Timing,
    },
    /// Heat the oven.
    Preheat {
        /// To what the dial says.
        to: Located<Temperature>,
        /// How long before the bake.
        timing: Timing,
    },
    /// Bake.
    Bake {
        /// Oven settings and minutes, in order.
        phases: Vec<OvenPhase>,
        /// Whether the figures are for an oven with its fan on.
        fan: Located<bool>,
        /// Where in the oven.
        rack: Option<Located<String>>,
        /// Temperature in the middle when it is done.
        core: Option<Located<Temperature>>,
        /// Look for the first time after so long.
        check: Option<Located<Duration>>,
    },
    /// Let cool.
    Cool {
        /// How long.
        timing: Timing,
        /// In or on what.
        vessel: Located<String>,
        /// At what temperature.
        at: Located<Temperature>,
    },
}

impl Action {
    /// The key in a document.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Ready { .. } => "ready",
            Self::Wake { .. } => "wake",
            Self::Mix { .. } => "mix",
            Self::Heat { .. } => "heat",
            Self::Rest { .. } => "rest",
            Self::Fold { .. } => "fold",
            Self::Divide { .. } => "divide",
            Self::Shape { .. } => "shape",
            Self::Finish { .. } => "finish",
            Self::Preheat { .. } => "preheat",
            Self::Bake { .. } => "bake",
            Self::Cool { .. } => "cool",
        }
    }
}

/// So many minutes at one speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Phase {
    /// How fast.
    pub speed: Located<Speed>,
    /// How long.
    pub timing: Timing,
}

/// So many minutes at one oven setting.
#[derive(Clone, Debug, PartialEq)]
pub struct OvenPhase {
    /// What the dial says.
    pub at: Located<Temperature>,
    /// How long.
    pub timing: Timing,
    /// With steam.
    pub steam: Option<Located<bool>>,
    /// Under foil.
    pub foil: Option<Located<bool>>,
}
