//! Writing a recipe: saving, two editors, files that cannot be read, papers, publishing.

use super::{Served, files, sent};
use axum::http::StatusCode;

/// What the form says the file was when it was filled.
fn seen(page: &str) -> String {
    let rest = page.split("name=\"seen\" value=\"").nth(1).expect("a form");
    rest.split('"').next().expect("a value").to_owned()
}

/// The text in the form, entities of HTML as they are.
pub fn in_form(page: &str) -> String {
    let rest = page.split("<textarea").nth(1).expect("a field");
    let rest = rest.split_once('>').expect("its end").1;
    let text = rest.split("</textarea>").next().expect("its end");
    text.strip_prefix('\n')
        .expect("a line end for the reader of HTML to drop")
        .to_owned()
}

#[test]
fn what_is_saved_is_the_file() {
    let served = Served::with_demo("saved");
    let page = served.get("/recipe/same-day-loaf").text();
    let text = served
        .read("same-day-loaf.toml")
        .replace("version = \"3\"", "version = \"4\"");
    let form = format!(
        "seen={}&text={}",
        sent(&seen(&page)),
        sent(&text.replace('\n', "\r\n"))
    );
    let told = served.post("/recipe/same-day-loaf?kitchen=studio", &form);
    assert_eq!(told.to(), "/recipe/same-day-loaf?kitchen=studio&said=saved");
    assert_eq!(served.read("same-day-loaf.toml"), text);
    served.get(told.to()).says("Saved as same-day-loaf.toml.");
}

#[test]
fn line_ends_stay_those_of_the_file() {
    let served = Served::new("line-ends");
    served.write("dos.toml", "everyoven = 1\r\ntitle = \"A\"\r\n");
    let page = served.get("/recipe/dos").text();
    let form = format!(
        "seen={}&text={}",
        sent(&seen(&page)),
        sent("everyoven = 1\r\ntitle = \"B\"\r\n")
    );
    served.post("/recipe/dos", &form).to();
    assert_eq!(
        served.read("dos.toml"),
        "everyoven = 1\r\ntitle = \"B\"\r\n"
    );
}

#[test]
fn of_two_editors_neither_loses_a_word() {
    let served = Served::with_demo("editors");
    let page = served.get("/recipe/same-day-loaf").text();
    let first = seen(&page);
    let was = served.read("same-day-loaf.toml");
    let theirs = was.replace("Petra", "Paula");
    served.write("same-day-loaf.toml", &theirs);
    let mine = was.replacen("150 g", "180 g", 1);
    let form = format!("seen={}&text={}&window=7", sent(&first), sent(&mine));
    let told = served.post("/recipe/same-day-loaf", &form);
    assert_eq!(told.status, StatusCode::CONFLICT);
    told.says("It was changed elsewhere while you wrote");
    told.says("Yours is in the history as version 3.");
    told.says("no line was changed in two ways");
    assert_eq!(served.read("same-day-loaf.toml"), theirs, "the file waits");

    // Both in one, as the page proposes it.
    let both = in_form(&told.text())
        .replace("&quot;", "\"")
        .replace("&amp;", "&");
    assert!(both.contains("Paula") && both.contains("180 g"), "{both}");
    let form = format!("seen={}&text={}", sent(&seen(&told.text())), sent(&both));
    let saved = served.post("/recipe/same-day-loaf", &form);
    assert_eq!(saved.to(), "/recipe/same-day-loaf?said=saved");
    assert_eq!(served.read("same-day-loaf.toml"), both);
    let history = served.get("/recipe/same-day-loaf/history").text();
    for how in [
        "put in",
        "changed outside the program",
        "written while the file was changed elsewhere, in window 7; never in the file",
        "written here",
    ] {
        assert!(history.contains(how), "no {how:?} in {history}");
    }
}

#[test]
fn the_second_of_two_editors_can_have_a_name_of_its_own() {
    let served = Served::with_demo("editors-beside");
    let first = seen(&served.get("/recipe/same-day-loaf").text());
    let theirs = served.read("same-day-loaf.toml").replace("Petra", "Paula");
    served.write("same-day-loaf.toml", &theirs);
    let mine = "everyoven = 1\ntitle = \"Mine\"\n";
    let form = format!("seen={}&text={}&under=beside", sent(&first), sent(mine));
    let told = served.post("/recipe/same-day-loaf", &form);
    assert_eq!(
        told.to(),
        "/recipe/same-day-loaf-2?said=beside&other=same-day-loaf"
    );
    assert_eq!(served.read("same-day-loaf.toml"), theirs);
    assert_eq!(served.read("same-day-loaf-2.toml"), mine);
    served
        .get(told.to())
        .says("Yours is kept as same-day-loaf-2.toml");
}

#[test]
fn a_page_that_is_open_learns_of_another_window() {
    let served = Served::with_demo("hint");
    let first = seen(&served.get("/recipe/same-day-loaf").text());
    let text = served.read("same-day-loaf.toml");
    let form = format!(
        "seen={}&text={}",
        sent(&first),
        sent(&text.replace("milk", "water"))
    );
    let told = served.post("/recipe/same-day-loaf/beside", &form);
    assert!(
        !told.text().contains("in another window"),
        "{}",
        told.text()
    );
    assert_eq!(
        served.read("same-day-loaf.toml"),
        text,
        "asking writes nothing"
    );
    served.write("same-day-loaf.toml", text.replace("Petra", "Paula"));
    served
        .post("/recipe/same-day-loaf/beside", &form)
        .says("was changed in another window or by another program");
    let broken = format!("seen={}&text={}", sent(&first), sent("title = \"Buns"));
    served
        .post("/recipe/same-day-loaf/beside", &broken)
        .says("text-unreadable");
}

#[test]
fn saves_are_taken_back_one_after_another() {
    let served = Served::new("undo");
    let text = |number: u32| format!("everyoven = 1\ntitle = \"Loaf {number}\"\n");
    served.write("loaf.toml", text(1));
    for number in 2..4 {
        let page = served.get("/recipe/loaf").text();
        let form = format!("seen={}&text={}", sent(&seen(&page)), sent(&text(number)));
        served.post("/recipe/loaf", &form).to();
    }
    for (version, number) in [(2, 2), (1, 1)] {
        let page = served.get("/recipe/loaf").text();
        let wanted = format!("name=\"version\" value=\"{version}\"");
        assert!(page.contains(&wanted), "no {wanted} in {page}");
        let told = served.post(
            "/recipe/loaf/history",
            &format!("version={version}&undo=yes"),
        );
        assert_eq!(told.to(), "/recipe/loaf?said=undone");
        assert_eq!(served.read("loaf.toml"), text(number));
    }
    let page = served.get("/recipe/loaf").text();
    assert!(
        !page.contains("Take back the last save"),
        "nothing is left to take back"
    );
    served.post("/recipe/loaf/history", "version=3").to();
    assert_eq!(served.read("loaf.toml"), text(3));
    served
        .get("/recipe/loaf/history")
        .says("version 3 brought back");
    let told = served.get("/recipe/loaf/history/9");
    assert_eq!(told.status, StatusCode::NOT_FOUND);
}

#[test]
fn what_changed_since_it_went_out_is_told_with_a_note_to_pin() {
    let served = Served::with_demo("since");
    served
        .get("/recipe/same-day-loaf/history")
        .says("was not published from this notebook yet");
    served.post("/recipe/same-day-loaf/papers", "").to();
    served
        .get("/recipe/same-day-loaf/history")
        .says("Nothing that is printed has changed.");
    let text = served.read("same-day-loaf.toml");
    let changed = text.replacen("150 g", "180 g", 1);
    assert_ne!(text, changed, "the demo has 150 g of milk");
    served.write("same-day-loaf.toml", &changed);
    let page = served.get("/recipe/same-day-loaf/history");
    page.says("<del>150\u{a0}g</del> <ins>180\u{a0}g</ins>");
    page.says("180\u{a0}g of whole milk in the sponge, not 150\u{a0}g.");
    page.says("card-a5.pdf");
    assert!(
        !page.text().contains("of sponge in the dough, not"),
        "what follows is not pinned"
    );
    page.says("index.html");
    let told = served.post("/recipe/same-day-loaf/pin", "words=Correction%3A+180+g");
    served.get(told.to()).says("Correction: 180 g");
    let version = served.get("/recipe/same-day-loaf/history/1");
    version.says("<del>150\u{a0}g</del> <ins>180\u{a0}g</ins>");
    version.says("Bring it back");
}

#[test]
fn the_form_shows_the_file_to_the_letter() {
    let served = Served::new("letter");
    let text = "\n\neveryoven = 1 # begins with empty lines\n";
    served.write("odd.toml", text);
    assert_eq!(in_form(&served.get("/recipe/odd").text()), text);
}

#[test]
fn a_recipe_that_cannot_be_read_is_shown_with_its_findings() {
    let served = Served::new("unreadable");
    served.write(
        "broken.toml",
        "everyoven = 1\ntitle = \"Buns\nkind = \"soft\"\n",
    );
    let page = served.get("/recipe/broken");
    assert_eq!(page.status, StatusCode::OK);
    page.says("To mend before it can be published");
    page.says("#line-2\">line 2</a>");
    page.says("id=\"line-2\"");
    assert!(
        in_form(&page.text()).contains("kind = "),
        "its text is there to be mended"
    );
    for below in [
        "/formula",
        "/text",
        "/papers",
        "/page/",
        "/file/card-a5.pdf",
    ] {
        let told = served.get(&format!("/recipe/broken{below}"));
        assert_eq!(told.status, StatusCode::OK, "{below}");
        told.says("until its findings are mended");
    }
    served
        .get("/recipe/broken/findings")
        .says("text-unreadable");
    served.get("/").says("1 to mend");
}

#[test]
fn a_file_that_is_not_utf8_is_not_written_over() {
    let served = Served::new("latin");
    served.write("latin.toml", b"title = \"Br\xf8d\"\n");
    let page = served.get("/recipe/latin");
    page.says("not in UTF-8");
    assert!(!page.text().contains("<textarea"));
}

#[test]
fn an_empty_file_has_a_page_too() {
    let served = Served::new("empty-file");
    served.write("empty.toml", "");
    assert_eq!(served.get("/recipe/empty").status, StatusCode::OK);
    assert_eq!(served.get("/").status, StatusCode::OK);
}

#[test]
fn the_kitchen_and_the_readers_stay_in_the_address() {
    let served = Served::with_demo("kitchen");
    let page = served.get("/recipe/same-day-loaf/formula?kitchen=terrace&readers=en-GB");
    page.says("href=\"/recipe/same-day-loaf/papers?kitchen=terrace&amp;readers=en-GB\"");
    page.says("<option value=\"terrace\" selected>");
    page.says("<option value=\"en-GB\" selected>");
    let studio = served
        .get("/recipe/same-day-loaf/page/?kitchen=studio")
        .text();
    let terrace = served
        .get("/recipe/same-day-loaf/page/?kitchen=terrace")
        .text();
    assert_ne!(studio, terrace, "a colder kitchen wants warmer milk");
    let told = served.get("/recipe/same-day-loaf?kitchen=cellar");
    assert_eq!(told.status, StatusCode::NOT_FOUND);
    told.says("no kitchen of that name");
}

#[test]
fn every_text_can_be_taken_away() {
    let served = Served::with_demo("texts");
    let own = served.get("/recipe/same-day-loaf/file/recipe.toml");
    assert_eq!(own.text(), served.read("same-day-loaf.toml"));
    let name = "attachment; filename=\"same-day-braid-and-tied-buns-recipe.toml\"";
    assert_eq!(own.header("content-disposition"), name);
    let page = served.get("/recipe/same-day-loaf/file/index.html").text();
    assert_eq!(page, served.get("/recipe/same-day-loaf/page/").text());
    served
        .get("/recipe/same-day-loaf/file/recipe.jsonld")
        .says("schema.org");
    served
        .get("/recipe/same-day-loaf/file/recipe.txt")
        .says("Same-day braid");
}

#[test]
fn publishing_fills_a_folder_of_the_notebook() {
    let served = Served::with_demo("publish");
    let told = served.post("/recipe/same-day-loaf/papers?kitchen=studio", "");
    assert_eq!(
        told.to(),
        "/recipe/same-day-loaf/papers?kitchen=studio&said=published"
    );
    served
        .get(told.to())
        .says("published/same-day-braid-and-tied-buns");
    let there = served.folder.join("published/same-day-braid-and-tied-buns");
    assert_eq!(
        files(&there),
        [
            "bench-a4.pdf",
            "card-a5.pdf",
            "fragment.html",
            "index.html",
            "recipe.jsonld",
            "recipe.toml",
            "recipe.txt"
        ]
    );
    let card = std::fs::read(there.join("card-a5.pdf")).expect("a card");
    let told = served.get("/recipe/same-day-loaf/file/card-a5.pdf?kitchen=studio");
    assert_eq!(told.header("content-type"), "application/pdf");
    assert_eq!(told.bytes, card, "the same bytes, published or taken away");
}

#[test]
fn what_must_be_mended_is_not_published() {
    let served = Served::new("not-published");
    served.write(
        "bare.toml",
        "everyoven = 1\ntitle = \"Bare\"\nkind = \"soft\"\n",
    );
    let told = served.post("/recipe/bare/papers", "");
    assert_eq!(told.to(), "/recipe/bare/findings");
    assert!(!served.folder.join("published").exists());
}
