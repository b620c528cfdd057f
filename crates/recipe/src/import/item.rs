//! A reading as an item of the file: its name, its amount, what is to be decided.

use super::amounts::written;
use super::draft::Item;
use super::model::{Mark, Reading};
use super::work::degrees;
use crate::larder::{Larder, Role};
use crate::measure::read::sentence::heats;

/// An item as the file writes it.
pub fn item(reading: &Reading, larder: &Larder) -> Item {
    let take = reading.amount.as_ref().map(written).unwrap_or_default();
    let also = reading.also.as_ref().map(written).unwrap_or_default();
    let notes: Vec<String> = [take.note, also.note, reading.note.clone()]
        .into_iter()
        .flatten()
        .collect();
    // A mass is what is weighed; the kitchen measure beside it is printed.
    let weighs = |text: &Option<String>| {
        text.as_ref()
            .is_some_and(|text| crate::measure::read::read_mass(text).is_ok())
    };
    let (mut take, mut also) = (take.take, also.take);
    if take.is_none() || weighs(&also) && !weighs(&take) {
        std::mem::swap(&mut take, &mut also);
    }
    let is_heat = |note: &String| heat(reading, note, larder);
    let at = notes.iter().find_map(is_heat);
    let notes: Vec<String> = notes
        .into_iter()
        .filter(|note| is_heat(note).is_none())
        .collect();
    let fruit = fruit(reading, larder);
    if let (Some(fruit), Some(number)) = (fruit, take.as_ref())
        && number.chars().all(|c| c.is_ascii_digit() || c == '.')
    {
        take = Some(format!("{number} {fruit}"));
    }
    Item {
        of: name_for(reading, larder),
        key: reading.key.clone(),
        called: None,
        take,
        also,
        at,
        state: reading.state.clone(),
        note: (!notes.is_empty()).then(|| notes.join("; ")),
        place: reading.place,
        group: None,
        doubt: (reading.mark == Mark::Doubtful)
            .then(|| reading.reason.clone())
            .flatten(),
        said: reading.said.clone(),
        grams: reading
            .mass
            .map(|mass| f64::midpoint(mass.low.grams(), mass.high.grams())),
    }
}

/// How warm a liquid goes in, where a note says nothing else: "110 °F", "about 105 F".
fn heat(reading: &Reading, note: &str, larder: &Larder) -> Option<String> {
    let ingredient = larder.by_key(reading.key.as_ref()?)?;
    let all = heats(note);
    let [(said, _)] = &all[..] else { return None };
    let about = |words: &str| {
        let words = words.trim().trim_end_matches('.').to_lowercase();
        matches!(
            words.as_str(),
            "" | "about"
                | "at"
                | "around"
                | "approx"
                | "warmed to"
                | "warm"
                | "heated to"
                | "roughly"
                | "~"
        )
    };
    let alone = about(&note[..said.span.start]) && about(&note[said.span.end..]);
    let celsius = f64::midpoint(said.value.low.celsius(), said.value.high.celsius());
    (ingredient.role == Role::Liquid && alone && (0.0..=60.0).contains(&celsius))
        .then(|| degrees(celsius))
}

/// The fruit whose zest or juice a reading counts: "the zest of one orange" is of "1 orange".
fn fruit<'l>(reading: &Reading, larder: &'l Larder) -> Option<&'l str> {
    let ingredient = larder.by_key(reading.key.as_ref()?)?;
    let fruit = ["_zest", "_juice"]
        .iter()
        .find_map(|part| ingredient.key.strip_suffix(part))?;
    ingredient
        .by_count
        .iter()
        .any(|(word, ..)| word == fruit)
        .then_some(fruit)
}

/// The name under which the larder finds what the line means, the line's own words if they do.
fn name_for(reading: &Reading, larder: &Larder) -> String {
    let words = super::sheet::clean(&reading.words);
    let words = words
        .trim()
        .trim_matches([',', '.', ';', ':', '(', ')'])
        .trim();
    let Some(ingredient) = reading.key.as_ref().and_then(|key| larder.by_key(key)) else {
        return words.chars().take(80).collect::<String>().trim().to_owned();
    };
    let found = |name: &str| matches!(larder.known(name)[..], [one] if one.key == ingredient.key);
    [words]
        .into_iter()
        .chain(ingredient.names.iter().map(String::as_str))
        .chain([ingredient.name.as_str()])
        .find(|name| !name.is_empty() && found(name))
        .map_or_else(|| ingredient.key.clone(), str::to_owned)
}
