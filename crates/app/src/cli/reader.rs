//! What a reader tells of a kitchen and a bread, set against the kitchens that are like it.

use super::kitchens::cut;
use super::work::Made;
use crate::failure::Failure;
use crate::world::progress::Told;
use crate::world::stop::Stop;
use crate::world::workers;
use bake::anchor::anchor;
use bake::kitchens::audience::Audience;
use bake::kitchens::near::{Outcome, Stated, near, stated};
use bake::kitchens::{LEAST, Row, kitchens, setup};
use bake::simulate::{Grid, How};
use edit::ledger::others::{ReaderLines, reader};

/// What a reader tells.
#[derive(Clone, Debug)]
pub struct Report {
    /// Of the kitchen.
    pub met: Vec<Stated>,
    /// Of the bread.
    pub came: Outcome,
}

impl Report {
    /// Reads it: facts as `room=17C`, one or several to a text, and a word for the bread.
    pub fn read(facts: &[String], came: &str) -> Result<Self, String> {
        // A value may have a space of its own: `room=17 C`; a fact begins at a word with an equals sign.
        let mut met: Vec<String> = Vec::new();
        for word in facts.iter().flat_map(|text| text.split_whitespace()) {
            match met.last_mut() {
                Some(last) if !word.contains('=') => {
                    last.push(' ');
                    last.push_str(word);
                }
                _ => met.push(word.to_owned()),
            }
        }
        let met = met
            .iter()
            .map(|fact| stated(fact))
            .collect::<Result<_, _>>()?;
        let words = Outcome::WORDS;
        let found = words.iter().find(|(word, _)| *word == came);
        let Some((_, came)) = found else {
            let all: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
            return Err(format!(
                "\u{201c}{came}\u{201d} is no way in which a bread comes out here; the words are: {}.",
                all.join(", ")
            ));
        };
        Ok(Self { met, came: *came })
    }
}

/// Follows the recipe through so many kitchens and sets the report against them.
pub fn set_against(
    made: &Made,
    audience: &Audience,
    (number, seed): (u64, u64),
    report: &Report,
    stop: &Stop,
    told: Told<'_>,
) -> Result<ReaderLines, Failure> {
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    let taught = anchor(&made.recipe, &made.formula, &[], &how).output;
    let found = setup(&made.recipe, &made.formula, taught.factors, taught.bakes);
    let Some(setup) = found.output else {
        let said: Vec<String> = found
            .diagnostics
            .into_iter()
            .map(|one| one.message)
            .collect();
        return Err(Failure::Usage(said.join(" ")));
    };
    let pieces: Vec<_> = cut(0..number).collect();
    let rows: Vec<Option<Vec<Row>>> = told.of("Kitchens", pieces.len(), |done| {
        workers::each(&pieces, |range| {
            if stop.wanted() {
                return None;
            }
            let rows = kitchens(&setup, audience, seed, range.clone()).rows;
            done.one();
            Some(rows)
        })
    });
    // Whoever stops gets the kitchens up to there.
    let rows: Vec<Row> = rows.into_iter().map_while(|rows| rows).flatten().collect();
    if (rows.len() as u64) < LEAST {
        return Err(Failure::Usage(super::kitchens::TOO_FEW.to_owned()));
    }
    let like = near(&rows, audience, &report.met, report.came);
    let all = near(&rows, audience, &[], report.came);
    Ok(reader(&report.met, report.came, &like, &all))
}
