//! A filming day on paper: run of show, shots, batches and swap list, labels, the call sheet.

use edit::ledger::shoot::model::FilmLines;
use serde_json::{Value, json};

use crate::papers::Sheet;
use crate::pdf::{PdfFault, Template, lay_out_with, palette};

/// The papers as one PDF/UA-1; the same bytes for the same day. `language` is that of its readers
/// (BCP 47).
pub fn papers(
    film: &FilmLines,
    imprint: &str,
    language: &str,
    size: Sheet,
) -> Result<Vec<u8>, PdfFault> {
    let (width_mm, height_mm) = size.size_mm();
    let template = Template {
        text: include_str!("../../templates/shoot.typ"),
        name: "shoot",
        paper: json!({ "width": width_mm, "height": height_mm, "margin": 14.0 }),
    };
    let data = json!({
        "title": film.title,
        "recipe": film.recipe,
        "date": film.date,
        "fewest": film.fewest,
        "times": film.times,
        "scenes": scenes(film),
        "batches": film.batches.iter().map(|batch| json!({
            "name": batch.name,
            "starts": batch.starts.shown,
            "latest": batch.latest.shown,
            "serves": batch.serves,
            "holds": batch.holds,
            "camera": batch.on_camera,
            "spare": batch.spare,
        })).collect::<Vec<_>>(),
        "extras": film.extras,
        "swaps": film.swaps.iter().map(|swap| json!({
            "scene": swap.scene,
            "state": swap.state,
            "at": swap.at.shown,
            "batch": swap.batch,
            "started": swap.started,
            "waits": swap.waits,
            "spare": swap.spare,
        })).collect::<Vec<_>>(),
        "oven": film.oven.iter().map(|bake| json!({
            "begins": bake.begins.shown,
            "ends": bake.ends.shown,
            "what": bake.what,
            "dial": bake.dial.shown,
            "why": bake.why,
        })).collect::<Vec<_>>(),
        "refrigerator": film.refrigerator,
        "trade": film.trade.iter().map(|row| json!({
            "batches": row.batches,
            "wrap": row.wrap,
            "later": row.later,
            "people": row.people,
        })).collect::<Vec<_>>(),
        "labels": film.labels.iter().map(|label| json!({
            "heading": label.heading,
            "lines": label.lines,
        })).collect::<Vec<_>>(),
        "holds": film.holds.iter().map(|hold| json!({
            "state": hold.state,
            "keeps": hold.keeps.shown,
            "place": hold.place,
            "source": format!("{}, {}", hold.keeps.origin.source, hold.keeps.origin.had.words()),
        })).collect::<Vec<_>>(),
        "call": call(film),
        "cautions": film.cautions.iter().map(|one| json!({
            "text": one.text,
            "source": one.source,
        })).collect::<Vec<_>>(),
        "contains": film.contains,
        "imprint": imprint,
        "colours": palette(),
    });
    lay_out_with(&data, Vec::new(), &film.table.slug, language, &template)?.export()
}

fn scenes(film: &FilmLines) -> Vec<Value> {
    let of = |scene: &edit::ledger::shoot::model::SceneLine| {
        let shots = scene.shots.iter().map(|shot| {
            json!({
                "number": shot.number,
                "size": shot.size,
                "of": shot.of,
                "moves": shot.moves,
                "sound": shot.sound,
            })
        });
        json!({
            "name": scene.name,
            "about": scene.about,
            "begins": scene.begins.shown,
            "takes": scene.takes.shown,
            "needs": scene.needs,
            "figures": scene.figures,
            "says": scene.says,
            "note": scene.note,
            "shots": shots.collect::<Vec<_>>(),
        })
    };
    film.scenes.iter().map(of).collect()
}

/// None when the file of scenes says neither where it is nor who comes.
fn call(film: &FilmLines) -> Value {
    let call = &film.call;
    if call.place.is_empty() && call.crew.is_empty() {
        return Value::Null;
    }
    let pairs = |all: &[(String, String)]| -> Vec<Value> {
        all.iter().map(|(what, told)| json!([what, told])).collect()
    };
    json!({
        "hours": pairs(&call.hours),
        "place": pairs(&call.place),
        "crew": call.crew.iter().map(|(does, who, comes)| json!([does, who, comes])).collect::<Vec<_>>(),
    })
}
