//! What is said about a track: the first few places of each kind, and how many more there are.

use recipe::source::{Code, Diagnostic};
use std::collections::BTreeMap;

/// So many places of one kind are named; a file that is broken throughout is not a list of its lines.
const NAMED: usize = 8;

/// What is said so far.
#[derive(Default)]
pub(in crate::talk) struct Notes {
    said: Vec<Diagnostic>,
    more: BTreeMap<&'static str, (Code, usize)>,
}

impl Notes {
    /// Says one more thing.
    pub fn say(&mut self, diagnostic: Diagnostic) {
        let code = diagnostic.code;
        let same = self.said.iter().filter(|said| said.code == code).count();
        if same < NAMED {
            self.said.push(diagnostic);
        } else {
            self.more.entry(code.name).or_insert((code, 0)).1 += 1;
        }
    }

    /// Whether something of this code was said.
    pub fn has(&self, code: Code) -> bool {
        self.said.iter().any(|said| said.code == code)
    }

    /// Everything in the order of the text.
    pub fn all(mut self) -> Vec<Diagnostic> {
        self.said
            .sort_by_key(|said| said.span.map(|span| span.start));
        for (code, more) in self.more.into_values() {
            let places = if more == 1 { "place" } else { "places" };
            let message = format!("There are {more} more {places} like this.");
            self.said.push(Diagnostic::whole(code, message));
        }
        self.said
    }
}
