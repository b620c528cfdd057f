//! The figures of the author's own words as lines of the ledger.

use super::figure;
use super::model::Said;
use crate::prose::{self, Standing};
use crate::{Heard, Inputs};
use recipe::provenance::{Had, Origin};

/// Each figure with how it stands to the recipe's own.
pub fn lines(inputs: &Inputs, heard: &Heard) -> Vec<Said> {
    let passages = prose::passages(inputs.recipe, inputs.written);
    prose::figures::in_passages(inputs, heard, &passages)
        .into_iter()
        .map(|said| {
            let (source, held) = match &said.standing {
                Standing::Held(place) => (format!("the author's words, as {place}"), true),
                Standing::Differs(place, _) => {
                    (format!("the author's words, other than {place}"), false)
                }
                Standing::Nowhere => (
                    "the author's words; the recipe does not hold it".to_owned(),
                    false,
                ),
                Standing::Own => ("the author's words alone".to_owned(), false),
            };
            let (value, unit) = said.si();
            let origin = Origin::new(source, Had::Written);
            Said {
                passage: passages[said.passage].spot.name(),
                figure: figure(said.name.clone(), value, unit, said.shown.clone(), origin),
                held,
            }
        })
        .collect()
}
