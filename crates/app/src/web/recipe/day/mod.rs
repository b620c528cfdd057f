//! A bake day: several recipes of the notebook in one kitchen, when each bread is ready, the plan to take away.

mod form;
mod planned;
mod titles;

use super::{Opened, Tab};
use crate::cli::day::what;
use crate::cli::day_before;
use crate::cli::day_words::{Asks, read};
use crate::cli::work::on_bytes_for;
use crate::web::desk::{Asked, Desk, aside, in_query};
use crate::web::in_hand::Doing;
use crate::web::laid_out::Texts;
use crate::web::refusal::{Answer, Refusal};
use crate::web::under_way;
use crate::world::notebook::{Kept, Name};
use axum::extract::{Form, Path, Query, State};
use axum::http::StatusCode;
use bake::simulate::Follows;
use edit::ledger::timetable::Hours;
use maud::html;
use plan::day::means::{Means, means};
use recipe::document::read_kitchen_bytes;
use std::collections::BTreeMap;
use std::sync::Arc;

pub use planned::{drawing, hands, parts, table};

/// What the form says, by its fields; batches of a recipe stand under `of.NAME`.
type Said = BTreeMap<String, String>;

/// The fields of the form, those of the recipes apart.
const FIELDS: [&str; 9] = [
    "serve", "out", "from", "zone", "now", "done", "dough", "follows", "clock",
];
/// Those of a day that has begun.
const BEGUN: [&str; 3] = ["now", "done", "dough"];
/// How long a plan may be looked for, in seconds.
const SECONDS: [&str; 4] = ["2", "5", "20", "60"];
/// Batches of one recipe at most.
const MOST_BATCHES: u32 = 20;

fn of<'a>(said: &'a Said, name: &str) -> Option<&'a str> {
    said.get(name)
        .map(|value| value.trim())
        .filter(|value| !value.is_empty())
}

fn lines_of(said: &Said, name: &str) -> Vec<String> {
    let all = of(said, name).unwrap_or_default();
    let lines = all.lines().map(str::trim);
    lines
        .filter(|line| !line.is_empty())
        .map(str::to_owned)
        .collect()
}

fn seconds(said: &Said) -> &str {
    let asked = of(said, "seconds").unwrap_or(SECONDS[1]);
    SECONDS
        .into_iter()
        .find(|one| *one == asked)
        .unwrap_or(SECONDS[1])
}

/// The end of the address that says the same.
fn address(said: &Said) -> String {
    let ours = said.iter().filter(|(name, value)| {
        let kept = FIELDS.contains(&name.as_str()) || name.as_str() == "seconds";
        (kept || name.starts_with("of.")) && !value.trim().is_empty()
    });
    let parts: Vec<String> = ours
        .map(|(name, value)| format!("{}={}", in_query(name), in_query(value)))
        .collect();
    parts.join("&")
}

fn mark(
    opened: &Opened,
    asked: &Asked,
    kitchen: Option<&(String, Vec<u8>)>,
    said: &Said,
    texts: &str,
) -> String {
    let own = Texts {
        file: "",
        recipe: &opened.bytes,
        kitchen: kitchen.cloned(),
        readers: asked.readers(),
    };
    own.mark(&format!("day {} {texts}", question(said)))
}

/// What the form says, by which the same day is known again: batches stand with the texts, and what is left as it is
/// says nothing.
fn question(said: &Said) -> String {
    let fields = FIELDS
        .iter()
        .filter_map(|name| Some((*name, of(said, name)?)));
    let lines = |text: &str| text.lines().map(str::trim).collect::<Vec<_>>().join("\n");
    let parts: Vec<String> = fields
        .chain([("seconds", seconds(said))])
        .map(|(name, value)| format!("{name}={}", in_query(&lines(value))))
        .collect();
    parts.join("&")
}

/// The same wishes before the day began, however long a plan was looked for and however its hours are written.
fn before_it_began(said: &Said) -> impl Iterator<Item = Said> + '_ {
    SECONDS.into_iter().flat_map(move |seconds| {
        ["", "12"].map(|clock| {
            let mut morning = said.clone();
            morning.retain(|name, _| !BEGUN.contains(&name.as_str()));
            morning.insert("seconds".to_owned(), seconds.to_owned());
            morning.insert("clock".to_owned(), clock.to_owned());
            morning
        })
    })
}

/// A recipe of the notebook with its batches.
struct Batches {
    name: Name,
    title: String,
    bytes: Vec<u8>,
    count: u32,
}

/// The recipes of the notebook that are wanted; the one whose page it is, once, when nothing is said.
fn batches(desk: &Desk, own: &Name, said: &Said) -> Result<Vec<Batches>, Refusal> {
    let mut all = Vec::new();
    for (name, title) in titles::titles(desk)? {
        let count = match of(said, &format!("of.{}", name.text())) {
            None if name == *own && !said.keys().any(|key| key.starts_with("of.")) => 1,
            None => 0,
            Some(words) => words
                .parse()
                .ok()
                .filter(|count| *count <= MOST_BATCHES)
                .ok_or_else(|| {
                    Refusal::new(
                        StatusCode::UNPROCESSABLE_ENTITY,
                        format!(
                            "“{words}” is no number of batches of {title}; write 0 to {MOST_BATCHES}."
                        ),
                    )
                })?,
        };
        if count > 0
            && let Some(bytes) = desk.notebook.read(Kept::Recipe, &name)?
        {
            all.push(Batches {
                name,
                title,
                bytes,
                count,
            });
        }
    }
    Ok(all)
}

/// By what the texts of a day are known again.
fn texts_of(all: &[Batches]) -> String {
    let marks: Vec<String> = all
        .iter()
        .map(|one| {
            let text = crate::web::digest::base64(&one.bytes);
            format!("{}×{}:{text}", one.name.text(), one.count)
        })
        .collect();
    marks.join(" ")
}

/// `GET /recipe/{name}/day?of.loaf=2&serve=loaf+16:00&from=2026-12-24+08:00`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(said): Query<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked.clone())?;
        let (_, _, kitchen) = super::texts(desk, &name, &asked)?;
        let all = match batches(desk, &opened.name, &said) {
            Ok(all) => all,
            Err(refused) => return again(refused, desk, &opened, &said),
        };
        let mark = mark(&opened, &asked, kitchen.as_ref(), &said, &texts_of(&all));
        let otherwise = said
            .contains_key("from")
            .then_some("This day has not been planned yet, or its plan is not kept any more.");
        // An answer stands before the form, which is longer than a telephone is.
        let main = html! {
            (under_way::answer(desk, Some(&mark), what, otherwise))
            section { h2 { "Wishes" } (form::form(desk, &opened, &said)?) }
        };
        Ok(opened.show(Tab::Day, &main))
    })
    .await
}

/// `POST /recipe/{name}/day`: begins planning.
pub async fn begin(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(mut said): Form<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let asked = asked.chosen(&said);
        let opened = Opened::of(desk, &name, asked.clone())?;
        let typed = said.clone();
        begun(desk, &opened, &asked, &mut said)
            .or_else(|refused| again(refused, desk, &opened, &typed))
    })
    .await
}

/// The form once more, with what was wrong in it said above.
fn again(refused: Refusal, desk: &Desk, opened: &Opened, said: &Said) -> Answer {
    refused.beside(|told| {
        let main = html! {
            (told)
            (form::form(desk, opened, said)?)
        };
        Ok(opened.show(Tab::Day, &main))
    })
}

/// Begins planning what the form says.
fn begun(desk: &Desk, opened: &Opened, asked: &Asked, said: &mut Said) -> Answer {
    let (_, _, kitchen) = super::texts(desk, opened.name.text(), asked)?;
    let (serve, out, done) = (
        lines_of(said, "serve"),
        lines_of(said, "out"),
        lines_of(said, "done"),
    );
    let wishes = read(&Asks {
        serve: &serve,
        out: &out,
        from: of(said, "from"),
        zone: of(said, "zone"),
        now: of(said, "now"),
        done: &done,
        dough: of(said, "dough"),
        in_a_form: true,
    })?;
    // The address holds the day itself, not "now", so that it asks the same tomorrow.
    said.insert(
        "from".to_owned(),
        wishes.starts.strftime("%Y-%m-%d %H:%M").to_string(),
    );
    let all = batches(desk, &opened.name, said)?;
    if all.is_empty() {
        return Err(Refusal::new(
            StatusCode::UNPROCESSABLE_ENTITY,
            "No recipe was chosen for the day.",
        )
        .hint("Write at least 1 beside one of them."));
    }
    let mark = mark(opened, asked, kitchen.as_ref(), said, &texts_of(&all));
    let there = under_way::there(opened, asked, "/day", &address(said));
    let mut works = Vec::new();
    for one in &all {
        let file = Kept::Recipe.file(&one.name);
        let work = on_bytes_for(&file, &one.bytes, kitchen.clone(), asked.readers());
        if work.stops_the_day() {
            return Err(Refusal::new(
                StatusCode::UNPROCESSABLE_ENTITY,
                format!(
                    "{} has something to mend, so no day is planned with it.",
                    one.title
                ),
            )
            .hint("Its findings say what."));
        }
        works.push((work, one.count));
    }
    let mut means = kitchen.as_ref().map_or_else(Means::usual, |(_, bytes)| {
        let file = read_kitchen_bytes(bytes).output;
        file.map_or_else(Means::usual, |file| means(&file))
    });
    if wishes.now.is_some() {
        means.is_up();
    }
    // The plan of the morning, where the same wishes were planned and that is still kept.
    let before = wishes.now.as_ref().and_then(|_| {
        let texts = texts_of(&all);
        let kept = before_it_began(said).filter_map(|morning| {
            let mark = self::mark(opened, asked, kitchen.as_ref(), &morning, &texts);
            desk.in_hand.kept(&mark)
        });
        let (_, made) = kept.max_by_key(|(number, _)| *number)?;
        day_before::of_bytes(made.files.get("day.json")?, &wishes)
    });
    let asks = planned::Day {
        works,
        before,
        means,
        meant: wishes,
        follows: match of(said, "follows") {
            Some("clock") => Follows::Clock,
            _ => Follows::Cue,
        },
        hours: match of(said, "clock") {
            Some("12") => Hours::Of12,
            _ => Hours::Of24,
        },
        seconds: seconds(said).parse().unwrap_or(5.0),
    };
    let doing: Doing = Box::new(move |own| asks.planned(own));
    under_way::begin(desk, &mark, "A bake day".to_owned(), there, doing)
}

#[cfg(test)]
mod tests {
    use super::{Said, before_it_began, question};

    fn said(fields: &[(&str, &str)]) -> Said {
        let own = fields.iter();
        own.map(|(name, value)| ((*name).to_owned(), (*value).to_owned()))
            .collect()
    }

    /// The form sends a 0 for every recipe that is not wanted and empty fields; an address need not say them.
    #[test]
    fn the_same_wishes_are_the_same_day() {
        let address = said(&[
            ("from", "2026-12-04 17:00"),
            ("of.loaf", "1"),
            ("serve", "loaf 2026-12-05 16:00\nbuns 12:00"),
        ]);
        let form = said(&[
            ("from", "2026-12-04 17:00"),
            ("of.loaf", "1"),
            ("of.buns", "0"),
            ("out", ""),
            ("seconds", "5"),
            ("serve", "loaf 2026-12-05 16:00\r\nbuns 12:00\r\n"),
            ("now", ""),
        ]);
        assert_eq!(question(&address), question(&form));
        let slipped = said(&[
            ("clock", "12"),
            ("dough", "24C"),
            ("done", "mix"),
            ("from", "2026-12-04 17:00"),
            ("now", "09:10"),
            ("seconds", "20"),
            ("serve", "loaf 2026-12-05 16:00\nbuns 12:00"),
        ]);
        assert_ne!(question(&slipped), question(&form));
        assert!(before_it_began(&slipped).any(|morning| question(&morning) == question(&form)));
        let other = said(&[
            ("from", "2026-12-04 17:00"),
            ("serve", "loaf 2026-12-05 15:00"),
        ]);
        assert!(before_it_began(&slipped).all(|morning| question(&morning) != question(&other)));
    }
}
