//! Round and ring tins: a disc or a ring for the base, and the walls laid flat.

use super::{Named, fact, lean_said, origin};
use crate::ledger::patterns::model::{Line, Part, Pattern};
use numerics::flat::{Point, arc, base_radius, cone_wall, slant};
use recipe::document::model::Tin;
use std::f64::consts::PI;

/// Paper that lies double where a wall closes, mm (common practice).
const OVERLAP_MM: f64 = 15.0;

/// Paper that is folded in below a wall and snipped, mm (common practice).
const FOOT_MM: f64 = 15.0;

/// From one snip of the foot to the next, mm (common practice).
const SNIPS_MM: f64 = 20.0;

/// Words in a tin's name that say it has a tube in the middle.
const WITH_TUBE: [&str; 3] = ["ring", "tube", "funnel"];

/// Draws base and wall.
pub(super) fn lining(
    pattern: &mut Pattern,
    named: &Named,
    (rim, height): (f64, f64),
    above: f64,
) -> Result<(), String> {
    let Named { tin, name, .. } = *named;
    let called = tin.name.value.to_lowercase();
    let tube = called
        .split_whitespace()
        .any(|word| WITH_TUBE.contains(&word));
    let place = format!("lining.{name}");
    if tube {
        let tube = tube_radius(tin, rim, height).ok_or_else(|| {
            format!(
                "The {name} has a tube whose width is not written, nor does what the tin holds \
                 tell it."
            )
        })?;
        ring_tin(pattern, &place, (rim, tube, height), above);
        return Ok(());
    }
    let lean = lean_said(pattern, named, height, |volume| {
        base_radius(rim, height, volume).map(|base| rim - base)
    });
    let origin = origin(lean);
    let base = rim - lean;
    let wall = slant(height, lean);
    pattern.lengths = vec![
        fact(&place, "Base across", &[2.0 * base], &origin),
        fact(&place, "Wall", &[wall], &origin),
        fact(&place, "Round the rim", &[2.0 * PI * rim], &origin),
    ];
    pattern.parts = vec![disc(base)];
    let part = match cone_wall(rim, base, height) {
        Some(cone) => {
            pattern
                .lengths
                .push(fact(&place, "Inner arc, radius", &[cone.inner], &origin));
            pattern
                .lengths
                .push(fact(&place, "Outer arc, radius", &[cone.outer], &origin));
            curved_wall((cone.inner, cone.outer, cone.angle), above)
        }
        None => straight_wall("Wall", 2.0 * PI * rim, height, above),
    };
    pattern.parts.push(part);
    pattern.steps = steps("Set the wall in first, foot inwards, then lay the disc on the foot.");
    Ok(())
}

fn steps(last: &str) -> Vec<String> {
    vec![
        "Lay each part on baking paper and cut along the full lines; snip the foot as marked."
            .to_owned(),
        "Fold the foot in along the dashed line. The strip at the end of a wall lies double."
            .to_owned(),
        last.to_owned(),
    ]
}

/// Radius of a straight tube from what the tin holds, mm: V = π h (R² − r²).
fn tube_radius(tin: &Tin, rim: f64, height: f64) -> Option<f64> {
    let volume = tin.holds.as_ref()?.value.si() * 1e9;
    let square = rim * rim - volume / (PI * height);
    (square > 0.0).then(|| square.sqrt())
}

fn ring_tin(pattern: &mut Pattern, place: &str, (rim, tube, height): (f64, f64, f64), above: f64) {
    pattern.notes.push(
        "Straight walls are assumed, and the tube's width is worked out from what the tin holds. \
         Measure the tube before you cut the good paper."
            .to_owned(),
    );
    let origin = origin(0.0);
    pattern.lengths = vec![
        fact(place, "Base across", &[2.0 * rim], &origin),
        fact(place, "Hole across", &[2.0 * tube], &origin),
        fact(place, "Wall", &[height], &origin),
    ];
    let mut base = disc(rim);
    base.alt = String::from("A ring for the base: an outer and an inner circle to cut.");
    base.circle(Line::Cut, (rim, rim), tube);
    for word in &mut base.words {
        word.at = ((rim - tube) / 2.0, rim * 0.9);
    }
    pattern.parts = vec![
        base,
        straight_wall("Outer wall", 2.0 * PI * rim, height, above),
        straight_wall("Wall of the tube", 2.0 * PI * tube, height, 0.0),
    ];
    pattern.steps = steps("Set both walls in, each foot over the base, then lay the ring on them.");
}

fn disc(radius: f64) -> Part {
    let alt = format!(
        "A disc {} across, to cut.",
        super::super::sizes(&[2.0 * radius])
    );
    let mut part = Part::new("Base", alt, 2.0 * radius, 2.0 * radius);
    part.circle(Line::Cut, (radius, radius), radius);
    part.cross((radius, radius), 4.0);
    let said = format!("base, {} across", super::super::sizes(&[2.0 * radius]));
    part.word((radius * 0.58, radius * 0.62), 11.0, said);
    part
}

/// A wall without lean: a strip with its foot below, a rim line, and the strip that lies double.
fn straight_wall(name: &str, round: f64, height: f64, above: f64) -> Part {
    let (width, tall) = (round + OVERLAP_MM, above + height + FOOT_MM);
    let alt = format!(
        "A strip of {} with a snipped foot of {}.",
        super::super::sizes(&[width, above + height]),
        super::super::sizes(&[FOOT_MM])
    );
    let mut part = Part::new(name, alt, width, tall);
    part.rectangle(Line::Cut, (0.0, 0.0), (width, tall));
    let foot = above + height;
    part.line(Line::Fold, vec![(0.0, foot), (width, foot)]);
    if above > 0.0 {
        part.line(Line::Guide, vec![(0.0, above), (width, above)]);
        part.word(
            (45.0_f64.min(width / 2.0), above / 2.0),
            8.0,
            "above the rim",
        );
    }
    part.line(Line::Guide, vec![(round, 0.0), (round, foot)]);
    let mut snip = SNIPS_MM;
    while snip < width - 1.0 {
        part.line(Line::Cut, vec![(snip, foot), (snip, tall)]);
        snip += SNIPS_MM;
    }
    let said = format!(
        "{}, {}",
        name.to_lowercase(),
        super::super::sizes(&[round, height])
    );
    part.word((round * 0.25, above + height / 2.0), 10.0, said);
    part
}

/// A leaning wall: a piece of a ring, symmetrical about its middle, its large arc above.
fn curved_wall((inner, outer, angle): (f64, f64, f64), above: f64) -> Part {
    let top = outer + above;
    let foot = (inner - FOOT_MM).max(0.0);
    let double = OVERLAP_MM / outer;
    let whole = angle + double;
    // Straight up is minus a quarter turn.
    let (from, to) = (-PI / 2.0 - whole / 2.0, -PI / 2.0 + whole / 2.0);
    let mut edge = arc((0.0, 0.0), top, from, to);
    edge.extend(arc((0.0, 0.0), foot, to, from));
    let low = |pick: fn(&Point) -> f64| edge.iter().map(pick).fold(f64::INFINITY, f64::min);
    let high = |pick: fn(&Point) -> f64| edge.iter().map(pick).fold(f64::NEG_INFINITY, f64::max);
    let (left, upper) = (low(|p| p.0), low(|p| p.1));
    let (right, lower) = (high(|p| p.0), high(|p| p.1));
    let alt = format!(
        "A piece of a ring between radii of {} and {}, with a snipped foot.",
        super::super::sizes(&[inner]),
        super::super::sizes(&[outer])
    );
    let mut part = Part::new("Wall", alt, right - left, lower - upper);
    let placed = |points: Vec<Point>| -> Vec<Point> {
        points
            .into_iter()
            .map(|(x, y)| (x - left, y - upper))
            .collect()
    };
    let about = |radius: f64, a: f64, b: f64| placed(arc((0.0, 0.0), radius, a, b));
    let spoke = |a: f64, r1: f64, r2: f64| {
        let ends = [r1, r2].map(|r| *arc((0.0, 0.0), r, a, a).first().unwrap_or(&(0.0, 0.0)));
        placed(ends.to_vec())
    };
    part.closed(Line::Cut, placed(edge.clone()));
    part.line(Line::Fold, about(inner, from, to));
    if above > 0.0 {
        part.line(Line::Guide, about(outer, from, to));
    }
    part.line(Line::Guide, spoke(to - double, inner, top));
    let step = SNIPS_MM / inner.max(SNIPS_MM);
    let mut at = from + step;
    while at < to - step / 2.0 {
        part.line(Line::Cut, spoke(at, foot, inner));
        at += step;
    }
    let [word] = [spoke(
        -PI / 2.0 - whole * 0.12,
        f64::midpoint(inner, outer),
        outer,
    )];
    if let Some(place) = word.first() {
        part.word(*place, 10.0, "wall");
    }
    part
}
