//! The text under a film, and the list of how fast its captions are read.
//!
//! Who paid or gave stands first (US FTC, 16 CFR 255.5: clear and conspicuous; from memory). Lines are not
//! broken: hosts break them.

use crate::address::PageOptions;
use crate::line::{ingredient, plain};
use edit::ledger::model::Ledger;
use edit::talk::film::{Caption, Film};

/// The text under the film.
pub(super) fn description(ledger: &Ledger, film: &Film, options: &PageOptions) -> String {
    let mut parts: Vec<String> = vec![ledger.title.clone()];
    parts.extend(ledger.disclosure.clone());
    parts.extend(ledger.headnote.clone());
    let facts: Vec<String> = ledger
        .facts
        .iter()
        .map(|fact| format!("{}: {}", fact.label, fact.shown))
        .collect();
    parts.push(facts.join("\n"));
    parts.push(format!(
        "{} {}",
        ledger.allergens.contains, ledger.allergens.honesty
    ));
    if film.chapters_shown {
        let chapters: Vec<String> = film
            .chapters
            .iter()
            .map(|chapter| format!("{} {}", chapter.at, chapter.name))
            .collect();
        parts.push(format!("Chapters\n{}", chapters.join("\n")));
    }
    for stage in &ledger.stages {
        let items: Vec<String> = stage.items.iter().map(ingredient).collect();
        parts.push(format!("{}\n{}", stage.heading, items.join("\n")));
    }
    if !ledger.besides.is_empty() {
        let items: Vec<String> = ledger.besides.iter().map(ingredient).collect();
        parts.push(format!("Besides\n{}", items.join("\n")));
    }
    let cautions: Vec<&str> = ledger
        .cautions
        .iter()
        .map(|caution| caution.text.as_str())
        .collect();
    parts.push(cautions.join("\n"));
    if let Some(base) = options
        .base
        .as_deref()
        .filter(|base| crate::address::web(base))
    {
        parts.push(format!("The whole recipe: {base}"));
    }
    parts.push(ledger.byline.join(" · "));
    parts.retain(|part| !part.trim().is_empty());
    plain(&parts.join("\n\n")) + "\n"
}

/// Every caption with its pace; those that are too fast are marked.
pub(super) fn pace(film: &Film) -> String {
    let mut out = String::new();
    for figure in &film.pace {
        out.push_str(&format!("{}\n", figure.shown));
    }
    let fast = film
        .captions
        .iter()
        .filter(|caption| caption.is_fast())
        .count();
    out.push_str(&match fast {
        0 => "No caption is too fast.\n\n".to_owned(),
        1 => "1 caption is too fast: it has a mark before it.\n\n".to_owned(),
        many => format!("{many} captions are too fast: they have a mark before them.\n\n"),
    });
    let mark = |caption: &Caption| match (caption.is_too_fast(), caption.is_fast()) {
        (true, _) => "** ",
        (false, true) => "*  ",
        (false, false) => "   ",
    };
    for caption in &film.captions {
        out.push_str(&format!("{}{}\n", mark(caption), plain(&caption.paced())));
    }
    out
}
