//! The units of prose in all their spellings, and what one of each is in the tool's own words.

use super::{ends_word, prefix, spaces};
use crate::import::model::LineUnit::{
    self, Centilitre, Cup, Decilitre, FluidOunce, Gram, Kilogram, Litre, Milligram, Millilitre,
    Ounce, Pint, Pound, Quart, Tablespoon, Teaspoon, Thing,
};
use std::sync::LazyLock;

/// Spellings, the longer before the shorter where one begins the other; capitals do not matter.
const SPELLINGS: &[(&str, LineUnit)] = &[
    ("kilograms", Kilogram),
    ("kilogrammes", Kilogram),
    ("kilogramme", Kilogram),
    ("kilogram", Kilogram),
    ("kilos", Kilogram),
    ("kilo", Kilogram),
    ("kgs", Kilogram),
    ("kg", Kilogram),
    ("milligrams", Milligram),
    ("milligram", Milligram),
    ("mg", Milligram),
    ("grammes", Gram),
    ("gramme", Gram),
    ("grams", Gram),
    ("gram", Gram),
    ("gms", Gram),
    ("gm", Gram),
    ("grs", Gram),
    ("gr", Gram),
    ("gs", Gram),
    ("g", Gram),
    ("fluid ounces", FluidOunce),
    ("fluid ounce", FluidOunce),
    ("fluid oz", FluidOunce),
    ("fl. ounces", FluidOunce),
    ("fl ounces", FluidOunce),
    ("fl. oz", FluidOunce),
    ("fl.oz", FluidOunce),
    ("fl oz", FluidOunce),
    ("fl-oz", FluidOunce),
    ("floz", FluidOunce),
    ("ounces", Ounce),
    ("ounce", Ounce),
    ("ozs", Ounce),
    ("oz", Ounce),
    ("pounds", Pound),
    ("pound", Pound),
    ("lbs", Pound),
    ("lb", Pound),
    ("millilitres", Millilitre),
    ("millilitre", Millilitre),
    ("milliliters", Millilitre),
    ("milliliter", Millilitre),
    ("mls", Millilitre),
    ("ml", Millilitre),
    ("cc", Millilitre),
    ("centilitres", Centilitre),
    ("centilitre", Centilitre),
    ("centiliters", Centilitre),
    ("centiliter", Centilitre),
    ("cl", Centilitre),
    ("decilitres", Decilitre),
    ("decilitre", Decilitre),
    ("deciliters", Decilitre),
    ("deciliter", Decilitre),
    ("dl", Decilitre),
    ("litres", Litre),
    ("litre", Litre),
    ("liters", Litre),
    ("liter", Litre),
    ("ltrs", Litre),
    ("ltr", Litre),
    ("l", Litre),
    ("metric cups", Cup),
    ("metric cup", Cup),
    ("us cups", Cup),
    ("us cup", Cup),
    ("cupfuls", Cup),
    ("cupful", Cup),
    ("cups", Cup),
    ("cup", Cup),
    ("tablespoonfuls", Tablespoon),
    ("tablespoonful", Tablespoon),
    ("tablespoons", Tablespoon),
    ("tablespoon", Tablespoon),
    ("table spoons", Tablespoon),
    ("table spoon", Tablespoon),
    ("tbsps", Tablespoon),
    ("tbsp", Tablespoon),
    ("tblsps", Tablespoon),
    ("tblsp", Tablespoon),
    ("tbls", Tablespoon),
    ("tbs", Tablespoon),
    ("tbl", Tablespoon),
    ("tb", Tablespoon),
    ("teaspoonfuls", Teaspoon),
    ("teaspoonful", Teaspoon),
    ("teaspoons", Teaspoon),
    ("teaspoon", Teaspoon),
    ("tea spoons", Teaspoon),
    ("tea spoon", Teaspoon),
    ("tsps", Teaspoon),
    ("tsp", Teaspoon),
    ("teasp", Teaspoon),
    ("spoonfuls", Thing("spoon")),
    ("spoonful", Thing("spoon")),
    ("spoons", Thing("spoon")),
    ("spoon", Thing("spoon")),
    ("pints", Pint),
    ("pint", Pint),
    ("pts", Pint),
    ("pt", Pint),
    ("quarts", Quart),
    ("quart", Quart),
    ("qts", Quart),
    ("qt", Quart),
    ("gallons", Thing("gallon")),
    ("gallon", Thing("gallon")),
    ("dessertspoonfuls", Thing("dessertspoon")),
    ("dessertspoonful", Thing("dessertspoon")),
    ("dessertspoons", Thing("dessertspoon")),
    ("dessertspoon", Thing("dessertspoon")),
    ("dsp", Thing("dessertspoon")),
    ("gills", Thing("gill")),
    ("gill", Thing("gill")),
    ("teacups", Thing("teacup")),
    ("teacup", Thing("teacup")),
    ("extra-large", Thing("extra-large")),
    ("extra large", Thing("extra-large")),
    ("x-large", Thing("extra-large")),
    ("xl", Thing("extra-large")),
    ("large-sized", Thing("large")),
    ("large-size", Thing("large")),
    ("large", Thing("large")),
    ("lg.", Thing("large")),
    ("lg", Thing("large")),
    ("medium-sized", Thing("medium")),
    ("medium-size", Thing("medium")),
    ("medium sized", Thing("medium")),
    ("medium", Thing("medium")),
    ("med.", Thing("medium")),
    ("small", Thing("small")),
    ("jumbo", Thing("jumbo")),
    ("packets", Thing("packet")),
    ("packet", Thing("packet")),
    ("packages", Thing("packet")),
    ("package", Thing("packet")),
    ("packs", Thing("packet")),
    ("pack", Thing("packet")),
    ("pkts", Thing("packet")),
    ("pkt", Thing("packet")),
    ("pkgs", Thing("packet")),
    ("pkg", Thing("packet")),
    ("envelopes", Thing("packet")),
    ("envelope", Thing("packet")),
    ("sachets", Thing("packet")),
    ("sachet", Thing("packet")),
    ("sticks", Thing("stick")),
    ("stick", Thing("stick")),
    ("cans", Thing("can")),
    ("can", Thing("can")),
    ("tins", Thing("can")),
    ("tin", Thing("can")),
    ("jars", Thing("jar")),
    ("jar", Thing("jar")),
    ("tubs", Thing("tub")),
    ("tub", Thing("tub")),
    ("cartons", Thing("carton")),
    ("carton", Thing("carton")),
    ("containers", Thing("container")),
    ("container", Thing("container")),
    ("bottles", Thing("bottle")),
    ("bottle", Thing("bottle")),
    ("boxes", Thing("box")),
    ("box", Thing("box")),
    ("bags", Thing("bag")),
    ("bag", Thing("bag")),
    ("blocks", Thing("block")),
    ("block", Thing("block")),
    ("cubes", Thing("cube")),
    ("cube", Thing("cube")),
    ("bars", Thing("bar")),
    ("bar", Thing("bar")),
    ("balls", Thing("ball")),
    ("ball", Thing("ball")),
    ("knobs", Thing("knob")),
    ("knob", Thing("knob")),
    ("nobs", Thing("knob")),
    ("nob", Thing("knob")),
    ("pinches", Thing("pinch")),
    ("pinch", Thing("pinch")),
    ("dashes", Thing("dash")),
    ("dash", Thing("dash")),
    ("handfuls", Thing("handful")),
    ("handful", Thing("handful")),
    ("drops", Thing("drop")),
    ("drop", Thing("drop")),
    ("splashes", Thing("splash")),
    ("splash", Thing("splash")),
    ("drizzle", Thing("drizzle")),
    ("dollops", Thing("dollop")),
    ("dollop", Thing("dollop")),
    ("glugs", Thing("glug")),
    ("glug", Thing("glug")),
    ("squeeze", Thing("squeeze")),
    ("grind", Thing("grind")),
    ("grating", Thing("grating")),
    ("cloves", Thing("clove")),
    ("clove", Thing("clove")),
    ("slices", Thing("slice")),
    ("slice", Thing("slice")),
    ("rashers", Thing("slice")),
    ("rasher", Thing("slice")),
    ("leaves", Thing("leaf")),
    ("leaf", Thing("leaf")),
    ("pods", Thing("pod")),
    ("pod", Thing("pod")),
    ("sheets", Thing("sheet")),
    ("sheet", Thing("sheet")),
    ("sprigs", Thing("sprig")),
    ("sprig", Thing("sprig")),
    ("pieces", Thing("piece")),
    ("piece", Thing("piece")),
    ("bunches", Thing("bunch")),
    ("bunch", Thing("bunch")),
];

/// The same by their first letter, in the same order.
static BY_LETTER: LazyLock<[Vec<(&'static str, LineUnit)>; 26]> = LazyLock::new(|| {
    std::array::from_fn(|place| {
        SPELLINGS
            .iter()
            .filter(|(spelling, _)| usize::from(spelling.as_bytes()[0] - b'a') == place)
            .copied()
            .collect()
    })
});

/// The unit that a text begins with, and where it ends. A hyphen may join it: "14-oz can".
pub fn leading_unit(text: &str) -> Option<(LineUnit, usize)> {
    let mut start = spaces(text);
    let joined = text.starts_with(['-', '‐', '‑']);
    if joined {
        start = text.chars().next().map_or(0, char::len_utf8);
    }
    let rest = &text[start..];
    if let Some((unit, end)) = letter(rest) {
        return Some((unit, start + end));
    }
    let first = *rest.as_bytes().first()?;
    let of_letter = |(spelling, unit): &(&str, LineUnit)| {
        let end = prefix(rest, spelling)?;
        ends_word(&rest[end..]).then_some((*unit, end))
    };
    let (unit, end) = if first.is_ascii() {
        let place = usize::from(first.to_ascii_lowercase()).checked_sub(usize::from(b'a'))?;
        BY_LETTER.get(place)?.iter().find_map(of_letter)?
    } else {
        SPELLINGS.iter().find_map(of_letter)?
    };
    // "small-curd", "can-do": a hyphen after it makes another word of it, but "14-oz-can" does not.
    let after = &rest[end..];
    if after.starts_with('-') && matches!(unit, Thing(_)) {
        return None;
    }
    // The full stop of an abbreviation.
    let short = !matches!(unit, Thing(_));
    let stop = short && after.starts_with('.') && !after[1..].starts_with(char::is_alphanumeric);
    Some((unit, start + end + usize::from(stop)))
}

/// The units of one letter whose size matters: T is a tablespoon and t a teaspoon.
fn letter(rest: &str) -> Option<(LineUnit, usize)> {
    let unit = match rest.chars().next()? {
        'T' => Tablespoon,
        't' => Teaspoon,
        'c' | 'C' => Cup,
        _ => return None,
    };
    let after = &rest[1..];
    if !ends_word(after) || after.starts_with(['\'', '’', '-', '/']) {
        return None;
    }
    Some((unit, 1 + usize::from(after.starts_with('.'))))
}

/// Packs and tins that come in sizes.
pub(crate) const PACKS: &[&str] = &[
    "packet",
    "stick",
    "can",
    "jar",
    "tub",
    "carton",
    "container",
    "bottle",
    "box",
    "bag",
    "block",
    "cube",
    "bar",
    "ball",
    "piece",
    "knob",
    "slice",
    "sheet",
];

/// Whether a text begins with a unit of mass or volume and a pack after it: "g tins".
pub(super) fn size_of_pack(text: &str) -> bool {
    let Some((unit, end)) = leading_unit(text) else {
        return false;
    };
    let pack = leading_unit(&text[end..]);
    !matches!(unit, Thing(_)) && matches!(pack, Some((Thing(name), _)) if PACKS.contains(&name))
}

/// Whether a text begins with a unit of length: "9-inch".
pub fn is_length(text: &str) -> bool {
    let rest = text.trim_start_matches(|c: char| c.is_whitespace() || c == '-');
    rest.starts_with(['"', '″', '”'])
        || [
            "inches",
            "inch",
            "in",
            "cm",
            "mm",
            "centimetre",
            "centimeter",
        ]
        .iter()
        .any(|word| prefix(rest, word).is_some_and(|end| ends_word(&rest[end..])))
}
