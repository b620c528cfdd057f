//! Several cards on one sheet of paper, side by side, with marks to cut along.
//!
//! The cards are the same as on their own paper and stand in reading order: print one side of the
//! sheet, cut, and stack.

use typst::layout::{Abs, Frame, FrameItem, Point, Size};
use typst::model::Document as _;
use typst::syntax::Span;
use typst::visualize::{Color, FixedStroke, Geometry};
use typst_layout::{Page, PagedDocument};

use super::Laid;

/// Length of a mark.
const MARK_MM: f64 = 6.0;

/// Blank between a card's corner and the marks outside it.
const AWAY_MM: f64 = 1.5;

/// Width of a mark in points: the hairline of common print practice.
const HAIRLINE_PT: f64 = 0.25;

impl Laid {
    /// The same cards on sheets of `size_mm`, `across` columns and `down` rows of them.
    pub(crate) fn on_sheets(self, size_mm: (f64, f64), across: usize, down: usize) -> Self {
        let cards = self.document.pages();
        let Some(first) = cards.first() else {
            return self;
        };
        let card = first.frame.size();
        let sheet = Size::new(Abs::mm(size_mm.0), Abs::mm(size_mm.1));
        let grid = Grid {
            sheet,
            card,
            across,
            down,
        };
        let sheets = cards
            .chunks(across * down)
            .enumerate()
            .map(|(at, cards)| Page {
                frame: grid.filled(cards),
                number: 1 + at as u64,
                ..first.clone()
            })
            .collect();
        let document = PagedDocument::new(sheets, self.document.info().clone());
        Self { document, ..self }
    }
}

/// Where cards and cuts are on a sheet.
struct Grid {
    sheet: Size,
    card: Size,
    across: usize,
    down: usize,
}

impl Grid {
    fn filled(&self, cards: &[Page]) -> Frame {
        let mut frame = Frame::hard(self.sheet);
        for (at, card) in cards.iter().enumerate() {
            let (row, column) = (at / self.across, at % self.across);
            let corner = Point::new(self.x(column), self.y(row));
            frame.push_frame(corner, card.frame.clone());
        }
        for (from, to) in self.marks() {
            let stroke = FixedStroke::from_pair(Color::BLACK, Abs::pt(HAIRLINE_PT));
            let line = Geometry::Line(to - from).stroked(stroke);
            frame.push(from, FrameItem::Shape(line, Span::detached()));
        }
        frame
    }

    /// The cut to the left of a column, or after the last one.
    fn x(&self, column: usize) -> Abs {
        let block = self.card.x * self.across as f64;
        (self.sheet.x - block) / 2.0 + self.card.x * column as f64
    }

    /// The cut above a row, or below the last one.
    fn y(&self, row: usize) -> Abs {
        let block = self.card.y * self.down as f64;
        (self.sheet.y - block) / 2.0 + self.card.y * row as f64
    }

    /// Marks at both ends of every cut, and a cross where two cuts meet inside.
    fn marks(&self) -> Vec<(Point, Point)> {
        let mut marks = vec![];
        let bands = |size: Abs, low: Abs, high: Abs| {
            let room = low - Abs::mm(AWAY_MM);
            if room >= Abs::mm(MARK_MM / 2.0) {
                // Outside the cards there is room: nothing is left on them.
                let length = room.min(Abs::mm(MARK_MM));
                [(room - length, room), (size - room, size - room + length)]
            } else {
                // The cards fill the sheet: short marks on the cut itself.
                let inside = |end: Abs| end.max(Abs::zero());
                [
                    (Abs::zero(), inside(low) + Abs::mm(MARK_MM)),
                    (high - Abs::mm(MARK_MM), size),
                ]
            }
        };
        let (width, height) = (self.sheet.x, self.sheet.y);
        let (left, right) = (self.x(0), self.x(self.across));
        let (top, bottom) = (self.y(0), self.y(self.down));
        let off_edge = |at: Abs, size: Abs| at > Abs::mm(1.0) && at < size - Abs::mm(1.0);
        for column in 0..=self.across {
            let x = self.x(column);
            if off_edge(x, width) {
                for (from, to) in bands(height, top, bottom) {
                    marks.push((Point::new(x, from), Point::new(x, to)));
                }
            }
        }
        for row in 0..=self.down {
            let y = self.y(row);
            if off_edge(y, height) {
                for (from, to) in bands(width, left, right) {
                    marks.push((Point::new(from, y), Point::new(to, y)));
                }
            }
        }
        let arm = Abs::mm(MARK_MM / 2.0);
        for column in 1..self.across {
            for row in 1..self.down {
                let (x, y) = (self.x(column), self.y(row));
                marks.push((Point::new(x - arm, y), Point::new(x + arm, y)));
                marks.push((Point::new(x, y - arm), Point::new(x, y + arm)));
            }
        }
        marks
    }
}
