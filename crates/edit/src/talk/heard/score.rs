//! How well a fact goes with what stands around a figure: its words, its part, its step, what is done there.

use super::{Around, Heard};
use crate::talk::doing::Doing;
use crate::talk::facts::{Fact, Sort};

impl Heard<'_> {
    /// How well a fact goes with what stands around a figure; higher is better.
    pub fn score(&self, around: &Around, fact: &Fact) -> f64 {
        self.by_words(around, fact)
            + self.by_section(around, fact)
            + self.by_step(around, fact)
            + by_doing(around, fact)
    }

    fn by_words(&self, around: &Around, fact: &Fact) -> f64 {
        let sum = |stems: &[String]| -> f64 {
            fact.stems
                .iter()
                .filter(|stem| stems.binary_search(stem).is_ok())
                .map(|stem| 1.5 / (1.0 + self.spread.get(stem).copied().unwrap_or(0.0) / 6.0))
                .sum()
        };
        let clause = sum(&around.clause_stems).min(3.0);
        let sentence = (0.5 * sum(&around.sentence_stems)).min(1.5);
        let before = (0.2 * sum(&around.before_stems)).min(0.6);
        clause + sentence + before
    }

    fn by_section(&self, around: &Around, fact: &Fact) -> f64 {
        let Some(section) = fact.section else {
            return 0.0;
        };
        let product = section >= self.inputs.recipe.stages.len();
        let named = |products: &[usize], weight: f64| {
            if products.contains(&section) {
                weight
            } else if products.is_empty() {
                0.0
            } else if product {
                -1.5 * weight
            } else {
                -0.7 * weight
            }
        };
        let mut score = if around.clause_products.is_empty() {
            named(&around.sentence_products, 2.0)
        } else {
            named(&around.clause_products, 4.0)
        };
        if around.clause_stages.contains(&section) {
            score += 2.5;
        } else if around.sentence_stages.contains(&section) {
            score += 1.2;
        }
        // What was named last is spoken of still, and its heat the more where it was named just now.
        if around.topic == Some(section) {
            score += if around.fresh && product && fact.sort == Sort::Heat {
                3.0
            } else {
                1.5
            };
        }
        score
    }

    fn by_step(&self, around: &Around, fact: &Fact) -> f64 {
        let Some(step) = fact.step else { return 0.0 };
        let apart = f64::from(u32::try_from(step.abs_diff(around.step)).unwrap_or(u32::MAX));
        let sure = if around.told { 1.0 } else { 0.6 };
        let same = fact.section == self.places.get(around.step).map(|place| place.section);
        let near = match step.abs_diff(around.step) {
            0 => 3.0,
            1 => 1.5,
            _ if same => 0.5,
            _ => -(0.25 * apart).min(2.5),
        };
        near * sure
    }
}

/// How many steps a fact stands from where the talk has come to; very many for one of no step.
pub(in crate::talk) fn steps_off(around: &Around, fact: &Fact) -> usize {
    fact.step
        .map_or(usize::MAX, |step| step.abs_diff(around.step))
}

/// What is done in the sentence behind one that tells nothing; our own choice.
const BEHIND: f64 = 1.5;

/// How well what is done goes together.
fn by_doing(around: &Around, fact: &Fact) -> f64 {
    let clause = around.clause;
    if fact.doing.is_none() {
        return 0.0;
    }
    let mut score = if clause.meets(fact.doing) {
        3.0 + f64::from(clause.shared(fact.doing)).min(3.0)
    } else if around.sentence.meets(fact.doing) {
        2.0
    } else if around.before.meets(fact.doing) {
        0.5
    } else {
        -1.0
    };
    // "The loaf takes fifty-four minutes. Deep brown on top": what follows tells what it was.
    if fact.sort == Sort::Time && around.behind.meets(fact.doing) && !fact.doing.meets(Doing::CHECK)
    {
        score += BEHIND;
    }
    // Some things are meant only where their own word falls.
    let wide = around.clause.and(around.sentence);
    // The time of the first look stands with the looking.
    if fact.doing.meets(Doing::CHECK) && !clause.meets(Doing::CHECK) {
        score -= 2.0;
    }
    if fact.doing.meets(Doing::CHILL) && !around.near.meets(Doing::CHILL) {
        score -= 1.5;
    }
    if fact.doing.meets(Doing::FOLD) && !around.near.meets(Doing::FOLD) {
        score -= 3.0;
    }
    let heat = fact.sort == Sort::Heat;
    if heat && fact.doing.meets(Doing::COOL) && !clause.meets(Doing::COOL) {
        score -= 3.0;
    }
    if heat
        && fact.doing.meets(Doing::WARM)
        && !around.clause.and(around.sentence).meets(Doing::REST)
        && !around.before.meets(Doing::REST)
    {
        score -= 2.0;
    }
    for (own, missing) in [
        (Doing::CHECK, 2.5),
        (Doing::READY, 3.0),
        (Doing::FOLD, 3.0),
        (Doing::CHILL, 1.5),
        (Doing::CORE, 1.5),
        (Doing::DOUGH, 1.5),
    ] {
        if fact.doing.meets(own) && !wide.meets(own) {
            score -= missing;
        }
    }
    if around.sentence.meets(Doing::STORE) && !fact.doing.meets(Doing::STORE) {
        score -= 2.5;
    }
    if fact.doing.meets(Doing::STORE) && wide.meets(Doing::STORE) {
        score += 2.0;
    }
    if fact.doing.meets(Doing::STORE) && !wide.and(around.before).meets(Doing::STORE) {
        score -= 5.0;
    }
    for (own, alien) in [
        (Doing::CHILL, 2.5),
        (Doing::STORE, 3.0),
        (Doing::CORE, 3.0),
        (Doing::CHECK, 1.0),
        (Doing::FOLD, 1.0),
        (Doing::DOUGH, 2.0),
        (Doing::READY, 1.5),
        (Doing::WAKE, 2.0),
    ] {
        // The middle of a dough is told in the words of a bake.
        let kin = if own == Doing::CORE || own == Doing::DOUGH {
            Doing::CORE.and(Doing::DOUGH)
        } else {
            own
        };
        if clause.meets(own) && !fact.doing.meets(kin) {
            score -= alien;
        }
    }
    if fact.doing.meets(Doing::TOTAL) && !wide.meets(Doing::TOTAL) {
        score -= 9.0;
    }
    if fact.sort == Sort::Time && fact.doing == Doing::PREHEAT && !wide.meets(Doing::PREHEAT) {
        score -= 3.0;
    }
    // "Give it fifteen minutes to get hot": what heats does not bake yet.
    if fact.sort == Sort::Time
        && clause.meets(Doing::PREHEAT)
        && !clause.meets(Doing::BAKE)
        && fact.doing.meets(Doing::BAKE)
    {
        score -= 8.0;
    }
    // "You bake the braid for twenty-six minutes": what bakes is not heating any more.
    if fact.sort == Sort::Time
        && fact.doing == Doing::PREHEAT
        && clause.meets(Doing::BAKE)
        && !clause.meets(Doing::PREHEAT)
    {
        score -= 8.0;
    }
    score
}
