//! What a liquid must read in the kitchen that the page is made for, and where it settles with its yeast.

use super::Margin;
use crate::ledger::happens::reckoned::warmth_differs;
use crate::ledger::model::MarginKind;
use crate::ledger::{figure, say};
use crate::{Heard, Inputs};
use bake::mix::MixAnswer;
use numerics::quantity::{Range, Temperature};
use recipe::document::model::Stage;
use recipe::provenance::{Had, Origin};

impl Margin<'_> {
    /// What the liquid must read in the kitchen that the page is made for.
    pub(super) fn liquid_here(&mut self, inputs: &Inputs, mix: &MixAnswer) {
        let Some((liquid, reads)) = mix.liquid.as_ref().zip(mix.liquid_at) else {
            return;
        };
        let balanced = |name: &str, value: Temperature| {
            figure(
                format!("{}.{name}", self.place),
                value.si(),
                Temperature::SI,
                say::temperature(value),
                Origin::new(
                    "enthalpy balance of the mix, docs/models/mix.md",
                    Had::Derived,
                ),
            )
        };
        let at = balanced("liquid-here", reads);
        let stage = |one: &&Stage| one.name.value == mix.stage;
        let items = inputs.recipe.stages.iter().filter(stage);
        let mut items = items.flat_map(|one| &one.items);
        let written = items.find(|item| item.called() == liquid);
        let written = written.and_then(|item| item.at.as_ref());
        let only = Range {
            low: reads,
            high: reads,
        };
        // Two temperatures for one milk on a page: the second says why it is another.
        let differs = written.filter(|at| warmth_differs(at.value, only));
        let ends = mix.solved.as_ref().unwrap_or(&mix.as_written).ends;
        let ends = balanced("dough-here", ends);
        let (shown, figures) = if differs.is_some() {
            let words = format!(
                "{liquid} at {}, not as written: so the dough ends at {}",
                at.shown, ends.shown
            );
            (words, vec![at, ends])
        } else {
            (format!("{liquid} at {}", at.shown), vec![at])
        };
        self.line(MarginKind::Here, shown, figures);
    }

    pub(super) fn woken(&mut self, heard: &Heard, stage: &str, liquid: &str, vessel: &str) {
        let Some(wake) = heard
            .wakes
            .iter()
            .find(|wake| wake.stage == stage && wake.liquid == liquid)
        else {
            return;
        };
        let settles = figure(
            format!("{}.settles", self.place),
            wake.settles.si(),
            Temperature::SI,
            say::temperature(wake.settles),
            Origin::new(
                "enthalpy balance with the bowl, docs/models/mix.md",
                Had::Derived,
            ),
        );
        let shown = format!("settles at {} in {vessel}", settles.shown);
        self.line(MarginKind::Here, shown, vec![settles]);
    }
}
