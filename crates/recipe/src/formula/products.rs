//! What is made of the dough: pieces, fillings, tins and what the bake takes.

use super::model::{ProductSum, Resolved, ResolvedItem};
use crate::document::model::{Part, Product, Tin, TinSize};
use numerics::quantity::{Fraction, Mass, Volume};

/// The mass of one piece: 3 x 220 g is 660 g, 48 g + 8 g is 56 g.
pub fn piece_mass(parts: &[Part]) -> Mass {
    parts.iter().fold(Mass::ZERO, |sum, part| {
        sum + part.mass * f64::from(part.count)
    })
}

/// How a tin shapes the bread, which decides how much dough it wants.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TinShape {
    /// An open tin: the bread domes above the rim.
    Open,
    /// Baked with its lid on.
    Lidded,
    /// A tall mould, at least six tenths as high as it is wide.
    Tall,
    /// A tray: no volume.
    Flat,
}

/// A round mould at least this high for its width stands tall; a cake tin is 0.25, a feast-bread
/// mould 0.67.
pub const TALL_FROM: f64 = 0.6;

/// The shape of a tin.
pub fn tin_shape(tin: &Tin) -> TinShape {
    match tin.size.value {
        TinSize::Tray { .. } => TinShape::Flat,
        _ if tin.lidded.as_ref().is_some_and(|lidded| lidded.value) => TinShape::Lidded,
        TinSize::Round { diameter, height } if height.si() >= TALL_FROM * diameter.si() => {
            TinShape::Tall
        }
        TinSize::Round { .. } | TinSize::Box { .. } => TinShape::Open,
    }
}

/// What a tin holds: as written, else a cylinder's pi r^2 h for a round one. A box without a
/// written volume stays unknown: its walls slope, and length x width x depth overstates a loaf
/// tin by 10-28 % (household charts of loaf tins against their straight-wall volume).
pub fn tin_volume(tin: &Tin) -> Option<Volume> {
    if let Some(holds) = &tin.holds {
        return Some(holds.value);
    }
    match tin.size.value {
        TinSize::Round { diameter, height } => {
            let radius = diameter.si() / 2.0;
            Some(Volume::from_si(
                std::f64::consts::PI * radius * radius * height.si(),
            ))
        }
        TinSize::Box { .. } | TinSize::Tray { .. } => None,
    }
}

/// A product's masses; `stage_mass` gives the mass of a stage that fills it.
pub fn product_sum(
    product: &Product,
    with: &[ResolvedItem],
    stage_mass: impl Fn(usize) -> Mass,
) -> ProductSum {
    let count = product.count.value;
    let piece = piece_mass(&product.piece.value);
    let filling = with.iter().fold(Mass::ZERO, |sum, item| {
        sum + filling_in_one(item, count, &stage_mass)
    });
    let raw = piece + filling;
    let bake_loss = product
        .after_bake
        .as_ref()
        .filter(|_| raw > Mass::ZERO)
        .map(|after| Fraction::from_si(1.0 - after.value / raw));
    let tin_ml_per_g = product
        .tin
        .as_ref()
        .and_then(tin_volume)
        .filter(|_| piece > Mass::ZERO)
        .map(|volume| volume.millilitres() / piece.grams());
    ProductSum {
        name: product.name.value.clone(),
        piece,
        filling,
        count,
        dough: piece * f64::from(count),
        bake_loss,
        tin_ml_per_g,
    }
}

/// What one piece gets of a filling: as written, else an even share of the whole stage.
pub fn filling_in_one(
    item: &ResolvedItem,
    count: u32,
    stage_mass: &impl Fn(usize) -> Mass,
) -> Mass {
    match (&item.what, item.mass) {
        (_, Some(mass)) => mass,
        (Resolved::Stage(stage), None) if count > 0 => stage_mass(*stage) / f64::from(count),
        _ => Mass::ZERO,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::model::Material;
    use crate::formula::samples::at;
    use crate::source::Span;
    use numerics::quantity::Length;

    fn tin(size: TinSize, holds: Option<f64>) -> Tin {
        Tin {
            name: at("tin".to_owned()),
            size: at(size),
            holds: holds.map(|ml| at(Volume::from_millilitres(ml))),
            material: at(Material::Paper),
            lidded: None,
            span: Span::default(),
        }
    }

    #[test]
    fn a_paper_mould_is_reckoned_as_a_cylinder() {
        let size = TinSize::Round {
            diameter: Length::from_centimetres(16.5),
            height: Length::from_centimetres(11.0),
        };
        let mould = tin(size, None);
        // pi x 8.25^2 x 11 = 2352.06 mL.
        let volume = tin_volume(&mould).map(|v| v.millilitres().round());
        assert_eq!(volume, Some(2352.0));
        assert_eq!(tin_shape(&mould), TinShape::Tall);
    }

    #[test]
    fn a_written_volume_wins_and_a_box_alone_stays_unknown() {
        let size = TinSize::Box {
            length: Length::from_centimetres(21.6),
            width: Length::from_centimetres(11.4),
            depth: Length::from_centimetres(6.4),
        };
        assert_eq!(tin_volume(&tin(size, None)), None);
        let written = tin_volume(&tin(size, Some(1420.0))).map(|v| v.millilitres().round());
        assert_eq!(written, Some(1420.0));
    }

    #[test]
    fn parts_make_a_piece() {
        let braid = [Part {
            count: 3,
            mass: Mass::from_grams(220.0),
        }];
        assert_eq!(
            numerics::decimal::fixed(piece_mass(&braid).grams(), 3),
            "660.000"
        );
    }
}
