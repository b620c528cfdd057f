//! What goes into a stage's mix in one kitchen: masses, heat capacities, temperatures, heats.
//!
//! The temperature of an item: what its `at` says, for then the cook has made it so; else where
//! the kitchen keeps an ingredient of that name; else where its `from` says it stood; else the tap
//! for plain water and the room for all else. Yeast and liquid that a step wakes come in where they
//! settled. An earlier stage comes in where its last rest, cooling or heating left it.

use super::balance::{Melting, Parts, Work};
use super::model::Share;
use super::work::{self, Seconds, Seen, Wanted};
use crate::kitchen::Kitchen;
use crate::physics::proximate::Proximate;
use crate::physics::{heats, specific_heat};
use numerics::quantity::{Energy, HeatCapacity, Mass, SpecificHeat, SpecificPower, Temperature};
use recipe::document::model::{Action, Item, Recipe, Stage, Standing, Store};
use recipe::formula::model::{Formula, Resolved, ResolvedItem, StageSum};
use recipe::larder::{Ingredient, Role};

/// What goes in, and which item each share is.
pub struct GoesIn {
    /// The parts of the balance.
    pub parts: Parts,
    /// For each share, the place of its item in the stage.
    pub items: Vec<usize>,
}

/// Everything that is known about a recipe in a kitchen.
#[derive(Clone, Copy)]
pub struct Bench<'a> {
    /// As written.
    pub recipe: &'a Recipe,
    /// With its masses.
    pub formula: &'a Formula,
    /// Where it is made.
    pub kitchen: &'a Kitchen,
    /// The specific heat of every stage, in written order.
    pub of_stages: &'a [SpecificHeat],
    /// What earlier stages read at their end, where that has been worked out, in written order.
    pub left: &'a [Option<Temperature>],
}

impl Bench<'_> {
    /// What goes into the mix of a stage up to the step that says where the dough ends; none when
    /// something in it has no mass.
    pub fn goes_in(self, stage: usize, wanted: &Wanted<'_>) -> Option<GoesIn> {
        self.goes_in_until(stage, wanted.step)
    }

    /// What goes into a stage up to a step, with the work of its mixes up to there; none when
    /// something in it has no mass.
    pub fn goes_in_until(self, stage: usize, last_step: usize) -> Option<GoesIn> {
        let written = self.recipe.stages.get(stage)?;
        let time = work::seconds(written, last_step, self.kitchen.by_hand);
        if !self.all_weighed(stage, last_step) {
            return None;
        }
        let mut found = self.still(stage, last_step)?;
        let seen = self.rise_seen_in(stage);
        found.parts.work = work::work(&found.parts, time, self.kitchen, seen);
        Some(found)
    }

    /// Whether everything that goes in up to a step has a mass.
    fn all_weighed(self, stage: usize, last_step: usize) -> bool {
        let (Some(written), Some(sums)) = (
            self.recipe.stages.get(stage),
            self.formula.stages.get(stage),
        ) else {
            return false;
        };
        written.items.iter().zip(&sums.items).all(|(item, sum)| {
            sum.mass.is_some_and(Mass::is_finite)
                || first_use(written, item.called()).is_some_and(|step| step > last_step)
        })
    }

    /// Where the kitchen's measured rise counts: in the last mixed stage that a product is cut from.
    fn rise_seen_in(self, stage: usize) -> Seen {
        let is_final = |at: &usize| {
            self.recipe.stages.get(*at).is_some_and(|written| {
                let cut = |p: &recipe::document::model::Product| {
                    p.from.value.eq_ignore_ascii_case(&written.name.value)
                };
                work::wanted(written).is_some() && self.recipe.products.iter().any(cut)
            })
        };
        let last = (0..self.recipe.stages.len()).rev().find(is_final);
        match last {
            None => Seen::HereItself,
            Some(last) if last == stage => Seen::HereItself,
            Some(last) => Seen::Elsewhere(self.power_of(last)),
        }
    }

    /// The power that a measured rise shows in a stage.
    fn power_of(self, stage: usize) -> SpecificPower {
        let (Some(written), crate::kitchen::Friction::Rise(rise)) =
            (self.recipe.stages.get(stage), self.kitchen.friction)
        else {
            return SpecificPower::ZERO;
        };
        let Some(wanted) = work::wanted(written) else {
            return SpecificPower::ZERO;
        };
        let time: Seconds = work::seconds(written, wanted.step, self.kitchen.by_hand);
        self.still(stage, wanted.step)
            .map_or(SpecificPower::ZERO, |mut found| {
                found.parts.work = Work::NetRise(rise);
                work::power_seen(&found.parts, time)
            })
    }

    /// What goes in, without any work.
    fn still(self, stage: usize, last_step: usize) -> Option<GoesIn> {
        let written = self.recipe.stages.get(stage)?;
        let sums = self.formula.stages.get(stage)?;
        let mut shares = Vec::new();
        let mut items = Vec::new();
        let mut hydration = Energy::ZERO;
        let mut dissolution = Energy::ZERO;
        let mut butter = Vec::new();
        for (place, (item, resolved)) in written.items.iter().zip(&sums.items).enumerate() {
            let Some(mass) = resolved.mass.filter(|m| m.is_finite() && *m > Mass::ZERO) else {
                continue;
            };
            if first_use(written, item.called()).is_some_and(|step| step > last_step) {
                continue;
            }
            let at = self.temperature_of(stage, item, resolved);
            shares.push(Share {
                what: resolved.called.clone(),
                mass,
                heat_capacity: mass * self.specific_heat_of(resolved),
                at,
            });
            items.push(place);
            if let Resolved::Ingredient(ingredient) = &resolved.what {
                hydration += wetting(ingredient, mass);
                dissolution += dissolving(ingredient, mass);
                if is_butter(ingredient) {
                    butter.push((fat_of(ingredient, mass), at));
                }
            }
        }
        let bowl = &self.kitchen.bowl;
        let parts = Parts {
            stage: sums.name.clone(),
            shares,
            bowl: Share {
                what: "bowl".to_owned(),
                mass: bowl.mass,
                heat_capacity: bowl.heat_capacity,
                at: bowl.at,
            },
            hydration,
            work: Work::Heat(Energy::ZERO),
            dissolution,
            melting: Melting::Butter(butter),
            ice: None,
        };
        Some(GoesIn { parts, items })
    }

    /// The temperature of an item when it goes in.
    pub fn temperature_of(self, stage: usize, item: &Item, resolved: &ResolvedItem) -> Temperature {
        if let Some(settled) = super::wake::settled(self, stage, item.called()) {
            return settled;
        }
        self.brought(item, resolved)
    }

    /// The temperature of an item as it is brought to the bench, before any waking.
    pub fn brought(self, item: &Item, resolved: &ResolvedItem) -> Temperature {
        if let Some(at) = &item.at {
            return at.value;
        }
        match &resolved.what {
            Resolved::Stage(earlier) => self.left_at(*earlier),
            Resolved::Ingredient(ingredient) => self
                .kept_at(item, ingredient)
                .or_else(|| item.from.as_ref().map(|store| self.store(store.value)))
                .unwrap_or_else(|| self.store(usual_store(ingredient))),
            Resolved::Unknown(_) => item
                .from
                .as_ref()
                .map_or(self.kitchen.room, |store| self.store(store.value)),
        }
    }

    /// Where the kitchen file says that an ingredient is kept.
    fn kept_at(self, item: &Item, ingredient: &Ingredient) -> Option<Temperature> {
        let written = item.of.value.to_lowercase();
        self.kitchen.stores.iter().find_map(|(name, at)| {
            (*name == written || ingredient.names.iter().any(|known| known == name)).then_some(*at)
        })
    }

    const fn store(self, store: Store) -> Temperature {
        match store {
            Store::Room => self.kitchen.room,
            Store::Refrigerator => self.kitchen.refrigerator,
            Store::Tap => self.kitchen.tap,
        }
    }

    /// What an earlier stage reads when it goes into a later one.
    fn left_at(self, stage: usize) -> Temperature {
        if let Some(worked_out) = self.left.get(stage).copied().flatten() {
            return worked_out;
        }
        let Some(written) = self.recipe.stages.get(stage) else {
            return self.kitchen.room;
        };
        for step in written.steps.iter().rev() {
            let end = step.until.as_ref().and_then(|until| until.dough.as_ref());
            let place = match &step.action {
                Action::Rest { at, place, .. } => match place.value {
                    Standing::Room => self.kitchen.room,
                    Standing::WarmPlace => self.kitchen.warm_place,
                    Standing::Refrigerator => self.kitchen.refrigerator,
                    Standing::CoolPlace => at.value,
                },
                Action::Cool { at, .. } => at.value,
                Action::Heat { to, .. } => to.value,
                Action::Mix {
                    dough: Some(dough), ..
                } => dough.value.low + (dough.value.high - dough.value.low) / 2.0,
                _ => continue,
            };
            return end.map_or(place, |written| written.value);
        }
        self.kitchen.room
    }

    /// The specific heat of an item.
    pub fn specific_heat_of(self, resolved: &ResolvedItem) -> SpecificHeat {
        of_item(resolved, self.of_stages)
    }
}

/// The specific heat of an item, when those of the stages written before it are known.
fn of_item(resolved: &ResolvedItem, before: &[SpecificHeat]) -> SpecificHeat {
    match &resolved.what {
        Resolved::Ingredient(ingredient) => of_ingredient(ingredient),
        Resolved::Stage(stage) => before
            .get(*stage)
            .copied()
            .unwrap_or_else(|| usual(Role::Other)),
        Resolved::Unknown(_) => usual(Role::Other),
    }
}

/// The specific heats of all stages, in written order: a stage holds only earlier ones, so each is
/// worked out once.
pub fn of_stages(formula: &Formula) -> Vec<SpecificHeat> {
    let mut all = Vec::with_capacity(formula.stages.len());
    for sums in &formula.stages {
        all.push(of_stage(sums, &all));
    }
    all
}

/// The specific heat of a stage: its items, less the water that evaporated.
fn of_stage(sums: &StageSum, before: &[SpecificHeat]) -> SpecificHeat {
    let steam = sums.evaporates
        * SpecificHeat::from_si(specific_heat::at(
            specific_heat::WATER,
            specific_heat::OF_A_MIX.celsius(),
        ));
    let mut warms = HeatCapacity::ZERO - steam;
    let mut mass = Mass::ZERO - sums.evaporates;
    for item in &sums.items {
        // A stage names only stages written before it; anything else is reported elsewhere.
        if matches!(item.what, Resolved::Stage(inner) if inner >= before.len()) {
            continue;
        }
        if let Some(of_one) = item.mass {
            warms += of_one * of_item(item, before);
            mass += of_one;
        }
    }
    if mass > Mass::ZERO && warms > HeatCapacity::ZERO {
        SpecificHeat::from_si(warms.si() / mass.si())
    } else {
        usual(Role::Other)
    }
}

/// The specific heat of an ingredient at 25 °C: from what it is made of, else the usual one.
pub fn of_ingredient(ingredient: &Ingredient) -> SpecificHeat {
    Proximate::of(&ingredient.composition).map_or_else(
        || usual(ingredient.role),
        |made_of| specific_heat::specific_heat(&made_of, specific_heat::OF_A_MIX),
    )
}

/// When the composition is not known: the relation for a typical one (flour 13 % water, milk, whole
/// egg, butter, dry yeast), rounded.
const fn usual(role: Role) -> SpecificHeat {
    SpecificHeat::from_si(match role {
        Role::Flour => 1950.0,
        Role::Liquid => 3900.0,
        Role::Egg => 3600.0,
        Role::Fat => 2300.0,
        Role::Sugar => 1600.0,
        Role::Salt => 880.0,
        Role::Yeast(recipe::larder::YeastForm::Fresh) => 3400.0,
        Role::Yeast(_) | Role::MilkPowder => 1800.0,
        Role::Flavour | Role::Addition | Role::Other => 2000.0,
    })
}

/// Where an ingredient stands when nothing is written: water comes from the tap.
fn usual_store(ingredient: &Ingredient) -> Store {
    let water = ingredient
        .composition
        .water
        .is_some_and(|share| share.si() > 0.98);
    if ingredient.role == Role::Liquid && water {
        Store::Tap
    } else {
        Store::Room
    }
}

fn wetting(ingredient: &Ingredient, mass: Mass) -> Energy {
    if ingredient.role == Role::Flour {
        mass * heats::HYDRATION
    } else {
        Energy::ZERO
    }
}

/// Dry sugar and salt take heat when they dissolve; honey, syrup and salted butter hold theirs
/// dissolved already.
fn dissolving(ingredient: &Ingredient, mass: Mass) -> Energy {
    let dry = ingredient
        .composition
        .water
        .is_none_or(|water| water.si() < 0.06);
    match ingredient.role {
        Role::Sugar if dry => mass * heats::SUCROSE,
        Role::Salt => mass * heats::SALT,
        _ => Energy::ZERO,
    }
}

/// Fat that holds water as butter does; oil, lard and clarified butter are not in it.
pub fn is_butter(ingredient: &Ingredient) -> bool {
    ingredient.role == Role::Fat
        && ingredient
            .composition
            .water
            .is_some_and(|water| water.si() > 0.05)
}

/// Fat in so much butter.
fn fat_of(ingredient: &Ingredient, mass: Mass) -> Mass {
    mass * ingredient
        .composition
        .fat
        .map_or(0.81, numerics::quantity::Fraction::si)
}

/// The first step whose sentence uses an item by its name in brackets; "[the milk]" is no use.
fn first_use(stage: &Stage, called: &str) -> Option<usize> {
    let uses = |inside: &str| {
        inside.strip_suffix(called).is_some_and(|before| {
            before.is_empty() || (before.ends_with(' ') && before.trim() != "the")
        })
    };
    stage.steps.iter().position(|step| {
        step.text
            .value
            .split('[')
            .skip(1)
            .filter_map(|after| after.split_once(']'))
            .any(|(inside, _)| uses(inside))
    })
}
