//! Laws of the ledger: what is shown adds up, and every face shows the same strings.

use bake::kitchen::Kitchen;
use edit::ledger::model::{Ledger, Run};
use edit::{Inputs, work_out};
use everyoven_tests::demos::DEMOS;
use press::page::{PageOptions, page};
use proptest::prelude::*;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;

fn ledger(text: &str) -> Ledger {
    let read = read_recipe(text);
    let recipe = read
        .output
        .unwrap_or_else(|| panic!("unreadable: {:?}", read.diagnostics));
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let formula = formula(&recipe, &larder).output;
    let kitchen = Kitchen::standard();
    work_out(&Inputs::new(&recipe, &formula, &larder, &kitchen))
        .output
        .1
}

/// Grams at the beginning of a shown string, in hundredths.
fn hundredths(shown: &str) -> i64 {
    let digits: String = shown
        .chars()
        .take_while(|c| c.is_ascii_digit() || *c == '.')
        .collect();
    let (whole, part) = digits.split_once('.').unwrap_or((&digits, ""));
    let part = format!("{part:0<2}");
    whole.parse::<i64>().expect("digits") * 100 + part.parse::<i64>().expect("digits")
}

fn adds_up(ledger: &Ledger) -> Result<(), String> {
    for stage in &ledger.stages {
        let items: i64 = stage
            .items
            .iter()
            .filter_map(|item| item.grams.as_ref())
            .map(|grams| hundredths(&grams.shown))
            .sum();
        let sum = hundredths(&stage.sum.shown);
        // "6 % of the flour, 25 g boils off"
        let lost = stage
            .flour_share
            .as_ref()
            .and_then(|share| share.shown.split(", ").nth(1))
            .map_or(0, hundredths);
        if items - lost != sum {
            return Err(format!(
                "{}: lines {items}, lost {lost}, sum {sum}",
                stage.heading
            ));
        }
    }
    Ok(())
}

#[test]
fn shown_grams_add_up_to_the_shown_total() {
    for (name, text) in DEMOS {
        let ledger = ledger(text);
        assert!(!ledger.stages.is_empty());
        assert_eq!(adds_up(&ledger), Ok(()), "{name}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn shown_grams_add_up_for_any_masses(
        flour in 1000_u32..2_000_000, water in 1000_u32..2_000_000, salt in 1_u32..50_000,
    ) {
        let text = format!(
            "everyoven = 1\ntitle = \"T\"\nkind = \"lean\"\n[[stage]]\nname = \"dough\"\nitems = [\n\
             {{ of = \"bread flour\", take = \"{} g\" }},\n{{ of = \"water\", take = \"{} g\" }},\n\
             {{ of = \"fine salt\", take = \"{} g\" }},\n]\n[[stage.step]]\n\
             do = \"Mix [bread flour], [water] and [fine salt].\"\n\
             mix = {{ by = \"hand\", phases = [{{ speed = \"low\", for = \"5 min\" }}] }}\n\
             [[product]]\nname = \"loaf\"\nfrom = \"dough\"\ncount = 1\npiece = \"1 g\"\n",
            f64::from(flour) / 1000.0, f64::from(water) / 1000.0, f64::from(salt) / 1000.0,
        );
        prop_assert_eq!(adds_up(&ledger(&text)), Ok(()));
    }
}

#[test]
fn every_face_shows_the_same_strings() {
    for (name, text) in DEMOS {
        let ledger = ledger(text);
        let html = page(&ledger, &PageOptions::default());
        let plain = press::text::text(&ledger, 80)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        let html = html.replace('\u{a0}', " ");
        for section in &ledger.sections {
            for step in &section.steps {
                let in_step = step.runs.iter().filter_map(|run| match run {
                    Run::Figure(figure) => Some(figure),
                    Run::Words(_) => None,
                });
                for figure in in_step.chain(step.margin.iter().flat_map(|line| &line.figures)) {
                    let shown = figure.shown.replace('\u{a0}', " ");
                    assert!(html.contains(&shown), "{name}: {shown} is not on the page");
                    // The plain text breaks lines, so only the digits before the first space.
                    let digits = shown.split(' ').next().unwrap_or("");
                    assert!(
                        plain.contains(digits),
                        "{name}: {digits} is not in the text"
                    );
                }
            }
        }
    }
}

/// A printed text without tags, with plain spaces.
fn plainly(text: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for letter in text.chars() {
        match letter {
            '<' => inside = true,
            '>' if inside => {
                inside = false;
                out.push(' ');
            }
            _ if inside => {}
            '\u{a0}' | '\u{202f}' => out.push(' '),
            _ => out.push(letter),
        }
    }
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Numbers with the word or sign behind them: "210 g", "180 °C", "45–75 min".
fn measured(text: &str) -> Vec<String> {
    let words: Vec<&str> = text.split(' ').collect();
    let unit = |word: &str| {
        matches!(
            word.trim_end_matches([',', '.', ';', ')', ':', '”', '"']),
            "g" | "kg" | "min" | "h" | "°C" | "°F" | "cm" | "Tbsp" | "tsp" | "cup" | "cups" | "%"
        )
    };
    words
        .windows(2)
        .filter(|two| unit(two[1]))
        .map(|two| {
            let number = two[0].trim_start_matches(['(', '“', '"', '/', '+']);
            let unit = two[1].trim_end_matches([',', '.', ';', ')', ':', '”', '"']);
            format!("{number} {unit}")
        })
        .filter(|said| said.starts_with(|c: char| c.is_numeric()))
        .collect()
}

/// What stands around some words of a text.
fn around(text: &str, words: &str) -> String {
    let at = text.find(words).unwrap_or(0);
    let before: Vec<&str> = text[..at].split(' ').rev().take(12).collect();
    let after = text[at..].split(' ').take(8);
    before
        .into_iter()
        .rev()
        .chain(after)
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn every_figure_that_an_output_prints_is_told_of_it() {
    use press::printed::{Output, printed};
    for (name, text) in DEMOS {
        let ledger = ledger(text);
        let told = printed(&ledger);
        let options = PageOptions::default();
        let film =
            edit::talk::film::film(&ledger, &edit::talk::track::Track::default(), &[]).output;
        let papers = press::film::papers(&ledger, &film, &options).expect("the papers");
        let of_film: String = papers
            .iter()
            .filter(|(file, _)| matches!(file.as_str(), "say-these.txt" | "cards.csv"))
            .map(|(_, bytes)| String::from_utf8_lossy(bytes).into_owned())
            .collect();
        let html = page(&ledger, &options);
        let (before, after) = html.split_once("<script").expect("structured data");
        let (_, after) = after.split_once("</script>").expect("its end");
        let outputs = [
            (Output::Page, format!("{before}{after}")),
            (Output::Text, press::text::text(&ledger, 80)),
            (Output::Data, press::jsonld::jsonld(&ledger, &options)),
            (Output::Film, of_film),
        ];
        // What stands in no figure: sources, bakes that were tried, what cups hold, labels' notes, in what state a thing is taken,
        // how large a serving is.
        let besides: Vec<String> = [
            &ledger.footnotes,
            &ledger.tested,
            &ledger.kit,
            &ledger.label.notes,
        ]
        .into_iter()
        .flatten()
        .chain(
            ledger
                .cautions
                .iter()
                .flat_map(|one| [&one.text, &one.source]),
        )
        .chain(&ledger.cup_note)
        .chain(
            ledger
                .stages
                .iter()
                .flat_map(|stage| &stage.items)
                .chain(&ledger.besides)
                .filter_map(|item| item.detail.as_ref()),
        )
        .chain(
            ledger
                .label
                .products
                .iter()
                .flat_map(|product| product.us.serving.iter().chain(&product.eu.serving)),
        )
        .map(|text| plainly(text))
        .collect();
        let mut seen = 0;
        for (output, text) in outputs {
            let own: Vec<String> = ledger
                .figures()
                .into_iter()
                .chain(ledger.said.iter().map(|said| &said.figure))
                .filter(|figure| {
                    told.get(&figure.name)
                        .is_some_and(|on| on.contains(&output))
                })
                .map(|figure| plainly(&figure.shown))
                .collect();
            assert!(own.len() > 20, "{name}: {output:?} prints figures");
            for said in measured(&plainly(&text)) {
                seen += 1;
                let known = |all: &[String]| all.iter().any(|text| text.contains(&said));
                assert!(
                    known(&own) || known(&besides),
                    "{name}: {output:?} prints “{said}”, and no figure is told of it: {}",
                    around(&plainly(&text), &said)
                );
            }
        }
        assert!(seen > 200, "{name}: {seen} figures were found");
    }
}
