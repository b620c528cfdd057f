//! What changed since a recipe went out: figures, papers to make anew, places of the film, a note to pin.

use super::when;
use crate::cli::work::{Made, Work};
use crate::failure::Failure;
use crate::web::desk::Desk;
use crate::web::recipe::Opened;
use crate::world::notebook::Kept;
use crate::world::read;
use crate::world::record::published::{Pin, Published};
use edit::ledger::model::Ledger;
use edit::revised::{About, Change, changes, note};
use edit::talk::track::{Track, clock};
use maud::{Markup, html};
use press::papers::Paper;

/// Papers of a publication that are no sheets; every one of them prints the whole recipe.
const TEXTS: [(&str, &str); 4] = [
    ("index.html", "the page"),
    ("fragment.html", "the piece for one’s own site"),
    ("recipe.txt", "plain text"),
    ("recipe.jsonld", "structured data for search engines"),
];

/// The part of the history about what went out.
pub fn since_published(desk: &Desk, opened: &Opened) -> Result<Markup, Failure> {
    let file = Kept::Recipe.file(&opened.name);
    let Some(out) = desk.record.last_published(&file)? else {
        return Ok(html! {
            section {
                h2 { "Since it was published" }
                p { "It was not published from this notebook yet." }
            }
        });
    };
    let text = desk.record.revision_text(&file, out.revision)?;
    let then =
        text.and_then(|bytes| Opened::with(desk, &opened.name, bytes, opened.asked().clone()).ok());
    let pins = desk.record.pins(&file)?;
    Ok(html! {
        section {
            h2 { "Since it was published" }
            p {
                "Version " (out.revision) " was published on " (when(out.at)) " in "
                span.path { (out.folder) } "."
            }
            @match (then.as_ref().and_then(|then| then.work.made.as_ref()), opened.work.made.as_ref()) {
                (Some(then), Some(now)) => (differing(desk, opened, &out, then, now)?),
                _ => p { "What changed cannot be worked out until the findings of both versions are mended." }
            }
            @if !pins.is_empty() { (kept(&pins)) }
        }
    })
}

fn differing(
    desk: &Desk,
    opened: &Opened,
    out: &Published,
    then: &Made,
    now: &Made,
) -> Result<Markup, Failure> {
    let changes = changes(&then.ledger, &now.ledger);
    if changes.is_empty() {
        return Ok(html! { p { "Nothing that is printed has changed." } });
    }
    let papers = papers(out, &then.ledger, &now.ledger);
    let places = said_otherwise(desk, opened, then, now)?;
    let words = note(&changes);
    Ok(html! {
        (listed(&changes))
        @if !papers.is_empty() {
            h3 { "To make and send anew" }
            ul.entries {
                @for (said, file) in &papers {
                    li.row { p { (edit::ledger::say::capital(said)) } p.beside { span.path { (file) } } }
                }
            }
        }
        @if !places.is_empty() {
            h3 { "What the film says otherwise now" }
            ul.entries {
                @for (at, message) in &places {
                    li.row { p { (message) } p.beside { (at) } }
                }
            }
        }
        @if let Some(words) = words {
            form.row method="post" action=(format!("{}{}", opened.place("/pin"), opened.carried())) {
                div {
                    h3 { "A note to pin" }
                    label for="pin" { "To be pasted under the film or the page" }
                    textarea #pin name="words" rows=(words.lines().count() + 1) { (words) }
                    p { button type="submit" { "Keep the note" } }
                }
                p.beside { "It names what a reader who has the old version must know. Change it as you like." }
            }
        }
        (following(&changes))
    })
}

/// Changes that somebody made: figures and words, each before and after.
pub fn listed(changes: &[Change]) -> Markup {
    grouped(
        changes,
        &[
            (About::Amount, "Amounts"),
            (About::Figure, "Figures of the steps"),
            (About::Words, "Words"),
        ],
    )
}

/// Changes that follow from those: percentages, measures, sums, the label.
pub fn following(changes: &[Change]) -> Markup {
    grouped(changes, &[(About::Follows, "What follows from them")])
}

fn grouped(changes: &[Change], groups: &[(About, &str)]) -> Markup {
    html! {
        @for (about, heading) in groups {
            @let here: Vec<_> = changes.iter().filter(|change| change.about == *about).collect();
            @if !here.is_empty() {
                h3 { (heading) }
                ul.entries {
                    @for change in here {
                        li.row {
                            p {
                                @match (&change.before, &change.after) {
                                    (Some(before), Some(after)) => {
                                        del { (before) } " " ins { (after) }
                                    }
                                    (None, Some(after)) => { "new: " ins { (after) } }
                                    (Some(before), None) => { "gone: " del { (before) } }
                                    (None, None) => {}
                                }
                            }
                            p.beside { (change.label) }
                        }
                    }
                }
            }
        }
    }
}

/// Papers of a publication that say something else now.
fn papers(out: &Published, then: &Ledger, now: &Ledger) -> Vec<(&'static str, String)> {
    let otherwise = |file: &String| {
        if let Some((_, said)) = TEXTS.iter().find(|(name, _)| name == file) {
            return Some((*said, file.clone()));
        }
        let paper = Paper::of_file(file)?;
        paper
            .says_otherwise(then, now)
            .then(|| (paper.said(), file.clone()))
    };
    out.papers.iter().filter_map(otherwise).collect()
}

/// Where the film, whose talk lies beside the recipe, agreed with the version that went out and does
/// not agree with this one.
fn said_otherwise(
    desk: &Desk,
    opened: &Opened,
    then: &Made,
    now: &Made,
) -> Result<Vec<(String, String)>, Failure> {
    let Some(track) = talk(desk, opened)? else {
        return Ok(Vec::new());
    };
    let found = |made: &Made| {
        let inputs = edit::Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
        edit::talk::talk(&inputs, &made.ledger, &track)
            .output
            .findings
    };
    let before = found(then);
    Ok(found(now)
        .into_iter()
        .filter(|finding| {
            let same = |old: &&edit::talk::Finding| {
                old.kind == finding.kind && old.within == finding.within && old.said == finding.said
            };
            !before.iter().any(|old| same(&old))
        })
        .filter_map(|finding| {
            let at = finding.at?;
            let mut said = finding.diagnostic.message.clone();
            if let Some(instead) = &finding.instead {
                said = format!("{said} Say: “{instead}”");
            }
            Some((clock(at), said))
        })
        .collect())
}

/// The talk beside the recipe: NAME.srt or NAME.vtt.
fn talk(desk: &Desk, opened: &Opened) -> Result<Option<Track>, Failure> {
    for ending in ["srt", "vtt"] {
        let file = format!("{}.{ending}", opened.name.text());
        if let Some(path) = desk.notebook.beside(&file)? {
            return Ok(Some(edit::talk::track::read(&read::whole(&path)?).output));
        }
    }
    Ok(None)
}

fn kept(pins: &[Pin]) -> Markup {
    html! {
        h3 { "Notes that were kept" }
        ul.entries {
            @for pin in pins {
                li.row {
                    div { @for line in pin.words.lines() { p { (line) } } }
                    p.beside { (when(pin.at)) }
                }
            }
        }
    }
}

/// Whether a piece of work is there to be compared.
pub fn made(work: &Work) -> Option<&Ledger> {
    work.made.as_ref().map(|made| &made.ledger)
}
