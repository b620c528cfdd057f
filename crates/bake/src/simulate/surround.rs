//! What stands around a dough: air, radiating walls, and the tin or bowl between.

use numerics::lane::Lane;

/// The outside of one side of a body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side<L> {
    /// Air, °C.
    pub air: L,
    /// Walls that it sees, °C.
    pub walls: L,
    /// Convection, W/(m2 K).
    pub film: L,
    /// Emissivity of the outermost surface, 1.
    pub emissivity: L,
    /// How freely its water evaporates: mass transfer, kg/(s m2 Pa); 0 under a cover.
    pub dries: L,
    /// Pressure of vapour in the air, Pa.
    pub vapour: L,
    /// The tin, tray or bowl; none where the dough is bare.
    pub pan: Option<Pan<L>>,
}

/// A wall between dough and air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pan<L> {
    /// Its heat capacity, J/(m2 K).
    pub holds: L,
    /// How well it touches the dough, W/(m2 K), its own thickness in it.
    pub touches: L,
}

/// All three sides of a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surround<L> {
    /// Below.
    pub bottom: Side<L>,
    /// Around.
    pub side: Side<L>,
    /// Above.
    pub top: Side<L>,
}

/// Stefan and Boltzmann's constant, W/(m2 K4).
const STEFAN: f64 = 5.670_374e-8;

/// Radiation as a film, W/(m2 K), between a surface and walls, both in °C.
pub fn radiation<L: Lane>(emissivity: L, surface: L, walls: L) -> L {
    let zero = L::splat(273.15);
    let (one, other) = (surface + zero, walls + zero);
    emissivity * L::splat(STEFAN) * (one * one + other * other) * (one + other)
}

impl<L: Lane> Side<L> {
    /// A bare or covered side in still surroundings of one temperature.
    pub fn still(celsius: f64, film: f64, emissivity: f64) -> Self {
        Self {
            air: L::splat(celsius),
            walls: L::splat(celsius),
            film: L::splat(film),
            emissivity: L::splat(emissivity),
            dries: L::splat(0.0),
            vapour: L::splat(0.0),
            pan: None,
        }
    }

    /// The same through a wall.
    #[must_use]
    pub fn through(mut self, pan: Pan<L>) -> Self {
        self.pan = Some(pan);
        self
    }
}
