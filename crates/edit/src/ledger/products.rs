//! Products as they are printed: pieces, tin, bake, and what is left after it.

use super::model::{Figure, ProductLine};
use super::{figure, readers, say};
use crate::Inputs;
use numerics::quantity::{Duration, Mass, Temperature};
use recipe::document::model::{Action, Part, Product, Recipe, Tin};
use recipe::measure::Market;
use recipe::provenance::{Had, Origin};

/// Every product, in written order.
pub fn lines(inputs: &Inputs) -> Vec<ProductLine> {
    inputs
        .recipe
        .products
        .iter()
        .map(|product| line(inputs, product))
        .collect()
}

/// "1 braid and 10 buns".
pub fn yield_line(recipe: &Recipe) -> String {
    let names: Vec<_> = recipe
        .products
        .iter()
        .map(|product| format!("{}\u{a0}{}", product.count.value, product.name.value))
        .collect();
    say::list(&names)
}

fn written(name: String, value: f64, unit: &'static str, shown: String) -> Figure {
    figure(
        name,
        value,
        unit,
        shown,
        Origin::new("the recipe", Had::Written),
    )
}

/// "3 × 220 g", "48 g + 8 g", "65 g".
pub fn parts(parts: &[Part]) -> String {
    let texts: Vec<_> = parts
        .iter()
        .map(|part| {
            if part.count == 1 {
                say::mass(part.mass)
            } else {
                format!("{} × {}", part.count, say::mass(part.mass))
            }
        })
        .collect();
    texts.join(" + ")
}

/// Dough in one piece.
pub fn piece_mass(product: &Product) -> Mass {
    product
        .piece
        .value
        .iter()
        .map(|part| part.mass * f64::from(part.count))
        .sum()
}

/// How a product is cut: "3 × 220 g", "10 × 65 g", "10 × (48 g + 8 g)".
pub fn cut(product: &Product) -> String {
    let parts = parts(&product.piece.value);
    match product.count.value {
        1 => parts,
        count if product.piece.value.len() == 1 && product.piece.value[0].count == 1 => {
            format!("{count} × {parts}")
        }
        count => format!("{count} × ({parts})"),
    }
}

fn line(inputs: &Inputs, product: &Product) -> ProductLine {
    let place = format!("product.{}", product.name.value);
    let piece = piece_mass(product);
    let one = written(
        format!("{place}.piece"),
        piece.si(),
        Mass::SI,
        say::mass(piece),
    );
    let mut figures = vec![one.clone()];
    let several = product.piece.value.len() > 1 || product.piece.value[0].count > 1;
    let pieces = match (product.count.value, several) {
        (1, false) => format!("1 of {}", one.shown),
        (count, false) => format!("{count} of {} each", one.shown),
        (1, true) => format!("1 of {} ({})", one.shown, parts(&product.piece.value)),
        (count, true) => {
            format!(
                "{count} of {} each ({})",
                one.shown,
                parts(&product.piece.value)
            )
        }
    };
    let filling = inputs
        .formula
        .products
        .iter()
        .find(|sum| sum.name == product.name.value)
        .map(|sum| sum.filling)
        .filter(|filling| *filling > Mass::ZERO);
    let pieces = match filling {
        Some(filling) => {
            let figure = written(
                format!("{place}.filling"),
                filling.si(),
                Mass::SI,
                say::mass(filling),
            );
            let each = if product.count.value > 1 {
                " in each"
            } else {
                ""
            };
            let text = format!("{pieces}, and {} filling{each}", figure.shown);
            figures.push(figure);
            text
        }
        None => pieces,
    };
    let after = product.after_bake.as_ref().map(|after| {
        let mass = written(
            format!("{place}.after-bake"),
            after.value.si(),
            Mass::SI,
            say::mass(after.value),
        );
        let each = if product.count.value > 1 { " each" } else { "" };
        let text = format!("about {}{each}", mass.shown);
        figures.push(mass);
        text
    });
    if let Some(ratio) = inputs
        .formula
        .products
        .iter()
        .find(|sum| sum.name == product.name.value)
        .and_then(|sum| sum.tin_ml_per_g)
    {
        figures.push(figure(
            format!("{place}.tin-per-dough"),
            ratio / 1000.0,
            "m3/kg",
            format!(
                "{}\u{a0}mL per g of dough",
                numerics::decimal::fixed(ratio, 2)
            ),
            Origin::new("tin's volume over dough", Had::Derived),
        ));
    }
    ProductLine {
        name: say::capital(&product.name.value),
        pieces,
        tin: product
            .tin
            .as_ref()
            .map(|vessel| tin(vessel, inputs.market)),
        bake: bake(inputs.market, &place, product, &mut figures),
        after,
        figures,
    }
}

/// "loaf tin, 21.6 × 11.4 × 6.4 cm / 8½ × 4½ × 2½ in, 1420 mL / 6 cups, light metal".
pub fn tin(tin: &Tin, market: Option<Market>) -> String {
    let name = readers::vessel(&tin.name.value, market);
    let mut parts = vec![name, say::tin_size(&tin.size.value)];
    if let Some(holds) = tin
        .holds
        .as_ref()
        .map(|holds| holds.value)
        .or_else(|| round(tin))
    {
        parts.push(format!("holds {}", readers::tin_volume(holds, market)));
    }
    parts.push(tin.material.value.word().to_owned());
    if tin.lidded.as_ref().is_some_and(|lidded| lidded.value) {
        parts.push("with its lid".to_owned());
    }
    parts.join(", ")
}

fn round(tin: &Tin) -> Option<numerics::quantity::Volume> {
    recipe::formula::tin_volume(tin)
}

fn bake(
    market: Option<Market>,
    place: &str,
    product: &Product,
    figures: &mut Vec<Figure>,
) -> Option<String> {
    let phases = product.steps.iter().find_map(|step| match &step.action {
        Action::Bake { phases, .. } => Some(phases),
        _ => None,
    })?;
    let texts: Vec<_> = phases
        .iter()
        .enumerate()
        .map(|(at, phase)| {
            let dial = written(
                format!("{place}.bake.{at}.dial"),
                phase.at.value.si(),
                Temperature::SI,
                readers::dial(phase.at.value, market),
            );
            let usual = phase.timing.usual.value;
            let time = written(
                format!("{place}.bake.{at}.time"),
                usual.si(),
                Duration::SI,
                say::duration(usual),
            );
            let text = format!("{}, {}", dial.shown, time.shown);
            figures.extend([dial, time]);
            text
        })
        .collect();
    Some(texts.join(", then "))
}
