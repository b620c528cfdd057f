//! Of which bread a deed and its moment are, where a recipe has several.

use crate::talk::heard::Heard;
use crate::talk::points::Point;
use crate::talk::things::Sort;

/// Points of the bread that is named with them; where there are several and none is named, those of the dough.
pub(super) fn of_one_bread(
    heard: &Heard,
    (first, end, mut deeds): (usize, usize, Vec<Point>),
    (from, to, mut moments): (usize, usize, Vec<Point>),
) -> (Vec<Point>, Vec<Point>) {
    let stages = heard.inputs.recipe.stages.len();
    let (with_deed, with_moment) = (breads(heard, first, end), breads(heard, from, to));
    let only_one = heard.inputs.recipe.products.len() == 1;
    let of = |point: &Point, own: &[usize], other: &[usize]| {
        let known = if own.is_empty() { other } else { own };
        point.section < stages || only_one || known.contains(&point.section)
    };
    deeds.retain(|point| of(point, &with_deed, &with_moment));
    moments.retain(|point| of(point, &with_moment, &with_deed));
    (deeds, moments)
}

/// The same where nothing is left out because no bread is named: "when the knots come out, brush the wreath" is of two.
pub(super) fn of_named_breads(
    heard: &Heard,
    (first, end, deeds): (usize, usize, Vec<Point>),
    (from, to, moments): (usize, usize, Vec<Point>),
) -> (Vec<Point>, Vec<Point>) {
    let several = heard.inputs.recipe.products.len() > 1;
    let with_deed = breads(heard, first, end);
    let with_moment = breads(heard, from, to);
    if !several || with_deed.is_empty() && with_moment.is_empty() {
        return (deeds, moments);
    }
    // "They" of the moment are the bread that was named last.
    let with_moment = if with_moment.is_empty() {
        last_named(heard, from)
    } else {
        with_moment
    };
    let stages = heard.inputs.recipe.stages.len();
    let keep = |points: Vec<Point>, own: &[usize], other: &[usize]| -> Vec<Point> {
        let known = if own.is_empty() { other } else { own };
        points
            .into_iter()
            .filter(|point| {
                point.section < stages || known.is_empty() || known.contains(&point.section)
            })
            .collect()
    };
    (
        keep(deeds, &with_deed, &with_moment),
        keep(moments, &with_moment, &with_deed),
    )
}

/// The breads that are named within some words.
fn breads(heard: &Heard, first: usize, end: usize) -> Vec<usize> {
    heard
        .mentions_in(first, end)
        .iter()
        .flat_map(|mention| &mention.things)
        .filter_map(|thing| match heard.things[*thing].sort {
            Sort::Product(section) => Some(section),
            _ => None,
        })
        .collect()
}

/// The bread that was named last before a word.
fn last_named(heard: &Heard, before: usize) -> Vec<usize> {
    let named = heard
        .mentions_in(0, before)
        .iter()
        .rev()
        .flat_map(|mention| &mention.things)
        .find_map(|thing| match heard.things[*thing].sort {
            Sort::Product(section) => Some(section),
            _ => None,
        });
    named.into_iter().collect()
}
