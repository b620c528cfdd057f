//! Long work from the form to its answer: begun, seen, cancelled, kept; what cannot be asked is refused.

use super::{Served, sent};
use axum::http::StatusCode;

const HEARTH: &str = include_str!("../../../../../examples/hearth-loaf.toml");

const STUDIO: &str = include_str!("../../../../../examples/kitchens/studio.toml");

fn served(name: &str) -> Served {
    let served = Served::new(name);
    served.write("hearth-loaf.toml", HEARTH);
    served
}

#[test]
fn other_kitchens_are_followed_once_and_kept() {
    let served = served("elsewhere");
    let form = "audience=us&number=100&quick=yes";
    let begun = served.post("/recipe/hearth-loaf/elsewhere", form);
    let told = served.over(&begun);
    assert_eq!(told.status, StatusCode::OK, "{}", told.text());
    told.says("How many come out well");
    told.says("<svg");
    told.says("What is not known");
    let again = served.post("/recipe/hearth-loaf/elsewhere", form);
    assert_eq!(again.to(), begun.to(), "the kept answer");
    let file = served.get(&format!("{}/file/other-kitchens.svg", begun.to()));
    assert_eq!(file.header("content-type"), "image/svg+xml");
    let gone = served.get(&format!("{}/file/none.svg", begun.to()));
    assert_eq!(gone.status, StatusCode::NOT_FOUND);
    // A changed recipe is another question.
    served.write(
        "hearth-loaf.toml",
        HEARTH.replace("title = \"", "title = \"My "),
    );
    let page = served.get("/recipe/hearth-loaf/elsewhere?audience=us&number=100&quick=yes");
    page.says("This has not been followed yet");
}

#[test]
fn what_is_cancelled_says_so_and_can_be_asked_again() {
    let served = served("cancel");
    let begun = served.post("/recipe/hearth-loaf/elsewhere", "audience=us&number=10000");
    let page = served.get(begun.to());
    page.says("Cancel");
    page.says("<noscript><meta http-equiv=\"refresh\"");
    let stop = format!("{}/stop", begun.to());
    assert_eq!(served.post(&stop, "").to(), begun.to());
    let told = served.over(&begun);
    let text = told.text();
    assert!(
        text.contains("Ask again") || text.contains("It was stopped"),
        "{text}"
    );
}

#[test]
fn readers_and_numbers_that_are_not_there_are_refused() {
    let served = served("refused");
    for form in [
        "audience=martians&number=100",
        "audience=us&number=7",
        "audience=us&number=many",
    ] {
        let told = served.post("/recipe/hearth-loaf/elsewhere", form);
        assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY, "{form}");
        told.says("<h1>");
    }
    for path in ["/in-hand/99", "/in-hand/99/file/a.svg"] {
        assert_eq!(served.get(path).status, StatusCode::NOT_FOUND);
    }
    assert_eq!(
        served.post("/in-hand/99/stop", "").status,
        StatusCode::NOT_FOUND
    );
}

#[test]
fn a_talk_is_held_against_the_recipe() {
    let served = served("talk");
    let page = served.get("/recipe/hearth-loaf/words");
    page.says("What the editor finds");
    let nothing = served.send("/recipe/hearth-loaf/words", &[("text", " ")]);
    assert_eq!(nothing.status, StatusCode::UNPROCESSABLE_ENTITY);
    nothing.says("href=\"#text\"");
    let said = "[0:10] Bake the loaf at 140 °C, that is 285 °F, for two hours.\n";
    let begun = served.send("/recipe/hearth-loaf/words", &[("text", said)]);
    let told = served.over(&begun);
    assert_eq!(told.status, StatusCode::OK, "{}", told.text());
    told.says("Said otherwise");
    told.says("<strong>0:10</strong>");
    // What was pasted can be mended where it stands; without marks a finding has its line.
    told.says("two hours.\n</textarea>");
    let said = "Bake it as you like.\nBake the loaf at 140 °C, that is 285 °F, for two hours.\n";
    let begun = served.send("/recipe/hearth-loaf/words", &[("text", said)]);
    served.over(&begun).says("<strong>line 2</strong>");
    let page = served.get("/recipe/hearth-loaf/words?talk=gone");
    page.says("not kept any more");
}

#[test]
fn a_day_is_planned_and_its_wishes_are_read() {
    let served = served("day");
    let form = format!(
        "of.hearth-loaf=1&serve={}&from={}&zone=UTC&seconds=60",
        sent("2026-12-24 16:00"),
        sent("2026-12-23 10:00")
    );
    let begun = served.post("/recipe/hearth-loaf/day", &form);
    // Cancelled, the best plan so far is kept.
    served.post(&format!("{}/stop", begun.to()), "").to();
    let told = served.over(&begun);
    assert_eq!(told.status, StatusCode::OK, "{}", told.text());
    told.says("When each bread is ready");
    told.says("16:00");
    let calendar = served.get(&format!("{}/file/day.ics", begun.to()));
    calendar.says("BEGIN:VCALENDAR");
    // The form names recipes as their authors do.
    served
        .get("/recipe/hearth-loaf/day")
        .says(">Overnight sponge hearth loaf</label>");

    // Later on that day it moves from that plan, which is kept; with other wishes from one worked out anew.
    for (serve, says) in [
        ("2026-12-24 16:00", "the one that was written down"),
        ("2026-12-24 17:00", "worked out anew"),
    ] {
        let form = format!(
            "of.hearth-loaf=1&serve={}&from={}&zone=UTC&seconds=60&now={}&done={}",
            sent(serve),
            sent("2026-12-23 10:00"),
            sent("2026-12-24 05:00"),
            sent("1")
        );
        let begun = served.post("/recipe/hearth-loaf/day", &form);
        served.post(&format!("{}/stop", begun.to()), "").to();
        served.over(&begun).says(says);
    }

    for (form, says) in [
        ("of.hearth-loaf=1&serve=soon", "no time in it"),
        ("serve=loaf+24.12.2026+16:00", "write 2026-12-24"),
        ("of.hearth-loaf=many", "no number of batches"),
        ("of.hearth-loaf=0", "No recipe was chosen"),
        ("zone=Nowhere", "no zone"),
    ] {
        let form = format!("{form}&dough=24.1C");
        let told = served.post("/recipe/hearth-loaf/day", &form);
        assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY, "{form}");
        told.says(says);
        // The form is there with what was typed.
        told.says("Plan the day");
        told.says("value=\"24.1C\"");
    }
}

#[test]
fn a_kitchen_is_chosen_among_the_wishes_of_a_day() {
    let served = served("day-kitchen");
    std::fs::create_dir_all(served.folder.join("kitchens")).expect("a folder");
    let quiet = "\n[day]\nhands = 1\nquiet = [\"22:00-06:00\"]\n";
    served.write("kitchens/home.toml", format!("{STUDIO}{quiet}"));
    let page = served.get("/recipe/hearth-loaf/day");
    page.says("<option value=\"home\">");
    assert!(!page.text().contains("Work it out"), "a second form");
    let form = format!(
        "kitchen=home&readers=&of.hearth-loaf=1&serve={}&from={}&zone=UTC&seconds=2",
        sent("loaf 2026-12-24 16:00"),
        sent("2026-12-23 17:00")
    );
    let begun = served.post("/recipe/hearth-loaf/day", &form);
    let told = served.over(&begun);
    told.says("<option value=\"home\" selected>");
    told.says(">loaf 2026-12-24 16:00</textarea>");
    // Two days are in the table, so a clock names its day; nobody works at night in this kitchen.
    told.says("<td data-head=\"wanted\">Thu 16:00</td>");
    told.says("quiet hours</title>");
    // Files and hands' work come before the day by the clock.
    let text = told.text();
    let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("no {words}"));
    assert!(place("id=\"take-away\"") < place("id=\"hands\""));
    assert!(place("id=\"hands\"") < place("id=\"by-the-clock\""));
    // Refused, the form still has both.
    let told = served.post("/recipe/hearth-loaf/day", "kitchen=home&serve=soon");
    told.says("<option value=\"home\" selected>");
    told.says(">soon</textarea>");
    // And a filming day has its kitchen beside its scenes.
    let page = served.get("/recipe/hearth-loaf/filming?kitchen=home");
    page.says("<option value=\"home\" selected>");
    page.says("href=\"/handbook/filming-day\"");
    assert!(!page.text().contains("Work it out"), "a second form");
    served
        .get("/handbook/filming-day")
        .says("<code>work-from</code>");
}

#[test]
fn scenes_that_cannot_be_read_are_said() {
    let served = served("filming");
    let nothing = served.send("/recipe/hearth-loaf/filming", &[("text", "")]);
    assert_eq!(nothing.status, StatusCode::UNPROCESSABLE_ENTITY);
    let begun = served.send(
        "/recipe/hearth-loaf/filming",
        &[("text", "everyoven = 1\nshoot = 3\n")],
    );
    let told = served.over(&begun);
    told.says("Nothing was planned");
    let told = served.send("/recipe/hearth-loaf/filming", &[("kept", "none")]);
    assert_eq!(told.status, StatusCode::NOT_FOUND);
}

#[test]
fn everything_comes_in_one_archive_or_not_at_all() {
    let served = Served::new("archive");
    served.write(
        "bare.toml",
        "everyoven = 1\ntitle = \"Bare\"\nkind = \"soft\"\n",
    );
    let told = served.get("/recipe/bare/papers.zip");
    assert_eq!(told.to(), "/recipe/bare/findings");
}
