//! When only one case is told of: another kitchen, another season, another oven.

use super::cues::{CIRCUMSTANCES, PLACES, SEASONS};
use super::frame::Frame;

/// A case is told within so many words of its "if".
const CASE_WORDS: usize = 12;

impl Frame<'_> {
    /// "If I'm doing a couple of small ones": made in another size than this.
    fn is_other_size(&self, first: usize, end: usize) -> bool {
        self.any(
            first,
            end,
            &["making", "doing", "baking", "make", "do", "bake", "want"],
        ) && self.any(
            first,
            end,
            &[
                "small", "large", "big", "little", "mini", "couple", "half", "one", "ones",
            ],
        )
    }

    /// "If you've got one of those old granite kitchens", "if you are up in the hills".
    fn is_other_place(&self, first: usize, end: usize) -> bool {
        let place = (first..end).any(|at| PLACES.contains(&self.single(at)));
        let up = (first..end).any(|at| {
            matches!(self.lower(at), "you're" | "are" | "live")
                && matches!(self.lower(at + 1), "up" | "down" | "high" | "out")
                && matches!(self.lower(at + 2), "in" | "on" | "at" | "by" | "near")
        });
        place || up
    }

    /// "In a shearers' kitchen up on the plateau you'd be looking at two hours", "in this city in May you'd get".
    fn would_there(&self, at: usize, end: usize) -> bool {
        let stop = (at + CASE_WORDS).min(end);
        let place = (at + 1..(at + 5).min(end)).any(|n| PLACES.contains(&self.single(n)));
        place && self.any(at + 1, stop, &["you'd", "i'd", "would", "they'd"])
    }

    /// "If you live up in the mountains", "should your house be a warm one", "in August".
    pub(super) fn is_case(&self, first: usize, at: usize, end: usize) -> bool {
        let next = self.lower(at + 1);
        match self.lower(at) {
            "if" | "unless" | "suppose" | "supposing" => {
                let stop = (at + CASE_WORDS).min(end);
                let stop = (at + 1..stop)
                    .find(|n| matches!(self.lower(*n), "then"))
                    .unwrap_or(stop);
                // "if the dough sticks to your hand": the dough's own state is no kitchen.
                (self.any(at + 1, stop, &CIRCUMSTANCES)
                    || self.is_other_size(at + 1, stop)
                    || self.is_other_place(at + 1, stop))
                    && !self.any(at + 1, (at + 4).min(stop), &["dough", "dent"])
            }
            "should" => {
                matches!(
                    next,
                    "your" | "you" | "it" | "they" | "the" | "this" | "that" | "there"
                ) && at == first
            }
            "anyone" | "anybody" | "those" | "whoever" | "folks" => {
                matches!(
                    next,
                    "of" | "who" | "with" | "in" | "up" | "down" | "lives" | "bakes"
                ) && self.any(at + 1, (at + CASE_WORDS).min(end), &CIRCUMSTANCES)
            }
            // "With all wholemeal you'd want two eighty"
            "with" | "using" if matches!(next, "all" | "only" | "fresh") => (at + 2
                ..(at + 7).min(end))
                .any(|n| matches!(self.lower(n), "you'd" | "i'd" | "would")),
            // "In a wood oven you'd be at two hundred and fifty"
            "in" if next == "a"
                && self.lower(at + 3) == "oven"
                && matches!(
                    self.lower(at + 2),
                    "wood" | "clay" | "brick" | "gas" | "electric" | "pizza" | "stone" | "fan"
                ) =>
            {
                true
            }
            "in" => {
                let stop = (at + 3).min(end);
                self.any(at + 1, stop, &SEASONS)
                    || next == "a"
                        && matches!(
                            self.lower(at + 2),
                            "cold" | "colder" | "hot" | "hotter" | "draughty" | "stone"
                        )
                        && matches!(self.lower(at + 3), "kitchen" | "house" | "flat" | "room")
                    || self.begins(first, at) && self.would_there(at, end)
            }
            "on" => {
                next == "a"
                    && matches!(
                        self.lower(at + 2),
                        "hot" | "cold" | "warm" | "cool" | "humid"
                    )
                    && matches!(self.lower(at + 3), "day" | "night" | "morning")
            }
            // "Your oven may run hot; mine does, so I set it at one fifty-five".
            "oven" | "ovens" => matches!(next, "may" | "might" | "can" | "runs" | "run"),
            // "Some ovens are so far out".
            "some" | "many" | "most" | "certain" => {
                let plural = self.lower(at + 1);
                plural.len() > 4
                    && plural.ends_with('s')
                    && !self.is_mention(at + 1)
                    && self.begins(first, at)
            }
            _ => false,
        }
    }
}
