//! A finding about a talk: when it is said, in which words, what the recipe has, and what to say instead.

use super::code;
use super::heard::Heard;
use super::speech::Figure;
use super::track::{Track, clock};
use recipe::source::{Code, Diagnostic, Span};
use std::time::Duration;

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// How much.
    Amount,
    /// How warm.
    Temperature,
    /// How long.
    Time,
    /// How many.
    Count,
    /// How large.
    Size,
    /// Melted, soft, cold.
    State,
    /// Too late to do it.
    TooLate,
    /// In another order than the recipe's.
    Order,
    /// One thing in two ways.
    Contradiction,
    /// Never said.
    Unsaid,
    /// A claim without a source.
    Claim,
    /// An allergen or a caution that is not said.
    Caution,
    /// The whole talk.
    Whole,
}

impl Kind {
    /// The word in a table.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Amount => "amount",
            Self::Temperature => "temperature",
            Self::Time => "time",
            Self::Count => "count",
            Self::Size => "size",
            Self::State => "state",
            Self::TooLate => "too late",
            Self::Order => "order",
            Self::Contradiction => "contradiction",
            Self::Unsaid => "never said",
            Self::Claim => "claim",
            Self::Caution => "caution",
            Self::Whole => "whole",
        }
    }
}

/// A value in SI and the string that is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// In SI; none for words.
    pub value: Option<f64>,
    /// "K", "s", "kg", "m", "1", or nothing for words.
    pub unit: &'static str,
    /// As it is shown.
    pub shown: String,
}

/// One thing said about a talk.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What it is about.
    pub kind: Kind,
    /// When it is said; none where the track has no times or it is never said.
    pub at: Option<Duration>,
    /// The cue in which it is said.
    pub cue: Option<usize>,
    /// The words that are meant.
    pub words: String,
    /// Their bytes in the talk: every cue's line, each with a space after it.
    pub within: Option<Span>,
    /// What of the recipe it is about, where something is never said: `dough/salt`, `knots/rest`.
    pub places: Vec<String>,
    /// What is said.
    pub said: Option<Value>,
    /// What the recipe has.
    pub written: Option<Value>,
    /// The sentence to say instead.
    pub instead: Option<String>,
    /// The finding as every face shows it.
    pub diagnostic: Diagnostic,
}

impl Finding {
    /// Two figures for one thing, the later one found and the earlier one shown.
    pub(super) fn two_figures(
        heard: &Heard,
        track: &Track,
        (later, earlier): (&Figure, &Figure),
        message: &str,
        hint: String,
    ) -> Self {
        let place = heard.speech.place(track, earlier.spoken.span);
        let mut finding = Self::at(
            heard,
            track,
            Kind::Contradiction,
            code::TALK_CONTRADICTS_ITSELF,
            later.spoken.span,
            message,
        )
        .hint(hint);
        finding.diagnostic = finding.diagnostic.label(place, "said here otherwise");
        finding
    }

    /// What is said in another order than the recipe's.
    pub(super) fn of_order(heard: &Heard, track: &Track, span: Span, message: &str) -> Self {
        Self::at(
            heard,
            track,
            Kind::Order,
            code::TALK_ORDER_DIFFERS,
            span,
            message,
        )
        .hint("Say it in the recipe’s order.")
    }

    /// What is said to be in another state than the recipe's, with the recipe's own sentence.
    pub(super) fn of_state(
        heard: &Heard,
        track: &Track,
        span: Span,
        message: &str,
        instead: Option<String>,
    ) -> Self {
        Self::at(
            heard,
            track,
            Kind::State,
            code::TALK_STATE_DIFFERS,
            span,
            message,
        )
        .instead(instead)
    }

    /// A finding at words of the talk.
    pub(super) fn at(
        heard: &Heard,
        track: &Track,
        kind: Kind,
        code: Code,
        span: Span,
        message: &str,
    ) -> Self {
        let cue = heard.speech.cue(span.start);
        let at = track.cues.get(cue).and_then(|cue| cue.from);
        let place = heard.speech.place(track, span);
        let when = at.map_or_else(String::new, |at| format!("At {}: ", clock(at)));
        Self {
            kind,
            at,
            cue: Some(cue),
            words: heard.speech.slice(span).to_owned(),
            within: Some(span),
            places: Vec::new(),
            said: None,
            written: None,
            instead: None,
            diagnostic: Diagnostic::at(code, place, format!("{when}{message}")),
        }
    }

    /// A finding about what is not there.
    pub(super) fn of_nothing(kind: Kind, code: Code, words: &str, message: String) -> Self {
        Self {
            kind,
            at: None,
            cue: None,
            words: words.to_owned(),
            within: None,
            places: Vec::new(),
            said: None,
            written: None,
            instead: None,
            diagnostic: Diagnostic::whole(code, message),
        }
    }

    /// With what to say instead.
    pub(super) fn instead(mut self, sentence: Option<String>) -> Self {
        if let Some(sentence) = &sentence {
            self.diagnostic.hints.push(format!("Say: “{sentence}”"));
        }
        self.instead = sentence;
        self
    }

    /// With a way out that is no sentence.
    pub(super) fn hint(mut self, text: impl Into<String>) -> Self {
        self.diagnostic.hints.push(text.into());
        self
    }

    /// With the places of the recipe that it is about.
    pub(super) fn about(mut self, places: impl IntoIterator<Item = String>) -> Self {
        self.places.extend(places);
        self
    }

    /// With both values.
    pub(super) fn values(mut self, said: Value, written: Value) -> Self {
        self.said = Some(said);
        self.written = Some(written);
        self
    }
}
