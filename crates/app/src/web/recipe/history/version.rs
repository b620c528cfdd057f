//! One version of a recipe beside what is in the file now, and the way back to it.

use super::{how, since, when};
use crate::web::desk::{Asked, Desk, aside};
use crate::web::recipe::{Opened, Tab, between};
use crate::web::refusal::{Answer, Refusal};
use crate::world::notebook::Kept;
use axum::extract::{Path, Query, State};
use edit::revised::changes;
use maud::html;
use std::sync::Arc;

/// `GET /recipe/{name}/history/{number}`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path((name, number)): Path<(String, i64)>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let file = Kept::Recipe.file(&opened.name);
        let gone = || Refusal::not_found("There is no such version.");
        let versions = desk.record.revisions(&file)?;
        let version = versions
            .iter()
            .find(|version| version.number == number)
            .ok_or_else(gone)?;
        let bytes = desk.record.revision_text(&file, number)?.ok_or_else(gone)?;
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let now = String::from_utf8_lossy(&opened.bytes).into_owned();
        let then = Opened::with(desk, &opened.name, bytes, opened.asked().clone())?;
        let changes = since::made(&then.work)
            .zip(since::made(&opened.work))
            .map(|(then, now)| changes(then, now));
        let main = html! {
            h2 { "Version " (number) }
            p { (when(version.at)) ", " (how(version)) "." }
            @if text == now {
                p { "It is what is in the file now." }
            } @else {
                form.row method="post" action=(format!("{}{}", opened.place("/history"), opened.carried())) {
                    div {
                        input type="hidden" name="version" value=(number);
                        p { button type="submit" { "Bring it back" } }
                    }
                    p.beside { "It becomes the file, as a new version; what is in the file now stays in the history." }
                }
                section {
                    h2 { "From this version to the file" }
                    @match &changes {
                        None => p { "The figures cannot be compared: one of the two cannot be worked out." },
                        Some(changes) if changes.is_empty() => p { "Nothing that is printed differs." },
                        Some(changes) => { (since::listed(changes)) (since::following(changes)) }
                    }
                }
                section {
                    h2 { "Lines of the file" }
                    (between::sides(&format!("Version {number}"), &text, "In the file now", &now))
                }
            }
            section {
                h2 { "Its whole text" }
                pre tabindex="0" { code { (text) } }
            }
        };
        Ok(opened.show(Tab::History, &main))
    })
    .await
}
