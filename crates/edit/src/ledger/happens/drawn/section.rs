//! A piece cut through as it is drawn: how warm each place is at chosen minutes, and where it is crust.

use super::super::Happens;
use super::super::reckoned::Told;
use crate::ledger::say;
use bake::simulate::{Course, DoughCourse, SectionView};
use numerics::quantity::Temperature;

/// A piece cut through at several minutes, all to one scale.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionDrawing {
    /// "braid".
    pub of: String,
    /// "The braid cut through, Cold terrace".
    pub title: String,
    /// What is drawn, for whoever cannot see it.
    pub about: String,
    /// The minutes.
    pub views: Vec<View>,
    /// What each pattern means.
    pub key: Vec<Key>,
    /// Widest view over highest.
    pub wide_to_high: f64,
}

/// One minute.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// "after 18 min".
    pub shown: String,
    /// "middle 43 °C / 109 °F".
    pub middle: String,
    /// Width and height as shares of the widest and of the highest view.
    pub size: (f64, f64),
    /// Rows of the drawing from the top down, each from left to right.
    pub rows: Vec<Vec<Run>>,
}

/// A run of places that are alike: where it begins and ends, as shares of the view's width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// From the left.
    pub from: f64,
    /// From the left.
    pub to: f64,
    /// How warm, or crust.
    pub warmth: Warmth,
}

/// How warm a place is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Warmth {
    /// Below 40 °C: dough.
    Dough,
    /// 40 to 60 °C: the yeast dies.
    Warm,
    /// 60 to 80 °C: the crumb sets.
    Sets,
    /// 80 to 95 °C: crumb.
    Crumb,
    /// Above.
    Hot,
    /// Dry.
    Crust,
}

impl Warmth {
    /// Every one, from the inside out.
    pub const ALL: [Self; 6] = [
        Self::Dough,
        Self::Warm,
        Self::Sets,
        Self::Crumb,
        Self::Hot,
        Self::Crust,
    ];

    /// Ends at, °C.
    const fn to(self) -> Option<f64> {
        match self {
            Self::Dough => Some(40.0),
            Self::Warm => Some(60.0),
            Self::Sets => Some(80.0),
            Self::Crumb => Some(95.0),
            Self::Hot | Self::Crust => None,
        }
    }

    fn of(celsius: f64, dry: f64) -> Self {
        if dry > 0.5 {
            return Self::Crust;
        }
        Self::ALL
            .into_iter()
            .find(|warmth| warmth.to().is_none_or(|to| celsius < to))
            .unwrap_or(Self::Hot)
    }
}

/// What a pattern means.
#[derive(Clone, Debug, PartialEq)]
pub struct Key {
    /// Which.
    pub warmth: Warmth,
    /// Its words.
    pub shown: String,
}

/// Rows and columns of a view as it is drawn; a section's own cells are looked up between their middles.
const ROWS: usize = 72;
/// See [`ROWS`].
const COLUMNS: usize = 64;

pub(super) fn section(
    course: &Course,
    happens: &Happens,
    piece: &DoughCourse,
) -> Option<SectionDrawing> {
    let views: Vec<&SectionView> = piece.sections.iter().collect();
    let most = |read: fn(&SectionView) -> f64| views.iter().map(|v| read(v)).fold(0.0, f64::max);
    let (wide, high) = (most(width_m), most(height_m));
    if views.is_empty() || wide <= 0.0 || high <= 0.0 {
        return None;
    }
    Some(SectionDrawing {
        of: piece.of.clone(),
        title: format!("The {} cut through, {}", piece.of, course.kitchen),
        about: format!(
            "The {} cut across at {} moments of the bake, all to one scale, the top of the bread up. Each \
             pattern is a warmth; the darkest is the dry crust.",
            piece.of,
            views.len()
        ),
        views: views.iter().map(|view| drawn(view, wide, high)).collect(),
        key: Warmth::ALL.into_iter().map(key).collect(),
        wide_to_high: wide / high,
    })
    .filter(|_| !happens.sections.is_empty())
}

fn width_m(view: &SectionView) -> f64 {
    2.0 * view.across_m.last().copied().unwrap_or(0.0)
}

fn height_m(view: &SectionView) -> f64 {
    view.up_m.last().copied().unwrap_or(0.0)
}

fn key(warmth: Warmth) -> Key {
    let degrees = |celsius: f64| say::temperature(Temperature::from_celsius(celsius));
    let range = |low: f64, high: f64| {
        say::temperature_range(numerics::quantity::Range {
            low: Temperature::from_celsius(low),
            high: Temperature::from_celsius(high),
        })
    };
    let shown = match warmth {
        Warmth::Dough => format!("dough, below {}", degrees(40.0)),
        Warmth::Warm => format!("yeast dies, {}", range(40.0, 60.0)),
        Warmth::Sets => format!("crumb sets, {}", range(60.0, 80.0)),
        Warmth::Crumb => format!("crumb, {}", range(80.0, 95.0)),
        Warmth::Hot => format!("above {}", degrees(95.0)),
        Warmth::Crust => "dry crust".to_owned(),
    };
    Key { warmth, shown }
}

fn drawn(view: &SectionView, wide: f64, high: f64) -> View {
    let (half, top) = (0.5 * width_m(view), height_m(view));
    let middles = |edges: &[f64]| -> Vec<f64> {
        edges
            .windows(2)
            .map(|pair| 0.5 * (pair[0] + pair[1]))
            .collect()
    };
    let grid = Grid {
        across: middles(&view.across_m),
        up: middles(&view.up_m),
    };
    let rows = (0..ROWS)
        .map(|row| {
            let up = top * (1.0 - (row as f64 + 0.5) / ROWS as f64);
            let warmth = |place: f64| {
                let across = (2.0 * place - 1.0).abs() * half;
                Warmth::of(
                    grid.at(&view.celsius, across, up),
                    grid.at(&view.dry, across, up),
                )
            };
            let mut runs: Vec<Run> = Vec::new();
            for column in 0..COLUMNS {
                let from = column as f64 / COLUMNS as f64;
                let to = (column + 1) as f64 / COLUMNS as f64;
                let here = warmth(0.5 * (from + to));
                match runs.last_mut() {
                    Some(run) if run.warmth == here => run.to = to,
                    Some(run) => {
                        let edge = edge(&warmth, run.warmth, from - 0.5 / COLUMNS as f64, to);
                        run.to = edge;
                        runs.push(Run {
                            from: edge,
                            to,
                            warmth: here,
                        });
                    }
                    None => runs.push(Run {
                        from,
                        to,
                        warmth: here,
                    }),
                }
            }
            runs
        })
        .collect();
    let middle = Temperature::from_celsius(grid.at(&view.celsius, 0.0, 0.5 * top));
    View {
        shown: format!("after {}", Told::Bake.said(view.after)),
        middle: format!("middle {}", say::temperature(middle)),
        size: (width_m(view) / wide, top / high),
        rows,
    }
}

/// Where one warmth ends between two places, by halving.
fn edge(warmth: &impl Fn(f64) -> Warmth, before: Warmth, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..8 {
        let middle = 0.5 * (low + high);
        if warmth(middle) == before {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// Middles of the cells.
struct Grid {
    across: Vec<f64>,
    up: Vec<f64>,
}

impl Grid {
    /// A value between the cells' middles, straight in both directions; at the edge the last cell's.
    fn at(&self, of: &[f64], across: f64, up: f64) -> f64 {
        let (left, right, along) = between(&self.across, across);
        let (below, above, rising) = between(&self.up, up);
        let cell = |row: usize, column: usize| {
            of.get(row * self.across.len() + column)
                .copied()
                .unwrap_or(0.0)
        };
        let low = cell(below, left) + (cell(below, right) - cell(below, left)) * along;
        let high = cell(above, left) + (cell(above, right) - cell(above, left)) * along;
        low + (high - low) * rising
    }
}

/// The two places around a value and how far it is from the first to the second.
fn between(places: &[f64], value: f64) -> (usize, usize, f64) {
    let after = places.partition_point(|place| *place < value);
    let last = places.len().saturating_sub(1);
    if after == 0 || after > last {
        let at = after.min(last);
        return (at, at, 0.0);
    }
    let (low, high) = (places[after - 1], places[after]);
    (after - 1, after, (value - low) / (high - low).max(1e-12))
}

#[cfg(test)]
mod tests {
    use super::{Grid, Warmth, between};

    #[test]
    fn a_value_lies_straight_between_two_places_and_stays_at_the_edge() {
        let places = [1.0, 2.0, 4.0];
        assert_eq!(between(&places, 0.0), (0, 0, 0.0));
        assert_eq!(between(&places, 9.0), (2, 2, 0.0));
        assert_eq!(between(&places, 3.0), (1, 2, 0.5));
        let grid = Grid {
            across: vec![0.0, 1.0],
            up: vec![0.0, 1.0],
        };
        let value = grid.at(&[0.0, 1.0, 2.0, 3.0], 0.5, 0.5);
        assert!((value - 1.5).abs() < 1e-12);
    }

    #[test]
    fn a_dry_place_is_crust_and_a_warm_one_is_told_by_its_warmth() {
        assert_eq!(Warmth::of(120.0, 0.9), Warmth::Crust);
        assert_eq!(Warmth::of(39.9, 0.0), Warmth::Dough);
        assert_eq!(Warmth::of(40.0, 0.0), Warmth::Warm);
        assert_eq!(Warmth::of(79.0, 0.2), Warmth::Sets);
        assert_eq!(Warmth::of(99.0, 0.4), Warmth::Hot);
    }
}
