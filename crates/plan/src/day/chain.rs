//! The steps of one batch laid one after another: what follows what, and how long it may wait.

use super::in_the_oven::turns;
use super::lengths::Length;
use super::problem::{Gap, Stay, Use};
use super::tasks::{About, Batch, HANDLING_MIN, IN_TIN_MIN, Making, NIGHT_MIN};
use super::trays::{Load, loads};
use super::words;
use crate::timetable::Kind;
use bake::simulate::around::dial_here;
use recipe::document::model::{Action, Item, Standing, Step};

/// Work that follows upon work may wait for so long without harm, and with some (common practice).
const PAUSE_MIN: (i32, i32) = (5, 20);
/// A filling and the like keeps for so long (common practice).
const KEEPS_MIN: i32 = 240;
/// What is taken out beforehand may stand so much longer than written (common practice).
const OUT_MIN: i32 = 30;
/// A fold comes so much later than written, where hands are at something else (common practice).
const FOLD_MIN: i32 = 10;

/// One batch while it is laid out.
pub struct Chain<'m, 'a, 'b> {
    made: &'m mut Making<'a>,
    at: usize,
    batch: &'b Batch<'b>,
    /// Of every stage: what ends it.
    ends: Vec<Option<End>>,
}

/// The end of what was laid so far: its last task, and when the next may begin, from its start.
#[derive(Clone, Copy, Debug)]
struct End {
    task: usize,
    least: i32,
    best: i32,
    most: i32,
}

/// What the next step hangs on.
#[derive(Clone, Copy)]
struct Line {
    step: usize,
    product: Option<(usize, usize)>,
    load: Option<Load>,
    share: f64,
}

impl<'m, 'a, 'b> Chain<'m, 'a, 'b> {
    /// Of one batch.
    pub fn new(made: &'m mut Making<'a>, at: usize, batch: &'b Batch<'b>) -> Self {
        Self {
            made,
            at,
            batch,
            ends: Vec::new(),
        }
    }

    /// Lays out everything.
    pub fn lay(&mut self) {
        let recipe = self.batch.recipe;
        let mut step = 0;
        for stage in &recipe.stages {
            let feeds = self.feeding(&stage.items);
            let end = self.stage(&stage.name.value, &stage.steps, step, &feeds);
            self.ends.push(end);
            step += stage.steps.len();
        }
        self.nights();
        let shaping = self.shaping();
        for (place, product) in recipe.products.iter().enumerate() {
            let from = recipe
                .stages
                .iter()
                .position(|stage| stage.name.value.eq_ignore_ascii_case(&product.from.value));
            let from = from.and_then(|from| self.ends[from]);
            let feeds = self.feeding(&product.with);
            let all = loads(product, self.made.place.means.racks);
            for (number, load) in all.iter().enumerate() {
                let line = Line {
                    step,
                    product: Some((place, number)),
                    load: Some(*load),
                    share: f64::from(load.pieces) / f64::from(product.count.value.max(1)),
                };
                // One after another is shaped, so the last waits for all the others.
                let from = from.map(|end| End {
                    best: end.best + shaping,
                    most: end.most + shaping,
                    ..end
                });
                self.product(place, line, from, &feeds, all.len());
            }
            step += product.steps.len();
        }
    }

    /// Minutes of shaping in the whole batch.
    fn shaping(&self) -> i32 {
        super::lengths::steps(self.batch.recipe)
            .zip(&self.batch.lengths)
            .filter(|(step, _)| matches!(step.action, Action::Shape { .. }))
            .map(|(_, length)| length.lasts)
            .sum()
    }

    fn feeding(&self, items: &[Item]) -> Vec<End> {
        let stages = &self.batch.recipe.stages;
        items
            .iter()
            .filter_map(|item| {
                let of = &item.of.value;
                let place = stages
                    .iter()
                    .position(|stage| stage.name.value.eq_ignore_ascii_case(of))?;
                self.ends.get(place).copied().flatten()
            })
            .collect()
    }

    fn gap(&mut self, end: End, to: usize) {
        self.made.problem.gaps.push(Gap {
            from: end.task,
            to,
            least: end.least,
            best: end.best,
            most: end.most,
        });
    }

    fn hands(&mut self, task: usize, after: i32, lasts: i32) {
        self.made.hands.push(Use {
            task,
            after,
            lasts,
            count: 1,
        });
    }

    fn stage(&mut self, name: &str, steps: &[Step], first: usize, feeds: &[End]) -> Option<End> {
        let mut end: Option<End> = None;
        let mut ready: Vec<(usize, i32)> = Vec::new();
        let mut rest: Option<usize> = None;
        for (offset, step) in steps.iter().enumerate() {
            let line = Line {
                step: first + offset,
                product: None,
                load: None,
                share: 1.0,
            };
            match &step.action {
                Action::Preheat { .. } | Action::Bake { .. } => {}
                Action::Ready { before, .. } => {
                    let task = self.task(line, step, name);
                    ready.push((task, super::lengths::minutes(before.value)));
                }
                Action::Fold { into_rest, .. } if rest.is_some() && !into_rest.is_empty() => {
                    for time in into_rest {
                        let task = self.task(line, step, name);
                        self.made.about[task].within = true;
                        let rest = rest.unwrap_or(task);
                        let of = &steps[self.made.about[rest].step - first];
                        let lasts = self.made.problem.tasks[rest].lasts;
                        let at = super::lengths::into_rest(of, lasts, time.value);
                        self.gap(
                            End {
                                task: rest,
                                least: at,
                                best: at + FOLD_MIN,
                                most: at + FOLD_MIN,
                            },
                            task,
                        );
                    }
                }
                _ => {
                    let begins = end.is_none();
                    let next = self.follows(line, step, name, end);
                    if begins {
                        for (task, before) in std::mem::take(&mut ready) {
                            let most = before + OUT_MIN;
                            self.gap(
                                End {
                                    task,
                                    least: before,
                                    best: most,
                                    most,
                                },
                                next.task,
                            );
                        }
                        for feed in feeds {
                            self.gap(*feed, next.task);
                        }
                    }
                    let stands = matches!(step.action, Action::Rest { .. });
                    rest = stands.then_some(next.task);
                    end = Some(next);
                }
            }
        }
        // What ends in work keeps for a while; what ends in a rest, as long as the rest may last.
        let last = steps.last().map(|step| &step.action);
        let stands = matches!(last, Some(Action::Rest { .. } | Action::Cool { .. }));
        let divided = matches!(last, Some(Action::Divide { .. }));
        end.map(|end| {
            let most = if stands || divided {
                end.most
            } else {
                end.least + KEEPS_MIN
            };
            End {
                best: if stands || divided { end.best } else { most },
                most,
                ..end
            }
        })
    }

    /// A step that follows what was laid so far.
    fn follows(&mut self, line: Line, step: &Step, of: &str, end: Option<End>) -> End {
        let task = self.task(line, step, of);
        if let Some(end) = end {
            let standing = matches!(step.action, Action::Rest { .. } | Action::Cool { .. });
            let worked = self.made.about[end.task].kind == Kind::Work;
            let out = self.made.about[end.task].kind == Kind::Bakes;
            // A dough goes at once from the hands to where it stands, and bread to its rack.
            let end = if standing && (worked || out) {
                End {
                    best: end.least,
                    most: end.least,
                    ..end
                }
            } else {
                end
            };
            self.gap(end, task);
            self.places(end.task, task);
            // Put away from one place to the next by hands.
            if standing && !worked && !out {
                self.hands(task, 0, HANDLING_MIN);
            }
        } else if matches!(step.action, Action::Rest { .. }) {
            self.hands(task, 0, HANDLING_MIN);
        }
        self.after(task, step, self.length(line))
    }

    fn length(&self, line: Line) -> Length {
        self.batch.lengths[line.step]
    }

    /// When what follows a task may begin.
    fn after(&self, task: usize, step: &Step, length: Length) -> End {
        let lasts = self.made.problem.tasks[task].lasts;
        match &step.action {
            Action::Rest { .. } | Action::Cool { .. } => End {
                task,
                least: lasts,
                best: length.best.max(lasts),
                most: length.most.max(lasts),
            },
            _ => End {
                task,
                least: lasts,
                best: lasts + PAUSE_MIN.0,
                most: lasts + PAUSE_MIN.1,
            },
        }
    }

    /// The places that a standing dough takes until what follows.
    fn places(&mut self, from: usize, to: usize) {
        let about = &self.made.about[from];
        if about.kind != Kind::Stands {
            return;
        }
        let step = super::lengths::steps(self.batch.recipe).nth(about.step);
        let count = about.load.map_or(1, |load| load.tins);
        let stay = Stay {
            from,
            to,
            beyond: 0,
            count,
        };
        if let Some(Action::Rest { place, .. }) = step.map(|step| &step.action) {
            match place.value {
                Standing::WarmPlace => self.made.warm.push(stay),
                Standing::Refrigerator => self.made.cold.push(stay),
                Standing::Room | Standing::CoolPlace => {}
            }
        }
    }

    /// A step as a task, with what it needs.
    fn task(&mut self, line: Line, step: &Step, of: &str) -> usize {
        let kind = words::kind(&step.action);
        let length = self.length(line);
        let shared = matches!(step.action, Action::Shape { .. } | Action::Finish { .. });
        let lasts = if shared && line.share < 1.0 {
            #[allow(clippy::cast_possible_truncation)] // a share of a step's minutes
            let part = (f64::from(length.lasts) * line.share).ceil() as i32;
            part.max(1)
        } else {
            length.lasts
        };
        let dial = match &step.action {
            Action::Bake { phases, fan, .. } => {
                let at = |dial| dial_here(self.made.place.kitchen, dial, fan.value).celsius();
                phases
                    .first()
                    .zip(phases.last())
                    .map(|(first, last)| (at(first.at.value), at(last.at.value)))
            }
            _ => None,
        };
        let task = self.made.add(
            lasts,
            About {
                batch: self.at,
                step: line.step,
                product: line.product,
                kind,
                words: words::words(&step.action, of, line.load),
                load: line.load,
                dial,
                within: false,
            },
        );
        match &step.action {
            Action::Mix { by, .. } => {
                self.hands(task, 0, lasts);
                let mixer = by.value == recipe::document::model::Tool::Mixer;
                if mixer && !self.made.place.kitchen.by_hand {
                    self.made.mixer.push(Use {
                        task,
                        after: 0,
                        lasts,
                        count: 1,
                    });
                }
            }
            Action::Wake { .. } => self.hands(task, 0, HANDLING_MIN.min(lasts)),
            Action::Bake { .. } => {
                self.hands(task, 0, HANDLING_MIN);
                self.hands(task, lasts, HANDLING_MIN);
                for turn in turns(&step.action, of, lasts, self.made.place.kitchen) {
                    self.hands(task, turn.after_min, HANDLING_MIN);
                }
                self.made.bakes.push(Use {
                    task,
                    after: 0,
                    lasts,
                    count: line.load.map_or(1, |load| load.racks),
                });
            }
            Action::Rest { .. } | Action::Cool { .. } | Action::Preheat { .. } => {}
            _ => self.hands(task, 0, lasts),
        }
        task
    }

    fn product(
        &mut self,
        place: usize,
        line: Line,
        from: Option<End>,
        feeds: &[End],
        loads: usize,
    ) {
        let product = &self.batch.recipe.products[place];
        let name = if loads > 1 {
            let number = line.product.map_or(0, |(_, load)| load) + 1;
            format!("{} (load {number} of {loads})", product.name.value)
        } else {
            product.name.value.clone()
        };
        let mut end = from;
        let mut begins = true;
        let (mut first, mut bake) = (None, None);
        for (offset, step) in product.steps.iter().enumerate() {
            let line = Line {
                step: line.step + offset,
                ..line
            };
            if matches!(
                step.action,
                Action::Preheat { .. } | Action::Ready { .. } | Action::Fold { .. }
            ) {
                continue;
            }
            let next = self.follows(line, step, &name, end);
            if begins {
                for feed in feeds {
                    self.gap(*feed, next.task);
                }
                first = Some(next.task);
                begins = false;
            }
            if matches!(step.action, Action::Bake { .. }) {
                bake = Some(next.task);
            }
            end = Some(next);
        }
        let (Some(first), Some(bake), Some(end)) = (first, bake, end) else {
            return;
        };
        self.made.bake_of.push((self.at, place, bake, end.task));
        if let Some(tin) = &product.tin {
            let lasts = self.made.problem.tasks[bake].lasts;
            let stay = Stay {
                from: first,
                to: bake,
                beyond: lasts + IN_TIN_MIN,
                count: line.load.map_or(1, |load| load.tins),
            };
            self.made.tins.push((tin.name.value.to_lowercase(), stay));
        }
    }

    /// Which tasks come before a rest that is slept through.
    fn nights(&mut self) {
        let made = &mut *self.made;
        let mut before: Vec<usize> = (0..made.about.len())
            .filter(|task| {
                let about = &made.about[*task];
                about.batch == self.at
                    && about.kind == Kind::Stands
                    && made.problem.tasks[*task].lasts >= NIGHT_MIN
            })
            .collect();
        let mut next = 0;
        while let Some(task) = before.get(next).copied() {
            next += 1;
            for gap in &made.problem.gaps {
                // A fold within the rest is no work before it.
                if gap.to == task && !before.contains(&gap.from) {
                    before.push(gap.from);
                }
            }
        }
        made.nights.extend(before);
    }
}
