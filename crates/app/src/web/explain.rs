//! The pages that explain a finding, and those of the handbook that a form leads to, set from their small Markdown.

use super::refusal::{Answer, Refusal};
use super::shell::{Shell, page};
use axum::extract::Path;
use edit::ledger::say::capital;
use maud::{Markup, html};

/// `GET /explain/{code}`
pub async fn show(Path(code): Path<String>) -> Answer {
    let text = edit::explain::page(&code)
        .ok_or_else(|| Refusal::not_found("No finding is called that."))?;
    let title = capital(&code.replace('-', " "));
    let body = html! {
        article.explained {
            h1 { (title) }
            p { "In a list of findings it is called " code { (code) } "." }
            (set(text))
        }
    };
    Ok(page(&Shell::titled(&title), &body))
}

/// The part of the handbook that a form of scenes leads to.
const FILMING_DAY: &str = include_str!("../../../../docs/filming-day.md");

/// `GET /handbook/filming-day`
pub async fn filming_day() -> Answer {
    let (_, from) = FILMING_DAY
        .split_once("## The file of scenes")
        .unwrap_or(("", FILMING_DAY));
    let to = from.find("## How batches are found").unwrap_or(from.len());
    let title = "What a file of scenes holds";
    let body = html! {
        article.explained {
            h1 { (title) }
            (set(&from[..to]))
        }
    };
    Ok(page(&Shell::titled(title), &body))
}

/// Headings below the first, paragraphs, lists and tables, blocks of code; within lines, code.
fn set(text: &str) -> Markup {
    let mut parts: Vec<Markup> = Vec::new();
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        if line.starts_with("# ") {
            // The name, which the page has said.
        } else if let Some(heading) = line.strip_prefix("## ") {
            parts.push(html! { h2 { (heading) } });
        } else if line.starts_with("```") {
            let mut code = String::new();
            for line in lines.by_ref().take_while(|line| !line.starts_with("```")) {
                code += line;
                code.push('\n');
            }
            parts.push(html! { pre tabindex="0" { code { (code) } } });
        } else if line.starts_with('|') {
            let mut rows = vec![cells(line)];
            while let Some(row) = lines.next_if(|next| next.starts_with('|')) {
                rows.push(cells(row));
            }
            parts.push(table(&rows));
        } else if !line.trim().is_empty() {
            let item = is_item(line);
            let mut words = line.trim_start_matches(['-', ' ']).to_owned();
            while let Some(more) = lines.next_if(|next| goes_on(next)) {
                words.push(' ');
                words += more.trim();
            }
            parts.push(if item {
                html! { ul { li { (inline(&words)) } } }
            } else {
                html! { p { (inline(&words)) } }
            });
        }
    }
    html! { @for part in parts { (part) } }
}

/// The cells of a row of a table.
fn cells(row: &str) -> Vec<&str> {
    row.trim()
        .trim_matches('|')
        .split('|')
        .map(str::trim)
        .collect()
}

/// A table whose second row is the line under its heads.
fn table(rows: &[Vec<&str>]) -> Markup {
    let heads = rows.first().cloned().unwrap_or_default();
    html! {
        dl.facts {
            @for row in rows.iter().skip(2) {
                dt { (inline(row.first().unwrap_or(&""))) }
                @for (nth, cell) in row.iter().enumerate().skip(1) {
                    dd {
                        @if row.len() > 2 { span.small { (heads.get(nth).unwrap_or(&"")) ": " } }
                        (inline(cell))
                    }
                }
            }
        }
    }
}

fn is_item(line: &str) -> bool {
    line.starts_with("- ")
}

fn goes_on(line: &str) -> bool {
    !line.trim().is_empty()
        && !line.starts_with(['#', '|'])
        && !line.starts_with("```")
        && !is_item(line)
}

fn inline(words: &str) -> Markup {
    html! {
        @for (index, piece) in words.split('`').enumerate() {
            @if index % 2 == 1 { code { (piece) } } @else { (piece) }
        }
    }
}
