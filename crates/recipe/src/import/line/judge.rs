//! How far a thing in a line is understood, and why no further, in a cook's words.

use super::head::sort;
use super::thing::Thing;
use super::weight::{Weighed, is_mass, is_volume, packs, volume_ml, weigh};
use crate::import::model::{Bearing, LineAmount, LineUnit, Mark, Reading};
use crate::larder::{Ingredient, Larder, Role, YeastForm};
use numerics::quantity::{Mass, Range};

/// Two amounts of one thing may lie this far apart, as a share.
const APART: f64 = 0.10;

/// Judges one thing.
pub(super) fn judge(larder: &Larder, thing: Thing) -> Reading {
    let ingredient = thing
        .named
        .as_ref()
        .and_then(|named| larder.by_key(&named.keys[0]));
    let mut doubts: Vec<String> = Vec::new();
    let mut taken: Option<String> = None;
    let mut mass = None;
    let bearing = thing.amount.as_ref().and_then(|amount| amount.bearing);
    let does_pack = ingredient.is_some_and(|one| {
        packs(
            one,
            &thing.words.to_lowercase(),
            thing.state.as_deref(),
            bearing,
        )
    });
    match (&thing.amount, ingredient) {
        (Some(amount), Some(one)) => {
            let weighed = Weights::of(larder, one, &thing, amount, does_pack);
            mass = weighed
                .best()
                .map(|mass| without_shell(larder, one, &thing, amount, mass));
            vague(amount, &thing, &mut doubts);
            kind(larder, &thing, one, &weighed, &mut doubts, &mut taken);
            measure(
                one,
                amount,
                &thing,
                &weighed,
                does_pack,
                &mut doubts,
                &mut taken,
            );
        }
        (Some(amount), None) => {
            mass = thing.also.iter().chain([amount]).find_map(mass_of);
            vague(amount, &thing, &mut doubts);
            doubts.insert(0, unknown(larder, &thing.words));
        }
        (None, Some(_)) => doubts.push("No amount is given.".to_owned()),
        (None, None) => {
            doubts.push(unknown(larder, &thing.words));
            doubts.push("No amount is given.".to_owned());
        }
    }
    if thing.open {
        doubts.push("The line leaves a choice; the first is taken.".to_owned());
    }
    if thing.less {
        doubts.push("Something is taken off the amount again.".to_owned());
    }
    if thing.at_will {
        doubts.push("How much of it is left to the cook.".to_owned());
    }
    let mark = if doubts.is_empty() {
        Mark::Understood
    } else {
        Mark::Doubtful
    };
    let reason = doubts.into_iter().next().or(taken);
    Reading {
        mark,
        reason,
        amount: thing.amount,
        also: thing.also,
        words: thing.words,
        key: ingredient.map(|one| one.key.clone()),
        place: thing.place,
        state: thing.state,
        note: (!thing.notes.is_empty()).then(|| thing.notes.join("; ")),
        said: None,
        mass,
    }
}

/// What both amounts weigh.
struct Weights {
    first: Option<Weighed>,
    second: Option<Weighed>,
    /// Whether the second one is the surer: grams beside a cup.
    second_is_mass: bool,
    first_is_mass: bool,
    apart: bool,
}

impl Weights {
    fn of(
        larder: &Larder,
        one: &Ingredient,
        thing: &Thing,
        amount: &LineAmount,
        packs: bool,
    ) -> Self {
        let of = |amount: &LineAmount, packs: bool| weigh(larder, one, amount, packs);
        let first = of(amount, packs);
        let second = thing.also.as_ref().and_then(|also| of(also, packs));
        let volumes = thing
            .also
            .as_ref()
            .and_then(|also| Some((volume_ml(amount)?, volume_ml(also)?)));
        let sized = matches!(amount.pieces[0].unit, LineUnit::Thing(unit) if unit != "stick" && !(unit == "packet" && matches!(one.role, Role::Yeast(_))));
        let apart = match (volumes, &first, &second) {
            (Some((one, other)), ..) => gap(one, other) > APART,
            (None, Some(first), Some(second)) if !sized => {
                let si = |mass: &Range<Mass>| [mass.low.si(), mass.high.si()];
                let loose = match one.role {
                    // A teaspoon of salt is published from 5 to 6 g, an egg weighed with its shell
                    // or without.
                    Role::Salt | Role::Egg => 0.15,
                    _ => 0.0,
                };
                gap(si(&first.mass), si(&second.mass)) > APART + loose
            }
            _ => false,
        };
        Self {
            second_is_mass: thing.also.as_ref().is_some_and(is_mass),
            first_is_mass: is_mass(amount),
            first,
            second,
            apart,
        }
    }

    fn best(&self) -> Option<Range<Mass>> {
        let (surer, other) = if self.second_is_mass && !self.first_is_mass {
            (&self.second, &self.first)
        } else {
            (&self.first, &self.second)
        };
        surer
            .as_ref()
            .or(other.as_ref())
            .map(|weighed| weighed.mass)
    }
}

/// The edible part of eggs whose weight in the line is above that of any large one out of its shell.
fn without_shell(
    larder: &Larder,
    one: &Ingredient,
    thing: &Thing,
    amount: &LineAmount,
    mass: Range<Mass>,
) -> Range<Mass> {
    let [piece] = &amount.pieces[..] else {
        return mass;
    };
    let counted = sort(piece.unit).is_none() && thing.also.as_ref().is_some_and(is_mass);
    if one.key != "egg_whole" || !counted || mass.low.grams() < 52.0 * piece.high {
        return mass;
    }
    Range {
        low: larder.edible(one, mass.low),
        high: larder.edible(one, mass.high),
    }
}

/// How far two ranges lie apart, as a share of the larger.
fn gap(one: [f64; 2], other: [f64; 2]) -> f64 {
    let (low, high) = if one[0] > other[0] {
        (other, one)
    } else {
        (one, other)
    };
    // The ends that face each other.
    if low[1] >= high[0] {
        0.0
    } else {
        high[0] / low[1] - 1.0
    }
}

/// An amount that is not meant as one value.
fn vague(amount: &LineAmount, thing: &Thing, doubts: &mut Vec<String>) {
    for piece in &amount.pieces {
        if piece.is_range() {
            doubts.push("The line gives a range.".to_owned());
            return;
        }
        if let LineUnit::Thing(unit) = piece.unit
            && super::head::VAGUE.contains(&unit)
            && !thing
                .also
                .as_ref()
                .is_some_and(|also| is_mass(also) || is_volume(also))
        {
            doubts.push(format!("A {unit} is no fixed amount."));
            return;
        }
    }
    let word = match amount.bearing {
        Some(Bearing::Scant) => "scant",
        Some(Bearing::Heaped) => "heaped",
        Some(Bearing::Rounded) => "rounded",
        Some(Bearing::Generous) => "generous",
        _ => return,
    };
    doubts.push(format!("How much a {word} measure holds is not fixed."));
}

/// A name that leaves the kind open.
fn kind(
    larder: &Larder,
    thing: &Thing,
    one: &Ingredient,
    weighed: &Weights,
    doubts: &mut Vec<String>,
    taken: &mut Option<String>,
) {
    let Some(named) = thing.named.as_ref().filter(|named| named.keys.len() > 1) else {
        return;
    };
    let kinds: Vec<&Ingredient> = named
        .keys
        .iter()
        .filter_map(|key| larder.by_key(key))
        .collect();
    let fresh_too = kinds
        .iter()
        .any(|kind| kind.role == Role::Yeast(YeastForm::Fresh));
    let in_packets = thing
        .amount
        .iter()
        .chain(&thing.also)
        .flat_map(|amount| &amount.pieces)
        .any(|piece| piece.unit == LineUnit::Thing("packet"));
    if fresh_too && !in_packets {
        doubts.push(
            "The form of the yeast is not said; fresh, active dry and instant differ in strength."
                .to_owned(),
        );
        return;
    }
    let by_volume = thing.amount.as_ref().is_some_and(is_volume) && !weighed.second_is_mass;
    let density = |kind: &Ingredient| kind.by_volume.as_ref().map(|(density, _)| density.si());
    let densities: Vec<f64> = kinds.iter().filter_map(|kind| density(kind)).collect();
    let least = densities.iter().copied().fold(f64::INFINITY, f64::min);
    let most = densities.iter().copied().fold(0.0, f64::max);
    if by_volume && most > least * (1.0 + APART) {
        doubts.push(format!(
            "The kind of {} is not said, and a measure of each weighs something else.",
            thing.words.to_lowercase()
        ));
        return;
    }
    *taken = Some(format!("The kind is not said; taken as {}.", one.name));
}

/// An amount whose weight does not follow.
fn measure(
    one: &Ingredient,
    amount: &LineAmount,
    thing: &Thing,
    weighed: &Weights,
    packs: bool,
    doubts: &mut Vec<String>,
    taken: &mut Option<String>,
) {
    if weighed.apart {
        doubts.push("The two amounts of the line do not weigh the same.".to_owned());
        return;
    }
    let known_by_also = thing.also.as_ref().is_some_and(|also| {
        is_mass(also) || (is_volume(also) && !packs && weighed.second.is_some())
    });
    if is_mass(amount) || known_by_also {
        return;
    }
    if is_volume(amount) {
        let pint = amount
            .pieces
            .iter()
            .any(|piece| matches!(piece.unit, LineUnit::Pint | LineUnit::Quart));
        if packs {
            doubts.push(format!(
                "What a cup or spoon of {} holds depends on how it is filled.",
                one.name
            ));
        } else if weighed.first.is_none() {
            doubts.push(format!(
                "What a cup or spoon of {} weighs is not known.",
                one.name
            ));
        } else if pint {
            doubts.push("A pint is 473 mL in the United States and 568 mL in Britain.".to_owned());
        }
        return;
    }
    let pack = amount.pieces.iter().find_map(|piece| match piece.unit {
        LineUnit::Thing(unit) if !super::head::SIZES.contains(&unit) => Some(unit),
        _ => None,
    });
    let sold_alike = match pack {
        Some("packet" | "cube") => matches!(one.role, Role::Yeast(_)),
        Some("stick" | "clove") | None => true,
        Some(_) => false,
    };
    match &weighed.first {
        Some(first) if sold_alike => {
            if let Some(size) = &first.taken {
                let said = format!("The size of the {} is not said; taken as {size}.", one.name);
                // The zest of one orange is of one orange.
                if one.key == format!("{size}_zest") || one.key == format!("{size}_juice") {
                } else if one.role == Role::Egg {
                    *taken = Some(said);
                } else {
                    doubts.push(said);
                }
            }
        }
        _ => match pack {
            Some(unit) => doubts.push(format!("What a {unit} of {} weighs is not said.", one.name)),
            None if one.role == Role::Egg => {
                *taken = Some(format!(
                    "The size of the {} is not said; taken as large.",
                    one.name
                ));
            }
            None => doubts.push(format!("What one {} weighs is not known.", one.name)),
        },
    }
}

/// What an amount weighs whatever it is of.
fn mass_of(amount: &LineAmount) -> Option<Range<Mass>> {
    if !is_mass(amount) {
        return None;
    }
    let mut sum = [0.0, 0.0];
    for piece in &amount.pieces {
        let kg = super::weight::kilograms(piece.unit)?;
        sum[0] += piece.low * kg;
        sum[1] += piece.high * kg;
    }
    Some(Range {
        low: Mass::from_si(sum[0]),
        high: Mass::from_si(sum[1]),
    })
}

fn unknown(larder: &Larder, words: &str) -> String {
    match super::name::near(larder, words) {
        Some(near) => format!("“{words}” is not in the larder; a near name there is “{near}”."),
        None => format!("“{words}” is not in the larder."),
    }
}
