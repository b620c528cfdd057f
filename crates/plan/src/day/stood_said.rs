//! What is to be said of doughs that stand past their best: what is behind, who is away, what ends before its sign.

use super::findings::{at, hours_between};
use super::lengths::steps;
use super::replay::{Replayed, SAME_MIN};
use super::stood::{Away, Stood};
use super::tasks::Batch;
use super::words::words;
use super::{Asked, Day, code};
use crate::shoot::words::spell;
use recipe::document::model::{Recipe, Step};
use recipe::source::Diagnostic;

/// All of it.
pub fn stood(asked: &Asked<'_>, batches: &[Batch<'_>], day: &Day) -> Vec<Diagnostic> {
    let behind = day.stood.iter().filter(|one| one.behind);
    let mut all: Vec<Diagnostic> = behind.map(|one| behind_now(batches, day, one)).collect();
    all.extend(day.away.iter().map(|one| away(asked, batches, one)));
    all.extend(sooner(batches));
    all
}

/// A dough that stood too long while nobody came.
fn behind_now(batches: &[Batch<'_>], day: &Day, one: &Stood) -> Diagnostic {
    let batch = &batches[one.batch];
    let mut said = format!(
        "{}: “{}” has stood {} past its sign, which came after {}; that is {} past its best.",
        batch.label,
        one.words,
        spell(i64::from(one.beyond)),
        spell(i64::from(one.sign)),
        spell(i64::from(one.past)),
    );
    let of_it = day.replayed.iter().filter(|own| {
        let line = one.product.is_none_or(|product| product == own.product);
        own.batch == one.batch && own.stood > 0 && line
    });
    for own in of_it {
        said.push_str(&after(batch, own));
    }
    Diagnostic::whole(code::DOUGH_HAS_STOOD, said).hint(
        "Smell it and pull at it: what is sour, wet and tears makes no good bread; mix anew. Otherwise go on at once, and let the dent decide and not the clock.",
    )
}

/// What becomes of the last rise.
fn after(batch: &Batch<'_>, own: &Replayed) -> String {
    let name = &batch.recipe.products[own.product.0].name.value;
    if own.never {
        return format!(
            " The last rise of the {name} comes to its sign no more; it is baked after {}, and will be flat.",
            spell(i64::from(own.rises))
        );
    }
    if (own.sign - own.usual).abs() > SAME_MIN {
        return format!(
            " The last rise of the {name} takes some {} now, not {}.",
            spell(i64::from(own.sign)),
            spell(i64::from(own.usual))
        );
    }
    String::new()
}

/// A sign that comes while nobody is there.
fn away(asked: &Asked<'_>, batches: &[Batch<'_>], one: &Away) -> Diagnostic {
    let (hours, keep) = if one.quiet {
        ("the quiet hours", "keep")
    } else {
        ("the break", "keeps")
    };
    let said = format!(
        "{}: the sign of “{}” comes on {}; {hours} from {} {keep} hands away, and it stands {} past its best until somebody comes.",
        batches[one.batch].label,
        one.words,
        at(asked, one.sign),
        hours_between(asked, one.shut),
        spell(i64::from(one.past)),
    );
    Diagnostic::whole(code::HANDS_AWAY, said).hint(
        "Let those hours begin later on that day (quiet and breaks in the kitchen's file), begin earlier, or put the dough into the refrigerator meanwhile.",
    )
}

/// Rests that end before their sign.
fn sooner(batches: &[Batch<'_>]) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    for batch in batches {
        let rests = steps(batch.recipe).zip(&batch.lengths).enumerate();
        for (place, (step, length)) in rests.filter(|(_, (_, length))| length.cut > 0) {
            let said = format!(
                "{}: “{}” (step {}) ends {} before its sign, after {}: at its sign nobody could come.",
                batch.label,
                called(batch.recipe, place, step),
                place + 1,
                spell(i64::from(length.cut)),
                spell(i64::from(length.lasts)),
            );
            all.push(Diagnostic::whole(code::ENDED_BEFORE_ITS_SIGN, said).hint(
                "It is a little less risen and rises on later; stand it a degree or two warmer, and it is there in time.",
            ));
        }
    }
    all
}

/// What a step is called in the plan.
fn called(recipe: &Recipe, place: usize, step: &Step) -> String {
    let mut first = 0;
    for stage in &recipe.stages {
        first += stage.steps.len();
        if place < first {
            return words(&step.action, &stage.name.value, None);
        }
    }
    let of = recipe.products.iter().find(|product| {
        first += product.steps.len();
        place < first
    });
    words(&step.action, of.map_or("bread", |of| &of.name.value), None)
}
