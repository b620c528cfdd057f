//! The scenes of a filming day, to be filled in: a form that writes the file of scenes into the notebook.

use super::fields::{id, page};
use crate::web::desk::{Asked, By, Desk, aside, in_query};
use crate::web::recipe::write::mark;
use crate::web::recipe::{Opened, Tab};
use crate::web::refusal::{Answer, Refusal};
use crate::world::clock;
use crate::world::notebook::{Kept, Name};
use crate::world::record::revisions::How;
use axum::extract::{Form, Path, Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::tz::TimeZone;
use recipe::document::form::{Act, acted, scene_form, scenes_filled, scenes_named};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Which file of scenes.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct Of {
    /// Its name in the notebook; a new one is begun without it.
    of: Option<String>,
}

/// Where a file of scenes is filled in.
pub fn address(opened: &Opened, scenes: &Name) -> String {
    let more = format!("of={}", in_query(scenes.text()));
    let carried = opened.asked().carried_and(&more);
    format!("{}{carried}", opened.place("/filming/scenes"))
}

fn there(desk: &Desk, of: &Of) -> Result<(Name, Vec<u8>), Refusal> {
    let name = of.of.as_deref().unwrap_or_default();
    desk.text(Kept::Scenes, name)
        .map_err(|_| Refusal::not_found("There are no scenes of that name in the notebook."))
}

/// `GET /recipe/{name}/filming/scenes?of=NAME`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(of): Query<Of>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let (scenes, bytes) = there(desk, &of)?;
        Ok(opened.show(Tab::Filming, &page(&opened, &scenes, &bytes)))
    })
    .await
}

/// `POST /recipe/{name}/filming/scenes?of=NAME`: what was filled in becomes part of the file; without a name a new
/// file is begun.
pub async fn save(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(of): Query<Of>,
    Form(sent): Form<Vec<(String, String)>>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let _one = desk.saving();
        if of.of.is_none() {
            return begun(desk, &opened);
        }
        let (scenes, bytes) = there(desk, &of)?;
        let sent = Sent::of(sent);
        if sent.seen != mark(&bytes) {
            return Err(Refusal::new(
                StatusCode::CONFLICT,
                "The scenes were changed in another window or by another program meanwhile, so nothing was changed.",
            )
            .hint("Your browser’s way back leads to what you filled in; open the scenes anew beside it."));
        }
        let text = made(&bytes, &sent)?;
        let by = By {
            how: How::Written,
            window: None,
            from: None,
        };
        desk.save(Kept::Scenes, &scenes, text.as_bytes(), &by)?;
        let place = sent.act.as_ref().and_then(|act| place(act, &text));
        Ok(to(&opened, &scenes, place.as_deref()))
    })
    .await
}

/// The part of the page to come back to: where the scene is now.
fn place(act: &Act, text: &str) -> Option<String> {
    let number = |path: &str| path.rsplit('.').next()?.parse::<usize>().ok();
    let scene = match act {
        Act::Add(_) => scene_form(text)?.scenes.len().checked_sub(1)?,
        Act::Earlier(path) => number(path)?.checked_sub(1)?,
        Act::Later(path) => number(path)? + 1,
        Act::TakeOut(path) => number(path)?,
        Act::AddStep(..) => return None,
    };
    Some(id(&format!("scene.{scene}")))
}

/// To the form, with word that it was saved.
fn to(opened: &Opened, scenes: &Name, place: Option<&str>) -> Response {
    let place = place.map_or_else(String::new, |place| format!("#{place}"));
    let there = format!("{}&said=scenes{place}", address(opened, scenes));
    Redirect::to(&there).into_response()
}

/// What a file of scenes begins with.
const NEW: &str = "# Scenes in the order in which they are filmed, for everyoven shoot.\neveryoven = 1\nshoot = \"\"\n\
                   call = 09:00\n\n[[scene]]\nname = \"S01\"\nabout = \"Opening\"\nfor = \"15 min\"\nneeds = []\n";

/// A new file: one scene, on the day that it is.
fn begun(desk: &Desk, opened: &Opened) -> Answer {
    let zone = clock::zone().unwrap_or(TimeZone::UTC);
    let today = clock::now().to_zoned_datetime(zone).date();
    let typed = BTreeMap::from([
        (
            "shoot".to_owned(),
            format!("{}, the filming day", opened.title()),
        ),
        ("day".to_owned(), today.to_string()),
    ]);
    let text = scenes_filled(NEW, &typed).map_err(|fault| Refusal::bug(&fault.to_string()))?;
    let wished = Name::of_words(&opened.title(), "scenes");
    let name = desk.notebook.free(&[Kept::Scenes], &wished);
    desk.save(Kept::Scenes, &name, text.as_bytes(), &By::made())?;
    Ok(to(opened, &name, None))
}

/// What a form sends.
#[derive(Default)]
struct Sent {
    typed: BTreeMap<String, String>,
    act: Option<Act>,
    /// What the file was when the form was shown.
    seen: String,
}

impl Sent {
    fn of(fields: Vec<(String, String)>) -> Self {
        let mut sent = Self::default();
        for (name, value) in fields {
            if name == "seen" {
                sent.seen = value;
            } else if let Some(words) = name.strip_prefix("act:") {
                let words = words.replace(':', " ");
                sent.act = Act::of(&words);
            } else if let Some((scene, _)) = name.rsplit_once(".needs.") {
                // One list for each state; what is left empty is none.
                let all = sent.typed.entry(format!("{scene}.needs")).or_default();
                if !value.trim().is_empty() {
                    if !all.is_empty() {
                        all.push('\n');
                    }
                    all.push_str(value.trim());
                }
            } else {
                sent.typed.insert(name, value);
            }
        }
        sent
    }
}

/// The file with what was sent.
fn made(there: &[u8], sent: &Sent) -> Result<String, Refusal> {
    let unreadable = || {
        Refusal::new(
            StatusCode::UNPROCESSABLE_ENTITY,
            "The file of scenes cannot be read, so nothing in it was changed.",
        )
        .hint(
            "Mend it in a text editor first; your browser’s way back leads to what you filled in.",
        )
    };
    let text = std::str::from_utf8(there).map_err(|_| unreadable())?;
    let filled = scenes_filled(text, &sent.typed).map_err(|_| unreadable())?;
    let acted = match &sent.act {
        None => filled,
        Some(act) => acted(&filled, act).map_err(|fault| {
            Refusal::new(StatusCode::CONFLICT, fault.to_string())
                .hint("The scenes were changed in another window.")
        })?,
    };
    scenes_named(&acted).map_err(|_| unreadable())
}

#[cfg(test)]
mod tests {
    use super::{NEW, Sent, made};

    #[test]
    fn states_are_put_together_and_a_new_scene_has_a_name() {
        let pair = |name: &str, value: &str| (name.to_owned(), value.to_owned());
        let sent = Sent::of(vec![
            pair("seen", "x"),
            pair("scene.0.about", "Mix, then shape"),
            pair("scene.0.needs.0", "dough mixing"),
            pair("scene.0.needs.1", ""),
            pair("scene.0.needs.2", "loaf shaping"),
            pair("act:add:scene", ""),
        ]);
        assert_eq!(sent.typed["scene.0.needs"], "dough mixing\nloaf shaping");
        let text = made(NEW.as_bytes(), &sent).expect("a file of scenes");
        assert!(text.contains("about = \"Mix, then shape\"\n"), "{text}");
        assert!(text.contains("needs = [\"dough mixing\", \"loaf shaping\"]\n"));
        assert!(text.contains("[[scene]]\nname = \"S02\"\n"), "{text}");
    }
}
