//! Steps as they are printed: the author's sentence, and in its margin what can be measured.

mod bake;
mod here;

use super::model::{Figure, MarginKind, MarginLine, Section, StepLine};
use super::sentence::{Scope, runs};
use super::{figure, readers, say};
use crate::{Heard, Inputs};
use ::bake::mix::MixAnswer;
use numerics::quantity::{Duration, Length, Range, Temperature};
use recipe::document::model::{Action, OvenPhase, Phase, Standing, Step, Timing, Tool, Until};
use recipe::document::placeholder::{Piece, parse_sentence};
use recipe::measure::Market;
use recipe::provenance::{Had, Origin};

/// Every step, numbered through the whole recipe: stages first, then products.
pub fn sections(inputs: &Inputs, heard: &Heard) -> Vec<Section> {
    let recipe = inputs.recipe;
    let mut number = 0;
    let mut all = Vec::new();
    for stage in &recipe.stages {
        let scope = Scope::stage(inputs, stage);
        let section = section(
            inputs,
            heard,
            &scope,
            &stage.name.value,
            &stage.steps,
            &mut number,
        );
        all.extend(section);
    }
    for product in &recipe.products {
        let scope = Scope::product(inputs, product);
        let section = section(
            inputs,
            heard,
            &scope,
            &product.name.value,
            &product.steps,
            &mut number,
        );
        all.extend(section);
    }
    all
}

fn section(
    inputs: &Inputs,
    heard: &Heard,
    scope: &Scope,
    heading: &str,
    steps: &[Step],
    number: &mut usize,
) -> Option<Section> {
    let mix = heard.mixes.iter().find(|mix| mix.stage == heading);
    let poured = mix.and_then(|mix| Some((poured_at(steps, mix.liquid.as_deref()?)?, mix)));
    let steps: Vec<_> = steps
        .iter()
        .enumerate()
        .map(|(at, step)| {
            *number += 1;
            let place = format!("step.{number}");
            let mix = poured
                .filter(|(poured, _)| *poured == at)
                .map(|(_, mix)| mix);
            StepLine {
                number: *number,
                runs: runs(scope, &place, step),
                margin: Margin::of(inputs, heard, (heading, mix), &place, step),
            }
        })
        .collect();
    (!steps.is_empty()).then(|| Section {
        heading: say::capital(heading),
        steps,
    })
}

/// The step in which the liquid that a mix is made right by goes in: the first that names it, else the mix itself.
fn poured_at(steps: &[Step], liquid: &str) -> Option<usize> {
    let mixes = |step: &Step| {
        matches!(
            &step.action,
            Action::Mix {
                adjust: Some(_),
                ..
            }
        )
    };
    let mix = steps.iter().position(mixes)?;
    let names = |step: &Step| {
        let (pieces, _) = parse_sentence(&step.text.value, 0);
        let named = |piece: Piece| matches!(piece, Piece::Use { item, .. } if item == liquid);
        pieces.into_iter().any(|piece| named(piece.value))
    };
    Some(steps[..mix].iter().position(names).unwrap_or(mix))
}

/// The margin of one step while it is written.
struct Margin<'a> {
    place: &'a str,
    market: Option<Market>,
    lines: Vec<MarginLine>,
}

impl Margin<'_> {
    fn of(
        inputs: &Inputs,
        heard: &Heard,
        (stage, poured): (&str, Option<&MixAnswer>),
        place: &str,
        step: &Step,
    ) -> Vec<MarginLine> {
        let mut margin = Margin {
            place,
            market: inputs.market,
            lines: Vec::new(),
        };
        margin.action(heard, stage, &step.action);
        if let Some(mix) = poured {
            margin.liquid_here(inputs, mix);
        }
        if let Some(until) = &step.until {
            margin.until(until, &step.action);
        }
        margin.lines
    }

    fn line(&mut self, kind: MarginKind, shown: String, figures: Vec<Figure>) {
        self.lines.push(MarginLine {
            kind,
            shown,
            figures,
        });
    }

    fn written(&self, what: &str, value: f64, unit: &'static str, shown: String) -> Figure {
        let origin = Origin::new("the recipe", Had::Written);
        figure(format!("{}.{what}", self.place), value, unit, shown, origin)
    }

    fn reading(&self, what: &str, at: Temperature) -> Figure {
        self.written(what, at.si(), Temperature::SI, say::temperature(at))
    }

    fn reading_range(&self, what: &str, range: Range<Temperature>) -> Figure {
        let middle = range.low + (range.high - range.low) / 2.0;
        self.written(
            what,
            middle.si(),
            Temperature::SI,
            say::temperature_range(range),
        )
    }

    fn minutes(&self, what: &str, duration: Duration) -> Figure {
        self.written(what, duration.si(), Duration::SI, say::duration(duration))
    }

    /// "55 min (45–75 min)".
    fn timing(&self, what: &str, timing: &Timing) -> (String, Vec<Figure>) {
        let usual = self.minutes(what, timing.usual.value);
        let mut shown = usual.shown.clone();
        let mut figures = vec![usual];
        if let Some(range) = &timing.range {
            let text = say::duration_range(range.value);
            shown = format!("{shown} ({text})");
            let middle = range.value.low + (range.value.high - range.value.low) / 2.0;
            figures.push(self.written(&format!("{what}-range"), middle.si(), Duration::SI, text));
        }
        (shown, figures)
    }

    fn time(&mut self, timing: &Timing) {
        let (shown, figures) = self.timing("time", timing);
        self.line(MarginKind::Time, shown, figures);
    }

    fn action(&mut self, heard: &Heard, stage: &str, action: &Action) {
        match action {
            Action::Ready { before, .. } => {
                let lead = self.minutes("before", before.value);
                self.line(
                    MarginKind::Time,
                    format!("{} before", lead.shown),
                    vec![lead],
                );
            }
            Action::Wake {
                vessel,
                timing,
                liquid,
                ..
            } => {
                self.time(timing);
                self.woken(heard, stage, &liquid.value, vessel.value.word());
            }
            Action::Mix {
                by, phases, dough, ..
            } => {
                self.mix(by.value, phases);
                if let Some(dough) = dough {
                    let wanted = self.reading_range("dough", dough.value);
                    self.line(
                        MarginKind::Heat,
                        format!("dough {}", wanted.shown),
                        vec![wanted],
                    );
                }
            }
            Action::Heat { to, timing } => {
                let to = self.reading("to", to.value);
                self.line(MarginKind::Heat, format!("to {}", to.shown), vec![to]);
                self.time(timing);
            }
            Action::Rest {
                timing,
                at,
                place,
                vessel,
                thick,
                covered,
            } => {
                self.time(timing);
                let covered = covered.as_ref().map(|covered| covered.value.as_str());
                self.standing(at.value, place.value, &vessel.value, covered);
                if let Some(thick) = thick {
                    let thick = self.written(
                        "thick",
                        thick.value.si(),
                        Length::SI,
                        say::length(thick.value),
                    );
                    self.line(
                        MarginKind::How,
                        format!("{} thick", thick.shown),
                        vec![thick],
                    );
                }
            }
            Action::Fold { into_rest, .. } => {
                let figures: Vec<_> = into_rest
                    .iter()
                    .enumerate()
                    .map(|(at, time)| self.minutes(&format!("fold-{at}"), time.value))
                    .collect();
                let times: Vec<_> = figures.iter().map(|f| f.shown.clone()).collect();
                let shown = format!("after {}", say::list(&times));
                self.line(MarginKind::Time, shown, figures);
            }
            Action::Divide { timing, .. }
            | Action::Shape { timing }
            | Action::Finish { timing } => {
                self.time(timing);
            }
            Action::Preheat { to, timing } => {
                let dial = self.dial("to", to.value);
                self.line(MarginKind::Heat, format!("oven {}", dial.shown), vec![dial]);
                let (shown, figures) = self.timing("time", timing);
                self.line(MarginKind::Time, format!("{shown} before baking"), figures);
            }
            Action::Bake {
                phases,
                fan,
                rack,
                check,
                ..
            } => {
                self.bake(
                    phases,
                    fan.value,
                    rack.as_ref().map(|rack| rack.value.as_str()),
                );
                if let Some(check) = check {
                    let check = self.minutes("check", check.value);
                    let shown = format!("look {} after it goes in", check.shown);
                    self.line(MarginKind::Time, shown, vec![check]);
                }
            }
            Action::Cool { timing, vessel, at } => {
                self.time(timing);
                let at = self.reading("at", at.value);
                let inside = ["tin", "pan", "bowl", "pot", "dish", "mould"];
                let on = if inside.contains(&vessel.value.as_str()) {
                    "in"
                } else {
                    "on"
                };
                let shown = format!("{on} a {}, at {}", vessel.value, at.shown);
                self.line(MarginKind::Cold, shown, vec![at]);
            }
        }
    }

    fn mix(&mut self, by: Tool, phases: &[Phase]) {
        let mut figures = Vec::new();
        let mut texts = Vec::new();
        for (at, phase) in phases.iter().enumerate() {
            let (text, own) = self.timing(&format!("mix-{at}"), &phase.timing);
            let text = match by {
                Tool::Mixer => format!("{} {text}", phase.speed.value.word()),
                Tool::Hand | Tool::Spoon => text,
            };
            texts.push(text);
            figures.extend(own);
        }
        let with = match by {
            Tool::Mixer => "mixer",
            Tool::Hand => "by hand",
            Tool::Spoon => "with a spoon",
        };
        self.line(
            MarginKind::How,
            format!("{with}: {}", texts.join(", ")),
            figures,
        );
    }

    fn standing(&mut self, at: Temperature, place: Standing, vessel: &str, covered: Option<&str>) {
        let kind = match place {
            Standing::Refrigerator | Standing::CoolPlace => MarginKind::Cold,
            Standing::WarmPlace => MarginKind::Heat,
            Standing::Room => MarginKind::How,
        };
        let at = self.reading("at", at);
        self.line(kind, format!("{}, {}", place.word(), at.shown), vec![at]);
        let on = match vessel {
            "bench" | "tray" | "paper" | "plate" | "rack" | "board" => "on",
            _ => "in",
        };
        let article = if vessel == "paper" { "" } else { "the " };
        let vessel = readers::vessel(vessel, self.market);
        let cover = match covered {
            Some(with) => under(with),
            None => "open".to_owned(),
        };
        self.line(
            MarginKind::How,
            format!("{on} {article}{vessel}, {cover}"),
            Vec::new(),
        );
    }

    fn until(&mut self, until: &Until, action: &Action) {
        if let Some(see) = &until.see {
            self.line(MarginKind::Cue, see.value.clone(), Vec::new());
        }
        if let Some(volume) = &until.volume {
            let volume = self.written("volume", volume.value, "1", say::times(volume.value));
            let shown = format!("{} its size", volume.shown);
            self.line(MarginKind::Cue, shown, vec![volume]);
        }
        if let Some(height) = &until.height {
            let figure = self.written(
                "height",
                height.value.si(),
                Length::SI,
                say::length(height.value.abs()),
            );
            let shown = match height.value.si() {
                h if h < 0.0 => format!("{} below the rim", figure.shown),
                h if h > 0.0 => format!("{} above the rim", figure.shown),
                _ => "level with the rim".to_owned(),
            };
            self.line(MarginKind::Cue, shown, vec![figure]);
        }
        if let Some(core) = &until.core {
            let core = self.reading("core", core.value);
            let cooling = matches!(action, Action::Cool { .. });
            self.line(
                if cooling {
                    MarginKind::Cold
                } else {
                    MarginKind::Heat
                },
                format!("{} in the middle", core.shown),
                vec![core],
            );
        }
        if let Some(dough) = &until.dough {
            let dough = self.reading("dough-until", dough.value);
            let cold = matches!(action, Action::Rest { .. } | Action::Cool { .. });
            let kind = if cold {
                MarginKind::Cold
            } else {
                MarginKind::Heat
            };
            self.line(kind, format!("{} in the middle", dough.shown), vec![dough]);
        }
    }
}

/// "under a lid", "under film".
fn under(with: &str) -> String {
    match with {
        "lid" | "cloth" | "towel" | "bowl" | "plate" | "board" => format!("under a {with}"),
        _ => format!("under {with}"),
    }
}
