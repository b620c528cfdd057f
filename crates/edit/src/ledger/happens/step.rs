//! One step as written beside how it goes.

use super::model::{Beside, StepHappens, Told};
use super::reckoned::{self, Place};
use super::words;
use crate::Inputs;
use crate::ledger::model::{Figure, MarginKind, StepLine};
use crate::ledger::say;
use bake::simulate::{Course, Ended, StepCourse};
use numerics::quantity::{Duration, Range, Temperature};
use recipe::document::model::{Action, Product, Step};

/// A step while it is written down.
pub struct One<'a> {
    /// What it is worked out from.
    pub inputs: &'a Inputs<'a>,
    /// Everything that happens.
    pub course: &'a Course,
    /// The product it belongs to.
    pub product: Option<&'a Product>,
    /// The step as written.
    pub step: &'a Step,
    /// The same as printed.
    pub printed: &'a StepLine,
    /// How it goes.
    pub goes: &'a StepCourse,
    /// The place of its figures.
    pub place: Place,
    /// Its lines so far.
    pub lines: Vec<Beside>,
    /// What differs so much that it matters.
    pub told: Vec<Told>,
}

impl One<'_> {
    /// Written down.
    pub fn written_down(mut self) -> (StepHappens, Vec<Told>) {
        let told = self.told_to();
        let takes = self.place.time("takes", self.goes.lasts, told);
        let begins = self.place.moment("begins", self.begins());
        self.action(&takes);
        let what = words::called(self.step, self.product).to_owned();
        let step = StepHappens {
            number: self.goes.number,
            what,
            begins,
            takes,
            lines: self.lines,
        };
        (step, self.told)
    }

    /// When it begins; a fold within the rest before it, and what is taken out so long before the step that
    /// it is for.
    fn begins(&self) -> Duration {
        if let Action::Ready { before, .. } = &self.step.action {
            return self.goes.begins - before.value;
        }
        let first = match &self.step.action {
            Action::Fold { into_rest, .. } => into_rest.first().map(|time| time.value),
            _ => None,
        };
        let before = self.course.steps.iter();
        let mut before = before.filter(|step| step.number + 1 == self.goes.number);
        match (before.next(), first) {
            (Some(rest), Some(first)) => rest.begins + first,
            _ => self.goes.begins,
        }
    }

    /// How finely its time is told: what a dough does by itself to 5 min, the rest to 1 min.
    fn told_to(&self) -> reckoned::Told {
        match self.step.action {
            Action::Rest { .. } | Action::Cool { .. } if self.goes.ended != Ended::Clock => {
                reckoned::Told::Rise
            }
            _ => reckoned::Told::Bake,
        }
    }

    /// What the recipe says of something, as it is printed in the step's margin.
    pub fn says(&self, what: &str) -> Option<String> {
        let name = format!("step.{}.{what}", self.printed.number);
        let line = self.printed.margin.iter();
        let mut line = line.filter(|line| line.figures.iter().any(|figure| figure.name == name));
        line.next().map(|line| line.shown.clone())
    }

    /// A line of what is written beside what it comes to; none when there is neither.
    pub fn line(
        &mut self,
        kind: MarginKind,
        written: Option<String>,
        here: Option<(String, Vec<Figure>)>,
        differs: bool,
    ) {
        if written.is_none() && here.is_none() {
            return;
        }
        let (here, figures) = here.map_or((None, Vec::new()), |(here, all)| (Some(here), all));
        self.lines.push(Beside {
            kind,
            written,
            here,
            figures,
            differs,
        });
    }

    /// Says something that matters.
    pub fn tell(&mut self, sentence: &str, figures: Vec<Figure>) {
        self.told.push(Told {
            step: Some(self.goes.number),
            sentence: say::capital(sentence),
            figures,
            source: None,
        });
    }

    fn as_written(&mut self, kind: MarginKind, what: &str) {
        let says = self.says(what);
        self.line(kind, says, None, false);
    }

    fn action(&mut self, takes: &Figure) {
        match &self.step.action {
            Action::Ready { .. } => self.as_written(MarginKind::Time, "before"),
            Action::Wake { .. }
            | Action::Divide { .. }
            | Action::Shape { .. }
            | Action::Finish { .. } => self.as_written(MarginKind::Time, "time"),
            Action::Fold { .. } => self.as_written(MarginKind::Time, "fold-0"),
            Action::Preheat { .. } | Action::Heat { .. } => {
                self.as_written(MarginKind::Heat, "to");
                self.as_written(MarginKind::Time, "time");
            }
            Action::Mix { dough, .. } => {
                self.as_written(MarginKind::How, "mix-0");
                self.mixed(dough.as_ref().map(|dough| dough.value));
            }
            Action::Rest {
                timing, at, place, ..
            } => self.stand(timing, place.value, at.value, takes),
            Action::Bake {
                phases, fan, core, ..
            } => {
                let until = self
                    .step
                    .until
                    .as_ref()
                    .and_then(|until| until.core.as_ref());
                let core = core.as_ref().or(until).map(|core| core.value);
                self.bake(phases, fan.value, core, takes);
            }
            Action::Cool { timing, .. } => self.cool(timing, takes),
        }
    }

    /// The dough at the end of its mix, beside what is wanted.
    fn mixed(&mut self, wanted: Option<Range<Temperature>>) {
        let says = self.says("dough");
        let Some(at) = self.goes.dough else {
            self.line(MarginKind::Heat, says, None, false);
            return;
        };
        let dough = self.place.temperature("dough", at);
        let differs = wanted.is_some_and(|wanted| reckoned::warmth_differs(at, wanted));
        if let (true, Some(wanted)) = (differs, wanted) {
            let sentence = format!(
                "with everything as written the dough leaves the bowl at {}, not {} (`everyoven mix` says what the liquid must read).",
                dough.shown,
                say::temperature_range(wanted)
            );
            self.tell(&sentence, vec![dough.clone()]);
        }
        let here = format!("dough {}", dough.shown);
        self.line(MarginKind::Heat, says, Some((here, vec![dough])), differs);
    }
}
