//! Random bytes and random changes of an example: whatever comes in, an answer comes out.

use proptest::prelude::*;
use recipe::document::{
    parse_sentence, print_recipe, read_kitchen_bytes, read_recipe_bytes, revise,
};
use recipe::measure::read;

const LOAF: &[u8] = include_bytes!("../../../../examples/same-day-loaf.toml");
const STUDIO: &[u8] = include_bytes!("../../../../examples/kitchens/studio.toml");

/// Pieces that a slip of the hand, or malice, may put into a file.
const PIECES: [&str; 24] = [
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
    "\"",
    "\"\"\"",
    "'",
    "\\",
    "\n",
    "\r\n",
    "=",
    ",",
    "#",
    "\u{feff}",
    "½",
    "-",
    "°C",
    "nan",
    "1e999",
    "[[stage]]\n",
    "\u{0}",
    "{ of = \"dough\" },",
];

/// One change: where, as a share of the length, how many bytes go, and what comes instead.
fn change() -> impl Strategy<Value = (f64, usize, usize)> {
    (0.0..1.0, 0_usize..12, 0..PIECES.len())
}

/// A text with changes at places that may fall inside a letter.
fn changed(text: &[u8], changes: &[(f64, usize, usize)]) -> Vec<u8> {
    let mut bytes = text.to_vec();
    for (at, gone, piece) in changes {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of a length"
        )]
        let at = ((bytes.len() as f64) * at) as usize;
        let end = (at + gone).min(bytes.len());
        bytes.splice(at..end, PIECES[*piece].bytes());
    }
    bytes
}

/// Reads, and asks that every place lies inside the file and that what is handed out prints.
fn survives(bytes: &[u8]) -> Result<(), TestCaseError> {
    let read = read_recipe_bytes(bytes);
    for said in &read.diagnostics {
        if let Some(span) = said.span {
            prop_assert!(
                span.start <= span.end && span.end <= bytes.len(),
                "{said:?}"
            );
        }
        prop_assert!(!said.message.is_empty());
    }
    prop_assert!(read.output.is_some() || !read.diagnostics.is_empty());
    if let Some(recipe) = read.output {
        prop_assert!(!print_recipe(&recipe).is_empty());
    }
    let kitchen = read_kitchen_bytes(bytes);
    prop_assert!(kitchen.output.is_some() || !kitchen.diagnostics.is_empty());
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_bytes_are_answered(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        survives(&bytes)?;
    }

    #[test]
    fn a_changed_recipe_is_answered(changes in proptest::collection::vec(change(), 1..5)) {
        survives(&changed(LOAF, &changes))?;
    }

    #[test]
    fn a_changed_kitchen_is_answered(changes in proptest::collection::vec(change(), 1..4)) {
        survives(&changed(STUDIO, &changes))?;
    }

    #[test]
    fn any_sentence_is_answered(text in "(\\PC|[\\[\\]½ ]|of|the|rest|temperature){0,40}") {
        let (pieces, said) = parse_sentence(&text, 0);
        for span in pieces.iter().map(|p| p.span).chain(said.iter().filter_map(|d| d.span)) {
            prop_assert!(text.get(span.start..span.end).is_some(), "{span:?} cuts a letter");
        }
    }

    #[test]
    fn any_quantity_is_answered(text in "([0-9½¾.,/+ x×–-]|\\PC|g|kg|°C|min|cup|Ø| below the rim| to ){0,24}") {
        let places = [
            read::read_mass(&text).err(),
            read::read_amount(&text).err(),
            read::read_temperature_range(&text).err(),
            read::read_time(&text).err(),
            read::read_time_range(&text).err(),
            read::read_height(&text).err(),
            read::read_multiple(&text).err(),
            read::read_tin_size(&text).err(),
            read::read_piece(&text).err(),
            read::read_quantity(&text).err(),
        ];
        for unread in places.into_iter().flatten() {
            let Some(_) = text.get(unread.span.start..unread.span.end) else {
                panic!("{text:?}: {unread:?}");
            };
        }
    }

    #[test]
    fn a_value_is_revised_or_its_place_named(changes in proptest::collection::vec(change(), 0..3)) {
        let bytes = changed(LOAF, &changes);
        let text = String::from_utf8_lossy(&bytes);
        let way = [revise::Way::Key("stage"), revise::Way::Entry(0), revise::Way::Key("name")];
        if let Ok(revised) = revise::set_value(&text, &way, &"levain".into()) {
            prop_assert!(revised.contains("\"levain\""));
        }
    }
}
