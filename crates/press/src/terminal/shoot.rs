//! A filming day as a terminal shows it: batches, run of show, swap list, oven, and what fewer batches would cost.

use super::{COLUMNS, left};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::shoot::model::{FilmLines, SceneLine};

/// Columns of a clock or a short name at the least, and of the blank after it: "10:10 am".
const NAME: usize = 9;

/// Columns of the clocks of a list: wider where one of them names its day.
fn clocks<'a>(shown: impl Iterator<Item = &'a String>) -> usize {
    shown
        .map(|clock| clock.chars().count() + 1)
        .fold(NAME, usize::max)
}

/// The day, 80 columns wide.
pub fn shoot(film: &FilmLines) -> String {
    let mut out = wrap(&film.title, COLUMNS);
    out.push(film.date.clone());
    out.extend(wrap(&format!("{}. {}", film.fewest, film.times), COLUMNS));
    heading(&mut out, "Batches");
    for batch in &film.batches {
        let camera = if batch.on_camera { ", on camera" } else { "" };
        let mut words = format!("mix from {}{camera}: {}", batch.starts.shown, batch.serves);
        if batch.starts.shown != batch.latest.shown {
            words += &format!("; not after {}", batch.latest.shown);
        }
        row(&mut out, &batch.name, 10, &words);
        for hold in &batch.holds {
            row(&mut out, "", 12, hold);
        }
        if let Some(spare) = &batch.spare {
            row(&mut out, "", 12, &format!("no scene wants its {spare}"));
        }
    }
    for extra in &film.extras {
        out.extend(wrap(extra, COLUMNS));
    }
    heading(&mut out, "Run of show");
    let wide = clocks(film.scenes.iter().map(|scene| &scene.begins.shown));
    for scene in &film.scenes {
        scene_rows(scene, wide, &mut out);
    }
    heading(&mut out, "Ready before the camera");
    let wide = clocks(film.swaps.iter().map(|swap| &swap.at.shown));
    for swap in &film.swaps {
        let mut words = format!("{}: {}, {}", swap.scene, swap.state, swap.batch);
        for more in [
            &swap.waits,
            &swap.spare.as_ref().map(|s| format!("spare: {s}")),
        ]
        .into_iter()
        .flatten()
        {
            words += &format!("; {more}");
        }
        row(&mut out, &swap.at.shown, wide, &words);
    }
    if !film.oven.is_empty() {
        heading(&mut out, "Oven");
        let wide = clocks(film.oven.iter().map(|bake| &bake.begins.shown));
        for bake in &film.oven {
            let words = format!(
                "to {}  {}, {}, {}",
                bake.ends.shown, bake.dial.shown, bake.what, bake.why
            );
            row(&mut out, &bake.begins.shown, wide, &words);
        }
    }
    if let Some(cold) = &film.refrigerator {
        out.push(String::new());
        out.extend(wrap(&format!("Refrigerator: {cold}."), COLUMNS));
    }
    heading(&mut out, "How many batches");
    for line in &film.trade {
        let mut words = format!("wrap {}", line.wrap);
        for more in [Some(&line.later), line.people.as_ref()]
            .into_iter()
            .flatten()
        {
            if !more.is_empty() {
                words += &format!(", {more}");
            }
        }
        row(&mut out, &line.batches, 12, &words);
    }
    plain(&(out.join("\n") + "\n"))
}

fn heading(out: &mut Vec<String>, words: &str) {
    out.push(String::new());
    out.push(words.to_owned());
}

/// A name or a clock, and words to its right that keep their column.
fn row(out: &mut Vec<String>, name: &str, column: usize, words: &str) {
    for (at, line) in wrap(words, COLUMNS - column - 2).iter().enumerate() {
        let name = if at == 0 { name } else { "" };
        out.push(
            format!("  {}{line}", left(name, column))
                .trim_end()
                .to_owned(),
        );
    }
}

fn scene_rows(scene: &SceneLine, wide: usize, out: &mut Vec<String>) {
    let first = format!("{} {}, {}", scene.name, scene.about, scene.takes.shown);
    row(out, &scene.begins.shown, wide, &first);
    for need in &scene.needs {
        row(out, "", wide + 4, need);
    }
    let mut said = scene.figures.clone();
    said.extend(scene.says.iter().cloned());
    if !said.is_empty() {
        row(out, "", wide + 4, &format!("say: {}", said.join(" · ")));
    }
    if let Some(note) = &scene.note {
        row(out, "", wide + 4, note);
    }
}
