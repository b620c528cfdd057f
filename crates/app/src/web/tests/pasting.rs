//! Pasting: the text is kept whole, lines are mended beside it, a recipe is made of it.

use super::{Served, files, sent};
use axum::http::StatusCode;

const BUNS: &str = "Milk buns\n500 g flour\n3 egs\n\nMix and bake.";

#[test]
fn an_empty_notebook_says_two_things_to_do() {
    let served = Served::new("empty");
    let told = served.get("/");
    assert_eq!(told.status, StatusCode::OK);
    told.says("Nothing is in it yet");
    told.says("action=\"/paste\"");
    told.says("<label for=\"text\">");
    told.says("action=\"/demo\"");
    assert!(!served.folder.exists(), "looking makes no folder");
}

#[test]
fn the_demo_comes_in_once_and_is_never_written_over() {
    let served = Served::with_demo("demo");
    assert_eq!(files(&served.folder), ["kitchens", "same-day-loaf.toml"]);
    served.get("/").says("Same-day braid and tied buns");
    let mine = served.read("same-day-loaf.toml").replace("Petra", "Paula");
    served.write("same-day-loaf.toml", &mine);
    served.post("/demo", "").to();
    assert_eq!(served.read("same-day-loaf.toml"), mine);
}

#[test]
fn nothing_pasted_is_said_with_a_link_to_the_field() {
    let served = Served::new("nothing");
    let told = served.paste("  \r\n ");
    assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY);
    told.says("role=\"alert\"");
    told.says("href=\"#text\"");
    told.says("aria-invalid=\"true\"");
    assert!(!served.folder.exists());
}

#[test]
fn a_pasted_text_stays_whole_and_its_lines_are_mended_beside_it() {
    let served = Served::new("mending");
    // A browser sends line ends of its own.
    let told = served.paste(&BUNS.replace('\n', "\r\n"));
    assert_eq!(told.to(), "/pasted/milk-buns?said=pasted");
    assert_eq!(served.read("milk-buns.txt"), BUNS);
    let page = served.get("/pasted/milk-buns");
    page.says("<h1>Milk buns</h1>");
    page.says("not understood");
    page.says("No amount stands here.");

    let form = served.get("/pasted/milk-buns?line=3");
    form.says("<label for=\"anew\">Line 3 anew</label>");
    let mended = format!("line=3&kind=&text={}", sent("150 g eggs"));
    let told = served.post("/pasted/milk-buns/line", &mended);
    assert_eq!(told.to(), "/pasted/milk-buns?said=mended#line-3");
    served
        .post(
            "/pasted/milk-buns/line",
            &format!("line=5&kind=step&text={}", sent("Mix and bake.")),
        )
        .to();
    let page = served.get("/pasted/milk-buns");
    page.says("pasted as: 3 egs");
    page.says("150 g eggs");
    assert_eq!(
        served.read("milk-buns.txt"),
        BUNS,
        "the pasted text is never changed"
    );
    assert_eq!(
        served.read("milk-buns.mends"),
        "3: 150 g eggs\n5 step: Mix and bake.\n"
    );

    let told = served.post("/pasted/milk-buns/recipe", "");
    assert_eq!(told.to(), "/recipe/milk-buns?said=made");
    let made = "# Title: Milk buns\n# Ingredient: 500 g flour\n# Ingredient: 150 g eggs\n# Blank: \n# Step: Mix and bake.\n";
    assert_eq!(served.read("milk-buns.toml"), made);

    // Made once more, it takes a name of its own: the first may have been worked on.
    let told = served.post("/pasted/milk-buns/recipe", "");
    assert_eq!(told.to(), "/recipe/milk-buns-2?said=made");

    served
        .post("/pasted/milk-buns/line", "line=3&text=x&kind=&again=yes")
        .to();
    served
        .post(
            "/pasted/milk-buns/line",
            &format!("line=5&kind=&text={}", sent("Mix and bake.")),
        )
        .to();
    assert!(
        !served.folder.join("milk-buns.mends").exists(),
        "nothing is mended any more"
    );
}

#[test]
fn a_second_text_of_one_title_takes_another_name() {
    let served = Served::new("twice");
    served.paste(BUNS).to();
    assert_eq!(
        served.paste("Milk buns\n1 g salt").to(),
        "/pasted/milk-buns-2?said=pasted"
    );
    assert_eq!(served.read("milk-buns.txt"), BUNS);
}

#[test]
fn a_line_that_is_not_there_is_refused() {
    let served = Served::new("no-line");
    served.paste(BUNS).to();
    for line in ["0", "6", "99999999999"] {
        let told = served.post(
            "/pasted/milk-buns/line",
            &format!("line={line}&text=x&kind="),
        );
        assert_eq!(told.status, StatusCode::NOT_FOUND, "{line}");
    }
    let told = served.post("/pasted/milk-buns/line", "line=-1&text=x&kind=");
    assert!(told.status.is_client_error());
    told.says("<h1>");
}

#[test]
fn a_mend_cannot_write_a_line_of_its_own_into_the_file_of_mends() {
    let served = Served::new("mend-line");
    served.paste(BUNS).to();
    let text = sent("2 eggs\r\n5 step: nonsense");
    served
        .post(
            "/pasted/milk-buns/line",
            &format!("line=3&kind=&text={text}"),
        )
        .to();
    assert_eq!(
        served.read("milk-buns.mends"),
        "3: 2 eggs 5 step: nonsense\n"
    );
}
