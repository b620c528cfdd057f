//! The tin of a text: its name and size where they are said, one that fits where they are not.

use super::sheet::quoted;
use super::usual::SMALL_G;
use crate::document::model::TinSize;
use crate::measure::read::read_tin_size;
use crate::measure::read::sentence::{Token, What, tokens};
use numerics::decimal::trimmed;
use numerics::quantity::Length;

/// A tin as the file writes it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tin {
    /// Its table, as TOML.
    pub table: String,
    /// Whether it is a tray.
    pub flat: bool,
    /// What of it is assumed.
    pub assumed: Option<String>,
}

/// Loaf tins by size: millilitres to the brim (household charts of home tins; no standard).
const LOAF_TINS: [(&str, f64); 3] = [
    ("16 x 11 x 7 cm", 900.0),
    ("21.6 x 11.4 x 6.4 cm", 1420.0),
    ("22.9 x 12.7 x 7.6 cm", 1893.0),
];

/// Millilitres of open tin for a gram of dough, in the middle of what is usual (the bands table).
const ML_FOR_G: f64 = 2.2;

/// What bread is baked in or on.
const VESSELS: &[&str] = &[
    "tin",
    "tins",
    "pan",
    "pans",
    "tray",
    "trays",
    "sheet",
    "sheets",
    "stone",
    "dish",
    "mould",
    "moulds",
    "mold",
    "molds",
    "springform",
    "basin",
    "casserole",
    "pot",
    "parchment",
    "baking",
    "skillet",
    "dutch",
    "cocotte",
    "cloche",
    "griddle",
    "peel",
];

/// Whether a sentence names something to bake in or on.
pub fn names_vessel(text: &str) -> bool {
    let all = tokens(text);
    all.iter().enumerate().any(|(index, token)| {
        VESSELS.contains(&token.word())
            && !(token.word() == "baking"
                && matches!(
                    all.get(index + 1).map_or("", Token::word),
                    "powder" | "soda" | "time" | "for" | ""
                ))
    })
}

/// The tin of the steps.
pub fn tin(sentences: &[&str], piece_g: Option<f64>, count: u32) -> Tin {
    let said = sentences
        .iter()
        .filter(|text| names_vessel(text))
        .find_map(|text| sized(text));
    let all = sentences.join(" ").to_lowercase();
    let material = if all.contains("glass") {
        "glass"
    } else if all.contains("stoneware") || all.contains("ceramic") || all.contains("earthenware") {
        "stoneware"
    } else {
        "light metal"
    };
    if let Some((name, size, flat)) = said {
        if let Some((whole, holds)) = household(&name, &size) {
            return Tin {
                table: table(&name, whole, Some(holds), material),
                flat,
                assumed: Some(format!(
                    "depth and {} mL, as household charts have a tin of that length and width.",
                    trimmed(holds, 0)
                )),
            };
        }
        return Tin {
            table: table(&name, &size, None, material),
            flat,
            assumed: None,
        };
    }
    let round = sentences.iter().find_map(|text| across(text));
    if let Some((name, size)) = round {
        return Tin {
            table: table(name, &size, None, material),
            flat: false,
            assumed: Some("its depth, 5 cm / 2 in, as most cake tins have.".to_owned()),
        };
    }
    let loaf = count <= 4
        && piece_g.is_none_or(|g| g >= SMALL_G)
        && [
            "loaf tin",
            "loaf pan",
            "bread tin",
            "bread pan",
            "the tin",
            "a tin",
            "loaf tins",
            "loaf pans",
            "the pan",
            "lb tin",
            "pound tin",
        ]
        .iter()
        .any(|words| all.contains(words));
    if loaf {
        let wanted = piece_g.map_or(1420.0, |grams| grams * ML_FOR_G);
        let nearest = LOAF_TINS
            .iter()
            .min_by(|a, b| (a.1 - wanted).abs().total_cmp(&(b.1 - wanted).abs()));
        let (size, holds) = nearest.copied().unwrap_or(LOAF_TINS[1]);
        return Tin {
            table: table("loaf tin", size, Some(holds), material),
            flat: false,
            assumed: Some(format!(
                "a loaf tin of {size}, {} mL, the nearest to the dough of one piece.",
                trimmed(holds, 0)
            )),
        };
    }
    Tin {
        table: table("lined tray", "40 x 30 cm", None, material),
        flat: true,
        assumed: Some("a lined tray of 40 x 30 cm, as fits most ovens.".to_owned()),
    }
}

/// The loaf tin of the charts that has the length and width of one whose depth is not said.
fn household(name: &str, size: &str) -> Option<(&'static str, f64)> {
    let Ok(TinSize::Tray { length, width }) = read_tin_size(size) else {
        return None;
    };
    let near = |one: Length, other: Length| (one.si() / other.si() - 1.0).abs() < 0.04;
    LOAF_TINS
        .into_iter()
        .filter(|_| name == "loaf tin")
        .find(|(whole, _)| {
            matches!(read_tin_size(whole), Ok(TinSize::Box { length: long, width: wide, .. })
            if near(long, length) && near(wide, width))
        })
}

fn table(name: &str, size: &str, holds: Option<f64>, material: &str) -> String {
    let holds = holds.map_or_else(String::new, |ml| {
        format!(", holds = \"{} mL\"", trimmed(ml, 0))
    });
    format!(
        "{{ name = {}, size = {}{holds}, material = {} }}",
        quoted(name),
        quoted(size),
        quoted(material)
    )
}

/// A tin told by one measure, with its name and its whole size: "greased 8\" cake pans" are round, "a 9-inch square
/// tin" is as long as it is wide. Cake tins are 5 cm deep (household charts).
fn across(text: &str) -> Option<(&'static str, String)> {
    let all = tokens(text);
    (0..all.len()).find_map(|at| {
        let What::Number(value) = all[at].what else {
            return None;
        };
        let mut after = all[at + 1..].iter().filter(|token| !token.is_dash());
        let unit = after.next()?;
        let (unit, scale, deep) = match (&unit.what, unit.word()) {
            (_, "cm" | "centimetre" | "centimeter") => ("cm", 1.0, "5 cm"),
            (_, "inch" | "inches" | "in") | (What::Mark('"' | '″' | '”'), _) => {
                ("in", 2.54, "2 in")
            }
            _ => return None,
        };
        let words: Vec<&str> = after.take(4).map(Token::word).collect();
        let vessel = words.iter().position(|word| {
            matches!(
                *word,
                "pan" | "pans" | "tin" | "tins" | "springform" | "mould" | "moulds"
            )
        })?;
        let between = &words[..vessel];
        let fits = |word: &&str| {
            matches!(
                *word,
                "round" | "cake" | "square" | "metal" | "deep" | "greased" | ""
            )
        };
        let number = trimmed(value, 1);
        if !between.iter().all(fits) || !(12.0..=36.0).contains(&(value * scale)) {
            return None;
        }
        let name = if words[vessel].starts_with("pan") {
            "cake pan"
        } else {
            "cake tin"
        };
        Some(if between.contains(&"square") {
            (name, format!("{number} x {number} x {deep}"))
        } else {
            let deep = deep.split(' ').next().unwrap_or(deep);
            (name, format!("Ø {number} x {deep} {unit}"))
        })
    })
}

/// A tin with its size: "9 x 13-inch metal pan", "a tin of 30 x 40 cm".
fn sized(text: &str) -> Option<(String, String, bool)> {
    let all = tokens(text);
    let near = |at: usize| {
        let from = at.saturating_sub(5);
        all[from..(at + 12).min(all.len())]
            .iter()
            .map(Token::word)
            .find(|word| VESSELS.contains(word) && *word != "baking")
            .map(str::to_owned)
    };
    (0..all.len()).find_map(|at| {
        let mut sides = Vec::new();
        let mut next = at;
        while let What::Number(value) = all.get(next)?.what {
            sides.push(value);
            next += 1;
            // "9-by-13-inch", "9 x 13 in", "23cm x 13cm".
            let mut ahead = next;
            while all.get(ahead).is_some_and(|t| {
                t.is_dash()
                    || matches!(t.word(), "cm" | "inch" | "inches" | "in")
                    || t.is('"')
                    || t.is('″')
                    || t.is('”')
            }) && ahead < next + 2
            {
                ahead += 1;
            }
            let joins = all
                .get(ahead)
                .is_some_and(|t| matches!(t.word(), "x" | "by") || t.is('×'));
            if !joins || sides.len() == 3 {
                break;
            }
            next = ahead + 1;
            while all.get(next).is_some_and(Token::is_dash) {
                next += 1;
            }
        }
        if sides.len() < 2 || !sides.iter().all(|side| (1.0..=200.0).contains(side)) {
            return None;
        }
        let unit =
            all[next.min(all.len())..]
                .iter()
                .take(2)
                .find_map(|t| match (&t.what, t.word()) {
                    (_, "cm" | "centimetre" | "centimeter") => Some("cm"),
                    (_, "mm") => Some("mm"),
                    (_, "inch" | "inches" | "in") | (What::Mark('"' | '″' | '”'), _) => {
                        Some("in")
                    }
                    _ => None,
                })?;
        let vessel = near(at)?;
        let numbers: Vec<String> = sides.iter().map(|side| trimmed(*side, 1)).collect();
        let size = format!("{} {unit}", numbers.join(" x "));
        read_tin_size(&size).ok()?;
        let name = match vessel.as_str() {
            "tin" | "tins" | "pan" | "pans" if text.to_lowercase().contains("loaf") => "loaf tin",
            "pan" | "pans" => "pan",
            "tray" | "trays" | "sheet" | "sheets" => "tray",
            "tin" | "tins" => "tin",
            _ => "dish",
        };
        Some((name.to_owned(), size, name == "tray"))
    })
}

#[cfg(test)]
mod tests {
    use super::{across, household, sized};

    #[test]
    fn a_cake_tin_is_told_by_one_measure() {
        let size = |text| across(text).map(|(_, size)| size);
        assert_eq!(
            size("put each in a greased 8\" cake pan").as_deref(),
            Some("Ø 8 x 2 in")
        );
        assert_eq!(size("two 20 cm round tins").as_deref(), Some("Ø 20 x 5 cm"));
        assert_eq!(size("a 9-inch square pan").as_deref(), Some("9 x 9 x 2 in"));
        assert_eq!(size("a 9-inch loaf pan"), None);
        assert_eq!(size("roll it 30 cm long, in a tin"), None);
        assert_eq!(size("cut 2-inch pieces into the pan"), None);
    }

    #[test]
    fn a_loaf_tin_without_its_depth_is_the_usual_one() {
        assert_eq!(
            household("loaf tin", "9 x 5 in"),
            Some(("22.9 x 12.7 x 7.6 cm", 1893.0))
        );
        assert_eq!(household("loaf tin", "12 x 4 in"), None);
        assert_eq!(household("pan", "9 x 5 in"), None);
    }

    #[test]
    fn a_size_beside_a_tin_is_its_size() {
        let size = |text| sized(text).map(|(_, size, _)| size);
        assert_eq!(
            size("Grease a 9 x 13-inch metal pan.").as_deref(),
            Some("9 x 13 in")
        );
        assert_eq!(
            size("pour oil into a tin of 30 x 40 cm").as_deref(),
            Some("30 x 40 cm")
        );
        assert_eq!(size("a 9x5-inch loaf pan").as_deref(), Some("9 x 5 in"));
        assert_eq!(size("Roll the dough out to 60 x 40 cm"), None);
    }
}
