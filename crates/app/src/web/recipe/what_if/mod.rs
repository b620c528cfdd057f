//! What if: dials of kitchen, dough and oven beside the day that follows from them.

mod answer;
mod dial;
mod dials;
mod tried;

use super::{Opened, Tab};
use crate::web::desk::{Asked, Desk, aside, in_query};
use crate::web::recipe::texts;
use crate::web::refusal::Answer;
use crate::web::script::Script;
use crate::web::shell::bare;
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::IntoResponse;
use dial::{Dial, Group, Scale};
use dials::{groups, main_flour};
use maud::{Markup, html};
use press::address::relative;
use std::sync::Arc;
use tried::{Asks, FLOURS, Faults, TINS, Values, YEASTS, asked as asked_for, tried};

/// `GET /recipe/{name}/what-if?room=18`; `moving=yes`: only what follows the dials, quickly.
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(values): Query<Values>,
) -> Answer {
    aside(desk, move |desk| {
        if values.contains_key("moving") {
            moving(desk, &name, &asked, &values)
        } else {
            at_rest(desk, &name, &asked, &values)
        }
    })
    .await
}

/// Only the parts that follow.
fn moving(desk: &Desk, name: &str, asked: &Asked, values: &Values) -> Answer {
    let (name, bytes, kitchen) = texts(desk, name, asked)?;
    let file = crate::world::notebook::Kept::Recipe.file(&name);
    let texts = crate::web::laid_out::Texts {
        file: &file,
        recipe: &bytes,
        kitchen,
        readers: asked.readers(),
    };
    let laid = desk.laid_out.of(texts.again());
    let mut faults = Faults::new();
    let tried = tried(
        &desk.laid_out,
        &laid,
        &texts,
        values,
        Asks::Moving,
        &mut faults,
    );
    let place = format!("/recipe/{}/what-if", relative(name.text()));
    let all = laid.work.made.as_ref();
    let all = all.map(|made| groups(made, Scale::of(asked.readers())));
    let all = all.unwrap_or_default();
    Ok(bare(&html! {
        @for dial in all.iter().flat_map(|group| &group.dials) {
            (note(dial, values, &faults, &place, asked))
        }
        (answer::first(tried.as_ref(), &faults))
        (answer::day(tried.as_ref()))
    }))
}

fn at_rest(desk: &Desk, name: &str, asked: &Asked, values: &Values) -> Answer {
    let opened = Opened::of(desk, name, asked.clone())?;
    let (_, bytes, kitchen) = texts(desk, name, asked)?;
    let file = crate::world::notebook::Kept::Recipe.file(&opened.name);
    let texts = crate::web::laid_out::Texts {
        file: &file,
        recipe: &bytes,
        kitchen,
        readers: asked.readers(),
    };
    let laid = desk.laid_out.of(texts.again());
    let mut faults = Faults::new();
    let Some(tried) = tried(
        &desk.laid_out,
        &laid,
        &texts,
        values,
        Asks::AtRest,
        &mut faults,
    ) else {
        return Ok(opened.show(
            Tab::WhatIf,
            &html! {
                p.lead { "What would happen can be worked out when what must be mended is mended." }
                p { a href=(opened.address(Tab::Findings)) { "Findings" } }
            },
        ));
    };
    let Some(made) = laid.work.made.as_ref() else {
        return Err(crate::web::refusal::Refusal::bug("a day without a recipe"));
    };
    let place = opened.place("/what-if");
    let all = groups(made, Scale::of(asked.readers()));
    let ids: Vec<String> = ["first".to_owned(), "day".to_owned()]
        .into_iter()
        .chain(all.iter().flat_map(|group| &group.dials).map(note_id))
        .collect();
    let turned = all
        .iter()
        .flat_map(|group| &group.dials)
        .any(|dial| asked_for(values, dial.name).is_some())
        || ["flour", "yeast", "tin", "material", "fan", "follows"]
            .iter()
            .any(|name| asked_for(values, name).is_some());
    let main = html! {
        @if !faults.is_empty() { (summary(&faults)) }
        div.what-if {
            (answer::first(Some(&tried), &faults))
            form method="get" action=(place) data-live=(ids.join(" ")) data-moving="moving=yes" novalidate {
                @if let Some(kitchen) = asked.kitchen() { input type="hidden" name="kitchen" value=(kitchen.text()); }
                @if let Some(market) = asked.readers() { input type="hidden" name="readers" value=(market.tag()); }
                @for (at, group) in all.iter().enumerate() {
                    (fieldset(group, at == 0, values, &faults, &|dial| note(dial, values, &faults, &place, asked), &more(group, made, values, &faults)))
                }
                p.buttons {
                    button type="submit" { "Follow it" }
                    @if turned { a href=(format!("{place}{}", asked.carried())) { "Everything as in this kitchen" } }
                }
            }
            (answer::day(Some(&tried)))
        }
    };
    let page = opened.show_with(Tab::WhatIf, &main, &[Script::Live]);
    Ok(if faults.is_empty() {
        page
    } else {
        (StatusCode::UNPROCESSABLE_ENTITY, page).into_response()
    })
}

/// What cannot be asked, with ways to the fields.
fn summary(faults: &Faults) -> Markup {
    html! {
        div.faults role="alert" {
            h2 { "Left as it is in this kitchen" }
            ul {
                @for (name, said) in faults { li { a href=(format!("#{name}")) { (said) } } }
            }
        }
    }
}

fn note_id(dial: &Dial) -> String {
    format!("{}-note", dial.name)
}

fn fieldset(
    group: &Group,
    open: bool,
    values: &Values,
    faults: &Faults,
    note: &dyn Fn(&Dial) -> Markup,
    more: &Markup,
) -> Markup {
    let turned = group
        .dials
        .iter()
        .any(|dial| asked_for(values, dial.name).is_some());
    let chosen = ["flour", "yeast", "tin", "material", "fan"]
        .iter()
        .any(|name| asked_for(values, name).is_some());
    html! {
        details open[open || turned || chosen || !faults.is_empty()] {
            summary { (group.called) }
            @for dial in &group.dials {
                div.dial {
                    label for=(dial.name) {
                        (dial.label)
                        @if !dial.unit.is_empty() { ", " (dial.unit_shown()) }
                    }
                    @let (low, high) = dial.reach();
                    input type="number" id=(dial.name) name=(dial.name) min=(low) max=(high) step=(dial.step_shown())
                        value=(standing(dial, values)) data-own=(dial.figure(dial.own)) inputmode="decimal"
                        aria-describedby=(note_id(dial)) aria-invalid=[faults.contains_key(dial.name).then_some("true")];
                    (note(dial))
                }
            }
            (more)
        }
    }
}

/// What its field shows: what was asked, or where it stands.
fn standing(dial: &Dial, values: &Values) -> String {
    asked_for(values, dial.name).map_or_else(|| dial.figure(dial.own), str::to_owned)
}

/// Under a dial: its range; where it is turned, where it stood and the way back.
fn note(dial: &Dial, values: &Values, faults: &Faults, place: &str, asked: &Asked) -> Markup {
    let read = dial.read(values.get(dial.name).map_or("", String::as_str));
    html! {
        p.hint id=(note_id(dial)) {
            @if let Some(said) = faults.get(dial.name) { strong { (said) } " " }
            @match read {
                Ok(Some(value)) => {
                    (dial.words(value)) ". "
                    a href=(without(dial.name, values, place, asked)) data-back=(dial.name) {
                        "As in this kitchen, " (dial.words(dial.own))
                    }
                }
                _ => { (dial.range()) "; here " (dial.words(dial.own)) }
            }
        }
    }
}

/// The same question without one of its values.
fn without(name: &str, values: &Values, place: &str, asked: &Asked) -> String {
    let kept = values.iter().filter(|(own, value)| {
        own.as_str() != name
            && !value.is_empty()
            && !matches!(own.as_str(), "kitchen" | "readers" | "said" | "moving")
    });
    let more: Vec<String> = kept
        .map(|(own, value)| format!("{}={}", in_query(own), in_query(value)))
        .collect();
    let carried = asked.carried();
    match (carried.is_empty(), more.is_empty()) {
        (_, true) => format!("{place}{carried}"),
        (true, false) => format!("{place}?{}", more.join("&")),
        (false, false) => format!("{place}{carried}&{}", more.join("&")),
    }
}

/// The choices that belong to a group.
fn more(group: &Group, made: &crate::cli::work::Made, values: &Values, faults: &Faults) -> Markup {
    let has = |name: &str| group.dials.iter().any(|dial| dial.name == name);
    let tins = made.recipe.products.iter().any(|one| one.tin.is_some());
    html! {
        @if has("room") {
            (choice("follows", "What ends a step", values, "its sign, however long it takes", &[("clock", "the written time")]))
        }
        @if has("bowl") {
            @if let Some((item, _)) = main_flour(made) {
                @let options: Vec<(&str, &str)> = FLOURS.iter().filter(|one| **one != item.of.value).map(|one| (*one, *one)).collect();
                (choice("flour", "Flour instead", values, &item.of.value, &options))
                (fault("flour", faults))
            }
            @let yeasts: Vec<(&str, &str)> = YEASTS.iter().map(|one| (*one, *one)).collect();
            (choice("yeast", "Yeast instead", values, "as written", &yeasts))
            (fault("yeast", faults))
            @if tins {
                div.dial {
                    label for="tin" { "Another tin, filled as full" }
                    input type="text" id="tin" name="tin" value=(asked_for(values, "tin").unwrap_or_default())
                        aria-describedby="tin-note" aria-invalid=[faults.contains_key("tin").then_some("true")];
                    p.hint #tin-note {
                        @if let Some(said) = faults.get("tin") { strong { (said) } " " }
                        "950 mL, or 23 x 13 x 7 cm; the dough is made to fit. As written when left empty."
                    }
                }
                @let materials: Vec<(&str, &str)> = TINS.iter().map(|one| (one.word(), one.word())).collect();
                (choice("material", "Tins and trays of", values, "what is written", &materials))
                (fault("material", faults))
            }
        }
        @if has("oven") {
            @let own = if made.kitchen.oven.fan { "as in this kitchen, on" } else { "as in this kitchen, off" };
            (choice("fan", "Fan of the oven", values, own, &[("on", "on"), ("off", "off")]))
            (fault("fan", faults))
        }
    }
}

fn fault(name: &str, faults: &Faults) -> Markup {
    html! { @if let Some(said) = faults.get(name) { p.hint { strong { (said) } } } }
}

fn choice(name: &str, label: &str, values: &Values, own: &str, options: &[(&str, &str)]) -> Markup {
    let chosen = asked_for(values, name);
    html! {
        div.dial {
            label for=(name) { (label) }
            select id=(name) name=(name) {
                option value="" { (own) }
                @for (value, words) in options {
                    option value=(value) selected[chosen == Some(*value)] { (words) }
                }
            }
        }
    }
}
