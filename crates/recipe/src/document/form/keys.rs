//! Which values of a written file stand in its form, in the order in which one fills them in.

/// How a value is filled in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// One line.
    Line,
    /// Several sentences.
    Paragraph,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// Yes, no, or nothing said.
    YesNo,
    /// Words with commas between them.
    Words,
    /// A list with a line for each.
    Lines,
    /// A whole number.
    Whole,
    /// A date.
    Date,
    /// A time of the day: 08:30.
    Clock,
    /// So many minutes.
    Minutes,
}

/// Keys with their kinds; a key with a dot stands in a table of its own.
pub type Keys = &'static [(&'static str, Kind)];

use Kind::{Choice, Clock, Date, Line, Lines, Minutes, Paragraph, Whole, Words, YesNo};

const KINDS: Kind = Choice(&["lean", "soft", "enriched", "rich"]);
const PLACES: Kind = Choice(&["room", "warm place", "refrigerator", "cool place"]);
const TINS: Kind = Choice(&[
    "light metal",
    "dark metal",
    "steel",
    "aluminium",
    "glass",
    "stoneware",
    "silicone",
    "paper",
    "wood",
    "plastic",
]);

/// What stands at the top.
pub const TOP: Keys = &[
    ("title", Line),
    ("kind", KINDS),
    ("headnote", Paragraph),
    ("serves", Line),
    ("promise.within", Line),
    ("author", Line),
    ("version", Line),
    ("published", Date),
    ("make-ahead", Paragraph),
    ("storage", Paragraph),
    ("notes", Lines),
];

/// A stage, besides its items and steps.
pub const STAGE: Keys = &[("name", Line), ("evaporates", Line)];

/// An item of a stage.
pub const ITEM: Keys = &[
    ("take", Line),
    ("of", Line),
    ("at", Line),
    ("from", Choice(&["room", "refrigerator", "tap"])),
    ("as", Line),
    ("also", Line),
    ("state", Line),
    ("note", Line),
];

/// A product, besides its steps.
pub const PRODUCT: Keys = &[
    ("name", Line),
    ("from", Line),
    ("count", Whole),
    ("piece", Line),
    ("after-bake", Line),
    ("tin.name", Line),
    ("tin.size", Line),
    ("tin.holds", Line),
    ("tin.material", TINS),
    ("tin.lidded", YesNo),
];

/// What a product takes from another stage.
pub const WITH: Keys = &[("of", Line), ("each", Line)];

/// An item for bench, tin or top.
pub const BESIDES: Keys = &[
    ("take", Line),
    ("of", Line),
    ("on", Choice(&["bench", "tin", "top"])),
    ("as", Line),
];

/// What stands at the top of a file of scenes.
pub const DAY: Keys = &[
    ("shoot", Line),
    ("day", Date),
    ("call", Clock),
    ("set-up", Minutes),
];

/// A scene.
pub const SCENE: Keys = &[
    ("name", Line),
    ("about", Line),
    ("needs", Lines),
    ("for", Minutes),
    ("set-up", Minutes),
    ("at", Clock),
];

/// By what one sees the end of a step.
pub const UNTIL: Keys = &[
    ("see", Line),
    ("volume", Line),
    ("height", Line),
    ("core", Line),
    ("dough", Line),
];

/// What a step does: its key, what is said of it, and what is said of each of its phases.
pub struct Deed {
    /// The key: `rest`.
    pub key: &'static str,
    /// What is said of it.
    pub keys: Keys,
    /// What is said of each phase; nothing when it has none.
    pub phases: Keys,
    /// What a new step of the kind begins with, as it is written in a file.
    pub new: &'static str,
}

const TIME: (&str, Kind) = ("for", Line);
const RANGE: (&str, Kind) = ("range", Line);

/// Every kind of step.
pub const DEEDS: [Deed; 12] = [
    Deed {
        key: "ready",
        keys: &[("what", Words), ("before", Line), TIME],
        phases: &[],
        new: r#"{ what = [], before = "60 min", for = "1 min" }"#,
    },
    Deed {
        key: "wake",
        keys: &[("yeast", Line), ("liquid", Line), ("in", Line), TIME, RANGE],
        phases: &[],
        new: r#"{ yeast = "yeast", liquid = "", in = "glass", for = "10 min" }"#,
    },
    Deed {
        key: "mix",
        keys: &[
            ("by", Choice(&["mixer", "hand", "spoon"])),
            ("dough", Line),
            ("adjust", Line),
        ],
        phases: &[("speed", Choice(&["low", "medium", "high"])), TIME, RANGE],
        new: r#"{ by = "mixer", phases = [{ speed = "low", for = "4 min" }] }"#,
    },
    Deed {
        key: "heat",
        keys: &[("to", Line), TIME, RANGE],
        phases: &[],
        new: r#"{ to = "65 °C", for = "8 min" }"#,
    },
    Deed {
        key: "rest",
        keys: &[
            TIME,
            RANGE,
            ("at", Line),
            ("where", PLACES),
            ("in", Line),
            ("thick", Line),
            ("covered", Line),
        ],
        phases: &[],
        new: r#"{ for = "60 min", at = "24 °C", where = "room", in = "bowl", covered = "lid" }"#,
    },
    Deed {
        key: "fold",
        keys: &[TIME, ("into-rest", Words)],
        phases: &[],
        new: r#"{ for = "3 min", into-rest = ["30 min"] }"#,
    },
    Deed {
        key: "divide",
        keys: &[("into", Words), TIME],
        phases: &[],
        new: r#"{ into = [], for = "10 min" }"#,
    },
    Deed {
        key: "shape",
        keys: &[TIME],
        phases: &[],
        new: r#"{ for = "10 min" }"#,
    },
    Deed {
        key: "finish",
        keys: &[TIME],
        phases: &[],
        new: r#"{ for = "3 min" }"#,
    },
    Deed {
        key: "preheat",
        keys: &[("to", Line), TIME],
        phases: &[],
        new: r#"{ to = "180 °C", for = "25 min" }"#,
    },
    Deed {
        key: "bake",
        keys: &[
            ("core", Line),
            ("check", Line),
            ("fan", YesNo),
            ("rack", Line),
        ],
        phases: &[("at", Line), TIME, RANGE, ("steam", YesNo), ("foil", YesNo)],
        new: r#"{ phases = [{ at = "180 °C", for = "30 min" }], fan = false }"#,
    },
    Deed {
        key: "cool",
        keys: &[TIME, RANGE, ("in", Line), ("at", Line)],
        phases: &[],
        new: r#"{ for = "60 min", in = "rack", at = "21 °C" }"#,
    },
];
