//! What a kitchen has for a bake day: hands, racks, places, tins, and the hours that are left free.

use jiff::civil::Time;
use recipe::document::model::{Hours, KitchenFile};

/// What there is to work with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Means {
    /// Pairs of hands.
    pub hands: i32,
    /// Trays that the oven takes at once.
    pub racks: i32,
    /// Trays or bowls that the warm place takes; none when there is no end of it.
    pub warm_places: Option<i32>,
    /// Trays or bowls that the refrigerator takes.
    pub shelves: Option<i32>,
    /// The warm place is the oven itself, off.
    pub oven_warms: bool,
    /// Hours in which nobody works.
    pub quiet: Vec<Hours>,
    /// Breaks.
    pub breaks: Vec<Hours>,
    /// Before this hour work is early.
    pub morning: Time,
    /// Tins and trays by their names in lower case; none when nobody counted them.
    pub tins: Option<Vec<(String, i32)>>,
}

impl Default for Means {
    /// One pair of hands and one rack, as many tins and places as are wanted, no quiet hours; work
    /// before seven is early (common practice).
    fn default() -> Self {
        Self {
            hands: 1,
            racks: 1,
            warm_places: None,
            shelves: None,
            oven_warms: false,
            quiet: Vec::new(),
            breaks: Vec::new(),
            morning: Time::constant(7, 0, 0, 0),
            tins: None,
        }
    }
}

/// When nothing is said, nobody works from 23:00 to 05:00 (ours).
pub const NIGHT: Hours = Hours {
    from: Time::constant(23, 0, 0, 0),
    to: Time::constant(5, 0, 0, 0),
};

impl Means {
    /// Those of a home of which nothing is known: at night people sleep.
    pub fn usual() -> Self {
        Self {
            quiet: vec![NIGHT],
            ..Self::default()
        }
    }

    /// Of a day that has begun: whoever is up goes on, where no quiet hours are written down.
    pub fn is_up(&mut self) {
        if self.sleeps() {
            self.quiet.clear();
        }
    }

    /// Whether the only quiet hours are those of a night that nobody has written down.
    pub fn sleeps(&self) -> bool {
        self.quiet == [NIGHT]
    }

    /// How many there are of a tin; none when nobody counted.
    pub fn tin(&self, name: &str) -> Option<i32> {
        let tins = self.tins.as_ref()?;
        let name = name.to_lowercase();
        let own = tins.iter().find(|(own, _)| *own == name);
        Some(own.map_or(0, |(_, count)| *count))
    }
}

/// What the file of a kitchen says that there is; `quiet = []` is a kitchen that works at night.
pub fn means(file: &KitchenFile) -> Means {
    let usual = Means::usual();
    let Some(day) = &file.day else { return usual };
    let whole = |number: i64| i32::try_from(number).unwrap_or(i32::MAX);
    let count = |written: &Option<recipe::source::Located<i64>>| {
        written.as_ref().map(|written| whole(written.value))
    };
    let tins: Vec<(String, i32)> = day
        .tins
        .iter()
        .map(|(name, count)| (name.value.to_lowercase(), whole(count.value)))
        .collect();
    Means {
        hands: count(&day.hands).unwrap_or(usual.hands),
        racks: count(&day.racks).unwrap_or(usual.racks),
        warm_places: count(&day.warm_places),
        shelves: count(&day.shelves),
        oven_warms: day.oven_warms.as_ref().is_some_and(|warms| warms.value),
        quiet: day.quiet.as_ref().map_or(usual.quiet, |written| {
            written.iter().map(|hours| hours.value).collect()
        }),
        breaks: day.breaks.iter().map(|hours| hours.value).collect(),
        morning: day
            .morning
            .as_ref()
            .map_or(usual.morning, |time| time.value),
        tins: (!tins.is_empty()).then_some(tins),
    }
}
