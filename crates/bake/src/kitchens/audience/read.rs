//! An audience from its file: every figure in the unit of its variable, and everything that cannot be.

use super::{Audience, READY, Varied};
use crate::code;
use crate::kitchens::variable::{Unit, Variable};
use numerics::distribution::Distribution;
use recipe::document::model::{AudienceFile, Met, VariableEntry};
use recipe::document::read_audience_bytes;
use recipe::measure::Unread;
use recipe::measure::read::{Quantity, read_quantity, read_temperature_difference};
use recipe::provenance::{Had, Origin};
use recipe::source::{Checked, Diagnostic, Located, Span, near};

/// A ready audience by its name.
pub fn ready(name: &str) -> Option<Audience> {
    let (_, text) = READY.iter().find(|(known, _)| *known == name)?;
    let file = read_audience_bytes(text.as_bytes()).output?;
    audience(&file).output
}

/// The audience of a file; none when something in it cannot be. Where it says nothing of a variable, the
/// audience that it is `like` stands; when it is like none, home kitchens in general.
pub fn audience(file: &AudienceFile) -> Checked<Option<Audience>> {
    let mut said = Vec::new();
    let own_base = file.like.is_none() && file.name.value == FIRST;
    let mut variables: Vec<Option<Varied>> = vec![None; Variable::ALL.len()];
    if !own_base {
        let like = file.like.as_ref().map_or("common", |like| &like.value);
        match ready(like) {
            Some(base) => variables = base.variables.into_iter().map(Some).collect(),
            None => said.push(unknown_audience(file, like)),
        }
    }
    let mut seen: Vec<(Variable, Span)> = Vec::new();
    for entry in &file.variables {
        let Some(variable) = Variable::named(&entry.name.value) else {
            said.push(unknown_variable(&entry.name));
            continue;
        };
        if let Some((_, first)) = seen.iter().find(|(one, _)| *one == variable) {
            said.push(
                Diagnostic::at(
                    recipe::source::code::NAME_TWICE,
                    entry.name.span,
                    format!("`{}` stands here twice.", variable.key()),
                )
                .label(*first, "first here")
                .hint("Keep the one that is meant."),
            );
            continue;
        }
        seen.push((variable, entry.name.span));
        variables[variable.place()] = Some(varied(variable, entry, &mut said));
    }
    let whole: Option<Vec<Varied>> = variables.into_iter().collect();
    let made = whole.map(|variables| Audience {
        name: file.name.value.clone(),
        variables,
    });
    if let Some(made) = &made {
        said.extend(circles(made, file));
    }
    said.sort_by_key(|d| d.span.map_or(0, |span| span.start + 1));
    Checked {
        output: made.filter(|_| said.is_empty()),
        diagnostics: said,
    }
}

/// The audience that all others are like in the end.
const FIRST: &str = "Home kitchens";

/// What is to be said of a name that no ready audience has.
pub fn no_such_audience(name: &str) -> String {
    let known: Vec<&str> = READY.iter().map(|(name, _)| *name).collect();
    format!(
        "There is no audience “{name}”: there are {}.",
        known.join(", ")
    )
}

fn unknown_audience(file: &AudienceFile, like: &str) -> Diagnostic {
    let span = file.like.as_ref().map_or(file.name.span, |like| like.span);
    let said = Diagnostic::at(code::AUDIENCE_UNKNOWN, span, no_such_audience(like));
    match near(like, READY.iter().map(|(name, _)| *name)) {
        Some(meant) => said.hint(format!("Is “{meant}” meant?")),
        None => said.hint(
            "Take like out: what the file leaves open is then as in home kitchens in general.",
        ),
    }
}

fn unknown_variable(name: &Located<String>) -> Diagnostic {
    let said = Diagnostic::at(
        code::VARIABLE_UNKNOWN,
        name.span,
        format!(
            "Nothing that differs from kitchen to kitchen is called “{}” here.",
            name.value
        ),
    );
    match near(&name.value, Variable::ALL.iter().map(|one| one.key())) {
        Some(meant) => said.hint(format!("Is “{meant}” meant?")),
        None => said.hint(format!(
            "The names are {}.",
            Variable::ALL
                .iter()
                .map(|one| one.key())
                .collect::<Vec<_>>()
                .join(", ")
        )),
    }
}

fn varied(variable: Variable, entry: &VariableEntry, said: &mut Vec<Diagnostic>) -> Varied {
    let mut words = Vec::new();
    let before = said.len();
    let distribution = distribution(variable, &entry.is, &mut words, said);
    if said.len() == before && !distribution.can_be() {
        said.push(
            Diagnostic::at(
                code::VARIABLE_IMPOSSIBLE,
                entry.is.span,
                format!(
                    "What is said of `{}` leaves nothing to draw from: its ends are the wrong way round, its shares are not 100 % together, or its deviation is below nothing.",
                    variable.key()
                ),
            )
            .hint(format!("Write it as in {}.", variable.unit().example())),
        );
    }
    let had = Had::from_word(&entry.had.value).unwrap_or_else(|| {
        said.push(
            Diagnostic::at(
                recipe::source::code::WORD_UNKNOWN,
                entry.had.span,
                format!(
                    "`had` says how a figure was had; “{}” does not.",
                    entry.had.value
                ),
            )
            .hint("Write read, second-hand, memory, common practice or derived."),
        );
        Had::FromMemory
    });
    Varied {
        distribution,
        words,
        goes_with: goes_with(variable, entry, said),
        origin: Origin::new(entry.source.value.clone(), had),
    }
}

/// What a variable goes with; anything that cannot be is said.
fn goes_with(
    variable: Variable,
    entry: &VariableEntry,
    said: &mut Vec<Diagnostic>,
) -> Vec<(Variable, f64)> {
    let mut all = Vec::new();
    let mut squares = 0.0;
    for (name, by) in &entry.goes_with {
        let Some(other) = Variable::named(&name.value) else {
            said.push(unknown_variable(name));
            continue;
        };
        let closeness = match read_quantity(&by.value) {
            Ok(Quantity::Share(range)) => range.low.si(),
            Ok(_) => {
                said.push(together(
                    by.span,
                    format!(
                        "How closely `{}` goes with `{}` is a share.",
                        variable.key(),
                        other.key()
                    ),
                ));
                continue;
            }
            Err(unread) => {
                said.push(unreadable(&unread, by.span));
                continue;
            }
        };
        squares += closeness * closeness;
        if other == variable {
            said.push(together(
                name.span,
                format!("`{}` cannot go with itself.", variable.key()),
            ));
        } else if closeness.abs() > 1.0 {
            said.push(together(
                by.span,
                format!(
                    "`{}` cannot go with `{}` more closely than wholly: from -100 % to 100 %.",
                    variable.key(),
                    other.key()
                ),
            ));
        } else {
            all.push((other, closeness));
        }
    }
    if squares > 1.0 + 1e-9 && all.len() > 1 {
        said.push(together(
            entry.span,
            format!(
                "`{}` goes with several things so closely that nothing of its own is left: the squares of the shares are more than 100 % together.",
                variable.key()
            ),
        ));
        all.clear();
    }
    all
}

fn together(span: Span, message: String) -> Diagnostic {
    Diagnostic::at(code::VARIABLES_CANNOT_GO_TOGETHER, span, message)
        .hint("Write goes-with = { weighs = \"40 %\" }: 0 % is not at all, 100 % wholly, -100 % the other way round.")
}

/// Things that go with each other in a circle.
fn circles(made: &Audience, file: &AudienceFile) -> Vec<Diagnostic> {
    let leads_back = |from: Variable| {
        let mut seen = vec![from];
        let mut at = 0;
        while at < seen.len() {
            for (next, _) in &made.of(seen[at]).goes_with {
                if *next == from {
                    return true;
                }
                if !seen.contains(next) {
                    seen.push(*next);
                }
            }
            at += 1;
        }
        false
    };
    file.variables
        .iter()
        .filter_map(|entry| Some((entry, Variable::named(&entry.name.value)?)))
        .filter(|(_, variable)| leads_back(*variable))
        .map(|(entry, variable)| {
            together(
                entry.span,
                format!(
                    "`{}` goes with something that goes with `{}` again.",
                    variable.key(),
                    variable.key()
                ),
            )
        })
        .collect()
}

fn unreadable(unread: &Unread, span: Span) -> Diagnostic {
    let mut said = Diagnostic::at(unread.code, span, unread.message.clone());
    said.hints.extend(unread.hint.clone());
    said
}

/// How often each value is met. What cannot be read is said, and something stands in.
fn distribution(
    variable: Variable,
    met: &Met,
    words: &mut Vec<Option<usize>>,
    said: &mut Vec<Diagnostic>,
) -> Distribution {
    if let Some(several) = &met.one_of {
        let made = several
            .iter()
            .map(|one| {
                if one.one_of.is_some() {
                    said.push(impossible(
                        one.span,
                        "One of several kinds of kitchen is not of several kinds again.",
                    ));
                }
                let share = one
                    .get("share")
                    .map(|text| read(Unit::Share, text, false, said));
                if share.is_none() {
                    said.push(impossible(
                        one.span,
                        "One of several kinds of kitchen has no `share`.",
                    ));
                }
                let inner = distribution(variable, one, words, said);
                (share.unwrap_or(0.0), inner)
            })
            .collect();
        return Distribution::OneOf(made);
    }
    let unit = variable.unit();
    if let Some(word) = met.get("word") {
        let place = variable
            .choices()
            .iter()
            .position(|known| *known == word.value);
        if place.is_none() {
            let choices = variable.choices().join(", ");
            let choices = if choices.is_empty() {
                "none".to_owned()
            } else {
                choices
            };
            said.push(impossible(
                word.span,
                &format!(
                    "“{}” is no word of `{}`; its words are: {choices}.",
                    word.value,
                    variable.key()
                ),
            ));
        }
        words.push(place);
        return Distribution::Fixed(0.0);
    }
    words.push(None);
    let mut value =
        |key: &str, spread: bool| met.get(key).map(|text| read(unit, text, spread, said));
    let (from, to) = (value("from", false), value("to", false));
    let (middle, deviation) = (value("middle", false), value("deviation", true));
    let (mean, always) = (value("mean", false), value("always", false));
    let mut times = |key: &str| {
        met.get(key).map(|text| {
            if let Ok(Quantity::Multiple(times)) = read_quantity(&text.value) {
                return times;
            }
            said.push(impossible(
                text.span,
                &format!("`{key}` is written as in {key} = \"1.2 times\"."),
            ));
            1.0
        })
    };
    let (alpha, beta) = (times("alpha"), times("beta"));
    if unit == Unit::YesNo {
        return match met.get("yes") {
            Some(text) => Distribution::yes(read(Unit::Share, text, false, said)),
            None => lacks(variable, met, said),
        };
    }
    match (middle, deviation, from, to, mean, always, alpha, beta) {
        (Some(middle), Some(deviation), Some(low), Some(high), None, None, None, None) => {
            Distribution::Normal {
                middle,
                deviation,
                low,
                high,
            }
        }
        (None, None, Some(from), Some(to), None, None, Some(alpha), Some(beta)) => {
            Distribution::Beta {
                alpha,
                beta,
                from,
                to,
            }
        }
        (None, None, Some(low), Some(high), None, None, None, None) => {
            Distribution::Even { low, high }
        }
        (None, None, None, None, Some(mean), None, None, None) => {
            Distribution::Exponential { mean }
        }
        (None, None, None, None, None, Some(value), None, None) => Distribution::Fixed(value),
        _ => lacks(variable, met, said),
    }
}

fn impossible(span: Span, message: &str) -> Diagnostic {
    Diagnostic::at(code::VARIABLE_IMPOSSIBLE, span, message)
}

fn lacks(variable: Variable, met: &Met, said: &mut Vec<Diagnostic>) -> Distribution {
    said.push(
        impossible(
            met.span,
            &format!(
                "How often each value of `{}` is met cannot be told from this: yes; or always; or mean; or from and to; or middle, deviation, from and to; or alpha, beta, from and to; or one-of.",
                variable.key()
            ),
        )
        .hint(format!("Write it as in {}.", variable.unit().example())),
    );
    Distribution::Fixed(0.0)
}

/// A value in the unit of its variable; `spread`: how far values lie apart.
fn read(unit: Unit, text: &Located<String>, spread: bool, said: &mut Vec<Diagnostic>) -> f64 {
    let difference = unit == Unit::Kelvin || unit == Unit::Celsius && spread;
    let found = if difference {
        let words = text.value.trim();
        let (sign, size) = match words.strip_prefix(['-', '−']) {
            Some(rest) => (-1.0, rest),
            None => (1.0, words),
        };
        read_temperature_difference(size).map(|found| Some(sign * found.si()))
    } else {
        read_quantity(&text.value).map(|found| match (unit, found) {
            (Unit::Celsius, Quantity::Temperature(range)) => Some(range.low.celsius()),
            (Unit::Gram, Quantity::Mass(range)) => Some(range.low.grams()),
            (Unit::Metre, Quantity::Length(range)) => Some(range.low.si()),
            (Unit::Minute, Quantity::Time(range)) => Some(range.low.minutes()),
            (Unit::Share | Unit::YesNo, Quantity::Share(range)) => Some(range.low.si()),
            _ => None,
        })
    };
    match found {
        Ok(Some(value)) => value,
        Ok(None) => {
            said.push(
                Diagnostic::at(
                    recipe::source::code::UNIT_DOES_NOT_FIT,
                    text.span,
                    format!("“{}” is of another sort than wanted here.", text.value),
                )
                .hint(format!("Write it as in {}.", unit.example())),
            );
            0.0
        }
        Err(unread) => {
            said.push(unreadable(&unread, text.span));
            0.0
        }
    }
}
