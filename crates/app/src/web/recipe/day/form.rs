//! The form of a bake day: batches, wishes, what is done.

use super::titles::titles;
use super::{MOST_BATCHES, SECONDS, Said, of, seconds};
use crate::cli::day_said::called;
use crate::web::desk::Desk;
use crate::web::recipe::Opened;
use crate::web::refusal::Refusal;
use crate::world::notebook::Name;
use maud::{Markup, html};

/// The form, with what it says filled in.
pub fn form(desk: &Desk, opened: &Opened, said: &Said) -> Result<Markup, Refusal> {
    let recipes = titles(desk)?;
    let nothing = !said.keys().any(|key| key.starts_with("of."));
    let count = |name: &Name| match of(said, &format!("of.{}", name.text())) {
        Some(count) => count.to_owned(),
        None if nothing && *name == opened.name => "1".to_owned(),
        None => "0".to_owned(),
    };
    let field = |name: &str, note: &str| {
        html! {
            p {
                label for=(name) { (called(name)) }
                input type="text" id=(name) name=(name) value=(of(said, name).unwrap_or_default()) aria-describedby=(format!("{name}-note"));
            }
            p.hint id=(format!("{name}-note")) { (note) }
        }
    };
    let several = |name: &str, note: &str| {
        html! {
            p {
                label for=(name) { (called(name)) }
                textarea id=(name) name=(name) rows="3" aria-describedby=(format!("{name}-note")) { (of(said, name).unwrap_or_default()) }
            }
            p.hint id=(format!("{name}-note")) { (note) }
        }
    };
    let begun = ["now", "done", "dough"]
        .iter()
        .any(|name| of(said, name).is_some());
    Ok(html! {
        form.row.batches method="post" action=(opened.place("/day")) {
            fieldset.beside {
                legend { "Batches of each recipe" }
                @for (at, (name, title)) in recipes.iter().enumerate() {
                    @let id = format!("batches-{at}");
                    p {
                        label for=(id) { (title) }
                        input type="number" id=(id) name=(format!("of.{}", name.text())) min="0" max=(MOST_BATCHES) step="1" value=(count(name));
                    }
                }
            }
            div {
                (opened.kitchen_field())
                (several("serve", "One bread a line: braid 2026-12-24 16:00; or 16:00 for everything. What has no time is made as soon as can be."))
                (field("from", "As 2026-12-24 07:00; from now on when left empty."))
                details open[["out", "zone", "follows", "clock"].iter().any(|name| of(said, name).is_some())] {
                    summary { "More wishes" }
                    (several("out", "In the same words."))
                    (field("zone", "As Europe/Oslo; this machine’s when left empty."))
                    (opened.readers_field())
                    p {
                        label for="follows" { (called("follows")) }
                        select #follows name="follows" {
                            option value="" { "its sign, as it comes in this kitchen" }
                            option value="clock" selected[of(said, "follows") == Some("clock")] { "the written time" }
                        }
                    }
                    p {
                        label for="clock" { "Hours" }
                        select #clock name="clock" {
                            option value="" { "13:05" }
                            option value="12" selected[of(said, "clock") == Some("12")] { "1:05 pm" }
                        }
                    }
                    p {
                        label for="seconds" { (called("seconds")) }
                        select #seconds name="seconds" {
                            @for one in SECONDS { option value=(one) selected[one == seconds(said)] { (one) } }
                        }
                    }
                }
                details open[begun] {
                    summary { "The day has begun" }
                    (field("now", "As 10:40. What is done stays done; the rest is planned anew and moves as little as it can."))
                    (several("done", "One step a line, with all before it: mix, divide, 8, shape knots, chill the dough. Of several doughs: 2: mix, or loaf: mix; they are counted as they stand above."))
                    (field("dough", "As 24.1C."))
                }
                p { button type="submit" { "Plan the day" } }
            }
        }
    })
}
