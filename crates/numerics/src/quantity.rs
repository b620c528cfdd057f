//! One type for each kind of quantity, SI inside, so that a temperature is never taken for a
//! temperature difference and a mass never for a volume.

use std::cmp::Ordering;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// Makes a newtype over an SI `f64` with the algebra of a vector space.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $si:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq)]
        pub struct $name(f64);

        impl $name {
            /// The SI unit in which the value is held.
            pub const SI: &'static str = $si;
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);

            /// From the value in its SI unit.
            pub const fn from_si(value: f64) -> Self {
                Self(value)
            }

            /// The value in its SI unit.
            pub const fn si(self) -> f64 {
                self.0
            }

            /// Whether the value is a number that can be reckoned with.
            pub fn is_finite(self) -> bool {
                self.0.is_finite()
            }

            /// Orders two values; a value that is not a number sorts last.
            pub fn order(self, other: Self) -> Ordering {
                self.0.total_cmp(&other.0)
            }

            /// The size of it, without sign.
            #[must_use]
            pub fn abs(self) -> Self {
                Self(self.0.abs())
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }

        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl Sum for $name {
            fn sum<I: Iterator<Item = Self>>(values: I) -> Self {
                // From +0: an empty sum of the standard library is -0, which would print so.
                Self(values.fold(0.0, |sum, value| sum + value.0))
            }
        }

        impl PartialOrd for $name {
            fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
                self.0.partial_cmp(&other.0)
            }
        }
    };
}

/// Makes a pair of constructor and reader in a unit other than SI.
macro_rules! also_in {
    ($name:ident, $from:ident, $to:ident, $unit:literal, $factor:expr) => {
        impl $name {
            #[doc = concat!("From a value in ", $unit, ".")]
            pub const fn $from(value: f64) -> Self {
                Self(value * $factor)
            }

            #[doc = concat!("The value in ", $unit, ".")]
            pub const fn $to(self) -> f64 {
                self.0 / $factor
            }
        }
    };
}

quantity!(
    /// A mass.
    Mass, "kg"
);
also_in!(Mass, from_grams, grams, "grams", 1e-3);

quantity!(
    /// A volume.
    Volume, "m3"
);
also_in!(Volume, from_millilitres, millilitres, "millilitres", 1e-6);

quantity!(
    /// A length.
    Length, "m"
);
also_in!(Length, from_millimetres, millimetres, "millimetres", 1e-3);
also_in!(Length, from_centimetres, centimetres, "centimetres", 1e-2);

quantity!(
    /// A stretch of time.
    Duration, "s"
);
also_in!(Duration, from_minutes, minutes, "minutes", 60.0);
also_in!(Duration, from_hours, hours, "hours", 3600.0);

quantity!(
    /// A difference between two temperatures.
    TemperatureDifference, "K"
);

quantity!(
    /// An amount of heat or work.
    Energy, "J"
);

quantity!(
    /// Heat that warms a body by one kelvin.
    HeatCapacity, "J/K"
);

quantity!(
    /// Heat that warms a kilogram by one kelvin.
    SpecificHeat, "J/(kg K)"
);

quantity!(
    /// Heat per kilogram: of melting, of hydration, of solution.
    SpecificEnergy, "J/kg"
);

quantity!(
    /// Work per second and kilogram that a mixer leaves in a dough.
    SpecificPower, "W/kg"
);

quantity!(
    /// Mass per volume.
    Density, "kg/m3"
);
also_in!(
    Density,
    from_grams_per_millilitre,
    grams_per_millilitre,
    "grams per millilitre",
    1e3
);

quantity!(
    /// A pressure.
    Pressure, "Pa"
);

quantity!(
    /// A plain ratio: a share of the flour, of a mass, of a volume.
    Fraction, "1"
);
also_in!(Fraction, from_percent, percent, "per cent", 1e-2);

/// A temperature, held in kelvin. It has no zero to add to and no multiples: two of them differ by
/// a [`TemperatureDifference`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(f64);

/// Kelvin at the zero of the Celsius scale (exact; BIPM, The International System of Units).
pub const ZERO_CELSIUS_K: f64 = 273.15;

impl Temperature {
    /// The SI unit in which the value is held.
    pub const SI: &'static str = "K";

    /// From kelvin.
    pub const fn from_si(kelvin: f64) -> Self {
        Self(kelvin)
    }

    /// In kelvin.
    pub const fn si(self) -> f64 {
        self.0
    }

    /// From degrees Celsius.
    pub const fn from_celsius(degrees: f64) -> Self {
        Self(degrees + ZERO_CELSIUS_K)
    }

    /// In degrees Celsius.
    pub const fn celsius(self) -> f64 {
        self.0 - ZERO_CELSIUS_K
    }

    /// From degrees Fahrenheit (C = (F - 32) / 1.8, exact; NIST SP 811).
    pub const fn from_fahrenheit(degrees: f64) -> Self {
        Self::from_celsius((degrees - 32.0) / 1.8)
    }

    /// In degrees Fahrenheit.
    pub const fn fahrenheit(self) -> f64 {
        self.celsius() * 1.8 + 32.0
    }

    /// Whether the value is a number that can be reckoned with.
    pub fn is_finite(self) -> bool {
        self.0.is_finite()
    }

    /// Orders two temperatures; one that is not a number sorts last.
    pub fn order(self, other: Self) -> Ordering {
        self.0.total_cmp(&other.0)
    }
}

impl Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, difference: TemperatureDifference) -> Self {
        Self(self.0 + difference.0)
    }
}

impl Sub<TemperatureDifference> for Temperature {
    type Output = Self;
    fn sub(self, difference: TemperatureDifference) -> Self {
        Self(self.0 - difference.0)
    }
}

/// Makes the products of kinds that physics needs; each is one line and none is implied.
macro_rules! product {
    ($left:ident * $right:ident = $out:ident) => {
        impl Mul<$right> for $left {
            type Output = $out;
            fn mul(self, other: $right) -> $out {
                $out(self.0 * other.0)
            }
        }
    };
}

product!(Mass * SpecificHeat = HeatCapacity);
product!(Mass * SpecificEnergy = Energy);
product!(HeatCapacity * TemperatureDifference = Energy);
product!(SpecificPower * Duration = SpecificEnergy);

impl Div<HeatCapacity> for Energy {
    type Output = TemperatureDifference;
    fn div(self, capacity: HeatCapacity) -> TemperatureDifference {
        TemperatureDifference(self.0 / capacity.0)
    }
}

impl Div<Density> for Mass {
    type Output = Volume;
    fn div(self, density: Density) -> Volume {
        Volume(self.0 / density.0)
    }
}

impl Mul<Density> for Volume {
    type Output = Mass;
    fn mul(self, density: Density) -> Mass {
        Mass(self.0 * density.0)
    }
}

/// A lowest and a highest value, both included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range<T> {
    /// The lowest value.
    pub low: T,
    /// The highest value.
    pub high: T,
}

impl<T: PartialOrd + Copy> Range<T> {
    /// Whether the value lies inside, ends included.
    pub fn holds(&self, value: T) -> bool {
        self.low <= value && value <= self.high
    }
}
