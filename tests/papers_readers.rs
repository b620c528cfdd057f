//! Papers as the readers of a country hold them: their language, and amounts not after the steps
//! that want them.

use bake::kitchen::Kitchen;
use edit::ledger::model::{Ledger, PatternKind, Run, StepLine};
use edit::{Inputs, work_out};
use everyoven_tests::demos::DEMOS;
use everyoven_tests::tree::target;
use press::papers::{Paper, Sheet, make};
use press::shopping::ListSize;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use recipe::measure::Market;
use std::process::Command;

fn ledger_for(text: &str, market: Option<Market>) -> Ledger {
    let recipe = read_recipe(text).output.expect("an example reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    let kitchen = Kitchen::standard();
    let mut inputs = Inputs::new(&recipe, &sums, &larder, &kitchen);
    inputs.market = market;
    work_out(&inputs).output.1
}

/// The language in a file's catalog: the entry `Lang` of ISO 32000-1, 7.7.2, table 28.
fn language(pdf: &[u8]) -> String {
    let text = String::from_utf8_lossy(pdf);
    let catalog = text.rfind("/Type/Catalog").expect("a catalog");
    let begin = text[..catalog].rfind(" obj").expect("an object");
    let end = catalog + text[catalog..].find("endobj").expect("its end");
    let object = &text[begin..end];
    let (_, rest) = object.split_once("/Lang(").expect("a language");
    rest.split(')').next().unwrap_or_default().to_owned()
}

#[test]
fn every_kind_of_paper_names_the_language_of_its_readers() {
    let papers = [
        Paper::CardA6,
        Paper::CardA5,
        Paper::CardA4,
        Paper::BenchA4,
        Paper::SheetA4Of2A5,
        Paper::Shopping(ListSize::A5),
        Paper::BowlLabels(Sheet::A4),
        Paper::Pattern(PatternKind::Level, Sheet::A4),
    ];
    let (_, text) = DEMOS.first().expect("an example");
    for market in [None].into_iter().chain(Market::ALL.map(Some)) {
        let ledger = ledger_for(text, market);
        let wanted = market.map_or("en", Market::tag);
        for paper in papers {
            let bytes = make(&ledger, paper).expect("it can be printed");
            assert_eq!(language(&bytes), wanted, "{}", paper.word());
        }
    }
}

/// Text of each page without blanks, as poppler reads it.
fn pages(name: &str, bytes: &[u8]) -> Vec<String> {
    let file = target().join(format!("{name}.pdf"));
    std::fs::write(&file, bytes).expect("a file for the test");
    let out = Command::new("pdftotext")
        .args(["-raw", &file.display().to_string(), "-"])
        .output()
        .expect("poppler's pdftotext; tests/run installs it");
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    text.split('\u{c}').map(tight).collect()
}

fn tight(text: &str) -> String {
    let no_sign = |sign: &char| !sign.is_whitespace() && !matches!(sign, '\u{200b}' | '\u{2060}');
    text.chars().filter(no_sign).collect()
}

fn first_words(step: &StepLine) -> String {
    let sentence: String = step
        .runs
        .iter()
        .map(|run| match run {
            Run::Words(text) => text.as_str(),
            Run::Figure(figure) => figure.shown.as_str(),
        })
        .collect();
    let words = tight(&sentence);
    format!(
        "{}{}",
        step.number,
        words.chars().take(16).collect::<String>()
    )
}

#[test]
fn beside_the_method_no_stage_stands_after_its_steps() {
    for (example, text) in DEMOS {
        for market in [Market::UnitedStates, Market::UnitedKingdom] {
            let ledger = ledger_for(text, Some(market));
            for paper in [Paper::CardA4, Paper::CardLetter] {
                let bytes = make(&ledger, paper).expect("it can be printed");
                let name = format!("{example}-{}-{}", market.tag(), paper.word());
                let pages = pages(&name, &bytes);
                for stage in &ledger.stages {
                    let section = ledger
                        .sections
                        .iter()
                        .find(|section| section.heading == stage.heading);
                    let Some(step) = section.and_then(|section| section.steps.first()) else {
                        continue;
                    };
                    let sum = tight(&format!("{}in all", stage.sum.shown));
                    let page_of = |words: &str| {
                        let page = pages.iter().position(|page| page.contains(words));
                        page.unwrap_or_else(|| panic!("{name}: no {words}"))
                    };
                    let (amounts, steps) = (page_of(&sum), page_of(&first_words(step)));
                    assert!(amounts <= steps, "{name}: {}", stage.heading);
                }
            }
        }
    }
}
