//! How much goes in, and what a piece weighs.

use super::{Fact, Place, Sort};
use crate::Inputs;
use crate::ledger::say;
use crate::talk::doing::Doing;
use crate::talk::things::{Sort as Of, Thing};
use numerics::quantity::Mass;
use recipe::document::model::{Action, Amount, Item};
use recipe::formula::{Resolved, ResolvedItem};
use recipe::larder::Role;
use recipe::measure::spoken::Meant;
use recipe::measure::{Market, spoons_of};

/// Every mass that can be said.
pub(super) fn amounts(inputs: &Inputs, things: &[Thing], places: &[Place]) -> Vec<Fact> {
    let (recipe, formula) = (inputs.recipe, inputs.formula);
    let mut all = Vec::new();
    for (section, (stage, sum)) in recipe.stages.iter().zip(&formula.stages).enumerate() {
        for (item, resolved) in stage.items.iter().zip(&sum.items) {
            let Some(mut fact) = of_item(item, resolved, things, inputs.market) else {
                continue;
            };
            fact.section = Some(section);
            fact.step = used_in(places, section, item.called());
            fact.path = format!("{}/{}", stage.name.value, item.called());
            fact.what = format!("{} in the {}", fact.what, stage.name.value);
            fact.stems
                .extend(crate::talk::things::stems(&stage.name.value));
            if matches!(resolved.what, Resolved::Stage(_)) {
                fact.only_allowed = true;
            }
            all.push(fact);
        }
    }
    for (at, product) in recipe.products.iter().enumerate() {
        let section = recipe.stages.len() + at;
        for item in &product.with {
            if let Some(each) = &item.each
                && let Amount::Mass(mass) = each.value
            {
                let what = format!("{} in each of the {}", item.of.value, product.name.value);
                let mut fact = Fact::new(Sort::Amount, mass.si(), what, say::mass(mass));
                fact.section = Some(section);
                fact.thing = thing_named(things, &item.of.value);
                all.push(fact.allowed());
                // "Forty-eight grams of that is for the knots, six a knot."
                if product.count.value > 1 {
                    let whole = Mass::from_si(mass.si() * f64::from(product.count.value));
                    let what = format!("{} for the {}", item.of.value, product.name.value);
                    let mut fact = Fact::new(Sort::Amount, whole.si(), what, say::mass(whole));
                    fact.section = Some(section);
                    fact.thing = thing_named(things, &item.of.value);
                    all.push(fact.allowed());
                }
            }
        }
        all.extend(pieces(inputs, things, at, section));
    }
    for (item, resolved) in recipe.besides.iter().zip(&formula.besides) {
        let Some(mut fact) = of_item(item, resolved, things, inputs.market) else {
            continue;
        };
        let place = item.on.as_ref().map_or("top", |on| on.value.word());
        fact.what = format!("{} for the {place}", fact.what);
        fact.path = format!("besides/{}", item.called());
        fact.stems.push(place.to_owned());
        fact.doing = Doing::FINISH;
        fact.step = places
            .iter()
            .find(|step| {
                step.step
                    .text
                    .value
                    .contains(&format!("{} for the {place}", item.called()))
            })
            .or_else(|| {
                places.iter().find(|step| {
                    step.step
                        .text
                        .value
                        .contains(&format!("{}]", item.called()))
                        && step.doing == Doing::FINISH
                })
            })
            .map(|place| place.number);
        fact.section = fact.step.map(|step| places[step].section);
        all.push(fact);
    }
    all.extend(in_sentences(things, places));
    totals(inputs, things, &mut all);
    all
}

/// What an author's sentence has of a thing: "10 g of pearl sugar".
fn in_sentences(things: &[Thing], places: &[Place]) -> Vec<Fact> {
    let mut all = Vec::new();
    for place in places {
        let speech = super::in_words(&place.step.text.value);
        let mentions = crate::talk::things::mentions(&speech, things);
        for figure in &speech.figures {
            let Meant::Mass(range) = &figure.spoken.meant else {
                continue;
            };
            let of = mentions
                .iter()
                .find(|mention| mention.first >= figure.end && mention.first <= figure.end + 2);
            let Some(mention) = of else { continue };
            for thing in &mention.things {
                let mut fact =
                    Fact::new(Sort::Amount, range.low.si(), "a part", say::mass(range.low))
                        .at(place, place.doing)
                        .of(Some(*thing));
                fact.what = format!("{} in step {}", things[*thing].name, place.number + 1);
                all.push(fact.allowed());
            }
        }
    }
    all
}

/// An item with its mass.
fn of_item(
    item: &Item,
    resolved: &ResolvedItem,
    things: &[Thing],
    market: Option<Market>,
) -> Option<Fact> {
    let mass = resolved.mass?;
    let thing = match &resolved.what {
        Resolved::Ingredient(own) => things.iter().position(|thing| {
            thing
                .ingredient
                .as_ref()
                .is_some_and(|known| known.key == own.key)
        }),
        Resolved::Stage(at) => things.iter().position(|thing| thing.sort == Of::Stage(*at)),
        Resolved::Unknown(_) => None,
    };
    let counted = match item.take.as_ref().map(|take| &take.value) {
        Some(amount @ Amount::Count { .. }) => Some(say::amount(amount)),
        _ => None,
    };
    let measured = match &resolved.what {
        Resolved::Ingredient(own) => {
            spoons_of(mass, own, market.unwrap_or(Market::UnitedStates)).map(|spoons| spoons.text)
        }
        _ => None,
    };
    let shown = match (counted, measured) {
        (Some(counted), _) => format!("{counted} ({})", say::mass(mass)),
        (None, Some(measured)) => format!("{} ({measured})", say::mass(mass)),
        (None, None) => say::mass(mass),
    };
    let mut fact = Fact::new(Sort::Amount, mass.si(), item.of.value.clone(), shown).of(thing);
    fact.stems.extend(crate::talk::things::stems(item.called()));
    Some(fact)
}

/// What pieces weigh, raw and baked.
fn pieces(inputs: &Inputs, things: &[Thing], at: usize, section: usize) -> Vec<Fact> {
    let product = &inputs.recipe.products[at];
    let sum = &inputs.formula.products[at];
    let name = &product.name.value;
    let thing = things
        .iter()
        .position(|thing| thing.sort == Of::Product(section));
    let mut all = Vec::new();
    let mut piece = |mass: Mass, what: String, words: &str| {
        let mut fact = Fact::new(Sort::Amount, mass.si(), what, say::mass(mass)).of(thing);
        if !words.is_empty() {
            fact = fact.with(words);
        }
        fact.section = Some(section);
        fact.doing = Doing::DIVIDE;
        all.push(fact);
    };
    let most = product
        .piece
        .value
        .iter()
        .map(|part| part.mass)
        .fold(Mass::ZERO, |a, b| if a > b { a } else { b });
    for part in &product.piece.value {
        let size = if part.mass < most {
            "little small strip rope"
        } else {
            "big large ball"
        };
        piece(part.mass, format!("a piece for the {name}"), size);
    }
    if product.piece.value.len() > 1 || product.piece.value[0].count > 1 {
        piece(sum.piece, format!("the dough in one of the {name}"), "");
    }
    if product.count.value > 1 {
        piece(sum.dough, format!("the dough for the {name}"), "");
    }
    if let Some(after) = &product.after_bake {
        let what = format!("one of the {name} after the bake");
        let mut fact =
            Fact::new(Sort::Amount, after.value.si(), what, say::mass(after.value)).of(thing);
        fact.section = Some(section);
        fact.doing = Doing::BAKE.and(Doing::COOL).and(Doing::CORE);
        all.push(fact);
    }
    let mut piece = |mass: Mass, what: String| {
        let mut fact = Fact::new(Sort::Amount, mass.si(), what, say::mass(mass)).of(thing);
        fact.section = Some(section);
        fact.doing = Doing::DIVIDE;
        all.push(fact);
    };
    if sum.filling > Mass::ZERO {
        piece(sum.filling, format!("the filling of the {name}"));
    }
    all
}

/// What an ingredient comes to in all: allowed where it is said.
fn totals(inputs: &Inputs, things: &[Thing], all: &mut Vec<Fact>) {
    for (place, thing) in things.iter().enumerate() {
        let of: Vec<f64> = all
            .iter()
            .filter(|fact| fact.thing == Some(place) && !fact.only_allowed)
            .map(|fact| fact.usual)
            .collect();
        if of.len() < 2 || thing.sort != Of::Ingredient {
            continue;
        }
        // Every sum of two or more: with or without what is for bench, tin and top.
        let mut sums = vec![of.iter().sum::<f64>()];
        if of.len() > 2 {
            sums.push(of[..of.len() - 1].iter().sum());
        }
        for sum in sums {
            let mass = Mass::from_si(sum);
            all.push(
                Fact::new(
                    Sort::Amount,
                    sum,
                    format!("{} in all", thing.name),
                    say::mass(mass),
                )
                .of(Some(place))
                .with("all altogether total")
                .allowed(),
            );
        }
    }
    of_a_kind(things, all);
    flours(inputs, things, all);
    let dough = inputs.formula.dough.mass;
    for (at, stage) in inputs.formula.stages.iter().enumerate() {
        let thing = things.iter().position(|thing| thing.sort == Of::Stage(at));
        let mut fact = Fact::new(
            Sort::Amount,
            stage.mass.si(),
            "the stage",
            say::mass(stage.mass),
        );
        fact.section = Some(at);
        all.push(fact.of(thing).allowed());
    }
    all.push(Fact::new(Sort::Amount, dough.si(), "the dough", say::mass(dough)).allowed());
    let flour = inputs.formula.dough.flour;
    let thing = all
        .iter()
        .filter(|fact| fact.thing.is_some_and(|at| is_flour(&things[at])))
        .max_by(|a, b| a.usual.total_cmp(&b.usual))
        .and_then(|fact| fact.thing);
    all.push(
        Fact::new(Sort::Amount, flour.si(), "all the flour", say::mass(flour))
            .of(thing)
            .allowed(),
    );
}

/// All yeast, all sugar, all salt of a recipe that takes several of them: "seven grams of yeast altogether".
fn of_a_kind(things: &[Thing], all: &mut Vec<Fact>) {
    let role = |fact: &Fact| {
        let own = things[fact.thing?].ingredient.as_ref()?;
        Some(match own.role {
            Role::Yeast(_) => "yeast",
            Role::Sugar => "sugar",
            Role::Salt => "salt",
            _ => return None,
        })
    };
    for kind in ["yeast", "sugar", "salt"] {
        let of: Vec<(usize, f64)> = all
            .iter()
            .filter(|fact| !fact.only_allowed && role(fact) == Some(kind))
            .filter_map(|fact| Some((fact.thing?, fact.usual)))
            .collect();
        let sum: f64 = of.iter().map(|(_, mass)| mass).sum();
        let mut named: Vec<usize> = of.iter().map(|(thing, _)| *thing).collect();
        named.sort_unstable();
        named.dedup();
        if named.len() < 2 {
            continue;
        }
        for thing in named {
            let shown = say::mass(Mass::from_si(sum));
            all.push(
                Fact::new(Sort::Amount, sum, format!("{kind} in all"), shown)
                    .of(Some(thing))
                    .with("all altogether total")
                    .allowed(),
            );
        }
    }
}

/// The flours of a stage together, and with those of the stages before: "five fifty with what's in the sponge".
fn flours(inputs: &Inputs, things: &[Thing], all: &mut Vec<Fact>) {
    let mut sofar = 0.0;
    for section in 0..inputs.recipe.stages.len() {
        let own: Vec<(usize, f64)> = all
            .iter()
            .filter(|fact| fact.section == Some(section) && !fact.only_allowed)
            .filter_map(|fact| Some((fact.thing.filter(|at| is_flour(&things[*at]))?, fact.usual)))
            .collect();
        let sum: f64 = own.iter().map(|(_, mass)| mass).sum();
        sofar += sum;
        for (thing, mass) in &own {
            for total in [sum, sofar] {
                if (total - mass).abs() > 1e-6 {
                    let shown = say::mass(Mass::from_si(total));
                    let mut fact = Fact::new(Sort::Amount, total, "flour so far", shown);
                    fact.section = Some(section);
                    all.push(fact.of(Some(*thing)).allowed());
                }
            }
        }
    }
}

fn is_flour(thing: &Thing) -> bool {
    thing
        .ingredient
        .as_ref()
        .is_some_and(|own| own.role == recipe::larder::Role::Flour)
}

fn thing_named(things: &[Thing], name: &str) -> Option<usize> {
    things.iter().position(|thing| thing.name == name)
}

/// The step whose sentence takes an item.
fn used_in(places: &[Place], section: usize, called: &str) -> Option<usize> {
    places
        .iter()
        .filter(|place| {
            place.section == section && !matches!(place.step.action, Action::Ready { .. })
        })
        .find(|place| {
            place.step.text.value.contains(&format!("[{called}]"))
                || place.step.text.value.contains(&format!("of {called}]"))
                || place.step.text.value.contains(&format!("of the {called}]"))
        })
        .map(|place| place.number)
}
