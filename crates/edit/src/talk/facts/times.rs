//! How long: rises, mixes, bakes, waits, and what is to be done beforehand.

use super::{Fact, Place, Sort, doing_there, in_words, of_section, rises};
use crate::Inputs;
use crate::ledger::say;
use crate::talk::doing::Doing;
use numerics::quantity::{Duration, Range};
use plan::elapsed::{OVERNIGHT, elapsed};
use recipe::document::model::{Action, Standing, Timing};
use recipe::measure::spoken::Meant;

/// Every time that can be said.
pub(super) fn times(inputs: &Inputs, places: &[Place]) -> Vec<Fact> {
    let mut all = Vec::new();
    for place in places {
        all.extend(of_step(place));
        all.extend(in_sentence(place));
    }
    all.extend(wholes(inputs));
    all.extend(stored(inputs));
    all
}

/// A written time as a fact.
fn timed(timing: &Timing, what: String) -> Fact {
    let usual = timing.usual.value;
    let range = timing.range.as_ref().map(|range| range.value);
    let shown = match range {
        Some(range) => format!("{} ({})", say::duration(usual), say::duration_range(range)),
        None => say::duration(usual),
    };
    let Range { low, high } = range.unwrap_or(Range {
        low: usual,
        high: usual,
    });
    Fact::new(Sort::Time, usual.si(), what, shown).between(low.si(), high.si())
}

/// A time without a range.
fn lone(time: Duration, what: String) -> Fact {
    Fact::new(Sort::Time, time.si(), what, say::duration(time))
}

/// Of a step.
fn of_step(place: &Place) -> Vec<Fact> {
    let of = of_section(place.of);
    let mut all = Vec::new();
    match &place.step.action {
        Action::Ready {
            before,
            timing,
            what,
        } => {
            let names: Vec<String> = what.iter().map(|name| name.value.clone()).collect();
            let what = format!("{} out of the refrigerator", say::list(&names));
            all.push(
                lone(before.value, what)
                    .at(place, Doing::READY)
                    .with("before ahead out"),
            );
            all.push(
                timed(timing, "the handwork".to_owned())
                    .at(place, Doing::READY)
                    .allowed(),
            );
        }
        Action::Wake { timing, .. } => {
            all.push(timed(timing, format!("waking the yeast {of}")).at(place, Doing::WAKE));
        }
        Action::Mix { phases, .. } => {
            for phase in phases {
                let speed = phase.speed.value.word();
                let what = format!("mixing at {speed} speed {of}");
                all.push(timed(&phase.timing, what).at(place, Doing::MIX).with(speed));
            }
            if phases.len() > 1 {
                let sum: f64 = phases
                    .iter()
                    .map(|phase| phase.timing.usual.value.si())
                    .sum();
                let what = format!("the mixing {of}");
                all.push(
                    lone(Duration::from_si(sum), what)
                        .at(place, Doing::MIX)
                        .allowed(),
                );
            }
        }
        Action::Heat { timing, .. } => {
            all.push(timed(timing, format!("the cooking {of}")).at(place, Doing::HEAT));
        }
        Action::Rest {
            timing,
            place: where_,
            vessel,
            covered,
            ..
        } => {
            let rises = rises(place);
            let what = if where_.value == Standing::Refrigerator {
                "the chill"
            } else if timing.usual.value >= OVERNIGHT {
                "the night’s rest"
            } else if rises {
                "the rise"
            } else {
                "the rest"
            };
            let mut fact = timed(timing, format!("{what} {of}")).at(place, place.doing);
            if timing.usual.value >= OVERNIGHT {
                fact = fact.with("overnight night evening");
            }
            if rises {
                fact = fact.with("rise doubled");
            }
            fact = fact.with(&vessel.value);
            if let Some(covered) = covered {
                fact = fact.with(&covered.value);
            }
            fact = fact.with(match where_.value {
                Standing::Room => "room counter kitchen",
                Standing::Refrigerator => "fridge",
                Standing::WarmPlace => "warm toasty",
                Standing::CoolPlace => "cool cellar pantry",
            });
            all.push(fact);
        }
        Action::Fold { timing, into_rest } => {
            all.push(
                timed(timing, format!("the folding {of}"))
                    .at(place, Doing::FOLD)
                    .allowed(),
            );
            for into in into_rest {
                all.push(
                    lone(into.value, format!("the fold {of}, into the rise"))
                        .at(place, Doing::FOLD)
                        .with("fold after into"),
                );
            }
        }
        Action::Divide { timing, .. } | Action::Shape { timing } | Action::Finish { timing } => {
            all.push(
                timed(timing, "the handwork".to_owned())
                    .at(place, place.doing)
                    .allowed(),
            );
        }
        Action::Preheat { timing, .. } => {
            all.push(timed(timing, format!("heating the oven {of}")).at(place, Doing::PREHEAT));
        }
        Action::Bake { phases, check, .. } => {
            all.extend(bake(place, phases, check.as_ref().map(|c| c.value)));
        }
        Action::Cool { timing, .. } => {
            all.push(timed(timing, format!("the cooling {of}")).at(place, Doing::COOL));
        }
    }
    all
}

/// Of a bake: its phases, its whole, and when to look for the first time.
fn bake(
    place: &Place,
    phases: &[recipe::document::model::OvenPhase],
    check: Option<Duration>,
) -> Vec<Fact> {
    let of = of_section(place.of);
    let mut all = Vec::new();
    let doing = Doing::BAKE.and(Doing::OVEN);
    for (at, phase) in phases.iter().enumerate() {
        let what = match (phases.len(), at) {
            (1, _) => format!("the bake {of}"),
            (_, 0) => format!("the first part of the bake {of}"),
            _ => format!("the later part of the bake {of}"),
        };
        let mut fact = timed(&phase.timing, what).at(place, doing);
        if phases.len() > 1 {
            let words = match at {
                0 => "first steam",
                _ => "another more further then foil",
            };
            fact = fact.with(words);
        }
        all.push(fact);
    }
    if phases.len() > 1 {
        let sum = |end: fn(&Timing) -> Duration| -> f64 {
            phases.iter().map(|phase| end(&phase.timing).si()).sum()
        };
        let usual = sum(|t| t.usual.value);
        let low = sum(|t| t.range.as_ref().map_or(t.usual.value, |r| r.value.low));
        let high = sum(|t| t.range.as_ref().map_or(t.usual.value, |r| r.value.high));
        let shown = format!(
            "{} ({})",
            say::duration(Duration::from_si(usual)),
            say::duration_range(Range {
                low: Duration::from_si(low),
                high: Duration::from_si(high)
            })
        );
        all.push(
            Fact::new(Sort::Time, usual, format!("the whole bake {of}"), shown)
                .between(low, high)
                .at(place, doing)
                .with("all altogether total whole"),
        );
    }
    if let Some(check) = check {
        all.push(
            lone(check, format!("the first look at the bake {of}"))
                .at(place, Doing::CHECK.and(Doing::BAKE))
                .with("check look"),
        );
    }
    all
}

/// In the author's sentence: "turn out after 5 minutes".
fn in_sentence(place: &Place) -> Vec<Fact> {
    let speech = in_words(&place.step.text.value);
    speech
        .figures
        .iter()
        .filter_map(|figure| {
            let Meant::Time(range) = figure.spoken.meant else {
                return None;
            };
            let doing = doing_there(&speech, figure.first);
            let what = format!(
                "“{}” in step {}",
                speech.slice(figure.spoken.span),
                place.number + 1
            );
            let (first, end) = speech.clause(figure.first);
            let mut fact = lone(range.low, what)
                .between(range.low.si(), range.high.si())
                .at(place, doing);
            fact.stems = speech.words[first..end]
                .iter()
                .map(|w| w.stem.clone())
                .collect();
            Some(fact)
        })
        .collect()
}

/// From beginning to end, as promised and as laid out.
fn wholes(inputs: &Inputs) -> Vec<Fact> {
    let laid = elapsed(inputs.recipe);
    let promised = inputs
        .recipe
        .promise
        .as_ref()
        .and_then(|promise| promise.within.as_ref().map(|within| within.value));
    let rounded = |time: Duration| time.si() * 0.05;
    [
        promised,
        Some(laid.total),
        Some(laid.on_the_day),
        Some(laid.hands_on),
        Some(laid.baking),
    ]
    .into_iter()
    .flatten()
    .map(|time| {
        let mut fact = lone(time, "the whole".to_owned()).with("total altogether start finish");
        fact.low -= rounded(time);
        fact.high += rounded(time);
        fact.doing = Doing::TOTAL;
        fact
    })
    .collect()
}

/// In what is said of keeping, of the day before, and in the notes.
fn stored(inputs: &Inputs) -> Vec<Fact> {
    let recipe = inputs.recipe;
    let texts = [
        (&recipe.storage, "keeping"),
        (&recipe.make_ahead, "what may wait"),
        (&recipe.headnote, "the headnote"),
    ];
    let notes = recipe.notes.iter().map(|note| (note, "a note"));
    let texts = texts
        .iter()
        .filter_map(|(text, what)| text.as_ref().map(|text| (text, *what)))
        .chain(notes);
    let mut all = Vec::new();
    for (text, what) in texts {
        let speech = in_words(&text.value);
        for figure in &speech.figures {
            let Meant::Time(range) = figure.spoken.meant else {
                continue;
            };
            let (first, end) = speech.clause(figure.first);
            let mut fact = lone(
                range.low,
                format!("“{}” ({what})", text_around(&speech, first, end)),
            )
            .between(range.low.si(), range.high.si());
            fact.doing = doing_there(&speech, figure.first).and(Doing::STORE);
            fact.stems = speech.words[first..end]
                .iter()
                .map(|w| w.stem.clone())
                .collect();
            fact.only_allowed = !matches!(what, "keeping" | "what may wait");
            all.push(fact);
        }
    }
    all
}

fn text_around(speech: &crate::talk::speech::Speech, first: usize, end: usize) -> String {
    let span = recipe::source::Span::new(
        speech.words[first].span.start,
        speech.words[end - 1].span.end,
    );
    speech.slice(span).to_owned()
}
