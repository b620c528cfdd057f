//! A recipe in other kitchens: how many breads come out well, how long steps take, what goes wrong and why.

use super::audience::Audience;
use super::cause::Cause;
use super::judge::Flaw;
use super::setup::Setup;
use super::tally::{Row, Tally};
use super::variable::{Group, Variable};
use numerics::distribution::Distribution;
use numerics::draw::scramble;
use numerics::indices::{Known, Pair, Run, first_order, jackknife, quantile, total};
use numerics::quantity::{Duration, Range};
use std::collections::BTreeMap;

/// A share with what chance in the draws leaves open, and what is not known of the reckoning.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Share {
    /// The share, with its interval by the scrambles.
    pub known: Known,
    /// From and to, by what is not known of the reckoning; none when that was not asked.
    pub band: Option<(f64, f64)>,
}

/// A flaw: how often, in which product, and from what.
#[derive(Clone, Debug, PartialEq)]
pub struct Failure {
    /// What is wrong.
    pub flaw: Flaw,
    /// In what share of kitchens, with any of the products.
    pub share: Share,
    /// With each product by itself.
    pub products: Vec<f64>,
    /// From what, most often first: share of all kitchens.
    pub causes: Vec<(Cause, f64)>,
}

/// How long a step takes for whoever waits for its sign.
#[derive(Clone, Debug, PartialEq)]
pub struct Took {
    /// Its number on the page.
    pub step: usize,
    /// How many kitchens waited for it.
    pub kitchens: usize,
    /// Its minutes at the shares of [`AT`], s.
    pub at_s: Vec<f64>,
    /// All of them, sorted, s.
    pub sorted_s: Vec<f64>,
    /// As written.
    pub written: Option<Duration>,
    /// From and to, as written.
    pub written_range: Option<Range<Duration>>,
    /// In what share of them the written range holds; of a step without a range nobody asks.
    pub holds: Option<Known>,
}

/// The shares at which a time is told.
pub const AT: [f64; 5] = [0.05, 0.10, 0.50, 0.90, 0.95];

/// A group of things and how much of whether all comes out well it has part in.
#[derive(Clone, Debug, PartialEq)]
pub struct Decides {
    /// Which.
    pub groups: Vec<Group>,
    /// Its part, 1 being all.
    pub part: Known,
}

/// One thing alone, likewise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Alone {
    /// Which.
    pub variable: Variable,
    /// What it decides by itself.
    pub part: Known,
}

/// A count for safety that is past its line.
#[derive(Clone, Debug, PartialEq)]
pub struct PastLine {
    /// Which product.
    pub of: String,
    /// What is counted.
    pub what: &'static str,
    /// In what share of kitchens.
    pub share: Known,
}

/// A recipe in other kitchens.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherKitchens {
    /// How many there were.
    pub kitchens: usize,
    /// All products come out well.
    pub well: Share,
    /// Each product by itself, in written order; none where it cannot be followed.
    pub products: Vec<Option<Share>>,
    /// What goes wrong, most often first.
    pub failures: Vec<Failure>,
    /// Kitchens in which not all comes out well, each by what most of its flaws come from; most often first.
    pub lost: Vec<(Cause, f64)>,
    /// Steps that have a sign.
    pub took: Vec<Took>,
    /// What decides whether all comes out well, most first.
    pub decides: Vec<Decides>,
    /// Single things, most first.
    pub alone: Vec<Alone>,
    /// Counted for safety, beside the share and never in it.
    pub safety: Vec<PastLine>,
}

/// Rows with a group drawn anew, for the first kitchens of a tally.
pub type Anew = (Vec<Group>, Tally);

/// Rows of the ways that the reckoning might be; the usual way first, all of the same kitchens.
pub type Ways = Vec<Vec<Row>>;

fn share(rows: &[Row], is: impl Fn(&Row) -> bool) -> Known {
    jackknife(|lets| {
        let kept = || rows.iter().filter(|row| lets(scramble(row.number)));
        let n = kept().count() as f64;
        if n == 0.0 {
            return 0.0;
        }
        kept().filter(|row| is(row)).count() as f64 / n
    })
}

/// From and to: nine of ten differences of the ways from the usual one, put on the share.
fn band(value: f64, ways: &Ways, is: impl Fn(&Row) -> bool) -> Option<(f64, f64)> {
    let of = |rows: &Vec<Row>| {
        rows.iter().filter(|row| is(row)).count() as f64 / rows.len().max(1) as f64
    };
    let (usual, others) = ways.split_first()?;
    let usual = of(usual);
    let mut off: Vec<f64> = others.iter().map(|rows| of(rows) - usual).collect();
    off.sort_by(f64::total_cmp);
    let low = quantile(&off, 0.05)?;
    let high = quantile(&off, 0.95)?;
    Some((
        (value + low.min(0.0)).max(0.0),
        (value + high.max(0.0)).min(1.0),
    ))
}

/// Puts everything together.
pub fn other_kitchens(
    setup: &Setup<'_>,
    audience: &Audience,
    tally: &Tally,
    anew: &[Anew],
    ways: &Ways,
) -> OtherKitchens {
    let rows = &tally.rows;
    let with_band = |is: &dyn Fn(&Row) -> bool| {
        let known = share(rows, is);
        Share {
            known,
            band: band(known.value, ways, is),
        }
    };
    let products = setup
        .meant
        .iter()
        .enumerate()
        .map(|(place, meant)| {
            let well = move |row: &Row| row.flaws.get(place).is_none_or(|set| *set == 0);
            meant.as_ref().map(|_| with_band(&well))
        })
        .collect();
    let mut decides: Vec<Decides> = anew
        .iter()
        .map(|(groups, again)| Decides {
            groups: groups.clone(),
            part: part(rows, again),
        })
        .collect();
    decides.sort_by(|one, other| other.part.value.total_cmp(&one.part.value));
    OtherKitchens {
        kitchens: rows.len(),
        well: with_band(&Row::well),
        products,
        failures: failures(setup, rows, &with_band),
        lost: lost(rows),
        took: took(setup, rows),
        decides,
        alone: alone(audience, rows),
        safety: setup
            .safety
            .iter()
            .enumerate()
            .take(32)
            .map(|(place, (of, what))| PastLine {
                of: of.clone(),
                what,
                share: share(rows, |row| row.past_lines & (1 << place) != 0),
            })
            .filter(|line| line.share.value > 0.0)
            .collect(),
    }
}

fn well(row: &Row) -> f64 {
    if row.well() { 1.0 } else { 0.0 }
}

/// The part of a group: pairs of the same kitchens.
fn part(rows: &[Row], again: &Tally) -> Known {
    let pairs: Vec<Pair> = rows
        .iter()
        .zip(&again.rows)
        .filter(|(one, other)| one.number == other.number)
        .map(|(one, other)| Pair {
            scramble: scramble(one.number),
            y: well(one),
            anew: well(other),
        })
        .collect();
    if pairs.is_empty() {
        return Known::default();
    }
    total(&pairs)
}

/// The share of kitchens of which something holds.
type WithBand<'a> = dyn Fn(&dyn Fn(&Row) -> bool) -> Share + 'a;

fn failures(setup: &Setup<'_>, rows: &[Row], with_band: &WithBand<'_>) -> Vec<Failure> {
    let mut all = Vec::new();
    for flaw in Flaw::ALL {
        let any = move |row: &Row| row.flaws.iter().any(|set| set & flaw.bit() != 0);
        let share = with_band(&any);
        if share.known.value <= 0.0 {
            continue;
        }
        let of = |product: usize| {
            let is = |row: &&Row| {
                row.flaws
                    .get(product)
                    .is_some_and(|set| set & flaw.bit() != 0)
            };
            rows.iter().filter(is).count() as f64 / rows.len() as f64
        };
        // A kitchen counts once: by the first of its products.
        let first = |row: &Row| {
            let found = row.causes.iter().find(|(_, what, _)| *what == flaw);
            found.map(|(_, _, cause)| *cause)
        };
        all.push(Failure {
            flaw,
            share,
            products: (0..setup.meant.len()).map(of).collect(),
            causes: counted(rows, first),
        });
    }
    all.sort_by(|one, other| other.share.known.value.total_cmp(&one.share.known.value));
    all
}

/// Causes by how many kitchens they are told of, most often first: shares of all kitchens.
fn counted(rows: &[Row], of: impl Fn(&Row) -> Option<Cause>) -> Vec<(Cause, f64)> {
    let mut counts: BTreeMap<Cause, usize> = BTreeMap::new();
    for cause in rows.iter().filter_map(of) {
        *counts.entry(cause).or_default() += 1;
    }
    let mut causes: Vec<(Cause, f64)> = counts
        .into_iter()
        .map(|(cause, count)| (cause, count as f64 / rows.len() as f64))
        .collect();
    causes.sort_by(|one, other| other.1.total_cmp(&one.1).then(one.0.cmp(&other.0)));
    causes
}

/// Kitchens that are lost, each by the cause of most of its flaws; of several alike, the first.
fn lost(rows: &[Row]) -> Vec<(Cause, f64)> {
    counted(rows, |row| {
        let mut counts: Vec<(Cause, usize)> = Vec::new();
        for (_, _, cause) in &row.causes {
            match counts.iter_mut().find(|(known, _)| known == cause) {
                Some((_, count)) => *count += 1,
                None => counts.push((*cause, 1)),
            }
        }
        let most = counts.iter().map(|(_, count)| *count).max()?;
        counts
            .iter()
            .find(|(_, count)| *count == most)
            .map(|(cause, _)| *cause)
    })
}

fn took(setup: &Setup<'_>, rows: &[Row]) -> Vec<Took> {
    let mut all = Vec::new();
    for (place, step) in setup.course.steps.iter().enumerate() {
        let of = |row: &Row| {
            row.took_s
                .get(place)
                .copied()
                .filter(|time| time.is_finite())
        };
        let mut sorted: Vec<f64> = rows.iter().filter_map(of).collect();
        if sorted.len() < 8 || step.written.is_none() {
            continue;
        }
        sorted.sort_by(f64::total_cmp);
        let at_s = AT.iter().filter_map(|at| quantile(&sorted, *at)).collect();
        let holds = step.written_range.map(|range| {
            jackknife(|lets| {
                let kept = || {
                    rows.iter()
                        .filter(|row| lets(scramble(row.number)))
                        .filter_map(of)
                };
                let within = kept().filter(|time| {
                    range.low.si() - 30.0 <= *time && *time <= range.high.si() + 30.0
                });
                within.count() as f64 / (kept().count() as f64).max(1.0)
            })
        });
        all.push(Took {
            step: step.number,
            kitchens: sorted.len(),
            at_s,
            sorted_s: sorted,
            written: step.written,
            written_range: step.written_range,
            holds,
        });
    }
    all
}

/// What single things decide by themselves, from the same kitchens.
fn alone(audience: &Audience, rows: &[Row]) -> Vec<Alone> {
    let mut all: Vec<Alone> = Vec::new();
    for variable in Variable::ALL {
        let cuts = cuts(&audience.of(*variable).distribution, rows.len());
        let runs: Vec<Run> = rows
            .iter()
            .filter_map(|row| {
                Some(Run {
                    scramble: scramble(row.number),
                    u: *row.at.get(variable.place())?,
                    y: well(row),
                })
            })
            .collect();
        if runs.is_empty() {
            continue;
        }
        all.push(Alone {
            variable: *variable,
            part: first_order(&runs, &cuts),
        });
    }
    all.sort_by(|one, other| other.part.value.total_cmp(&one.part.value));
    all
}

/// Where the range of a variable is cut into parts: where it changes its kind, and each kind that spreads into
/// as many parts as its share bears, of at least a hundred kitchens each and sixteen in all.
fn cuts(distribution: &Distribution, kitchens: usize) -> Vec<f64> {
    let parts = (kitchens as f64 / 100.0).clamp(2.0, 16.0);
    let mut cuts = Vec::new();
    let mut within = |from: f64, share: f64, spreads: bool| {
        if spreads {
            let count = (parts * share).floor().max(1.0);
            let mut at = 1.0;
            while at < count {
                cuts.push(from + share * at / count);
                at += 1.0;
            }
        }
        if from + share < 1.0 - 1e-9 {
            cuts.push(from + share);
        }
    };
    match distribution {
        Distribution::OneOf(several) => {
            let mut from = 0.0;
            for (share, one) in several {
                within(from, *share, !matches!(one, Distribution::Fixed(_)));
                from += share;
            }
        }
        Distribution::Fixed(_) => {}
        _ => within(0.0, 1.0, true),
    }
    cuts
}
