//! A pasted text with what was understood in its margin, and the way from there to a recipe.

mod mends;
mod view;

use super::desk::{Asked, By, Desk, aside};
use super::refusal::{Answer, Refusal};
use crate::cli::work::larder;
use crate::world::notebook::{Kept, Name};
use axum::extract::{Form, Path, Query, State};
use axum::response::{IntoResponse, Redirect};
use mends::{Mend, Mends, kind_of};
use press::address::relative;
use recipe::import::{Imported, is_page, page_as_text};
use recipe::larder::Larder;
use serde::Deserialize;
use std::sync::Arc;

/// A pasted text, its mends, and what is understood of it.
struct Understood {
    name: Name,
    /// The text as pasted.
    pasted: String,
    mends: Mends,
    imported: Imported,
    /// The larder it was read with.
    larder: Larder,
    /// Whether a recipe of the same name is in the notebook.
    made: bool,
}

impl Understood {
    fn of(desk: &Desk, name: &str) -> Result<Self, Refusal> {
        let (name, bytes) = desk.text(Kept::Pasted, name)?;
        let mends = desk.notebook.read(Kept::Mends, &name)?.unwrap_or_default();
        let mends = Mends::read(&String::from_utf8_lossy(&mends));
        let pasted = plain(&String::from_utf8_lossy(&bytes));
        let larder = larder();
        let imported = (desk.importer)(&mends.applied(&pasted), &mends.kinds(), &larder);
        let made = desk.notebook.read(Kept::Recipe, &name)?.is_some();
        Ok(Self {
            name,
            pasted,
            mends,
            imported,
            larder,
            made,
        })
    }

    /// A line as it was pasted.
    fn original(&self, number: usize) -> Option<&str> {
        self.pasted.lines().nth(number.checked_sub(1)?)
    }

    fn place(&self) -> String {
        format!("/pasted/{}", relative(self.name.text()))
    }
}

/// `GET /pasted/{name}`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let understood = Understood::of(desk, &name)?;
        Ok(view::page(&understood, &asked))
    })
    .await
}

/// What the form of a line sends.
#[derive(Deserialize)]
pub struct Written {
    line: usize,
    text: String,
    /// A word of `mends::KINDS`; empty for what the line looks like.
    #[serde(default)]
    kind: String,
    /// Pressed to take the pasted line again.
    #[serde(default)]
    again: Option<String>,
}

/// `POST /pasted/{name}/line`: a line is written anew or named; the pasted one stays.
pub async fn mend(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(written): Form<Written>,
) -> Answer {
    aside(desk, move |desk| {
        let _one = desk.saving();
        let mut understood = Understood::of(desk, &name)?;
        let Some(original) = understood.original(written.line) else {
            return Err(Refusal::not_found("The text has no such line."));
        };
        let mend = Mend {
            text: written
                .text
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" "),
            kind: kind_of(&written.kind),
        };
        let as_pasted = mend.kind.is_none() && mend.text == original.trim();
        let mends = &mut understood.mends;
        if written.again.is_some() || as_pasted {
            mends.0.remove(&written.line);
        } else {
            mends.0.insert(written.line, mend);
        }
        if mends.0.is_empty() {
            desk.notebook.remove(Kept::Mends, &understood.name)?;
        } else {
            desk.notebook
                .write(Kept::Mends, &understood.name, mends.text().as_bytes())?;
        }
        let line = written.line;
        let there = format!("{}?said=mended#line-{line}", understood.place());
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

/// `POST /pasted/{name}/recipe`: the recipe file is written under the text's name.
pub async fn make(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    aside(desk, move |desk| {
        let _one = desk.saving();
        let understood = Understood::of(desk, &name)?;
        let name = if understood.made {
            // A recipe that is there may have been worked on: it stays.
            desk.notebook.free(&[Kept::Recipe], &understood.name)
        } else {
            understood.name
        };
        let document = understood.imported.document;
        desk.save(Kept::Recipe, &name, document.as_bytes(), &By::made())?;
        let there = format!("/recipe/{}?said=made", relative(name.text()));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

/// The words of what was pasted: of a saved page its recipe, of a text the text.
pub fn plain(pasted: &str) -> String {
    if is_page(pasted) {
        page_as_text(pasted)
    } else {
        pasted.to_owned()
    }
}
