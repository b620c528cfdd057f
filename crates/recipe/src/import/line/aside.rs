//! What a line says of a thing besides its name: what for, how freely, what instead.

use super::thing::Thing;
use super::words::place;

/// Words after which a line speaks of something else than the name.
const TURNS: &[&str] = &[
    " when ",
    " if ",
    " from ",
    " in ",
    " at ",
    " such as ",
    " like ",
    " preferably ",
    " as ",
    " with ",
    " without ",
    " into ",
    " that ",
    " because ",
    " about ",
    " plus ",
    " until ",
    " which ",
    " per ",
    " on ",
    " not ",
    " but ",
    " on top",
    " straight ",
];

/// Words that leave the amount to the cook.
const AT_WILL: &[&str] = &[
    "to taste",
    "optional",
    "as needed",
    "as required",
    "if needed",
    "if necessary",
    "if you like",
    "if liked",
    "if desired",
    "or more",
    "or so",
    "or to taste",
    "or as needed",
    "more if needed",
    "more as needed",
    "as desired",
    "as necessary",
];

pub(super) fn is_at_will(lower: &str) -> bool {
    AT_WILL.iter().any(|words| {
        lower == *words
            || lower.starts_with(&format!("{words} "))
            || lower.ends_with(&format!(" {words}"))
    })
}

/// Cuts "for dusting" off and keeps what it says.
pub(super) fn purpose_off(name: &str, thing: &mut Thing) -> String {
    let lower = name.to_ascii_lowercase();
    if lower.starts_with("for ") || lower.starts_with("to ") {
        purpose(name, thing);
        return String::new();
    }
    let verbs = [
        " to dust",
        " to glaze",
        " to brush",
        " to serve",
        " to finish",
        " to grease",
        " to sprinkle",
        " to decorate",
        " to line",
        " to roll",
        " to oil",
        " to scatter",
        " to top",
        " to garnish",
        " to flour",
        " to butter",
        " to drizzle",
        " to coat",
        " to knead",
        " to shape",
    ];
    let at = lower
        .find(" for ")
        .into_iter()
        .chain(verbs.iter().filter_map(|verb| lower.find(verb)))
        .min();
    let Some(at) = at else {
        return name.to_owned();
    };
    purpose(name[at..].trim(), thing);
    name[..at].trim().to_owned()
}

/// What a thing is for; its place is told apart once the thing is known.
pub(super) fn purpose(text: &str, thing: &mut Thing) {
    if thing.place.is_none() {
        thing.place = place(text, true);
    }
    thing.notes.push(text.trim().to_owned());
}

pub(super) fn at_will_off(name: &str, thing: &mut Thing) -> String {
    let lower = name.to_ascii_lowercase();
    for words in AT_WILL {
        if let Some(start) = lower.strip_suffix(words)
            && (start.is_empty() || start.ends_with(' '))
        {
            thing.at_will = true;
            thing.notes.push((*words).to_owned());
            let kept = name[..start.len()].trim_end();
            let kept = kept.trim_end_matches(" or");
            return kept.trim_end_matches(" plus").to_owned();
        }
    }
    name.to_owned()
}

/// Cuts off what is said of the thing after its name.
pub(super) fn turn_off(name: &str, thing: &mut Thing) -> String {
    let lower = name.to_ascii_lowercase();
    let Some(at) = TURNS.iter().filter_map(|turn| lower.find(turn)).min() else {
        return name.to_owned();
    };
    let said = name[at..].trim();
    if lower[at..].starts_with(" at room temp") {
        thing.state.get_or_insert_with(|| said.to_owned());
    } else {
        thing.notes.push(said.to_owned());
    }
    name[..at].trim().to_owned()
}

/// "olive oil or melted butter": the first is taken, the choice is said.
pub(super) fn choice_off(name: &str, thing: &mut Thing) -> String {
    let lower = name.to_ascii_lowercase();
    let found = [" or ", " and/or "]
        .iter()
        .filter_map(|word| lower.find(word).map(|at| (at, word.len())))
        .min();
    let slash = name.find('/').filter(|at| {
        let letter = |c: Option<char>| c.is_some_and(|c| c.is_alphabetic() || c == ' ');
        letter(name[..*at].chars().next_back()) && letter(name[at + 1..].chars().next())
    });
    let Some((at, length)) = found.or(slash.map(|at| (at, 1))) else {
        return name.to_owned();
    };
    thing.open = true;
    thing.notes.push(name[at..].trim().to_owned());
    // The right side keeps its last words for the left one: "light or dark brown sugar".
    let right = name[at + length..].trim();
    let left = name[..at].trim();
    right.clone_into(&mut thing.words);
    left.to_owned()
}
