//! The versions of a recipe: what there were, what changed since it went out, and a way back.

mod since;
pub mod version;

use super::{Opened, Tab};
use crate::cli::publish::folder_name;
use crate::web::desk::{Asked, By, Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use crate::world::clock;
use crate::world::notebook::Kept;
use crate::world::record::published::{Pin, Published};
use crate::world::record::revisions::{How, Revision};
use axum::extract::{Form, Path, Query, State};
use axum::response::{IntoResponse, Redirect};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use maud::{Markup, html};
use serde::Deserialize;
use std::sync::Arc;

/// `GET /recipe/{name}/history`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let file = Kept::Recipe.file(&opened.name);
        let versions = desk.record.revisions(&file)?;
        let main = html! {
            (since::since_published(desk, &opened)?)
            section {
                h2 { "Versions" }
                @if versions.is_empty() { p { "None is kept yet." } }
                ol.entries reversed {
                    @for version in &versions { (entry(&opened, version)) }
                }
            }
        };
        Ok(opened.show(Tab::History, &main))
    })
    .await
}

fn entry(opened: &Opened, version: &Revision) -> Markup {
    let number = version.number;
    html! {
        li.row {
            p {
                a href=(format!("{}{}", opened.place(&format!("/history/{number}")), opened.carried())) {
                    "Version " (number)
                }
                ", " (when(version.at))
            }
            p.beside { (how(version)) }
        }
    }
}

/// How a version came to be, in words.
fn how(version: &Revision) -> String {
    let from = version.from.unwrap_or_default();
    let how = match version.how {
        How::Written => "written here".to_owned(),
        How::Outside => "changed outside the program".to_owned(),
        How::Restored => format!("version {from} brought back"),
        How::Undone => format!("saves taken back to version {from}"),
        How::Made => "put in".to_owned(),
        How::Beside => "written while the file was changed elsewhere".to_owned(),
    };
    let window = match (&version.window, version.how) {
        (Some(window), How::Written | How::Beside) => format!(", in window {window}"),
        _ => String::new(),
    };
    if version.reached {
        format!("{how}{window}")
    } else {
        format!("{how}{window}; never in the file")
    }
}

/// A moment by the clock on this machine's wall: "28 November 2026, 14:05".
pub fn when(at: Timestamp) -> String {
    let zone = clock::zone().unwrap_or(TimeZone::UTC);
    at.to_zoned_datetime(zone)
        .strftime("%-d %B %Y, %H:%M")
        .to_string()
}

/// What the forms of history send.
#[derive(Deserialize)]
pub struct Wished {
    /// The version that is to be in the file.
    version: i64,
    /// Whether that takes back the last save.
    #[serde(default)]
    undo: Option<String>,
}

/// `POST /recipe/{name}/history`: an old version becomes the file, as a new version.
pub async fn bring_back(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(wished): Form<Wished>,
) -> Answer {
    aside(desk, move |desk| {
        let name = crate::world::notebook::Name::of(&name)
            .ok_or_else(|| Refusal::not_found("A recipe cannot have that name."))?;
        let _one = desk.saving();
        let file = Kept::Recipe.file(&name);
        let text = desk.record.revision_text(&file, wished.version)?;
        let text = text.ok_or_else(|| Refusal::not_found("There is no such version."))?;
        let undo = wished.undo.is_some();
        let by = By {
            how: if undo { How::Undone } else { How::Restored },
            window: None,
            from: Some(wished.version),
        };
        desk.save(Kept::Recipe, &name, &text, &by)?;
        let said = if undo { "said=undone" } else { "said=back" };
        let there = format!(
            "/recipe/{}{}",
            press::address::relative(name.text()),
            asked.carried_and(said)
        );
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

/// The version that was in the file before the last save; saves that were taken back are passed by.
pub fn before_last(versions: &[Revision]) -> Option<&Revision> {
    let last = versions.iter().find(|version| version.reached)?;
    let stands = match (last.how, last.from) {
        (How::Undone, Some(from)) => from,
        _ => last.number,
    };
    versions
        .iter()
        .find(|version| version.reached && version.number < stands && version.digest != last.digest)
}

/// The last save taken back.
pub fn undo_form(desk: &Desk, opened: &Opened) -> Markup {
    let file = Kept::Recipe.file(&opened.name);
    let versions = desk.record.revisions(&file).unwrap_or_default();
    html! {
        @if let Some(before) = before_last(&versions) {
            form.row method="post" action=(format!("{}{}", opened.place("/history"), opened.carried())) {
                div {
                    input type="hidden" name="version" value=(before.number);
                    input type="hidden" name="undo" value="yes";
                    p { button type="submit" { "Take back the last save" } }
                }
                p.beside {
                    "The file is then as it was in version " (before.number) " of "
                    (when(before.at)) ". Nothing is lost: every version is in the history."
                }
            }
        }
    }
}

/// Tells the record that what is in the file went out just now.
pub fn went_out(desk: &Desk, opened: &Opened) {
    let Some(ledger) = opened.ledger() else {
        return;
    };
    let folder = folder_name(ledger);
    let out = Published {
        revision: 0,
        at: clock::moment(),
        folder: format!("published/{folder}"),
        kitchen: opened.asked().kitchen().map(|name| name.text().to_owned()),
        readers: opened
            .asked()
            .readers()
            .map(|market| market.tag().to_owned()),
        papers: desk.notebook.published(&folder),
    };
    let file = Kept::Recipe.file(&opened.name);
    // Where no record can be kept, the page of history says so.
    let _ = desk.record.went_out(&file, &opened.bytes, &out);
}

/// What the form of a note sends.
#[derive(Deserialize)]
pub struct Noted {
    words: String,
}

/// `POST /recipe/{name}/pin`: keeps a note.
pub async fn pin(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(noted): Form<Noted>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let note = Pin {
            words: noted.words.replace("\r\n", "\n"),
            at: clock::moment(),
        };
        let file = Kept::Recipe.file(&opened.name);
        desk.record.keep_pin(&file, &note)?;
        let carried = opened.asked().carried_and("said=pinned");
        let there = format!("{}{carried}", opened.place("/history"));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}
