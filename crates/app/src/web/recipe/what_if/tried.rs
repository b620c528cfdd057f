//! A recipe tried otherwise: the kitchen and the recipe with what was turned, and the day in it.

use super::dial::{Dial, Group, Scale, Sets};
use super::dials::{is_yeast, main_flour};
use crate::cli::work::{Made, on_bytes_for};
use crate::web::laid_out::{Laid, LaidOut, Texts};
use bake::kitchen::{Kitchen, changed};
use bake::simulate::{Follows, Grid, How, simulate};
use edit::Inputs;
use edit::ledger::happens::drawn::drawn;
use edit::ledger::happens::{Happens, happens};
use edit::turned;
use edit::variant::{Change, Wish, variant};
use numerics::quantity::{Fraction, Temperature};
use press::figure::Figure;
use recipe::document::KitchenValue;
use recipe::document::model::{Material, Recipe};
use recipe::formula::formula;
use recipe::formula::model::{Formula, Resolved};
use recipe::scale::{To, for_product, read_tin};
use recipe::source::Diagnostic;
use std::collections::BTreeMap;
use std::sync::Arc;

/// What an address asks, by name.
pub type Values = BTreeMap<String, String>;

/// Flours that can be tried, by the names of the larder.
pub const FLOURS: [&str; 6] = [
    "all-purpose flour",
    "bread flour",
    "very strong flour",
    "pastry flour",
    "wholemeal flour",
    "medium rye flour",
];
/// Yeasts that can be tried.
pub const YEASTS: [&str; 4] = [
    "fresh yeast",
    "active dry yeast",
    "instant yeast",
    "osmotolerant instant yeast",
];
/// What tins are made of.
pub const TINS: [Material; 5] = [
    Material::LightMetal,
    Material::DarkMetal,
    Material::Glass,
    Material::Stoneware,
    Material::Silicone,
];

/// What was asked and cannot be, by the name of its field.
pub type Faults = BTreeMap<String, String>;

/// What comes of it.
pub struct Tried {
    /// The day, as it is said.
    pub happens: Happens,
    /// Its figures.
    pub figures: Vec<Figure>,
    /// What is different in the recipe.
    pub changes: Vec<Change>,
    /// What to mind about that.
    pub mind: Vec<String>,
    /// What the day has to say for itself.
    pub said: Vec<Diagnostic>,
}

/// A value that is neither empty nor left as it is.
pub fn asked<'a>(values: &'a Values, name: &str) -> Option<&'a str> {
    values
        .get(name)
        .map(|value| value.trim())
        .filter(|value| !value.is_empty())
}

/// The wishes that change the recipe itself.
fn wishes(made: &Made, values: &Values, faults: &mut Faults) -> Vec<Wish> {
    let mut all = Vec::new();
    if let Some(flour) = asked(values, "flour") {
        match (FLOURS.contains(&flour), main_flour(made)) {
            (true, Some((item, _))) => {
                if item.of.value != flour {
                    all.push(Wish::Instead(format!("{flour} for {}", item.of.value)));
                }
            }
            _ => no_choice(faults, "flour", flour),
        }
    }
    if let Some(yeast) = asked(values, "yeast") {
        if YEASTS.contains(&yeast) {
            let mut yeasts: Vec<String> = made
                .formula
                .every_item()
                .filter(|one| is_yeast(one))
                .filter_map(|one| match &one.what {
                    Resolved::Ingredient(what) => Some(what.name.clone()),
                    _ => None,
                })
                .collect();
            yeasts.dedup();
            yeasts.retain(|own| own != yeast);
            all.extend(
                yeasts
                    .iter()
                    .map(|own| Wish::Instead(format!("{yeast} for {own}"))),
            );
        } else {
            no_choice(faults, "yeast", yeast);
        }
    }
    if let Some(words) = asked(values, "tin") {
        let (product, tin) = for_product(words);
        match read_tin(tin) {
            Ok(tin) => all.push(Wish::Size(recipe::scale::Wish::to(To::Tin {
                product,
                tin,
            }))),
            Err(said) => {
                faults.insert("tin".to_owned(), said);
            }
        }
    }
    all
}

fn no_choice(faults: &mut Faults, name: &str, words: &str) {
    faults.insert(name.to_owned(), format!("“{words}” cannot be chosen here."));
}

/// What is different in a recipe, and what to mind about it.
type Granted = (Vec<Change>, Vec<String>);

/// The recipe with its wishes granted, kept; itself where nothing is wished or a wish is refused.
fn wished(
    shelf: &LaidOut,
    laid: &Arc<Laid>,
    texts: &Texts<'_>,
    wishes: &[Wish],
    faults: &mut Faults,
) -> (Arc<Laid>, Option<Granted>) {
    let Some(made) = laid.work.made.as_ref().filter(|_| !wishes.is_empty()) else {
        return (laid.clone(), None);
    };
    let granted = variant(&made.recipe, &made.larder, &made.kitchen, wishes);
    let Some(granted) = granted.output else {
        for said in granted.diagnostics {
            let hint = said.hints.first().map_or("", String::as_str);
            let words = format!("{} {hint}", said.message).trim().to_owned();
            faults.entry(field_of(wishes, &said)).or_insert(words);
        }
        return (laid.clone(), None);
    };
    let mark = texts.mark(&granted.text);
    let other = shelf.or_made(mark, || {
        let kitchen = texts.kitchen.clone();
        let text = granted.text.as_bytes();
        let work = on_bytes_for(texts.file, text, kitchen, texts.readers);
        // It is the same yeast and the same crumb: what the original's bakes teach holds.
        Laid::like(work, laid)
    });
    (other, Some((granted.changes, granted.said)))
}

/// The field that a refused wish came from.
fn field_of(wishes: &[Wish], said: &Diagnostic) -> String {
    let is_size = |wish: &Wish| matches!(wish, Wish::Size(_));
    let yeast = |wish: &Wish| matches!(wish, Wish::Instead(words) if words.contains("yeast"));
    let field = match wishes {
        [one] if is_size(one) => "tin",
        [one] if yeast(one) => "yeast",
        [_] => "flour",
        _ if said.message.contains("yeast") => "yeast",
        _ if said.message.contains("tin") => "tin",
        _ => "flour",
    };
    field.to_owned()
}

/// What is turned, and which dials cannot be where they were put.
pub fn turned_dials(groups: &[Group], values: &Values, faults: &mut Faults) -> Vec<(Dial, f64)> {
    let mut all = Vec::new();
    for dial in groups.iter().flat_map(|group| &group.dials) {
        match dial.read(values.get(dial.name).map_or("", String::as_str)) {
            Ok(Some(value)) => all.push((dial.clone(), value)),
            Ok(None) => {}
            Err(said) => {
                faults.insert(dial.name.to_owned(), said);
            }
        }
    }
    all
}

/// The kitchen with what is turned in it.
fn kitchen(made: &Made, dials: &[(Dial, f64)], values: &Values, faults: &mut Faults) -> Kitchen {
    let mut kitchen = made.kitchen.clone();
    // Dials stand with the room first: what has the room's temperature goes with it, what is turned stays.
    for (dial, value) in dials {
        match dial.sets {
            Sets::Kitchen(sets) => kitchen = changed(&kitchen, sets(*value)),
            Sets::FlourAt => {
                let at = Temperature::from_celsius(*value);
                kitchen = turned::flour_at(&made.recipe, &made.formula, &kitchen, at);
            }
            _ => {}
        }
    }
    match asked(values, "fan") {
        None => {}
        Some("on") => kitchen = changed(&kitchen, KitchenValue::Fan(true)),
        Some("off") => kitchen = changed(&kitchen, KitchenValue::Fan(false)),
        Some(words) => no_choice(faults, "fan", words),
    }
    kitchen
}

/// The recipe and its sums with what is turned in them.
fn recipe(
    made: &Made,
    dials: &[(Dial, f64)],
    values: &Values,
    faults: &mut Faults,
) -> (Recipe, Formula) {
    let mut recipe = made.recipe.clone();
    let mut sums = None;
    for (dial, value) in dials {
        match dial.sets {
            Sets::ItemAt(stage, place) => {
                turned::goes_in_at(
                    &mut recipe,
                    (stage, place),
                    Temperature::from_celsius(*value),
                );
            }
            Sets::Piece => turned::pieces_of(&mut recipe, Fraction::from_percent(*value)),
            _ => {}
        }
    }
    if let Some(words) = asked(values, "material") {
        match TINS.into_iter().find(|tin| tin.word() == words) {
            Some(material) => turned::tins_of(&mut recipe, material),
            None => no_choice(faults, "material", words),
        }
    }
    for (dial, value) in dials {
        if matches!(dial.sets, Sets::Protein) {
            let base = formula(&recipe, &made.larder).output;
            sums = Some(turned::with_protein(
                &recipe,
                &base,
                Fraction::from_percent(*value),
            ));
        }
    }
    let sums = sums.unwrap_or_else(|| formula(&recipe, &made.larder).output);
    (recipe, sums)
}

/// How finely it is asked.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Asks {
    /// While a dial moves.
    Moving,
    /// At rest.
    AtRest,
}

/// Tries it; none when the recipe has something to mend first.
pub fn tried(
    shelf: &LaidOut,
    laid: &Arc<Laid>,
    texts: &Texts<'_>,
    values: &Values,
    asks: Asks,
    faults: &mut Faults,
) -> Option<Tried> {
    let own = laid.work.made.as_ref().filter(|_| !laid.work.stops())?;
    let wishes = wishes(own, values, faults);
    let (other, granted) = wished(shelf, laid, texts, &wishes, faults);
    // A variant that cannot be worked out leaves the recipe as it is.
    let made = other.work.made.as_ref().unwrap_or(own);
    let groups = super::dials::groups(made, Scale::of(texts.readers));
    let dials = turned_dials(&groups, values, faults);
    let kitchen = kitchen(made, &dials, values, faults);
    let (recipe, formula) = recipe(made, &dials, values, faults);
    let (taught, taught_said) = laid.taught();
    let mut anchor = taught.factors;
    for (dial, value) in &dials {
        if matches!(dial.sets, Sets::Yeast) {
            anchor.vigour *= value / 100.0;
        }
    }
    let how = How {
        follows: match asked(values, "follows") {
            Some("clock") => Follows::Clock,
            _ => Follows::Cue,
        },
        grid: match asks {
            Asks::Moving => Grid::Coarse,
            Asks::AtRest => Grid::Usual,
        },
        anchor,
        ..How::default()
    };
    let day = simulate(&recipe, &formula, &kitchen, &how);
    let mut course = day.output;
    course.anchored = taught.clone();
    let mut inputs = Inputs::new(&recipe, &formula, &made.larder, &kitchen);
    inputs.market = texts.readers;
    let happens = happens(&inputs, &made.ledger, &course, &how);
    // Pieces cut through weigh more than all the rest of the page; they are `bake --figures`'s.
    let figures = press::figure::figures(&drawn(&inputs, &course, &happens))
        .into_iter()
        .filter(|figure| !figure.name.starts_with("cut-"))
        .collect();
    let (changes, mind) = granted.unwrap_or_default();
    let said = taught_said.iter().cloned().chain(day.diagnostics);
    Some(Tried {
        happens,
        figures,
        changes,
        mind,
        said: said.collect(),
    })
}
