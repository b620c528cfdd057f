//! Two versions of one recipe: both shown beside each other, and no word of either is lost.

use super::Tab;
use super::write::{filled_from, mark};
use crate::failure::Failure;
use crate::web::desk::Desk;
use crate::web::shell::{Shell, page};
use crate::world::clock;
use crate::world::notebook::{Kept, Name};
use crate::world::record::revisions::{How, Sent};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use edit::revised::lines::hunks;
use edit::revised::merge::{Merged, merge};
use maud::{Markup, PreEscaped, html};
use press::address::relative;

/// A text that was sent and is not in the file.
pub struct Unsaved<'a> {
    /// The recipe.
    pub name: &'a Name,
    /// The text.
    pub text: &'a str,
    /// What the file was when the form was filled.
    pub seen: &'a str,
    /// The open page that sent it.
    pub window: Option<&'a str>,
    /// The kitchen and the readers, as the end of an address.
    pub carried: &'a str,
    /// The page that it was sent from.
    pub tab: Tab,
}

impl Unsaved<'_> {
    fn address(&self) -> String {
        format!("/recipe/{}{}", relative(self.name.text()), self.carried)
    }

    /// The page that it was sent from, as it is now.
    fn way_back(&self) -> String {
        let name = relative(self.name.text());
        let and = if self.carried.is_empty() { '?' } else { '&' };
        format!(
            "/recipe/{name}{}{}{and}said=left",
            self.tab.path(),
            self.carried
        )
    }

    /// What a form sends besides the text.
    fn hidden(&self, seen: &str) -> Markup {
        html! {
            input type="hidden" name="seen" value=(seen);
            @if let Some(window) = self.window {
                input type="hidden" name="window" value=(window);
            }
        }
    }

    fn field(label: &str, text: &str) -> Markup {
        let rows = (text.lines().count() + 3).clamp(8, 28);
        html! {
            label for="file" { (label) }
            textarea #file name="text" rows=(rows) spellcheck="false" autocapitalize="off"
                autocomplete="off" { (PreEscaped("\n")) (text) }
        }
    }
}

/// The file was changed since the form was filled: the cook sees both and chooses. What was sent is
/// in the record meanwhile, in case the browser goes away.
pub fn choose(desk: &Desk, sent: &Unsaved, there: &[u8]) -> Response {
    let file = Kept::Recipe.file(sent.name);
    desk.look(&file, Some(there));
    let kept = desk.record.announce_revision(&Sent {
        file: &file,
        bytes: sent.text.as_bytes(),
        how: How::Beside,
        window: sent.window,
        from: None,
        at: clock::moment(),
    });
    let theirs = String::from_utf8_lossy(there).into_owned();
    let now = mark(there);
    let base = filled_from(desk, sent.name, sent.seen);
    let base = base.and_then(|bytes| String::from_utf8(bytes).ok());
    let merged = base.map(|base| merge(&base, sent.text, &theirs));
    let body = html! {
        h1 { "Two versions of " (file) }
        div.faults role="alert" {
            h2 { "It was changed elsewhere while you wrote" }
            p {
                "The file stays as it is until you choose. "
                @if let Ok(number) = kept {
                    "Yours is in the history as version " (number) "."
                } @else {
                    "Yours is on this page alone."
                }
            }
        }
        section {
            h2 { "Where they differ" }
            (sides("In the file now", &theirs, "Yours", sent.text))
        }
        (one_of_both(sent, merged.as_ref(), &now))
        section {
            h2 { "Or one of the two" }
            form.row method="post" action=(sent.address()) {
                div {
                    (sent.hidden(&now))
                    input type="hidden" name="text" value=(sent.text);
                    p { button type="submit" { "Put yours in the file" } }
                }
                p.beside { "What is in the file now stays in the history." }
            }
            form.row method="post" action=(sent.address()) {
                div {
                    (sent.hidden(sent.seen))
                    input type="hidden" name="under" value="beside";
                    input type="hidden" name="text" value=(sent.text);
                    p { button type="submit" { "Keep yours as a recipe of its own" } }
                }
                p.beside { "The file stays; yours gets the same name with a number." }
            }
            p { a href=(sent.way_back()) { "Leave the file as it is" } }
        }
    };
    let page = page(&Shell::titled(&format!("Two versions of {file}")), &body);
    (StatusCode::CONFLICT, page).into_response()
}

fn one_of_both(sent: &Unsaved, merged: Option<&Merged>, now: &str) -> Markup {
    let label = "The text that will be saved";
    html! {
        section {
            h2 { "Make one of both" }
            form.row.write method="post" action=(sent.address()) {
                div {
                    (sent.hidden(now))
                    (Unsaved::field(label, merged.map_or(sent.text, |merged| &merged.text)))
                    p { button type="submit" { "Save this text" } }
                }
                p.beside {
                    @match merged {
                        None => "This is yours. What the file should keep of the other has to be copied over by hand.",
                        Some(merged) if merged.both == 0 => "What both changed is in it: no line was changed in two ways.",
                        Some(merged) => {
                            (places(merged.both))
                            " changed in two ways. Both ways stand there, between lines that begin with "
                            code { "# ---" } ": keep one, and take those lines out."
                        }
                    }
                }
            }
        }
    }
}

fn places(count: usize) -> String {
    match count {
        1 => "In one place the same lines were".to_owned(),
        count => format!("In {count} places the same lines were"),
    }
}

/// What could not be written, still there to be sent again.
pub fn not_saved(sent: &Unsaved, failure: &Failure) -> Response {
    let said = failure.to_string();
    let mut said = said.lines().map(edit::ledger::say::capital);
    let body = html! {
        h1 { "Not saved" }
        div.faults role="alert" {
            h2 { "The text is not in the file" }
            @for line in &mut said { p { (line) } }
            p { "It stands below. Copy it to a safe place before this page is closed, or try again." }
        }
        form.row.write method="post" action=(sent.address()) {
            div {
                (sent.hidden(sent.seen))
                (Unsaved::field("Your text", sent.text))
                p { button type="submit" { "Try again" } }
            }
        }
    };
    let page = page(&Shell::faulty("Not saved"), &body);
    (StatusCode::INTERNAL_SERVER_ERROR, page).into_response()
}

/// Where two texts differ, each run of lines beside the other.
pub fn sides(before: &str, old: &str, after: &str, new: &str) -> Markup {
    let (old, new): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let hunks = hunks(&old, &new);
    let part = |heading: &str, lines: &[&str], from: usize| {
        html! {
            div {
                p.strong { (heading) ", " (span(from, lines.len())) }
                pre tabindex="0" { code { @for line in lines { (line) "\n" } } }
            }
        }
    };
    html! {
        @if hunks.is_empty() { p { "They differ in nothing but the ends of their lines." } }
        @for hunk in &hunks {
            div.sides {
                (part(before, &old[hunk.before.clone()], hunk.before.start))
                (part(after, &new[hunk.after.clone()], hunk.after.start))
            }
        }
    }
}

fn span(from: usize, lines: usize) -> String {
    match lines {
        0 => format!("nothing after line {from}"),
        1 => format!("line {}", from + 1),
        _ => format!("lines {}–{}", from + 1, from + lines),
    }
}
