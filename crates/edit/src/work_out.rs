//! The physics asked once, and everything that is said and judged with its answers.

use crate::ledger::build::ledger;
use crate::ledger::model::Ledger;
use crate::mixture::{MixLines, lines};
use bake::kitchen::Kitchen;
use bake::mix::{MixAnswer, WakeAnswer};
use numerics::quantity::Temperature;
use plan::elapsed::{Elapsed, elapsed};
use recipe::document::model::Recipe;
use recipe::formula::Formula;
use recipe::larder::Larder;
use recipe::measure::Market;
use recipe::source::Checked;

/// What the editor works from.
#[derive(Clone, Copy)]
pub struct Inputs<'a> {
    /// The recipe as written.
    pub recipe: &'a Recipe,
    /// Its sums.
    pub formula: &'a Formula,
    /// The larder it was worked out with.
    pub larder: &'a Larder,
    /// The kitchen it is worked out for.
    pub kitchen: &'a Kitchen,
    /// The text of its file, when it is at hand: findings in words then point at the words.
    pub written: Option<&'a str>,
    /// For whose readers it is printed; none for the author's own words and US measures.
    pub market: Option<Market>,
}

impl<'a> Inputs<'a> {
    /// From its parts, in the author's own words.
    pub const fn new(
        recipe: &'a Recipe,
        formula: &'a Formula,
        larder: &'a Larder,
        kitchen: &'a Kitchen,
    ) -> Self {
        Self {
            recipe,
            formula,
            larder,
            kitchen,
            written: None,
            market: None,
        }
    }

    /// The same, with the text of its file.
    #[must_use]
    pub const fn written_as(mut self, text: &'a str) -> Self {
        self.written = Some(text);
        self
    }
}

/// What physics and plan answered.
#[derive(Clone, Debug, PartialEq)]
pub struct Heard {
    /// Mixes with a wanted temperature, in this kitchen.
    pub mixes: Vec<MixAnswer>,
    /// Liquids that wake yeast, in this kitchen.
    pub wakes: Vec<WakeAnswer>,
    /// The same mixes in rooms of other temperatures.
    pub rooms: Vec<(Temperature, Vec<MixAnswer>)>,
    /// The written times laid end to end.
    pub elapsed: Elapsed,
}

/// Rooms for which a page says what the liquid must read: from a cold house to a hot flat.
const ROOMS_C: [f64; 5] = [16.0, 19.0, 21.0, 24.0, 28.0];

/// Asks the physics, writes the ledger and judges the whole.
pub fn work_out(inputs: &Inputs) -> Checked<(MixLines, Ledger)> {
    let Inputs {
        recipe,
        formula,
        kitchen,
        ..
    } = *inputs;
    let mixes = bake::mix::mix(recipe, formula, kitchen);
    let wakes = bake::mix::wake(recipe, formula, kitchen);
    let mut diagnostics = recipe::formula::judge(formula, recipe);
    diagnostics.extend(mixes.diagnostics);
    diagnostics.extend(wakes.diagnostics);
    let rooms = ROOMS_C
        .iter()
        .map(|&celsius| {
            let room = Temperature::from_celsius(celsius);
            let there = bake::kitchen::in_room(kitchen, room);
            (room, bake::mix::mix(recipe, formula, &there).output)
        })
        .collect();
    let heard = Heard {
        mixes: mixes.output,
        wakes: wakes.output,
        rooms,
        elapsed: elapsed(recipe),
    };
    let mix = lines(kitchen, &heard.mixes, &heard.wakes);
    let ledger = ledger(inputs, &heard);
    diagnostics.extend(crate::rules::findings(inputs, &heard, &ledger));
    Checked {
        output: (mix, ledger),
        diagnostics,
    }
}
