//! The pages of one recipe: what they open, and the tabs that lead from one to the other.

pub mod answers;
pub mod between;
pub mod day;
pub mod elsewhere;
pub mod filming;
pub mod findings;
pub mod form;
pub mod formula;
pub mod history;
pub mod papers;
pub mod preview;
pub mod reader;
pub mod text;
pub mod what_if;
pub mod words;
pub mod write;

use super::desk::{Asked, Desk};
use super::refusal::Refusal;
use super::script::Script;
use super::shell::{Shell, done, page};
use crate::cli::publish;
use crate::cli::work::{Work, on_bytes_for};
use crate::world::notebook::{Kept, Name};
use axum::extract::Multipart;
use axum::extract::multipart::MultipartError;
use axum::response::Response;
use edit::ledger::model::Ledger;
use maud::{Markup, html};
use press::address::relative;
use recipe::measure::Market;

/// A recipe of the notebook, worked out in the kitchen that was asked for.
pub struct Opened {
    /// Its name in the notebook.
    pub name: Name,
    /// The file as it is.
    pub bytes: Vec<u8>,
    /// What was made of it.
    pub work: Work,
    kitchens: Vec<Name>,
    asked: Asked,
    nothing_kept: Option<String>,
}

/// A recipe's name and bytes, and the file and bytes of the kitchen that is asked for.
pub type TextsOf = (Name, Vec<u8>, Option<(String, Vec<u8>)>);

/// The title of a recipe; of one that cannot be worked out, what stands in its file.
pub fn title(work: &Work, bytes: &[u8]) -> Option<String> {
    if let Some(made) = &work.made {
        return Some(made.ledger.title.clone());
    }
    let form = recipe::document::form::form(std::str::from_utf8(bytes).ok()?)?;
    let title = form
        .top
        .into_iter()
        .find(|field| field.key == "title")?
        .text;
    (!title.trim().is_empty()).then_some(title)
}

/// The texts that an address names.
pub fn texts(desk: &Desk, name: &str, asked: &Asked) -> Result<TextsOf, Refusal> {
    let (name, bytes) = desk.text(Kept::Recipe, name)?;
    Ok((name, bytes, kitchen(desk, asked)?))
}

/// File and bytes of the kitchen that is asked for.
fn kitchen(desk: &Desk, asked: &Asked) -> Result<Option<(String, Vec<u8>)>, Refusal> {
    match &asked.kitchen {
        Some(kitchen) if !kitchen.is_empty() => {
            let (name, bytes) = desk.text(Kept::Kitchen, kitchen).map_err(|_| {
                Refusal::not_found("There is no kitchen of that name in the notebook.")
            })?;
            Ok(Some((Kept::Kitchen.file(&name), bytes)))
        }
        _ => Ok(None),
    }
}

/// A text that was sent by a form, pasted or as a file, with what else its fields say.
#[derive(Default)]
pub struct Sent {
    /// The text.
    pub bytes: Vec<u8>,
    /// The other fields.
    pub fields: std::collections::BTreeMap<String, String>,
}

/// Takes a form apart: the field `text` or the file `file`, whichever is not empty, and the rest.
pub async fn sent(mut form: Multipart) -> Result<Sent, Refusal> {
    let unread = |error: MultipartError| Refusal::of_status(error.status());
    let mut sent = Sent::default();
    while let Some(field) = form.next_field().await.map_err(unread)? {
        let name = field.name().unwrap_or_default().to_owned();
        let bytes = field.bytes().await.map_err(unread)?;
        match name.as_str() {
            "text" | "file" => {
                if sent.bytes.trim_ascii().is_empty() && !bytes.is_empty() {
                    sent.bytes = bytes.to_vec();
                }
            }
            _ => {
                let words = String::from_utf8_lossy(&bytes).into_owned();
                sent.fields.insert(name, words);
            }
        }
    }
    Ok(sent)
}

impl Opened {
    /// Reads a recipe and works it out.
    pub fn of(desk: &Desk, name: &str, asked: Asked) -> Result<Self, Refusal> {
        let (name, bytes) = desk.text(Kept::Recipe, name)?;
        desk.look(&Kept::Recipe.file(&name), Some(&bytes));
        Self::with(desk, &name, bytes, asked)
    }

    /// Works out a text that is not what the file holds: an old version, or what is being written.
    pub fn with(desk: &Desk, name: &Name, bytes: Vec<u8>, asked: Asked) -> Result<Self, Refusal> {
        let name = name.clone();
        let kitchens = desk.notebook.names(Kept::Kitchen)?;
        let kitchen = kitchen(desk, &asked)?;
        let file = Kept::Recipe.file(&name);
        let mut work = on_bytes_for(&file, &bytes, kitchen, asked.readers());
        publish::look_over(&mut work, &desk.notebook.folder().join(&file))?;
        Ok(Self {
            name,
            bytes,
            work,
            kitchens,
            asked,
            nothing_kept: desk.nothing_kept(),
        })
    }

    /// Every figure and string, when the text could be read.
    pub fn ledger(&self) -> Option<&Ledger> {
        self.work.made.as_ref().map(|made| &made.ledger)
    }

    /// The ledger, or the page that says why there is none.
    pub fn readable(&self, tab: Tab) -> Result<&Ledger, Box<Response>> {
        self.ledger().ok_or_else(|| {
            Box::new(self.show(
                tab,
                &html! {
                    p.lead { "The file cannot be worked out until its findings are mended." }
                    p { a href=(self.address(Tab::Findings)) { "Findings" } }
                },
            ))
        })
    }

    /// Its title, or its file's name while it has none.
    pub fn title(&self) -> String {
        title(&self.work, &self.bytes).unwrap_or_else(|| Kept::Recipe.file(&self.name))
    }

    /// Where a part of it is shown, in the same kitchen.
    pub fn address(&self, tab: Tab) -> String {
        format!("{}{}", self.place(tab.path()), self.asked.carried())
    }

    /// An address below the recipe's own.
    pub fn place(&self, below: &str) -> String {
        format!("/recipe/{}{below}", relative(self.name.text()))
    }

    /// What goes after an address to stay in the same kitchen.
    pub fn carried(&self) -> String {
        self.asked.carried()
    }

    /// What the address asks for.
    pub const fn asked(&self) -> &Asked {
        &self.asked
    }

    /// A page of the recipe.
    pub fn show(&self, tab: Tab, main: &Markup) -> Response {
        self.show_with(tab, main, &[])
    }

    /// A page of the recipe with scripts.
    pub fn show_with(&self, tab: Tab, main: &Markup, scripts: &[Script]) -> Response {
        let title = self.title();
        let said = self.said();
        let body = html! {
            h1 { (title) }
            nav.tabs aria-label="Parts of the recipe" {
                ul {
                    @for other in Tab::ALL {
                        li {
                            a href=(self.address(other)) aria-current=[(other == tab).then_some("page")] {
                                (other.word())
                            }
                        }
                    }
                }
            }
            @if let Some(said) = said { (done(&said)) }
            @if let (Some(why), Tab::Write | Tab::History) = (&self.nothing_kept, tab) {
                p.lead { (why) }
            }
            (main)
            // Bakes that are logged have kitchens of their own; a day has them among its wishes, so that one form has all.
            @if !matches!(tab, Tab::Log | Tab::Day | Tab::Filming) { (self.surroundings(tab)) }
        };
        let head = if tab == Tab::Write {
            title
        } else {
            format!("{title}, {}", tab.word().to_lowercase())
        };
        let scripts = match tab {
            Tab::Form => &[Script::Live][..],
            Tab::Write => &[Script::Live, Script::Write],
            _ => scripts,
        };
        page(&Shell::titled(&head).with(scripts), &body)
    }

    fn said(&self) -> Option<String> {
        let file = Kept::Recipe.file(&self.name);
        let other = || {
            let other = self.asked.other.as_deref().and_then(Name::of);
            other.map(|other| Kept::Recipe.file(&other))
        };
        match self.asked.said.as_deref()? {
            "saved" => Some(format!("Saved as {file}.")),
            "demo" => Some(format!("The demo is in the notebook as {file}.")),
            "made" => Some(format!("The recipe is in the notebook as {file}.")),
            "beside" => Some(format!(
                "Yours is kept as {file}; {} is as it was.",
                other()?
            )),
            "left" => Some(format!(
                "{file} is as it was; what you sent is in its history."
            )),
            "back" => Some(format!("{file} is as it was in that version.")),
            "undone" => Some(format!("The last save of {file} is taken back.")),
            "pinned" => Some("The note is kept.".to_owned()),
            "published" => self.ledger().map(|ledger| {
                format!(
                    "Published in the notebook's folder published/{}.",
                    ledger.slug
                )
            }),
            _ => None,
        }
    }

    /// The kitchen and the readers it is worked out for, to be chosen.
    fn surroundings(&self, tab: Tab) -> Markup {
        html! {
            form.surroundings method="get" action=(self.place(tab.path())) {
                (self.kitchen_field())
                (self.readers_field())
                p { button type="submit" { "Work it out" } }
            }
        }
    }

    /// The kitchens of the notebook, where there are any.
    fn kitchen_field(&self) -> Markup {
        let here = self.asked.kitchen();
        html! {
            @if !self.kitchens.is_empty() {
                p {
                    label for="kitchen" { "Kitchen" }
                    select #kitchen name="kitchen" {
                        option value="" { "an ordinary one at 21\u{a0}°C" }
                        @for kitchen in &self.kitchens {
                            option value=(kitchen.text()) selected[Some(kitchen) == here.as_ref()] {
                                (kitchen.text())
                            }
                        }
                    }
                }
            }
        }
    }

    /// Whose English.
    fn readers_field(&self) -> Markup {
        let readers = self.asked.readers();
        html! {
            p {
                label for="readers" { "Readers" }
                select #readers name="readers" {
                    option value="" { "not of one country" }
                    @for market in Market::ALL {
                        option value=(market.tag()) selected[Some(market) == readers] {
                            (country(market))
                        }
                    }
                }
            }
        }
    }
}

const fn country(market: Market) -> &'static str {
    match market {
        Market::UnitedStates => "in the United States",
        Market::UnitedKingdom => "in the United Kingdom and Ireland",
        Market::Australia => "in Australia and New Zealand",
    }
}

/// A part of a recipe with a page of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tab {
    /// The file, to be written in.
    Write,
    /// The file, to be filled in.
    Form,
    /// Amounts, percentages, pieces.
    Formula,
    /// Everything there is to say.
    Findings,
    /// What would happen otherwise.
    WhatIf,
    /// What happens in other kitchens.
    Elsewhere,
    /// The words of the text and of a film.
    Words,
    /// What readers ask.
    Answers,
    /// A bake day.
    Day,
    /// A filming day.
    Filming,
    /// The published page.
    Page,
    /// As plain text.
    Text,
    /// What can be taken away.
    Papers,
    /// One step a screen.
    Bench,
    /// Bakes that were logged.
    Log,
    /// Its versions.
    History,
}

impl Tab {
    const ALL: [Self; 16] = [
        Self::Write,
        Self::Form,
        Self::Formula,
        Self::Findings,
        Self::WhatIf,
        Self::Elsewhere,
        Self::Words,
        Self::Answers,
        Self::Day,
        Self::Filming,
        Self::Page,
        Self::Text,
        Self::Papers,
        Self::Bench,
        Self::Log,
        Self::History,
    ];

    const fn word(self) -> &'static str {
        match self {
            Self::Write => "Write",
            Self::Form => "Fill in",
            Self::Formula => "Formula",
            Self::Findings => "Findings",
            Self::WhatIf => "What if",
            Self::Elsewhere => "In other kitchens",
            Self::Words => "Words",
            Self::Answers => "Answers",
            Self::Day => "Day",
            Self::Filming => "Filming",
            Self::Page => "Page",
            Self::Text => "Text",
            Self::Papers => "Papers",
            Self::Bench => "Bake along",
            Self::Log => "Bench log",
            Self::History => "History",
        }
    }

    /// Its address below the recipe's own.
    pub const fn path(self) -> &'static str {
        match self {
            Self::Write => "",
            Self::Form => "/form",
            Self::Formula => "/formula",
            Self::Findings => "/findings",
            Self::WhatIf => "/what-if",
            Self::Elsewhere => "/elsewhere",
            Self::Words => "/words",
            Self::Answers => "/answers",
            Self::Day => "/day",
            Self::Filming => "/filming",
            Self::Page => "/page/",
            Self::Text => "/text",
            Self::Papers => "/papers",
            Self::Bench => "/bench",
            Self::Log => "/log",
            Self::History => "/history",
        }
    }
}
