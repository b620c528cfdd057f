//! What a tin holds by its dimensions, and how thick the bread in it is: boxes, round tins, rings.
//!
//! Relation: a box or cone whose walls lean evenly holds h/6 (A1 + 4 Am + A2), with the areas at
//! rim, half height and base; a ring holds its outer cone less its tube.
//! Source: the prismatoid formula, mathematics (for the square base it is problem 14 of the Moscow
//! papyrus: 4 below, 2 above, 6 high hold 56); nothing is fitted.
//! Valid for: flat bases and even walls. Fluted and rounded moulds hold less: fill them with water.

use crate::document::model::TinSize;
use numerics::quantity::{Length, Volume};

/// How much a wall leans in, on each side, for its depth, where the base is not given: one in
/// eight. Trade loaf tins of 10 x 5 in at the rim are 9 1/4 x 4 1/4 in at the base and 3 in deep
/// (from memory). Not fitted to the water charts it is held against.
pub const LEAN: f64 = 0.125;

/// A tin by its inner dimensions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Vessel {
    /// A box.
    Box {
        /// Length and width at the rim.
        rim: [Length; 2],
        /// Length and width at the base.
        base: [Length; 2],
        /// Depth.
        depth: Length,
    },
    /// A round tin or mould.
    Round {
        /// Diameter at the rim.
        rim: Length,
        /// Diameter at the base.
        base: Length,
        /// Depth.
        depth: Length,
    },
    /// A round tin with a tube in its middle.
    Ring {
        /// Diameter at the rim.
        rim: Length,
        /// Diameter at the base.
        base: Length,
        /// Diameter of the tube at half height.
        tube: Length,
        /// Depth.
        depth: Length,
    },
}

/// Whether the walls of a tin stand upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Walls {
    /// Upright: paper moulds, springforms, tall moulds.
    Upright,
    /// Leaning in by [`LEAN`]: pressed tins.
    Leaning,
}

impl Vessel {
    /// From the dimensions at the rim; none for a tray.
    pub fn of(size: &TinSize, walls: Walls) -> Option<Self> {
        let narrower = |side: Length, depth: Length| match walls {
            Walls::Upright => side,
            Walls::Leaning => {
                let base = side - depth * (2.0 * LEAN);
                if base > Length::ZERO { base } else { side }
            }
        };
        match *size {
            TinSize::Box {
                length,
                width,
                depth,
            } => Some(Self::Box {
                rim: [length, width],
                base: [narrower(length, depth), narrower(width, depth)],
                depth,
            }),
            TinSize::Round { diameter, height } => Some(Self::Round {
                rim: diameter,
                base: narrower(diameter, height),
                depth: height,
            }),
            TinSize::Tray { .. } => None,
        }
    }

    /// What it holds to the brim.
    pub fn volume(&self) -> Volume {
        let cubic = match *self {
            Self::Box { rim, base, depth } => {
                let area =
                    |share: f64| between(rim[0], base[0], share) * between(rim[1], base[1], share);
                prismatoid(depth, area)
            }
            Self::Round { rim, base, depth } => {
                prismatoid(depth, |share| disc(between(rim, base, share)))
            }
            Self::Ring {
                rim,
                base,
                tube,
                depth,
            } => prismatoid(depth, |share| {
                disc(between(rim, base, share)) - disc(tube.si())
            }),
        };
        Volume::from_si(cubic.max(0.0))
    }

    /// Its depth.
    pub const fn depth(&self) -> Length {
        match *self {
            Self::Box { depth, .. } | Self::Round { depth, .. } | Self::Ring { depth, .. } => depth,
        }
    }

    /// The same outline, so many times as deep: bread that stands above the rim.
    #[must_use]
    pub fn deeper(self, by: f64) -> Self {
        let mut deeper = self;
        match &mut deeper {
            Self::Box { depth, .. } | Self::Round { depth, .. } | Self::Ring { depth, .. } => {
                *depth = *depth * by;
            }
        }
        deeper
    }

    /// The thickness of the slab that warms through as fast as bread in this tin does.
    ///
    /// Relation: the slowest mode of a body is the product of those of its sides, so
    /// 1/e^2 = 1/l^2 + 1/w^2 + 1/h^2 for a box and 1/h^2 + (2 x 2.4048/pi)^2 / d^2 for a cylinder;
    /// a ring is a slab bent round, its width the gap between tube and wall.
    /// Source: product solutions of the heat equation (Carslaw and Jaeger, from memory), 2.4048 the
    /// first zero of J0. Only ratios of it are used, for written times.
    pub fn thickness(&self) -> Length {
        let part = |side: f64| 1.0 / (side * side);
        let sum = match *self {
            Self::Box { rim, base, depth } => {
                part(between(rim[0], base[0], 0.5))
                    + part(between(rim[1], base[1], 0.5))
                    + part(depth.si())
            }
            Self::Round { rim, base, depth } => {
                let modes = 2.0 * 2.404_825_557_695_773 / std::f64::consts::PI;
                modes * modes * part(between(rim, base, 0.5)) + part(depth.si())
            }
            Self::Ring {
                rim,
                base,
                tube,
                depth,
            } => part((between(rim, base, 0.5) - tube.si()) / 2.0) + part(depth.si()),
        };
        Length::from_si(1.0 / sum.sqrt())
    }
}

/// A side between rim (0) and base (1), in metres.
fn between(rim: Length, base: Length, share: f64) -> f64 {
    rim.si() + (base.si() - rim.si()) * share
}

/// The area of a disc, in square metres.
fn disc(diameter: f64) -> f64 {
    std::f64::consts::FRAC_PI_4 * diameter * diameter
}

/// Cubic metres under areas that change as a square of the height.
fn prismatoid(depth: Length, area: impl Fn(f64) -> f64) -> f64 {
    depth.si() / 6.0 * (area(0.0) + 4.0 * area(0.5) + area(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cm(value: f64) -> Length {
        Length::from_centimetres(value)
    }

    fn ml(vessel: Vessel) -> f64 {
        vessel.volume().millilitres()
    }

    #[test]
    fn the_moscow_papyrus_had_it_right() {
        // Problem 14: a truncated pyramid of 6, 4 below and 2 above, is 56.
        let pyramid = Vessel::Box {
            rim: [cm(4.0); 2],
            base: [cm(2.0); 2],
            depth: cm(6.0),
        };
        assert!((ml(pyramid) - 56.0).abs() < 1e-9);
    }

    #[test]
    fn slices_of_water_come_to_the_same() {
        let vessels = [
            Vessel::Box {
                rim: [cm(23.0), cm(13.0)],
                base: [cm(20.0), cm(11.5)],
                depth: cm(7.0),
            },
            Vessel::Round {
                rim: cm(24.1),
                base: cm(11.0),
                depth: cm(8.3),
            },
            Vessel::Ring {
                rim: cm(25.4),
                base: cm(22.0),
                tube: cm(6.0),
                depth: cm(10.0),
            },
        ];
        for vessel in vessels {
            let slices = 20_000;
            let mut sum = 0.0;
            for slice in 0..slices {
                let share = (f64::from(slice) + 0.5) / f64::from(slices);
                let area = match vessel {
                    Vessel::Box { rim, base, .. } => {
                        between(rim[0], base[0], share) * between(rim[1], base[1], share)
                    }
                    Vessel::Round { rim, base, .. } => disc(between(rim, base, share)),
                    Vessel::Ring {
                        rim, base, tube, ..
                    } => disc(between(rim, base, share)) - disc(tube.si()),
                };
                sum += area * vessel.depth().si() / f64::from(slices);
            }
            assert!((ml(vessel) / (sum * 1e6) - 1.0).abs() < 1e-8, "{vessel:?}");
        }
    }

    #[test]
    fn a_body_of_the_same_shape_is_thicker_in_proportion() {
        let tin = |by: f64| Vessel::Box {
            rim: [cm(21.6 * by), cm(11.4 * by)],
            base: [cm(20.0 * by), cm(9.8 * by)],
            depth: cm(6.4 * by),
        };
        let ratio = tin(1.3).thickness() / tin(1.0).thickness();
        assert!((ratio - 1.3).abs() < 1e-12);
        // A very wide tin is a slab of its depth.
        let wide = Vessel::Box {
            rim: [cm(1e4); 2],
            base: [cm(1e4); 2],
            depth: cm(5.0),
        };
        assert!((wide.thickness().centimetres() - 5.0).abs() < 1e-4);
    }
}
