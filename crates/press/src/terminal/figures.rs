//! Every figure of the ledger as a terminal shows it: what is printed, its place, its source, what it is printed on.

use edit::ledger::model::{Figure, Ledger};

use crate::printed::{Output, Printed};

/// The figures of the recipe by their places, then those of the author's own words.
pub fn figures(ledger: &Ledger, printed: &Printed) -> String {
    let mut text = format!("{}\n", ledger.title);
    let mut heading = String::new();
    for figure in ledger.figures() {
        let begins = figure.name.split('.').next().unwrap_or("");
        if begins != heading {
            begins.clone_into(&mut heading);
            text.push('\n');
            text.push_str(&heading);
            text.push('\n');
        }
        text.push_str(&line(figure, printed));
    }
    if !ledger.said.is_empty() {
        text.push_str("\nIn the author's words\n");
        for said in &ledger.said {
            text.push_str(&line(&said.figure, printed));
        }
        let held = ledger.said.iter().filter(|said| said.held).count();
        text.push_str(&format!(
            "\n{held} of {} figures in words are the recipe's own.\n",
            ledger.said.len()
        ));
    }
    text
}

/// "  180 g   stage.sponge.flour.mass", and below it the source and the outputs that print it.
fn line(figure: &Figure, printed: &Printed) -> String {
    let shown = figure.shown.replace('\u{a0}', " ");
    let on: Vec<&str> = printed.get(&figure.name).map_or_else(Vec::new, |on| {
        on.iter().copied().map(Output::word).collect()
    });
    let on = if on.is_empty() {
        "printed on nothing but this list".to_owned()
    } else {
        format!("on {}", on.join(", "))
    };
    format!(
        "  {shown:<24} {}\n  {:<24} {} ({})\n  {:<24} {on}\n",
        figure.name,
        "",
        figure.origin.source,
        figure.origin.had.words(),
        "",
    )
}
