//! A wreath: the circle it is laid along outside, and the hole that its rope leaves.

use super::model::{Line, Part, Pattern, PatternKind};
use super::said::{Said, in_step};
use super::{Made, SHAPED_SOURCE, fact, sizes, sum_of, volume_mm3};
use crate::Inputs;
use crate::ledger::say;
use numerics::flat::rope_of_ring;
use numerics::quantity::Mass;
use recipe::document::model::Product;
use recipe::provenance::{Had, Origin};

/// One ring for each product whose sentence closes it to one.
pub(super) fn patterns(inputs: &Inputs) -> Made {
    let products = inputs.recipe.products.iter();
    let drawn: Vec<_> = products
        .filter_map(|product| ring(inputs, product))
        .collect();
    if drawn.is_empty() {
        return Err("No step closes the dough to a ring of a written size.".to_owned());
    }
    Ok(drawn)
}

fn ring(inputs: &Inputs, product: &Product) -> Option<Pattern> {
    let outer = product
        .steps
        .iter()
        .flat_map(in_step)
        .find_map(|said| match said {
            Said::Ring(mm) => Some(mm),
            _ => None,
        })?;
    let name = &product.name.value;
    let mass = sum_of(inputs.formula, product).map_or(Mass::ZERO, |sum| sum.piece + sum.filling);
    let place = format!("ring.{name}");
    let written = Origin::new("the recipe", Had::Written);
    let reckoned = Origin::new(SHAPED_SOURCE, Had::CommonPractice);
    let mut lengths = vec![fact(&place, "Outer circle", &[outer], &written)];
    let radius = outer / 2.0;
    let alt = format!(
        "Two circles about one middle, the outer {} across.",
        sizes(&[outer])
    );
    let mut part = Part::new("", alt, outer, outer);
    part.circle(Line::Edge, (radius, radius), radius);
    part.word(
        (outer * 0.13, outer * 0.06),
        10.0,
        format!("outer, {}", sizes(&[outer])),
    );
    let mut notes = Vec::new();
    if let Some(rope) = rope_of_ring(outer, volume_mm3(mass)) {
        let inner = outer - 2.0 * rope;
        lengths.push(fact(&place, "Inner circle, about", &[inner], &reckoned));
        lengths.push(fact(&place, "Rope, about", &[rope], &reckoned));
        part.circle(Line::Edge, (radius, radius), inner / 2.0);
        part.word(
            (radius * 0.62, radius * 0.78),
            10.0,
            format!("inner, {}", sizes(&[inner])),
        );
        notes.push(format!(
            "The inner circle is worked out for {SHAPED_SOURCE}: a rope as thick all round. The \
             hole closes in as the ring rises."
        ));
    }
    part.cross((radius, radius), 6.0);
    Some(Pattern {
        kind: PatternKind::Ring,
        title: format!("Ring for the {name}"),
        of: format!("{} of dough and filling", say::mass(mass)),
        lengths,
        parts: vec![part],
        steps: vec![
            "Lay the drawing under the baking paper.".to_owned(),
            "Lay the rope between the two circles and pinch its ends together. Pull the drawing \
             out before anything goes near the oven."
                .to_owned(),
        ],
        notes,
    })
}
