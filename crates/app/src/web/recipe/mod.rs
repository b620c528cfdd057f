//! The pages of one recipe: what they open, and the tabs that lead from one to the other.

pub mod findings;
pub mod form;
pub mod formula;
pub mod papers;
pub mod preview;
pub mod text;
pub mod write;

use super::desk::{Asked, Desk};
use super::refusal::Refusal;
use super::script::Script;
use super::shell::{Shell, done, page};
use crate::cli::publish;
use crate::cli::work::{Work, on_bytes_for};
use crate::world::notebook::{Kept, Name};
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
}

impl Opened {
    /// Reads a recipe and works it out.
    pub fn of(desk: &Desk, name: &str, asked: Asked) -> Result<Self, Refusal> {
        let (name, bytes) = desk.text(Kept::Recipe, name)?;
        Self::with(desk, &name, bytes, asked)
    }

    /// Works out a text that may not be kept yet, under the name of a recipe.
    pub fn with(desk: &Desk, name: &Name, bytes: Vec<u8>, asked: Asked) -> Result<Self, Refusal> {
        let name = name.clone();
        let kitchens = desk.notebook.names(Kept::Kitchen)?;
        let kitchen = match &asked.kitchen {
            Some(kitchen) if !kitchen.is_empty() => {
                let (name, bytes) = desk.text(Kept::Kitchen, kitchen).map_err(|_| {
                    Refusal::not_found("There is no kitchen of that name in the notebook.")
                })?;
                Some((Kept::Kitchen.file(&name), bytes))
            }
            _ => None,
        };
        let file = Kept::Recipe.file(&name);
        let mut work = on_bytes_for(&file, &bytes, kitchen, asked.readers());
        publish::look_over(&mut work, &desk.notebook.folder().join(&file))?;
        Ok(Self {
            name,
            bytes,
            work,
            kitchens,
            asked,
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
        self.ledger().map_or_else(
            || Kept::Recipe.file(&self.name),
            |ledger| ledger.title.clone(),
        )
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

    /// A page of the recipe.
    pub fn show(&self, tab: Tab, main: &Markup) -> Response {
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
            (main)
            (self.surroundings(tab))
        };
        let head = if tab == Tab::Write {
            title
        } else {
            format!("{title}, {}", tab.word().to_lowercase())
        };
        let shell = Shell::titled(&head);
        let live = matches!(tab, Tab::Form);
        page(
            &if live {
                shell.with(&[Script::Live])
            } else {
                shell
            },
            &body,
        )
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
            "both" => Some(format!(
                "{} was changed elsewhere while you wrote. That text stays as it is; yours is kept \
                 here as {file}.",
                other()?
            )),
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
        let here = self.asked.kitchen();
        let readers = self.asked.readers();
        html! {
            form.surroundings method="get" action=(self.place(tab.path())) {
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
                p { button type="submit" { "Work it out" } }
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
}

impl Tab {
    const ALL: [Self; 9] = [
        Self::Write,
        Self::Form,
        Self::Formula,
        Self::Findings,
        Self::Page,
        Self::Text,
        Self::Papers,
        Self::Bench,
        Self::Log,
    ];

    const fn word(self) -> &'static str {
        match self {
            Self::Write => "Write",
            Self::Form => "Fill in",
            Self::Formula => "Formula",
            Self::Findings => "Findings",
            Self::Page => "Page",
            Self::Text => "Text",
            Self::Papers => "Papers",
            Self::Bench => "Bake along",
            Self::Log => "Bench log",
        }
    }

    /// Its address below the recipe's own.
    pub const fn path(self) -> &'static str {
        match self {
            Self::Write => "",
            Self::Form => "/form",
            Self::Formula => "/formula",
            Self::Findings => "/findings",
            Self::Page => "/page/",
            Self::Text => "/text",
            Self::Papers => "/papers",
            Self::Bench => "/bench",
            Self::Log => "/log",
        }
    }
}
