//! Parts of a fruit taken by its number: "zest of 1 lemon", "1 orange, juiced", "juice of half a lime".

use super::head::{Head, head};
use super::name::named;
use super::thing::{Thing, thing};
use super::words::bare;
use crate::larder::Larder;

/// "1 lemon, zest only", "1 orange, juiced": a part of a fruit by its number.
pub(super) fn peel(larder: &Larder, found: Head, rest: &str) -> Thing {
    let lower = rest.to_lowercase();
    for fruit in ["lemon", "orange", "lime"] {
        let Some(after) = lower.trim().trim_start_matches("of ").strip_prefix(fruit) else {
            continue;
        };
        let after = after.trim_start_matches('s').trim_start_matches("'s");
        let has = |word: &str| after.contains(word);
        let part = match (has("zest") || has("rind"), has("juic")) {
            (true, false) => "zest",
            (false, true) => "juice",
            _ => continue,
        };
        let alone = after.trim_start().starts_with(',') || after.trim_start().starts_with('(');
        let name = format!("{fruit} {part}");
        if alone && named(larder, &name).is_some() {
            return thing(larder, Some(found), &name);
        }
    }
    thing(larder, Some(found), rest)
}

/// "finely grated zest of 1 lemon", "juice of half an orange".
pub(super) fn fruit(larder: &Larder, text: &str) -> Option<Thing> {
    let lower = text.to_ascii_lowercase();
    let at = lower.find(" of ")?;
    let both = [
        "zest and juice",
        "juice and zest",
        "rind and juice",
        "juice and rind",
    ];
    if both.iter().any(|both| lower[..at].ends_with(both)) {
        return None;
    }
    let what = lower[..at].split_whitespace().last().map(bare)?;
    if !matches!(
        what.as_str(),
        "zest" | "rind" | "peel" | "juice" | "yolk" | "yolks" | "white" | "whites"
    ) {
        return None;
    }
    let rest = text[at + " of ".len()..].trim_start();
    // "The zest of an orange" is of one.
    let one = ["a ", "an "]
        .iter()
        .find(|article| {
            rest.get(..article.len())
                .is_some_and(|start| start.eq_ignore_ascii_case(article))
        })
        .map(|article| format!("1 {}", &rest[article.len()..]));
    let rest = one.as_deref().unwrap_or(rest);
    let found = head(rest)?;
    let after = &rest[found.end..];
    let stop = after.find([',', '(', ';']).unwrap_or(after.len());
    let name = after[..stop].trim();
    let (first, tail) = (
        text[..at].rsplit_once(' ').map_or("", |(first, _)| first),
        &after[stop..],
    );
    let fruit_name = bare(name.split_whitespace().last()?);
    let whole = format!("{first} {} {what}{tail}", fruit_name.trim_end_matches('s'));
    let read = thing(larder, Some(found), whole.trim());
    read.named.is_some().then_some(read)
}

/// "zest and juice of 1 lemon": both, of as many.
pub(super) fn zest_and_juice(larder: &Larder, text: &str) -> Option<Vec<Thing>> {
    let lower = text.to_ascii_lowercase();
    let at = lower.find(" of ")?;
    let (first, second) = lower[..at]
        .split_once(" and ")
        .or_else(|| lower[..at].split_once(" & "))?;
    let parts = [first, second].map(|part| {
        let word = part.split_whitespace().last().unwrap_or_default();
        matches!(word, "zest" | "rind" | "juice").then_some(part)
    });
    let [Some(first), Some(second)] = parts else {
        return None;
    };
    let rest = &text[at..];
    let things: Vec<Thing> = [first, second]
        .iter()
        .filter_map(|part| fruit(larder, &format!("{part}{rest}")))
        .collect();
    (things.len() == 2).then_some(things)
}
