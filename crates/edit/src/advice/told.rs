//! What is advised, in a cook's words and no finer than what is known.

use super::{Kind, MOST_WAYS, lines};
use crate::ledger::figure;
use crate::ledger::model::Figure;
use crate::ledger::say;
use numerics::decimal::{fixed, round_to};
use numerics::indices::{Known, quantile};
use numerics::quantity::Fraction;
use recipe::document::model::Recipe;
use recipe::provenance::{Had, Origin};

/// A change tried by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// Which.
    pub kind: Kind,
    /// What it is worth.
    pub worth: Known,
}

/// A change that was chosen, on top of those before it.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    /// Which.
    pub kind: Kind,
    /// The sentence to write.
    pub sentence: String,
    /// What it is worth.
    pub worth: Known,
    /// In which share of the ways that the reckoning might be it is worth something; what it is worth in
    /// each, sorted. None when that was not asked.
    pub ways: Option<(f64, Vec<f64>)>,
    /// The recipe before it, and with it.
    pub recipes: (Recipe, Recipe),
}

impl Chosen {
    /// Whether it is worth something in enough of the ways that the reckoning might be.
    pub fn holds(&self) -> bool {
        let share = self.ways.as_ref().map(|(share, _)| *share);
        share.is_none_or(|share| share >= MOST_WAYS)
    }
}

/// A change that is advised, or that was chosen and does not hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Advised {
    /// "weigh the flour".
    pub what: String,
    /// The sentence to write.
    pub sentence: String,
    /// "saves 6 of 100 bakes (2–11), in 97 % of the ways that the reckoning might be".
    pub shown: String,
    /// Whether it holds.
    pub holds: bool,
    /// Lines of the file that go and come.
    pub diff: Vec<(char, String)>,
    /// The figures in it.
    pub figures: Vec<Figure>,
}

/// What is advised.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What was done to find it.
    pub about: String,
    /// Those that hold, best first, and those that do not.
    pub advised: Vec<Advised>,
    /// Every change by itself: words, figure.
    pub tried: Vec<(String, String, Figure)>,
}

fn origin() -> Origin {
    Origin::new(
        "the recipe with a change followed through the same kitchens, docs/kitchens.md",
        Had::Derived,
    )
}

/// "6 of 100 bakes", "under 1 of 100 bakes".
fn of_a_hundred(value: f64) -> String {
    let whole = round_to(100.0 * value, 1.0);
    if value > 0.0 && whole < 1.0 {
        return format!("under 1 of 100{}bakes", say::NBSP);
    }
    format!("{} of 100{}bakes", fixed(whole, 0), say::NBSP)
}

/// "1 to 4", "−2 to 3": whole bakes of a hundred.
fn ends(low: f64, high: f64) -> String {
    let whole = |value: f64| {
        let digits = fixed(round_to(100.0 * value, 1.0).abs(), 0);
        if value < 0.0 && digits != "0" {
            format!("−{digits}")
        } else {
            digits
        }
    };
    format!("{} to {}", whole(low), whole(high))
}

fn shown(chosen: &Chosen) -> String {
    let worth = chosen.worth;
    match &chosen.ways {
        None => format!(
            "saves {} ({} by chance in the draws)",
            of_a_hundred(worth.value),
            ends(worth.value - worth.within, worth.value + worth.within)
        ),
        Some((share, all)) => {
            let at = |share: f64| quantile(all, share).unwrap_or(worth.value);
            let low = at(0.05).min(worth.value - worth.within);
            let high = at(0.95).max(worth.value + worth.within);
            format!(
                "saves {} ({}), and something in {} of the ways that the reckoning might be",
                of_a_hundred(worth.value),
                ends(low, high),
                say::percent_whole(Fraction::from_si(*share))
            )
        }
    }
}

/// Puts it into words. `kitchens`: how many each change was tried in.
pub fn advice(kitchens: usize, heed: f64, tried: &[Tried], chosen: &[Chosen]) -> Advice {
    let mut sorted: Vec<&Tried> = tried.iter().collect();
    sorted.sort_by(|one, other| other.worth.value.total_cmp(&one.worth.value));
    let advised = chosen.iter().map(|one| {
        let holds = one.holds();
        let shown = shown(one);
        Advised {
            what: one.kind.words().to_owned(),
            sentence: one.sentence.clone(),
            figures: vec![figure(
                format!("advice.{}", one.kind.words()),
                one.worth.value,
                Fraction::SI,
                shown.clone(),
                origin(),
            )],
            shown,
            holds,
            diff: lines(&one.recipes.0, &one.recipes.1),
        }
    });
    Advice {
        about: format!(
            "Each change tried in the same {kitchens} kitchens. Where it is a word to the reader, {} of those whom it is for are taken to heed it; nobody has counted them. The model estimates.",
            say::percent_whole(Fraction::from_si(heed))
        ),
        advised: advised.collect(),
        tried: sorted
            .iter()
            .map(|one| {
                let shown = if one.worth.value.abs() <= one.worth.within {
                    "no more than chance".to_owned()
                } else if one.worth.value < 0.0 {
                    format!("loses {}", of_a_hundred(-one.worth.value))
                } else {
                    format!("saves {}", of_a_hundred(one.worth.value))
                };
                let name = format!("advice.alone.{}", one.kind.words());
                let told = figure(name, one.worth.value, Fraction::SI, shown.clone(), origin());
                (one.kind.words().to_owned(), shown, told)
            })
            .collect(),
    }
}
