//! What each sort of value may be: how it is read, and the bounds outside which it is a slip.

use crate::document::model::{Amount, Money, Part, TinSize};
use crate::measure::read::{
    self, Unread, read_amount, read_height, read_length, read_mass, read_money, read_multiple,
    read_piece, read_power, read_share, read_span, read_temperature, read_temperature_difference,
    read_temperature_range, read_time, read_time_range, read_tin_size, read_volume,
};
use numerics::quantity::{
    Duration, Fraction, Length, Mass, Range, SpecificPower, Temperature, TemperatureDifference,
    Volume, ZERO_CELSIUS_K,
};

/// How a value is read and what it may be.
pub struct Kind<T> {
    /// Its reader.
    pub read: fn(&str) -> Result<T, Unread>,
    /// Its lowest and highest value in SI.
    pub ends: fn(&T) -> (f64, f64),
    /// Not below this, in SI.
    pub low: f64,
    /// Not above this, in SI.
    pub high: f64,
    /// "A room is between -10 °C and 50 °C."
    pub bounds: &'static str,
    /// A right one.
    pub example: &'static str,
}

/// A temperature within bounds in °C.
const fn temperature(
    low: f64,
    high: f64,
    example: &'static str,
    bounds: &'static str,
) -> Kind<Temperature> {
    Kind {
        read: read_temperature,
        ends: |t| (t.si(), t.si()),
        low: low + ZERO_CELSIUS_K,
        high: high + ZERO_CELSIUS_K,
        bounds,
        example,
    }
}

/// A time within bounds in seconds.
const fn time(low: f64, high: f64, example: &'static str, bounds: &'static str) -> Kind<Duration> {
    Kind {
        read: read_time,
        ends: |t| (t.si(), t.si()),
        low,
        high,
        bounds,
        example,
    }
}

/// A mass within bounds in kilograms.
const fn mass(low: f64, high: f64, example: &'static str, bounds: &'static str) -> Kind<Mass> {
    Kind {
        read: read_mass,
        ends: |m| (m.si(), m.si()),
        low,
        high,
        bounds,
        example,
    }
}

/// A length within bounds in metres.
const fn length(low: f64, high: f64, example: &'static str, bounds: &'static str) -> Kind<Length> {
    Kind {
        read: read_length,
        ends: |l| (l.si(), l.si()),
        low,
        high,
        bounds,
        example,
    }
}

/// Air of a room.
pub const ROOM: Kind<Temperature> =
    temperature(-10.0, 50.0, "21 °C", "A room is between -10 °C and 50 °C.");
/// Inside a refrigerator.
pub const REFRIGERATOR: Kind<Temperature> = temperature(
    -5.0,
    15.0,
    "4 °C",
    "A refrigerator is between -5 °C and 15 °C.",
);
/// Water from the cold tap.
pub const TAP: Kind<Temperature> =
    temperature(0.0, 45.0, "15 °C", "Tap water is between 0 °C and 45 °C.");
/// A warm place.
pub const WARM_PLACE: Kind<Temperature> = temperature(
    10.0,
    60.0,
    "28 °C",
    "A place for rising is between 10 °C and 60 °C.",
);
/// An ingredient when it goes in.
pub const ITEM: Kind<Temperature> = temperature(
    -40.0,
    150.0,
    "20 °C",
    "What goes into a dough is between -40 °C and 150 °C.",
);
/// Where something stands.
pub const STANDING: Kind<Temperature> = temperature(
    -30.0,
    60.0,
    "26 °C",
    "A place to stand is between -30 °C and 60 °C.",
);
/// An oven's dial.
pub const OVEN: Kind<Temperature> = temperature(
    30.0,
    550.0,
    "180 °C",
    "An oven is between 30 °C and 550 °C.",
);
/// A pan.
pub const PAN: Kind<Temperature> = temperature(
    20.0,
    220.0,
    "65 °C",
    "What is cooked in a pan is between 20 °C and 220 °C.",
);
/// The middle of bread.
pub const CORE: Kind<Temperature> = temperature(
    0.0,
    110.0,
    "93 °C",
    "The middle of bread is between 0 °C and 110 °C.",
);
/// A dough or paste that is looked at.
pub const DOUGH: Kind<Temperature> = temperature(
    -20.0,
    110.0,
    "26 °C",
    "A dough or paste is between -20 °C and 110 °C.",
);
/// A dough at the end of its mix.
pub const MIXED: Kind<Range<Temperature>> = Kind {
    read: read_temperature_range,
    ends: |r| (r.low.si(), r.high.si()),
    low: ZERO_CELSIUS_K,
    high: 50.0 + ZERO_CELSIUS_K,
    bounds: "A mixed dough is between 0 °C and 50 °C.",
    example: "25-26 °C",
};
/// A time of a step.
pub const TIME: Kind<Duration> = time(
    1.0,
    30.0 * 86_400.0,
    "55 min",
    "A step takes between 1 s and 30 d.",
);
/// A range of times of a step.
pub const TIME_RANGE: Kind<Range<Duration>> = Kind {
    read: read_time_range,
    ends: |r| (r.low.si(), r.high.si()),
    low: 0.0,
    high: 30.0 * 86_400.0,
    bounds: "A step takes no longer than 30 d.",
    example: "45-75 min",
};
/// A stretch of a planned day; none at all is one too.
pub const SPAN: Kind<Duration> = Kind {
    read: read_span,
    ..time(
        0.0,
        2.0 * 86_400.0,
        "20 min",
        "A stretch of a planned day is between none at all and 48 h.",
    )
};
/// A time in the oven.
pub const OVEN_TIME: Kind<Duration> = time(
    1.0,
    86_400.0,
    "36 min",
    "A bake takes between 1 s and 24 h.",
);
/// What the title promises.
pub const PROMISED: Kind<Duration> = time(
    60.0,
    30.0 * 86_400.0,
    "7 h",
    "A recipe takes between 1 min and 30 d.",
);
/// A mass of dough or water.
pub const MASS: Kind<Mass> = mass(
    1e-6,
    1000.0,
    "180 g",
    "A mass in a recipe is between 1 mg and 1000 kg.",
);
/// A bowl.
pub const BOWL_MASS: Kind<Mass> = mass(
    0.01,
    100.0,
    "900 g",
    "A bowl weighs between 10 g and 100 kg.",
);
/// A cup of something: steel shot would be 1.9 kg.
pub const CUP_MASS: Kind<Mass> = mass(
    0.005,
    0.6,
    "120 g",
    "A cup of food weighs between 5 g and 600 g.",
);
/// The thickness of a slab.
pub const THICK: Kind<Length> = length(
    0.001,
    0.5,
    "3 cm",
    "A slab is between 1 mm and 50 cm thick.",
);
/// Height over the sea; the Dead Sea's shore is at -430 m (from memory).
pub const ALTITUDE: Kind<Length> = Kind {
    read: read::read_altitude,
    ends: |l| (l.si(), l.si()),
    low: -450.0,
    high: 6000.0,
    bounds: "A kitchen is between -450 m and 6000 m over the sea.",
    example: "40 m",
};
/// Height against the rim.
pub const HEIGHT: Kind<Length> = Kind {
    read: read_height,
    ends: |l| (l.si(), l.si()),
    low: -0.3,
    high: 0.3,
    bounds: "A dough stands within 30 cm of the rim.",
    example: "1 cm below the rim",
};
/// A multiple of the volume at the start.
pub const MULTIPLE: Kind<f64> = Kind {
    read: read_multiple,
    ends: |m| (*m, *m),
    low: 0.5,
    high: 10.0,
    bounds: "A dough grows to between 0.5 and 10 times its volume.",
    example: "2 times",
};
/// A share of something.
pub const SHARE: Kind<Fraction> = Kind {
    read: read_share,
    ends: |s| (s.si(), s.si()),
    low: 0.0,
    high: 1.0,
    bounds: "A share is between 0 % and 100 %.",
    example: "11 %",
};
/// What bakes told of a kitchen, against what is usual.
pub const OF_USUAL: Kind<Fraction> = Kind {
    read: read_share,
    ends: |s| (s.si(), s.si()),
    low: 0.2,
    high: 5.0,
    bounds: "A kitchen has between 20 % and 500 % of what is usual.",
    example: "108 %",
};
/// Within what share a figure is known.
pub const WITHIN_SHARE: Kind<Fraction> = Kind {
    read: read_share,
    ends: |s| (s.si(), s.si()),
    low: 0.002,
    high: 1.0,
    bounds: "A figure is known within 0.2 % to 100 %.",
    example: "9 %",
};
/// Within how many degrees a figure is known.
pub const WITHIN: Kind<TemperatureDifference> = Kind {
    read: read_temperature_difference,
    ends: |d| (d.si(), d.si()),
    low: 0.02,
    high: 40.0,
    bounds: "A temperature is known within 0.02 °C to 40 °C.",
    example: "0.8 °C",
};
/// Air where a dough stands or a bread bakes, as it was read.
pub const READ_AIR: Kind<Temperature> = temperature(
    -30.0,
    300.0,
    "27 °C",
    "Air around a dough or a bread is between -30 °C and 300 °C.",
);
/// What a bowl or tin holds.
pub const HOLDS: Kind<Volume> = Kind {
    read: read_volume,
    ends: |v| (v.si(), v.si()),
    low: 1e-5,
    high: 0.5,
    bounds: "A bowl or tin holds between 10 mL and 500 L.",
    example: "1420 mL",
};
/// Work of a mixer; 25 W/kg is a stand mixer at medium speed (from memory).
pub const FRICTION: Kind<SpecificPower> = Kind {
    read: read_power,
    ends: |p| (p.si(), p.si()),
    low: 0.0,
    high: 500.0,
    bounds: "A mixer leaves between 0 W/kg and 500 W/kg in a dough.",
    example: "25 W/kg",
};
/// How far an oven's thermostat lets it swing; 11 °C is usual (from memory).
pub const SWING: Kind<TemperatureDifference> = Kind {
    read: read_temperature_difference,
    ends: |d| (d.si(), d.si()),
    low: 0.0,
    high: 40.0,
    bounds: "An oven swings by 0 °C to 40 °C to either side.",
    example: "10 °C",
};
/// How much a mix warms a dough.
pub const RISE: Kind<TemperatureDifference> = Kind {
    read: read_temperature_difference,
    ends: |d| (d.si(), d.si()),
    low: 0.0,
    high: 30.0,
    bounds: "A mix warms a dough by between 0 °C and 30 °C.",
    example: "5 °C",
};
/// An amount of an ingredient.
pub const AMOUNT: Kind<Amount> = Kind {
    read: read_amount,
    ends: amount_ends,
    low: 0.0,
    high: 1.0,
    bounds: "An amount is at most 1000 kg, 1000 L or 10,000 pieces.",
    example: "180 g",
};
/// What was paid.
pub const MONEY: Kind<Money> = Kind {
    read: read_money,
    ends: |money| (money.sum, money.sum),
    low: 0.0,
    high: 1e6,
    bounds: "No ingredient of a kitchen costs more than a million.",
    example: "2.49 EUR",
};
/// Of what a piece is made.
pub const PIECE: Kind<Vec<Part>> = Kind {
    read: read_piece,
    ends: |parts| {
        let all = parts.iter().map(|p| p.mass.si() * f64::from(p.count)).sum();
        (all, all)
    },
    low: 1e-4,
    high: 100.0,
    bounds: "A piece is between 0.1 g and 100 kg.",
    example: "3 x 220 g",
};
/// The size of a tin.
pub const TIN: Kind<TinSize> = Kind {
    read: read_tin_size,
    ends: tin_ends,
    low: 0.002,
    high: 3.0,
    bounds: "A tin's sides are between 2 mm and 3 m.",
    example: "21.6 x 11.4 x 6.4 cm",
};

/// An amount as a share of the largest one allowed.
fn amount_ends(amount: &Amount) -> (f64, f64) {
    let share = match amount {
        Amount::Mass(mass) => mass.si() / 1000.0,
        Amount::Measures(spooned) => spooned
            .iter()
            .map(|s| s.count * s.measure.volume().si())
            .sum::<f64>(),
        Amount::Count { count, .. } => count / 10_000.0,
    };
    (share, share)
}

/// The shortest and the longest side.
fn tin_ends(size: &TinSize) -> (f64, f64) {
    let sides = match *size {
        TinSize::Box {
            length,
            width,
            depth,
        } => [length, width, depth],
        TinSize::Tray { length, width } => [length, width, width],
        TinSize::Round { diameter, height } => [diameter, height, height],
    };
    let metres = sides.map(Length::si);
    (
        metres.iter().copied().fold(f64::INFINITY, f64::min),
        metres.iter().copied().fold(0.0, f64::max),
    )
}
