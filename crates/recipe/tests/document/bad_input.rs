//! What is said of bad input, together with the lines that caused it.

use recipe::document::{read_recipe, read_recipe_bytes};
use recipe::source::{Checked, Diagnostic};
use std::fmt::Write as _;

/// A small recipe without fault, to be spoilt.
const LOAF: &str = "\
everyoven = 1
title = \"Plain tin loaf\"
kind = \"lean\"
[[stage]]
name = \"dough\"
items = [
  { of = \"bread flour\", take = \"500 g\" },
  { of = \"water\", take = \"340 g\" },
  { of = \"fine salt\", take = \"10 g\" },
  { of = \"instant yeast\", take = \"5 g\" },
]
[[stage.step]]
do = \"Knead [bread flour], [water], [fine salt] and [instant yeast] to a smooth dough.\"
mix = { by = \"hand\", phases = [{ speed = \"low\", for = \"12 min\" }] }
[[product]]
name = \"loaf\"
from = \"dough\"
count = 1
piece = \"840 g\"
tin = { name = \"loaf tin\", size = \"22 x 12 x 8 cm\", material = \"steel\" }
[[product.step]]
do = \"Bake.\"
bake = { phases = [{ at = \"220 °C\", for = \"35 min\" }], fan = false }
";

/// What was said, each with its line and a mark under its place.
fn shown<T>(bytes: &[u8], read: &Checked<T>) -> String {
    let mut out = String::new();
    for said in &read.diagnostics {
        let Diagnostic { code, message, .. } = said;
        let _ = writeln!(out, "{} {}: {message}", code.severity.word(), code.name);
        if let Some(span) = said.span {
            line(&mut out, bytes, span.start, span.end);
        }
        for label in &said.labels {
            let _ = writeln!(out, "  and: {}", label.text);
            line(&mut out, bytes, label.span.start, label.span.end);
        }
        for hint in &said.hints {
            let _ = writeln!(out, "  > {hint}");
        }
    }
    out
}

/// A line of the file, at most its first hundred letters, with a mark under a place in it.
fn line(out: &mut String, bytes: &[u8], start: usize, end: usize) {
    let from = bytes[..start]
        .iter()
        .rposition(|&b| b == b'\n')
        .map_or(0, |n| n + 1);
    let to = bytes[start..]
        .iter()
        .position(|&b| b == b'\n')
        .map_or(bytes.len(), |n| start + n);
    let number = bytes[..start].split(|&b| b == b'\n').count();
    let letters = |a: usize, b: usize| String::from_utf8_lossy(&bytes[a..b.max(a)]).chars().count();
    let text: String = String::from_utf8_lossy(&bytes[from..to])
        .chars()
        .filter(|c| *c != '\r')
        .take(100)
        .collect();
    let text = text.replace('\u{feff}', "<BOM>");
    let _ = writeln!(out, "  {number:>4} | {}", text.trim_end());
    let mark = letters(start, end.min(to)).clamp(1, 100);
    let _ = writeln!(
        out,
        "       | {}{}",
        " ".repeat(letters(from, start).min(100)),
        "^".repeat(mark)
    );
}

/// What is said of a file.
fn said(text: &str) -> String {
    shown(text.as_bytes(), &read_recipe(text))
}

/// What is said of the loaf with one piece of it changed.
fn spoilt(old: &str, new: &str) -> String {
    assert_eq!(LOAF.matches(old).count(), 1, "{old} occurs once");
    said(&LOAF.replace(old, new))
}

#[test]
fn the_loaf_itself_is_without_fault() {
    assert_eq!(said(LOAF), "");
}

#[test]
fn empty_file() {
    insta::assert_snapshot!(said(""));
}

#[test]
fn line_ends_of_another_system() {
    let text = LOAF.replace("\"340 g\"", "340").replace('\n', "\r\n");
    insta::assert_snapshot!(said(&text));
}

#[test]
fn byte_order_mark() {
    assert_eq!(said(&format!("\u{feff}{LOAF}")), "");
    insta::assert_snapshot!(said(&format!(
        "\u{feff}{}",
        LOAF.replace("\"lean\"", "\"leen\"")
    )));
}

#[test]
fn utf_16() {
    let bytes: Vec<u8> = "\u{feff}everyoven = 1\n"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    insta::assert_snapshot!(shown(&bytes, &read_recipe_bytes(&bytes)));
}

#[test]
fn latin_1() {
    let mut bytes = LOAF.replace("°C", "\u{1}C").into_bytes();
    for byte in &mut bytes {
        if *byte == 1 {
            *byte = 0xB0;
        }
    }
    insta::assert_snapshot!(shown(&bytes, &read_recipe_bytes(&bytes)));
}

#[test]
fn a_line_of_ten_megabytes() {
    let text = format!("title = \"{}\"", "x".repeat(10_000_000));
    insta::assert_snapshot!(shown(b"", &read_recipe_bytes(text.as_bytes())));
}

#[test]
fn ten_thousand_items() {
    let item = "{ of = \"water\", take = \"1 g\" },".repeat(10_000);
    let text = LOAF.replace("items = [", &format!("items = [{item}"));
    insta::assert_snapshot!(said(&text));
}

#[test]
fn negative_mass() {
    insta::assert_snapshot!(spoilt("\"340 g\"", "\"-340 g\""));
}

#[test]
fn not_a_number() {
    insta::assert_snapshot!(spoilt("\"340 g\"", "nan"));
}

#[test]
fn flour_by_the_degree() {
    insta::assert_snapshot!(spoilt("\"500 g\"", "\"3 °C\""));
}

#[test]
fn duplicate_names() {
    let again = LOAF[LOAF.find("[[stage]]").expect("there")..].to_owned();
    insta::assert_snapshot!(said(&format!("{LOAF}{again}")));
}

#[test]
fn one_key_twice() {
    insta::assert_snapshot!(spoilt(
        "kind = \"lean\"",
        "kind = \"lean\"\ntitle = \"Again\""
    ));
}

#[test]
fn stages_naming_each_other() {
    let sponge = "[[stage]]\nname = \"sponge\"\nitems = [{ of = \"dough\", take = \"50 g\" }]\n[[stage.step]]\ndo = \"Mix [dough].\"\nfinish = { for = \"1 min\" }\n";
    let text = LOAF
        .replace("[[product]]", &format!("{sponge}[[product]]"))
        .replace(
            "  { of = \"water\"",
            "  { of = \"sponge\" },\n  { of = \"water\"",
        )
        .replace("Knead ", "Knead [sponge], ");
    insta::assert_snapshot!(said(&text));
}

#[test]
fn missing_tin() {
    insta::assert_snapshot!(spoilt(
        "tin = { name = \"loaf tin\", size = \"22 x 12 x 8 cm\", material = \"steel\" }\n",
        ""
    ));
}

#[test]
fn deeply_nested_arrays() {
    let nest = format!("notes = {}{}\n", "[".repeat(50_000), "]".repeat(50_000));
    insta::assert_snapshot!(spoilt(
        "kind = \"lean\"\n",
        &format!("kind = \"lean\"\n{nest}")
    ));
}

#[test]
fn text_that_is_not_closed() {
    insta::assert_snapshot!(spoilt("\"Plain tin loaf\"", "\"Plain tin loaf"));
}

#[test]
fn value_without_quotes() {
    insta::assert_snapshot!(spoilt("\"340 g\"", "340 g"));
}

#[test]
fn comma_missing_between_items() {
    insta::assert_snapshot!(spoilt("\"340 g\" },", "\"340 g\" }"));
}

#[test]
fn day_that_is_not_in_the_calendar() {
    insta::assert_snapshot!(spoilt(
        "kind = \"lean\"",
        "kind = \"lean\"\npublished = 2026-02-30\nchanged = 2026-13-01"
    ));
}

#[test]
fn many_mistakes_at_once() {
    let text = LOAF
        .replace("\"lean\"", "\"leen\"")
        .replace("\"340 g\"", "340")
        .replace("take = \"10 g\"", "tkae = \"10 g\"")
        .replace("\"12 min\"", "\"12 minutes\"")
        .replace("[instant yeast]", "[yeast]")
        .replace("fan = false", "fan = \"no\"");
    insta::assert_snapshot!(said(&text));
}
