//! A kitchen with one value changed, and a name that says so: "Studio, room 17 °C".

use super::{Friction, Kitchen, in_room};
use recipe::document::KitchenValue;
use recipe::measure::write::{write_altitude, write_power, write_temperature};

/// The same kitchen with one value changed.
///
/// With the room moves what had the room's temperature; a value changed before keeps its own, so
/// the order of changes is the cook's.
#[must_use]
pub fn changed(kitchen: &Kitchen, value: KitchenValue) -> Kitchen {
    let mut changed = match value {
        KitchenValue::Room(room) => in_room(kitchen, room),
        _ => kitchen.clone(),
    };
    let said = match value {
        KitchenValue::Room(at) => format!("room {}", write_temperature(at)),
        KitchenValue::Refrigerator(at) => {
            changed.refrigerator = at;
            format!("refrigerator {}", write_temperature(at))
        }
        KitchenValue::WarmPlace(at) => {
            changed.warm_place = at;
            format!("warm place {}", write_temperature(at))
        }
        KitchenValue::Tap(at) => {
            changed.tap = at;
            format!("tap {}", write_temperature(at))
        }
        KitchenValue::Bowl(at) => {
            changed.bowl.at = at;
            format!("bowl {}", write_temperature(at))
        }
        KitchenValue::Altitude(height) => {
            changed.altitude = height;
            write_altitude(height)
        }
        KitchenValue::Oven(hotter) => {
            changed.oven.hotter = hotter;
            let size = numerics::decimal::trimmed(hotter.si().abs(), 1);
            let way = if hotter.si() < 0.0 {
                "colder"
            } else {
                "hotter"
            };
            format!("oven {size} °C {way} than its dial")
        }
        KitchenValue::Fan(runs) => {
            changed.oven.fan = runs;
            format!("fan {}", if runs { "on" } else { "off" })
        }
        KitchenValue::Swing(swing) => {
            changed.oven.swing = swing;
            let size = numerics::decimal::trimmed(swing.si(), 1);
            format!("oven swings by {size} °C")
        }
        KitchenValue::Short(short) => {
            changed.oven.short = short;
            let size = numerics::decimal::trimmed(short.si(), 1);
            format!("oven {size} °C short when it is loaded")
        }
        KitchenValue::Shelves(count) => {
            changed.oven.shelves = count;
            match count {
                1 => "one tray in the oven".to_owned(),
                count => format!("{count} trays in the oven at once"),
            }
        }
        KitchenValue::Mixer(power) => {
            changed.friction = Friction::Power(power);
            changed.by_hand = false;
            format!("mixer {}", write_power(power))
        }
    };
    changed.name = format!("{}, {said}", kitchen.name);
    changed
}

#[cfg(test)]
mod tests {
    use super::changed;
    use crate::kitchen::Kitchen;
    use numerics::quantity::Temperature;
    use recipe::document::KitchenValue;

    #[test]
    fn one_value_changes_and_the_name_says_so() {
        let usual = Kitchen::standard();
        let warm = Temperature::from_celsius(30.0);
        let made = changed(&usual, KitchenValue::WarmPlace(warm));
        assert_eq!(made.name, "a usual kitchen, warm place 30 °C");
        let same = Kitchen {
            name: usual.name.clone(),
            warm_place: usual.warm_place,
            ..made
        };
        assert_eq!(same, usual);
    }

    #[test]
    fn a_bowl_that_had_the_rooms_temperature_goes_with_it() {
        let cold = Temperature::from_celsius(15.0);
        let made = changed(&Kitchen::standard(), KitchenValue::Room(cold));
        assert_eq!((made.room, made.bowl.at), (cold, cold));
        assert_eq!(made.warm_place, Kitchen::standard().warm_place);
    }
}
