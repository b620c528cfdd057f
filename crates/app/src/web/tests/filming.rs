//! Scenes of a filming day from the form to the file and to the plan; findings stand beside what they are about.

use super::{Served, sent};
use axum::http::StatusCode;

const HEARTH: &str = include_str!("../../../../../examples/hearth-loaf.toml");
const FORM: &str = "/recipe/hearth-loaf/filming/scenes?of=overnight-sponge-hearth-loaf";
const FILE: &str = "scenes/overnight-sponge-hearth-loaf.toml";

fn served(name: &str) -> Served {
    let served = Served::new(name);
    served.write("hearth-loaf.toml", HEARTH);
    let begun = served.post("/recipe/hearth-loaf/filming/scenes", "");
    assert!(begun.to().starts_with(FORM), "{}", begun.to());
    served
}

/// What the page shows as seen, and one field more.
fn with(served: &Served, more: &str) -> String {
    let page = served.get(FORM).text();
    let seen = page.split("name=\"seen\" value=\"").nth(1);
    let seen = seen.and_then(|rest| rest.split('"').next()).expect("seen");
    format!("seen={}&{more}", sent(seen))
}

#[test]
fn scenes_are_begun_filled_in_moved_and_planned() {
    let served = served("scenes");
    served
        .get("/recipe/hearth-loaf/filming")
        .says("overnight-sponge-hearth-loaf");
    let page = served.get(FORM);
    page.says("What must be ready");
    page.says("<option value=\"dough risen\">dough risen</option>");

    let two = format!(
        "day=2026-12-24&scene.0.about={}&scene.0.needs.0={}&scene.0.needs.1=&scene.0.for=20&act:add:scene=",
        sent("The dough has risen"),
        sent("dough risen")
    );
    let saved = served.post(FORM, &with(&served, &two));
    assert!(saved.to().ends_with("#scene-1"), "{}", saved.to());
    let text = served.read(FILE);
    assert!(
        text.contains("for = \"20 min\"\nneeds = [\"dough risen\"]\n"),
        "{text}"
    );
    assert!(text.contains("day = 2026-12-24\n"), "{text}");
    assert!(text.contains("name = \"S02\"\n"), "{text}");

    let last = format!(
        "scene.1.about={}&scene.1.needs.0={}&scene.1.at=14:00",
        sent("Out of the oven"),
        sent("loaf baked")
    );
    served.post(FORM, &with(&served, &last)).to();
    let moved = served.post(FORM, &with(&served, "act:earlier:scene.1="));
    assert!(moved.to().ends_with("#scene-0"), "{}", moved.to());
    let text = served.read(FILE);
    let (first, second) = (
        text.find("S02").expect("S02"),
        text.find("S01").expect("S01"),
    );
    assert!(first < second, "{text}");
    served.post(FORM, &with(&served, "act:later:scene.0=")).to();

    let begun = served.send(
        "/recipe/hearth-loaf/filming",
        &[("kept", "overnight-sponge-hearth-loaf")],
    );
    let told = served.over(&begun);
    told.says("Run of show");
    told.says("Out of the oven");
}

#[test]
fn findings_stand_beside_what_they_are_about_and_nothing_is_written_over() {
    let served = served("scene-findings");
    let before = with(&served, "scene.0.about=Mix");
    // A state that the recipe never comes to, and a scene before the one above it.
    served.write(
        FILE,
        "everyoven = 1\nshoot = \"Day\"\nday = 2026-12-24\ncall = 09:00\n\n\
         [[scene]]\nname = \"S01\"\nabout = \"One\"\nfor = \"15 min\"\nneeds = [\"dough risn\"]\n\n\
         [[scene]]\nname = \"S02\"\nabout = \"Two\"\nfor = \"15 min\"\nat = 08:00\n",
    );
    let page = served.get(FORM);
    page.says("id=\"scene-0-needs-0\" name=\"scene.0.needs.0\" aria-invalid=\"true\" aria-describedby=\"scene-0-needs-found\"");
    page.says("<ul class=\"plain told\" id=\"scene-0-needs-found\">");
    page.says("Was “dough risen” meant?");
    page.says("<ul class=\"plain told\" id=\"scene-1-at-found\">");
    // What was filled in before that is not put over it.
    let refused = served.post(FORM, &before);
    assert_eq!(refused.status, StatusCode::CONFLICT);
    assert!(served.read(FILE).contains("dough risn"));
    // A file that is no TOML is left alone, and said.
    served.write(FILE, "everyoven = \n");
    served.get(FORM).says("cannot be shown as a form");
    for path in [
        "/recipe/hearth-loaf/filming/scenes",
        "/recipe/hearth-loaf/filming/scenes?of=..%2Fhearth-loaf",
    ] {
        assert_eq!(served.get(path).status, StatusCode::NOT_FOUND, "{path}");
    }
}
