//! The parts of items that sentences name, in the new size, such that they still come to the whole.

use super::amounts::{ingredient, mass_of, settled_measures, weighable};
use super::multiply::{Factors, multiplied};
use crate::document::model::{Amount, Item, Recipe, Step};
use crate::document::placeholder::{Part, Piece, parse_sentence};
use crate::formula::{Formula, ResolvedItem};
use crate::measure::write::{write_amount, write_mass, write_share};
use crate::source::Span;
use numerics::quantity::{Fraction, Mass};

/// Whose sentences.
#[derive(Clone, Copy, PartialEq)]
enum Section {
    Stage(usize),
    Product(usize),
}

/// Which item.
#[derive(Clone, Copy, PartialEq)]
enum Which {
    Own(Section, usize),
    Besides(usize),
}

/// A part as a sentence names it now.
enum NewPart {
    Mass(Mass),
    /// So many whole ones, and what share of all that was.
    Count {
        share: f64,
        count: f64,
        size: Option<String>,
    },
    Other(String),
    /// A share or the rest, which follow by themselves.
    AsIs,
}

/// One use of a part.
struct PartUse {
    which: Which,
    section: Section,
    step: usize,
    span: Span,
    tail: String,
    new: NewPart,
}

/// Rewrites the parts in all sentences. `new` has its new amounts already; its sentences are those
/// of `before`, or longer by what was added.
pub fn follow(new: &mut Recipe, before: &Recipe, formula: &Formula, factors: &Factors) {
    let mut uses = Vec::new();
    for stage in 0..new.stages.len() {
        collect(
            new,
            before,
            formula,
            factors,
            Section::Stage(stage),
            &mut uses,
        );
    }
    for product in 0..new.products.len() {
        collect(
            new,
            before,
            formula,
            factors,
            Section::Product(product),
            &mut uses,
        );
    }
    reconcile(new, &mut uses);
    // The last first, so that places before it hold.
    for one in uses.iter().rev() {
        let amount = match &one.new {
            NewPart::Mass(mass) => write_mass(*mass),
            NewPart::Count { count, size, .. } => write_amount(&Amount::Count {
                count: *count,
                size: size.clone(),
            }),
            NewPart::Other(text) => text.clone(),
            NewPart::AsIs => continue,
        };
        let steps = steps_mut(new, one.section);
        if let Some(step) = steps.get_mut(one.step) {
            step.text.value.replace_range(
                one.span.start..one.span.end,
                &format!("[{amount} of {}]", one.tail),
            );
        }
    }
}

fn steps_mut(recipe: &mut Recipe, section: Section) -> &mut Vec<Step> {
    match section {
        Section::Stage(stage) => &mut recipe.stages[stage].steps,
        Section::Product(product) => &mut recipe.products[product].steps,
    }
}

fn collect(
    new: &Recipe,
    before: &Recipe,
    formula: &Formula,
    factors: &Factors,
    section: Section,
    uses: &mut Vec<PartUse>,
) {
    let (steps, own, factor) = match section {
        Section::Stage(stage) => (
            &new.stages[stage].steps,
            &before.stages[stage].items,
            factors.stages[stage],
        ),
        Section::Product(product) => (
            &new.products[product].steps,
            &before.products[product].with,
            factors.products[product].dough(),
        ),
    };
    for (number, step) in steps.iter().enumerate() {
        for piece in parse_sentence(&step.text.value, 0).0 {
            let Piece::Use { item: name, part } = &piece.value else {
                continue;
            };
            let called = |items: &[Item]| items.iter().position(|item| item.called() == name);
            let which = called(own)
                .map(|place| Which::Own(section, place))
                .or_else(|| called(&before.besides).map(Which::Besides));
            let Some(which) = which else { continue };
            let (was, resolved) = written(before, formula, which);
            let now = now(new, which, name);
            let raw = &step.text.value[piece.span.start + 1..piece.span.end - 1];
            let tail = raw
                .split_once(" of ")
                .map_or(name.as_str(), |(_, tail)| tail);
            let by = match which {
                Which::Own(Section::Stage(_), _) => by_masses(was, now).unwrap_or(factor),
                Which::Besides(_) if matches!(section, Section::Stage(_)) => factors.dough,
                _ => factor,
            };
            uses.push(PartUse {
                which,
                section,
                step: number,
                span: piece.span,
                tail: tail.to_owned(),
                new: new_part(part, by, was, now, resolved),
            });
        }
    }
}

/// An item as it was, with what is known of it.
fn written<'a>(
    before: &'a Recipe,
    formula: &'a Formula,
    which: Which,
) -> (Option<&'a Amount>, Option<&'a ResolvedItem>) {
    let (item, resolved) = match which {
        Which::Own(Section::Stage(stage), place) => (
            before.stages[stage].items.get(place),
            formula
                .stages
                .get(stage)
                .and_then(|sum| sum.items.get(place)),
        ),
        Which::Own(Section::Product(product), place) => {
            (before.products[product].with.get(place), None)
        }
        Which::Besides(place) => (before.besides.get(place), formula.besides.get(place)),
    };
    let take = item
        .and_then(|item| item.take.as_ref())
        .map(|take| &take.value);
    (take, resolved)
}

/// The same item now; what was added may have moved its place.
fn now<'a>(new: &'a Recipe, which: Which, name: &str) -> Option<&'a Amount> {
    let items = match which {
        Which::Own(Section::Stage(stage), _) => &new.stages[stage].items,
        Which::Own(Section::Product(product), _) => &new.products[product].with,
        Which::Besides(_) => &new.besides,
    };
    let item = items.iter().find(|item| item.called() == name)?;
    item.take.as_ref().map(|take| &take.value)
}

fn by_masses(was: Option<&Amount>, now: Option<&Amount>) -> Option<f64> {
    match (was?, now?) {
        (Amount::Mass(was), Amount::Mass(now)) if *was > Mass::ZERO => Some(*now / *was),
        _ => None,
    }
}

fn new_part(
    part: &Part,
    by: f64,
    was: Option<&Amount>,
    now: Option<&Amount>,
    resolved: Option<&ResolvedItem>,
) -> NewPart {
    match part {
        Part::Whole | Part::Rest | Part::Fraction(_) => NewPart::AsIs,
        Part::Mass(mass) => NewPart::Mass(weighable(*mass * by)),
        Part::Amount(Amount::Count { count, size }) => match (was, now) {
            (Some(Amount::Count { count: all, .. }), Some(Amount::Count { count: new, .. })) => {
                let share = count / all;
                NewPart::Count {
                    share,
                    count: (share * new).round().min(new - 1.0).max(1.0),
                    size: size.clone(),
                }
            }
            (Some(Amount::Count { count: all, .. }), Some(Amount::Mass(mass))) => {
                NewPart::Mass(weighable(*mass * (count / all)))
            }
            _ => NewPart::AsIs,
        },
        Part::Amount(amount) => {
            let new = multiplied(amount, by);
            if let Some(measures) = settled_measures(&new)
                && !matches!(now, Some(Amount::Mass(_)) if matches!(was, Some(Amount::Measures(_))))
            {
                return NewPart::Other(write_amount(&measures));
            }
            match ingredient(resolved).and_then(|found| mass_of(found, &new)) {
                Some(mass) => NewPart::Mass(weighable(mass)),
                None => NewPart::Other(write_amount(&new)),
            }
        }
    }
}

/// Where an item is used by masses alone, they come to the whole: in the dough the last part takes
/// up what rounding left, outside it the whole is what the parts come to.
fn reconcile(new: &mut Recipe, uses: &mut [PartUse]) {
    for at in 0..uses.len() {
        let which = uses[at].which;
        let all: Vec<usize> = (0..uses.len())
            .filter(|place| uses[*place].which == which)
            .collect();
        let masses: Vec<Mass> = all
            .iter()
            .filter_map(|place| match uses[*place].new {
                NewPart::Mass(mass) => Some(mass),
                _ => None,
            })
            .collect();
        if all.last() != Some(&at) {
            continue;
        }
        whole_ones(new, uses, &all);
        if masses.len() != all.len() {
            continue;
        }
        let sum: Mass = masses.iter().copied().sum();
        match which {
            Which::Own(Section::Stage(stage), _) => {
                let name = uses[at].tail.trim_start_matches("the ").to_owned();
                let items = &new.stages[stage].items;
                let take = items
                    .iter()
                    .find(|item| item.called() == name)
                    .and_then(|item| item.take.as_ref())
                    .map(|take| take.value.clone());
                if let (Some(Amount::Mass(whole)), NewPart::Mass(last)) = (take, &mut uses[at].new)
                {
                    let left = weighable(whole - (sum - *last));
                    if left > Mass::ZERO {
                        *last = left;
                    }
                }
            }
            Which::Besides(place) => {
                if let Some(take) = new
                    .besides
                    .get_mut(place)
                    .and_then(|item| item.take.as_mut())
                    && matches!(take.value, Amount::Mass(_))
                {
                    take.value = Amount::Mass(sum);
                }
            }
            Which::Own(Section::Product(_), _) => {}
        }
    }
}

/// Parts counted in whole ones come to the whole, the last taking up what is left; where whole ones
/// cannot, they become shares.
fn whole_ones(new: &Recipe, uses: &mut [PartUse], all: &[usize]) {
    let counts: Vec<(usize, f64)> = all
        .iter()
        .filter_map(|place| match uses[*place].new {
            NewPart::Count { count, .. } => Some((*place, count)),
            _ => None,
        })
        .collect();
    let Some((last, last_count)) = counts.last().copied() else {
        return;
    };
    let name = uses[last].tail.trim_start_matches("the ").to_owned();
    let Some(Amount::Count { count: whole, .. }) = now(new, uses[last].which, &name) else {
        return;
    };
    let before: f64 = counts.iter().map(|(_, count)| count).sum::<f64>() - last_count;
    let others = counts.len() < all.len();
    let fits = if others {
        before + last_count < whole - 0.5
    } else {
        before < whole - 0.5
    };
    for (place, _) in counts {
        let new = match &mut uses[place].new {
            NewPart::Count { count, .. } if fits => {
                if place == last && !others {
                    *count = whole - before;
                }
                continue;
            }
            NewPart::Count { share, .. } => {
                write_share(Fraction::from_percent((*share * 100.0).round()))
            }
            _ => continue,
        };
        uses[place].new = NewPart::Other(new);
    }
}
