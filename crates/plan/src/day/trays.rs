//! How many pieces a tray takes, how many tins a rack, and in how many loads a product is baked.

use numerics::math::cbrt;
use numerics::quantity::{Length, Mass};
use recipe::document::model::{Product, TinSize};
use recipe::formula::piece_mass;

/// Raw dough, kg/m3 (common practice: a little heavier than water).
const DOUGH: f64 = 1100.0;
/// A shaped piece is so much wider than a ball of its dough (ours).
const WIDER: f64 = 1.2;
/// Between two pieces on a tray (common practice: they double).
const BETWEEN_M: f64 = 0.05;
/// A piece of so much lies alone on its tray (common practice).
const ALONE: Mass = Mass::from_grams(300.0);
/// A rack of a household oven, and the air between tins on it (common practice).
const RACK_M: (f64, f64) = (0.44, 0.36);

/// One load of a product: what goes into the oven together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Load {
    /// Its pieces.
    pub pieces: u32,
    /// The racks that it takes.
    pub racks: i32,
    /// The tins or trays that it takes.
    pub tins: i32,
}

/// So many of one size lie on a surface, either way round, so far apart.
fn fit(surface: (f64, f64), size: (f64, f64), between: f64) -> u32 {
    let along = |room: f64, one: f64| {
        let count = ((room + between) / (one + between) + 1e-9).floor();
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        // no tray holds so many that this matters
        let count = count.clamp(0.0, 10_000.0) as u32;
        count
    };
    let straight = along(surface.0, size.0) * along(surface.1, size.1);
    let turned = along(surface.0, size.1) * along(surface.1, size.0);
    straight.max(turned).max(1)
}

/// Pieces on one tray, or one in each tin; and tins on one rack.
fn places(product: &Product) -> (u32, u32) {
    let mass = piece_mass(&product.piece.value);
    let metres = |length: Length| length.si();
    let size = product.tin.as_ref().map(|tin| tin.size.value);
    match size {
        Some(TinSize::Tray { length, width }) if mass < ALONE => {
            let volume = mass.si() / DOUGH;
            let wide = WIDER * cbrt(volume * 6.0 / core::f64::consts::PI);
            let tray = (metres(length), metres(width));
            (fit(tray, (wide, wide), BETWEEN_M), 1)
        }
        Some(TinSize::Box { length, width, .. }) => {
            let tin = (metres(length), metres(width));
            (1, fit(RACK_M, tin, BETWEEN_M))
        }
        Some(TinSize::Round { diameter, .. }) => {
            let tin = (metres(diameter), metres(diameter));
            (1, fit(RACK_M, tin, BETWEEN_M))
        }
        Some(TinSize::Tray { .. }) | None => (1, 1),
    }
}

/// Pieces that one tray of a product takes.
pub fn on_one(product: &Product) -> u32 {
    places(product).0
}

/// The loads of a product in an oven with so many racks, as even as can be.
pub fn loads(product: &Product, racks: i32) -> Vec<Load> {
    let (on_one, on_rack) = places(product);
    let racks = u32::try_from(racks.max(1)).unwrap_or(1);
    let most = on_one.saturating_mul(on_rack).saturating_mul(racks).max(1);
    let pieces = product.count.value.max(1);
    let count = pieces.div_ceil(most);
    (0..count)
        .map(|at| {
            let pieces = pieces / count + u32::from(at < pieces % count);
            let tins = pieces.div_ceil(on_one);
            let whole = |number: u32| i32::try_from(number).unwrap_or(i32::MAX);
            Load {
                pieces,
                racks: whole(tins.div_ceil(on_rack)),
                tins: whole(tins),
            }
        })
        .collect()
}
