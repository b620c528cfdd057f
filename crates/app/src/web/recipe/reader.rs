//! What a reader tells of a kitchen and a bread, set against the kitchens that are like it: a form and its answer.

use super::Opened;
use crate::cli::reader::{Report, set_against};
use crate::web::desk::{Asked, Desk, aside};
use crate::web::in_hand::{Doing, Made};
use crate::web::laid_out::Texts;
use crate::web::refusal::{Answer, Refusal};
use crate::web::under_way;
use crate::world::notebook::Kept;
use axum::extract::{Form, Path, Query, State};
use axum::http::StatusCode;
use bake::kitchens::audience::{READY, ready};
use bake::kitchens::near::Outcome;
use bake::kitchens::variable::{Unit, Variable};
use edit::ledger::say::capital;
use maud::{Markup, html};
use serde::Deserialize;
use std::sync::Arc;

/// So many kitchens are followed: enough that a few hundred are like one of which two things are told.
const NUMBER: u64 = 3000;
/// Which.
const SEED: u64 = 1;

/// What can be told of a kitchen here; the terminal takes every other thing too.
const FACTS: [Variable; 6] = [
    Variable::Room,
    Variable::Weighs,
    Variable::FlourCup,
    Variable::OvenOff,
    Variable::Pan,
    Variable::Altitude,
];

/// What the form says.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct Said {
    #[serde(default)]
    audience: String,
    #[serde(default)]
    came: String,
    #[serde(default)]
    room: String,
    #[serde(default)]
    weighs: String,
    #[serde(default, rename = "flour-cup")]
    flour_cup: String,
    #[serde(default, rename = "oven-off")]
    oven_off: String,
    #[serde(default)]
    pan: String,
    #[serde(default)]
    altitude: String,
}

impl Said {
    fn of(&self, variable: Variable) -> &str {
        match variable {
            Variable::Room => &self.room,
            Variable::Weighs => &self.weighs,
            Variable::FlourCup => &self.flour_cup,
            Variable::OvenOff => &self.oven_off,
            Variable::Pan => &self.pan,
            _ => &self.altitude,
        }
    }

    fn facts(&self) -> Vec<String> {
        let told = FACTS
            .into_iter()
            .filter(|one| !self.of(*one).trim().is_empty());
        told.map(|one| format!("{}={}", one.key(), self.of(one).trim()))
            .collect()
    }
}

/// The form as it was filled in, for the page of other kitchens, too.
pub fn form(opened: &Opened, asked: &Asked, said: &Said) -> Markup {
    let action = format!("{}{}", opened.place("/reader"), asked.carried());
    html! {
        section {
            h2 #reader { "What a reader tells" }
            form.row method="post" action=(action) {
                div {
                    p {
                        label for="came" { "How it came out" }
                        select #came name="came" {
                            @for (word, outcome) in Outcome::WORDS {
                                option value=(word) selected[word == said.came] { (capital(outcome.words())) }
                            }
                        }
                    }
                    @for (variable, told) in FACTS.map(|one| (one, said.of(one).trim())) {
                        p {
                            label for=(format!("met-{}", variable.key())) { (capital(called(variable))) (unit(variable)) }
                            @match variable.unit() {
                                Unit::YesNo => {
                                    select id=(format!("met-{}", variable.key())) name=(variable.key()) {
                                        option value="" { "not told" }
                                        option value="yes" selected[told == "yes"] { "scales" }
                                        option value="no" selected[told == "no"] { "cups and spoons" }
                                    }
                                }
                                Unit::Words => {
                                    select id=(format!("met-{}", variable.key())) name=(variable.key()) {
                                        option value="" { "not told" }
                                        @for word in variable.choices() { option selected[word == &told] { (word) } }
                                    }
                                }
                                _ => input type="text" id=(format!("met-{}", variable.key())) name=(variable.key()) value=[(!told.is_empty()).then_some(told)];,
                            }
                        }
                    }
                    p {
                        label for="reader-audience" { "Whose kitchens" }
                        select #reader-audience name="audience" {
                            @for (name, _) in READY {
                                option value=(name) selected[*name == said.audience] { (ready(name).map_or_else(|| (*name).to_owned(), |audience| audience.name)) }
                            }
                        }
                    }
                    p { button type="submit" { "How usual is that?" } }
                }
                p.beside {
                    "What is left empty may be anything. Of the kitchens that are like this one, so many in a hundred come out so; \
                     when that is rare, something else was different there."
                }
            }
        }
    }
}

/// As a reader would be asked for it.
const fn called(variable: Variable) -> &'static str {
    match variable {
        Variable::OvenOff => "how much hotter the oven is than its dial",
        _ => variable.words(),
    }
}

const fn unit(variable: Variable) -> &'static str {
    match variable.unit() {
        Unit::Celsius => ", as in 17\u{a0}°C",
        Unit::Kelvin => ", as in 10\u{a0}°C; −10\u{a0}°C when it is colder",
        Unit::Gram => ", as in 150\u{a0}g",
        Unit::Metre => ", as in 1600\u{a0}m",
        _ => "",
    }
}

fn mark(opened: &Opened, said: &Said) -> String {
    let texts = Texts {
        file: "",
        recipe: &opened.bytes,
        kitchen: None,
        readers: None,
    };
    let facts = said.facts().join(" ");
    texts.mark(&format!("reader {} {} {facts}", said.audience, said.came))
}

fn query(said: &Said) -> String {
    let value = crate::web::desk::in_query;
    let facts = FACTS
        .into_iter()
        .map(|one| format!("&{}={}", one.key(), value(said.of(one))));
    format!(
        "came={}&audience={}{}",
        value(&said.came),
        value(&said.audience),
        facts.collect::<String>()
    )
}

/// `GET /recipe/{name}/reader`: what came of it.
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(said): Query<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked.clone())?;
        let mark = mark(&opened, &said);
        let otherwise = "This has not been followed yet, or is not kept any more.";
        let main = html! {
            // It writes no file, so none has to be named.
            (under_way::answer(desk, Some(&mark), |_| "", Some(otherwise)))
            (form(&opened, &asked, &said))
        };
        Ok(opened.show(super::Tab::Elsewhere, &main))
    })
    .await
}

/// `POST /recipe/{name}/reader`: begins it.
pub async fn begin(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(said): Form<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked.clone())?;
        let wrong = |said: String| Refusal::new(StatusCode::UNPROCESSABLE_ENTITY, &said);
        let read = Report::read(&said.facts(), &said.came).and_then(|report| {
            let nobody = || "There are no readers of that name.".to_owned();
            Ok((report, ready(&said.audience).ok_or_else(nobody)?))
        });
        let (report, audience) = match read.map_err(wrong) {
            Ok(read) => read,
            Err(refused) => {
                return refused.beside(|told| {
                    let main = html! { (told) (form(&opened, &asked, &said)) };
                    Ok(opened.show(super::Tab::Elsewhere, &main))
                });
            }
        };
        let mark = mark(&opened, &said);
        let there = under_way::there(&opened, &asked, "/reader", &query(&said));
        let called = format!("{}, as a reader baked it", opened.title());
        let file = Kept::Recipe.file(&opened.name);
        let bytes = opened.bytes.clone();
        let doing: Doing = Box::new(move |own| {
            let work = crate::cli::work::on_bytes_for(&file, &bytes, None, None);
            let made = under_way::to_follow(&work)?;
            let which = (NUMBER, SEED);
            let lines = set_against(made, &audience, which, &report, &own.stop, own.told())?;
            let main = html! {
                section {
                    h2 { "What this reader tells" }
                    ul.plain { @for told in &lines.told { li { (told) } } }
                    p.lead { (lines.share) }
                    p { (lines.all) " " (lines.usual) }
                    p.hint { (lines.like) "." }
                }
            };
            Ok(Made {
                main: main.into_string(),
                stopped: own.stop.wanted(),
                ..Made::default()
            })
        });
        under_way::begin(desk, &mark, called, there, doing)
    })
    .await
}
