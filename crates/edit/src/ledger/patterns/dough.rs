//! Dough rolled out at its true size, pieces on their tray, and ropes with their length.

use super::model::{Line, Part, Pattern, PatternKind};
use super::said::{Said, in_step};
use super::{Made, SHAPED_SOURCE, fact, sizes, sum_of, volume_mm3};
use crate::Inputs;
use crate::ledger::model::Fact;
use crate::ledger::say;
use numerics::math::cbrt;
use numerics::quantity::Mass;
use recipe::document::model::{Product, Step, TinSize};
use recipe::provenance::{Had, Origin};
use std::f64::consts::PI;

/// The room that a rope's drawing takes, mm.
const ROPE_ROW_MM: f64 = 34.0;

/// More pieces than this on one tray are set by eye (our choice).
const MOST_ON_A_TRAY: u32 = 80;

/// Sheets that stages and products are rolled to; ropes; trays.
pub(super) fn patterns(inputs: &Inputs) -> Made {
    let mut drawn = Vec::new();
    let stages = inputs.recipe.stages.iter().zip(&inputs.formula.stages);
    for (stage, sum) in stages {
        drawn.extend(sheets(&stage.name.value, &stage.steps, |_| sum.mass));
    }
    for product in &inputs.recipe.products {
        drawn.extend(of_product(inputs, product));
    }
    if drawn.is_empty() {
        return Err(
            "No step gives a size to roll the dough to, and no tray takes several pieces."
                .to_owned(),
        );
    }
    Ok(drawn)
}

fn of_product(inputs: &Inputs, product: &Product) -> Vec<Pattern> {
    let name = &product.name.value;
    let sum = sum_of(inputs.formula, product);
    let (piece, count) = sum.map_or((Mass::ZERO, 1), |sum| (sum.piece, sum.count));
    let mut drawn = sheets(name, &product.steps, |step| {
        let each = step.text.value.to_lowercase().contains("each");
        if each {
            piece
        } else {
            piece * f64::from(count)
        }
    });
    drawn.extend(ropes(product));
    let rolled = drawn
        .iter()
        .any(|pattern| pattern.title.starts_with("Sheet"));
    if !rolled && let Some(tray) = tray(product, piece, count) {
        drawn.push(tray);
    }
    drawn
}

fn pattern(title: String, of: String) -> Pattern {
    Pattern {
        kind: PatternKind::Dough,
        title,
        of,
        lengths: Vec::new(),
        parts: Vec::new(),
        steps: Vec::new(),
        notes: Vec::new(),
    }
}

fn written() -> Origin {
    Origin::new("the recipe", Had::Written)
}

fn reckoned() -> Origin {
    Origin::new(SHAPED_SOURCE, Had::CommonPractice)
}

/// Thickness as a fact, from the sentence or from the dough's mass.
fn thickness(place: &str, steps: &[Said], mass: Mass, area_mm2: f64) -> Option<Fact> {
    let said = steps.iter().find_map(|said| match said {
        Said::Thick(mm) => Some(*mm),
        _ => None,
    });
    let (mm, origin) = match said {
        Some(mm) => (mm, written()),
        None if mass > Mass::ZERO => (volume_mm3(mass) / area_mm2, reckoned()),
        None => return None,
    };
    Some(fact(place, "Thick, about", &[mm], &origin))
}

/// A sheet for each step that rolls to one.
fn sheets(name: &str, steps: &[Step], mass_for: impl Fn(&Step) -> Mass) -> Vec<Pattern> {
    let mut drawn = Vec::new();
    for step in steps {
        let said = in_step(step);
        for size in &said {
            let mass = mass_for(step);
            let place = format!("dough.{name}");
            let mut sheet = pattern(
                format!("Sheet of dough for the {name}"),
                format!("{} of dough", say::mass(mass)),
            );
            let area = match *size {
                Said::Sheet { length, width } => {
                    let shown = sizes(&[length, width]);
                    sheet
                        .lengths
                        .push(fact(&place, "Rolled to", &[length, width], &written()));
                    let mut part = Part::new("", format!("A rectangle of {shown}."), length, width);
                    part.rectangle(Line::Edge, (0.0, 0.0), (length, width));
                    marks(&mut part, length, width);
                    sheet.parts.push(part);
                    length * width
                }
                Said::Round(across) => {
                    sheet
                        .lengths
                        .push(fact(&place, "Rolled to a round of", &[across], &written()));
                    let alt = format!("A circle {} across.", sizes(&[across]));
                    let mut part = Part::new("", alt, across, across);
                    let radius = across / 2.0;
                    part.circle(Line::Edge, (radius, radius), radius);
                    part.cross((radius, radius), 5.0);
                    sheet.parts.push(part);
                    PI * radius * radius
                }
                _ => continue,
            };
            if let Some(thick) = thickness(&place, &said, mass, area) {
                let word = format!("about {} thick", thick.shown);
                for part in &mut sheet.parts {
                    let at = (part.width_mm * 0.25, part.height_mm * 0.25);
                    part.word(at, 11.0, word.clone());
                }
                sheet.lengths.push(thick);
            }
            sheet.steps = vec![
                "Lay the drawing under baking paper, or beside the board.".to_owned(),
                "Roll the dough until it meets the lines on every side.".to_owned(),
            ];
            if !said.iter().any(|said| matches!(said, Said::Thick(_))) {
                sheet
                    .notes
                    .push(format!("The thickness is worked out for {SHAPED_SOURCE}."));
            }
            drawn.push(sheet);
        }
    }
    drawn
}

/// A tick every 5 cm along both edges, to see halves and pieces by.
fn marks(part: &mut Part, length: f64, width: f64) {
    let mut at = 50.0;
    while at < length - 1.0 {
        part.line(Line::Guide, vec![(at, 0.0), (at, 5.0)]);
        part.line(Line::Guide, vec![(at, width - 5.0), (at, width)]);
        at += 50.0;
    }
    let mut at = 50.0;
    while at < width - 1.0 {
        part.line(Line::Guide, vec![(0.0, at), (5.0, at)]);
        part.line(Line::Guide, vec![(length - 5.0, at), (length, at)]);
        at += 50.0;
    }
}

/// Ropes and strips of a product on one drawing.
fn ropes(product: &Product) -> Option<Pattern> {
    let name = &product.name.value;
    let mut found: Vec<(f64, String)> = Vec::new();
    for said in product.steps.iter().flat_map(in_step) {
        if let Said::Rope(length, word) = said
            && !found.iter().any(|(other, _)| (other - length).abs() < 0.5)
        {
            found.push((length, word));
        }
    }
    let longest = found.iter().map(|(length, _)| *length).fold(0.0, f64::max);
    let (_, word) = found.first()?;
    let mut gauge = pattern(format!("Length of a {word} for the {name}"), String::new());
    // A rope's thickness follows from its mass when all the pieces are alike.
    let mass = match product.piece.value.as_slice() {
        [one] => Some(one.mass),
        _ => None,
    };
    let mut rows = 0.0;
    let mut part = Part::new("", String::new(), longest, 0.0);
    for (length, word) in &found {
        let place = format!("rope.{name}");
        let middle = (rows + 0.5) * ROPE_ROW_MM;
        gauge
            .lengths
            .push(fact(&place, &say::capital(word), &[*length], &written()));
        let thick = mass
            .filter(|_| word == "rope")
            .map(|mass| 2.0 * (volume_mm3(mass) / *length / PI).sqrt());
        let half = thick.unwrap_or(0.0) / 2.0;
        if let Some(thick) = thick.filter(|thick| *thick < ROPE_ROW_MM) {
            part.rectangle(Line::Edge, (0.0, middle - half), (*length, middle + half));
            gauge
                .lengths
                .push(fact(&place, "Thick, about", &[thick], &reckoned()));
        } else {
            part.line(Line::Edge, vec![(0.0, middle), (*length, middle)]);
            for end in [0.0, *length] {
                part.line(Line::Edge, vec![(end, middle - 6.0), (end, middle + 6.0)]);
            }
        }
        let said = format!("{word} of {}", sizes(&[*length]));
        part.word(
            (*length * 0.25, middle - if half > 6.0 { 0.0 } else { 4.0 }),
            10.0,
            said,
        );
        rows += 1.0;
    }
    part.height_mm = rows * ROPE_ROW_MM;
    part.alt = format!("The length to roll to, drawn for the {name}.");
    gauge.parts = vec![part];
    gauge.of = match mass {
        Some(mass) => format!("each of {}", say::mass(mass)),
        None => super::for_products(std::slice::from_ref(name)),
    };
    gauge.steps = vec![
        "Lay the sheet beside the board and roll until both ends meet their marks.".to_owned(),
    ];
    if gauge
        .lengths
        .iter()
        .any(|fact| fact.label.starts_with("Thick"))
    {
        gauge
            .notes
            .push(format!("The thickness is worked out for {SHAPED_SOURCE}."));
    }
    Some(gauge)
}

/// A tray with the middles of its pieces, when several stand on it.
fn tray(product: &Product, piece: Mass, count: u32) -> Option<Pattern> {
    let tin = product.tin.as_ref()?;
    let TinSize::Tray { length, width } = tin.size.value else {
        return None;
    };
    if count < 2 || piece <= Mass::ZERO {
        return None;
    }
    let (length, width) = (length.millimetres(), width.millimetres());
    let (length, width) = (length.max(width), length.min(width));
    let across = cbrt(6.0 * volume_mm3(piece) / PI);
    let apart = product
        .steps
        .iter()
        .flat_map(in_step)
        .find_map(|said| match said {
            Said::Apart(mm) => Some(mm),
            _ => None,
        });
    let pitch = across + apart.unwrap_or(0.0);
    let fit = |side: f64| (1 + whole((side - across) / pitch)).max(1);
    let (columns, rows) = (fit(length), fit(width));
    let on_one = count.min(columns * rows);
    let trays = count.div_ceil(columns * rows);
    if on_one > MOST_ON_A_TRAY {
        return None;
    }
    let rows = (1..=rows).find(|rows| rows * columns >= on_one)?;
    let name = &product.name.value;
    let place = format!("tray.{name}");
    let mut sheet = pattern(
        format!("Tray for the {name}"),
        match trays {
            1 => format!("{count} pieces of {}", say::mass(piece)),
            trays => format!("{count} pieces of {}, on {trays} trays", say::mass(piece)),
        },
    );
    sheet
        .lengths
        .push(fact(&place, "Tray", &[length, width], &written()));
    sheet.lengths.push(fact(
        &place,
        "One piece, as a ball, about",
        &[across],
        &reckoned(),
    ));
    if let Some(apart) = apart {
        sheet
            .lengths
            .push(fact(&place, "Apart, at least", &[apart], &written()));
    }
    let alt = format!(
        "A tray of {} with the places of {on_one} pieces.",
        sizes(&[length, width])
    );
    let mut part = Part::new("", alt, length, width);
    part.rectangle(Line::Edge, (0.0, 0.0), (length, width));
    let mut left = on_one;
    let mut longest_row = 1;
    for row in 0..rows {
        let here = left.div_ceil(rows - row);
        longest_row = longest_row.max(here);
        left -= here;
        let y = width * (f64::from(row) + 0.5) / f64::from(rows);
        for column in 0..here {
            let x = length * (f64::from(column) + 0.5) / f64::from(here);
            part.circle(Line::Guide, (x, y), across / 2.0);
            part.cross((x, y), 4.0);
        }
    }
    let steps = [length / f64::from(longest_row), width / f64::from(rows)];
    sheet.lengths.push(fact(
        &place,
        "Middle to middle",
        &steps,
        &Origin::new("shared out evenly over the tray", Had::Derived),
    ));
    sheet.parts = vec![part];
    sheet.steps = vec![
        "Lay the drawing on the tray and the baking paper over it.".to_owned(),
        "Set a piece on each circle. Pull the drawing out before anything goes near the oven."
            .to_owned(),
    ];
    sheet.notes.push(format!(
        "The circles are worked out for {SHAPED_SOURCE}; rising takes up the rest."
    ));
    Some(sheet)
}

/// The whole part of a count that is small by nature.
fn whole(value: f64) -> u32 {
    (0..1000_u32)
        .take_while(|count| f64::from(*count) <= value)
        .last()
        .unwrap_or(0)
}
