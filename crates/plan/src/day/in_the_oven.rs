//! What hands do while bread bakes: foil, steam, another setting of the dial.

use super::lengths::minutes;
use bake::kitchen::Kitchen;
use bake::simulate::around::dial_here;
use numerics::quantity::Duration;
use recipe::document::model::{Action, OvenPhase};
use recipe::source::listed;

/// Something done at a bake that goes on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Turn {
    /// Minutes after bread went in.
    pub after_min: i32,
    /// In a cook's words: "Turn the oven down to 205 °C".
    pub words: String,
}

/// Dials closer than this are one setting, °C (as in the note of a bake).
const SAME_DIAL_C: f64 = 0.5;

/// What is done at a bake of so many minutes, by its written phases.
pub fn turns(action: &Action, of: &str, lasts: i32, kitchen: &Kitchen) -> Vec<Turn> {
    let Action::Bake { phases, fan, .. } = action else {
        return Vec::new();
    };
    let mut all = Vec::new();
    let mut gone = Duration::ZERO;
    for two in phases.windows(2) {
        let [before, then] = two else { continue };
        gone += before.timing.usual.value;
        let dial = |phase: &OvenPhase| dial_here(kitchen, phase.at.value, fan.value).celsius();
        let words = words(before, then, of, dial(before), dial(then));
        let after_min = minutes(gone);
        if let (Some(words), true) = (words, after_min < lasts) {
            all.push(Turn { after_min, words });
        }
    }
    all
}

/// What changes from one phase to the next; none when nothing does.
fn words(before: &OvenPhase, then: &OvenPhase, of: &str, from: f64, to: f64) -> Option<String> {
    let is = |written: &Option<recipe::source::Located<bool>>| {
        written.as_ref().is_some_and(|written| written.value)
    };
    let mut does = Vec::new();
    match (is(&before.steam), is(&then.steam)) {
        (true, false) => does.push("let the steam out (stand to its side)".to_owned()),
        (false, true) => does.push("give steam".to_owned()),
        _ => {}
    }
    match (is(&before.foil), is(&then.foil)) {
        (true, false) => does.push(format!("take the foil off the {of}")),
        (false, true) => does.push(format!("cover the {of} with foil")),
        _ => {}
    }
    if (to - from).abs() > SAME_DIAL_C {
        let way = if to < from { "down" } else { "up" };
        does.push(format!(
            "turn the oven {way} to {}",
            super::entries::dial(to)
        ));
    }
    let does: Vec<&str> = does.iter().map(String::as_str).collect();
    (!does.is_empty()).then(|| crate::shoot::words::capital(&listed(&does, "and")))
}

#[cfg(test)]
mod tests {
    use super::turns;
    use bake::kitchen::Kitchen;

    fn told(text: &str, lasts: i32) -> Vec<(i32, String)> {
        let recipe = recipe::document::read_recipe(text).output.expect("reads");
        let kitchen = Kitchen::standard();
        let steps = recipe.products.iter().flat_map(|product| {
            let name = product.name.value.clone();
            product.steps.iter().map(move |step| (name.clone(), step))
        });
        steps
            .flat_map(|(of, step)| turns(&step.action, &of, lasts, &kitchen))
            .map(|turn| (turn.after_min, turn.words))
            .collect()
    }

    #[test]
    fn what_a_recipe_does_at_its_bake_is_told() {
        let hearth = include_str!("../../../../examples/hearth-loaf.toml");
        let steam = "Let the steam out (stand to its side) and turn the oven down to 205\u{a0}°C / 400\u{a0}°F";
        assert_eq!(told(hearth, 40), [(15, steam.to_owned())]);
        // A bread that is done before that needs no turning down.
        assert_eq!(told(hearth, 15), []);
        let feast = include_str!("../../../../examples/feast-bread.toml");
        let foil = "Cover the feast bread with foil".to_owned();
        assert_eq!(told(feast, 48), [(25, foil)]);
        // One setting to the end.
        let same_day = include_str!("../../../../examples/same-day-loaf.toml");
        assert_eq!(told(same_day, 36), []);
    }
}
