//! What a variant is made of: the new recipe, what changed in it, what stayed, what is to be said.

use recipe::document::model::Recipe;

/// A recipe made from another one by wishes.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// The new recipe, with the places of its own text.
    pub recipe: Recipe,
    /// The new recipe file; its first line says of which recipe and version it is a variant.
    pub text: String,
    /// What is different, in the order of the work.
    pub changes: Vec<Change>,
    /// What should have stayed as it was, and whether it did.
    pub kept: Vec<Kept>,
    /// What the cook must know: what the swap does to the bake, what to look at again.
    pub said: Vec<String>,
}

/// One thing that is different.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// What it is, and where: "sponge: milk".
    pub what: String,
    /// As it was; empty when it is new.
    pub before: String,
    /// As it is; empty when it is gone.
    pub after: String,
}

/// One figure that a variant should keep.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// What it is: "water on flour".
    pub name: String,
    /// As it was: "65.2 %".
    pub before: String,
    /// As it is.
    pub after: String,
    /// Whether it stayed within what a cook would not notice.
    pub held: bool,
}

/// A wish that was granted.
#[derive(Clone, Debug, PartialEq)]
pub struct Granted {
    /// The whole recipe as it is now; places in it are those of the text before.
    pub recipe: Recipe,
    /// What is different.
    pub changes: Vec<Change>,
    /// What is to be said about it.
    pub said: Vec<String>,
    /// Words for the title, after "with": "fresh yeast", "a larger tin".
    pub title: String,
}
