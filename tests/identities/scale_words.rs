//! Sentences in another size: parts in brackets follow and still come to the whole, packets become
//! grams, spoons stay spoons where their marks allow, and what words still say is named.

use recipe::document::{print_recipe, read_recipe};
use recipe::formula::formula;
use recipe::larder::Larder;
use recipe::scale::{Scaled, To, Wish, scale};
use recipe::source::{Checked, Severity};

const TEXT: &str = r#"
everyoven = 1
title = "Sample of parts"
kind = "enriched"
serves = "9-10 people"

[[stage]]
name = "dough"
items = [
  { of = "bread flour", take = "4 cups", as = "flour", also = "4 cups", from = "room" },
  { of = "whole milk", take = "250 g", as = "milk", at = "25 °C" },
  { of = "egg", take = "4 large", as = "eggs", at = "20 °C" },
  { of = "granulated sugar", take = "90 g", as = "sugar", from = "room" },
  { of = "honey", take = "3 Tbsp", from = "room" },
  { of = "fine salt", take = "1½ tsp", as = "salt", from = "room" },
  { of = "instant yeast", take = "1 packet", as = "yeast", from = "room" },
  { of = "unsalted butter", take = "1 stick", as = "butter", at = "18 °C" },
]

[[stage.step]]
do = "Mix [flour], [60 g of the milk], [yeast] and [3 of the eggs]; keep back 20 g of dough."
mix = { by = "hand", phases = [{ speed = "low", for = "5 min" }] }

[[stage.step]]
do = "Add [the rest of the milk], [the rest of the eggs], [31 g of sugar], [2 Tbsp of the honey] and [salt]."
mix = { by = "hand", phases = [{ speed = "low", for = "5 min" }] }

[[stage.step]]
do = "Knead in [butter], [59 g of sugar] and [the rest of the honey]."
mix = { by = "hand", phases = [{ speed = "low", for = "5 min" }] }

[[stage.step]]
do = "Cut into [buns pieces]."
divide = { into = ["buns"], for = "6 min" }

[[product]]
name = "buns"
from = "dough"
count = 12
piece = "70 g + 15 g"
tin = { name = "lined tray", size = "40 x 30 cm", material = "light metal" }

[[product.step]]
do = "Roll the 70 g pieces to balls and the 15 g pieces to strips of 20 cm, 12 buns in all; set 5 cm apart."
shape = { for = "12 min" }

[[product.step]]
do = "Bake until golden. Look after 18 minutes."
bake = { phases = [{ at = "190 °C", for = "18 min", range = "16-20 min" }], fan = false }
"#;

fn asked(wish: &Wish) -> Checked<Option<Scaled>> {
    let read = read_recipe(TEXT);
    assert!(!read.stops(), "{:?}", read.diagnostics);
    let recipe = read.output.expect("a recipe");
    let larder = Larder::open();
    let sums = formula(&recipe, &larder).output;
    scale(&recipe, &sums, &larder, wish)
}

fn text(wish: &Wish) -> String {
    let scaled = asked(wish).output.expect("granted");
    let text = print_recipe(&scaled.recipe);
    let again = read_recipe(&text);
    let mend: Vec<_> = again
        .diagnostics
        .iter()
        .filter(|said| said.code.severity == Severity::Mend)
        .collect();
    assert!(mend.is_empty(), "{mend:?}\n{text}");
    text
}

fn holds(text: &str, words: &[&str]) {
    for word in words {
        assert!(text.contains(word), "no {word} in\n{text}");
    }
}

#[test]
fn half_takes_half_of_every_part() {
    let half = text(&Wish::half());
    holds(
        &half,
        &[
            "take = \"2 cups\"",
            "[30 g of the milk]",
            // Three of four eggs would be one and a half of two: whole ones are taken, and a rest.
            "take = \"2 large\"",
            "[1 of the eggs]",
            "[15.5 g of sugar]",
            "[1 Tbsp of the honey]",
            "take = \"1½ Tbsp\"",
            "take = \"¾ tsp\"",
            // Half a packet of 7 g, half a stick of 113.4 g.
            "take = \"3.5 g\"",
            "take = \"56.5 g\"",
            "count = 6",
            "6 buns in all",
            "serves = \"5 people\"",
            "shape = { for = \"6 min\" }",
            // Pieces of the same size bake as long.
            "for = \"18 min\", range = \"16-20 min\"",
        ],
    );
    assert!(!half.contains("also ="), "{half}");
    let said = asked(&Wish::half());
    let scaled = said.output.expect("granted");
    let packet = "Yeast would be ½ packet; it is given as 3.5 g.";
    assert!(
        scaled.said.iter().any(|words| words == packet),
        "{:?}",
        scaled.said
    );
    let words: Vec<&str> = said
        .diagnostics
        .iter()
        .filter(|one| one.code.name == "words-for-old-size")
        .map(|one| one.message.as_str())
        .collect();
    assert_eq!(words.len(), 1, "{words:?}");
    assert!(words[0].contains("20 g"), "{words:?}");
}

#[test]
fn parts_by_mass_come_to_the_whole_after_rounding() {
    // 90 g x 0.77 = 69.3, weighed as 69.5; 31 g becomes 23.9, weighed as 24, and 59 g what is left.
    let less = text(&Wish::times(0.77).weighing_eggs());
    holds(
        &less,
        &["take = \"69.5 g\"", "[24 g of sugar]", "[45.5 g of sugar]"],
    );
    // 3 Tbsp x 0.77 has no mark on a spoon: 63 g of honey by the larder's cup become grams.
    assert!(!less.contains("Tbsp of the honey"), "{less}");
}

#[test]
fn pieces_that_change_size_are_renamed_in_their_sentences() {
    let larger = text(&Wish::times(1.3));
    // 15.6 buns: 16 of 0.975 times the size.
    holds(
        &larger,
        &[
            "count = 16",
            "Roll the 68 g pieces",
            "the 14.5 g pieces",
            "16 buns in all",
        ],
    );
}

#[test]
fn one_egg_is_parted_by_shares() {
    let quarter = text(&Wish::times(0.25));
    holds(
        &quarter,
        &[
            "take = \"1 large\"",
            "[75 % of the eggs]",
            "[the rest of the eggs]",
        ],
    );
}

#[test]
fn more_pieces_take_more_hands() {
    let wish = Wish::to(To::Pieces {
        product: None,
        count: 24,
    });
    let double = text(&wish);
    holds(
        &double,
        &[
            "count = 24",
            "take = \"2 packets\"",
            "take = \"2 sticks\"",
            "shape = { for = \"24 min\" }",
            "divide = { into = [\"buns\"], for = \"12 min\" }",
            "[6 of the eggs]",
            "[4 Tbsp of the honey]",
        ],
    );
}
