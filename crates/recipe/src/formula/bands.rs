//! The bands within which each kind of bread usually lies, and where each band comes from.

use crate::document::model::Kind;
use crate::provenance::{Had, Origin};
use std::sync::LazyLock;

/// What a band is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Measured {
    /// Salt on flour.
    Salt,
    /// Yeast on flour, reckoned as instant.
    Yeast,
    /// Water in all on flour.
    Water,
    /// Fat on flour, the flour's own not counted.
    Fat,
    /// Sugar on flour.
    Sugar,
    /// Sugar on water, raised with ordinary yeast.
    SugarOnWater,
    /// Sugar on water, raised with a yeast for sweet doughs.
    SugarOnWaterSweetYeast,
    /// Egg on flour, as weighed.
    Egg,
    /// Millilitres of open tin for a gram of dough.
    TinOpen,
    /// Millilitres of lidded tin for a gram of dough.
    TinLidded,
    /// Millilitres of tall mould for a gram of dough.
    TinTall,
    /// Dough left over, as a share of the dough.
    Trim,
    /// What the bake takes, as a share of the raw piece.
    BakeLoss,
}

impl Measured {
    /// Every one, in the order in which a formula is read.
    pub const ALL: [Self; 13] = [
        Self::Salt,
        Self::Yeast,
        Self::Water,
        Self::Fat,
        Self::Sugar,
        Self::SugarOnWater,
        Self::SugarOnWaterSweetYeast,
        Self::Egg,
        Self::TinOpen,
        Self::TinLidded,
        Self::TinTall,
        Self::Trim,
        Self::BakeLoss,
    ];

    /// The words in the table.
    const fn word(self) -> &'static str {
        match self {
            Self::Salt => "salt",
            Self::Yeast => "yeast",
            Self::Water => "water",
            Self::Fat => "fat",
            Self::Sugar => "sugar",
            Self::SugarOnWater => "sugar on water",
            Self::SugarOnWaterSweetYeast => "sugar on water with a yeast for sweet doughs",
            Self::Egg => "egg",
            Self::TinOpen => "tin open",
            Self::TinLidded => "tin lidded",
            Self::TinTall => "tin tall",
            Self::Trim => "trim",
            Self::BakeLoss => "bake loss",
        }
    }
}

/// The unit of a band's two ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BandUnit {
    /// A share of the flour; 0.02 is 2 %.
    OfFlour,
    /// A share of the water.
    OfWater,
    /// A share of the dough.
    OfDough,
    /// A share of the raw piece.
    OfRawMass,
    /// Millilitres for a gram.
    MillilitresPerGram,
}

impl BandUnit {
    /// The words after a number: "% of the flour", "mL/g".
    pub const fn words(self) -> &'static str {
        match self {
            Self::OfFlour => "% of the flour",
            Self::OfWater => "% of the water",
            Self::OfDough => "% of the dough",
            Self::OfRawMass => "% of the raw mass",
            Self::MillilitresPerGram => "mL/g",
        }
    }

    /// By what a value is multiplied to be written: a share in per cent.
    pub const fn scale(self) -> f64 {
        match self {
            Self::MillilitresPerGram => 1.0,
            _ => 100.0,
        }
    }
}

/// A low and a high end, both usual, with what they are of and where they come from.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// What it is about.
    pub measured: Measured,
    /// The kind of bread.
    pub kind: Kind,
    /// The lowest usual value: a share (0.014), or mL/g.
    pub low: f64,
    /// The highest usual value.
    pub high: f64,
    /// What the ends are of.
    pub unit: BandUnit,
    /// What a page calls it.
    pub label: String,
    /// Where it comes from.
    pub origin: Origin,
}

impl Band {
    /// Whether a value lies inside, ends included.
    ///
    /// A value that sums of binary fractions put a hair beyond an end counts as the end.
    pub fn holds(&self, value: f64) -> bool {
        let hair = 1e-9 * self.high.abs().max(1.0);
        self.low - hair <= value && value <= self.high + hair
    }
}

/// The table as it is kept.
const TABLE: &str = include_str!("../../data/bands.csv");

/// The table by kind, in the order of [`Kind::ALL`] and of [`Measured::ALL`].
static BANDS: LazyLock<Vec<Vec<Band>>> = LazyLock::new(|| {
    let rows = read(TABLE).expect("the embedded table of bands is read by this file's tests");
    Kind::ALL
        .iter()
        .map(|kind| {
            let mut of_kind: Vec<Band> = rows
                .iter()
                .filter(|band| band.kind == *kind)
                .cloned()
                .collect();
            of_kind.sort_by_key(|band| band.measured);
            of_kind
        })
        .collect()
});

/// The bands of a kind of bread.
pub fn bands(kind: Kind) -> &'static [Band] {
    let place = Kind::ALL.iter().position(|other| *other == kind);
    place.map_or(&[], |place| &BANDS[place])
}

/// One band of a kind of bread.
pub fn band(kind: Kind, measured: Measured) -> Option<&'static Band> {
    bands(kind).iter().find(|band| band.measured == measured)
}

/// Reads the table; the error names the row.
fn read(table: &str) -> Result<Vec<Band>, String> {
    let mut bands = Vec::new();
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    for (row, record) in reader.records().enumerate() {
        let record = record.map_err(|fault| fault.to_string())?;
        let fault = |what: &str| format!("row {}: {what}", row + 2);
        let field = |place: usize| record.get(place).unwrap_or("");
        let measured = *Measured::ALL
            .iter()
            .find(|measured| measured.word() == field(0))
            .ok_or_else(|| fault("quantity"))?;
        let kinds: Vec<Kind> = Kind::ALL
            .into_iter()
            .filter(|kind| field(1) == "all" || field(1) == kind.word())
            .collect();
        let unit = match field(4) {
            "% of flour" => BandUnit::OfFlour,
            "% of water" => BandUnit::OfWater,
            "% of dough" => BandUnit::OfDough,
            "% of raw mass" => BandUnit::OfRawMass,
            "mL/g" => BandUnit::MillilitresPerGram,
            _ => return Err(fault("unit")),
        };
        let number = |place: usize| {
            let value: f64 = field(place).parse().map_err(|_| fault("number"))?;
            Ok::<f64, String>(value / unit.scale())
        };
        let had = Had::from_word(field(7)).ok_or_else(|| fault("how it was had"))?;
        if kinds.is_empty() {
            return Err(fault("kind"));
        }
        for kind in kinds {
            bands.push(Band {
                measured,
                kind,
                low: number(2)?,
                high: number(3)?,
                unit,
                label: field(5).to_owned(),
                origin: Origin::new(field(6), had),
            });
        }
    }
    Ok(bands)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_every_band_once_and_the_right_way_round() {
        read(TABLE).expect("a table that can be read");
        for kind in Kind::ALL {
            let measured: Vec<Measured> = bands(kind).iter().map(|band| band.measured).collect();
            assert_eq!(measured, Measured::ALL, "{}", kind.word());
            for band in bands(kind) {
                assert!(band.low < band.high, "{band:?}");
                assert!(!band.origin.source.is_empty(), "{band:?}");
            }
        }
    }

    #[test]
    fn a_row_that_cannot_be_read_is_named() {
        let table = "quantity,kind,low,high,unit,label,source,had\nsalt,all,1,2,cups,salt,x,read\n";
        assert_eq!(read(table), Err("row 2: unit".to_owned()));
    }

    #[test]
    fn the_ends_belong_to_the_band() {
        let salt = band(Kind::Lean, Measured::Salt).expect("salt");
        assert!(salt.holds(0.014) && salt.holds(0.024));
        assert!(!salt.holds(0.0139) && !salt.holds(0.0241));
    }
}
