//! A recipe in other kitchens put into a cook's words, no finer than what is known.

mod model;
mod reader;
mod times;

pub use model::{Drawn, Line, Others, TimeDrawn};
pub use reader::{ReaderLines, reader};

use super::happens::every_step_called;
use super::model::{Figure, Ledger};
use super::{figure, say};
use crate::Inputs;
use bake::kitchens::audience::Audience;
use bake::kitchens::cause::Cause;
use bake::kitchens::doubts::OUT_OF_REACH;
use bake::kitchens::variable::Group;
use bake::kitchens::{Decides, Failure, OtherKitchens, Share};
use numerics::decimal::{fixed, round_to};
use numerics::quantity::Fraction;
use recipe::provenance::{Had, Origin};
use recipe::source::listed;

/// A band wider than this on either side is told to 5 %, a narrower one to 1 %.
const WIDE: f64 = 0.05;
/// A cause of fewer kitchens than this is not named.
const SELDOM: f64 = 0.01;
/// A group that has less part than this is not named.
const NO_PART: f64 = 0.02;
/// Things named one by one at most.
const MOST_ALONE: usize = 5;
/// Causes of a flaw named at most.
const MOST_CAUSES: usize = 3;
/// Segments of the strip at most, the rest together.
const MOST_SEGMENTS: usize = 8;

/// Where these figures come from.
fn origin() -> Origin {
    Origin::new(
        "the recipe followed through many kitchens, docs/kitchens.md",
        Had::Derived,
    )
}

/// A share's steps: as fine as its band allows.
fn step(share: &Share) -> f64 {
    let chance = share.known.within;
    let half = share
        .band
        .map_or(chance, |(low, high)| (0.5 * (high - low)).max(chance));
    if half >= WIDE { 0.05 } else { 0.01 }
}

fn percent(value: f64, step: f64) -> String {
    let rounded = round_to(value, step);
    if value > 0.0 && rounded <= 0.0 {
        return format!("under {}{}%", fixed(100.0 * step, 0), say::NBSP);
    }
    say::percent_whole(Fraction::from_si(rounded))
}

/// From and to by what is not known, no narrower than chance.
fn ends(share: &Share) -> (f64, f64) {
    let (value, within) = (share.known.value, share.known.within);
    let (low, high) = share.band.unwrap_or((value, value));
    (
        low.min(value - within).max(0.0),
        high.max(value + within).min(1.0),
    )
}

/// "30 % (15–45 %)".
fn with_band(share: &Share) -> String {
    let step = step(share);
    let (low, high) = ends(share);
    let (low, high) = (round_to(low, step), round_to(high, step));
    let value = percent(share.known.value, step);
    if high - low < step / 2.0 {
        return value;
    }
    format!(
        "{value} ({}–{}{}%)",
        fixed(100.0 * low, 0),
        fixed(100.0 * high, 0),
        say::NBSP
    )
}

fn one(name: &str, value: f64, shown: &str) -> Figure {
    figure(
        format!("others.{name}"),
        value,
        Fraction::SI,
        shown.to_owned(),
        origin(),
    )
}

/// Everything that is said of a recipe in other kitchens; `tested`: how many of its own bakes had something to say.
pub fn others(
    inputs: &Inputs,
    ledger: &Ledger,
    audience: &Audience,
    found: &OtherKitchens,
    tested: usize,
) -> Others {
    let called = every_step_called(inputs, ledger);
    let names: Vec<String> = inputs
        .recipe
        .products
        .iter()
        .map(|product| product.name.value.clone())
        .collect();
    let times: Vec<(Line, TimeDrawn)> = found
        .took
        .iter()
        .filter_map(|took| {
            let (_, what, baked) = called.iter().find(|(number, _, _)| *number == took.step)?;
            Some(times::line(took, what, *baked))
        })
        .collect();
    let (times, times_drawn): (Vec<Line>, Vec<TimeDrawn>) = times.into_iter().unzip();
    let parts: Vec<&Decides> = found
        .decides
        .iter()
        .filter(|part| part.part.value >= NO_PART)
        .collect();
    Others {
        title: format!("{} in other kitchens", ledger.title),
        about: format!(
            "{} kitchens of “{}”, drawn one by one; in each a reader follows the written words. The model estimates: nobody has baked in them.",
            found.kitchens, audience.name
        ),
        audience: audience.name.clone(),
        kitchens: found.kitchens,
        well: well(found, &names),
        band: band(found),
        failures: found.failures.iter().map(|failure| failed(failure, &names)).collect(),
        times,
        decides: parts.iter().map(|part| decides(part)).collect(),
        decides_about: "Of all by which kitchens with bread that comes out well differ from the others, so much has to do with each; things that work together count with each of them, so the parts may come to more than the whole.".to_owned(),
        alone: alone(found),
        safety: safety(found),
        unknowns: unknowns(found, tested),
        drawn: Drawn {
            strip: strip(found),
            decides: parts
                .iter()
                .map(|part| {
                    let (value, within) = (part.part.value, part.part.within);
                    (
                        value,
                        (value - within).max(0.0),
                        value + within,
                        group_words(&part.groups),
                        share_of_all(value, within),
                    )
                })
                .collect(),
            times: times_drawn,
        },
    }
}

fn well(found: &OtherKitchens, names: &[String]) -> Vec<Line> {
    let line = |name: &str, what: &str, share: &Share, more: Option<String>| {
        let shown = with_band(share);
        Line {
            step: None,
            what: what.to_owned(),
            figures: vec![one(name, share.known.value, &shown)],
            shown,
            more,
        }
    };
    let chance = format!(
        "chance in the draws alone: {} either way",
        percent(found.well.known.within, 0.01)
    );
    let mut all = vec![line(
        "well.all",
        "all of it comes out well",
        &found.well,
        Some(chance),
    )];
    if names.len() < 2 {
        return all;
    }
    for (name, share) in names.iter().zip(&found.products) {
        if let Some(share) = share {
            all.push(line(&format!("well.{name}"), name, share, None));
        }
    }
    all
}

fn band(found: &OtherKitchens) -> String {
    let within = if found.well.band.is_some() {
        "The range after a share is what the reckoning itself leaves open: shares that nobody has counted, the yeast’s power, the crumb’s heat, the crust’s colour, and where the line to a bad bread lies. It leaves out what could not be varied: "
    } else {
        "The range after a share is chance in the draws alone. It leaves out what is not known of the reckoning, among it "
    };
    format!("{within}{}.", listed(&OUT_OF_REACH, "and"))
}

fn causes_words(causes: &[(Cause, f64)]) -> Option<String> {
    let named: Vec<String> = causes
        .iter()
        .filter(|(_, share)| *share >= SELDOM)
        .take(MOST_CAUSES)
        .map(|(cause, share)| format!("{} {}", cause.words(), percent(*share, 0.01)))
        .collect();
    (!named.is_empty()).then(|| named.join(", "))
}

fn failed(failure: &Failure, names: &[String]) -> Line {
    let shown = with_band(&failure.share);
    let mut more = causes_words(&failure.causes).map(|causes| format!("mostly from {causes}"));
    if names.len() > 1 {
        let step = step(&failure.share);
        let each: Vec<String> = names
            .iter()
            .zip(&failure.products)
            .filter(|(_, share)| **share > 0.0)
            .map(|(name, share)| format!("{name} {}", percent(*share, step)))
            .collect();
        let alike = failure
            .products
            .iter()
            .all(|share| (share - failure.products[0]).abs() < step);
        if !alike {
            let each = each.join(", ");
            more = Some(more.map_or_else(|| each.clone(), |more| format!("{each}; {more}")));
        }
    }
    Line {
        step: None,
        what: failure.flaw.words().to_owned(),
        figures: vec![one(
            &format!("wrong.{}", failure.flaw.words()),
            failure.share.known.value,
            &shown,
        )],
        shown,
        more,
    }
}

fn group_words(groups: &[Group]) -> String {
    let words: Vec<&str> = groups.iter().map(|group| group.words()).collect();
    listed(&words, "and")
}

/// "35 % (25–45 %)" of all that differs.
fn share_of_all(value: f64, within: f64) -> String {
    with_band(&Share {
        known: numerics::indices::Known {
            value: value.clamp(0.0, 1.0),
            within,
        },
        band: None,
    })
}

fn decides(part: &Decides) -> Line {
    let what = group_words(&part.groups);
    let shown = share_of_all(part.part.value, part.part.within);
    Line {
        step: None,
        figures: vec![one(&format!("decides.{what}"), part.part.value, &shown)],
        what,
        shown,
        more: None,
    }
}

fn alone(found: &OtherKitchens) -> Vec<Line> {
    let named = found
        .alone
        .iter()
        .filter(|one| one.part.value >= NO_PART && one.part.value > one.part.within);
    named
        .take(MOST_ALONE)
        .map(|alone| {
            let shown = share_of_all(alone.part.value, alone.part.within);
            Line {
                step: None,
                what: alone.variable.words().to_owned(),
                figures: vec![one(
                    &format!("alone.{}", alone.variable.key()),
                    alone.part.value,
                    &shown,
                )],
                shown,
                more: None,
            }
        })
        .collect()
}

fn safety(found: &OtherKitchens) -> Vec<Line> {
    found
        .safety
        .iter()
        .map(|line| {
            let share = Share {
                known: line.share,
                band: None,
            };
            let shown = with_band(&share);
            Line {
                step: None,
                what: format!("{}: {}", line.of, line.what),
                figures: vec![one(
                    &format!("safety.{}.{}", line.of, line.what),
                    line.share.value,
                    &shown,
                )],
                shown,
                more: None,
            }
        })
        .collect()
}

/// The shares that weigh most and that nobody has counted.
fn unknowns(found: &OtherKitchens, tested: usize) -> Vec<String> {
    let mut all = Vec::new();
    if tested == 0 {
        all.push("How this dough rises, bakes and browns: no tested bake is noted, so it is reckoned from published figures alone.".to_owned());
    }
    all.extend([
        "How many readers weigh, own a mixer, have a warm place, look at the clock: nobody has counted; the shares are from memory.".to_owned(),
        "Where the line to a bad bread lies is the habit of the trade; no eater was asked.".to_owned(),
    ]);
    if found.products.iter().any(Option::is_none) {
        all.push(
            "A product that cannot be followed out of the oven is not in the share.".to_owned(),
        );
    }
    all
}

/// The kitchens as a strip: well, then by what they are lost to.
fn strip(found: &OtherKitchens) -> Vec<(f64, String)> {
    let step = step(&found.well);
    let mut all = vec![(
        found.well.known.value,
        format!("comes out well {}", percent(found.well.known.value, step)),
    )];
    for (cause, share) in found.lost.iter().take(MOST_SEGMENTS) {
        all.push((
            *share,
            format!("{} {}", cause.words(), percent(*share, 0.01)),
        ));
    }
    let rest: f64 = found
        .lost
        .iter()
        .skip(MOST_SEGMENTS)
        .map(|(_, share)| share)
        .sum();
    if rest > 0.0 {
        all.push((rest, format!("other things {}", percent(rest, 0.01))));
    }
    all
}
