//! What a sentence names besides the first plain mention: the very words of an amount, a part, a thing again.

use super::words::{OTHER_THINGS, UNITS};
use super::{Met, Thing, ambiguous, dusts, is_met, makes_other, matches_at, unit_word};
use crate::measure::read::sentence::{Token, What};

/// What a sentence takes: pieces of it with the words that replace them, and the tokens in them.
pub(super) type Taken<'a> = (&'a mut Vec<(usize, usize, String)>, &'a mut Vec<bool>);

/// Where the very words stand that put a thing in, they become its placeholder.
pub(super) fn told(sentence: &str, all: &[Token], things: &mut [Thing], (cuts, taken): Taken<'_>) {
    let lower = sentence.to_ascii_lowercase();
    for thing in things.iter_mut().filter(|thing| thing.met != Met::Whole) {
        let Some(said) = &thing.said else { continue };
        let place = lower
            .match_indices(said.as_str())
            .map(|(at, _)| at)
            .find(|at| {
                let inside =
                    |token: &&Token| token.span.start >= *at && token.span.end <= at + said.len();
                let begins = !lower[..*at].ends_with(char::is_alphanumeric);
                let ends = !lower[at + said.len()..].starts_with(char::is_alphanumeric);
                let free = all
                    .iter()
                    .zip(taken.iter())
                    .filter(|(token, _)| inside(token))
                    .all(|(_, taken)| !taken);
                begins && ends && free
            });
        if let Some(at) = place {
            let end = at + said.len();
            for (token, taken) in all.iter().zip(taken.iter_mut()) {
                *taken |= token.span.start >= at && token.span.end <= end;
            }
            let mut words = format!("[{}]", thing.placeholder);
            // A state inside the words that are replaced is said behind them.
            if let Some(state) = &thing.state
                && said.contains(&state.to_ascii_lowercase())
            {
                let goes_on = lower[end..].trim_start().starts_with(char::is_alphanumeric);
                let comma = if goes_on { "," } else { "" };
                words = format!("{words}, {state}{comma}");
            }
            cuts.push((at, end, words));
            thing.met = Met::Whole;
        }
    }
}

/// "Half of the milk", "the rest of the sugar", "100 g of the flour": a part of a thing, in the
/// file's words.
pub(super) fn parts(
    all: &[Token],
    words: &[String],
    things: &mut [Thing],
    (cuts, taken): Taken<'_>,
) {
    for at in 0..things.len() {
        let is_other = things[at].met == Met::Whole || !things[at].item || things[at].is_beside();
        if is_other || !is_met(words, &things[at]) {
            continue;
        }
        for length in (1..=things[at].name.len().min(4)).rev() {
            let wanted = &things[at].name[things[at].name.len() - length..];
            let starts: Vec<usize> = (0..all.len())
                .filter(|start| !taken[*start] && matches_at(words, *start, wanted))
                .filter(|start| !makes_other(all, start + length))
                .collect();
            if starts.is_empty() || ambiguous(things, at, length) {
                continue;
            }
            let mut any = false;
            for start in starts {
                if let Some((from, part)) = part_before(all, start)
                    && !taken[from..start + length].contains(&true)
                {
                    taken[from..start + length].fill(true);
                    cuts.push((
                        all[from].span.start,
                        all[start + length - 1].span.end,
                        format!("[{part} of the {}]", things[at].placeholder),
                    ));
                    any = true;
                }
            }
            if any {
                things[at].met = Met::InPart;
                break;
            }
        }
    }
}

/// A later "the butter" becomes the name without its amount.
pub(super) fn again(all: &[Token], words: &[String], things: &[Thing], (cuts, taken): Taken<'_>) {
    for (at, thing) in things.iter().enumerate() {
        let is_other = !thing.item || thing.is_beside() || thing.met == Met::NotYet;
        if is_other || !is_met(words, thing) {
            continue;
        }
        for length in (1..=thing.name.len().min(4)).rev() {
            let wanted = &thing.name[thing.name.len() - length..];
            if !(1..all.len()).any(|start| matches_at(words, start, wanted))
                || ambiguous(things, at, length)
            {
                continue;
            }
            for start in 1..all.len() {
                if !taken[start]
                    && !taken[start - 1]
                    && all[start - 1].word() == "the"
                    && matches_at(words, start, wanted)
                    && all
                        .get(start + length)
                        .is_none_or(|next| !next.is_dash() && !OTHER_THINGS.contains(&next.word()))
                    && !dusts(all, start)
                {
                    taken[start..start + length].fill(true);
                    // The file's "the" is not printed; the author's own stays.
                    cuts.push((
                        all[start].span.start,
                        all[start + length - 1].span.end,
                        format!("[the {}]", thing.placeholder),
                    ));
                }
            }
        }
    }
}

/// The part that the words before a name say, and where they begin.
fn part_before(all: &[Token], start: usize) -> Option<(usize, String)> {
    let word = |back: usize| start.checked_sub(back).map_or("", |at| all[at].word());
    let the = usize::from(matches!(word(1), "the" | "this" | "that" | "your"));
    let of = usize::from(word(1 + the) == "of");
    // Behind "the" or "of the" a share stands; without either it is no part.
    if the + of == 0 && !matches!(word(1), "remaining") {
        return None;
    }
    let before = 1 + the + of;
    let share = match (word(before + 1), word(before)) {
        ("two", "thirds") => Some((2, "two thirds")),
        ("three", "quarters") => Some((2, "three quarters")),
        ("a" | "one", "third") => Some((2, "a third")),
        ("a" | "one", "quarter") => Some((2, "a quarter")),
        ("a" | "one", "fifth") => Some((2, "a fifth")),
        ("the", "rest" | "remainder") => Some((2, "the rest")),
        ("the", "half") => Some((2, "half")),
        (_, "half") => Some((1, "half")),
        _ => None,
    };
    if let Some((words, share)) = share {
        return Some((start - (before - 1) - words, share.to_owned()));
    }
    if word(1) == "remaining" && word(2) == "the" {
        return Some((start - 2, "the rest".to_owned()));
    }
    // "100 g of the flour", "2 of the eggs".
    if the == 0 || of == 0 {
        return None;
    }
    let at = |back: usize| start.checked_sub(back).map(|at| &all[at].what);
    if UNITS.contains(&word(before))
        && let Some(What::Number(value)) = at(before + 1)
    {
        let number = numerics::decimal::trimmed(*value, 3);
        return Some((
            start - before - 1,
            format!("{number} {}", unit_word(word(before))),
        ));
    }
    let Some(What::Number(value)) = at(before) else {
        return None;
    };
    Some((start - before, numerics::decimal::trimmed(*value, 3)))
}
