//! Page, text and structured data print the same strings, and the same bytes every time.

use edit::ledger::model::{Figure, Ledger, Run};
use press::address::PageOptions;
use press::jsonld::jsonld;
use press::line::plain;
use press::page::page;
use press::sample;
use press::text::text;

/// Every figure that the ledger holds for printing.
fn figures(ledger: &Ledger) -> Vec<&Figure> {
    let mut all: Vec<&Figure> = Vec::new();
    all.extend(ledger.facts.iter().flat_map(|fact| &fact.figures));
    for stage in &ledger.stages {
        all.extend(&stage.flour_share);
        all.push(&stage.sum);
    }
    for item in ledger
        .stages
        .iter()
        .flat_map(|stage| &stage.items)
        .chain(&ledger.besides)
    {
        for figure in [
            &item.grams,
            &item.measure,
            &item.measure_error,
            &item.percent,
        ] {
            all.extend(figure);
        }
    }
    for step in ledger.sections.iter().flat_map(|section| &section.steps) {
        all.extend(step.runs.iter().filter_map(|run| match run {
            Run::Figure(figure) => Some(figure),
            Run::Words(_) => None,
        }));
        all.extend(step.margin.iter().flat_map(|line| &line.figures));
    }
    all.extend(ledger.products.iter().flat_map(|product| &product.figures));
    all.extend(ledger.formula.iter().map(|(_, figure)| figure));
    for product in &ledger.label.products {
        all.extend(&product.figures);
        all.extend(product.panel(ledger.label.law).figures());
    }
    for (room, _, liquid) in ledger.rooms.iter().flat_map(|table| &table.rows) {
        all.push(room);
        all.extend(liquid);
    }
    if let Some(reckoned) = &ledger.reckoned {
        all.extend(&reckoned.rooms);
        all.extend(reckoned.rows.iter().flat_map(|row| &row.times));
    }
    all
}

/// Every line of words that the ledger holds for printing on page and in text.
fn words(ledger: &Ledger) -> Vec<String> {
    let mut all = vec![ledger.title.clone(), ledger.imprint.clone()];
    all.extend(ledger.byline.clone());
    all.extend(ledger.headnote.clone());
    all.extend(ledger.disclosure.clone());
    all.extend(ledger.cup_note.clone());
    all.extend(ledger.words_note.clone());
    all.extend([
        ledger.allergens.contains.clone(),
        ledger.allergens.honesty.clone(),
    ]);
    all.extend(ledger.kit.clone());
    all.extend(ledger.tested.clone());
    all.extend(ledger.footnotes.clone());
    all.extend(
        ledger
            .film
            .iter()
            .flat_map(|film| [film.title.clone(), film.address.clone()]),
    );
    all.extend(
        ledger
            .facts
            .iter()
            .flat_map(|fact| [fact.label.clone(), fact.shown.clone()]),
    );
    all.extend(ledger.stages.iter().map(|stage| stage.heading.clone()));
    for item in ledger
        .stages
        .iter()
        .flat_map(|stage| &stage.items)
        .chain(&ledger.besides)
    {
        all.push(item.name.clone());
        all.extend(item.detail.clone());
        all.extend(item.place.clone());
    }
    for section in &ledger.sections {
        all.push(section.heading.clone());
        for step in &section.steps {
            all.push(press::line::sentence(step));
            all.extend(step.margin.iter().map(|line| line.shown.clone()));
        }
    }
    for product in &ledger.products {
        all.extend([product.name.clone(), product.pieces.clone()]);
        all.extend(
            [&product.tin, &product.bake, &product.after]
                .into_iter()
                .flatten()
                .cloned(),
        );
    }
    all.extend(ledger.formula.iter().map(|(label, _)| label.clone()));
    for table in &ledger.rooms {
        all.push(table.caption.clone());
        all.extend(table.rows.iter().map(|(_, liquid, _)| liquid.clone()));
    }
    all.extend(
        ledger
            .cautions
            .iter()
            .flat_map(|c| [c.text.clone(), c.source.clone()]),
    );
    all.extend(
        ledger
            .paragraphs
            .iter()
            .flat_map(|(h, t)| [h.clone(), t.clone()]),
    );
    if let Some(reckoned) = &ledger.reckoned {
        all.push(reckoned.note.clone());
        all.extend(
            reckoned
                .rows
                .iter()
                .flat_map(|row| [row.what.clone(), row.place.clone()]),
        );
    }
    let label = &ledger.label;
    all.extend([label.heading.clone(), label.purpose.clone()]);
    for product in &label.products {
        let panel = product.panel(label.law);
        all.extend([product.name.clone(), product.baked.clone()]);
        all.extend(panel.serving.clone());
        all.extend(panel.heads.clone());
        all.extend(panel.rows.iter().map(|row| row.label.clone()));
    }
    all.extend(label.notes.clone());
    all.extend(
        ledger
            .photos
            .iter()
            .filter_map(|(.., credit)| credit.clone()),
    );
    all
}

/// Runs of space as one, so that a wrapped line can be found again.
fn squeezed(text: &str) -> String {
    plain(text).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What a reader sees of a page: its body without tags, and then where its links lead. Structured
/// data and style stand in the head and do not count.
fn seen(html: &str) -> String {
    let body = html.split_once("<body>").expect("a page has a body").1;
    let mut out = String::new();
    let mut tag = false;
    for letter in body.chars() {
        match letter {
            '<' => tag = true,
            '>' => tag = false,
            _ if !tag => out.push(letter),
            _ => {}
        }
    }
    let mut out = squeezed(&out);
    for link in body
        .split("href=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
    {
        out.push('\n');
        out.push_str(link);
    }
    out
}

/// A sheet of text read whole, and then each of its columns from top to bottom, so that a string
/// that wraps within its column is found again. `edges` are where columns begin and end.
fn read(sheet: &str, edges: &[(usize, usize)]) -> String {
    let lines: Vec<Vec<char>> = sheet.lines().map(|line| line.chars().collect()).collect();
    let mut out = squeezed(sheet);
    for &(start, end) in edges {
        let cut = |line: &Vec<char>| -> String {
            line.get(start..end.min(line.len()))
                .unwrap_or(&[])
                .iter()
                .collect()
        };
        out.push('\n');
        out.push_str(&squeezed(
            &lines.iter().map(cut).collect::<Vec<_>>().join(" "),
        ));
    }
    out
}

/// The columns of a sheet 80 wide: names of ingredients, sentences after their numbers, the margin
/// after its marks, what stands after a label, a bullet or a note's number.
const COLUMNS: [(usize, usize); 7] = [
    (29, 72),
    (4, 49),
    (54, 80),
    (0, 49),
    (18, 80),
    (2, 80),
    (6, 80),
];

#[test]
fn every_figure_stands_on_the_page_and_in_the_text() {
    let ledger = sample::ledger();
    let html = seen(&page(&ledger, &PageOptions::default()));
    let sheet = read(&text(&ledger, 80), &COLUMNS);
    let all = figures(&ledger);
    assert!(all.len() > 120, "the sample has {} figures", all.len());
    for figure in all {
        let shown = squeezed(&figure.shown);
        assert!(html.contains(&shown), "not on the page: {shown}");
        assert!(sheet.contains(&shown), "not in the text: {shown}");
    }
}

#[test]
fn every_string_stands_on_the_page_and_in_the_text() {
    let ledger = sample::ledger();
    let html = seen(&page(&ledger, &PageOptions::default()));
    let sheet = read(&text(&ledger, 80), &COLUMNS);
    for line in words(&ledger) {
        let line = squeezed(&line);
        assert!(html.contains(&line), "not on the page: {line}");
        assert!(sheet.contains(&line), "not in the text: {line}");
    }
}

#[test]
fn structured_data_says_the_same_figures() {
    let ledger = sample::ledger();
    let data = jsonld(&ledger, &PageOptions::default());
    for item in press::line::bought(&ledger) {
        for figure in [&item.grams, &item.measure].into_iter().flatten() {
            assert!(data.contains(&plain(&figure.shown)), "{}", figure.shown);
        }
    }
}

#[test]
fn the_same_ledger_gives_the_same_bytes() {
    let options = PageOptions {
        base: Some("https://bread.example".to_owned()),
        absent: vec![],
    };
    let make = || {
        let ledger = sample::ledger();
        (
            page(&ledger, &options),
            text(&ledger, 80),
            jsonld(&ledger, &options),
        )
    };
    assert_eq!(make(), make());
}

#[test]
fn a_ledger_with_little_in_it_prints() {
    let mut ledger = sample::ledger();
    ledger.film = None;
    ledger.headnote = None;
    ledger.author = None;
    ledger.byline.clear();
    ledger.facts.clear();
    ledger.kit.clear();
    ledger.stages.clear();
    ledger.besides.clear();
    ledger.sections.clear();
    ledger.products.clear();
    ledger.formula.clear();
    ledger.rooms.clear();
    ledger.cautions.clear();
    ledger.reckoned = None;
    ledger.paragraphs.clear();
    ledger.tested.clear();
    ledger.photos.clear();
    ledger.footnotes.clear();
    ledger.label.products.clear();
    let html = page(&ledger, &PageOptions::default());
    assert!(html.contains("<h1>Same-day braid and tied buns</h1>"));
    assert!(!html.contains("<table") && !html.contains("<ol"));
    assert!(text(&ledger, 80).starts_with("Same-day braid and tied buns\n====="));
}
