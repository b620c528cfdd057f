//! Which kind of work a clause says.

mod verbs;

use crate::measure::read::sentence::Token;
use verbs::{BEFORE_VERBS, GOES_IN, THINGS_TOO, VERBS};

/// A kind of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Act {
    /// Yeast into warm liquid, and waiting for it.
    Wake,
    /// Something warmed in a pan.
    Heat,
    /// Mixing and kneading.
    Mix,
    /// Standing: rest, rise, chill, proof.
    Rest,
    /// Folding a dough.
    Fold,
    /// Dividing it.
    Divide,
    /// Shaping, and laying into the tin.
    Shape,
    /// Brushing, scattering, small work.
    Finish,
    /// Heating the oven.
    Preheat,
    /// Baking.
    Bake,
    /// Cooling.
    Cool,
}

/// Whether a word is a verb of the kitchen in the form of an order.
pub fn is_verb(word: &str) -> bool {
    VERBS.binary_search_by(|(verb, _)| verb.cmp(&word)).is_ok()
}

/// Whether a line begins like an order: "Gently fold", "In a bowl, whisk".
pub fn begins_with_order(all: &[Token]) -> bool {
    let first = all
        .iter()
        .find(|t| !t.word().is_empty())
        .map_or("", Token::word);
    let order = matches!(
        first,
        "cover"
            | "let"
            | "allow"
            | "repeat"
            | "meanwhile"
            | "using"
            | "start"
            | "begin"
            | "make"
            | "take"
            | "check"
            | "give"
            | "serve"
            | "enjoy"
            | "keep"
            | "drain"
            | "soak"
            | "activate"
            | "attach"
            | "break"
            | "crack"
            | "separate"
            | "reduce"
            | "lower"
            | "rotate"
            | "return"
            | "scrape"
            | "swap"
            | "store"
            | "toast"
            | "unmold"
            | "wrap"
    );
    if order || is_verb(first) {
        return true;
    }
    // A place or time before the order ends in a comma.
    let opens = matches!(
        first,
        "in" | "on"
            | "with"
            | "after"
            | "once"
            | "when"
            | "while"
            | "if"
            | "as"
            | "the"
            | "next"
            | "to"
            | "for"
            | "at"
            | "meanwhile"
            | "using"
            | "before"
            | "gently"
            | "now"
            | "then"
    );
    opens
        && all.iter().take(22).enumerate().any(|(index, token)| {
            (token.is(',') || index == 0) && all.get(index + 1).is_some_and(|t| is_verb(t.word()))
        })
}

/// What the words of a clause say, and whether its first words are an order.
pub fn act(all: &[Token]) -> Option<Act> {
    let words: Vec<&str> = all.iter().map(Token::word).collect();
    let has = |word: &str| words.contains(&word);
    let any = |list: &[&str]| list.iter().any(|word| words.contains(word));
    let pair = |one: &str, two: &str| words.windows(2).any(|w| w == [one, two]);
    // "To make the dough: heat the milk": the order stands behind the colon.
    let label = all
        .iter()
        .take(7)
        .position(|token| token.is(':'))
        .map_or(0, |at| at + 1);
    let verb = first_verb(&words[label..])
        .or_else(|| first_verb(&words))
        .filter(|_| !only_names(&words));
    let oven =
        has("oven") && !pair("oven", "tray") && !pair("oven", "mitt") && !pair("oven", "gloves");
    let lowered = any(&["lower", "reduce", "drop", "decrease"])
        || pair("turn", "down")
        || pair("heat", "down");
    if any(&["preheat", "preheating"]) || pair("pre", "heat") {
        return Some(Act::Preheat);
    }
    if has("bake") || (lowered && (oven || any(&["temperature", "heat", "gas"]))) {
        return Some(Act::Bake);
    }
    if oven
        && (any(&["heat", "set", "light", "warm"])
            || pair("turn", "the")
            || pair("turn", "on")
            || pair("switch", "on"))
    {
        let into = any(&["into", "in"]) && any(&["put", "place", "slide"]);
        if !into {
            return Some(Act::Preheat);
        }
    }
    if oven
        && any(&["minute", "minutes", "min", "mins", "hour", "hours"])
        && !any(&["rise", "rest", "prove", "proof"])
    {
        return Some(Act::Bake);
    }
    if pair("stretch", "and") && has("fold")
        || pair("set", "of") && any(&["folds", "fold"])
        || pair("fold", "once")
        || pair("fold", "it") && has("itself")
        || any(&["folds"])
        || verb == Some(Act::Shape)
            && pair("fold", "the")
            && has("dough")
            && !any(&["three", "letter", "half", "filling"])
    {
        return Some(Act::Fold);
    }
    let stands = any(&[
        "rise",
        "rises",
        "rising",
        "proof",
        "prove",
        "proofing",
        "refrigerate",
        "chill",
        "ferment",
        "overnight",
        "fridge",
        "refrigerator",
    ]) || (has("rest") && !pair("the", "rest") && !pair("rest", "of"))
        || has("stand") && !pair("stand", "mixer")
        || has("wait")
        || (any(&["double", "doubled", "twice"]) && !pair("twice", "over"))
        || pair("set", "aside")
        || has("set") && any(&["fire", "stove", "hearth"])
        || pair("walk", "away")
        || (has("leave") && !pair("leave", "out"))
        || pair("come", "up");
    let cools =
        (any(&["cool", "cooling", "cooled"]) && !pair("cool", "place") && !pair("cool", "room"))
            || (has("rack") && !has("oven") && any(&["wire", "cooling", "cool"]));
    if stands
        && (verb != Some(Act::Mix)
            || any(&[
                "rise",
                "rest",
                "overnight",
                "stand",
                "prove",
                "proof",
                "leave",
                "refrigerate",
                "chill",
                "wait",
                "fridge",
                "refrigerator",
            ]))
    {
        return Some(if cools && !any(&["rise", "rest"]) {
            Act::Cool
        } else {
            Act::Rest
        });
    }
    if cools && !matches!(verb, Some(Act::Mix)) {
        return Some(Act::Cool);
    }
    let pieces = any(&[
        "pieces", "portions", "parts", "strips", "balls", "equal", "rolls", "halves", "half",
        "quarters", "ropes", "strands", "thirds", "buns", "loaves", "rounds", "squares", "plaits",
        "braids",
    ]) || words.len() > 1
        && all.windows(2).any(|w| {
            matches!(w[0].word(), "into" | "in")
                && matches!(w[1].what, crate::measure::read::sentence::What::Number(_))
        })
        || all.windows(2).any(|w| {
            matches!(w[0].word(), "into" | "in")
                && matches!(
                    w[1].word(),
                    "two" | "three" | "four" | "five" | "six" | "eight" | "ten" | "twelve"
                )
        })
        || words.len() > 1
            && all.windows(2).any(|w| {
                matches!(w[0].word(), "cut")
                    && matches!(w[1].what, crate::measure::read::sentence::What::Number(_))
            });
    // "Make it up into two loaves", "make twelve balls".
    if words.first() == Some(&"make") && pieces && !any(&["dent", "hole", "well"]) {
        return Some(Act::Shape);
    }
    if has("divide") || has("portion") || (any(&["cut", "split", "separate"]) && pieces) {
        return Some(Act::Divide);
    }
    if matches!(verb, Some(Act::Shape))
        && any(&["mix", "combine", "whisk", "stir", "knead", "beat"])
        && !any(&["tin", "pan", "tray", "sheet", "shape", "roll"])
    {
        return Some(Act::Mix);
    }
    let out = any(&["tip", "turn", "pour", "scrape"]) && has("dough") && any(&["out", "onto"]);
    if out && !any(&["knead", "mix", "stir"]) {
        return Some(Act::Shape);
    }
    let flame = has("heat") && (has("over") || has("on"));
    if flame && !oven && matches!(verb, Some(Act::Mix) | None) {
        return Some(Act::Heat);
    }
    // "Beat the topping ingredients to a paste": what goes on top is no dough.
    let mixes = verb == Some(Act::Mix)
        || verb.is_none() && any(&["mix", "stir", "whisk", "combine", "beat"]);
    let on_top = any(&["topping", "toppings", "glaze", "frosting", "streusel"])
        || has("icing") && !pair("icing", "sugar");
    if mixes && on_top && !any(&["dough", "flour", "yeast", "knead"]) {
        return Some(Act::Finish);
    }
    // Knocking on the crust is listening to it; knocking back is work on the dough.
    let verb = verb.filter(|_| !has("knock") || any(&["back", "down", "air", "gas"]));
    if let Some(act) = verb {
        let said = if act == Act::Divide { Act::Finish } else { act };
        // "Put the flour in a bowl" is mixing.
        let goes_in = act == Act::Shape
            && any(&["put", "place", "pop"])
            && any(&[
                "bowl",
                "mixer",
                "flour",
                "yeast",
                "milk",
                "water",
                "ingredients",
            ]);
        return Some(if goes_in { Act::Mix } else { said });
    }
    if any(&[
        "knead", "mix", "stir", "whisk", "combine", "beat", "kneading", "mixing",
    ]) {
        return Some(Act::Mix);
    }
    if any(&["shape", "plait", "braid", "ropes", "roll", "form"]) {
        return Some(Act::Shape);
    }
    if any(&["brush", "sprinkle", "glaze", "scatter", "slash", "coats"]) {
        return Some(Act::Finish);
    }
    // "Flour in the big bowl, salt round the edge": nothing is said but what goes in.
    let goes_in = words.iter().filter(|word| GOES_IN.contains(word)).count();
    (goes_in >= 2).then_some(Act::Mix)
}

/// Whether a clause is a thing of a list and no order: "oil", "cream and eggs".
fn only_names(words: &[&str]) -> bool {
    let plain: Vec<&&str> = words
        .iter()
        .filter(|word| !word.is_empty() && **word != "and")
        .collect();
    plain.len() <= 2 && matches!(plain.first(), Some(&&("oil" | "cream" | "ice" | "glaze")))
        || plain.first().is_some_and(|word| THINGS_TOO.contains(word))
            && plain
                .get(1)
                .is_some_and(|next| matches!(**next, "of" | "and" | "flour" | "salt" | "eggs"))
}

/// The verb that a clause begins with, past the words that may stand before it.
fn first_verb(words: &[&str]) -> Option<Act> {
    let mut past_words = 0;
    for word in words {
        if word.is_empty() {
            continue;
        }
        if let Ok(place) = VERBS.binary_search_by(|(verb, _)| verb.cmp(word)) {
            return Some(VERBS[place].1);
        }
        past_words += 1;
        if !BEFORE_VERBS.contains(word) || past_words > 5 {
            return None;
        }
    }
    None
}

/// Whether a clause begins with an order, so that it may stand alone.
pub fn stands_alone(all: &[Token]) -> bool {
    let words: Vec<&str> = all
        .iter()
        .map(Token::word)
        .filter(|w| !w.is_empty())
        .collect();
    first_verb(&words).is_some() && !only_names(&words)
        || matches!(
            words.iter().find(|word| !matches!(**word, "and" | "then")),
            Some(&"cover" | &"let" | &"lower" | &"reduce")
        )
}

#[cfg(test)]
mod tests {
    use super::{Act, VERBS, act};
    use crate::measure::read::sentence::tokens;

    #[test]
    fn the_verbs_are_in_order() {
        assert!(VERBS.windows(2).all(|pair| pair[0].0 < pair[1].0));
    }

    #[test]
    fn a_clause_says_what_is_done() {
        for (clause, wanted) in [
            ("Warm the milk to 37 °C", Act::Heat),
            ("stir over a low heat until it thickens", Act::Heat),
            ("Cover and let rise for 1 hour.", Act::Rest),
            ("Cover the bowl and leave it for 30 minutes.", Act::Rest),
            (
                "Cloth over it, by the stove, until twice as big.",
                Act::Rest,
            ),
            ("Heat the oven to 225 °C.", Act::Preheat),
            ("turn the oven on to 180 °C.", Act::Preheat),
            (
                "Bake in the middle of the oven for 8–10 minutes.",
                Act::Bake,
            ),
            (
                "Oven 180 degrees, 35 to 40 minutes, middle shelf.",
                Act::Bake,
            ),
            ("Let them cool under a cloth on a rack.", Act::Cool),
            ("Divide the dough into 15 pieces", Act::Divide),
            ("Divide in 6.", Act::Divide),
            ("Cut 24 strips", Act::Divide),
            ("twist each one", Act::Shape),
            ("Fold once after 45 min.", Act::Fold),
            ("Knead a quarter of an hour.", Act::Mix),
            ("Line a large oven tray.", Act::Finish),
            ("Beat the topping ingredients to a paste", Act::Finish),
            ("Whisk the glaze until smooth.", Act::Finish),
            ("Stir in the flour and the icing sugar", Act::Mix),
            (
                "Put it, well covered, into the refrigerator for 12 to 16 hours.",
                Act::Rest,
            ),
        ] {
            assert_eq!(act(&tokens(clause)), Some(wanted), "{clause}");
        }
    }
}
