//! One value of a kitchen by its name, read and bounded as in a kitchen's file: "room", "17 °C".

use super::kind::{self, Kind};
use crate::measure::Unread;
use crate::measure::read::read_temperature_difference;
use crate::source::near;
use numerics::quantity::{Length, SpecificPower, Temperature, TemperatureDifference};

/// A value of a kitchen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum KitchenValue {
    /// Air of the room.
    Room(Temperature),
    /// Inside the refrigerator.
    Refrigerator(Temperature),
    /// The warm place.
    WarmPlace(Temperature),
    /// Water from the cold tap.
    Tap(Temperature),
    /// The bowl at the start.
    Bowl(Temperature),
    /// Height above the sea.
    Altitude(Length),
    /// How much hotter the oven is inside than its dial says.
    Oven(TemperatureDifference),
    /// Whether the oven's fan runs.
    Fan(bool),
    /// How far the oven's thermostat lets it swing to either side.
    Swing(TemperatureDifference),
    /// How much heat is missing when the bread goes in.
    Short(TemperatureDifference),
    /// Trays in the oven at once, loaded alike.
    Shelves(u8),
    /// Work that the mixer leaves in the dough at medium speed.
    Mixer(SpecificPower),
}

impl KitchenValue {
    /// The names by which a value is set, each with an example.
    pub const NAMES: [(&'static str, &'static str); 12] = [
        ("room", "17C"),
        ("refrigerator", "6C"),
        ("warm-place", "30C"),
        ("tap", "12C"),
        ("bowl", "35C"),
        ("altitude", "1600m"),
        ("oven", "-8C"),
        ("fan", "on"),
        ("swing", "10C"),
        ("short", "40C"),
        ("racks", "2"),
        ("mixer", "15W/kg"),
    ];

    /// Reads "room=17C". What cannot be read is said in a sentence, with every name there is.
    pub fn read(words: &str) -> Result<Self, String> {
        let Some((name, value)) = words.split_once('=') else {
            return Err(format!("“{words}” has no `=`. {}", names()));
        };
        let written = name.trim();
        let name: String = written
            .to_lowercase()
            .split([' ', '_', '-'])
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join("-");
        let value = value.trim();
        let read = match name.as_str() {
            "room" => within(value, &kind::ROOM).map(Self::Room),
            "refrigerator" => within(value, &kind::REFRIGERATOR).map(Self::Refrigerator),
            "warm-place" => within(value, &kind::WARM_PLACE).map(Self::WarmPlace),
            "tap" => within(value, &kind::TAP).map(Self::Tap),
            "bowl" => within(value, &kind::ITEM).map(Self::Bowl),
            "altitude" => within(value, &kind::ALTITUDE).map(Self::Altitude),
            "mixer" => within(value, &kind::FRICTION).map(Self::Mixer),
            "oven" => hotter(value).map(Self::Oven),
            "fan" => runs(value).map(Self::Fan),
            "swing" => within(value, &kind::SWING).map(Self::Swing),
            "short" => short(value).map(Self::Short),
            // As a kitchen's file has it under [day]; shelves are the refrigerator's. The old name is still read.
            "racks" | "shelves" => racks(value).map(Self::Shelves),
            _ => {
                let known = Self::NAMES.iter().map(|(name, _)| *name);
                let meant = near(&name, known)
                    .map_or_else(String::new, |near| format!(" Is `{near}` meant?"));
                return Err(format!(
                    "Nothing in a kitchen is set by `{written}`.{meant} {}",
                    names()
                ));
            }
        };
        read.map_err(|said| format!("`{name}`: {said} {}", names()))
    }
}

/// Every name with its example.
fn names() -> String {
    let all: Vec<String> = KitchenValue::NAMES
        .iter()
        .map(|(name, example)| format!("{name}={example}"))
        .collect();
    format!(
        "What can be set: {} (oven: how much hotter it is inside than its dial says; short: how much is missing when the bread goes in; racks: trays in it at once).",
        all.join(", ")
    )
}

/// A value that is what it should be and can be.
fn within<T>(value: &str, kind: &Kind<T>) -> Result<T, String> {
    let read = (kind.read)(value).map_err(said)?;
    let (low, high) = (kind.ends)(&read);
    if low >= kind.low && high <= kind.high {
        Ok(read)
    } else {
        Err(format!(
            "“{value}” is far outside what can be. {}",
            kind.bounds
        ))
    }
}

fn said(unread: Unread) -> String {
    match unread.hint {
        Some(hint) => format!("{} {hint}", unread.message),
        None => unread.message,
    }
}

/// An oven is off its dial by no more, K: beyond it a dial's own figure was written.
const MOST_OFF_K: f64 = 80.0;

/// "12C", "+12 °C", "-8C".
fn hotter(value: &str) -> Result<TemperatureDifference, String> {
    let (colder, size) = match value.strip_prefix(['-', '−']) {
        Some(size) => (true, size),
        None => (false, value.strip_prefix('+').unwrap_or(value)),
    };
    // A sign has been taken off already; a second one is a temperature, not a difference.
    let size = read_temperature_difference(size.trim()).map_err(said)?;
    if size.si() > MOST_OFF_K {
        return Err(format!(
            "“{value}” is far outside what can be. An oven is at most 80 °C off its dial."
        ));
    }
    Ok(if colder { -size } else { size })
}

/// An oven that was hardly heated at all is short of its dial by no more, K.
const MOST_SHORT_K: f64 = 200.0;

fn short(value: &str) -> Result<TemperatureDifference, String> {
    let size = read_temperature_difference(value).map_err(said)?;
    if (0.0..=MOST_SHORT_K).contains(&size.si()) {
        return Ok(size);
    }
    Err(format!(
        "“{value}” is far outside what can be. An oven is 0 to 200 °C short of its dial when the bread goes in."
    ))
}

fn racks(value: &str) -> Result<u8, String> {
    match value.parse() {
        Ok(count @ 1..=4) => Ok(count),
        _ => Err(format!(
            "a home oven holds 1 to 4 trays at once; “{value}” is not one of these."
        )),
    }
}

fn runs(value: &str) -> Result<bool, String> {
    match value.to_lowercase().as_str() {
        "on" | "yes" | "true" => Ok(true),
        "off" | "no" | "false" => Ok(false),
        _ => Err(format!("a fan is on or off; “{value}” is neither.")),
    }
}

#[cfg(test)]
mod tests {
    use super::KitchenValue;
    use numerics::quantity::{Length, Temperature, TemperatureDifference};

    #[test]
    fn values_are_read_as_in_a_file() {
        let celsius = Temperature::from_celsius;
        for (words, value) in [
            ("room=17C", KitchenValue::Room(celsius(17.0))),
            ("Warm place = 30 °C", KitchenValue::WarmPlace(celsius(30.0))),
            ("refrigerator=41F", KitchenValue::Refrigerator(celsius(5.0))),
            ("tap=12C", KitchenValue::Tap(celsius(12.0))),
            ("bowl=35 °C", KitchenValue::Bowl(celsius(35.0))),
            (
                "altitude=1600m",
                KitchenValue::Altitude(Length::from_si(1600.0)),
            ),
            (
                "oven=-8C",
                KitchenValue::Oven(TemperatureDifference::from_si(-8.0)),
            ),
            (
                "oven=+12 °C",
                KitchenValue::Oven(TemperatureDifference::from_si(12.0)),
            ),
            ("fan=off", KitchenValue::Fan(false)),
        ] {
            assert_eq!(KitchenValue::read(words), Ok(value), "{words}");
        }
    }

    #[test]
    fn every_example_of_a_name_is_read() {
        for (name, example) in KitchenValue::NAMES {
            let read = KitchenValue::read(&format!("{name}={example}"));
            assert!(read.is_ok(), "{name}={example}: {read:?}");
        }
    }

    #[test]
    fn what_cannot_be_read_is_said_with_every_name() {
        for (words, said) in [
            ("room", "no `=`"),
            ("room=17", "without its unit"),
            ("room=", "room"),
            ("room=80C", "between -10 °C and 50 °C"),
            ("room=17m", "a temperature is wanted"),
            ("rom=17C", "Is `room` meant?"),
            ("cellar=17C", "Nothing in a kitchen is set by `cellar`"),
            ("oven=180C", "80 °C off its dial"),
            ("oven=--8C", "less than nothing"),
            ("fan=maybe", "on or off"),
            ("altitude=9000km", "altitude"),
        ] {
            let answer = KitchenValue::read(words).expect_err(words);
            assert!(answer.contains(said), "{words}: {answer}");
            assert!(answer.contains("warm-place=30C"), "{words}: {answer}");
        }
    }
}
