//! The papers of a film about the sample's recipe.

use super::{PICTURE, papers};
use crate::address::PageOptions;
use crate::sample;
use edit::ledger::model::Ledger;
use edit::talk::Said;
use edit::talk::film::film;
use edit::talk::track::read;
use resvg::tiny_skia::Pixmap;
use std::collections::BTreeMap;
use std::sync::OnceLock;

const TALK: &str = "\
[0:00] Milk at forty-one degrees, yeast, flour: that is the sponge. It wants an hour.
[0:12] Now eggs, sugar, salt, the rest of the flour, and the butter at the end.
[0:40] Three strands for the braid.
[1:05] And ten buns.
[1:30]";

/// Made once for all tests: setting and drawing take their time.
fn made() -> &'static BTreeMap<String, Vec<u8>> {
    static MADE: OnceLock<BTreeMap<String, Vec<u8>>> = OnceLock::new();
    MADE.get_or_init(make)
}

fn make() -> BTreeMap<String, Vec<u8>> {
    let ledger = sample::ledger();
    let track = read(TALK.as_bytes()).output;
    let first = |section: usize| ledger.sections[section].steps[0].number - 1;
    let said: Vec<Said> = (0..4)
        .map(|cue| Said {
            cue,
            step: Some(first(cue)),
        })
        .collect();
    let film = film(&ledger, &track, &said).output;
    let options = PageOptions {
        base: Some("https://bread.example/loaves".to_owned()),
        absent: vec![],
    };
    papers(&ledger, &film, &options)
        .expect("printable")
        .into_iter()
        .collect()
}

fn text(made: &BTreeMap<String, Vec<u8>>, name: &str) -> String {
    String::from_utf8(made[name].clone()).expect("UTF-8")
}

#[test]
fn every_paper_is_made_and_has_a_name() {
    let made = made();
    let names: Vec<&str> = made
        .keys()
        .map(String::as_str)
        .filter(|name| !name.starts_with("card-"))
        .collect();
    assert_eq!(
        names,
        [
            "captions-pace.txt",
            "captions.srt",
            "captions.vtt",
            "cards.csv",
            "chapters.vtt",
            "description.txt",
            "recipe.jsonld",
            "say-these-a4.pdf",
            "say-these-letter.pdf",
            "say-these.txt",
        ]
    );
    let cards = made.keys().filter(|name| name.starts_with("card-")).count();
    // One of each kind for each line of the list below its heading.
    assert_eq!(cards, 2 * (text(made, "cards.csv").lines().count() - 1));
    assert!(cards > 6);
}

#[test]
fn a_talk_without_times_has_no_captions_and_no_chapters() {
    let ledger = Ledger {
        film: None,
        ..sample::ledger()
    };
    let track = read(b"Milk, yeast, flour: that is the sponge.").output;
    let film = film(&ledger, &track, &[]).output;
    let made = papers(&ledger, &film, &PageOptions::default()).expect("printable");
    let made: BTreeMap<String, Vec<u8>> = made.into_iter().collect();
    for absent in [
        "captions.srt",
        "captions.vtt",
        "chapters.vtt",
        "recipe.jsonld",
    ] {
        assert!(!made.contains_key(absent), "{absent}");
    }
    assert!(!text(&made, "description.txt").contains("Chapters"));
    assert!(text(&made, "say-these.txt").contains("Say once"));
}

#[test]
fn who_gave_stands_before_the_amounts_and_the_allergens_are_there() {
    let description = text(made(), "description.txt");
    let at = |words: &str| {
        description
            .find(words)
            .unwrap_or_else(|| panic!("{words} is missing"))
    };
    assert!(
        at("Saltmarsh Mill gave the flour") < at("Contains wheat (gluten), milk, egg and almond.")
    );
    assert!(
        at("Contains wheat") < at("Chapters\n0:00 Sponge\n0:12 Dough\n0:40 Braid\n1:05 Tied buns")
    );
    assert!(
        at("180 g (1 cup + 7 Tbsp) all-purpose flour")
            < at("The whole recipe: https://bread.example/loaves")
    );
    assert!(!description.contains('\u{a0}'));
}

#[test]
fn the_chapters_are_clips_of_the_film() {
    let data: serde_json::Value =
        serde_json::from_str(&text(made(), "recipe.jsonld")).expect("JSON");
    let clips = data["video"]["hasPart"].as_array().expect("clips");
    assert_eq!(clips.len(), 4);
    assert_eq!(
        clips[1],
        serde_json::json!({
            "@type": "Clip",
            "name": "Dough",
            "startOffset": 12,
            "endOffset": 40,
            "url": "https://films.example/saltmarsh-lane/7#t=12,40",
        })
    );
}

/// EBU R 95 (second-hand): 5 % all round; WCAG 2.2, 1.4.3: 4.5 : 1, here on a box that nothing shines through.
#[test]
fn a_card_covers_its_box_and_nothing_else() {
    let made = made();
    let (wide, high) = PICTURE;
    for (name, bytes) in made
        .iter()
        .filter(|(name, _)| name.rsplit('.').next() == Some("png"))
    {
        let pixels = Pixmap::decode_png(bytes).expect("a PNG");
        assert_eq!((pixels.width(), pixels.height()), PICTURE);
        let covered: Vec<(u32, u32, u8)> = (0..high)
            .flat_map(|y| (0..wide).map(move |x| (x, y)))
            .filter_map(|(x, y)| Some((x, y, pixels.pixel(x, y)?.alpha())))
            .filter(|(_, _, alpha)| *alpha > 0)
            .collect();
        let left = covered.iter().map(|(x, ..)| *x).min().expect("a box");
        let right = covered.iter().map(|(x, ..)| *x).max().expect("a box");
        let top = covered.iter().map(|(_, y, _)| *y).min().expect("a box");
        let bottom = covered.iter().map(|(_, y, _)| *y).max().expect("a box");
        assert!(
            left >= wide / 20 && right < wide - wide / 20,
            "{name}: {left}..{right}"
        );
        assert!(
            top >= high / 20 && bottom < high / 2,
            "{name}: {top}..{bottom}"
        );
        // The edges of the box may be softened by a pixel; within it nothing is clear.
        let clear = covered.iter().filter(|(x, y, alpha)| {
            *alpha < 255 && *x > left && *x < right && *y > top && *y < bottom
        });
        assert_eq!(clear.count(), 0, "{name}");
    }
}

/// 4 % of the height of the picture: 2.6 mm on a telephone 65 mm high.
#[test]
fn capitals_of_a_card_are_large_enough() {
    let capital = super::card::LETTERS * crate::pdf::faces::CAP_HEIGHT_EM;
    assert!(capital >= 0.04 * f64::from(PICTURE.1), "{capital}");
}

#[test]
fn a_card_stands_alone_and_says_its_words() {
    let made = made();
    let (_, svg) = made
        .iter()
        .find(|(name, _)| name.ends_with("dough.svg"))
        .expect("a card");
    let svg = String::from_utf8(svg.clone()).expect("UTF-8");
    assert!(
        svg.contains("<desc>all of the sponge; 420 g all-purpose flour; 3 large eggs</desc>"),
        "{svg}"
    );
    assert!(
        svg.contains("width=\"1920\"") && !svg.contains("<style") && !svg.contains("href=\"http")
    );
}
