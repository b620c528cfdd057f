//! A set of small cards, one or more for each stage and product: its own amounts on the left, its
//! steps on the right with their margin large.

use edit::ledger::model::{ItemLine, Ledger, Run, Section, StageLines, StepLine};

use super::CardSize;
use super::book::begun;
use super::fill::{Piece, Wish, fewest, fill};
use super::look::{By, Look, MadeUp, Margin, Side, pieces};
use super::unit::{self, Unit};
use crate::line::sentence;
use crate::pdf::PdfFault;
use crate::pdf::wording::Wording;

/// The margin's type, read on the counter; the text is for a card in the hand.
const MARGIN_PT: f64 = 10.5;

fn look(size: CardSize) -> Look {
    Look {
        size,
        type_pt: 8.5,
        margin: Margin::Over(MARGIN_PT),
        edge_mm: 6.0,
        foot_mm: 9.0,
        leading: 10.5 / 8.5,
        title_pt: 15.0,
        facts: 2,
        left_mm: 44.0,
        gutter_mm: 5.0,
        called: "card",
    }
}

/// One line of the amounts: of a stage, or for bench, tin and top.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Line {
    stage: Option<usize>,
    at: usize,
}

/// The set as it is put together.
struct Set<'a> {
    ledger: &'a Ledger,
    look: Look,
    /// Every line of the amounts with its height in the left column.
    lines: Vec<(Line, f64)>,
    /// Height of each stage's heading over its lines, and of its sum under them.
    headings: Vec<f64>,
    sums: Vec<f64>,
    /// Height of each section's banner.
    banners: Vec<f64>,
    sides: Vec<Side>,
}

/// What stands on which card.
pub(super) fn make_up(
    ledger: &Ledger,
    wording: &Wording,
    size: CardSize,
    by: By,
) -> Result<MadeUp, PdfFault> {
    let look = look(size);
    let blanks = look.blanks();
    let mut before = [
        unit::title(wording, &blanks),
        unit::before(wording, &blanks),
    ]
    .concat();
    let steps = unit::steps(wording, &blanks);
    // What the marks mean is wanted before the first of them.
    let (key, mut after): (Vec<_>, Vec<_>) = unit::after(wording, &blanks)
        .into_iter()
        .partition(|unit| unit.kind == "key");
    before.extend(key);
    if after.len() == 1 {
        after.clear(); // A rule with nothing under it.
    }
    if wording.has_cup_note() {
        let cups = Unit::new("cups", 0, blanks.other, 3.0);
        after.insert(after.len().min(1), cups);
    }
    let lines = lines(ledger);
    let line_units: Vec<_> = lines.iter().map(|&line| some_lines(&[line])).collect();
    let stages = 0..ledger.stages.len();
    let heading = |at| Unit {
        items: Some(vec![]),
        sum: false,
        ..Unit::new("stage", at, 0.0, 0.0)
    };
    let sum = |at| Unit {
        items: Some(vec![]),
        bare: true,
        ..Unit::new("stage", at, 0.0, 0.0)
    };
    let headings: Vec<_> = stages.clone().map(heading).collect();
    let sums: Vec<_> = stages.map(sum).collect();
    let banners: Vec<_> = (0..ledger.sections.len())
        .map(|at| Unit::new("banner", at, 0.0, 0.0))
        .collect();
    let bare: Vec<_> = steps
        .iter()
        .map(|step| Unit {
            headed: false,
            ..step.clone()
        })
        .collect();
    let (whole, left) = (look.width_mm(), look.left_mm);
    let heights = look.measure(
        wording,
        by,
        &[
            (whole, &before),
            (whole, &after),
            (left, &line_units),
            (left, &headings),
            (left, &sums),
            (whole, &banners),
            (look.right_mm(), &bare),
        ],
    )?;
    let mut set = Set {
        ledger,
        look,
        lines: lines.into_iter().zip(heights[2].iter().copied()).collect(),
        headings: heights[3].clone(),
        sums: heights[4].clone(),
        banners: heights[5].clone(),
        sides: vec![],
    };
    set.across(&before, &heights[0]);
    let mut from = 0;
    for (at, section) in ledger.sections.iter().enumerate() {
        set.unwritten_stages(at);
        let to = from + section.steps.len();
        set.section(at, section, &bare[from..to], &heights[6][from..to]);
        from = to;
    }
    set.unwritten_stages(ledger.sections.len());
    set.across(&after, &heights[1]);
    Ok(MadeUp {
        look,
        sides: set.sides,
    })
}

impl Set<'_> {
    /// Cards of units across their whole width.
    fn across(&mut self, units: &[Unit], heights: &[f64]) {
        let pieces = pieces(units, heights, 0.0);
        let room = |_| self.look.room_pt();
        let most = fewest(&pieces, room);
        for range in fill(
            &pieces,
            room,
            Wish {
                most,
                even: 1.0,
                last: 0.0,
            },
        )
        .unwrap_or_default()
        {
            self.sides.push(Side {
                top: begun(&units[range]),
                ..Side::default()
            });
        }
    }

    /// The stage that a section's steps are of.
    fn stage_of(&self, section: &Section) -> Option<usize> {
        let heads = |stage: &StageLines| stage.heading == section.heading;
        self.ledger.stages.iter().position(heads)
    }

    /// Stages without steps have cards of their own, before the section that they stand before.
    fn unwritten_stages(&mut self, before: usize) {
        let sections = &self.ledger.sections;
        let written = |at: usize| {
            sections
                .iter()
                .position(|section| section.heading == self.ledger.stages[at].heading)
        };
        let next = |at: usize| {
            (at..self.ledger.stages.len())
                .find_map(written)
                .unwrap_or(sections.len())
        };
        let due: Vec<_> = (0..self.ledger.stages.len())
            .filter(|&at| written(at).is_none() && next(at) == before)
            .collect();
        for at in due {
            self.amounts_alone(at);
        }
    }

    /// A stage's amounts on cards that hold nothing else.
    fn amounts_alone(&mut self, stage: usize) {
        let room = self.look.room_pt();
        let mut items = vec![];
        let mut high = self.headings[stage] + self.sums[stage];
        let lines: Vec<_> = self.of_stage(stage).copied().collect();
        let mut first = true;
        for (at, (line, height)) in lines.iter().copied().enumerate() {
            if high + height > room && !items.is_empty() {
                self.alone(stage, std::mem::take(&mut items), first, false);
                first = false;
                high = self.sums[stage];
            }
            items.push(line.at);
            high += height;
            if at + 1 == lines.len() {
                self.alone(stage, std::mem::take(&mut items), first, true);
            }
        }
    }

    fn alone(&mut self, stage: usize, items: Vec<usize>, headed: bool, sum: bool) {
        let unit = Unit {
            items: Some(items),
            bare: !headed,
            sum,
            ..Unit::new("stage", stage, 0.0, 0.0)
        };
        self.sides.push(Side {
            top: vec![unit],
            ..Side::default()
        });
    }

    fn of_stage(&self, stage: usize) -> impl Iterator<Item = &(Line, f64)> {
        self.lines
            .iter()
            .filter(move |(line, _)| line.stage == Some(stage))
    }

    /// The cards of one section.
    fn section(&mut self, at: usize, section: &Section, steps: &[Unit], heights: &[f64]) {
        let room = self.look.room_pt() - self.banners[at] - self.look.blanks().heading;
        let stage = self.stage_of(section);
        let whole = stage.map(|stage| {
            let lines: f64 = self.of_stage(stage).map(|(_, height)| height).sum();
            lines + self.sums[stage]
        });
        // A stage with more lines than a card is high has them on cards before its steps.
        let stands_alone = whole.is_some_and(|height| height > room);
        if let Some(stage) = stage.filter(|_| stands_alone) {
            self.amounts_alone(stage);
        }
        let pieces: Vec<Piece> = pieces(steps, heights, 0.0)
            .into_iter()
            .map(|piece| Piece { cost: 0.0, ..piece })
            .collect();
        let most = fewest(&pieces, |_| room);
        let cards = fill(
            &pieces,
            |_| room,
            Wish {
                most,
                even: 8.0,
                last: 8.0,
            },
        )
        .unwrap_or_default();
        for (card, range) in cards.into_iter().enumerate() {
            let of_stage = stage.filter(|_| card == 0 && !stands_alone);
            let mut left = vec![];
            let mut free = room;
            if let Some(stage) = of_stage {
                left.push(Unit {
                    bare: true,
                    ..Unit::new("stage", stage, 0.0, 0.0)
                });
                free -= whole.unwrap_or(0.0);
            }
            let own = &section.steps[range.clone()];
            let mut wanted = vec![];
            for &(line, height) in &self.lines {
                let listed = line.stage.is_some() && line.stage == of_stage;
                let reach = line.stage.is_none() || line.stage == stage;
                if reach && !listed && height <= free && self.is_used(line, own) {
                    wanted.push(line);
                    free -= height;
                }
            }
            left.extend(grouped(&wanted));
            self.sides.push(Side {
                top: vec![Unit::new("banner", at, 0.0, 0.0)],
                left,
                right: steps[range].to_vec(),
            });
        }
    }

    /// Whether a line's amount stands in one of the steps, or its name does while no other line
    /// of that name has its amount there.
    fn is_used(&self, line: Line, steps: &[StepLine]) -> bool {
        let item = self.item(line);
        let other = || {
            self.lines
                .iter()
                .filter(|(other, _)| *other != line)
                .map(|(other, _)| self.item(*other))
                .any(|other| short(other) == short(item) && stands(other, steps))
        };
        let named = || {
            let name = short(item).replace('-', " ");
            steps.iter().any(|step| has_word(&sentence(step), &name))
        };
        stands(item, steps) || named() && !other()
    }

    fn item(&self, line: Line) -> &ItemLine {
        match line.stage {
            Some(stage) => &self.ledger.stages[stage].items[line.at],
            None => &self.ledger.besides[line.at],
        }
    }
}

/// An item's short name as figures carry it: "butter" in `stage.dough.butter.mass`.
fn short(item: &ItemLine) -> String {
    let figure = item.grams.as_ref().or(item.measure.as_ref());
    let of_figure = figure.and_then(|figure| figure.name.rsplit('.').nth(1));
    of_figure.unwrap_or(&item.name).to_owned()
}

/// Whether the sentences give this line's amount: `step.6.butter.used` with its grams.
fn stands(item: &ItemLine, steps: &[StepLine]) -> bool {
    let name = short(item);
    let amounts = || [&item.grams, &item.measure].into_iter().flatten();
    let runs = steps.iter().flat_map(|step| &step.runs);
    runs.filter_map(|run| match run {
        Run::Figure(figure) => Some(figure),
        Run::Words(_) => None,
    })
    .filter(|figure| figure.name.split('.').any(|part| part == name))
    .any(|figure| amounts().any(|amount| amount.shown == figure.shown))
}

/// Whether a name stands in a text, its last word in any number: "egg" in "3 large eggs".
fn has_word(text: &str, name: &str) -> bool {
    let (text, name) = (text.to_lowercase(), name.to_lowercase());
    text.match_indices(&name)
        .any(|(at, _)| !text[..at].ends_with(char::is_alphabetic))
}

/// Every line of the amounts, in reading order.
fn lines(ledger: &Ledger) -> Vec<Line> {
    let of_stage = |(stage, lines): (usize, &StageLines)| {
        (0..lines.items.len()).map(move |at| Line {
            stage: Some(stage),
            at,
        })
    };
    let besides = (0..ledger.besides.len()).map(|at| Line { stage: None, at });
    ledger
        .stages
        .iter()
        .enumerate()
        .flat_map(of_stage)
        .chain(besides)
        .collect()
}

/// A unit of some lines of one stage, without heading and sum.
fn some_lines(lines: &[Line]) -> Unit {
    let stage = lines.first().and_then(|line| line.stage);
    Unit {
        items: Some(lines.iter().map(|line| line.at).collect()),
        bare: true,
        sum: false,
        ..Unit::new(
            if stage.is_some() { "stage" } else { "besides" },
            stage.unwrap_or(0),
            0.0,
            0.0,
        )
    }
}

/// Lines as units, neighbours of one stage together.
fn grouped(lines: &[Line]) -> Vec<Unit> {
    lines
        .chunk_by(|one, other| one.stage == other.stage)
        .map(some_lines)
        .collect()
}
