//! Whose kitchens a recipe goes out to, as written: how often each thing is met, and who says so.

use crate::source::{Located, Span};

/// An audience as written in its own file.
#[derive(Clone, Debug, PartialEq)]
pub struct AudienceFile {
    /// Version of the file format.
    pub format: i64,
    /// Its name.
    pub name: Located<String>,
    /// The audience whose figures stand where this one says nothing.
    pub like: Option<Located<String>>,
    /// What differs from kitchen to kitchen, in written order.
    pub variables: Vec<VariableEntry>,
}

/// One thing that differs from kitchen to kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct VariableEntry {
    /// Which: "room", "weighs".
    pub name: Located<String>,
    /// How often each value is met.
    pub is: Met,
    /// Things that go with it, each with how closely: from -100 % to 100 %.
    pub goes_with: Vec<(Located<String>, Located<String>)>,
    /// Who says so.
    pub source: Located<String>,
    /// How that was had: "read", "memory", "common practice".
    pub had: Located<String>,
    /// Where it stands.
    pub span: Span,
}

/// How often each value is met, in the words of a file; which of them belong together is for whoever
/// knows the variable and its unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Met {
    /// What is written: its key and its text.
    pub said: Vec<(&'static str, Located<String>)>,
    /// Several kinds of kitchen, each with its own share.
    pub one_of: Option<Vec<Met>>,
    /// Where it stands.
    pub span: Span,
}

impl Met {
    /// Every key that can be written, in the order in which a file is read.
    pub const KEYS: [&'static str; 11] = [
        "share",
        "yes",
        "always",
        "word",
        "middle",
        "deviation",
        "mean",
        "alpha",
        "beta",
        "from",
        "to",
    ];

    /// What stands under a key.
    pub fn get(&self, key: &str) -> Option<&Located<String>> {
        let found = self.said.iter().find(|(name, _)| *name == key);
        found.map(|(_, text)| text)
    }
}
