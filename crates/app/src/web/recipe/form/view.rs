//! The form: amounts as rows, each step's sentence with what can be measured in the margin beside it.

use super::about::field_of;
use super::words::{Of, deed, label};
use crate::web::recipe::findings::{Placed, coded, counts, placed, sentence, weight};
use crate::web::recipe::write::hint;
use crate::web::recipe::{Opened, Tab};
use maud::{Markup, PreEscaped, html};
use recipe::document::form::keys::{DEEDS, Kind};
use recipe::document::form::{Field, Form, Part, Row, StepFields};
use recipe::source::Severity;

/// The id of a place on the page.
pub fn id(path: &str) -> String {
    path.replace('.', "-")
}

/// When the file is not one that fields can be made of.
pub fn unreadable(opened: &Opened) -> Markup {
    html! {
        p.lead { "This file cannot be shown as a form until its writing is mended." }
        p { a href=(opened.address(Tab::Write)) { "Mend it as text" } }
    }
}

/// The whole form.
pub fn form(opened: &Opened, form: &Form, seen: &str, elsewhere: Option<&str>) -> Markup {
    let text = &opened.work.source(0).text;
    let own = |placed: &Placed<'_>| match placed.finding.file {
        0 => field_of(form, text, &placed.finding.diagnostic),
        _ => None,
    };
    let found = placed(&opened.work).into_iter();
    let page = Page {
        found: found.map(|placed| (own(&placed), placed)).collect(),
    };
    html! {
        form.filling #filling method="post" autocomplete="off" action=(opened.address(Tab::Form))
            data-live="elsewhere form-findings" data-watch data-ask=(opened.place("/form/look")) {
            input type="hidden" name="seen" value=(seen);
            (hint(elsewhere))
            (page.summary(opened))
            p { button type="submit" { "Save" } }
            section { (page.top(&form.top)) }
            @for (number, stage) in form.stages.iter().enumerate() {
                (page.part(stage, "Stage", Of::Stage, (number, form.stages.len())))
            }
            p.buttons { button type="submit" name="act:add:stage" { "Add a stage" } }
            @for (number, product) in form.products.iter().enumerate() {
                (page.part(product, "What is made", Of::Product, (number, form.products.len())))
            }
            p.buttons { button type="submit" name="act:add:product" { "Add something made from the dough" } }
            section {
                h2 { "For bench, tin and top" }
                (page.rows(&form.besides, Of::Stage, 2))
                p.buttons { button type="submit" name="act:add:besides" { "Add an ingredient" } }
            }
            p { button type="submit" { "Save" } }
        }
        p.hint {
            "Tested bakes, what a pack says and a house style have no fields here; they stay in the file as \
             they are. " a href=(opened.address(Tab::Write)) { "The file as text" }
        }
    }
}

/// Every finding with the path of the field that it is about.
struct Page<'a> {
    found: Vec<(Option<String>, Placed<'a>)>,
}

impl Page<'_> {
    /// Findings about a field.
    fn about(&self, field: &Field) -> Vec<&Placed<'_>> {
        let own = |(path, placed): &&(Option<String>, Placed<'_>)| {
            path.as_deref() == Some(field.path.as_str())
                && placed.finding.diagnostic.code.severity != Severity::Could
        };
        self.found
            .iter()
            .filter(own)
            .map(|(_, placed)| placed)
            .collect()
    }

    fn summary(&self, opened: &Opened) -> Markup {
        let of = |severity: Severity| {
            self.found
                .iter()
                .filter(move |(_, placed)| placed.finding.diagnostic.code.severity == severity)
        };
        let look = of(Severity::LookAgain).count();
        html! {
            div #form-findings role="status" {
                p { (sentence(&counts(of(Severity::Mend).count(), look))) }
                ul.plain.findings {
                    @for (path, placed) in of(Severity::Mend) {
                        li {
                            (weight(Severity::Mend))
                            @let said = coded(&sentence(&placed.finding.diagnostic.message));
                            @match path {
                                Some(path) => a href=(format!("#{}", id(path))) { (said) },
                                None => (said),
                            }
                        }
                    }
                }
                @if look > 0 {
                    p { a href=(opened.address(Tab::Findings)) { "All findings" } }
                }
            }
        }
    }

    fn top(&self, fields: &[Field]) -> Markup {
        html! {
            div.fields {
                @for field in fields { (self.field(field, Of::Top)) }
            }
        }
    }

    fn part(&self, part: &Part, word: &str, of: Of, (number, count): (usize, usize)) -> Markup {
        let name = part.head.first().map_or("", |field| &field.text);
        let list = if of == Of::Stage { "items" } else { "with" };
        html! {
            section id=(id(&part.path)) {
                h2 { (word) ": " @if name.is_empty() { "not named yet" } @else { (name) } }
                div.fields { @for field in &part.head { (self.field(field, of)) } }
                h3 { @if of == Of::Stage { "Ingredients" } @else { "Taken besides the dough" } }
                (self.rows(&part.items, of, 2))
                p.buttons {
                    button type="submit" name=(format!("act:add:{}.{list}", part.path)) {
                        "Add an ingredient"
                    }
                }
                @if !part.steps.is_empty() { h3 { "Steps" } }
                @for (at, step) in part.steps.iter().enumerate() {
                    (self.step(step, at, part.steps.len(), name))
                }
                p.buttons {
                    label for=(format!("{}-kind", id(&part.path))) { "A new step" }
                    select id=(format!("{}-kind", id(&part.path))) name=(format!("kind.{}", part.path)) {
                        @for known in &DEEDS { option value=(known.key) { (deed(known.key)) } }
                    }
                    button type="submit" name=(format!("act:add-step:{}", part.path)) { "Add it" }
                }
                p.buttons {
                    (moves(&part.path, number, count, if name.is_empty() { word } else { name }))
                }
            }
        }
    }

    /// Rows of fields: the first ones side by side, the others behind a word.
    fn rows(&self, rows: &[Row], of: Of, first: usize) -> Markup {
        html! {
            @if !rows.is_empty() {
                ol.plain.items {
                    @for (number, row) in rows.iter().enumerate() {
                        @let name = row.fields.iter().find(|field| field.key == "of").map_or("", |field| &field.text);
                        li id=(id(&row.path)) {
                            @let (short, long) = row.fields.split_at(first.min(row.fields.len()));
                            div.side-by-side { @for field in short { (self.field(field, of)) } }
                            @if !long.is_empty() {
                                @let said: Vec<&str> = long.iter().filter(|field| !field.text.is_empty()).map(|field| field.text.as_str()).collect();
                                details open[long.iter().any(|field| !self.about(field).is_empty())] {
                                    summary {
                                        "More about " @if name.is_empty() { "it" } @else { (name) }
                                        @if !said.is_empty() { span.soft { ": " (said.join(", ")) } }
                                    }
                                    div.fields { @for field in long { (self.field(field, of)) } }
                                    p.buttons { (moves(&row.path, number, rows.len(), name)) }
                                }
                            } @else {
                                p.buttons { (moves(&row.path, number, rows.len(), name)) }
                            }
                        }
                    }
                }
            }
        }
    }

    fn step(&self, step: &StepFields, number: usize, count: usize, of: &str) -> Markup {
        let known = step.deed.unwrap_or_default();
        let title = format!("{}. {}", number + 1, deed(known));
        html! {
            div.row.step id=(id(&step.path)) role="group" aria-labelledby=(format!("{}-title", id(&step.path))) {
                div {
                    h4 id=(format!("{}-title", id(&step.path))) { (title) }
                    (self.field_called(&step.sentence, "The step in your words"))
                    p.buttons {
                        (moves(&step.path, number, count, &format!("step {} of {of}", number + 1)))
                    }
                }
                div.beside {
                    @if step.deed.is_none() {
                        p { "What is done here is said in the file in a way that has no fields." }
                    }
                    div.fields.narrow {
                        @for field in &step.said { (self.field(field, Of::Deed(known))) }
                    }
                    @for (number, phase) in step.phases.iter().enumerate() {
                        fieldset id=(id(&phase.path)) {
                            legend { @if step.phases.len() > 1 { "Part " (number + 1) } @else { "How long" } }
                            div.fields.narrow {
                                @for field in &phase.fields { (self.field(field, Of::Deed(known))) }
                            }
                            @if step.phases.len() > 1 {
                                p.buttons {
                                    button type="submit" name=(format!("act:take-out:{}", phase.path)) {
                                        "Take out part " (number + 1)
                                    }
                                }
                            }
                        }
                    }
                    @if matches!(known, "mix" | "bake") {
                        p.buttons {
                            button type="submit" name=(format!("act:add:{}.{known}.phases", step.path)) {
                                "Add a part"
                            }
                        }
                    }
                    @let until: Vec<&Field> = step.until.iter().filter(|field| tells(known, field)).collect();
                    @if !until.is_empty() {
                        details open[until.iter().any(|field| !field.text.is_empty())] {
                            summary { "How one sees the end" }
                            div.fields.narrow {
                                @for field in until { (self.field(field, Of::Until)) }
                            }
                        }
                    }
                }
            }
        }
    }

    fn field(&self, field: &Field, of: Of) -> Markup {
        self.field_called(field, label(of, field.key))
    }

    fn field_called(&self, field: &Field, label: &str) -> Markup {
        let id = id(&field.path);
        let about = self.about(field);
        let mend = about
            .iter()
            .any(|one| one.finding.diagnostic.code.severity == Severity::Mend);
        let told = (!about.is_empty()).then(|| format!("{id}-found"));
        let invalid = mend.then_some("true");
        let (path, text) = (&field.path, &field.text);
        html! {
            div.field {
                label for=(id) { (label) }
                @match field.kind {
                    Kind::Paragraph | Kind::Lines => {
                        @let rows = (text.len() / 60 + text.lines().count()).clamp(2, 9);
                        textarea id=(id) name=(path) rows=(rows) aria-invalid=[invalid] aria-describedby=[told.as_deref()] {
                            (PreEscaped("\n")) (text)
                        }
                    }
                    Kind::Choice(words) => {
                        @let other = !text.is_empty() && !words.contains(&text.as_str());
                        select id=(id) name=(path) aria-invalid=[invalid] aria-describedby=[told.as_deref()] {
                            option value="" selected[text.is_empty()] {}
                            @if other { option value=(text) selected { (text) } }
                            @for word in words { option value=(word) selected[text == word] { (word) } }
                        }
                    }
                    Kind::YesNo => {
                        select id=(id) name=(path) aria-invalid=[invalid] aria-describedby=[told.as_deref()] {
                            @for word in ["", "yes", "no"] { option value=(word) selected[text == word] { (word) } }
                        }
                    }
                    _ => {
                        input type="text" id=(id) name=(path) value=(text)
                            aria-invalid=[invalid] aria-describedby=[told.as_deref()];
                    }
                }
                @if let Some(told) = &told {
                    ul.plain.told id=(told) {
                        @for one in &about {
                            li {
                                (weight(one.finding.diagnostic.code.severity))
                                (coded(&sentence(&one.finding.diagnostic.message)))
                                @if let Some(hint) = one.finding.diagnostic.hints.first() {
                                    " " span.hint { (coded(&sentence(hint))) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Whether a sign can tell the end of what is done; what is written stands there in any case.
fn tells(deed: &str, sign: &Field) -> bool {
    let signs: &[&str] = match deed {
        "mix" => &["see"],
        "heat" => &["see", "dough"],
        "rest" => &["see", "volume", "height", "dough"],
        "bake" | "cool" => &["see", "core"],
        _ => &[],
    };
    signs.contains(&sign.key) || !sign.text.is_empty()
}

/// The buttons that move a piece or take it out.
pub fn moves(path: &str, number: usize, count: usize, name: &str) -> Markup {
    let name = if name.is_empty() { "it" } else { name };
    html! {
        @if number > 0 {
            button type="submit" name=(format!("act:earlier:{path}")) {
                "Earlier" span.unseen { ": " (name) }
            }
        }
        @if number + 1 < count {
            button type="submit" name=(format!("act:later:{path}")) {
                "Later" span.unseen { ": " (name) }
            }
        }
        button type="submit" name=(format!("act:take-out:{path}")) {
            "Take out" span.unseen { ": " (name) }
        }
    }
}
