//! What else a cook can do when no temperature of the liquid brings the dough where it is wanted.

use super::account::account;
use super::answer::{Liquid, NEAR_ENOUGH, Question};
use super::balance::{
    self, Ice, Parts, ends, ice_for, solve_for, solve_for_both, solve_for_bowl, with_ice,
};
use crate::code;
use crate::wording::{band, capital, degrees, grams};
use numerics::quantity::{Mass, Temperature};
use recipe::formula::model::Resolved;
use recipe::larder::Role;
use recipe::source::Diagnostic;

/// The ice of the trade's tables: melting.
const WET_ICE: Temperature = Temperature::from_celsius(0.0);
/// Flour and bowl are not warmed past what a hand bears; common practice.
const WARMED_AT_MOST: Temperature = Temperature::from_celsius(45.0);

/// What always remains for a dough that is too warm.
const REST: &str = "mix in two goes with a rest in the refrigerator between them.";

/// The last way out: "Or let it …" after others, "Let it …" when it is the only one.
fn last_of(before: &[String], way: &str) -> String {
    if before.is_empty() {
        capital(way)
    } else {
        format!("Or {way}")
    }
}

impl Question<'_> {
    /// The liquid would have to be hotter than its yeast bears: warm the flour or the bowl.
    pub(super) fn too_cold(
        &self,
        liquid: &Liquid<'_>,
        reads: Temperature,
        limited: &Parts,
        target: Temperature,
    ) -> Diagnostic {
        let what = liquid.item.called();
        let reached = ends(limited);
        let mut said = Diagnostic::at(
            code::LIQUID_CANNOT_REACH_TARGET,
            self.asked.adjust.map_or(self.asked.span, |name| name.span),
            format!(
                "For a dough of {} the {what} would have to read {}; {}. At {} it gives {}.",
                band(self.asked.dough.value),
                degrees(reads),
                liquid.limits.why_not_warmer,
                degrees(liquid.limits.warmest),
                degrees(reached.ends),
            ),
        );
        let mut ways = self.warmer(limited, target);
        let as_it_is = format!(
            "let the dough end at {} and give it longer to rise.",
            degrees(reached.ends)
        );
        ways.push(last_of(&ways, &as_it_is));
        said.hints = ways;
        said.because(account(&reached))
    }

    /// What could be warmed besides the liquid, each with what it must read.
    fn warmer(&self, limited: &Parts, target: Temperature) -> Vec<String> {
        let bearable = |at: &Temperature| *at <= WARMED_AT_MOST;
        let flour = self.flour(limited);
        let mut ways = Vec::new();
        if let Some(share) = flour
            && let Some(at) = solve_for(limited, share, target).filter(bearable)
        {
            let name = &limited.shares[share].what;
            ways.push(format!("Warm the {name} to {} as well.", degrees(at)));
        }
        if let Some(at) = solve_for_bowl(limited, target).filter(bearable) {
            let at = degrees(at);
            ways.push(format!(
                "Rinse the bowl with hot water until it reads {at}."
            ));
        }
        if ways.is_empty()
            && let Some(share) = flour
            && let Some(at) = solve_for_both(limited, share, target).filter(bearable)
        {
            let name = &limited.shares[share].what;
            let at = degrees(at);
            ways.push(format!(
                "Warm both the {name} and the bowl to {at} as well."
            ));
        }
        ways
    }

    /// The liquid would have to be colder than it can be: ice for water, else cold flour.
    pub(super) fn too_warm(
        &self,
        liquid: &Liquid<'_>,
        reads: Temperature,
        target: Temperature,
    ) -> (Parts, Option<Mass>, Diagnostic) {
        let what = liquid.item.called();
        let coldest =
            balance::with_share_at(&self.found.parts, liquid.share, liquid.limits.coldest);
        let reached = ends(&coldest);
        let said = Diagnostic::at(
            code::LIQUID_CANNOT_REACH_TARGET,
            self.asked.adjust.map_or(self.asked.span, |name| name.span),
            format!(
                "For a dough of {} the {what} would have to read {}, which is colder than it can be. At {} it gives {}.",
                band(self.asked.dough.value),
                degrees(reads),
                degrees(liquid.limits.coldest),
                degrees(reached.ends),
            ),
        )
        .because(account(&reached));
        let with_ways = |mut said: Diagnostic, mut ways: Vec<String>| {
            if let Some(way) = self.cooled_first(liquid, target) {
                ways.push(last_of(&ways, &way));
            }
            ways.extend(self.colder(&coldest, target));
            ways.push(last_of(&ways, REST));
            said.hints = ways;
            said
        };
        if liquid.water {
            let tap = self.tap(liquid);
            let all = tap.shares[liquid.share].mass;
            if let Some(ice) = ice_for(&tap, liquid.share, WET_ICE, target).filter(|i| *i < all) {
                let iced = with_ice(
                    &tap,
                    liquid.share,
                    Ice {
                        mass: ice,
                        at: WET_ICE,
                    },
                );
                let take = format!(
                    "Take {} of ice and {} of {what} at {}.",
                    grams(ice),
                    grams(all - ice),
                    degrees(tap.shares[liquid.share].at),
                );
                return (iced, Some(ice), with_ways(said, vec![take]));
            }
        }
        let said = with_ways(said, Vec::new());
        (coldest, None, said)
    }

    /// Flour out of the refrigerator, when that is cold enough.
    fn colder(&self, coldest: &Parts, target: Temperature) -> Option<String> {
        let share = self.flour(coldest)?;
        let at = solve_for(coldest, share, target)?;
        let name = &coldest.shares[share].what;
        (at >= self.bench.kitchen.refrigerator)
            .then(|| format!("Chill the {name} to {} as well.", degrees(at)))
    }

    /// A cooked paste that comes in warm: cooled to the room first, and what the liquid must read then.
    pub(super) fn cooled_first(&self, liquid: &Liquid<'_>, target: Temperature) -> Option<String> {
        let room = self.bench.kitchen.room;
        let parts = &self.found.parts;
        let (share, _) = self.found.items.iter().enumerate().find(|(share, item)| {
            let what = self.sums.items.get(**item).map(|sum| &sum.what);
            matches!(what, Some(Resolved::Stage(_))) && parts.shares[*share].at > room + NEAR_ENOUGH
        })?;
        let cooled = balance::with_share_at(parts, share, room);
        let reads = solve_for(&cooled, liquid.share, target)?;
        liquid.limits.hold(reads).then(|| {
            format!(
                "let the {} cool to {} first; then the {} should read {}.",
                parts.shares[share].what,
                degrees(room),
                liquid.item.called(),
                degrees(reads),
            )
        })
    }

    /// The same with the liquid as cold as this kitchen has it at hand.
    fn tap(&self, liquid: &Liquid<'_>) -> Parts {
        let kitchen = self.bench.kitchen;
        let as_is = self.found.parts.shares[liquid.share].at;
        let at = if as_is < kitchen.tap {
            as_is
        } else {
            kitchen.tap
        };
        balance::with_share_at(&self.found.parts, liquid.share, at)
    }

    /// The largest lot of flour among the shares.
    fn flour(&self, parts: &Parts) -> Option<usize> {
        let is_flour = |share: &usize| {
            let sum = self
                .found
                .items
                .get(*share)
                .and_then(|item| self.sums.items.get(*item));
            match sum.map(|sum| &sum.what) {
                Some(Resolved::Ingredient(ingredient)) => ingredient.role == Role::Flour,
                _ => false,
            }
        };
        (0..parts.shares.len())
            .filter(is_flour)
            .max_by(|one, other| parts.shares[*one].mass.order(parts.shares[*other].mass))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_way_out_that_stands_alone_has_no_or() {
        assert!(last_of(&[], REST).starts_with("Mix in two goes"));
        assert!(last_of(&["Chill the flour.".to_owned()], REST).starts_with("Or mix in"));
    }
}
