//! Filling in a recipe: what is kept, what a look says, two editors, files that have no form.

use super::{Served, files, sent};
use axum::http::StatusCode;

/// Every field of the form as a browser sends them, with some filled in anew.
fn back(page: &str, anew: &[(&str, &str)]) -> String {
    let mut pairs = Vec::new();
    for part in page.split(" name=\"").skip(1) {
        let name = part.split('"').next().unwrap_or_default();
        if name.starts_with("act:") || name == "readers" || name == "kitchen" || name == "viewport"
        {
            continue;
        }
        let value = if let Some((_, typed)) = anew.iter().find(|(path, _)| *path == name) {
            (*typed).to_owned()
        } else if let Some(area) = part
            .split_once("</textarea>")
            .filter(|(area, _)| !area.contains("<input"))
        {
            area.0
                .split_once(">\n")
                .map_or("", |(_, text)| text)
                .to_owned()
        } else {
            let tag = part.split_once('>').map_or("", |(tag, _)| tag);
            match tag.split_once("value=\"") {
                Some((_, rest)) => rest.split('"').next().unwrap_or_default().to_owned(),
                None => chosen(part),
            }
        };
        pairs.push(format!("{}={}", sent(name), sent(&plain(&value))));
    }
    pairs.join("&")
}

/// What a browser reads where characters are written as names.
fn plain(html: &str) -> String {
    html.replace("&quot;", "\"")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&amp;", "&")
}

/// The word chosen in a list.
fn chosen(part: &str) -> String {
    let list = part.split("</select>").next().unwrap_or_default();
    let option = list
        .split("<option ")
        .find(|option| option.contains(" selected"));
    let value = option.and_then(|option| option.split("value=\"").nth(1));
    value
        .and_then(|rest| rest.split('"').next())
        .unwrap_or_default()
        .to_owned()
}

#[test]
fn a_form_sent_back_untouched_leaves_every_byte() {
    for name in [
        "cardamom-dough",
        "same-day-loaf",
        "hearth-loaf",
        "feast-bread",
    ] {
        let served = Served::new(&format!("untouched-{name}"));
        let path = format!("../../examples/{name}.toml");
        let text = std::fs::read_to_string(path).expect("an example");
        served.write(&format!("{name}.toml"), &text);
        let page = served.get(&format!("/recipe/{name}/form")).text();
        assert!(page.len() < 150_000, "{name}: {} bytes", page.len());
        served
            .post(&format!("/recipe/{name}/form"), &back(&page, &[]))
            .to();
        assert_eq!(served.read(&format!("{name}.toml")), text);
    }
}

#[test]
fn an_amount_is_kept_and_a_look_keeps_nothing() {
    let served = Served::with_demo("amount");
    let before = served.read("same-day-loaf.toml");
    let page = served.get("/recipe/same-day-loaf/form").text();
    let wrong = back(&page, &[("stage.0.items.0.take", "180")]);
    let told = served.post("/recipe/same-day-loaf/form/look", &wrong);
    told.says("1 to mend");
    told.says("aria-invalid=\"true\"");
    assert_eq!(served.read("same-day-loaf.toml"), before);
    let form = back(&page, &[("stage.0.items.0.take", "190 g"), ("serves", "")]);
    let told = served.post("/recipe/same-day-loaf/form?kitchen=studio", &form);
    assert_eq!(
        told.to(),
        "/recipe/same-day-loaf/form?kitchen=studio&said=saved"
    );
    let after = served.read("same-day-loaf.toml");
    assert!(after.contains("take = \"190 g\""));
    assert!(before.contains("serves = ") && !after.contains("serves = "));
    let lines = |text: &str| text.lines().map(str::to_owned).collect::<Vec<_>>();
    let kept = lines(&after)
        .into_iter()
        .filter(|line| lines(&before).contains(line))
        .count();
    assert_eq!(kept, lines(&after).len() - 1);
}

#[test]
fn a_step_comes_and_the_page_comes_back_to_it() {
    let served = Served::with_demo("step");
    let page = served.get("/recipe/same-day-loaf/form").text();
    let form = back(&page, &[("kind.stage.1", "fold")]);
    let told = served.post(
        "/recipe/same-day-loaf/form",
        &format!("{form}&{}=", sent("act:add-step:stage.1")),
    );
    assert_eq!(told.to(), "/recipe/same-day-loaf/form?said=saved#stage-1");
    assert!(
        served
            .read("same-day-loaf.toml")
            .contains("do = \"\"\nfold = { for = \"3 min\", into-rest = [\"30 min\"] }\n")
    );
}

#[test]
fn a_file_changed_elsewhere_stays_and_both_versions_are_shown() {
    let served = Served::with_demo("filled-twice");
    let page = served.get("/recipe/same-day-loaf/form").text();
    let before = served.read("same-day-loaf.toml");
    let other = before.replacen("take = \"150 g\"", "take = \"155 g\"", 1);
    assert_ne!(other, before);
    served.write("same-day-loaf.toml", &other);
    let form = back(&page, &[("author", "Somebody Else")]);
    let told = served.post("/recipe/same-day-loaf/form/look", &form);
    told.says("was changed in another window or by another program");
    let told = served.post("/recipe/same-day-loaf/form?kitchen=studio", &form);
    assert_eq!(told.status, StatusCode::CONFLICT);
    told.says("It was changed elsewhere while you wrote");
    told.says("no line was changed in two ways");
    told.says(
        "href=\"/recipe/same-day-loaf/form?kitchen=studio&amp;said=left\">Leave the file as it is",
    );
    assert_eq!(served.read("same-day-loaf.toml"), other);
    let recipes = files(&served.folder);
    assert_eq!(
        recipes,
        ["kitchens", "same-day-loaf.toml"],
        "none beside it"
    );
    // The text of both holds what each has changed, and what is sent stays a version of its own.
    let both = other
        .lines()
        .map(|line| {
            if line.starts_with("author = ") {
                "author = \"Somebody Else\"\n".to_owned()
            } else {
                format!("{line}\n")
            }
        })
        .collect::<String>();
    let shown = super::writing::in_form(&told.text());
    assert_eq!(plain(&shown), both);
    served
        .get("/recipe/same-day-loaf/history")
        .says("never in the file");
}

#[test]
fn a_form_of_a_file_that_is_gone_puts_it_there_again() {
    let served = Served::with_demo("filled-gone");
    let page = served.get("/recipe/same-day-loaf/form").text();
    std::fs::remove_file(served.folder.join("same-day-loaf.toml")).expect("removed");
    let form = back(&page, &[("author", "Somebody Else")]);
    let told = served.post("/recipe/same-day-loaf/form/look", &form);
    told.says("is no longer in the notebook");
    served.post("/recipe/same-day-loaf/form", &form).to();
    let text = served.read("same-day-loaf.toml");
    assert!(text.contains("author = \"Somebody Else\""));
}

#[test]
fn a_file_without_a_form_says_so_and_stays() {
    let served = Served::new("no-form");
    served.write("open.toml", "everyoven = 1\ntitle = \"A");
    served.get("/recipe/open/form").says("Mend it as text");
    let told = served.post("/recipe/open/form", "seen=x&title=B");
    assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(served.read("open.toml"), "everyoven = 1\ntitle = \"A");
    assert_eq!(files(&served.folder), ["open.toml"]);
    assert_eq!(
        served.get("/recipe/none/form").status,
        StatusCode::NOT_FOUND
    );
}

#[test]
fn what_is_typed_is_never_markup() {
    let served = Served::with_demo("markup");
    let page = served.get("/recipe/same-day-loaf/form").text();
    let form = back(&page, &[("title", "<script>alert(1)</script>\" x=\"")]);
    served.post("/recipe/same-day-loaf/form", &form).to();
    let page = served.get("/recipe/same-day-loaf/form").text();
    assert!(!page.contains("<script>alert"));
    assert!(page.contains("value=\"&lt;script&gt;alert(1)&lt;/script&gt;&quot; x=&quot;\""));
}
