//! Which sorts of file there are, and how each is told from the others.

/// A sort of file: how it is told from the other.
pub struct Sort {
    /// The beginning of a sentence about it.
    pub what: &'static str,
    /// The key that only it has at its top.
    pub own: &'static str,
    /// The key that only the other has there.
    pub others: &'static str,
    /// What to say of the other.
    pub other: &'static str,
    /// The way out.
    pub way_out: &'static str,
}

/// A recipe.
pub const RECIPE: Sort = Sort {
    what: "The recipe",
    own: "title",
    others: "kitchen",
    other: "This is a kitchen file; a recipe is wanted here.",
    way_out: "Give the file of the recipe; a recipe begins with everyoven = 1 and its title.",
};

/// A kitchen.
pub const KITCHEN: Sort = Sort {
    what: "The kitchen",
    own: "kitchen",
    others: "title",
    other: "This is a recipe; a kitchen file is wanted here.",
    way_out: "Give the file of the kitchen; it begins with everyoven = 1 and kitchen = \"Studio\".",
};

/// Prices.
pub const PRICES: Sort = Sort {
    what: "The file",
    own: "price",
    others: "title",
    other: "This is a recipe; a file of prices is wanted here.",
    way_out: "Give the file of prices; it begins with everyoven = 1 and a first [[price]].",
};

/// An audience.
pub const AUDIENCE: Sort = Sort {
    what: "The audience",
    own: "audience",
    others: "title",
    other: "This is a recipe; the file of an audience is wanted here.",
    way_out: "Give the file of the audience; it begins with everyoven = 1 and audience = \"Our readers\".",
};

/// A log of bakes.
pub const LOG: Sort = Sort {
    what: "The log",
    own: "log",
    others: "title",
    other: "This is a recipe; a log of bakes is wanted here.",
    way_out: "Give the file of the log; it begins with everyoven = 1 and log = \"same-day loaf\".",
};
