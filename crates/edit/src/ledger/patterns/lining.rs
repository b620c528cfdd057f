//! Baking paper for a tin: base and walls laid flat, with what is cut and what is folded.

mod round;

use super::model::{Line, Part, Pattern, PatternKind};
use super::{Made, fact, for_products};
use crate::Inputs;
use crate::ledger::{readers, say};
use numerics::flat::{Point, lean_of_box, slant};
use numerics::quantity::Volume;
use recipe::document::model::{Material, Product, Tin, TinSize};
use recipe::measure::Market;
use recipe::provenance::{Had, Origin};

/// Paper that stands above the rim, to lift the bread out by, mm (common practice).
const ABOVE_THE_RIM_MM: f64 = 15.0;

/// Walls that lean more than this for each millimetre of height (20°) are no tin's: the volume is
/// then taken to be about something else.
const STEEPEST_LEAN: f64 = 0.364;

/// One lining for each tin, and the products baked in it.
pub(super) fn patterns(inputs: &Inputs) -> Made {
    let mut tins: Vec<(&Tin, Vec<String>)> = Vec::new();
    let mut why = Vec::new();
    for product in &inputs.recipe.products {
        let Some(tin) = &product.tin else { continue };
        if let Some(reason) = needs_none(inputs, tin) {
            if !why.contains(&reason) {
                why.push(reason);
            }
            continue;
        }
        let holds = |tin: &Tin| tin.holds.as_ref().map(|holds| holds.value);
        let same = |(other, _): &&mut (&Tin, Vec<String>)| {
            other.size.value == tin.size.value && holds(other) == holds(tin)
        };
        let name = product.name.value.clone();
        match tins.iter_mut().find(same) {
            Some((_, names)) => names.push(name),
            None => tins.push((tin, vec![name])),
        }
    }
    let mut drawn = Vec::new();
    for (tin, names) in tins {
        match lining(inputs, tin, &names) {
            Ok(pattern) => drawn.push(pattern),
            Err(reason) => why.push(reason),
        }
    }
    if drawn.is_empty() {
        return Err(match why.as_slice() {
            [] => "No product is baked in a tin.".to_owned(),
            why => why.join(" "),
        });
    }
    Ok(drawn)
}

/// Why a tin wants no pattern.
fn needs_none(inputs: &Inputs, tin: &Tin) -> Option<String> {
    let name = readers::vessel(&tin.name.value, inputs.market);
    match (tin.material.value, tin.size.value) {
        (Material::Paper | Material::Silicone, _) => Some(format!(
            "The {name} is of {} and needs no lining.",
            tin.material.value.word()
        )),
        (_, size @ TinSize::Tray { .. }) => Some(format!(
            "The {name} takes a straight piece of baking paper, {}.",
            say::tin_size(&size)
        )),
        _ => None,
    }
}

/// A tin as the readers of a country call it and measure it.
struct Named<'a> {
    tin: &'a Tin,
    name: &'a str,
    market: Option<Market>,
}

fn lining(inputs: &Inputs, tin: &Tin, names: &[String]) -> Result<Pattern, String> {
    let name = readers::vessel(&tin.name.value, inputs.market);
    let of_the_tin = Named {
        tin,
        name: &name,
        market: inputs.market,
    };
    let mut pattern = Pattern {
        kind: PatternKind::Lining,
        title: format!("Lining for the {name}"),
        of: for_products(names),
        lengths: Vec::new(),
        parts: Vec::new(),
        steps: Vec::new(),
        notes: Vec::new(),
    };
    let lidded = tin.lidded.as_ref().is_some_and(|lidded| lidded.value);
    let above = if lidded { 0.0 } else { ABOVE_THE_RIM_MM };
    match tin.size.value {
        TinSize::Box {
            length,
            width,
            depth,
        } => {
            let sides = [length, width, depth].map(numerics::quantity::Length::millimetres);
            box_lining(&mut pattern, &of_the_tin, sides, above);
        }
        TinSize::Round { diameter, height } => {
            let (rim, height) = (diameter.millimetres() / 2.0, height.millimetres());
            round::lining(&mut pattern, &of_the_tin, (rim, height), above)?;
        }
        TinSize::Tray { .. } => return Err(format!("The {name} has no walls.")),
    }
    if let Some(hottest) = hottest(inputs, names) {
        pattern.notes.push(format!(
            "It is baked at up to {hottest}. Baking paper bears what its pack states, often \
             220 °C / 430 °F (common practice): read the pack, and keep paper clear of flames and \
             heating rods."
        ));
    }
    Ok(pattern)
}

/// The hottest dial that these products are baked at.
fn hottest(inputs: &Inputs, names: &[String]) -> Option<String> {
    let of_these = |product: &&Product| names.contains(&product.name.value);
    let products = inputs.recipe.products.iter().filter(of_these);
    let dial = products
        .flat_map(|product| &product.steps)
        .flat_map(crate::ledger::cautions::dials)
        .max_by(|a, b| a.order(*b))?;
    Some(readers::dial(dial, inputs.market))
}

/// How far each wall leans in, mm, where the tin's volume tells, and a word on how that was had.
fn lean_said(
    pattern: &mut Pattern,
    Named { tin, market, .. }: &Named,
    height_mm: f64,
    lean_for: impl Fn(f64) -> Option<f64>,
) -> f64 {
    let holds: Option<Volume> = tin.holds.as_ref().map(|holds| holds.value);
    let lean = holds
        .and_then(|holds| lean_for(holds.si() * 1e9))
        .filter(|lean| lean / height_mm <= STEEPEST_LEAN);
    if let Some((lean, holds)) = lean.zip(holds) {
        let mm = super::sizes(&[lean]);
        pattern.notes.push(format!(
            "Walls leaning in by {mm} on each side are worked out from the {} that the tin holds; \
             rounded corners count as lean. Lay the pattern in the tin before you cut the good \
             paper.",
            readers::tin_volume(holds, *market)
        ));
        return lean;
    }
    let why = match holds {
        Some(_) => "the written volume does not tell how far the walls lean",
        None => "the recipe does not say what the tin holds",
    };
    pattern.notes.push(format!(
        "Straight walls are assumed: {why}. If the tin is narrower below, measure its base and \
         trim the pattern to it."
    ));
    0.0
}

/// How the lengths were had.
fn origin(lean: f64) -> Origin {
    if lean > 0.0 {
        let source = "the tin's written size and volume, all walls leaning alike";
        Origin::new(source, Had::Derived)
    } else {
        Origin::new("the tin's written size, straight walls", Had::Derived)
    }
}

fn box_lining(pattern: &mut Pattern, named: &Named, sides: [f64; 3], above: f64) {
    let name = named.name;
    let [rim_length, rim_width, depth] = sides;
    let lean = lean_said(pattern, named, depth, |volume| {
        lean_of_box(rim_length, rim_width, depth, volume)
    });
    let origin = origin(lean);
    let (length, width) = (rim_length - 2.0 * lean, rim_width - 2.0 * lean);
    let wall = slant(depth, lean);
    // With the strip above the rim; the walls go on leaning as they did.
    let out = wall + above;
    let wider = lean * out / wall;
    let (whole_x, whole_y) = (length + 2.0 * out, width + 2.0 * out);
    let place = format!("lining.{name}");
    pattern.lengths = vec![
        fact(&place, "Base", &[length, width], &origin),
        fact(&place, "Walls", &[wall], &origin),
        fact(&place, "Whole sheet", &[whole_x, whole_y], &origin),
    ];
    if above > 0.0 {
        let habit = Origin::new("common practice", Had::CommonPractice);
        let fact = fact(&place, "Above the rim", &[above], &habit);
        pattern.lengths.insert(2, fact);
    }
    let alt = format!(
        "A cross-shaped sheet: a base of {} with four walls folded up from it, four slits and four \
         corner flaps.",
        super::sizes(&[length, width])
    );
    let mut part = Part::new("", alt, whole_x, whole_y);
    let middle: Point = (whole_x / 2.0, whole_y / 2.0);
    let at = |x: f64, y: f64| (middle.0 + x, middle.1 + y);
    let (x, y) = (length / 2.0, width / 2.0);
    // Round the sheet from the top left: ends of the long walls and of the short walls in turn.
    part.closed(
        Line::Cut,
        vec![
            at(-x - wider, -y - out),
            at(x + wider, -y - out),
            at(x + out, -y - wider),
            at(x + out, y + wider),
            at(x + wider, y + out),
            at(-x - wider, y + out),
            at(-x - out, y + wider),
            at(-x - out, -y - wider),
        ],
    );
    part.rectangle(Line::Fold, at(-x, -y), at(x, y));
    for (right, down) in [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)] {
        let corner = at(right * x, down * y);
        let long_wall = at(right * (x + wider), down * (y + out));
        let short_wall = at(right * (x + out), down * (y + wider));
        part.line(Line::Cut, vec![corner, long_wall]);
        part.line(Line::Fold, vec![corner, short_wall]);
    }
    if above > 0.0 {
        for down in [-1.0, 1.0] {
            let y = down * (y + wall);
            part.line(Line::Guide, vec![at(-x - lean, y), at(x + lean, y)]);
        }
        for right in [-1.0, 1.0] {
            let x = right * (x + wall);
            part.line(Line::Guide, vec![at(x, -y - lean), at(x, y + lean)]);
        }
        part.word(at(-x * 0.72, -y - wall - above / 2.0), 8.0, "above the rim");
    }
    part.word(
        at(-x * 0.5, 0.0),
        11.0,
        format!("base, {}", super::sizes(&[length, width])),
    );
    part.word(at(-x * 0.5, -y - wall / 2.0), 9.0, "long wall");
    part.word(at(-x * 0.5, y + wall / 2.0), 9.0, "long wall");
    let mut end = |right: f64| {
        part.word(at(right * (x + wall / 2.0), -y * 0.55), 9.0, "end wall");
    };
    end(-1.0);
    end(1.0);
    pattern.parts = vec![part];
    pattern.steps = vec![
        "Lay the pattern on baking paper and cut along the full lines, the four slits too."
            .to_owned(),
        "Fold up along the dashed lines. The corner flaps go outside, behind the long walls."
            .to_owned(),
        "Grease the tin a little, so that the paper keeps still.".to_owned(),
    ];
}
