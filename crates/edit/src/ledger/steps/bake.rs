//! The margin of a bake: each dial with its minutes, the dial with the fan, the rack.

use super::super::{figure, readers};
use super::{Figure, Margin, MarginKind, OvenPhase, Temperature};
use recipe::provenance::{Had, Origin};

impl Margin<'_> {
    pub(super) fn dial(&self, what: &str, at: Temperature) -> Figure {
        self.written(
            what,
            at.si(),
            Temperature::SI,
            readers::dial(at, self.market),
        )
    }

    pub(super) fn bake(&mut self, phases: &[OvenPhase], fan: bool, rack: Option<&str>) {
        for (at, phase) in phases.iter().enumerate() {
            let dial = self.dial(&format!("dial-{at}"), phase.at.value);
            let mut shown = format!("oven {}", dial.shown);
            if phase.steam.as_ref().is_some_and(|steam| steam.value) {
                shown.push_str(", steam");
            }
            if phase.foil.as_ref().is_some_and(|foil| foil.value) {
                shown.push_str(", under foil");
            }
            self.line(MarginKind::Heat, shown, vec![dial]);
            let (shown, figures) = self.timing(&format!("bake-{at}"), &phase.timing);
            self.line(MarginKind::Time, shown, figures);
        }
        if let Some(first) = phases.first() {
            let lower = readers::fan(self.market);
            let other = if fan {
                first.at.value + lower
            } else {
                first.at.value - lower
            };
            let dial = figure(
                format!("{}.other-fan", self.place),
                other.si(),
                Temperature::SI,
                readers::dial(other, self.market),
                Origin::new(
                    "20 °C (Europe) or 25 °F (US) less with the fan on: custom; a state \
                     university's advice quoted by a newspaper",
                    Had::SecondHand,
                ),
            );
            let state = if fan {
                "fan on; without a fan"
            } else {
                "fan off; with the fan"
            };
            self.line(
                MarginKind::How,
                format!("{state} {}", dial.shown),
                vec![dial],
            );
        }
        if let Some(rack) = rack {
            self.line(MarginKind::How, format!("rack: {rack}"), Vec::new());
        }
    }
}
