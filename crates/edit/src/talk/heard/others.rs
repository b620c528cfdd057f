//! When somebody else, or a bread of a kind that the recipe has no word for, is told of.

use super::cues::{FARES, KINDS, PEOPLE_DO, PERSONS, is_past, others_do};
use super::frame::Frame;

impl Frame<'_> {
    /// "My sandwich loaf goes at four and a quarter": a loaf of a kind that the recipe has no word for.
    pub(super) fn another_kind(&self, first: usize, at: usize, end: usize) -> bool {
        let of = self.single(at);
        let one = matches!(
            of,
            "loaf" | "loave" | "bread" | "bun" | "roll" | "dough" | "braid" | "knot"
        );
        if !one || at < first + 2 || !KINDS.contains(&self.lower(at - 1)) || self.is_mention(at - 1)
        {
            return false;
        }
        let own = (2..=3).any(|back| {
            let whose = self.before(first, at, back);
            matches!(
                whose,
                "my" | "me" | "our" | "a" | "an" | "his" | "her" | "your"
            ) || is_whose(whose)
        });
        own && (self.any(at + 1, (at + 6).min(end), &FARES)
            || (at + 1..(at + 4).min(end)).any(|n| is_past(self.lower(n))))
    }

    /// "The lady next door puts in", "my lads have been known to".
    pub(super) fn somebody(&self, first: usize, at: usize, end: usize) -> bool {
        let own = self.lower(at);
        // "People take it out when it's the colour of a biscuit"
        if matches!(own, "people" | "folk" | "folks" | "everybody" | "everyone") {
            let led = self.begins(first, at)
                || matches!(
                    self.before(first, at, 1),
                    "some" | "most" | "other" | "many" | "and" | "but"
                );
            let verb = self.lower(at + 1);
            return led && (others_do(verb) || PEOPLE_DO.contains(&verb));
        }
        let own = own.strip_suffix("'s").unwrap_or(own);
        if !PERSONS.contains(&own) {
            return false;
        }
        let named = (1..=3)
            .find(|back| {
                matches!(
                    self.before(first, at, *back),
                    "my" | "our" | "the" | "a" | "an" | "his" | "her" | "that" | "one" | "some"
                )
            })
            .filter(|back| {
                !matches!(
                    self.before(first, at, back + 1),
                    "for" | "with" | "like" | "to" | "you" | "and" | "of" | "from"
                )
            });
        let does = (at + 1..(at + 6).min(end)).any(|n| others_do(self.lower(n)));
        named.is_some() && does
    }
}

/// Whether a word says whose a thing is: "mam's", "Dave's", but no "it's".
fn is_whose(word: &str) -> bool {
    word.strip_suffix("'s").is_some_and(|who| {
        who.len() > 2
            && !matches!(
                who,
                "that"
                    | "let"
                    | "here"
                    | "there"
                    | "what"
                    | "who"
                    | "she"
                    | "where"
                    | "how"
                    | "today"
            )
    })
}
