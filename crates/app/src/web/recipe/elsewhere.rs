//! In other kitchens: how many breads come out well, what goes wrong, what decides it, what to write otherwise.

use super::{Opened, Tab};
use crate::cli::kitchens::{Followed, Question, TOO_FEW, followed};
use crate::failure::Failure;
use crate::web::desk::{Asked, Desk, aside, in_query};
use crate::web::drawing;
use crate::web::in_hand::{Doing, Made};
use crate::web::laid_out::Texts;
use crate::web::refusal::{Answer, Refusal};
use crate::web::under_way;
use crate::world::notebook::Kept;
use axum::extract::{Form, Path, Query, State};
use axum::http::StatusCode;
use bake::kitchens::audience::{READY, ready};
use edit::advice::{Advice, Advised};
use edit::ledger::others::{Line, Others};
use maud::{Markup, html};
use serde::Deserialize;
use std::sync::Arc;

/// The numbers of kitchens that can be asked.
const NUMBERS: [u64; 5] = [100, 300, 1000, 3000, 10_000];
/// The one that is asked when nothing else is.
const USUAL: u64 = 1000;

/// What the form says.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct Said {
    audience: Option<String>,
    number: Option<u64>,
    quick: Option<String>,
    advise: Option<String>,
}

impl Said {
    fn audience(&self) -> &str {
        self.audience.as_deref().unwrap_or(READY[0].0)
    }

    fn asks(&self) -> bool {
        self.audience.is_some()
    }

    /// The question; what cannot be asked is said.
    fn question(&self) -> Result<Question, Refusal> {
        let wrong = |said: &str| {
            Refusal::new(StatusCode::UNPROCESSABLE_ENTITY, said).hint("Choose from the form.")
        };
        let audience =
            ready(self.audience()).ok_or_else(|| wrong("There are no readers of that name."))?;
        let number = self.number.unwrap_or(USUAL);
        if !NUMBERS.contains(&number) {
            return Err(wrong("That number of kitchens cannot be chosen."));
        }
        Ok(Question {
            audience,
            number,
            seed: 1,
            quick: self.quick.is_some(),
            advise: self.advise.is_some(),
        })
    }

    /// The end of the address that asks the same.
    fn address(&self) -> String {
        let mut all = format!(
            "audience={}&number={}",
            in_query(self.audience()),
            self.number.unwrap_or(USUAL)
        );
        if self.quick.is_some() {
            all += "&quick=yes";
        }
        if self.advise.is_some() {
            all += "&advise=yes";
        }
        all
    }
}

fn mark(opened: &Opened, asked: &Asked, said: &Said) -> String {
    let texts = Texts {
        file: "",
        recipe: &opened.bytes,
        kitchen: None,
        readers: asked.readers(),
    };
    texts.mark(&format!("elsewhere {}", said.address()))
}

/// `GET /recipe/{name}/elsewhere?audience=us&number=1000`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(said): Query<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked.clone())?;
        if opened.work.stops() {
            return Ok(opened.show(Tab::Elsewhere, &to_mend(&opened)));
        }
        let kept = said
            .asks()
            .then(|| desk.in_hand.kept(&mark(&opened, &asked, &said)))
            .flatten();
        let main = html! {
            (form(&opened, &asked, &said))
            @if let Some((number, made)) = kept {
                (under_way::came_of(number, &made, what))
            } @else if said.asks() {
                p { "This has not been followed yet, or is not kept any more." }
            }
            (super::reader::form(&opened, &asked, &super::reader::Said::default()))
        };
        Ok(opened.show(Tab::Elsewhere, &main))
    })
    .await
}

/// What a file is.
fn what(file: &str) -> &'static str {
    match file {
        "other-kitchens.svg" => "all kitchens, well or lost to what",
        "what-decides.svg" => "what decides it",
        "stated-times.svg" => "stated times beside what is written",
        _ => "all of it as text",
    }
}

/// `POST /recipe/{name}/elsewhere`: begins it.
pub async fn begin(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(said): Form<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked.clone())?;
        let question = said.question()?;
        if opened.work.stops() {
            return Ok(opened.show(Tab::Elsewhere, &to_mend(&opened)));
        }
        let mark = mark(&opened, &asked, &said);
        let carried = asked.carried_and(&said.address());
        let there = format!("{}{carried}", opened.place("/elsewhere"));
        let called = format!("{} in {} other kitchens", opened.title(), question.number);
        let file = Kept::Recipe.file(&opened.name);
        let (bytes, readers) = (opened.bytes.clone(), asked.readers());
        let doing: Doing = Box::new(move |own| {
            let work = crate::cli::work::on_bytes_for(&file, &bytes, None, readers);
            let made = work
                .made
                .as_ref()
                .ok_or_else(|| Failure::Bug("a recipe that could be read".to_owned()))?;
            match followed(made, readers, &question, &own.stop, own.told()) {
                Followed::Found(found) => {
                    let (others, advice) = *found;
                    Ok(said_of(&others, advice.as_ref(), own.stop.wanted()))
                }
                Followed::TooFew => Err(Failure::Usage(TOO_FEW.to_owned())),
                Followed::Refused(said) => Err(Failure::Usage(
                    said.iter()
                        .map(|one| super::findings::sentence(&one.message))
                        .collect::<Vec<_>>()
                        .join(" "),
                )),
            }
        });
        under_way::begin(desk, &mark, called, there, doing)
    })
    .await
}

fn to_mend(opened: &Opened) -> Markup {
    html! {
        p.lead { "It can be followed elsewhere when what must be mended is mended." }
        p { a href=(opened.address(Tab::Findings)) { "Findings" } }
    }
}

fn form(opened: &Opened, asked: &Asked, said: &Said) -> Markup {
    let number = said.number.unwrap_or(USUAL);
    let action = format!("{}{}", opened.place("/elsewhere"), asked.carried());
    html! {
        form.row method="post" action=(action) {
            div {
                p {
                    label for="audience" { "Whose kitchens" }
                    select #audience name="audience" {
                        @for (name, _) in READY {
                            @let called = ready(name).map_or_else(|| name.to_owned(), |audience| audience.name);
                            option value=(name) selected[name == said.audience()] { (called) }
                        }
                    }
                }
                p {
                    label for="number" { "How many" }
                    select #number name="number" {
                        @for one in NUMBERS { option value=(one) selected[one == number] { (one) } }
                    }
                }
                p.check {
                    input type="checkbox" #advise name="advise" value="yes" checked[said.advise.is_some()];
                    label for="advise" { "Try what could be written otherwise" }
                }
                p.check {
                    input type="checkbox" #quick name="quick" value="yes" checked[said.quick.is_some()];
                    label for="quick" { "A quick look, without what decides it" }
                }
                p { button type="submit" { "Follow it there" } }
            }
            p.beside {
                "The recipe is followed in as many kitchens as you say, each with its own room, flour, \
                 yeast, oven, scales and hands. The shares are estimates; what is not known of them \
                 stands beside them."
            }
        }
    }
}

/// What is kept of it.
fn said_of(others: &Others, advice: Option<&Advice>, stopped: bool) -> Made {
    let figures = press::figure::of_others(others);
    let main = html! {
        section {
            h2 { (others.title) }
            p { (others.about) }
            div.drawings {
                @for (at, figure) in figures.iter().enumerate() { (drawing::set(&figure.svg, at + 1)) }
            }
        }
        (lines("How many come out well", &others.well))
        (lines("What goes wrong", &others.failures))
        (lines("Each stated time, for whoever waits for the sign: what would hold in eight of ten", &others.times))
        @if !others.decides.is_empty() {
            (lines("What decides whether all of it comes out well", &others.decides))
            p { (others.decides_about) }
        }
        (lines(others.alone_heading(), &others.alone))
        (lines("For safety: in how many kitchens this is past the usual line (no part of the share above)", &others.safety))
        section {
            h2 { "What is not known" }
            p { (others.band) }
            ul.plain { @for one in &others.unknowns { li { (one) } } }
        }
        @if let Some(advice) = advice { (otherwise(advice)) }
    };
    let mut text = press::terminal::others(others);
    if let Some(advice) = advice {
        text += &press::terminal::advice(advice);
    }
    let mut files: std::collections::BTreeMap<String, Vec<u8>> = figures
        .into_iter()
        .map(|figure| (figure.name, figure.svg.into_bytes()))
        .collect();
    files.insert("other-kitchens.txt".to_owned(), text.into_bytes());
    Made {
        main: main.into_string(),
        files,
        stopped,
        ..Made::default()
    }
}

fn lines(heading: &str, all: &[Line]) -> Markup {
    html! {
        @if !all.is_empty() {
            section {
                h2 { (heading) }
                ul.entries {
                    @for line in all {
                        li.row {
                            div {
                                p {
                                    @if let Some(step) = line.step { span.of-step { (step) } " " }
                                    (line.what)
                                }
                                @if let Some(more) = &line.more { p.hint { (more) } }
                            }
                            p.beside { strong { (line.shown) } }
                        }
                    }
                }
            }
        }
    }
}

/// What to write otherwise.
fn otherwise(advice: &Advice) -> Markup {
    let (hold, not): (Vec<&Advised>, Vec<&Advised>) =
        advice.advised.iter().partition(|one| one.holds);
    html! {
        section {
            h2 { "What to write otherwise" }
            p { (advice.about) }
            @if hold.is_empty() { p { "No change was found that is surely worth making." } }
            ol.plain {
                @for one in hold {
                    li {
                        p { strong { (one.sentence) } }
                        p { (one.shown) }
                        pre tabindex="0" { code {
                            @for (sign, line) in &one.diff { (sign) " " (line) "\n" }
                        } }
                    }
                }
            }
            @if !not.is_empty() {
                p { "Not advised, for it is too seldom worth anything:" }
                ul.plain { @for one in not { li { (one.what) ": " (one.shown) } } }
            }
            @if !advice.tried.is_empty() {
                table.figures {
                    caption { "Each by itself" }
                    tbody {
                        @for (what, shown, _) in &advice.tried {
                            tr { th scope="row" { (what) } td { (shown) } }
                        }
                    }
                }
            }
        }
    }
}
