//! What has happened, as a place on the recipe's road: "it comes out", "the last rise is over", "the butter's in".

use super::facts::{COMMON, Sort};
use super::heard::Heard;
use super::points::{
    ADDS, COLD_PLACES, END, HALF, NEARLY, Point, SOON, has, is_cold, is_rest, is_rise, main_stage,
    mixing, points, run, stems, uses,
};
use super::speech::{Word, stem};
use super::things::Sort as Of;
use recipe::document::model::Action;
use recipe::measure::spoken::Meant;

/// What happens in some words, as points: in the words of a kitchen, by the time that it took, or by the recipe's own sign.
pub(super) fn event(heard: &Heard, first: usize, end: usize) -> Vec<Point> {
    let told = in_kitchen_words(heard, first, end);
    if !told.is_empty() {
        return told;
    }
    let took = by_time(heard, first, end);
    if !took.is_empty() {
        return took;
    }
    by_sign(heard, first, end)
}

/// Where the talk has come to in some words.
fn here(heard: &Heard, first: usize) -> usize {
    heard.walk[heard.speech.words[first].clause].0
}

/// "It's had its two hours", "the eighty minutes are up": the end of the step near by that takes so long.
fn by_time(heard: &Heard, first: usize, end: usize) -> Vec<Point> {
    let words = &heard.speech.words;
    // "When the loaf has five minutes to go".
    if is_baked(heard, first)
        && heard.speech.figures.iter().any(|figure| {
            figure.first >= first && figure.end <= end && figure.counts_down(&heard.speech)
        })
    {
        return points(heard, NEARLY, |place| {
            matches!(place.step.action, Action::Bake { .. })
        });
    }
    let told = heard
        .speech
        .figures
        .iter()
        .filter(|figure| figure.first >= first && figure.end <= end)
        .find_map(|figure| match figure.spoken.meant {
            Meant::Time(range) => Some((figure, range)),
            _ => None,
        });
    let Some((figure, range)) = told else {
        return Vec::new();
    };
    let before = &words[first.max(figure.first.saturating_sub(OVER_WORDS))..figure.first];
    let behind = &words[figure.end..end.min(figure.end + OVER_WORDS)];
    let had = has(
        before,
        &[
            "had", "baked", "risen", "chilled", "rested", "going", "running", "mixed", "kneaded",
        ],
    );
    // "Forty minutes of its eighty"
    let part = behind.first().is_some_and(|word| word.lower == "of");
    let over = has(behind, &["up", "over", "gone", "done", "passed", "through"])
        && has(behind, &["are", "is", "have", "has", "later"]);
    if part || !had && !over {
        return Vec::new();
    }
    let here = here(heard, first);
    let nearest = heard
        .facts
        .iter()
        .filter(|fact| {
            let near = fact
                .step
                .is_some_and(|step| step.abs_diff(here) <= STEPS_OFF);
            let action = fact.step.map(|step| &heard.places[step].step.action);
            let waits = match action {
                Some(Action::Rest { .. } | Action::Mix { .. } | Action::Cool { .. }) => true,
                // A part of a bake is not its end.
                Some(Action::Bake { phases, .. }) => {
                    phases.len() == 1 || fact.what.starts_with("the whole")
                }
                _ => false,
            };
            fact.sort == Sort::Time
                && (!fact.only_allowed || fact.what.starts_with("the mixing"))
                && near
                && waits
                && range.low.si() <= fact.high * 1.05
                && range.high.si() >= fact.low * 0.95
        })
        .filter_map(|fact| fact.step)
        .min_by_key(|step| step.abs_diff(here));
    points(heard, END, |place| Some(place.number) == nearest)
}

/// What is over is told within so many words of its time.
const OVER_WORDS: usize = 4;

/// What has happened is of a step at most so many from where the talk has come to.
const STEPS_OFF: usize = 2;

/// Whether some words tell that something is over, and neither what is to be done nor how long it takes.
pub(super) fn is_over(heard: &Heard, first: usize, end: usize) -> bool {
    let words = &heard.speech.words[first..end];
    let is = words
        .iter()
        .any(|word| word.lower.ends_with("'s") && word.lower != "let's")
        || has(
            words,
            &[
                "they're", "they've", "is", "are", "has", "have", "we've", "you've", "i've", "had",
                "comes", "mixed",
            ],
        );
    let asks = has(
        words,
        &[
            "until", "till", "want", "should", "let", "when", "while", "if", "leave", "gets",
            "needs", "wants", "takes", "will", "it'll", "goes", "before", "next",
        ],
    );
    is && !asks && !crate::talk::heard::tells_to(&heard.speech, first, first)
}

/// "It's smooth", "they've puffed up": the end of the step near by whose own sign it is.
fn by_sign(heard: &Heard, first: usize, end: usize) -> Vec<Point> {
    let words = &heard.speech.words[first..end];
    let is = has(
        words,
        &[
            "it's", "is", "they're", "they've", "are", "looks", "dough's", "goes", "gone", "turned",
        ],
    );
    if !is {
        return Vec::new();
    }
    let here = here(heard, first);
    let seen = heard
        .places
        .iter()
        .filter(|place| place.number.abs_diff(here) <= STEPS_OFF)
        .filter(|place| {
            let see = place
                .step
                .until
                .as_ref()
                .and_then(|until| until.see.as_ref());
            see.is_some_and(|see| {
                see.value
                    .to_lowercase()
                    .split(|c: char| !c.is_alphabetic())
                    .filter(|own| {
                        own.len() > 3 && !COMMON.contains(own) && !UNTELLING.contains(own)
                    })
                    .map(stem)
                    .any(|own| words.iter().any(|word| word.stem == own))
            })
        })
        .min_by_key(|place| place.number.abs_diff(here))
        .map(|place| place.number);
    points(heard, END, |place| Some(place.number) == seen)
}

/// Words of a sign that stand in others, too.
const UNTELLING: [&str; 16] = [
    "dough", "slowly", "still", "when", "side", "sides", "bowl", "piece", "small", "enough",
    "hand", "warm", "through", "little", "middle", "butter",
];

/// Whether a rack is where the talk has come to, or the oven.
fn is_baked(heard: &Heard, first: usize) -> bool {
    let here = here(heard, first);
    heard
        .places
        .get(here)
        .is_some_and(|place| matches!(place.step.action, Action::Bake { .. } | Action::Cool { .. }))
}

fn in_kitchen_words(heard: &Heard, first: usize, end: usize) -> Vec<Point> {
    let words = &heard.speech.words[first..end];
    let bakes = |share| {
        points(heard, share, |p| {
            matches!(p.step.action, Action::Bake { .. })
        })
    };
    if super::lit::stands_in_it(heard, first, end) {
        return bakes(0.0);
    }
    // "In the morning", "when you take it out in the morning": after the night of a dough.
    if has(words, &["morning"]) {
        return points(heard, END, |place| {
            matches!(&place.step.action, Action::Rest { timing, .. }
                if timing.usual.value >= plan::elapsed::OVERNIGHT)
        });
    }
    // "Halfway through", of what the talk has come to.
    if has(words, &["halfway", "midway"]) {
        let here = here(heard, first);
        return points(heard, HALF, |place| {
            place.number == here
                && matches!(place.step.action, Action::Bake { .. } | Action::Rest { .. })
        });
    }
    // "Until the crust has some colour"
    if has(words, &["crust", "crust's", "colour", "color", "skin"])
        && has(
            words,
            &["colour", "color", "brown", "golden", "set", "see", "formed"],
        )
        && is_baked(heard, first)
    {
        return bakes(HALF);
    }
    // "The second lot of folding"
    if stems(words, &["fold"]) && has(words, &["done", "after", "second", "last"]) {
        return points(heard, -HALF, |place| {
            matches!(place.step.action, Action::Fold { .. })
        });
    }
    if run(words, &["of", "mixing"]) || run(words, &["of", "the", "mix"]) {
        let main = main_stage(heard);
        let mut all = points(heard, END, |place| {
            place.section == main && matches!(place.step.action, Action::Mix { .. })
        });
        return all.pop().into_iter().collect();
    }
    let cold = has(words, &COLD_PLACES);
    let oven = has(words, &["oven", "bake", "baking", "baked"]);
    if cold {
        let out = has(words, &["out", "comes", "come", "chilled"]);
        return points(heard, if out { END } else { 0.0 }, is_cold);
    }
    if run(words, &["end", "of", "the", "bake"])
        || run(words, &["end", "of", "baking"])
        || run(words, &["end", "of", "the", "baking"])
    {
        return bakes(END);
    }
    // "When the steam pan comes out"
    if has(words, &["pan", "water", "steam"])
        && has(words, &["out", "removed", "gone"])
        && is_baked(heard, first)
    {
        return bakes(HALF);
    }
    let elsewhere = has(
        words,
        &[
            "bowl", "mixer", "machine", "mould", "mold", "pan", "beaker", "water",
        ],
    );
    let tin_alone = has(words, &["tin"]) && !oven;
    let out = run(words, &["comes", "out"])
        || run(words, &["come", "out"])
        || run(words, &["came", "out"])
        || run(words, &["it's", "out"])
        || run(words, &["is", "out"])
        || run(words, &["are", "out"])
        || run(words, &["they're", "out"])
        || run(words, &["out", "of", "the", "oven"])
        || run(words, &["on", "the", "rack"])
        || run(words, &["on", "its", "rack"])
        || words.windows(2).any(|two| {
            two[0].lower.ends_with("'s") && matches!(two[1].lower.as_str(), "baked" | "out")
        })
        || run(words, &["they've", "baked"])
        || run(words, &["it's", "been", "baked"])
        || run(words, &["they're", "baked"])
        || run(words, &["it's", "baked"])
        || run(words, &["is", "baked"])
        || run(words, &["finished", "baking"]);
    if out && !elsewhere && !tin_alone {
        return bakes(END);
    }
    // "While they're still hot"
    let warm = run(words, &["they're", "warm"]) || run(words, &["it's", "warm"]);
    if run(words, &["they're", "hot"])
        || run(words, &["it's", "hot"])
        || run(words, &["still", "hot"])
        || run(words, &["still", "warm"])
        || warm && is_baked(heard, first)
    {
        return bakes(END);
    }
    if has(words, &["door", "door's"]) && has(words, &["shut", "closed"]) {
        return bakes(SOON);
    }
    if run(words, &["been", "in", "the", "oven"])
        || run(words, &["in", "the", "oven", "for"])
        || run(words, &["been", "in", "for"])
        || run(words, &["has", "baked"])
        || run(words, &["have", "baked"])
        || run(words, &["been", "baking"])
    {
        return bakes(SOON);
    }
    if has(words, &["mixed", "kneaded"]) {
        let main = main_stage(heard);
        return points(heard, END, |place| {
            place.section == main && matches!(place.step.action, Action::Mix { .. })
        });
    }
    let named = heard
        .mentions_in(first, end)
        .iter()
        .find(|mention| heard.things[mention.things[0]].sort == Of::Ingredient);
    let in_oven = run(words, &["in", "the", "oven"]) || run(words, &["into", "the", "oven"]);
    let goes = has(
        words,
        &["goes", "go", "going", "put", "slide", "pop", "gone", "went"],
    ) && has(words, &["in"])
        && named.is_none();
    // "Before it ever sees the oven"
    let sees = has(words, &["oven"])
        && has(
            words,
            &[
                "sees", "see", "hits", "hit", "reaches", "near", "touches", "meets",
            ],
        );
    if (in_oven || goes || sees) && !elsewhere && !tin_alone {
        return bakes(0.0);
    }
    if has(words, &["mixer", "machine", "mixing"]) {
        return mixing(heard);
    }
    if let Some(mention) = named
        && has(
            words,
            &[
                "in",
                "gone",
                "disappeared",
                "vanished",
                "absorbed",
                "worked",
            ],
        )
    {
        // In which order the things of one step go in, the recipe does not say.
        return uses(heard, &mention.things, 0.0);
    }
    if let Some(mention) = named
        && has(words, &ADDS)
    {
        return uses(heard, &mention.things, 0.0);
    }
    // "Before it goes for its rise"
    if has(words, &["goes", "go", "starts", "begins", "start"])
        && has(words, &["rise", "rising", "prove", "proof", "proving"])
    {
        return points(heard, 0.0, is_rise);
    }
    if has(
        words,
        &[
            "risen", "grown", "swollen", "doubled", "proved", "proofed", "rise", "rises", "prove",
            "proof", "rising",
        ],
    ) || is_up(words)
    {
        let stages = heard.inputs.recipe.stages.len();
        return points(heard, END, |place| {
            (is_rise(place) || is_rest(place) && is_up(words))
                && if has(words, &["first", "bulk"]) {
                    place.section == main_stage(heard)
                } else {
                    !has(words, &["last", "final", "second"]) || place.section >= stages
                }
        });
    }
    // "Till it's had its first hour"
    if has(words, &["had"]) && has(words, &["hour", "half"]) {
        let main = main_stage(heard);
        return points(heard, 0.4, |place| place.section == main && is_rise(place));
    }
    // "Once it's had a rest"
    if has(words, &["rest", "rested"]) && has(words, &["had", "after", "rested"]) {
        return points(heard, END, is_rest);
    }
    // "When it's cool"
    if has(words, &["cool", "cold", "cooled"])
        && has(words, &["it's", "they're", "is", "are", "has", "have"])
    {
        let stages = heard.inputs.recipe.stages.len();
        return points(heard, END, |place| {
            place.section >= stages && matches!(place.step.action, Action::Cool { .. })
        });
    }
    if stems(words, &["chill"]) {
        return points(heard, END, is_cold);
    }
    if stems(words, &["shap", "plait", "braid", "tied"]) {
        return points(heard, END, |p| {
            matches!(p.step.action, Action::Shape { .. })
        });
    }
    if stems(words, &["divid"]) {
        return points(heard, END, |p| {
            matches!(p.step.action, Action::Divide { .. })
        });
    }
    Vec::new()
}

/// "They're all the way up", "it's right up", "a finger off the rim".
pub(super) fn is_up(words: &[Word]) -> bool {
    let up = words
        .iter()
        .position(|word| word.lower == "up")
        .is_some_and(|at| {
            let near = &words[at.saturating_sub(6)..at];
            has(near, &["it's", "they're", "they", "it", "is", "are"])
                && (at == words.len() - 1 || has(near, &["all", "right", "way", "fully"]))
        });
    up || has(words, &["rim"]) && has(words, &["below", "off", "under", "from", "short"])
}
