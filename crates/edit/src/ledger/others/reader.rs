//! A reader's bake among those of kitchens like theirs, in words: how many come out so, and whether that is usual.

use crate::ledger::say;
use bake::kitchens::near::{Near, Outcome, Stated};
use bake::kitchens::variable::Unit;
use numerics::decimal::{fixed, trimmed};

/// Fewer kitchens than this say nothing (a band of a third either way).
const TOO_FEW: usize = 20;
/// What happens to half is usual, to one in ten or fewer unusual.
const USUAL: f64 = 0.5;
const UNUSUAL: f64 = 0.1;

/// What is said.
#[derive(Clone, Debug, PartialEq)]
pub struct ReaderLines {
    /// "Kitchens like this one: 412 of 10 000".
    pub like: String,
    /// What was told of the kitchen: "how warm the kitchen is: 17 °C".
    pub told: Vec<String>,
    /// "31 in 100 come out so (28 to 34).".
    pub share: String,
    /// "In all kitchens 12 in 100.".
    pub all: String,
    /// Whether it is usual.
    pub usual: String,
}

/// Puts it into words. `near`: among the kitchens like the reader's; `all`: among all, `number` of them.
pub fn reader(stated: &[Stated], outcome: Outcome, near: &Near, all: &Near) -> ReaderLines {
    let told = stated.iter().map(|(variable, value)| {
        let shown = match variable.unit() {
            Unit::YesNo if *value > 0.5 => "yes".to_owned(),
            Unit::YesNo => "no".to_owned(),
            Unit::Words => {
                let word = variable.choices().iter().zip(0_u32..);
                let word = word.filter(|(_, at)| (f64::from(*at) - value).abs() < 0.5);
                word.map(|(word, _)| (*word).to_owned()).collect()
            }
            Unit::Celsius | Unit::Kelvin => format!("{}\u{a0}°C", trimmed(*value, 1)),
            Unit::Gram => format!("{}\u{a0}g", trimmed(*value, 0)),
            Unit::Metre => format!("{}\u{a0}m", trimmed(*value, 0)),
            Unit::Minute => format!("{}\u{a0}min", trimmed(*value, 0)),
            Unit::Share => format!("{}\u{a0}%", trimmed(100.0 * value, 0)),
        };
        format!("{}: {shown}", say::capital(variable.words()))
    });
    let hundred = |share: f64| fixed(100.0 * share, 0);
    let enough = near.share.filter(|_| near.kitchens >= TOO_FEW);
    ReaderLines {
        like: format!("Kitchens like this one: {} of {}", near.kitchens, all.kitchens),
        told: told.collect(),
        share: enough.map_or_else(
            || "Too few kitchens like this one were drawn to say anything: tell fewer things of it, or follow more kitchens.".to_owned(),
            |(share, low, high)| {
                format!(
                    "{} of them in 100 come out so: {} ({} to {}).",
                    hundred(share),
                    outcome.words(),
                    hundred(low),
                    hundred(high)
                )
            },
        ),
        all: all.share.map_or_else(String::new, |(share, _, _)| {
            format!("Of all kitchens, {} in 100.", hundred(share))
        }),
        usual: enough.map_or_else(String::new, |(share, _, _)| {
            let said = if share >= USUAL {
                "What this reader tells is usual in such a kitchen: the recipe\u{2019}s words lead there."
            } else if share > UNUSUAL {
                "What this reader tells is not rare in such a kitchen."
            } else {
                "What this reader tells is unusual in such a kitchen: something else was different there."
            };
            said.to_owned()
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::reader;
    use bake::kitchens::near::{Near, Outcome};
    use bake::kitchens::variable::Variable;

    fn near(kitchens: usize, so: usize) -> Near {
        let share = so as f64 / kitchens.max(1) as f64;
        Near {
            kitchens,
            so,
            share: (kitchens > 0).then_some((share, share - 0.04, share + 0.04)),
        }
    }

    #[test]
    fn what_is_usual_is_said_so_and_a_handful_says_nothing() {
        let all = near(1000, 300);
        let told = |kitchens, so| {
            let stated = [(Variable::Room, 17.0)];
            reader(&stated, Outcome::Well, &near(kitchens, so), &all)
        };
        let usual = told(200, 160);
        assert!(usual.usual.contains("is usual"), "{usual:?}");
        assert_eq!(
            usual.share,
            "80 of them in 100 come out so: everything came out well (76 to 84)."
        );
        assert_eq!(usual.told, ["How warm the kitchen is: 17\u{a0}°C"]);
        assert!(told(200, 50).usual.contains("not rare"));
        assert!(told(200, 12).usual.contains("unusual"));
        let few = told(7, 7);
        assert!(few.share.contains("Too few") && few.usual.is_empty());
    }
}
