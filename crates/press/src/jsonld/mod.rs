//! Structured data: the recipe in the terms of schema.org, as JSON-LD.
//!
//! Terms: schema.org `Recipe`, `HowToSection`, `HowToStep`, `HowToTool`, `VideoObject`, `Clip`, `Person`.
//! Nothing is said that the page does not print, and nothing that nobody gave: no rating, no
//! keyword. Which addresses are named is decided in `docs/decisions/structured-data.md`.

mod nutrition;
mod terms;

use edit::ledger::model::{FilmLine, FilmPart, Ledger, MarginKind, Section, StepLine};

use crate::address::{PageOptions, web};
use crate::line::{bought, ingredient, margin, plain, sentence};
use terms::{Clip, Person, Recipe, Section as SectionTerm, Step, Tool, Video};

/// The recipe as JSON-LD, laid out for reading, always in the same order.
///
/// Every `<` is written `\u003c`, so the text can stand inside a page's script element.
pub fn jsonld(ledger: &Ledger, options: &PageOptions) -> String {
    let recipe = recipe(ledger, options);
    // Structs of strings, numbers and lists have no key that JSON cannot write.
    serde_json::to_string_pretty(&recipe)
        .unwrap_or_default()
        .replace('<', "\\u003c")
}

fn recipe(ledger: &Ledger, options: &PageOptions) -> Recipe {
    let times = &ledger.iso_times;
    // Search engines take preparing and cooking together or not at all.
    let both = !times.prep.is_empty() && !times.cook.is_empty();
    let filled = |text: &str| (!text.is_empty()).then(|| plain(text));
    Recipe {
        context: "https://schema.org",
        kind: "Recipe",
        name: plain(&ledger.title),
        author: ledger.author.as_deref().map(|name| Person {
            kind: "Person",
            name: plain(name),
        }),
        date_published: ledger.published.clone(),
        date_modified: ledger.changed.clone(),
        version: ledger.version.clone(),
        in_language: ledger.language,
        description: ledger.headnote.as_deref().map(plain),
        image: ledger
            .photos
            .iter()
            .filter_map(|(file, ..)| options.absolute(file))
            .collect(),
        makes: filled(&ledger.yield_line),
        prep_time: both.then(|| times.prep.clone()),
        cook_time: both.then(|| times.cook.clone()),
        total_time: filled(&times.total),
        ingredients: bought(ledger)
            .map(|item| plain(&ingredient(item)))
            .collect(),
        nutrition: nutrition::nutrition(&ledger.label),
        sections: ledger.sections.iter().enumerate().map(section).collect(),
        tool: ledger
            .kit
            .iter()
            .map(|name| Tool {
                kind: "HowToTool",
                name: plain(name),
            })
            .collect(),
        video: video(ledger, options),
    }
}

fn section((index, section): (usize, &Section)) -> SectionTerm {
    SectionTerm {
        kind: "HowToSection",
        position: index + 1,
        name: plain(&section.heading),
        item_list_element: section.steps.iter().map(step).collect(),
    }
}

/// A step's sentence, then its margin in brackets; what one kitchen's physics says stays out.
fn step(step: &StepLine) -> Step {
    let mut text = sentence(step);
    let margin: Vec<_> = step
        .margin
        .iter()
        .filter(|line| line.kind != MarginKind::Here)
        .map(margin)
        .collect();
    if !margin.is_empty() {
        text = format!("{text} ({})", margin.join("; "));
    }
    Step {
        kind: "HowToStep",
        position: step.number,
        text: plain(&text),
    }
}

/// The film, only when it has all that makes it one: a name, a still and a date.
fn video(ledger: &Ledger, options: &PageOptions) -> Option<Video> {
    let film = ledger.film.as_ref().filter(|film| !film.title.is_empty())?;
    Some(Video {
        kind: "VideoObject",
        name: plain(&film.title),
        thumbnail_url: options.absolute(film.thumbnail.as_deref()?)?,
        upload_date: film.date.clone()?,
        url: Some(film.address.clone()).filter(|address| web(address)),
        has_part: clips(film),
    })
}

/// The parts of a film; its address leads to each by the moment at which it begins and ends (W3C Media
/// Fragments URI 1.0, 4.2.1, from memory).
fn clips(film: &FilmLine) -> Vec<Clip> {
    if !web(&film.address) || film.address.contains('#') {
        return Vec::new();
    }
    let clip = |part: &FilmPart| Clip {
        kind: "Clip",
        name: plain(&part.name),
        start_offset: part.from_seconds,
        end_offset: part.to_seconds,
        url: format!(
            "{}#t={},{}",
            film.address, part.from_seconds, part.to_seconds
        ),
    };
    film.parts.iter().map(clip).collect()
}

#[cfg(test)]
mod tests;
