//! What to write otherwise: small changes of the words, each tried in the same kitchens as the recipe itself.
//!
//! # Relation
//! A change is worth s' - s, the shares of the same kitchens in which all comes out well with it and without.
//! The best one that is worth something in four of five ways that the reckoning might be is kept, and the others
//! are tried on top of it, until none is worth half a point.
//!
//! # Symbols
//! s, share, 1.
//!
//! # Valid for
//! What [`Kind`] holds; readers that [`heed`] a word as it says.
//!
//! # Source
//! Common random numbers: any textbook of simulation (from memory). How many readers heed a word nobody has
//! counted: the half that is taken here is a judgement.
//!
//! # Departures
//! Changes are chosen one after the other; a pair that helps only together is not looked for.
//!
//! # Checked by
//! `tests/identities/advice.rs`.

mod edits;
mod heed;
mod told;
mod words;

pub use heed::HEED;
pub use told::{Advice, Advised, Chosen, Tried, advice};

use bake::kitchens::audience::Audience;
use bake::kitchens::{Row, Setup, setup};
use numerics::draw::scramble;
use numerics::indices::{Known, jackknife};
use recipe::document::model::Recipe;
use recipe::document::print_recipe;
use recipe::formula::{Formula, formula};
use recipe::larder::Larder;

/// A kind of change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Flour by weight alone.
    WeighFlour,
    /// Pieces by weight.
    WeighPieces,
    /// The salt by name and weight.
    NameSalt,
    /// Go by the sign and not by the clock.
    GoBySign,
    /// A sign that can be measured, where a rise has none.
    GiveSign,
    /// How warm the dough must end its mix, where that is not said.
    GiveDoughTemperature,
    /// A time from and to, as wide as kitchens differ.
    WidenWindow,
    /// Look into the oven earlier.
    LookEarlier,
    /// Wait until the oven is hot.
    HeatOven,
    /// How much the tin must hold, and how to measure it.
    MeasureTin,
    /// A cooler oven for longer.
    CoolerOven,
    /// Colder butter.
    ColderButter,
    /// Less yeast, longer rises.
    LessYeast,
}

impl Kind {
    /// All of them.
    pub const ALL: [Self; 13] = [
        Self::WeighFlour,
        Self::WeighPieces,
        Self::NameSalt,
        Self::GoBySign,
        Self::GiveSign,
        Self::GiveDoughTemperature,
        Self::WidenWindow,
        Self::LookEarlier,
        Self::HeatOven,
        Self::MeasureTin,
        Self::CoolerOven,
        Self::ColderButter,
        Self::LessYeast,
    ];

    /// In a cook's words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::WeighFlour => "ask for scales",
            Self::WeighPieces => "weigh the pieces",
            Self::NameSalt => "name the salt and weigh it",
            Self::GoBySign => "go by the dough, not by the clock",
            Self::GiveSign => "say how far the dough must rise",
            Self::GiveDoughTemperature => "say how warm the dough must be",
            Self::WidenWindow => "say from when to when",
            Self::LookEarlier => "look into the oven earlier",
            Self::HeatOven => "wait until the oven is hot",
            Self::MeasureTin => "say what the tin must hold",
            Self::CoolerOven => "a cooler oven for longer",
            Self::ColderButter => "colder butter",
            Self::LessYeast => "less yeast, longer rises",
        }
    }
}

/// A recipe with some changes, and readers who heed them.
#[derive(Clone, Debug)]
pub struct Changed {
    /// Which changes, in their order, each with the sentence to write.
    pub changes: Vec<(Kind, String)>,
    /// The recipe with them.
    pub recipe: Recipe,
    /// Its sums.
    pub formula: Formula,
    /// Its readers.
    pub audience: Audience,
}

impl Changed {
    /// The recipe as it is.
    pub fn nothing(recipe: &Recipe, formula: &Formula, audience: &Audience) -> Self {
        Self {
            changes: Vec::new(),
            recipe: recipe.clone(),
            formula: formula.clone(),
            audience: audience.clone(),
        }
    }

    /// With one more change; none where there is nothing to change, or where it is made already.
    pub fn and(&self, kind: Kind, base: &Setup<'_>, larder: &Larder) -> Option<Self> {
        if self.changes.iter().any(|(made, _)| *made == kind) {
            return None;
        }
        let (recipe, sentence) = edits::edited(kind, &self.recipe, &self.formula, base, larder)?;
        let made = formula(&recipe, larder).output;
        let mut changes = self.changes.clone();
        changes.push((kind, sentence));
        Some(Self {
            changes,
            formula: made,
            recipe,
            audience: heed::heeded(kind, &self.audience),
        })
    }

    /// The sentence of its last change.
    pub fn sentence(&self) -> String {
        let last = self.changes.last();
        last.map_or_else(String::new, |(_, sentence)| sentence.clone())
    }

    /// Everything looked up for it; the bread that is meant stays that of the recipe itself.
    pub fn setup(&self, base: &Setup<'_>) -> Option<Setup<'_>> {
        let mut made = setup(&self.recipe, &self.formula, base.anchor, base.tested).output?;
        made.meant.clone_from(&base.meant);
        made.safety.clone_from(&base.safety);
        Some(made)
    }
}

/// What a change is worth: paired kitchens, well with it less well without.
pub fn worth(without: &[Row], with: &[Row]) -> Known {
    let well = |row: &Row| f64::from(u8::from(row.well()));
    jackknife(|lets| {
        let (mut sum, mut count) = (0.0, 0.0);
        for (one, other) in without.iter().zip(with) {
            if one.number == other.number && lets(scramble(one.number)) {
                sum += well(other) - well(one);
                count += 1.0;
            }
        }
        if count > 0.0 { sum / count } else { 0.0 }
    })
}

/// A change that is worth less than this is not made.
pub const LEAST_WORTH: f64 = 0.005;
/// In so many of the ways that the reckoning might be a change must be worth something.
pub const MOST_WAYS: f64 = 0.8;
/// Changes kept at most.
pub const MOST_CHANGES: usize = 3;

/// Which of several changes is best: its place; none when none is worth making beyond chance.
pub fn best(worths: &[Known]) -> Option<usize> {
    let most = worths
        .iter()
        .enumerate()
        .max_by(|(_, one), (_, other)| one.value.total_cmp(&other.value))?;
    let (place, known) = most;
    (known.value >= LEAST_WORTH && known.value > known.within).then_some(place)
}

/// In which share of the ways a change is worth something, and what it is worth in each, sorted.
pub fn ways(without: &[Vec<Row>], with: &[Vec<Row>]) -> (f64, Vec<f64>) {
    let mut all: Vec<f64> = without
        .iter()
        .zip(with)
        .map(|(one, other)| worth(one, other).value)
        .collect();
    all.sort_by(f64::total_cmp);
    let wins = all.iter().filter(|value| **value > 0.0).count();
    (wins as f64 / all.len().max(1) as f64, all)
}

/// Lines of a recipe's file that go and that come: "- take = ..." and "+ take = ...".
pub fn lines(before: &Recipe, after: &Recipe) -> Vec<(char, String)> {
    let (before, after) = (print_recipe(before), print_recipe(after));
    let (old, new): (Vec<&str>, Vec<&str>) = (before.lines().collect(), after.lines().collect());
    // The longest common list of lines, by rows from the end.
    let mut common = vec![vec![0_u32; new.len() + 1]; old.len() + 1];
    for (at, one) in old.iter().enumerate().rev() {
        for (place, other) in new.iter().enumerate().rev() {
            common[at][place] = if one == other {
                common[at + 1][place + 1] + 1
            } else {
                common[at + 1][place].max(common[at][place + 1])
            };
        }
    }
    let (mut at, mut place) = (0, 0);
    let mut all = Vec::new();
    while at < old.len() || place < new.len() {
        if at < old.len() && place < new.len() && old[at] == new[place] {
            (at, place) = (at + 1, place + 1);
        } else if place >= new.len()
            || at < old.len() && common[at + 1][place] >= common[at][place + 1]
        {
            all.push(('-', old[at].trim().to_owned()));
            at += 1;
        } else {
            all.push(('+', new[place].trim().to_owned()));
            place += 1;
        }
    }
    all
}
