//! Chapters: the stages and products of a recipe as parts of its film.
//!
//! Limits: `limits`; a host's own advice goes before them.

use super::code;
use super::limits::{CHAPTER_LETTERS, CHAPTER_SHORTEST, CHAPTERS};
use super::scenes::Scenes;
use crate::talk::track::clock;
use recipe::source::Diagnostic;
use std::time::Duration;

/// A part of the film.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chapter {
    /// When it begins; the first at the film's beginning.
    pub from: Duration,
    /// When it ends.
    pub to: Duration,
    /// Its beginning as it is printed: "0:16".
    pub at: String,
    /// What it is about, in one line.
    pub name: String,
}

/// Words before any stage is spoken of.
const OPENING: &str = "Opening";

/// The chapters of a film. What is too short for one belongs to its neighbour.
pub(super) fn chapters(
    scenes: &Scenes,
    timed: bool,
    diagnostics: &mut Vec<Diagnostic>,
) -> Vec<Chapter> {
    // Section, begin, end.
    let mut parts: Vec<(Option<usize>, Duration, Duration)> = scenes
        .stretches
        .iter()
        .map(|one| (one.section, one.from, one.to))
        .collect();
    let Some(first) = parts.first_mut() else {
        return Vec::new();
    };
    first.1 = Duration::ZERO;
    join_short(&mut parts);
    let mut chapters: Vec<Chapter> = Vec::new();
    for (section, from, to) in parts {
        let heading = section.and_then(|section| scenes.headings.get(section));
        let heading = heading.map_or(OPENING, String::as_str);
        let before = chapters
            .iter()
            .any(|chapter| chapter.name == short(heading));
        let name = if before {
            short(&format!("{heading}, once more"))
        } else {
            short(heading)
        };
        chapters.push(Chapter {
            from,
            to,
            at: clock(Duration::from_secs(from.as_secs())),
            name,
        });
    }
    let about = chapters.len();
    if timed && about < CHAPTERS {
        let message = match about {
            0 | 1 => {
                "The film cannot be parted into chapters: its words are about one stage at most."
                    .to_owned()
            }
            _ => format!("The film comes to {about} chapters; hosts show them from {CHAPTERS} on."),
        };
        diagnostics.push(
            Diagnostic::whole(code::CHAPTERS_TOO_FEW, message)
                .hint("Give every stage and every product ten seconds or more, and say its name."),
        );
    }
    chapters
}

/// Joins what is too short to what stands before it, the first to what follows; then parts about one thing.
fn join_short(parts: &mut Vec<(Option<usize>, Duration, Duration)>) {
    let lasts = |part: &(Option<usize>, Duration, Duration)| part.2.saturating_sub(part.1);
    while parts.len() > 1 {
        let shortest = (0..parts.len())
            .min_by_key(|at| lasts(&parts[*at]))
            .unwrap_or_default();
        if lasts(&parts[shortest]) >= CHAPTER_SHORTEST {
            break;
        }
        let (_, from, to) = parts.remove(shortest);
        if shortest == 0 {
            parts[0].1 = from;
        } else {
            parts[shortest - 1].2 = to;
        }
        let mut at = 1;
        while at < parts.len() {
            if parts[at].0 == parts[at - 1].0 {
                parts[at - 1].2 = parts[at].2;
                parts.remove(at);
            } else {
                at += 1;
            }
        }
    }
}

/// A name in one line, cut at a word when it is long.
fn short(name: &str) -> String {
    let words: Vec<&str> = name.split_whitespace().collect();
    let whole = words.join(" ");
    if whole.chars().count() <= CHAPTER_LETTERS {
        return whole;
    }
    let mut out = String::new();
    for word in words {
        let longer = out.chars().count() + 1 + word.chars().count();
        if longer >= CHAPTER_LETTERS {
            break;
        }
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    if out.is_empty() {
        out = whole.chars().take(CHAPTER_LETTERS - 1).collect();
    }
    out + "…"
}
