//! How many, and how large: pieces, eggs, folds; tins, strips, slabs.

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::{Fact, Place, Sort, in_words};
use crate::Inputs;
use crate::ledger::say;
use crate::talk::doing::Doing;
use crate::talk::things::{Sort as Of, Thing};
use numerics::decimal::fixed;
use numerics::quantity::Length;
use recipe::document::model::{Action, Amount, TinSize};
use recipe::formula::Resolved;
use recipe::measure::spoken::{Meant, spoken};

/// Every number of things and every length that can be said.
pub(super) fn counts(inputs: &Inputs, things: &[Thing], places: &[Place]) -> Vec<Fact> {
    let mut all = products(inputs, things, places);
    all.extend(counted_items(inputs, things));
    for place in places {
        all.extend(in_sentence(place));
        all.extend(slashes(place));
        if let Some(volume) = place
            .step
            .until
            .as_ref()
            .and_then(|until| until.volume.as_ref())
        {
            let what = format!("the growth in step {}", place.number + 1);
            let mut fact = Fact::new(Sort::Count, volume.value, what, say::times(volume.value))
                .at(place, place.doing);
            GROWTH.clone_into(&mut fact.path);
            all.push(fact);
        }
        if let Action::Fold { into_rest, .. } = &place.step.action {
            let folds = f64::from(u32::try_from(into_rest.len().max(1)).unwrap_or(1));
            all.push(
                number(folds, "the folds")
                    .at(place, Doing::FOLD)
                    .with("fold time"),
            );
        }
        if let Action::Rest {
            thick: Some(thick), ..
        } = &place.step.action
        {
            let what = format!("the slab of step {}", place.number + 1);
            all.push(
                size(thick.value, what)
                    .at(place, place.doing)
                    .with("thick slab flat"),
            );
        }
        if let Some(height) = place.step.until.as_ref().and_then(|u| u.height.as_ref()) {
            let what = format!("the height at the end of step {}", place.number + 1);
            all.push(
                size(height.value.abs(), what)
                    .at(place, place.doing)
                    .with("rim below"),
            );
        }
    }
    if let Some(serves) = &inputs.recipe.serves
        && let Some(said) = spoken(&serves.value).first()
    {
        let mut fact = number(said.low, "the people it serves").with("people serve portion guest");
        fact.high = said.high;
        fact.shown.clone_from(&serves.value);
        all.push(fact);
    }
    all
}

/// What a number is of that counts a thing through all steps.
pub(in crate::talk) const IN_ALL: &str = "in all";

/// The path of facts about how much a dough grows.
pub(in crate::talk) const GROWTH: &str = "growth";

fn number(value: f64, what: impl Into<String>) -> Fact {
    Fact::new(Sort::Count, value, what, fixed(value, 0))
}

fn size(length: Length, what: String) -> Fact {
    Fact::new(Sort::Size, length.si(), what, say::length(length))
}

/// Pieces of each product, the parts of one, and its tin.
fn products(inputs: &Inputs, things: &[Thing], places: &[Place]) -> Vec<Fact> {
    let recipe = inputs.recipe;
    let mut all = Vec::new();
    let mut pieces = 0.0;
    for (at, product) in recipe.products.iter().enumerate() {
        let section = recipe.stages.len() + at;
        let thing = things
            .iter()
            .position(|thing| thing.sort == Of::Product(section));
        let count = f64::from(product.count.value);
        pieces += count;
        let name = &product.name.value;
        let mut fact = number(count, format!("the number of {name}")).of(thing);
        fact.section = Some(section);
        all.push(fact);
        // Ten buns are shaped from ten balls.
        let mut shaped = number(count, format!("the number of {name}"))
            .with("piece ball strip portion lump bit part rope")
            .allowed();
        shaped.section = Some(section);
        all.push(shaped);
        let parts: u32 = product.piece.value.iter().map(|part| part.count).sum();
        if parts > 1 && product.piece.value.len() == 1 {
            let shape = places.iter().find(|place| {
                place.section == section && matches!(place.step.action, Action::Shape { .. })
            });
            let mut fact = number(f64::from(parts), format!("the pieces of the {name}"))
                .with("piece ball rope strand part bit lump");
            if let Some(place) = shape {
                fact = fact.at(place, Doing::SHAPE.and(Doing::DIVIDE));
            }
            fact.section = Some(section);
            all.push(fact);
            let mut own = number(
                f64::from(parts) * count,
                format!("the pieces of the {name}"),
            )
            .allowed();
            own.section = Some(section);
            all.push(own.with("piece ball rope strand"));
        }
        if let Some(tin) = &product.tin {
            let sides: Vec<f64> = match tin.size.value {
                TinSize::Box {
                    length,
                    width,
                    depth,
                } => vec![length.si(), width.si(), depth.si()],
                TinSize::Tray { length, width } => vec![length.si(), width.si()],
                TinSize::Round { diameter, height } => vec![diameter.si(), height.si()],
            };
            let what = format!("the {} of the {name}", tin.name.value);
            let mut fact = Fact::new(Sort::Size, sides[0], what, say::tin_size(&tin.size.value))
                .with(&tin.name.value.to_lowercase())
                .with("tin pan mould tray by");
            fact.section = Some(section);
            fact.sides = sides;
            all.push(fact);
        }
    }
    all.push(number(pieces, "all pieces").with("piece").allowed());
    all
}

/// What is counted as it goes in.
fn counted_items(inputs: &Inputs, things: &[Thing]) -> Vec<Fact> {
    let recipe = inputs.recipe;
    let items = recipe
        .stages
        .iter()
        .zip(&inputs.formula.stages)
        .enumerate()
        .flat_map(|(section, (stage, sum))| {
            stage
                .items
                .iter()
                .zip(&sum.items)
                .map(move |pair| (Some(section), pair))
        })
        .chain(
            recipe
                .besides
                .iter()
                .zip(&inputs.formula.besides)
                .map(|pair| (None, pair)),
        );
    let mut all: Vec<Fact> = items
        .filter_map(|(section, (item, resolved))| {
            let Some(Amount::Count { count, .. }) = item.take.as_ref().map(|take| &take.value)
            else {
                return None;
            };
            let Resolved::Ingredient(own) = &resolved.what else {
                return None;
            };
            let thing = things.iter().position(|thing| {
                thing
                    .ingredient
                    .as_ref()
                    .is_some_and(|known| known.key == own.key)
            });
            let place = item
                .on
                .as_ref()
                .map_or(String::new(), |on| format!(" for the {}", on.value.word()));
            let shown = say::amount(&item.take.as_ref()?.value);
            let mut fact = Fact::new(
                Sort::Count,
                *count,
                format!("the {}{place}", item.called()),
                shown,
            )
            .of(thing);
            fact.section = section;
            if section.is_none() {
                fact.doing = Doing::FINISH;
                fact = fact.with("top wash brush glaze beaten");
            }
            Some(fact)
        })
        .collect();
    let by_thing: Vec<(Option<usize>, f64)> =
        all.iter().map(|fact| (fact.thing, fact.usual)).collect();
    for (thing, _) in &by_thing {
        let sum: f64 = by_thing
            .iter()
            .filter(|(own, _)| own == thing)
            .map(|(_, n)| n)
            .sum();
        all.push(
            number(sum, IN_ALL)
                .of(*thing)
                .with("all altogether")
                .allowed(),
        );
    }
    all
}

/// The path of facts about how often a loaf is slashed.
pub(in crate::talk) const SLASHES: &str = "slashes";

/// "Slash the top once", "score it twice": how often.
fn slashes(place: &Place) -> Option<Fact> {
    let speech = in_words(&place.step.text.value);
    let at = speech
        .words
        .iter()
        .position(|word| SLASHING.contains(&word.stem.as_str()))?;
    let (_, end) = speech.clause(at);
    let often = speech.words[at..end].iter().find_map(|word| {
        Some(match word.lower.as_str() {
            "once" => 1.0,
            "twice" => 2.0,
            _ => return None,
        })
    });
    let figure = || {
        let own = speech
            .figures
            .iter()
            .find(|figure| figure.first > at && figure.end <= end)?;
        matches!(own.spoken.meant, Meant::Times(..)).then_some(own.spoken.low)
    };
    let mut fact = number(often.or_else(figure)?, "the number of slashes").at(place, place.doing);
    SLASHES.clone_into(&mut fact.path);
    fact.stems = SLASHING.iter().map(|stem| (*stem).to_owned()).collect();
    Some(fact)
}

/// Stems of what a blade does.
pub(in crate::talk) const SLASHING: [&str; 4] = ["slash", "scor", "slit", "cut"];

/// Numbers and lengths of an author's sentence.
fn in_sentence(place: &Place) -> Vec<Fact> {
    let speech = in_words(&place.step.text.value);
    let mut all = Vec::new();
    for figure in &speech.figures {
        let noun = speech.words.get(figure.end).map(|word| word.stem.clone());
        let said = speech.slice(figure.spoken.span);
        let what = format!("“{said}” in step {}", place.number + 1);
        match &figure.spoken.meant {
            Meant::Length(range) => {
                let (first, end) = speech.clause(figure.first);
                let mut fact = size(range.low, what).at(place, place.doing);
                fact.stems
                    .extend(speech.words[first..end].iter().map(|w| w.stem.clone()));
                all.push(fact);
            }
            Meant::Sides(sides, unit) => {
                let metres = unit.unwrap_or(0.01);
                let mut fact = Fact::new(Sort::Size, sides[0] * metres, what, said.to_owned())
                    .at(place, place.doing);
                fact.sides = sides.iter().map(|side| side * metres).collect();
                all.push(fact);
            }
            Meant::Number(low, high) if low == high && *low >= 2.0 => {
                let mut fact = number(*low, what).at(place, place.doing);
                fact.stems = noun.into_iter().collect();
                fact.only_allowed = fact.stems.is_empty();
                fact.section = Some(place.section);
                all.push(fact);
            }
            _ => {}
        }
    }
    all
}
