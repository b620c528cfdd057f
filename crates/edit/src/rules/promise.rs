//! Whether the recipe keeps what its title or film promises: a time, and tools it does without.
//!
//! A promise of time counts from the first step of the day of the bake. Without a night that is
//! the whole recipe. With a night a promise may mean either: when the whole fits, it is kept;
//! when only the day fits, it is kept for a reader who was told of the evening before.

use super::route::steps;
use super::{Case, Rule};
use crate::code;
use crate::ledger::say;
use numerics::quantity::Duration;
use recipe::document::model::{Action, Recipe, Standing, Step, Tool};
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[time, tools];

/// Words by which a reader is told that the work begins before the day of the bake.
const WORDS_OF_A_NIGHT: [&str; 5] = [
    "night",
    "evening",
    "day before",
    "the day ahead",
    "two days",
];

fn time(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let Some(within) = recipe
        .promise
        .as_ref()
        .and_then(|promise| promise.within.as_ref())
    else {
        return Vec::new();
    };
    let elapsed = &case.heard.elapsed;
    let (promised, total, day) = (within.value, elapsed.total, elapsed.on_the_day);
    let night = elapsed.day_before > Duration::ZERO;
    let say = say::duration;
    let sum = format!(
        "The written times, laid end to end with one pair of hands and one oven, come to {}.",
        say(total)
    );
    let slow = elapsed.total_range.high;
    if total <= Duration::ZERO {
        return Vec::new();
    }
    if total <= promised {
        if slow <= promised || night {
            return Vec::new();
        }
        return vec![
            Diagnostic::at(
                code::PROMISE_TIGHT,
                within.span,
                format!(
                    "The promise of {} is kept by the usual times, {}; by the slow end of the \
                     written ranges it takes {}, which is {} more than promised.",
                    say(promised),
                    say(total),
                    say(slow),
                    say(slow - promised)
                ),
            )
            .hint(format!(
                "Promise {}, or say that a cold kitchen takes up to {}.",
                say(rounded_up(slow)),
                say(slow)
            ))
            .because(sum),
        ];
    }
    if night && day <= promised {
        if tells_of_a_night(recipe) {
            return Vec::new();
        }
        return vec![
            Diagnostic::at(
                code::PROMISE_LEAVES_OUT_THE_NIGHT,
                within.span,
                format!(
                    "The promise of {} holds on the day of the bake ({}), but the work begins \
                     before: from the first step it is {}. Neither title nor headnote says so.",
                    say(promised),
                    say(day),
                    say(total)
                ),
            )
            .hint("Say in the headnote that it is begun the evening before.")
            .because(sum),
        ];
    }
    let came_to = if night {
        format!(
            "{} on the day of the bake and {} from the first step",
            say(day),
            say(total)
        )
    } else {
        format!(
            "{} from the first step until the last piece is cool",
            say(total)
        )
    };
    let over = if night { day } else { total };
    let mut finding = Diagnostic::at(
        code::PROMISE_NOT_KEPT,
        within.span,
        format!(
            "The recipe promises {} and takes {came_to}: {} more.",
            say(promised),
            say(over - promised)
        ),
    )
    .hint(format!("Promise {}.", say(rounded_up(over))))
    .hint(format!(
        "Or save {}: the longest waits are marked.",
        say(over - promised)
    ))
    .because(sum);
    for (step, length) in longest_waits(recipe, night) {
        finding = finding.label(step.span, format!("waits {}", say(length)));
    }
    vec![finding]
}

/// The next half hour.
fn rounded_up(duration: Duration) -> Duration {
    Duration::from_minutes((duration.minutes() / 30.0 - 1e-9).ceil() * 30.0)
}

fn tells_of_a_night(recipe: &Recipe) -> bool {
    let film = recipe.film.as_ref().and_then(|film| film.title.as_ref());
    let told: String = [Some(&recipe.title), recipe.headnote.as_ref(), film]
        .into_iter()
        .flatten()
        .map(|text| text.value.to_lowercase() + "\n")
        .collect();
    WORDS_OF_A_NIGHT.iter().any(|word| told.contains(word))
}

/// The two longest waits; those that are slept through do not count when there is a night.
fn longest_waits(recipe: &Recipe, night: bool) -> Vec<(&Step, Duration)> {
    let mut waits: Vec<_> = steps(recipe)
        .filter_map(|step| match &step.action {
            Action::Rest { timing, .. } | Action::Cool { timing, .. } => {
                Some((step, timing.usual.value))
            }
            _ => None,
        })
        .filter(|(_, length)| !night || *length < plan::elapsed::OVERNIGHT)
        .collect();
    waits.sort_by(|a, b| b.1.order(a.1));
    waits.truncate(2);
    waits
}

fn tools(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let Some(promise) = &recipe.promise else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for tool in &promise.without {
        let word = tool.value.trim().to_lowercase();
        let Some(needs) = need(&word) else {
            found.push(
                Diagnostic::at(
                    code::PROMISE_NOT_CHECKED,
                    tool.span,
                    format!("Nothing in the steps shows whether they do without “{word}”."),
                )
                .hint(
                    "What can be checked: mixer, kneading, thermometer, refrigerator, warm \
                     place, steam, tin.",
                ),
            );
            continue;
        };
        let mut using = steps(recipe)
            .filter(|step| needs(step))
            .map(|step| step.span)
            .chain(recipe.products.iter().filter_map(|product| {
                let tin = product
                    .tin
                    .as_ref()
                    .filter(|tin| word == "tin" && tin.holds.is_some());
                tin.map(|tin| tin.span)
            }));
        let Some(first) = using.next() else { continue };
        let mut finding = Diagnostic::at(
            code::PROMISED_TOOL_NEEDED,
            tool.span,
            format!("The recipe promises to do without {word}, and a step needs it."),
        )
        .label(first, format!("needs {word}"))
        .hint(format!(
            "Write the step so that it does without {word}, or drop the promise."
        ));
        for span in using {
            finding = finding.label(span, format!("needs {word}"));
        }
        found.push(finding);
    }
    found
}

/// Whether a step needs a tool; none for a tool that steps do not tell about.
fn need(tool: &str) -> Option<fn(&Step) -> bool> {
    Some(match tool {
        "mixer" | "stand mixer" => {
            |step| matches!(&step.action, Action::Mix { by, .. } if by.value == Tool::Mixer)
        }
        "kneading" | "hand" => {
            |step| matches!(&step.action, Action::Mix { by, .. } if by.value == Tool::Hand)
        }
        "thermometer" | "probe" => needs_thermometer,
        "refrigerator" | "fridge" => {
            |step| matches!(&step.action, Action::Rest { place, .. } if place.value == Standing::Refrigerator)
        }
        "warm place" => {
            |step| matches!(&step.action, Action::Rest { place, .. } if place.value == Standing::WarmPlace)
        }
        "steam" => |step| match &step.action {
            Action::Bake { phases, .. } => phases
                .iter()
                .any(|phase| phase.steam.as_ref().is_some_and(|steam| steam.value)),
            _ => false,
        },
        "tin" => |_| false,
        _ => return None,
    })
}

/// A step of which only a temperature tells the end.
fn needs_thermometer(step: &Step) -> bool {
    let Some(until) = &step.until else {
        return matches!(&step.action, Action::Bake { core: Some(_), .. });
    };
    let measured = until.core.is_some() || until.dough.is_some();
    measured && until.see.is_none() && until.volume.is_none() && until.height.is_none()
}
