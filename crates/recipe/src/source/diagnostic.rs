//! What is to be said about an input: a name, a place, a reason and a way out.

use super::Span;

/// How much it matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// It stops publication.
    Mend,
    /// Put it right, or say why it is meant.
    LookAgain,
    /// It could be better.
    Could,
}

impl Severity {
    /// The word that every face shows.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mend => "mend",
            Self::LookAgain => "look again",
            Self::Could => "could",
        }
    }
}

/// What would suffer if nothing were done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Concern {
    /// The bake itself would go wrong.
    Bake,
    /// The printed page would be wrong or incomplete.
    Print,
}

/// The name of something that can be said, with its weight. Each has a page in `explain`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Code {
    /// Kebab words: `liquid-cannot-reach-target`.
    pub name: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What would suffer.
    pub concern: Concern,
}

impl Code {
    /// A code that stops publication because the bake would go wrong.
    pub const fn mend_bake(name: &'static str) -> Self {
        Self {
            name,
            severity: Severity::Mend,
            concern: Concern::Bake,
        }
    }

    /// A code that stops publication because the page would be wrong.
    pub const fn mend_print(name: &'static str) -> Self {
        Self {
            name,
            severity: Severity::Mend,
            concern: Concern::Print,
        }
    }

    /// A code to look at again before baking.
    pub const fn look_bake(name: &'static str) -> Self {
        Self {
            name,
            severity: Severity::LookAgain,
            concern: Concern::Bake,
        }
    }

    /// A code to look at again before printing.
    pub const fn look_print(name: &'static str) -> Self {
        Self {
            name,
            severity: Severity::LookAgain,
            concern: Concern::Print,
        }
    }

    /// A code that could improve the bake.
    pub const fn could_bake(name: &'static str) -> Self {
        Self {
            name,
            severity: Severity::Could,
            concern: Concern::Bake,
        }
    }

    /// A code that could improve the page.
    pub const fn could_print(name: &'static str) -> Self {
        Self {
            name,
            severity: Severity::Could,
            concern: Concern::Print,
        }
    }
}

/// A second place that helps to understand the first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What is there.
    pub text: String,
}

/// Bytes of a text and what is to stand in their place.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Change {
    /// Where.
    pub span: Span,
    /// What is to stand there.
    pub new: String,
}

/// One thing said about an input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// Its name and weight.
    pub code: Code,
    /// The place, when there is one.
    pub span: Option<Span>,
    /// What is wrong and why it matters, in one or two plain sentences.
    pub message: String,
    /// Further places.
    pub labels: Vec<Label>,
    /// Ways out, best first.
    pub hints: Vec<String>,
    /// How the finding was arrived at, step by step, for whoever asks.
    pub trace: Vec<String>,
    /// Changes of the text that put it right without touching what is baked; none when the cook must decide.
    pub changes: Vec<Change>,
}

impl Diagnostic {
    /// A diagnostic at a place.
    pub fn at(code: Code, span: Span, message: impl Into<String>) -> Self {
        Self {
            code,
            span: Some(span),
            message: message.into(),
            labels: Vec::new(),
            hints: Vec::new(),
            trace: Vec::new(),
            changes: Vec::new(),
        }
    }

    /// A diagnostic about the whole.
    pub fn whole(code: Code, message: impl Into<String>) -> Self {
        Self {
            span: None,
            ..Self::at(code, Span::default(), message)
        }
    }

    /// Adds a way out.
    #[must_use]
    pub fn hint(mut self, text: impl Into<String>) -> Self {
        self.hints.push(text.into());
        self
    }

    /// Adds a second place.
    #[must_use]
    pub fn label(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label {
            span,
            text: text.into(),
        });
        self
    }

    /// Adds a change of the text that puts it right.
    #[must_use]
    pub fn change(mut self, span: Span, new: impl Into<String>) -> Self {
        self.changes.push(Change {
            span,
            new: new.into(),
        });
        self
    }

    /// Adds a step of the reasoning.
    #[must_use]
    pub fn because(mut self, text: impl Into<String>) -> Self {
        self.trace.push(text.into());
        self
    }
}

/// What a stage could make, and everything it has to say about its input.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked<T> {
    /// What could be made.
    pub output: T,
    /// Everything to be said, in the order of the text.
    pub diagnostics: Vec<Diagnostic>,
}

impl<T> Checked<T> {
    /// An output with nothing to say.
    pub const fn clean(output: T) -> Self {
        Self {
            output,
            diagnostics: Vec::new(),
        }
    }

    /// Whether anything stops publication.
    pub fn stops(&self) -> bool {
        self.diagnostics
            .iter()
            .any(|d| d.code.severity == Severity::Mend)
    }
}
