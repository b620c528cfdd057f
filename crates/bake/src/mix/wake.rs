//! Yeast that wakes in warm liquid: where liquid, yeast and a cold bowl settle, and what the liquid
//! must read for it.
//!
//! # Relation
//! The balance of the mix with three shares: liquid, yeast, and the part of the vessel under them.
//!
//! # Symbols
//! As in the balance.
//!
//! # Valid for
//! The first minute in the vessel, while the yeast takes up water.
//!
//! # Source
//! Bands: active dry 38-46 °C, from 105-115 °F on packets and in home-economics leaflets (read);
//! its middle lies in the 105-110 °F of a US army bakery manual (TM 10-412, card D-G 2; read).
//! Fresh: lukewarm, about 29 °C (read), at most 35 °C (common practice). Instant straight in
//! liquid: below about 20 °C it leaks (from memory), above 43 °C no maker asks for it.
//!
//! # Departures
//! A vessel of the same material as the kitchen's mixing bowl is that bowl; any other is a cup or
//! small bowl of its usual mass, at room temperature. The air takes 2 to 5 °C more from an open cup
//! in eight minutes; the bands allow for it.
//!
//! # Checked by
//! `tests/identities/mix.rs`.

use super::balance::{Melting, Parts, Work, ends, solve_for};
use super::goes_in::{Bench, of_ingredient, of_stages};
use super::model::{Share, WakeAnswer};
use crate::code;
use crate::kitchen::Kitchen;
use crate::physics::vessel;
use crate::wording::{band as say_band, capital, degrees, written};
use numerics::decimal::fixed;
use numerics::quantity::{Energy, Mass, Range, Temperature};
use recipe::document::model::{Action, Item, Material, Recipe, Stage};
use recipe::formula::model::{Formula, Resolved, ResolvedItem};
use recipe::larder::{Role, YeastForm};
use recipe::source::{Checked, Diagnostic, Located};

/// Hotter than this, yeast stirred in is hurt before the bowl has taken any heat.
const SCALDS: Temperature = Temperature::from_celsius(55.0);

/// The band in which a yeast wakes well.
pub const fn band(form: YeastForm) -> Range<Temperature> {
    let (low, high) = match form {
        YeastForm::ActiveDry => (38.0, 46.0),
        YeastForm::Fresh => (24.0, 35.0),
        YeastForm::Instant | YeastForm::InstantOsmotolerant => (27.0, 43.0),
    };
    Range {
        low: Temperature::from_celsius(low),
        high: Temperature::from_celsius(high),
    }
}

/// The middle of a band.
pub fn middle(range: Range<Temperature>) -> Temperature {
    range.low + (range.high - range.low) / 2.0
}

/// One waking: its three shares and its yeast.
struct Waking<'a> {
    parts: Parts,
    form: YeastForm,
    liquid: &'a Item,
    step: &'a Located<String>,
    vessel: Material,
}

/// The place of the liquid among the shares.
const LIQUID: usize = 0;

/// For every step that wakes yeast: where it settles, and what its liquid must read.
pub fn wake(recipe: &Recipe, formula: &Formula, kitchen: &Kitchen) -> Checked<Vec<WakeAnswer>> {
    let of_stages = of_stages(formula);
    let bench = Bench {
        recipe,
        formula,
        kitchen,
        of_stages: &of_stages,
        left: &[],
    };
    let mut checked = Checked::clean(Vec::new());
    for (place, stage) in recipe.stages.iter().enumerate() {
        for waking in wakings(bench, place, stage) {
            let band = band(waking.form);
            let settles = ends(&waking.parts).ends;
            let Some(liquid_at) = solve_for(&waking.parts, LIQUID, middle(band)) else {
                continue;
            };
            let written = waking.parts.shares[LIQUID].at;
            let answer = WakeAnswer {
                stage: stage.name.value.clone(),
                liquid: waking.liquid.called().to_owned(),
                written,
                settles,
                band,
                liquid_at,
            };
            checked.diagnostics.extend(finding(&waking, &answer));
            checked.output.push(answer);
        }
    }
    checked
}

/// Where an item that a step wakes has settled; none when no step wakes it.
pub fn settled(bench: Bench<'_>, stage: usize, called: &str) -> Option<Temperature> {
    let written = bench.recipe.stages.get(stage)?;
    wakings(bench, stage, written)
        .find(|waking| waking.parts.shares.iter().any(|share| share.what == called))
        .map(|waking| ends(&waking.parts).ends)
}

/// Every waking of a stage whose yeast and liquid are found.
fn wakings<'a>(
    bench: Bench<'a>,
    place: usize,
    stage: &'a Stage,
) -> impl Iterator<Item = Waking<'a>> {
    stage.steps.iter().filter_map(move |step| {
        let Action::Wake {
            yeast,
            liquid,
            vessel,
            ..
        } = &step.action
        else {
            return None;
        };
        let sums = bench.formula.stages.get(place)?;
        let find = |name: &str| -> Option<(&'a Item, &'a ResolvedItem)> {
            stage
                .items
                .iter()
                .zip(&sums.items)
                .find(|(item, _)| item.called() == name)
        };
        let (liquid, liquid_sum) = find(&liquid.value)?;
        let (yeast, yeast_sum) = find(&yeast.value)?;
        let form = match &yeast_sum.what {
            Resolved::Ingredient(what) => match what.role {
                Role::Yeast(form) => form,
                _ => return None,
            },
            _ => return None,
        };
        let share = |item: &Item, sum: &ResolvedItem| -> Option<Share> {
            let Resolved::Ingredient(what) = &sum.what else {
                return None;
            };
            let mass = sum.mass.filter(|mass| *mass > Mass::ZERO)?;
            Some(Share {
                what: item.called().to_owned(),
                mass,
                heat_capacity: mass * of_ingredient(what),
                at: bench.brought(item, sum),
            })
        };
        let shares = vec![share(liquid, liquid_sum)?, share(yeast, yeast_sum)?];
        let parts = Parts {
            stage: stage.name.value.clone(),
            shares,
            bowl: stands_in(bench.kitchen, vessel.value),
            hydration: Energy::ZERO,
            work: Work::Heat(Energy::ZERO),
            dissolution: Energy::ZERO,
            melting: Melting::Heat(Energy::ZERO),
            ice: None,
        };
        Some(Waking {
            parts,
            form,
            liquid,
            step: &step.text,
            vessel: vessel.value,
        })
    })
}

/// The part of the vessel under the liquid.
fn stands_in(kitchen: &Kitchen, material: Material) -> Share {
    let (mass, part, at) = if material == kitchen.bowl.material {
        (kitchen.bowl.mass, vessel::POOL, kitchen.bowl.at)
    } else {
        (vessel::usual_cup(material), vessel::CUP, kitchen.room)
    };
    Share {
        what: format!("{} bowl", material.word()),
        mass,
        heat_capacity: vessel::following(material, mass, part),
        at,
    }
}

/// What is to be said about one waking.
fn finding(waking: &Waking<'_>, answer: &WakeAnswer) -> Option<Diagnostic> {
    let span = waking
        .liquid
        .at
        .as_ref()
        .map_or(waking.step.span, |at| at.span);
    let bowl = &waking.parts.bowl;
    let reads = format!(
        "{} at {} in a {} bowl at {} settles at {}",
        capital(&answer.liquid),
        written(answer.written),
        waking.vessel.word(),
        degrees(bowl.at),
        degrees(answer.settles),
    );
    let pour = format!("Pour it at {}.", degrees(answer.liquid_at));
    let warms = |share: &Share| fixed(share.heat_capacity.si(), 0);
    let because = format!(
        "{} J/K of liquid, {} J/K of yeast and {} J/K of bowl settle at one temperature",
        warms(&waking.parts.shares[LIQUID]),
        warms(&waking.parts.shares[1]),
        warms(bowl),
    );
    let found = if answer.written > SCALDS {
        Diagnostic::at(
            code::LIQUID_TOO_HOT_FOR_YEAST,
            span,
            format!(
                "{} is written at {}; yeast stirred into it is dead before the bowl has cooled it.",
                capital(&answer.liquid),
                written(answer.written),
            ),
        )
        .hint(pour_or_warm(answer, &pour))
    } else if answer.settles < answer.band.low {
        Diagnostic::at(
            code::YEAST_SETTLES_TOO_COLD,
            span,
            format!(
                "{reads}; this yeast wakes well at {}.",
                say_band(answer.band)
            ),
        )
        .hint(pour_or_warm(answer, &pour))
        .hint("Or rinse the bowl with hot water first, or wake the yeast in a small light cup.")
    } else if answer.settles > answer.band.high {
        Diagnostic::at(
            code::YEAST_SETTLES_TOO_HOT,
            span,
            format!("{reads}; this yeast bears {}.", say_band(answer.band)),
        )
        .hint(pour)
    } else {
        return None;
    };
    Some(found.because(because))
}

/// The way out when the liquid must be warmer: as much as yeast bears, else the bowl.
fn pour_or_warm(answer: &WakeAnswer, pour: &str) -> String {
    if answer.liquid_at <= SCALDS {
        pour.to_owned()
    } else {
        format!(
            "Warm the bowl: it is so heavy that the liquid would have to read {}, which scalds the yeast.",
            degrees(answer.liquid_at)
        )
    }
}
