//! A set of small cards, one or more for each stage and product: its own amounts on the left, its
//! steps on the right with their margin large.

use edit::ledger::model::{Ledger, Section, StageLines};

use super::CardSize;
use super::book::{MOST_STRETCH, begun};
use super::fill::{Piece, Wish, fewest, fill, height};
use super::look::{By, Look, MadeUp, Margin, Side, pieces};
use super::own::{self, Line, lines};
use super::unit::{self, Rows, Unit};
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
        between: 0.62,
        stretch_pt: 0.0,
        facts: 2,
        left_mm: 44.0,
        gutter_mm: 5.0,
        called: "card",
    }
}

/// A line of the amounts and how high it is.
#[derive(Clone, Copy)]
struct High {
    line: Line,
    /// In the left column.
    narrow: f64,
    /// There, its weight and name alone.
    short: f64,
    /// Across the card.
    wide: f64,
}

/// The set as it is put together.
struct Set<'a> {
    ledger: &'a Ledger,
    look: Look,
    /// Every line of the amounts with its heights.
    lines: Vec<High>,
    /// Height of each stage's heading over its lines across a card, and of its sum under them.
    headings: Vec<f64>,
    sums: Vec<f64>,
    /// Height of the labels over the left column.
    labels: f64,
    /// Height of each section's banner.
    banners: Vec<f64>,
    sides: Vec<Side>,
    /// Blank that every card has to spare before each of its steps but the first.
    spare_pt: f64,
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
    let after_the_steps = |rooms| -> (Vec<Unit>, Vec<Unit>) {
        let (key, mut after): (Vec<_>, Vec<_>) = unit::after(wording, &blanks, rooms)
            .into_iter()
            .partition(|unit| unit.kind == "key");
        if after.len() == 1 {
            after.clear(); // A rule with nothing under it.
        }
        if wording.has_cup_note() {
            let cups = Unit::new("cups", 0, blanks.other, 3.0);
            after.insert(after.len().min(1), cups);
        }
        (key, after)
    };
    let (key, mut after) = after_the_steps(true);
    let (_, without_rooms) = after_the_steps(false);
    before.extend(key);
    let lines = lines(ledger);
    let line_units: Vec<_> = lines.iter().map(|&line| some_lines(&[line])).collect();
    let stages = 0..ledger.stages.len();
    let in_rows = |rows| -> Vec<Unit> {
        let lines = line_units.iter().cloned();
        lines.map(|unit| Unit { rows, ..unit }).collect()
    };
    let (wide_units, short_units) = (in_rows(Rows::Wide), in_rows(Rows::Short));
    let labels = [Unit::new("labels", 0, 0.0, 0.0)];
    let heading = |at| Unit {
        items: Some(vec![]),
        sum: false,
        rows: Rows::Wide,
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
            (whole, &headings),
            (left, &sums),
            (whole, &banners),
            (look.right_mm(), &bare),
            (whole, &wide_units),
            (left, &labels),
            (left, &short_units),
            (whole, &without_rooms),
        ],
    )?;
    let mut set = Set {
        ledger,
        look,
        lines: lines
            .into_iter()
            .enumerate()
            .map(|(at, line)| High {
                line,
                narrow: heights[2][at],
                short: heights[9][at],
                wide: heights[7][at],
            })
            .collect(),
        labels: heights[8].iter().sum(),
        headings: heights[3].clone(),
        sums: heights[4].clone(),
        banners: heights[5].clone(),
        sides: vec![],
        spare_pt: MOST_STRETCH * look.type_pt * look.leading,
    };
    // What comes after the steps stands on the first card where that has room, be it without the rises in
    // other rooms: a card less.
    let fits = |after: &[Unit], own: &[f64]| {
        let rule = after.first().map_or(0.0, |unit| unit.above);
        let front = height(&pieces(&before, &heights[0], 0.0)) + rule;
        front + height(&pieces(after, own, 0.0)) <= look.room_pt()
    };
    let mut own = &heights[1];
    if !fits(&after, own) && wording.has_rooms() && fits(&without_rooms, &heights[10]) {
        (after, own) = (without_rooms, &heights[10]);
    }
    let on_the_front = fits(&after, own);
    if on_the_front {
        let units = [before, std::mem::take(&mut after)].concat();
        let heights = [&heights[0][..], &own[..]].concat();
        set.across(&units, &heights);
    } else {
        set.across(&before, &heights[0]);
    }
    let mut from = 0;
    for (at, section) in ledger.sections.iter().enumerate() {
        set.unwritten_stages(at);
        let to = from + section.steps.len();
        set.section(at, section, &bare[from..to], &heights[6][from..to]);
        from = to;
    }
    set.unwritten_stages(ledger.sections.len());
    if !on_the_front {
        set.across(&after, own);
    }
    let look = Look {
        stretch_pt: set.spare_pt,
        ..look
    };
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
            self.amounts_alone(at, None);
        }
    }

    /// A stage's amounts across cards that hold nothing else but what they are of.
    fn amounts_alone(&mut self, stage: usize, section: Option<usize>) {
        let banner = section.map(|at| Unit::new("banner", at, 0.0, 0.0));
        let above = self.look.blanks().heading;
        let over = section.map_or(0.0, |at| self.banners[at] + above);
        let room = self.look.room_pt() - over - self.labels - self.sums[stage];
        let mut cards: Vec<Vec<usize>> = vec![];
        let mut free = 0.0;
        for &High { line, wide, .. } in self.of_stage(stage) {
            if let Some(card) = cards.last_mut().filter(|_| wide <= free) {
                card.push(line.at);
            } else {
                // The heading stands over the first.
                let headed = cards.is_empty() && section.is_none();
                free = room - if headed { self.headings[stage] } else { 0.0 };
                cards.push(vec![line.at]);
            }
            free -= wide;
        }
        let last = cards.len().saturating_sub(1);
        for (at, items) in cards.into_iter().enumerate() {
            let amounts = Unit {
                items: Some(items),
                bare: at > 0 || section.is_some(),
                rows: Rows::Wide,
                sum: at == last,
                ..Unit::new("stage", stage, above, 0.0)
            };
            self.sides.push(Side {
                top: banner.iter().cloned().chain([amounts]).collect(),
                ..Side::default()
            });
        }
    }

    fn of_stage(&self, stage: usize) -> impl Iterator<Item = &High> {
        self.lines
            .iter()
            .filter(move |high| high.line.stage == Some(stage))
    }

    /// The cards of one section.
    fn section(&mut self, at: usize, section: &Section, steps: &[Unit], heights: &[f64]) {
        let room = self.look.room_pt() - self.banners[at] - self.look.blanks().heading;
        let stage = self.stage_of(section);
        let whole = stage.map(|stage| {
            let lines: f64 = self.of_stage(stage).map(|high| high.narrow).sum();
            self.labels + lines + self.sums[stage]
        });
        // A stage with more lines than a card is high has them on cards before its steps.
        let stands_alone = whole.is_some_and(|height| height > room);
        if let Some(stage) = stage.filter(|_| stands_alone) {
            self.amounts_alone(stage, Some(at));
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
            let mut free = room - self.labels;
            if let Some(stage) = of_stage {
                left.push(Unit {
                    bare: true,
                    ..Unit::new("stage", stage, 0.0, 0.0)
                });
                free -= whole.unwrap_or(0.0) - self.labels;
            }
            let between = range.len().saturating_sub(1);
            if between > 0 {
                let spare = (room - height(&pieces[range.clone()])).max(0.0);
                self.spare_pt = self.spare_pt.min(spare / between as f64);
            }
            let own = &section.steps[range.clone()];
            let mut wanted = vec![];
            for high in &self.lines {
                let line = high.line;
                // What stands on an earlier card of its stage is repeated in short.
                let height = if line.stage.is_some() {
                    high.short
                } else {
                    high.narrow
                };
                let listed = line.stage.is_some() && line.stage == of_stage;
                let reach = line.stage.is_none() || line.stage == stage;
                if reach && !listed && height <= free && own::is_used(self.ledger, line, stage, own)
                {
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
    let of_stage = |lines: &[Line]| Unit {
        rows: if lines[0].stage.is_some() {
            Rows::Short
        } else {
            Rows::OfCard
        },
        ..some_lines(lines)
    };
    let stages = lines.chunk_by(|one, other| one.stage == other.stage);
    stages.map(of_stage).collect()
}
