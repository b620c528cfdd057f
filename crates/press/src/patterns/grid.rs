//! On which sheets the parts of a pattern stand: several on one, or one over several, with marks to join by.

use edit::ledger::model::Part;

/// Paper left free at the top and the sides, millimetres: most printers at home reach to 3–5 mm of
/// the edge (common practice), and a base 20 cm across then fits A4.
pub(super) const MARGIN_MM: f64 = 5.0;

/// Room at the foot for the rule and the line of origin, and for printers that feed by the last
/// centimetre, millimetres.
pub(super) const FOOT_MM: f64 = 24.0;

/// Room that the words of a pattern take when drawings stand below them, millimetres.
const WORDS_MM: f64 = 84.0;

/// A drawing this narrow leaves room for the words beside it, millimetres.
const BESIDE_MM: f64 = 100.0;

/// Room between two parts on one sheet, millimetres.
const GAP_MM: f64 = 4.0;

/// The paper.
pub(super) struct Paper {
    pub width_mm: f64,
    pub height_mm: f64,
}

impl Paper {
    /// What can be drawn on.
    pub(super) const fn area(&self) -> (f64, f64) {
        (
            self.width_mm - 2.0 * MARGIN_MM,
            self.height_mm - MARGIN_MM - FOOT_MM,
        )
    }
}

/// A sheet with drawings.
pub(super) struct Page {
    /// Parts by their place, and where their corner stands in the sheet's area.
    pub placed: Vec<(usize, (f64, f64))>,
    /// A part of a larger drawing, to be cut along its frame.
    pub framed: bool,
    /// Marks on the frame.
    pub joins: Vec<Join>,
    /// The part's name on a sheet that is joined.
    pub name: String,
    /// Its number among the sheets to be joined.
    pub number: usize,
    /// Width of what stands on it, millimetres.
    pub wide_mm: f64,
    /// Height of what stands on it, millimetres.
    pub tall_mm: f64,
}

/// A mark on a side of a sheet that meets the same letter on another.
pub(super) struct Join {
    pub side: &'static str,
    pub letter: String,
}

/// How the sheets of one part lie beside each other.
pub(super) struct Map {
    pub name: String,
    /// The part by its place.
    pub part: usize,
    /// Where its corner stands in the area of all sheets together.
    pub at: (f64, f64),
    pub across: usize,
    pub down: usize,
    pub first: usize,
}

impl Map {
    /// Where the middle of a word of this length stands so that no seam cuts it: the nearest place
    /// beside the seam.
    pub(super) fn off_seams(
        &self,
        area: (f64, f64),
        at: (f64, f64),
        length: f64,
        upright: bool,
    ) -> (f64, f64) {
        const LINE_MM: f64 = 4.0;
        let (wide, tall) = if upright {
            (LINE_MM, length)
        } else {
            (length, LINE_MM)
        };
        (
            beside_seams(at.0, self.at.0, area.0, self.across, wide),
            beside_seams(at.1, self.at.1, area.1, self.down, tall),
        )
    }
}

/// Room beside a seam that its marks take: half a diamond and its letter, millimetres.
const MARKS_MM: f64 = 10.0;

/// A place along one way over the sheets, moved off a seam and its marks by the shorter way.
fn beside_seams(at: f64, begins: f64, sheet: f64, sheets: usize, length: f64) -> f64 {
    let half = length / 2.0 + MARKS_MM;
    let seams = (1..sheets).map(|number| sheet * small_number(number) - begins);
    seams
        .filter(|seam| (at - seam).abs() < half)
        .map(|seam| if at < seam { seam - half } else { seam + half })
        .next_back()
        .unwrap_or(at)
}

/// All sheets of a pattern.
pub(super) struct Layout {
    pub pages: Vec<Page>,
    pub maps: Vec<Map>,
    /// Whether each part is turned by a quarter.
    pub turned: Vec<bool>,
    /// Whether the only sheet stands below the words.
    pub together: bool,
    /// Whether the only sheet stands beside the words.
    pub beside: bool,
}

/// Lays every part out.
pub(super) fn pages(parts: &[Part], paper: &Paper) -> Layout {
    let area = paper.area();
    let mut layout = Layout {
        pages: Vec::new(),
        maps: Vec::new(),
        turned: Vec::new(),
        together: false,
        beside: false,
    };
    let mut small = Vec::new();
    for (place, part) in parts.iter().enumerate() {
        let size = (part.width_mm, part.height_mm);
        let sheets = |size: (f64, f64)| count(size.0, area.0) * count(size.1, area.1);
        let turned = sheets((size.1, size.0)) < sheets(size);
        let size = if turned { (size.1, size.0) } else { size };
        layout.turned.push(turned);
        if sheets(size) == 1 {
            small.push((place, size));
        } else {
            over_several(&mut layout, place, &part.name, size, area);
        }
    }
    let below_words = (area.0, area.1 - WORDS_MM);
    if layout.pages.is_empty() {
        let first = shelves(&small, below_words);
        if first.len() == 1 && fits(&small, below_words) {
            layout.pages = first;
            layout.together = true;
            return layout;
        }
    }
    layout.pages.extend(shelves(&small, area));
    layout.beside = match layout.pages.as_slice() {
        [only] => !only.framed && only.wide_mm <= BESIDE_MM,
        _ => false,
    };
    layout
}

fn fits(small: &[(usize, (f64, f64))], area: (f64, f64)) -> bool {
    small
        .iter()
        .all(|(_, size)| size.0 <= area.0 && size.1 <= area.1)
}

/// How many sheets a length takes.
fn count(length: f64, sheet: f64) -> usize {
    // Line widths aside, a hair too long is still one sheet.
    (1..100)
        .find(|sheets| length <= sheet * small_number(*sheets) + 0.01)
        .unwrap_or(100)
}

/// A count as a factor; counts here stay below a hundred.
fn small_number(count: usize) -> f64 {
    u8::try_from(count).map_or(100.0, f64::from)
}

fn over_several(layout: &mut Layout, place: usize, name: &str, size: (f64, f64), area: (f64, f64)) {
    let (across, down) = (count(size.0, area.0), count(size.1, area.1));
    let first = layout.pages.len() + 1;
    // The drawing stands in the middle of all sheets together.
    let before =
        |length: f64, sheet: f64, sheets: usize| (sheet * small_number(sheets) - length) / 2.0;
    let left = before(size.0, area.0, across);
    let upper = before(size.1, area.1, down);
    for row in 0..down {
        for column in 0..across {
            let at = (
                left - area.0 * small_number(column),
                upper - area.1 * small_number(row),
            );
            // Seams are lettered in order: those between columns first, row by row, then those
            // between rows.
            let beside = |left: usize| letter(row * (across - 1) + left);
            let below = |upper: usize| letter(down * (across - 1) + upper * across + column);
            let seams = [
                ("left", column.checked_sub(1).map(beside)),
                ("right", (column + 1 < across).then(|| beside(column))),
                ("top", row.checked_sub(1).map(below)),
                ("bottom", (row + 1 < down).then(|| below(row))),
            ];
            let joins = seams
                .into_iter()
                .filter_map(|(side, letter)| letter.map(|letter| Join { side, letter }))
                .collect();
            layout.pages.push(Page {
                placed: vec![(place, at)],
                framed: true,
                name: name.to_owned(),
                joins,
                number: layout.pages.len() + 1,
                wide_mm: area.0,
                tall_mm: area.1,
            });
        }
    }
    layout.maps.push(Map {
        name: name.to_owned(),
        part: place,
        at: (left, upper),
        across,
        down,
        first,
    });
}

/// "A" to "Z", then "A2" and so on.
fn letter(seam: usize) -> String {
    let alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    let sign = alphabet.chars().nth(seam % 26).unwrap_or('A');
    match seam / 26 {
        0 => sign.to_string(),
        round => format!("{sign}{}", round + 1),
    }
}

/// Parts side by side in rows, rows below each other, on as many sheets as it takes.
fn shelves(small: &[(usize, (f64, f64))], area: (f64, f64)) -> Vec<Page> {
    let mut pages: Vec<Page> = Vec::new();
    let (mut x, mut y, mut row) = (0.0, 0.0, 0.0_f64);
    for (place, size) in small {
        if x > 0.0 && x + size.0 > area.0 + 0.01 {
            x = 0.0;
            y += row + GAP_MM;
            row = 0.0;
        }
        if pages.is_empty() || (y > 0.0 && y + size.1 > area.1 + 0.01) {
            pages.push(Page {
                placed: Vec::new(),
                framed: false,
                name: String::new(),
                joins: Vec::new(),
                number: 0,
                wide_mm: 0.0,
                tall_mm: 0.0,
            });
            (x, y, row) = (0.0, 0.0, 0.0);
        }
        if let Some(page) = pages.last_mut() {
            page.placed.push((*place, (x, y)));
            page.wide_mm = page.wide_mm.max(x + size.0);
            page.tall_mm = page.tall_mm.max(y + size.1);
        }
        x += size.0 + GAP_MM;
        row = row.max(size.1);
    }
    pages
}

#[cfg(test)]
mod tests {
    use super::*;

    const A4: Paper = Paper {
        width_mm: 210.0,
        height_mm: 297.0,
    };

    fn part(width_mm: f64, height_mm: f64) -> Part {
        Part::new("", String::new(), width_mm, height_mm)
    }

    #[test]
    fn small_parts_share_a_sheet_and_large_ones_are_spread() {
        let strips: Vec<_> = (0..4).map(|_| part(44.0, 156.0)).collect();
        let laid = pages(&strips, &A4);
        assert_eq!((laid.pages.len(), laid.together), (1, true));
        let corners: Vec<_> = laid.pages[0].placed.iter().map(|(_, at)| at.0).collect();
        assert_eq!(corners, [0.0, 48.0, 96.0, 144.0]);

        // 200 x 268 mm can be drawn on: 380 x 267 takes two sheets side by side.
        let laid = pages(&[part(380.0, 267.0)], &A4);
        assert_eq!((laid.pages.len(), laid.turned[0]), (2, false));
        let at: Vec<_> = laid.pages.iter().map(|page| page.placed[0].1).collect();
        assert_eq!(at, [(10.0, 0.5), (-190.0, 0.5)]);
    }

    #[test]
    fn a_part_is_turned_when_that_saves_paper() {
        let laid = pages(&[part(265.0, 180.0)], &A4);
        assert_eq!((laid.pages.len(), laid.turned[0]), (1, true));
    }

    #[test]
    fn words_keep_off_the_seams() {
        let laid = pages(&[part(380.0, 267.0)], &A4);
        // The seam stands 190 mm from the part's left edge.
        let settled = |x: f64| laid.maps[0].off_seams(A4.area(), (x, 100.0), 40.0, false);
        assert_eq!(settled(100.0), (100.0, 100.0));
        // A word of 40 mm and 10 mm for the diamonds and letters of the seam.
        assert_eq!(settled(185.0), (160.0, 100.0));
        assert_eq!(settled(195.0), (220.0, 100.0));
    }

    #[test]
    fn both_sides_of_a_seam_have_one_letter() {
        let laid = pages(&[part(500.0, 500.0)], &A4);
        let map = &laid.maps[0];
        assert_eq!((map.across, map.down), (3, 2));
        let mut letters: Vec<_> = laid
            .pages
            .iter()
            .flat_map(|page| &page.joins)
            .map(|join| join.letter.as_str())
            .collect();
        letters.sort_unstable();
        assert_eq!(letters.concat(), "AABBCCDDEEFFGG");
        let side = |page: usize, side: &str| {
            let join = laid.pages[page].joins.iter().find(|join| join.side == side);
            join.map(|join| join.letter.clone())
        };
        assert_eq!(side(0, "right"), side(1, "left"));
        assert_eq!(side(1, "bottom"), side(4, "top"));
        assert_eq!(side(0, "left"), None);
    }
}
