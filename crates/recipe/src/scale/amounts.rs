//! Multiplied amounts made such that a cook can measure them: grams a scale shows, whole packets.

use crate::document::model::{Amount, Item, Place, Spooned};
use crate::formula::{Resolved, ResolvedItem};
use crate::larder::{Ingredient, Role};
use crate::measure::{Measure, NoWeight, counted, mixed, weigh};
use crate::source::Located;
use numerics::decimal::{round_to, trimmed};
use numerics::quantity::Mass;

/// A mass as it is weighed out: kitchen scales show whole grams, fine ones tenths and hundredths.
pub fn weighable(mass: Mass) -> Mass {
    let grams = mass.grams();
    let step = match grams.abs() {
        g if g < 2.0 => 0.01,
        g if g < 20.0 => 0.1,
        g if g < 100.0 => 0.5,
        _ => 1.0,
    };
    let rounded = round_to(grams, step);
    // 0.1 x 3 in binary is not 0.3; the text shall read 0.3 g.
    let clean = numerics::decimal::fixed(rounded, 2)
        .parse()
        .unwrap_or(rounded);
    Mass::from_grams(if clean > 0.0 { clean } else { grams })
}

/// The same for bench, tin and top, where nobody weighs tenths.
fn outside(mass: Mass) -> Mass {
    let step = if mass.grams() < 5.0 { 0.5 } else { 1.0 };
    let rounded = round_to(mass.grams(), step);
    Mass::from_grams(if rounded > 0.0 { rounded } else { mass.grams() })
}

/// A piece as it is weighed out: whole grams, half grams below 20 g.
pub fn piece(mass: Mass) -> Mass {
    let step = if mass.grams() < 20.0 { 0.5 } else { 1.0 };
    let rounded = round_to(mass.grams(), step);
    if rounded > 0.0 {
        Mass::from_grams(rounded)
    } else {
        mass
    }
}

/// The ingredient of a resolved item.
pub fn ingredient(resolved: Option<&ResolvedItem>) -> Option<&Ingredient> {
    match &resolved?.what {
        Resolved::Ingredient(found) => Some(found),
        _ => None,
    }
}

/// The mass of an amount; a size that is not said is the usual one.
pub fn mass_of(ingredient: &Ingredient, amount: &Amount) -> Option<Mass> {
    match weigh(ingredient, amount) {
        Ok((mass, _)) | Err(NoWeight::SizeNotSaid { mass, .. }) => Some(mass),
        Err(_) => None,
    }
}

/// Makes an item's multiplied amounts measurable; eggs of a dough are left to their own rule.
pub fn settle(item: &mut Item, resolved: Option<&ResolvedItem>, said: &mut Vec<String>) {
    item.also = None;
    let name = item.called().to_owned();
    let besides = item.on.as_ref().map(|on| on.value);
    let found = ingredient(resolved);
    for amount in [&mut item.take, &mut item.each].into_iter().flatten() {
        settle_amount(amount, &name, found, besides, said);
    }
}

fn settle_amount(
    amount: &mut Located<Amount>,
    name: &str,
    found: Option<&Ingredient>,
    besides: Option<Place>,
    said: &mut Vec<String>,
) {
    let is_egg = found.is_some_and(|one| one.role == Role::Egg);
    let new = match &amount.value {
        Amount::Mass(mass) if besides.is_some() => Some(Amount::Mass(outside(*mass))),
        Amount::Mass(mass) => Some(Amount::Mass(weighable(*mass))),
        Amount::Measures(_) => settled_measures(&amount.value).or_else(|| {
            let mass = found.and_then(|one| mass_of(one, &amount.value));
            mass.map(|mass| Amount::Mass(weighable(mass)))
        }),
        Amount::Count { count, size } if is_whole(*count) => Some(Amount::Count {
            count: count.round(),
            size: size.clone(),
        }),
        Amount::Count { count, size } if is_egg && besides.is_some() => {
            let whole = count.round().max(1.0);
            said.push(format!(
                "{} for the {}: {}; in proportion it would be {}.",
                capital(name),
                besides.map_or("top", Place::word),
                in_words(whole, size.as_deref()),
                mixed_or_decimal(*count)
            ));
            Some(Amount::Count {
                count: whole,
                size: size.clone(),
            })
        }
        Amount::Count { .. } if is_egg => None,
        Amount::Count { count, size } => {
            let mass = found.and_then(|one| mass_of(one, &amount.value));
            mass.map(|mass| {
                let mass = weighable(mass);
                said.push(format!(
                    "{} would be {}; it is given as {} g.",
                    capital(name),
                    in_words(*count, size.as_deref()),
                    trimmed(mass.grams(), 2)
                ));
                Amount::Mass(mass)
            })
        }
    };
    if let Some(new) = new {
        amount.value = new;
    }
}

/// Measures that the measures' own marks can give, without binary dust; none when they cannot.
pub fn settled_measures(amount: &Amount) -> Option<Amount> {
    match amount {
        Amount::Measures(measures) if measures.iter().all(measurable) => {
            Some(Amount::Measures(measures.iter().map(clean).collect()))
        }
        _ => None,
    }
}

/// Whether a count is whole but for the last binary digits.
pub fn is_whole(count: f64) -> bool {
    (count - count.round()).abs() < 1e-6 && count.round() >= 1.0
}

/// "1½ large", "0.67 packets" in words for a sentence.
pub fn in_words(count: f64, size: Option<&str>) -> String {
    match size {
        Some(size) => counted_or_decimal(count, size),
        None => mixed_or_decimal(count),
    }
}

fn counted_or_decimal(count: f64, size: &str) -> String {
    if mixed(count).contains('.') {
        format!("{} {size}", trimmed(count, 2))
    } else {
        counted(count, size)
    }
}

fn mixed_or_decimal(count: f64) -> String {
    let text = mixed(count);
    if text.contains('.') {
        trimmed(count, 2)
    } else {
        text
    }
}

/// The parts that a measure is marked with.
fn marks(measure: Measure) -> &'static [f64] {
    match measure {
        Measure::Cup => &[0.0, 0.25, 1.0 / 3.0, 0.5, 2.0 / 3.0, 0.75],
        Measure::Teaspoon => &[0.0, 0.125, 0.25, 0.5, 0.75],
        _ => &[0.0, 0.5],
    }
}

/// Whether so many of a measure can be measured with the measure itself.
fn measurable(one: &Spooned) -> bool {
    let part = one.count - one.count.floor();
    one.count > 1e-6
        && marks(one.measure)
            .iter()
            .any(|mark| (mark - part).abs() < 1e-6 || part > 1.0 - 1e-6)
}

/// The count without what binary multiplication left behind.
fn clean(one: &Spooned) -> Spooned {
    let whole = one.count.floor();
    let part = one.count - whole;
    let near = marks(one.measure)
        .iter()
        .copied()
        .chain([1.0])
        .min_by(|a, b| (a - part).abs().total_cmp(&(b - part).abs()))
        .unwrap_or(part);
    Spooned {
        count: whole + near,
        measure: one.measure,
    }
}

/// The sentence's first letter made large.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grams_are_such_as_a_scale_shows() {
        let shown = |grams: f64| weighable(Mass::from_grams(grams)).grams();
        for (grams, weighed) in [
            (0.267, 0.27),
            (5.4666, 5.5),
            (17.31, 17.3),
            (66.6, 66.5),
            (233.5, 234.0),
            (1047.2, 1047.0),
        ] {
            assert!(
                (shown(grams) - weighed).abs() < 1e-9,
                "{grams}: {}",
                shown(grams)
            );
        }
        assert!(shown(0.001) > 0.0);
    }

    #[test]
    fn measures_with_marks_stay_measures() {
        let of = |count, measure| Spooned { count, measure };
        assert!(measurable(&of(0.75, Measure::Cup)));
        assert!(!measurable(&of(0.875, Measure::Cup)));
        assert!(measurable(&of(3.0 * 0.5, Measure::Tablespoon)));
        assert!(!measurable(&of(0.6, Measure::Teaspoon)));
    }
}
