//! What if and answers: figures follow what is asked, what cannot be asked is said, the address holds it all.

use super::{Served, sent};
use axum::http::StatusCode;

const WHAT_IF: &str = "/recipe/same-day-loaf/what-if?kitchen=studio";

/// The words of the page from the first part that follows the dials on.
fn day(page: &str) -> &str {
    let (_, day) = page.split_once("id=\"first\"").expect("what differs");
    day
}

#[test]
fn a_colder_room_takes_longer_and_says_the_way_back() {
    let served = Served::with_demo("what-if");
    let here = served.get(WHAT_IF);
    assert_eq!(here.status, StatusCode::OK);
    here.says("<label for=\"room\">Room, °C</label>");
    here.says("data-live=\"first day room-note");
    let cold = served.get(&format!("{WHAT_IF}&room=15&warm-place=20"));
    assert_eq!(cold.status, StatusCode::OK);
    cold.says("value=\"15\"");
    cold.says("As in this kitchen, 21\u{a0}°C / 70\u{a0}°F");
    // Put back, the other dial stays where it is.
    cold.says("what-if?kitchen=studio&amp;warm-place=20");
    assert!(day(&cold.text()).contains("In Studio: room <span class=\"whole\">15\u{a0}°C / 59\u{a0}°F</span>, warm place <span class=\"whole\">20\u{a0}°C"));
    assert_ne!(day(&here.text()), day(&cold.text()));
    assert!(
        here.bytes.len() + super::super::shell::style().len() < 150_000,
        "{} bytes",
        here.bytes.len()
    );
}

#[test]
fn while_a_dial_moves_only_what_follows_is_sent() {
    let served = Served::with_demo("moving");
    let told = served.get(&format!("{WHAT_IF}&room=15&moving=yes"));
    assert_eq!(told.status, StatusCode::OK);
    told.says("id=\"room-note\"");
    told.says("id=\"day\"");
    assert!(!told.text().contains("<form"), "no form, no frame");
    assert!(!told.text().contains("moving"), "it is not carried on");
}

#[test]
fn the_recipe_itself_can_be_asked_otherwise() {
    let served = Served::with_demo("otherwise");
    let asked = format!(
        "{WHAT_IF}&flour=bread+flour&yeast=instant+yeast&liquid=10&protein=13&piece=150&fan=on"
    );
    let told = served.get(&asked);
    assert_eq!(told.status, StatusCode::OK, "{}", told.text());
    told.says("What changes in the recipe");
    told.says("bread flour");
    assert!(day(&told.text()).contains("fan on"));
}

#[test]
fn what_cannot_be_asked_is_said_at_its_field_and_left_as_it_is() {
    let served = Served::with_demo("faulty");
    let asked = format!("{WHAT_IF}&room=99&flour=sand&tin=a+bucket&fan=perhaps");
    let told = served.get(&asked);
    assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY);
    told.says("role=\"alert\"");
    for field in ["room", "flour", "tin", "fan"] {
        told.says(&format!("href=\"#{field}\""));
        told.says(&format!("id=\"{field}\""));
    }
    told.says("Room is 8–40\u{a0}°C.");
    assert!(day(&told.text()).contains("In Studio:"), "nothing changed");
}

#[test]
fn a_recipe_with_something_to_mend_is_not_followed() {
    let served = Served::new("unmended");
    served.write(
        "bare.toml",
        "everyoven = 1\ntitle = \"Bare\"\nkind = \"soft\"\n",
    );
    for page in ["what-if", "elsewhere", "answers"] {
        let told = served.get(&format!("/recipe/bare/{page}"));
        assert_eq!(told.status, StatusCode::OK, "{page}");
        told.says("/recipe/bare/findings\"");
    }
    assert_eq!(
        served.get("/recipe/none/what-if").status,
        StatusCode::NOT_FOUND
    );
}

#[test]
fn a_question_is_answered_for_the_one_who_asks() {
    let served = Served::with_demo("answers");
    let list = served.get("/recipe/same-day-loaf/answers");
    list.says("ask=cold-kitchen");
    let told = served.get("/recipe/same-day-loaf/answers?ask=cold+kitchen&facts=room%3D16C");
    assert_eq!(told.status, StatusCode::OK);
    told.says("Copy the reply");
    told.says("16\u{a0}°C / 61\u{a0}°F");
    // The reply is what is pasted; all else stands behind one word, and other questions are links.
    told.says("<details class=\"more\"><summary>More</summary>");
    let text = told.text();
    let (before, after) = text.split_once("<summary>More").expect("more");
    assert!(!before.contains("It rests on") && after.contains("It rests on"));

    let wrong = format!(
        "/recipe/same-day-loaf/answers?ask=cold-kitchen&facts={}",
        sent("room=17m")
    );
    let told = served.get(&wrong);
    assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY);
    told.says("href=\"#facts\"");
    let told = served.get("/recipe/same-day-loaf/answers?ask=vegan+version");
    assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY);
    told.says("Is one of these meant?");
}
