//! Reckoned times for a page and its papers: one day in the page's kitchen, the rises of others.

use super::work::Work;
use crate::world::workers;
use bake::kitchen::Kitchen;
use bake::simulate::{How, simulate};
use edit::Inputs;
use edit::ledger::happens::other_rooms::{how, kitchens, reckon, to_the_oven};

/// Writes reckoned times into a work's ledger, once; nothing when something must be mended first.
pub fn reckoned(work: &mut Work) {
    if work.stops() {
        return;
    }
    let Some(made) = &mut work.made else { return };
    if made.ledger.reckoned.is_some() {
        return;
    }
    let inputs = Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
    let taught = made.taught(&made.kitchen, &how()).output;
    let here = How {
        anchor: taught.factors,
        ..how()
    };
    let rises = to_the_oven(&here);
    let others = kitchens(&inputs);
    let mut asked: Vec<(&Kitchen, &How)> = vec![(&made.kitchen, &here)];
    asked.extend(others.iter().map(|kitchen| (kitchen, &rises)));
    let courses = workers::each(&asked, |(kitchen, how)| {
        simulate(&made.recipe, &made.formula, kitchen, how).output
    });
    let mut courses = courses.into_iter();
    if let Some(mut course) = courses.next() {
        course.anchored = taught;
        let others: Vec<_> = courses.collect();
        reckon(&mut made.ledger, &inputs, &course, &others);
    }
}
