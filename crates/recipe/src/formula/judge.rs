//! Whether a formula lies where its kind of bread usually lies, and what would bring it there.

use super::bands::{Band, BandUnit, Measured, band};
use super::contribution::instant_equivalent;
use super::model::{Formula, Resolved};
use super::products::{TinShape, tin_shape};
use crate::document::model::{Action, Kind, Product, Recipe};
use crate::larder::{Ingredient, Role, YeastForm};
use crate::source::{Code, Diagnostic, Span, code};
use numerics::decimal::trimmed;
use numerics::quantity::{Fraction, Mass};

/// Everything that lies outside the bands of the recipe's kind.
///
/// What is left of the dough when all is cut is said where the cutting is checked. The mass after
/// the bake, and sugar with an ordinary yeast, are the editor's to judge; their bands are here.
pub fn judge(formula: &Formula, recipe: &Recipe) -> Vec<Diagnostic> {
    let mut diagnostics = of_the_dough(formula, recipe);
    for (product, written) in formula.products.iter().zip(&recipe.products) {
        if let Some(ml_per_g) = product.tin_ml_per_g {
            diagnostics.extend(of_the_tin(recipe, written, ml_per_g));
        }
    }
    diagnostics
}

/// One quantity of the dough: what it is, how it is said, which figure it needs.
struct Reading {
    measured: Measured,
    what: &'static str,
    mass: Mass,
    of: Mass,
    figure: Option<&'static str>,
    carries: fn(&Ingredient) -> bool,
}

/// Salt, yeast, water, fat, sugar and egg; sugar on water under a yeast for sweet doughs.
fn of_the_dough(formula: &Formula, recipe: &Recipe) -> Vec<Diagnostic> {
    let dough = &formula.dough;
    if dough.flour <= Mass::ZERO || !formula.is_whole() {
        return Vec::new();
    }
    let total = |role: Role| -> Mass {
        let of_role = dough_items(formula).filter(|(ingredient, ..)| ingredient.role == role);
        of_role.map(|(_, mass, _)| mass).sum()
    };
    let reading = |measured, what, mass, figure, carries| Reading {
        measured,
        what,
        mass,
        of: dough.flour,
        figure,
        carries,
    };
    let instant = instant_equivalent(dough.yeast_fresh);
    let salt: fn(&Ingredient) -> bool = |one| one.role == Role::Salt;
    let yeast = |one: &Ingredient| matches!(one.role, Role::Yeast(_));
    let sugar = |one: &Ingredient| one.role == Role::Sugar;
    let mut readings = vec![
        reading(Measured::Salt, "salt", dough.salt, Some("sodium"), salt),
        reading(
            Measured::Yeast,
            "yeast, reckoned as instant,",
            instant,
            None,
            yeast,
        ),
        reading(
            Measured::Water,
            "water in all",
            dough.water,
            Some("water"),
            |one| one.role == Role::Liquid,
        ),
        reading(Measured::Fat, "fat", dough.fat, Some("fat"), |one| {
            one.role == Role::Fat
        }),
        reading(Measured::Sugar, "sugar", dough.sugar, Some("sugars"), sugar),
        reading(Measured::Egg, "egg", total(Role::Egg), None, |one| {
            one.role == Role::Egg
        }),
    ];
    let sweet_yeast = Role::Yeast(YeastForm::InstantOsmotolerant);
    let all_sweet = dough_items(formula)
        .filter(|(ingredient, ..)| yeast(ingredient))
        .all(|(ingredient, ..)| ingredient.role == sweet_yeast);
    if all_sweet && dough.yeast_fresh > Mass::ZERO {
        let measured = Measured::SugarOnWaterSweetYeast;
        let on_flour = reading(measured, "sugar", dough.sugar, Some("sugars"), sugar);
        readings.push(Reading {
            of: dough.water,
            ..on_flour
        });
    }
    readings
        .iter()
        .filter_map(|reading| judge_reading(formula, recipe, reading))
        .collect()
}

/// A reading outside its band, with the masses that would bring it in.
fn judge_reading(formula: &Formula, recipe: &Recipe, reading: &Reading) -> Option<Diagnostic> {
    let unknown = |figure: &str| {
        formula
            .dough
            .unknown
            .iter()
            .any(|(_, name)| *name == figure)
    };
    if reading.of <= Mass::ZERO || reading.figure.is_some_and(unknown) {
        return None;
    }
    let at = heaviest(formula, recipe, reading.carries).unwrap_or(recipe.kind.span);
    let value = reading.mass / reading.of;
    let what = format!("The {}", reading.what);
    let (mut diagnostic, band) = outside(recipe, reading.measured, value, &what, at)?;
    diagnostic = if band.unit == BandUnit::OfWater {
        diagnostic.hint("Take less sugar, or more milk or egg.")
    } else {
        let (end, word) = if value < band.low {
            (band.low, "At least")
        } else {
            (band.high, "At most")
        };
        let wanted = reading.of * end;
        let by = wanted - reading.mass;
        let way = if by > Mass::ZERO { "more" } else { "less" };
        diagnostic.hint(format!(
            "{word} {} in all keeps it inside: {} {way}.",
            grams(wanted),
            grams(by.abs())
        ))
    };
    let fits: Vec<&str> = Kind::ALL
        .into_iter()
        .filter(|kind| *kind != recipe.kind.value)
        .filter(|kind| {
            super::bands::band(*kind, reading.measured).is_some_and(|band| band.holds(value))
        })
        .map(Kind::word)
        .collect();
    if !fits.is_empty() {
        diagnostic = diagnostic.hint(format!(
            "Usual in {} bread: look whether `kind` says what this is.",
            fits.join(" or ")
        ));
    }
    let water = matches!(reading.measured, Measured::Water) && value > band.high;
    if water && let Some(paste) = cooked_with_flour(formula, recipe) {
        diagnostic = diagnostic.hint(format!(
            "What the {paste} binds does not make a dough slack: if yours can be shaped, leave it."
        ));
    }
    let base = if band.unit == BandUnit::OfWater {
        "water"
    } else {
        "flour"
    };
    Some(diagnostic.because(format!(
        "{} on {} of {base}",
        grams(reading.mass),
        grams(reading.of)
    )))
}

/// The name of a stage in which flour is cooked.
fn cooked_with_flour<'a>(formula: &'a Formula, recipe: &Recipe) -> Option<&'a str> {
    let heats = |action: &Action| matches!(action, Action::Heat { .. });
    let mut stages = formula.stages.iter().zip(&recipe.stages);
    let cooked = stages.find(|(sums, written)| {
        sums.holds.flour > Mass::ZERO && written.steps.iter().any(|step| heats(&step.action))
    });
    cooked.map(|(sums, _)| sums.name.as_str())
}

/// A tin too small or too large for its dough.
///
/// With several pieces it is not written whether each has the tin to itself or all lie in one; the
/// reading that fits is believed.
fn of_the_tin(recipe: &Recipe, product: &Product, ml_per_g: f64) -> Option<Diagnostic> {
    let tin = product.tin.as_ref()?;
    let measured = match tin_shape(tin) {
        TinShape::Open => Measured::TinOpen,
        TinShape::Lidded => Measured::TinLidded,
        TinShape::Tall => Measured::TinTall,
        TinShape::Flat => return None,
    };
    let limits = band(recipe.kind.value, measured)?;
    let count = f64::from(product.count.value.max(1));
    let together = ml_per_g / count;
    if limits.holds(ml_per_g) || limits.holds(together) {
        return None;
    }
    let shared = ml_per_g > limits.high * 2.0 && count > 1.0;
    let value = if shared { together } else { ml_per_g };
    let what = format!("{}: the {}", product.name.value, tin.name.value);
    let (diagnostic, band) = outside(recipe, measured, value, &what, tin.span)?;
    let piece = super::products::piece_mass(&product.piece.value);
    let dough = if shared { piece * count } else { piece };
    let volume = value * dough.grams();
    let (least, most) = (volume / band.high, volume / band.low);
    let bread = if value < band.low {
        "runs over the rim"
    } else {
        "stays below the rim"
    };
    Some(
        diagnostic
            .hint(format!(
                "{} want{} {} to {} g of dough.",
                millilitres(volume),
                if shared { " in all" } else { "" },
                trimmed(least, 0),
                trimmed(most, 0)
            ))
            .hint("Fill the tin with water to the brim and weigh it: 1 g is 1 mL.")
            .because(format!(
                "{} for {}: the bread {bread}",
                millilitres(volume),
                grams(dough)
            )),
    )
}

/// A finding when a value lies outside its band.
fn outside(
    recipe: &Recipe,
    measured: Measured,
    value: f64,
    what: &str,
    at: Span,
) -> Option<(Diagnostic, &'static Band)> {
    let band = band(recipe.kind.value, measured)?;
    if !value.is_finite() || band.holds(value) {
        return None;
    }
    let say = |value: f64| trimmed(value * band.unit.scale(), decimals(measured));
    let kind = recipe.kind.value.word();
    let side = if value < band.low { "below" } else { "above" };
    let message = format!(
        "{what} is {} {}, {side} the usual {}–{} {} of {} bread.",
        say(value),
        band.unit.words(),
        say(band.low),
        say(band.high),
        short(band.unit),
        article(kind),
    );
    let diagnostic = Diagnostic::at(code_of(measured)?, at, message)
        .label(recipe.kind.span, format!("judged as {kind}"))
        .because(format!(
            "band from {} ({})",
            band.origin.source,
            band.origin.had.words()
        ));
    Some((diagnostic, band))
}

/// The code of each band that is judged here.
const fn code_of(measured: Measured) -> Option<Code> {
    Some(match measured {
        Measured::Salt => code::SALT_OUTSIDE_BAND,
        Measured::Yeast => code::YEAST_OUTSIDE_BAND,
        Measured::Water => code::WATER_OUTSIDE_BAND,
        Measured::Fat => code::FAT_OUTSIDE_BAND,
        Measured::Sugar => code::SUGAR_OUTSIDE_BAND,
        Measured::SugarOnWaterSweetYeast => code::SUGAR_ON_WATER_HIGH,
        Measured::Egg => code::EGG_OUTSIDE_BAND,
        Measured::TinOpen | Measured::TinLidded | Measured::TinTall => code::TIN_OUTSIDE_BAND,
        Measured::SugarOnWater | Measured::Trim | Measured::BakeLoss => return None,
    })
}

/// Decimals that tell a value from its band: salt and yeast and tins want two.
const fn decimals(measured: Measured) -> usize {
    match measured {
        Measured::Salt
        | Measured::Yeast
        | Measured::TinOpen
        | Measured::TinLidded
        | Measured::TinTall => 2,
        _ => 1,
    }
}

/// The unit alone: after the range the base is known.
const fn short(unit: BandUnit) -> &'static str {
    match unit {
        BandUnit::MillilitresPerGram => "mL/g",
        _ => "%",
    }
}

/// "a lean", "an enriched".
fn article(word: &str) -> String {
    let vowel = word.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {word}", if vowel { "an" } else { "a" })
}

/// Ingredients of the dough with what of them ends in it, and where they are written.
fn dough_items(formula: &Formula) -> impl Iterator<Item = (&Ingredient, Mass, (usize, usize))> {
    let flour = formula.dough.flour;
    formula
        .stages
        .iter()
        .enumerate()
        .filter(|(_, stage)| stage.in_dough)
        .flat_map(move |(place, stage)| {
            stage
                .items
                .iter()
                .enumerate()
                .filter_map(move |(item, resolved)| {
                    let Resolved::Ingredient(ingredient) = &resolved.what else {
                        return None;
                    };
                    let share = resolved.of_flour.map_or(0.0, Fraction::si);
                    Some((&**ingredient, flour * share, (place, item)))
                })
        })
}

/// Where the item stands that weighs most among those that carry a quantity.
fn heaviest(formula: &Formula, recipe: &Recipe, carries: fn(&Ingredient) -> bool) -> Option<Span> {
    let (_, _, (stage, item)) = dough_items(formula)
        .filter(|(ingredient, ..)| carries(ingredient))
        .max_by(|(_, one, _), (_, other, _)| one.order(*other))?;
    Some(recipe.stages.get(stage)?.items.get(item)?.span)
}

fn grams(mass: Mass) -> String {
    format!("{} g", trimmed(mass.grams(), 1))
}

fn millilitres(volume: f64) -> String {
    format!("{} mL", trimmed(volume, 0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formula::samples::{codes, product, recipe, stage, sum};

    #[test]
    fn a_finding_gives_figure_band_source_and_a_way_out() {
        let recipe = recipe(
            Kind::Lean,
            vec![stage(
                "dough",
                &[
                    ("bread flour", 500.0),
                    ("water", 340.0),
                    ("fine salt", 15.0),
                    ("instant yeast", 4.0),
                ],
            )],
            vec![product("loaf", "dough", 1, 850.0)],
        );
        let said = judge(&sum(&recipe).output, &recipe);
        assert_eq!(codes(&said), ["salt-outside-band"]);
        assert_eq!(
            said[0].message,
            "The salt is 3 % of the flour, above the usual 1.4–2.4 % of a lean bread."
        );
        assert_eq!(
            said[0].hints[0],
            "At most 12 g in all keeps it inside: 3 g less."
        );
        assert!(
            said[0]
                .trace
                .iter()
                .any(|line| line.contains("common practice"))
        );
    }

    #[test]
    fn too_much_sugar_for_its_water_is_said_even_with_a_yeast_for_it() {
        let dough = |sugar: f64| {
            let items = [
                ("bread flour", 500.0),
                ("water", 250.0),
                ("unsalted butter", 180.0),
                ("granulated sugar", sugar),
                ("fine salt", 9.0),
                ("egg", 60.0),
                ("high-sugar instant yeast", 6.0),
            ];
            recipe(
                Kind::Rich,
                vec![stage("dough", &items)],
                vec![product("bun", "dough", 12, 90.0)],
            )
        };
        let said = |sugar: f64| codes(&judge(&sum(&dough(sugar)).output, &dough(sugar)));
        assert_eq!(said(130.0), Vec::<&str>::new());
        assert_eq!(said(230.0), ["sugar-outside-band", "sugar-on-water-high"]);
    }
}
