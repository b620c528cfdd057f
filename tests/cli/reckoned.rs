//! What is published carries reckoned times beside the author's: the same strings on page, text and to machines, and rises by the room.
//!
//! What is looked at is how they hang together, never how long a rise takes.

use super::running::{folder, run, squeezed, word};
use serde_json::Value;

/// A page without its tags.
fn seen(html: &str) -> String {
    let body = html.split_once("<body>").expect("a body").1;
    let pieces = body.split('<').filter_map(|part| part.split_once('>'));
    squeezed(&pieces.map(|(_, text)| text).collect::<String>())
}

struct Published {
    page: String,
    text: String,
    fragment: String,
    figures: Vec<Value>,
}

fn published(recipe: &str, more: &[&str]) -> Published {
    let out = folder(&format!("reckoned-{recipe}-{}", more.len()));
    let into = out.to_str().expect("UTF-8");
    let file = format!("examples/{recipe}.toml");
    let arguments = [&["--json", "publish", &file, "--into", into][..], more].concat();
    let answer = run(&arguments);
    let said = String::from_utf8_lossy(&answer.stderr);
    assert!(answer.status.success(), "{recipe}: {said}");
    let json: Value = serde_json::from_slice(&answer.stdout).expect("JSON");
    let place = std::fs::read_dir(&out)
        .expect("out")
        .next()
        .expect("one")
        .expect("one")
        .path();
    let read = |name: &str| std::fs::read_to_string(place.join(name)).expect("a file");
    let fragment = format!("<body>{}", read("fragment.html"));
    let made = Published {
        page: seen(&read("index.html")),
        text: squeezed(&read("recipe.txt")),
        fragment: seen(&fragment),
        figures: json["figures"].as_array().expect("figures").clone(),
    };
    std::fs::remove_dir_all(out).expect("cleaned");
    made
}

/// Figures that are reckoned for a step, by what follows the step's number.
fn of_step<'a>(made: &'a Published, what: &str) -> Vec<(&'a str, &'a Value)> {
    let named = made.figures.iter().filter_map(|figure| {
        let (step, rest) = word(&figure["name"])
            .strip_prefix("reckoned.step.")?
            .split_once('.')?;
        (rest == what).then_some((step, figure))
    });
    named.collect()
}

#[test]
fn every_reckoned_figure_is_on_the_page_in_the_text_and_in_the_piece() {
    for recipe in [
        "same-day-loaf",
        "cardamom-dough",
        "hearth-loaf",
        "feast-bread",
    ] {
        let made = published(recipe, &[]);
        let reckoned: Vec<&Value> = made
            .figures
            .iter()
            .filter(|figure| word(&figure["name"]).starts_with("reckoned."))
            .collect();
        assert!(reckoned.len() > 12, "{recipe}: {} figures", reckoned.len());
        for figure in reckoned {
            let shown = squeezed(word(&figure["shown"]));
            assert_eq!(figure["had"], "worked out here");
            for (place, all) in [
                ("page", &made.page),
                ("text", &made.text),
                ("piece", &made.fragment),
            ] {
                assert!(
                    all.contains(&shown),
                    "{recipe}: {shown} is not on the {place}"
                );
            }
        }
        for note in [
            "The times in the method are the author’s",
            "In your kitchen",
        ] {
            assert!(
                made.page.contains(note) && made.text.contains(note),
                "{recipe}: {note}"
            );
        }
        // Each stands in its margin as reckoned, beside the author's own.
        for (step, figure) in of_step(&made, "takes") {
            let said = format!("reckoned {}", squeezed(word(&figure["shown"])));
            assert!(made.page.contains(&said), "{recipe}, step {step}: {said}");
        }
    }
}

#[test]
fn a_rise_in_the_room_is_that_in_a_warm_place_of_the_same_temperature() {
    // A usual kitchen's warm place has 27 °C: in a room of 27 °C it makes no difference to have one.
    let made = published("same-day-loaf", &[]);
    let warm = of_step(&made, "at-27");
    let room = of_step(&made, "in-the-room.at-27");
    assert!(!room.is_empty());
    for (step, figure) in room {
        let other = warm.iter().find(|(other, _)| *other == step);
        let (_, other) = other.expect("a warm place's row has the room's under it");
        assert_eq!(figure["value"], other["value"], "step {step}");
    }
}

#[test]
fn a_kitchen_without_a_warm_place_has_rows_for_the_room_alone() {
    let made = published(
        "same-day-loaf",
        &["--kitchen", "examples/kitchens/plateau.toml"],
    );
    assert!(of_step(&made, "in-the-room.at-21").is_empty());
    assert!(
        made.page
            .contains("in High plateau with a room of 22 °C / 72 °F"),
        "{}",
        made.page
    );
    for room in ["at-18", "at-21", "at-24", "at-27"] {
        assert!(of_step(&made, room).len() >= 3, "{room}");
    }
}
