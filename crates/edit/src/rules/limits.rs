//! Where a rule begins to speak, as the table `data/limits.csv` has it with the source of each figure.

use numerics::quantity::{Duration, Mass, Temperature};
use recipe::provenance::{Had, Origin};
use std::sync::LazyLock;

/// A figure beside which a recipe is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Limit {
    RangeOfRest,
    CrumbSet,
    LeanCrumbSet,
    HeatingOfOven,
    WarmHoursBegin,
    WarmHours,
    WarmHoursAtMost,
    EggBakedThrough,
    ButterOfWarmRise,
    RiseOfButterDough,
    SugarThatSlows,
    Portion,
    PartOfItsBox,
}

impl Limit {
    /// Every one with its name in the table, in the order of the table.
    const ALL: [(Self, &'static str); 13] = [
        (Self::RangeOfRest, "range of a rest"),
        (Self::CrumbSet, "crumb set"),
        (Self::LeanCrumbSet, "lean crumb set"),
        (Self::HeatingOfOven, "heating of an oven"),
        (Self::WarmHoursBegin, "warm hours begin"),
        (Self::WarmHours, "warm hours"),
        (Self::WarmHoursAtMost, "warm hours at most"),
        (Self::EggBakedThrough, "egg baked through"),
        (Self::ButterOfWarmRise, "butter of a warm rise"),
        (Self::RiseOfButterDough, "rise of a butter dough"),
        (Self::SugarThatSlows, "sugar that slows"),
        (Self::Portion, "portion"),
        (Self::PartOfItsBox, "part of its box"),
    ];

    fn row(self) -> &'static Row {
        let place = Self::ALL.iter().position(|(own, _)| *own == self);
        &LIMITS[place.expect("every limit stands in the list")]
    }

    /// A share, as a fraction of one.
    pub fn share(self) -> f64 {
        self.of(Unit::Share)
    }

    /// A temperature.
    pub fn temperature(self) -> Temperature {
        Temperature::from_celsius(self.of(Unit::Celsius))
    }

    /// A stretch of time.
    pub fn time(self) -> Duration {
        let row = self.row();
        match row.unit {
            Unit::Hours => Duration::from_hours(row.low),
            _ => Duration::from_minutes(self.of(Unit::Minutes)),
        }
    }

    /// Two masses, from and to.
    pub fn masses(self) -> (Mass, Mass) {
        let (low, high) = self.ends(Unit::Grams);
        (Mass::from_grams(low), Mass::from_grams(high))
    }

    /// Two shares, from and to.
    pub fn shares(self) -> (f64, f64) {
        self.ends(Unit::Share)
    }

    fn ends(self, unit: Unit) -> (f64, f64) {
        let low = self.of(unit);
        (low, self.row().high.unwrap_or(low))
    }

    fn of(self, unit: Unit) -> f64 {
        let row = self.row();
        assert!(row.unit == unit, "{} is asked for in {unit:?}", row.name);
        row.low
    }
}

/// What a figure is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unit {
    Share,
    Minutes,
    Hours,
    Celsius,
    Grams,
}

/// A row of the table.
#[derive(Clone, Debug, PartialEq)]
struct Row {
    name: String,
    low: f64,
    high: Option<f64>,
    unit: Unit,
    origin: Origin,
}

const TABLE: &str = include_str!("../../data/limits.csv");

static LIMITS: LazyLock<Vec<Row>> = LazyLock::new(|| {
    read(TABLE).expect("the embedded table of limits is read by this file's tests")
});

/// Reads the table; the error names the row.
fn read(table: &str) -> Result<Vec<Row>, String> {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let mut rows = Vec::new();
    for (number, record) in reader.records().enumerate() {
        let record = record.map_err(|fault| fault.to_string())?;
        let fault = |what: &str| format!("row {}: {what}", number + 2);
        let field = |place: usize| record.get(place).unwrap_or("");
        let unit = match field(3) {
            "share" => Unit::Share,
            "min" => Unit::Minutes,
            "h" => Unit::Hours,
            "°C" => Unit::Celsius,
            "g" => Unit::Grams,
            _ => return Err(fault("unit")),
        };
        let number = |place: usize| field(place).parse::<f64>().map_err(|_| fault("number"));
        let had = Had::from_word(field(6)).ok_or_else(|| fault("how it was had"))?;
        if field(4).is_empty() || field(5).is_empty() {
            return Err(fault("what it is, or its source"));
        }
        rows.push(Row {
            name: field(0).to_owned(),
            low: number(1)?,
            high: (!field(2).is_empty()).then(|| number(2)).transpose()?,
            unit,
            origin: Origin::new(field(5), had),
        });
    }
    Ok(rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_has_every_limit_once_and_in_order() {
        let rows = read(TABLE).expect("a table that can be read");
        let names: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
        let wanted: Vec<&str> = Limit::ALL.iter().map(|(_, name)| *name).collect();
        assert_eq!(names, wanted);
        for row in &rows {
            assert!(!row.origin.source.is_empty() && row.low > 0.0, "{row:?}");
            assert!(row.high.is_none_or(|high| high > row.low), "{row:?}");
        }
    }

    #[test]
    fn each_limit_is_in_the_unit_it_is_asked_for() {
        assert!((Limit::WarmHours.time().hours() - 4.0).abs() < 1e-9);
        assert!((Limit::HeatingOfOven.time().minutes() - 20.0).abs() < 1e-9);
        assert!((Limit::CrumbSet.temperature().celsius() - 85.0).abs() < 1e-9);
        let (least, most) = Limit::Portion.masses();
        assert!((least.grams() - 60.0).abs() < 1e-9 && (most.grams() - 120.0).abs() < 1e-9);
        assert!((Limit::RangeOfRest.share() - 0.6).abs() < 1e-12);
    }

    #[test]
    fn a_row_that_cannot_be_read_is_named() {
        let head = "limit,low,high,unit,what,source,had\n";
        let row = |text: &str| read(&format!("{head}{text}\n"));
        assert_eq!(row("a,1,,cups,b,c,read"), Err("row 2: unit".to_owned()));
        assert_eq!(row("a,x,,g,b,c,read"), Err("row 2: number".to_owned()));
        assert_eq!(
            row("a,1,,g,b,c,guessed"),
            Err("row 2: how it was had".to_owned())
        );
        assert_eq!(
            row("a,1,,g,b,,read"),
            Err("row 2: what it is, or its source".to_owned())
        );
    }
}
