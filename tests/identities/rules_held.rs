//! What an editor's rule asks of the page itself: that it is made so, whatever the recipe.

use bake::kitchen::Kitchen;
use edit::ledger::model::{Ledger, Run};
use edit::{Inputs, work_out};
use everyoven_tests::demos::{BUNS, DEMOS};
use everyoven_tests::tree;
use recipe::document::model::{Action, Step, Tool};
use recipe::document::{parse_sentence, read_recipe};
use recipe::larder::Larder;
use recipe::measure::read::read_amount;
use recipe::source::Diagnostic;
use std::collections::BTreeSet;

/// The ledger of a text and everything that is said about it.
fn worked_out(text: &str) -> (Ledger, Vec<Diagnostic>) {
    let read = read_recipe(text);
    let recipe = read
        .output
        .unwrap_or_else(|| panic!("unreadable: {:?}", read.diagnostics));
    let mut larder = Larder::open();
    let mut said = read.diagnostics;
    said.extend(larder.stock(&recipe.pantry));
    let formula = recipe::formula::formula(&recipe, &larder);
    said.extend(formula.diagnostics);
    let formula = formula.output;
    let kitchen = Kitchen::standard();
    let heard = work_out(&Inputs::new(&recipe, &formula, &larder, &kitchen).written_as(text));
    said.extend(heard.diagnostics);
    (heard.output.1, said)
}

fn ledger(text: &str) -> Ledger {
    worked_out(text).0
}

fn demo(name: &str) -> &'static str {
    let found = DEMOS.iter().find(|(own, _)| *own == name);
    found.expect("a demo of that name").1
}

fn names(said: &[Diagnostic]) -> Vec<&'static str> {
    said.iter().map(|one| one.code.name).collect()
}

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

#[test]
fn each_rule_that_the_page_holds_has_its_test() {
    let mut faults = Vec::new();
    let mut held = 0;
    for rule in edit::book::book() {
        let Some(by) = &rule.held_by else { continue };
        held += 1;
        let (file, function) = by.split_once('#').unwrap_or((by, ""));
        let body = tree::text(file).unwrap_or_default();
        if function.is_empty() || !body.contains(&format!("fn {function}(")) {
            faults.push(format!("{}: {by}", rule.says));
        }
    }
    assert!(
        held > 10,
        "only {held} rules say by which test they are held"
    );
    tree::none("rules name tests that are there", &faults);
}

#[test]
fn the_page_of_rules_is_the_table() {
    let page = tree::text(xtask::rules::PAGE).unwrap_or_default();
    assert!(
        page == edit::book::markdown(),
        "run `cargo run -p xtask -- rules`"
    );
}

#[test]
fn the_demos_raise_no_false_alarm() {
    // True of them, and meant: no photographs lie here, the feast bread is warm for long before a
    // full bake, and its second version was baked once.
    let meant = ["photo-none", "warm-over-four-hours", "tested-little"];
    let mut faults = Vec::new();
    for (name, text) in DEMOS {
        let (_, said) = worked_out(text);
        let others = said.iter().filter(|one| !meant.contains(&one.code.name));
        faults.extend(others.map(|one| format!("{name}: {}: {}", one.code.name, one.message)));
    }
    tree::none("the demos are as an editor wants them", &faults);
}

#[test]
fn a_bake_says_whether_the_fan_is_on() {
    let said = read_recipe(&BUNS.replace("fan = false, ", "")).diagnostics;
    assert!(names(&said).contains(&"key-missing"), "{:?}", names(&said));
    assert!(!names(&read_recipe(BUNS).diagnostics).contains(&"key-missing"));
}

#[test]
fn times_stand_near_the_title() {
    for (name, text) in DEMOS {
        let ledger = ledger(text);
        let labels: Vec<&str> = ledger
            .facts
            .iter()
            .map(|fact| fact.label.as_str())
            .collect();
        assert!(
            labels.contains(&"Start to finish") && labels.contains(&"Hands-on"),
            "{name}"
        );
        let page = press::page::page(&ledger, &press::page::PageOptions::default());
        let at = |words: &str| page.find(words).unwrap_or(usize::MAX);
        let first_step = ledger.sections[0].heading.as_str();
        assert!(
            at("Start to finish") < at(&format!(">{first_step}<")),
            "{name}"
        );
    }
}

fn steps(text: &str) -> Vec<Step> {
    let recipe = read_recipe(text).output.expect("it reads");
    let of_stages = recipe.stages.into_iter().flat_map(|stage| stage.steps);
    let of_products = recipe
        .products
        .into_iter()
        .flat_map(|product| product.steps);
    of_stages.chain(of_products).collect()
}

#[test]
fn the_tools_of_the_steps_are_listed() {
    for (name, text) in DEMOS {
        let kit = ledger(text).kit.join("\n").to_lowercase();
        let steps = steps(text);
        let mixed = |tool: Tool| {
            steps
                .iter()
                .any(|step| matches!(&step.action, Action::Mix { by, .. } if by.value == tool))
        };
        assert_eq!(kit.contains("stand mixer"), mixed(Tool::Mixer), "{name}");
        assert_eq!(kit.contains("wooden spoon"), mixed(Tool::Spoon), "{name}");
        let cooked = steps
            .iter()
            .any(|step| matches!(step.action, Action::Heat { .. }));
        assert_eq!(kit.contains("saucepan"), cooked, "{name}");
        let said = |word: &str| {
            steps
                .iter()
                .any(|step| step.text.value.to_lowercase().contains(word))
        };
        assert_eq!(kit.contains("brush"), said("brush"), "{name}");
        assert_eq!(kit.contains("foil"), said("foil"), "{name}");
        assert_eq!(kit.contains("rack"), said("rack"), "{name}");
    }
}

#[test]
fn salt_by_the_spoon_says_which() {
    let with = |salt: &str| {
        let text = BUNS.replace(
            "{ of = \"fine salt\", take = \"9 g\", as = \"salt\" }",
            salt,
        );
        names(&worked_out(&text).1)
    };
    let unsaid = with("{ of = \"salt\", take = \"2 tsp\" }");
    assert!(unsaid.contains(&"salt-kind-unsaid"), "{unsaid:?}");
    let said = with("{ of = \"fine salt\", take = \"2 tsp\", as = \"salt\" }");
    assert!(!said.contains(&"salt-kind-unsaid"), "{said:?}");
}

#[test]
fn a_packet_of_yeast_weighs() {
    let text = BUNS.replace(
        "take = \"6 g\", as = \"yeast\"",
        "take = \"1 packet\", as = \"yeast\"",
    );
    let ledger = ledger(&text);
    let yeast = ledger.stages[0]
        .items
        .iter()
        .find(|item| item.name.contains("yeast"));
    let grams = yeast
        .and_then(|item| item.grams.as_ref())
        .expect("its mass");
    // A US packet holds 7 g (¼ oz).
    assert_eq!(plain(&grams.shown), "7 g");
}

#[test]
fn printed_measures_weigh_what_the_list_says() {
    let mut seen = 0;
    for (name, text) in DEMOS {
        let ledger = ledger(text);
        for item in ledger.stages.iter().flat_map(|stage| &stage.items) {
            let Some((grams, measure)) = item.grams.as_ref().zip(item.measure.as_ref()) else {
                continue;
            };
            seen += 1;
            let off = (measure.value - grams.value).abs() / grams.value;
            let allowed = if grams.value < 0.01 { 0.05 } else { 0.03 };
            // A measure further off says by how much beside it.
            assert!(
                off <= allowed + 1e-9 || item.measure_error.is_some(),
                "{name}: {} {} is off by {off}",
                item.name,
                measure.shown
            );
        }
    }
    assert!(seen > 20, "only {seen} measures were looked at");
}

#[test]
fn numbers_stay_with_their_units() {
    for (name, text) in DEMOS {
        for section in ledger(text).sections {
            for run in section.steps.iter().flat_map(|step| &step.runs) {
                let shown = match run {
                    Run::Words(words) => words,
                    Run::Figure(figure) => &figure.shown,
                };
                for unit in ["g", "cm", "min", "minutes", "°C", "mL"] {
                    let breaks = shown.match_indices(&format!(" {unit}")).any(|(at, found)| {
                        let digit = shown[..at].ends_with(|c: char| c.is_ascii_digit());
                        let ends = !shown[at + found.len()..].starts_with(char::is_alphanumeric);
                        digit && ends
                    });
                    assert!(!breaks, "{name}: {shown}");
                }
            }
        }
    }
}

#[test]
fn spoons_cannot_be_taken_for_each_other() {
    for unsure in ["1 T", "1 t"] {
        assert!(read_amount(unsure).is_err(), "{unsure}");
    }
    let said = |text: &str| plain(&edit::ledger::say::amount(&read_amount(text).expect(text)));
    // The larger spoon has a capital, and four letters.
    assert_eq!(said("1 tbsp"), "1 Tbsp");
    assert_eq!(said("1 tsp"), "1 tsp");
}

fn cautions(text: &str) -> String {
    let all = ledger(text).cautions;
    let texts: Vec<String> = all
        .into_iter()
        .inspect(|caution| assert!(!caution.source.is_empty()))
        .map(|caution| caution.text)
        .collect();
    texts.join("\n")
}

#[test]
fn raw_dough_has_its_caution() {
    let eggs = cautions(demo("feast-bread"));
    assert!(
        eggs.contains("raw egg") && eggs.contains("wash hands"),
        "{eggs}"
    );
    let lean = cautions(demo("hearth-loaf"));
    assert!(
        lean.contains("do not taste the dough") && !lean.contains("egg"),
        "{lean}"
    );
}

#[test]
fn steam_has_its_caution() {
    assert!(cautions(demo("hearth-loaf")).contains("Steam burns"));
    assert!(!cautions(demo("same-day-loaf")).contains("Steam"));
}

#[test]
fn honey_has_its_caution() {
    assert!(cautions(demo("feast-bread")).contains("infants under 12 months"));
    assert!(!cautions(demo("hearth-loaf")).contains("infants"));
}

#[test]
fn allergens_follow_the_ingredients() {
    let braid = ledger(demo("same-day-loaf")).allergens;
    for name in ["wheat", "milk", "egg", "almond"] {
        assert!(braid.contains.contains(name), "{}", braid.contains);
    }
    let without = demo("same-day-loaf")
        .replace(" and scatter [flaked almonds] on top", "")
        .replace(
            "[[besides]]\nof = \"flaked almonds\"\ntake = \"15 g\"\non = \"top\"\n",
            "",
        );
    assert!(!ledger(&without).allergens.contains.contains("almond"));
    let lean = ledger(demo("hearth-loaf")).allergens;
    assert!(!lean.contains.contains("milk"), "{}", lean.contains);
}

/// Minutes of "PT7H30M", "P1DT2H".
fn minutes(iso: &str) -> f64 {
    let (days, clock) = iso
        .trim_start_matches('P')
        .split_once('T')
        .unwrap_or((iso, ""));
    let mut sum = days
        .strip_suffix('D')
        .and_then(|days| days.parse::<f64>().ok())
        .unwrap_or(0.0)
        * 1440.0;
    let mut number = String::new();
    for letter in clock.chars() {
        match letter {
            'H' | 'M' => {
                let value: f64 = number.parse().expect("digits");
                sum += value * if letter == 'H' { 60.0 } else { 1.0 };
                number.clear();
            }
            digit => number.push(digit),
        }
    }
    sum
}

#[test]
fn times_for_machines_are_the_printed_ones() {
    for (name, text) in DEMOS {
        let ledger = ledger(text);
        let printed = |label: &str| {
            let fact = ledger.facts.iter().find(|fact| fact.label == label);
            fact.expect(label).shown.clone()
        };
        for (iso, label) in [
            (&ledger.iso_times.total, "Start to finish"),
            (&ledger.iso_times.prep, "Hands-on"),
            (&ledger.iso_times.cook, "In the oven"),
        ] {
            let time = numerics::quantity::Duration::from_minutes(minutes(iso));
            assert_eq!(
                edit::ledger::say::duration(time),
                printed(label),
                "{name}: {iso}"
            );
        }
    }
}

/// Digits of the author's words that no figure of the ledger covers.
fn uncovered(text: &str) -> Vec<String> {
    let recipe = read_recipe(text).output.expect("it reads");
    let ledger = ledger(text);
    let mut left = Vec::new();
    for passage in edit::prose::passages(&recipe, Some(text)) {
        let own: BTreeSet<String> = ledger
            .said
            .iter()
            .filter(|said| said.passage == passage.spot.name())
            .map(|said| said.figure.shown.clone())
            .collect();
        let mut words = passage.words.clone();
        let mut longest: Vec<&String> = own.iter().collect();
        longest.sort_by_key(|shown| std::cmp::Reverse(shown.len()));
        for shown in longest {
            words = words.replace(shown.as_str(), "");
        }
        if words.contains(|c: char| c.is_ascii_digit() || "½⅓⅔¼¾⅛".contains(c)) {
            left.push(format!("{}: {words}", passage.spot.name()));
        }
    }
    left
}

#[test]
fn no_digit_in_words_is_outside_the_ledger() {
    for (name, text) in DEMOS {
        tree::none(name, &uncovered(text));
    }
    let odd = BUNS.replace(
        "Round them.",
        "Round 3 of them, then 12, wait 1½ hours or 1 h 20; 45 × 20 cm, 2-3 times, 0.5 g, at 4 °C, gas mark 4.",
    );
    tree::none("an odd sentence", &uncovered(&odd));
}

#[test]
fn sentences_of_the_demos_are_masked_byte_for_byte() {
    for (_, text) in DEMOS {
        let recipe = read_recipe(text).output.expect("it reads");
        for passage in edit::prose::passages(&recipe, Some(text)) {
            assert_eq!(passage.words.len(), passage.written.len());
            let (pieces, _) = parse_sentence(passage.written, 0);
            let uses = pieces.len();
            assert!(!passage.is_step() || uses > 0);
        }
    }
}
