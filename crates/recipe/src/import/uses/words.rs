//! The words around a name that say whether all of the thing goes in.

/// Words that say that not all of a thing goes in.
pub const PARTLY: &[&str] = &[
    "of",
    "half",
    "most",
    "rest",
    "remaining",
    "some",
    "little",
    "any",
    "more",
    "extra",
    "bit",
    "third",
    "quarter",
    "reserved",
    "spare",
    "leftover",
    "no",
    "without",
    "except",
    "but",
    "dry",
    "from",
    "other",
    "if",
    "enough",
    "spoonful",
    "sprinkling",
    "dusting",
    "additional",
    "minus",
    "than",
    "like",
];

/// Words that make another thing of a name: "the milk mixture", "egg wash".
pub const MAKE_OTHER: &[&str] = &[
    "mixture",
    "wash",
    "dough",
    "paste",
    "mix",
    "bowl",
    "glaze",
    "water",
    "milk",
    "is",
    "has",
    "dissolves",
    "powder",
    "mass",
    "are",
    "syrup",
    "will",
    "should",
    "sponge",
    "foams",
    "melts",
    "and-milk",
];

/// Words that make another thing of a name, even where only the name is meant.
pub const OTHER_THINGS: &[&str] = &[
    "mixture", "wash", "dough", "paste", "mix", "bowl", "glaze", "water", "milk", "powder", "mass",
    "syrup", "sponge",
];

/// Units that may stand between an amount and a name.
pub const UNITS: &[&str] = &[
    "g",
    "kg",
    "ml",
    "l",
    "dl",
    "cl",
    "cup",
    "cups",
    "tbsp",
    "tsp",
    "tablespoon",
    "tablespoons",
    "teaspoon",
    "teaspoons",
    "oz",
    "lb",
    "grams",
];

/// Words about a thing that may stand before its name.
pub const ABOUT: &[&str] = &[
    "warm", "lukewarm", "cold", "soft", "softened", "melted", "beaten", "cool", "cooled", "hot",
    "boiling", "plain", "dried", "fresh", "mashed", "whole", "fine", "tepid", "chilled", "ground",
    "toasted",
];

/// Words under which everything is named at once.
pub const ALL_OF_IT: &[&str] = &[
    "all the ingredients",
    "all ingredients",
    "all of the ingredients",
    "all the dough ingredients",
    "all dough ingredients",
    "all of the dough ingredients",
    "everything",
    "the remaining ingredients",
    "the rest of the ingredients",
    "remaining ingredients",
    "all the other ingredients",
    "the ingredients",
    "all of it",
    "the dough ingredients",
];
