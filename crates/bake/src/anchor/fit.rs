//! The factors that come nearest to the tested figures, in few runs.

use super::factor::{Factor, factors};
use super::figure::{Figure, MET, What};
use super::tested::Bake;
use crate::simulate::{Anchor, Grid};
use numerics::bounded::least_squares;
use numerics::math::exp;

/// What figures one bake comes to, by its place.
pub type OneBake<'a> = dyn Fn(usize) -> Vec<Option<f64>> + Sync + 'a;

/// How so many bakes are worked out: whoever has more than one core may do several at once. They come in
/// the order of their places, whoever did which.
pub type EachBake<'a> = &'a dyn Fn(usize, &OneBake<'_>) -> Vec<Vec<Option<f64>>>;

/// One bake after the other.
pub fn one_by_one(count: usize, one: &OneBake<'_>) -> Vec<Vec<Option<f64>>> {
    (0..count).map(one).collect()
}

/// So many rounds of runs at most.
const MOST_TRIES: usize = 8;
/// At rest when no factor would move by more than this, of its logarithm: one per cent.
const AT_REST: f64 = 0.01;
/// A slope is learnt from two rounds that lie so far apart, of the logarithm: looks at a dough are up to a
/// minute apart, and nearer rounds would show their grid.
const APART: f64 = 0.08;

/// What a round of runs saw.
#[derive(Clone, Debug, PartialEq)]
pub struct Try {
    /// The logarithms of the factors.
    pub logs: [f64; 3],
    /// What each figure came to: of each bake, in order.
    pub worked_out: Vec<Vec<Option<f64>>>,
}

/// What a fit found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The last round: factors, and figures worked out with them.
    pub last: Try,
    /// Factors that the figures would push out of their range, with what they would ask for.
    pub refused: Vec<(Factor, f64)>,
    /// Every round, in order.
    pub tries: Vec<Try>,
    /// Whether the factors came to rest.
    pub settled: bool,
    /// How many runs it took.
    pub runs: usize,
}

impl Found {
    /// The factors.
    pub fn factors(&self) -> Anchor {
        factors(&self.last.logs)
    }
}

/// Finds the factors; `run` works a bake out. Runs are done on the coarse grid; what a finer one that is wanted makes of
/// each figure is seen once, at the start, and added from there on. On the rough grid they are done there.
pub fn fit(
    bakes: &[Bake],
    grid: Grid,
    run: impl Fn(&Bake, Anchor, Grid) -> Vec<Option<f64>> + Sync,
    each: EachBake<'_>,
) -> Found {
    let mut fit = Fit {
        bakes,
        grid,
        finer: Vec::new(),
        slopes: bakes
            .iter()
            .map(|bake| vec![0.0; bake.figures.len()])
            .collect(),
        tries: Vec::new(),
        free: [false; 3],
    };
    for figure in bakes.iter().flat_map(|bake| &bake.figures) {
        if let Some(factor) = figure.pulls() {
            fit.free[factor.place()] = true;
        }
    }
    let mut logs = [0.0; 3];
    let mut refused: Vec<(Factor, f64)> = Vec::new();
    let mut settled = false;
    for _ in 0..MOST_TRIES {
        fit.look(logs, &run, each);
        let Some(change) = fit.change() else { break };
        if change.iter().any(|step| step.abs() >= AT_REST) {
            for (log, step) in logs.iter_mut().zip(change) {
                *log += step;
            }
            continue;
        }
        // Figures that are not met and ask for more than anybody believes move nothing; nor do figures that
        // contradict each other, unless more of them are met so than without.
        let unbelieved = fit.unbelieved(&logs);
        let torn = fit.torn();
        if unbelieved.is_empty() && torn.is_empty() {
            settled = true;
            break;
        }
        for factor in torn {
            fit.free[factor.place()] = false;
            logs[factor.place()] = 0.0;
        }
        for (factor, asks) in unbelieved {
            fit.free[factor.place()] = false;
            logs[factor.place()] = 0.0;
            refused.push((factor, exp(asks)));
        }
    }
    let last = fit.tries.last().cloned().unwrap_or(Try {
        logs,
        worked_out: Vec::new(),
    });
    Found {
        last,
        refused,
        runs: bakes.len() * (fit.tries.len() + usize::from(!fit.finer.is_empty())),
        tries: fit.tries,
        settled,
    }
}

struct Fit<'a> {
    bakes: &'a [Bake],
    grid: Grid,
    /// What the wanted grid adds to each figure of the coarse one, on the scale of comparison.
    finer: Vec<Vec<f64>>,
    slopes: Vec<Vec<f64>>,
    tries: Vec<Try>,
    free: [bool; 3],
}

impl Fit<'_> {
    /// Works every bake out, and learns from the last round how each figure answers its factor.
    fn look(
        &mut self,
        logs: [f64; 3],
        run: &(impl Fn(&Bake, Anchor, Grid) -> Vec<Option<f64>> + Sync),
        each: EachBake<'_>,
    ) {
        let anchor = factors(&logs);
        let bakes = self.bakes;
        let of = |grid: Grid| each(bakes.len(), &|place| run(&bakes[place], anchor, grid));
        let base = if self.grid == Grid::Rough {
            Grid::Rough
        } else {
            Grid::Coarse
        };
        let mut worked_out = of(base);
        if self.grid != base && self.finer.is_empty() {
            self.finer = finer(self.bakes, &worked_out, &of(self.grid));
        }
        for ((bake, values), more) in self.bakes.iter().zip(&mut worked_out).zip(&self.finer) {
            for ((figure, value), more) in bake.figures.iter().zip(values).zip(more) {
                *value = value.map(|value| figure.unscaled(figure.scaled(value) + more));
            }
        }
        for (place, bake) in self.bakes.iter().enumerate() {
            for (at, figure) in bake.figures.iter().enumerate() {
                let (Some(factor), Some(now)) = (figure.pulls(), worked_out[place][at]) else {
                    continue;
                };
                let usual = figure.slope(now);
                let slope = &mut self.slopes[place][at];
                if *slope == 0.0 || figure.what == What::Crust {
                    *slope = usual;
                    continue;
                }
                let learnt = self.tries.last().and_then(|last| {
                    let moved = logs[factor.place()] - last.logs[factor.place()];
                    let was = last.worked_out[place][at]?;
                    let changed = figure.scaled(now) - figure.scaled(was);
                    (moved.abs() > APART).then(|| changed / moved)
                });
                // A figure that another factor moved too must not turn its own about.
                let (one, other) = (0.2 * usual, 4.0 * usual);
                *slope = learnt
                    .unwrap_or(*slope)
                    .clamp(one.min(other), one.max(other));
            }
        }
        self.tries.push(Try { logs, worked_out });
    }

    /// Every figure that pulls at a factor: the figure, its slope, what it came to.
    fn pulling(&self) -> impl Iterator<Item = (Factor, &Figure, f64, f64)> {
        let last = self.tries.last();
        self.bakes
            .iter()
            .enumerate()
            .flat_map(move |(place, bake)| {
                bake.figures
                    .iter()
                    .enumerate()
                    .filter_map(move |(at, figure)| {
                        let now = last?.worked_out[place][at]?;
                        let factor = figure.pulls()?;
                        let free = self.free[factor.place()];
                        free.then_some((factor, figure, self.slopes[place][at], now))
                    })
            })
    }

    /// The change of the logarithms that the last round asks for; none when nothing pulls.
    fn change(&self) -> Option<[f64; 3]> {
        let logs = self.tries.last()?.logs;
        let (mut rows, mut wanted) = (Vec::new(), Vec::new());
        for (factor, figure, slope, now) in self.pulling() {
            let mut row = [0.0; 3];
            row[factor.place()] = slope / figure.good_for();
            rows.extend(row);
            wanted.push(-figure.off(now));
        }
        let (mut low, mut high) = ([0.0; 3], [0.0; 3]);
        for factor in Factor::ALL {
            let place = factor.place();
            let mut row = [0.0; 3];
            row[place] = 1.0 / factor.strays();
            rows.extend(row);
            wanted.push(-logs[place] / factor.strays());
            if self.free[place] {
                let (least, most) = factor.bounds();
                low[place] = least - logs[place];
                high[place] = most - logs[place];
            }
        }
        let found = least_squares(&rows, &wanted, &low, &high)?;
        Some([found.x[0], found.x[1], found.x[2]])
    }

    /// Factors with a figure that is not met and figures that ask for one out of range: the logarithm asked for.
    fn unbelieved(&self, logs: &[f64; 3]) -> Vec<(Factor, f64)> {
        let missed = |factor: Factor| {
            self.pulling()
                .any(|(of, figure, _, now)| of == factor && figure.off(now).abs() > MET)
        };
        let asks = |factor: Factor| {
            let asks = self.asks_for(factor, logs[factor.place()]);
            let (low, high) = factor.bounds();
            (asks < low || asks > high).then_some((factor, asks))
        };
        let free = Factor::ALL
            .into_iter()
            .filter(|factor| self.free[factor.place()]);
        free.filter(|factor| missed(*factor))
            .filter_map(asks)
            .collect()
    }

    /// Factors pulled both ways by figures that are not met, where no more figures are met than with the
    /// factors at one.
    fn torn(&self) -> Vec<Factor> {
        let (Some(first), Some(last)) = (self.tries.first(), self.tries.last()) else {
            return Vec::new();
        };
        let torn = |factor: &Factor| {
            let off = |of: &Try| -> Vec<f64> {
                let all = self.bakes.iter().zip(&of.worked_out);
                all.flat_map(|(bake, values)| bake.figures.iter().zip(values))
                    .filter(|(figure, _)| figure.pulls() == Some(*factor))
                    .filter_map(|(figure, value)| Some(figure.off((*value)?)))
                    .collect()
            };
            let met = |offs: &[f64]| offs.iter().filter(|off| off.abs() <= MET).count();
            let (was, is) = (off(first), off(last));
            let both_ways = is.iter().any(|off| *off > MET) && is.iter().any(|off| *off < -MET);
            both_ways && met(&is) <= met(&was)
        };
        let free = Factor::ALL
            .into_iter()
            .filter(|factor| self.free[factor.place()]);
        free.filter(torn).collect()
    }

    /// The logarithm that the figures alone would ask for.
    fn asks_for(&self, factor: Factor, log: f64) -> f64 {
        let (mut push, mut weight) = (0.0, 0.0);
        for (_, figure, slope, now) in self.pulling().filter(|one| one.0 == factor) {
            let slope = slope / figure.good_for();
            push -= slope * figure.off(now);
            weight += slope * slope;
        }
        if weight > 0.0 {
            log + push / weight
        } else {
            log
        }
    }
}

/// What a finer grid adds to every figure, on the scale of comparison.
fn finer(bakes: &[Bake], coarse: &[Vec<Option<f64>>], fine: &[Vec<Option<f64>>]) -> Vec<Vec<f64>> {
    let of_bake = |bake: &Bake, coarse: &[Option<f64>], fine: &[Option<f64>]| -> Vec<f64> {
        let added = |(at, figure): (usize, &Figure)| {
            let both = coarse[at].zip(fine[at]);
            both.map_or(0.0, |(coarse, fine)| {
                figure.scaled(fine) - figure.scaled(coarse)
            })
        };
        bake.figures.iter().enumerate().map(added).collect()
    };
    let of_place = |(place, bake): (usize, &Bake)| of_bake(bake, &coarse[place], &fine[place]);
    bakes.iter().enumerate().map(of_place).collect()
}

#[cfg(test)]
mod tests {
    use super::super::figure::What;
    use super::*;
    use crate::kitchen::Kitchen;
    use recipe::source::Span;
    use std::sync::atomic::AtomicUsize;
    use std::sync::atomic::Ordering::Relaxed;

    fn alone(
        bakes: &[Bake],
        grid: Grid,
        run: impl Fn(&Bake, Anchor, Grid) -> Vec<Option<f64>> + Sync,
    ) -> Found {
        fit(bakes, grid, run, &one_by_one)
    }

    /// A bake with one noted rise of an hour.
    fn bake() -> Bake {
        let text = include_str!("../../../../examples/hearth-loaf.toml");
        Bake {
            date: "2026-03-01".to_owned(),
            recipe: recipe::document::read_recipe(text)
                .output
                .expect("it reads"),
            kitchen: Kitchen::standard(),
            dough: None,
            mixed: None,
            oven: None,
            figures: vec![Figure {
                what: What::Rise(1),
                words: "rise of the dough".to_owned(),
                tested: 3600.0,
                unit: "s",
                span: Span::default(),
            }],
        }
    }

    #[test]
    fn a_lawful_dough_comes_to_rest_in_four_rounds() {
        // Minutes go as one over the vigour: ln 1.5 is asked for, and the prior keeps a little back.
        let found = alone(&[bake()], Grid::Coarse, |_, factors, _| {
            vec![Some(5400.0 / factors.vigour)]
        });
        assert!(found.settled && found.tries.len() <= 4, "{:?}", found.tries);
        let vigour = found.factors().vigour;
        assert!(vigour > 1.3 && vigour < 1.5, "{vigour}");
    }

    #[test]
    fn figures_that_pull_both_ways_move_nothing_unless_more_are_met() {
        let other = |minutes: f64| {
            let mut bake = bake();
            bake.figures[0].tested = 60.0 * minutes;
            bake
        };
        let run = |_: &Bake, factors: Anchor, _| vec![Some(3600.0 / factors.vigour)];
        let torn = alone(&[other(25.0), other(150.0)], Grid::Coarse, run);
        assert!(torn.settled && (torn.factors().vigour - 1.0).abs() < 1e-9);
        // One that is met moves the factor, and the other is told as not met.
        let bakes = [other(40.0), other(41.0), other(39.0), other(180.0)];
        let moved = alone(&bakes, Grid::Coarse, run).factors().vigour;
        let one_way = alone(&bakes[..3], Grid::Coarse, run).factors().vigour;
        assert!(moved < one_way && one_way > 1.2, "{moved} {one_way}");
    }

    #[test]
    fn the_wanted_grid_counts_and_is_seen_once() {
        // On the coarse grid everything comes a tenth too early; the fine one is exact.
        let fine = AtomicUsize::new(0);
        let found = alone(&[bake()], Grid::Usual, |_, factors, grid| {
            let coarse = grid == Grid::Coarse;
            fine.fetch_add(usize::from(!coarse), Relaxed);
            vec![Some(
                if coarse { 0.9 } else { 1.0 } * 3600.0 / factors.vigour,
            )]
        });
        assert_eq!((fine.load(Relaxed), found.tries.len()), (1, 1));
        assert!((found.factors().vigour - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_dough_that_never_comes_to_rest_tells_every_try() {
        let tries = AtomicUsize::new(0);
        let found = alone(&[bake()], Grid::Coarse, |_, _, _| {
            let now = tries.fetch_add(1, Relaxed) + 1;
            vec![Some(if now.is_multiple_of(2) {
                2400.0
            } else {
                5400.0
            })]
        });
        assert!(!found.settled);
        assert_eq!(found.tries.len(), MOST_TRIES);
        let said = super::super::told::findings(&[bake()], &found);
        let unsettled = &said[0];
        assert_eq!(unsettled.code, crate::code::ANCHOR_DOES_NOT_SETTLE);
        assert_eq!(unsettled.trace.len(), MOST_TRIES);
        assert!(
            unsettled.trace[1].contains("40\u{a0}min"),
            "{}",
            unsettled.trace[1]
        );
    }
}
