//! The tins of households by their names and sizes, and how much water fills each.

use crate::document::model::TinSize;
use numerics::quantity::{Length, Volume};

/// The table as it is kept; household charts differ and no standard rules them.
const TABLE: &str = include_str!("../../data/pans.csv");

/// A tin of a household chart.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseholdTin {
    /// Its name in the chart: "loaf 9x5".
    pub name: String,
    /// Its nominal dimensions.
    pub size: TinSize,
    /// What it holds by the chart, filled with water; none where the chart is silent.
    pub holds: Option<Volume>,
    /// Length x width x depth, or pi r^2 h, as the chart's maker reckoned it.
    pub straight: Option<Volume>,
    /// What the row warns of.
    pub note: String,
    /// Where it comes from.
    pub source: String,
}

impl HouseholdTin {
    /// Whether it has a tube in its middle, or fluted walls: no plain box or cone.
    pub fn is_shaped(&self) -> bool {
        self.name.contains("tube") || self.name.contains("fluted")
    }

    /// Whether it is a loaf tin.
    pub fn is_loaf(&self) -> bool {
        self.name.contains("loaf") && !self.name.contains("lidded")
    }
}

/// Every tin of the chart, trays included.
pub fn household_tins() -> Vec<HouseholdTin> {
    let mut reader = csv::Reader::from_reader(TABLE.as_bytes());
    let rows = reader.records().filter_map(Result::ok);
    rows.filter_map(|row| {
        let text = |place: usize| row.get(place).unwrap_or("").to_owned();
        let number = |place: usize| row.get(place)?.parse::<f64>().ok();
        let mm = |place: usize| number(place).map(|mm| Length::from_centimetres(mm / 10.0));
        let ml = |place: usize| number(place).map(Volume::from_millilitres);
        let (length, width) = (mm(2)?, mm(3)?);
        let name = text(0);
        let round = ["round", "springform", "tube", "brioche"]
            .iter()
            .any(|word| name.contains(word));
        let size = match mm(4) {
            Some(height) if round => TinSize::Round {
                diameter: length,
                height,
            },
            Some(depth) if depth.centimetres() > 3.0 => TinSize::Box {
                length,
                width,
                depth,
            },
            _ => TinSize::Tray { length, width },
        };
        Some(HouseholdTin {
            size,
            holds: ml(7),
            straight: ml(5),
            note: text(8),
            source: text(9),
            name,
        })
    })
    .collect()
}

/// The loaf or plain round tin of the chart that holds nearest to a volume, within a share of it.
pub fn nearest(volume: Volume, like: &TinSize, within: f64) -> Option<HouseholdTin> {
    let round = matches!(like, TinSize::Round { .. });
    let apart = |tin: &HouseholdTin| {
        let holds = tin.holds.unwrap_or(Volume::ZERO);
        (holds / volume - 1.0).abs()
    };
    household_tins()
        .into_iter()
        .filter(|tin| match tin.size {
            TinSize::Round { .. } => round && !tin.is_shaped(),
            TinSize::Box { .. } => !round && tin.is_loaf(),
            TinSize::Tray { .. } => false,
        })
        .filter(|tin| apart(tin) <= within)
        .min_by(|one, other| apart(one).total_cmp(&apart(other)))
}

/// The tin of the chart that is called so: "loaf 9x5", "9x5", "Springform 24 cm".
pub fn called(words: &str) -> Option<HouseholdTin> {
    let asked = words.to_lowercase().replace(' ', "").replace('×', "x");
    let plain = |name: &str| name.to_lowercase().replace(' ', "");
    household_tins().into_iter().find(|tin| {
        let last = tin.name.rsplit(' ').next().unwrap_or("");
        plain(&tin.name) == asked || (last.contains('x') && plain(last) == asked)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_of_the_chart_is_read() {
        let rows = TABLE.lines().count() - 1;
        assert_eq!(household_tins().len(), rows);
        assert_eq!(
            household_tins()
                .iter()
                .filter(|tin| tin.holds.is_some())
                .count(),
            17
        );
    }

    #[test]
    fn a_tin_is_found_by_its_name_and_by_what_it_holds() {
        assert_eq!(
            called("9x5").map(|tin| tin.name).as_deref(),
            Some("loaf 9x5")
        );
        let like = TinSize::Box {
            length: Length::from_centimetres(21.6),
            width: Length::from_centimetres(11.4),
            depth: Length::from_centimetres(6.4),
        };
        let near = nearest(Volume::from_millilitres(950.0), &like, 0.03);
        assert_eq!(near.map(|tin| tin.name).as_deref(), Some("loaf 8x4"));
        assert_eq!(nearest(Volume::from_millilitres(700.0), &like, 0.03), None);
    }
}
