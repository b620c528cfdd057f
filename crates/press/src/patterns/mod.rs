//! Patterns at true size: each on as many sheets as it takes, with a rule to measure first.

mod grid;

use edit::ledger::model::{Ledger, Part, Pattern, PatternKind};
use edit::ledger::patterns::model::Word;
use grid::{Layout, Page, Paper, pages};
use numerics::flat::Point;
use serde_json::{Value, json};

use crate::pdf::{Laid, PdfFault, Template, lay_out_value, palette};

/// Every pattern of one kind as it is set; a fault when the recipe has none.
pub(crate) fn laid(
    ledger: &Ledger,
    kind: PatternKind,
    (width_mm, height_mm): (f64, f64),
) -> Result<Laid, PdfFault> {
    if let Some(why) = ledger.patterns.why_none(kind) {
        return Err(PdfFault::NothingToPrint(why.to_owned()));
    }
    let paper = Paper {
        width_mm,
        height_mm,
    };
    let template = Template {
        text: include_str!("../../templates/true-size.typ"),
        name: kind.word(),
        paper: json!({
            "width": width_mm,
            "height": height_mm,
            "margin": grid::MARGIN_MM,
            "foot": grid::FOOT_MM,
        }),
    };
    let patterns: Vec<Value> = ledger
        .patterns
        .of(kind)
        .map(|pattern| of_pattern(pattern, &paper))
        .collect();
    let title = match kind {
        PatternKind::Lining => "Linings at true size",
        PatternKind::Dough => "Dough at true size",
        PatternKind::Ring => "Rings at true size",
        PatternKind::Level => "Strips for the rising jar",
    };
    let data = json!({
        "title": title,
        "recipe": ledger.title,
        "patterns": patterns,
        "imprint": ledger.imprint,
        "colours": palette(),
    });
    lay_out_value(&data, &ledger.slug, ledger.language, &template)
}

fn of_pattern(pattern: &Pattern, paper: &Paper) -> Value {
    let laid = pages(&pattern.parts, paper);
    let lengths: Vec<_> = pattern
        .lengths
        .iter()
        .map(|fact| json!({ "label": fact.label, "shown": fact.shown }))
        .collect();
    let parts: Vec<_> = pattern
        .parts
        .iter()
        .zip(&laid.turned)
        .enumerate()
        .map(|(place, (part, turned))| {
            let map = laid.maps.iter().find(|map| map.part == place);
            drawn(part, *turned, |word, at, upright| match map {
                Some(map) => map.off_seams(paper.area(), at, length_mm(word), upright),
                None => at,
            })
        })
        .collect();
    let mut lines: Vec<&str> = pattern
        .parts
        .iter()
        .flat_map(|part| &part.strokes)
        .map(|stroke| stroke.line.word())
        .collect();
    lines.sort_unstable();
    lines.dedup();
    json!({
        "title": pattern.title,
        "of": pattern.of,
        "lengths": lengths,
        "steps": pattern.steps,
        "notes": pattern.notes,
        "parts": parts,
        "lines": lines,
        "maps": laid.maps.iter().map(|map| json!({
            "name": map.name, "part": map.part,
            "at": [coordinate(map.at.0), coordinate(map.at.1)], "across": map.across, "down": map.down, "first": map.first,
        })).collect::<Vec<_>>(),
        "together": laid.together,
        "beside": laid.beside,
        "pages": laid.pages.iter().map(|one| page(one, pattern, &laid)).collect::<Vec<_>>(),
    })
}

fn page(page: &Page, pattern: &Pattern, laid: &Layout) -> Value {
    let placed: Vec<_> = page
        .placed
        .iter()
        .map(|(part, at)| {
            let own = &pattern.parts[*part];
            let strokes: Vec<_> = (0..own.strokes.len())
                .filter(|&stroke| {
                    !page.framed || reaches(page, own, stroke, laid.turned[*part], *at)
                })
                .collect();
            json!({
                "part": part,
                "at": [coordinate(at.0), coordinate(at.1)],
                "strokes": strokes,
            })
        })
        .collect();
    let joins: Vec<_> = page
        .joins
        .iter()
        .map(|join| {
            json!({
                "side": join.side,
                "letter": join.letter,
            })
        })
        .collect();
    json!({
        "placed": placed,
        "framed": page.framed,
        "joins": joins,
        "name": page.name,
        "number": page.number,
        "width": coordinate(page.wide_mm),
        "height": coordinate(page.tall_mm),
    })
}

/// Whether any of a stroke lies on a sheet.
fn reaches(page: &Page, part: &Part, stroke: usize, turned: bool, at: Point) -> bool {
    /// Half the width of the widest line, and more.
    const LINE_MM: f64 = 1.0;
    let points = || part.strokes[stroke].points.iter();
    let within = |along: &dyn Fn(Point) -> f64, length: f64| {
        let (low, high) = points().fold((f64::MAX, f64::MIN), |(low, high), point| {
            let on_sheet = along(quartered(part, turned, *point));
            (low.min(on_sheet), high.max(on_sheet))
        });
        low <= length + LINE_MM && high >= -LINE_MM
    };
    within(&|point| point.0 + at.0, page.wide_mm) && within(&|point| point.1 + at.1, page.tall_mm)
}

/// A place on a part, turned by a quarter when the part is.
fn quartered(part: &Part, turned: bool, (x, y): Point) -> Point {
    if turned {
        (part.height_mm - y, x)
    } else {
        (x, y)
    }
}

/// A part as the template draws it, turned by a quarter when that saves paper; `settle` says where
/// the middle of a word may stand.
fn drawn(part: &Part, turned: bool, settle: impl Fn(&Word, Point, bool) -> Point) -> Value {
    let place = |at: Point| quartered(part, turned, at);
    let rounded = |(x, y): Point| json!([coordinate(x), coordinate(y)]);
    let strokes: Vec<_> = part
        .strokes
        .iter()
        .map(|stroke| {
            let points = stroke.points.iter().map(|at| rounded(place(*at)));
            json!({
                "line": stroke.line.word(),
                "closed": stroke.closed,
                "points": points.collect::<Vec<_>>(),
            })
        })
        .collect();
    let words: Vec<_> = part
        .words
        .iter()
        .map(|word| {
            let upright = word.upright != turned;
            json!({
                "at": rounded(settle(word, place(word.at), upright)),
                "text": word.text.replace(' ', "\u{a0}"),
                "size": word.size_pt,
                "upright": upright,
            })
        })
        .collect();
    json!({ "name": part.name, "alt": part.alt, "strokes": strokes, "words": words })
}

/// About how long a word is when set, mm: the serif's letters are half as wide as its size.
fn length_mm(word: &Word) -> f64 {
    let letters = word.text.chars().map(|_| 0.5).sum::<f64>();
    letters * word.size_pt * 25.4 / 72.0
}

/// A coordinate to a thousandth of a millimetre.
fn coordinate(mm: f64) -> f64 {
    numerics::decimal::round_to(mm, 0.001)
}
