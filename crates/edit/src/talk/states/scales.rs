//! The scales along which looks lie: crust, rise, dough, dent, sound, skewer, warmth.
//!
//! Scales and marks are our own choice; the words are the trade's.

use recipe::document::model::{Action, Standing};

/// One scale of looks.
pub(super) struct Scale {
    /// Words with their marks; several words stand apart by a blank.
    pub marks: &'static [(&'static str, f64)],
    /// Marks farther apart than this differ.
    pub apart: f64,
    /// Whether "a little" or "just" before a low mark is a beginning only.
    pub softens: bool,
    /// Whether every word that is said must be like the recipe's, and not only one.
    pub whole: bool,
    /// "No" before a mark at or beyond the first makes the second of it; none where it says nothing.
    pub denied: Option<(f64, f64)>,
    /// One of these words must fall as well, where there are any.
    pub with: &'static [&'static str],
    /// At which steps it is looked at.
    pub at: fn(&Action) -> bool,
}

const fn bakes(action: &Action) -> bool {
    matches!(action, Action::Bake { .. })
}
const fn rises(action: &Action) -> bool {
    matches!(action, Action::Rest { .. } | Action::Wake { .. })
}
const fn mixes(action: &Action) -> bool {
    matches!(
        action,
        Action::Mix { .. } | Action::Finish { .. } | Action::Heat { .. }
    )
}
const fn rests(action: &Action) -> bool {
    matches!(action, Action::Rest { .. })
}
const fn chills(action: &Action) -> bool {
    matches!(action, Action::Rest { place, .. } if matches!(place.value, Standing::Refrigerator))
}
/// A rest of pieces on the bench.
fn bench(action: &Action) -> bool {
    matches!(action, Action::Rest { vessel, .. } if vessel.value == "bench")
}
const fn cools(action: &Action) -> bool {
    matches!(action, Action::Cool { .. })
}

/// Every scale.
pub(super) const SCALES: [Scale; 9] = [
    // The crust, from white to black.
    Scale {
        marks: &[
            ("white", -0.5),
            ("ivory", -0.5),
            ("pale", -0.2),
            ("pallid", -0.2),
            ("blond", 0.2),
            ("blonde", 0.2),
            ("straw", 0.8),
            ("cream", 0.2),
            ("sandy", 0.6),
            ("sand", 0.6),
            ("pale gold", 1.0),
            ("pale golden", 1.0),
            ("light gold", 1.0),
            ("golden", 2.0),
            ("gold", 2.0),
            ("brown", 3.0),
            ("browned", 3.0),
            ("chestnut", 3.5),
            ("mahogany", 4.0),
            ("dark brown", 4.0),
            ("deep brown", 4.0),
            ("dark", 4.0),
            ("black", 5.5),
            ("blackened", 5.5),
            ("charred", 5.5),
            ("burnt", 5.5),
        ],
        apart: 2.1,
        softens: false,
        whole: true,
        denied: None,
        with: &[],
        at: bakes,
    },
    // What yeast has done, from flat to tripled.
    Scale {
        marks: &[
            ("flat", 0.0),
            ("collapsed", 0.0),
            ("sunk", 0.0),
            ("sunken", 0.0),
            ("deflated", 0.0),
            ("shrunk", 0.0),
            ("fall", 1.5),
            ("fallen", 1.0),
            ("falling", 1.5),
            ("sink", 1.5),
            ("sinking", 1.5),
            ("drop", 1.5),
            ("dropping", 1.5),
            ("flatten", 1.5),
            ("flattened", 1.5),
            ("puffed", 2.0),
            ("puffy", 2.0),
            ("risen", 2.3),
            ("grown", 2.3),
            ("same size", 0.0),
            ("hardly moved", 0.0),
            ("barely moved", 0.0),
            ("domed", 2.5),
            ("foam", 3.0),
            ("foamy", 3.0),
            ("froth", 3.0),
            ("frothy", 3.0),
            ("foaming", 3.0),
            ("bubbly", 3.0),
            ("bubble", 3.0),
            ("bubbles", 3.0),
            ("holes", 3.0),
            ("doubled", 3.0),
            ("double", 3.0),
            ("tripled", 4.0),
        ],
        apart: 1.2,
        softens: true,
        whole: false,
        denied: Some((2.0, 0.0)),
        with: &[],
        at: rises,
    },
    // The dough in the mixer, from rough to smooth.
    Scale {
        marks: &[
            ("rough", 0.0),
            ("lumpy", 0.0),
            ("lumps", 0.0),
            ("shaggy", 0.0),
            ("stiff", 0.0),
            ("dry", 0.0),
            ("crumbly", 0.0),
            ("crumbling", 0.0),
            ("cracking", 0.0),
            ("cracked", 0.0),
            ("tears", 0.0),
            ("tear", 0.0),
            ("rips", 0.0),
            ("rip", 0.0),
            ("breaks", 0.0),
            ("break", 0.0),
            ("curdled", 0.0),
            ("dull", 0.5),
            ("smooth", 3.0),
            ("silky", 3.0),
            ("satin", 3.0),
            ("satiny", 3.0),
            ("glossy", 3.0),
            ("shiny", 3.0),
            ("elastic", 3.0),
            ("stretchy", 3.0),
            ("stretches", 3.0),
            ("supple", 3.0),
            ("film", 3.0),
            ("soft", 2.5),
        ],
        apart: 1.6,
        softens: false,
        whole: false,
        denied: Some((1.0, 3.0)),
        with: &[],
        at: mixes,
    },
    // A dent, from one that springs back to one that stays.
    Scale {
        marks: &[
            ("springs", 0.0),
            ("spring", 0.0),
            ("bounces", 0.0),
            ("bounce", 0.0),
            ("vanish", 0.0),
            ("vanishes", 0.0),
            ("flash", 0.0),
            ("straight", 0.0),
            ("instantly", 0.0),
            ("immediately", 0.0),
            ("quickly", 0.0),
            ("fast", 0.0),
            ("at once", 0.0),
            ("slow", 2.5),
            ("slowly", 2.5),
            ("gently", 2.5),
            ("lazily", 2.5),
            ("halfway", 2.5),
            ("creeps", 2.5),
            ("not quite", 2.5),
            ("stays", 5.0),
            ("remains", 5.0),
        ],
        apart: 1.6,
        softens: false,
        whole: false,
        denied: None,
        with: &[
            "dent",
            "dents",
            "poke",
            "press",
            "finger",
            "thumb",
            "fingerprint",
        ],
        at: rests,
    },
    // The sound of a loaf that is knocked on.
    Scale {
        marks: &[
            ("hollow", 3.0),
            ("drum", 3.0),
            ("dull", 0.0),
            ("thud", 0.0),
            ("thump", 0.0),
            ("dead", 0.0),
            ("solid", 0.0),
        ],
        apart: 1.6,
        softens: false,
        whole: false,
        denied: Some((2.0, 0.0)),
        with: &[
            "knock", "knocked", "tap", "tapped", "sound", "sounds", "thump",
        ],
        at: bakes,
    },
    // What clings to a skewer.
    Scale {
        marks: &[
            ("clean", 3.0),
            ("dry", 3.0),
            ("wet", 0.0),
            ("sticky", 0.0),
            ("gooey", 0.0),
            ("smeared", 0.0),
            ("coated", 0.0),
            ("dough", 0.0),
            ("crumb", 0.0),
            ("batter", 0.0),
        ],
        apart: 1.6,
        softens: false,
        whole: false,
        denied: Some((0.0, 3.0)),
        with: &["skewer", "toothpick"],
        at: bakes,
    },
    // A bread on the rack, from hot to cold.
    Scale {
        marks: &[
            ("hot", 4.0),
            ("steaming", 4.0),
            ("scalding", 4.0),
            ("steam", 4.0),
            ("steam's", 4.0),
            ("warm", 2.0),
            ("barely warm", 1.2),
            ("lukewarm", 1.2),
            ("cool", 0.8),
            ("cold", 0.3),
        ],
        apart: 1.6,
        softens: false,
        whole: false,
        denied: Some((3.0, 2.0)),
        with: &[
            "slice",
            "cut",
            "eat",
            "knife",
            "hand",
            "touch",
            "finger",
            "underneath",
        ],
        at: cools,
    },
    // A dough in the cold, from soft to firm.
    Scale {
        marks: &[
            ("sloppy", 0.0),
            ("runny", 0.0),
            ("wobbly", 0.0),
            ("oozes", 0.0),
            ("slumps", 0.0),
            ("flops", 0.0),
            ("floppy", 0.0),
            ("soft", 0.0),
            ("sticky", 0.0),
            ("slack", 0.0),
            ("squidgy", 0.0),
            ("warm", 0.0),
            ("room temperature", 0.0),
            ("firm", 3.0),
            ("firmed", 3.0),
            ("stiff", 3.0),
            ("stiffened", 3.0),
            ("hard", 3.0),
            ("solid", 3.0),
            ("set", 3.0),
            ("cool", 2.5),
            ("cold", 3.0),
            ("chilled", 3.0),
        ],
        apart: 1.6,
        softens: false,
        whole: false,
        denied: Some((0.0, 3.0)),
        with: &[],
        at: chills,
    },
    // Pieces that have rested, from tight to slack.
    Scale {
        marks: &[
            ("tight", 0.0),
            ("ping", 0.0),
            ("spring", 0.0),
            ("snap", 0.0),
            ("shrink", 0.0),
            ("springs back", 0.0),
            ("springing back", 0.0),
            ("snaps back", 0.0),
            ("snapping back", 0.0),
            ("pings back", 0.0),
            ("shrinks", 0.0),
            ("shrinks back", 0.0),
            ("pulls back", 0.0),
            ("fights", 0.0),
            ("relaxed", 3.0),
            ("relax", 3.0),
            ("slack", 3.0),
            ("spread", 3.0),
            ("stays", 3.0),
            ("gives", 3.0),
            ("rolls out", 3.0),
            ("stretches", 3.0),
        ],
        apart: 1.6,
        softens: false,
        whole: false,
        denied: Some((0.0, 3.0)),
        with: &[],
        at: bench,
    },
];
