//! Proofs read from the set pages: what stands on them, where, and that nothing is lost.

use edit::ledger::model::{ItemLine, Ledger, Run, Section, StepLine};
use typst::layout::{Frame, FrameItem, Point, Transform};

use super::wording::Wording;
use super::{Laid, MissingGlyph, PdfFault, missing_glyphs};
use crate::papers::{Paper, laid, make};
use crate::sample;

/// Everything that a page shows, with the place where each run of text ends.
struct Proof {
    text: String,
    /// Words that end outside the paper.
    outside: Vec<String>,
}

/// Reads the set pages. Blanks are left out: a line end is one.
fn read(laid: &Laid) -> Proof {
    let mut proof = Proof {
        text: String::new(),
        outside: vec![],
    };
    for page in laid.document.pages() {
        let frame = &page.frame;
        let paper = Point::new(frame.width(), frame.height());
        read_frame(frame, Transform::identity(), paper, &mut proof);
    }
    proof
}

fn read_frame(frame: &Frame, placed: Transform, paper: Point, proof: &mut Proof) {
    for (at, item) in frame.items() {
        match item {
            FrameItem::Group(group) => {
                let inner = placed
                    .pre_concat(Transform::translate(at.x, at.y))
                    .pre_concat(group.transform);
                read_frame(&group.frame, inner, paper, proof);
            }
            FrameItem::Text(text) => {
                let end = Point::new(at.x + text.width(), at.y).transform(placed);
                proof.text.push_str(&tight(&text.text));
                if end.x > paper.x || end.y > paper.y {
                    proof.outside.push(text.text.to_string());
                }
            }
            _ => {}
        }
    }
}

/// A text without blanks and without the places where a long word may break.
fn tight(text: &str) -> String {
    text.chars()
        .filter(|sign| !sign.is_whitespace() && !matches!(sign, '\u{200b}' | '\u{2060}'))
        .collect()
}

/// Strings of the ledger that the pages lack, places left out by a sheet excepted.
fn lost(ledger: &Ledger, laid: &Laid, left_out: &[&str]) -> Vec<String> {
    let proof = read(laid);
    assert_eq!(proof.outside, Vec::<String>::new());
    assert_eq!(laid.warnings, Vec::<String>::new());
    let mut lost = vec![];
    Wording::of(ledger).visit(&mut |place, text| {
        let printed_here = !left_out.iter().any(|part| place.starts_with(part));
        if printed_here && !proof.text.contains(&tight(text)) {
            lost.push(format!("{place}: {text}"));
        }
    });
    lost
}

fn lost_on_card(ledger: &Ledger) -> Vec<String> {
    let laid = laid(ledger, Paper::CardA5).expect("printable");
    lost(ledger, &laid, &["product"])
}

fn lost_on_bench(ledger: &Ledger) -> Vec<String> {
    let mut ledger = ledger.clone();
    // The bench sheet has no percentages and no sums.
    for stage in &mut ledger.stages {
        stage.flour_share = None;
        stage.sum.shown.clear();
        for item in &mut stage.items {
            item.percent = None;
        }
    }
    for item in &mut ledger.besides {
        item.percent = None;
    }
    let laid = laid(&ledger, Paper::BenchA4).expect("printable");
    lost(&ledger, &laid, &["the byline", "the notes", "the cautions"])
}

/// The sample without its buns and notes: what a card of two sides is meant for.
fn short() -> Ledger {
    let mut ledger = sample::ledger();
    ledger.sections.truncate(2);
    ledger.sections[1].steps.truncate(5);
    ledger.paragraphs.retain(|(label, _)| label == "Storage");
    ledger.cautions.clear();
    ledger
}

fn words_in(ledger: &Ledger) -> usize {
    let mut words = 0;
    Wording::of(ledger).visit(&mut |place, text| {
        if !place.starts_with("product") {
            words += text.split_whitespace().count();
        }
    });
    words
}

#[test]
fn a_recipe_of_five_hundred_words_takes_two_sides_of_a5() {
    let ledger = short();
    let words = words_in(&ledger);
    assert!(words >= 500, "{words} words");
    for paper in [Paper::CardA5, Paper::CardHalfLetter] {
        let laid = laid(&ledger, paper).expect("printable");
        assert_eq!(laid.heights_pt().len(), 2, "{paper:?}");
        assert!(read(&laid).text.contains("side1of2"));
    }
}

#[test]
fn every_string_of_the_sample_is_on_card_and_bench_sheet() {
    assert_eq!(lost_on_card(&sample::ledger()), Vec::<String>::new());
    assert_eq!(lost_on_bench(&sample::ledger()), Vec::<String>::new());
}

#[test]
fn the_paper_is_a5_and_a4() {
    // ISO 216: A5 is 148 × 210 mm, A4 is 210 × 297 mm.
    let ledger = short();
    let card = laid(&ledger, Paper::CardA5).expect("printable");
    let bench = laid(&ledger, Paper::BenchA4).expect("printable");
    for (laid, width_mm, height_mm) in [(card, 148.0, 210.0), (bench, 210.0, 297.0)] {
        for page in laid.document.pages() {
            assert!((page.frame.width().to_mm() - width_mm).abs() < 0.01);
            assert!((page.frame.height().to_mm() - height_mm).abs() < 0.01);
        }
    }
}

#[test]
fn the_same_ledger_gives_the_same_bytes() {
    let ledger = short();
    let card = || make(&ledger, Paper::CardA5).expect("printable");
    let bench = || make(&ledger, Paper::BenchA4).expect("printable");
    let first = (card(), bench());
    assert!(first.0.starts_with(b"%PDF-1."));
    assert_eq!(first, (card(), bench()));
}

#[test]
fn signs_of_the_typesetter_are_letters_like_any_other() {
    let signs = r#"#let x = 1 $y$ @z *bold* _slant_ `raw` <b>tag</b> "quoted" 'single' \n ~ -- [a] {b} // c"#;
    let mut ledger = short();
    ledger.title = format!("Loaf {signs}");
    ledger.author = Some(signs.to_owned());
    ledger.facts[0].shown = signs.to_owned();
    ledger.kit[0] = signs.to_owned();
    ledger.stages[0].heading = signs.to_owned();
    ledger.stages[0].items[0].name = signs.to_owned();
    ledger.stages[0].items[0].detail = Some(signs.to_owned());
    ledger.sections[0].heading = signs.to_owned();
    ledger.sections[0].steps[0].runs = vec![Run::Words(signs.to_owned())];
    ledger.sections[0].steps[0].margin[0].shown = signs.to_owned();
    ledger.products[0].name = signs.to_owned();
    assert_eq!(lost_on_card(&ledger), Vec::<String>::new());
    assert_eq!(lost_on_bench(&ledger), Vec::<String>::new());
    assert!(make(&ledger, Paper::CardA5).is_ok());
}

#[test]
fn sixty_steps_and_words_without_end_stay_on_the_paper() {
    let mut ledger = short();
    let model: Vec<StepLine> = ledger.sections[0].steps.clone();
    let steps = (1..=60).map(|number| StepLine {
        number,
        ..model[number % model.len()].clone()
    });
    ledger.sections = vec![Section {
        heading: "Sponge".to_owned(),
        steps: steps.collect(),
    }];
    let endless = "semolinabread".repeat(12);
    ledger.title = endless.clone();
    ledger.stages[1].items[1].name = endless.clone();
    ledger.sections[0].steps[2].margin[0].shown = endless;
    assert_eq!(lost_on_card(&ledger), Vec::<String>::new());
    assert_eq!(lost_on_bench(&ledger), Vec::<String>::new());
}

#[test]
fn a_step_longer_than_a_side_is_parted_and_not_cut() {
    let mut ledger = short();
    ledger.sections.truncate(1);
    ledger.sections[0].steps.truncate(1);
    ledger.sections[0].steps[0].runs = vec![Run::Words("knead ".repeat(900))];
    let card = laid(&ledger, Paper::CardA5).expect("printable");
    let bench = laid(&ledger, Paper::BenchA4).expect("printable");
    for laid in [card, bench] {
        let proof = read(&laid);
        assert_eq!(proof.outside, Vec::<String>::new());
        assert_eq!(proof.text.matches("knead").count(), 900);
    }
}

#[test]
fn what_is_left_empty_leaves_nothing_behind() {
    let mut ledger = short();
    ledger.byline.clear();
    ledger.author = None;
    ledger.facts.clear();
    ledger.kit.clear();
    ledger.besides.clear();
    ledger.paragraphs.clear();
    ledger.products.clear();
    ledger.cup_note = None;
    ledger.disclosure = None;
    ledger.stages[0].flour_share = None;
    let bare = ItemLine {
        grams: None,
        measure: None,
        measure_error: None,
        name: "water".to_owned(),
        detail: Some(String::new()),
        percent: None,
        place: None,
        footnote: None,
    };
    ledger.stages[0].items[0] = bare;
    ledger.sections[0].steps[0].margin.clear();
    assert_eq!(lost_on_card(&ledger), Vec::<String>::new());
    assert_eq!(lost_on_bench(&ledger), Vec::<String>::new());
    let text = read(&laid(&ledger, Paper::CardA5).expect("printable")).text;
    for stray in ["Kit", "none", "forbench", ",,"] {
        assert!(!text.contains(stray), "{stray}");
    }
    ledger.stages.clear();
    ledger.sections.clear();
    assert!(make(&ledger, Paper::CardA5).is_ok());
    assert!(make(&ledger, Paper::BenchA4).is_ok());
}

#[test]
fn a_sign_without_a_shape_is_named_and_no_card_is_made() {
    let mut ledger = short();
    ledger.sections[0].steps[1].runs = vec![Run::Words("Bake 🍞 well".to_owned())];
    let missing = vec![MissingGlyph {
        character: '🍞',
        place: "step 2".to_owned(),
    }];
    assert_eq!(missing_glyphs(&ledger), missing);
    let fault = make(&ledger, Paper::CardA5).expect_err("it has no shape");
    assert_eq!(fault, PdfFault::Glyphs(missing));
    assert_eq!(
        fault.to_string(),
        "the card's type has no sign for \"🍞\" (U+1F35E) in step 2; write it in other letters"
    );
    assert_eq!(missing_glyphs(&sample::ledger()), vec![]);
}
