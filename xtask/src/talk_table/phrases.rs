//! Phrases with what they mean, and how many are heard so.

use recipe::measure::spoken::{Meant, Spoken, spoken};
use std::collections::BTreeMap;
use std::path::Path;

/// A phrase that was not heard as it is meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Miss {
    /// The phrase.
    pub say: String,
    /// What it means.
    pub means: Vec<String>,
    /// What was heard.
    pub heard: Vec<String>,
}

/// How the phrases of one kind were heard.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Count {
    /// As they are meant.
    pub right: usize,
    /// All of them.
    pub all: usize,
}

/// Every kind with its count, and what was missed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// By kind, in alphabetical order.
    pub kinds: BTreeMap<String, Count>,
    /// Phrases that were heard otherwise.
    pub misses: Vec<Miss>,
}

/// Reads the phrases of a folder and counts.
///
/// # Errors
/// When the file cannot be read or has not its form.
pub fn score(folder: &Path) -> Result<Score, String> {
    let path = folder.join("phrases.toml");
    let text = std::fs::read_to_string(&path).map_err(|e| format!("{}: {e}", path.display()))?;
    let table: toml::Table = text
        .parse()
        .map_err(|e| format!("{}: {e}", path.display()))?;
    let mut score = Score::default();
    let phrases = table["phrase"].as_array().ok_or("no phrases")?;
    for phrase in phrases {
        let say = phrase["say"].as_str().ok_or("a phrase without words")?;
        let kind = phrase["kind"].as_str().ok_or("a phrase without kind")?;
        let means: Vec<String> = phrase["means"]
            .as_array()
            .ok_or("a phrase without meaning")?
            .iter()
            .filter_map(|one| one.as_str().map(str::to_owned))
            .collect();
        let heard = spoken(say);
        let right = means.len() == heard.len()
            && means
                .iter()
                .zip(&heard)
                .all(|(meant, heard)| meets(meant, heard));
        let count = score.kinds.entry(kind.to_owned()).or_default();
        count.all += 1;
        if right {
            count.right += 1;
        } else {
            score.misses.push(Miss {
                say: say.to_owned(),
                means,
                heard: heard.iter().map(|one| format!("{:?}", one.meant)).collect(),
            });
        }
    }
    Ok(score)
}

/// What a number of a unit is measured in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Sort {
    Mass,
    Volume,
    Kelvin,
    Degrees,
    Gas,
    Time,
    Length,
    Share,
    Times,
    Packets,
    Number,
}

/// The sort of a unit, and one of it as value: factor and offset.
fn unit(name: &str) -> Option<(Sort, f64, f64)> {
    const STICK_ML: f64 = 118.294_118_25;
    Some(match name {
        "g" => (Sort::Mass, 1e-3, 0.0),
        "kg" => (Sort::Mass, 1.0, 0.0),
        "mg" => (Sort::Mass, 1e-6, 0.0),
        "oz" => (Sort::Mass, 0.028_349_523_125, 0.0),
        "lb" => (Sort::Mass, 0.453_592_37, 0.0),
        "cup" => (Sort::Volume, 236.588_236_5, 0.0),
        "Tbsp" => (Sort::Volume, 14.786_764_781_25, 0.0),
        "tsp" => (Sort::Volume, 4.928_921_593_75, 0.0),
        "fl oz" => (Sort::Volume, 29.573_529_562_5, 0.0),
        "L" => (Sort::Volume, 1000.0, 0.0),
        "dL" => (Sort::Volume, 100.0, 0.0),
        "mL" => (Sort::Volume, 1.0, 0.0),
        "pint" => (Sort::Volume, 473.176_473, 0.0),
        "quart" => (Sort::Volume, 946.352_946, 0.0),
        "stick" => (Sort::Volume, STICK_ML, 0.0),
        "°C" => (Sort::Kelvin, 1.0, 273.15),
        "°F" => (Sort::Kelvin, 1.0 / 1.8, 459.67 / 1.8),
        "degree" => (Sort::Degrees, 1.0, 0.0),
        "gas" => (Sort::Gas, 1.0, 0.0),
        "s" => (Sort::Time, 1.0, 0.0),
        "min" => (Sort::Time, 60.0, 0.0),
        "h" => (Sort::Time, 3600.0, 0.0),
        "d" => (Sort::Time, 86_400.0, 0.0),
        "months" => (Sort::Time, 30.0 * 86_400.0, 0.0),
        "mm" => (Sort::Length, 1e-3, 0.0),
        "cm" => (Sort::Length, 1e-2, 0.0),
        "in" => (Sort::Length, 0.0254, 0.0),
        "%" => (Sort::Share, 0.01, 0.0),
        "times" => (Sort::Times, 1.0, 0.0),
        "packet" | "sachet" => (Sort::Packets, 1.0, 0.0),
        "" | "count" | "share" | "fan" | "medium" | "large" | "extra large" | "slice" | "pinch"
        | "clove" | "pod" => (Sort::Number, 1.0, 0.0),
        _ => return None,
    })
}

/// Numbers and the unit after them: "12..13 min", "gas 4", "9 x 5 in".
fn parts(text: &str) -> Option<(Vec<f64>, bool, Sort, f64, f64)> {
    let text = text.trim();
    if let Some(mark) = text.strip_prefix("gas ") {
        let (low, high) = ends(mark)?;
        return Some((vec![low, high], false, Sort::Gas, 1.0, 0.0));
    }
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ' ' | 'x' | '-')))
        .unwrap_or(text.len());
    let numbers = text[..end].trim();
    let (sort, factor, offset) = unit(text[end..].trim())?;
    if numbers.contains('x') {
        let sides: Option<Vec<f64>> = numbers
            .split('x')
            .map(|side| side.trim().parse().ok())
            .collect();
        return Some((sides?, true, sort, factor, offset));
    }
    let (low, high) = ends(numbers)?;
    Some((vec![low, high], false, sort, factor, offset))
}

fn ends(text: &str) -> Option<(f64, f64)> {
    match text.split_once("..") {
        Some((low, high)) => Some((low.trim().parse().ok()?, high.trim().parse().ok()?)),
        None => text.trim().parse().ok().map(|one| (one, one)),
    }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-3 * b.abs().max(1e-9)
}

/// Whether what was heard is what is meant.
fn meets(meant: &str, heard: &Spoken) -> bool {
    let meant = meant.strip_prefix("about ").unwrap_or(meant);
    let mut sum: Option<(f64, f64, Sort)> = None;
    for part in meant.split(" + ") {
        let Some((numbers, sides, sort, factor, offset)) = parts(part) else {
            return false;
        };
        if sides {
            let Meant::Sides(own, size) = &heard.meant else {
                return false;
            };
            let same =
                own.len() == numbers.len() && own.iter().zip(&numbers).all(|(a, b)| near(*a, *b));
            let unit = match sort {
                Sort::Length => size.is_some_and(|size| near(size, factor)),
                _ => size.is_none(),
            };
            return same && unit;
        }
        let (low, high) = (numbers[0] * factor + offset, numbers[1] * factor + offset);
        sum = Some(match sum {
            Some((a, b, own)) if own == sort => (a + low, b + high, sort),
            Some(_) => return false,
            None => (low, high, sort),
        });
    }
    let Some((low, high, sort)) = sum else {
        return false;
    };
    let own = match &heard.meant {
        Meant::Mass(r) => (Sort::Mass, r.low.si(), r.high.si()),
        Meant::Volume(r) => (Sort::Volume, r.low.millilitres(), r.high.millilitres()),
        Meant::Temperature(r) => (Sort::Kelvin, r.low.si(), r.high.si()),
        Meant::Degrees(low, high) => (Sort::Degrees, *low, *high),
        Meant::Gas(low, high) => (Sort::Gas, *low, *high),
        Meant::Time(r) => (Sort::Time, r.low.si(), r.high.si()),
        Meant::Length(r) => (Sort::Length, r.low.si(), r.high.si()),
        Meant::Share(r) => (Sort::Share, r.low.si(), r.high.si()),
        Meant::Times(low, high) => (Sort::Times, *low, *high),
        Meant::Packets(low, high) => (Sort::Packets, *low, *high),
        Meant::Number(low, high) => (Sort::Number, *low, *high),
        Meant::Sides(..) => return false,
    };
    // "180 fan" may be heard in degrees.
    let degrees = sort == Sort::Number && own.0 == Sort::Degrees;
    (own.0 == sort || degrees) && near(own.1, low) && near(own.2, high)
}
