//! What a mix comes to in one kitchen: where the dough ends as written, what the liquid must read,
//! and what to do when no liquid can do it.

use super::account::account;
use super::balance::{self, ends, solve_for};
use super::goes_in::{Bench, GoesIn, is_butter, of_stages};
use super::limits::{Limits, limits};
use super::model::{Balance, MixAnswer};
use super::wake::middle;
use super::work::{Wanted, wanted};
use crate::code;
use crate::kitchen::Kitchen;
use crate::physics::specific_heat;
use crate::wording::{band, capital, degrees, whole, written as as_written};
use numerics::decimal::fixed;
use numerics::quantity::{Fraction, Mass, Range, Temperature, TemperatureDifference};
use recipe::document::model::{Item, Recipe, Stage};
use recipe::formula::model::{Formula, Resolved, StageSum};
use recipe::source::{Checked, Diagnostic, Span};

/// A dough that ends within so much of what is written has hit it: two home thermometers differ by
/// as much. Common practice.
pub(super) const NEAR_ENOUGH: TemperatureDifference = TemperatureDifference::from_si(1.0);
/// Butter above this share of the flour oils out of a warm dough, is missed when it does, and is smeared in last by hand;
/// common practice.
pub const MUCH_BUTTER: f64 = 0.15;
/// The warmest that a dough with much butter may end; common practice.
const BUTTER_BEARS: Temperature = Temperature::from_celsius(27.0);

/// For every stage whose mix says where the dough should end: where it ends as written, and what
/// its liquid must read here.
pub fn mix(recipe: &Recipe, formula: &Formula, kitchen: &Kitchen) -> Checked<Vec<MixAnswer>> {
    let of_stages = of_stages(formula);
    let solids = super::room::solids(formula);
    let left = super::cooled::left_by_cooling(recipe, formula, kitchen);
    let bench = Bench {
        recipe,
        formula,
        kitchen,
        of_stages: &of_stages,
        left: &left,
    };
    let mut checked = Checked::clean(Vec::new());
    for (place, stage) in recipe.stages.iter().enumerate() {
        let Some(sums) = formula.stages.get(place) else {
            continue;
        };
        let Some(asked) = wanted(stage) else {
            checked
                .diagnostics
                .extend(super::limits::too_hot(bench, place, None));
            continue;
        };
        // Without all masses nothing is known of this mix; the missing one is reported elsewhere.
        let Some(found) = bench.goes_in(place, &asked) else {
            continue;
        };
        if found.parts.shares.is_empty() {
            continue;
        }
        checked
            .diagnostics
            .extend(super::room::room(bench, place, &solids, asked.span));
        let one = Question {
            bench,
            place,
            stage,
            sums,
            asked,
            found,
        };
        let (answer, mut said) = one.answer();
        checked.diagnostics.append(&mut said);
        checked.output.push(answer);
    }
    checked
}

/// Where a stage's dough stands after its last mix, everything as written; `left`: what earlier
/// stages read at their end, in written order. None when nothing is mixed or a mass is missing.
pub fn mixed(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    stage: usize,
    left: &[Option<Temperature>],
) -> Option<Balance> {
    let of_stages = of_stages(formula);
    let bench = Bench {
        recipe,
        formula,
        kitchen,
        of_stages: &of_stages,
        left,
    };
    let last = super::work::last(recipe.stages.get(stage)?)?;
    let found = bench.goes_in_until(stage, last)?;
    (!found.parts.shares.is_empty()).then(|| ends(&found.parts))
}

/// One stage's mix and all that is asked of it.
pub(super) struct Question<'a> {
    pub(super) bench: Bench<'a>,
    pub(super) place: usize,
    pub(super) stage: &'a Stage,
    pub(super) sums: &'a StageSum,
    pub(super) asked: Wanted<'a>,
    pub(super) found: GoesIn,
}

/// The liquid that is adjusted.
pub(super) struct Liquid<'a> {
    pub(super) share: usize,
    pub(super) item: &'a Item,
    pub(super) limits: Limits,
    pub(super) water: bool,
}

impl<'a> Question<'a> {
    fn answer(&self) -> (MixAnswer, Vec<Diagnostic>) {
        let wanted = self.asked.dough.value;
        let as_written = ends(&self.found.parts);
        let mut said = self.outside_range();
        let mut answer = MixAnswer {
            stage: self.sums.name.clone(),
            wanted,
            liquid: None,
            liquid_at: None,
            ice: None,
            as_written,
            solved: None,
        };
        if let Some(liquid) = self.liquid() {
            answer.liquid = Some(liquid.item.called().to_owned());
            said.extend(self.solve(&liquid, &mut answer));
        } else if !near(answer.as_written.ends, wanted) {
            said.push(self.misses(&answer.as_written));
        }
        let adjusted = answer.liquid.as_deref();
        said.extend(super::limits::too_hot(self.bench, self.place, adjusted));
        let outcome = answer.solved.as_ref().unwrap_or(&answer.as_written).ends;
        said.extend(self.butter(outcome));
        (answer, said)
    }

    /// The item to adjust, when it is named and goes in.
    fn liquid(&self) -> Option<Liquid<'a>> {
        let name = self.asked.adjust?;
        let place = self
            .stage
            .items
            .iter()
            .position(|item| item.called() == name.value)?;
        let share = self.found.items.iter().position(|item| *item == place)?;
        let resolved = self.sums.items.get(place)?;
        let Resolved::Ingredient(ingredient) = &resolved.what else {
            return None;
        };
        Some(Liquid {
            share,
            item: &self.stage.items[place],
            limits: limits(self.bench, self.place, ingredient),
            water: ingredient
                .composition
                .water
                .is_some_and(|share| share.si() > 0.98),
        })
    }

    /// Finds what the liquid must read; past its limits, what else would do.
    fn solve(&self, liquid: &Liquid<'_>, answer: &mut MixAnswer) -> Option<Diagnostic> {
        let parts = &self.found.parts;
        let wanted = answer.wanted;
        if let Some(written) = &liquid.item.at
            && shows_within(answer.as_written.ends, wanted)
        {
            // What is written does it here: nothing is to be changed.
            answer.liquid_at = Some(written.value);
            answer.solved = Some(answer.as_written.clone());
            return None;
        }
        let (target, reads) = self.aim(liquid)?;
        let at = |temperature| balance::with_share_at(parts, liquid.share, temperature);
        if reads > liquid.limits.warmest {
            let limited = at(liquid.limits.warmest);
            let reached = ends(&limited);
            let enough = near(reached.ends, wanted);
            answer.liquid_at = Some(liquid.limits.warmest);
            answer.solved = Some(reached);
            return (!enough).then(|| self.too_cold(liquid, reads, &limited, target));
        }
        let coldest = ends(&at(liquid.limits.coldest));
        if reads < liquid.limits.coldest && near(coldest.ends, wanted) {
            answer.liquid_at = Some(liquid.limits.coldest);
            answer.solved = Some(coldest);
            return None;
        }
        if reads < liquid.limits.coldest {
            let (limited, ice, said) = self.too_warm(liquid, reads, target);
            answer.liquid_at = limited.shares.get(liquid.share).map(|share| share.at);
            answer.ice = ice;
            answer.solved = Some(ends(&limited));
            return Some(said);
        }
        answer.liquid_at = Some(reads);
        answer.solved = Some(ends(&at(reads)));
        let written = liquid.item.at.as_ref()?;
        let gives = answer.as_written.ends;
        (!near(gives, answer.wanted)).then(|| {
            let what = liquid.item.called();
            let mut said = Diagnostic::at(
                code::WRITTEN_LIQUID_MISSES_TARGET,
                written.span,
                format!(
                    "With {what} at {} the dough ends at {} in this kitchen; wanted is {}.",
                    as_written(written.value),
                    degrees(gives),
                    band(answer.wanted),
                ),
            )
            .hint(format!(
                "In this kitchen the {what} should read {}.",
                degrees(reads)
            ))
            .because(account(&answer.as_written));
            let cooled = self.cooled_first(liquid, target);
            said.hints.extend(cooled.map(|way| format!("Or {way}")));
            said
        })
    }

    /// What is aimed at, and what the liquid must read for it: the middle of the band, or its nearer
    /// end when only that is within what the liquid can read.
    fn aim(&self, liquid: &Liquid<'_>) -> Option<(Temperature, Temperature)> {
        let wanted = self.asked.dough.value;
        let reads = |target| solve_for(&self.found.parts, liquid.share, target);
        let target = middle(wanted);
        let for_middle = reads(target)?;
        let end = if for_middle > liquid.limits.warmest {
            wanted.low
        } else if for_middle < liquid.limits.coldest {
            wanted.high
        } else {
            return Some((target, for_middle));
        };
        let for_end = reads(end)?;
        if liquid.limits.hold(for_end) {
            Some((end, for_end))
        } else {
            Some((target, for_middle))
        }
    }

    /// Nothing is named to be adjusted, and the dough ends elsewhere.
    fn misses(&self, as_written: &Balance) -> Diagnostic {
        let wanted = self.asked.dough.value;
        let warm = as_written.ends > wanted.high;
        Diagnostic::at(
            code::DOUGH_MISSES_TARGET,
            self.asked.dough.span,
            format!(
                "The {} ends at {} in this kitchen; wanted is {}, and no liquid is named to put it right.",
                self.sums.name,
                degrees(as_written.ends),
                band(wanted),
            ),
        )
        .hint(if warm {
            "Bring eggs, milk or butter colder, or mix for a shorter time."
        } else {
            "Bring eggs and butter nearer to the room's temperature, or warm the bowl."
        })
        .hint("Name a liquid in `adjust`, and its temperature is worked out for every kitchen.")
        .because(account(as_written))
    }

    /// Much butter in a warm dough.
    fn butter(&self, outcome: Temperature) -> Option<Diagnostic> {
        let is_fat = |what: &Resolved| matches!(what, Resolved::Ingredient(i) if is_butter(i));
        let butter: Mass = self
            .sums
            .items
            .iter()
            .filter(|item| is_fat(&item.what))
            .filter_map(|item| item.mass)
            .sum();
        let share = self.sums.holds.of_flour(butter).map_or(0.0, Fraction::si);
        let aimed = self.asked.dough.value.high;
        let warmest = if outcome > aimed { outcome } else { aimed };
        // A dough that is aimed right and misses by chance is told so once, by the other findings.
        if share <= MUCH_BUTTER || warmest <= BUTTER_BEARS {
            return None;
        }
        Some(
            Diagnostic::at(
                code::DOUGH_TOO_WARM_FOR_BUTTER,
                self.asked.dough.span,
                format!(
                    "With butter at {}\u{a0}% of the flour, a dough of {} turns greasy: butter goes oily above {}.",
                    fixed(share * 100.0, 0),
                    degrees(warmest),
                    degrees(BUTTER_BEARS),
                ),
            )
            .hint("Use eggs and milk from the refrigerator, or chill the flour.")
            .hint("Stop the mixer when the dough reads 27\u{a0}°C and finish after 20 min in the refrigerator."),
        )
    }

    /// Things brought at a temperature for which no specific heat is known.
    fn outside_range(&self) -> Vec<Diagnostic> {
        let far = |share: &&super::model::Share| !specific_heat::holds_at(share.at);
        let place = |share: &super::model::Share| -> Span {
            let named = self
                .stage
                .items
                .iter()
                .find(|item| item.called() == share.what);
            named.map_or(self.asked.span, |item| {
                item.at.as_ref().map_or(item.span, |at| at.span)
            })
        };
        self.found
            .parts
            .shares
            .iter()
            .filter(far)
            .map(|share| {
                Diagnostic::at(
                    code::RELATION_OUTSIDE_ITS_RANGE,
                    place(share),
                    format!(
                        "{} at {} lies outside −40 to 150\u{a0}°C, where the specific heats of foods hold.",
                        capital(&share.what),
                        as_written(share.at),
                    ),
                )
                .hint("Look whether the temperature is meant so.")
            })
            .collect()
    }
}

/// Whether a dough has hit what is wanted, as nearly as a thermometer tells.
fn near(ends: Temperature, wanted: Range<Temperature>) -> bool {
    wanted.low - NEAR_ENOUGH <= ends && ends <= wanted.high + NEAR_ENOUGH
}

/// Whether a dough's end, in the whole degrees that are shown, lies in the band that is shown.
fn shows_within(ends: Temperature, wanted: Range<Temperature>) -> bool {
    whole(wanted.low) <= whole(ends) && whole(ends) <= whole(wanted.high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use recipe::document::read_recipe;
    use recipe::larder::Larder;

    const LOAF: &str = include_str!("../../../../examples/same-day-loaf.toml");

    fn in_usual_kitchen(text: &str) -> Checked<Vec<MixAnswer>> {
        let recipe = read_recipe(text).output.expect("it reads");
        let formula = recipe::formula::formula(&recipe, &Larder::open()).output;
        mix(&recipe, &formula, &Kitchen::standard())
    }

    #[test]
    fn a_mix_with_an_unweighed_item_has_no_answer() {
        let whole = in_usual_kitchen(LOAF);
        let mut recipe = read_recipe(LOAF).output.expect("it reads");
        let mut formula = recipe::formula::formula(&recipe, &Larder::open()).output;
        let kitchen = Kitchen::standard();
        let place = formula
            .stages
            .iter()
            .position(|stage| stage.name == whole.output[0].stage)
            .expect("the stage is there");
        formula.stages[place].items[0].mass = None;
        recipe.stages.truncate(place + 1);
        formula.stages.truncate(place + 1);
        let without = mix(&recipe, &formula, &kitchen);
        assert!(
            without
                .output
                .iter()
                .all(|one| one.stage != whole.output[0].stage)
        );
        assert_eq!(without.diagnostics, Vec::new());
    }

    #[test]
    fn what_is_shown_in_the_band_is_within() {
        let at = Temperature::from_celsius;
        let wanted = Range {
            low: at(25.0),
            high: at(26.0),
        };
        assert!(shows_within(at(26.4), wanted));
        assert!(!shows_within(at(26.6), wanted), "27 °C is shown");
        assert!(!shows_within(at(24.4), wanted));
    }

    #[test]
    fn stages_that_feed_all_later_ones_are_worked_out_once() {
        use recipe::formula::model::{Formula, Resolved};
        let recipe = read_recipe(LOAF).output.expect("it reads");
        let mut formula: Formula = recipe::formula::formula(&recipe, &Larder::open()).output;
        let first = formula.stages[0].clone();
        let one = first.items[0].clone();
        // Two to the sixtieth visits would never end.
        formula.stages = (0..60)
            .map(|place| {
                let mut stage = first.clone();
                stage.items.extend((0..place).map(|earlier| {
                    let mut item = one.clone();
                    item.what = Resolved::Stage(earlier);
                    item
                }));
                stage
            })
            .collect();
        assert_eq!(super::super::room::solids(&formula).len(), 60);
        assert_eq!(of_stages(&formula).len(), 60);
    }
}
