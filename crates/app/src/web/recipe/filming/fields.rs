//! The form of the scenes: the day, then one scene after the other, what is to be said of each beside it.

use super::scenes::address;
use crate::web::desk::in_query;
use crate::web::recipe::findings::{coded, counts, sentence, weighed};
use crate::web::recipe::form::view::moves;
use crate::web::recipe::write::mark;
use crate::web::recipe::{Opened, Tab};
use crate::web::shell::done;
use crate::world::notebook::{Kept, Name};
use maud::{Markup, html};
use plan::shoot::{Times, film, processes, state_names};
use recipe::document::form::keys::Kind;
use recipe::document::form::{Field, Row, scene_form};
use recipe::document::read_scenes_bytes;
use recipe::source::{Diagnostic, Severity};
use std::ops::Range;

/// The id of a place on the page.
pub fn id(path: &str) -> String {
    path.replace('.', "-")
}

/// What is to be said of the scenes, by their places in the file.
fn findings(opened: &Opened, bytes: &[u8]) -> Vec<Diagnostic> {
    let read = read_scenes_bytes(bytes);
    let stops = read.stops();
    let mut all = read.diagnostics;
    let made = opened.work.made.as_ref().filter(|_| !stops);
    if let (Some(file), Some(made)) = (&read.output, made) {
        all.extend(film(&made.recipe, file, Times::Written).diagnostics);
    }
    all
}

fn states(opened: &Opened) -> Vec<String> {
    opened.work.made.as_ref().map_or_else(Vec::new, |made| {
        state_names(&processes(&made.recipe, Times::Written, 0))
    })
}

/// The whole page of a file of scenes.
pub fn page(opened: &Opened, scenes: &Name, bytes: &[u8]) -> Markup {
    let file = Kept::Scenes.file(scenes);
    let text = String::from_utf8_lossy(bytes);
    let Some(form) = scene_form(&text) else {
        return html! {
            p.lead { "The file " span.path { (file) } " cannot be shown as a form until its writing is mended." }
            p { a href=(opened.address(Tab::Filming)) { "All filming days" } }
        };
    };
    let page = Page {
        found: findings(opened, bytes),
        states: states(opened),
        ends: ends(&form.scenes, &text),
    };
    let saved = opened.asked().said.as_deref() == Some("scenes");
    let count = form.scenes.len();
    html! {
        @if saved { (done(&format!("Saved as {file}."))) }
        form.filling method="post" autocomplete="off" action=(address(opened, scenes)) {
            input type="hidden" name="seen" value=(mark(bytes));
            (page.summary(&form.top))
            section {
                h2 { "The day" }
                div.fields { @for field in &form.top { (page.field(field)) } }
            }
            @for (number, scene) in form.scenes.iter().enumerate() { (page.scene(number, count, scene)) }
            p.buttons { button type="submit" name="act:add:scene" { "Add a scene" } }
            p { button type="submit" { "Save" } }
        }
        section {
            h2 { "Plan it" }
            form method="post" enctype="multipart/form-data" action=(opened.address(Tab::Filming)) {
                input type="hidden" name="kept" value=(scenes.text());
                p { button type="submit" { "Plan the filming with these scenes" } }
            }
            p.hint {
                "What was saved is planned, with the author’s written times. "
                a href=(format!("{}#scenes-{}", opened.address(Tab::Filming), in_query(scenes.text()))) { "With other minutes or paper" }
            }
        }
        section {
            h2 { "The file" }
            p.hint { "Crew, place, shots, breaks and how long a state keeps have no fields here; they are written in " span.path { (file) } " itself and stay as they are." }
            details { summary { "As it is written" } pre tabindex="0" { (text) } }
        }
    }
}

/// Where the text of every scene begins and ends.
fn ends(scenes: &[Row], text: &str) -> Vec<Range<usize>> {
    let first = |row: &Row| {
        let spans = row.fields.iter().filter_map(|field| field.span.as_ref());
        let at = spans.map(|span| span.start).min()?;
        Some(text[..at].rfind("[[scene]]").unwrap_or(at))
    };
    let begins: Vec<usize> = scenes
        .iter()
        .map(|row| first(row).unwrap_or(text.len()))
        .collect();
    let behind = begins.iter().skip(1).copied().chain([text.len()]);
    begins
        .iter()
        .copied()
        .zip(behind)
        .map(|(a, b)| a..b)
        .collect()
}

struct Page {
    found: Vec<Diagnostic>,
    states: Vec<String>,
    ends: Vec<Range<usize>>,
}

impl Page {
    /// What is said about a value.
    fn about(&self, field: &Field) -> Vec<&Diagnostic> {
        let inside = |said: &&Diagnostic| {
            let (Some(own), Some(at)) = (&field.span, said.span) else {
                return false;
            };
            field.key != "name" && own.start <= at.start && at.end <= own.end
        };
        self.found.iter().filter(inside).collect()
    }

    /// What is said about a scene and none of its values.
    fn about_scene(&self, number: usize, scene: &Row) -> Vec<&Diagnostic> {
        let of_value = |said: &Diagnostic| {
            let mut fields = scene.fields.iter();
            fields.any(|field| self.about(field).iter().any(|one| std::ptr::eq(*one, said)))
        };
        let inside = |said: &&Diagnostic| {
            let own = self.ends.get(number);
            let at = said
                .span
                .is_some_and(|at| own.is_some_and(|own| own.contains(&at.start)));
            at && !of_value(said)
        };
        self.found.iter().filter(inside).collect()
    }

    /// How much there is to mend, and what is about no scene and no field.
    fn summary(&self, top: &[Field]) -> Markup {
        let of = |severity: Severity| {
            let own = self.found.iter();
            own.filter(|said| said.code.severity == severity).count()
        };
        let loose = |said: &&Diagnostic| {
            let in_scene = said
                .span
                .is_some_and(|at| self.ends.iter().any(|own| own.contains(&at.start)));
            let at_top = top.iter().any(|field| {
                self.about(field)
                    .iter()
                    .any(|one| std::ptr::eq(*one, *said))
            });
            !in_scene && !at_top
        };
        let loose: Vec<&Diagnostic> = self.found.iter().filter(loose).collect();
        html! {
            div role="status" {
                p { (sentence(&counts(of(Severity::Mend), of(Severity::LookAgain)))) }
                (told(None, &loose))
            }
        }
    }

    fn scene(&self, number: usize, count: usize, scene: &Row) -> Markup {
        let text = |key: &str| scene.of(key).map_or("", |field| &*field.text);
        let title = match (text("name"), text("about")) {
            (name, "") => name.to_owned(),
            (name, about) => format!("{name}: {about}"),
        };
        html! {
            section id=(id(&scene.path)) {
                h2 { @if title.is_empty() { "Scene " (number + 1) } @else { (title) } }
                (told(None, &self.about_scene(number, scene)))
                div.fields {
                    @for field in scene.fields.iter().filter(|field| field.key != "name") {
                        @if field.key == "needs" { (self.needs(field)) } @else { (self.field(field)) }
                    }
                }
                p.buttons { (moves(&scene.path, number, count, &title)) }
            }
        }
    }

    /// One list for each state that must be ready, and one more.
    fn needs(&self, field: &Field) -> Markup {
        let about = self.about(field);
        let mend = about
            .iter()
            .any(|said| said.code.severity == Severity::Mend);
        let found = (!about.is_empty()).then(|| format!("{}-found", id(&field.path)));
        let mut all: Vec<&str> = field.text.lines().filter(|line| !line.is_empty()).collect();
        all.push("");
        html! {
            @for (place, need) in all.iter().enumerate() {
                @let own = format!("{}-{place}", id(&field.path));
                @let name = format!("{}.{place}", field.path);
                div.field {
                    label for=(own) {
                        @if place == 0 { "What must be ready" } @else { "And what else" }
                    }
                    select id=(own) name=(name) aria-invalid=[mend.then_some("true")] aria-describedby=[found.as_deref()] {
                        option value="" { "nothing" }
                        @if !need.is_empty() && !self.states.iter().any(|state| state == need) {
                            option value=(need) selected { (need) }
                        }
                        @for state in &self.states { option value=(state) selected[state == need] { (state) } }
                    }
                    @if place == 0 { (told(found.as_deref(), &about)) }
                }
            }
        }
    }

    fn field(&self, field: &Field) -> Markup {
        let own = id(&field.path);
        let about = self.about(field);
        let mend = about
            .iter()
            .any(|said| said.code.severity == Severity::Mend);
        let found = (!about.is_empty()).then(|| format!("{own}-found"));
        let (label, example) = words(field);
        // Minutes stand there as a number; what is written otherwise, as it is written.
        let shown = match field.kind {
            Kind::Minutes => field.text.strip_suffix(" min").unwrap_or(&field.text),
            _ => &field.text,
        };
        let hint = (!example.is_empty()).then(|| format!("{own}-hint"));
        let beside: Vec<&str> = hint.iter().chain(&found).map(String::as_str).collect();
        let beside = (!beside.is_empty()).then(|| beside.join(" "));
        html! {
            div.field {
                label for=(own) { (label) }
                input type="text" id=(own) name=(field.path) value=(shown)
                    inputmode=[(field.kind == Kind::Minutes).then_some("numeric")]
                    aria-invalid=[mend.then_some("true")] aria-describedby=[beside];
                @if let Some(hint) = &hint { p.hint id=(hint) { (example) } }
                (told(found.as_deref(), &about))
            }
        }
    }
}

/// Findings, each with its first way out.
fn told(id: Option<&str>, all: &[&Diagnostic]) -> Markup {
    html! {
        @if !all.is_empty() {
            ul.plain.told id=[id] {
                @for said in all {
                    li {
                        (weighed(said))
                        @if let Some(hint) = said.hints.first() { " " span.hint { (coded(&sentence(hint))) } }
                    }
                }
            }
        }
    }
}

/// What a field is called, and an example of it.
fn words(field: &Field) -> (&'static str, &'static str) {
    let scene = field.path.starts_with("scene.");
    match field.key {
        "shoot" => ("What the day is called", ""),
        "day" => ("Date", "As 2026-02-14."),
        "call" => ("When everybody comes", "As 08:30."),
        "set-up" if !scene => ("Set-up between two scenes", "Minutes; 5 when left empty."),
        "about" => ("What is filmed", ""),
        "for" => ("How long it is filmed", "Minutes."),
        "set-up" => (
            "Set-up before it",
            "Minutes; those of the day when left empty.",
        ),
        "at" => (
            "Begins at",
            "As 13:25; after the scene before it when left empty.",
        ),
        other => (other, ""),
    }
}
