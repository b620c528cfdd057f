//! The demo recipes worked out twice: by a plain mean without bowl, as their author did, and by the balance.

use bake::kitchen::{Friction, Kitchen, in_room};
use bake::mix::{MixAnswer, mix};
use numerics::quantity::{Temperature, TemperatureDifference};
use recipe::document::read_recipe;
use recipe::larder::Larder;

/// A usual kitchen whose cook has measured so many degrees of rise.
fn kitchen(rise_k: f64) -> Kitchen {
    Kitchen {
        friction: Friction::Rise(TemperatureDifference::from_si(rise_k)),
        ..Kitchen::standard()
    }
}

/// The answer for the last mix of a recipe, after so many changes of its text.
fn answer(text: &str, changes: &[(&str, &str)], kitchen: &Kitchen) -> MixAnswer {
    let mut text = text.to_owned();
    for (old, new) in changes {
        assert!(text.contains(old), "{old} does not stand there");
        text = text.replace(old, new);
    }
    let recipe = read_recipe(&text).output.expect("it reads");
    let formula = recipe::formula::formula(&recipe, &Larder::open()).output;
    mix(&recipe, &formula, kitchen).output.pop().expect("a mix")
}

const CARDAMOM: &str = include_str!("../../examples/cardamom-dough.toml");
const HEARTH: &str = include_str!("../../examples/hearth-loaf.toml");
const FEAST: &str = include_str!("../../examples/feast-bread.toml");

/// By hand the demo's author reckoned masses times specific heats, bowl and air left out, a measured
/// rise added. The balance has the bowl and specific heats of its own. Neither is a measurement: the
/// table is here, and in docs/models/mix.md, so that whoever changes a relation sees what it moves.
#[test]
fn doughs_of_the_demo_beside_the_plain_mean() {
    let ends = |text: &str, changes: &[(&str, &str)], kitchen: &Kitchen| {
        answer(text, changes, kitchen).as_written.ends.celsius()
    };
    let hot_paste = [("dough = \"30 °C\"", "dough = \"60 °C\""), MILK_21];
    let warm_eggs = [("take = \"3 large\", as = \"eggs\", at = \"5 °C\"", EGGS_20)];
    let in_a_room = |celsius: f64| in_room(&kitchen(5.0), Temperature::from_celsius(celsius));
    for (what, plain, balance, apart) in [
        (
            "cardamom dough",
            25.6,
            ends(CARDAMOM, &[], &kitchen(5.0)),
            0.0,
        ),
        (
            "paste still at 60 °C",
            32.8,
            ends(CARDAMOM, &hot_paste, &kitchen(5.0)),
            0.7,
        ),
        (
            "in a room of 16 °C",
            23.2,
            ends(CARDAMOM, &[], &in_a_room(16.0)),
            0.5,
        ),
        (
            "in a room of 27 °C",
            28.4,
            ends(CARDAMOM, &[], &in_a_room(27.0)),
            -0.6,
        ),
        (
            "feast bread, eggs at 5 °C",
            24.2,
            ends(FEAST, &[], &kitchen(7.0)),
            0.5,
        ),
        (
            "feast bread, eggs at 20 °C",
            28.4,
            ends(FEAST, &warm_eggs, &kitchen(7.0)),
            -0.2,
        ),
    ] {
        println!(
            "{what}: plain mean {plain:.1} °C, balance {balance:.1} °C, {:+.1}",
            balance - plain
        );
        assert!(
            (balance - plain - apart).abs() < 0.06,
            "{what}: {:+.2}",
            balance - plain
        );
    }
}

const MILK_21: (&str, &str) = (
    "take = \"135 g\", as = \"milk\", at = \"5 °C\"",
    "take = \"135 g\", as = \"milk\", at = \"21 °C\"",
);
const EGGS_20: &str = "take = \"3 large\", as = \"eggs\", at = \"20 °C\"";

const FAR_OFF: (&str, &str) = (
    "take = \"220 g\", at = \"24 °C\"",
    "take = \"220 g\", at = \"90 °C\"",
);

/// Water of the hearth loaf for a dough of 25 °C with a rise of 2 °C, in rooms of 16 to 28 °C.
#[test]
fn water_of_the_demo_beside_the_plain_mean() {
    for (room, plain, apart) in [
        (16.0, 35.5, 3.7),
        (19.0, 30.2, 2.1),
        (21.0, 26.6, 1.0),
        (24.0, 21.2, -0.5),
        (28.0, 14.1, -2.7),
    ] {
        let there = in_room(&kitchen(2.0), Temperature::from_celsius(room));
        // Written far off, so that the answer is worked out and not left as written.
        let asked = answer(HEARTH, &[FAR_OFF], &there);
        let balance = asked.liquid_at.expect("water").celsius();
        println!(
            "room {room} °C: plain mean {plain:.1} °C, balance {balance:.1} °C, {:+.1}",
            balance - plain
        );
        assert!(
            (balance - plain - apart).abs() < 0.06,
            "{room}: {:+.2}",
            balance - plain
        );
    }
}
