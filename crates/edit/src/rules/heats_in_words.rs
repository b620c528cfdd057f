//! Temperatures in the author's own words: both scales, signs, pairs that agree, dials that exist.

use super::heat::USUAL_FAHRENHEIT;
use super::{Case, Rule, merged};
use crate::code;
use crate::ledger::say;
use crate::prose::WordFigure;
use numerics::decimal::fixed;
use numerics::quantity::Temperature;
use recipe::document::model::{Action, Scales};
use recipe::measure::Quantity;
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[pairs, one_scale, signs, fahrenheit_as_celsius, odd_dials];

/// From here on a temperature is an oven's, below it a probe's.
const OVEN_C: f64 = 100.0;

/// The readings of a written temperature: each number with the scale that follows it.
fn readings(shown: &str) -> Vec<(f64, char)> {
    let mut found = Vec::new();
    let mut numbers: Vec<f64> = Vec::new();
    let letters: Vec<(usize, char)> = shown.char_indices().collect();
    let mut at = 0;
    while at < letters.len() {
        let (start, letter) = letters[at];
        if letter.is_ascii_digit() {
            let rest = &shown[start..];
            let end = rest
                .find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',')
                .unwrap_or(rest.len());
            let digits = rest[..end].trim_end_matches(['.', ',']).replace(',', ".");
            let minus = shown[..start].ends_with(['-', '−'])
                && !shown[..start]
                    .trim_end_matches(['-', '−'])
                    .ends_with(|c: char| c.is_ascii_digit());
            if let Ok(value) = digits.parse::<f64>() {
                numbers.push(if minus { -value } else { value });
            }
            at += end.max(1);
            continue;
        }
        let scale = match letter {
            'C' | 'c' | '℃' => Some('C'),
            'F' | 'f' | '℉' => Some('F'),
            _ => None,
        };
        let word = |c: Option<&(usize, char)>| c.is_some_and(|(_, c)| c.is_alphabetic());
        let named = shown[start..].to_lowercase();
        let alone = !word(letters.get(at + 1))
            || named.starts_with("celsius")
            || named.starts_with("fahrenheit")
            || named.starts_with("centigrade");
        let begins = at == 0 || !letters[at - 1].1.is_alphabetic() || letters[at - 1].1 == 'º';
        if let Some(scale) = scale.filter(|_| alone && begins) {
            found.extend(numbers.drain(..).map(|value| (value, scale)));
        }
        at += 1;
    }
    found
}

fn celsius((value, scale): (f64, char)) -> f64 {
    if scale == 'F' {
        Temperature::from_fahrenheit(value).celsius()
    } else {
        value
    }
}

/// Temperatures in words, each with its readings; marks and words for ovens have none.
fn heats<'a>(case: &'a Case) -> impl Iterator<Item = (&'a WordFigure, Vec<(f64, char)>)> {
    case.said
        .iter()
        .filter(|said| matches!(said.quantity, Quantity::Temperature(_)))
        .map(|said| (said, readings(&said.shown)))
}

fn pairs(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (said, readings) in heats(case) {
        let of = |scale: char| readings.iter().filter(move |one| one.1 == scale);
        let pairs = of('C').zip(of('F'));
        for (one, other) in pairs {
            let (in_c, in_f) = (one.0, other.0);
            let apart = (celsius(*other) - in_c).abs();
            // A dial goes by 5 °C or 25 °F; a probe reads to one degree, either way rounded.
            let allowed = if in_c >= OVEN_C { 5.1 } else { 1.1 };
            if apart <= allowed {
                continue;
            }
            let right = Temperature::from_celsius(in_c);
            found.push(
                Diagnostic::at(
                    code::SCALES_DISAGREE,
                    case.passages[said.passage].at(&said.part),
                    format!(
                        "{} °C is {} °F, not {} °F: the two are {} °C apart.",
                        fixed(in_c, 0),
                        fixed(right.fahrenheit(), 0),
                        fixed(in_f, 0),
                        fixed(apart, 0)
                    ),
                )
                .hint(format!("Write {}.", paired(right)))
                .hint(format!(
                    "Or, if °F is the one that was baked at, {}.",
                    paired(Temperature::from_fahrenheit(in_f))
                )),
            );
        }
    }
    found
}

/// Both scales as the ledger prints them.
fn paired(at: Temperature) -> String {
    if at.celsius() >= OVEN_C {
        say::oven(at)
    } else {
        say::temperature(at)
    }
}

/// The other scale alone, rounded as dials and probes are.
fn other_scale(celsius: f64, scale: char) -> String {
    let at = Temperature::from_celsius(celsius);
    let shown = paired(at).replace('\u{a0}', " ");
    let (in_c, in_f) = shown.split_once(" / ").unwrap_or((&shown, ""));
    if scale == 'C' { in_f } else { in_c }.to_owned()
}

fn one_scale(case: &Case) -> Vec<Diagnostic> {
    let house = case.inputs.recipe.house.scales();
    let mut found = Vec::new();
    for (said, readings) in heats(case) {
        let passage = &case.passages[said.passage];
        let span = passage.at(&said.part);
        let has = |scale: char| readings.iter().any(|one| one.1 == scale);
        let (celsius_said, fahrenheit_said) = (has('C'), has('F'));
        if !celsius_said && !fahrenheit_said {
            if said.shown.chars().any(|c| c.is_ascii_digit()) && !gas(&said.shown) {
                found.push(
                    Diagnostic::at(
                        code::HEAT_ON_ONE_SCALE,
                        span,
                        format!("“{}” does not say whether it is °C or °F.", said.shown),
                    )
                    .hint("Write both: \"180 °C / 350 °F\"."),
                );
            }
            continue;
        }
        let lacks = match house {
            Scales::Both => (!fahrenheit_said)
                .then_some('C')
                .or((!celsius_said).then_some('F')),
            Scales::Celsius => (!celsius_said).then_some('F'),
            Scales::Fahrenheit => (!fahrenheit_said).then_some('C'),
        };
        let Some(scale) = lacks else { continue };
        let missing = if scale == 'C' { "°F" } else { "°C" };
        let others: Vec<String> = readings
            .iter()
            .map(|one| other_scale(celsius(*one), scale))
            .collect();
        let range = match &others[..] {
            [low, high] => format!("{}–{high}", low.trim_end_matches([' ', '°', 'C', 'F'])),
            [one] => one.clone(),
            _ => continue,
        };
        let new = format!("{} / {range}", said.shown);
        let finding = Diagnostic::at(
            code::HEAT_ON_ONE_SCALE,
            span,
            format!(
                "“{}” stands without {missing}; a reader there has to reckon, or guesses.",
                said.shown
            ),
        )
        .hint(format!("Write \"{new}\"."))
        .hint("For readers of one country alone choose `scales` in [house].");
        found.push(match passage.changeable(case.inputs.written, &said.part) {
            Some(span) => finding.change(span, new),
            None => finding,
        });
    }
    merged(found, "here too")
}

fn gas(shown: &str) -> bool {
    let lower = shown.to_lowercase();
    lower.contains("gas") || lower.contains("mark")
}

/// "180C": a number and a letter.
fn signs(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (said, readings) in heats(case) {
        let lower = said.shown.to_lowercase();
        let signed = ['°', 'º', '˚', '℃', '℉']
            .iter()
            .any(|sign| said.shown.contains(*sign))
            || lower.contains("degree")
            || lower.contains("deg");
        if readings.is_empty() || signed {
            continue;
        }
        let passage = &case.passages[said.passage];
        let mut new = String::new();
        let letters: Vec<char> = said.shown.chars().collect();
        for (at, letter) in letters.iter().enumerate() {
            let unit = matches!(letter, 'C' | 'F' | 'c' | 'f')
                && letters.get(at + 1).is_none_or(|next| !next.is_alphabetic())
                && new.trim_end().ends_with(|c: char| c.is_ascii_digit());
            if unit {
                new.truncate(new.trim_end().len());
                new.push_str(" °");
                new.extend(letter.to_uppercase());
            } else {
                new.push(*letter);
            }
        }
        let finding = Diagnostic::at(
            code::DEGREE_SIGN_MISSING,
            passage.at(&said.part),
            format!(
                "“{}” has no degree sign; a C beside a number is a cup elsewhere.",
                said.shown
            ),
        )
        .hint(format!("Write \"{new}\"."));
        found.push(match passage.changeable(case.inputs.written, &said.part) {
            Some(span) => finding.change(span, new),
            None => finding,
        });
    }
    merged(found, "here too")
}

fn fahrenheit_as_celsius(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (said, readings) in heats(case) {
        let slip = readings.iter().find(|(value, scale)| {
            *scale == 'C'
                && USUAL_FAHRENHEIT
                    .iter()
                    .any(|usual| (usual - value).abs() < 0.5)
        });
        let Some((value, _)) = slip else { continue };
        let digits = fixed(*value, 0);
        found.push(
            Diagnostic::at(
                code::OVEN_LOOKS_LIKE_FAHRENHEIT,
                case.passages[said.passage].at(&said.part),
                format!(
                    "{digits} °C is hotter than a household oven; {digits} °F is an everyday setting."
                ),
            )
            .hint(format!(
                "Write \"{}\" if °F is meant.",
                say::oven(Temperature::from_fahrenheit(*value))
            )),
        );
    }
    found
}

/// A dial that no oven has: not by fives in °C and not by 25 in °F.
fn odd_dials(case: &Case) -> Vec<Diagnostic> {
    let mut found: Vec<Diagnostic> = Vec::new();
    let steps = case
        .inputs
        .recipe
        .products
        .iter()
        .flat_map(|product| &product.steps);
    for dial in steps.flat_map(|step| match &step.action {
        Action::Preheat { to, .. } => vec![to],
        Action::Bake { phases, .. } => phases.iter().map(|phase| &phase.at).collect(),
        _ => Vec::new(),
    }) {
        let by = |value: f64, step: f64| ((value / step).round() * step - value).abs() < 0.2;
        let (in_c, in_f) = (dial.value.celsius(), dial.value.fahrenheit());
        let said = found
            .iter()
            .any(|one| one.message.contains(&say::celsius_fine(dial.value)));
        if by(in_c, 5.0) || by(in_f, 25.0) || by(in_f, 5.0) && !by(in_c, 1.0) || said {
            continue;
        }
        let near = Temperature::from_celsius((in_c / 5.0).round() * 5.0);
        found.push(
            Diagnostic::at(
                code::OVEN_OFF_THE_DIAL,
                dial.span,
                format!(
                    "{} cannot be set: dials go by 5 °C or 25 °F.",
                    say::celsius_fine(dial.value)
                ),
            )
            .hint(format!("Write {}.", say::oven(near))),
        );
    }
    found
}

#[cfg(test)]
mod tests {
    use super::readings;

    #[test]
    fn each_number_has_the_scale_that_follows_it() {
        assert_eq!(readings("180 °C / 350 °F"), [(180.0, 'C'), (350.0, 'F')]);
        assert_eq!(readings("25-26 °C"), [(25.0, 'C'), (26.0, 'C')]);
        assert_eq!(readings("-18 °C"), [(-18.0, 'C')]);
        assert_eq!(readings("375 degrees F"), [(375.0, 'F')]);
        assert_eq!(readings("gas mark 4"), []);
    }
}
