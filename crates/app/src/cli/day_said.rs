//! What is found about a bake day as it is said: once for all breads that it is true of, and in a form's own words.

use edit::ledger::say::{self, duration};
use numerics::quantity::Duration;
use plan::day::{Day, Wanted};
use plan::shoot::code::HOLD_CHANGES_RISE;
use recipe::source::Diagnostic;

/// The fields of the form of a bake day that are flags of the command, by their names, with what they are called.
const FIELDS: [(&str, &str); 9] = [
    ("serve", "To be ready to eat"),
    ("out", "To come out of the oven"),
    ("from", "Nothing begins before"),
    ("zone", "Whose clock it is"),
    ("now", "What time it is"),
    ("done", "What is done"),
    ("dough", "What the dough read after its mix"),
    ("follows", "What ends a step"),
    ("seconds", "How long to look for a better plan, seconds"),
];

/// What a field of the form is called.
pub fn called(field: &str) -> &'static str {
    let own = FIELDS.iter().find(|(name, _)| *name == field);
    own.map_or("", |(_, label)| label)
}

/// Words that name flags of the command, with the fields of the form in their place.
pub fn in_a_form(words: &str) -> String {
    let words = words.replace(
        "(--follows clock)",
        "(“What ends a step”: the written time)",
    );
    FIELDS.iter().fold(words, |words, (name, label)| {
        words
            .replace(&format!("with --{name}"), &format!("under “{label}”"))
            .replace(&format!("--{name}"), &format!("“{label}”"))
    })
}

/// The findings of a day, each once.
pub fn once(found: Vec<Diagnostic>, day: Option<&Day>, batches: &[Wanted<'_>]) -> Vec<Diagnostic> {
    let mut all: Vec<Diagnostic> = Vec::new();
    let mut held = day.map(|day| after_holds(day, batches)).unwrap_or_default();
    for one in found {
        if one.code == HOLD_CHANGES_RISE && !held.is_empty() {
            // They stand together where the first of them stood.
            all.append(&mut held);
        } else if !(one.code == HOLD_CHANGES_RISE && all.iter().any(|other| other.code == one.code))
        {
            all.push(one);
        }
    }
    alike(all)
}

fn minutes(count: i32) -> String {
    duration(Duration::from_minutes(f64::from(count)))
}

/// What holds in the cold make of the rises after them: of all breads in one finding, of all rests in another.
fn after_holds(day: &Day, batches: &[Wanted<'_>]) -> Vec<Diagnostic> {
    let said = |who: String, sign: i32, usual: i32, held: i32| {
        format!(
            "{who} {}, not {} (after {} more in the cold)",
            minutes(sign),
            minutes(usual),
            minutes(held)
        )
    };
    let mut breads: Vec<String> = Vec::new();
    for one in day.replayed.iter().filter(|one| one.changed()) {
        let batch = &batches[one.batch];
        let name = &batch.recipe.products[one.product.0].name.value;
        let own = said(
            format!("{}, {name},", batch.label),
            one.sign,
            one.usual,
            one.held,
        );
        if !breads.contains(&own) {
            breads.push(own);
        }
    }
    let rests = day.between.iter().filter(|one| one.changed());
    let rests: Vec<String> = rests
        .map(|one| {
            let who = format!("{}, step {},", batches[one.batch].label, one.step + 1);
            said(who, one.sign, one.usual, one.held)
        })
        .collect();
    let finding = |what: &str, all: &[String], decides: &str| {
        (!all.is_empty()).then(|| {
            let more = "After more time in the refrigerator than its steps take there";
            Diagnostic::whole(
                HOLD_CHANGES_RISE,
                format!("{more} {what} takes otherwise here: {}.", all.join("; ")),
            )
            .hint(format!(
                "The plan goes by that; look at the dough, and let {decides} decide."
            ))
        })
    };
    [
        finding("the last rise", &breads, "the dent"),
        finding("a rest", &rests, "its sign"),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Findings that say the same of several breads, once with all their names.
fn alike(found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut all: Vec<(Vec<String>, Diagnostic)> = Vec::new();
    for one in found {
        let parted = one.message.split_once(": ").filter(|_| one.span.is_none());
        let Some((who, rest)) = parted else {
            all.push((Vec::new(), one));
            continue;
        };
        let same = all.iter_mut().find(|(names, other)| {
            let says = other.message.split_once(": ");
            !names.is_empty()
                && (other.code, &other.hints) == (one.code, &one.hints)
                && says.is_some_and(|(_, own)| own == rest)
        });
        match same {
            Some((names, _)) if names.iter().any(|name| name == who) => {}
            Some((names, _)) => names.push(who.to_owned()),
            None => all.push((vec![who.to_owned()], one)),
        }
    }
    all.into_iter()
        .map(|(names, mut one)| {
            if let ([_, _, ..], Some((_, rest))) = (&*names, one.message.split_once(": ")) {
                one.message = format!("{}: {rest}", say::list(&names));
            }
            one
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{alike, in_a_form};
    use plan::day::code::{TINS_NOT_THERE, WISHES_CONFLICT};
    use recipe::source::Diagnostic;

    #[test]
    fn what_is_true_of_several_breads_is_said_once() {
        let said =
            |message: &str| Diagnostic::whole(TINS_NOT_THERE, message).hint("Write how many.");
        let other = Diagnostic::whole(WISHES_CONFLICT, "knots: no tin is there.");
        let found = vec![
            said("braid: no tin is there."),
            other.clone(),
            said("buns: no tin is there."),
            said("rolls: two trays are there."),
            said("buns: no tin is there."),
        ];
        let told = alike(found);
        let messages: Vec<&str> = told.iter().map(|one| &*one.message).collect();
        assert_eq!(
            messages,
            [
                "braid and buns: no tin is there.",
                "knots: no tin is there.",
                "rolls: two trays are there."
            ]
        );
        assert_eq!(told[1], other);
    }

    #[test]
    fn a_form_is_spoken_of_by_its_fields() {
        assert_eq!(
            in_a_form("Let the day begin earlier with --from, or give the --from of that morning."),
            "Let the day begin earlier under “Nothing begins before”, or give the “Nothing begins before” of that morning."
        );
        assert_eq!(in_a_form("Give one of them up."), "Give one of them up.");
    }
}
