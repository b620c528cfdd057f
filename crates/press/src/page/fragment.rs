//! The recipe as a piece to paste into a page of one's own: it brings its own rules, takes the type
//! and the colours of the page around it, and has no names that could clash with that page's.
//!
//! Every class begins with `eo-`, there is no id, and headings begin at the second level.

use edit::ledger::model::{Figure, ItemLine, Ledger, MarginKind, MarginLine, Run, StepLine};
use maud::{Markup, PreEscaped, html};

use super::method::drawn;
use crate::line::{HOW_FAR, says_how_far, until};
use crate::marks::{Piece, pieces, used, word};

/// The rules, each under the class of the whole piece.
const RULES: &str = include_str!("fragment.css");

/// The piece: a style element and an article.
pub fn fragment(ledger: &Ledger) -> String {
    let piece = html! {
        style { (PreEscaped(RULES)) }
        article.eo-recipe lang=(ledger.language) {
            h2 { (ledger.title) }
            @if !ledger.byline.is_empty() { p.eo-small { (ledger.byline.join(" · ")) } }
            @if let Some(headnote) = &ledger.headnote { p { (headnote) } }
            @if let Some(disclosure) = &ledger.disclosure { p { (disclosure) } }
            @if !ledger.facts.is_empty() {
                ul.eo-facts {
                    @for fact in &ledger.facts {
                        li { (fact.label) ": " strong { (line(&fact.shown, &fact.figures)) } }
                    }
                }
            }
            p { strong { (ledger.allergens.contains) } " " (ledger.allergens.honesty) }
            @if !ledger.kit.is_empty() { p { "Tools: " (ledger.kit.join("; ")) "." } }
            (amounts(ledger))
            (products(ledger))
            @if !ledger.cautions.is_empty() {
                h3 { "Take care" }
                @for caution in &ledger.cautions {
                    p { (caution.text) " " span.eo-small { "Source: " (caution.source) "." } }
                }
            }
            (method(ledger))
            (reckoned(ledger))
            (after(ledger))
        }
    };
    piece.into_string()
}

fn amounts(ledger: &Ledger) -> Markup {
    html! {
        h3 { "Amounts" }
        @for stage in &ledger.stages {
            (table(&stage.heading, stage.flour_share.as_ref(), &stage.items, Some(&stage.sum)))
        }
        @if !ledger.besides.is_empty() {
            (table("For bench, tin and top", None, &ledger.besides, None))
        }
        @for note in [&ledger.cup_note, &ledger.words_note].into_iter().flatten() {
            p.eo-small { (note) }
        }
        @if says_how_far(ledger) { p.eo-small { (HOW_FAR) } }
        @if !ledger.formula.is_empty() {
            table.eo-amounts {
                caption { "The formula, in parts of the flour" }
                thead { tr { th scope="col" { "Part" } th.eo-percent scope="col" { "Amount" } } }
                tbody {
                    @for (label, figure) in &ledger.formula {
                        tr { th scope="row" { (label) } td.eo-percent { (figure.shown) } }
                    }
                }
            }
        }
    }
}

fn table(
    heading: &str,
    share: Option<&Figure>,
    items: &[ItemLine],
    sum: Option<&Figure>,
) -> Markup {
    let percents = items.iter().any(|item| item.percent.is_some());
    html! {
        table.eo-amounts {
            caption { (heading) @if let Some(share) = share { ", " (share.shown) } }
            thead {
                tr {
                    th.eo-grams scope="col" { "Weight" }
                    th scope="col" { "Measure" }
                    th scope="col" { "Ingredient" }
                    @if percents { th.eo-percent scope="col" { "Of flour" } }
                }
            }
            tbody { @for item in items { (row(item, percents)) } }
            @if let Some(sum) = sum {
                tfoot {
                    tr {
                        td.eo-grams { (sum.shown) }
                        td {}
                        td { "in all" }
                        @if percents { td.eo-percent {} }
                    }
                }
            }
        }
    }
}

fn row(item: &ItemLine, percents: bool) -> Markup {
    html! {
        tr {
            td.eo-grams { @if let Some(grams) = &item.grams { (grams.shown) } }
            td {
                @if let Some(measure) = &item.measure { (measure.shown) }
                @if let Some(error) = &item.measure_error { " " span.eo-whole { "(" (error.shown) ")" } }
            }
            td {
                (item.name)
                @for more in [&item.detail, &item.place].into_iter().flatten() {
                    span.eo-small { ", " (more) }
                }
                @if let Some(note) = item.footnote { sup { "[" (note) "]" } }
            }
            @if percents {
                td.eo-percent { @if let Some(percent) = &item.percent { (percent.shown) } }
            }
        }
    }
}

fn products(ledger: &Ledger) -> Markup {
    html! {
        @if !ledger.products.is_empty() {
            h3 { "Pieces" }
            @for product in &ledger.products {
                div.eo-row {
                    p {
                        strong { (product.name) } ": " (line(&product.pieces, &product.figures))
                        @if let Some(tin) = &product.tin { ", " (line(tin, &product.figures)) }
                    }
                    ul.eo-margin {
                        @if let Some(bake) = &product.bake {
                            li { (drawn(MarginKind::Heat, "eo-mark")) (line(bake, &product.figures)) }
                        }
                        @if let Some(after) = &product.after {
                            li {
                                (drawn(MarginKind::How, "eo-mark"))
                                (line(after, &product.figures)) ", baked"
                            }
                        }
                    }
                }
            }
        }
    }
}

fn method(ledger: &Ledger) -> Markup {
    let key = used(ledger);
    html! {
        h3 { "Method" }
        @if !key.is_empty() {
            ul.eo-marks { @for kind in key { li { (drawn(kind, "eo-mark")) (word(kind)) } } }
        }
        @for section in &ledger.sections {
            h4 { (section.heading) }
            @if let Some(first) = section.steps.first() {
                ol.eo-steps start=(first.number) { @for one in &section.steps { (step(one)) } }
            }
        }
    }
}

fn step(step: &StepLine) -> Markup {
    html! {
        li {
            div.eo-row {
                p {
                    @for run in &step.runs {
                        @match run {
                            Run::Words(words) => { (words) }
                            Run::Figure(figure) => { strong { (figure.shown) } }
                        }
                    }
                }
                @if !step.margin.is_empty() {
                    ul.eo-margin { @for one in &step.margin { (margin(one)) } }
                }
            }
        }
    }
}

fn margin(one: &MarginLine) -> Markup {
    let class = match one.kind {
        MarginKind::Time => Some("eo-time"),
        MarginKind::Cue => Some("eo-cue"),
        _ => None,
    };
    html! {
        li class=[class] {
            (drawn(one.kind, "eo-mark"))
            @if until(one) { "until " }
            @else if one.kind != MarginKind::Cue { span.eo-unseen { (word(one.kind)) ": " } }
            (line(&one.shown, &one.figures))
        }
    }
}

/// Rises in rooms of other temperatures.
fn reckoned(ledger: &Ledger) -> Markup {
    html! {
        @if let Some(reckoned) = &ledger.reckoned {
            h3 { (super::IN_YOUR_KITCHEN) }
            p { (reckoned.note) }
            @if !reckoned.rows.is_empty() {
                ul {
                    @for row in &reckoned.rows {
                        li { (row.step) " " (row.what) ", " (line(&row.line, &row.times)) }
                    }
                }
            }
        }
    }
}

fn after(ledger: &Ledger) -> Markup {
    html! {
        @for (heading, text) in &ledger.paragraphs {
            h3 { (heading) }
            p { (text) }
        }
        @if !ledger.tested.is_empty() {
            h3 { "Tested" }
            ul { @for bake in &ledger.tested { li { (bake) } } }
        }
        @if !ledger.footnotes.is_empty() {
            h3 { "Where the figures come from" }
            ol.eo-small { @for note in &ledger.footnotes { li { (note) } } }
        }
        p.eo-small { (ledger.imprint) }
    }
}

/// A printed line in which short figures are never parted at a line's end.
fn line(shown: &str, figures: &[Figure]) -> Markup {
    const SHORT: usize = 22;
    html! {
        @for piece in pieces(shown, figures) {
            @match piece {
                Piece::Figure(figure) if figure.chars().count() <= SHORT => {
                    span.eo-whole { (figure) }
                }
                Piece::Words(words) | Piece::Figure(words) => { (words) }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{RULES, fragment};
    use crate::sample;

    #[test]
    fn nothing_in_it_can_clash_with_the_page_around_it() {
        let html = fragment(&sample::ledger());
        for banned in [
            "<html", "<head", "<body", "<h1", " id=", " for=", "href=\"#", "<script", "style=\"",
        ] {
            assert!(!html.contains(banned), "{banned}");
        }
        let classes = html
            .split(" class=\"")
            .skip(1)
            .filter_map(|rest| rest.split('"').next());
        let mut seen = 0;
        for class in classes.flat_map(str::split_whitespace) {
            assert!(class.starts_with("eo-"), "{class}");
            seen += 1;
        }
        assert!(seen > 100, "{seen} classes");
        let first = html.find("<h").expect("a heading");
        assert!(html[first..].starts_with("<h2>"));
    }

    #[test]
    fn every_rule_reaches_no_farther_than_the_piece() {
        let selectors = RULES.lines().filter_map(|line| line.split_once(" {"));
        let mut count = 0;
        for selector in selectors.flat_map(|(selectors, _)| selectors.split(", ")) {
            assert!(selector.starts_with(".eo-recipe"), "{selector}");
            count += 1;
        }
        assert!(count > 20);
        for banned in ["url(", "@import", "<", "http", "#", "rgb("] {
            assert!(!RULES.contains(banned), "{banned}");
        }
    }

    #[test]
    fn text_never_becomes_markup() {
        let mut ledger = sample::ledger();
        let nasty = "</style><b onx='1'>\"Tom\" & <i>Ann</i>";
        ledger.title = nasty.to_owned();
        ledger.stages[0].heading = nasty.to_owned();
        ledger.sections[0].heading = nasty.to_owned();
        ledger.paragraphs[0].1 = nasty.to_owned();
        let html = fragment(&ledger);
        assert!(!html.contains("<b ") && !html.contains("<i>"));
        assert_eq!(html.matches("</style>").count(), 1);
    }

    #[test]
    fn every_figure_of_amounts_and_steps_is_in_it() {
        let ledger = sample::ledger();
        let html = fragment(&ledger);
        let items = ledger.stages.iter().flat_map(|stage| &stage.items);
        let mut count = 0;
        for item in items.chain(&ledger.besides) {
            for figure in [&item.grams, &item.measure, &item.percent]
                .into_iter()
                .flatten()
            {
                assert!(html.contains(&figure.shown), "{}", figure.shown);
                count += 1;
            }
        }
        for line in ledger
            .sections
            .iter()
            .flat_map(|s| &s.steps)
            .flat_map(|s| &s.margin)
        {
            for figure in &line.figures {
                assert!(html.contains(&figure.shown), "{}", figure.shown);
                count += 1;
            }
        }
        assert!(count > 80, "{count} figures");
    }
}
