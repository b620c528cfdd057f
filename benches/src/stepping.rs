//! One section, one mesh, one bake by each way of stepping in time: what is found and how much work it was.

use crate::explicit::{Change, Legendre, euler};
use bake::simulate::body::{Body, Room};
use bake::simulate::matter::Matter;
use bake::simulate::surround::{Side, Surround};
use numerics::lane::Lane;
use numerics::quantity::Temperature;
use numerics::section::{Mesh, Solid};
use xtask::validation::fronts::{Section, WATER, published_fit, reference};

/// A way of stepping in time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Euler's explicit step.
    Euler,
    /// Runge and Kutta's, so many of Legendre's stages.
    Legendre(usize),
    /// The simulator's: along the rows and then along the columns, implicitly.
    Lines,
}

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// Seconds to 88 °C in the middle; none when it does not come to that.
    pub to_88_s: Option<f64>,
    /// Per cent of its mass lost at 20 min, and at 30.
    pub lost: [f64; 2],
    /// Steps taken.
    pub steps: u64,
    /// How often all flows were worked out: of the simulator's step once along the rows, once along the columns.
    pub evaluations: u64,
}

/// The section on as fine a mesh as is asked for.
///
/// # Panics
/// When there are no cells.
pub fn section(across: usize, up: usize) -> Section {
    let usual = Section::new();
    let mesh = Mesh::of(
        Solid::Round,
        Mesh::graded_to_end(0.035, across, 0.7e-3),
        Mesh::graded_to_both(0.070, up, 0.7e-3),
    );
    Section {
        mesh: mesh.expect("edges rise"),
        ..usual
    }
}

/// A section on its way through the oven.
pub struct Baking<L> {
    way: Inside<L>,
    /// Steps in a minute, so that every minute is met.
    steps_a_minute: u32,
}

/// What a way of stepping holds between steps; one is made a bake, so its size is no matter.
#[allow(clippy::large_enum_variant)]
enum Inside<L> {
    Explicit {
        asks: Change<L>,
        heat: Vec<L>,
        change: Vec<L>,
        legendre: Option<Legendre<L>>,
    },
    Lines {
        body: Body<L>,
        matter: Matter,
        around: Surround<L>,
    },
}

impl<L: Lane> Baking<L> {
    /// A cold section, in so many steps a minute.
    pub fn of(section: &Section, way: Way, steps_a_minute: u32) -> Self {
        let inside = if way == Way::Lines {
            let matter = reference(published_fit);
            let at = Temperature::from_celsius(section.start);
            let side = Side::still(section.oven, section.film, section.emissivity);
            Inside::Lines {
                body: Body::new(section.mesh.clone(), Room::Up, &matter, at),
                matter,
                around: Surround {
                    bottom: side,
                    side,
                    top: side,
                },
            }
        } else {
            let asks = Change::of(section);
            let heat = asks.start(section.start);
            Inside::Explicit {
                change: heat.clone(),
                legendre: match way {
                    Way::Legendre(stages) => Some(Legendre::of(stages, heat.len())),
                    _ => None,
                },
                heat,
                asks,
            }
        };
        Self {
            way: inside,
            steps_a_minute,
        }
    }

    fn step(&mut self, step_s: f64) {
        match &mut self.way {
            Inside::Explicit {
                asks,
                heat,
                change,
                legendre,
            } => match legendre {
                Some(legendre) => legendre.step(heat, step_s, |heat, into| asks.at(heat, into)),
                None => euler(heat, change, step_s, |heat, into| asks.at(heat, into)),
            },
            Inside::Lines {
                body,
                matter,
                around,
            } => body.warm(matter, around, step_s),
        }
    }

    fn middle(&self) -> f64 {
        match &self.way {
            Inside::Explicit { asks, heat, .. } => asks.middle(heat).lane(0),
            Inside::Lines { body, matter, .. } => body.middle(matter).lane(0),
        }
    }

    fn lost(&self) -> f64 {
        100.0
            * match &self.way {
                Inside::Explicit { asks, heat, .. } => WATER * asks.dried(heat).lane(0),
                Inside::Lines { body, .. } => body.gone().lane(0),
            }
    }

    /// Bakes for 30 minutes.
    pub fn bake(&mut self) -> Found {
        let step_s = 60.0 / f64::from(self.steps_a_minute);
        let mut found = Found {
            to_88_s: None,
            lost: [0.0; 2],
            steps: 0,
            evaluations: 0,
        };
        let mut before = self.middle();
        for minute in 1..=30 {
            for _ in 0..self.steps_a_minute {
                self.step(step_s);
                found.steps += 1;
                let now = self.middle();
                if before < 88.0 && now >= 88.0 {
                    let part = (88.0 - before) / (now - before);
                    found.to_88_s = Some((found.steps as f64 - 1.0 + part) * step_s);
                }
                before = now;
            }
            match minute {
                20 => found.lost[0] = self.lost(),
                30 => found.lost[1] = self.lost(),
                _ => {}
            }
        }
        found.evaluations = match &self.way {
            Inside::Explicit { asks, .. } => asks.evaluations,
            Inside::Lines { .. } => 2 * found.steps,
        };
        found
    }
}

/// The longest stable step of Euler over the whole bake, s, looked for with short ones.
pub fn stable_s(section: &Section) -> f64 {
    let mut asks: Change<f64> = Change::of(section);
    let mut heat = asks.start(section.start);
    let mut change = heat.clone();
    let mut least = f64::INFINITY;
    for _ in 0..36_000 {
        least = least.min(asks.stable_s(&heat, &mut change));
        euler(&mut heat, &mut change, 0.05, |heat, into| {
            asks.at(heat, into);
        });
    }
    least
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three ways of stepping, two codes of the flows: one bake. On a coarse mesh, whose stable step is long.
    #[test]
    fn the_ways_agree_when_their_steps_are_short() {
        let section = section(6, 12);
        let bake = |way, steps| Baking::<f64>::of(&section, way, steps).bake();
        let euler = bake(Way::Euler, 1200);
        let passes = |found: &Found| found.to_88_s.expect("it comes to 88 °C");
        for (other, what) in [
            (bake(Way::Legendre(5), 600), "Legendre"),
            (bake(Way::Lines, 1200), "lines"),
        ] {
            let apart = passes(&other) - passes(&euler);
            println!("{what}: {apart:+.3} s of {:.1} s", passes(&euler));
            assert!(apart.abs() < 1e-3 * passes(&euler), "{what}: {apart} s");
            for (one, two) in other.lost.iter().zip(euler.lost) {
                println!("{what}: {one:.4} % lost, Euler {two:.4} %");
                assert!((one - two).abs() < 0.02, "{what}: {one} % and {two} %");
            }
        }
    }
}
